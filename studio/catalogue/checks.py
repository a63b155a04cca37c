"""Checks that several kinds of record share; each refusal is one sentence for the painter."""

import math
import re
from datetime import date
from enum import StrEnum
from typing import Final, TypeVar

from studio.errors import BadInput

_Word = TypeVar("_Word", bound=StrEnum)
_DAY: Final = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)


def text(value: str, what: str) -> str:
    """A text with its white space folded, never empty and at most 1,000 characters.

    Raises:
        BadInput: nothing is left, it is too long or it holds control characters.
    """
    folded = " ".join(value.split())
    if not folded:
        msg = f"{what} is empty; give it a few words"
        raise BadInput(msg)
    if len(folded) > 1000:  # noqa: PLR2004 - the database's own limit
        msg = f"{what} is longer than 1,000 characters; shorten it"
        raise BadInput(msg)
    if not folded.isprintable():
        msg = f"{what} holds characters that cannot be printed; type it again"
        raise BadInput(msg)
    return folded


def optional_text(value: str | None, what: str) -> str | None:
    """A text as `text` checks it, or None for nothing."""
    return text(value, what) if value and not value.isspace() else None


def word(value: str, words: type[_Word], what: str) -> _Word:
    """The word of a vocabulary that a value spells, whatever its case.

    Raises:
        BadInput: the vocabulary has no such word; the sentence lists those it has.
    """
    spelled = " ".join(value.lower().replace("_", " ").split())
    for known in words:
        if known.value.lower() == spelled:
            return known
    msg = f"{what} {value!r} is not known; choose one of: {', '.join(w.value for w in words)}"
    raise BadInput(msg)


def number(value: float, what: str, low: float, high: float, *, above: bool = False) -> float:
    """A finite number between two limits (the lower one excluded with `above`).

    Raises:
        BadInput: it is not; the sentence names the limits.
    """
    try:
        value = float(value)
    except OverflowError:  # a whole number of some hundred digits
        value = math.inf if value > 0 else -math.inf
    too_low = value <= low if above else value < low
    if not math.isfinite(value) or too_low or value > high:
        low_text, high_text = (f"{limit:.10g}" for limit in (low, high))
        edge = f"above {low_text}" if above else f"at least {low_text}"
        msg = f"{what} must be {edge} and at most {high_text}, not {value:g}"
        raise BadInput(msg)
    return value


def optional_number(
    value: float | None, what: str, low: float, high: float, *, above: bool = False
) -> float | None:
    """A number as `number` checks it, or None for nothing."""
    return None if value is None else number(value, what, low, high, above=above)


def past(day: date, today: date, what: str) -> date:
    """A day that is not in the future.

    Raises:
        BadInput: it is.
    """
    if day > today:
        msg = f"{what} {day.isoformat()} lies in the future; today is {today.isoformat()}"
        raise BadInput(msg)
    return day


def iso_date(value: str, what: str) -> date:
    """A date written as `2026-03-14`.

    Raises:
        BadInput: it is not written so, or there is no such day.
    """
    try:
        # fromisoformat alone also takes 20260314 and week dates, which are mostly slips here.
        return date.fromisoformat(value.strip() if _DAY.fullmatch(value.strip()) else "")
    except ValueError:
        msg = f"{what} {value!r} is not a date; write it as 2026-03-14"
        raise BadInput(msg) from None
