"""A drying shift is the mean of pairs, wet before dry, and foretells what a wet patch dries to."""

import math
import statistics
from datetime import date, timedelta
from typing import Final

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from studio.catalogue.drying import DryingPair, dried, pair_of, shift_of
from studio.catalogue.reading import Method, Origin, Reading, State
from studio.colour.difference import Components, ciede2000, components
from studio.colour.lab import Lab

DAY: Final = date(2026, 3, 14)
WET: Final = State.WET
DRY: Final = State.DRY

axes = st.floats(-80.0, 80.0)
labs = st.builds(Lab, st.floats(0.0, 100.0), axes, axes)
pairs = st.builds(DryingPair, labs, labs)
shifts = st.builds(Components, st.floats(-9, 9), st.floats(-9, 9), st.floats(-9, 9))


def _read(
    state: State, lightness: float, day: int = 0, method: Method = Method.COLORIMETER
) -> Reading:
    lab = Lab(lightness, 2.0, -10.0)
    return Reading(
        lab, lab, Origin.MEASURED, None, state, method, None, None, None,
        DAY + timedelta(days=day),
    )  # fmt: skip


@given(labs, labs)
def test_the_shift_of_a_patch_carries_its_wet_colour_to_its_dry_one(wet: Lab, dry: Lab) -> None:
    assume(min(wet.chroma, dry.chroma) > 1e-3)
    moved = dried(wet, DryingPair(wet, dry).shift)
    assert moved.coordinates == pytest.approx(dry.coordinates, abs=1e-4)


@given(labs, shifts)
def test_what_is_expected_is_a_colour_that_far_away(wet: Lab, shift: Components) -> None:
    moved = dried(wet, shift)
    assume(wet.chroma > 20 and 10 < wet.lightness < 90)
    found = components(wet.coordinates, moved.coordinates)
    assert (found.lightness, found.chroma, found.hue) == pytest.approx(
        (shift.lightness, shift.chroma, shift.hue), abs=1e-4
    )


@pytest.mark.parametrize(
    ("wet", "shift", "dry"),
    [
        (Lab(99, 0, 30), Components(5, -2, 0), (100, 0, 28)),
        (Lab(1, 0, 30), Components(-5, -2, 0), (0, 0, 28)),
        (Lab(50, 0, 3), Components(2, -5, 0), (52, 0, 0)),
        (Lab(50, 0, 0), Components(2, 3, 1), (52, 0, 0)),
        (Lab(50, 100, 0), Components(0, 150, 0), (50, 200, 0)),
        (Lab(50, 4, 0), Components(0, 0, 90), (50, -4, 0)),  # half a turn at most
        (Lab(50, 20, 0), Components(0, 0, 40 * math.sin(math.pi / 4)), (50, 0, 20)),
    ],
)
def test_a_colour_stays_within_what_colours_can_be(
    wet: Lab, shift: Components, dry: tuple[float, float, float]
) -> None:
    assert dried(wet, shift).coordinates == pytest.approx(dry, abs=1e-9)


@given(st.lists(pairs, min_size=2, max_size=8))
def test_mean_spread_and_standard_error_are_those_of_the_patches(many: list[DryingPair]) -> None:
    shift = shift_of(many)
    assert shift is not None
    assert shift.pairs == len(many)
    for axis in ("lightness", "chroma", "hue"):
        values = [getattr(pair.shift, axis) for pair in many]
        spread = statistics.stdev(values)
        assert getattr(shift.mean, axis) == pytest.approx(statistics.fmean(values), abs=1e-9)
        assert getattr(shift.spread, axis) == pytest.approx(spread, abs=1e-6)
        assert getattr(shift.standard_error, axis) == pytest.approx(
            spread / math.sqrt(len(many)), abs=1e-6
        )


def test_each_patch_is_foretold_from_the_others_alone() -> None:
    first = DryingPair(Lab(40, 0, 20), Lab(42, 0, 18))
    second = DryingPair(Lab(60, 0, 40), Lab(63, 0, 38))
    third = DryingPair(Lab(50, 0, 30), Lab(54, 0, 28))
    shift = shift_of([first, second, third])
    assert shift is not None
    off = [
        ciede2000((40 + 3.5, 0, 18), (42, 0, 18)),
        ciede2000((60 + 3.0, 0, 38), (63, 0, 38)),
        ciede2000((50 + 2.5, 0, 28), (54, 0, 28)),
    ]
    assert shift.left_out == pytest.approx(statistics.fmean(off), abs=1e-9)
    assert min(off[0], off[2]) > 0.5


@given(st.lists(st.tuples(st.floats(20, 80), st.floats(15, 80)), min_size=2, max_size=6))
def test_patches_that_all_dry_alike_are_foretold_without_error(
    washes: list[tuple[float, float]],
) -> None:
    alike = [DryingPair(Lab(ll, 0, c), Lab(ll + 2.3, 0, c - 3)) for ll, c in washes]
    shift = shift_of(alike)
    assert shift is not None
    assert shift.left_out == pytest.approx(0.0, abs=1e-4)
    assert shift.mean.lightness == pytest.approx(2.3)
    assert shift.mean.chroma == pytest.approx(-3.0)


def test_a_single_patch_tells_a_shift_but_not_how_sure_it_is() -> None:
    shift = shift_of([DryingPair(Lab(40, 0, 20), Lab(42, 0, 18))])
    assert shift is not None
    assert (shift.pairs, shift.spread, shift.standard_error, shift.left_out) == (1, *[None] * 3)
    assert shift.mean.lightness == 2.0


def test_without_a_patch_there_is_no_shift() -> None:
    assert shift_of([]) is None


@pytest.mark.parametrize(
    ("readings", "found"),
    [
        ([_read(WET, 40), _read(DRY, 42)], (40, 42)),  # the same day
        ([_read(DRY, 42), _read(WET, 40)], (40, 42)),  # whatever was recorded first
        ([_read(WET, 40), _read(DRY, 42, 3)], (40, 42)),
        ([_read(WET, 40, 1), _read(DRY, 42)], None),  # wetted again
        ([_read(WET, 40)], None),
        ([_read(DRY, 40)], None),
        ([], None),
        ([_read(WET, 40), _read(WET, 30, 2), _read(DRY, 42, 1)], (40, 42)),
        ([_read(WET, 40), _read(WET, 41), _read(DRY, 42), _read(DRY, 44)], (40.5, 43)),
        ([_read(WET, 40), _read(DRY, 42, 1), _read(DRY, 60, 400)], (40, 42)),  # faded since
        (
            [_read(WET, 40, 0, Method.CAMERA), _read(WET, 38), _read(DRY, 42)],
            (38, 42),
        ),
        ([_read(WET, 40, 0, Method.CAMERA), _read(DRY, 42)], (40, 42)),
        (
            [_read(WET, 40), _read(DRY, 42), _read(DRY, 48, 0, Method.CAMERA)],
            (40, 42),
        ),
    ],
)
def test_a_pair_is_wet_before_the_first_dry_day_read_alike(
    readings: list[Reading], found: tuple[float, float] | None
) -> None:
    pair = pair_of(readings)
    assert (None if pair is None else (pair.wet.lightness, pair.dry.lightness)) == found
