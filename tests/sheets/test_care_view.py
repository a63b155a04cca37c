"""Advice on care in the terminal: what a ground says, and how far a substitute is."""

import io
from dataclasses import replace
from datetime import date
from typing import Final

import pytest
from rich.console import Console

from studio.actions.advise_care import Document, advise
from studio.actions.find_subject import find_subject
from studio.catalogue.care import Work
from studio.catalogue.care_points import Ground
from studio.catalogue.data_sheet import DataSheet
from studio.catalogue.hazard import ADVICE, Basis
from studio.sheets.care_fields import advice_fields
from studio.sheets.care_view import document_text, ground_text, match_text, print_advice
from studio.storage.unit_of_work import UnitOfWork

TODAY: Final = date(2026, 11, 25)
NICKEL: Final = Ground(
    "PY150", ("nickel", "H317?"), ("nickel", "skin sensitiser?"), Basis.NOTIFIED, "a test"
)


def test_a_ground_tells_pigment_words_codes_and_standing() -> None:
    assert ground_text(NICKEL) == "? PY150 nickel, skin sensitiser? (H317?); unverified"
    confirmed = replace(NICKEL, verified_on=TODAY)
    assert ground_text(confirmed) == (
        "\N{CHECK MARK} PY150 nickel, skin sensitiser? (H317?); verified 25 Nov 2026"
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
            "no date on it",
            "CB    data sheet: cb.pdf; no date on it; label: CL",
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


def test_json_keeps_the_standing_in_the_law_apart_from_the_label(demo_work: UnitOfWork) -> None:
    advice = advise(demo_work, find_subject(demo_work, "CB"), [Work.SPRAY], TODAY)
    told = advice_fields(advice)
    (care,) = told["work"]
    assert (care["work"], care["avoid"]) == ("spray", True)
    ground = care["points"][0]["grounds"][0]
    assert set(ground) == {
        "pigment", "marks", "classification", "source", "verified", "verified_on"
    }  # fmt: skip
    assert ground["classification"] == "none"
    assert told["documents"][0]["label_marks"] == "CL; contains cobalt"
    assert set(told["documents"][0]) == {
        "paint", "location", "dated_on", "label_marks", "recorded_on", "fault"
    }  # fmt: skip
    assert {"text", "source", "avoid", "grounds"} == set(care["general"][0])
