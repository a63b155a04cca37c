"""Record a colour to be matched under a name."""

from datetime import date

from studio.actions.read_target import could_be_a_colour
from studio.catalogue import checks
from studio.catalogue.measurement_file import MeasurementFile
from studio.catalogue.named_target import NamedTarget
from studio.colour.lab import Lab
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


def name_target(  # noqa: PLR0913 - a target is its name, colour and where it came from
    work: UnitOfWork,
    name: str,
    lab: Lab,
    *,
    today: date,
    spread: float | None = None,
    place: str | None = None,
    picture: MeasurementFile | None = None,
    note: str | None = None,
) -> NamedTarget:
    """Record a target.

    Args:
        work: the studio.
        name: what it is to be called, in any case.
        lab: under D50 for 2 degrees.
        today: the day.
        spread: mean ΔE00 of the pixels from the colour.
        place: where in the picture.
        picture: the picture it was taken from, as it is kept.
        note: remarks.

    Raises:
        BadInput: the name is taken, or could be read as a colour or a code.
    """
    checked = checked_name(work, name)
    target = NamedTarget(
        0, checked, lab, spread, place, picture, today, checks.optional_text(note, "the note")
    )
    return work.targets.add(target)


def checked_name(work: UnitOfWork, name: str) -> str:
    """A name in its stored form, lower case with its white space folded.

    Raises:
        BadInput: it is empty, taken, or could be read as a colour or a code.
    """
    checked = checks.text(name, "the name of the target").lower()
    if could_be_a_colour(checked):
        msg = (
            f"{checked!r} could be read as a colour or the code of a swatch; choose a name of "
            "other words, such as mud under the hull"
        )
        raise BadInput(msg)
    if work.targets.named(checked) is not None:
        msg = f"a target is called {checked!r} already; choose another name"
        raise BadInput(msg)
    return checked
