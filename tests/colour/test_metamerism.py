"""The special metamerism index: the example of ISO 18314-4, by hand, and pairs of known index."""

from functools import cache
from typing import Final

import colour
import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from studio.colour.difference import Triple, cie76
from studio.colour.lab import Lab
from studio.colour.metamerism import (
    UnderLight,
    additive,
    lab_of_relative_xyz,
    multiplicative,
    relative_xyz,
    under_light,
)
from studio.colour.reflectance import Reflectance
from studio.colour.science import reflectance_to_lab, white_point

STANDARD: Final = (39.0908, -21.3269, 22.6657)
SAMPLE: Final = (38.83253, -19.8787, 20.0453)
STANDARD_UNDER_A: Final = (38.17781, -17.4939, 21.0618)
SAMPLE_UNDER_A: Final = (37.9013, -19.56327, 16.9346)
"""The worked example of ISO 18314-4:2024 (L*a*b*, D65 and A, 10 degrees), as colour-science
prints it in the docstring of `colour.difference.Lab_to_metamerism_index`."""

STANDARD_XYZ: Final = (7.6576, 10.7116, 5.0731)
SAMPLE_XYZ: Final = (7.6933, 10.5616, 5.54474)
STANDARD_XYZ_UNDER_A: Final = (8.96442, 10.1878, 1.6663)
SAMPLE_XYZ_UNDER_A: Final = (8.56438, 10.0324, 1.9315)
"""The same in XYZ, from the docstring of `colour.difference.XYZ_to_metamerism_index`."""

GRID: Final = np.arange(380.0, 731.0, 10.0)
TAN: Final = 0.12 + 0.45 / (1 + np.exp(-(GRID - 570) / 30))
"""Reflectance of a made-up tan wash, 380 to 730 nm by 10 nm."""

OBSERVER: Final = "CIE 1931 2 Degree Standard Observer"

light = st.sampled_from(("A", "D65", "FL2", "FL11", "LED-B3", "HP1"))


def _reflectance(values: np.ndarray) -> Reflectance:
    return Reflectance(380.0, 10.0, tuple(map(float, values)))


def _compared(standard: np.ndarray, sample: np.ndarray, name: str) -> UnderLight:
    one, other = _reflectance(standard), _reflectance(sample)
    return under_light(
        reflectance_to_lab(one),
        reflectance_to_lab(other),
        reflectance_to_lab(one, name),
        reflectance_to_lab(other, name),
    )


def test_the_example_of_iso_18314_4_by_the_additive_correction() -> None:
    corrected = additive(STANDARD, SAMPLE, SAMPLE_UNDER_A)
    assert cie76(STANDARD_UNDER_A, corrected) == pytest.approx(3.8268, abs=5e-5)


def test_the_example_of_iso_18314_4_by_the_multiplicative_correction() -> None:
    corrected = multiplicative(STANDARD, SAMPLE, SAMPLE_UNDER_A)
    assert corrected is not None
    assert cie76(STANDARD_UNDER_A, corrected) == pytest.approx(3.9842, abs=5e-5)


def test_a_pair_is_told_by_the_index_of_the_example() -> None:
    under = under_light(
        Lab(*STANDARD, "D65", 10),
        Lab(*SAMPLE, "D65", 10),
        Lab(*STANDARD_UNDER_A, "A", 10),
        Lab(*SAMPLE_UNDER_A, "A", 10),
    )
    assert under.light == "A"
    assert under.index == pytest.approx(3.8268, abs=5e-5)
    # 3.7907 in that docstring, from XYZ of four to five digits and the printed white of A.
    assert under.index_by_xyz == pytest.approx(3.7907, abs=5e-3)


def test_the_example_in_xyz_by_the_multiplicative_correction() -> None:
    white = tuple(100 * value for value in white_point("A", 10))

    def relative(xyz: Triple) -> Triple:
        x, y, z = (value / of for value, of in zip(xyz, white, strict=True))
        return x, y, z

    corrected = multiplicative(STANDARD_XYZ, SAMPLE_XYZ, SAMPLE_XYZ_UNDER_A)
    assert corrected is not None
    index = cie76(
        lab_of_relative_xyz(relative(STANDARD_XYZ_UNDER_A)),
        lab_of_relative_xyz(relative(corrected)),
    )
    assert index == pytest.approx(3.7907, abs=5e-4)


@given(*[st.tuples(st.floats(1, 99), st.floats(-60, 60), st.floats(-60, 60))] * 4)
def test_it_is_the_index_of_colour_science(
    standard: Triple, sample: Triple, standard_there: Triple, sample_there: Triple
) -> None:
    under = under_light(
        Lab(*standard), Lab(*sample), Lab(*standard_there, "A"), Lab(*sample_there, "A")
    )
    expected = colour.difference.Lab_to_metamerism_index(
        sample_there, standard_there, sample, standard, correction="Additive", method="CIE 1976"
    )
    assert under.index == pytest.approx(float(expected), abs=1e-9)


@given(*[st.tuples(st.floats(5, 95), st.floats(-30, 30), st.floats(-30, 30))] * 4)
def test_by_xyz_too_it_is_the_index_of_colour_science(
    standard: Triple, sample: Triple, standard_there: Triple, sample_there: Triple
) -> None:
    d50, lamp = (colour.XYZ_to_xy(np.array(white_point(name, 2))) for name in ("D50", "A"))
    xyz_there = colour.Lab_to_XYZ(sample_there, lamp), colour.Lab_to_XYZ(standard_there, lamp)
    xyz = colour.Lab_to_XYZ(sample, d50), colour.Lab_to_XYZ(standard, d50)
    assume(min(float(each.min()) for each in (*xyz, *xyz_there)) > 1e-3)
    under = under_light(
        Lab(*standard), Lab(*sample), Lab(*standard_there, "A"), Lab(*sample_there, "A")
    )
    expected = colour.difference.XYZ_to_metamerism_index(
        xyz_there[0],
        xyz_there[1],
        xyz[0],
        xyz[1],
        correction="Multiplicative",
        method="CIE 1976",
        illuminant=lamp,
    )
    assert under.index_by_xyz == pytest.approx(float(expected), abs=1e-6)


@given(st.tuples(st.floats(0, 100), st.floats(-60, 60), st.floats(-60, 60)))
def test_relative_xyz_and_lab_lead_to_each_other(lab: Triple) -> None:
    assert lab_of_relative_xyz(relative_xyz(lab)) == pytest.approx(lab, abs=1e-9)
    white = np.array(white_point("D50", 2))
    expected = colour.Lab_to_XYZ(lab, colour.XYZ_to_xy(white)) / white
    assert relative_xyz(lab) == pytest.approx(tuple(map(float, expected)), abs=1e-9)


@given(light)
def test_equal_spectra_match_under_every_light(name: str) -> None:
    under = _compared(TAN, TAN, name)
    assert (under.delta_e, under.index, under.breaks) == (0.0, 0.0, False)
    assert under.index_by_xyz == pytest.approx(0.0, abs=1e-9)


@given(light, st.floats(0.5, 1.2))
def test_of_a_scaled_spectrum_the_correction_in_xyz_leaves_nothing(name: str, by: float) -> None:
    under = _compared(TAN, by * TAN, name)
    assert under.index_by_xyz == pytest.approx(0.0, abs=1e-6)


@cache
def _weights(name: str) -> np.ndarray:
    """What each wavelength of the grid adds to XYZ under a light, by ASTM E308."""
    columns = []
    for index in range(len(GRID)):
        lone = np.zeros(len(GRID))
        lone[index] = 1.0
        columns.append(
            colour.sd_to_XYZ(
                colour.SpectralDistribution(lone, GRID),
                colour.MSDS_CMFS[OBSERVER],
                colour.SDS_ILLUMINANTS[name],
                method="ASTM E308",
            )
        )
    return np.array(columns)


def _black(*names: str) -> np.ndarray:
    """A metameric black under some lights, at most 0.1 high.

    Cohen and Kappauf (1982), "Metameric color stimuli, fundamental metamers, and Wyszecki's
    metameric blacks", American Journal of Psychology 95: what is left of any spectrum when its
    projection on the space of the weights is taken away.
    """
    weights = np.hstack([_weights(name) for name in names])
    waves = np.sin(GRID / 18.0) + 0.4 * np.cos(GRID / 31.0)
    black = waves - weights @ np.linalg.lstsq(weights, waves, rcond=None)[0]
    scaled: np.ndarray = 0.1 * black / np.abs(black).max()
    return scaled


@pytest.mark.filterwarnings("ignore")  # colour-science warns of extrapolation to the whole grid
@pytest.mark.parametrize("name", ["A", "FL2", "LED-B3"])
def test_a_metameric_black_is_seen_under_another_light_alone(name: str) -> None:
    under = _compared(TAN, TAN + _black("D50"), name)
    assert under.reference_delta_e == pytest.approx(0.0, abs=1e-6)
    assert under.delta_e > 0.5
    # Nothing is to be corrected, so that both indices are the plain difference under the light.
    there = [
        reflectance_to_lab(_reflectance(each), name).coordinates
        for each in (TAN, TAN + _black("D50"))
    ]
    assert under.index == pytest.approx(cie76(*there), abs=1e-6)
    assert under.index_by_xyz == pytest.approx(under.index, abs=1e-5)


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("name", ["A", "FL2", "LED-B3"])
def test_a_black_under_both_lights_has_no_index(name: str) -> None:
    black = _black("D50", name)
    assert np.abs(black).max() == pytest.approx(0.1)
    under = _compared(TAN, TAN + black, name)
    assert (under.reference_delta_e, under.delta_e, under.index) == pytest.approx(
        (0, 0, 0), abs=1e-6
    )
    assert under.index_by_xyz == pytest.approx(0.0, abs=1e-6)
    assert not under.breaks


@pytest.mark.parametrize("name", ["A", "D65", "FL2", "LED-B3"])
def test_both_corrections_are_those_computed_by_hand_from_published_tables(name: str) -> None:
    wavelengths = np.arange(380.0, 781.0, 5.0)
    one = 0.10 + 0.5 / (1 + np.exp(-(wavelengths - 560) / 25))
    other = one + 0.05 * np.sin((wavelengths - 380) / 25)
    functions = colour.MSDS_CMFS[OBSERVER].copy().align(colour.SpectralShape(380, 780, 5)).values

    def xyz(values: np.ndarray, illuminant: str) -> np.ndarray:
        power = colour.SDS_ILLUMINANTS[illuminant].copy()
        power = power.align(colour.SpectralShape(380, 780, 5)).values
        weights = power[:, None] * functions
        summed: np.ndarray = (values[:, None] * weights).sum(axis=0) / weights[:, 1].sum()
        return summed

    def lab(values: np.ndarray, illuminant: str) -> np.ndarray:
        ratio = np.cbrt(values / xyz(np.ones_like(one), illuminant))
        x, y, z = ratio  # every ratio here is well above the straight part of the formula
        return np.array([116 * y - 16, 500 * (x - y), 200 * (y - z)])

    wanted, made = xyz(one, "D50"), xyz(other, "D50")
    wanted_there, made_there = xyz(one, name), xyz(other, name)
    left = (lab(made_there, name) - lab(wanted_there, name)) - (
        lab(made, "D50") - lab(wanted, "D50")
    )
    scaled = lab(made_there * wanted / made, name) - lab(wanted_there, name)
    standard, sample = (
        Reflectance(380.0, 5.0, tuple(map(float, values))) for values in (one, other)
    )
    under = under_light(
        reflectance_to_lab(standard),
        reflectance_to_lab(sample),
        reflectance_to_lab(standard, name),
        reflectance_to_lab(sample, name),
    )
    assert under.index == pytest.approx(float(np.linalg.norm(left)), abs=0.02)
    assert under.index_by_xyz == pytest.approx(float(np.linalg.norm(scaled)), abs=0.02)
    assert under.index > 0.3


def test_a_black_sample_has_no_factor() -> None:
    black, grey = Lab(0, 0, 0), Lab(50, 0, 0)
    under = under_light(grey, black, Lab(50, 0, 0, "A"), Lab(0, 0, 0, "A"))
    assert under.index_by_xyz is None
    assert under.index == pytest.approx(0.0)
    assert under_light(black, grey, Lab(0, 0, 0, "A"), Lab(50, 0, 0, "A")).index_by_xyz is not None


@pytest.mark.parametrize(
    ("here", "there", "breaks"),
    [(0.0, 3.0, True), (1.9, 2.1, True), (1.0, 1.9, False), (2.2, 6.0, False), (3.0, 0.0, False)],
)
def test_a_match_breaks_where_it_passed_and_no_longer_does(
    here: float, there: float, *, breaks: bool
) -> None:
    under = under_light(
        Lab(50, 0, 0), Lab(50 + here, 0, 0), Lab(50, 0, 0, "A"), Lab(50 + there, 0, 0, "A")
    )
    assert under.reference_delta_e == pytest.approx(here, rel=0.05)
    assert under.delta_e == pytest.approx(there, rel=0.05)
    assert under.breaks is breaks


@pytest.mark.parametrize("white", [("D65", 2), ("A", 10)])
def test_colours_of_two_whites_are_not_compared(white: tuple[str, int]) -> None:
    grey = Lab(50, 0, 0)
    with pytest.raises(ValueError, match="under one white"):
        under_light(grey, Lab(50, 0, 0, *white), grey, grey)
    with pytest.raises(ValueError, match="under one white"):
        under_light(grey, grey, grey, Lab(50, 0, 0, *white))
