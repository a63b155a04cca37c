"""Swatches recorded many at a time leave behind what one by one leaves behind."""

import csv
from collections.abc import Sequence
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from studio.actions.importing import record_rows
from studio.actions.importing.row import Row
from studio.actions.importing.swatches import import_swatch
from studio.actions.importing.tables import import_tables, kind_named
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import TODAY

COLUMNS = (
    *("code", "mix", "recipe", "paper", "water", "layers", "made_on", "read_on", "target"),
    *("lab_l", "lab_a", "lab_b", "method", "note"),
)


@st.composite
def rows(draw: st.DrawFn) -> list[str]:
    """A row of a swatch table; few values, so that codes, mixes and whole rows come twice."""
    cells = {
        "code": draw(st.sampled_from(["", "", "", "Z1", "z2", "Z3", "S99", "S401", "S6", "9Z"])),
        "mix": draw(st.sampled_from(["", "", "", "M1", "m2", "M404", "2 FU + 1 BS"])),
        "recipe": draw(
            st.sampled_from(["2 FU + 1 BS", "4 fu + 2 bs", "1 FU + 7 BU", "BU", "3 nothing", ""])
        ),
        "paper": draw(st.sampled_from(["ECP", "ECP", "ecp", "no paper", ""])),
        "water": draw(st.sampled_from(["", "2", "-1", "a lot"])),
        "layers": draw(st.sampled_from(["", "1", "2"])),
        "made_on": draw(st.sampled_from(["2026-03-01", "2026-03-01", "2030-01-01", "March"])),
        "read_on": draw(st.sampled_from(["", "2026-03-02", "2026-02-01"])),
        "target": draw(st.sampled_from(["", "", "#6b7a5e", "S6", "Z1", "no colour"])),
        "lab_l": draw(st.sampled_from(["40", "50", "101"])),
        "lab_a": "-3.5",
        "lab_b": draw(st.sampled_from(["12", ""])),
        "method": draw(st.sampled_from(["", "colorimeter", "by ear"])),
        "note": draw(st.sampled_from(["", "at low  water"])),
    }
    good = draw(st.integers(0, 3)) > 0
    if good:  # most rows of real tables are
        cells |= {"water": "2", "made_on": "2026-03-01", "lab_l": "40", "lab_b": "12"}
        cells |= {"method": "colorimeter", "paper": "ECP", "read_on": ""}
    return [cells[column] for column in COLUMNS]


def everything(work: UnitOfWork) -> tuple[object, ...]:
    """Every mix and swatch."""
    work.forget()
    return work.mixes.all(), work.swatches.all()


def one_by_one(work: UnitOfWork, table: Sequence[Sequence[str]]) -> list[bool | str]:
    """What each row came to, recorded by itself."""
    return [
        record_rows.recorded(work, import_swatch, Row(dict(zip(COLUMNS, row, strict=True))), TODAY)
        for row in table
    ]


@pytest.mark.file_only("a server gives no id twice, and both ways begin at the same")
@given(st.lists(rows(), min_size=1, max_size=8), st.integers(1, 5))
@settings(max_examples=15, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_many_together_are_as_one_by_one(
    demo_db: Path, tmp_path: Path, table: list[list[str]], together: int
) -> None:
    path = tmp_path / "swatches.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows([COLUMNS, *table])
    with UnitOfWork(demo_db, write=True) as work:
        outcomes = one_by_one(work, table)
        expected = everything(work)
    with pytest.MonkeyPatch.context() as patch, UnitOfWork(demo_db, write=True) as work:
        patch.setattr(record_rows, "TOGETHER", together)
        result = import_tables(work, [(kind_named("swatches"), path)], TODAY)
        assert everything(work) == expected
    assert result.added.get("swatches", 0) == outcomes.count(True)
    assert result.present.get("swatches", 0) == outcomes.count(False)
    assert [fault.reason for fault in result.faults] == [
        each for each in outcomes if isinstance(each, str)
    ]


def test_a_refusal_of_the_database_is_told_of_the_row_to_blame(
    demo_work: UnitOfWork, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As if another program had taken a code meanwhile: what was thought free is not."""
    row = ["", "M1", "", "ECP", "2", "1", "2026-03-01", "", "", "40", "3", "12", "", ""]
    path = tmp_path / "swatches.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows([COLUMNS, ["Z1", *row[1:]], ["S6", *row[1:]], ["Z2", *row[1:]]])
    real = type(demo_work.swatches).keys_of_codes
    monkeypatch.setattr(
        type(demo_work.swatches),
        "keys_of_codes",
        lambda self, codes: {code: key for code, key in real(self, codes).items() if code != "S6"},
    )
    result = import_tables(demo_work, [(kind_named("swatches"), path)], TODAY)
    assert result.added == {"swatches": 2}
    assert [(fault.line, "S6 is recorded already" in fault.reason) for fault in result.faults] == [
        (3, True)
    ]
