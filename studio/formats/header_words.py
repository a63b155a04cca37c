"""What the free text of a file's header says: white, condition, backing and day."""

import re
from collections.abc import Iterable
from datetime import date
from typing import Final

from studio.catalogue.reading import Backing, Condition
from studio.colour.lab import ILLUMINANTS, OBSERVERS

_LIGHT: Final = r"(D\d{2}|FL?\d{1,2}(?:\.\d{1,2})?|HP\d|LED-[A-Z]{1,3}\d|ID\d{2}|[ABCE])"
_NAMED_LIGHT: Final = re.compile(
    rf"(?i:illumin[a-z]*(?:[\s_]*name)?)[\s=:,_/\"(]*{_LIGHT}(?![A-Za-z0-9])"
)
_DAYLIGHT: Final = re.compile(r"\b(D[5-7][05])(?![A-Za-z0-9])")
_NAMED_OBSERVER: Final = re.compile(
    r"observer[a-z]*(?:[\s_]*angle)?[\s=:,_/\"(]*(?:cie\s*)?(\d{1,4})", re.IGNORECASE
)
_DEGREES: Final = re.compile(r"\b(2|10)(?:[\s_-]*(?:°|deg))|\bD\d{2}\s*/\s*(2|10)\b", re.IGNORECASE)
_OBSERVER_OF: Final = {"2": 2, "10": 10, "1931": 2, "1964": 10}
_CONDITION: Final = re.compile(r"(?<![A-Z0-9])M[0-3](?![A-Z0-9])", re.IGNORECASE)
_UV_CUT: Final = re.compile(
    r"uv[\s_-]*(?:cut|excl|filter)|no[\s_-]*uv|filter[\s=:_]*uv", re.IGNORECASE
)
_POLARISED: Final = re.compile(r"(?<!un)polari[sz]|filter[\s=:_]*pol\b", re.IGNORECASE)
_MONTHS: Final = (
    "jan",
    "feb",
    "mar",
    "apr",
    "may",
    "jun",
    "jul",
    "aug",
    "sep",
    "oct",
    "nov",
    "dec",
)
_ISO: Final = re.compile(r"\b(\d{4})[-/](\d{1,2})[-/](\d{1,2})(?!\d)")
_NUMERIC: Final = re.compile(r"\b(\d{1,2})([./-])(\d{1,2})\2(\d{4})\b")
_MONTH_FIRST: Final = re.compile(r"\b([A-Za-z]{3})[a-z]*\.?\s+(\d{1,2}),?\s+(\d{4})\b")
_DAY_FIRST: Final = re.compile(r"\b(\d{1,2})\.?\s+([A-Za-z]{3})[a-z]*\.?,?\s+(\d{4})\b")


def illuminant_named(name: str) -> str | None:
    """The illuminant of a name such as `D65` or `F11`; None where CIE 15 has none of that name."""
    spelled = name.strip().upper()
    for known in (spelled, re.sub(r"^F(?=\d)", "FL", spelled)):
        if known in ILLUMINANTS:
            return known
    return None


def observer_named(name: str) -> int | None:
    """The observer of a text such as `2`, `10_Degree` or `1931`."""
    found = re.search(r"\d+", name)
    observer = _OBSERVER_OF.get(found[0]) if found else None
    return observer if observer in OBSERVERS else None


def white_in(texts: Iterable[str]) -> tuple[str | None, int | None]:
    """The illuminant and observer that some texts name, the first text first."""
    light: str | None = None
    observer: int | None = None
    for text in texts:
        found = _NAMED_LIGHT.search(text) or _DAYLIGHT.search(text)
        if light is None and found:
            light = illuminant_named(found[1])
        degrees = _NAMED_OBSERVER.search(text)
        if observer is None and degrees:
            observer = _OBSERVER_OF.get(degrees[1])
        angle = _DEGREES.search(text)
        if observer is None and angle:
            observer = _OBSERVER_OF.get(angle[1] or angle[2])
    return light, observer


def condition_in(text: str) -> Condition | None:
    """The ISO 13655 condition that a text names, or that its filter stands for.

    UV cut is M2, polarised is M3. No filter may be M0 or M1, so it says nothing.
    """
    found = _CONDITION.search(text)
    if found:
        return Condition(found[0].upper())
    if _POLARISED.search(text):
        return Condition.M3
    return Condition.M2 if _UV_CUT.search(text) else None


def backing_in(text: str) -> Backing | None:
    """What a text says lay under the sheet."""
    lowered = text.lower()
    for backing in Backing:
        if backing.value in lowered:
            return backing
    return None


def day_in(text: str) -> date | None:
    """The day that a text names; None where month and day could be either way round."""
    if found := _ISO.search(text):
        return _day(found[1], found[2], found[3])
    if found := _NUMERIC.search(text):
        first, sign, second, year = found.groups()
        if sign == "." or int(first) > 12 or first == second:  # noqa: PLR2004 - no such month
            return _day(year, second, first)
        return _day(year, first, second) if int(second) > 12 else None  # noqa: PLR2004
    if found := _MONTH_FIRST.search(text):
        return _day(found[3], found[1], found[2])
    if found := _DAY_FIRST.search(text):
        return _day(found[3], found[2], found[1])
    return None


def _day(year: str, month: str, day: str) -> date | None:
    if month.isdigit():
        number = int(month)
    elif month.lower() in _MONTHS:
        number = _MONTHS.index(month.lower()) + 1
    else:
        return None
    try:
        return date(int(year), number, int(day))
    except ValueError:
        return None
