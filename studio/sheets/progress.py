"""A bar for work that takes more than a moment, on standard error."""

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final, TextIO

from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn

from studio.sheets.screen import console_for

PATIENCE: Final = 1.0
"""Seconds before the bar is shown."""


@contextmanager
def progress_bar(
    stream: TextIO, what: str, clock: Callable[[], float] = time.monotonic
) -> Iterator[Callable[[float], None]]:
    """A function that is told which share of some work is done, 0 to 1.

    The bar is shown at a terminal alone, from one second on, and goes when the work is done.

    Args:
        stream: where it is shown.
        what: what is being done.
        clock: seconds.
    """
    console = console_for(stream)
    bar = Progress(
        TextColumn("{task.description}"),
        BarColumn(),
        TimeElapsedColumn(),
        console=console,
        transient=True,
        disable=not console.is_terminal,
    )
    task = bar.add_task(what, total=1.0)
    began, shown = clock(), False

    def tell(share: float) -> None:
        nonlocal shown
        if not shown and clock() - began > PATIENCE:
            bar.start()
            shown = True
        bar.update(task, completed=share)

    try:
        yield tell
    finally:
        if shown:
            bar.stop()
