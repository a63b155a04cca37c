"""How grave a hazard is, in three grades whose rules are data: grave is said before mild.

A grade orders what is shown and how loudly; it is no verdict. Every grade defers to label and data
sheet, and what nobody looked up has no grade at all.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from studio.catalogue.care import PRACTICE
from studio.catalogue.hazard import UNCLASSIFIED, Hazard, ListName, Scope


class Grade(StrEnum):
    """How grave a hazard is, the gravest first."""

    GRAVE = "grave"
    MIDDLE = "middle"
    MILD = "mild"


class Sureness(StrEnum):
    """How surely a class is stated of the substance itself, the surest first."""

    CERTAIN = "certain"
    POSSIBLE = "possible"
    HEDGED = "hedged"


LASTING: Final = frozenset({"carcinogen", "mutagen", "reproductive toxicity"})
"""Harm that cannot be undone and shows years later: the EU's CMR, whatever the category."""
POISONS: Final = frozenset({"lead", "mercury", "arsenic", "chromate", "cadmium"})
"""Metals that gather in the body or cause cancer, whose pigments have that harm however bound."""
DUST: Final = frozenset({"breathing dust", "breathing mist"})
"""Ways of harm that paint has only when it is dry, or in the air."""


@dataclass(frozen=True, slots=True)
class GradeRule:
    """What puts a hazard into a grade; the first rule that fits decides.

    Args:
        grade: which.
        text: the rule, in words.
        never: whether a hazard that says never to use the paint fits.
        metals: of `METALS`; one of these fits.
        classes: hazard classes; empty for any that classifies something.
        sureness: the least sure that such a class may be.
        source: where the rule is from.
    """

    grade: Grade
    text: str
    never: bool = False
    metals: frozenset[str] = frozenset()
    classes: frozenset[str] | None = frozenset()
    sureness: Sureness = Sureness.CERTAIN
    source: str = PRACTICE


RULES: Final = (
    GradeRule(
        Grade.GRAVE,
        "it says never to use the paint, or it holds lead, mercury, arsenic, chromate or cadmium",
        never=True,
        metals=POISONS,
    ),
    GradeRule(
        Grade.GRAVE,
        "the EU, or a list about the substance itself, calls it a carcinogen, a mutagen or toxic "
        "to reproduction",
        classes=LASTING,
    ),
    GradeRule(
        Grade.MIDDLE,
        "some grades, a list that calls it possible, or its group are called so",
        classes=LASTING,
        sureness=Sureness.POSSIBLE,
    ),
    GradeRule(
        Grade.MIDDLE,
        "any other class is stated of it without a doubt",
        classes=None,
    ),
    GradeRule(
        Grade.MILD,
        "all else: what only some grades carry, what a list says of a parent dye, a metal of which "
        "no class is stated, or ways of harm alone",
        classes=None,
        sureness=Sureness.HEDGED,
    ),
)
"""The rules, the gravest first. Why each stands where it does:

1. Advice never to use a paint outweighs every doubt, and these five metals poison in whatever
   compound (Center for Safety in the Arts names them one by one).
2. Such harm is not undone by washing one's hands. HCIS counts like the EU's list, as it is the law
   of a country; IARC's group 2B does not, as it says "possibly".
3. A doubt takes one grade off such harm and no more. What is breathed as dust alone, such as carbon
   black, is a doubt for wet paint unless the EU's own list states it.
4. An acute poison, an irritant or what harms water is stated, but passes or is kept off.
5. What is left is hedged. It is shown by a mark, since words as loud as those of lead chromate
   would hide that one. Mild is never said of a pigment that nobody looked up: there is nothing to
   grade.
"""


def grade_of(hazard: Hazard) -> Grade:
    """The grade of a hazard, by the first rule that fits."""
    return rule_of(hazard).grade


def rule_of(hazard: Hazard) -> GradeRule:
    """The rule that decides the grade of a hazard."""
    stated = list(_stated(hazard))
    return next(
        (rule for rule in RULES if _fits(rule, hazard, stated)),
        RULES[-1],
    )


def gravest_first(hazards: Iterable[Hazard]) -> list[Hazard]:
    """Hazards in the order of their grades, those that say never to use the paint first of all."""
    order = list(Grade)
    return sorted(hazards, key=lambda each: (not each.never_use, order.index(grade_of(each))))


def _fits(rule: GradeRule, hazard: Hazard, stated: Iterable[tuple[str, Sureness]]) -> bool:
    if (rule.never and hazard.never_use) or rule.metals.intersection(hazard.metals):
        return True
    order = list(Sureness)
    return any(
        (rule.classes is None or word in rule.classes)
        and order.index(sure) <= order.index(rule.sureness)
        for word, sure in stated
    )


def _stated(hazard: Hazard) -> Iterator[tuple[str, Sureness]]:
    """Each class that is stated of a hazard, and how surely."""
    dust_alone = bool(hazard.routes) and DUST.issuperset(hazard.routes)
    for code in hazard.codes:
        if code.hazard_class != UNCLASSIFIED:
            lasting = code.hazard_class in LASTING
            doubt = Sureness.POSSIBLE if lasting else Sureness.HEDGED
            yield code.hazard_class, doubt if code.hedged else Sureness.CERTAIN
    for listing in hazard.listings:
        possible = listing.scope is Scope.GROUP or (
            listing.name is ListName.IARC and listing.entry == "2B"
        )
        for word in listing.classes:
            if listing.hedged:
                yield word, Sureness.HEDGED
            elif possible or (dust_alone and word in LASTING):
                yield word, Sureness.POSSIBLE
            else:
                yield word, Sureness.CERTAIN
