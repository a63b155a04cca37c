"""Areas, washes and times of a painting, by plain sums."""

import pytest

from studio.actions.painting.amounts import (
    ML_PER_M2,
    areas_of,
    assumptions,
    paint_and_water,
    wash_ml,
    with_rest,
)
from studio.actions.painting.times import LAYING, drying_steps, minutes
from studio.catalogue.painting import Painting, Passage
from studio.catalogue.paper import Paper, PaperFacts
from studio.catalogue.stock import Stock, Unit
from studio.catalogue.swatch import Application
from tests.actions.painting.paintings import painting, passage

PAPER = Paper(
    1, PaperFacts("SR", "Eddering Mill", "Slipway Rag"), Stock(None, Unit.SHEETS, None), ()
)
WHOLE = 500.0 * 340.0


def _painting(*passages: Passage) -> Painting:
    return painting(PAPER, *passages)


def test_shares_are_taken_and_the_rest_is_divided_equally() -> None:
    found = areas_of(_painting(passage(1, share=0.4), passage(2), passage(3)))
    assert found.mm2 == pytest.approx({1: 0.4 * WHOLE, 2: 0.3 * WHOLE, 3: 0.3 * WHOLE})
    (remark,) = found.remarks
    assert "Passage 2 passage 2, 3 passage 3 without a share" in remark
    assert "30% of the painted area each" in remark


def test_all_known_shares_need_no_remark() -> None:
    found = areas_of(_painting(passage(1, share=0.4), passage(2, share=0.6)))
    assert found.mm2 == pytest.approx({1: 0.4 * WHOLE, 2: 0.6 * WHOLE})
    assert found.remarks == ()


def test_shares_that_leave_nothing() -> None:
    found = areas_of(_painting(passage(1, share=1.0), passage(2)))
    assert found.mm2 == pytest.approx({1: WHOLE, 2: WHOLE / 2})
    assert "one part of 2" in found.remarks[0]


def test_what_goes_over_another_is_as_large() -> None:
    glaze = passage(2, technique=Application.GLAZE, over=1)
    spatter = passage(3, technique=Application.SPATTER, over=2)
    found = areas_of(_painting(passage(1, share=0.25), glaze, spatter))
    assert found.mm2 == pytest.approx(dict.fromkeys((1, 2, 3), 0.25 * WHOLE))


def test_spatter_over_nothing_takes_nothing_from_the_others() -> None:
    spatter = passage(2, technique=Application.SPATTER)
    found = areas_of(_painting(passage(1), spatter))
    assert found.mm2 == pytest.approx({1: WHOLE, 2: WHOLE / 2})


def test_a_film_of_a_tenth_of_a_millimetre() -> None:
    """100 ml on 1 m² stand 0.1 mm high."""
    one = passage(1, technique=Application.FLAT_WASH, layers=2)
    assert wash_ml(one, 1e6) == pytest.approx(2 * 1e6 * 0.1 / 1000)
    assert ML_PER_M2[Application.WET_IN_WET] > ML_PER_M2[Application.FLAT_WASH]
    assert ML_PER_M2[Application.FLAT_WASH] > ML_PER_M2[Application.DRY_BRUSH]
    assert ML_PER_M2[Application.DRY_BRUSH] > ML_PER_M2[Application.SPATTER] > 0.0
    assert ML_PER_M2.keys() == LAYING.keys() == set(Application)


def test_something_stays_in_the_well() -> None:
    assert with_rest(10.0) == pytest.approx(12.0)
    assert with_rest(1.0) == pytest.approx(1.5)
    assert with_rest(0.0) == 0.0


@pytest.mark.parametrize("water", [0.0, 0.5, 3.0, 15.0])
def test_paint_and_water_are_the_wash(water: float) -> None:
    paint, added = paint_and_water(12.0, water)
    assert added is not None
    assert paint + added == pytest.approx(12.0)
    assert added == pytest.approx(water * paint)


def test_unknown_water_is_assumed_and_not_told() -> None:
    assert paint_and_water(12.0, None) == (3.0, None)
    said = " ".join(assumptions([Application.FLAT_WASH], water_unknown=True))
    assert "3 parts to one of paint are assumed" in said
    assert "flat wash 100" in said
    assert "spatter" not in said


def test_drying_and_minutes() -> None:
    some = [passage(1, layers=2), passage(2, dry=False), passage(3)]
    assert drying_steps(some) == (1,)
    low, high = minutes(some, laid=2, untested=1)
    assert low == 2 * (2 + 2) + (2 + 20) + 4 * 3 + 2 * 15
    assert high == 2 * (5 + 4) + (5 + 45) + 4 * 8 + 2 * 40
