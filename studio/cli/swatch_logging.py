"""How a new swatch is recorded: what `swatch log` and `painting test` share."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli.picture_options import PictureOptions, taken_from_picture
from studio.cli.reading_options import ReadingOptions, taking
from studio.cli.session import asked, can_ask, reading, today

if TYPE_CHECKING:
    from studio.actions.swatch_rows import SwatchRow
    from studio.catalogue.paper import Paper
    from studio.catalogue.swatch import SwatchFacts
    from studio.storage.unit_of_work import UnitOfWork

Water = Annotated[str | None, typer.Option(help="Parts of water to paint: 3:1.")]
Kept = Annotated[str | None, typer.Option(help="Where the card is: box 2, row 3.")]
Used = Annotated[
    float | None,
    typer.Option(help="ml of paint it took, without water: booked by its parts, as a guess."),
]


@dataclass(frozen=True, slots=True)
class Logged:
    """A swatch that was recorded, and what the owner should know of it, a sentence each."""

    row: "SwatchRow"
    remarks: tuple[str, ...]


def recipe_to_log(
    context: typer.Context, mix: str | None, options: ReadingOptions, seen: PictureOptions
) -> str:
    """The recipe or mix as it was typed; asked for, at a terminal, until it fits.

    One that was given is looked at before the colour is asked for, so that nobody types a colour
    in vain.

    Raises:
        BadInput: it was not given, and there is nobody to ask; or it is no recipe.
        NotFound: a name in it fits nothing, or several.
    """
    from studio.actions.log_swatch import mix_or_recipe  # noqa: PLC0415

    def check(text: str) -> None:
        with reading(context) as work:
            mix_or_recipe(work, text)

    if mix is not None and not (options.has_colour or seen.is_given) and can_ask():
        check(mix)
    return asked(mix, "the recipe", "the recipe as an argument", check)


def logging(
    mix: str, options: ReadingOptions, seen: PictureOptions, used: float | None
) -> "Callable[[UnitOfWork, Paper, SwatchFacts], Logged]":
    """How a swatch is recorded once the studio is open; files are looked through before.

    Args:
        mix: a recipe or a mix.
        options: where its reading comes from.
        seen: the picture that it may be read in.
        used: ml of paint that it took; None books nothing.

    Raises:
        BadInput: several colours are given, or one that cannot be recorded.
        NotFound: the file has no such sample.
    """
    from studio.actions.log_swatch import mix_to_log  # noqa: PLC0415
    from studio.actions.swatch_rows import swatch_rows  # noqa: PLC0415
    from studio.actions.taken_readings import log_with  # noqa: PLC0415
    from studio.actions.use_stock import use_for_swatch  # noqa: PLC0415

    take = None if seen.is_given else taking(options)

    def keep(work: "UnitOfWork", paper: "Paper", facts: "SwatchFacts") -> Logged:
        recorded = mix_to_log(work, mix, today())
        taken = take(work, None) if take else taken_from_picture(work, seen, options, paper)
        if options.on is None:  # a file may have been read on an earlier day
            facts = replace(facts, made_on=min(each.read_on for each in taken.readings))
        swatch = log_with(work, taken, mix=recorded, paper=paper, facts=facts, today=today())
        (row,) = swatch_rows(work, [swatch])
        if used is not None:
            use_for_swatch(work, swatch, row[2], used, today())
        remarks = taken.remarks
        if facts.made_on < today() and options.on is None:
            day = facts.made_on.isoformat()
            remarks = (*remarks, f"made on {day}, the day of the reading; --on takes another")
        return Logged(row, remarks)

    return keep
