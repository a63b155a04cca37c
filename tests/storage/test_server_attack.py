"""What another role of the server puts beside a studio is never called, asked or written to."""

import os
from collections.abc import Iterator
from typing import Final

import psycopg
import pytest

from studio.actions.check_database import check_database
from studio.actions.open_studio import create_studio
from studio.catalogue.paint import PaintFacts
from studio.errors import DatabaseTrouble
from studio.storage.address import Database, ServerAddress
from studio.storage.schema import SchemaState, state_of
from studio.storage.server import connect_server, sequences_in_step
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import Run
from tests.servers import SERVER, by_hand, maintenance

pytestmark = pytest.mark.skipif(SERVER is None, reason="needs a server: .ci/with_server pytest")

STRANGER: Final = f"stranger_{os.environ.get('PYTEST_XDIST_WORKER', 'alone')}"
"""A role belongs to all databases of a server, and others test on it at the same time."""

ACT: Final = "BEGIN INSERT INTO public.caught VALUES (current_user, '{name}'); {rest} END"
"""What a function of the stranger's does with the rights of whoever calls it."""

FUNCTIONS: Final = {
    # (name, arguments): what it gives back, in SQL
    "pg_advisory_xact_lock(integer)": "void",
    "pg_advisory_xact_lock(smallint)": "void",
    "pg_advisory_xact_lock(numeric)": "void",
    "setval(text, bigint, boolean)": "bigint",
    "coalesce_(bigint, integer)": "bigint",
    "round(real)": "real",
    "length(varchar)": "integer",
    "substr(varchar, integer)": "text",
    "substr(varchar, integer, integer)": "text",
    "upper(varchar)": "text",
    "max_(text)": "text",
    "to_regnamespace(text)": "regnamespace",
    "quote_ident(varchar)": "text",
    "current_schemas(integer)": "name[]",
    "obj_description(integer, varchar)": "text",
    "pg_get_serial_sequence(varchar, varchar)": "text",
    "same_text(text, varchar)": "boolean",
    "same_number(integer, smallint)": "boolean",
}


@pytest.fixture
def stranger() -> str:
    """A role with a login that may create where everybody may."""
    administrator = maintenance()
    administrator.execute(f"DROP ROLE IF EXISTS {STRANGER}")
    administrator.execute(f"CREATE ROLE {STRANGER} LOGIN PASSWORD 'eel'")
    return STRANGER


def _as_stranger(address: ServerAddress) -> "psycopg.Connection[tuple[object, ...]]":
    connection = by_hand(address)
    connection.execute(f"SET SESSION AUTHORIZATION {STRANGER}")
    connection.commit()
    return connection


def _lay_out(address: ServerAddress, schema: str) -> None:
    """The stranger's functions, operators and tables in a schema."""
    with _as_stranger(address) as connection:
        connection.execute("CREATE TABLE IF NOT EXISTS public.caught (who text, what text)")
        connection.execute("GRANT ALL ON public.caught TO PUBLIC")
        for signature, result in FUNCTIONS.items():
            rest = {"void": "RETURN;"}.get(result, f"RETURN NULL::{result};")
            body = ACT.format(name=signature, rest=rest)
            connection.execute(
                f"CREATE FUNCTION {schema}.{signature} RETURNS {result} LANGUAGE plpgsql "
                f"AS $act${body}$act$".encode()
            )
        for left, right, function in (
            ("text", "varchar", "same_text"),
            ("integer", "smallint", "same_number"),
        ):
            for sign in ("=", "<>", "~"):
                connection.execute(
                    f"CREATE OPERATOR {schema}.{sign} (LEFTARG = {left}, RIGHTARG = {right}, "
                    f"FUNCTION = {schema}.{function})".encode()
                )


def _caught(address: ServerAddress) -> list[tuple[object, ...]]:
    with by_hand(address) as connection:
        return connection.execute("SELECT * FROM public.caught").fetchall()


def _allow(address: ServerAddress, *statements: str) -> None:
    with by_hand(address) as connection:
        for statement in statements:
            connection.execute(statement.encode())


def _drop_all(address: ServerAddress) -> None:
    with by_hand(address) as connection:
        connection.execute(f"DROP OWNED BY {STRANGER} CASCADE")
    maintenance().execute(f"DROP ROLE {STRANGER}")


@pytest.fixture
def attacked(empty_db: Database, stranger: str) -> Iterator[ServerAddress]:
    """A studio beside which a stranger laid out all that might be taken for the server's own."""
    assert isinstance(empty_db, ServerAddress)
    _allow(
        empty_db,
        f"GRANT CREATE ON SCHEMA public TO {stranger}",
        f"CREATE SCHEMA studio AUTHORIZATION {stranger}",  # named after the role that tests are
    )
    _lay_out(empty_db, "public")
    _lay_out(empty_db, "studio")
    with _as_stranger(empty_db) as connection:
        connection.execute("CREATE TABLE studio.alembic_version AS TABLE public.caught")
        connection.execute("CREATE TABLE studio.paint (id serial, code text, name text)")
        connection.execute("GRANT ALL ON ALL TABLES IN SCHEMA studio TO PUBLIC")
        connection.execute("GRANT USAGE ON SCHEMA studio TO PUBLIC")
    yield empty_db
    _drop_all(empty_db)


def test_the_attack_would_work_on_who_does_not_name_schemas(attacked: ServerAddress) -> None:
    with by_hand(attacked) as connection:
        assert connection.execute("SELECT current_schema()").fetchone() == ("studio",)
        connection.execute("SELECT pg_advisory_xact_lock(7)")
        connection.execute("SELECT 'a'::text = 'a'::varchar")
    assert {str(what) for _, what in _caught(attacked)} == {
        "pg_advisory_xact_lock(integer)",
        "same_text(text, varchar)",
    }


def test_no_command_calls_anything_of_the_strangers(attacked: ServerAddress, run: Run) -> None:
    lines = (
        ("paper", "add", "Slipway Rag", "--maker", "Eddering Mill"),
        ("paint", "add", "Cobalt", "--maker", "Orsel Pans", "--code", "CT", "-p", "PB28"),
        ("paint", "add", "Burnt Sienna", "--maker", "Orsel Pans", "--code", "BS", "-p", "PBr7"),
        ("stock", "buy", "CT", "14"),
        ("swatch", "log", "1 CT", "--paper", "SR", "--lab", "38,2.5,-41"),
        ("swatch", "log", "2 CT + 1 BS", "--paper", "SR", "--lab", "41,-2,-12"),
        ("match", "#5f6f8d"),
        ("match", "#5f6f8d", "--with", "CT"),
        ("swatch", "list"),
        ("target", "add", "wet mud", "lab(50 1 -9)"),
        ("paint", "edit", "CT", "--note", "tide"),
        ("history",),
        ("undo",),
        ("redo",),
        ("check",),
        ("db", "where"),
        ("db", "check"),
    )
    for words in lines:
        outcome = run(*words, db=attacked)
        assert outcome.status in {0, 10}, (words, outcome.err)
    with UnitOfWork(attacked, write=True, in_history=False) as work:
        sequences_in_step(work.connection)
        work.commit()
    assert check_database(attacked) == []
    assert _caught(attacked) == []
    with by_hand(attacked) as connection:
        assert connection.execute("SELECT count(*) FROM studio.paint").fetchone() == (0,)
        assert connection.execute("SELECT count(*) FROM public.paint").fetchone() == (2,)


def test_an_import_of_many_rows_calls_nothing_either(
    attacked: ServerAddress, run: Run, demo_db: Database, tmp_path: object
) -> None:
    whole = f"{tmp_path}/whole"
    assert run("export", whole, db=demo_db).status == 0
    assert run("import", whole, db=attacked).status == 0
    assert _caught(attacked) == []
    assert check_database(attacked) == []


def test_no_studio_is_begun_among_functions_of_others(
    server_db: ServerAddress, stranger: str
) -> None:
    _allow(server_db, f"GRANT CREATE ON SCHEMA public TO {stranger}")
    with _as_stranger(server_db) as connection:
        connection.execute(
            "CREATE FUNCTION public.length(varchar) RETURNS integer LANGUAGE sql AS 'SELECT 1'"
        )
    said = f"the role {STRANGER} has put functions, .* run: REVOKE CREATE ON SCHEMA public"
    with pytest.raises(DatabaseTrouble, match=said):
        create_studio(server_db)
    assert state_of(server_db) is SchemaState.MISSING
    _drop_all(server_db)
    create_studio(server_db)
    assert check_database(server_db) == []


def test_a_schema_named_after_the_user_counts_where_it_is_theirs(server_db: ServerAddress) -> None:
    _allow(server_db, "CREATE SCHEMA studio")
    create_studio(server_db)
    with UnitOfWork(server_db, write=True) as work:
        work.paints.add(PaintFacts("MG", "Saltings Colour", "Marsh Green", ("PG7",)))
        work.commit()
    with connect_server(server_db) as connection:
        assert connection.execute("SELECT count(*) FROM studio.paint").fetchone() == (1,)
        assert connection.execute("SHOW search_path").fetchone() == ("pg_catalog, pg_temp",)
    assert check_database(server_db) == []
    assert state_of(server_db) is SchemaState.CURRENT
