"""Record a mix, or find that it is recorded already."""

from dataclasses import replace
from datetime import date

from studio.catalogue import checks, naming
from studio.catalogue.mix import Mix
from studio.catalogue.recipe import Recipe
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


def add_mix(  # noqa: PLR0913 - the fields of a mix
    work: UnitOfWork,
    recipe: Recipe,
    created_on: date,
    *,
    code: str | None = None,
    name: str | None = None,
    note: str | None = None,
) -> tuple[Mix, bool]:
    """The mix of a recipe, recorded now unless it was before; with whether it is new.

    A name or note given for a recorded mix that has none is added to it.

    Raises:
        BadInput: the code is taken, or the recorded mix has another name, note or code.
    """
    name = checks.optional_text(name, "the name")
    note = checks.optional_text(note, "the note")
    wanted_code = naming.code(code) if code else None
    known = work.mixes.with_recipe(recipe)
    if known is not None:
        return _described(work, known, wanted_code, name, note), False
    if wanted_code is not None:
        taken = work.mixes.with_code(wanted_code)
        if taken is not None:
            msg = f"code {wanted_code} is taken by another mix; choose another"
            raise BadInput(msg)
    mix = Mix(0, wanted_code or work.mixes.next_code(), recipe, name, note, created_on)
    return replace(mix, id=work.mixes.add(mix)), True


def _described(
    work: UnitOfWork, known: Mix, code: str | None, name: str | None, note: str | None
) -> Mix:
    if code is not None and code != known.code:
        msg = f"this recipe is recorded already as {known.code}, the same in any order and scale"
        raise BadInput(msg)
    for what, new, old in (("name", name, known.name), ("note", note, known.note)):
        if new is not None and old is not None and new != old:
            msg = (
                f"{known.code} has the {what} {old!r} already; change it with: studio mix edit "
                f"{known.code}"
            )
            raise BadInput(msg)
    described = replace(known, name=known.name or name, note=known.note or note)
    if described != known:
        work.mixes.describe(known.id, described.name, described.note)
    return described


def describe_mix(work: UnitOfWork, mix: Mix, name: str | None, note: str | None) -> None:
    """Change name and note of a mix; None leaves one as it is, an empty text removes it."""
    work.mixes.describe(
        mix.id,
        mix.name if name is None else checks.optional_text(name, "the name"),
        mix.note if note is None else checks.optional_text(note, "the note"),
    )
