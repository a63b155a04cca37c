"""Find what a typed name means: a paint, paper, mix, swatch or pigment."""

from studio.catalogue import naming
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint, Status
from studio.catalogue.paper import Paper
from studio.catalogue.pigment import Pigment, ci_name
from studio.catalogue.recipe import Recipe, read_recipe
from studio.catalogue.swatch import Swatch
from studio.errors import Ambiguous, BadInput, NotFound
from studio.storage.unit_of_work import UnitOfWork


def find_paint(work: UnitOfWork, name: str) -> Paint:
    """The paint of a code, a name or a part of its name; one in use wins over a retired one.

    Raises:
        NotFound: none fits, or several do.
    """
    return naming.find(
        name,
        work.paints.all(),
        what="paint",
        code_of=lambda paint: paint.facts.code,
        name_of=lambda paint: paint.facts.full_name,
        preferred=lambda paint: paint.facts.status is Status.IN_USE,
    )


def find_paper(work: UnitOfWork, name: str) -> Paper:
    """The paper of a code, a name or a part of its name.

    Raises:
        NotFound: none fits, or several do.
    """
    return naming.find(
        name,
        work.papers.all(),
        what="paper",
        code_of=lambda paper: paper.facts.code,
        name_of=lambda paper: paper.facts.full_name,
    )


def find_pigment(work: UnitOfWork, name: str) -> Pigment:
    """The pigment of a Colour Index name or a part of its common name.

    Raises:
        NotFound: none fits, or several do.
    """
    try:
        spelled = ci_name(name)
    except BadInput:
        spelled = " ".join(name.split())  # an older version took more words behind a name
    exact = work.pigments.get(spelled)
    if exact is not None:
        return exact
    return naming.find(
        name,
        work.pigments.all(),
        what="pigment",
        code_of=lambda pigment: pigment.ci_name,
        name_of=lambda pigment: pigment.common_name or pigment.ci_name,
    )


def find_recipe(work: UnitOfWork, text: str) -> Recipe:
    """The recipe that a text such as `2 ultramarine + 1 burnt sienna` means.

    Raises:
        BadInput: the text is no recipe.
        NotFound: a name fits no paint, or several.
    """
    return read_recipe(text, lambda name: find_paint(work, name).id)


def find_mix(work: UnitOfWork, name: str) -> Mix:
    """The mix of a code, a name of its own, or a recipe.

    Raises:
        BadInput: it is written as a recipe but is none.
        NotFound: no mix fits, or several do.
    """
    exact = work.mixes.with_code(name.strip().upper())
    if exact is not None:
        return exact
    if "+" in name or name.strip()[:1].isdigit():
        recipe = find_recipe(work, name)
        mix = work.mixes.with_recipe(recipe)
        if mix is None:
            msg = f"{name!r} has not been mixed yet; record it with: studio mix add {name!r}"
            raise NotFound(msg)
        return mix
    return naming.find(
        name,
        work.mixes.all(),
        what="mix",
        code_of=lambda mix: mix.code,
        name_of=lambda mix: mix.name or mix.code,
    )


def find_paint_or_mix(work: UnitOfWork, name: str) -> Paint | Mix:
    """The paint of a code or name, else the mix of a code, a name or a recipe.

    A whole code or name goes before a part of one, and a paint before a mix.

    Raises:
        BadInput: it is written as a recipe but is none.
        NotFound: nothing fits.
        Ambiguous: several paints or several mixes do.
    """
    spelled = " ".join(name.casefold().split())
    paints, mixes = work.paints.all(), work.mixes.all()
    if any(paint.facts.code.casefold() == spelled for paint in paints):
        return find_paint(work, name)
    if "+" in name or spelled[:1].isdigit() or work.mixes.with_code(spelled.upper()):
        return find_mix(work, name)
    whole = any(
        spelled in {paint.facts.name.casefold(), paint.facts.full_name.casefold()}
        for paint in paints
    )
    if not whole and any((mix.name or "").casefold() == spelled for mix in mixes):
        return find_mix(work, name)
    try:
        return find_paint(work, name)
    except Ambiguous:
        raise
    except NotFound as no_paint:
        try:
            return find_mix(work, name)
        except Ambiguous:
            raise
        except NotFound as no_mix:
            near = (*no_paint.candidates, *no_mix.candidates)
            hint = f"near it: {', '.join(near)}" if near else "see: studio paint list"
            msg = f"no paint or mix is called {name!r}; {hint}"
            raise NotFound(msg, near) from None


def find_swatch(work: UnitOfWork, code: str, *, removed_too: bool = False) -> Swatch:
    """The swatch of a code.

    Raises:
        NotFound: there is none, or it was removed.
    """
    swatch = work.swatches.with_code(code.strip().upper())
    if swatch is None:
        msg = f"no swatch has the code {code!r}; see: studio swatch list"
        raise NotFound(msg)
    return swatch if removed_too else not_removed(swatch)


def not_removed(swatch: Swatch) -> Swatch:
    """A swatch that was not removed.

    Raises:
        NotFound: it was.
    """
    if swatch.removed is not None:
        code = swatch.facts.code
        msg = (
            f"swatch {code} was removed on {swatch.removed.on.isoformat()}; restore it first: "
            f"studio swatch restore {code}"
        )
        raise NotFound(msg)
    return swatch
