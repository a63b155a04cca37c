"""What both pictures of the demo are made with: noise that never changes, soft shapes, a PNG."""

from collections.abc import Sequence
from pathlib import Path
from typing import Final

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw, PngImagePlugin

FloatArray = NDArray[np.float64]

_BYTES: Final = 8
_BYTE_SPREAD: Final = float(np.sqrt((256.0**2 - 1.0) / 12.0))
_FINER: Final = 4


def grain(height: int, width: int, seed: int) -> FloatArray:
    """(height, width) of nearly normal noise, mean 0, standard deviation 1.

    Each value is the sum of the eight bytes of one number of PCG64, whose stream NumPy guarantees;
    that of its ready-made distributions may change with a version.
    """
    raw = np.random.PCG64(seed).random_raw(height * width)
    octets = np.asarray(raw, dtype="<u8").view(np.uint8).reshape(height, width, _BYTES)
    total = octets.astype(np.float64).sum(axis=-1)
    return np.asarray((total - _BYTES * 127.5) / (_BYTE_SPREAD * np.sqrt(_BYTES)))


def clouds(height: int, width: int, cell: tuple[float, float], seed: int) -> FloatArray:
    """Smooth noise of standard deviation about 1: random values on a lattice, eased between.

    Args:
        height: rows.
        width: columns.
        cell: height and width of a cell of the lattice, in pixels.
        seed: which noise.
    """
    rows, columns = np.arange(height) / cell[0], np.arange(width) / cell[1]
    lattice = grain(int(rows[-1]) + 2, int(columns[-1]) + 2, seed)
    top, left = rows.astype(np.intp), columns.astype(np.intp)
    down, right = ease(rows - top)[:, None], ease(columns - left)
    upper = lattice[top][:, left] * (1.0 - right) + lattice[top][:, left + 1] * right
    lower = lattice[top + 1][:, left] * (1.0 - right) + lattice[top + 1][:, left + 1] * right
    return np.asarray(1.5 * (upper * (1.0 - down) + lower * down))


def ease(value: FloatArray) -> FloatArray:
    """0 below 0, 1 above 1, smooth between."""
    inside = np.clip(value, 0.0, 1.0)
    return np.asarray(inside * inside * (3.0 - 2.0 * inside))


def shape(height: int, width: int, corners: Sequence[tuple[float, float]]) -> FloatArray:
    """(height, width) share of each pixel that a polygon covers.

    Args:
        height: rows.
        width: columns.
        corners: x and y in pixels.
    """
    sheet = Image.new("L", (width * _FINER, height * _FINER))
    ImageDraw.Draw(sheet).polygon([(x * _FINER, y * _FINER) for x, y in corners], fill=255)
    fine = np.asarray(sheet, dtype=np.float64).reshape(height, _FINER, width, _FINER)
    return np.asarray(fine.mean(axis=(1, 3)) / 255.0)


def save(path: Path, pixels: NDArray[np.uint8], colours: int | None = None) -> None:
    """Write (height, width, 3) sRGB pixels as PNG that says so.

    Args:
        path: the file.
        pixels: its levels.
        colours: so many of them are kept, which makes the file smaller; None: all.
    """
    said = PngImagePlugin.PngInfo()
    said.add(b"sRGB", b"\0")
    image = Image.fromarray(pixels)
    if colours is not None:
        image = image.quantize(colours, Image.Quantize.MAXCOVERAGE, dither=Image.Dither.NONE)
    image.save(path, "PNG", pnginfo=said, optimize=True)
