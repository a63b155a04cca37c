"""Values as people type them on the command line: water, sizes, weights, recipes of Lab."""

import re
from collections.abc import Sequence
from datetime import date
from decimal import Decimal, InvalidOperation

from studio.cli.session import today
from studio.errors import BadInput

_NUMBER = r"(\d+(?:\.\d+)?)"


def water(text: str | None) -> float | None:
    """Water to paint: `3:1`, `3` or `3:2`.

    Raises:
        BadInput: it is written in another way.
    """
    if text is None:
        return None
    found = re.fullmatch(rf"\s*{_NUMBER}\s*(?::\s*{_NUMBER}\s*)?", text)
    if found is None or (found[2] is not None and float(found[2]) == 0):
        msg = f"water {text!r} is not clear; write parts of water to paint, such as 3:1"
        raise BadInput(msg)
    return float(found[1]) / float(found[2] or 1)


def sheet_size(text: str | None) -> tuple[float | None, float | None]:
    """Two sides of a sheet in mm: `560x760mm`, `56x76cm` or `22x30in`.

    Raises:
        BadInput: it is written in another way.
    """
    if text is None:
        return None, None
    found = re.fullmatch(rf"\s*{_NUMBER}\s*[x×*]\s*{_NUMBER}\s*(mm|cm|in)?\s*", text, re.IGNORECASE)
    if found is None:
        msg = f"size {text!r} is not clear; write it like 560x760mm, 56x76cm or 22x30in"
        raise BadInput(msg)
    scale = {"mm": 1.0, "cm": 10.0, "in": 25.4}[(found[3] or "mm").lower()]
    return round(float(found[1]) * scale, 3), round(float(found[2]) * scale, 3)


def paper_weight(text: str | None) -> float | None:
    """Weight of a paper in g/m²: `300`, `300gsm` or `140lb`.

    Raises:
        BadInput: it is written in another way.
    """
    if text is None:
        return None
    found = re.fullmatch(rf"\s*{_NUMBER}\s*(g/m2|g/m²|gsm|g|lb|lbs)?\s*", text, re.IGNORECASE)
    if found is None:
        msg = f"weight {text!r} is not clear; write it like 300gsm or 140lb"
        raise BadInput(msg)
    if (found[2] or "").lower().startswith("lb"):
        from studio.catalogue.paper import GSM_PER_POUND  # noqa: PLC0415

        return round(float(found[1]) * GSM_PER_POUND, 1)
    return float(found[1])


def lab_triple(text: str) -> tuple[float, float, float]:
    """L*, a*, b* as `41,2,-12`, `41 2 -12` or `lab(41 2 -12)`.

    Raises:
        BadInput: they are not three numbers.
    """
    inner = text.strip().removeprefix("lab").strip("() ")
    try:
        lightness, a, b = map(float, re.split(r"[\s,;]+", inner))
    except ValueError:
        msg = f"Lab {text!r} is not three numbers; write it like 41,2,-12"
        raise BadInput(msg) from None
    return lightness, a, b


def day(text: str | None) -> date:
    """A day as `2026-03-14`; today when none was given.

    Raises:
        BadInput: it is written in another way.
    """
    from studio.catalogue.checks import iso_date  # noqa: PLC0415

    return today() if text is None else iso_date(text, "the day")


def price(text: str | None) -> Decimal | None:
    """A price as `12.50`.

    Raises:
        BadInput: it is not a number.
    """
    if text is None:
        return None
    try:
        return Decimal(text.replace(",", "."))
    except InvalidOperation:
        msg = f"price {text!r} is not a number; write it like 12.50"
        raise BadInput(msg) from None


def pigment_names(texts: Sequence[str] | None) -> tuple[str, ...]:
    """Colour Index names, each option holding one or several: `PB29`, `PB29 PV19`, `PB29, PV19`."""
    return tuple(
        name for text in texts or () for name in re.split(r"[,;+]\s*|\s+(?=[PpNn])", text) if name
    )
