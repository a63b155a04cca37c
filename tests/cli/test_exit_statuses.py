"""What a script can rely on: an exit status for every way a command line can end."""

from pathlib import Path

import pytest

from studio.actions import check_shelf
from studio.errors import BadInput
from tests.cli.conftest import Does, Refuses
from tests.conftest import Run
from tests.servers import fingerprint


@pytest.mark.parametrize(
    "words",
    [
        ("nosuch",),
        ("paint", "nosuch"),
        ("match",),
        ("match", "tan", "--count", "many"),
        ("match", "tan", "--nosuch"),
        ("match", "tan", "--within"),
        ("stock", "use", "FU"),
        ("stock", "use", "FU", "much"),
        ("stock", "weigh", "FU"),
        ("stock", "count", "FU", "1"),
        ("stock", "reorder", "--students", "few"),
        ("fade", "start", "FU"),
        ("fade", "read", "F1", "--blue-wool", "2.5"),
        ("swatch", "log", "FU", "--layers", "one"),
        ("pigment", "rate", "PB29", "I"),
        ("pigment", "verify", "PB29", "--hazards"),
        ("painting", "test", "P2", "mud", "FU", "--which", "main"),
        ("painting", "passage", "add", "P2"),
        ("import",),
        ("--nosuch", "check"),
    ],
    ids=" ".join,
)
def test_a_command_line_that_cannot_be_understood_is_2(
    words: tuple[str, ...], run: Run, demo_db: Path
) -> None:
    before = fingerprint(demo_db)
    outcome = run(*words, db=demo_db)
    assert (outcome.status, outcome.out) == (2, "")
    assert outcome.err.splitlines()[-1].startswith("Error: ")
    assert "Traceback" not in outcome.err
    assert fingerprint(demo_db) == before


def test_done_is_0(does: Does) -> None:
    assert does("pigment", "show", "PB29").err == ""


def test_an_import_that_left_rows_out_is_6(run: Run, empty_db: Path, tmp_path: Path) -> None:
    table = tmp_path / "paints.csv"
    table.write_text("maker,name\nOrsel Pans,Locker Brown\nOrsel Pans,\n")
    outcome = run("import", str(table), db=empty_db)
    assert (outcome.status, outcome.out) == (6, "paints: 1 added\n")
    assert outcome.err == "studio: paints.csv, line 3: name is empty\n"


def test_a_shelf_that_needs_attention_is_10(run: Run, demo_db: Path) -> None:
    assert run("check", db=demo_db).status == 10


def test_a_shelf_without_paints_needs_no_attention(does: Does) -> None:
    assert does("check").out == "Nothing on the shelf needs attention.\n"


def test_interrupted_is_130(run: Run, demo_db: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupt(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(check_shelf, "check_shelf", interrupt)
    outcome = run("check", db=demo_db)
    assert (outcome.status, outcome.out) == (130, "")
    assert outcome.err.strip() in {"", "studio: stopped"}


def test_a_defect_is_1_and_asks_for_a_report(
    refuses: Refuses, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object, **__: object) -> None:
        msg = "the tide is out"
        raise ZeroDivisionError(msg)

    monkeypatch.setattr(check_shelf, "check_shelf", fail)
    said = refuses(1, "check")
    assert said.startswith("a defect in the program (ZeroDivisionError: the tide is out)")
    assert "--traceback" in said


def test_traceback_lets_a_defect_through(
    run: Run, demo_db: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object, **__: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr(check_shelf, "check_shelf", fail)
    with pytest.raises(ZeroDivisionError):
        run("--traceback", "check", db=demo_db)


def test_traceback_lets_a_refusal_through(run: Run, demo_db: Path) -> None:
    with pytest.raises(BadInput, match="is not a CSS colour"):
        run("--traceback", "match", "#blurple", db=demo_db)


def test_messages_go_to_standard_error_and_results_to_standard_output(shelf: Does) -> None:
    outcome = shelf("swatch", "log", "2 FU + 1 BS", "--lab", "41,2,-12")
    assert outcome.out.startswith("S1  ")
    assert outcome.err == (
        "studio: on Eddering Mill Slipway Rag, the only paper on record; --paper names another\n"
    )
