"""The shelf check names what is low, fades or needs care, and the mixes that depend on it."""

from collections.abc import Iterable
from dataclasses import replace
from typing import Final

import pytest

from studio.actions.add_paint import add_paint
from studio.actions.buy_stock import Purchase, buy_stock
from studio.actions.check_shelf import PaintFinding, ShelfReport, check_shelf
from studio.actions.edit_paint import edit_paint, retire_paint
from studio.actions.find_stock import Item
from studio.actions.rate_pigment import rate_pigment
from studio.actions.use_stock import use_stock
from studio.catalogue.paint import Paint, PaintFacts
from studio.catalogue.stock import StockEvent, StockKind
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.conftest import DAY, Shelf
from tests.conftest import TODAY

CLEAN: Final = PaintFacts("NB", "Hard & Quay", "Night Blue", ("PB60",))


def _codes(findings: Iterable[PaintFinding]) -> list[str]:
    return [finding.paint.facts.code for finding in findings]


def _use(shelf: Shelf, item: Item, amount: float) -> None:
    use_stock(shelf.work, item, StockEvent(StockKind.USED, TODAY, amount), TODAY)


def _names(report: ShelfReport) -> dict[str, list[str]]:
    return {
        "low": _codes(report.low_paints),
        "fading": _codes(report.fading),
        "caring": _codes(report.caring),
        "unknown": _codes(report.unknown),
    }


def test_a_shelf_of_sound_full_rated_paints_needs_no_attention(work: UnitOfWork) -> None:
    add_paint(work, replace(CLEAN, volume_ml=10.0), TODAY)
    report = check_shelf(work)
    assert not report.needs_attention
    assert (report.low_papers, _names(report)["unknown"]) == ((), [])


def test_a_paint_is_low_at_a_fifth_of_its_volume_or_at_its_own_mark(shelf: Shelf) -> None:
    for code, amount in (("UM", 11.2), ("BS", 11.1), ("AC", 5.0)):  # 2.8 ml are a fifth of 14
        _use(shelf, shelf.paint(code), amount)
    assert _codes(check_shelf(shelf.work).low_paints) == ["AC", "UM"]  # the emptiest first
    umber = shelf.paint("CR")
    edit_paint(shelf.work, umber, replace(umber.facts, low_at_ml=10.0))
    assert _codes(check_shelf(shelf.work).low_paints) == ["AC", "UM", "CR"]


def test_a_paint_of_no_known_volume_is_low_only_when_it_is_used_up(shelf: Shelf) -> None:
    ochre = shelf.paint("SO")
    buy_stock(shelf.work, ochre, Purchase(DAY, capacity=3.0), TODAY)
    _use(shelf, ochre, 2.9)
    assert check_shelf(shelf.work).low_paints == ()
    _use(shelf, ochre, 0.1)
    assert _codes(check_shelf(shelf.work).low_paints) == ["SO"]


def test_a_paper_is_low_at_two_sheets_or_its_own_mark(shelf: Shelf) -> None:
    _use(shelf, shelf.paper("SM"), 2)
    assert check_shelf(shelf.work).low_papers == ()  # three are left; of SR nothing is on record
    _use(shelf, shelf.paper("SM"), 1)
    assert check_shelf(shelf.work).low_papers == (shelf.paper("SM"),)


def test_the_worst_source_decides_whether_a_paint_fades(shelf: Shelf) -> None:
    assert _codes(check_shelf(shelf.work).fading) == ["AC"]
    pigment = shelf.work.pigments.get("PB29")
    assert pigment is not None
    rate_pigment(shelf.work, pigment, "II", "a south window", TODAY)
    shelf.work.forget()
    assert _codes(check_shelf(shelf.work).fading) == ["AC"]
    rate_pigment(shelf.work, pigment, "III", "a north window", TODAY)
    shelf.work.forget()
    assert _codes(check_shelf(shelf.work).fading) == ["AC", "UM"]  # the worst first
    rate_pigment(shelf.work, pigment, "V", "a skylight", TODAY)
    shelf.work.forget()
    assert _codes(check_shelf(shelf.work).fading) == ["UM", "AC"]


def test_one_fading_pigment_is_enough_for_a_paint_to_be_named(work: UnitOfWork) -> None:
    add_paint(work, replace(CLEAN, pigments=("PB60", "PR83", "PR999")), TODAY)
    report = check_shelf(work)
    assert _codes(report.fading) == _codes(report.unknown) == ["NB"]


def test_cautions_are_those_that_ask_for_care(shelf: Shelf) -> None:
    caring = {
        finding.paint.facts.code: finding.paint.cautions
        for finding in check_shelf(shelf.work).caring
    }
    assert set(caring) == {"BS", "AC", "CR"}  # of PB29 only an EUH remark stands on record
    assert [hazard.pigment for hazard in caring["CR"]] == ["PR108"]
    assert "cadmium" in caring["CR"][0].metals


def test_what_nobody_recorded_or_rated_is_unknown_and_never_sound(shelf: Shelf) -> None:
    add_paint(shelf.work, replace(CLEAN, code="XX", name="Odd", pigments=("PR999",)), TODAY)
    report = check_shelf(shelf.work)
    assert _codes(report.unknown) == ["TG", "XX"]
    assert {"TG", "XX"}.isdisjoint(_codes((*report.fading, *report.caring)))


def test_each_finding_names_the_mixes_that_hold_the_paint(shelf: Shelf) -> None:
    evening, keel = shelf.mix("2 UM + AC"), shelf.mix("AC + BS")
    shelf.mix("UM + BS")
    (fading,) = check_shelf(shelf.work).fading
    assert fading.mixes == (evening, keel)
    unknown = check_shelf(shelf.work).unknown[0]
    assert (unknown.paint, unknown.mixes) == (shelf.paint("TG"), ())


@pytest.mark.parametrize(
    ("part", "expected"),
    [
        ("low", {"low": ["AC"], "fading": [], "caring": [], "unknown": []}),
        ("fading", {"low": [], "fading": ["AC"], "caring": [], "unknown": ["TG", "XX"]}),
        ("care", {"low": [], "fading": [], "caring": ["CR", "BS", "AC"], "unknown": ["TG"]}),
    ],
)
def test_only_what_is_asked_for_is_looked_at(
    shelf: Shelf, part: str, expected: dict[str, list[str]]
) -> None:
    add_paint(shelf.work, replace(CLEAN, code="XX", name="Odd", pigments=("PB16",)), TODAY)
    _use(shelf, shelf.paint("AC"), 4.5)
    report = check_shelf(
        shelf.work, low=part == "low", fading=part == "fading", care=part == "care"
    )
    found = _names(report)
    assert {name: sorted(codes) for name, codes in found.items()} == {
        name: sorted(codes) for name, codes in expected.items()
    }


def test_a_retired_paint_is_left_out_of_every_finding(shelf: Shelf) -> None:
    _use(shelf, shelf.paint("AC"), 5.0)
    before = check_shelf(shelf.work)
    assert "AC" in _codes(before.low_paints)
    for code in ("AC", "TG", "CR"):
        retire_paint(shelf.work, shelf.paint(code))
    after = check_shelf(shelf.work)
    assert _names(after) == {"low": [], "fading": [], "caring": ["BS"], "unknown": []}
    assert after.needs_attention


def test_the_demo_studio_has_the_findings_its_readme_tells_of(demo_work: UnitOfWork) -> None:
    report = check_shelf(demo_work)
    assert {"HY", "BS", "YO", "IB", "DV"} <= set(_codes(report.low_paints))
    assert [paper.facts.code for paper in report.low_papers] == ["EHP"]
    alizarin = next(f for f in report.fading if f.paint.facts.code == "AC")
    assert len(alizarin.mixes) >= 4
    assert {"CB", "CE"} <= set(_codes(report.caring))
    every: tuple[Paint, ...] = demo_work.paints.all()
    retired = {paint.facts.code for paint in every if paint.facts.status == "retired"}
    assert retired == {"CR"}
    assert retired.isdisjoint(
        _codes((*report.low_paints, *report.fading, *report.caring, *report.unknown))
    )
