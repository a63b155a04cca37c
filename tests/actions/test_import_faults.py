"""A bad row is listed by its line with the reason and left out whole; the good ones are kept."""

from datetime import timedelta
from pathlib import Path
from typing import Final

import pytest

from studio.actions.importing.tables import ImportResult, import_tables, kind_named, tables_at
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.conftest import Shelf, WriteTable
from tests.conftest import TODAY

TOMORROW: Final = (TODAY + timedelta(days=1)).isoformat()


def _import(work: UnitOfWork, path: Path) -> ImportResult:
    return import_tables(work, tables_at([path]), TODAY)


LIGHT: Final = "ci_name,scale,rating,medium,source,evidence,year"
HAZARD: Final = "ci_name,agent,summary,basis,evidence,source,h_codes,metals"
PAINT: Final = "maker,name,code,pigments,form,volume_ml,price,currency,lot"
PAPER: Final = (
    "maker,name,weight_gsm,sheet_width_mm,white_l,white_a,white_b,white_read_on,white_reflectance"
)
SWATCH: Final = (
    "recipe,mix,paper,made_on,code,layers,lab_l,lab_a,lab_b,illuminant,observer,read_on,"
    "spectrum_start_nm,spectrum_step_nm,reflectance"
)
STOCK: Final = "item,kind,amount,happened_on,unit,price"
FLAT: Final = " ".join(["0.5"] * 31)

BAD: Final = [
    ("pigments", "ci_name,common_name,evidence,source", "mud,mud,memory,me", "not a Colour Index"),
    ("pigments", "ci_name,common_name,evidence,source", "PR998,,memory,me", "common_name is empty"),
    ("pigments", "ci_name,common_name,evidence,source", "PR998,a,rumour,me", "evidence 'rumour'"),
    ("lightfastness", LIGHT, "PR998,blue wool,5,oil,me,owner,", "pigment PR998 is not recorded"),
    ("lightfastness", LIGHT, "PB29,blue wool,9,oil,me,owner,", "blue wool rating '9'"),
    ("lightfastness", LIGHT, "PB29,ASTM D4303,VI,oil,me,owner,", "lightfastness 'VI'"),
    ("lightfastness", LIGHT, "PB29,blue wool,5,oil,me,owner,20.5", "not a whole number"),
    ("lightfastness", LIGHT, "PB29,blue wool,5,oil,me,owner,3000", "year must be at least 1800"),
    ("lightfastness", LIGHT, "PB29,blue wool,5,oil,me,owner,1e300", "year must be at least 1800"),
    ("lightfastness", LIGHT, "PB29,blue wool,5,oil,me,owner,nan", "not a whole number"),
    ("hazards", HAZARD, "PB29,mud,Wash.,none,owner,me,H999,", "hazard statement H999 is not in"),
    ("hazards", HAZARD, "PB29,mud,Wash.,none,owner,me,,gold", "metals 'gold' is not known"),
    ("hazards", HAZARD, "PB29,mud,Wash.,law,owner,me,,", "basis 'law' is not known"),
    ("hazards", HAZARD, "PB29,mud,Wash.,none,owner,me,H302 H302,", "would break a rule"),
    ("paints", PAINT, ",Grey,,,,,,,", "maker is empty"),
    ("paints", PAINT, "Hard,Grey,,,bucket,,,,", "form 'bucket' is not known; choose one of: tube"),
    ("paints", PAINT, "Hard,Grey,,,,lots,,,", "volume_ml 'lots' is not a number"),
    ("paints", PAINT, "Hard,Grey,,,,inf,,,", "the volume in ml"),
    ("paints", PAINT, "Hard,Grey,,,,,cheap,,", "price 'cheap' is not a price; write it like 12.50"),
    ("paints", PAINT, "Hard,Grey,,,,,NaN,,", "a price is between 0 and 999,999.99"),
    ("paints", PAINT, "Hard,Grey,UM,,,,,,", "code UM is taken by Saltings Colour Ultramarine"),
    ("paints", PAINT, "Hard,Grey,,PB29;mud,,,,,", "'mud' is not a Colour Index name"),
    ("papers", PAPER, "Mill,Rag,9,,,,,,", "the weight in g/m²"),
    ("papers", PAPER, "Mill,Rag,,560,,,,,", "a sheet has two sides"),
    ("papers", PAPER, "Mill,Rag,,,95,,,,", "a Lab needs all of white_l, white_a, white_b"),
    ("papers", PAPER, "Mill,Rag,,,101,0,0,,", "lightness"),
    ("papers", PAPER, f"Mill,Rag,,,95,0,0,{TOMORROW},", "lies in the future"),
    ("papers", PAPER, "Mill,Rag,,,,,,,0.5 0.5", "white_spectrum_start_nm is empty"),
    ("mixes", "recipe", "2 UM +", "is not clear"),
    ("mixes", "recipe", "zinc", "no paint is called 'zinc'"),
    ("mixes", "recipe", "-1 UM", "parts must be above zero"),
    ("mixes", "recipe,created_on", f"UM,{TOMORROW}", "created_on 2026-11-26 lies in the future"),
    ("mixes", "recipe,created_on", "UM,spring", "created_on 'spring' is not a date"),
    ("swatches", SWATCH, "UM,,SR,2026-05-04,,,,,,,,,,,", "a swatch needs a colour"),
    ("swatches", SWATCH, "UM,,SR,2026-05-04,,,50,,1,,,,,,", "a Lab needs all of lab_l, lab_a"),
    ("swatches", SWATCH, "UM,,SR,,,,50,1,1,,,,,,", "made_on is empty"),
    ("swatches", SWATCH, f"UM,,SR,{TOMORROW},,,50,1,1,,,,,,", "lies in the future"),
    ("swatches", SWATCH, "UM,,SR,2026-05-04,,,50,1,1,,,2026-05-03,,,", "older than the swatch"),
    ("swatches", SWATCH, "UM,,bark,2026-05-04,,,50,1,1,,,,,,", "no paper is called 'bark'"),
    ("swatches", SWATCH, ",M99,SR,2026-05-04,,,50,1,1,,,,,,", "no mix is called 'M99'"),
    ("swatches", SWATCH, ",,SR,2026-05-04,,,50,1,1,,,,,,", "recipe is empty"),
    ("swatches", SWATCH, "UM,,SR,2026-05-04,,0,50,1,1,,,,,,", "the number of layers"),
    ("swatches", SWATCH, "UM,,SR,2026-05-04,,1.5,50,1,1,,,,,,", "layers 1.5 is not a whole number"),
    ("swatches", SWATCH, "UM,,SR,2026-05-04,,,50,1,1,D51,,,,,", "illuminant 'D51'"),
    ("swatches", SWATCH, "UM,,SR,2026-05-04,,,50,1,1,D65,0,,,,", "the observer is 2 or 10"),
    ("swatches", SWATCH, f"UM,,SR,2026-05-04,,,50,1,1,,,,400,10,{FLAT}", "not both"),
    ("swatches", SWATCH, f"UM,,SR,2026-05-04,,,,,,,,,,10,{FLAT}", "spectrum_start_nm is empty"),
    ("swatches", SWATCH, f"UM,,SR,2026-05-04,,,,,,,,,500,10,{FLAT}", "is not a spectrum"),
    ("swatches", SWATCH, "UM,,SR,2026-05-04,,,,,,,,,400,10,0.5 mud", "is not a spectrum"),
    ("stock", STOCK, "UM,borrowed,1,2026-05-04,,", "kind 'borrowed' is not known"),
    ("stock", STOCK, "UM,used,99,2026-11-25,,", "only 14 ml of Saltings Colour Ultramarine are on"),
    ("stock", STOCK, "UM,used,1,2026-11-25,sheets,", "is counted in ml, not in sheets"),
    ("stock", STOCK, f"UM,counted,1,{TOMORROW},,", "lies in the future"),
    ("stock", STOCK, "UM,counted,,2026-05-04,,", "amount is empty"),
    ("stock", STOCK, "sedge,counted,1,2026-05-04,,", "(Tidewrack Mill Sedge Smooth), SR (Tide"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("kind", "header", "row", "reason"),
    BAD,
    ids=[f"{case[0]} {case[3]}" for case in BAD],
)
def test_a_bad_row_is_listed_with_its_line_and_reason_and_leaves_nothing(  # noqa: PLR0917
    shelf: Shelf, table: WriteTable, kind: str, header: str, row: str, reason: str
) -> None:
    def everything() -> tuple[object, ...]:
        shelf.work.forget()
        work = shelf.work
        return (
            work.pigments.all(), work.paints.all(), work.papers.all(), work.mixes.all(),
            work.swatches.all(), work.pigments.statements(), work.containers.all(),
            work.fade_tests.all(),
        )  # fmt: skip

    before = everything()
    result = _import(shelf.work, table(kind, header, row))
    assert (result.added, result.present) == ({}, {})
    (fault,) = result.faults
    assert (fault.file, fault.line) == (f"{kind}.csv", 2)
    assert reason in fault.reason
    assert everything() == before


def test_good_rows_around_bad_ones_are_kept_and_the_caller_decides(
    shelf: Shelf, table: WriteTable
) -> None:
    paints = table(
        "paints", "maker,name,form", "Hard,Ebb,", "Hard,Slack,bucket", "", "Hard,Flood,pan", "Hard"
    )
    result = _import(shelf.work, paints)
    assert result.added == {"paints": 2}
    assert [(fault.line, fault.reason.split(";")[0]) for fault in result.faults] == [
        (3, "form 'bucket' is not known"),
        (6, "it has 1 cells, and the header has 3"),
    ]
    names = {paint.facts.name for paint in shelf.work.paints.all()}
    assert {"Ebb", "Flood"} <= names
    assert "Slack" not in names


def test_a_swatch_whose_code_was_made_another_way_is_refused(
    shelf: Shelf, table: WriteTable
) -> None:
    swatches = table(
        "swatches", "code,recipe,paper,made_on,lab_l,lab_a,lab_b",
        "S1,UM,SR,2026-05-04,30,10,-50", "S1,BS,SR,2026-05-04,31,10,-50",
        "S1,UM,SM,2026-05-04,31,10,-50", "S1,UM,SR,2026-05-05,31,10,-50",
        "s1,UM,SR,2026-05-04,31,10,-50",
    )  # fmt: skip
    result = _import(shelf.work, swatches)
    assert [fault.line for fault in result.faults] == [3, 4, 5]
    assert {fault.reason for fault in result.faults} == {
        "S1 is recorded already, made in another way; choose another code"
    }
    (swatch,) = shelf.work.swatches.all()
    assert len(swatch.readings) == 2


def test_a_row_that_fails_late_takes_back_what_it_had_recorded(
    shelf: Shelf, table: WriteTable
) -> None:
    """The mix of a swatch row is new and good, the reading is not: neither stays."""
    swatches = table(
        "swatches", "recipe,paper,made_on,lab_l,lab_a,lab_b", "UM + 7 BS,SR,2026-05-04,150,0,0"
    )
    assert len(_import(shelf.work, swatches).faults) == 1
    assert shelf.work.mixes.all() == ()
    paints = table("paints", "maker,name,pigments,code", "Hard,Grey,PR999,UM")
    assert len(_import(shelf.work, paints).faults) == 1
    assert shelf.work.pigments.get("PR999") is None


def test_a_pigment_of_a_row_that_failed_is_there_again_for_the_next_row(
    shelf: Shelf, table: WriteTable
) -> None:
    many = ";".join(f"PR9{number:02d}" for number in range(21))  # a paint holds twenty at most
    paints = table("paints", "maker,name,pigments", f"Hard,Bad,{many}", "Hard,Good,PR900")
    result = _import(shelf.work, paints)
    assert [fault.line for fault in result.faults] == [2]
    assert result.added == {"paints": 1}
    assert shelf.paint("GO").facts.pigments == ("PR900",)
    assert shelf.work.pigments.get("PR901") is None


def test_a_target_that_was_read_again_since_makes_no_other_swatch_of_its_row(
    shelf: Shelf, table: WriteTable
) -> None:
    header = "code,recipe,paper,made_on,target,lab_l,lab_a,lab_b"
    first = "S1,UM,SR,2026-05-04,,30,10,-50"
    rows = ("S2,UM,SR,2026-05-04,S1,31,10,-50", ",UM,SR,2026-05-04,S1,32,10,-50")
    assert _import(shelf.work, table("swatches", header, first, *rows)).added == {"swatches": 3}
    again = "S1,UM,SR,2026-05-04,,40,10,-50"
    result = _import(shelf.work, table("swatches", header, first, again, *rows))
    assert (result.added, result.present, result.faults) == ({"swatches": 1}, {"swatches": 3}, ())


@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_a_line_number_is_that_of_the_line_a_row_begins_on(
    shelf: Shelf, table: WriteTable, newline: str
) -> None:
    paints = table(
        "paints", "maker,name,form,note", 'Hard,Ebb,tube,"low', 'water"', "Hard,Slack,bucket,",
        'Hard,Flood,barrel,"high', "", 'water"', "", "Hard,Neap,crate,", newline=newline,
    )  # fmt: skip
    result = _import(shelf.work, paints)
    assert [fault.line for fault in result.faults] == [4, 5, 9]
    ebb = next(p.facts for p in shelf.work.paints.all() if p.facts.name == "Ebb")
    assert ebb.note == "low water"


def test_a_byte_order_mark_and_capitals_in_the_header_do_no_harm(
    shelf: Shelf, table: WriteTable
) -> None:
    path = table("paints", " Maker ,NAME", "Hard,Marée grise")
    path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes())
    assert _import(shelf.work, path).added == {"paints": 1}
    assert "Marée grise" in {paint.facts.name for paint in shelf.work.paints.all()}


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "paints.csv has no column maker, name, which paints need"),
        (b"name,code\nGrey,G\n", "paints.csv has no column maker, which paints need"),
        (b"maker;name\nHard;Grey\n", "has no column maker, name"),
        (b"maker,name,brand\nHard,Grey,x\n", "has a column 'brand' that paints do not have"),
        (b"maker,name,\nHard,Grey,\n", "has a column '' that paints do not have"),
        (b"maker,name,Name\nHard,Grey,Mud\n", r"has a column 'name' that paints .* \(or have once"),
        (b"maker,name\nHard,Mar\xe9e\n", r"is not UTF-8 text \(byte 19\); save it as CSV UTF-8"),
        (b"maker,name\n" + b"Hard,Grey\n" * 2000 + b"\xff", r"is not UTF-8 text \(byte 20011\)"),
        (b"\xff\xfem\x00a\x00", "is not UTF-8 text"),
        (b'maker,name\nHard,"Grey\n', "is not a CSV table: line 2: unexpected end of data"),
        (b'maker,name\nHard,"Grey"x\n', "is not a CSV table: line 2"),
        (b"maker,name\nHard," + b"x" * 1_000_001 + b"\n", "field larger than field limit"),
    ],
)
def test_a_file_that_is_no_such_table_is_refused_whole(
    shelf: Shelf, table: WriteTable, content: bytes, said: str
) -> None:
    before = shelf.work.paints.all()
    path = table("paints")
    path.write_bytes(content)
    with pytest.raises(BadInput, match=said):
        _import(shelf.work, path)
    assert shelf.work.paints.all() == before


def test_a_table_that_is_gone_by_the_time_it_is_read_is_told_of(
    shelf: Shelf, table: WriteTable
) -> None:
    path = table("paints")
    path.unlink()
    with pytest.raises(BadInput, match="cannot be read: no such file"):
        import_tables(shelf.work, [(kind_named("paints"), path)], TODAY)
