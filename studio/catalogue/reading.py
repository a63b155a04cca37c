"""A reading: one measurement of a swatch or of a paper's white, with how it was made."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Final

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


ADAPTATION_ERRORS: Final = {
    ("D50", 10): 1.7,
    ("D55", 2): 0.2,
    ("D55", 10): 1.9,
    ("D65", 2): 0.5,
    ("D65", 10): 2.2,
    ("C", 2): 0.6,
    ("C", 10): 2.1,
    ("A", 2): 1.4,
    ("A", 10): 1.1,
}
"""Mean ΔE00 between a Lab adapted to D50/2° by Bradford and the D50/2° Lab of the same spectrum.

Over 132 spectra: 27 acrylics (Okumura 2005) opaque and let down with 50, 90 and 98 % of white, and
24 chart patches (BabelColor 2012); single ones are off by up to 10.2.
tests/catalogue/test_reading.py measures it again."""
OTHER_ADAPTATION_ERROR: Final = 2.2
"""The same for any other white; FL11/2° had the most of those that were measured."""


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

    @property
    def adaptation_error(self) -> float | None:
        """Mean error, ΔE00, of having adapted its Lab; None where nothing was adapted."""
        if self.origin is not Origin.ADAPTED:
            return None
        white = (self.given.illuminant, self.given.observer)
        return ADAPTATION_ERRORS.get(white, OTHER_ADAPTATION_ERROR)


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
