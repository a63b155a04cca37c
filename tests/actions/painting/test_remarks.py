"""Remarks on order and distance, for painted and invented passages."""

import pytest

from studio.actions.painting.plan import PlannedColour
from studio.actions.painting.remarks import remarks_on, warmth
from studio.catalogue.painting import Passage
from studio.catalogue.swatch import Application
from studio.colour.lab import Lab
from tests.actions.painting.paintings import Numbers, passage


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
