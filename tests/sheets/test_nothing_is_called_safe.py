"""Cautions: unverified is shown so, advice ends them, and no paint is ever given a clean bill."""

import ast
import json
import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Final

import pytest

from studio.actions.check_shelf import check_shelf
from studio.actions.known_paint import KnownPaint
from studio.actions.model_inputs import UnknownPaint
from studio.actions.rate_pigment import verify_pigment
from studio.catalogue.hazard import ADVICE
from studio.catalogue.paint import Paint
from studio.sheets.check_view import print_check
from studio.sheets.lists import print_paints, print_pigments
from studio.sheets.shelf_view import print_paint_line, show_paint, show_pigment
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import Run
from tests.sheets.conftest import Terminal, printed

SOURCES: Final = Path(__file__).resolve().parents[2] / "studio"
VERDICT: Final = re.compile(
    r"(?<!not mean that it is )\b(?:safe|safely|harmless|non-?\s?toxic|not toxic|no hazards?)\b",
    re.IGNORECASE,
)
"""Whole words: the name of a source such as an address that holds one says nothing of a paint."""
CLASSES: Final = ("adults", "children")


def _not_known(paint: Paint) -> KnownPaint:
    return KnownPaint(paint, UnknownPaint(paint, "no dry swatch holds it", "a flat wash"), {}, None)


def _strings(path: Path) -> Iterator[tuple[int, str]]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.lineno, node.value


@pytest.mark.parametrize("text", ["It is safe.", "Harmless", "non-toxic", "nontoxic", "not toxic"])
def test_the_words_of_a_verdict_are_recognised(text: str) -> None:
    assert VERDICT.search(text)


def test_words_of_care_are_no_verdict() -> None:
    assert not VERDICT.search("read the maker's safety data sheet; unsafe when sprayed")
    assert not VERDICT.search("nothing on record, which does not mean that it is safe")


def test_no_source_holds_the_words_of_a_verdict() -> None:
    files = sorted(SOURCES.rglob("*.py"))
    assert len(files) > 60
    found = [
        f"{path.relative_to(SOURCES)}:{line}: {text[:60]!r}"
        for path in files
        for line, text in _strings(path)
        if VERDICT.search(text)
    ]
    assert found == []


def test_nothing_that_is_printed_holds_them(run: Run, demo_db: Path) -> None:
    pigments = json.loads(run("pigment", "list", "--json", db=demo_db).out)
    paints = json.loads(run("paint", "list", "--retired", "--json", db=demo_db).out)
    lines = [
        ("check",),
        ("pigment", "list"),
        ("paint", "list", "--retired"),
        ("match", "#767d63", "-n", "76"),
        ("match", "#767d63", "--without-hazard", "any"),
        *(("paint", "show", paint["paint"]) for paint in paints),
        *(("care", paint["paint"]) for paint in paints),
        ("care", "M38"),
        ("care", "sheet"),
        *((command, "--class", kind) for command in ("care", "check") for kind in CLASSES),
        ("stock", "list"),
        ("fade", "report"),
    ]
    for words in lines:
        assert not VERDICT.search(" ".join(run(*words, db=demo_db).out.split())), words
    for pigment in pigments:
        assert not VERDICT.search(json.dumps(pigment)), pigment["pigment"]


def test_every_pigment_ends_with_the_advice(demo_work: UnitOfWork, terminal: Terminal) -> None:
    for pigment in demo_work.pigments.all():
        console = terminal(None, width=200)
        show_pigment(console, pigment)
        assert printed(console).endswith(f"\n{ADVICE}\n")


def test_every_paint_and_the_check_end_with_the_advice(
    demo_work: UnitOfWork, terminal: Terminal
) -> None:
    for paint in demo_work.paints.all():
        console = terminal(None, width=200)
        show_paint(console, _not_known(paint), (), ())
        assert printed(console).endswith(f"\n{ADVICE}\n")
    console = terminal(None, width=200)
    print_check(console, check_shelf(demo_work))
    assert printed(console).endswith(f"\n{ADVICE}\n")


def test_a_pigment_without_data_is_to_be_treated_with_care(
    demo_work: UnitOfWork, terminal: Terminal
) -> None:
    without = [pigment for pigment in demo_work.pigments.all() if not pigment.hazards]
    assert without
    for pigment in without:
        console = terminal(None, width=200)
        show_pigment(console, pigment)
        said = " ".join(printed(console).split())
        assert pigment.looked_up or "take care and read the label" in said
        where = "" if pigment.looked_up is None else f"that it is safe ({pigment.looked_up})"
        assert where in said


def test_verified_and_unverified_never_look_alike(
    demo_work: UnitOfWork, terminal: Terminal
) -> None:
    """Each view tells a confirmed pigment from the same one unconfirmed, in words or by a mark."""

    def views() -> list[str]:
        paint = next(p for p in demo_work.paints.all() if p.facts.code == "AC")
        pigment = demo_work.pigments.get("PR83")
        assert pigment is not None
        consoles = [terminal(None, width=200) for _ in range(7)]
        show_pigment(consoles[0], pigment)
        show_paint(consoles[1], _not_known(paint), (), ())
        print_paint_line(consoles[2], paint)
        print_paints(consoles[3], [paint])
        print_pigments(consoles[4], [pigment])
        print_check(consoles[5], check_shelf(demo_work, low=False, care=False))
        print_check(consoles[6], check_shelf(demo_work, low=False, fading=False))
        return [printed(console) for console in consoles]

    before = views()
    pigment = demo_work.pigments.get("PR83")
    assert pigment is not None
    day = date(2026, 3, 14)
    verify_pigment(demo_work, pigment, "tube label", day, ratings=True, hazards=True)
    demo_work.forget()
    after = views()
    assert all(old != new for old, new in zip(before, after, strict=True))
    assert all("unverified" in text for text in before)
    for text in (after[0], after[1], after[5], after[6]):
        assert "verified 14 Mar 2026" in text
    assert " IV? " in before[3]
    assert " IV  " in after[3]
