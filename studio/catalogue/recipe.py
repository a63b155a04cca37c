"""A recipe: paints and their parts, the same whatever the order or the scale it was typed in."""

import math
import re
import unicodedata
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from studio.errors import BadInput

LARGEST_PART: Final = 10_000
"""Parts are kept as the smallest whole numbers in their ratio; none may exceed this."""

_VULGAR: Final = re.compile("[¼-¾⅐-⅞]")
_TERM: Final = re.compile(
    r"(?P<amount>[-+]?(?:\d+\s+\d+\s*/\s*\d+|\d+\s*/\s*\d+|\d+(?:[.,]\d+)?|[.,]\d+))?"
    r"\s*(?:(?:parts?|drops?|x|×)\s+)?(?:of\s+)?(?P<name>.*)",
    re.IGNORECASE | re.DOTALL,
)


@dataclass(frozen=True, slots=True)
class Recipe:
    """Paint ids with whole parts, in the order they were first typed.

    Args:
        parts: (paint id, parts) pairs; parts are whole, above zero and without a common divisor.

    Raises:
        BadInput: there is no paint, a paint stands twice, or the parts are not in lowest terms.
    """

    parts: tuple[tuple[int, int], ...]

    def __post_init__(self) -> None:
        amounts = [amount for _, amount in self.parts]
        if not amounts or min(amounts) < 1 or math.gcd(*amounts) != 1:
            msg = "a recipe needs at least one paint, with whole parts in lowest terms"
            raise BadInput(msg)
        if len({paint for paint, _ in self.parts}) != len(amounts):
            msg = "a recipe names each paint once"
            raise BadInput(msg)

    @property
    def key(self) -> str:
        """One text for the same recipe in any order and scale, such as `3*2+7*1`."""
        return "+".join(f"{paint}*{parts}" for paint, parts in sorted(self.parts))

    @property
    def paints(self) -> frozenset[int]:
        """The ids of its paints."""
        return frozenset(paint for paint, _ in self.parts)


def read_terms(text: str) -> list[tuple[Fraction, str]]:
    """The (parts, name) pairs of a recipe as typed, such as `2 ultramarine + 1 burnt sienna`.

    Parts may be whole, decimal (`0.5`) or a fraction (`1/2`, `1 1/2`, `½`); none means one part.

    Raises:
        BadInput: a term has no name or its parts are not above zero.
    """
    terms = []
    for term in _VULGAR.sub(_spelled_out, text).split("+"):
        found = _TERM.fullmatch(term.strip())
        name = " ".join(found["name"].split()) if found else ""
        if found is None or not name:
            msg = f"recipe {text!r} is not clear; write it as: 2 ultramarine + 1 burnt sienna"
            raise BadInput(msg)
        terms.append((_amount(found["amount"], name), name))
    return terms


def _spelled_out(found: re.Match[str]) -> str:
    """½ as 1/2, parted from a whole number before it."""
    return " " + unicodedata.normalize("NFKC", found[0]).replace("\N{FRACTION SLASH}", "/")


def _amount(text: str | None, name: str) -> Fraction:
    """A typed amount as an exact fraction; none typed is 1."""
    if text is None:
        return Fraction(1)
    try:
        if text.isdecimal():  # nearly all are, and a table has very many
            amount = Fraction(int(text))
        else:
            amount = sum((Fraction(word) for word in _words(text)), Fraction(0))
    except ValueError:  # thousands of digits
        msg = f"the parts of {name} are too long a number; round them"
        raise BadInput(msg) from None
    except ZeroDivisionError:
        msg = f"{text} parts of {name} divide by zero; write a number above zero"
        raise BadInput(msg) from None
    if amount <= 0:
        msg = f"parts must be above zero; {name} has {text}"
        raise BadInput(msg)
    return amount


def _words(text: str) -> list[str]:
    return re.sub(r"\s*/\s*", "/", text.replace(",", ".")).split()


def in_lowest_terms(parts: Iterable[tuple[int, Fraction]]) -> Recipe:
    """The recipe of paint ids with exact amounts: amounts of one paint added, then reduced.

    Raises:
        BadInput: there is no paint, an amount is not above zero, or the ratio needs whole
            numbers above `LARGEST_PART`.
    """
    amounts: dict[int, Fraction] = {}
    for paint, amount in parts:
        amounts[paint] = amounts[paint] + amount if paint in amounts else amount
    if not amounts or min(amounts.values()) <= 0:
        msg = "a recipe needs at least one paint, with parts above zero"
        raise BadInput(msg)
    scale = math.lcm(*(amount.denominator for amount in amounts.values()))
    whole = [each.numerator * (scale // each.denominator) for each in amounts.values()]
    divisor = math.gcd(*whole)
    whole = [amount // divisor for amount in whole]
    if max(whole) > LARGEST_PART:
        msg = f"these parts make a ratio beyond 1:{LARGEST_PART}; round them"
        raise BadInput(msg)
    return Recipe(tuple(zip(amounts, whole, strict=True)))


def read_recipe(text: str, paint_id: Callable[[str], int]) -> Recipe:
    """The recipe that a text means, its names looked up by `paint_id`.

    Raises:
        BadInput: the text is no recipe.
        NotFound: a name fits no paint, or several (raised by `paint_id`).
    """
    return in_lowest_terms([(paint_id(name), amount) for amount, name in read_terms(text)])
