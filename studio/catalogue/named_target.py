"""A colour to be matched that was given a name, with where it was taken from."""

from dataclasses import dataclass
from datetime import date

from studio.catalogue.measurement_file import MeasurementFile
from studio.catalogue.removal import Removal
from studio.colour.lab import Lab
from studio.errors import BadInput


@dataclass(frozen=True, slots=True)
class NamedTarget:
    """A colour to be matched.

    Args:
        id: database id.
        name: what it is called in commands, in lower case.
        lab: under D50 for 2 degrees.
        spread: how much the spot varies, mean ΔE00 of its pixels from the colour; None where
            it was not taken from a picture.
        place: where in the picture, as it was chosen.
        picture: the picture it was taken from; None for a typed colour.
        created_on: the day.
        note: remarks.
        removed: the mark of a removed target.

    Raises:
        BadInput: the colour is not under D50/2°.
    """

    id: int
    name: str
    lab: Lab
    spread: float | None
    place: str | None
    picture: MeasurementFile | None
    created_on: date
    note: str | None = None
    removed: Removal | None = None

    def __post_init__(self) -> None:
        if not self.lab.is_standard:
            msg = "a target is kept under D50 for the 2 degree observer; convert it first"
            raise BadInput(msg)
