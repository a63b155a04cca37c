"""Samples of a CSV or text table: a row each, or spectra with a wavelength a line."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import PurePath
from typing import Final

from studio.colour.lab import Lab
from studio.formats import spectra
from studio.formats.header_words import (
    backing_in,
    condition_in,
    day_in,
    illuminant_named,
    observer_named,
)
from studio.formats.plain_text import decoded, number, printable
from studio.formats.sample import (
    Circumstance,
    Contents,
    Kind,
    Sample,
    SampleFault,
    UnreadableFile,
)
from studio.formats.table_text import Rows, rows_of
from studio.formats.whites import White, lab_under

_HEADER_WITHIN: Final = 40
"""Rows; instruments write some lines of their own before the header."""
_NAMES: Final = ("samplename", "sample", "name", "swatch", "code", "patch", "sampleid", "id")
_COLUMNS: Final = {
    "instrument": ("instrument", "device"),
    "condition": ("condition", "measurementcondition"),
    "geometry": ("geometry", "measurementgeometry"),
    "backing": ("backing", "samplebacking"),
    "illuminant": ("illuminant",),
    "observer": ("observer",),
    "read_on": ("readon", "date", "measuredon", "measurementdate", "day"),
}
_LAB: Final = (("labl", "laba", "labb"), ("ciel", "ciea", "cieb"), ("l", "a", "b"))
_WAVELENGTH: Final = ("wavelength", "wavelengthnm", "wavelengths", "nm", "lambda", "wl", "lambdanm")
_NAMELESS: Final = ("reflectance", "r", "value", "values", "reflectancefactor", "percent", "")


def read_table(content: bytes, file: str) -> Contents:
    """The samples of a table.

    A row each: a name and either columns of wavelengths (380, nm380, R_380) or L*, a* and b*. Or a
    wavelength a line: wavelength (nm), then a column of reflectance for each sample.

    Args:
        content: its bytes.
        file: its name; it names a sample that has none.

    Raises:
        UnreadableFile: it is no such table.
    """
    rows = rows_of(decoded(content, file), file)
    for index, (_, header) in enumerate(rows[:_HEADER_WITHIN]):
        below = rows[index + 1 :]
        plain = [_plain(cell) for cell in header]
        if any(cell and not _is_number(cell) for cell in header):
            if _spectral(header) or _lab_columns(plain):
                return _by_rows(header, below, file)
            if len(header) > 1 and plain[0] in {*_WAVELENGTH, ""} and below:
                return _by_wavelengths(header, below, file)
        elif len(_spectral(header)) == len(header) > 2:  # noqa: PLR2004 - a wavelength and values
            return _by_rows(header, below, file)
        elif len(header) > 1 and all(map(_is_number, header)):
            return _by_wavelengths(["", *[""] * (len(header) - 1)], rows[index:], file)
    msg = (
        f"{file} is not a table of spectra or Lab: a header names columns such as sample and "
        "380 … 730, or sample and L*, a*, b*, or wavelength and reflectance"
    )
    raise UnreadableFile(msg)


def _by_rows(header: Sequence[str], rows: Rows, file: str) -> Contents:
    reader = _RowReader(header)
    kept: list[tuple[int, list[str]]] = []
    faults: list[SampleFault] = []
    for line, cells in rows:
        if len(cells) == len(header):
            kept.append((line, cells))
        else:
            reason = f"line {line}: it has {len(cells)} cells, and the header has {len(header)}"
            faults.append(SampleFault(reader.name(cells, line), reason))
    percent = _percent((cells[index] for _, cells in kept for _, index in reader.spectral), file)
    samples: list[Sample] = []
    for line, cells in kept:
        name = reader.name(cells, line)
        try:
            samples.append(reader.sample(cells, name, percent=percent))
        except ValueError as error:
            faults.append(SampleFault(name, f"line {line}: {error}"))
    return _contents(samples, faults, percent=percent)


class _RowReader:
    """How a table with a sample a row is read."""

    def __init__(self, header: Sequence[str]) -> None:
        plain = [_plain(cell) for cell in header]
        self.spectral = _spectral(header)
        self._lab = _lab_columns(plain)
        self._name = next((plain.index(key) for key in _NAMES if key in plain), None)
        self._others = {
            what: next(plain.index(key) for key in keys if key in plain)
            for what, keys in _COLUMNS.items()
            if any(key in plain for key in keys)
        }

    def name(self, cells: Sequence[str], line: int) -> str:
        """The name of a row, or its line."""
        given = self._name is not None and self._name < len(cells) and cells[self._name]
        return printable(given or "") or f"line {line}"

    def sample(self, cells: Sequence[str], name: str, *, percent: bool) -> Sample:
        """The sample of a row.

        Raises:
            ValueError: a value is missing, no number or impossible.
        """

        def text(what: str) -> str:
            return cells[self._others[what]] if what in self._others else ""

        spectrum = None
        given = [(nm, cells[index]) for nm, index in self.spectral]
        if any(cell for _, cell in given):
            points = [(nm, _number(cell, f"{nm:g} nm")) for nm, cell in given]
            spectrum = spectra.spectrum_of(points, percent=percent)
        white = _white(text("illuminant"), text("observer"))
        return Sample(
            name,
            spectrum,
            self._lab_of(cells, white),
            Circumstance(
                instrument=printable(text("instrument")) or None,
                condition=condition_in(text("condition")),
                geometry=printable(text("geometry")) or None,
                backing=backing_in(text("backing")),
                read_on=day_in(text("read_on")),
            ),
            white_is_assumed=not white.is_stated,
        )

    def _lab_of(self, cells: Sequence[str], white: White) -> Lab | None:
        if not self._lab or not any(cells[index] for index in self._lab):
            return None
        first, second, third = (
            _number(cells[index], axis)
            for index, axis in zip(self._lab, ("L*", "a*", "b*"), strict=True)
        )
        return lab_under(white, first, second, third)


def _by_wavelengths(header: Sequence[str], rows: Rows, file: str) -> Contents:
    """Spectra that stand in columns beside their wavelengths."""
    wide = [(line, cells) for line, cells in rows if len(cells) > 1]
    if len(wide) != len(rows):
        line = next(line for line, cells in rows if len(cells) < 2)  # noqa: PLR2004
        msg = f"{file}, line {line}: a wavelength without reflectance; export it again"
        raise UnreadableFile(msg)
    percent = _percent((cell for _, cells in rows for cell in cells[1 : len(header)]), file)
    samples: list[Sample] = []
    faults: list[SampleFault] = []
    stem = printable(PurePath(file).stem) or file
    for column in range(1, len(header)):
        alone = len(header) == 2  # noqa: PLR2004 - a wavelength and one spectrum
        name = printable(header[column])
        if _plain(name) in _NAMELESS:
            name = stem if alone else f"{stem} {column}"
        try:
            points = [
                (
                    _number(cells[0], f"the wavelength of line {line}"),
                    _number(cells[column] if column < len(cells) else "", f"line {line}"),
                )
                for line, cells in rows
            ]
            samples.append(Sample(name, spectra.spectrum_of(points, percent=percent), None))
        except ValueError as error:
            faults.append(SampleFault(name, str(error)))
    return _contents(samples, faults, percent=percent)


def _contents(
    samples: Sequence[Sample], faults: Sequence[SampleFault], *, percent: bool
) -> Contents:
    # A spectrum has no white, so nothing was assumed of it.
    plain = [
        replace(each, white_is_assumed=each.white_is_assumed and bool(each.lab)) for each in samples
    ]
    remarks = (spectra.PERCENT_REMARK,) if percent else ()
    return Contents(Kind.TABLE, tuple(plain), tuple(faults), remarks)


def _percent(cells: Iterable[str], file: str) -> bool:
    try:
        return spectra.is_percent(value for cell in cells if (value := number(cell)) is not None)
    except ValueError as error:
        msg = f"{file}: {error}"
        raise UnreadableFile(msg) from None


def _white(illuminant: str, observer: str) -> White:
    if not illuminant:
        return White.of(None, observer_named(observer))
    known = illuminant_named(illuminant)
    if known is None:
        msg = f"illuminant {illuminant!r} is not one of CIE 15, such as D50, D65 or A"
        raise ValueError(msg)
    return White.of(known, observer_named(observer))


def _spectral(header: Sequence[str]) -> list[tuple[float, int]]:
    """(nm, column) of the columns of a spectrum, where there are two at least."""
    found = ((spectra.wavelength_of(cell), index) for index, cell in enumerate(header))
    columns = [(nm, index) for nm, index in found if nm is not None]
    return columns if len(columns) > 1 else []


def _lab_columns(plain: Sequence[str]) -> tuple[int, ...]:
    for keys in _LAB:
        if all(key in plain for key in keys):
            return tuple(plain.index(key) for key in keys)
    return ()


def _plain(cell: str) -> str:
    return re.sub(r"[^a-z0-9]", "", cell.lower())


def _is_number(cell: str) -> bool:
    return number(cell) is not None


def _number(cell: str, what: str) -> float:
    value = number(cell)
    if value is None:
        msg = f"{what} is {cell!r}, which is not a number" if cell else f"{what} is empty"
        raise ValueError(msg)
    return value
