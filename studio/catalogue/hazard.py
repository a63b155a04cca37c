"""Hazards of a pigment: GHS statements, listings, metals, routes, and the words beside them."""

import re
from collections.abc import Iterable, Mapping
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


class Use(StrEnum):
    """What a caution says of using the paint at all; most leave it to the label."""

    NEVER = "never"


class ListName(StrEnum):
    """A list of hazardous substances beside the EU's own."""

    IARC = "IARC"
    NTP = "NTP"
    PROPOSITION_65 = "Proposition 65"
    CANDIDATE_LIST = "Candidate List"
    HCIS = "HCIS"


class Scope(StrEnum):
    """What an entry is about where it is not about the substance itself."""

    GROUP = "group"
    PARENT_DYE = "parent dye"


LIST_WORDS: Final = {
    ListName.IARC: "IARC Monographs, WHO",
    ListName.NTP: "NTP Report on Carcinogens, United States",
    ListName.PROPOSITION_65: "Proposition 65, California",
    ListName.CANDIDATE_LIST: "REACH Candidate List, EU",
    ListName.HCIS: "HCIS, Australia",
}
"""Each list by its whole name and whose it is."""

_ENTRIES: Final[dict[ListName, dict[str, str | None]]] = {
    ListName.IARC: {"1": "carcinogen", "2A": "carcinogen", "2B": "carcinogen", "3": None},
    ListName.NTP: {"known": "carcinogen", "reasonably anticipated": "carcinogen"},
    ListName.PROPOSITION_65: {
        "cancer": "carcinogen",
        "developmental": "reproductive toxicity",
        "male": "reproductive toxicity",
        "female": "reproductive toxicity",
    },
    ListName.CANDIDATE_LIST: {
        "carcinogenic": "carcinogen",
        "mutagenic": "mutagen",
        "reprotoxic": "reproductive toxicity",
        "respiratory sensitising": "airway sensitiser",
        "toxic on repeated exposure": "organ toxicity",
        "PBT": "persistent and bioaccumulative",
        "vPvB": "persistent and bioaccumulative",
    },
}
"""What an entry of a list calls a substance; IARC's group 3 calls it nothing."""
_LISTED: Final = re.compile(
    rf"(?P<name>{'|'.join(ListName)}) (?P<entry>[^()]+?)(?: \((?P<scope>{'|'.join(Scope)})\))?"
)
_STATEMENT: Final = re.compile(r"((?:EUH|AUH|H)\d{3})([A-Za-z]*)")


@dataclass(frozen=True, slots=True)
class Listing:
    """What a list other than the EU's says of a substance.

    Args:
        name: the list.
        entry: its class, group or statements as it writes them, such as `2B` or `H350 H341`.
        scope: what it is about; None for the substance itself.
        classes: the hazard classes that follow from it.
    """

    name: ListName
    entry: str
    scope: Scope | None = None
    classes: tuple[str, ...] = ()

    @property
    def text(self) -> str:
        """As the tables write it: `IARC 3 (parent dye)`."""
        return f"{self.name} {self.entry}" + (f" ({self.scope})" if self.scope else "")

    @property
    def hedged(self) -> bool:
        """Whether it is about a parent dye, which proves nothing about the bound pigment."""
        return self.scope is Scope.PARENT_DYE


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
        use: whether it says never to use the paint; None where it says no such thing.
        listings: what lists other than the EU's say of the agent.
        as_base: the pigment it is recorded of, where `pigment` is a variant of that.
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
    use: Use | None = None
    listings: tuple[Listing, ...] = ()
    as_base: str | None = None

    @property
    def label(self) -> str:
        """Whose it is, and whose row it is from: `PR108 light (as PR108)`."""
        return f"{self.pigment} (as {self.as_base})" if self.as_base else self.pigment

    def is_of_same_source(self, other: "Hazard") -> bool:
        """Whether another is recorded of the same pigment and agent, from its source."""
        return (self.pigment, self.agent, self.source, self.as_base) == (
            other.pigment, other.agent, other.source, other.as_base,
        )  # fmt: skip

    @property
    def never_use(self) -> bool:
        """Whether it says never to use the paint, for whatever work."""
        return self.use is Use.NEVER

    @property
    def needs_care(self) -> bool:
        """Whether `check` reports it: never to use, classified somewhere, or of a heavy metal."""
        classified = any(word != UNCLASSIFIED for word, _ in self._classed)
        return self.never_use or classified or bool(HEAVY_METALS.intersection(self.metals))

    @property
    def class_words(self) -> tuple[str, ...]:
        """Its hazard classes by any list, a question mark behind those of some grades or of a
        parent dye alone.
        """
        certain = {word for word, hedged in self._classed if not hedged}
        hedged = {word for word, _ in self._classed} - certain
        return tuple(sorted({*certain, *(f"{word}?" for word in hedged)}))

    @property
    def classes(self) -> frozenset[str]:
        """The hazard classes of its statements and listings together with its metals."""
        return frozenset(word for word, _ in self._classed) | frozenset(self.metals)

    @property
    def _classed(self) -> tuple[tuple[str, bool], ...]:
        """Each class of its statements and listings, and whether that one is hedged."""
        return (
            *((code.hazard_class, code.hedged) for code in self.codes),
            *((word, each.hedged) for each in self.listings for word in each.classes),
        )


def in_order(listings: Iterable[Listing]) -> tuple[Listing, ...]:
    """Listings in the order of `ListName`, those of one list by their entries."""
    lists = (*ListName,)
    return tuple(sorted(listings, key=lambda each: (lists.index(each.name), each.entry)))


def read_listing(text: str, statements: Mapping[str, tuple[str, str]]) -> Listing:
    """What a list says, as the tables write it: `IARC 2B`, `HCIS H350 H341 (group)`.

    Args:
        text: list, entry, and what it is about in brackets.
        statements: (hazard class, wording) of every statement on record, by code.

    Raises:
        BadInput: the list or its entry is not known.
    """
    spelled = " ".join(text.split())
    found = _LISTED.fullmatch(spelled)
    if found is None:
        msg = (
            f"listed {text!r} is not known; write a list ({', '.join(ListName)}), its entry, and "
            f"({' or '.join(Scope)}) where it is about that"
        )
        raise BadInput(msg)
    name, entry = ListName(found["name"]), found["entry"]
    scope = Scope(found["scope"]) if found["scope"] else None
    if name is ListName.HCIS:
        return Listing(name, entry, scope, _classes_of(entry, statements))
    if entry not in _ENTRIES[name]:
        msg = f"{name} has no entry {entry!r}; choose one of: {', '.join(_ENTRIES[name])}"
        raise BadInput(msg)
    hazard_class = _ENTRIES[name][entry]
    return Listing(name, entry, scope, (hazard_class,) if hazard_class else ())


def _classes_of(codes: str, statements: Mapping[str, tuple[str, str]]) -> tuple[str, ...]:
    """The classes of the statements that a national list gives, in their order, each once.

    Raises:
        BadInput: a code is none, or its statement is not on record.
    """
    classes = []
    for code in codes.split():
        found = _STATEMENT.fullmatch(code)
        known = found and (statements.get(code) or statements.get(found[1]))
        if not found or (not known and not code.startswith("AUH")):
            msg = f"hazard statement {code} is not in the table of GHS statements"
            raise BadInput(msg)
        if known:
            classes.append(known[0])
    return tuple(dict.fromkeys(classes))


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
