"""Lab of a spectrum: published charts, the perfect diffuser, other steps, and no mixed whites."""

import csv
import math
from collections.abc import Callable
from pathlib import Path
from statistics import mean
from typing import Final

import colour
import numpy as np
import pytest

from studio.colour.difference import Triple, cie76, ciede2000
from studio.colour.lab import ILLUMINANTS, OBSERVERS
from studio.colour.reflectance import Reflectance
from studio.colour.science import reflectance_to_lab, white_point

PUBLISHED: Final = Path(__file__).resolve().parents[1] / "published"
Curve = Callable[[float], float]

CURVES: Final[dict[str, Curve]] = {
    "a yellow": lambda nm: 0.05 + 0.8 / (1 + math.exp(-(nm - 510) / 12)),
    "a red": lambda nm: 0.04 + 0.7 / (1 + math.exp(-(nm - 600) / 15)),
    "a green": lambda nm: 0.06 + 0.4 * math.exp(-(((nm - 530) / 40) ** 2)),
    "a blue": lambda nm: 0.05 + 0.5 * math.exp(-(((nm - 455) / 35) ** 2)),
    "a grey": lambda nm: 0.3 + 0.0001 * (nm - 500),
}
"""Smooth spectra like those of paints, made up for these tests."""


def _sampled(curve: Curve, start: float, end: float, step: float) -> Reflectance:
    count = math.floor((end - start) / step + 1e-9) + 1
    return Reflectance(start, step, tuple(curve(start + step * index) for index in range(count)))


def _chart() -> list[tuple[dict[str, str], Reflectance]]:
    with (PUBLISHED / "babelcolor_average_24.csv").open(encoding="utf-8") as file:
        return [
            (row, Reflectance(380, 10, tuple(float(row[f"R{nm}"]) for nm in range(380, 731, 10))))
            for row in csv.DictReader(file)
        ]


def _columns(row: dict[str, str], kind: str) -> Triple:
    return float(row[f"L_{kind}"]), float(row[f"a_{kind}"]), float(row[f"b_{kind}"])


def test_the_24_patches_have_the_lab_of_their_spectra() -> None:
    # BabelColor averages (2012), tests/published/README.md: within 0.02 whatever the integration.
    chart = _chart()
    assert len(chart) == 24
    for row, spectrum in chart:
        lab = reflectance_to_lab(spectrum)
        assert lab.is_standard
        assert lab.coordinates == pytest.approx(_columns(row, "E308"), abs=0.02), row["patch"]


def test_the_24_patches_lie_as_far_from_their_published_colours_as_the_table_says() -> None:
    # The xyY beside the spectra were published on their own: BabelColor averages (2012).
    for row, spectrum in _chart():
        apart = cie76(reflectance_to_lab(spectrum).coordinates, _columns(row, "ref"))
        assert apart == pytest.approx(float(row["dE76"]), abs=0.03), row["patch"]


@pytest.mark.parametrize(
    ("step", "xyz", "within"),
    [
        (5, (14.54025742, 10.88576251, 2.04950226), 1e-5),
        (10, (14.54137532, 10.88641727, 2.04931318), 4e-4),
        (20, (14.54114025, 10.88634755, 2.04916445), 4e-4),
    ],
)
def test_the_sample_spectrum_has_the_xyz_that_colour_science_documents(
    step: int, xyz: Triple, within: float
) -> None:
    # colour-science 0.4.7 (BSD-3), tests of sd_to_XYZ_ASTME308: illuminant A, 2 degrees, 400-700.
    with (PUBLISHED / "astm_e308_sample_sd_colour_science.csv").open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    by_nm = {int(row["wavelength_nm"]): float(row["reflectance"]) for row in rows}
    sampled = tuple(by_nm[nm] for nm in range(400, 701, step))
    lab = reflectance_to_lab(Reflectance(400, step, sampled), "A", 2)
    white = colour.XYZ_to_xy(np.array(white_point("A", 2)))
    # Theirs takes A from Planck's law, this one from the CIE table: 0.0004 apart at most.
    found = tuple(100 * colour.Lab_to_XYZ(lab.coordinates, white))
    assert found == pytest.approx(xyz, abs=within)
    # The XYZ that ASTM E308's worked sample prints, whatever the interval.
    assert [round(axis, 2) for axis in found] == [14.54, 10.89, 2.05]


@pytest.mark.parametrize("illuminant", ILLUMINANTS)
@pytest.mark.parametrize("observer", OBSERVERS)
@pytest.mark.parametrize(("start", "step", "count"), [(380, 5, 81), (380, 10, 36), (400, 10, 31)])
def test_the_perfect_diffuser_is_white_under_every_illuminant(
    illuminant: str, observer: int, start: float, step: float, count: int
) -> None:
    lab = reflectance_to_lab(Reflectance(start, step, (1.0,) * count), illuminant, observer)
    assert lab.white == (illuminant, observer)
    assert lab.lightness == pytest.approx(100.0, abs=1e-6)
    # CIE 15 prints its chromaticities to four or five decimals; lamps with lines are coarser.
    assert lab.chroma < (0.3 if illuminant.startswith(("FL", "HP", "LED")) else 0.05)


@pytest.mark.parametrize("level", [0.0, 0.02, 0.18, 0.5, 0.9])
def test_an_even_spectrum_is_the_grey_of_its_reflectance(level: float) -> None:
    lab = reflectance_to_lab(Reflectance(380, 10, (level,) * 36))
    # L* = 116·∛Y - 16 above Y 0.008856, else 903.3·Y: CIE 15.
    expected = 116 * level ** (1 / 3) - 16 if level > 0.008856 else 903.3 * level
    assert lab.lightness == pytest.approx(expected, abs=1e-4)
    assert lab.chroma < 0.05


@pytest.mark.parametrize("name", CURVES)
@pytest.mark.parametrize(
    ("start", "end", "step", "within"),
    [
        (380, 730, 1, 0.02),
        (380, 730, 10, 0.1),
        (380, 720, 20, 0.6),
        (380, 730, 7, 0.05),
        (380, 725, 15, 0.3),
        (380, 730, 2, 0.02),
        (400, 700, 5, 0.2),
        (300, 900, 10, 0.1),
        (385, 725, 10, 0.1),
    ],
)
def test_other_steps_and_ends_give_nearly_the_same_colour(
    name: str, start: float, end: float, step: float, within: float
) -> None:
    best = reflectance_to_lab(_sampled(CURVES[name], 360, 780, 5))
    lab = reflectance_to_lab(_sampled(CURVES[name], start, end, step))
    assert ciede2000(best.coordinates, lab.coordinates) < within


@pytest.mark.parametrize("name", CURVES)
@pytest.mark.parametrize(
    ("start", "end", "step"),
    [
        (381, 731, 5),
        (383, 733, 5),
        (381, 731, 7),
        (380.5, 730.5, 1),
        (382.3, 732.3, 10),
        (396, 704.5, 3.5),
        (399, 707, 11),
        (380, 730, 3.3),
        (391, 711, 20),
    ],
)
def test_wavelengths_off_the_usual_grid_give_nearly_the_same_colour(
    name: str, start: float, end: float, step: float
) -> None:
    best = reflectance_to_lab(_sampled(CURVES[name], 360, 780, 5))
    lab = reflectance_to_lab(_sampled(CURVES[name], start, end, step))
    assert ciede2000(best.coordinates, lab.coordinates) < (0.6 if step > 10 else 0.25)


def test_a_fluorescing_white_beyond_the_diffuser_is_refused() -> None:
    with pytest.raises(ValueError, match="runs from 0 to 100"):
        reflectance_to_lab(Reflectance(400, 10, (1.2,) * 31))


@pytest.mark.parametrize("white", [("D65", 2), ("D50", 10), ("D65", 10), ("A", 2)])
def test_one_spectrum_under_another_white_is_another_lab(white: tuple[str, int]) -> None:
    apart = []
    for _, spectrum in _chart():
        here, there = reflectance_to_lab(spectrum), reflectance_to_lab(spectrum, *white)
        assert there.white == white
        apart.append(ciede2000(here.coordinates, there.coordinates))
    assert mean(apart) > 0.5
    assert max(apart) > 2.0
