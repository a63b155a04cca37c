"""Every sample of a measurement file to the swatch it is named for: planned, then recorded."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Final

from studio.actions.find import find_swatch
from studio.actions.importing.table_file import read_table
from studio.actions.log_swatch import checked_reading, read_swatch
from studio.actions.open_measurements import OpenFile, of_condition
from studio.actions.read_measurements import Told, is_recorded, reading_of_sample
from studio.catalogue.reading import Reading
from studio.catalogue.swatch import Swatch
from studio.colour.difference import ciede2000
from studio.errors import BadInput
from studio.formats.plain_text import listed
from studio.formats.sample import Sample
from studio.storage.unit_of_work import UnitOfWork

_SEVERAL: Final = re.compile(r"([A-Z][A-Z0-9]{0,11})[\s_./:#-]+\(?[A-Z0-9]{1,3}\)?", re.IGNORECASE)
"""A swatch's code, and after a sign which of several readings it is: `S12 a`, `S12-2`, `s12_3`."""

FITS_NONE: Final = "no swatch has its name as code"


@dataclass(frozen=True, slots=True)
class Mapped:
    """A sample and the swatch it goes to.

    Args:
        sample: what the file calls it.
        swatch: the swatch as it stands.
        reading: what would be recorded.
        delta_e: ΔE00 of the reading from the swatch as it stands.
        is_new: whether it is not recorded yet.
    """

    sample: str
    swatch: Swatch
    reading: Reading
    delta_e: float
    is_new: bool


@dataclass(frozen=True, slots=True)
class Left:
    """A sample that goes to no swatch, and why."""

    sample: str
    reason: str


@dataclass(frozen=True, slots=True)
class SamplePlan:
    """What would be recorded of a file.

    Args:
        opened: the file.
        mapped: samples that go to a swatch, in the order of the file.
        unfit: samples that fit nothing or cannot be read; they hold up the recording.
        left_out: samples that the map leaves out.
        remarks: what the owner should know.
    """

    opened: OpenFile
    mapped: tuple[Mapped, ...]
    unfit: tuple[Left, ...]
    left_out: tuple[str, ...]
    remarks: tuple[str, ...]


def read_map(path: Path) -> dict[str, str | None]:
    """A CSV file with the columns sample and swatch: sample -> code, None to leave it out.

    Raises:
        BadInput: it is no such file, or names a sample twice.
    """
    header, rows = read_table(path, "a map of samples", ("sample", "swatch"), ())
    chosen: dict[str, str | None] = {}
    for line, cells in rows:
        if len(cells) != len(header):
            msg = f"{path.name}, line {line}: it needs a sample and a swatch, or an empty cell"
            raise BadInput(msg)
        row = dict(zip(header, cells, strict=True))
        sample = _folded(row["sample"])
        if not sample or sample in chosen:
            word = "names its sample twice" if sample else "names no sample"
            msg = f"{path.name}, line {line}: it {word}; give each sample one line"
            raise BadInput(msg)
        chosen[sample] = row["swatch"].strip() or None
    return chosen


def plan_samples(
    work: UnitOfWork, opened: OpenFile, chosen: Mapping[str, str | None], told: Told, today: date
) -> SamplePlan:
    """Which sample goes to which swatch; nothing is recorded.

    A sample goes where the map says, else to the swatch whose code is its name, else to the one
    whose code its name begins with, before a sign and up to three letters or digits.

    Raises:
        BadInput: the map names a sample that the file has not, or a sample was read under several
            conditions and none was chosen.
        NotFound: the map names a swatch that is not there.
    """
    contents = opened.contents
    known = {_folded(name) for name in contents.names}
    strange = [name for name in chosen if name not in known]
    if strange:
        msg = f"the map names samples that {opened.name} has not: {listed(strange)}"
        raise BadInput(msg)
    file = work.files.with_digest(opened.digest)
    mapped: list[Mapped] = []
    unfit: list[Left] = []
    left_out: list[str] = []
    remarks = [f"{opened.name}: {remark}" for remark in contents.remarks]
    swatches: dict[str, Swatch | None] = {}
    for sample in _of_one_condition(contents.samples, told):
        name = _folded(sample.name)
        if name in chosen and chosen[name] is None:
            left_out.append(sample.name)
            continue
        if name not in swatches:
            swatches[name] = _swatch(work, sample, chosen.get(name))
        swatch = swatches[name]
        if swatch is None:
            unfit.append(Left(sample.name, FITS_NONE))
            continue
        if swatch.removed is not None:
            unfit.append(Left(sample.name, f"swatch {swatch.facts.code} was removed"))
            continue
        try:
            reading, said = reading_of_sample(sample, None, told, today)
            checked_reading(reading, swatch.facts, today)
        except BadInput as error:
            unfit.append(Left(sample.name, str(error)))
            continue
        new = not is_recorded(reading, file.id if file else None, swatch)
        apart = ciede2000(swatch.lab.coordinates, reading.lab.coordinates)
        mapped.append(Mapped(sample.name, swatch, reading, apart, new))
        remarks += said
    for fault in contents.faults:
        if _folded(fault.name) in chosen and chosen[_folded(fault.name)] is None:
            left_out.append(fault.name)
        else:
            unfit.append(Left(fault.name, fault.reason))
    return SamplePlan(opened, tuple(mapped), tuple(unfit), tuple(left_out), tuple(remarks))


def record_samples(
    work: UnitOfWork, plan: SamplePlan, today: date, *, only_fitting: bool = False
) -> list[Swatch]:
    """Record every new reading of a plan; the swatches that got one, as they are now.

    Raises:
        BadInput: a sample fits nothing and `only_fitting` was not asked for, or none fits.
    """
    if plan.unfit and not (only_fitting and plan.mapped):
        names = listed([f"{left.sample} ({left.reason})" for left in plan.unfit], 3)
        msg = (
            f"nothing was recorded of {plan.opened.name}: {names}; see --dry-run, leave samples "
            "out with --map or take the others with --only-fitting"
        )
        raise BadInput(msg)
    new = [each for each in plan.mapped if each.is_new]
    changed: dict[int, Swatch] = {}
    if new:
        file = work.files.keep(plan.opened.name, plan.opened.content, today)
        for each in new:
            read = read_swatch(work, each.swatch, replace(each.reading, file=file), today)
            changed[read.id] = read
    return list(changed.values())


def _of_one_condition(samples: tuple[Sample, ...], told: Told) -> list[Sample]:
    """The samples in their order, each name under one condition."""
    by_name: dict[str, list[Sample]] = {}
    for sample in samples:
        by_name.setdefault(_folded(sample.name), []).append(sample)
    kept = {
        id(each)
        for alike in by_name.values()
        for each in of_condition(tuple(alike), told.condition)
    }
    return [sample for sample in samples if id(sample) in kept]


def _swatch(work: UnitOfWork, sample: Sample, chosen: str | None) -> Swatch | None:
    if chosen is not None:
        return find_swatch(work, chosen)
    for name in filter(None, (sample.name, sample.number)):
        exact = work.swatches.with_code(name.upper())
        if exact is not None:
            return exact
        several = _SEVERAL.fullmatch(name)
        if several is not None and (found := work.swatches.with_code(several[1].upper())):
            return found
    return None


def _folded(name: str) -> str:
    return " ".join(name.casefold().split())
