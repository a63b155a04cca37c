"""Lightfastness ratings: one for each scale, medium and source, and the worst that counts."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Final

from studio.catalogue.evidence import Evidence
from studio.errors import BadInput

CATEGORIES: Final = ("I", "II", "III", "IV", "V")
"""ASTM D4303 categories, best first."""

WORDS: Final = {"I": "excellent", "II": "very good", "III": "fair", "IV": "poor", "V": "very poor"}
FUGITIVE: Final = "fugitive"
"""The trade's word for what D4303 calls very poor (common practice, no source)."""

FADING: Final = 3
"""From this category (III) on a paint is reported: paintings for sale want I or II (common
practice, no source)."""

# Usual correspondence of blue wool steps to D4303 categories: from memory, no part of D4303.
_BLUE_WOOL_RANK: Final = {8: 1, 7: 1, 6: 2, 5: 3, 4: 3, 3: 4, 2: 4, 1: 5}


class Scale(StrEnum):
    """A published scale of lightfastness."""

    ASTM_D4303 = "ASTM D4303"
    BLUE_WOOL = "blue wool"
    WORDS = "words"


@dataclass(frozen=True, slots=True)
class LightfastnessRating:
    """What one source says of a pigment's lightfastness in one medium.

    Args:
        pigment: Colour Index name.
        scale: the scale of the rating.
        rating: I to V for ASTM D4303; 1 to 8, or a range such as 3-6, for blue wool; in words one
            of D4303's, or fugitive, for what a source says without a scale.
        medium: the binder it was rated in, such as `watercolour`.
        year: year of the source, where known.
        source: where it is from.
        evidence: how well the source was seen.
        note: remarks.
        verified_on: the day the owner confirmed it, None while unverified.
        verified_from: what the owner confirmed it from, such as the tube's label.
        as_base: the pigment it is recorded of, where `pigment` is a variant of that.
    """

    pigment: str
    scale: Scale
    rating: str
    medium: str
    year: int | None
    source: str
    evidence: Evidence
    note: str | None = None
    verified_on: date | None = None
    verified_from: str | None = None
    as_base: str | None = None

    def __post_init__(self) -> None:
        rank_of(self.scale, self.rating)

    @property
    def label(self) -> str:
        """Whose it is, and whose row it is from: `PR108 light (as PR108)`."""
        return f"{self.pigment} (as {self.as_base})" if self.as_base else self.pigment

    def is_of_same_source(self, other: "LightfastnessRating") -> bool:
        """Whether another is recorded of the same pigment, on its scale, in its medium, from its
        source.
        """
        return (self.pigment, self.scale, self.medium, self.source, self.as_base) == (
            other.pigment, other.scale, other.medium, other.source, other.as_base,
        )  # fmt: skip

    @property
    def rank(self) -> int:
        """1 (category I) to 5 (V); a blue wool range counts by its lower end."""
        return rank_of(self.scale, self.rating)

    @property
    def category(self) -> str:
        """The D4303 category; for blue wool the one usually set beside it (from memory), for words
        the one of that word.
        """
        return CATEGORIES[self.rank - 1]


def rank_of(scale: Scale, rating: str) -> int:
    """1 (best) to 5 of a rating on a scale.

    Raises:
        BadInput: the scale has no such rating.
    """
    if scale is Scale.ASTM_D4303:
        return category_rank(rating)
    if scale is Scale.WORDS:
        ranks = {word: place for place, word in enumerate(WORDS.values(), start=1)}
        ranks[FUGITIVE] = len(CATEGORIES)
        if rating not in ranks:
            msg = f"lightfastness {rating!r} in words is not one of {', '.join(ranks)}"
            raise BadInput(msg)
        return ranks[rating]
    steps = re.fullmatch(r"([1-8])(?:-([1-8]))?", rating)
    if steps is None:
        msg = f"blue wool rating {rating!r} is not a step from 1 to 8 or a range such as 3-6"
        raise BadInput(msg)
    return _BLUE_WOOL_RANK[min(int(step) for step in steps.groups() if step)]


def spelled_rating(scale: Scale, rating: str) -> str:
    """A rating as its scale writes it: `iii` is III, `Very Poor` is very poor."""
    folded = " ".join(rating.split())
    return folded.lower() if scale is Scale.WORDS else folded.upper()


def category_rank(category: str) -> int:
    """1 to 5 of a D4303 category.

    Raises:
        BadInput: it is none of I, II, III, IV, V.
    """
    try:
        return CATEGORIES.index(category.strip().upper()) + 1
    except ValueError:
        msg = f"lightfastness {category!r} is not one of {', '.join(CATEGORIES)}"
        raise BadInput(msg) from None


def worst(ratings: Iterable[LightfastnessRating]) -> LightfastnessRating | None:
    """The rating that counts for a watercolour painter: the worst of all sources.

    Ratings in watercolour decide; those in another medium only where there are no others. Of equal
    ones a verified rating is named before an unverified one.
    """
    every = list(ratings)
    relevant = [rating for rating in every if rating.medium == "watercolour"] or every
    return max(
        relevant, key=lambda rating: (rating.rank, rating.verified_on is not None), default=None
    )
