"""The colour plane: published colours stand where they should, in their own colours."""

import csv
import math
import re
from dataclasses import replace
from pathlib import Path
from typing import Any, Final

import numpy as np
import pytest

from studio.actions.colour_plane import ColourPlane, Point, colour_plane
from studio.actions.match_colour import Wanted
from studio.actions.reach import HUE_WINDOW, LIGHTNESS_WINDOW
from studio.actions.read_target import Target, read_colour
from studio.catalogue.paper import Paper, PaperFacts
from studio.catalogue.stock import Stock, Unit
from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.colour.outline import chroma_by_hue, chroma_by_lightness
from studio.sheets.plane_chart import draw_plane
from studio.sheets.plane_view import print_plane
from studio.storage.unit_of_work import UnitOfWork
from tests.sheets.conftest import Terminal, printed
from tests.sheets.figures import Caught, by_colour_science, caught, check_texts, pixels_of
from tests.sheets.pages import HOSTILE

__all__ = ["caught"]

PUBLISHED: Final = Path(__file__).resolve().parents[1] / "published"
PAPER: Final = Paper(
    1, PaperFacts("SR", "Eddering Mill", "Slipway Rag"), Stock(None, Unit.ML, None), ()
)


def colorchecker() -> dict[str, Lab]:
    """The 24 patches of BabelColor's average chart, D50/2° (tests/published/README.md)."""
    with (PUBLISHED / "babelcolor_average_24.csv").open(encoding="utf-8") as file:
        return {
            row["patch"]: Lab(float(row["L_ref"]), float(row["a_ref"]), float(row["b_ref"]))
            for row in csv.DictReader(file)
        }


def plane_of(labs: dict[str, Lab], target: Target | None = None) -> ColourPlane:
    """A plane of named colours on one paper."""
    triples = [lab.coordinates for lab in labs.values()]
    return ColourPlane(
        tuple(Point(code, lab) for code, lab in labs.items()),
        {1: (PAPER, len(labs))},
        chroma_by_hue(triples, int(HUE_WINDOW)),
        chroma_by_lightness(triples, int(LIGHTNESS_WINDOW)),
        target,
    )


def _points(axes: Any) -> list[tuple[float, float, tuple[float, ...], int]]:
    """(x, y, colour, corners of its form) of every point, back to front."""
    (points,) = axes.collections
    return [
        (float(x), float(y), tuple(colour[:3]), len(path.vertices))
        for (x, y), colour, path in zip(
            points.get_offsets(), points.get_facecolors(), points.get_paths(), strict=True
        )
    ]


def test_the_colorchecker_stands_where_its_published_lab_says(caught: Caught) -> None:
    labs = colorchecker()
    figures = caught("plane_chart")
    draw_plane(plane_of(labs), "png")
    ab, lc = figures[0].axes
    assert {(x, y) for x, y, *_ in _points(ab)} == {(lab.a, lab.b) for lab in labs.values()}
    expected = sorted((math.hypot(lab.a, lab.b), lab.lightness) for lab in labs.values())
    np.testing.assert_allclose(sorted((x, y) for x, y, *_ in _points(lc)), expected, atol=1e-9)


def test_each_has_its_colour_by_colour_science_and_cyan_is_a_diamond(caught: Caught) -> None:
    """Of the 24 patches cyan alone lies outside sRGB (its red is negative)."""
    labs = colorchecker()
    figures = caught("plane_chart")
    draw_plane(plane_of(labs), "png")
    of_place = {(lab.a, lab.b): (code, lab) for code, lab in labs.items()}
    diamonds = []
    for x, y, colour, corners in _points(figures[0].axes[0]):
        code, lab = of_place[x, y]
        if on_screen(lab).in_gamut:
            assert np.abs(by_colour_science(lab) - np.array(colour) * 255).max() <= 1.0
        if corners < 10:
            diamonds.append(code)
    assert diamonds == ["cyan"]
    assert by_colour_science(labs["cyan"]).min() < -1.0


def test_a_point_is_drawn_at_its_place_of_the_picture(caught: Caught) -> None:
    """From the picture and the ends of its axes alone."""
    labs = {"S1": Lab(60.0, 40.0, 20.0), "S2": Lab(40.0, -30.0, -10.0)}
    figures = caught("plane_chart")
    pixels = pixels_of(draw_plane(plane_of(labs), "png"))
    ab, lc = figures[0].axes
    for axes in (ab, lc):
        box = axes.get_position()
        for lab in labs.values():
            x, y = (lab.a, lab.b) if axes is ab else (lab.chroma, lab.lightness)
            (left, right), (low, high) = axes.get_xlim(), axes.get_ylim()
            across = box.x0 + box.width * (x - left) / (right - left)
            up = box.y0 + box.height * (y - low) / (high - low)
            seen = pixels[int((1 - up) * pixels.shape[0]), int(across * pixels.shape[1])]
            assert tuple(seen) == on_screen(lab).rgb
    ratio = ab.get_position().width * pixels.shape[1] / (ab.get_position().height * pixels.shape[0])
    assert ratio == pytest.approx(1.0, abs=0.01)  # a* and b* have one scale


def test_munsell_hues_go_round_the_plane_the_right_way(caught: Caught) -> None:
    """Munsell's ten hues run against the clock from red on the right over yellow at the top."""
    hues = ("5R", "5YR", "5Y", "5GY", "5G", "5BG", "5B", "5PB", "5P", "5RP")
    labs = {hue: read_colour(f"{hue} 6/6").lab for hue in hues}
    figures = caught("plane_chart")
    draw_plane(plane_of(labs), "png")
    of_place = {(lab.a, lab.b): code for code, lab in labs.items()}
    ab, lc = figures[0].axes
    found = {of_place[x, y]: math.degrees(math.atan2(y, x)) % 360 for x, y, *_ in _points(ab)}
    turned = [(found[hue] - found["5R"]) % 360 for hue in hues]
    assert turned == sorted(turned)
    # Value 6 is L* 61.7 under illuminant C (ASTM D1535); adapting a hue to D50 moves it a little.
    assert [y for _, y, *_ in _points(lc)] == pytest.approx([61.7] * 10, abs=1.2)


def test_the_lightest_lie_in_front_and_many_are_drawn_small(caught: Caught) -> None:
    rng = np.random.default_rng(3)
    labs = {
        f"S{n}": Lab(rng.uniform(20, 95), rng.normal(0, 25), rng.normal(0, 25)) for n in range(5000)
    }
    figures = caught("plane_chart")
    draw_plane(plane_of(labs), "png")
    of_place = {(lab.a, lab.b): lab.lightness for lab in labs.values()}
    depth = [of_place[x, y] for x, y, *_ in _points(figures[0].axes[0])]
    assert len(depth) == 5000
    assert depth == sorted(depth)
    few = caught("plane_chart")
    draw_plane(plane_of(dict(list(labs.items())[:200])), "png")
    sizes = [
        max(float(c.get_sizes().max()) for c in each.axes[0].collections)
        for each in (figures[0], few[0])
    ]
    assert sizes[0] < sizes[1] / 3


def test_a_target_is_a_cross_in_both_and_those_near_it_are_large(
    demo_work: UnitOfWork, caught: Caught
) -> None:
    target = Target(Lab(51.0, 20.0, 30.0), "rust")
    plane = colour_plane(demo_work, Wanted(), target)
    figures = caught("plane_chart")
    draw_plane(plane, "png")
    check_texts(figures[0])
    for axes, place in zip(
        figures[0].axes, ((20.0, 30.0), (math.hypot(20, 30), 51.0)), strict=True
    ):
        crosses = [line for line in axes.lines if line.get_gid() == "target"]
        assert [(line.get_xdata()[0], line.get_ydata()[0]) for line in crosses] == [place] * 2
        assert [line.get_color() for line in crosses] == ["1.0", "0.0"]
    sizes = {
        (float(x), float(y)): float(size)
        for c in figures[0].axes[0].collections
        for (x, y), size in zip(c.get_offsets(), c.get_sizes(), strict=True)
    }
    largest = max(sizes.values())
    for _, lab in plane.points:
        near = abs(lab.lightness - 51.0) <= LIGHTNESS_WINDOW
        assert (sizes[lab.a, lab.b] == largest) is near or (lab.a, lab.b) == (0, 0)
    texts = " ".join(text.get_text() for text in figures[0].texts)
    for said in ("241 swatches", "Slipway Rag", "D50/2°", "rust", "ΔE00", "reached"):
        assert said in texts


def test_what_was_reached_holds_every_swatch(demo_work: UnitOfWork, caught: Caught) -> None:
    plane = colour_plane(demo_work, Wanted())
    figures = caught("plane_chart")
    draw_plane(plane, "png")
    for axes in figures[0].axes:
        (region,) = [patch for patch in axes.patches if patch.get_gid() == "reach"]
        grown = region.get_path()
        for x, y, *_ in _points(axes):
            if axes is figures[0].axes[0] and math.hypot(x, y) < 6:
                continue
            assert grown.contains_point((x, y), radius=2.0) or grown.contains_point(
                (x, y), radius=-2.0
            )


@pytest.mark.parametrize("name", [HOSTILE, "$x_2$ \\", "שלום", "w" * 300])
def test_no_name_of_a_target_makes_texts_meet(
    name: str, demo_work: UnitOfWork, caught: Caught
) -> None:
    plane = colour_plane(demo_work, Wanted(), Target(Lab(51.0, 20.0, 30.0), name))
    figures = caught("plane_chart")
    draw_plane(plane, "png")
    check_texts(figures[0])


@pytest.mark.parametrize("width", [40, 80])
@pytest.mark.parametrize("colours", [None, "truecolor"])
def test_the_terminal_counts_every_swatch_once(
    width: int, colours: Any, demo_work: UnitOfWork, terminal: Terminal
) -> None:
    from rich.text import Text

    plane = colour_plane(demo_work, Wanted(), Target(Lab(51.0, 20.0, 30.0), "rust"))
    console = terminal(colours, width=width)
    print_plane(console, plane)
    lines = Text.from_ansi(printed(console)).plain.splitlines()
    assert max(map(len, lines)) <= width
    if width == 80:
        rows = [line for line in lines if re.match(r"(\d+ to \d+°|grey, C\* below 5) ", line)]
        numbers = [int(re.split(r"  +", line)[1]) for line in rows]
        assert sum(numbers) == len(plane.points)


def test_pdf_and_png_are_the_same_every_time() -> None:
    plane = plane_of(colorchecker())
    assert draw_plane(plane, "pdf") == draw_plane(replace(plane), "pdf")
    assert draw_plane(plane, "png") == draw_plane(replace(plane), "png")
