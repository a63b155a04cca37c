"""Writes the demo's CSV files beside itself: `python seed_demo/build_seed.py` from the repository.

Nothing is random: the same plan and the same table of coefficients give the same files.
"""

import csv
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Final

import numpy as np

from seed_demo import optics
from seed_demo.optics import FloatArray
from seed_demo.plan_documents import SHEET_FIELDS, sheet_rows
from seed_demo.plan_fade import FADE_FIELDS, PAPER, STRIPS, strip_rows
from seed_demo.plan_mixes import MIXES, parts
from seed_demo.plan_paints import (
    PAINT_FIELDS,
    PAINTS,
    PAPER_FIELDS,
    PAPER_WHITE,
    PAPERS,
)
from seed_demo.plan_readings import METHODS, Method, Reading, readings, rise
from seed_demo.plan_stock import STOCK_FIELDS, stock_book
from seed_demo.plan_swatches import Swatch, swatches
from studio.mixing.film import mix_coefficients

HERE: Final = Path(__file__).resolve().parent
COEFFICIENTS: Final = HERE.parent / "shared" / "okumura2005_k_s_27_acrylics.csv"

MIX_FIELDS: Final = ["code", "recipe", "name", "note", "created_on"]
SWATCH_FIELDS: Final = [
    "code",
    "mix",
    "paper",
    "water",
    "layers",
    "application",
    "state",
    "made_on",
    "kept_at",
    "note",
    "reading_note",
    "target",
    "lab_l",
    "lab_a",
    "lab_b",
    "illuminant",
    "observer",
    "method",
    "instrument",
    "condition",
    "error_de",
    "spectrum_start_nm",
    "spectrum_step_nm",
    "reflectance",
]

Row = dict[str, str]


def main(folder: Path = HERE, coefficients: Path = COEFFICIENTS) -> None:
    """Build every table into `folder`.

    Args:
        folder: where the seven CSV files go.
        coefficients: the table of Okumura (2005), K and S of 27 acrylic paints.
    """
    papers = {code: optics.paper_white(*white) for code, white in PAPER_WHITE.items()}
    paints = optics.coefficients(coefficients)
    _write(folder / "paints.csv", PAINT_FIELDS, PAINTS)
    _write(folder / "papers.csv", PAPER_FIELDS, _paper_rows(papers))
    _write(folder / "mixes.csv", MIX_FIELDS, _mix_rows())
    _write(folder / "swatches.csv", SWATCH_FIELDS, _swatch_rows(papers, paints))
    _write(folder / "stock.csv", STOCK_FIELDS, stock_book())
    _write(folder / "data_sheets.csv", SHEET_FIELDS, sheet_rows())
    _write(folder / "fade_tests.csv", FADE_FIELDS, _fade_rows(papers[PAPER], paints))


def _mix_rows() -> Iterator[Row]:
    """A mix is as old as its first swatch."""
    first: dict[str, str] = {}
    for swatch in sorted(swatches(), key=lambda swatch: swatch.made_on):
        first.setdefault(swatch.mix, swatch.made_on.isoformat())
    for mix in MIXES:
        yield {**mix, "created_on": first[mix["code"]]}


def _paper_rows(whites: Mapping[str, FloatArray]) -> Iterator[Row]:
    """The white of a paper is read on the day it is first bought or painted on."""
    bought = [(row["item"], row["happened_on"]) for row in stock_book()]
    painted = [(swatch.paper, swatch.made_on.isoformat()) for swatch in swatches()]
    for paper in PAPERS:
        yield {
            **paper,
            "white_read_on": min(day for code, day in (*bought, *painted) if code == paper["code"]),
            "white_condition": "M1",
            **_spectrum(whites[paper["code"]], "white_spectrum_", "white_reflectance"),
        }


def _swatch_rows(
    papers: Mapping[str, FloatArray], paints: Mapping[str, tuple[FloatArray, FloatArray]]
) -> Iterator[Row]:
    recipes = {mix["code"]: parts(mix["recipe"]) for mix in MIXES}
    for swatch in swatches():
        recipe = recipes[swatch.mix]
        absorption, scattering = mix_coefficients(
            list(recipe.values()),
            np.array([paints[code][0] for code in recipe]),
            np.array([paints[code][1] for code in recipe]),
        )
        for reading in readings(swatch):
            seen = optics.dry_reflectance(
                absorption,
                scattering,
                papers[swatch.paper],
                X=optics.thickness(swatch.water, swatch.layers) * reading.place,
                application=swatch.application,
            )
            if reading.state == "wet":
                seen = optics.wet_reflectance(seen, rise(swatch, recipe))
            yield _swatch(swatch) | _reading(reading) | _measured(METHODS[reading.method], seen)


def _fade_rows(
    paper: FloatArray, paints: Mapping[str, tuple[FloatArray, FloatArray]]
) -> Iterator[Row]:
    for strip in STRIPS:
        dry = optics.dry_reflectance(
            *paints[strip.paint], paper, X=optics.thickness(strip.water, 1), application="flat wash"
        )
        yield from strip_rows(strip, optics.lab(dry), optics.lab(paper))


def _swatch(swatch: Swatch) -> Row:
    return {
        "code": f"S{swatch.number}",
        "mix": swatch.mix,
        "paper": swatch.paper,
        "water": f"{swatch.water:g}",
        "layers": str(swatch.layers),
        "application": swatch.application,
        "made_on": swatch.made_on.isoformat(),
        "kept_at": swatch.kept_at,
        "note": swatch.note,
        "target": swatch.target,
    }


def _reading(reading: Reading) -> Row:
    return {
        "state": reading.state,
        "reading_note": reading.note,
        "method": reading.method,
        "instrument": METHODS[reading.method].instrument,
        "condition": reading.condition,
        "error_de": METHODS[reading.method].error_de,
    }


def _measured(method: Method, reflectance: FloatArray) -> Row:
    """The measured columns: a spectrum, or Lab as coarse as the method gives it."""
    if not method.observer:
        return _spectrum(reflectance, "spectrum_", "reflectance")
    colour = optics.lab(reflectance, method.illuminant, method.observer)
    coarse = (round(value / method.step) * method.step for value in colour.coordinates)
    return {
        **dict(zip(("lab_l", "lab_a", "lab_b"), (f"{value:.2f}" for value in coarse), strict=True)),
        "illuminant": method.illuminant,
        "observer": str(method.observer),
    }


def _spectrum(reflectance: FloatArray, prefix: str, column: str) -> Row:
    return {
        f"{prefix}start_nm": str(optics.START),
        f"{prefix}step_nm": str(optics.STEP),
        column: " ".join(f"{value:.4f}" for value in reflectance),
    }


def _write(path: Path, fields: Sequence[str], rows: Iterable[Row]) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, fields, restval="", lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


if __name__ == "__main__":
    main()
