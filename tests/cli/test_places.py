"""Which database a command works on: --demo before --db before STUDIO_DB before the data folder."""

import json
import os
import re
import stat
import sys
from pathlib import Path

import pytest

from studio.cli.app import COMMANDS
from studio.sheets.writing import write_text
from tests.conftest import Run


def _where(run: Run, *words: str) -> tuple[Path, bool]:
    found = json.loads(run(*words, "db", "where", "--json").out)
    return Path(found["path"]), bool(found["exists"])


def test_the_usual_place_is_in_the_data_folder(run: Run, data_home: Path) -> None:
    assert _where(run) == (data_home / "painters-studio" / "studio.sqlite3", False)


def test_db_names_another_place_before_the_variable(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("STUDIO_DB", str(tmp_path / "by variable"))
    assert _where(run)[0] == tmp_path / "by variable"
    assert _where(run, "--db", str(tmp_path / "by option"))[0] == tmp_path / "by option"


def test_demo_wins_over_both(
    run: Run, data_home: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("STUDIO_DB", str(tmp_path / "by variable"))
    demo = data_home / "painters-studio" / "demo" / "studio.sqlite3"
    assert _where(run, "--demo")[0] == demo
    assert _where(run, "--demo", "--db", str(tmp_path / "by option"))[0] == demo


def test_asking_where_creates_nothing_and_says_how_it_begins(run: Run, data_home: Path) -> None:
    outcome = run("db", "where")
    assert outcome.status == 0
    assert outcome.out == f"{data_home / 'painters-studio' / 'studio.sqlite3'}\n"
    assert "not there yet" in outcome.err
    assert not data_home.exists()


def test_the_demo_studio_is_built_once_and_kept_apart(run: Run, data_home: Path) -> None:
    first = run("demo")
    steps = re.findall(rf"studio (?:{'|'.join(COMMANDS)}) ?[a-z]*", first.out)
    assert steps == ["studio paint add"]  # the owner's own; all else goes to the demo
    demo = data_home / "painters-studio" / "demo" / "studio.sqlite3"
    assert (first.status, first.err) == (
        0,
        (
            "studio: building the demo studio, a few seconds once\n"
            f"studio: built the demo studio at {demo}\n"
        ),
    )
    assert "24 paints, 4 papers, 76 mixes, 244 swatches" in " ".join(first.out.split())
    assert 'match "#767d63"' in first.out
    before = demo.read_bytes()
    second = run("demo")
    assert (second.out, second.err) == (first.out, "")
    assert demo.read_bytes() == before
    assert not (data_home / "painters-studio" / "studio.sqlite3").exists()


def test_a_demo_that_was_changed_comes_back_fresh(run: Run) -> None:
    run("--demo", "mix", "edit", "M38", "--name", "mud")
    assert "mud" in run("--demo", "mix", "show", "M38").out
    run("demo")
    assert "mud" in run("--demo", "mix", "show", "M38").out
    assert run("demo", "--fresh").status == 0
    assert "salt marsh turf" in run("--demo", "mix", "show", "M38").out


def test_a_command_in_the_demo_builds_it_first(run: Run, data_home: Path) -> None:
    assert run("--demo", "mix", "show", "M38").out.startswith("M38  salt marsh turf\n")
    assert sorted(path.name for path in (data_home / "painters-studio").iterdir()) == ["demo"]


def test_databases_are_readable_by_their_owner_alone(run: Run, data_home: Path) -> None:
    run("paint", "add", "Quay Blue", "--maker", "Orsel Pans")
    path = data_home / "painters-studio" / "studio.sqlite3"
    assert path.stat().st_mode & 0o777 == 0o600


@pytest.mark.skipif(sys.platform == "win32", reason="permissions of POSIX")
@pytest.mark.parametrize("mode", [0o600, 0o640, 0o444])
def test_a_page_keeps_who_may_read_the_file_it_replaces(mode: int, tmp_path: Path) -> None:
    page = tmp_path / "care.html"
    old = os.umask(0o022)
    try:
        write_text(page, "tide")
        assert stat.S_IMODE(page.stat().st_mode) == 0o644
        page.chmod(mode)
        write_text(page, "ebb")
    finally:
        os.umask(old)
    assert stat.S_IMODE(page.stat().st_mode) == mode
    assert page.read_text(encoding="utf-8") == "ebb"
    assert list(tmp_path.iterdir()) == [page]
