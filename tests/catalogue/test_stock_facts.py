"""Weights and sizes of the paper trade, from a table of published figures."""

import csv
from pathlib import Path
from typing import Final

import pytest

from studio.cli.values import paper_weight, sheet_size

TABLE: Final = Path(__file__).resolve().parents[1] / "published" / "stock_facts.csv"

with TABLE.open(encoding="utf-8", newline="") as _file:
    ROWS: Final = list(csv.DictReader(_file))

WEIGHTS: Final = [row for row in ROWS if row["unit"] == "lb"]
SHEETS: Final = [row for row in ROWS if row["unit"] == "in"]


@pytest.mark.parametrize("row", WEIGHTS, ids=lambda row: f"{row['given']} lb")
def test_pounds_are_the_grams_that_makers_print(row: dict[str, str]) -> None:
    figure = pytest.approx(float(row["figure"]), abs=float(row["within"]))
    assert paper_weight(f"{row['given']}lb") == figure
    assert paper_weight(f"{row['given']} lbs") == figure


@pytest.mark.parametrize("row", SHEETS, ids=lambda row: row["fact"])
def test_inches_are_the_millimetres_that_makers_print(row: dict[str, str]) -> None:
    sides = tuple(float(side) for side in row["figure"].split("x"))
    assert sheet_size(f"{row['given']}in") == pytest.approx(sides, abs=float(row["within"]))


def test_each_figure_says_how_it_is_known() -> None:
    assert len(WEIGHTS) == 6
    assert len(SHEETS) == 3
    assert all(row["source"].split()[0].rstrip(":") in {"seen", "arithmetic"} for row in ROWS)
