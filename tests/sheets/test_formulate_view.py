"""Predicted recipes at a terminal with and without colour, and the bar of a long search."""

import io
from dataclasses import replace
from fractions import Fraction

import pytest
from rich.console import Console

from studio.actions.beyond_paints import Failing, beyond_paints
from studio.actions.find import find_paint
from studio.actions.formulate_colour import FormulateResult, Laying, formulate_colour
from studio.actions.match_colour import Wanted
from studio.actions.model_inputs import UnknownPaint
from studio.actions.paint_model import paint_model
from studio.actions.paper_ground import GroundBasis
from studio.actions.read_target import read_target
from studio.sheets.formulate_notes import failing_text, ground_text, parts_ratio, rests_text
from studio.sheets.formulate_view import print_formulate
from studio.sheets.progress import progress_bar
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import TODAY


@pytest.fixture
def result(demo_work: UnitOfWork) -> FormulateResult:
    model = paint_model(demo_work, TODAY)
    target = read_target(demo_work, "S74")
    laying = Laying(2, 2, None, lights=("A",))
    return formulate_colour(demo_work, model, target, Wanted(), laying, count=2)


def _printed(result: FormulateResult, **options: object) -> str:
    stream = io.StringIO()
    settings = {"width": 80, "highlight": False, "markup": False, "emoji": False, **options}
    print_formulate(Console(file=stream, **settings), result)  # type: ignore[arg-type]
    return stream.getvalue()


def test_it_fits_a_narrow_terminal_with_and_without_colour(result: FormulateResult) -> None:
    plain = _printed(result)
    assert max(len(line) for line in plain.splitlines()) <= 80
    assert "\x1b" not in plain
    coloured = _printed(result, force_terminal=True, color_system="truecolor")
    assert "\x1b[48;2;" in coloured
    assert "under A ΔE00" in plain
    assert "reflectance off by" in plain
    assert "2 layers" in plain
    assert "--layers 2" in plain


def test_what_is_left_out_is_told_but_not_without_end(
    result: FormulateResult, demo_work: UnitOfWork
) -> None:
    codes = ("FU", "BS", "RS", "YO", "RU")
    unknown = tuple(
        UnknownPaint(find_paint(demo_work, code), "no dry swatch holds it", "a flat wash")
        for code in codes
    )
    red = find_paint(demo_work, "CR")
    paints = replace(result.paints, unknown=unknown, retired=(red,))
    text = _printed(replace(result, paints=paints))
    assert "left out: French Ultramarine: no dry swatch holds it; make a flat wash" in text
    assert "left out: Yellow Ochre" not in text
    assert "and 2 more" in text
    assert "left out: Cadmium Red is retired" in text


def test_a_match_that_breaks_is_named(result: FormulateResult) -> None:
    first = result.proposals[0]
    assert first.lights is not None
    broken = replace(first, lights=(replace(first.lights[0], reference_delta_e=0.5, delta_e=4.0),))
    text = _printed(replace(result, proposals=(broken,)))
    assert "Breaks under A (incandescent lamp): 1." in text
    assert "the match breaks" in text


def test_without_a_measured_spectrum_it_says_so(result: FormulateResult) -> None:
    text = " ".join(_printed(replace(result, measured=0)).split())
    assert "every one estimated from Lab: none was measured" in text
    assert "estimated from Lab: none was measured" not in _printed(result)


def test_the_paper_says_where_its_white_comes_from(
    result: FormulateResult, demo_work: UnitOfWork
) -> None:
    assert "a usual white paper" in ground_text(result)
    paper = demo_work.papers.all()[0]
    laid = replace(result, laying=replace(result.laying, paper=paper))
    for basis, words in (
        (GroundBasis.MEASURED, "measured"),
        (GroundBasis.ESTIMATED, "estimated from its Lab"),
        (GroundBasis.USUAL, "never read"),
    ):
        assert words in ground_text(replace(laid, ground=basis))


@pytest.mark.parametrize(
    ("wanted", "nearest", "failing", "help_"),
    [
        ((10.0, 2.0, 1.0), (30.0, 3.0, 1.0), Failing.VALUE, "--layers 3"),
        ((95.0, 30.0, 10.0), (70.0, 31.0, 10.0), Failing.VALUE, "whiter paper"),
        ((50.0, 80.0, 10.0), (51.0, 50.0, 7.0), Failing.CHROMA, "more intense paint"),
        ((50.0, 30.0, 10.0), (50.0, 60.0, 20.0), Failing.CHROMA, "opposite hue"),
        ((50.0, 40.0, 0.0), (50.0, 30.0, 26.0), Failing.HUE, "nearer that hue"),
    ],
)
def test_each_way_to_fail_has_its_remedy(
    result: FormulateResult,
    wanted: tuple[float, float, float],
    nearest: tuple[float, float, float],
    failing: Failing,
    help_: str,
) -> None:
    beyond = beyond_paints(wanted, nearest)
    text = failing_text(beyond, result)
    assert f"The {failing} cannot be reached" in text
    assert help_ in text
    assert help_ in " ".join(_printed(replace(result, beyond=beyond)).split())


def test_what_a_recipe_rests_on_tells_estimated_spectra(result: FormulateResult) -> None:
    first = result.proposals[0]
    measured = replace(first, rests=tuple(replace(rest, estimated=0) for rest in first.rests))
    assert rests_text(measured).endswith("every spectrum measured")
    one = replace(first.rests[0], alone=1, mixed=3, estimated=2)
    text = rests_text(replace(first, rests=(one,)))
    assert "1 swatch alone, 3 in mixes" in text
    assert text.endswith(f"2 of 4 of {one.paint.facts.code}")


def test_water_is_a_ratio_of_whole_parts() -> None:
    assert parts_ratio(Fraction(5, 2)) == "5:2"
    assert parts_ratio(Fraction(3)) == "3:1"


class _Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def _shown(stream: io.StringIO, seconds: float, monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.setenv("TERM", "xterm-256color")
    times = iter([0.0, *([seconds] * 10)])
    with progress_bar(stream, "searching recipes", clock=lambda: next(times)) as tell:
        tell(0.5)
        tell(1.0)
    return stream.getvalue()


def test_a_bar_is_shown_from_one_second_on(monkeypatch: pytest.MonkeyPatch) -> None:
    assert "searching recipes" in _shown(_Terminal(), 1.5, monkeypatch)
    assert _shown(_Terminal(), 0.5, monkeypatch) == ""
    assert _shown(io.StringIO(), 5.0, monkeypatch) == ""
