"""studio backup, restore, export, db check --mend; and places where a studio may lie."""

import json
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Final

import pytest

from studio.storage.schema import connect
from studio.storage.sqlite_file import uses_wal
from tests.cli.conftest import Refuses
from tests.conftest import Run

pytestmark = pytest.mark.file_only("keeping a file")

BROWN: Final = ("paint", "add", "Locker Brown", "--maker", "Orsel Pans")
TABLE: Final = "maker,name,volume_ml\nOrsel Pans,Bilge,2\n"


def _names(run: Run, db: Path) -> set[str]:
    return {paint["name"] for paint in json.loads(run("paint", "list", "--json", db=db).out)}


def _backups(run: Run, db: Path) -> list[dict[str, object]]:
    listed: list[dict[str, object]] = json.loads(run("backup", "list", "--json", db=db).out)
    return listed


def _tamper(path: Path, *statements: str) -> None:
    with closing(connect(path)) as connection:
        connection.execute("PRAGMA ignore_check_constraints = ON")
        for statement in statements:
            connection.execute(statement)


def test_a_backup_is_listed_and_put_back(run: Run, demo_db: Path) -> None:
    assert run("backup", "list", db=demo_db).out.startswith("no backups in")
    made = run("backup", db=demo_db)
    assert (made.status, made.err) == (0, "")
    name = Path(made.out.split(":")[0]).name
    assert run(*BROWN, db=demo_db).status == 0
    assert "Locker Brown" in _names(run, demo_db)
    restored = run("restore", name, "--yes", db=demo_db)
    assert restored.status == 0
    assert restored.out.startswith(f"{demo_db} is as it was in {name}\nwhat was there before")
    assert "Locker Brown" not in _names(run, demo_db)
    by_reason = {each["why"]: each for each in _backups(run, demo_db)}  # of one second, maybe
    assert by_reason.keys() == {None, "before-restore"}
    second = by_reason["before-restore"]
    assert run("restore", str(second["backup"]), "--yes", db=demo_db).status == 0
    assert "Locker Brown" in _names(run, demo_db)
    listed = run("backup", "list", db=demo_db).out.splitlines()
    assert len(listed) == 3
    assert any(line.endswith("-before-restore.sqlite3") for line in listed)
    assert max(map(len, listed)) <= 80


def test_a_backup_may_go_to_another_folder(run: Run, demo_db: Path, tmp_path: Path) -> None:
    stick = tmp_path / "stick"
    assert run("backup", "--to", str(stick), db=demo_db).status == 0
    (kept,) = stick.iterdir()
    assert _backups(run, demo_db) == []
    assert kept.name in run("backup", "list", "--to", str(stick), db=demo_db).out
    new = tmp_path / "new machine" / "studio.sqlite3"
    assert run("restore", str(kept), "--yes", db=new).out == f"{new} is as it was in {kept.name}\n"
    assert _names(run, new) == _names(run, demo_db)


def test_what_is_not_clear_is_refused(run: Run, demo_db: Path, refuses: Refuses) -> None:
    run("backup", db=demo_db)
    run("backup", db=demo_db)
    first, second = (Path(str(each["backup"])).name for each in _backups(run, demo_db))
    assert "there is no backup '1066'" in refuses(4, "restore", "1066", "--yes")
    said = refuses(4, "restore", "demo", "--yes")
    assert first in said
    assert second in said
    assert "add --yes" in refuses(3, "restore", first)


def test_a_studio_that_is_not_there_is_not_backed_up(run: Run, tmp_path: Path) -> None:
    for words in (("backup",), ("export", str(tmp_path / "whole"))):
        outcome = run(*words, db=tmp_path / "gone.sqlite3")
        assert outcome.status == 5
        assert "there is no studio at" in outcome.err
    assert list(tmp_path.iterdir()) == []


def test_an_import_keeps_the_studio_as_it_was(run: Run, demo_db: Path, tmp_path: Path) -> None:
    (tmp_path / "paints.csv").write_text(TABLE)
    assert run("import", str(tmp_path / "paints.csv"), "--dry-run", db=demo_db).err == ""
    outcome = run("import", str(tmp_path / "paints.csv"), db=demo_db)
    (kept,) = _backups(run, demo_db)
    assert kept["why"] == "before-import"
    assert outcome.err == f"studio: the studio as it was is kept at {kept['backup']}\n"
    assert "Bilge" not in _names(run, Path(str(kept["backup"])))


def test_several_commands_are_not_undone_without_a_backup(run: Run, demo_db: Path) -> None:
    for name in ("Locker Brown", "Bilge", "Gunwale"):
        assert run("paint", "add", name, "--maker", "Orsel Pans", db=demo_db).status == 0
    assert run("undo", db=demo_db).status == 0
    assert run("undo", "-n", "2", "--dry-run", db=demo_db).status == 0
    assert _backups(run, demo_db) == []
    undone = run("undo", "-n", "2", db=demo_db)
    assert "the studio as it was is kept at " in undone.err
    assert [each["why"] for each in _backups(run, demo_db)] == ["before-undo"]
    assert run("redo", "-n", "3", db=demo_db).status == 0
    assert {each["why"] for each in _backups(run, demo_db)} == {"before-undo", "before-redo"}


def test_no_import_begins_without_its_backup(run: Run, demo_db: Path, tmp_path: Path) -> None:
    (tmp_path / "paints.csv").write_text(TABLE)
    (tmp_path / "backups").write_text("no folder")
    outcome = run("import", str(tmp_path / "paints.csv"), db=demo_db)
    assert (outcome.status, outcome.err.count("\n")) == (5, 1)
    assert "Bilge" not in _names(run, demo_db)


def test_an_exported_folder_makes_a_studio(run: Run, demo_db: Path, tmp_path: Path) -> None:
    whole, new = str(tmp_path / "whole"), tmp_path / "new.sqlite3"
    assert " rows in " in run("export", whole, db=demo_db).out
    assert "swatch: 244 could be added" in run("import", whole, "--dry-run", db=new).out
    imported = run("import", whole, "--json", db=new)
    assert json.loads(imported.out)["added"]["swatch"] == 244
    assert imported.err == f"studio: started a new studio at {new}\n"
    assert run("swatch", "list", "--json", db=new).out == (
        run("swatch", "list", "--json", db=demo_db).out
    )
    for words in ((whole, whole), (whole, "--as", "paints")):
        assert "import it alone" in run("import", *words, db=tmp_path / "other.sqlite3").err
    again = run("import", whole, db=new)
    assert (again.status, again.err.count("\n")) == (3, 1)


def test_what_is_derived_is_mended_and_what_was_read_is_not(run: Run, demo_db: Path) -> None:
    with closing(connect(demo_db)) as connection:
        before = list(connection.iterdump())
    _tamper(
        demo_db,
        "UPDATE swatch SET a = a + 20, state = 'wet' WHERE code = 'S7'",
        "UPDATE reading SET b = b + 1 WHERE id IN (SELECT max(id) FROM reading "
        "WHERE origin = 'from spectrum' AND swatch_id IS NOT NULL)",
        "UPDATE mix SET recipe_key = 'mud' WHERE code = 'M7'",
        "UPDATE swatch SET paint_marks_low = 0, paint_marks_high = 8 WHERE code = 'S12'",
        "DROP INDEX ix_swatch_mix_id",
    )
    demo_db.chmod(0o644)
    found = run("db", "check", db=demo_db)
    assert found.status == 5
    assert found.out.count("mend it with: studio db check --mend\n") == 7
    mended = run("db", "check", "--mend", db=demo_db)
    assert mended.status == 0, mended.out + mended.err
    assert mended.out.count("mended: ") == 7
    with closing(connect(demo_db)) as connection:
        after = list(connection.iterdump())
    assert sorted(after) == sorted(before)
    assert demo_db.stat().st_mode & 0o777 == 0o600
    assert len(_backups(run, demo_db)) == 1


def test_a_removed_swatch_is_checked_and_mended_too(run: Run, demo_db: Path) -> None:
    assert run("swatch", "remove", "S7", db=demo_db).status == 0
    _tamper(demo_db, "UPDATE swatch SET a = a + 20 WHERE code = 'S7'")
    found = run("db", "check", db=demo_db)
    assert (found.status, found.out.count("swatch S7 is searched by another colour")) == (5, 1)
    mended = run("db", "check", "--mend", db=demo_db)
    assert (mended.status, mended.out.count("mended: ")) == (0, 1)


def test_what_cannot_be_derived_stays_and_names_its_remedy(run: Run, demo_db: Path) -> None:
    _tamper(
        demo_db,
        "DELETE FROM reading WHERE swatch_id = (SELECT id FROM swatch WHERE code = 'S9')",
        "CREATE TABLE tide (height REAL)",
        "INSERT INTO measurement_file (name, sha256, size, content, read_on) "
        f"VALUES ('creek', '{'a' * 64}', 1, x'00', '2026-05-04')",
    )
    outcome = run("db", "check", "--mend", db=demo_db)
    assert outcome.status == 5
    assert "swatch S9 has no reading; mend it with: studio swatch read S9" in outcome.out
    assert "the table tide is none of the studio's; mend it with: studio restore" in outcome.out
    assert "the measurement file creek is not what was recorded" in outcome.out
    assert outcome.err == f"studio: {demo_db} has 3 faults\n"


def test_how_it_is_kept_wants_attention_alone(run: Run, demo_db: Path) -> None:
    demo_db.chmod(0o640)
    outcome = run("db", "check", db=demo_db)
    assert (outcome.status, outcome.err) == (10, "")
    assert outcome.out.startswith("others on this machine may read it; mend it with: ")


def test_a_synchronised_folder_is_warned_of_once_a_day_when_something_is_recorded(
    run: Run, demo_db: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    folder = tmp_path / "Nextcloud"
    folder.mkdir()
    db = Path(shutil.copy(demo_db, folder / "studio.sqlite3"))
    assert run("paint", "list", db=db).err == ""
    first = run(*BROWN, db=db)
    assert first.err.startswith(f"studio: {db} lies in a folder that is synchronised ({folder})")
    assert first.err.count("\n") == 1
    assert not uses_wal(db)
    assert run("paint", "add", "Bilge", "--maker", "Orsel Pans", db=db).err == ""
    checked = run("db", "check", db=db)
    assert checked.status == 10
    assert "it lies in a folder that is synchronised" in checked.out
    moved = db.rename(tmp_path / "studio.sqlite3")
    assert run(*BROWN[:2], "Sea Grey", *BROWN[3:], db=moved).err == ""
    assert uses_wal(moved)


@pytest.fixture
def disc(demo_db: Path, tmp_path: Path) -> Iterator[Path]:
    """The demo studio in a folder that cannot be written, even by the system's own user."""
    folder = tmp_path / "disc"
    folder.mkdir()
    shutil.copy(demo_db, folder / "studio.sqlite3")
    mount = shutil.which("mount") or ""
    bind = [mount, "--bind", str(folder), str(folder)]
    if not mount or subprocess.run(bind, check=False).returncode:
        pytest.skip("nothing can be mounted here")
    subprocess.run([mount, "-o", "remount,ro,bind", str(folder)], check=True)
    yield folder / "studio.sqlite3"
    subprocess.run([shutil.which("umount") or "", str(folder)], check=True)


def test_a_studio_that_cannot_be_written_can_be_looked_at(
    run: Run, demo_db: Path, disc: Path, tmp_path: Path
) -> None:
    assert uses_wal(disc)
    for words in (("match", "#767d63"), ("paint", "show", "FU"), ("swatch", "list")):
        assert run(*words, db=disc).out == run(*words, db=demo_db).out
    writing: tuple[tuple[str, ...], ...] = (BROWN, ("stock", "use", "FU", "1"))
    for recording in writing:
        outcome = run(*recording, db=disc)
        assert (outcome.status, outcome.out) == (5, "")
        assert f"{disc} cannot be written" in outcome.err
        assert outcome.err.count("\n") == 1
    assert run("export", str(tmp_path / "whole"), db=disc).status == 0
    assert run("backup", "--to", str(tmp_path / "stick"), db=disc).status == 0
    assert run("backup", db=disc).status == 5
    assert list(disc.parent.iterdir()) == [disc]
