"""Readings come from a Lab under any white, from a spectrum, or from a file with a spectrum."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Final

import numpy as np
import pytest

from studio.actions.make_reading import (
    Circumstances,
    lab,
    read_spectrum_file,
    reading_of_lab,
    reading_of_spectrum,
    spectrum,
)
from studio.catalogue.reading import Condition, Method, Origin, State
from studio.colour.lab import Lab
from studio.colour.reflectance import Reflectance
from studio.errors import BadInput
from tests.actions.conftest import DAY

HOW: Final = Circumstances(DAY, Method.COLORIMETER)
MUD: Final = tuple(0.05 + 0.004 * step for step in range(31))
"""Reflectance of wet mud from 400 to 700 nm by 10 nm, invented."""


def test_a_lab_under_d50_is_kept_as_it_was_measured() -> None:
    how = Circumstances(
        date(2026, 5, 6), Method.SPECTROPHOTOMETER, State.WET, " 45/0  head ", Condition.M1, 0.3,
        "at low water",
    )  # fmt: skip
    reading = reading_of_lab(Lab(42.0, 3.0, 9.0), how)
    assert reading.lab == reading.given == Lab(42.0, 3.0, 9.0)
    assert reading.origin is Origin.MEASURED
    assert reading.spectrum is None
    assert (reading.state, reading.method, reading.condition) == (
        State.WET, Method.SPECTROPHOTOMETER, Condition.M1,
    )  # fmt: skip
    assert (reading.instrument, reading.error, reading.note) == ("45/0 head", 0.3, "at low water")
    assert reading.read_on == date(2026, 5, 6)


def test_a_neutral_stays_neutral_under_every_white_and_is_marked_as_adapted() -> None:
    for illuminant in ("A", "C", "D55", "D65", "D75", "E", "FL2", "FL7", "FL11"):
        for observer in (2, 10):
            given = Lab(61.0, 0.0, 0.0, illuminant, observer)
            reading = reading_of_lab(given, HOW)
            assert reading.origin is Origin.ADAPTED
            assert reading.given == given
            assert reading.lab.is_standard
            assert reading.lab.coordinates == pytest.approx((61.0, 0.0, 0.0), abs=1e-9)


def _bradford(given: Lab, source: Sequence[float], target: Sequence[float]) -> list[float]:
    """Lab carried from one white to another with the matrix of ICC.1:2010, Annex E."""

    def xyz_of(l_star: float, a: float, b: float, white: Sequence[float]) -> np.ndarray:
        y = (l_star + 16) / 116
        cubes = [t**3 if t > 6 / 29 else 3 * (6 / 29) ** 2 * (t - 4 / 29)
                 for t in (y + a / 500, y, y - b / 200)]  # fmt: skip
        return np.multiply(cubes, white)

    bradford = np.array(
        [[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]]
    )
    gains = np.diag((bradford @ np.array(target)) / (bradford @ np.array(source)))
    moved = np.linalg.inv(bradford) @ gains @ bradford @ xyz_of(*given.coordinates, source)
    f = [t ** (1 / 3) if t > (6 / 29) ** 3 else t / (3 * (6 / 29) ** 2) + 4 / 29
         for t in moved / np.array(target)]  # fmt: skip
    return [116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])]


def test_a_lab_under_d65_is_carried_to_d50_by_the_bradford_matrix() -> None:
    d65, d50 = (0.95047, 1.0, 1.08883), (0.96422, 1.0, 0.82521)  # ICC.1 and ASTM E308, 4 decimals
    for coordinates in ((42.0, 3.0, 9.0), (60.0, -40.0, 20.0), (35.0, 20.0, -60.0)):
        given = Lab(*coordinates, "D65", 2)
        expected = _bradford(given, d65, d50)
        assert reading_of_lab(given, HOW).lab.coordinates == pytest.approx(expected, abs=0.02)


def test_a_lab_that_leaves_the_scale_when_adapted_is_refused() -> None:
    with pytest.raises(BadInput, match="cannot be adapted to D50: lightness"):
        reading_of_lab(Lab(99.0, -150.0, -100.0, "FL11", 10), HOW)


@pytest.mark.parametrize("error", [-0.1, 100.1, float("nan"), float("inf")])
def test_an_impossible_error_of_a_reading_is_refused(error: float) -> None:
    with pytest.raises(BadInput, match="the error in ΔE00"):
        reading_of_lab(Lab(42.0, 3.0, 9.0), Circumstances(DAY, Method.SCANNER, error=error))


def test_a_spectrum_is_kept_as_it_was_read_beside_its_colour() -> None:
    given = Reflectance(400.0, 10.0, MUD)
    reading = reading_of_spectrum(given, HOW)
    assert reading.origin is Origin.SPECTRUM
    assert reading.spectrum == given
    assert reading.lab == reading.given
    assert reading.lab.is_standard
    assert reading.lab.a > 0 < reading.lab.b  # it rises towards red


@pytest.mark.parametrize("fraction", [0.0, 0.01, 0.18, 0.5, 1.0])
def test_a_flat_spectrum_has_the_lightness_of_its_reflectance_and_no_colour(
    fraction: float,
) -> None:
    # CIE 15: L* = 116 (Y/Yn)^(1/3) - 16, below (6/29)^3 a straight line of slope 903.3.
    expected = 116 * fraction ** (1 / 3) - 16 if fraction > 0.00886 else 903.3 * fraction
    found = reading_of_spectrum(Reflectance(380.0, 10.0, (fraction,) * 36), HOW).lab
    assert found.lightness == pytest.approx(expected, abs=0.01)
    assert found.chroma < 0.02


def test_a_spectrum_brighter_than_white_has_no_place_on_the_scale() -> None:
    with pytest.raises(BadInput, match="no colour can be computed from this spectrum: lightness"):
        reading_of_spectrum(Reflectance(380.0, 10.0, (1.2,) * 36), HOW)


def test_typed_values_that_are_no_colour_or_spectrum_are_refused() -> None:
    assert lab(42.0, 3.0, 9.0, "D65", 10) == Lab(42.0, 3.0, 9.0, "D65", 10)
    assert spectrum(400.0, 10.0, MUD) == Reflectance(400.0, 10.0, MUD)
    for values in ((101.0, 0.0, 0.0, "D50", 2), (50.0, 0.0, 0.0, "D51", 2), (50.0, 0, 0, "D50", 4)):
        with pytest.raises(BadInput):
            lab(*values)
    with pytest.raises(BadInput, match="must cover 400 to 680 nm"):
        spectrum(400.0, 10.0, MUD[:-3])
    with pytest.raises(BadInput, match="not percent"):
        spectrum(400.0, 10.0, tuple(100 * value for value in MUD))


def _file(tmp_path: Path, lines: Sequence[str], encoding: str = "utf-8") -> Path:
    path = tmp_path / "mud.csv"
    path.write_text("\n".join(lines) + "\n", encoding=encoding)
    return path


LINES: Final = [f"{400 + 10 * step},{value!r}" for step, value in enumerate(MUD)]


@pytest.mark.parametrize(
    "lines",
    [
        LINES,
        ["wavelength (nm),reflectance", *LINES],
        ["", *LINES, "", " , "],
        [line.replace(",", ", ") for line in LINES],
    ],
)
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig"])
def test_a_file_of_wavelengths_and_reflectances_is_a_spectrum(
    tmp_path: Path, lines: list[str], encoding: str
) -> None:
    assert read_spectrum_file(_file(tmp_path, lines, encoding)) == Reflectance(400.0, 10.0, MUD)


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        ([], "fewer than two readings"),
        (["nm,R"], "fewer than two readings"),
        (["nm,R", "400,0.5"], "fewer than two readings"),
        ([*LINES, "715,0.2"], "must rise in equal steps"),
        ([*LINES[:5], *LINES[6:]], "must rise in equal steps"),
        (LINES[::-1], "the step of a spectrum is above 0"),
        ([*LINES[:3], "murky,0.5", *LINES[4:]], "is not a table of wavelength and reflectance"),
        ([*LINES[:3], "430", *LINES[4:]], "is not a table of wavelength and reflectance"),
        ([line.replace(",", ";") for line in LINES], "is not a table"),
        ([*LINES, "nan,0.5"], "must rise in equal steps"),
        ([*LINES[:-1], "700,nan"], "reflectance at 700 nm is nan"),
        ([*LINES[:-1], "700,-0.1"], "reflectance at 700 nm is -0.1"),
        ([f"{400 + 10 * step},{100 * value}" for step, value in enumerate(MUD)], "not percent"),
        (LINES[3:], "must cover 400 to 680 nm"),
    ],
)
def test_a_malformed_file_of_a_spectrum_is_refused(
    tmp_path: Path, lines: list[str], said: str
) -> None:
    with pytest.raises(BadInput, match=said):
        read_spectrum_file(_file(tmp_path, lines))


def test_a_file_that_is_no_text_or_not_there_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "mud.csv"
    with pytest.raises(BadInput, match="cannot be read: no such file"):
        read_spectrum_file(path)
    path.write_bytes(b"\xff\xfe4\x000\x000\x00")
    with pytest.raises(BadInput, match="is not a table"):
        read_spectrum_file(path)
    with pytest.raises(BadInput, match="cannot be read: is a directory"):
        read_spectrum_file(tmp_path)
