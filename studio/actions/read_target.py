"""Read a target colour as a painter writes it, or take it from a swatch or a named target."""

import difflib
import re
from contextlib import suppress
from dataclasses import dataclass
from typing import Final

from studio.actions.find import find_paint, find_swatch, not_removed
from studio.actions.find_target import find_target, targets_like
from studio.catalogue.named_target import NamedTarget
from studio.catalogue.swatch import Swatch
from studio.colour.lab import Lab
from studio.colour.notation import MUNSELL, canonical_munsell, css_names, css_to_lab
from studio.errors import BadInput, NotFound
from studio.storage.unit_of_work import UnitOfWork

SWATCH_CODE: Final = re.compile(r"\s*S\d+\s*", re.IGNORECASE)
OTHER_CODE: Final = re.compile(r"\s*[A-Z]+\d[A-Z0-9]*\s*", re.IGNORECASE)
"""A code that an owner may have imported; names of CSS colours hold no digit."""
_WRITTEN_AS_COLOUR: Final = re.compile(r"[#(/%]|^\s*[-+.\d]|^\s*$")
"""What no name has: the signs of CSS, or a number first, as in Munsell."""
_NEAR: Final = 5
FORMS: Final = (
    "a target is a colour (#b5843c, tan, lab(62 12 30), lch(62 32 68), Munsell 5YR 6/4), a swatch "
    "(S12) or a colour that you named (studio target list)"
)


@dataclass(frozen=True, slots=True)
class Target:
    """A colour to match.

    Args:
        lab: under D50 for 2 degrees.
        given: as it was written.
        note: how it was converted, where that matters.
        swatch_id: the swatch it was taken from, None for a typed colour.
    """

    lab: Lab
    given: str
    note: str | None = None
    swatch_id: int | None = None


def read_colour(text: str) -> Target:
    """A CSS Color 4 colour or a Munsell notation.

    Raises:
        BadInput: it is neither, or lies outside its range.
    """
    given = " ".join(text.split())
    munsell = canonical_munsell(given)
    try:
        if munsell is None:
            return Target(css_to_lab(given), given)
        # Half a second of colour-science, for Munsell notations alone.
        from studio.colour.science import munsell_to_lab  # noqa: PLC0415

        return Target(
            munsell_to_lab(munsell), munsell, "adapted from illuminant C to D50 (Bradford)"
        )
    except ValueError as error:
        msg = (
            f"{error}; write a colour like #b5843c, lab(62 12 30), lch(62 32 68), or 5YR 6/4 "
            "(Munsell)"
        )
        raise BadInput(msg) from None


def could_be_a_colour(text: str) -> bool:
    """Whether a text reads, or was meant to read, as a colour or the code of a swatch."""
    if OTHER_CODE.fullmatch(text) or MUNSELL.match(text):
        return True
    try:
        css_to_lab(text)
    except ValueError:
        return False
    return True


def read_target(work: UnitOfWork, text: str) -> Target:
    """A target for a match: a CSS colour, a Munsell notation, a swatch's code or a target's name.

    Raises:
        BadInput: it is written as a colour, and is none.
        NotFound: it is a name or a code that fits nothing, or a part of the names of several
            targets.
    """
    if SWATCH_CODE.fullmatch(text):
        return _of_swatch(find_swatch(work, text))
    if OTHER_CODE.fullmatch(text) and not MUNSELL.match(text):
        coded = work.swatches.with_code(text.strip().upper())
        if coded is not None:
            return _of_swatch(not_removed(coded))
    named = work.targets.named(text)
    if named is not None:
        return _of_target(named)
    try:
        return read_colour(text)
    except BadInput:
        if targets_like(work, text):
            return _of_target(find_target(work, text))
        if _WRITTEN_AS_COLOUR.search(text):
            raise
        raise _nothing_called(work, text) from None


def _nothing_called(work: UnitOfWork, text: str) -> NotFound:
    """That a name fits no colour, swatch or target, what is near it, and what a target may be."""
    wanted = " ".join(text.lower().split())
    for mix in work.mixes.all():
        if wanted in {mix.code.lower(), (mix.name or "").lower()}:
            msg = f"{text!r} is a mix and not one colour; name a swatch: studio mix show {mix.code}"
            return NotFound(msg)
    with suppress(NotFound):
        code = find_paint(work, text).facts.code
        msg = f"{text!r} is a paint and not one colour; name a swatch of it: studio mix list"
        return NotFound(f"{msg} --with {code}")
    names = [target.name for target in work.targets.all()]
    near = tuple(difflib.get_close_matches(wanted, [*names, *css_names()], _NEAR, cutoff=0.7))
    hint = f"; near it: {', '.join(near)}" if near else ""
    msg = f"nothing is called {text!r}{hint}; {FORMS}"
    return NotFound(msg, near)


def _of_swatch(swatch: Swatch) -> Target:
    return Target(swatch.lab, swatch.facts.code, f"swatch {swatch.facts.code}", swatch.id)


def _of_target(target: NamedTarget) -> Target:
    place = f" {target.place}" if target.place else ""
    source = f", from {target.picture.name}{place}" if target.picture else ""
    return Target(target.lab, target.name, f"target of {target.created_on.isoformat()}{source}")
