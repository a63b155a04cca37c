"""Writes the NTU WPSM measurements as the CSV tables that `studio import` takes.

Maker, mill and names are invented; the pigments of the paints are not stated with the data.
"""

import csv
from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Final

from tests.open_data.wpsm import FIRST_NM, STEP_NM, Measurements, Mixture, Spectrum

PAPER: Final = "LAB"
MADE_ON: Final = date(2019, 1, 1)
"""The data set is of January 2019."""


def swatch_code(number: int) -> str:
    """The code of the swatch of the n-th mixture, counted from 1."""
    return f"S{number}"


def paint_code(paint: int) -> str:
    """The code of a paint."""
    return f"P{paint}"


def recipe_of(mixture: Mixture) -> str:
    """The recipe as a painter types it, in ml: `0.01 P3 + 0.02 P7`."""
    return " + ".join(
        f"{amount} {paint_code(paint)}"
        for paint, amount in zip(mixture.paints, mixture.amounts, strict=True)
    )


def write_shelf(measured: Measurements, folder: Path) -> list[Path]:
    """paints.csv and papers.csv, the paper with its white."""
    folder.mkdir(exist_ok=True)
    paints = [
        {"code": paint_code(paint), "maker": "Tamsin Vale", "name": f"Watercolour {paint}"}
        for paint in measured.washes
    ]
    paper = {
        "code": PAPER,
        "maker": "Withy Mill",
        "name": "Laboratory White",
        **_spectrum("white_", "white_reflectance", measured.paper),
    }
    return [_write(folder / "paints.csv", paints), _write(folder / "papers.csv", [paper])]


def write_swatches(mixtures: Sequence[Mixture], folder: Path) -> Path:
    """swatches.csv, a swatch for each mixture; the note tells thick from thin."""
    folder.mkdir(exist_ok=True)
    rows = [
        {
            "code": swatch_code(number),
            "recipe": recipe_of(mixture),
            "paper": PAPER,
            "made_on": MADE_ON.isoformat(),
            "note": f"{sum(mixture.amounts)} ml of paint",
            "method": "spectrophotometer",
            **_spectrum("", "reflectance", mixture.reflectance),
        }
        for number, mixture in enumerate(mixtures, start=1)
    ]
    return _write(folder / "swatches.csv", rows)


def _spectrum(prefix: str, column: str, reflectance: Spectrum) -> dict[str, str]:
    """The three cells of a spectrum; repr keeps every digit of a reflectance."""
    return {
        f"{prefix}spectrum_start_nm": str(FIRST_NM),
        f"{prefix}spectrum_step_nm": str(STEP_NM),
        column: " ".join(map(repr, reflectance)),
    }


def _write(path: Path, rows: Sequence[Mapping[str, str]]) -> Path:
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, list(rows[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
    return path
