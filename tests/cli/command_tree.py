"""Every command of the program with its options."""

from collections.abc import Iterator
from typing import Any, Final

from typer.main import get_command

from studio.cli.app import build_app


def _walk(command: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Any]]:
    yield path, command
    for name, child in getattr(command, "commands", {}).items():
        yield from _walk(child, (*path, name))


EVERY: Final = dict(_walk(get_command(build_app())))
LEAVES: Final = [path for path, command in EVERY.items() if not hasattr(command, "commands")]
