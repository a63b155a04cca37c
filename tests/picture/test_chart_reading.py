"""A rendered chart, under known lights and through known cameras, returns its Lab.

Source of what is expected: ASTM E308 of the spectra that were rendered; see scene.py.
"""

import io
from functools import cache

import numpy as np
import numpy.typing as npt
import pytest
from PIL import Image, ImageFilter

from studio.colour.lab_arrays import Floats, delta_e
from studio.errors import BadInput
from studio.picture.area_reading import AreaReading, read_area
from studio.picture.chart_reading import ChartReading, read_chart
from studio.picture.decoding import Picture, from_bytes
from studio.picture.find_chart import find_chart
from studio.picture.sampling import area_sample
from studio.picture.spots import Spot, spot_of_area
from tests.picture.scene import (
    AREAS,
    CAMERAS,
    CORNERS,
    PAPERS,
    Light,
    chart_24,
    lab_of,
    png,
    render,
    swatch_spectra,
)

SCALE = 0.6
CHART = chart_24()
DAYLIGHT = Light()
PLACED = CORNERS * SCALE
TRUE = lab_of(np.array(list(swatch_spectra().values())))


@cache
def scene(light: Light) -> Picture:
    return from_bytes(render(light, scale=SCALE), "tide.png")


def pixels_of(light: Light = DAYLIGHT) -> npt.NDArray[np.uint8]:
    return scene(light).pixels.astype(np.uint8)


def spot(picture: Picture, area: tuple[int, int, int, int]) -> Spot:
    text = ",".join(str(round(number * SCALE)) for number in area)
    return spot_of_area(text, picture.width, picture.height)


def swatches(picture: Picture, reading: ChartReading) -> list[AreaReading]:
    return [read_area(picture, name, spot(picture, area), reading) for name, area in AREAS.items()]


LIGHTS = [
    Light(),
    Light("A"),
    Light("LED-B3"),
    Light("FL11"),
    Light(camera=CAMERAS[1]),
    Light("LED-B3", CAMERAS[1]),
    Light(falloff=(0.3, 0.1)),
    Light("LED-B3", falloff=(-0.4, 0.2)),
    Light(tone=0.6),
    Light("A", tone=0.6, falloff=(0.3, 0.0)),
    Light(noise=0.02),
]


@pytest.mark.parametrize("light", LIGHTS, ids=str)
def test_swatches_are_read_within_the_error_that_is_claimed(light: Light) -> None:
    picture = scene(light)
    reading = read_chart(picture, CHART, PLACED)
    errors = delta_e(np.array([one.lab for one in swatches(picture, reading)]), TRUE)
    assert errors.max() <= reading.fit.most
    # The mean of eight is as sure as their own standard error.
    assert errors.mean() <= reading.fit.mean + errors.std() / np.sqrt(len(errors))
    assert reading.fit.mean < 3


def test_under_daylight_and_a_good_camera_the_error_is_below_one() -> None:
    reading = read_chart(scene(Light()), CHART, PLACED)
    assert reading.fit.mean < 1
    assert reading.refused == ()
    assert not reading.turned
    assert reading.falloff.share == 0


def test_falloff_is_evened_out() -> None:
    light = Light(falloff=(0.4, 0.2))
    picture = scene(light)
    reading = read_chart(picture, CHART, PLACED)
    assert 0.15 < reading.falloff.share < 0.35
    assert reading.falloff.towards == "the lower right"
    uneven = delta_e(np.array([one.lab for one in swatches(picture, reading)]), TRUE)
    assert uneven.max() < 2


def test_paper_at_four_places_settles_the_falloff() -> None:
    picture = scene(Light(falloff=(0.4, 0.2)))
    papers = []
    for area in PAPERS:
        place = spot(picture, area)
        papers.append((np.array(place.middle), area_sample(picture, place).luminance))
    reading = read_chart(picture, CHART, PLACED, papers)
    slope = np.array([-0.4 / picture.width, -0.2 / picture.height])
    places = np.array([spot(picture, area).middle for area in AREAS.values()])
    expected = np.exp((places - reading.falloff.origin) @ slope)
    np.testing.assert_allclose(reading.falloff.light(places), expected, rtol=0.025)
    assert reading.falloff.paper is not None
    assert reading.falloff.paper < 0.02


@pytest.mark.parametrize("turns", [1, 2, 3])
def test_the_first_corner_may_be_any(turns: int) -> None:
    picture = scene(Light())
    reading = read_chart(picture, CHART, np.roll(PLACED, turns, axis=0))
    assert reading.turned
    np.testing.assert_allclose(reading.corners, PLACED)


def test_a_chart_whose_letters_are_columns_is_read_too() -> None:
    reading = read_chart(scene(Light()), CHART.transposed, PLACED)
    assert (reading.chart.rows, reading.chart.columns) == (4, 6)
    np.testing.assert_allclose(reading.corners, PLACED)


def test_overexposed_patches_are_left_out_with_the_reason() -> None:
    reading = read_chart(scene(Light(exposure=1.3)), CHART, PLACED)
    reasons = {patch.name: patch.refusal for patch in reading.refused}
    assert "white 9.5 (.05 D)" in reasons
    assert reasons["white 9.5 (.05 D)"] == (
        "it is overexposed: 100 % of its pixels are at full scale"
    )
    errors = delta_e(
        np.array([one.lab for one in swatches(scene(Light(exposure=1.3)), reading)]), TRUE
    )
    assert errors.max() <= reading.fit.most


def test_a_patch_outside_the_colour_space_is_left_out_with_the_reason() -> None:
    (cyan,) = read_chart(scene(Light("A")), CHART, PLACED).refused
    assert cyan.name == "cyan"
    assert cyan.refusal is not None
    assert cyan.refusal.startswith("it lies outside the picture's colour space: ")


def glare(pixels: npt.NDArray[np.uint8], middle: tuple[int, int], radius: int) -> Picture:
    y, x = np.indices(pixels.shape[:2])
    away = np.hypot(x - middle[0], y - middle[1])
    add = 90 * np.exp(-((away / radius) ** 2))
    return from_bytes(png(np.clip(pixels + add[..., None], 0, 250).astype(np.uint8)), "tide.png")


def test_a_glaring_patch_is_left_out_with_the_reason() -> None:
    picture = glare(pixels_of(), (70, 62), 14)
    (patch,) = read_chart(picture, CHART, PLACED).refused
    assert patch.name == "dark skin"
    assert patch.refusal is not None
    assert patch.refusal.startswith("it is uneven, by L* ")
    assert patch.refusal.endswith(": glare, a shadow or an edge")


def test_patches_outside_the_picture_are_left_out_with_the_reason() -> None:
    cut = 80
    picture = from_bytes(png(np.ascontiguousarray(pixels_of()[:, cut:])), "tide.png")
    reading = read_chart(picture, CHART, PLACED - [cut, 0])
    assert len(reading.refused) == 4
    assert {patch.refusal for patch in reading.refused} == {"it lies outside the picture"}


def refusal(picture: Picture, corners: Floats = PLACED) -> str:
    with pytest.raises(BadInput) as refused:
        read_chart(picture, CHART, corners)
    return str(refused.value)


def test_too_many_lost_patches_are_refused() -> None:
    said = refusal(scene(Light(exposure=2.6)))
    assert "of 24 patches cannot be read (" in said
    assert said.endswith("take the picture again, darker and without glare")


def test_blur_is_refused() -> None:
    with Image.open(io.BytesIO(render(scale=SCALE))) as image:
        blurred = png(np.asarray(image.filter(ImageFilter.GaussianBlur(14))))
    said = refusal(from_bytes(blurred, "tide.png"))
    assert "that the picture is sharp" in said or "the colours at these corners" in said


def test_corners_of_something_else_are_refused() -> None:
    elsewhere = np.array([[30.0, 290], [500, 290], [500, 360], [30, 360]])
    assert refusal(scene(Light()), elsewhere).startswith(
        "the colours at these corners are not those of the chart: whichever way up, half of them"
    )


def test_small_patches_are_refused() -> None:
    with Image.open(io.BytesIO(render(scale=SCALE))) as image:
        small = png(np.asarray(image.resize((image.width // 6, image.height // 6))))
    said = refusal(from_bytes(small, "tide.png"), PLACED / 6)
    assert said.startswith("the chart's patches are only ")
    assert said.endswith("10 are needed; go nearer, or scan at a higher resolution")


def test_steep_falloff_is_refused() -> None:
    assert refusal(scene(Light(falloff=(1.6, 0.0), exposure=0.5))).startswith("the light falls by ")


@pytest.mark.parametrize(
    ("light", "turns"),
    [
        (DAYLIGHT, 0),
        (DAYLIGHT, 1),
        (DAYLIGHT, 2),
        (DAYLIGHT, 3),
        (Light("A", noise=0.01), 1),
        (Light(falloff=(0.4, 0.3)), 2),
    ],
)
def test_the_chart_is_found_and_its_top_left_known(light: Light, turns: int) -> None:
    pixels = np.rot90(pixels_of(light), turns)
    picture = from_bytes(png(np.ascontiguousarray(pixels)), "tide.png")
    expected = PLACED
    height, width = pixels_of(light).shape[:2]
    for _ in range(turns):
        expected = np.column_stack([expected[:, 1], width - expected[:, 0]])
        height, width = width, height
    # The gaps between the patches are a seventh of the pitch; half of it lies beyond the corners.
    np.testing.assert_allclose(find_chart(picture, CHART), expected, atol=7)


def test_a_chart_found_reads_as_well_as_one_given() -> None:
    picture = scene(Light())
    found = read_chart(picture, CHART, find_chart(picture, CHART))
    errors = delta_e(np.array([one.lab for one in swatches(picture, found)]), TRUE)
    assert errors.max() <= found.fit.most < 2


@pytest.mark.parametrize("kind", ["noise", "even", "swatches alone", "other chart"])
def test_what_is_no_chart_is_not_found(kind: str) -> None:
    rng = np.random.default_rng(9)
    pixels = pixels_of().copy()
    if kind == "noise":
        pixels = rng.integers(0, 256, (300, 400, 3), dtype=np.uint8)
    elif kind == "even":
        pixels = np.full((300, 400, 3), 180, np.uint8)
    elif kind == "swatches alone":
        pixels = pixels[280:]
    else:
        colours = rng.integers(30, 230, (4, 6, 3), dtype=np.uint8)
        pixels = np.full((300, 440, 3), 20, np.uint8)
        for row, column in np.ndindex(4, 6):
            pixels[20 + 66 * row : 74 + 66 * row, 20 + 66 * column : 74 + 66 * column] = colours[
                row, column
            ]
    with pytest.raises(BadInput, match=r"was not found in tide\.png for certain; give the outer"):
        find_chart(from_bytes(png(pixels), "tide.png"), CHART)
