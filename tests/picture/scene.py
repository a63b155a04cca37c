"""A scene as a camera of known sensitivities would record it, from spectra: chart, paper, swatches.

Spectra of the 24 patches: BabelColor's average of 30 charts, through colour-science. Swatches are
paint films by Beer's law over paper (products of powers of two of those spectra), so that none of
them is a patch of the chart. Expected Lab: ASTM E308 under D50 for 2 degrees.
"""

import io
import warnings
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
import numpy.typing as npt
from PIL import Image

from studio.colour.reflectance import Reflectance
from studio.colour.science import reflectance_to_lab
from studio.picture.chart import Chart, row_by_row
from studio.picture.homography import from_corners

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import colour

Floats = npt.NDArray[np.float64]

SHAPE = colour.SpectralShape(400, 700, 10)
CAMERAS = ("Nikon 5100 (NPL)", "Sigma SDMerill (NPL)")
WIDTH, HEIGHT = 900, 640
CORNERS = np.array([[70.0, 60.0], [610.0, 80.0], [590.0, 425.0], [85.0, 440.0]])
AREAS = {f"S{number + 1}": (60 + 95 * number, 500, 70, 80) for number in range(8)}
PAPERS = ((640, 60, 60, 60), (800, 60, 60, 60), (640, 380, 60, 60), (820, 540, 50, 60))


def _sd(sd: Any) -> Floats:
    return np.asarray(sd.copy().align(SHAPE).values, dtype=np.float64)


@cache
def chart_spectra() -> tuple[tuple[str, ...], Floats]:
    """Names and (24, 31) reflectance of the patches."""
    spectra = colour.SDS_COLOURCHECKERS["BabelColor Average"]
    return tuple(spectra), np.array([_sd(sd) for sd in spectra.values()])


def lab_of(reflectance: Floats) -> Floats:
    """(n, 3) Lab under D50/2° of (n, 31) reflectances."""
    return np.array(
        [reflectance_to_lab(Reflectance(400, 10, tuple(r))).coordinates for r in reflectance]
    )


@cache
def chart_24() -> Chart:
    """The chart with the Lab of its own spectra."""
    names, spectra = chart_spectra()
    return row_by_row("the chart", names, lab_of(spectra), 6)


PAPER = np.linspace(0.84, 0.89, 31)


@cache
def swatch_spectra() -> dict[str, Floats]:
    """Films of paint on paper, by Beer's law."""
    _, patches = chart_spectra()
    pairs = ((0, 6), (7, 11), (15, 5), (14, 10), (4, 20), (8, 15), (13, 12), (2, 17))
    return {
        name: PAPER * (patches[a] / 0.9) ** 0.6 * (patches[b] / 0.9) ** 0.3
        for name, (a, b) in zip(AREAS, pairs, strict=True)
    }


@dataclass(frozen=True)
class Light:
    """What the scene is lit and recorded by."""

    illuminant: str = "D65"
    camera: str = CAMERAS[0]
    falloff: tuple[float, float] = (0.0, 0.0)
    noise: float = 0.004
    exposure: float = 0.9
    tone: float = 0.0
    seed: int = 7


DAYLIGHT = Light()


def render(light: Light = DAYLIGHT, corners: Floats = CORNERS, scale: float = 1.0) -> bytes:
    """An sRGB PNG of 8 bits: chart on black card, swatches on paper, lit, seen, noisy, encoded.

    `falloff` is the fall of the logarithm of light over the whole width and height; `tone` bends
    the encoded values to an S, as cameras do.
    """
    width, height = int(WIDTH * scale), int(HEIGHT * scale)
    spectra, labels = _scene(width, height, corners * scale, scale)
    response = _camera(light)
    exposed = spectra @ response
    image = exposed[labels] * light.exposure
    x, y = np.meshgrid(np.linspace(-0.5, 0.5, width), np.linspace(-0.5, 0.5, height))
    image *= np.exp(-light.falloff[0] * x - light.falloff[1] * y)[..., None]
    rng = np.random.default_rng(light.seed)
    image += rng.normal(0.0, light.noise, image.shape) * np.sqrt(np.maximum(image, 0.0) + 0.01)
    encoded: Floats = np.clip(np.asarray(colour.cctf_encoding(np.clip(image, 0, None))), 0, 1)
    encoded = encoded + light.tone * (encoded**2 * (3 - 2 * encoded) - encoded)
    return png(np.rint(255 * np.clip(encoded, 0, 1)).astype(np.uint8))


def png(pixels: npt.NDArray[Any], **options: Any) -> bytes:
    """Pixels as a PNG file."""
    file = io.BytesIO()
    Image.fromarray(pixels).save(file, "PNG", **options)
    return file.getvalue()


def _scene(width: int, height: int, corners: Floats, scale: float) -> tuple[Floats, Any]:
    _, patches = chart_spectra()
    chart = chart_24()
    black = np.full(31, 0.035)
    spectra = np.concatenate([[PAPER], [black], patches, list(swatch_spectra().values())])
    labels = np.zeros((height, width), np.intp)
    x, y = np.meshgrid(np.arange(width) + 0.5, np.arange(height) + 0.5)
    back = from_corners(corners).inverse
    u, v = back(np.column_stack([x.ravel(), y.ravel()])).T.reshape(2, height, width)
    labels[(u > -0.03) & (u < 1.03) & (v > -0.045) & (v < 1.045)] = 1
    # Gaps of a sixth of the pitch; the corners are the outer corners of the corner patches.
    gap = 1 / 7
    for index, (row, column) in enumerate(chart.cells):
        pitch_u, pitch_v = 1 / (6 - gap), 1 / (4 - gap)
        left, top = column * pitch_u, row * pitch_v
        inside = (u >= left) & (u < left + (1 - gap) * pitch_u)
        labels[inside & (v >= top) & (v < top + (1 - gap) * pitch_v)] = index + 2
    for index, (left, top, across, down) in enumerate(AREAS.values()):
        sides = [round(number * scale) for number in (left - 8, top - 8, across + 16, down + 16)]
        labels[sides[1] : sides[1] + sides[3], sides[0] : sides[0] + sides[2]] = index + 26
    return spectra, labels


def _camera(light: Light) -> Floats:
    """(31, 3) from reflectance to linear sRGB: sensitivities, white balance, a fixed matrix."""
    msds = colour.MSDS_CAMERA_SENSITIVITIES[light.camera].copy().align(SHAPE)
    illuminant = _sd(colour.SDS_ILLUMINANTS[light.illuminant])
    raw = np.asarray(msds.values) * illuminant[:, None]
    balanced = raw / raw.sum(axis=0)
    # The matrix a maker would have fitted for a mean camera; rows sum to 1, so greys stay grey.
    matrix = np.array([[1.6, -0.5, -0.1], [-0.2, 1.5, -0.3], [0.0, -0.4, 1.4]])
    result: Floats = balanced @ matrix.T
    return result
