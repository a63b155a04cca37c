"""When a paint is in stock or low, and what its pigments bring."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import Basis, Hazard, HazardCode
from studio.catalogue.lightfastness import LightfastnessRating, Scale
from studio.catalogue.paint import Form, Paint, PaintFacts, Status, worst_of
from studio.catalogue.pigment import Pigment
from studio.catalogue.stock import Stock, Unit

DAY = date(2026, 3, 14)


def _paint(
    left: float | None = None,
    *,
    volume_ml: float | None = 15.0,
    low_at_ml: float | None = None,
    status: Status = Status.IN_USE,
    pigments: tuple[Pigment, ...] = (),
) -> Paint:
    facts = PaintFacts(
        code="FU",
        maker="Northlight",
        name="French Ultramarine",
        volume_ml=volume_ml,
        low_at_ml=low_at_ml,
        status=status,
    )
    return Paint(1, facts, pigments, Stock(left, Unit.ML, None if left is None else DAY))


def _rating(pigment: str, rating: str) -> LightfastnessRating:
    return LightfastnessRating(
        pigment, Scale.ASTM_D4303, rating, "watercolour", None, "a test", Evidence.MEMORY
    )


def _hazard(pigment: str, hazard_class: str, *metals: str) -> Hazard:
    codes = (HazardCode("H350", hazard_class, "a statement", hedged=False),)
    return Hazard(
        pigment, "agent", None, "caution", codes, Basis.NONE, None, (), metals, Evidence.MEMORY, "x"
    )


def _pigment(name: str, *ratings: str, hazards: tuple[Hazard, ...] = ()) -> Pigment:
    rated = tuple(_rating(name, rating) for rating in ratings)
    return Pigment(name, None, None, None, None, None, None, rated, hazards)


def test_its_full_name_is_maker_and_name() -> None:
    assert _paint().facts.full_name == "Northlight French Ultramarine"


def test_unless_told_otherwise_it_is_a_tube_in_use() -> None:
    facts = PaintFacts("FU", "Northlight", "French Ultramarine")
    assert (facts.form, facts.status) == (Form.TUBE, Status.IN_USE)


@pytest.mark.parametrize("left", [None, 0.001, 15.0])
def test_a_paint_in_use_is_in_stock_unless_known_to_be_used_up(left: float | None) -> None:
    assert _paint(left).in_stock


def test_a_paint_known_to_be_used_up_is_not_in_stock() -> None:
    assert not _paint(0.0).in_stock


@pytest.mark.parametrize("left", [None, 0.0, 0.5, 15.0])
def test_a_retired_paint_is_neither_in_stock_nor_low(left: float | None) -> None:
    retired = _paint(left, status=Status.RETIRED)
    assert not retired.in_stock
    assert not retired.is_low


@given(st.floats(0.1, 1000.0))
def test_it_counts_as_low_at_a_fifth_of_its_volume(volume: float) -> None:
    assert _paint(volume_ml=volume).low_at == volume / 5


def test_its_own_threshold_goes_before_a_fifth() -> None:
    assert _paint(low_at_ml=4.5).low_at == 4.5
    assert _paint(low_at_ml=0.0).low_at == 0.0
    assert _paint(volume_ml=None, low_at_ml=2.0).low_at == 2.0


def test_without_a_volume_there_is_no_threshold() -> None:
    assert _paint(volume_ml=None).low_at is None


@pytest.mark.parametrize(
    ("left", "low"), [(None, False), (0.0, True), (2.9, True), (3.0, True), (3.001, False)]
)
def test_it_is_low_at_its_threshold_and_below(left: float | None, low: object) -> None:
    assert _paint(left).is_low is low


def test_without_a_threshold_only_an_empty_one_is_low() -> None:
    assert _paint(0.0, volume_ml=None).is_low
    assert not _paint(0.1, volume_ml=None).is_low


def test_the_worst_of_its_pigments_counts() -> None:
    found = _paint(pigments=(_pigment("PB29", "I"), _pigment("PV19", "I", "III"))).worst_rating
    assert found is not None
    assert (found.pigment, found.rating) == ("PV19", "III")


def test_one_unrated_pigment_leaves_the_rating_open() -> None:
    paint = _paint(pigments=(_pigment("PB29", "II"), _pigment("PV55"), _pigment("PY150")))
    assert paint.unrated == ("PV55", "PY150")
    assert paint.worst_rating is None
    assert paint.worst_known_rating is not None
    assert paint.worst_known_rating.rating == "II"


def test_without_pigments_no_rating_is_known() -> None:
    assert _paint().worst_rating is None
    assert _paint().worst_known_rating is None
    assert _paint().unrated == ()


def test_its_hazards_are_those_of_all_its_pigments() -> None:
    cadmium = _hazard("PY35", "carcinogen", "cadmium", "zinc")
    cobalt = _hazard("PB28", "skin", "cobalt")
    paint = _paint(
        pigments=(
            _pigment("PY35", hazards=(cadmium,)),
            _pigment("PB29"),
            _pigment("PB28", hazards=(cobalt,)),
        )
    )
    assert paint.hazards == (cadmium, cobalt)
    assert paint.hazard_classes == {"carcinogen", "skin", "cadmium", "zinc", "cobalt"}


def test_without_hazards_there_are_no_classes() -> None:
    assert _paint(pigments=(_pigment("PB29"),)).hazard_classes == frozenset()


def test_the_worst_of_several_passes_over_what_is_unknown() -> None:
    fair, good = _rating("PR83", "III"), _rating("PB29", "I")
    assert worst_of([None, good, fair, None]) is fair
    assert worst_of([None, None]) is None
    assert worst_of([]) is None
