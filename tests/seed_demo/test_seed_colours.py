"""The demo's washes keep their hue and chroma as those of real watercolours do.

What was measured of real paints stands in `measured_washes.py` with its source. Those washes are
strong (the palest ultramarine has L* 36), so hue and drift are compared from the demo's strongest
wash to one of four parts of water; how far a hue moves in paler washes is bounded for itself.
"""

from functools import cache
from itertools import pairwise
from typing import Final

import numpy as np
import pytest

from seed_demo import optics, swatch_spectra
from seed_demo.plan_paints import FILM
from tests.seed_demo.measured_washes import MEASURED

STRONG: Final = (0.5, 1, 2, 4)
EVERY: Final = (*STRONG, 7, 10, 16)
"""Parts of water to one of paint: the demo's washes reach from the first to the last."""

OWN_HUE: Final = 3.0
"""Degrees by which another make of the same pigment may lie beside the measured one (common
practice, no source)."""

ALIKE: Final = {
    "FU": "ultramarine",
    "PYR": "red",
    "CR": "red",
    "AC": "crimson",
    "HY": "lemon yellow",
    "SG": "green",
    "PBG": "phthalo blue",
}
"""Paints of a kind that was measured."""

AS_STEADY: Final = {**ALIKE, "BS": "brown", "BU": "brown", "RS": "ochre", "YO": "ochre",
                    "LR": "red", "DV": "violet blue", "IB": "violet blue"}  # fmt: skip
"""The same and paints of another hue whose kind was measured."""

PALE_DRIFT: Final = 28.0
"""No measured hue moved further than a green's 27.5 degrees; the demo's may not either, down to its
palest washes."""


@cache
def _wash(code: str, water: float) -> tuple[float, float, float]:
    """L*, C* and the hue angle of a wash, degrees."""
    lightness, a, b = optics.lab(swatch_spectra.film(f"1 {code}", water)).coordinates
    return lightness, float(np.hypot(a, b)), float(np.degrees(np.arctan2(b, a)) % 360)


def _hues(code: str, waters: tuple[float, ...]) -> list[float]:
    """Hue angles without a jump at 360."""
    return [float(hue) for hue in np.unwrap([_wash(code, w)[2] for w in waters], period=360)]


@pytest.mark.parametrize(("code", "kind"), ALIKE.items())
def test_a_strong_wash_has_the_hue_that_was_measured(code: str, kind: str) -> None:
    low, high = MEASURED[kind].hues
    hues = _hues(code, STRONG)
    assert min(hues) > low - OWN_HUE
    assert max(hues) < high + OWN_HUE


@pytest.mark.parametrize(("code", "kind"), AS_STEADY.items())
def test_a_hue_is_as_steady_as_was_measured(code: str, kind: str) -> None:
    hues = _hues(code, STRONG)
    assert max(hues) - min(hues) < MEASURED[kind].drift + OWN_HUE


@pytest.mark.parametrize("code", [code for code in FILM if code not in {"TW", "BT"}])
def test_no_hue_moves_further_than_any_that_was_measured(code: str) -> None:
    """Down to the palest wash; the reds and the ultramarine, which kept still, by half of it."""
    assert max(washes.drift for washes in MEASURED.values()) < PALE_DRIFT
    hues = _hues(code, EVERY)
    steady = code in {"FU", "PYR", "CR", "LR", "HY", "AC", "QM"}
    assert max(hues) - min(hues) < PALE_DRIFT * (0.53 if steady else 1.0)


def test_reds_stay_red_in_tints() -> None:
    """A thin cadmium or pyrrol red does not turn pink."""
    for code in ("CR", "PYR", "LR"):
        hues = _hues(code, EVERY)
        assert max(hues) - min(hues) < 5.5
        assert min(hues) > 28


@pytest.mark.parametrize(("code", "kind"), ALIKE.items())
def test_chroma_peaks_where_it_was_measured_to(code: str, kind: str) -> None:
    _, highest = MEASURED[kind].chromas
    assert max(_wash(code, water)[1] for water in EVERY) == pytest.approx(highest, abs=6.0)


def test_no_wash_is_more_brilliant_than_any_that_was_measured() -> None:
    brightest = max(washes.chromas[1] for washes in MEASURED.values())
    assert max(_wash(code, water)[1] for code in FILM for water in EVERY) <= brightest


def test_full_strength_is_duller_than_a_wash_and_water_makes_it_lighter() -> None:
    """The masstone of each measured paint is its dullest wash, or within a tenth of it."""
    for code in set(FILM) - {"TW", "BT"}:
        lights, chromas, _ = zip(*(_wash(code, water) for water in EVERY), strict=True)
        assert all(darker < lighter for darker, lighter in pairwise(lights))
        assert chromas[0] <= chromas[1] + 0.5


def test_ultramarine_and_an_earth_make_a_grey() -> None:
    """As paints 9 and 3 of the data do, whose mixtures have a* -2 to 0 and b* 0 to -10."""
    for recipe in ("1 FU + 1 BS", "2 FU + 3 BS", "1 FU + 1 BU"):
        for water in (1, 4):
            _, a, b = optics.lab(swatch_spectra.film(recipe, water)).coordinates
            assert abs(a) < 6, recipe
            assert np.hypot(a, b) < 18, recipe


def test_ultramarine_and_a_yellow_earth_make_an_olive_not_a_violet() -> None:
    """As its strong mixtures with paint 6 of the data, an ochre, whose a* is -5 to 0."""
    for water in (1, 4):
        _, a, b = optics.lab(swatch_spectra.film("3 RS + 1 FU", water)).coordinates
        assert -10 < a < 0 < b < 25


def test_spectra_keep_to_a_paint_at_either_end_of_the_range() -> None:
    """Earths, reds and yellows reflect on beyond 660 nm; blues reflect the violet as well."""
    for code in ("BS", "RS", "YO", "RU", "BU", "LR", "PYR", "CR", "HY", "CB", "CE"):
        wash = swatch_spectra.film(f"1 {code}", 1)
        assert wash[-6:].min() > 0.8 * wash[28], code
    for code in ("FU", "CB"):
        wash = swatch_spectra.film(f"1 {code}", 1)
        assert wash[:5].min() > 0.5 * wash.max(initial=0.0, where=np.arange(36) < 12), code
