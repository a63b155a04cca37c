"""Files that were whole, as hypothesis damages them."""

from typing import Final

from hypothesis import strategies as st

_PIECES: Final = (
    b"", b"\x00", b"\xff", b"<", b"'", b'"', b"\n", b"\r", b",", b";", b"-", b"nan", b"inf",
    b"1e400", b"\\N", b"\xef\xbb\xbf", b"\xff\xfe", b"&a;", b"<!DOCTYPE a>", b"../..",
    b"/dev/zero", b"[red]", b"\x1b[2J", "\u202e".encode(), b"9" * 400, b"mud" * 4000,
    b"2999-01-01", b"0", b"-1",
)  # fmt: skip


@st.composite
def damaged(draw: st.DrawFn, whole: bytes) -> bytes:
    """A file with bytes flipped, lines doubled or lost, cells swapped, pieces put in, or cut."""
    content = whole
    for _ in range(draw(st.integers(1, 3))):
        content = _HARM[draw(st.sampled_from(sorted(_HARM)))](draw, content)
    return content


def _flip(draw: st.DrawFn, content: bytes) -> bytes:
    if not content:
        return b"\x01"
    at = draw(st.integers(0, len(content) - 1))
    return content[:at] + bytes([content[at] ^ (1 << draw(st.integers(0, 7)))]) + content[at + 1 :]


def _line(draw: st.DrawFn, content: bytes) -> bytes:
    lines = content.splitlines(keepends=True)
    if not lines:
        return content
    at = draw(st.integers(0, len(lines) - 1))
    return b"".join([*lines[:at], lines[at] * draw(st.sampled_from((0, 2, 3))), *lines[at + 1 :]])


def _cells(draw: st.DrawFn, content: bytes) -> bytes:
    sign = b"\t" if content.count(b"\t") > content.count(b",") else b","
    lines = content.splitlines(keepends=True)
    if not lines:
        return content
    at = draw(st.integers(0, len(lines) - 1))
    cells = lines[at].split(sign)
    one, other = draw(st.integers(0, len(cells) - 1)), draw(st.integers(0, len(cells) - 1))
    cells[one], cells[other] = cells[other], cells[one]
    return b"".join([*lines[:at], sign.join(cells), *lines[at + 1 :]])


def _piece(draw: st.DrawFn, content: bytes) -> bytes:
    at = draw(st.integers(0, len(content)))
    lost = draw(st.sampled_from((0, 1, 7, 40)))
    return content[:at] + draw(st.sampled_from(_PIECES)) + content[at + lost :]


def _cut(draw: st.DrawFn, content: bytes) -> bytes:
    return content[: draw(st.integers(0, len(content)))]


_HARM: Final = {"flip": _flip, "line": _line, "cells": _cells, "piece": _piece, "cut": _cut}
