"""What a measurement file holds: samples, what could not be read of it, and the one refusal."""

from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from studio.catalogue.reading import Backing, Condition
from studio.colour.lab import Lab
from studio.colour.reflectance import Reflectance
from studio.errors import BadInput


class UnreadableFile(BadInput):
    """A file that holds no reading that can be understood; the one error of every parser."""


class Kind(StrEnum):
    """The kinds of file that readings are taken from."""

    CXF = "CxF3 (ISO 17972-1)"
    CGATS = "CGATS.17 text (ISO 28178)"
    TABLE = "CSV of spectra or of Lab"
    SPDX = "IES TM-27 .spdx"


@dataclass(frozen=True, slots=True)
class Circumstance:
    """How a file says that its samples were read.

    Args:
        instrument: make and model.
        condition: ISO 13655 condition.
        geometry: of illumination and view.
        backing: what lay under the sheet.
        read_on: the day.
    """

    instrument: str | None = None
    condition: Condition | None = None
    geometry: str | None = None
    backing: Backing | None = None
    read_on: date | None = None


@dataclass(frozen=True, slots=True)
class Sample:
    """One sample of a file.

    Args:
        name: what the file calls it.
        spectrum: its reflectance, start, step and values as they stand in the file.
        lab: its Lab as the file gives it; beside a spectrum it is the file's own conversion.
        how: how it was read.
        number: the file's other name for it, such as a running number.
        white_is_assumed: the file does not say under which white `lab` stands.
        remarks: what was noticed and the owner should know.

    Raises:
        ValueError: there is neither a spectrum nor a Lab.
    """

    name: str
    spectrum: Reflectance | None
    lab: Lab | None
    how: Circumstance = field(default_factory=Circumstance)
    number: str | None = None
    white_is_assumed: bool = False
    remarks: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.spectrum is None and self.lab is None:
            msg = "it has neither a spectrum nor a Lab"
            raise ValueError(msg)


@dataclass(frozen=True, slots=True)
class SampleFault:
    """A sample that no reading can be taken from, and why."""

    name: str
    reason: str


@dataclass(frozen=True, slots=True)
class Contents:
    """What a file holds.

    Args:
        kind: its kind, told from what is in it.
        samples: in the order of the file.
        faults: samples that no reading can be taken from.
        remarks: what holds for the whole file, such as that it is in percent.
    """

    kind: Kind
    samples: tuple[Sample, ...]
    faults: tuple[SampleFault, ...] = ()
    remarks: tuple[str, ...] = ()

    @property
    def names(self) -> tuple[str, ...]:
        """The names of all samples, those that cannot be read among them."""
        read = (sample.name for sample in self.samples)
        return (*read, *(fault.name for fault in self.faults))
