"""The standard streams, made so that no output can fail what a command records.

A terminal or a pipe that lacks a sign gets the nearest plain one. A reader that leaves, or a disk
that is full, is remembered and told of when the command is done, and not in the middle of it.
"""

import codecs
import errno
import os
import sys
import unicodedata
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from typing import Any, Final, TextIO, cast

PLAIN: Final = {
    "\N{MINUS SIGN}": "-",
    "\N{GREEK CAPITAL LETTER DELTA}": "d",
    "\N{DEGREE SIGN}": " deg",
    "\N{PLUS-MINUS SIGN}": "+/-",
    "\N{MULTIPLICATION SIGN}": "x",
    "\N{MIDDLE DOT}": "|",
    "\N{EN DASH}": "-",
    "\N{EM DASH}": "-",
    "\N{RIGHTWARDS ARROW}": "->",
    "\N{SQUARE ROOT}": "sqrt ",
    "\N{INFINITY}": "infinite",
    "\N{LEFT SINGLE QUOTATION MARK}": "'",
    "\N{RIGHT SINGLE QUOTATION MARK}": "'",
    "\N{LEFT DOUBLE QUOTATION MARK}": '"',
    "\N{RIGHT DOUBLE QUOTATION MARK}": '"',
    "\N{GREEK SMALL LETTER TAU}": "tau",
    "\N{GREEK SMALL LETTER RHO}": "rho",
    "\N{GREEK SMALL LETTER SIGMA}": "sigma",
    "\N{LATIN SMALL LETTER SHARP S}": "ss",
    "\N{LATIN SMALL LETTER AE}": "ae",
    "\N{LATIN CAPITAL LETTER AE}": "AE",
    "\N{LATIN SMALL LETTER O WITH STROKE}": "o",
    "\N{LATIN CAPITAL LETTER O WITH STROKE}": "O",
    "\N{LATIN SMALL LETTER L WITH STROKE}": "l",
    "\N{LATIN CAPITAL LETTER L WITH STROKE}": "L",
}
"""What stands for a sign that a stream cannot write, where its decomposition is not plain."""

_BLOCKS: Final = dict(zip("▁▂▃▄▅▆▇█", "._-=+*%#", strict=True))
"""Heights of a small curve."""

GONE: Final = frozenset(
    {errno.EPIPE, errno.ECONNRESET, errno.ENOTCONN, getattr(errno, "ESHUTDOWN", errno.EPIPE)}
)
"""What a stream says whose reader has left."""

NO_ROOM: Final = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EIO, errno.EFBIG})
"""What a file says that takes no more."""

_HANDLER: Final = "studio.plain"


def plain(text: str, encoding: str) -> str:
    """A text as an encoding can write it.

    A sign becomes the plain one that stands for it, else its parts without their marks, else its
    number as Python and JSON escape it, so that names stay apart.

    Args:
        text: any text.
        encoding: such as `ascii` or `cp1252`.
    """
    return "".join(_plain(sign, encoding) for sign in text)


def _plain(sign: str, encoding: str) -> str:
    stands = PLAIN.get(sign) or _BLOCKS.get(sign)
    if stands is None:
        parts = unicodedata.normalize("NFKD", sign)
        stands = "".join(part for part in parts if not unicodedata.combining(part))
        if "\N{FRACTION SLASH}" in stands:  # 1½ is not 11/2
            stands = " " + stands.replace("\N{FRACTION SLASH}", "/")
    for written in (sign, stands):
        try:
            written.encode(encoding)
        except UnicodeEncodeError:
            continue
        if written:
            return written
    return sign.encode("ascii", "backslashreplace").decode("ascii")


def _replace(error: UnicodeError) -> tuple[str | bytes, int]:
    """The handler of what a stream's encoding lacks."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    return plain(error.object[error.start : error.end], error.encoding), error.end


class Results:
    """A stream that takes all that is written, and keeps to itself why it was not passed on.

    Args:
        stream: where it goes, as long as that takes it.
        hide: takes a text and gives it without what nobody is to read.
    """

    def __init__(self, stream: TextIO, hide: Callable[[str], str] = str) -> None:
        self._stream = stream
        self.hide = hide
        self.failure: OSError | None = None

    def write(self, text: object) -> int:
        """Pass a text on; how many signs it has.

        Raises:
            TypeError: it is no text, by which typer finds out what a stream takes.
        """
        if not isinstance(text, str):
            msg = "a stream of text takes no bytes"
            raise TypeError(msg)
        if self.failure is None:
            try:
                self._stream.write(self.hide(text))
            except OSError as error:
                self.failure = error
        return len(text)

    def writelines(self, lines: Iterable[str]) -> None:
        """Pass lines on."""
        for line in lines:
            self.write(line)

    def flush(self) -> None:
        """Pass on what waits in between."""
        if self.failure is None:
            try:
                self._stream.flush()
            except OSError as error:
                self.failure = error

    def let_go(self) -> None:
        """Keep the interpreter from complaining of what was not passed on when it ends."""
        try:
            descriptor = self._stream.fileno()
        except (OSError, ValueError):  # a stream in memory
            return
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, descriptor)
        os.close(nowhere)

    def __getattr__(self, name: str) -> Any:  # noqa: ANN401 - whatever the stream has
        return getattr(self._stream, name)


@contextmanager
def guarded(hide: Callable[[str], str] = str) -> Iterator[tuple[Results, Results]]:
    """Standard output and standard error while a command runs, neither of which can fail it.

    Args:
        hide: what is done to a message before it is written.
    """
    codecs.register_error(_HANDLER, _replace)
    before = sys.stdout, sys.stderr
    results, messages = Results(_open_one(before[0])), Results(_open_one(before[1]), hide)
    sys.stdout, sys.stderr = cast("TextIO", results), cast("TextIO", messages)
    try:
        yield results, messages
    finally:
        sys.stdout, sys.stderr = before


def _open_one(stream: TextIO | None) -> TextIO:
    """A stream that writes what its encoding lacks in other signs; nowhere for a closed one."""
    if stream is None:
        return open(os.devnull, "w", encoding="utf-8")  # noqa: PTH123 - as long as we run
    reconfigure = getattr(stream, "reconfigure", None)
    if reconfigure is not None:
        reconfigure(errors=_HANDLER)
    return stream


def writes_every_sign(stream: TextIO) -> bool:
    """Whether a stream's encoding is one of Unicode, or the stream holds text as it is."""
    encoding = getattr(stream, "encoding", None)
    return encoding is None or codecs.lookup(encoding).name.startswith("utf")
