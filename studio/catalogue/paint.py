"""A paint as a maker sells it, with its stock and what its pigments bring."""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import Final

from studio.catalogue.data_sheet import DataSheet
from studio.catalogue.fade import FadeTest
from studio.catalogue.hazard import Hazard
from studio.catalogue.hazard_grade import gravest_first
from studio.catalogue.lightfastness import LightfastnessRating
from studio.catalogue.pigment import Pigment
from studio.catalogue.stock import Stock

SIENNA_OR_UMBER: Final = "PBr7"
"""A Colour Index name that siennas share with umbers, which hold much more manganese."""
NOT_RECORDED: Final = "pigments not recorded"
IN_NO_TABLE: Final = "in no table"
NOT_LOOKED_UP: Final = "not looked up"


class Form(StrEnum):
    """What a paint is sold in."""

    TUBE = "tube"
    PAN = "pan"
    HALF_PAN = "half pan"
    QUARTER_PAN = "quarter pan"
    JAR = "jar"
    BOTTLE = "bottle"
    STICK = "stick"


class Transparency(StrEnum):
    """How much of what lies below shows through."""

    TRANSPARENT = "transparent"
    SEMI_TRANSPARENT = "semi-transparent"
    SEMI_OPAQUE = "semi-opaque"
    OPAQUE = "opaque"


class Degree(StrEnum):
    """How strongly a paint stains or granulates."""

    NONE = "none"
    LOW = "low"
    MEDIUM = "medium"
    HIGH = "high"


class Status(StrEnum):
    """Whether a paint is on the shelf."""

    IN_USE = "in use"
    RETIRED = "retired"


@dataclass(frozen=True, slots=True)
class PaintFacts:
    """What its label says of a paint; all but the name may be unknown.

    Args:
        code: short code, such as FU.
        maker: who makes it.
        name: what the maker calls it.
        pigments: Colour Index names in the order of the label.
        form: tube, pan, …
        volume_ml: what a full one holds, ml.
        price: price of one.
        currency: ISO 4217 code of the price.
        transparency: by the label.
        staining: by the label.
        granulation: by the label.
        lot: batch number.
        status: in use or retired.
        low_at_ml: what is left when it counts as low, ml; None for a fifth of the volume.
        note: remarks.
    """

    code: str
    maker: str
    name: str
    pigments: tuple[str, ...] = ()
    form: Form = Form.TUBE
    volume_ml: float | None = None
    price: Decimal | None = None
    currency: str | None = None
    transparency: Transparency | None = None
    staining: Degree | None = None
    granulation: Degree | None = None
    lot: str | None = None
    status: Status = Status.IN_USE
    low_at_ml: float | None = None
    note: str | None = None

    @property
    def full_name(self) -> str:
        """Maker and name."""
        return f"{self.maker} {self.name}"


@dataclass(frozen=True, slots=True)
class Unread:
    """Something that nobody knows of a paint until its label and data sheet are read.

    Args:
        pigment: the pigment; None where the pigments are not recorded, or its label warns.
        why: in a few words, such as `not looked up`.
    """

    pigment: Pigment | None
    why: str

    @property
    def text(self) -> str:
        """Pigment and reason: `PB29 not looked up`."""
        return self.why if self.pigment is None else f"{self.pigment.label} {self.why}"


@dataclass(frozen=True, slots=True)
class Paint:
    """A recorded paint: its facts, its pigments with all that is known of them, its stock.

    Args:
        id: database id.
        facts: what its label says.
        pigments: in the order of the label.
        stock: what is left on the shelf, ml.
        data_sheet: what the owner keeps of its documents.
        fade_tests: the owner's own tests of it, oldest first.
    """

    id: int
    facts: PaintFacts
    pigments: tuple[Pigment, ...]
    stock: Stock
    data_sheet: DataSheet | None = None
    fade_tests: tuple[FadeTest, ...] = ()

    @property
    def in_stock(self) -> bool:
        """In use, and not known to be used up."""
        return self.facts.status is Status.IN_USE and self.stock.left != 0.0

    @property
    def low_at(self) -> float | None:
        """The amount (ml) at which it counts as low: its own, else a fifth of its volume."""
        if self.facts.low_at_ml is not None:
            return self.facts.low_at_ml
        return None if self.facts.volume_ml is None else self.facts.volume_ml / 5

    @property
    def is_low(self) -> bool:
        """In use and known to have no more left than its threshold."""
        low_at = self.low_at
        return (
            self.facts.status is Status.IN_USE
            and self.stock.left is not None
            and (self.stock.left == 0.0 or (low_at is not None and self.stock.left <= low_at))
        )

    @property
    def worst_known_rating(self) -> LightfastnessRating | None:
        """The worst rating of those of its pigments that have one."""
        return worst_of(pigment.worst_rating for pigment in self.pigments)

    @property
    def worst_rating(self) -> LightfastnessRating | None:
        """The worst rating of its pigments; None unless every pigment has one."""
        return None if self.unrated else self.worst_known_rating

    @property
    def contradicting(self) -> FadeTest | None:
        """The owner's test that has changed most beyond the published rating, if one has."""
        against = [test for test in self.fade_tests if test.contradicts(self.worst_known_rating)]
        return max(against, key=lambda test: test.worst.delta_e if test.worst else 0, default=None)

    @property
    def unrated(self) -> tuple[str, ...]:
        """Colour Index names of pigments without any rating."""
        return tuple(p.ci_name for p in self.pigments if p.worst_rating is None)

    @property
    def hazards(self) -> tuple[Hazard, ...]:
        """The cautions of all its pigments, the gravest first."""
        every = (hazard for pigment in self.pigments for hazard in pigment.hazards)
        return tuple(gravest_first(every))

    @property
    def cautions(self) -> tuple[Hazard, ...]:
        """Those of its pigments' hazards that ask for care."""
        return tuple(hazard for hazard in self.hazards if hazard.needs_care)

    @property
    def lacks_data(self) -> bool:
        """Its pigments are not recorded, or one of them is a name without data."""
        return not self.pigments or any(not pigment.has_data for pigment in self.pigments)

    @property
    def not_known(self) -> tuple[Unread, ...]:
        """What nobody knows of its hazards by the tables: pigments not recorded, in no table, or
        that nobody looked up.
        """
        if not self.pigments:
            return (Unread(None, NOT_RECORDED),)
        return tuple(
            Unread(pigment, NOT_LOOKED_UP if pigment.has_data else IN_NO_TABLE)
            for pigment in self.pigments
            if not pigment.has_data or pigment.is_not_looked_up
        )

    @property
    def nothing_found(self) -> tuple[Pigment, ...]:
        """Its pigments that were looked up and nothing found, which clears nothing."""
        return tuple(p for p in self.pigments if p.has_data and not p.hazards and p.looked_up)

    @property
    def unread(self) -> tuple[Unread, ...]:
        """What nobody knows of its hazards, and no label and data sheet on record tell.

        The owner has read both where their marks and their place are on record; a label that
        warns tells of a hazard, so the paint stays among these.
        """
        sheet, missing = self.data_sheet, self.not_known
        if not missing or sheet is None or not (sheet.is_read or sheet.warning):
            return missing
        if sheet.warning is not None:
            return (*missing, Unread(None, f"its label says {sheet.warning}"))
        return ()

    @property
    def never_use(self) -> tuple[Hazard, ...]:
        """Those of its pigments' hazards that say never to use it."""
        return tuple(hazard for hazard in self.hazards if hazard.never_use)

    @property
    def is_sienna_or_umber(self) -> bool:
        """Whether its label says PBr7 alone, which stands for siennas and for umbers."""
        return any(pigment.ci_name == SIENNA_OR_UMBER for pigment in self.pigments)

    @property
    def hazard_classes(self) -> frozenset[str]:
        """The hazard classes and metals of all its pigments."""
        return frozenset().union(*(hazard.classes for hazard in self.hazards))


def gravest_paints_first(paints: Iterable[Paint]) -> list[Paint]:
    """Paints in the order of their gravest caution; those without one keep their order behind."""
    every = list(paints)
    order = gravest_first(dict.fromkeys(paint.hazards[0] for paint in every if paint.hazards))
    return sorted(
        every, key=lambda paint: order.index(paint.hazards[0]) if paint.hazards else len(order)
    )


def never_text(paint: Paint) -> str:
    """That a paint is never to be used, and by which pigment: `Emerald is never to be used: PG21`.

    What says so stands in full in `studio care`.
    """
    pigments = dict.fromkeys(hazard.label for hazard in paint.never_use)
    return f"{paint.facts.name} is never to be used: {', '.join(pigments)}"


def worst_of(ratings: Iterable[LightfastnessRating | None]) -> LightfastnessRating | None:
    """The worst of ratings that each count for a pigment or paint of their own; None is passed."""
    known = (rating for rating in ratings if rating is not None)
    return max(known, key=lambda rating: rating.rank, default=None)
