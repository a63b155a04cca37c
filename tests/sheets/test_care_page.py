"""The cautions of a shelf on one page: grouped by hazard, unverified never like verified."""

from dataclasses import replace
from datetime import date
from itertools import pairwise
from typing import Final

import pytest

from studio.catalogue.care import BASIS_WORDS, Work
from studio.catalogue.data_sheet import DataSheet
from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import ADVICE, Basis, Hazard, HazardCode
from studio.catalogue.paint import Paint, PaintFacts
from studio.catalogue.pigment import Pigment
from studio.catalogue.stock import Stock, Unit
from studio.sheets.blocks import Grid, Heading, Page, Paragraph
from studio.sheets.care_fields import sheet_fields
from studio.sheets.care_page import avoid_text, care_page, mark, sheet_rows

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


def _grids(page: Page) -> list[Grid]:
    return [block for block in page.blocks if isinstance(block, Grid)]


def _cells(page: Page, column: str) -> list[str]:
    return [row[grid.columns.index(column)] for grid in _grids(page) for row in grid.rows]


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
    page = care_page([row.paints[0] for row in rows], DAY)
    headings = [block.text for block in page.blocks if isinstance(block, Heading)]
    assert headings == ["Keep from spatter, spray, dust, drain, classes", "Also on record"]
    assert all(
        isinstance(after, Grid) for at, after in pairwise(page.blocks) if isinstance(at, Heading)
    )


@pytest.mark.parametrize("basis", Basis)
def test_the_standing_in_the_law_has_a_column_of_its_own(basis: Basis) -> None:
    page = care_page([_paint(1, "Creek Blue", replace(COBALT, basis=basis))], DAY)
    assert _cells(page, "classification") == [BASIS_WORDS[basis]]


def test_unverified_and_verified_differ_by_mark_and_by_word() -> None:
    assert mark(verified=False) == "? unverified"
    assert mark(verified=True) == "\N{CHECK MARK} verified"
    paints = [
        _paint(1, "Creek Blue", COBALT),
        _paint(2, "Slack Water", replace(COBALT, verified_on=DAY)),
    ]
    assert sorted(_cells(care_page(paints, DAY), "")) == [
        mark(verified=False),
        mark(verified=True),
    ]


def test_no_data_and_nothing_on_record_are_told_apart() -> None:
    unknown = replace(_paint(1, "Old Rust"), pigments=())
    silent = _paint(2, "Marsh Green")
    texts = [
        block.text
        for block in care_page([unknown, silent], DAY).blocks
        if isinstance(block, Paragraph)
    ]
    assert texts[0] == "No data, treat with care: Old Rust."
    assert texts[1] == "No caution on record, which is no finding: Marsh Green."
    fields = sheet_fields([], [unknown, silent])
    assert (fields["no_data"], fields["nothing_on_record"]) == (["P1"], ["P2"])


def test_label_marks_stand_beside_the_law_and_not_in_its_place() -> None:
    sheet = DataSheet(None, None, "CL, GHS07", DAY)
    paint = replace(_paint(1, "Creek Blue", COBALT), data_sheet=sheet)
    page = care_page([paint], DAY)
    assert _cells(page, "classification") == ["none known"]
    texts = [block.text for block in page.blocks if isinstance(block, Paragraph)]
    assert "Label marks noted: P1: CL, GHS07." in texts
    (row,) = sheet_fields(sheet_rows([paint]), [paint])["cautions"]
    assert row["label_marks"] == ["P1: CL, GHS07"]
    assert row["classification"] == "none"
    assert row["paints"] == ["P1"]
    assert row["avoid_for"] == [
        "spatter", "spray", "dry pigment", "sanding", "rinse water", "adults", "children"
    ]  # fmt: skip


def test_the_page_says_where_to_verify_and_of_which_day_it_is() -> None:
    page = care_page([_paint(1, "Creek Blue", COBALT)], DAY)
    assert page.foot == ADVICE
    assert page.lead == "25 Nov 2026, 1 paint in use"
    assert care_page([], DAY).lead == "25 Nov 2026, 0 paints in use"
    assert _grids(care_page([], DAY)) == []


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
