"""Advice on care in the terminal: what a ground says, and how far a substitute is."""

import io
from dataclasses import replace
from datetime import date
from typing import Final

import pytest
from rich.console import Console

from studio.actions.advise_care import Document, advise
from studio.actions.find_subject import find_subject
from studio.catalogue.care import PRACTICE, Work
from studio.catalogue.care_points import Ground
from studio.catalogue.data_sheet import DataSheet
from studio.catalogue.hazard import ADVICE, Basis
from studio.sheets.care_fields import advice_fields
from studio.sheets.care_view import (
    document_text,
    ground_text,
    match_text,
    own_cautions,
    print_advice,
)
from studio.storage.unit_of_work import UnitOfWork

TODAY: Final = date(2026, 11, 25)
NICKEL: Final = Ground(
    "PY150", ("nickel", "H317?"), ("nickel", "skin sensitiser?"), Basis.NOTIFIED, "a test"
)


def test_a_ground_tells_pigment_words_codes_and_trust() -> None:
    assert ground_text(NICKEL) == "PY150 nickel, skin sensitiser?, H317? (? unverified)"
    confirmed = replace(NICKEL, verified_on=TODAY)
    assert ground_text(confirmed) == (
        "PY150 nickel, skin sensitiser?, H317? (\N{CHECK MARK} verified 25 Nov 2026)"
    )


def test_a_ground_without_data_has_no_standing() -> None:
    assert ground_text(Ground("PBk99", (), ("no data",))) == "PBk99 no data"
    assert ground_text(Ground(None, ())) == "pigments not recorded"


def test_another_colour_is_called_so(demo_work: UnitOfWork) -> None:
    advice = advise(demo_work, find_subject(demo_work, "RU"), [Work.CHILDREN], TODAY)
    assert advice.substitutes is not None
    match = advice.substitutes.matches[0]
    assert "another colour" not in match_text(replace(match, difference=5.0))
    assert match_text(replace(match, difference=5.1)).endswith("ΔE00 5.1, another colour")


@pytest.mark.parametrize(
    ("sheet", "fault", "text"),
    [
        (None, "no data sheet on record", "CB    no data sheet on record"),
        (
            DataSheet("cb.pdf", date(2026, 1, 5), None, TODAY),
            None,
            "CB    data sheet of 5 Jan 2026: cb.pdf",
        ),
        (
            DataSheet("cb.pdf", None, "CL", TODAY),
            "no date",
            "CB    data sheet, no date on record: cb.pdf; label: CL",
        ),
        (
            DataSheet("cb.pdf", date(2020, 1, 5), None, TODAY),
            "old",
            "CB    data sheet of 5 Jan 2020, look for a newer one: cb.pdf",
        ),
        (DataSheet(None, None, "AP", TODAY), "none", "CB    none; label: AP"),
    ],
)
def test_documents_are_told_in_a_line(
    demo_work: UnitOfWork, sheet: DataSheet | None, fault: str | None, text: str
) -> None:
    paint = replace(find_subject(demo_work, "CB").paints[0], data_sheet=sheet)
    assert document_text(Document(paint, fault)) == text


@pytest.mark.parametrize("width", [40, 80, 120])
@pytest.mark.parametrize("name", ["CB", "SG", "salt marsh turf"])
def test_no_line_is_wider_than_the_terminal(demo_work: UnitOfWork, name: str, width: int) -> None:
    subject = find_subject(demo_work, name)
    for kinds in ([Work.SPRAY], list(Work)):
        stream = io.StringIO()
        console = Console(file=stream, width=width, highlight=False, markup=False, emoji=False)
        print_advice(console, advise(demo_work, subject, kinds, TODAY))
        lines = stream.getvalue().splitlines()
        assert [line for line in lines if len(line) > width and " " in line.strip()] == []
        assert " ".join(stream.getvalue().split()).endswith(ADVICE)


def _shown(work: UnitOfWork, name: str, width: int = 80) -> str:
    stream = io.StringIO()
    console = Console(file=stream, width=width, highlight=False, markup=False, emoji=False)
    print_advice(console, advise(work, find_subject(work, name), [Work.CHILDREN], TODAY))
    return stream.getvalue()


@pytest.mark.parametrize(
    ("name", "column", "cell"),
    [("BS", "harmonised", "H302?,"), ("SG", "notified", "H317?"), ("FU", "other", "none")],
)
def test_codes_stand_below_their_standing(
    demo_work: UnitOfWork, name: str, column: str, cell: str
) -> None:
    lines = _shown(demo_work, name).splitlines()
    at = next(i for i, line in enumerate(lines) if "exempt  notified" in line)
    header, row = lines[at], next(line for line in lines[at:] if line.startswith("P"))
    start = header.index(column)
    assert row[start:].startswith(cell)
    assert row.endswith("? unverified")
    others = [each for each in ("harmonised", "exempt", "notified", "other") if each != column]
    assert all(row[header.index(each)] == " " for each in others)


def test_in_a_narrow_terminal_each_standing_stands_on_a_line_of_its_own(
    demo_work: UnitOfWork,
) -> None:
    shown = _shown(demo_work, "BS", width=60)
    assert "PBr7 manganese\n  harmonised   H302?, H332?\n  label marks  AP\n" in shown
    assert "  checked      ? unverified\n" in shown
    other = _shown(demo_work, "COG", width=60)
    assert "PG17 chromium\n  other        none known\n  label marks  contains chromium" in other


def test_the_other_standings_and_silence_have_words_of_their_own(demo_work: UnitOfWork) -> None:
    assert "  other        annulled\n" in _shown(demo_work, "TW", width=60)
    ochre = demo_work.pigments.get("PY43")
    assert ochre is not None
    for looked_up, said in ((None, "not looked up"), ("a list", "looked up, nothing found")):
        demo_work.pigments.change(replace(ochre, looked_up=looked_up))
        demo_work.forget()
        assert f"  other        {said}\n" in _shown(demo_work, "YO", width=60)
    mixed = _shown(demo_work, "salt marsh turf", width=60)
    assert "  label marks  RS: AP\n" in mixed
    assert "  label marks  FU: AP\n" in mixed


def test_a_substitute_tells_its_own_cautions_or_that_none_is_on_record(
    demo_work: UnitOfWork,
) -> None:
    advice = advise(demo_work, find_subject(demo_work, "AC"), [Work.CHILDREN], TODAY)
    assert advice.substitutes is not None
    for match in advice.substitutes.matches:
        told = own_cautions(match, Work.CHILDREN)
        found = any(part.paint.nothing_found for part in match.recipe)
        assert ("looked up, nothing found" in told) == found
        assert told in " ".join(_shown(demo_work, "AC").split())


def test_advice_with_every_paint_names_each_source_once(demo_work: UnitOfWork) -> None:
    shown = " ".join(_shown(demo_work, "FU").split())
    general = shown[shown.index("With every paint") : shown.index("On record")]
    assert general.count(f"({PRACTICE})") == 1


def test_json_has_a_name_for_each_standing_and_for_the_label(demo_work: UnitOfWork) -> None:
    subject = find_subject(demo_work, "M43")
    cautions = advice_fields(advise(demo_work, subject, [Work.SPRAY], TODAY))["cautions"]
    told = {each["pigment"]: each for each in cautions}
    assert told["PBr7"]["harmonised"] == ["H302?", "H332?"]
    assert told["PBr7"]["label_marks"] == "AP"
    assert told["PY150"]["notified"] == ["H317?"]
    assert told["PY150"]["harmonised"] is None
    assert told["PY150"]["label_marks"] is None
    assert (told["PBk7"]["other_standing"], told["PBk7"]["exempt"]) == ("none", None)


def test_json_keeps_the_standing_in_the_law_apart_from_the_label(demo_work: UnitOfWork) -> None:
    advice = advise(demo_work, find_subject(demo_work, "CB"), [Work.SPRAY], TODAY)
    told = advice_fields(advice)
    (care,) = told["work"]
    assert (care["work"], care["avoid"]) == ("spray", True)
    ground = care["points"][0]["grounds"][0]
    assert set(ground) == {
        "pigment", "as_pigment", "marks", "classification", "source", "verified", "verified_on"
    }  # fmt: skip
    assert ground["classification"] == "none"
    assert told["documents"][0]["label_marks"] == "CL; contains cobalt"
    assert set(told["documents"][0]) == {
        "paint", "location", "dated_on", "label_marks", "recorded_on", "fault"
    }  # fmt: skip
    assert {"text", "source", "avoid", "grounds"} == set(care["general"][0])
