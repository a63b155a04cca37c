"""Colours as people write them: CSS Color 4 and Munsell notation."""

import re
from typing import Final

from coloraide import Color

from studio.colour.lab import Lab

MUNSELL: Final = re.compile(
    r"^\s*(?:N\s*(?P<grey>\d+(?:\.\d+)?)\s*/?"
    r"|(?P<step>\d+(?:\.\d+)?)\s*(?P<hue>RP|YR|GY|BG|PB|R|Y|G|B|P)"
    r"\s*(?P<value>\d+(?:\.\d+)?)\s*/\s*(?P<chroma>\d+(?:\.\d+)?))\s*$",
    re.IGNORECASE,
)


def css_to_lab(text: str) -> Lab:
    """The Lab (D50, 2 degrees) of a CSS Color 4 colour, opaque.

    Args:
        text: `#b5843c`, `lab(62 12 30)`, `lch(62 32 68)`, `rgb(…)`, `tan`, …

    Raises:
        ValueError: it is no CSS colour, is transparent, or lies outside L* 0 to 100.
    """
    spelling = text.strip().lower()
    if spelling.startswith(("lab(", "lch(")):
        spelling = spelling.replace(",", " ")  # commas are how most people type three numbers
    try:
        colour = Color(spelling)
    except ValueError:
        msg = f"{text!r} is not a CSS colour"
        raise ValueError(msg) from None
    if colour.alpha(nans=False) < 1.0:
        msg = f"{text!r} is transparent; give an opaque colour"
        raise ValueError(msg)
    lightness, a, b = colour.convert("lab").coords(nans=False)
    if -1e-6 < lightness < 0.0 or 100.0 < lightness < 100.0 + 1e-6:  # noqa: PLR2004 - rounding
        lightness = min(100.0, max(0.0, lightness))
    return Lab(lightness, a, b)


def canonical_munsell(text: str) -> str | None:
    """A Munsell notation in its standard spelling, `5YR 6/4` or `N5/`; None when it is none."""
    found = MUNSELL.match(text)
    if found is None:
        return None
    if found["grey"] is not None:
        return f"N{float(found['grey']):g}/"
    return (
        f"{float(found['step']):g}{found['hue'].upper()} "
        f"{float(found['value']):g}/{float(found['chroma']):g}"
    )
