"""A fence around a folder: nothing outside of it is written, even by a program that would."""

import errno
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, Final

_CHANGES: Final = {
    "os.rename": 2, "os.link": 2, "os.symlink": 2, "os.mkdir": 1, "os.rmdir": 1, "os.remove": 1,
    "os.chmod": 1, "os.chown": 1, "os.truncate": 1, "shutil.rmtree": 1,
}  # fmt: skip
"""Events of changes, and how many paths they name first."""

_WRITING: Final = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND
_SINKS: Final = {"/dev/null", "/dev/full", "/dev/zero"}
"""Devices that may be written to, as that changes nothing."""


class _Fence:
    folder: str | None = None
    installed = False


def _outside(path: object) -> bool:
    if not isinstance(path, (str, bytes, os.PathLike)):
        return False
    whole = os.path.realpath(os.fsdecode(path))
    return os.path.commonpath([whole, str(_Fence.folder)]) != _Fence.folder


def _hook(event: str, about: tuple[Any, ...]) -> None:
    if _Fence.folder is None:
        return
    if event == "open":
        path, flags = about[0], about[2]
        if not isinstance(flags, int) or not flags & _WRITING or path in _SINKS:
            return
        paths = about[:1]
    elif event in _CHANGES:
        if event != "os.truncate" and about[-1] not in {-1, None}:
            return  # relative to an open folder: a step of shutil.rmtree, which was looked at whole
        paths = about[: _CHANGES[event]]
    else:
        return
    for path in paths:
        if _outside(path):
            raise PermissionError(errno.EACCES, "Permission denied", os.fsdecode(path))


@contextmanager
def fenced(folder: Path) -> Iterator[None]:
    """Refuse whatever Python code of the block would write outside a folder, as a system would.

    The proofs give paths that nobody should, and may be run by somebody who may write anywhere.
    """
    if not _Fence.installed:
        sys.addaudithook(_hook)
        _Fence.installed = True
    _Fence.folder = os.path.realpath(folder)
    try:
        yield
    finally:
        _Fence.folder = None
