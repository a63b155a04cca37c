"""Readings from the samples of a measurement file."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from studio.actions.make_reading import Circumstances, reading_of_lab, reading_of_spectrum
from studio.actions.open_measurements import OpenFile
from studio.actions.taken_readings import TakenReadings
from studio.catalogue.measurement_file import MeasurementFile
from studio.catalogue.reading import Backing, Condition, Method, Reading, State
from studio.catalogue.swatch import Swatch
from studio.colour.difference import ciede2000
from studio.colour.lab import Lab
from studio.colour.reflectance import Reflectance, fluorescence
from studio.errors import BadInput
from studio.formats.plain_text import listed
from studio.formats.sample import Sample
from studio.storage.unit_of_work import UnitOfWork

_OWN_LAB_WITHIN: Final = 0.5
"""ΔE00; a file's own Lab farther than this from its spectrum was computed for something else."""
_LONGEST_NOTE: Final = 1000


@dataclass(frozen=True, slots=True)
class Told:
    """What the owner says of the readings of a file; what is None is taken from the file.

    Args:
        read_on: the day.
        method: what it was read with.
        state: dry or wet.
        instrument: make and model.
        condition: ISO 13655 condition; of several readings of a sample it chooses those.
        geometry: of illumination and view.
        backing: what lay under the sheet.
        error: expected error, ΔE00.
        illuminant: for Lab of a file that does not name its white.
        observer: the same.
    """

    read_on: date | None = None
    method: Method | None = None
    state: State = State.DRY
    instrument: str | None = None
    condition: Condition | None = None
    geometry: str | None = None
    backing: Backing | None = None
    error: float | None = None
    illuminant: str | None = None
    observer: int | None = None


def reading_of_sample(
    sample: Sample, file: MeasurementFile | None, told: Told, today: date
) -> tuple[Reading, tuple[str, ...]]:
    """The reading of a sample and what the owner should know of it.

    A spectrum wins over the file's own Lab, which is compared with it.

    Raises:
        BadInput: the sample has no colour that can be recorded.
    """
    noted, how = list(sample.remarks), sample.how
    said: list[str] = []
    usual = Method.SPECTROPHOTOMETER if sample.spectrum else Method.COLORIMETER
    made = Circumstances(
        read_on=told.read_on or how.read_on or today,
        method=told.method or usual,
        state=told.state,
        instrument=told.instrument or how.instrument,
        condition=told.condition or how.condition,
        geometry=told.geometry or how.geometry,
        backing=told.backing or how.backing,
        error=told.error,
        sample=sample.name,
        file=file,
    )
    try:
        if sample.spectrum is not None:
            reading = reading_of_spectrum(sample.spectrum, made)
            above = fluorescence(sample.spectrum)
            said += [above] if above else []
            noted += _of_own_lab(sample.spectrum, sample.lab)
        else:
            assert sample.lab is not None  # noqa: S101 - a sample has one of both
            reading = reading_of_lab(_under_told(sample, sample.lab, told, noted), made)
    except BadInput as error:
        msg = f"{sample.name}: {error}"
        raise BadInput(msg) from None
    note = "; ".join(noted)[:_LONGEST_NOTE] or None
    return replace(reading, note=note), tuple(f"{sample.name}: {each}" for each in (*noted, *said))


def is_recorded(reading: Reading, file_id: int | None, swatch: Swatch) -> bool:
    """Whether a swatch has this reading of this sample of this file already."""
    return file_id is not None and any(
        known.file is not None
        and known.file.id == file_id
        and (known.sample, known.given, known.spectrum)
        == (reading.sample, reading.given, reading.spectrum)
        for known in swatch.every_reading
    )


def take_from_file(  # noqa: PLR0913 - a file, what of it, for what, and how it was read
    work: UnitOfWork,
    opened: OpenFile,
    samples: Sequence[Sample],
    swatch: Swatch | None,
    *,
    told: Told,
    today: date,
) -> TakenReadings:
    """The readings of some samples for one swatch; the file is recorded with them.

    Args:
        work: the studio.
        opened: the file.
        samples: all of them of the same swatch.
        swatch: the swatch; None where it is new.
        told: what the owner says of them.
        today: the day.

    Raises:
        BadInput: a sample has no colour that can be recorded, or a new swatch would get a sample
            that another swatch has.
    """
    known = work.files.with_digest(opened.digest)
    others = _elsewhere(work, known, samples, swatch)
    if others and swatch is None:
        msg = (
            f"{samples[0].name} of {opened.name} is recorded already, with {listed(others)}; "
            "a further reading of it goes to: studio swatch read"
        )
        raise BadInput(msg)
    file = work.files.keep(opened.name, opened.content, today)
    readings: list[Reading] = []
    remarks = [f"{opened.name}: {remark}" for remark in opened.contents.remarks]
    remarks += [f"{samples[0].name} of {opened.name} is also with {code}" for code in others]
    for sample in samples:
        reading, said = reading_of_sample(sample, file, told, today)
        if swatch is not None and is_recorded(reading, file.id, swatch):
            code = swatch.facts.code
            remarks.append(f"{sample.name} of {opened.name} is with {code} already: not recorded")
            continue
        readings.append(reading)
        remarks += said
    return TakenReadings(tuple(readings), tuple(remarks))


def _of_own_lab(spectrum: Reflectance, own: Lab | None) -> list[str]:
    """What is to be said where a file's own Lab is not that of its spectrum."""
    from studio.colour.science import reflectance_to_lab  # noqa: PLC0415

    if own is None:
        return []
    mine = reflectance_to_lab(spectrum, own.illuminant, own.observer)
    apart = ciede2000(own.coordinates, mine.coordinates)
    if apart <= _OWN_LAB_WITHIN:
        return []
    white = f"{own.illuminant}/{own.observer}°"
    return [f"the file's own Lab ({white}) is ΔE00 {apart:.2f} from its spectrum, which counts"]


def _under_told(sample: Sample, lab: Lab, told: Told, remarks: list[str]) -> Lab:
    """A Lab under the white its file names, else the one the owner names, else D50/2°."""
    if not sample.white_is_assumed:
        return lab
    if told.illuminant is None and told.observer is None:
        remarks.append("the white of its Lab is not stated; D50/2° by ISO 13655 is assumed")
        return lab
    try:
        return Lab(
            *lab.coordinates,
            told.illuminant or lab.illuminant,
            told.observer if told.observer is not None else lab.observer,
        )
    except ValueError as error:
        raise BadInput(str(error)) from None


def _elsewhere(
    work: UnitOfWork,
    file: MeasurementFile | None,
    samples: Sequence[Sample],
    swatch: Swatch | None,
) -> list[str]:
    """The codes of other swatches that have one of these samples."""
    if file is None:
        return []
    names = {sample.name for sample in samples}
    found = (code for code, sample in work.files.used_by(file.id) if sample in names)
    return [code for code in dict.fromkeys(found) if swatch is None or code != swatch.facts.code]
