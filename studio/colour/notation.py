"""Colours as people write them: CSS Color 4 and Munsell notation."""

import math
import re
from typing import Final

from studio.colour.difference import Triple
from studio.colour.lab import Lab
from studio.colour.srgb import srgb_to_lab

_ROUNDING: Final = 1e-6

MUNSELL: Final = re.compile(
    r"^\s*(?:N\s*(?P<grey>\d+(?:\.\d+)?)\s*/?"
    r"|(?P<step>\d+(?:\.\d+)?)\s*(?P<hue>RP|YR|GY|BG|PB|R|Y|G|B|P)"
    r"\s*(?P<value>\d+(?:\.\d+)?)\s*/\s*(?P<chroma>\d+(?:\.\d+)?))\s*$",
    re.IGNORECASE,
)


_HEX: Final = re.compile(r"#(?:[0-9a-f]{3}|[0-9a-f]{6})|[0-9a-f]{6}")
"""Six digits may stand without their sign, which a shell takes for a comment."""
_PLAIN: Final = re.compile(
    r"(?P<space>lab|lch)\(\s*" + r"\s+".join([r"([-+]?[\d.]+)"] * 3) + r"\s*\)"
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
    lightness, a, b = _plain(spelling) or _any_css(spelling, text)
    if -_ROUNDING < lightness < 0.0 or 100.0 < lightness < 100.0 + _ROUNDING:  # noqa: PLR2004
        lightness = min(100.0, max(0.0, lightness))
    return Lab(lightness, a, b)


def _plain(spelling: str) -> Triple | None:
    """The forms that painters type most, without the library; None for every other."""
    if _HEX.fullmatch(spelling):
        digits = spelling.lstrip("#")
        if len(digits) == 3:  # noqa: PLR2004 - one digit a channel
            digits = "".join(2 * digit for digit in digits)
        red, green, blue = (int(digits[place : place + 2], 16) / 255.0 for place in (0, 2, 4))
        return srgb_to_lab((red, green, blue))
    found = _PLAIN.fullmatch(spelling)
    if found is None:
        return None
    try:
        first, second, third = map(float, found.groups()[1:])
    except ValueError:
        return None
    if found["space"] == "lab":
        return first, second, third
    hue, chroma = math.radians(third), max(0.0, second)
    return first, chroma * math.cos(hue), chroma * math.sin(hue)


def _any_css(spelling: str, text: str) -> Triple:
    """Every other CSS Color 4 form, by coloraide, which takes a fifth of a second to load."""
    from coloraide import Color  # noqa: PLC0415

    msg = f"{text!r} is not a CSS colour"
    try:
        colour = Color(spelling)
        finite = all(map(math.isfinite, colour.coords(nans=False)))
        lightness, a, b = colour.convert("lab").coords(nans=False) if finite else (math.nan,) * 3
    except (ValueError, OverflowError):
        raise ValueError(msg) from None
    if not finite:
        raise ValueError(msg)
    if colour.alpha(nans=False) < 1.0:
        msg = f"{text!r} is transparent; give an opaque colour"
        raise ValueError(msg)
    return lightness, a, b


def css_names() -> tuple[str, ...]:
    """The named colours of CSS Color 4, such as `tan`."""
    from coloraide.css.color_names import name2val_map  # noqa: PLC0415

    return tuple(name for name in name2val_map if name != "transparent")


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
