"""Rows of what was mixed and tested: mixes and swatches with their readings."""

from dataclasses import replace
from datetime import date

from studio.actions.add_mix import add_mix
from studio.actions.find import find_mix, find_paper, find_recipe, not_removed
from studio.actions.importing.row import Row
from studio.actions.log_swatch import checked_swatch, log_swatch, read_swatch
from studio.actions.make_reading import Circumstances, reading_of_lab, reading_of_spectrum
from studio.catalogue import checks
from studio.catalogue.mix import Mix
from studio.catalogue.paper import Paper
from studio.catalogue.reading import Backing, Condition, Method, Reading, State
from studio.catalogue.swatch import Application, SwatchFacts
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


def import_mix(work: UnitOfWork, row: Row, today: date) -> bool:
    """Record a mix; False when its recipe stands there already."""
    recipe = find_recipe(work, row.needed("recipe"))
    _, new = add_mix(
        work,
        recipe,
        checks.past(row.day("created_on") or today, today, "created_on"),
        code=row.text("code"),
        name=row.text("name"),
        note=row.text("note"),
    )
    return new


def import_swatch(work: UnitOfWork, row: Row, today: date) -> bool:
    """Record a swatch, or one more reading of one whose code stands there already.

    False when that very reading stands there too.
    """
    mix = _mix(work, row, today)
    paper = find_paper(work, row.needed("paper"))
    facts = facts_of(row)
    reading = reading_of(row, circumstances_of(row))
    same = checked_swatch(work, facts, today)
    if not same.code and _is_recorded(work, same, mix, paper, reading):
        return False
    known = work.swatches.with_code(same.code) if same.code else None
    if known is None:
        log_swatch(work, mix=mix, paper=paper, facts=facts, reading=reading, today=today)
        return True
    # A target that is another swatch may have changed since; its code is what the row says.
    same = replace(same, target_lab=known.facts.target_lab)
    if (known.facts, known.mix_id, known.paper_id) != (same, mix.id, paper.id):
        msg = f"{known.facts.code} is recorded already, made in another way; choose another code"
        raise BadInput(msg)
    if reading in known.every_reading:
        return False
    read_swatch(work, not_removed(known), reading, today)
    return True


def _is_recorded(
    work: UnitOfWork, facts: SwatchFacts, mix: Mix, paper: Paper, reading: Reading
) -> bool:
    """Whether a swatch made and read just so is there, under whatever code."""
    return any(
        swatch.paper_id == paper.id
        and reading in swatch.every_reading
        and replace(swatch.facts, code="", target_lab=None) == replace(facts, target_lab=None)
        for swatch in work.swatches.of_mix(mix.id, with_removed=True)
    )


def _mix(work: UnitOfWork, row: Row, today: date) -> Mix:
    """The mix of a row: by its code or name, else by its recipe, recorded where it is new."""
    named = row.text("mix")
    if named is not None:
        return find_mix(work, named)
    return add_mix(work, find_recipe(work, row.needed("recipe")), today)[0]


def facts_of(row: Row) -> SwatchFacts:
    """How the swatch of a row was made, its target not looked up.

    Raises:
        BadInput: a cell cannot be read.
    """
    made_on = row.needed_day("made_on")
    return SwatchFacts(
        code=row.text("code") or "",
        water=row.number("water"),
        layers=1 if (layers := row.whole("layers")) is None else layers,
        application=row.word("application", Application) or Application.FLAT_WASH,
        made_on=made_on,
        kept_at=row.text("kept_at"),
        note=row.text("note"),
        target=row.text("target"),
    )


def circumstances_of(row: Row) -> Circumstances:
    """How the reading of a row was made; on the day of the swatch unless another is given.

    Raises:
        BadInput: a cell cannot be read.
    """
    return Circumstances(
        read_on=row.day("read_on") or row.needed_day("made_on"),
        method=row.word("method", Method) or Method.BY_EYE,
        state=row.word("state", State) or State.DRY,
        instrument=row.text("instrument"),
        condition=row.word("condition", Condition),
        error=row.number("error_de"),
        note=row.text("reading_note"),
        geometry=row.text("geometry"),
        backing=row.word("backing", Backing),
        sample=row.text("sample"),
    )


def reading_of(row: Row, how: Circumstances) -> Reading:
    """The reading of a row, from its spectrum or its Lab.

    Raises:
        BadInput: both are given, or neither.
    """
    spectrum = row.spectrum("spectrum_start_nm", "spectrum_step_nm", "reflectance")
    lab = row.lab("lab_", "illuminant", "observer")
    if spectrum is not None:
        if lab is not None:
            msg = "give the spectrum or the Lab of a reading, not both"
            raise BadInput(msg)
        return reading_of_spectrum(spectrum, how)
    if lab is None:
        msg = "a swatch needs a colour: lab_l, lab_a, lab_b or a spectrum"
        raise BadInput(msg)
    return reading_of_lab(lab, how)
