"""Pigments photographed beside a chart, for the error that a reading claims: many small scenes.

Cameras: Nikon 5100 and Sigma SD Merrill by the National Physical Laboratory through colour-science;
Canon EOS 5D Mark II, Canon PowerShot S90, Nikon D7000 and Sony ILCE-7RM2 from the Academy's
rawtoaces (`tests/published/camera_sensitivities.csv`). Pigments: films of the 27 acrylics of
Okumura (2005) over paper by Kubelka and Munk. Lights: CIE illuminants through colour-science, and
their fall over the picture: a lamp or window by the inverse square of its distance and the cosine
of its incidence, and the corners of a lens by the fourth power of the cosine.

`whites` of a shot are bare paper: three or four in the corners of the picture, or five with one
below the chart.

Two sets that share no camera, no light source and no pigment: the error model is fitted on
`FITTED` and checked on `UNSEEN`.
"""

import csv
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Final

import colour
import numpy as np
import numpy.typing as npt

from studio.colour.lab_arrays import Floats, delta_e, lab_to_xyz
from studio.errors import BadInput
from studio.mixing.film import film_reflectance
from studio.picture.area_reading import AreaReading, read_area
from studio.picture.chart_reading import read_chart
from studio.picture.decoding import Picture, from_bytes
from studio.picture.reading_error import parts
from studio.picture.rgb_spaces import SRGB
from studio.picture.sampling import area_sample
from studio.picture.spots import Spot
from tests.picture.scene import PAPER, SHAPE, chart_24, chart_spectra, lab_of, png

ROOT: Final = Path(__file__).resolve().parents[2]
NPL: Final = ("Nikon 5100 (NPL)", "Sigma SDMerill (NPL)")
WASHES: Final = (0.15, 0.5, 1.5)
"""Thickness of the films, in Okumura's unit."""

WIDTH, HEIGHT, SIDE, PITCH = 420, 340, 12, 20
CHART_LEFT, CHART_TOP, CHART_PITCH, PATCH = 150, 40, 20, 17
"""Pixels. The chart is 120 x 80 of them; swatches lie around it, the farthest two breadths away."""


@dataclass(frozen=True)
class Set:
    """Cameras, light sources and pigments of one set."""

    cameras: tuple[str, ...]
    lights: tuple[str, ...]
    pigments: Floats


@dataclass(frozen=True)
class Shot:
    """What one scene is lit and recorded by.

    Args:
        camera: a name of `sensitivities`.
        light: a CIE illuminant.
        lamp: (x, y, height) in chart breadths from the picture's middle; None for even light.
        lens: half the field of view, radians; 0 for no darkening towards the corners.
        tone: how far the encoded values are bent to an S, 0 to 1.
        exposure: of a perfect white.
        noise: standard deviation of a pixel at full scale.
        whites: how many places on bare paper are shown.
        seed: of noise and of the places of the swatches.
    """

    camera: str
    light: str
    lamp: tuple[float, float, float] | None
    lens: float
    tone: float
    exposure: float
    noise: float
    whites: int
    seed: int


@dataclass(frozen=True)
class Outcome:
    """A swatch as it was read and as it is, the ΔE00 between both, and what it may err by."""

    shot: Shot
    read: AreaReading
    true: Floats
    missed: float
    parts: Floats


@cache
def sensitivities(camera: str) -> Floats:
    """(31, 3) relative sensitivities, 400 to 700 nm by 10."""
    if camera in NPL:
        msds = colour.MSDS_CAMERA_SENSITIVITIES[camera].copy().align(SHAPE)
        return np.asarray(msds.values, dtype=np.float64)
    path = ROOT / "tests" / "published" / "camera_sensitivities.csv"
    with path.open(encoding="utf-8") as file:
        rows = [row for row in csv.reader(file) if row[0] == camera]
    return np.array([[float(cell) for cell in row[2:]] for row in rows]).T


@cache
def okumura() -> dict[str, Floats]:
    """(washes, 31) reflectance of films of each paint but white over paper."""
    with (ROOT / "shared" / "okumura2005_k_s_27_acrylics.csv").open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    wanted = [str(nm) for nm in range(400, 701, 10)]
    found: dict[str, dict[str, Floats]] = {}
    for row in rows:
        values = np.array([float(row[nm]) for nm in wanted])
        found.setdefault(row["paint"], {})[row["coef"]] = values
    return {
        paint: np.array([np.asarray(film_reflectance(of["K"], of["S"], x, PAPER)) for x in WASHES])
        for paint, of in found.items()
        if paint != "Titanium White"
    }


def pigments(start: int) -> Floats:
    """(n, 31) films of every second paint, from the first or the second on."""
    return np.concatenate(list(okumura().values())[start::2])


def fitted(more: Floats | None = None) -> Set:
    """What the error model was fitted on; `more` reflectances (n, 31) may be added."""
    own = pigments(0)
    return Set(
        ("Nikon 5100 (NPL)", "Canon EOS 5D Mark II", "Canon PowerShot S90"),
        ("D65", "A", "LED-B3", "FL2", "FL11", "LED-V1"),
        own if more is None else np.concatenate([own, more]),
    )


def unseen(more: Floats | None = None) -> Set:
    """What it was checked on."""
    own = pigments(1)
    return Set(
        ("Sigma SDMerill (NPL)", "Nikon D7000", "Sony ILCE-7RM2"),
        ("D50", "D75", "LED-B1", "LED-B4", "FL10", "FL7"),
        own if more is None else np.concatenate([own, more]),
    )


def shots(of: Set, count: int, seed: int) -> list[Shot]:
    """Scenes drawn at random: every second in uneven light, every third with a tone curve."""
    rng = np.random.default_rng(seed)
    made = []
    for number in range(count):
        angle, away = rng.uniform(0, 2 * np.pi), rng.uniform(2.0, 6.0)
        lamp = (away * np.cos(angle), away * np.sin(angle), rng.uniform(4.0, 8.0))
        made.append(
            Shot(
                of.cameras[number % len(of.cameras)],
                of.lights[int(rng.integers(len(of.lights)))],
                lamp if rng.random() < 0.5 else None,
                float(rng.choice([0.0, 0.2, 0.35])),
                float(rng.choice([0.0, 0.0, 0.6])),
                float(rng.uniform(0.75, 0.92)),
                float(rng.choice([0.004, 0.01])),
                int(rng.choice([0, 0, 0, 3, 5])),
                int(rng.integers(1 << 30)),
            )
        )
    return made


def outcomes(of: Set, count: int, seed: int, swatches: int = 24) -> list[Outcome]:
    """Every swatch that could be read in so many scenes."""
    return [one for shot in shots(of, count, seed) for one in photographed(of, shot, swatches)]


def photographed(of: Set, shot: Shot, swatches: int) -> list[Outcome]:
    """Some of the pigments of a set in one scene, each as read and as it is."""
    rng = np.random.default_rng(shot.seed)
    chosen = rng.choice(len(of.pigments), swatches, replace=False)
    picture, spots, papers = _picture(of.pigments[chosen], shot, rng)
    chart = chart_24()
    left, top = float(CHART_LEFT), float(CHART_TOP)
    right, bottom = left + 5 * CHART_PITCH + PATCH, top + 3 * CHART_PITCH + PATCH
    corners = np.array([[left, top], [right, top], [right, bottom], [left, bottom]])
    seen = [(np.array(p.middle), area_sample(picture, p).luminance) for p in papers]
    try:
        reading = read_chart(picture, chart, corners, seen)
    except BadInput:
        return []
    true = reflectances_lab(of, chosen)
    found = []
    for spot, lab in zip(spots, true, strict=True):
        try:
            read = read_area(picture, "S1", spot, reading)
        except BadInput:
            continue
        missed = float(delta_e(np.array([read.lab]), lab[None])[0])
        linear = area_sample(picture, spot).linear
        why = parts(reading, linear, np.array(read.lab), np.array(spot.middle))
        found.append(Outcome(shot, read, lab, missed, why))
    return found


_LABS: dict[int, Floats] = {}


def reflectances_lab(of: Set, chosen: npt.NDArray[np.intp]) -> Floats:
    """(n, 3) Lab of some pigments of a set, kept, as it takes a while."""
    if id(of) not in _LABS:
        _LABS[id(of)] = lab_of(of.pigments)
    return _LABS[id(of)][chosen]


def _picture(
    spectra: Floats, shot: Shot, rng: np.random.Generator
) -> tuple[Picture, list[Spot], list[Spot]]:
    _, patches = chart_spectra()
    linear = np.concatenate([[PAPER, np.full(31, 0.035)], patches, spectra]) @ _camera(shot)
    labels = np.zeros((HEIGHT, WIDTH), np.intp)
    labels[CHART_TOP - 5 : CHART_TOP + 85, CHART_LEFT - 5 : CHART_LEFT + 125] = 1
    for index, (row, column) in enumerate(chart_24().cells):
        top, left = CHART_TOP + CHART_PITCH * row, CHART_LEFT + CHART_PITCH * column
        labels[top : top + PATCH, left : left + PATCH] = index + 2
    free = [
        (x, y)
        for y in range(8, HEIGHT - 40, PITCH + 6)
        for x in range(8, WIDTH - 40, PITCH + 6)
        if not (CHART_LEFT - 30 < x < CHART_LEFT + 130 and CHART_TOP - 30 < y < CHART_TOP + 90)
    ]
    order = rng.permutation(len(free))[: len(spectra)]
    spots = []
    for index, place in enumerate(order):
        left, top = free[place]
        labels[top : top + PITCH, left : left + PITCH] = index + 26
        spots.append(Spot(left + 4, top + 4, SIDE, SIDE, ""))
    corners = [(2, 2), (WIDTH - 14, 2), (2, HEIGHT - 14), (WIDTH - 14, HEIGHT - 14)]
    papers = [Spot(x, y, 10, 10, "") for x, y in [*corners, (CHART_LEFT + 60, 140)][: shot.whites]]
    image = linear[labels] * shot.exposure * _light(shot)[..., None]
    image += rng.normal(0.0, shot.noise, image.shape) * np.sqrt(np.maximum(image, 0.0) + 0.01)
    encoded = np.clip(np.asarray(colour.cctf_encoding(np.clip(image, 0, None))), 0, 1)
    encoded = encoded + shot.tone * (encoded**2 * (3 - 2 * encoded) - encoded)
    pixels = np.rint(255 * np.clip(encoded, 0, 1)).astype(np.uint8)
    return from_bytes(png(pixels, compress_level=0), "scene.png"), spots, papers


def _light(shot: Shot) -> Floats:
    """(height, width) light, 1 at its brightest."""
    x, y = np.meshgrid(np.arange(WIDTH) - WIDTH / 2, np.arange(HEIGHT) - HEIGHT / 2)
    x, y = x / 120, y / 120
    light = np.ones((HEIGHT, WIDTH))
    if shot.lamp is not None:
        away = (x - shot.lamp[0]) ** 2 + (y - shot.lamp[1]) ** 2 + shot.lamp[2] ** 2
        light *= away**-1.5
    half = np.hypot(WIDTH, HEIGHT) / 2 / 120
    light *= (1 + (np.hypot(x, y) / half * np.tan(shot.lens)) ** 2) ** -2.0
    scaled: Floats = light / light.max()
    return scaled


def _camera(shot: Shot) -> Floats:
    """(31, 3) from reflectance to linear sRGB: sensitivities, balance, and a maker's matrix.

    The matrix brings a set of surfaces to sRGB under the light as well as a matrix can, greys kept.
    """
    illuminant = colour.SDS_ILLUMINANTS[shot.light].copy().align(SHAPE)
    raw = sensitivities(shot.camera) * np.asarray(illuminant.values)[:, None]
    balanced = raw / raw.sum(axis=0)
    wanted = lab_to_xyz(chart_24().lab) @ np.linalg.inv(SRGB.matrix).T
    result: Floats = balanced @ _greys_kept(chart_spectra()[1] @ balanced, wanted)
    return result


def _greys_kept(seen: Floats, wanted: Floats) -> Floats:
    """(3, 3) least squares from seen to wanted RGB with columns that sum to 1."""
    matrix = np.empty((3, 3))
    for channel in range(3):
        base = seen[:, channel]
        others = [each for each in range(3) if each != channel]
        rest = np.column_stack([seen[:, each] - base for each in others])
        shares = np.linalg.lstsq(rest, wanted[:, channel] - base, rcond=None)[0]
        matrix[channel, channel] = 1 - shares.sum()
        matrix[others, channel] = shares
    return matrix
