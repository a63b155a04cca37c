"""Nothing is wider than the terminal, nothing is cut, and no line ends in blanks."""

import re
from pathlib import Path
from typing import Final

import pytest

from tests.conftest import Run

PRINTED: Final = (
    ("match", "#767d63"),
    ("match", "lab(20 80 -100)", "-n", "9"),
    ("match", "5PB 4/2", "--metric", "cie76"),
    ("match", "S1", "--all-swatches"),
    ("match", "S6", "--light", "A,FL2"),
    ("match", "#767d63", "--wet"),
    ("swatch", "compare", "S57", "S175"),
    ("swatch", "compare", "S112", "S6"),
    ("swatch", "drying"),
    ("check",),
    ("paint", "list", "--retired"),
    ("paper", "list"),
    ("mix", "list"),
    ("swatch", "list"),
    ("stock", "list"),
    ("pigment", "list"),
    ("paint", "show", "SG"),
    ("paper", "show", "ECP"),
    ("mix", "show", "M25"),
    ("swatch", "show", "S4"),
    ("stock", "show", "FU"),
    ("stock", "show", "HSR"),
    ("stock", "reorder", "--need", "FU=40"),
    ("fade", "list"),
    ("fade", "report"),
    ("care", "M38"),
    ("care", "CB", "--for", "spray"),
    ("care", "sheet"),
    ("care", "--class", "children"),
    ("check", "--class", "adults"),
    ("pigment", "show", "PY35"),
    ("pigment", "show", "PBr7"),
)


@pytest.mark.parametrize("words", PRINTED, ids=" ".join)
@pytest.mark.parametrize("width", [40, 60, 80, 120])
def test_every_line_fits_the_terminal_and_none_is_cut(
    width: int, words: tuple[str, ...], run: Run, demo_db: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", str(width))
    outcome = run(*words, db=demo_db)
    lines = outcome.out.splitlines()
    assert len(lines) > 3
    # A single word that is wider than the terminal, such as the name of a substance, stays whole.
    assert [line for line in lines if len(line) > width and len(line.split()) > 1] == []
    assert [line for line in lines if line != line.rstrip()] == []
    assert "…" not in outcome.out


@pytest.mark.parametrize("words", PRINTED, ids=" ".join)
def test_a_narrow_terminal_loses_no_word(
    words: tuple[str, ...], run: Run, demo_db: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def said(width: int) -> set[str]:
        monkeypatch.setenv("COLUMNS", str(width))
        return set(re.findall(r"\w[\w.:-]*\w", run(*words, db=demo_db).out))

    # Where rows stand below each other, the first cell needs no heading, nor does an empty one.
    unsaid = {"code", "day", "mix", "pigment", "swatch", "light", "drying", "shift", "of"}
    if words[0] == "care":
        unsaid |= {"harmonised", "exempt", "notified"}
    assert said(200) - said(40) <= unsaid


def test_a_list_too_wide_for_its_words_stands_row_by_row(
    run: Run, demo_db: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    lines = run("swatch", "list", "--of", "M38", "--last", "1", db=demo_db).out.splitlines()
    assert lines[0] == "S114"
    assert "  L* a* b*  74 −6.6 +22.8" in lines
    assert "  recipe    M38 3 RS + 1 FU" in lines


def test_a_list_that_fits_is_a_table_with_its_rows_on_one_line_each(
    run: Run, demo_db: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "120")
    lines = run("paint", "list", db=demo_db).out.splitlines()
    assert re.split(r" {2,}", lines[0]) == [
        "code",
        "paint",
        "pigments",
        "form",
        "left",
        "light",
        "care",
    ]
    assert "FU    Pellow & Strand French Ultramarine" in "\n".join(lines)
    assert len(lines) == 1 + 23 + 1
