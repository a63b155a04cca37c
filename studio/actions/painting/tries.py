"""What was tested for a colour of a painting: each swatch held against it, and how far off."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from studio.actions.painting.find_painting import whole_name
from studio.actions.swatch_rows import SwatchRow, swatch_rows
from studio.catalogue.painting import Painting, Passage, PassageColour
from studio.catalogue.reading import State
from studio.catalogue.swatch import Swatch, SwatchFacts
from studio.colour.difference import ciede2000
from studio.colour.words import Separation, separation
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class Try:
    """A test swatch held against a colour.

    Args:
        number: 1 for the first that was made for it.
        row: the swatch with its mix, recipe and paper.
        delta_e: ΔE00 of the colour and the swatch.
        separation: how the swatch looks beside the colour, which is what is to be corrected.
        passes: it was read dry, and is within the painting's tolerance.
    """

    number: int
    row: SwatchRow
    delta_e: float
    separation: Separation
    passes: bool

    @property
    def swatch(self) -> Swatch:
        """The swatch."""
        return self.row[0]

    @property
    def is_dry(self) -> bool:
        """Whether it was read dry; a wet wash is darker than it will be."""
        return self.swatch.state is State.DRY


def tries_of(work: UnitOfWork, painting: Painting, colour: PassageColour) -> tuple[Try, ...]:
    """What was held against a colour, in the order it was made."""
    swatches = work.swatches.by_ids(colour.tries)
    rows = swatch_rows(work, [swatches[key] for key in colour.tries])
    return tuple(_try(painting, colour, number, row) for number, row in enumerate(rows, start=1))


def _try(painting: Painting, colour: PassageColour, number: int, row: SwatchRow) -> Try:
    wanted, made = colour.lab.coordinates, row[0].lab.coordinates
    difference = ciede2000(wanted, made)
    dry = row[0].state is State.DRY
    passes = dry and difference <= painting.tolerance
    return Try(number, row, difference, separation(wanted, made), passes)


def nearest_try(tries: Sequence[Try]) -> Try | None:
    """The dry one that is nearest, the earliest of several; None where none was read dry."""
    dry = [each for each in tries if each.is_dry]
    return min(dry, key=lambda each: each.delta_e) if dry else None


def made_for(
    facts: SwatchFacts, painting: Painting, passage: Passage, colour: PassageColour
) -> SwatchFacts:
    """The facts of a swatch that is made for a colour, which stays the one that it has now."""
    return replace(facts, target=whole_name(painting, passage, colour), target_lab=colour.lab)


def keep_try(work: UnitOfWork, passage: Passage, colour: PassageColour, swatch: Swatch) -> None:
    """Record that a swatch was held against a colour.

    Raises:
        BadInput: it was before.
    """
    if swatch.id in colour.tries:
        number = colour.tries.index(swatch.id) + 1
        msg = f"{swatch.facts.code} is try {number} for {passage.name!r} already"
        raise BadInput(msg)
    work.paintings.add_try(colour.id, swatch.id)


def standing_text(tries: Sequence[Try]) -> str:
    """How the last try stands to the one before it, and whether another is the nearest so far."""
    *earlier, last = tries
    said = f"try {last.number}: ΔE00 {last.delta_e:.1f}"
    if not last.is_dry:
        return f"{said}, read wet: read it again once it is dry"
    dry = [each for each in earlier if each.is_dry]
    if dry:
        before = dry[-1]
        step = round(last.delta_e, 1) - round(before.delta_e, 1)
        word = "nearer than" if step < 0 else "farther off than" if step > 0 else "as near as"
        said += f", {word} try {before.number} ({before.delta_e:.1f})"
        best = nearest_try(dry)
        if best is not None and best.number != before.number and best.delta_e < last.delta_e:
            said += f"; try {best.number} is the nearest ({best.delta_e:.1f})"
    return said
