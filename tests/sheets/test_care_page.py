"""The cautions of a shelf: grouped by hazard, unverified never like verified."""

from dataclasses import replace
from datetime import date
from typing import Final

import pytest

from studio.catalogue.care import Work
from studio.catalogue.data_sheet import DataSheet
from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import Basis, Hazard, HazardCode
from studio.catalogue.paint import Paint, PaintFacts
from studio.catalogue.pigment import Pigment
from studio.catalogue.stock import Stock, Unit
from studio.sheets.care_fields import sheet_fields
from studio.sheets.care_page import avoid_text, sheet_rows

DAY: Final = date(2026, 11, 25)
COBALT: Final = Hazard(
    pigment="PB28",
    agent="cobalt aluminate",
    cas=None,
    summary="A caution.",
    codes=(HazardCode("H317", "skin sensitiser", "May cause an allergic reaction.", hedged=True),),
    basis=Basis.NONE,
    basis_detail=None,
    routes=("swallowing", "breathing dust"),
    metals=("cobalt",),
    evidence=Evidence.MEMORY,
    source="a test",
)
DUST: Final = replace(COBALT, pigment="PBk9", codes=(), routes=("breathing dust",), metals=())


def _paint(key: int, name: str, *hazards: Hazard, pigment: str = "PB28") -> Paint:
    known = Pigment(pigment, None, None, None, Evidence.MEMORY, None, None, hazards=hazards)
    facts = PaintFacts(f"P{key}", "Pellow & Strand", name, (pigment,))
    return Paint(key, facts, (known,), Stock(None, Unit.ML, None))


def test_paints_that_share_a_hazard_share_a_row() -> None:
    other = replace(COBALT, pigment="PB36", agent="cobalt chromite", summary="Another caution.")
    paints = [_paint(1, "Creek Blue", COBALT), _paint(2, "Slack Water", other, pigment="PB36")]
    (row,) = sheet_rows(paints)
    assert [paint.facts.name for paint in row.paints] == ["Creek Blue", "Slack Water"]
    assert row.pigments == ("PB28", "PB36")
    assert row.words == ("cobalt", "skin sensitiser?")


@pytest.mark.parametrize(
    "other",
    [
        replace(COBALT, basis=Basis.EXEMPT),
        replace(COBALT, verified_on=DAY),
        replace(COBALT, metals=("nickel",)),
        replace(COBALT, routes=("swallowing",)),
    ],
)
def test_what_reads_otherwise_has_a_row_of_its_own(other: Hazard) -> None:
    rows = sheet_rows([_paint(1, "Creek Blue", COBALT), _paint(2, "Slack Water", other)])
    assert len(rows) == 2


def test_what_is_left_out_of_most_work_comes_first() -> None:
    rows = sheet_rows([_paint(1, "Tar", DUST, pigment="PBk9"), _paint(2, "Creek Blue", COBALT)])
    assert [row.pigments for row in rows] == [("PB28",), ("PBk9",)]


@pytest.mark.parametrize(
    ("works", "text"),
    [
        ((), ""),
        ((Work.CHILDREN,), "children's classes"),
        ((Work.ADULTS, Work.CHILDREN), "classes"),
        ((Work.SPRAY,), "spray"),
        ((Work.SPRAY, Work.SANDING, Work.PREGNANCY), "spray, sanding, pregnancy"),
        (
            (Work.SPATTER, Work.SPRAY, Work.DRY_PIGMENT, Work.SANDING, Work.RINSE_WATER),
            "spatter, spray, dust, drain",
        ),
    ],
)
def test_kinds_of_work_are_told_in_a_few_words(works: tuple[Work, ...], text: str) -> None:
    assert avoid_text(works) == text


def test_no_data_and_nothing_on_record_are_told_apart() -> None:
    unknown = replace(_paint(1, "Old Rust"), pigments=())
    fields = sheet_fields([], [unknown, _paint(2, "Marsh Green")])
    assert (fields["no_data"], fields["nothing_on_record"]) == (["P1"], ["P2"])


def test_label_marks_stand_beside_the_law_and_not_in_its_place() -> None:
    sheet = DataSheet(None, None, "CL, GHS07", DAY)
    paint = replace(_paint(1, "Creek Blue", COBALT), data_sheet=sheet)
    (row,) = sheet_rows([paint])
    assert row.label_marks == ("P1: CL, GHS07",)
    assert row.basis is Basis.NONE
    (fields,) = sheet_fields([row], [paint])["cautions"]
    assert fields["label_marks"] == ["P1: CL, GHS07"]
    assert fields["paints"] == ["P1"]
    assert fields["avoid_for"] == list(map(str, row.avoid_for))
