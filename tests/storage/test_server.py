"""A studio on a server is held as one in a file is: schema, one writer, upgrade, no half things."""

import re
import shutil
import signal
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Final

import psycopg
import pytest
from sqlalchemy import create_engine, text

from benchmarks.many_writers import begin_studio, write_all
from studio.actions.check_database import check_database
from studio.actions.fault import Fault
from studio.actions.open_studio import create_studio, open_studio, upgrade_shared
from studio.catalogue.paint import PaintFacts
from studio.errors import BadInput, DatabaseTrouble
from studio.storage import migrate, schema, server
from studio.storage.address import Database, ServerAddress
from studio.storage.migrate import build_on_server, upgrade_on_server
from studio.storage.rules import metadata
from studio.storage.schema import HEAD, SchemaState, state_of
from studio.storage.server import connect_server, faults_on, sequences_in_step
from studio.storage.shipped import shipped_folder
from studio.storage.trouble import in_plain_words
from studio.storage.unit_of_work import UnitOfWork
from tests.servers import SERVER, by_hand, drop, fingerprint, maintenance, name_of, new_database

pytestmark = pytest.mark.skipif(SERVER is None, reason="needs a server: .ci/with_server pytest")

MARSH: Final = PaintFacts("MG", "Saltings Colour", "Marsh Green", ("PG7",))

CATALOGUE: Final = {
    "columns": "SELECT table_name, ordinal_position, column_name, data_type, collation_name, "
    "is_nullable FROM information_schema.columns WHERE table_schema = 'public' "
    "AND table_name <> 'alembic_version' ORDER BY 1, 2",
    "rules": "SELECT conrelid::regclass::text, conname, pg_get_constraintdef(oid) "
    "FROM pg_constraint WHERE connamespace = 'public'::regnamespace "
    "AND conrelid <> coalesce(to_regclass('alembic_version'), 0) ORDER BY 1, 2",
    "indexes": "SELECT indexdef FROM pg_indexes WHERE schemaname = 'public' "
    "AND tablename <> 'alembic_version' ORDER BY 1",
    "sequences": "SELECT sequence_name FROM information_schema.sequences ORDER BY 1",
}


def _rows(address: ServerAddress, sql: str) -> list[Any]:
    with by_hand(address) as connection:
        return connection.execute(sql).fetchall()


def _do(address: ServerAddress, *statements: str) -> None:
    with by_hand(address) as connection:
        for statement in statements:
            connection.execute(statement)


@pytest.fixture
def studio_db(empty_db: Database) -> ServerAddress:
    """A new studio on the server."""
    assert isinstance(empty_db, ServerAddress)
    return empty_db


@pytest.fixture
def impatient(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nobody waits for another program's lock."""
    monkeypatch.setitem(server.SETTINGS, "lock_timeout", "10ms")


def _codes(address: ServerAddress) -> list[str]:
    with UnitOfWork(address) as work:
        return [paint.facts.code for paint in work.paints.all()]


@pytest.mark.parametrize("part", CATALOGUE)
def test_the_migrations_build_the_schema_that_the_program_describes(
    studio_db: ServerAddress, server_db: ServerAddress, part: str
) -> None:
    import studio.storage.server_types

    assert studio.storage.server_types
    engine = create_engine("postgresql+psycopg://", creator=lambda: by_hand(server_db))
    with engine.begin() as described:
        metadata.create_all(described)
    engine.dispose()
    found = _rows(studio_db, CATALOGUE[part])
    assert found == _rows(server_db, CATALOGUE[part])
    assert len(found) > 10


def test_every_rule_that_is_not_about_types_stands_on_the_server_too(
    studio_db: ServerAddress,
) -> None:
    held = {name for _, name, _ in _rows(studio_db, CATALOGUE["rules"])}
    named = {
        str(rule.name)
        for table in metadata.tables.values()
        for rule in table.constraints
        if not re.search(r"_is_(a_day|a_moment|whole)$", str(rule.name))
    }
    assert named <= held


def test_text_is_in_the_order_of_its_bytes_whatever_the_server_speaks(
    studio_db: ServerAddress,
) -> None:
    with UnitOfWork(studio_db, write=True) as work:
        for code in ("A1", "A-2", "B", "Ä", "A10"):
            work.paints.add(replace(MARSH, code=code, name=f"Marsh {code}"))
        codes = [paint.facts.code for paint in work.paints.all()]
    assert codes == sorted(codes)
    assert {name for *_, name, _ in _rows(studio_db, CATALOGUE["columns"])} == {"C", None}


def test_an_empty_database_is_a_studio_not_begun(server_db: ServerAddress) -> None:
    assert state_of(server_db) is SchemaState.MISSING
    told: list[str] = []
    now = datetime(2026, 11, 25, tzinfo=UTC)
    with pytest.raises(DatabaseTrouble, match=f"there is no studio at {server_db} yet"):
        open_studio(server_db, write=False, now=now, tell=told.append)
    assert state_of(server_db) is SchemaState.MISSING
    with open_studio(server_db, write=True, now=now, tell=told.append) as work:
        assert len(work.pigments.all()) > 100
    assert told == [f"started a new studio at {server_db}"]
    assert state_of(server_db) is SchemaState.CURRENT
    assert check_database(server_db) == []


def test_a_studio_is_begun_whole_or_not_at_all(server_db: ServerAddress) -> None:
    def fail(work: UnitOfWork) -> None:
        work.paints.add(MARSH)
        msg = "a defect"
        raise RuntimeError(msg)

    with pytest.raises(RuntimeError, match="a defect"):
        create_studio(server_db, fail)
    assert state_of(server_db) is SchemaState.MISSING
    create_studio(server_db)
    assert _codes(server_db) == []


def test_of_two_that_begin_a_studio_one_does_and_the_other_goes_on(
    server_db: ServerAddress,
) -> None:
    begun, told = threading.Event(), list[str]()
    now = datetime(2026, 11, 25, tzinfo=UTC)

    def slow(_work: UnitOfWork) -> None:
        begun.set()
        waiting = "SELECT 1 FROM pg_locks WHERE locktype = 'advisory' AND NOT granted"
        for _ in range(200):
            if _rows(server_db, waiting):
                return
            threading.Event().wait(0.02)

    first = threading.Thread(target=create_studio, args=(server_db, slow))
    first.start()
    assert begun.wait(timeout=60)
    with open_studio(server_db, write=True, now=now, tell=told.append) as work:
        work.paints.add(MARSH)
        work.commit()
    first.join()
    assert told == []
    assert _codes(server_db) == ["MG"]


def _foreign(address: ServerAddress) -> None:
    _do(address, "CREATE TABLE tide (height real)")


def _other_versions(address: ServerAddress) -> None:
    _do(
        address,
        "CREATE TABLE alembic_version (version_num text)",
        f"INSERT INTO alembic_version VALUES ('{HEAD}')",
    )


def _marked_only(address: ServerAddress) -> None:
    _do(
        address,
        "CREATE TABLE alembic_version (version_num text)",
        f"COMMENT ON TABLE alembic_version IS '{server.MARK}'",
    )


@pytest.mark.parametrize("make", [_foreign, _other_versions, _marked_only])
def test_what_is_no_studio_is_named_and_left_as_it_is(
    server_db: ServerAddress, make: Callable[[ServerAddress], None]
) -> None:
    make(server_db)
    before = fingerprint(server_db)
    with pytest.raises(DatabaseTrouble, match=f"{server_db} is not a studio's database"):
        state_of(server_db)
    with pytest.raises(DatabaseTrouble, match="is not a studio's database"):
        create_studio(server_db)
    assert fingerprint(server_db) == before


def test_a_database_of_a_newer_program_is_told_of(studio_db: ServerAddress) -> None:
    _do(studio_db, "UPDATE alembic_version SET version_num = '0815'")
    with pytest.raises(DatabaseTrouble, match=r"newer studio \(schema 0815\).*another one with"):
        state_of(studio_db)


def test_another_encoding_is_told_of() -> None:
    name = f"{name_of(new_database())}_latin"
    maintenance().execute(
        f"CREATE DATABASE {name} TEMPLATE template0 ENCODING 'LATIN1' "
        "LOCALE_PROVIDER libc LOCALE 'C'"
    )
    address = ServerAddress(f"{str(SERVER).rpartition('/')[0]}/{name}")
    with pytest.raises(DatabaseTrouble, match="has the encoding LATIN1; have it made anew"):
        state_of(address)
    drop(address)


REVISION: Final = """
import sqlalchemy as sa
from alembic import op
from studio.storage.rebuild import made_anew

revision = "9999"
down_revision = "{before}"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table("tide", sa.Column("height", sa.Float()))
    with made_anew(op.get_bind(), "mix"):
        op.execute("CREATE TABLE mix_new (LIKE mix INCLUDING CONSTRAINTS INCLUDING COMMENTS)")
        op.execute("CREATE SEQUENCE mix_new_id_seq OWNED BY mix_new.id")
        op.execute("ALTER TABLE mix_new ALTER id SET DEFAULT nextval('mix_new_id_seq')")
        op.execute("ALTER TABLE mix_new ADD CONSTRAINT pk_mix PRIMARY KEY (id)")
        op.execute("ALTER TABLE mix_new ADD CONSTRAINT uq_mix_code UNIQUE (code)")
        op.execute("ALTER TABLE mix_new ADD CONSTRAINT uq_mix_recipe_key UNIQUE (recipe_key)")
        op.execute("INSERT INTO mix_new SELECT * FROM mix")
        op.drop_table("mix")
        op.rename_table("mix_new", "mix")
    {last}
"""


def _add_revision(monkeypatch: pytest.MonkeyPatch, folder: Path, last: str) -> None:
    shutil.copytree(shipped_folder("migrations"), folder / "migrations")
    (folder / "migrations" / "versions" / "9999_next.py").write_text(
        REVISION.format(last=last, before=HEAD), encoding="utf-8"
    )
    monkeypatch.setattr(migrate, "shipped_folder", lambda _name: folder / "migrations")
    for module in (migrate, schema):
        monkeypatch.setattr(module, "HEAD", "9999")
    monkeypatch.setattr(schema, "REVISIONS", (*schema.REVISIONS, "9999"))


def test_an_upgrade_waits_to_be_asked_for_and_keeps_every_row(
    demo_db: Database, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert isinstance(demo_db, ServerAddress)
    catalogue = {part: _rows(demo_db, sql) for part, sql in CATALOGUE.items()}
    with UnitOfWork(demo_db) as work:
        before = work.mixes.all(), work.swatches.all(), work.paints.all()
    _add_revision(monkeypatch, tmp_path, "op.drop_table('tide')")
    told: list[str] = []
    with pytest.raises(DatabaseTrouble, match=r"is of an older studio.*run: studio db upgrade"):
        open_studio(demo_db, write=False, now=datetime.now(UTC), tell=told.append)
    upgrade_shared(demo_db, told.append)
    assert told == [f"upgraded {demo_db}; older programs cannot use it any more"]
    upgrade_shared(demo_db, told.append)
    assert len(told) == 1
    assert state_of(demo_db) is SchemaState.CURRENT
    with UnitOfWork(demo_db, write=True) as work:
        assert (work.mixes.all(), work.swatches.all(), work.paints.all()) == before
        first = before[0][0]
        mix = replace(first, code="M900", recipe=replace(first.recipe, parts=((1, 977), (2, 1))))
        assert work.mixes.add(mix) == before[0][-1].id + 1
    assert {part: _rows(demo_db, sql) for part, sql in CATALOGUE.items()} == catalogue


@pytest.mark.parametrize(
    ("last", "said"),
    [
        ('op.execute("INSERT INTO nowhere VALUES (1)")', "nowhere"),
        ("op.execute(\"UPDATE paint SET code = 'X'\")", "would break a rule"),
        ('op.execute("DELETE FROM mix WHERE id = 3")', "would break a rule"),
    ],
)
def test_an_upgrade_that_fails_half_way_leaves_the_database_as_it_was(
    demo_db: Database, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, last: str, said: str
) -> None:
    assert isinstance(demo_db, ServerAddress)
    before = fingerprint(demo_db), {part: _rows(demo_db, sql) for part, sql in CATALOGUE.items()}
    _add_revision(monkeypatch, tmp_path, last)
    with pytest.raises((DatabaseTrouble, BadInput), match=said):
        upgrade_on_server(demo_db)
    assert before == (
        fingerprint(demo_db),
        {part: _rows(demo_db, sql) for part, sql in CATALOGUE.items()},
    )


@pytest.mark.usefixtures("impatient")
def test_a_reader_sees_one_moment_and_does_not_wait_for_a_writer(studio_db: ServerAddress) -> None:
    with UnitOfWork(studio_db) as reader:
        assert reader.swatches.count() == 0
        with UnitOfWork(studio_db, write=True) as writer:
            writer.paints.add(MARSH)
            assert _codes(studio_db) == []
            writer.commit()
        assert reader.paints.all() == ()
        with pytest.raises(DatabaseTrouble, match="can only be read"), in_plain_words(studio_db):
            reader.paints.add(MARSH)
    assert _codes(studio_db) == ["MG"]


def test_a_writer_that_waited_sees_what_the_one_before_left(studio_db: ServerAddress) -> None:
    found: list[str] = []

    def second() -> None:
        with UnitOfWork(studio_db, write=True) as work:
            found.extend(paint.facts.code for paint in work.paints.all())

    with UnitOfWork(studio_db, write=True) as first:
        thread = threading.Thread(target=second)
        thread.start()
        first.paints.add(MARSH)
        while not _rows(studio_db, "SELECT 1 FROM pg_locks WHERE NOT granted"):
            assert thread.is_alive()
        first.commit()
        first.connection.close()
        thread.join()
    assert found == ["MG"]


@pytest.mark.usefixtures("impatient")
def test_a_reader_may_begin_to_write_when_nobody_else_does(studio_db: ServerAddress) -> None:
    with UnitOfWork(studio_db) as work:
        with (
            UnitOfWork(studio_db, write=True),
            pytest.raises(DatabaseTrouble, match="in use by another program"),
        ):
            work.begin_to_write()
        work.begin_to_write()
        work.paints.add(MARSH)
        work.commit()
    assert _codes(studio_db) == ["MG"]


KILLED: Final = """
import os, signal, sys
from sqlalchemy import text
from studio.storage.address import database_at
from studio.storage.unit_of_work import UnitOfWork

with UnitOfWork(database_at(sys.argv[1]), write=True) as work:
    work.connection.execute(text("SET LOCAL search_path TO public"))
    work.connection.execute(text("DELETE FROM reading"))
    work.connection.execute(text("UPDATE swatch SET lightness = 0, note = 'half done'"))
    os.kill(os.getpid(), signal.SIGKILL)
"""


def test_a_kill_in_the_middle_leaves_the_database_as_it_was(demo_db: Database) -> None:
    before = fingerprint(demo_db)
    done = subprocess.run([sys.executable, "-c", KILLED, str(demo_db)], check=False)
    assert done.returncode == -signal.SIGKILL
    with UnitOfWork(demo_db, write=True) as work:
        assert work.swatches.count() > 200
    assert fingerprint(demo_db) == before


def test_a_server_that_goes_away_in_the_middle_is_told_of(studio_db: ServerAddress) -> None:
    def write() -> None:
        with UnitOfWork(studio_db, write=True) as work:
            work.paints.add(MARSH)
            maintenance().execute(
                "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = %s",
                (name_of(studio_db),),
            )
            work.papers.all()

    with pytest.raises(DatabaseTrouble, match=r"the connection to .* broke off; look whether"):
        write()
    assert _codes(studio_db) == []


def test_a_commit_that_breaks_off_is_told_of(studio_db: ServerAddress) -> None:
    with UnitOfWork(studio_db, write=True) as work:
        work.paints.add(MARSH)
        maintenance().execute(
            "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = %s",
            (name_of(studio_db),),
        )
        with pytest.raises(DatabaseTrouble, match="broke off"):
            work.commit()
    assert _codes(studio_db) == []


def _with(address: ServerAddress, **parts: str) -> ServerAddress:
    """The address with another user, password or database."""
    host = address.text.rpartition("@")[2].rpartition("/")[0]
    name = parts.get("name", name_of(address))
    user = parts.get("user", "studio")
    return ServerAddress(f"postgresql://{user}@{host}/{name}", parts.get("word"))


def test_who_is_not_let_in_is_told_why_and_never_the_password(studio_db: ServerAddress) -> None:
    for wrong, said in (
        (_with(studio_db, word="wet-mud"), "refuses the password"),
        (_with(studio_db, user="nobody", word="wet-mud"), "refuses the password"),
        (_with(studio_db, name="tide"), "there is no database at"),
    ):
        with pytest.raises(DatabaseTrouble, match=said) as caught:
            state_of(wrong)
        assert "wet-mud" not in str(caught.value)
        with pytest.raises(DatabaseTrouble, match=said):
            UnitOfWork(wrong).__enter__()


@pytest.fixture
def visitor(studio_db: ServerAddress) -> Iterator[ServerAddress]:
    """The same studio for a user who may look but not write."""
    role = f"visitor_{name_of(studio_db)}"
    maintenance().execute(f"CREATE ROLE {role} LOGIN PASSWORD 'reed'")
    _do(studio_db, f"GRANT SELECT ON ALL TABLES IN SCHEMA public TO {role}")
    yield _with(studio_db, user=role, word="reed")
    _do(studio_db, f"DROP OWNED BY {role}")
    maintenance().execute(f"DROP ROLE {role}")


def test_a_visitor_may_look_and_is_refused_when_writing(visitor: ServerAddress) -> None:
    def write() -> None:
        with UnitOfWork(visitor, write=True) as work:
            work.paints.add(MARSH)

    assert state_of(visitor) is SchemaState.CURRENT
    assert _codes(visitor) == []
    with pytest.raises(DatabaseTrouble, match="you may not do that in"):
        write()


def test_rows_with_ids_of_their_own_are_followed_by_the_next(studio_db: ServerAddress) -> None:
    with UnitOfWork(studio_db, write=True) as work:
        work.connection.execute(
            text(
                "INSERT INTO public.paint (id, code, maker, name, form, status) "
                "VALUES (70, 'SG', 'Orsel Pans', 'Sea Grey', 'pan', 'in use')"
            )
        )
        sequences_in_step(work.connection)
        assert work.paints.add(MARSH) == 71
        assert work.mixes.all() == ()


def test_a_rule_that_the_server_does_not_hold_is_a_fault(studio_db: ServerAddress) -> None:
    assert faults_on(studio_db) == []
    _do(studio_db, "ALTER TABLE mix ADD CONSTRAINT ck_tide CHECK (code <> 'M0') NOT VALID")
    assert check_database(studio_db) == [
        Fault(
            "the rule ck_tide of mix is not held for every row",
            "the dump that its administrator keeps",
        )
    ]


def test_a_text_with_a_zero_byte_is_refused_in_plain_words(studio_db: ServerAddress) -> None:
    def add() -> None:
        with UnitOfWork(studio_db, write=True) as work:
            work.paints.add(replace(MARSH, note="mud\0"))

    with pytest.raises(BadInput, match="cannot be recorded"):
        add()
    assert _codes(studio_db) == []


def test_settings_in_the_address_go_before_the_programs(studio_db: ServerAddress) -> None:
    named = ServerAddress(f"{studio_db}?options=-c%20lock_timeout%3D7s&application_name=easel")
    with by_hand(named) as connection:
        shown = [
            (connection.execute(f"SHOW {name}").fetchone() or ("",))[0]
            for name in ("lock_timeout", "application_name", "statement_timeout")
        ]
    assert shown == ["7s", "easel", "10min"]


def test_no_second_studio_is_built_over_one(studio_db: ServerAddress) -> None:
    before = fingerprint(studio_db)
    with (
        UnitOfWork(studio_db, write=True) as work,
        pytest.raises(DatabaseTrouble, match=r"there is a studio at .* by now"),
    ):
        build_on_server(work, studio_db)
    assert fingerprint(studio_db) == before


def test_many_write_at_once_and_nothing_is_lost_or_doubled(server_db: ServerAddress) -> None:
    """In full: python benchmarks/many_writers.py, 8 processes x 500 writes."""
    begin_studio(server_db)
    found = write_all(server_db, processes=4, writes=12)
    assert found.whole
    assert found.records == 48


def test_a_connection_is_closed_when_a_writer_is_refused(
    studio_db: ServerAddress, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(server.SETTINGS, "lock_timeout", "10ms")
    opened: list[psycopg.Connection[Any]] = []

    def counted(address: ServerAddress) -> "psycopg.Connection[Any]":
        opened.append(connect_server(address))
        return opened[-1]

    monkeypatch.setattr(server, "connect_server", counted)
    with (
        UnitOfWork(studio_db, write=True),
        pytest.raises(DatabaseTrouble, match="in use by another program"),
    ):
        UnitOfWork(studio_db, write=True).__enter__()
    assert len(opened) == 2
    assert all(connection.closed for connection in opened)
