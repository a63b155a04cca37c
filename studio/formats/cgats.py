"""Samples of a CGATS.17 text file (ISO 28178): spectra, Lab, LCh or XYZ, and how they were read."""

import math
import re
from collections.abc import Sequence
from typing import Final

from studio.colour.lab import Lab
from studio.formats import spectra
from studio.formats.cgats_text import CgatsTable, tables_of
from studio.formats.header_words import backing_in, condition_in, day_in, white_in
from studio.formats.plain_text import decoded, number, printable
from studio.formats.sample import (
    Circumstance,
    Contents,
    Kind,
    Sample,
    SampleFault,
    UnreadableFile,
)
from studio.formats.whites import White, lab_under, xyz_under

_NAMES: Final = ("SAMPLENAME", "NAME", "PATCHNAME")
_NUMBERS: Final = ("SAMPLEID", "SAMPLENO", "PATCHID", "SAMPLELOC")
_WHITE_FIRST: Final = ("WEIGHTING", "COMPUTATION", "ILLUMIN", "OBSERVER")
_LCH: Final = ("LABL", "LABC", "LABH")
_COLOURS: Final = (("LABL", "LABA", "LABB"), _LCH, ("XYZX", "XYZY", "XYZZ"))


def read_cgats(content: bytes, file: str) -> Contents:
    """The samples of a file.

    Args:
        content: its bytes, UTF-8, UTF-16 or Latin-1.
        file: its name, for messages.

    Raises:
        UnreadableFile: it is damaged, or no table of it holds a colour.
    """
    tables = tables_of(decoded(content, file), file)
    spectral = [(table, _spectral_columns(table)) for table in tables]
    if not any(columns or _colour_columns(table) for table, columns in spectral):
        shown = ", ".join(tables[0].fields[:8])
        msg = f"{file} has no spectrum, Lab, LCh or XYZ among its fields ({shown})"
        raise UnreadableFile(msg)
    try:
        percent = spectra.is_percent(
            value
            for table, columns in spectral
            for _, row in table.rows
            for _, index in columns
            if (value := number(row[index])) is not None
        )
    except ValueError as error:
        msg = f"{file}: {error}"
        raise UnreadableFile(msg) from None
    samples: list[Sample] = []
    faults: list[SampleFault] = []
    remarks = [spectra.PERCENT_REMARK] if percent else []
    for table, columns in spectral:
        if table.sets is not None and table.sets != len(table.rows):
            remarks.append(f"it says {table.sets} sets of data and holds {len(table.rows)}")
        reader = _Reader(table, columns, percent=percent)
        for index, (line, row) in enumerate(table.rows, start=1):
            name, other = reader.names(row, index)
            try:
                samples.append(reader.sample(row, name, other))
            except ValueError as error:
                faults.append(SampleFault(name, f"line {line}: {error}"))
    return Contents(Kind.CGATS, tuple(samples), tuple(faults), tuple(remarks))


class _Reader:
    """How the rows of one table are read."""

    def __init__(
        self, table: CgatsTable, columns: Sequence[tuple[float, int]], *, percent: bool
    ) -> None:
        self._spectral = columns
        self._percent = percent
        self._colours = _colour_columns(table)
        self._fields = table.fields
        plain = _plain_fields(table)
        self._name = next((plain[key] for key in _NAMES if key in plain), None)
        self._number = next((plain[key] for key in _NUMBERS if key in plain), None)
        self._how = _circumstance(table.keywords)
        self._white = _white(table.keywords)

    def names(self, row: Sequence[str], index: int) -> tuple[str, str | None]:
        """The name of a row, and its other name where it has two."""
        given = [
            printable(row[column])
            for column in (self._name, self._number)
            if column is not None and printable(row[column])
        ]
        if not given:
            return str(index), None
        return given[0], given[1] if len(given) > 1 else None

    def sample(self, row: Sequence[str], name: str, other: str | None) -> Sample:
        """The sample of a row.

        Raises:
            ValueError: a value is missing, no number or impossible.
        """
        points = [(nm, _number(row[index], f"{nm:g} nm")) for nm, index in self._spectral]
        spectrum = spectra.spectrum_of(points, percent=self._percent) if points else None
        lab = None
        try:
            lab = self._lab(row)
        except ValueError:
            if spectrum is None:
                raise
        return Sample(
            name, spectrum, lab, self._how, other, white_is_assumed=not self._white.is_stated
        )

    def _lab(self, row: Sequence[str]) -> Lab | None:
        for keys, columns in self._colours:
            first, second, third = (_number(row[index], self._fields[index]) for index in columns)
            if keys[0] == "XYZX":
                return xyz_under(self._white, first, second, third)
            if keys == _LCH:
                hue = math.radians(third)
                second, third = second * math.cos(hue), second * math.sin(hue)
            return lab_under(self._white, first, second, third)
        return None


def _number(cell: str, what: str) -> float:
    value = number(cell)
    if value is None:
        msg = f"{what} is {cell!r}, which is not a number" if cell else f"{what} is empty"
        raise ValueError(msg)
    return value


def _plain_fields(table: CgatsTable) -> dict[str, int]:
    """Fields in capitals without signs -> their column; the first of each name counts."""
    plain: dict[str, int] = {}
    for index, name in enumerate(table.fields):
        plain.setdefault(re.sub(r"[^A-Z0-9]", "", name.upper()), index)
    return plain


def _spectral_columns(table: CgatsTable) -> list[tuple[float, int]]:
    found = ((spectra.wavelength_of(name), index) for index, name in enumerate(table.fields))
    return [(nm, index) for nm, index in found if nm is not None]


def _colour_columns(table: CgatsTable) -> list[tuple[tuple[str, ...], tuple[int, ...]]]:
    plain = _plain_fields(table)
    return [
        (keys, tuple(plain[key] for key in keys))
        for keys in _COLOURS
        if all(key in plain for key in keys)
    ]


def _circumstance(keywords: dict[str, list[str]]) -> Circumstance:
    def first(*keys: str) -> str:
        return next((keywords[key][0] for key in keys if keywords.get(key)), "")

    return Circumstance(
        instrument=printable(first("INSTRUMENTATION", "INSTRUMENT", "DEVICE")) or None,
        condition=condition_in(_condition_text(keywords)),
        geometry=printable(first("MEASUREMENT_GEOMETRY", "GEOMETRY")) or None,
        backing=backing_in(first("SAMPLE_BACKING", "BACKING")),
        read_on=day_in(first("MEASUREMENT_DATE", "CREATED", "DATE")),
    )


def _condition_text(keywords: dict[str, list[str]]) -> str:
    words = ("CONDITION", "MEASUREMENT", "FILTER", "POLARI")
    parts = []
    for key, texts in keywords.items():
        if any(word in key for word in words):
            for text in texts:
                off = text.strip().lower() in {"no", "none", "off", "false", "0"}
                parts += [] if off else [f"{key}={text}"]
    return " ; ".join(parts)


def _white(keywords: dict[str, list[str]]) -> White:
    named = sorted(keywords, key=lambda key: not key.startswith(_WHITE_FIRST))
    return White.of(*white_in(f"{key} {text}" for key in named for text in keywords[key]))
