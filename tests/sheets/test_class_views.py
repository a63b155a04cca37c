"""A class in the terminal: reasons shared, substitutes never endorsed, lines that fit."""

from dataclasses import replace
from datetime import date
from typing import Final

import pytest

from studio.actions.advise_care import ClassAdvice, advise_class
from studio.actions.rate_pigment import verify_pigment
from studio.catalogue.care import Work
from studio.sheets.class_screen import print_class_screen
from studio.sheets.class_view import by_reason, print_class
from studio.storage.unit_of_work import UnitOfWork
from tests.sheets.conftest import Terminal, printed

TODAY: Final = date(2026, 11, 25)
CLASSES: Final = (Work.ADULTS, Work.CHILDREN)


def _screen(terminal: Terminal, advice: ClassAdvice, width: int = 80) -> str:
    console = terminal(None, width=width)
    print_class_screen(console, advice)
    return printed(console)


@pytest.mark.parametrize("kind", CLASSES)
@pytest.mark.parametrize("width", [40, 60, 80])
def test_every_line_fits_the_terminal(
    demo_work: UnitOfWork, terminal: Terminal, kind: Work, width: int
) -> None:
    advice = advise_class(demo_work, kind, TODAY)
    console = terminal(None, width=width)
    print_class(console, advice)
    for text in (printed(console), _screen(terminal, advice, width)):
        lines = text.splitlines()
        assert [line for line in lines if len(line) > width and " " in line.strip()] == []
        assert [line for line in lines if line != line.rstrip()] == []
        assert not any(line.endswith("(?") for line in lines)


@pytest.mark.parametrize("kind", CLASSES)
def test_paints_of_one_reason_stand_together(demo_work: UnitOfWork, kind: Work) -> None:
    advice = advise_class(demo_work, kind, TODAY)
    groups = by_reason(advice.leave)
    assert sorted(left.paint.id for _, each in groups for left in each) == sorted(
        left.paint.id for left in advice.leave
    )
    (earths,) = [each for grounds, each in groups if any(g.pigment == "PBr7" for g in grounds)]
    assert [left.paint.facts.code for left in earths] == ["BS", "BU", "RS", "RU"]


def _looked_up(work: UnitOfWork) -> None:
    """Let every pigment that nobody looked up have been looked up, and nothing found."""
    for pigment in work.pigments.all():
        if pigment.evidence is not None and not pigment.hazards:
            work.pigments.change(replace(pigment, looked_up="the harbour's list"))
    work.forget()


@pytest.mark.parametrize("kind", CLASSES)
def test_a_substitute_that_was_looked_up_and_nothing_found_has_a_sign(
    demo_work: UnitOfWork, terminal: Terminal, kind: Work
) -> None:
    _looked_up(demo_work)
    advice = advise_class(demo_work, kind, TODAY)
    shown = _screen(terminal, advice, 400)
    for left in advice.leave:
        (line,) = [
            line for line in shown.splitlines() if line.startswith(f"    {left.paint.facts.code} ")
        ]
        (match,) = left.substitutes.matches
        assert ("*, ΔE00" in line) == any(part.paint.nothing_found for part in match.recipe)
    said = "looked up and nothing found, which does not mean that it is safe"
    assert f"* {said}: read label and data sheet" in shown
    assert f"  {said}: " in shown
    assert "(the harbour's list)" in shown


@pytest.mark.parametrize("kind", CLASSES)
def test_what_is_not_known_has_a_list_of_its_own_with_the_way_out(
    demo_work: UnitOfWork, terminal: Terminal, kind: Work
) -> None:
    paint = demo_work.paints.all()[0]
    demo_work.paints.change(paint.id, replace(paint.facts, pigments=()))
    advice = advise_class(demo_work, kind, TODAY)
    console = terminal(None, width=400)
    print_class(console, advice)
    for text in (printed(console), _screen(terminal, advice, 400)):
        listed = text[text.index("Not brought until label and data sheet are read") :]
        listed = listed[: listed.index("Bring to a class")]
        assert "pigments not recorded" in listed
        assert all(each.facts.code in listed for each in advice.unread)
        assert "studio paint document CODE --file-or-address WHERE --marks WORDS" in listed


def test_verified_points_of_what_you_bring_stand_apart(
    demo_work: UnitOfWork, terminal: Terminal
) -> None:
    pigment = demo_work.pigments.get("PB29")
    assert pigment is not None
    verify_pigment(demo_work, pigment, "tube label", TODAY, ratings=False, hazards=True)
    demo_work.forget()
    shown = _screen(terminal, advise_class(demo_work, Work.CHILDREN, TODAY), 400)
    (line,) = [line for line in shown.splitlines() if "as wet paint by brush" in line]
    verified, unverified = line.split(" (\N{CHECK MARK} verified); ")
    assert "FU" in verified.split()[0]
    assert "PBG" in unverified
    assert "(? unverified): Only if" in unverified


def test_nothing_is_said_of_what_there_is_none_of(
    demo_work: UnitOfWork, terminal: Terminal
) -> None:
    advice = advise_class(demo_work, Work.CHILDREN, TODAY)
    blue = tuple(paint for paint in advice.bring if paint.facts.code == "FU")
    few = replace(advice, bring=blue, leave=(), unread=(), low=(), low_papers=(), documents=())
    shown = _screen(terminal, few)
    for text in ("running low", "would fade", "own fade test", "data sheets:", "Leave at home"):
        assert text not in shown
    assert not few.needs_attention
    assert "in full: studio care --class children" in shown
