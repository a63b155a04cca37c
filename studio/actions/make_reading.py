"""Make a reading from what an instrument gave: a Lab under some white, or a spectrum."""

import csv
import io
import math
from dataclasses import dataclass
from datetime import date
from itertools import pairwise
from pathlib import Path
from typing import Final

from studio.actions.plain_file import bytes_of
from studio.catalogue import checks
from studio.catalogue.measurement_file import MeasurementFile
from studio.catalogue.reading import Backing, Condition, Method, Origin, Reading, State
from studio.colour.lab import Lab
from studio.colour.reflectance import Reflectance
from studio.errors import BadInput

LARGEST_SPECTRUM: Final = 1_000_000
"""Bytes of a file of one spectrum; 10,000 wavelengths are 200 kB."""


@dataclass(frozen=True, slots=True)
class Circumstances:
    """How a reading was made.

    Args:
        read_on: the day.
        method: what it was read with.
        state: dry or wet.
        instrument: make and model in the owner's words.
        condition: ISO 13655 condition.
        geometry: of illumination and view, such as 45/0.
        backing: what lay under the sheet.
        sample: what the instrument or the file called it.
        file: the file it was taken from, once recorded.
        error: expected error of the reading, ΔE00.
        note: remarks.
    """

    read_on: date
    method: Method
    state: State = State.DRY
    instrument: str | None = None
    condition: Condition | None = None
    error: float | None = None
    note: str | None = None
    geometry: str | None = None
    backing: Backing | None = None
    sample: str | None = None
    file: MeasurementFile | None = None


def reading_of_lab(given: Lab, how: Circumstances) -> Reading:
    """A reading from a Lab; under another white than D50/2° it is adapted and marked so.

    Raises:
        BadInput: the adapted colour leaves L* 0 to 100, or the error is out of range.
    """
    lab, origin = given, Origin.MEASURED
    if not given.is_standard:
        # Half a second of colour-science, for other whites alone.
        from studio.colour.science import adapted  # noqa: PLC0415

        try:
            lab, origin = adapted(given), Origin.ADAPTED
        except ValueError as error:
            msg = f"this Lab cannot be adapted to D50: {error}"
            raise BadInput(msg) from None
    return _reading(lab, given, origin, None, how)


def reading_of_spectrum(spectrum: Reflectance, how: Circumstances) -> Reading:
    """A reading from a reflectance spectrum, which is kept as it was read.

    Raises:
        BadInput: its colour leaves L* 0 to 100, or the error is out of range.
    """
    from studio.colour.science import reflectance_to_lab  # noqa: PLC0415

    try:
        lab = reflectance_to_lab(spectrum)
    except ValueError as error:
        msg = f"no colour can be computed from this spectrum: {error}"
        raise BadInput(msg) from None
    return _reading(lab, lab, Origin.SPECTRUM, spectrum, how)


def lab(lightness: float, a: float, b: float, illuminant: str, observer: int) -> Lab:
    """A Lab from typed values.

    Raises:
        BadInput: they are no colour.
    """
    try:
        return Lab(lightness, a, b, illuminant, observer)
    except ValueError as error:
        raise BadInput(str(error)) from None


def spectrum(start: float, step: float, values: tuple[float, ...]) -> Reflectance:
    """A spectrum from typed values.

    Raises:
        BadInput: they are no spectrum.
    """
    try:
        return Reflectance(start, step, values)
    except ValueError as error:
        raise BadInput(str(error)) from None


def read_spectrum_file(path: Path) -> Reflectance:
    """A spectrum from a CSV file of two columns: wavelength (nm), reflectance (fraction).

    Raises:
        BadInput: the file cannot be read so, or its wavelengths are not equally spaced.
    """
    try:
        text = bytes_of(path, LARGEST_SPECTRUM, "a spectrum takes a few lines").decode("utf-8-sig")
        table = csv.reader(io.StringIO(text, newline=""))
        rows = [row for row in table if any(cell.strip() for cell in row)]
        if rows and not _are_numbers(rows[0]):
            rows = rows[1:]
        points = [(float(row[0]), float(row[1])) for row in rows]
    except (ValueError, IndexError, csv.Error):
        msg = f"{path.name} is not a table of wavelength and reflectance, one pair a line"
        raise BadInput(msg) from None
    if len(points) < 2:  # noqa: PLR2004 - a step needs two
        msg = f"{path.name} holds fewer than two readings of wavelength and reflectance"
        raise BadInput(msg)
    steps = {round(b[0] - a[0], 6) for a, b in pairwise(points)}
    if len(steps) != 1:
        msg = f"the wavelengths in {path.name} must rise in equal steps"
        raise BadInput(msg)
    return spectrum(points[0][0], steps.pop(), tuple(value for _, value in points))


def _are_numbers(cells: list[str]) -> bool:
    try:
        return all(math.isfinite(float(cell)) for cell in cells[:2])
    except ValueError:
        return False


def _reading(
    standard: Lab, given: Lab, origin: Origin, read: Reflectance | None, how: Circumstances
) -> Reading:
    return Reading(
        lab=standard,
        given=given,
        origin=origin,
        spectrum=read,
        state=how.state,
        method=how.method,
        instrument=checks.optional_text(how.instrument, "the instrument"),
        condition=how.condition,
        error=checks.optional_number(how.error, "the error in ΔE00", 0, 100),
        read_on=how.read_on,
        note=checks.optional_text(how.note, "the note"),
        geometry=checks.optional_text(how.geometry, "the geometry"),
        backing=how.backing,
        sample=checks.optional_text(how.sample, "the sample's name"),
        file=how.file,
    )
