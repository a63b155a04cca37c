"""The annotated copy shows the chart, what was left out, each area and its colour."""

import io
from dataclasses import replace
from functools import cache

import numpy as np
import numpy.typing as npt
from PIL import Image

from studio.actions.chart_file import open_chart
from studio.actions.open_picture import OpenPicture
from studio.actions.read_picture import KnownColours, PictureReading, read_picture
from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.picture.chart_reading import ChartReading
from studio.picture.decoding import from_bytes
from studio.picture.spots import spot_of_area
from studio.sheets.picture_reading_view import show_picture_reading
from studio.sheets.picture_words import basis_lines
from studio.sheets.reading_picture import reading_picture
from studio.sheets.screen import OUTSIDE, console_for
from tests.picture.scene import Light, render

AREA = "36,300,42,48"
RED = (200, 0, 0)


@cache
def read(light: Light, *, by_chart: bool = True) -> PictureReading:
    data = render(light, scale=0.6)
    opened = OpenPicture(from_bytes(data, "tide.png"), data)
    spot = spot_of_area(AREA, opened.picture.width, opened.picture.height)
    grey = spot_of_area("150,220,20,20", opened.picture.width, opened.picture.height)
    known = KnownColours(chart=open_chart("24")) if by_chart else KnownColours(grey=grey)
    return read_picture(opened, [("S12", spot)], known)


def pixels_of(png: bytes) -> npt.NDArray[np.uint8]:
    with Image.open(io.BytesIO(png)) as image:
        return np.asarray(image.convert("RGB"))


def count(pixels: npt.NDArray[np.uint8], colour: tuple[int, int, int]) -> int:
    return int((pixels == colour).all(axis=2).sum())


def test_patches_areas_and_words_are_drawn() -> None:
    reading = read(Light())
    pixels = pixels_of(reading_picture(reading))
    assert count(pixels, RED) == 0
    shown = on_screen(Lab(*reading.areas[0].lab)).rgb
    assert count(pixels[-120:, 60:150], shown) > 1000  # its patch below the picture
    plain = pixels_of(reading_picture(replace(reading, areas=())))
    assert pixels.shape[0] > plain.shape[0]


def test_what_was_left_out_is_crossed() -> None:
    reading = read(Light(exposure=1.3))
    pixels = pixels_of(reading_picture(reading))
    assert count(pixels, RED) > 100
    lines = basis_lines(reading)
    assert any(line.startswith("Left out white 9.5 (.05 D): it is overexposed") for line in lines)


def test_a_card_is_drawn_and_the_light_said_unknown() -> None:
    reading = read(Light(), by_chart=False)
    assert pixels_of(reading_picture(reading)).shape[1] > 1600
    assert (
        "How the light falls off is not known: chart or paper at three places would tell."
        in basis_lines(reading)
    )


def test_a_colour_outside_the_screen_is_marked_and_a_turned_chart_told() -> None:
    reading = read(Light())
    area = replace(reading.areas[0], lab=(60.0, -90.0, 20.0), notes=("it is far out",) * 12)
    marked = reading_picture(replace(reading, areas=(area,)))
    assert pixels_of(marked).shape[0] > pixels_of(reading_picture(reading)).shape[0]
    assert isinstance(reading.basis, ChartReading)
    turned = replace(reading, basis=replace(reading.basis, turned=True))
    assert any("lies otherwise than its corners" in line for line in basis_lines(turned))


def test_the_terminal_shows_each_area_with_error_place_and_notes() -> None:
    reading = read(Light())
    area = replace(reading.areas[0], lab=(60.0, -90.0, 20.0), notes=("it is far out",))
    out = io.StringIO()
    show_picture_reading(console_for(out), replace(reading, areas=(area,)))
    words = " ".join(out.getvalue().split())
    assert "L* 60.0 a* −90.0 b* +20.0 (D50/2°) error ΔE00 " in words
    assert f"area {AREA} px; varies by ΔE00 " in words
    assert "; it is far out" in words
    assert words.endswith(OUTSIDE)


def test_falloff_is_told() -> None:
    lines = basis_lines(read(Light(falloff=(0.4, 0.2))))
    assert any(
        line.startswith("The light falls by ") and "towards the lower right" in line
        for line in lines
    )
