"""The card of a paint: every fact with its standing, and what is not known said so."""

import ast
import inspect
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from typing import Final

import pytest

from studio.catalogue.container import Container, ContainerKind
from studio.catalogue.data_sheet import DataSheet
from studio.catalogue.evidence import Evidence
from studio.catalogue.fade import INDICATIVE, FadeReading, FadeTest
from studio.catalogue.hazard import ADVICE, EVERY_PAINT, NO_DATA, Basis, Hazard, HazardCode
from studio.catalogue.lightfastness import LightfastnessRating, Scale
from studio.catalogue.paint import Degree, Paint, PaintFacts, Transparency
from studio.catalogue.pigment import Pigment
from studio.catalogue.stock import Stock, StockEvent, StockKind, Unit
from studio.colour.lab import Lab
from studio.sheets import card_sections, page_html, page_parts, page_pdf, paint_card
from studio.sheets.blocks import Block, Grid, Heading, NewSheet, Page, Paragraph, Patches
from studio.sheets.card_sections import CLASSED, HEDGED, STANDING, UNVERIFIED, VERIFIED
from studio.sheets.paint_card import NO_PATCH, Card, shelf_cards
from studio.sheets.paint_card import paint_card as card_of

NO_TEST: Final = "No fade test of your own on record."
DAY: Final = date(2026, 11, 25)
TEAL: Final = Lab(45.0, -20.0, -12.0)

MEMORY: Final = LightfastnessRating(
    "PG50", Scale.ASTM_D4303, "I", "watercolour", None, "from memory", Evidence.MEMORY
)
BOOK: Final = LightfastnessRating(
    "PG50",
    Scale.BLUE_WOOL,
    "5",
    "watercolour",
    2004,
    "a book of pigments",
    Evidence.PUBLISHED,
    note="full strength",
    verified_on=date(2026, 3, 14),
    verified_from="tube label",
)
ALLERGY: Final = HazardCode(
    "H317", "skin sensitiser", "May cause an allergic skin reaction.", hedged=False
)
CANCER: Final = HazardCode("H350i", "carcinogen", "May cause cancer by inhalation.", hedged=True)
COBALT: Final = Hazard(
    pigment="PG50",
    agent="cobalt titanate",
    cas="68186-85-6",
    summary="Holds cobalt: avoid dust.",
    codes=(ALLERGY, CANCER),
    basis=Basis.NOTIFIED,
    basis_detail="in some data sheets",
    routes=("breathing dust", "skin"),
    metals=("cobalt",),
    evidence=Evidence.PARTLY,
    source="a list of pigments",
)
PG50: Final = Pigment(
    "PG50", "77377", "cobalt teal", "spinel", Evidence.PARTLY, "a table", None,
    (MEMORY, BOOK), (COBALT,),
)  # fmt: skip
FACTS: Final = PaintFacts(
    "CTL",
    "Brackwater Colour Works",
    "Tidal Teal",
    ("PG50",),
    volume_ml=15.0,
    transparency=Transparency.SEMI_OPAQUE,
    granulation=Degree.HIGH,
    lot="B77",
)
TEAL_PAINT: Final = Paint(7, FACTS, (PG50,), Stock(2.5, Unit.ML, DAY, estimated=True))
BARE: Final = Paint(8, PaintFacts("MM", "Orsel Pans", "Marsh Mud"), (), Stock(None, Unit.ML, None))


def _container(code: str, *events: StockEvent) -> Container:
    return Container(1, code, 7, None, ContainerKind.TUBE, Unit.ML, 15.0, "B77", events)


def _card(paint: Paint = TEAL_PAINT, *containers: Container, patch: Lab | None = TEAL) -> Page:
    return card_of(paint, containers, patch, DAY)


def _section(page: Page, title: str) -> list[Block]:
    """The blocks under a heading."""
    start = page.blocks.index(Heading(title)) + 1
    ends = [i for i, each in enumerate(page.blocks) if isinstance(each, Heading) and i >= start]
    return list(page.blocks[start : min(ends, default=len(page.blocks))])


def _rows(blocks: list[Block], column: str) -> list[dict[str, str]]:
    """The rows of the table among some blocks that begins with a column."""
    (grid,) = [each for each in blocks if isinstance(each, Grid) and each.columns[0] == column]
    return [dict(zip(grid.columns, row, strict=True)) for row in grid.rows]


def _texts(blocks: list[Block]) -> list[str]:
    return [each.text for each in blocks if isinstance(each, Paragraph)]


def test_a_card_begins_with_name_and_colour_and_bears_where_to_verify() -> None:
    page = _card()
    assert page.title == "Brackwater Colour Works Tidal Teal"
    assert page.lead == "CTL, tube of 15 ml, in use; 25 Nov 2026"
    patches = page.blocks[0]
    assert isinstance(patches, Patches)
    ((lab, caption),) = patches.patches
    assert lab == TEAL
    assert isinstance(caption, str)
    assert caption.replace("\N{NO-BREAK SPACE}", " ") == (
        "most intense dry swatch of this paint alone: L* 45.0, a* −20.0, b* −12.0 (D50/2°)"
    )
    assert (page.notice, page.foot) == (
        ADVICE,
        "CTL Brackwater Colour Works Tidal Teal, 25 Nov 2026",
    )
    assert (page.day, page.fits) == (DAY, True)


def test_a_paint_without_a_swatch_says_so_and_shows_no_colour() -> None:
    page = _card(patch=None)
    assert page.blocks[0] == Paragraph(NO_PATCH)
    assert not any(isinstance(each, Patches) for each in page.blocks)


def test_pigments_stand_with_common_names_and_the_label_with_what_it_does_not_say() -> None:
    blocks = _section(_card(), "Pigments and label")
    assert _rows(blocks, "pigment") == [
        {"pigment": "PG50", "common name": "cobalt teal", "chemistry": "spinel"}
    ]
    assert _rows(blocks, "sold in") == [
        {
            "sold in": "tube of 15 ml",
            "transparency": "semi-opaque",
            "staining": "not recorded",
            "granulation": "high",
            "lot": "B77",
        }
    ]
    noted = replace(TEAL_PAINT, facts=replace(FACTS, note="for shallow water"))
    assert _texts(_section(_card(noted), "Pigments and label")) == ["Note: for shallow water"]


def test_a_pigment_nobody_described_asks_for_care() -> None:
    unknown = Pigment("PG50", None, None, None, None, None, None)
    (row,) = _rows(
        _section(_card(replace(TEAL_PAINT, pigments=(unknown,))), "Pigments and label"), "pigment"
    )
    assert row["common name"] == "no data: take care"


def test_ratings_stand_side_by_side_and_verified_ones_look_otherwise() -> None:
    blocks = _section(_card(), "Lightfastness")
    first, second = _rows(blocks, "pigment")
    assert first == {
        "pigment": "PG50",
        "scale": "ASTM D4303",
        "rating": "I",
        "lightfastness": "I excellent",
        "medium": "watercolour",
        "source, year": "from memory",
        "standing": UNVERIFIED,
    }
    assert second["scale"] == "blue wool"
    assert second["rating"] == "5"
    assert second["lightfastness"] == "III fair"
    assert second["source, year"] == "a book of pigments, 2004 (full strength)"
    assert second["standing"] == f"{VERIFIED} 14 Mar 2026 from tube label"
    assert _texts(blocks) == [
        f"Counts as III fair ({VERIFIED} 14 Mar 2026), by PG50 and its worst source.",
        NO_TEST,
    ]


def test_the_marks_of_verified_and_unverified_are_never_alike() -> None:
    assert UNVERIFIED[0] != VERIFIED[0]
    assert UNVERIFIED in STANDING
    assert VERIFIED in STANDING


@pytest.mark.parametrize(
    ("pigments", "whose"),
    [((), "it, as its pigments are not recorded"), ((replace(PG50, ratings=()),), "PG50")],
)
def test_a_missing_rating_is_said(pigments: tuple[Pigment, ...], whose: str) -> None:
    blocks = _section(_card(replace(TEAL_PAINT, pigments=pigments)), "Lightfastness")
    said = Paragraph(f"No lightfastness rating on record for {whose}.", strong=True)
    assert blocks == [said, Paragraph(NO_TEST)]


def test_a_paint_with_one_unrated_pigment_has_no_rating_that_counts() -> None:
    mixed = replace(
        TEAL_PAINT, pigments=(PG50, Pigment("PW6", None, "titanium white", None, None, None, None))
    )
    texts = _texts(_section(_card(mixed), "Lightfastness"))
    assert texts == ["No lightfastness rating on record for PW6.", NO_TEST]


def _strip(*changes: tuple[date, float]) -> FadeTest:
    covered = Lab(50, 0, 0)
    readings = tuple(
        FadeReading(day, covered, Lab(50 + change, 0, 0), 4 if change > 5 else None)
        for day, change in changes
    )
    return FadeTest(
        1, "F3", 7, None, None, "window of the net loft", date(2026, 4, 1), readings=readings
    )


def test_an_own_test_shows_its_last_reading_and_that_it_is_a_hint() -> None:
    strip = _strip((date(2026, 6, 1), 2.0), (date(2026, 9, 1), 6.5))
    blocks = _section(_card(replace(TEAL_PAINT, fade_tests=(strip,))), "Own fade tests")
    assert _rows(blocks, "fade test") == [
        {
            "fade test": "F3",
            "place": "window of the net loft",
            "from": "1 Apr 2026",
            "to": "still hangs",
            "read": "1 Sep 2026",
            "ΔE*ab": "6.5",
            "band": "II very good",
            "blue wool": "4",
        }
    ]
    assert _texts(blocks) == []
    assert INDICATIVE in _how(_card(replace(TEAL_PAINT, fade_tests=(strip,))))


def test_an_own_test_that_contradicts_the_rating_is_not_to_be_missed() -> None:
    strip = replace(_strip((date(2026, 9, 1), 20.0)), ended_on=date(2026, 10, 2))
    blocks = _section(_card(replace(TEAL_PAINT, fade_tests=(strip,))), "Own fade tests")
    assert _rows(blocks, "fade test")[0]["to"] == "2 Oct 2026"
    (warning,) = [each for each in blocks if isinstance(each, Paragraph) and each.strong]
    assert warning.text == (
        "F3 has changed more than the published rating allows: ΔE*ab 20.0 lies in band IV, the "
        f"rating is III ({VERIFIED} 14 Mar 2026)."
    )


def test_a_test_that_was_not_read_and_no_test_at_all_are_said() -> None:
    unread = _section(_card(replace(TEAL_PAINT, fade_tests=(_strip(),))), "Own fade tests")
    assert _rows(unread, "fade test")[0]["read"] == "not read yet"
    assert Heading("Own fade tests") not in _card().blocks
    assert NO_TEST in _texts(_section(_card(), "Lightfastness"))


def test_cautions_stand_in_words_with_the_statements_behind_them() -> None:
    blocks = _section(_card(), "Cautions")
    assert _rows(blocks, "cautions for") == [
        {
            "cautions for": "PG50",
            "in a painter's words": "Holds cobalt: avoid dust.",
            "GHS statements": (
                "H317 May cause an allergic skin reaction; H350i? May cause cancer by inhalation"
            ),
            "harm by": "breathing dust, skin",
            "source": "a list of pigments",
            "standing": UNVERIFIED,
        }
    ]
    assert EVERY_PAINT in _how(_card())
    assert HEDGED in _how(_card())


def test_a_caution_without_statements_says_so_and_needs_no_legend() -> None:
    silent = replace(PG50, hazards=(replace(COBALT, codes=(), routes=()),))
    blocks = _section(_card(replace(TEAL_PAINT, pigments=(silent,))), "Cautions")
    (row,) = _rows(blocks, "cautions for")
    assert (row["GHS statements"], row["harm by"]) == ("none on record", "not recorded")
    how = _how(_card(replace(TEAL_PAINT, pigments=(silent,))))
    assert EVERY_PAINT in how
    assert HEDGED not in how


@pytest.mark.parametrize("basis", Basis)
def test_each_standing_in_the_law_has_a_column_of_its_own(basis: Basis) -> None:
    classed = replace(PG50, hazards=(replace(COBALT, basis=basis),))
    blocks = _section(_card(replace(TEAL_PAINT, pigments=(classed,))), "Classification")
    (row,) = _rows(blocks, "class of")
    assert {name: row[name] for name in Basis} == {
        each: "yes" if each is basis else "" for each in Basis
    }
    assert row["agent"] == "cobalt titanate, CAS 68186-85-6"
    assert row["detail"] == "in some data sheets"
    assert CLASSED in _how(_card())


def test_no_caution_on_record_is_no_verdict() -> None:
    page = _card(BARE, patch=None)
    said = Paragraph("No caution on record: take care, and read the label.", strong=True)
    assert _section(page, "Cautions") == [said]
    assert EVERY_PAINT in _how(page)
    assert _texts(_section(page, "Classification")) == ["No classification on record."]
    assert _texts(_section(page, "Pigments and label")) == [f"Pigments not recorded; {NO_DATA}."]


def test_label_marks_and_data_sheet_stand_with_what_is_wrong_with_them() -> None:
    sheet = DataSheet("shelf/teal.pdf", date(2019, 5, 2), "GHS07", date(2026, 2, 1))
    blocks = _section(_card(replace(TEAL_PAINT, data_sheet=sheet)), "Label marks and data sheet")
    assert [tuple(row.values()) for row in _rows(blocks, "label marks")] == [
        ("GHS07", "shelf/teal.pdf", "2 May 2019", "1 Feb 2026")
    ]
    assert blocks[-1] == Paragraph(
        "The data sheet is of 2019-05-02; look for a newer one.", strong=True
    )


def test_a_recent_data_sheet_is_not_complained_about_and_a_missing_one_is() -> None:
    recent = DataSheet("shelf/teal.pdf", date(2025, 5, 2), None, date(2026, 2, 1))
    blocks = _section(_card(replace(TEAL_PAINT, data_sheet=recent)), "Label marks and data sheet")
    assert _texts(blocks) == []
    assert _rows(blocks, "label marks")[0]["label marks"] == "not recorded"
    missing = _section(_card(), "Label marks and data sheet")
    assert missing == [Paragraph("No data sheet on record.", strong=True)]


def test_stock_stands_container_by_container_and_in_all() -> None:
    bought = StockEvent(StockKind.BOUGHT, date(2026, 1, 5), 15.0)
    opened = StockEvent(StockKind.OPENED, date(2026, 2, 7))
    used = StockEvent(StockKind.USED, date(2026, 3, 7), 12.5, estimated=True)
    lent = StockEvent(StockKind.LENT, date(2026, 4, 7))
    blocks = _section(
        _card(
            TEAL_PAINT, _container("CTL-1", bought, opened, used), _container("CTL-2", bought, lent)
        ),
        "Stock",
    )
    first, second = _rows(blocks, "container")
    assert first == {
        "container": "CTL-1",
        "kind": "tube",
        "holds": "15 ml",
        "left": "about 2.5 ml",
        "opened": "7 Feb 2026",
        "lot": "B77",
        "where": "on the shelf",
    }
    assert (second["opened"], second["left"], second["where"]) == ("", "15 ml", "not on the shelf")
    assert _texts(blocks)[:1] == ["In all about 2.5 ml left, low; low at 3 ml."]


def test_a_paint_that_was_never_counted_says_so() -> None:
    assert _section(_card(BARE, patch=None), "Stock")[0] == Paragraph("In all not counted.")


def _how(page: Page) -> str:
    """How to read a card, at its end."""
    last = page.blocks[-1]
    assert isinstance(last, Paragraph)
    assert last.small
    return last.text


def test_a_card_ends_with_how_to_read_it() -> None:
    assert _how(_card()) == f"{STANDING} {EVERY_PAINT} {HEDGED} {CLASSED}"


def test_each_card_of_a_shelf_begins_a_sheet_of_its_own_and_fits_on_it() -> None:
    page = _shelf()
    starts = [at for at, block in enumerate(page.blocks) if block == NewSheet(fits=True)]
    heads = [page.blocks[at + 1] for at in starts]
    assert heads == [
        Heading("At a glance"),
        Heading("CTL  Brackwater Colour Works Tidal Teal"),
        Heading("MM  Orsel Pans Marsh Mud"),
    ]
    assert not page.fits


def test_a_card_of_much_stands_on_one_sheet() -> None:
    bought = StockEvent(StockKind.BOUGHT, date(2026, 1, 5), 15.0)
    tubes = [_container(f"CTL-{number}", bought) for number in range(3)]
    others = tuple(replace(PG50, ci_name=name) for name in ("PG50", "PB36"))
    sheet = DataSheet("shelf/teal.pdf", date(2019, 5, 2), "GHS07", date(2026, 2, 1))
    strip = _strip((date(2026, 9, 1), 6.5))
    full = replace(TEAL_PAINT, pigments=others, data_sheet=sheet, fade_tests=(strip,))
    made = page_pdf.pdf_of(_card(full, *tubes))
    assert (made.sheets, made.too_long) == (1, False)
    made = page_pdf.pdf_of(shelf_cards([Card(full, tubes, TEAL), Card(BARE, (), None)], DAY))
    assert (made.sheets, made.too_long) == (2 + 2, False)


def _shelf() -> Page:
    return shelf_cards([Card(TEAL_PAINT, (), TEAL), Card(BARE, (), None)], DAY)


def test_the_cards_of_a_shelf_begin_with_its_colours() -> None:
    page = _shelf()
    assert (page.title, page.lead) == ("Paints in use", "2 paints; 25 Nov 2026")
    assert (page.notice, page.foot, page.day) == (ADVICE, "Paints in use, 25 Nov 2026", DAY)
    assert page.blocks[0] == Patches(((TEAL, "CTL Tidal Teal"),))
    assert page.blocks[1] == Paragraph("Without a dry swatch of their own: MM")


def test_one_table_shows_the_whole_shelf() -> None:
    teal, mud = _rows(_section(_shelf(), "At a glance"), "code")
    assert teal == {
        "code": "CTL",
        "paint": "Tidal Teal",
        "pigments": "PG50",
        "lightfastness": f"III fair ({VERIFIED} 14 Mar 2026)",
        "left": "about 2.5\N{NO-BREAK SPACE}ml, low",
        "cautions": "cobalt, carcinogen?, skin sensitiser",
        "data sheet": "no data sheet on record",
    }
    assert tuple(mud.values())[2:] == (
        *("not recorded", "not known", "not counted", NO_DATA, "no data sheet on record"),
    )


def test_a_caution_without_a_class_of_its_own_sends_to_the_card() -> None:
    supplement = HazardCode(
        "EUH210", "other", "Safety data sheet available on request.", hedged=False
    )
    hazard = replace(COBALT, codes=(supplement,), metals=())
    paint = replace(TEAL_PAINT, pigments=(replace(PG50, hazards=(hazard,)),))
    page = shelf_cards([Card(paint, (), TEAL)], DAY)
    (row,) = _rows(_section(page, "At a glance"), "code")
    assert row["cautions"] == "see its card"
    assert page.lead == "1 paint; 25 Nov 2026"


def test_how_to_read_the_cards_is_said_once_and_each_card_holds_its_tables() -> None:
    page = _shelf()
    how, _new_sheet = _section(page, "How to read the cards")
    assert getattr(how, "items", ()) == (STANDING, EVERY_PAINT, HEDGED, CLASSED)
    assert not any(isinstance(each, Paragraph) and each.small for each in page.blocks)
    single = [each for each in _card().blocks if isinstance(each, Grid)]
    together = _section(page, "CTL  Brackwater Colour Works Tidal Teal")
    assert [each for each in together if isinstance(each, Grid)] == single
    assert _section(page, "MM  Orsel Pans Marsh Mud")[0] == Paragraph(NO_PATCH)


def test_every_row_of_a_card_has_as_many_cells_as_columns() -> None:
    strip = _strip((date(2026, 9, 1), 6.5))
    sheet = DataSheet(None, None, "AP", DAY)
    bought = StockEvent(StockKind.BOUGHT, date(2026, 1, 5), 15.0)
    full = replace(TEAL_PAINT, fade_tests=(strip,), data_sheet=sheet)
    page = shelf_cards([Card(full, (_container("CTL-1", bought),), TEAL)], DAY)
    grids = [each for each in page.blocks if isinstance(each, Grid)]
    assert len(grids) == 9
    for grid in grids:
        assert {len(row) for row in grid.rows} == {len(grid.columns)}
        assert len(grid.widths) == len(grid.columns)


def _literals() -> Iterator[str]:
    for module in (card_sections, paint_card, page_html, page_parts, page_pdf):
        for node in ast.walk(ast.parse(inspect.getsource(module))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                yield node.value


def test_no_words_of_a_card_clear_a_paint() -> None:
    words = {
        word.strip(".,;:")
        for text in _literals()
        for word in text.lower().replace("safety data sheet", "").split()
    }
    assert "harmonised" in words
    assert not words & {"safe", "safely", "harmless", "non-toxic", "nontoxic", "innocuous"}
