"""The screen shows the right sRGB, and says where it had to lower the chroma."""

import math
from itertools import product
from typing import Final

import colour
import numpy as np
import pytest
from coloraide import Color

from studio.colour.display import ScreenColour, on_screen
from studio.colour.lab import ILLUMINANTS, OBSERVERS, Lab

D50: Final = (0.3457, 0.3585)
D65: Final = (0.3127, 0.3290)
HAIR: Final = 5e-4
"""How far out of 0 to 1 a channel may lie and still count as inside."""


def _labs(rows: np.ndarray) -> list[Lab]:
    return [Lab(float(lightness), float(a), float(b)) for lightness, a, b in rows]


def _lab_by_colour_science(channels: np.ndarray) -> list[Lab]:
    """Lab (D50) of sRGB channels (0 to 1) by colour-science: sRGB -> XYZ -> Bradford -> Lab."""
    xyz = colour.sRGB_to_XYZ(channels)
    moved = colour.chromatic_adaptation(
        xyz,
        colour.xy_to_XYZ(np.array(D65)),
        colour.xy_to_XYZ(np.array(D50)),
        method="Von Kries",
        transform="Bradford",
    )
    return _labs(colour.XYZ_to_Lab(moved, np.array(D50)))


def _lab_by_coloraide(rgb: tuple[int, int, int]) -> tuple[float, float, float]:
    lightness, a, b = Color("srgb", [each / 255 for each in rgb]).convert("lab").coords()
    return lightness, a, b


def _anywhere(count: int) -> list[Lab]:
    rng = np.random.default_rng(42)
    low, high = (0.0, -128.0, -128.0), (100.0, 128.0, 128.0)
    return _labs(rng.uniform(low, high, (count, 3)))


def _outside() -> list[Lab]:
    return [lab for lab in _anywhere(1500) if not on_screen(lab).in_gamut]


def test_colours_of_colour_science_come_back_to_the_8_bit_value() -> None:
    wanted = np.random.default_rng(8).integers(1, 255, (3000, 3))
    shown = [on_screen(lab) for lab in _lab_by_colour_science(wanted / 255)]
    assert [screen.rgb for screen in shown] == [tuple(map(int, row)) for row in wanted]
    assert all(screen.in_gamut for screen in shown)


def test_colours_of_coloraide_come_back_to_the_8_bit_value() -> None:
    rng = np.random.default_rng(9)
    for row in rng.integers(0, 256, (2000, 3)):
        red, green, blue = map(int, row)
        lightness, a, b = _lab_by_coloraide((red, green, blue))
        lab = Lab(min(100.0, max(0.0, lightness)), a, b)
        assert on_screen(lab) == ScreenColour((red, green, blue), in_gamut=True)


def test_a_colour_is_flagged_exactly_where_a_channel_leaves_the_screen() -> None:
    for lab in _anywhere(3000):
        channels = Color("lab", lab.coordinates).convert("srgb").coords()
        inside = all(-HAIR <= channel <= 1 + HAIR for channel in channels)
        assert on_screen(lab).in_gamut == inside, lab


def test_most_colours_tried_lie_outside_and_some_inside() -> None:
    assert 500 < len(_outside()) < 1500


def test_outside_the_gamut_the_lightness_is_kept() -> None:
    for lab in _outside():
        # Half an 8-bit step and the hair allowed beyond the gamut.
        assert _lab_by_coloraide(on_screen(lab).rgb)[0] == pytest.approx(lab.lightness, abs=0.5)


def test_outside_the_gamut_the_hue_is_kept() -> None:
    for lab in _outside():
        _, a, b = _lab_by_coloraide(on_screen(lab).rgb)
        angle = math.radians(lab.hue)
        aside = b * math.cos(angle) - a * math.sin(angle)
        along = a * math.cos(angle) + b * math.sin(angle)
        assert abs(aside) < 1.0, lab
        assert along > -1.0, lab


def test_outside_the_gamut_the_chroma_is_lowered_to_the_edge_and_no_further() -> None:
    for lab in _outside():
        shown = on_screen(lab)
        _, a, b = _lab_by_coloraide(shown.rgb)
        assert math.hypot(a, b) < lab.chroma + 1.0
        assert min(shown.rgb) == 0 or max(shown.rgb) == 255, lab


@pytest.mark.parametrize(
    ("lab", "hex_code", "inside"),
    [
        (Lab(100, 0, 0), "#ffffff", True),
        (Lab(0, 0, 0), "#000000", True),
        (Lab(100, 30, 40), "#ffffff", False),
        (Lab(0, -30, 40), "#000000", False),
    ],
)
def test_white_and_black_have_no_chroma_on_the_screen(
    lab: Lab,
    hex_code: str,
    inside: bool,  # noqa: FBT001 - what is expected
) -> None:
    assert on_screen(lab).hex == hex_code
    assert on_screen(lab).in_gamut is inside


def test_a_hex_code_has_two_digits_for_each_channel() -> None:
    assert ScreenColour((0, 10, 255), in_gamut=True).hex == "#000aff"


@pytest.mark.parametrize(
    ("illuminant", "observer"),
    [white for white in product(ILLUMINANTS, OBSERVERS) if white != ("D50", 2)],
)
def test_a_colour_under_another_white_is_refused(illuminant: str, observer: int) -> None:
    with pytest.raises(ValueError, match="only Lab under D50/2° can be shown"):
        on_screen(Lab(50, 0, 0, illuminant, observer))
