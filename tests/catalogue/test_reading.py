"""A reading is stored under one white; a swatch is searched by the mean of its dry readings."""

import csv
import math
from datetime import date
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.actions.make_reading import Circumstances, reading_of_lab, reading_of_spectrum
from studio.catalogue.reading import (
    ADAPTATION_ERRORS,
    Method,
    Origin,
    Reading,
    State,
    representative,
)
from studio.colour.difference import ciede2000
from studio.colour.lab import Lab
from studio.colour.reflectance import Reflectance
from studio.colour.science import adapted, reflectance_to_lab
from studio.errors import BadInput
from studio.mixing.film import reflectance_from_ratio

axes = st.floats(-100.0, 100.0)
labs = st.builds(Lab, st.floats(0.0, 100.0), axes, axes)

ROOT = Path(__file__).resolve().parents[2]


def _reading(lab: Lab, state: State = State.DRY) -> Reading:
    return Reading(
        lab=lab,
        given=lab,
        origin=Origin.MEASURED,
        spectrum=None,
        state=state,
        method=Method.SPECTROPHOTOMETER,
        instrument=None,
        condition=None,
        error=None,
        read_on=date(2026, 3, 14),
    )


@given(labs, st.sampled_from(State))
def test_a_single_reading_stands_for_itself(lab: Lab, state: State) -> None:
    assert representative((_reading(lab, state),)) == (state, lab)


@given(st.lists(labs, min_size=1, max_size=8))
def test_several_stand_by_their_mean(several: list[Lab]) -> None:
    _, found = representative(tuple(map(_reading, several)))
    for axis, value in enumerate(found.coordinates):
        mean = math.fsum(lab.coordinates[axis] for lab in several) / len(several)
        assert value == pytest.approx(mean, abs=1e-9)
    assert found.is_standard


@given(st.lists(labs, min_size=1, max_size=4), st.lists(labs, max_size=4))
def test_wet_readings_do_not_count_beside_dry_ones(dry: list[Lab], wet: list[Lab]) -> None:
    # Swatches are judged dry: common practice, no source.
    dry_readings = [_reading(lab) for lab in dry]
    wet_readings = [_reading(lab, State.WET) for lab in wet]
    found = representative((*wet_readings, *dry_readings))
    assert found == representative(tuple(dry_readings))
    assert found[0] is State.DRY


def test_wet_readings_count_while_there_are_no_dry_ones() -> None:
    readings = (_reading(Lab(50, 0, 0), State.WET), _reading(Lab(60, 10, -20), State.WET))
    assert representative(readings) == (State.WET, Lab(55, 5, -10))


def test_the_mean_of_white_is_white() -> None:
    assert representative((_reading(Lab(100, 0, 0)),) * 7)[1] == Lab(100, 0, 0)


def test_without_a_reading_there_is_no_colour() -> None:
    with pytest.raises(BadInput, match="at least one reading"):
        representative(())


@pytest.mark.parametrize("white", [("D65", 2), ("D50", 10), ("A", 10)])
def test_a_reading_under_another_white_must_be_converted_first(white: tuple[str, int]) -> None:
    with pytest.raises(BadInput, match="stored under D50 for the 2 degree observer"):
        _reading(Lab(50, 1, 2, *white))


def test_what_was_given_may_be_under_another_white() -> None:
    given_as = Lab(50, 1, 2, "D65", 10)
    reading = Reading(
        Lab(50, 2, 1),
        given_as,
        Origin.ADAPTED,
        None,
        State.DRY,
        Method.COLORIMETER,
        None,
        None,
        None,
        date(2026, 3, 14),
    )
    assert reading.given.white == ("D65", 10)
    assert reading.lab.is_standard


def _spectra() -> list[Reflectance]:
    """27 acrylics (Okumura 2005), opaque and let down with white, and 24 chart patches."""
    with (ROOT / "shared" / "okumura2005_k_s_27_acrylics.csv").open(encoding="utf-8") as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
    nm = [name for name in rows[0] if name.isdecimal()]
    paints: dict[str, dict[str, np.ndarray]] = {}
    for row in rows:
        numbers = np.array([float(row[name]) for name in nm])
        paints.setdefault(row["paint"], {})[row["coef"]] = numbers
    white = paints["Titanium White"]
    found = []
    for paint in paints.values():
        for share in (0.0, 0.5, 0.9, 0.98):
            k, s = (paint[each] * (1 - share) + white[each] * share for each in "KS")
            found.append(Reflectance(float(nm[0]), 10.0, tuple(reflectance_from_ratio(k / s))))
    patches = ROOT / "tests" / "published" / "babelcolor_average_24.csv"
    with patches.open(encoding="utf-8") as file:
        for row in csv.DictReader(line for line in file if not line.startswith("#")):
            values = tuple(float(row[f"R{place}"]) for place in range(380, 731, 10))
            found.append(Reflectance(380.0, 10.0, values))
    return found


SPECTRA = _spectra()


@pytest.mark.parametrize("white", ADAPTATION_ERRORS, ids=str)
def test_the_error_of_adapting_is_what_spectra_show(white: tuple[str, int]) -> None:
    apart = [
        ciede2000(adapted(reflectance_to_lab(each, *white)).coordinates, exact.coordinates)
        for each in SPECTRA
        for exact in [reflectance_to_lab(each)]
    ]
    assert len(apart) == 132
    assert ADAPTATION_ERRORS[white] == pytest.approx(np.mean(apart), abs=0.06)


def test_only_what_was_adapted_has_an_error_of_adapting() -> None:
    how = Circumstances(date(2026, 3, 14), Method.COLORIMETER, error=0.5)
    ten = reading_of_lab(Lab(50, 20, 30, "D65", 10), how)
    assert (ten.error, ten.adaptation_error) == (0.5, 2.2)
    assert reading_of_lab(Lab(50, 20, 30, "FL11", 2), how).adaptation_error == 2.2
    assert reading_of_lab(Lab(50, 20, 30), how).adaptation_error is None
    assert reading_of_spectrum(SPECTRA[0], how).adaptation_error is None
