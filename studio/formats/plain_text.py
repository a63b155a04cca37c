"""Text of a measurement file: its encoding, its numbers, and names as people can print them."""

import codecs
import math
import re
import unicodedata
from typing import Final

from studio.formats.sample import UnreadableFile

_NUMBER: Final = re.compile(r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d{1,3})?", re.ASCII)
_CONTROL: Final = re.compile(r"[\x00-\x08\x0e-\x19\x1b-\x1f\x7f]")
_LONGEST_NAME: Final = 200


def decoded(content: bytes, file: str) -> str:
    """The text of a file in UTF-8, UTF-16 with its mark, or else Latin-1.

    Instruments write degree signs in Latin-1; in UTF-8 such a byte is an error, which tells them
    apart.

    Raises:
        UnreadableFile: it is empty, or holds bytes that no text has.
    """
    text: str | None = None
    if content.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        text = content.decode("utf-16", errors="replace")
    else:
        try:
            text = content.removeprefix(codecs.BOM_UTF8).decode("utf-8")
        except UnicodeDecodeError:
            text = content.decode("latin-1")
    if not text.strip():
        msg = f"{file} is empty; export the readings again"
        raise UnreadableFile(msg)
    if _CONTROL.search(text):
        msg = f"{file} is neither text nor XML nor a table; export the readings as one of these"
        raise UnreadableFile(msg)
    return text.replace("\x1a", "")


def number(text: str) -> float | None:
    """A finite number with a decimal point or comma; None where it is none."""
    spelled = text.strip()
    if not _NUMBER.fullmatch(spelled):
        return None
    value = float(spelled.replace(",", "."))
    return value if math.isfinite(value) else None


def printable(text: str) -> str:
    """A name without what cannot be printed, its white space folded, at most 200 characters."""
    plain = "".join(_plain(sign) for sign in text)
    return " ".join(plain.split())[:_LONGEST_NAME].strip()


def _plain(sign: str) -> str:
    if sign.isprintable() or sign.isspace():
        return sign
    return " " if unicodedata.category(sign) == "Cc" else ""


def listed(names: list[str], most: int = 8) -> str:
    """Some names in a sentence, the rest counted."""
    more = f" and {len(names) - most} more" if len(names) > most else ""
    return ", ".join(names[:most]) + more
