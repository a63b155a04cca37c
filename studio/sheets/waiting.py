"""A sign of life on standard error while something takes longer than a second."""

from collections.abc import Iterator
from contextlib import contextmanager
from threading import Timer

from rich.console import Console


@contextmanager
def waiting(doing: str, after: float = 1.0) -> Iterator[None]:
    """A turning sign with some words while the block lasts; nothing where nobody looks.

    Args:
        doing: what is done, as words behind the sign.
        after: from when on, s.
    """
    console = Console(stderr=True)
    if not console.is_terminal:
        yield
        return
    status = console.status(f"{doing} …")
    timer = Timer(after, status.start)
    timer.daemon = True
    timer.start()
    try:
        yield
    finally:
        timer.cancel()
        timer.join()
        status.stop()
