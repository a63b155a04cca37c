"""studio care, studio check --class and studio paint document as a painter types them."""

import json
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from studio.catalogue.care import Work
from studio.catalogue.hazard import ADVICE
from tests.conftest import Run

ADVICE_START = ADVICE[:40]
UNVERIFIED = "? unverified"
VERIFIED = "\N{CHECK MARK} verified"
SCREEN = 40
"""What a teacher needs before class fits on so many lines."""


def _json(run: Run, db: Path, *words: str, status: int = 0) -> Any:
    outcome = run(*words, "--json", db=db)
    assert (outcome.status, outcome.err) == (status, "")
    return json.loads(outcome.out)


def test_a_paint_for_one_kind_of_work(run: Run, demo_db: Path) -> None:
    outcome = run("care", "ultramarine", "--for", "spatter", db=demo_db)
    assert (outcome.status, outcome.err) == (0, "")
    assert "Take care in spattering" in outcome.out
    assert "Heavy spattering makes a mist that is breathed." in outcome.out
    assert "Center for Safety in the" in outcome.out
    assert "common practice, no source" in outcome.out
    assert ADVICE_START in outcome.out
    assert max(map(len, outcome.out.splitlines())) <= 80


@pytest.mark.parametrize("kind", Work)
def test_each_kind_of_work_is_told_in_full(run: Run, demo_db: Path, kind: Work) -> None:
    outcome = run("care", "cobalt", "--for", kind.value, db=demo_db)
    assert outcome.status == 0
    assert "With every paint" in outcome.out
    assert "PB28 cobalt" in outcome.out
    told = _json(run, demo_db, "care", "cobalt", "--for", kind.value)
    assert [care["work"] for care in told["work"]] == [kind.value]
    assert ("Avoid for" in outcome.out) == told["work"][0]["avoid"]
    assert ("Instead, of paints in stock" in outcome.out) == told["work"][0]["avoid"]


def test_without_a_kind_of_work_all_are_told_in_short(run: Run, demo_db: Path) -> None:
    outcome = run("care", "cobalt", db=demo_db)
    for kind in Work:
        (line,) = [line for line in outcome.out.splitlines() if line.startswith(f"{kind.value} ")]
        assert "PB28 cobalt" in line
        assert UNVERIFIED in line
    told = _json(run, demo_db, "care", "cobalt")
    assert [care["work"] for care in told["work"]] == [kind.value for kind in Work]
    assert (told["paint"], told["mix"]) == ("CB", None)
    assert told["substitutes"] == []


def test_a_mix_with_substitutes(run: Run, demo_db: Path) -> None:
    told = _json(run, demo_db, "care", "salt marsh turf", "--for", "children")
    assert told["paint"] is None
    assert told["mix"] == "M38"
    assert told["compared_with"].startswith("S")
    assert [match["rank"] for match in told["substitutes"]] == [1, 2, 3]
    assert {caution["paint"] for caution in told["cautions"]} == {"RS", "FU"}
    assert {document["paint"] for document in told["documents"]} == {"RS", "FU"}
    shown = run("care", "salt marsh turf", "--for", "children", db=demo_db).out
    assert all(f"  {match['mix']}  " in shown for match in told["substitutes"])


def test_a_confirmed_caution_is_marked_otherwise(run: Run, demo_db: Path) -> None:
    before = run("care", "cobalt", "--for", "rinse", db=demo_db).out
    assert f"PB28 cobalt ({UNVERIFIED})" in before
    assert VERIFIED not in before
    run("pigment", "verify", "PB28", "--hazards", "--from", "tube label", db=demo_db)
    after = run("care", "cobalt", "--for", "rinse", db=demo_db).out
    assert f"PB28 cobalt ({VERIFIED} " in after
    assert "from tube label)" in " ".join(after.split())
    (row,) = [line for line in after.splitlines() if line.startswith("PB28 ")]
    assert row.endswith(VERIFIED)
    for words in (("care", "--class", "adults"), ("check", "--class", "adults")):
        shown = run(*words, db=demo_db).out
        assert f"PB28 cobalt ({VERIFIED}" in shown
        cerulean = " ".join(shown[shown.index("  PB35 cobalt") :].split())
        assert cerulean[cerulean.index("(") :].startswith(f"({UNVERIFIED})")


@pytest.mark.parametrize("kind", ["children", "adults"])
def test_what_a_teacher_needs_before_class_fits_on_one_screen(
    run: Run, demo_db: Path, kind: str
) -> None:
    outcome = run("check", "--class", kind, db=demo_db)
    lines = outcome.out.splitlines()
    assert outcome.status == 10
    assert len(lines) <= SCREEN
    assert max(map(len, lines)) <= 80
    assert f"  PB28 cobalt ({UNVERIFIED})\n    CB Cobalt Blue: use " in outcome.out
    earths = lines.index(f"  PBr7 manganese, acute toxicity? ({UNVERIFIED})")
    assert [line[4:6] for line in lines[earths + 1 : earths + 5]] == ["BS", "BU", "RS", "RU"]
    said = " ".join(outcome.out.split())
    for needed in (
        "Not brought until label and data sheet are read",
        "studio paint document CODE --file-or-address WHERE",
        "EHP 2 sheets",
        "data sheets: ",
        f"studio care --class {kind}",
        ADVICE,
    ):
        assert needed in said


@pytest.mark.parametrize("kind", ["children", "adults"])
def test_the_long_form_of_a_class_tells_grounds_sources_and_data_sheets(
    run: Run, demo_db: Path, kind: str
) -> None:
    outcome = run("care", "--class", kind, db=demo_db)
    assert outcome.status == 0
    assert max(map(len, outcome.out.splitlines())) <= 80
    said = " ".join(outcome.out.split())
    assert f"PBr7 manganese, acute toxicity?, H302?, H332? ({UNVERIFIED})" in said
    assert "Pellow & Strand Cobalt Blue instead M1 French Ultramarine, ΔE00 " in said
    assert "Not brought until label and data sheet are read" in said
    assert "common practice, no source" in said
    assert "Where to verify" in said
    assert "https://example.org/pellow-strand/sds/french-ultramarine.pdf" in said
    assert said.endswith(ADVICE)


def test_a_class_as_json(run: Run, demo_db: Path) -> None:
    told = _json(run, demo_db, "care", "--class", "children")
    assert told["class"] == "children"
    cobalt = next(left for left in told["leave"] if left["paint"] == "CB")
    assert cobalt["grounds"][0]["marks"][0] == "cobalt"
    assert not cobalt["grounds"][0]["verified"]
    assert len(cobalt["substitutes"]) == 1
    unread = {each["paint"]: each["why"] for each in told["unread"]}
    assert set(told["nothing_on_record"]) == set(unread)
    assert all(why for why in unread.values())
    assert not set(unread) & set(told["bring"])
    assert told["no_data"] == []
    assert {low["paint"] for low in told["low"]} <= set(told["bring"])
    assert [paper["paper"] for paper in told["low_papers"]] == ["EHP"]
    assert {each["paint"] for each in told["fading"]} <= set(told["bring"])
    assert {each["paint"] for each in told["contradicting"]} <= set(told["bring"])
    assert [each["paint"] for each in told["documents"]] == told["bring"]


def test_check_tells_a_class_in_short_and_care_in_full(run: Run, demo_db: Path) -> None:
    outcome = run("check", "--class", "children", db=demo_db)
    assert len(outcome.out) < len(run("care", "--class", "children", db=demo_db).out) / 2
    both = run("check", "--low", "--class", "children", db=demo_db).out
    assert both.startswith("Running low")
    assert both.endswith(outcome.out)
    told = _json(run, demo_db, "check", "--class", "children", status=10)
    assert told["class"] == _json(run, demo_db, "care", "--class", "children")


def test_a_class_without_paint_needs_no_attention(run: Run, empty_db: Path) -> None:
    outcome = run("check", "--class", "adults", db=empty_db)
    assert outcome.status == 0
    assert "No paint is in stock." in outcome.out


def test_the_sheet_groups_the_shelf_by_hazard(run: Run, demo_db: Path) -> None:
    outcome = run("care", "sheet", db=demo_db)
    assert (outcome.status, outcome.err) == (0, "")
    assert f"{UNVERIFIED}  manganese, acute toxicity?  (PBr7)" in outcome.out
    assert "classification: harmonised" in outcome.out
    assert "classification: none known" in outcome.out
    assert "Not known until label and data sheet are read" in outcome.out
    told = _json(run, demo_db, "care", "sheet")
    assert {"harmonised", "notified", "annulled", "none"} == {
        row["classification"] for row in told["cautions"]
    }
    assert told["no_data"] == []
    held = {paint for row in told["cautions"] for paint in row["paints"]}
    paints = {paint["paint"] for paint in _json(run, demo_db, "paint", "list")}
    assert held | set(told["nothing_on_record"]) == paints


def test_the_sheet_is_one_page_for_the_wall(run: Run, demo_db: Path, tmp_path: Path) -> None:
    html, pdf = tmp_path / "sheet.html", tmp_path / "sheet.pdf"
    outcome = run("care", "sheet", "--html", str(html), "--pdf", str(pdf), db=demo_db)
    assert (outcome.status, outcome.out) == (0, "")
    assert outcome.err.splitlines() == [f"studio: wrote {html}", f"studio: wrote {pdf}"]
    (page,) = PdfReader(pdf).pages
    for text in (page.extract_text(), html.read_text(encoding="utf-8")):
        assert "Cobalt Blue" in text
        assert "unverified" in text
        assert ADVICE_START in text


def test_a_paint_called_sheet_is_found_by_its_code(run: Run, empty_db: Path) -> None:
    run("paint", "add", "sheet", "--maker", "Orsel Pans", "--pigments", "PB28", db=empty_db)
    (paint,) = _json(run, empty_db, "paint", "list")
    assert _json(run, empty_db, "care", paint["paint"])["paint"] == paint["paint"]
    assert "cautions" in _json(run, empty_db, "care", "sheet")


def test_where_no_mix_may_take_its_place_that_is_said(run: Run, empty_db: Path) -> None:
    run("paint", "add", "Cobalt Blue", "--maker", "Orsel Pans", "--pigments", "PB28", db=empty_db)
    run("paper", "add", "Slipway Rag", "--maker", "Eddering Mill", db=empty_db)
    run("swatch", "log", "cobalt", "--lab", "40,5,-45", db=empty_db)
    shown = run("care", "cobalt", "--for", "spray", db=empty_db).out
    assert "no recorded mix is without these cautions" in shown
    for command in ("care", "check"):
        shown = run(command, "--class", "adults", db=empty_db).out
        assert "no recorded mix may take its place" in shown


def test_a_paint_without_data_is_said_so(run: Run, empty_db: Path) -> None:
    run("paint", "add", "Tide Wrack", "--maker", "Orsel Pans", "--pigments", "PBk99", db=empty_db)
    run("paint", "add", "Old Rust", "--maker", "Orsel Pans", db=empty_db)
    wrack = run("care", "wrack", "--for", "spray", db=empty_db).out
    assert "Not in spraying and airbrush until label and data sheet are read" in wrack
    assert "Its hazards are not known: take care" in wrack
    assert "no dry swatch to compare with" in wrack
    assert "pigments not recorded" in run("care", "rust", db=empty_db).out
    for kind in ("children", "adults"):
        full = run("care", "--class", kind, db=empty_db).out
        assert "  TW    Orsel Pans Tide Wrack\n        PBk99 in no table\n" in full
        short = run("check", "--class", kind, db=empty_db).out
        assert "  pigments not recorded: OR\n  in no table: TW\n" in short
        for text in (full, short):
            assert "Not brought until label and data sheet are read\n" in text
            assert "Bring" not in text
            assert "which does not mean that it is safe" not in text
    wrack = run("care", "wrack", db=empty_db).out
    assert " no data " in wrack
    assert "not recorded" in run("care", "rust", db=empty_db).out
    sheet = run("care", "sheet", db=empty_db).out
    assert "pigments not recorded: OR\n  in no table: TW (PBk99)" in sheet
    assert _json(run, empty_db, "care", "sheet")["no_data"] == ["OR", "TW"]


@pytest.mark.parametrize(
    ("words", "status", "reason"),
    [
        ((), 3, "name a paint or a mix"),
        (("FU", "--class", "children"), 3, "one of them"),
        (("sheet", "--for", "brush"), 3, "--for goes with a paint or a mix"),
        (("--class", "adults", "--for", "brush"), 3, "--for goes with a paint or a mix"),
        (("FU", "--pdf", "x.pdf"), 3, "--html, --pdf and --png go with: studio care sheet"),
        (("--class", "teens"), 3, "choose adults or children"),
        (("FU", "--for", "sailing"), 3, "choose one of: brush, spatter"),
        (("nothing at all",), 4, "no paint or mix is called"),
        (("sienna",), 4, "fits 2 paints"),
    ],
)
def test_what_is_not_clear_is_refused(
    run: Run, demo_db: Path, words: tuple[str, ...], status: int, reason: str
) -> None:
    outcome = run("care", *words, db=demo_db)
    assert (outcome.status, outcome.out) == (status, "")
    assert reason in outcome.err


def test_documents_are_recorded_and_shown(run: Run, empty_db: Path) -> None:
    run("paint", "add", "Cobalt Blue", "--maker", "Orsel Pans", "--pigments", "PB28", db=empty_db)
    words = ("--file-or-address", "sheets/cobalt.pdf", "--dated", "2026-01-05", "--marks", "CL")
    outcome = run("paint", "document", "cobalt", *words, db=empty_db)
    assert outcome.status == 0
    assert outcome.out == "CB    data sheet of 5 Jan 2026: sheets/cobalt.pdf; label: CL\n"
    told = _json(run, empty_db, "care", "cobalt")
    (document,) = told["documents"]
    assert document["location"] == "sheets/cobalt.pdf"
    assert document["dated_on"] == "2026-01-05"
    assert document["label_marks"] == "CL"
    assert document["fault"] is None
    run("paint", "document", "cobalt", "--file-or-address", "sheets/new.pdf", db=empty_db)
    (document,) = _json(run, empty_db, "care", "cobalt")["documents"]
    assert document["dated_on"] is None
    assert document["label_marks"] == "CL"
    assert document["fault"] == "the data sheet has no date on record"


def test_nothing_to_record_of_a_document_is_refused(run: Run, demo_db: Path) -> None:
    outcome = run("paint", "document", "FU", db=demo_db)
    assert outcome.status == 3
    assert "give --file-or-address, --dated or --marks" in outcome.err


def test_check_reports_old_sheets_and_counts_missing_ones(run: Run, demo_db: Path) -> None:
    outcome = run("check", "--care", db=demo_db)
    assert outcome.status == 10
    assert "Data sheets" in outcome.out
    assert "2 old (RU, SG); 1 undated (DV); " in outcome.out
    told = _json(run, demo_db, "check", "--care", status=10)["data_sheets"]
    missing = [each for each in told if each["fault"].startswith("no data sheet on record")]
    assert {"paint", "fault"} == set(told[0])
    assert f"{len(missing)} not on record (" in outcome.out
    assert 0 < len(missing) < len(told)
    assert _json(run, demo_db, "check", "--low", status=10)["data_sheets"] == []


def test_a_sheet_never_recorded_is_mentioned_without_alarm(run: Run, empty_db: Path) -> None:
    run("paint", "add", "Ochre", "--maker", "Orsel Pans", "--pigments", "PY43", db=empty_db)
    outcome = run("check", db=empty_db)
    assert outcome.status == 0
    assert "Nothing on the shelf needs attention." in outcome.out
    assert "  1 not on record (OC); see: studio paint document\n" in outcome.out
    run("paint", "document", "ochre", "--file-or-address", "o.pdf", db=empty_db)
    faulty = run("check", db=empty_db)
    assert faulty.status == 10
    assert "  1 undated (OC); see: studio paint document\n" in faulty.out


def test_a_class_says_what_is_never_used_and_what_is_known_by_the_label_alone(
    run: Run, empty_db: Path
) -> None:
    for code, pigment in (("EG", "PG21"), ("RO", "PV19 rose")):
        words = ("paint", "add", f"Tide {code}", "--maker", "Orsel Pans", "--code", code)
        run(*words, "--pigments", pigment, db=empty_db)
    assert "PV19 rose (as PV19) not looked up" in run("care", "RO", db=empty_db).out
    run("paint", "document", "RO", "--file-or-address", "a.pdf", "--marks", "AP", db=empty_db)
    for command in ("care", "check"):
        said = " ".join(run(command, "--class", "adults", db=empty_db).out.split())
        assert "do not use: PG21 arsenic" in said
        assert "by what you noted of label and data sheet alone: RO" in said
        assert "Not brought" not in said
    assert (
        "Do not use it, for any kind of work."
        in run("care", "EG", "--for", "brush", db=empty_db).out
    )
    assert "do not use PG21" in " ".join(run("care", "EG", db=empty_db).out.split())
