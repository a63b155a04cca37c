"""What is left by weight: exact between a full and an empty weight, else by a density."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.catalogue.container import Container
from studio.catalogue.stock import StockEvent, StockKind, WeighedAs
from studio.catalogue.weighing import ASSUMED_DENSITY, SCALE_ERROR, left_by_weight
from studio.errors import BadInput
from tests.catalogue.shelf import MANY, TUBE, entry, holding, weighed

BOUGHT = entry(StockKind.BOUGHT, 14.0)


def _tube(full: float | None = None, empty: float | None = None) -> Container:
    events: list[StockEvent] = [BOUGHT]
    events += [weighed(full, WeighedAs.FULL, 14.0)] if full is not None else []
    events += [weighed(empty, WeighedAs.EMPTY, 0.0)] if empty is not None else []
    return holding(TUBE, *events)


@given(
    st.floats(1.0, 60.0), st.floats(1.0, 2.5), st.floats(0.0, 1.0), st.none() | st.floats(1.0, 2.5)
)
def test_between_full_and_empty_it_is_exact_whatever_the_density(
    empty: float, density: float, share: float, learnt: float | None
) -> None:
    full = empty + 14.0 * density
    found = left_by_weight(_tube(full, empty), empty + share * (full - empty), learnt)
    assert found.left == pytest.approx(14.0 * share, abs=6e-4)
    assert not found.assumed
    assert found.basis == f"{empty:g} g empty, {full:g} g full"


@given(st.floats(0.0, 14.0), st.floats(1.0, 2.5))
def test_a_learnt_density_serves_where_one_of_the_weights_is_missing(
    left: float, density: float
) -> None:
    empty, full = 5.0, 5.0 + 14.0 * density
    for tube, named in ((_tube(full), f"{full:g} g full"), (_tube(None, empty), "5 g empty")):
        found = left_by_weight(tube, empty + left * density, density)
        assert found.left == pytest.approx(left, abs=6e-4)
        assert not found.assumed
        assert found.basis == f"{named}, learnt density {density:.2f} g/ml"


@pytest.mark.parametrize(
    ("tube", "grams", "left"),
    [
        # By hand, at 1.5 g/ml: 14 - (25.4 - 19.4) / 1.5 and (10.4 - 5) / 1.5.
        (_tube(25.4), 19.4, 10.0),
        (_tube(None, 5.0), 10.4, 3.6),
    ],
)
def test_without_one_a_density_is_assumed_and_said_to_be(
    tube: Container, grams: float, left: float
) -> None:
    found = left_by_weight(tube, grams, None)
    assert found.left == pytest.approx(left)
    assert found.assumed
    assert found.basis.endswith("assumed density 1.50 g/ml")
    assert ASSUMED_DENSITY == 1.5


@pytest.mark.parametrize("density", [None, 1.45])
@pytest.mark.parametrize(
    ("tube", "grams", "refusal"),
    [
        (_tube(25.3, 5.0), 25.4, "FU-1 weighs 25.3 g full, and 25.4 g is more"),
        (_tube(25.3), 31.0, "FU-1 weighs 25.3 g full, and 31 g is more"),
        (_tube(25.3, 5.0), 4.9, "FU-1 weighs 5 g empty, and 4.9 g is less"),
        (_tube(None, 5.0), 3.0, "FU-1 weighs 5 g empty, and 3 g is less"),
    ],
)
def test_more_than_full_and_less_than_empty_are_refused_with_the_numbers(
    tube: Container, grams: float, refusal: str, density: float | None
) -> None:
    with pytest.raises(BadInput) as refused:
        left_by_weight(tube, grams, density)
    assert str(refused.value).startswith(refusal)


@pytest.mark.parametrize(("grams", "left"), [(25.3 + SCALE_ERROR, 14.0), (5.0 - SCALE_ERROR, 0.0)])
def test_the_rounding_of_the_scale_is_forgiven(grams: float, left: float) -> None:
    assert left_by_weight(_tube(25.3, 5.0), grams, None).left == left
    half_known = _tube(25.3) if left else _tube(None, 5.0)
    assert left_by_weight(half_known, grams, None).left == left


def test_less_than_nothing_by_a_density_asks_for_an_empty_one() -> None:
    with pytest.raises(BadInput, match=r"FU-1 at 3 g would hold less than nothing by its assumed"):
        left_by_weight(_tube(25.0), 3.0, None)
    # 14 - (25 - 3.9) / 1.5 = -0.07 ml: the density may be a little off.
    assert left_by_weight(_tube(25.0), 3.9, None).left == 0.0


def test_more_than_it_holds_by_a_density_asks_for_a_full_one() -> None:
    with pytest.raises(BadInput, match=r"FU-1 at 30 g would hold 16\.7 ml .* and it holds 14"):
        left_by_weight(_tube(None, 5.0), 30.0, None)
    # (26.2 - 5) / 1.5 = 14.13 ml: the density may be a little off.
    assert left_by_weight(_tube(None, 5.0), 26.2, None).left == 14.0


@pytest.mark.parametrize("density", [None, 1.45])
def test_with_neither_weight_known_there_is_nothing_to_compare_with(density: float | None) -> None:
    with pytest.raises(BadInput, match="neither the full nor the empty weight of FU-1 is known"):
        left_by_weight(_tube(), 20.0, density)


def test_an_assortment_has_no_full_weight_but_an_empty_one() -> None:
    box = holding(MANY, entry(StockKind.BOUGHT, 40.0), weighed(10.0, WeighedAs.EMPTY, 0.0))
    assert left_by_weight(box, 70.0, None).left == pytest.approx(40.0)
    full = holding(MANY, entry(StockKind.BOUGHT, 40.0), weighed(70.0, WeighedAs.FULL, 40.0))
    with pytest.raises(BadInput, match="neither the full nor the empty weight"):
        left_by_weight(full, 60.0, 1.4)


def test_a_full_weight_under_the_empty_one_is_not_used_for_a_share() -> None:
    """There is nothing between them; the density decides."""
    muddled = holding(
        TUBE, BOUGHT, weighed(5.0, WeighedAs.EMPTY, 0.0), weighed(5.0, WeighedAs.FULL, 14.0)
    )
    assert left_by_weight(muddled, 5.0, None).left == 0.0


@given(st.floats(0.1, 200.0), st.none() | st.floats(1.0, 2.5))
def test_what_is_found_always_fits_into_it(grams: float, density: float | None) -> None:
    for tube in (_tube(25.3), _tube(None, 5.0), _tube(25.3, 5.0)):
        try:
            found = left_by_weight(tube, grams, density)
        except BadInput:
            continue
        assert 0.0 <= found.left <= 14.0
