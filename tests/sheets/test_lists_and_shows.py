"""Lists and single records in the terminal: marks are explained where they stand."""

from pathlib import Path
from typing import Final

import pytest

from studio.sheets.screen import OUTSIDE
from tests.conftest import Run

BEYOND: Final = f"{OUTSIDE}\n"


@pytest.mark.parametrize(
    ("words", "marked"),
    [
        (("mix", "list"), True),
        (("mix", "list", "--with", "BS", "--with", "RS"), False),
        (("mix", "show", "M8"), True),
        (("mix", "show", "M38"), False),
        (("swatch", "list", "--of", "M8"), True),
        (("swatch", "list", "--of", "M38"), False),
        (("swatch", "show", "S22"), True),
        (("swatch", "show", "S112"), False),
        (("paper", "list"), False),
    ],
    ids=str,
)
def test_a_colour_beyond_the_screen_is_marked_and_explained(
    words: tuple[str, ...], run: Run, demo_db: Path, *, marked: bool
) -> None:
    shown = run(*words, db=demo_db).out
    assert shown.endswith(BEYOND) is marked
    assert ("*  " in shown.replace("L* ", "").replace("a* ", "").replace("b* ", "")) is marked


@pytest.mark.parametrize("noun", ["paint", "paper", "mix", "swatch", "stock"])
def test_an_empty_list_says_so_and_explains_nothing(noun: str, run: Run, empty_db: Path) -> None:
    assert run(noun, "list", db=empty_db).out == "Nothing on record to list.\n"


def test_a_list_of_no_pigments_says_so(run: Run, empty_db: Path) -> None:
    assert run("pigment", "list", "nosuch", db=empty_db).out == "Nothing on record to list.\n"


def test_a_paint_says_which_of_its_pigments_nobody_rated(run: Run, empty_db: Path) -> None:
    run(
        "paint", "add", "Creek Grey", "--maker", "Orsel Pans", "-p", "PB29 PB999", db=empty_db
    )  # fmt: skip
    shown = run("paint", "show", "CG", db=empty_db).out
    assert "  no rating on record for PB999\n" in shown
    assert "PB29 ASTM D4303 I in watercolour" in shown
    listed = run("paint", "list", db=empty_db).out.splitlines()[1]
    assert " − " in f"{listed} "  # no rating counts for it


def test_a_paint_shows_what_is_on_the_shelf_and_says_where_the_entries_are(
    run: Run, demo_db: Path
) -> None:
    shown = run("paint", "show", "FU", db=demo_db).out
    assert (
        "Containers\n"
        "  FU-2 half pan: 0.5 ml left, lot T25-011\n"
        "  FU-4 tube: 11.39 ml left, open since 30 Aug 2026, lot P26-118\n"
        "  line by line: studio stock show\n"
    ) in shown
    assert "FU-1" not in shown  # it was thrown away empty
    assert "2024-11-02" not in shown
    ledger = run("stock", "show", "FU", db=demo_db).out
    assert "FU-1" in ledger
    assert "2024-11-02" in ledger


def test_a_statement_that_only_some_grades_carry_has_a_question_mark(
    run: Run, demo_db: Path
) -> None:
    assert "EUH031? (Contact with acids" in run("pigment", "show", "PB29", db=demo_db).out
    assert "H350 (" in run("pigment", "show", "PY36", db=demo_db).out


def test_a_swatch_shows_every_reading_with_how_it_was_made(run: Run, demo_db: Path) -> None:
    said = " ".join(run("swatch", "show", "S4", db=demo_db).out.split())
    assert "L* 46.3 a* +34.5 b* +32.5 (D50/2°) 5 Nov 2024 wet, spectrophotometer" in said
    assert "M1, error ΔE00 0.3, spectrum 380 to 730 nm by 10, read at once" in said
    assert "dry, spectrophotometer" in said
