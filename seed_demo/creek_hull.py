"""The boat aground in the demo's reference picture, with its shadow on the mud."""

from typing import Final

import numpy as np

from seed_demo.picture_tools import FloatArray, clouds, ease, shape

_RUST: Final = (146, 72, 50)
_RUST_DARK: Final = (84, 38, 32)
_TAR: Final = (52, 54, 60)
_STRAKE: Final = (222, 208, 178)
_SHADOW: Final = (54, 50, 54)
_INSIDE: Final = (72, 58, 46)

# x, sheer (upper edge), waterline, keel; from the stem on the left to the transom on the right.
_SECTIONS: Final = (
    (492, 312, 316, 320),
    (504, 322, 342, 362),
    (530, 334, 362, 390),
    (580, 348, 382, 412),
    (640, 356, 390, 420),
    (700, 357, 389, 418),
    (750, 352, 380, 408),
    (790, 344, 368, 392),
    (806, 340, 360, 378),
)


def lay_hull(canvas: FloatArray) -> None:
    """Draw the boat and its shadow into (height, width, 3) sRGB levels."""
    height, width, _ = canvas.shape
    fine = np.linspace(492, 806, 158)
    columns = np.array(_SECTIONS, dtype=np.float64).T
    sheer, water, keel = (_rounded(np.interp(fine, columns[0], row)) for row in columns[1:])

    def between(upper: FloatArray, lower: FloatArray) -> FloatArray:
        edge = [*zip(fine, upper, strict=True), *zip(fine[::-1], lower[::-1], strict=True)]
        return shape(height, width, [(float(x), float(y)) for x, y in edge])

    def over(cover: FloatArray, colour: FloatArray) -> None:
        canvas[...] += cover[..., None] * (colour - canvas)

    ground = [(500, 352), (560, 402), (640, 424), (740, 416), (800, 388), (786, 412), (700, 446),
              (590, 452), (480, 436), (404, 414), (410, 402), (452, 386)]  # fmt: skip
    shadow = shape(height, width, ground)
    for _ in range(3):
        shadow = _softened(shadow)
    over(0.7 * shadow, np.array(_SHADOW, dtype=np.float64))

    rows, places = np.arange(height)[:, None], np.arange(width)[None, :]
    grainy = clouds(height, width, (4, 30), 81) + 0.8 * clouds(height, width, (16, 3), 82)
    keel_at = np.interp(places, fine, keel)
    water_at = np.interp(places, fine, water)
    # Light falls from the upper right: the turn of the bilge darkens downwards and to the stem.
    down = np.clip((rows - water_at) / np.maximum(keel_at - water_at, 4), 0, 1)
    along = (places - 492) / 314
    rust = np.array(_RUST, dtype=np.float64) + np.zeros((height, width, 1))
    dark = ease(0.15 + 0.95 * down - 0.35 * along)
    rust = rust + dark[..., None] * (np.array(_RUST_DARK, dtype=np.float64) - rust)
    over(between(water, keel), rust + 7.0 * grainy[..., None])

    tar = np.array(_TAR, dtype=np.float64) + 26.0 * np.clip(along, 0, 1)[..., None]
    planks = np.sin((rows - np.interp(places, fine, sheer)) * 0.75)
    over(between(sheer, water), tar + (4.0 * grainy + 3.0 * planks)[..., None])
    streaks = ease((clouds(height, width, (60, 5), 83) - 0.9) * 1.5) * between(sheer + 6, water)
    over(0.7 * streaks, np.array([132.0, 72.0, 46.0]))
    over(between(sheer, sheer + 5.5), np.array(_STRAKE, dtype=np.float64) + 3.0 * grainy[..., None])

    inside = [(492, 312), (560, 340), (640, 351), (700, 352), (760, 346), (806, 340), (806, 338),
              (760, 338), (660, 336), (560, 324)]  # fmt: skip
    over(
        shape(height, width, inside), np.array(_INSIDE, dtype=np.float64) + 5.0 * grainy[..., None]
    )
    transom = shape(height, width, [(800, 341), (816, 336), (813, 358), (802, 378)])
    over(transom, np.array([96.0, 92.0, 90.0]) + 4.0 * grainy[..., None])
    house = shape(height, width, [(648, 340), (656, 318), (738, 314), (746, 339)])
    over(house, np.array([196.0, 188.0, 170.0]) + 4.0 * grainy[..., None])
    over(shape(height, width, [(650, 320), (654, 314), (744, 310), (744, 315)]),
         np.array([112.0, 124.0, 116.0]))  # fmt: skip
    for left in (668, 694, 718):
        pane = [(left, 324), (left + 13, 323), (left + 14, 332), (left, 333)]
        over(
            shape(height, width, [(float(x), float(y)) for x, y in pane]),
            np.array([62.0, 66.0, 72.0]),
        )
    mast = shape(height, width, [(612, 346), (598, 176), (601, 175.6), (618, 346)])
    over(mast, np.array([126.0, 104.0, 78.0]))
    for foot in ((500, 314), (800, 340)):
        stay = shape(height, width, [(599, 178), (600.2, 178), (foot[0] + 0.9, foot[1]), foot])
        over(0.75 * stay, np.array([92.0, 88.0, 86.0]))


def _rounded(line: FloatArray) -> FloatArray:
    padded = np.pad(line, 8, mode="reflect", reflect_type="odd")
    return np.convolve(padded, np.ones(17) / 17, mode="valid")


def _softened(cover: FloatArray) -> FloatArray:
    for axis in (0, 1):
        moved = [np.roll(cover, shift, axis) for shift in (-2, -1, 0, 1, 2)]
        cover = np.asarray(np.mean(moved, axis=0))
    return cover
