"""The demo's photographed sheet: a chart of 24 patches and six painted offcuts, from spectra."""

import warnings
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFont

from seed_demo.optics import START, STEP, WAVELENGTHS, FloatArray
from seed_demo.picture_tools import clouds, ease, grain, shape

with warnings.catch_warnings():
    # colour-science warns of plotting libraries that the demo does not need.
    warnings.simplefilter("ignore")
    import colour

WIDTH: Final = 640
HEIGHT: Final = 480

OFFCUTS: Final = {"A": "S74", "B": "S76", "C": "S79", "D": "S151", "E": "S115", "F": "S100"}
"""Letter pencilled beside each offcut -> the demo's swatch whose spectrum it has."""

AREA: Final = (5.0, 76.0, 8.0, 11.0)
PITCH: Final = 16.0
"""Where to read A: left, top, width and height in percent; each next one is so far to the right."""

LIGHT: Final = "LED-B3"
CAMERA: Final = "Nikon 5100 (NPL)"
EXPOSURE: Final = 0.86
FALLOFF: Final = (0.12, -0.08)
"""Fall of the logarithm of light over the whole width and height."""
NOISE: Final = 0.003

_CORNERS: Final = ((62.0, 30.0), (488.0, 38.0), (481.0, 310.0), (57.0, 304.0))
_CARD: Final = 0.035
_CARD_EDGE: Final = 11.0
_GAP: Final = 1.0 / 7.0
_OVERLAP: Final = 2.0
_PENCIL: Final = 0.35
_MATRIX: Final = ((1.6, -0.5, -0.1), (-0.2, 1.5, -0.3), (0.0, -0.4, 1.4))
"""From white-balanced camera values to linear sRGB, as a maker would fix it; greys stay grey."""


def areas() -> dict[str, tuple[float, float, float, float]]:
    """Left, top, width and height, in percent, of where to read each offcut."""
    left, *others = AREA
    return {
        letter: (left + PITCH * place, others[0], others[1], others[2])
        for place, letter in enumerate(OFFCUTS)
    }


def scan(paper: FloatArray, paints: dict[str, FloatArray]) -> NDArray[np.uint8]:
    """(480, 640, 3) sRGB levels of the sheet as a camera records it under a lamp.

    Args:
        paper: reflectance of the sheet, on the demo's wavelengths.
        paints: reflectance of each swatch in `OFFCUTS`.
    """
    seen = _response()
    ground = paper @ seen
    image = np.broadcast_to(ground, (HEIGHT, WIDTH, 3)).copy()
    image *= 1.0 + 0.006 * clouds(HEIGHT, WIDTH, (3, 3), 101)[..., None]
    _lay_chart(image, seen)
    for letter, area in areas().items():
        _lay_offcut(image, area, paints[OFFCUTS[letter]] @ seen, ord(letter))
    image *= 1.0 - (1.0 - _PENCIL) * _letters()[..., None]
    across, down = np.linspace(-0.5, 0.5, WIDTH), np.linspace(-0.5, 0.5, HEIGHT)[:, None]
    image *= EXPOSURE * np.exp(-FALLOFF[0] * across - FALLOFF[1] * down)[..., None]
    for channel in range(3):
        noise = NOISE * grain(HEIGHT, WIDTH, 111 + channel)
        image[..., channel] += noise * np.sqrt(np.maximum(image[..., channel], 0.0) + 0.01)
    encoded = np.asarray(colour.cctf_encoding(np.clip(image, 0.0, 1.0)))
    return np.asarray(np.rint(255.0 * np.clip(encoded, 0.0, 1.0)), dtype=np.uint8)


def _on_the_demos_wavelengths(values: Any) -> FloatArray:  # noqa: ANN401 - colour-science has no types
    shape_ = colour.SpectralShape(START, int(WAVELENGTHS[-1]), STEP)
    return np.asarray(values.copy().align(shape_).values, dtype=np.float64)


def _response() -> FloatArray:
    """(36, 3) from reflectance to linear sRGB: sensitivities, white balance, a fixed matrix."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        sensitivities = _on_the_demos_wavelengths(colour.MSDS_CAMERA_SENSITIVITIES[CAMERA])
        light = _on_the_demos_wavelengths(colour.SDS_ILLUMINANTS[LIGHT])
    raw = sensitivities * light[:, None]
    return np.asarray((raw / raw.sum(axis=0)) @ np.array(_MATRIX).T)


def _lay_chart(image: FloatArray, seen: FloatArray) -> None:
    """Patches of BabelColor's average of 30 charts on black card, laid a little askew."""
    corners = np.array(_CORNERS)
    middle = corners.mean(axis=0)
    outward = np.sign(corners - middle) * _CARD_EDGE
    card = shape(HEIGHT, WIDTH, [(float(x), float(y)) for x, y in corners + outward])
    image += card[..., None] * (np.full(len(seen), _CARD) @ seen - image)
    spectra = colour.SDS_COLOURCHECKERS["BabelColor Average"].values()
    for index, patch in enumerate(spectra):
        row, column = divmod(index, 6)
        left, top = column / (6 - _GAP), row / (4 - _GAP)
        right, bottom = left + (1 - _GAP) / (6 - _GAP), top + (1 - _GAP) / (4 - _GAP)
        places = ((left, top), (right, top), (right, bottom), (left, bottom))
        cover = shape(HEIGHT, WIDTH, [_on_the_chart(u, v) for u, v in places])
        image += cover[..., None] * (_on_the_demos_wavelengths(patch) @ seen - image)


def _on_the_chart(u: float, v: float) -> tuple[float, float]:
    """Pixels of a place in the unit square over the chart, between its four corners."""
    a, b, c, d = (np.array(corner) for corner in _CORNERS)
    x, y = (1 - v) * ((1 - u) * a + u * b) + v * ((1 - u) * d + u * c)
    return float(x), float(y)


def _lay_offcut(
    image: FloatArray, area: tuple[float, float, float, float], wash: FloatArray, seed: int
) -> None:
    """A wash somewhat larger than the area to read, its edge uneven and a little darker."""
    left, top, width, height = (
        part / 100.0 * side for part, side in zip(area, (WIDTH, HEIGHT) * 2, strict=True)
    )
    x, y = np.arange(WIDTH) + 0.5, (np.arange(HEIGHT) + 0.5)[:, None]
    inside = np.minimum(
        np.minimum(x - left, left + width - x), np.minimum(y - top, top + height - y)
    )
    inside = inside + 11.0 + 1.1 * clouds(HEIGHT, WIDTH, (17, 17), seed)
    cover = ease(inside / _OVERLAP + 0.5)[..., None]
    rim = 0.12 * np.exp(-(((inside - 2.0) / 1.6) ** 2))
    tooth = 0.012 * clouds(HEIGHT, WIDTH, (2.5, 2.5), seed + 50)
    image += cover * (wash * (1.0 - rim + tooth)[..., None] - image)


def _letters() -> FloatArray:
    """Share of graphite in each pixel: a letter under each offcut."""
    sheet = Image.new("L", (WIDTH // 2, HEIGHT // 2))
    draw = ImageDraw.Draw(sheet)
    font = ImageFont.load_default_imagefont()
    for letter, (left, top, width, height) in areas().items():
        place = (left + width / 2) / 200 * WIDTH - 3, (top + height) / 200 * HEIGHT + 8
        draw.text(place, letter, fill=255, font=font)
    large = sheet.resize((WIDTH, HEIGHT), Image.Resampling.BILINEAR)
    return np.asarray(large, dtype=np.float64) / 255.0
