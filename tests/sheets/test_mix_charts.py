"""Pictures of mixing charts: true patches in their places, measured told from predicted."""

import shutil
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from studio.actions.chart_cells import Cell
from studio.actions.find import find_paint
from studio.actions.mixing_chart import MixingChart, pair_chart, pairs_chart
from studio.actions.paint_model import PaintModel, paint_model
from studio.catalogue.paint import Paint, Status
from studio.colour.display import on_screen
from studio.sheets import pair_chart as pair_picture
from studio.sheets import pairs_chart as pairs_picture
from studio.sheets.chart_patch import OFF
from studio.sheets.mix_chart_view import print_pair_chart, print_pairs_chart
from studio.sheets.mix_chart_words import caption_of, notes_of
from studio.sheets.pair_chart import draw_pair_chart
from studio.sheets.pairs_chart import LARGE, SMALL, cell_side, draw_pairs_chart
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import TODAY
from tests.sheets.conftest import Terminal, printed
from tests.sheets.figures import (
    Caught,
    at,
    by_colour_science,
    caught,
    check_greys,
    check_texts,
    pixels_of,
)
from tests.sheets.pages import HOSTILE

pytestmark = pytest.mark.file_only("one copy of a file serves all of these")

__all__ = ["caught"]

NAMES = [HOSTILE, "$5 \\frac{x}_{2}$ ^_^", "כחול ים 12 أزرق", "w" * 200, "潮 creek"]


@pytest.fixture(scope="module")
def charts(
    demo_template: Path, tmp_path_factory: pytest.TempPathFactory
) -> tuple[MixingChart, MixingChart]:
    """Two paints of the demo studio, and the pairs of all in use."""
    path = Path(shutil.copy(demo_template, tmp_path_factory.mktemp("mix") / "demo.sqlite3"))
    with UnitOfWork(path) as work:
        model: PaintModel = paint_model(work, TODAY)
        pair = find_paint(work, "FU"), find_paint(work, "BS")
        paints = [each for each in work.paints.all() if each.facts.status is Status.IN_USE]
        return pair_chart(work, model, pair), pairs_chart(work, model, paints)


def _named(chart: MixingChart, name: str) -> MixingChart:
    """The chart with other names of its paints and paper."""

    def paint(each: Paint) -> Paint:
        return replace(each, facts=replace(each.facts, name=name, maker=name))

    assert chart.paper is not None
    paper = replace(chart.paper, facts=replace(chart.paper.facts, name=name, maker=name))
    return replace(chart, paints=tuple(map(paint, chart.paints)), paper=paper)


def _place(chart: MixingChart, down: int, across: int, height: float) -> tuple[float, float]:
    """The middle of a cell of a pair chart, in inches."""
    p = pair_picture
    step = (p.WIDTH - 2 * p.LEFT - p.SIDE - p.PATCH[0]) / (len(chart.rows[0]) - 1)
    size = min(p.PATCH[0], 0.93 * step)
    top = height - p._HEAD - p.ROW * down
    return p.LEFT + p.SIDE + step * across + size / 2, top - p.PATCH[1] / 2


def test_every_patch_has_the_colour_that_colour_science_gives_it(
    charts: tuple[MixingChart, MixingChart], caught: Caught
) -> None:
    chart, _ = charts
    figures = caught("pair_chart")
    pixels = pixels_of(draw_pair_chart(chart, "png"))
    height = figures[0].get_figheight()
    looked = 0
    for down, row in enumerate(chart.rows):
        for across, cell in enumerate(row):
            assert cell.lab is not None
            x, y = _place(chart, down, across, height)
            seen = at(pixels, x, y)
            assert seen == on_screen(cell.lab).rgb
            if on_screen(cell.lab).in_gamut:
                assert np.abs(by_colour_science(cell.lab) - seen).max() <= 1.0
                looked += 1
    assert looked > 40


def test_measured_cells_have_a_solid_frame_and_a_code_predicted_ones_dashes_and_their_error(
    charts: tuple[MixingChart, MixingChart], caught: Caught
) -> None:
    chart, _ = charts
    figures = caught("pair_chart")
    draw_pair_chart(chart, "png")
    frames = [each for each in figures[0].get_children() if _is_frame(each)]
    solid = [each for each in frames if each.get_linestyle() in {"-", "solid"}]
    assert (len(solid), len(frames) - len(solid)) == (chart.measured + 1, chart.predicted + 1)
    texts = [each.get_text() for each in figures[0].texts]
    for cell in chart.cells:
        assert caption_of(cell) in texts
        if cell.swatch is not None:
            assert caption_of(cell).startswith(cell.swatch.facts.code)
        else:
            assert caption_of(cell).startswith(f"±{cell.error:.1f}")
    assert sum(text.startswith("±") for text in texts) == chart.predicted + 1
    whole = " ".join(texts)
    for said in (
        "D50/2°",
        "Slipway Rag",
        f"{chart.measured} swatches",
        "measured",
        "predicted",
        "PB29",
    ):
        assert said in whole


def _is_frame(artist: Any) -> bool:
    """An outline that is not the ground of the sheet."""
    return type(artist).__name__ == "Rectangle" and artist.get_facecolor()[3] == 0


def test_nothing_bears_a_hue_but_the_patches(charts: tuple[MixingChart, MixingChart]) -> None:
    for draw, chart in zip((draw_pair_chart, draw_pairs_chart), charts, strict=True):
        check_greys(draw(chart, "png"), [cell.lab for cell in chart.cells if cell.lab])


def test_the_frame_stands_off_the_patch() -> None:
    assert OFF * 150 > 4


@pytest.mark.parametrize("name", NAMES)
def test_no_name_makes_texts_meet_or_is_eaten(
    name: str, charts: tuple[MixingChart, MixingChart], caught: Caught
) -> None:
    pair, pairs = charts
    figures = caught("pair_chart")
    draw_pair_chart(_named(pair, name), "png")
    more = caught("pairs_chart")
    draw_pairs_chart(_named(pairs, name), "png")
    for figure in (*figures, *more):
        check_texts(figure)
        assert not any(text.get_parse_math() for text in figure.texts)
    if len(name) < 25:
        assert any(name in text.get_text() for text in more[0].texts)


def test_pairs_are_where_their_names_meet(
    charts: tuple[MixingChart, MixingChart], caught: Caught
) -> None:
    _, chart = charts
    figures = caught("pairs_chart")
    pixels = pixels_of(draw_pairs_chart(chart, "png"))
    height, side = figures[0].get_figheight(), cell_side(len(chart.paints))
    p = pairs_picture
    for down, row in enumerate(chart.rows):
        for across, cell in enumerate(row):
            assert cell.lab is not None
            x = p.LEFT + p.NAMES + side * (across + 0.5) - p._GAP / 2
            y = height - p._TOP - (side + p._TALLER) * down - 0.12
            shown = at(pixels, x, y)
            if cell.is_too_uncertain:
                assert len(set(shown)) == 1
            else:
                assert shown == on_screen(cell.lab).rgb
    tops = {
        text.get_text(): text.get_position()[0]
        for text in figures[0].texts
        if text.get_horizontalalignment() == "center" and text.get_fontweight() == "bold"
    }
    order = sorted(tops, key=lambda code: tops[code])
    assert order == [paint.facts.code for paint in chart.paints]


def test_few_paints_have_large_cells_and_many_small_ones() -> None:
    assert (cell_side(2), cell_side(60)) == (LARGE, SMALL)
    assert SMALL <= cell_side(9) <= LARGE


def test_an_empty_cell_is_crossed_out_and_its_reason_said(
    charts: tuple[MixingChart, MixingChart], caught: Caught
) -> None:
    from studio.actions.model_inputs import UnknownPaint

    chart, _ = charts
    empty = Cell(chart.rows[0][3].recipe, 0.5, None, why="FU: no dry swatch holds it")
    rows = ((*chart.rows[0][:3], empty, *chart.rows[0][4:]), *chart.rows[1:])
    unknown = (UnknownPaint(chart.paints[0], "no dry swatch holds it", "a wash"),)
    lacking = replace(chart, rows=rows, unknown=unknown)
    figures = caught("pair_chart")
    draw_pair_chart(lacking, "png")
    texts = " ".join(text.get_text() for text in figures[0].texts)
    assert "FU French Ultramarine cannot be predicted: no dry swatch holds it." in texts
    assert "1 empty" in texts
    assert len([each for each in figures[0].get_children() if _is_diagonal(each)]) == 1
    assert any("usual" in note or "cannot" in note for note in notes_of(lacking))


def _is_diagonal(artist: Any) -> bool:
    return type(artist).__name__ == "Line2D"


def test_pdfs_hold_the_same_as_text_and_lines(charts: tuple[MixingChart, MixingChart]) -> None:
    import io

    from pypdf import PdfReader

    for draw, chart in zip((draw_pair_chart, draw_pairs_chart), charts, strict=True):
        (page,) = PdfReader(io.BytesIO(draw(chart, "pdf"))).pages
        assert not page.images
        text = page.extract_text()
        assert "D50/2°" in text
        assert all(cell.swatch.facts.code in text for cell in chart.cells if cell.swatch)
        assert draw(chart, "pdf") == draw(chart, "pdf")


@pytest.mark.parametrize("width", [40, 80, 120])
@pytest.mark.parametrize("colours", [None, "truecolor"])
def test_they_fit_the_terminal(
    width: int, colours: Any, charts: tuple[MixingChart, MixingChart], terminal: Terminal
) -> None:
    from rich.text import Text

    for show, chart in zip((print_pair_chart, print_pairs_chart), charts, strict=True):
        console = terminal(colours, width=width)
        show(console, chart)
        lines = Text.from_ansi(printed(console)).plain.splitlines()
        assert max(map(len, lines)) <= width


def test_the_terminal_says_what_is_measured_without_any_colour(
    charts: tuple[MixingChart, MixingChart], terminal: Terminal
) -> None:
    pair, pairs = charts
    console = terminal(None)
    print_pair_chart(console, pair)
    text = printed(console)
    assert "S241" in text
    assert "±2.5" in text
    assert on_screen(next(cell.lab for cell in pair.cells if cell.lab)).hex in text
    console = terminal(None)
    print_pairs_chart(console, pairs)
    rows = [line.split() for line in printed(console).splitlines()]
    codes = {paint.facts.code for paint in pairs.paints}
    letters = [row[1:] for row in rows if row[:1] and row[0] in codes and len(row) > 9]
    assert len(letters) == len(codes)
    assert sum(row.count("m") for row in letters) == pairs.measured
    assert sum(row.count("x") for row in letters) == pairs.uncertain
    assert sum(row.count("p") for row in letters) == pairs.predicted - pairs.uncertain
