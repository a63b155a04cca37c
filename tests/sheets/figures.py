"""Charts caught as they are written, and what may be asked of any of them."""

import io
from collections.abc import Callable
from itertools import combinations
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
from PIL import Image

from studio.colour.lab import Lab
from studio.sheets import chart_sheet

Pixels = npt.NDArray[np.uint8]
Caught = Callable[[str], list[Any]]


@pytest.fixture
def caught(monkeypatch: pytest.MonkeyPatch) -> Caught:
    """`caught("pair_chart")`: a list that gets the figures of that module while they are drawn."""

    def catch(module: str) -> list[Any]:
        figures: list[Any] = []

        def written(figure: Any, kind: chart_sheet.Kind) -> bytes:
            figures.append(figure)
            figure.canvas.draw()
            return chart_sheet.written(figure, kind)

        monkeypatch.setattr(f"studio.sheets.{module}.written", written)
        return figures

    return catch


def pixels_of(png: bytes) -> Pixels:
    """The picture as 8-bit sRGB, (rows, columns, 3)."""
    with Image.open(io.BytesIO(png)) as picture:
        assert picture.format == "PNG"
        assert "srgb" in picture.info or picture.info.get("gamma") is None
        return np.asarray(picture.convert("RGB"))


def at(pixels: Pixels, x: float, y: float) -> tuple[int, ...]:
    """The pixel at a place in inches from the lower left."""
    row = pixels.shape[0] - 1 - int(y * chart_sheet.DPI)
    return tuple(int(value) for value in pixels[row, int(x * chart_sheet.DPI)])


def by_colour_science(lab: Lab) -> npt.NDArray[np.float64]:
    """SRGB of a Lab under D50/2°, unclipped, 0 to 255, by colour-science with Bradford."""
    import colour

    white = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D50"]
    xyz = colour.Lab_to_XYZ(np.array(lab.coordinates), white)
    return np.asarray(
        255.0 * colour.XYZ_to_sRGB(xyz, white, chromatic_adaptation_transform="Bradford")
    )


def check_texts(figure: Any) -> None:
    """No text of a figure lies over another, and none leaves the sheet."""
    renderer = figure.canvas.get_renderer()
    texts = [text for text in figure.texts if text.get_text()]
    for axes in figure.axes:
        texts += [axes.xaxis.label, axes.yaxis.label]
        for axis, (low, high) in ((axes.xaxis, axes.get_xlim()), (axes.yaxis, axes.get_ylim())):
            ticks = zip(axis.get_ticklocs(), axis.get_ticklabels(), strict=True)
            texts += [label for place, label in ticks if low <= place <= high]
    boxes = [(text.get_text(), text.get_window_extent(renderer)) for text in texts]
    boxes = [(text, box) for text, box in boxes if text.strip() and box.width > 0]
    for (one, box), (other, over) in combinations(boxes, 2):
        wide = min(box.x1, over.x1) - max(box.x0, over.x0)
        high = min(box.y1, over.y1) - max(box.y0, over.y0)
        # An empty line about the letters belongs to a box.
        assert wide <= 1.0 or high <= 3.0, (one, other)
    for text, box in boxes:
        assert box.x0 >= 0, text
        assert box.y0 >= 0, text
        assert box.x1 <= figure.bbox.x1 + 1, text
        assert box.y1 <= figure.bbox.y1 + 1, text


def check_greys(png: bytes, labs: list[Lab]) -> None:
    """Nothing bears a hue but the patches."""
    from studio.colour.display import on_screen

    flat = pixels_of(png).reshape(-1, 3).astype(int)
    tinted = np.unique(flat[(flat != flat[:, :1]).any(axis=1)], axis=0)
    shown = np.array([on_screen(lab).rgb for lab in labs])
    strange = [colour for colour in tinted.tolist() if np.abs(shown - colour).max(axis=1).min() > 0]
    assert not strange, (len(strange), strange[:5])
