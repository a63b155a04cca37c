"""The points to mind with some paints in a kind of work, and what each of them rests on."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from studio.catalogue.care import (
    NEVER,
    NOTHING_FOUND,
    OWNER_READ,
    PRACTICE,
    UNKNOWN,
    Work,
)
from studio.catalogue.care_general import GENERAL
from studio.catalogue.care_rules import AVOID_UNREAD, RULES, Rule
from studio.catalogue.hazard import METALS, UNCLASSIFIED, Basis, Hazard, HazardCode
from studio.catalogue.paint import NOT_RECORDED, Paint, Unread, gravest_paints_first

CODE_WORDS: Final = {
    "EUH014": "reacts with water",
    "EUH031": "toxic gas with acid",
    "EUH032": "toxic gas with acid",
    "EUH201": "contains lead",
    "EUH201A": "contains lead",
    "EUH207": "contains cadmium",
    "EUH211": "mist when sprayed",
    "EUH212": "dust when used",
}
"""Statements outside the hazard classes, in few words."""


@dataclass(frozen=True, slots=True)
class Ground:
    """What a point rests on: the marks of one hazard, or that there is no data.

    Args:
        pigment: Colour Index name; None where the pigments of a paint are not recorded.
        marks: metals, statement codes (`?` where only some grades carry one) and routes.
        words: the same for reading: metals, hazard classes and `CODE_WORDS`, else the routes or
            the codes; or that there are no data.
        basis: standing in the law; None without data.
        source: where the caution is from; None without data.
        verified_on: the day the owner confirmed the caution, None while unverified.
        as_base: the pigment that the caution is recorded of, for a variant of that.
    """

    pigment: str | None
    marks: tuple[str, ...]
    words: tuple[str, ...] = ()
    basis: Basis | None = None
    source: str | None = None
    verified_on: date | None = None
    as_base: str | None = None

    @property
    def label(self) -> str | None:
        """The pigment, and whose caution is shown for it."""
        return f"{self.pigment} (as {self.as_base})" if self.as_base else self.pigment

    @property
    def is_plain(self) -> bool:
        """Whether its words are routes or codes alone, neither metals nor classes."""
        said = {*self.marks, *CODE_WORDS.values()} - {*METALS}
        return all(word in said or word.rstrip("?") in said for word in self.words)

    @property
    def codes(self) -> tuple[str, ...]:
        """The marks that its words do not tell: codes, and routes beside metals or classes."""
        return tuple(each for each in self.marks if each not in self.words)

    @property
    def text(self) -> str:
        """Pigment and words, such as `PB28 cobalt, skin sensitiser?`."""
        nobody = "" if self.words else NOT_RECORDED
        return " ".join((self.label or nobody, ", ".join(self.words))).strip()


@dataclass(frozen=True, slots=True)
class Point:
    """Something to mind.

    Args:
        text: in a painter's words.
        source: where the advice is from; the grounds have sources of their own.
        avoid: whether the paints are better left out of this work.
        unread: whether it holds only until label and data sheet are read.
        never: whether the paints are never to be used.
        grounds: what it rests on; empty for what holds with every paint.
    """

    text: str
    source: str
    avoid: bool = False
    grounds: tuple[Ground, ...] = ()
    unread: bool = False
    never: bool = False


@dataclass(frozen=True, slots=True)
class Care:
    """What to mind in a kind of work.

    Args:
        work: the kind of work.
        points: of the paints at hand, what to avoid first.
        general: of every paint.
    """

    work: Work
    points: tuple[Point, ...]
    general: tuple[Point, ...]

    @property
    def avoid(self) -> bool:
        """Whether the paints are better left out of this work."""
        return any(point.avoid for point in self.points)

    @property
    def unread(self) -> bool:
        """Whether they are left out only until label and data sheet are read."""
        return self.avoid and all(point.unread for point in self.points if point.avoid)

    @property
    def never(self) -> bool:
        """Whether they are never to be used, whatever the work."""
        return any(point.never for point in self.points)

    @property
    def avoided_for(self) -> tuple[Ground, ...]:
        """What they are left out for, each once."""
        grounds = (ground for point in self.points if point.avoid for ground in point.grounds)
        return tuple(dict.fromkeys(grounds))


def care_of(paints: Iterable[Paint], work: Work) -> Care:
    """What to mind with some paints, such as those of a mix, in a kind of work."""
    ordered = gravest_paints_first(paints)
    found = [point for paint in ordered for point in paint_points(paint, work)]
    merged: dict[tuple[str, bool], Point] = {}
    for point in found:
        known = merged.setdefault((point.text, point.avoid), point)
        grounds = tuple(dict.fromkeys((*known.grounds, *point.grounds)))
        merged[point.text, point.avoid] = replace(known, grounds=grounds)
    return Care(
        work,
        tuple(sorted(merged.values(), key=lambda point: (not point.never, not point.avoid))),
        tuple(Point(text, source) for text, source in GENERAL[work]),
    )


def paint_points(paint: Paint, work: Work) -> list[Point]:
    """The points of one paint: of its hazards, and of what is not known of it."""
    points = [point for hazard in paint.hazards for point in hazard_points(hazard, work)]
    unread = paint.unread
    for each in unread:
        ground = _unread_ground(each, each.why)
        points.append(Point(UNKNOWN, PRACTICE, work in AVOID_UNREAD, (ground,), unread=True))
    if not unread:
        marks = paint.data_sheet.label_marks if paint.data_sheet else None
        for each in paint.not_known:
            ground = _unread_ground(each, f"{each.why}; label: {marks}")
            points.append(Point(OWNER_READ, PRACTICE, grounds=(ground,)))
    for pigment in paint.nothing_found:
        words = (f"looked up, nothing found: {pigment.looked_up}",)
        ground = Ground(pigment.ci_name, (), words, as_base=pigment.as_base)
        points.append(Point(NOTHING_FOUND, PRACTICE, grounds=(ground,)))
    return points


def _unread_ground(unread: Unread, words: str) -> Ground:
    pigment = unread.pigment
    if pigment is None:
        return Ground(None, (), (words,))
    return Ground(pigment.ci_name, (), (words,), as_base=pigment.as_base)


def hazard_points(hazard: Hazard, work: Work) -> list[Point]:
    """The points of one hazard; where no rule speaks of the work, its own summary stands."""
    if hazard.never_use:
        every = (*hazard.metals, *dict.fromkeys(claim.mark for claim in _claims(hazard)))
        ground = _ground(hazard, every or hazard.routes)
        return [Point(NEVER, hazard.source, avoid=True, grounds=(ground,), never=True)]
    points: list[Point] = []
    for rule in RULES:
        if work not in rule.works or (rule.milder and any(point.avoid for point in points)):
            continue
        marks = _marks(hazard, rule)
        if marks:
            points.append(Point(rule.text, rule.source, rule.avoid, (_ground(hazard, marks),)))
    if not points:
        codes = tuple(dict.fromkeys(claim.mark for claim in _claims(hazard)))
        marks = codes or hazard.routes or hazard.metals
        points.append(Point(hazard.summary, hazard.source, grounds=(_ground(hazard, marks),)))
    return points


def own_grounds(paints: Iterable[Paint], work: Work) -> tuple[Ground, ...]:
    """What there is to mind with some paints that may take part in the work, each once."""
    points = care_of(paints, work).points
    return tuple(dict.fromkeys(ground for point in points for ground in point.grounds))


@dataclass(frozen=True, slots=True)
class _Claim:
    """What a statement or a listing says: its mark, class, code, and the word for reading."""

    mark: str
    hazard_class: str
    code: str | None
    word: str | None
    hedged: bool


def _claims(hazard: Hazard) -> Iterator[_Claim]:
    for code in hazard.codes:
        mark = f"{code.code}?" if code.hedged else code.code
        yield _Claim(mark, code.hazard_class, code.code, _word(code), code.hedged)
    for listing in hazard.listings:
        for word in listing.classes:
            shown = None if word == UNCLASSIFIED else word
            yield _Claim(listing.text, word, None, shown, listing.hedged)


def _ground(hazard: Hazard, marks: tuple[str, ...]) -> Ground:
    """What a point rests on, its codes and listings in the words of their classes."""
    metals = [metal for metal in hazard.metals if metal in marks]
    claims = [claim for claim in _claims(hazard) if claim.mark in marks and claim.word is not None]
    certain = {claim.word for claim in claims if not claim.hedged}
    hedged = {claim.word for claim in claims} - certain
    words = (*metals, *sorted(filter(None, certain)), *sorted(f"{word}?" for word in hedged))
    routes = tuple(route for route in hazard.routes if route in marks)
    return Ground(
        hazard.pigment,
        marks,
        words or routes or marks,
        hazard.basis,
        hazard.source,
        hazard.verified_on,
        hazard.as_base,
    )


def _word(code: HazardCode) -> str | None:
    """The class of a statement; for one that classifies nothing, what it says, if in few words."""
    return CODE_WORDS.get(code.code) if code.hazard_class == UNCLASSIFIED else code.hazard_class


def _marks(hazard: Hazard, rule: Rule) -> tuple[str, ...]:
    """The metals, codes, listings and routes of a hazard that a rule asks for."""
    metals = [metal for metal in hazard.metals if metal in rule.metals]
    claims = [
        claim.mark
        for claim in _claims(hazard)
        if claim.code in rule.codes or claim.hazard_class in rule.classes
    ]
    routes = [route for route in hazard.routes if route in rule.routes]
    return (*metals, *dict.fromkeys(claims), *routes)
