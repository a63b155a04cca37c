"""Record a test swatch with its first reading, add a reading to one, or correct how it was made."""

from dataclasses import replace
from datetime import date

from studio.actions.add_mix import add_mix
from studio.actions.find import find_mix, find_recipe
from studio.actions.read_target import read_target
from studio.catalogue import checks, naming
from studio.catalogue.mix import Mix
from studio.catalogue.paper import Paper
from studio.catalogue.reading import Reading
from studio.catalogue.recipe import Recipe
from studio.catalogue.swatch import Swatch, SwatchFacts
from studio.errors import BadInput, NotFound
from studio.storage.unit_of_work import UnitOfWork


def mix_or_recipe(work: UnitOfWork, text: str) -> Mix | Recipe:
    """The mix that a code, a name or a recipe means, else the recipe, which is not mixed yet.

    Raises:
        BadInput: it is written as a recipe but is none.
        NotFound: a name fits no mix and no paint, or several.
    """
    try:
        return find_mix(work, text)
    except NotFound as no_mix:
        try:
            return find_recipe(work, text)
        except NotFound as no_paint:
            raise (no_paint if no_paint.candidates or not no_mix.candidates else no_mix) from None


def mix_to_log(work: UnitOfWork, text: str, today: date) -> Mix:
    """The mix that a code, a name or a recipe means; a new recipe is recorded as a new mix.

    Raises:
        BadInput: it is written as a recipe but is none.
        NotFound: a name fits no mix and no paint, or several.
    """
    found = mix_or_recipe(work, text)
    return found if isinstance(found, Mix) else add_mix(work, found, today)[0]


def log_swatch(  # noqa: PLR0913 - a swatch is its mix, paper, facts and reading
    work: UnitOfWork,
    *,
    mix: Mix,
    paper: Paper,
    facts: SwatchFacts,
    reading: Reading,
    today: date,
) -> Swatch:
    """Record a swatch with its first reading.

    Args:
        work: the studio.
        mix: the mix that was laid.
        paper: the paper it was laid on.
        facts: how it was made; an empty code takes the next of the series, and where they bring
            the colour of their target along it is not read anew.
        reading: its first reading.
        today: no day may lie after it.

    Raises:
        BadInput: a fact is impossible, or the code is taken.
    """
    if facts.target_lab is None:
        checked = checked_swatch(work, facts, today)
    else:
        checked = replace(
            checked_swatch(work, replace(facts, target=None), today),
            target=checks.text(facts.target or "", "the target"),
            target_lab=facts.target_lab,
        )
    if not checked.code:
        checked = replace(checked, code=work.swatches.next_code())
    elif work.swatches.with_code(checked.code) is not None:
        msg = f"code {checked.code} is taken by another swatch; choose another"
        raise BadInput(msg)
    key = work.swatches.add(checked, mix.id, paper.id, (checked_reading(reading, checked, today),))
    return work.swatches.by_ids([key])[key]


def read_swatch(work: UnitOfWork, swatch: Swatch, reading: Reading, today: date) -> Swatch:
    """Add a reading to a swatch; the colour it is searched by follows.

    Raises:
        BadInput: the reading was made before the swatch, or in the future.
    """
    work.swatches.add_reading(swatch, checked_reading(reading, swatch.facts, today))
    return work.swatches.by_ids([swatch.id])[swatch.id]


def edit_swatch(
    work: UnitOfWork, swatch: Swatch, facts: SwatchFacts, paper: Paper, today: date
) -> Swatch:
    """Replace the facts and the paper of a swatch; its readings stay.

    Raises:
        BadInput: a value is impossible, or the swatch would be younger than its reading.
    """
    known, code = swatch.facts, naming.code(facts.code)
    if facts.target == known.target:
        # The colour it was made for stays, even where the swatch that gave it has changed since.
        facts = checked_swatch(work, replace(facts, target=None), today)
        facts = replace(facts, code=code, target=known.target, target_lab=known.target_lab)
    else:
        facts = replace(checked_swatch(work, facts, today), code=code)
    first = min(reading.read_on for reading in swatch.every_reading)
    if facts.made_on > first:
        msg = f"{facts.code} was read on {first.isoformat()}, so it was made by then"
        raise BadInput(msg)
    other = work.swatches.with_code(facts.code)
    if other is not None and other.id != swatch.id:
        msg = f"code {facts.code} is taken by another swatch; choose another"
        raise BadInput(msg)
    work.swatches.change(swatch.id, facts, paper.id)
    return work.swatches.by_ids([swatch.id])[swatch.id]


def checked_swatch(work: UnitOfWork, facts: SwatchFacts, today: date) -> SwatchFacts:
    """The facts of a swatch with texts folded, numbers checked and its target as a colour.

    Raises:
        BadInput: one of them is impossible.
        NotFound: the target is the code of a swatch that is not there.
    """
    target = checks.optional_text(facts.target, "the target")
    return replace(
        facts,
        code=naming.code(facts.code) if facts.code else "",
        water=checks.optional_number(facts.water, "water", 0, 1000),
        layers=int(checks.number(facts.layers, "the number of layers", 1, 100)),
        made_on=checks.past(facts.made_on, today, "the day"),
        kept_at=checks.optional_text(facts.kept_at, "where the card is kept"),
        note=checks.optional_text(facts.note, "the note"),
        target=target,
        target_lab=read_target(work, target).lab if target else None,
    )


def checked_reading(reading: Reading, facts: SwatchFacts, today: date) -> Reading:
    """A reading made on or after the swatch's own day, and not in the future.

    Raises:
        BadInput: it was not.
    """
    checks.past(reading.read_on, today, "the day of the reading")
    if reading.read_on < facts.made_on:
        msg = (
            f"the reading of {reading.read_on.isoformat()} is older than the swatch "
            f"({facts.made_on.isoformat()}); correct one of the days"
        )
        raise BadInput(msg)
    return reading
