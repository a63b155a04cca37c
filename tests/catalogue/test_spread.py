"""The spread of several readings and which of them stand out."""

from datetime import date
from statistics import fmean

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.catalogue.reading import Method, Origin, Reading, State, representative
from studio.catalogue.spread import spread_of
from studio.colour.difference import ciede2000
from studio.colour.lab import Lab

MUD = (41.0, 2.0, 12.0)
LABS = st.tuples(st.floats(0, 100), st.floats(-99, 99), st.floats(-99, 99))


def _reading(lab: tuple[float, float, float], state: State = State.DRY) -> Reading:
    colour = Lab(*lab)
    return Reading(
        colour, colour, Origin.MEASURED, None, state, Method.COLORIMETER, None, None, None,
        date(2026, 5, 4),
    )  # fmt: skip


def _readings(*labs: tuple[float, float, float]) -> list[Reading]:
    return [_reading(lab) for lab in labs]


def test_one_dry_reading_has_no_spread() -> None:
    assert spread_of([]) is None
    assert spread_of(_readings(MUD)) is None
    assert spread_of([_reading(MUD), _reading(MUD, State.WET)]) is None


def test_the_mcdm_is_the_mean_difference_from_the_mean() -> None:
    # Sharma, Wu and Dalal 2005: at L* 50 of a neutral, ΔE00 is ΔL* / S_L, with S_L near 1 there.
    spread = spread_of(_readings((49.0, 0.0, 0.0), (51.0, 0.0, 0.0)))
    assert spread is not None
    assert spread.mcdm == pytest.approx(1.0, abs=1e-3)
    assert (spread.count, spread.outliers) == (2, ())


@given(st.lists(LABS, min_size=2, max_size=9))
def test_the_mcdm_is_taken_from_the_colour_that_the_swatch_is_searched_by(
    labs: list[tuple[float, float, float]],
) -> None:
    readings = _readings(*labs)
    spread = spread_of(readings)
    assert spread is not None
    _, mean = representative(tuple(readings))
    apart = fmean(ciede2000(mean.coordinates, lab) for lab in labs)
    assert spread.mcdm == pytest.approx(apart, abs=1e-6)
    assert spread.count == len(labs)
    assert len(spread.outliers) < len(labs) / 2


def test_a_reading_beside_the_patch_stands_out_and_still_counts() -> None:
    labs = [(41.0, 2.0, 12.0), (41.3, 2.1, 12.2), (58.0, 1.0, 4.0), (40.8, 1.9, 11.7),
            (41.1, 2.2, 12.1)]  # fmt: skip
    wet = _reading((30.0, 2.0, 12.0), State.WET)
    readings = [wet, *_readings(*labs)]
    spread = spread_of(readings)
    assert spread is not None
    (outlier,) = spread.outliers
    assert readings[outlier.index].lab.lightness == 58.0
    assert outlier.delta_e == pytest.approx(ciede2000((41.1, 2.0, 12.0), labs[2]))
    assert spread.count == 5
    assert spread.mcdm > 4


def test_the_limit_is_that_of_iglewicz_and_hoaglin() -> None:
    # Neutrals at L* 50 + d: their ΔE00 from the median (50) is d / S_L; with distances of
    # 0, 1, 1, 1.2 and x, median 1, MAD 0.2, x stands out above 1 + 3.5·0.2/0.6745 = 2.038.
    def outliers(far: float) -> int:
        labs = [(50.0, 0.0, 0.0), (49.0, 0.0, 0.0), (51.0, 0.0, 0.0), (48.8, 0.0, 0.0),
                (50.0 + far, 0.0, 0.0)]  # fmt: skip
        spread = spread_of(_readings(*labs))
        assert spread is not None
        return len(spread.outliers)

    assert outliers(2.0) == 0
    assert outliers(2.1) == 1


def test_what_can_hardly_be_seen_never_stands_out() -> None:
    spread = spread_of(_readings(MUD, MUD, MUD, (41.6, 2.0, 12.0)))
    assert spread is not None
    assert spread.outliers == ()
    seen = spread_of(_readings(MUD, MUD, MUD, (43.0, 2.0, 12.0)))
    assert seen is not None
    assert [outlier.index for outlier in seen.outliers] == [3]


def test_of_two_readings_neither_stands_out() -> None:
    spread = spread_of(_readings(MUD, (80.0, 0.0, 0.0)))
    assert spread is not None
    assert spread.outliers == ()
