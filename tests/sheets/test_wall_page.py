"""The page for the wall: one sheet, grouped, unverified never like verified."""

import io
import re
from dataclasses import replace
from datetime import date
from typing import Final

import pytest
from pypdf import PdfReader

from studio.catalogue.data_sheet import DataSheet
from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import ADVICE, Basis, Hazard, HazardCode
from studio.catalogue.paint import Paint, PaintFacts
from studio.catalogue.pigment import Pigment
from studio.catalogue.stock import Stock, Unit
from studio.colour.lab import Lab
from studio.sheets.blocks import Chips, Grid, Page, Paragraph
from studio.sheets.page_html import html_of
from studio.sheets.page_pdf import pdf_of
from studio.sheets.wall_page import COLUMNS, RULES, wall_page
from tests.sheets.pages import HOSTILE, read_html

DAY: Final = date(2026, 11, 25)
BLUE: Final = Lab(40.0, 5.0, -45.0)
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


def _pigment(name: str, *hazards: Hazard, evidence: Evidence | None = Evidence.MEMORY) -> Pigment:
    return Pigment(name, None, None, None, evidence, None, None, hazards=hazards)


def _paint(key: int, name: str, *pigments: Pigment, sheet: DataSheet | None = None) -> Paint:
    names = tuple(each.ci_name for each in pigments)
    facts = PaintFacts(f"P{key}", "Pellow & Strand", name, names)
    return Paint(key, facts, pigments, Stock(None, Unit.ML, None), sheet)


PB28: Final = _pigment("PB28", COBALT)
CREEK: Final = _paint(1, "Creek Blue", PB28)


def _grid(page: Page) -> Grid:
    (grid,) = [block for block in page.blocks if isinstance(block, Grid)]
    return grid


def _rows(*paints: Paint) -> list[dict[str, str]]:
    grid = _grid(wall_page(paints, {}, DAY))
    return [
        {
            name: cell.replace("\N{NO-BREAK SPACE}", " ")
            for name, cell in zip(COLUMNS, row, strict=True)
        }
        for row in grid.rows
    ]


def _silent(*paints: Paint) -> list[str]:
    found = [each for each in wall_page(paints, {}, DAY).blocks if isinstance(each, Chips)]
    return [text.replace("\N{NO-BREAK SPACE}", " ") for each in found for _, text in each.items]


def test_a_paint_stands_with_all_that_is_told_of_it() -> None:
    sheet = DataSheet("shelf/creek.pdf", date(2025, 5, 2), "CL", DAY)
    assert _rows(replace(CREEK, data_sheet=sheet)) == [
        {
            "paints": "P1 Creek Blue",
            "keep from": "mist, dust, drain, classes",
            "pigment": "PB28",
            "caution": "cobalt, skin sensitiser?",
            "harm by": "swallowing, dust",
            "harmonised": "",
            "exempt": "",
            "notified": "",
            "other": "none known: H317?",
            "verified": "? unverified",
            "label marks": "CL",
            "data sheet": "2 May 2025",
        }
    ]


def test_paints_of_the_same_pigment_and_caution_share_a_row_with_their_patches() -> None:
    sheet = DataSheet(None, None, "CL", DAY)
    other = _paint(2, "Slack\nWater", PB28, sheet=sheet)
    (row,) = _rows(CREEK, other)
    assert row["paints"] == "P1 Creek Blue\nP2 Slack Water"
    assert row["label marks"] == "P1: not noted; P2: CL"
    assert row["data sheet"] == "missing"
    assert _grid(wall_page([CREEK, other], {1: BLUE}, DAY)).chips == ((BLUE, None),)


@pytest.mark.parametrize(
    "hazard",
    [
        replace(COBALT, pigment="PB35"),
        replace(COBALT, basis=Basis.EXEMPT),
        replace(COBALT, verified_on=DAY),
        replace(COBALT, metals=("nickel",)),
        replace(COBALT, routes=("swallowing",)),
    ],
)
def test_what_reads_otherwise_has_a_row_of_its_own(hazard: Hazard) -> None:
    assert len(_rows(CREEK, _paint(2, "Slack Water", _pigment(hazard.pigment, hazard)))) == 2


def test_each_pigment_of_a_paint_has_a_row_that_goes_on_with_its_own() -> None:
    mixed = _paint(1, "Reed", PB28, _pigment("PBk9", DUST), _pigment("PY42"))
    grid = _grid(wall_page([mixed], {1: BLUE}, DAY))
    assert grid.joined == {1, 2}
    assert grid.chips == ((BLUE,), (), ())
    first, second, third = _rows(mixed)
    assert (second["paints"], second["pigment"], second["caution"]) == (
        *("", "PBk9", "no class on record"),
    )
    assert (third["pigment"], third["caution"], third["other"]) == (
        *("PY42", "none on record", "not looked up"),
    )
    assert first["keep from"].startswith("mist")


@pytest.mark.parametrize("basis", Basis)
def test_the_standing_in_the_law_has_a_column_of_its_own(basis: Basis) -> None:
    (row,) = _rows(_paint(1, "Creek Blue", _pigment("PB28", replace(COBALT, basis=basis))))
    told = {name: row[name] for name in ("harmonised", "exempt", "notified") if row[name]}
    assert told == ({basis.value: "H317?"} if basis.value in row else {})
    assert bool(row["other"]) == (basis.value not in row)


def test_verified_and_unverified_differ_by_mark_and_by_word() -> None:
    verified = _pigment("PB28", replace(COBALT, verified_on=DAY))
    told = [row["verified"] for row in _rows(CREEK, _paint(2, "Slack Water", verified))]
    assert sorted(told) == ["? unverified", "\N{CHECK MARK} verified"]


def test_no_data_asks_for_care_and_nothing_on_record_is_no_finding() -> None:
    bare = _paint(1, "Old Rust")
    strange = _paint(2, "Wrack", _pigment("PX9", evidence=None))
    silent = _paint(3, "Marsh Green", _pigment("PG90"))
    rows = _rows(bare, strange, silent)
    assert {(row["pigment"], row["caution"], row["other"]) for row in rows} == {
        ("not recorded", "no data: read label and data sheet", "no data"),
        ("PX9", "no data: read label and data sheet", "no data"),
    }
    assert all(row["keep from"] for row in rows)
    assert _silent(bare, strange, silent) == [
        "P3 Marsh Green, PG90; label not noted; sheet missing"
    ]
    page = wall_page([silent], {3: BLUE}, DAY)
    assert not any(isinstance(block, Grid) for block in page.blocks)
    (told,) = [each for each in page.blocks if isinstance(each, Paragraph) and each.strong]
    assert told.text == "Not looked up, so not known until label and data sheet are read:"
    (pigment,) = silent.pigments
    noted = replace(silent, data_sheet=DataSheet("a.pdf", None, "AP", DAY))
    page = wall_page([noted], {3: BLUE}, DAY)
    (told,) = [each for each in page.blocks if isinstance(each, Paragraph) and each.strong]
    assert told.text.startswith("Not looked up, and known by what was noted of label")
    looked = replace(silent, pigments=(replace(pigment, looked_up="the harbour's list"),))
    page = wall_page([looked], {3: BLUE}, DAY)
    (told,) = [each for each in page.blocks if isinstance(each, Paragraph) and each.strong]
    assert told.text == "Looked up and nothing found, which does not mean that it is safe:"
    assert _silent(looked) == [
        "P3 Marsh Green, PG90; PG90 (the harbour's list); label not noted; sheet missing"
    ]


@pytest.mark.parametrize(
    ("sheet", "text"),
    [
        (None, "missing"),
        (DataSheet(None, None, "CL", DAY), "missing"),
        (DataSheet("a.pdf", None, None, DAY), "no date"),
        (DataSheet("a.pdf", date(2019, 6, 14), None, DAY), "14 Jun 2019, old"),
    ],
)
def test_the_data_sheet_is_told_in_a_word_or_two(sheet: DataSheet | None, text: str) -> None:
    (row,) = _rows(replace(CREEK, data_sheet=sheet))
    assert row["data sheet"] == text


def test_the_page_says_where_to_verify_and_of_which_day_it_is() -> None:
    page = wall_page([CREEK], {}, DAY)
    assert (page.notice, page.day, page.fits, page.wide) == (ADVICE, DAY, True, True)
    assert page.lead == "25 Nov 2026, 1 paint in use"
    assert len(RULES) <= 3
    assert wall_page([], {}, DAY).lead == "25 Nov 2026, 0 paints in use"
    assert pdf_of(wall_page([], {}, DAY)).sheets == 1


def _shelf(count: int) -> list[Paint]:
    """A shelf like that of the demo: a third has no record, some share a pigment or are mixed."""
    sheet = DataSheet("a.pdf", date(2025, 2, 1), "CL", DAY)
    paints = []
    for key in range(count):
        hazard = (COBALT, DUST, replace(COBALT, codes=()))[key // 3 % 3]
        pigment = _pigment(f"PB{key}", replace(hazard, pigment=f"PB{key}"))
        earth = f"PBr{key // 12}"
        pigments = [
            [pigment],
            [_pigment(earth, replace(COBALT, pigment=earth, metals=("manganese",)))],
            [_pigment(f"PR{key}")],
        ][key % 3]
        if key % 12 == 0:
            pigments.append(_pigment("PBk9", DUST))
        paints.append(_paint(key, "Estuary Deep", *pigments, sheet=sheet))
    return paints


@pytest.mark.parametrize("count", [1, 23, 40])
def test_a_shelf_stands_on_one_sheet_in_legible_type(count: int) -> None:
    made = pdf_of(wall_page(_shelf(count), dict.fromkeys(range(count), BLUE), DAY))
    assert (made.sheets, made.too_long) == (1, False)
    (sheet,) = PdfReader(io.BytesIO(made.content)).pages
    text = " ".join(sheet.extract_text().split())
    assert ADVICE in text
    for key in range(count):
        assert f"P{key} Estuary" in text
    content = sheet.get_contents()
    assert content is not None
    sizes = [float(size) for size in re.findall(rb"/F\d+ ([\d.]+) Tf", content.get_data())]
    assert min(sizes) >= 6.5


def test_a_larger_shelf_goes_on_with_notice_and_headings() -> None:
    made = pdf_of(wall_page(_shelf(120), {}, DAY))
    assert made.too_long
    reader = PdfReader(io.BytesIO(made.content))
    assert len(reader.pages) == made.sheets > 1
    texts = [" ".join(sheet.extract_text().split()) for sheet in reader.pages]
    assert all(text.startswith(ADVICE) for text in texts)
    assert texts[1].removeprefix(ADVICE).strip().startswith("paints keep from pigment")


def test_a_name_is_text() -> None:
    page = wall_page([replace(CREEK, facts=replace(CREEK.facts, name=HOSTILE))], {1: BLUE}, DAY)
    root = read_html(html_of(page))
    assert f"P1 {HOSTILE}" in [each.text for each in root.all("span")]
    assert pdf_of(page).sheets == 1
    assert pdf_of(page).content == pdf_of(page).content
