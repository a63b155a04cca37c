"""studio undo, redo and history: what they do, say and refuse."""

import json
from datetime import datetime
from pathlib import Path

import pytest

from studio.sheets.history_view import moment_text
from tests.cli.conftest import Does, Refuses
from tests.conftest import Run
from tests.servers import execute, fingerprint
from tests.storage.test_history import dump

SWATCH = ("swatch", "log", "2 FU + 1 BS", "--lab", "41,2,-12", "--water", "3:1")


@pytest.fixture
def story(shelf: Does) -> Does:
    """A swatch that was logged, read, corrected, removed and restored."""
    shelf(*SWATCH)
    shelf("swatch", "read", "S1", "--lab", "43,2,-12")
    shelf("swatch", "edit", "S1", "--kept", "box 1")
    shelf("swatch", "remove", "S1", "--because", "smudged")
    shelf("swatch", "restore", "S1")
    return shelf


def _words(text: str) -> str:
    return " ".join(text.split())


def test_the_history_of_a_swatch_tells_its_story_in_painters_words(story: Does) -> None:
    told = _words(story("history", "s1").out)
    parts = [
        "swatch log '2 FU + 1 BS' --lab 41,2,-12 --water 3:1",
        "S1 added: L* 42.0 a* 2.0 b* −12.0, M1, SR, water 3, layers 1, flat wash, dry".replace(
            "42.0", "41.0"
        ),
        "reading of S1 added: L* 41.0 a* 2.0 b* −12.0, dry, colorimeter",
        "swatch read S1 --lab 43,2,-12",
        "S1: L*: 41 → 42",
        "swatch edit S1 --kept 'box 1'",
        "S1: card: nothing → box 1",
        "swatch remove S1 --because smudged",
        "removed because: nothing → smudged",
        "swatch restore S1",
        "removed because: smudged → nothing",
    ]
    places = [told.find(part) for part in parts]
    assert -1 not in places, parts[places.index(-1)]
    assert places == sorted(places)


def test_the_last_commands_are_listed_newest_first_with_what_they_changed(story: Does) -> None:
    lines = [line.strip() for line in story("history", "-n", "4").out.splitlines()]
    assert lines[1::3] == [
        "swatch restore S1",
        "swatch remove S1 --because smudged",
        "swatch edit S1 --kept 'box 1'",
        "swatch read S1 --lab 43,2,-12",
    ]
    assert lines[2::3] == [*["1 swatch changed"] * 3, "1 reading added, 1 swatch changed"]
    told = json.loads(story("history", "--json").out)
    assert told[-1]["words"].startswith("paint add 'French Ultramarine'")
    assert len(told) == 8


def test_times_are_kept_in_utc_and_told_in_local_time(story: Does) -> None:
    first = json.loads(story("history", "-n", "1", "--json").out)[0]
    moment = datetime.fromisoformat(first["happened_at"])
    assert first["happened_at"].endswith("Z")
    assert story("history", "-n", "1").out.startswith(f"{moment_text(moment)}  {first['who']}\n")


def test_everything_is_undone_to_the_empty_studio_and_redone(
    story: Does, empty_db: Path, empty_template: Path
) -> None:
    end = dump(empty_db)
    out = story("undo", "--count", "8").out
    assert out.count("took back: ") == 8
    assert "S1 and M1 are gone from the list; their codes will be used again" in out
    assert dump(empty_db) == dump(empty_template)
    assert story("redo", "--count", "8").out.count("repeated: ") == 8
    assert dump(empty_db) == end


def test_undo_tells_what_it_did_and_the_history_knows(shelf: Does) -> None:
    shelf(*SWATCH)
    out = shelf("undo").out
    assert out.startswith("took back: swatch log '2 FU + 1 BS' --lab 41,2,-12 --water 3:1 (")
    assert shelf("swatch", "list").out == "Nothing on record to list.\n"
    told = _words(shelf("history", "-n", "2").out)
    assert "undo: took back swatch log '2 FU + 1 BS'" in told
    assert ", undone swatch log" in told
    gone = _words(shelf("history", "S1").out)
    assert "S1 taken out: L* 41.0" in gone
    out = shelf("redo").out
    assert out.startswith("repeated: swatch log")
    assert "S1 and M1 are on the list again" in out or "on the list again" in out
    assert "redo: repeated swatch log" in _words(shelf("history", "S1").out)


def test_what_a_repeated_command_changed_is_changed_again(shelf: Does) -> None:
    """Only an undo brings a record back to what it was before."""
    shelf(*SWATCH)
    shelf("swatch", "edit", "S1", "--kept", "box 1")
    assert "S1 is as it was before" in _words(shelf("undo").out)
    told = _words(shelf("redo").out)
    assert told.endswith("S1 is changed again")
    assert "as it was before" not in told


def test_an_undone_code_is_used_again(shelf: Does) -> None:
    shelf(*SWATCH)
    shelf("undo")
    assert shelf("swatch", "log", "FU", "--lab", "30,2,-40").out.startswith("S1 ")
    shelf("swatch", "remove", "S1")
    assert shelf("swatch", "log", "FU", "--lab", "35,2,-40").out.startswith("S2 ")


def test_a_dry_run_tells_the_same_and_changes_nothing(story: Does, empty_db: Path) -> None:
    before = fingerprint(empty_db)
    out = story("undo", "-n", "2", "--dry-run").out
    assert fingerprint(empty_db) == before
    assert story("undo", "-n", "2").out == out.replace("would take back", "took back")
    before = fingerprint(empty_db)
    out = story("redo", "--dry-run").out
    assert fingerprint(empty_db) == before
    assert story("redo").out == out.replace("would repeat", "repeated")
    result = json.loads(story("undo", "--dry-run", "--json").out)
    assert (result[0]["kept"], result[0]["did"]) == (False, "undo")


def test_ledger_entries_fade_tests_targets_and_papers_have_their_story(shelf: Does) -> None:
    shelf("stock", "weigh", "FU-1", "25.2", "--as", "full")
    shelf("fade", "start", "FU", "--place", "south window", "--on", "2026-03-01")
    shelf(
        "fade", "read", "F1", "--covered", "41,2,-32", "--exposed", "43,2,-29",
        "--on", "2026-05-01",
    )  # fmt: skip
    shelf("target", "add", "wet mud", "#5b5f6e")
    shelf("paper", "edit", "SR", "--note", "buckles")
    shelf("mix", "add", "FU + BS", "--name", "slate")
    assert "entry of FU-1 added: weighed" in shelf("history", "FU-1").out
    of_paint = shelf("history", "ultramarine").out
    assert "entry of FU-1 added: bought, amount 14" in of_paint
    assert of_paint.count("FU-1 added: tube") == 1
    assert "reading of F1 added" in shelf("history", "F1").out
    assert '"wet mud"' not in shelf("history", "wet mud").out
    assert "wet mud added" in shelf("history", "wet mud").out
    assert "SR: note: nothing → buckles" in shelf("history", "slipway").out
    assert "M1 added: slate" in shelf("history", "slate").out
    assert "M1 added: slate" in shelf("history", "M1").out
    shelf("undo", "--count", "6")
    assert "No command on record" in shelf("history", "PB29").out


def test_what_stands_before_the_command_is_not_kept(run: Run, shelf: Does, empty_db: Path) -> None:
    del shelf
    outcome = run("--traceback", "paint", "edit", "FU", "--note", "tide's mark", db=empty_db)
    assert outcome.status == 0
    told = json.loads(run("history", "-n", "1", "--json", db=empty_db).out)
    assert told[0]["words"] == "paint edit FU --note 'tide'\"'\"'s mark'"


def test_an_import_is_one_command_and_is_undone_whole(
    shelf: Does, empty_db: Path, tmp_path: Path
) -> None:
    before = dump(empty_db)
    rows = [f"SR,2026-03-{day:02},{day} FU + 1 BS,{20 + day},1,-{day}.25" for day in range(1, 28)]
    table = tmp_path / "swatches.csv"
    header = "paper,made_on,recipe,lab_l,lab_a,lab_b"
    table.write_text("\n".join([header, *rows, "SR,2026-03-01,9 XX,20,1,1"]))
    with pytest.raises(AssertionError, match="line 29"):
        shelf("import", str(table))
    counts = json.loads(shelf("history", "-n", "1", "--json").out)[0]["counts"]
    assert {each["table"]: each["added"] for each in counts} == {
        "mix": 27, "mix_component": 54, "swatch": 27, "reading": 27,
    }  # fmt: skip
    out = _words(shelf("undo").out)
    assert "and 48 more are gone from the list" in out
    assert dump(empty_db) == before


def test_a_strict_or_dry_import_leaves_no_trace(
    shelf: Does, run: Run, empty_db: Path, tmp_path: Path
) -> None:
    table = tmp_path / "paints.csv"
    table.write_text("maker,name,volume_ml\nOrsel Pans,Locker Brown,2\nOrsel Pans,Bilge,-1\n")
    count = len(json.loads(shelf("history", "--json").out))
    run("import", str(table), "--strict", db=empty_db)
    run("import", str(table), "--dry-run", db=empty_db)
    assert len(json.loads(shelf("history", "--json").out)) == count


def test_nothing_to_undo_or_redo_is_said_in_one_sentence(refuses: Refuses) -> None:
    said = refuses(3, "undo")
    assert said.startswith("there is nothing to undo: ")
    assert refuses(3, "undo", "--dry-run", "--json") == said
    assert refuses(3, "redo") == "there is nothing to redo: no command was undone"
    assert "how many commands must be at least 1" in refuses(3, "undo", "--count", "0")
    assert "how many must be at least 1" in refuses(3, "history", "-n", "0")
    assert refuses(4, "history", "S999").startswith("nothing is called 'S999'; give the code of")


def test_more_than_there_is_is_refused(refuses: Refuses, run: Run, demo_db: Path) -> None:
    run("paint", "edit", "FU", "--note", "a", db=demo_db)
    assert refuses(3, "undo", "-n", "2") == (
        "only 1 command can be undone, not 2; see: studio history"
    )
    run("undo", db=demo_db)
    assert refuses(3, "redo", "-n", "2") == (
        "only 1 command can be redone, not 2; see: studio history"
    )
    run("paint", "edit", "FU", "--note", "b", db=demo_db)
    assert "was recorded since the last undo" in refuses(3, "redo")


def test_a_record_that_something_else_changed_is_left_alone(
    refuses: Refuses, run: Run, demo_db: Path
) -> None:
    run("paint", "edit", "FU", "--note", "a", db=demo_db)
    execute(demo_db, "UPDATE paint SET note = 'by hand' WHERE code = 'FU'")
    said = refuses(3, "undo")
    assert said == (
        "'paint edit FU --note a' cannot be taken back: paint FU is not as it left it, and the "
        "history does not know why; put it right by hand"
    )


def test_without_a_studio_there_is_no_history(run: Run, tmp_path: Path) -> None:
    for words in (("undo",), ("redo",), ("history",)):
        outcome = run(*words, db=tmp_path / "none.sqlite3")
        assert outcome.status == 5
        assert "there is no studio at" in outcome.err
        assert not (tmp_path / "none.sqlite3").exists()


@pytest.mark.parametrize("width", [80, 40])
def test_the_history_fits_the_terminal(
    story: Does, width: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", str(width))
    for words in (("history",), ("history", "S1"), ("undo", "-n", "8")):
        lines = story(*words).out.splitlines()
        assert max(map(len, lines)) <= width, words
