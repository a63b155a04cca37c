"""Terminals of every kind, and what was printed on them."""

import io
from collections.abc import Callable
from typing import Literal

import pytest
from rich.console import Console

ColorSystem = Literal["truecolor", "256", "standard"] | None
Terminal = Callable[..., Console]


@pytest.fixture
def terminal(monkeypatch: pytest.MonkeyPatch) -> Terminal:
    """`terminal("256", width=40)`: a terminal of so many colours; None is one without any."""
    for name in ("COLUMNS", "LINES", "NO_COLOR", "FORCE_COLOR", "COLORTERM", "TTY_COMPATIBLE"):
        monkeypatch.delenv(name, raising=False)

    def make(
        colours: ColorSystem = None, *, width: int = 80, no_color: bool | None = None
    ) -> Console:
        return Console(
            file=io.StringIO(),
            color_system=colours,
            force_terminal=colours is not None,
            no_color=no_color,
            width=width,
            highlight=False,
            markup=False,
            emoji=False,
        )

    return make


def printed(console: Console) -> str:
    """All that stands on a terminal of `terminal`."""
    assert isinstance(console.file, io.StringIO)
    return console.file.getvalue()
