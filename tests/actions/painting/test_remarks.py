"""Remarks on order and distance, for painted and invented passages."""

from typing import Any

import pytest

from studio.actions.match_colour import Ingredient
from studio.actions.painting.plan import Basis, Candidate, PlannedColour, PlannedMix
from studio.actions.painting.remarks import remarks_on, warmth
from studio.catalogue.paint import Degree, Paint, PaintFacts, Transparency
from studio.catalogue.painting import Passage
from studio.catalogue.paper import Paper, PaperFacts
from studio.catalogue.stock import Stock, Unit
from studio.catalogue.swatch import Application
from studio.colour.lab import Lab
from tests.actions.painting.paintings import Numbers, passage

PAPER = Paper(
    1, PaperFacts("SR", "Eddering Mill", "Slipway Rag"), Stock(None, Unit.SHEETS, None), ()
)


def _remarks(*passages: Passage) -> list[str]:
    planned = [
        PlannedColour(each, number, colour, None, None, None, "test it", 0.0, 0.0)
        for number, each in enumerate(passages, start=1)
        for colour in each.colours
    ]
    return remarks_on(passages, planned)


SKY, FAR, MARSH, HULL = (
    (88.0, -3.0, -8.0),
    (76.0, -3.0, -4.0),
    (60.0, -3.0, 25.0),
    (40.0, 35.0, 28.0),
)


def test_a_landscape_that_comes_forward_from_light_and_cool_draws_no_remark() -> None:
    passages = [passage(at, lab) for at, lab in enumerate((SKY, FAR, MARSH, HULL), start=1)]
    assert _remarks(*passages) == []


def test_a_far_passage_that_is_darker_and_warmer_is_named() -> None:
    far = passage(1, HULL, name="far shed")
    (remark, *_) = _remarks(far, passage(2, FAR), passage(3, SKY))
    assert "1 far shed is darker and more intense and warmer" in remark
    assert "common practice, no source" in remark


@pytest.mark.parametrize("alone", [(60.0, -2.0, -3.0), (78.0, -8.0, -24.0), (78.0, 6.0, 6.0)])
def test_one_of_value_chroma_and_warmth_alone_is_a_matter_of_motif(alone: Numbers) -> None:
    """A dark cool mass, an intense blue sky, a warm pale cloud behind greys."""
    remarks = _remarks(passage(1, alone), passage(2, FAR), passage(3, FAR))
    assert not any("in front" in remark for remark in remarks)


def test_warmth_is_greatest_towards_orange() -> None:
    assert warmth(Lab(60, 20, 34.6)) == pytest.approx(40.0, abs=0.1)
    assert warmth(Lab(60, -20, -34.6)) == pytest.approx(-40.0, abs=0.1)
    assert warmth(Lab(60, 0, 0)) == 0.0


def test_a_lighter_wash_after_a_darker_one_is_named() -> None:
    light = passage(2, FAR, name="sand")
    assert any(
        "Lighter and yet later: 2 sand (after 1 passage 1)" in remark
        for remark in _remarks(passage(1, (40.0, 0.0, 0.0)), light)
    )
    assert not any("yet later" in remark for remark in _remarks(passage(1, FAR), passage(2, MARSH)))


def test_order_of_what_goes_over() -> None:
    early = passage(1, HULL, name="shadow", technique=Application.GLAZE, over=2)
    assert "1 shadow goes over 2 wall, which comes after it: change the order." in _remarks(
        early, passage(2, FAR, name="wall")
    )
    wet = passage(1, FAR, name="wall", dry=False)
    glaze = passage(2, HULL, name="shadow", technique=Application.GLAZE, over=1)
    assert any("no time to dry" in remark for remark in _remarks(wet, glaze))
    light = passage(2, SKY, name="glow", technique=Application.GLAZE, over=1)
    assert any(
        "a transparent wash only darkens" in remark for remark in _remarks(passage(1, MARSH), light)
    )


def test_a_passage_without_a_colour_is_named() -> None:
    assert "Without a colour, and left out: 2 reeds." in _remarks(
        passage(1, SKY), passage(2, name="reeds")
    )


def _paint(number: int, name: str, **facts: Any) -> Paint:
    own = PaintFacts(f"X{number}", "Orsel Pans", name, **facts)
    return Paint(number, own, (), Stock(None, Unit.ML, None))


def _mixed(number: int, each: Passage, *paints: Paint, layers: int = 1) -> PlannedColour:
    """A passage as it would be planned, from one mix of some paints."""
    recipe = tuple(Ingredient(paint, 1) for paint in paints)
    lab = each.colours[0].lab
    chosen = Candidate(recipe, None, 3.0, layers, Basis.PREDICTED, None, PAPER, lab, 0.5, 1.0)
    mix = PlannedMix("A", recipe, None, 3.0, layers, Basis.PREDICTED, None, lab, 1.0, 1.0, 3.0)
    colour = each.colours[0]
    return PlannedColour(each, number, colour, mix, 0.5, None, None, 1e4, 1.0, chosen)


def test_lifting_from_staining_paint_is_named_and_unknown_paint_too() -> None:
    below = passage(1, MARSH, name="water")
    above = passage(2, SKY, name="glint", technique=Application.LIFTED, over=1)
    stain, low = _paint(1, "Deep Stain", staining=Degree.HIGH), _paint(2, "Chalk Pit")
    mild = _paint(3, "Mild Earth", staining=Degree.LOW)
    planned = [_mixed(1, below, stain, low, mild), _mixed(2, above, mild)]
    found = remarks_on([below, above], planned)
    assert "2 glint is lifted from staining paint: Deep Stain." in found
    assert any("2 glint: how strongly Chalk Pit stains is not on record" in each for each in found)
    assert not any("Mild Earth" in remark for remark in found)


def test_a_mix_judged_at_other_layers_and_a_covering_glaze_are_named() -> None:
    one = passage(1, MARSH, name="marsh", layers=2)
    glaze = passage(2, HULL, name="shadow", technique=Application.GLAZE, over=1)
    covering = _paint(1, "Chalk Pit", transparency=Transparency.OPAQUE)
    found = remarks_on([one, glaze], [_mixed(1, one, covering), _mixed(2, glaze, covering)])
    assert (
        "1 marsh has 2 layers, but A was judged at 1 layer: lay as many, or test it first." in found
    )
    assert any("2 shadow is a glaze, but A was not judged over" in remark for remark in found)
    assert "2 shadow is a glaze of paint that covers: Chalk Pit." in found
