"""Hazards of a pigment: GHS statements, metals, routes, and the words that go with them."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Final

from studio.catalogue.evidence import Evidence
from studio.errors import BadInput

ADVICE: Final = (
    "A summary and no verdict: read the label and the maker's safety data sheet, follow local "
    "rules, and ask a professional."
)
EVERY_PAINT: Final = (
    "With every paint: no brush in the mouth, no food at the table, no breathing of dust or spray."
)
"""Swallowing, then dust, then mist are the ways of harm (Center for Safety in the Arts)."""
NO_DATA: Final = "no caution on record: take care, and read the label"

METALS: Final = (
    "cadmium", "cobalt", "nickel", "chromium", "chromate", "lead", "manganese", "antimony",
    "mercury", "arsenic", "barium", "copper", "zinc", "selenium",
)  # fmt: skip


HEAVY_METALS: Final = frozenset(
    {"cadmium", "cobalt", "nickel", "chromate", "lead", "manganese", "antimony", "mercury",
     "arsenic", "barium", "selenium"}
)  # fmt: skip
"""Metals whose pigments each carry their own caution (Center for Safety in the Arts)."""


UNCLASSIFIED: Final = "other"
"""The class of supplementary statements (EUH codes) that classify nothing by themselves."""


class Basis(StrEnum):
    """Where a hazard stands in the law: kept apart, and never a verdict of harmlessness."""

    HARMONISED = "harmonised"
    EXEMPT = "exempt"
    NOTIFIED = "notified"
    ANNULLED = "annulled"
    NONE = "none"


@dataclass(frozen=True, slots=True)
class HazardCode:
    """A GHS hazard statement of a pigment.

    Args:
        code: such as H350 or EUH208.
        hazard_class: its class in one or two words, such as `carcinogen`.
        wording: the statement.
        hedged: True where only some grades or data sheets carry it.
    """

    code: str
    hazard_class: str
    wording: str
    hedged: bool


@dataclass(frozen=True, slots=True)
class Hazard:
    """What one source says of a pigment's hazards.

    Args:
        pigment: Colour Index name.
        agent: the substance.
        cas: CAS number, where known.
        summary: the caution in a painter's words.
        codes: GHS statements.
        basis: standing in the law.
        basis_detail: index number or remark.
        routes: how it does harm, such as `breathing dust`.
        metals: elements of `METALS` it holds.
        evidence: how well the source was seen.
        source: where it is from.
        verified_on: the day the owner confirmed it, None while unverified.
        verified_from: what the owner confirmed it from, such as the tube's label.
    """

    pigment: str
    agent: str
    cas: str | None
    summary: str
    codes: tuple[HazardCode, ...]
    basis: Basis
    basis_detail: str | None
    routes: tuple[str, ...]
    metals: tuple[str, ...]
    evidence: Evidence
    source: str
    verified_on: date | None = None
    verified_from: str | None = None

    @property
    def needs_care(self) -> bool:
        """Whether `check` reports it: it has a classified statement or holds a heavy metal."""
        classified = any(code.hazard_class != UNCLASSIFIED for code in self.codes)
        return classified or bool(HEAVY_METALS.intersection(self.metals))

    @property
    def class_words(self) -> tuple[str, ...]:
        """Its hazard classes, a question mark behind those that only some grades carry."""
        certain = {code.hazard_class for code in self.codes if not code.hedged}
        hedged = {code.hazard_class for code in self.codes} - certain
        return tuple(sorted({*certain, *(f"{word}?" for word in hedged)}))

    @property
    def classes(self) -> frozenset[str]:
        """The hazard classes of its statements together with its metals."""
        return frozenset(code.hazard_class for code in self.codes) | frozenset(self.metals)


def read_class(wanted: str, known: Iterable[str]) -> str:
    """A hazard class as a filter names it: one of the known classes, a metal, or `any`.

    Raises:
        BadInput: there is no such class; the sentence lists them.
    """
    spelled = " ".join(wanted.lower().split())
    words = sorted({*known, *METALS})
    if spelled == "any" or spelled in words:
        return spelled
    msg = f"hazard class {wanted!r} is not known; choose any, or one of: {', '.join(words)}"
    raise BadInput(msg)
