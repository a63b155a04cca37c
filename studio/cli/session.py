"""What every command shares: the database it works on, today, printing and asking."""

import json
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import typer

from studio.errors import BadInput

if TYPE_CHECKING:
    from rich.console import Console

    from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class Session:
    """Which studio a command line works on.

    Args:
        named: the database named by --db or STUDIO_DB.
        demo: the demo studio was asked for.
    """

    named: Path | None
    demo: bool

    @property
    def path(self) -> Path:
        """The database file."""
        from studio.storage.place import default_database, demo_database  # noqa: PLC0415

        if self.demo:
            return demo_database()
        return self.named if self.named is not None else default_database()


def reading(context: typer.Context) -> "UnitOfWork":
    """A unit of work for a command that only looks."""
    return _open(context, write=False)


def writing(context: typer.Context, *, create: bool = False) -> "UnitOfWork":
    """A unit of work for a command that records; with `create`, one that may be the first."""
    return _open(context, write=True, create=create)


def _open(context: typer.Context, *, write: bool, create: bool = False) -> "UnitOfWork":
    from studio.actions.open_studio import open_studio  # noqa: PLC0415

    session = session_of(context)
    if session.demo:
        from studio.actions.build_demo import build_demo  # noqa: PLC0415

        build_demo(session.path, today())
    return open_studio(session.path, write=write, create=create, now=now(), tell=tell)


def back_up_first(context: typer.Context, why: str) -> None:
    """A backup before a command that changes much; the demo studio has none."""
    from studio.actions.keep_backups import back_up_before  # noqa: PLC0415

    session = session_of(context)
    if session.demo:
        return
    made = back_up_before(session.path, why, now())
    if made is not None:
        tell(f"the studio as it was is kept at {made.path}")


def session_of(context: typer.Context) -> Session:
    """The session that the top command put into the context."""
    session = context.obj
    assert isinstance(session, Session)  # noqa: S101 - the callback of the app ran first
    return session


def now() -> datetime:
    """The moment, in local time."""
    return datetime.now().astimezone()


def today() -> date:
    """The day, in local time."""
    return now().date()


def console() -> "Console":
    """The terminal that results go to."""
    from studio.sheets.screen import console_for  # noqa: PLC0415

    return console_for(sys.stdout)


def tell(sentence: str) -> None:
    """A message for the user, beside the results."""
    print(f"studio: {sentence}", file=sys.stderr)


def print_json(value: Mapping[str, Any] | Sequence[Mapping[str, Any]]) -> None:
    """A result as JSON on standard output."""
    print(json.dumps(value, ensure_ascii=False, indent=2))


def asked(value: str | None, what: str, option: str) -> str:
    """A value, asked for at a terminal when it was not given.

    Raises:
        BadInput: it was not given, and there is nobody to ask.
    """
    if value is not None:
        return value
    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        msg = f"{what} is missing; give {option}"
        raise BadInput(msg)
    answer: str = typer.prompt(what[0].upper() + what[1:], err=True)
    return answer
