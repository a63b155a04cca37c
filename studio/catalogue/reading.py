"""A reading: one measurement of a swatch or of a paper's white, with how it was made."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from studio.catalogue.measurement_file import MeasurementFile
from studio.colour.lab import Lab
from studio.colour.reflectance import Reflectance
from studio.errors import BadInput


class Method(StrEnum):
    """What a colour was read with, the most exact first."""

    SPECTROPHOTOMETER = "spectrophotometer"
    COLORIMETER = "colorimeter"
    SCANNER = "scanner"
    CAMERA = "camera"
    BY_EYE = "by eye"


class Condition(StrEnum):
    """Condition of ISO 13655: M0 about illuminant A, M1 D50 with UV, M2 UV cut, M3 polarised."""

    M0 = "M0"
    M1 = "M1"
    M2 = "M2"
    M3 = "M3"


class Backing(StrEnum):
    """What lay under the sheet when it was read (ISO 13655): white, black, or more of the sheet."""

    WHITE = "white"
    BLACK = "black"
    SELF = "self"


class State(StrEnum):
    """Whether the paint was dry when it was read; swatches are judged dry (common practice)."""

    DRY = "dry"
    WET = "wet"


class Origin(StrEnum):
    """How the D50/2° Lab of a reading came about."""

    MEASURED = "measured"
    SPECTRUM = "from spectrum"
    ADAPTED = "adapted"


@dataclass(frozen=True, slots=True)
class Reading:
    """One measurement.

    Args:
        lab: the colour under D50 for 2 degrees, which the studio searches in.
        given: the colour as it was read, under its own white; equal to `lab` for D50/2°.
        origin: how `lab` came from what was read.
        spectrum: reflectance as read, None where only Lab was read.
        state: dry or wet.
        method: what it was read with.
        instrument: make and model in the owner's words.
        condition: ISO 13655 condition, where known.
        geometry: of illumination and view, such as 45/0 or d/8 with the specular part included.
        backing: what lay under the sheet, where known.
        sample: what the instrument or the file called it.
        file: the file it was taken from.
        error: expected error of the reading, ΔE00, where known.
        read_on: the day.
        note: remarks.

    Raises:
        BadInput: `lab` is not under D50/2°.
    """

    lab: Lab
    given: Lab
    origin: Origin
    spectrum: Reflectance | None
    state: State
    method: Method
    instrument: str | None
    condition: Condition | None
    error: float | None
    read_on: date
    note: str | None = None
    geometry: str | None = None
    backing: Backing | None = None
    sample: str | None = None
    file: MeasurementFile | None = None

    def __post_init__(self) -> None:
        if not self.lab.is_standard:
            msg = "a reading is stored under D50 for the 2 degree observer; convert it first"
            raise BadInput(msg)


def representative(readings: tuple[Reading, ...]) -> tuple[State, Lab]:
    """The colour a swatch is searched by: the mean Lab of its dry readings, else of its wet ones.

    Raises:
        BadInput: there is no reading.
    """
    for state in (State.DRY, State.WET):
        labs = [reading.lab for reading in readings if reading.state is state]
        if len(labs) == 1:
            return state, labs[0]
        if labs:
            axes = zip(*(lab.coordinates for lab in labs), strict=True)
            lightness, a, b = (sum(axis) / len(labs) for axis in axes)
            return state, Lab(lightness, a, b)
    msg = "a swatch needs at least one reading"
    raise BadInput(msg)
