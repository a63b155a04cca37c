"""An exported studio comes back to the last bit; a folder that was touched is refused."""

import csv
import hashlib
import json
import shutil
import sqlite3
import stat
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Final

import pytest

from studio.actions.check_database import check_database
from studio.actions.export_studio import LIST, Exported, export_studio
from studio.actions.exported_folder import is_exported
from studio.actions.import_studio import import_studio
from studio.errors import BadInput, DatabaseTrouble
from studio.storage import migrate
from studio.storage.schema import HEAD, REVISIONS, connect
from studio.storage.shipped import shipped_folder
from studio.storage.table_rows import DERIVED, kept_tables
from studio.storage.unit_of_work import UnitOfWork

pytestmark = pytest.mark.file_only("built with rows by SQL of SQLite")

NOW: Final = datetime(2026, 11, 25, 17, 12, tzinfo=UTC)
LATER: Final = datetime(2026, 12, 1, 9, 0, tzinfo=UTC)
CONTENT: Final = b"CGATS.17\r\n\x00\xff readings of the creek"
ODD: Final = ("", " ", "\\N", "\\", "a,b", 'say "mud"', "two\r\nlines", "tide\x00", "für Schlick °")


def _make_odd(path: Path) -> None:
    """Values that a table of text could lose."""
    with closing(connect(path)) as connection:
        connection.execute("PRAGMA ignore_check_constraints = ON")
        for number, text in enumerate(ODD, start=1):
            connection.execute("UPDATE swatch SET note = ? WHERE id = ?", (text, number))
        connection.execute("UPDATE swatch SET water = 0.1 + 0.2 WHERE id = 1")
        connection.execute("UPDATE swatch SET water = 5e-324 WHERE id = 2")
        connection.execute("UPDATE swatch SET water = 1 WHERE id = 3")
        for name, content in (("../../creek.cgats", CONTENT), ("empty", b""), ("big.tiff", None)):
            digest = hashlib.sha256(content or b"").hexdigest() if content is not None else "a" * 64
            connection.execute(
                "INSERT INTO measurement_file (name, sha256, size, content, read_on) "
                "VALUES (?, ?, ?, ?, '2026-05-04')",
                (name, digest, len(content or b""), content),
            )
        # Keys with gaps, as deleting leaves them.
        connection.execute("DELETE FROM target")
        connection.execute(
            "INSERT INTO target (id, name, lightness, a, b, created_on) "
            "VALUES (70, 'mud', 40, 0, -0.0, '2026-05-04')"
        )


@pytest.fixture
def odd_db(demo_db: Path) -> Path:
    """The demo studio with values that are easily lost."""
    _make_odd(demo_db)
    return demo_db


def _export(path: Path, folder: Path, now: datetime = NOW) -> Exported:
    with UnitOfWork(path) as work:
        return export_studio(work, folder, now)


def _values(path: Path, table: str) -> list[tuple[Any, ...]]:
    """Every value of a table with its type, floats by their bits, in no order of SQLite's own."""
    with closing(sqlite3.connect(path)) as connection:
        names = [row[1] for row in connection.execute(f"PRAGMA table_info({table})")]
        cells = ", ".join(f"{name}, typeof({name})" for name in names)
        rows = connection.execute(f"SELECT {cells} FROM {table}").fetchall()
    return sorted(
        (tuple(c.hex() if isinstance(c, float) else c for c in row) for row in rows), key=repr
    )


@pytest.fixture
def folder(odd_db: Path, tmp_path: Path) -> Path:
    """The odd studio, exported."""
    _export(odd_db, tmp_path / "whole")
    return tmp_path / "whole"


def _files(folder: Path) -> dict[str, bytes]:
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_it_comes_back_to_the_last_bit_and_is_exported_alike(
    odd_db: Path, folder: Path, tmp_path: Path
) -> None:
    # An odd text breaks a rule only where it is empty; those rules are the next test's.
    with closing(connect(odd_db)) as connection:
        connection.execute("UPDATE swatch SET note = NULL WHERE id IN (1, 2)")
    shutil.rmtree(folder)
    _export(odd_db, folder)
    new = tmp_path / "new.sqlite3"
    told: list[str] = []
    counts = import_studio(new, folder, LATER, told.append)
    assert told == [f"started a new studio at {new}"]
    for table in kept_tables():
        assert _values(new, table.name) == _values(odd_db, table.name), table.name
        assert counts[table.name] == len(_values(odd_db, table.name))
    assert check_database(new) == []
    with UnitOfWork(new) as one, UnitOfWork(odd_db) as other:
        assert one.pigments.all() == other.pigments.all()
        assert one.swatches.all() == other.swatches.all()
        assert one.containers.all() == other.containers.all()
    again = tmp_path / "again"
    _export(new, again, LATER)
    first, second = _files(folder), _files(again)
    assert first.keys() == second.keys()
    assert {name for name in first if first[name] != second[name]} == {LIST}
    lists = [json.loads(files[LIST]) for files in (first, second)]
    assert [each.pop("exported_at") for each in lists] == [
        "2026-11-25T17:12:00Z", "2026-12-01T09:00:00Z",
    ]  # fmt: skip
    assert lists[0] == lists[1]


def test_the_folder_says_what_it_holds(folder: Path) -> None:
    about = json.loads((folder / LIST).read_text(encoding="utf-8"))
    assert (about["format"], about["format_version"], about["schema"]) == ("studio export", 1, HEAD)
    assert about["colour"]["illuminant"] == "D50"
    assert about["left_out"] == sorted(DERIVED)
    said = (folder / "README.txt").read_text(encoding="utf-8")
    for entry in about["tables"]:
        content = (folder / entry["file"]).read_bytes()
        assert hashlib.sha256(content).hexdigest() == entry["sha256"]
        assert content.replace(b"\r\n", b"").count(b"\n") == 0  # RFC 4180
        with (folder / entry["file"]).open(encoding="utf-8", newline="") as file:
            header, *rows = csv.reader(file)
        assert len(rows) == entry["rows"]
        assert f"{entry['file']}" in said
        assert all(f"  {column}: " in said for column in header)
    assert max(map(len, said.splitlines())) <= 110


def test_files_are_named_by_their_digest_and_keep_a_harmless_ending(folder: Path) -> None:
    names = sorted(path.name for path in (folder / "files").iterdir())
    picture = hashlib.sha256((shipped_folder("seed_demo") / "files" / "creek.png").read_bytes())
    assert names == sorted(
        [
            f"{picture.hexdigest()}.png",  # the reference of the demo's paintings
            f"{hashlib.sha256(CONTENT).hexdigest()}.cgats",
            hashlib.sha256(b"").hexdigest(),
        ]
    )
    with (folder / "measurement_file.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    names = [row["name"] for row in rows]
    assert names == ["creek.png", "../../creek.cgats", "empty", "big.tiff"]
    assert [row["content"] for row in rows][3] == "\\N"


def test_the_folder_is_of_its_owner_alone(folder: Path) -> None:
    for path in (folder, *folder.rglob("*")):
        assert stat.S_IMODE(path.stat().st_mode) & 0o077 == 0, path


def test_a_folder_that_holds_something_is_left_alone(odd_db: Path, tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "letter.txt").write_text("mine")
    with pytest.raises(BadInput, match="not an empty folder"):
        _export(odd_db, tmp_path / "mine")
    with pytest.raises(BadInput, match="not an empty folder"):
        _export(odd_db, tmp_path / "mine" / "letter.txt")
    (tmp_path / "empty").mkdir()
    assert _export(odd_db, tmp_path / "empty").files == 3
    assert sorted(path.name for path in tmp_path.iterdir()) == ["demo.sqlite3", "empty", "mine"]


def test_an_export_that_fails_leaves_nothing(
    odd_db: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_path: Path) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("studio.actions.export_studio.make_lasting", full)
    with pytest.raises(DatabaseTrouble, match="no space left"):
        _export(odd_db, tmp_path / "whole")
    assert [path.name for path in tmp_path.iterdir()] == ["demo.sqlite3"]


def _rewrite(folder: Path, name: str, change: Callable[[str], str], *, signed: bool = True) -> None:
    """Change a file of the folder, and its digest in the list with it."""
    path = folder / name
    text = path.read_bytes().decode("utf-8")
    changed = change(text)
    assert changed != text
    path.write_bytes(changed.encode("utf-8"))
    if signed:
        old, new = (hashlib.sha256(each.encode("utf-8")).hexdigest() for each in (text, changed))
        listed = (folder / LIST).read_text(encoding="utf-8")
        (folder / LIST).write_text(listed.replace(old, new), encoding="utf-8")


def _listed(old: str, new: str) -> Callable[[Path], None]:
    return lambda folder: _rewrite(
        folder, LIST, lambda text: text.replace(old, new, 1), signed=False
    )


def _cell(name: str, old: str, new: str) -> Callable[[Path], None]:
    return lambda folder: _rewrite(folder, name, lambda text: text.replace(old, new, 1))


def _unsigned(folder: Path) -> None:
    _rewrite(folder, "paint.csv", lambda text: text.replace("tube", "pan"), signed=False)


def _outside(folder: Path) -> None:
    (folder / "paint.csv").rename(folder.parent / "paint.csv")
    (folder / "paint.csv").symlink_to(folder.parent / "paint.csv")


def _files_elsewhere(folder: Path) -> None:
    (folder / "files").rename(folder.parent / "elsewhere")
    (folder / "files").symlink_to(folder.parent / "elsewhere")


def _bomb(folder: Path) -> None:
    (folder / LIST).write_text("[" * 100_000)


FILE: Final = f"files/{hashlib.sha256(CONTENT).hexdigest()}.cgats"

BAD: Final[list[tuple[Callable[[Path], None], str]]] = [
    (_unsigned, "paint.csv was changed since it was exported"),
    (_outside, "paint.csv is a link or no file"),
    (_files_elsewhere, "is a link or no file"),
    (_bomb, "studio.json cannot be read"),
    (lambda folder: (folder / "mix.csv").unlink(), "mix.csv cannot be read: no such file"),
    (_listed('"paint.csv"', '"../paint.csv"'), "lists a table '../paint.csv'"),
    (_listed('"paint.csv"', '"/etc/passwd"'), "lists a table '/etc/passwd'"),
    (_listed(FILE, "files/../../passwd"), "does not lie in files/"),
    (_listed(FILE, f"files/{'0' * 64}"), "cannot be read: no such file"),
    (_listed(f'"{HEAD}"', '"9999"'), "exported by a newer studio (schema 9999)"),
    (_listed('"format_version": 1', '"format_version": 2'), "another form (2)"),
    (_listed('"studio export"', '"tide table"'), "is not the list of an exported studio"),
    (_listed('"tables": [', '"tables": 7, "x": ['), "does not list its tables"),
    (_cell("paint.csv", "code", "kode"), "paint.csv does not begin with id,code"),
    (_cell("paint.csv", "tube", "bucket"), "paint.csv, at or before line"),
    (_cell("swatch.csv", ",flat wash,", ",flat wash,x,"), "swatch.csv, line 2: it has 23 cells"),
    (
        _cell("swatch.csv", "2024-11-05", "2024-11-31"),
        "swatch.csv, line 2: made_on is '2024-11-31'",
    ),
    (_cell("swatch.csv", "\r\n1,S1,1,1,", "\r\n1,S1,999,1,"), "swatch.csv, at or before line"),
    (_cell("measurement_file.csv", FILE, "files/x"), "studio.json lists no such file"),
    (_cell("reading.csv", "0.74,", "0.70,"), "faults, the first: "),
    (_cell("swatch.csv", "39.8", "38.8"), "is searched by another colour"),
]


@pytest.mark.parametrize(("spoil", "said"), BAD)
def test_a_folder_that_is_not_as_it_was_written_is_refused_in_one_sentence(
    demo_db: Path, tmp_path: Path, spoil: Callable[[Path], None], said: str
) -> None:
    with closing(connect(demo_db)) as connection:
        connection.execute(
            "INSERT INTO measurement_file (name, sha256, size, content, read_on) "
            "VALUES ('creek.cgats', ?, ?, ?, '2026-05-04')",
            (hashlib.sha256(CONTENT).hexdigest(), len(CONTENT), CONTENT),
        )
    folder = tmp_path / "whole"
    _export(demo_db, folder)
    spoil(folder)
    beside = sorted(tmp_path.iterdir())
    with pytest.raises(BadInput) as told:
        import_studio(tmp_path / "new.sqlite3", folder, LATER, print)
    assert said in str(told.value)
    assert "\n" not in str(told.value)
    assert sorted(tmp_path.iterdir()) == beside


def test_a_studio_that_holds_something_is_left_as_it_is(
    demo_db: Path, empty_db: Path, tmp_path: Path
) -> None:
    _export(demo_db, tmp_path / "whole")
    before = demo_db.read_bytes()
    with pytest.raises(BadInput, match="holds records already"):
        import_studio(demo_db, tmp_path / "whole", LATER, print)
    assert demo_db.read_bytes() == before
    import_studio(empty_db, tmp_path / "whole", LATER, print)  # the reference of pigments alone
    for table in kept_tables():
        assert _values(empty_db, table.name) == _values(demo_db, table.name)


def test_a_dry_run_tells_and_makes_nothing(demo_db: Path, tmp_path: Path) -> None:
    _export(demo_db, tmp_path / "whole")
    counts = import_studio(tmp_path / "new.sqlite3", tmp_path / "whole", LATER, print, keep=False)
    assert counts["swatch"] == 244
    assert not (tmp_path / "new.sqlite3").exists()


def test_what_an_older_program_exported_is_upgraded(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A folder as the program of the revision before wrote it: its tables, its revision."""
    from studio.actions import export_studio as module
    from studio.storage.table_rows import reflected

    old = tmp_path / "old.sqlite3"
    before = REVISIONS[-2]
    migrate.build(old, before)
    with UnitOfWork(old, write=True) as work:
        tables = kept_tables(reflected(work.connection))
        work.connection.exec_driver_sql(
            "INSERT INTO pigment (ci_name, note) VALUES ('PO999', 'mud')"
        )
        work.commit()
        monkeypatch.setattr(module, "kept_tables", lambda: tables)
        monkeypatch.setattr(module, "HEAD", before)
        export_studio(work, tmp_path / "whole", NOW)
    monkeypatch.undo()
    counts = import_studio(tmp_path / "new.sqlite3", tmp_path / "whole", LATER, print)
    with UnitOfWork(tmp_path / "new.sqlite3") as work:
        pigments = work.pigments.all()
        mud = work.pigments.get("PO999")
    assert mud is not None
    assert mud.note == "mud"
    assert counts["pigment"] == len(pigments) > 200  # the reference of now came along
    assert check_database(tmp_path / "new.sqlite3") == []
    assert is_exported(tmp_path / "whole")
    assert not is_exported(tmp_path)
