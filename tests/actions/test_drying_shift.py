"""The drying shift comes from the studio's own pairs, of the nearest kind with enough of them."""

from datetime import date, timedelta
from typing import Final

import pytest

from studio.actions.drying_shift import drying_report, expected_dry
from studio.actions.log_swatch import read_swatch
from studio.actions.match_colour import Wanted, match_colour
from studio.actions.read_target import Target, read_target
from studio.catalogue.drying import ENOUGH
from studio.catalogue.reading import State
from studio.catalogue.swatch import Swatch
from studio.colour.lab import Lab
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.conftest import DAY, Shelf, read
from tests.conftest import TODAY

PATCH: Final = Target(Lab(40.0, 0.0, 30.0), "patch")


def _pair(
    shelf: Shelf, recipe: str, by: float, *, paper: str = "SR", chroma: float = 0.0
) -> Swatch:
    """A patch that dries lighter by so many L* and changes its chroma by so much."""
    wet = shelf.swatch(recipe, Lab(40.0, 0.0, 30.0), paper=paper, state=State.WET)
    return read_swatch(shelf.work, wet, read(Lab(40.0 + by, 0.0, 30.0 + chroma)), TODAY)


def _pairs(shelf: Shelf, recipe: str, by: float, paper: str = "SR", count: int = ENOUGH) -> None:
    for place in range(count):
        _pair(shelf, recipe, by + 0.1 * (place - (count - 1) / 2), paper=paper)


def _lightness(shelf: Shelf, target: Target = PATCH, **how: object) -> float:
    shift = expected_dry(shelf.work, target, **how).own.shift  # type: ignore[arg-type]
    return round(shift.mean.lightness, 6)


def test_the_report_tells_shifts_overall_by_paper_and_by_paint(shelf: Shelf) -> None:
    _pair(shelf, "1 UM + 1 BS", 2.0, chroma=-2.0)
    _pair(shelf, "1 UM", 4.0, paper="SM", chroma=-4.0)
    _pair(shelf, "1 UM", 6.0, chroma=-6.0)
    shelf.swatch("1 CR", Lab(50.0, 0.0, 0.0))
    report = drying_report(shelf.work)
    assert report.overall is not None
    assert report.overall.shift.pairs == 3
    assert report.overall.shift.mean.lightness == pytest.approx(4.0)
    assert report.overall.shift.mean.chroma == pytest.approx(-4.0)
    papers = {own.paper.facts.code: own.shift for own in report.papers if own.paper}
    assert {code: shift.pairs for code, shift in papers.items()} == {"SR": 2, "SM": 1}
    assert {round(shift.mean.lightness, 9) for shift in papers.values()} == {4.0}
    paints = [(own.paints[0].facts.code, own.shift.pairs) for own in report.paints]
    assert paints == [("UM", 3), ("BS", 1)]
    assert report.waiting == report.unpaired == ()


def test_patches_that_are_no_pair_are_named(shelf: Shelf) -> None:
    waiting = shelf.swatch("1 UM", Lab(40, 0, 0), state=State.WET)
    again = shelf.swatch("1 BS", Lab(40, 0, 0))
    later = read(Lab(38, 0, 0), DAY + timedelta(days=1), State.WET)
    again = read_swatch(shelf.work, again, later, TODAY)
    report = drying_report(shelf.work)
    assert (report.overall, report.papers, report.paints) == (None, (), ())
    assert [swatch.id for swatch in report.waiting] == [waiting.id]
    assert [swatch.id for swatch in report.unpaired] == [again.id]


def test_without_a_pair_a_wet_patch_cannot_be_matched(shelf: Shelf) -> None:
    shelf.swatch("1 UM", Lab(40, 0, 0), state=State.WET)
    shelf.swatch("1 UM", Lab(40, 0, 0))
    with pytest.raises(BadInput, match="no swatch has been read both wet and dry"):
        expected_dry(shelf.work, PATCH)
    with pytest.raises(BadInput, match="no swatch has been read both wet and dry"):
        match_colour(shelf.work, PATCH, Wanted(), wet=True)


def test_a_single_pair_is_used_for_all_and_says_it_is_single(shelf: Shelf) -> None:
    _pair(shelf, "1 UM", 3.0, chroma=-5.0)
    drying = expected_dry(shelf.work, PATCH, shelf.paper("SM"), [shelf.paint("CR")])
    assert drying.target.lab.coordinates == pytest.approx((43.0, 0.0, 25.0))
    assert drying.wet == PATCH
    assert drying.target.note == "expected dry colour of a wet patch"
    assert (drying.own.paper, drying.own.paints, drying.own.shift.spread) == (None, (), None)
    assert not drying.own.is_enough


def test_the_nearest_kind_of_pairs_is_taken_of_which_there_are_enough(shelf: Shelf) -> None:
    um, bs, sr, sm = shelf.paint("UM"), shelf.paint("BS"), shelf.paper("SR"), shelf.paper("SM")
    _pairs(shelf, "1 UM + 1 BS", 2.0, "SR")
    _pairs(shelf, "1 UM", 5.0, "SM")
    _pairs(shelf, "1 CR", 8.0, "SM")
    _pairs(shelf, "1 SO", 11.0, "SM", count=ENOUGH - 1)
    every = (2 * 5 + 5 * 5 + 8 * 5 + 11 * 4) / 19
    assert _lightness(shelf) == pytest.approx(every)
    assert _lightness(shelf, paper=sr) == 2.0
    assert _lightness(shelf, paper=sm) == pytest.approx((5 * 5 + 8 * 5 + 11 * 4) / 14)
    assert _lightness(shelf, paints=[um]) == 3.5
    assert _lightness(shelf, paints=[um, bs]) == 2.0
    assert _lightness(shelf, paper=sm, paints=[um]) == 5.0
    assert _lightness(shelf, paper=sm, paints=[um, bs]) == 2.0  # these paints before that paper
    so = shelf.paint("SO")  # of which there are too few
    assert _lightness(shelf, paints=[so]) == pytest.approx(every)
    assert _lightness(shelf, paper=sr, paints=[so]) == 2.0
    own = expected_dry(shelf.work, PATCH, sm, [um]).own
    assert (own.paper, own.paints, own.shift.pairs) == (sm, (um,), ENOUGH)
    own = expected_dry(shelf.work, PATCH, sr, [so]).own
    assert (own.paper, own.paints) == (sr, ())


def test_a_recorded_wet_patch_brings_its_own_paper_and_paints(shelf: Shelf) -> None:
    _pairs(shelf, "1 UM + 1 BS", 2.0, "SR")
    _pairs(shelf, "1 UM", 5.0, "SM")
    wet = shelf.swatch("1 BS + 1 UM", Lab(50, 10, 20), paper="SM", state=State.WET)
    target = read_target(shelf.work, wet.facts.code)
    drying = expected_dry(shelf.work, target, shelf.paper("SM"), [shelf.paint("CR")])
    assert {paint.facts.code for paint in drying.own.paints} == {"UM", "BS"}
    assert drying.own.paper is None  # no pair of these paints on that paper
    assert drying.target.lab.lightness == pytest.approx(52.0)
    assert drying.target.swatch_id == wet.id


def test_a_swatch_that_was_read_dry_is_no_wet_patch(shelf: Shelf) -> None:
    pair = _pair(shelf, "1 UM", 2.0)
    target = read_target(shelf.work, pair.facts.code)
    with pytest.raises(BadInput, match=r"S1 has been read dry; match it without --wet"):
        expected_dry(shelf.work, target)


def test_a_match_of_a_wet_patch_is_that_of_the_colour_it_dries_to(shelf: Shelf) -> None:
    for place in range(3):
        _pair(shelf, "1 UM", 2.0 + place, chroma=-6.0)
    near = shelf.swatch("1 CR", Lab(43.0, 0.0, 24.0))
    shelf.swatch("1 BS", Lab(40.0, 0.0, 30.0), state=State.WET)
    far = shelf.swatch("1 SO", Lab(40.0, 0.0, 31.0))
    result = match_colour(shelf.work, PATCH, Wanted(), wet=True, count=3)
    assert result.drying is not None
    assert result.drying.wet == PATCH
    assert result.target.lab.coordinates == pytest.approx((43.0, 0.0, 24.0))
    assert result.matches[0].difference == pytest.approx(0.0, abs=1e-6)
    assert {result.matches[0].swatch.id, result.matches[1].swatch.id} & {near.id}
    assert match_colour(shelf.work, PATCH, Wanted(), count=1).matches[0].swatch.id == far.id
    assert match_colour(shelf.work, PATCH, Wanted()).drying is None


def test_the_demo_dries_as_its_readme_says(demo_work: UnitOfWork) -> None:
    report = drying_report(demo_work)
    assert report.overall is not None
    shift = report.overall.shift
    assert shift.pairs >= 15
    assert shift.mean.lightness == pytest.approx(2.3, abs=0.2)
    assert shift.mean.chroma < 0
    assert shift.spread is not None
    assert 0.4 < shift.spread.lightness < 0.8
    assert all(
        reading.read_on <= date(2026, 11, 25) for s in report.waiting for reading in s.readings
    )
