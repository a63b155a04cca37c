"""The demo's reference picture: a tidal creek at low water, painted by arithmetic."""

from itertools import pairwise
from typing import Final

import numpy as np
from numpy.typing import NDArray

from seed_demo.creek_hull import lay_hull
from seed_demo.picture_tools import FloatArray, clouds, ease, grain, shape

WIDTH: Final = 900
HEIGHT: Final = 675
HORIZON: Final = 236

_ZENITH: Final = (128, 150, 176)
_LOW_SKY: Final = (226, 221, 208)
_CLOUD: Final = (214, 212, 210)
_UNDERSIDE: Final = (150, 156, 168)
_FAR_TREES: Final = (112, 122, 138)
_FAR_MARSH: Final = (150, 148, 116)
_FAR_MUD: Final = (158, 150, 142)
_NEAR_MUD: Final = (100, 86, 73)
_TURF: Final = (98, 103, 62)
_TURF_LIGHT: Final = (150, 144, 92)
_BANK: Final = (66, 56, 47)

# Middle and half width of the creek, by depth: 0 at the horizon, 1 at the lower edge.
_DEPTHS: Final = (0.0, 0.035, 0.07, 0.12, 0.2, 0.32, 0.5, 0.72, 1.0)
_MIDDLES: Final = (560, 640, 575, 430, 345, 415, 470, 400, 300)
_HALVES: Final = (30, 34, 46, 52, 44, 52, 76, 112, 160)

Rgb = tuple[int, int, int]


def creek() -> NDArray[np.uint8]:
    """(675, 900, 3) sRGB: sky, far shore, marsh, mud with a creek, a boat aground, posts."""
    canvas = np.zeros((HEIGHT, WIDTH, 3))
    sky = _sky()
    canvas[:HORIZON] = sky
    canvas[HORIZON:] = _foreshore(sky)
    _far_shore(canvas)
    _turf(canvas)
    lay_hull(canvas)
    _posts(canvas)
    canvas += 2.2 * grain(HEIGHT, WIDTH, 1)[..., None]
    return np.rint(np.clip(canvas, 0, 255)).astype(np.uint8)


def _rgb(colour: Rgb) -> FloatArray:
    return np.array(colour, dtype=np.float64)


def _over(canvas: FloatArray, cover: FloatArray, colour: FloatArray) -> None:
    canvas += cover[..., None] * (colour - canvas)


def _sky() -> FloatArray:
    """Clear above, hazy below, with two banks of cloud lit from the right."""
    y = np.linspace(0.0, 1.0, HORIZON)[:, None]
    sky = _rgb(_ZENITH) + ease(y**0.8)[..., None] * (_rgb(_LOW_SKY) - _rgb(_ZENITH))
    sky = np.broadcast_to(sky, (HORIZON, WIDTH, 3)).copy()
    bulk = sum(
        clouds(HORIZON, WIDTH, (60 / 2**octave, 190 / 2**octave), 10 + octave) * 0.6**octave
        for octave in range(4)
    )
    banks = np.exp(-(((y - 0.42) / 0.2) ** 2)) + 0.6 * np.exp(-(((y - 0.85) / 0.1) ** 2))
    cover = ease((bulk - 0.5) / 1.4 + 0.55 * banks - 0.1)
    _over(sky, 0.85 * cover, _rgb(_CLOUD))
    under = ease((np.roll(cover, -14, axis=0) - cover) * -1.6)
    _over(sky, 0.6 * under * (y < 0.95), _rgb(_UNDERSIDE))  # noqa: PLR2004
    glow = np.exp(-(((np.arange(WIDTH) - 690) / 260) ** 2)) * y**2
    return np.asarray(sky + glow[..., None] * np.array([16.0, 11.0, 2.0]))


def _foreshore(sky: FloatArray) -> FloatArray:
    """Mud, shining where it is wet, and the creek that mirrors the sky."""
    rows = HEIGHT - HORIZON
    depth = np.linspace(0.0, 1.0, rows)[:, None]
    x = np.arange(WIDTH)[None, :]
    middle = _along(_MIDDLES, depth)
    half = _along(_HALVES, depth)
    scale = 0.15 + depth
    ragged = sum(clouds(rows, WIDTH, (cell / 3, cell), 30 + cell) * cell for cell in (24, 60))
    from_edge = (np.abs(x - middle) - half + 0.16 * ragged * scale) / (26 * scale)

    streaks = clouds(rows, WIDTH, (3, 46), 41) + 0.8 * clouds(rows, WIDTH, (9, 120), 42)
    mud = _rgb(_FAR_MUD) + ease(depth**0.6)[..., None] * (_rgb(_NEAR_MUD) - _rgb(_FAR_MUD))
    shore = mud + (6.5 * streaks * (0.3 + depth))[..., None] * np.array([1.0, 0.95, 0.85])
    lumps = clouds(rows, WIDTH, (7, 15), 43) * ease(depth * 2)
    shore += (7.0 * lumps)[..., None]

    mirrored = sky[::-1][np.minimum(np.arange(rows) * HORIZON // rows, HORIZON - 1)]
    wet = np.exp(-np.maximum(from_edge, 0.0) / 2.6) * ease(0.72 + 0.4 * streaks)
    pools = ease((clouds(rows, WIDTH, (10, 90), 44) - 1.35) * 2.2) * (from_edge > 1.0)
    _over(shore, np.clip(0.7 * wet + 0.7 * pools, 0.0, 0.9), 0.98 * mirrored)

    ripples = clouds(rows, WIDTH, (2.5, 34), 45) * (0.3 + depth)
    water = mirrored * (0.94 - 0.16 * depth)[..., None] + (4.0 * ripples)[..., None]
    _over(water, 0.55 * np.exp(-depth / 0.025) * np.ones_like(water[..., 0]), _rgb(_FAR_TREES))
    _over(shore, ease(-from_edge * 3.0), water)
    lip = np.exp(-(((from_edge - 0.12) / 0.22) ** 2)) * ease(depth * 3)
    _over(shore, 0.5 * lip, _rgb(_BANK))
    return np.asarray(shore)


def _along(values: tuple[int, ...], depth: FloatArray) -> FloatArray:
    """A value by depth, with its corners rounded."""
    fine = np.interp(np.linspace(0.0, 1.0, 401), _DEPTHS, values)
    padded = np.pad(fine, 12, mode="edge")
    rounded = np.convolve(padded, np.ones(25) / 25, mode="valid")
    return np.interp(depth, np.linspace(0.0, 1.0, 401), rounded)


def _far_shore(canvas: FloatArray) -> None:
    """Trees across the water, a shed among them, and a strip of marsh before them."""
    x = np.arange(WIDTH, dtype=np.float64)
    crowns = sum(clouds(1, WIDTH, (1, cell), 50 + cell)[0] * size
                 for cell, size in ((5, 1.2), (13, 2.0), (80, 2.6)))  # fmt: skip
    tops = HORIZON - 11 - crowns - 8 * np.exp(-(((x - 120) / 130) ** 2))
    outline = [(0.0, HORIZON + 3.0), *zip(x, tops, strict=True), (WIDTH, HORIZON + 3.0)]
    trees = shape(HEIGHT, WIDTH, [(float(a), float(b)) for a, b in outline])
    texture = (5.0 * clouds(HEIGHT, WIDTH, (5, 7), 53))[..., None]
    _over(canvas, 0.93 * trees, _rgb(_FAR_TREES) + texture)
    low = float(HORIZON)
    _over(canvas, shape(HEIGHT, WIDTH, _box(246, low - 13, 30, 14)), _rgb((88, 92, 98)))
    roof = [(242.0, low - 12), (250.0, low - 21), (272.0, low - 21), (280.0, low - 12)]
    _over(canvas, shape(HEIGHT, WIDTH, roof), _rgb((158, 116, 98)))
    marsh = ease((np.arange(HEIGHT)[:, None] - low + 3) / 3)
    marsh = marsh * ease(
        (low + 10 + clouds(1, WIDTH, (1, 30), 54) * 3 - np.arange(HEIGHT)[:, None]) / 4
    )
    gap = np.clip(np.abs(x - 575) / 60 - 0.6, 0.0, 1.0)
    _over(canvas, 0.9 * marsh * gap, _rgb(_FAR_MARSH) + texture)


def _box(left: float, top: float, width: float, height: float) -> list[tuple[float, float]]:
    right, bottom = left + width, top + height
    return [(left, top), (right, top), (right, bottom), (left, bottom)]


def _turf(canvas: FloatArray) -> None:
    """Salt marsh on both sides: a dark broken bank below, blades and light above."""
    left = [(0, 252), (120, 256), (232, 268), (196, 290), (238, 318), (176, 352), (204, 392),
            (120, 440), (142, 492), (58, 540), (66, 590), (0, 640)]  # fmt: skip
    right = [(900, 246), (770, 250), (716, 260), (760, 276), (742, 296), (820, 312), (838, 338),
             (900, 356)]  # fmt: skip
    blades = 0.8 * clouds(HEIGHT, WIDTH, (8, 2.2), 61) + 0.5 * clouds(HEIGHT, WIDTH, (16, 5), 62)
    patches = clouds(HEIGHT, WIDTH, (22, 70), 63)
    rows = np.arange(HEIGHT)
    for corners in (left, right):
        turf = shape(HEIGHT, WIDTH, _jagged(corners))
        cliff = np.zeros_like(turf)
        for share in (0.35, 0.7, 1.0):
            # The bank is as high as its place is near.
            source = np.rint(
                rows - share * (3 + 34 * np.clip((rows - HORIZON) / 439, 0, 1))
            ).astype(int)
            cliff = np.maximum(cliff, turf[np.maximum(source, 0)])
        _over(canvas, 0.92 * cliff, _rgb(_BANK) + 6.0 * blades[..., None])
        light = ease(0.42 + 0.2 * blades + 0.42 * patches)
        far = np.exp(-(rows - HORIZON).clip(0) / 60.0)[:, None, None]
        green = _rgb(_TURF) + light[..., None] * (_rgb(_TURF_LIGHT) - _rgb(_TURF))
        green = green + 0.55 * far * (_rgb(_FAR_MARSH) - green)
        _over(canvas, turf, green + (6.0 * blades)[..., None] * (1.0 - 0.7 * far))


def _jagged(corners: list[tuple[int, int]]) -> list[tuple[float, float]]:
    """The outline with points between, moved as tufts hang over a bank."""
    line: list[tuple[float, float]] = []
    moves = grain(1, 40 * len(corners), 64)[0]
    for index, (start, end) in enumerate(pairwise(corners)):
        steps = max(2, int(np.hypot(end[0] - start[0], end[1] - start[1]) / 7))
        for step in range(steps):
            share = step / steps
            near = 0.25 + 1.4 * (start[1] - HORIZON) / 439
            move = 2.6 * near * moves[40 * index + step % 40]
            x, y = (start[axis] + share * (end[axis] - start[axis]) for axis in (0, 1))
            line.append((x + move, y + 0.6 * move))
    return [*line, corners[-1]]


def _posts(canvas: FloatArray) -> None:
    """Mooring posts down the near bank, with their reflections and shadows."""
    for x, foot, height, width in ((566, 430, 66, 6), (606, 482, 92, 8), (664, 560, 128, 11)):
        lean = 0.05 * height
        top = foot - height
        wood_at = [(x, foot), (x + lean, top), (x + lean + width, top), (x + width, foot)]
        far, low = x - 1.1 * height, foot + 0.2 * height
        shaded = [(x, foot), (x + width, foot), (far, low), (far - width, low)]
        shadow = shape(HEIGHT, WIDTH, shaded)
        _over(canvas, 0.5 * shadow, _rgb((58, 54, 56)))
        side = np.clip((np.arange(WIDTH)[None, :] - x) / (width + lean), 0, 1) * np.ones(
            (HEIGHT, 1)
        )
        weed = ease((np.arange(HEIGHT)[:, None] - foot + 0.45 * height) / 14)
        wood = _rgb((62, 54, 48)) + side[..., None] * np.array([62.0, 54.0, 44.0])
        wood = wood + weed[..., None] * (0.72 * wood * np.array([0.86, 0.98, 0.66]) - wood)
        _over(
            canvas,
            shape(HEIGHT, WIDTH, wood_at),
            wood + 5.0 * clouds(HEIGHT, WIDTH, (14, 2), 71)[..., None],
        )
