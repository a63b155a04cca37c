"""The standing in the law in columns: codes below their basis, and no two standings alike."""

from dataclasses import replace
from datetime import date
from typing import Final

import pytest

from studio.catalogue.data_sheet import DataSheet
from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import Basis, Hazard, HazardCode
from studio.catalogue.paint import Paint, PaintFacts
from studio.catalogue.stock import Stock, Unit
from studio.sheets.care_columns import (
    STANDING_COLUMNS,
    label_marks,
    standing_cells,
    standing_fields,
    statement_codes,
    trust_mark,
)

HAZARD: Final = Hazard(
    pigment="PB99",
    agent="estuary blue",
    cas=None,
    summary="A caution.",
    codes=(
        HazardCode("H302", "acute toxicity", "Harmful if swallowed.", hedged=False),
        HazardCode("H317", "skin sensitiser", "May cause an allergic reaction.", hedged=True),
    ),
    basis=Basis.HARMONISED,
    basis_detail=None,
    routes=(),
    metals=(),
    evidence=Evidence.MEMORY,
    source="a test",
)
PAINT: Final = Paint(
    1, PaintFacts("EB", "Pellow & Strand", "Estuary Blue"), (), Stock(None, Unit.ML, None)
)


@pytest.mark.parametrize("basis", [Basis.HARMONISED, Basis.EXEMPT, Basis.NOTIFIED])
def test_codes_stand_below_their_basis_alone(basis: Basis) -> None:
    cells = dict(zip(STANDING_COLUMNS, standing_cells(basis, ("H302", "H317?")), strict=True))
    assert cells.pop(basis.value) == "H302, H317?"
    assert set(cells.values()) == {""}
    marked = dict(zip(STANDING_COLUMNS, standing_cells(basis), strict=True))
    assert marked.pop(basis.value) == "no code"
    assert set(marked.values()) == {""}


@pytest.mark.parametrize(
    ("basis", "word"), [(Basis.ANNULLED, "annulled"), (Basis.NONE, "none known")]
)
def test_annulled_and_none_known_stand_under_none_of_the_three(basis: Basis, word: str) -> None:
    assert standing_cells(basis) == ("", "", "", word)
    assert standing_cells(basis, ("EUH031?",)) == ("", "", "", f"{word}: EUH031?")


def test_no_two_standings_look_alike_with_or_without_codes() -> None:
    for codes in ((), ("H317?",)):
        assert len({standing_cells(basis, codes) for basis in Basis}) == len(Basis)


def test_codes_that_only_some_grades_carry_have_a_question_mark() -> None:
    assert statement_codes(HAZARD) == ("H302", "H317?")


@pytest.mark.parametrize("basis", Basis)
def test_json_has_a_name_for_each_standing(basis: Basis) -> None:
    fields = standing_fields(replace(HAZARD, basis=basis))
    assert list(fields) == ["harmonised", "exempt", "notified", "other_standing"]
    told = {name: value for name, value in fields.items() if value is not None}
    if basis in {Basis.ANNULLED, Basis.NONE}:
        assert told == {"other_standing": basis.value}
    else:
        assert told == {basis.value: ["H302", "H317?"]}
        bare = standing_fields(replace(HAZARD, basis=basis, codes=()))
        assert bare[basis.value] == []


def test_label_marks_are_what_the_owner_noted() -> None:
    day = date(2026, 3, 3)
    assert label_marks(PAINT) is None
    assert label_marks(replace(PAINT, data_sheet=DataSheet("eb.pdf", day, None, day))) is None
    assert label_marks(replace(PAINT, data_sheet=DataSheet(None, None, "AP", day))) == "AP"


def test_verified_and_unverified_differ_by_mark_and_by_word() -> None:
    assert trust_mark(verified=False) == "? unverified"
    assert trust_mark(verified=True) == "\N{CHECK MARK} verified"
