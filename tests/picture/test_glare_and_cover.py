"""Soft glare on a swatch is told and plain washes are not; a covered chart is read from the rest.

Source of what is expected: ASTM E308 of the spectra that were rendered; see scene.py.
"""

from functools import cache
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest

from studio.colour.lab_arrays import Floats, delta_e
from studio.picture.area_reading import AreaReading, compared, read_area
from studio.picture.chart_reading import read_chart
from studio.picture.decoding import Picture, from_bytes
from studio.picture.spots import Spot, spot_of_area
from tests.picture.scene import (
    AREAS,
    CAMERAS,
    CORNERS,
    Light,
    chart_24,
    lab_of,
    png,
    render,
    swatch_spectra,
)

SCALE = 0.6
TRUE = lab_of(np.array(list(swatch_spectra().values())))
SPOTS = [
    spot_of_area(",".join(str(round(n * SCALE)) for n in area), 540, 384) for area in AREAS.values()
]
LIGHTS = (Light(), Light("A"), Light("LED-B3", CAMERAS[1]), Light(tone=0.6), Light(noise=0.02))


@cache
def pixels_of(light: Light) -> npt.NDArray[np.uint8]:
    return from_bytes(render(light, scale=SCALE), "tide.png").pixels.astype(np.uint8)


def picture_of(pixels: npt.NDArray[np.uint8]) -> Picture:
    return from_bytes(png(pixels), "tide.png")


def changed(factor: npt.NDArray[Any], added: npt.NDArray[Any]) -> Picture:
    """The daylight scene with its linear light multiplied and added to, (height, width) each."""
    encoded = pixels_of(Light()) / 255
    linear = np.where(encoded <= 0.04045, encoded / 12.92, ((encoded + 0.055) / 1.055) ** 2.4)
    linear = np.clip(linear * factor[..., None] + added[..., None], 0.0, 1.0)
    again = np.where(linear <= 0.0031308, 12.92 * linear, 1.055 * linear ** (1 / 2.4) - 0.055)
    return picture_of(np.rint(255 * again).astype(np.uint8))


def veil(spot: Spot, radius: float, strength: float) -> Floats:
    y, x = np.indices((384, 540))
    left, top = spot.middle[0] - 0.4 * radius, spot.middle[1] + 0.3 * radius
    return strength * np.exp(-((x - left) ** 2 + (y - top) ** 2) / (2 * radius**2))


def is_told(area: AreaReading) -> bool:
    return any("as under soft glare" in note for note in area.notes)


@pytest.mark.parametrize("radius", [20, 35, 60])
def test_soft_glare_is_told_and_enlarges_the_error(radius: float) -> None:
    ones = np.ones((384, 540))
    for number, spot in enumerate(SPOTS):
        picture = changed(ones, veil(spot, radius, 0.12))
        area = read_area(picture, "S1", spot, read_chart(picture, chart_24(), CORNERS * SCALE))
        missed = float(delta_e(np.array([area.lab]), TRUE[number : number + 1])[0])
        assert area.most is not None
        assert missed <= area.most
        if missed > 7:
            assert is_told(area), (number, missed)
            assert area.error > 5


@pytest.mark.parametrize("light", LIGHTS, ids=str)
def test_plain_washes_are_not_taken_for_glare(light: Light) -> None:
    picture = picture_of(pixels_of(light))
    reading = read_chart(picture, chart_24(), CORNERS * SCALE)
    assert not any(is_told(read_area(picture, "S1", spot, reading)) for spot in SPOTS)


def test_mottled_washes_and_weaker_light_are_not_taken_for_glare() -> None:
    rng = np.random.default_rng(5)
    coarse = np.kron(rng.normal(1.0, 0.04, (64, 90)), np.ones((6, 6)))
    falling = np.linspace(1.0, 0.85, 540)[None] * np.ones((384, 1))
    for factor in (coarse, falling):
        picture = changed(factor, np.zeros((384, 540)))
        reading = read_chart(picture, chart_24(), CORNERS * SCALE)
        told = [is_told(read_area(picture, "S1", spot, reading)) for spot in SPOTS]
        assert sum(told) == 0


def test_two_places_of_one_swatch_are_compared() -> None:
    picture = picture_of(pixels_of(Light()))
    reading = read_chart(picture, chart_24(), CORNERS * SCALE)
    first, other = (read_area(picture, "S1", spot, reading) for spot in SPOTS[:2])
    apart = float(delta_e(np.array([first.lab]), np.array([other.lab]))[0])
    both = compared([first, other])
    for before, after in zip((first, other), both, strict=True):
        assert f"another place of S1 reads ΔE00 {apart:.1f} otherwise" in after.notes[-1]
        assert after.error > max(before.error, apart)
    again = read_area(picture, "S1", SPOTS[0], reading)
    assert compared([first, again]) == (first, again)


COVERS = {
    "a third by white paper": ((0, 0, 160, 285), (235, 233, 225)),
    "a hand along the top": ((230, 30, 540, 160), (200, 150, 120)),
    "almost half by brown card": ((30, 30, 210, 285), (90, 60, 40)),
    "a row by black": ((0, 205, 540, 270), (20, 20, 20)),
    "one patch": ((45, 40, 95, 90), (240, 240, 240)),
}


@pytest.mark.parametrize("cover", COVERS)
@pytest.mark.parametrize(
    "light", [Light(), Light("LED-B3", CAMERAS[1]), Light(falloff=(0.4, 0.2))], ids=str
)
def test_a_partly_covered_chart_is_read_from_its_clean_patches(light: Light, cover: str) -> None:
    (left, top, right, bottom), colour = COVERS[cover]
    pixels = pixels_of(light).copy()
    pixels[top:bottom, left:right] = colour
    picture = picture_of(pixels)
    reading = read_chart(picture, chart_24(), CORNERS * SCALE)
    inside = [
        left <= x < right and top <= y < bottom
        for x, y in (patch.corners.mean(axis=0) for patch in reading.patches)
    ]
    refused = [patch.refusal is not None for patch in reading.patches]
    # A covered patch may happen to be of the colour that covers it.
    assert sum(refused) >= sum(inside) - 2
    assert not any(out and not covered for out, covered in zip(refused, inside, strict=True)) or (
        all("uneven" in (p.refusal or "") for p, c in zip(reading.patches, inside, strict=True)
            if p.refusal is not None and not c)
    )  # fmt: skip
    assert any("covered or soiled" in (patch.refusal or "") for patch in reading.refused)
    areas = [read_area(picture, "S1", spot, reading) for spot in SPOTS]
    missed = delta_e(np.array([area.lab for area in areas]), TRUE)
    within = [off <= (area.most or 0.0) for off, area in zip(missed, areas, strict=True)]
    assert sum(within) >= len(within) - 1


def test_a_whole_chart_loses_no_patch() -> None:
    for light in (Light(), Light("LED-B3"), Light("FL11"), Light(tone=0.6)):
        picture = picture_of(pixels_of(light))
        assert read_chart(picture, chart_24(), CORNERS * SCALE).refused == ()


@pytest.mark.parametrize("fall", [0.15, 0.35])
def test_paper_below_the_chart_alone_keeps_the_warning_and_does_no_harm(fall: float) -> None:
    """Three places in one row tell nothing of the light above, below or far to the side."""
    picture = from_bytes(render(Light(falloff=(fall, fall), exposure=0.8), scale=SCALE), "tide.png")
    corners = CORNERS * SCALE
    papers = [
        (np.array([x, 278.0]), float(picture.linear(picture.pixels[272:284, x - 6 : x + 6])
                                     .mean(axis=(0, 1)) @ [0.25, 0.65, 0.10]))
        for x in (90, 200, 310)
    ]  # fmt: skip
    bare, row = (
        read_chart(picture, chart_24(), corners),
        read_chart(picture, chart_24(), corners, papers),
    )
    errors = [
        delta_e(np.array([read_area(picture, "S1", s, each).lab for s in SPOTS]), TRUE).mean()
        for each in (bare, row)
    ]
    assert errors[1] <= errors[0] + 0.15
    far = np.array([2400.0, 60.0])
    assert bare.falloff.is_beyond(far)
    assert row.falloff.is_beyond(far)
    near = np.array([200.0, 300.0])
    assert row.falloff.doubt(near) <= bare.falloff.doubt(near)
    assert not row.falloff.is_beyond(near)
