"""A caution's standing in the law and a label's marks, each in a column of its own."""

from collections.abc import Iterable, Sequence
from datetime import date
from typing import Final

from studio.catalogue.care import BASIS_WORDS, LOOKED_UP_TITLE
from studio.catalogue.hazard import LIST_WORDS, Basis, Hazard, Listing
from studio.catalogue.hazard import NO_DATA as NO_CAUTION
from studio.catalogue.paint import Paint
from studio.catalogue.pigment import Pigment
from studio.sheets.screen import day_text

REGULATED: Final = (Basis.HARMONISED, Basis.EXEMPT, Basis.NOTIFIED)
"""The standings with a column each; annulled and none known are told in a column of words."""

STANDING_COLUMNS: Final = ("harmonised", "exempt", "notified", "other")
LABEL_COLUMN: Final = "label marks"

NO_CODE: Final = "no code"
"""Stands under a basis that holds although no statement is on record."""
NOT_LOOKED_UP: Final = "not looked up"
"""Stands under `other` where there is no caution and nobody has looked for one."""
NOTHING: Final = "looked up, nothing found"
"""Stands under `other` where there is no caution though somebody looked, which clears nothing."""
NO_DATA: Final = "no data"
"""Stands under `other` where a pigment is not recorded or in no reference table."""
NOT_NOTED: Final = "not noted"


def standing_of(pigment: Pigment) -> str:
    """What stands under `other` for a pigment without a caution."""
    if not pigment.has_data:
        return NO_DATA
    return NOT_LOOKED_UP if pigment.looked_up is None else NOTHING


def looked_up_text(pigment: Pigment) -> str:
    """That a pigment has no caution on record, and who looked for one, if anybody has."""
    if pigment.has_data and pigment.looked_up is not None:
        return f"{LOOKED_UP_TITLE} ({pigment.looked_up})"
    if pigment.has_data:
        return "not looked up: nobody has searched for its hazards; take care and read the label"
    return f"in no table: {NO_CAUTION}"


def unread_lines(paints: Iterable[Paint], *, short: bool = False) -> list[str]:
    """What is not known of some paints, a line for each reason: `not looked up: HY (PY74)`.

    Args:
        paints: the paints.
        short: whether their codes alone are told, to fit a screen.
    """
    reasons: dict[str, list[str]] = {}
    for paint in paints:
        of: dict[str, dict[str, None]] = {}
        for each in paint.unread:
            of.setdefault(each.why, {})[each.pigment.label if each.pigment else ""] = None
        for why, pigments in of.items():
            named = "" if short else ", ".join(filter(None, pigments))
            code = paint.facts.code
            reasons.setdefault(why, []).append(f"{code} ({named})" if named else code)
    return [f"{why}: {', '.join(named)}" for why, named in reasons.items()]


def owner_read_text(paints: Iterable[Paint]) -> str:
    """Which paints are known by what the owner noted of them alone; empty where none is."""
    codes = [paint.facts.code for paint in paints if paint.not_known and not paint.unread]
    return f"by what you noted of label and data sheet alone: {', '.join(codes)}" if codes else ""


def looked_up_lines(paints: Iterable[Paint]) -> list[str]:
    """Where somebody looked for hazards of the pigments of some paints and found none."""
    found: dict[str, dict[str, None]] = {}
    for paint in paints:
        for pigment in paint.nothing_found:
            found.setdefault(pigment.looked_up or "", {})[pigment.label] = None
    return [f"{', '.join(names)} ({where})" for where, names in found.items()]


def listing_text(listing: Listing) -> str:
    """A listing with whose list it is: `IARC 2B (IARC Monographs, WHO)`, and what it is about."""
    told = f"{listing.name} {listing.entry}"
    about = f", of a {listing.scope}" if listing.scope else ""
    return f"{told}{about} ({LIST_WORDS[listing.name]})"


def statement_codes(hazard: Hazard) -> tuple[str, ...]:
    """Its statement codes, `?` behind those that only some grades or data sheets carry."""
    return tuple(f"{code.code}{'?' if code.hedged else ''}" for code in hazard.codes)


def standing_cells(basis: Basis, codes: Sequence[str] = ()) -> tuple[str, str, str, str]:
    """The cells under `STANDING_COLUMNS`: the codes stand below their basis, the rest is empty.

    A basis without codes says so in words; annulled and none known are named before their codes.
    """
    said = ", ".join(codes)
    harmonised, exempt, notified = (
        (said or NO_CODE) if basis is column else "" for column in REGULATED
    )
    other = ""
    if basis not in REGULATED:
        other = f"{BASIS_WORDS[basis]}: {said}" if said else BASIS_WORDS[basis]
    return harmonised, exempt, notified, other


def standing_fields(hazard: Hazard) -> dict[str, list[str] | str | None]:
    """The same as JSON: codes under their basis, None under the others; annulled or none apart."""
    codes = list(statement_codes(hazard))
    fields: dict[str, list[str] | str | None] = {
        basis.value: codes if hazard.basis is basis else None for basis in REGULATED
    }
    fields["other_standing"] = None if hazard.basis in REGULATED else hazard.basis.value
    return fields


def label_marks(paint: Paint) -> str | None:
    """Marks and words on its label, as the owner noted them; None where none are noted."""
    return None if paint.data_sheet is None else paint.data_sheet.label_marks


def trust_mark(*, verified: bool) -> str:
    """How far a caution can be trusted, by a mark and by a word."""
    return "\N{CHECK MARK} verified" if verified else "? unverified"


def trust_text(verified_on: date | None) -> str:
    """The same with the day the owner confirmed it."""
    sign = trust_mark(verified=verified_on is not None)
    return sign if verified_on is None else f"{sign} {day_text(verified_on)}"


def by_trust(told: Iterable[tuple[str, bool]]) -> str:
    """Short texts, the verified apart from the others: `PW6 (verified); PB29, PG7 (unverified)`.

    Args:
        told: each text, and whether what it tells of is verified.
    """
    parts: dict[bool, dict[str, None]] = {}
    for text, verified in told:
        parts.setdefault(verified, {})[text] = None
    return "; ".join(
        f"{', '.join(parts[verified])} ({trust_mark(verified=verified)})"
        for verified in (True, False)
        if verified in parts
    )


def unbroken(text: str) -> str:
    """A text for `indented` whose question marks stay on the line of their word."""
    return text.replace("(? ", "(?\N{NO-BREAK SPACE}")
