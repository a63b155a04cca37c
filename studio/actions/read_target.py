"""Read a target colour as a painter writes it, or take it from a recorded swatch."""

import re
from dataclasses import dataclass
from typing import Final

from studio.actions.find import find_swatch
from studio.colour.lab import Lab
from studio.colour.notation import MUNSELL, canonical_munsell, css_to_lab
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork

SWATCH_CODE: Final = re.compile(r"\s*S\d+\s*", re.IGNORECASE)
OTHER_CODE: Final = re.compile(r"\s*[A-Z]+\d[A-Z0-9]*\s*", re.IGNORECASE)
"""A code that an owner may have imported; names of CSS colours hold no digit."""


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


def read_target(work: UnitOfWork, text: str) -> Target:
    """A target for a match: a CSS colour, a Munsell notation or the code of a swatch.

    Raises:
        BadInput: it is no colour.
        NotFound: it looks like a swatch's code, and there is no such swatch.
    """
    if SWATCH_CODE.fullmatch(text):
        swatch = find_swatch(work, text)
    elif OTHER_CODE.fullmatch(text) and not MUNSELL.match(text):
        coded = work.swatches.with_code(text.strip().upper())
        if coded is None:
            return read_colour(text)
        swatch = coded
    else:
        return read_colour(text)
    return Target(swatch.lab, swatch.facts.code, f"swatch {swatch.facts.code}", swatch.id)
