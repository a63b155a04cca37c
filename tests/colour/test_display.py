"""The screen shows the right sRGB, and outside it the nearest, with how far off that is."""

from itertools import product
from typing import Final

import colour
import numpy as np
import pytest
from coloraide import Color
from colour.models.datasets.pointer_gamut import (
    CCS_ILLUMINANT_POINTER_GAMUT,
    DATA_POINTER_GAMUT_VOLUME,
)

from studio.colour.difference import ciede2000
from studio.colour.display import ScreenColour, mark_of, on_screen
from studio.colour.lab import ILLUMINANTS, OBSERVERS, Lab

D50: Final = (0.3457, 0.3585)
D65: Final = (0.3127, 0.3290)
HAIR: Final = 5e-4
"""How far out of 0 to 1 a channel may lie and still count as inside."""


def _labs(rows: np.ndarray) -> list[Lab]:
    return [Lab(float(lightness), float(a), float(b)) for lightness, a, b in rows]


def _lab_by_colour_science(channels: np.ndarray) -> np.ndarray:
    """Lab (D50) of sRGB channels (0 to 1) by colour-science: sRGB -> XYZ -> Bradford -> Lab."""
    xyz = colour.sRGB_to_XYZ(channels)
    moved = colour.chromatic_adaptation(
        xyz,
        colour.xy_to_XYZ(np.array(D65)),
        colour.xy_to_XYZ(np.array(D50)),
        method="Von Kries",
        transform="Bradford",
    )
    return np.asarray(colour.XYZ_to_Lab(moved, np.array(D50)))


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
    shown = [on_screen(lab) for lab in _labs(_lab_by_colour_science(wanted / 255))]
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


def _strongest_surfaces(count: int) -> list[Lab]:
    """Surface colours outside sRGB, spread over all, and two paints that showed the fault.

    M. R. Pointer, "The Gamut of Real Surface Colours", Color Research & Application 5(3), 1980, as
    carried by colour-science: L*, C*ab and hue of the strongest surfaces measured, illuminant C.
    """
    lightness, chroma, hue = np.transpose(DATA_POINTER_GAMUT_VOLUME)
    angle = np.radians(hue)
    strongest = np.column_stack([lightness, chroma * np.cos(angle), chroma * np.sin(angle)])
    under_c = colour.Lab_to_XYZ(strongest, CCS_ILLUMINANT_POINTER_GAMUT)
    moved = colour.chromatic_adaptation(
        under_c,
        colour.xy_to_XYZ(CCS_ILLUMINANT_POINTER_GAMUT),
        colour.xy_to_XYZ(np.array(D50)),
        method="Von Kries",
        transform="Bradford",
    )
    labs = _labs(colour.XYZ_to_Lab(moved, np.array(D50)))
    outside = [lab for lab in labs if not on_screen(lab).in_gamut]
    return [Lab(91, 2, 99), Lab(47, -75, -7), *outside[:: len(outside) // count]][:count]


def _surface_of_srgb() -> np.ndarray:
    """(n, 3) channels, 0 to 1: every third 8-bit step on the six faces of the cube."""
    steps = np.linspace(0.0, 1.0, 86)
    one, other = (grid.ravel() for grid in np.meshgrid(steps, steps))
    faces = [
        np.insert(np.column_stack([one, other]), axis, end, axis=1)
        for axis in range(3)
        for end in (0.0, 1.0)
    ]
    return np.concatenate(faces)


def test_the_strongest_surface_colours_are_shown_as_near_as_srgb_can() -> None:
    """At most ΔE00 0.5 above the best of 44,376 colours on the surface of sRGB, all compared."""
    candidates = _lab_by_colour_science(_surface_of_srgb())
    surfaces = _strongest_surfaces(30)
    assert len(surfaces) == 30
    for lab in surfaces:
        shown = on_screen(lab)
        best = colour.delta_E(candidates, np.array(lab.coordinates), method="CIE 2000").min()
        assert shown.off <= best + 0.5, lab
        assert not shown.in_gamut


def test_how_far_off_the_screen_is_is_said_rightly() -> None:
    """By coloraide's Lab of what is shown and colour-science's ΔE00."""
    for lab in (*_strongest_surfaces(30), *_outside()[:200]):
        shown = on_screen(lab)
        seen = np.array(_lab_by_coloraide(shown.rgb))
        apart = colour.delta_E(np.array(lab.coordinates), seen, method="CIE 2000")
        assert shown.off == pytest.approx(apart, abs=1e-4)
    assert on_screen(Lab(50, 0, 0)).off == 0.0


def test_hansa_yellow_is_no_custard() -> None:
    """It was ΔE00 10.0 off with its chroma lowered at constant lightness."""
    hansa = on_screen(Lab(91, 2, 99))
    assert hansa.off == pytest.approx(2.74, abs=0.01)
    assert hansa.mark == "*2.7"


def test_a_mark_says_by_how_much_above_two() -> None:
    assert on_screen(Lab(50, 0, 0)).mark == ""
    assert ScreenColour((255, 0, 0), in_gamut=False, off=2.0).mark == "*"
    assert ScreenColour((255, 0, 0), in_gamut=False, off=2.04).mark == "*2.0"
    assert mark_of(Lab(50, 0, 0), Lab(91, 2, 99)) == "*2.7"
    assert mark_of(Lab(50, 0, 0)) == ""


def test_outside_the_gamut_no_neighbour_of_what_is_shown_is_nearer() -> None:
    for lab in _outside()[:150]:
        shown = on_screen(lab)
        assert min(shown.rgb) == 0 or max(shown.rgb) == 255, lab
        for way in product((-1, 0, 1), repeat=3):
            red, green, blue = (
                min(255, max(0, value + step)) for value, step in zip(shown.rgb, way, strict=True)
            )
            seen = _lab_by_coloraide((red, green, blue))
            assert ciede2000(lab.coordinates, seen) >= shown.off - 1e-6, lab


@pytest.mark.parametrize(
    ("lab", "hex_code", "inside"),
    [
        (Lab(100, 0, 0), "#ffffff", True),
        (Lab(0, 0, 0), "#000000", True),
    ],
)
def test_white_and_black_are_white_and_black(
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
