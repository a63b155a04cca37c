"""What every command shares: the database it works on, today, printing and asking."""

import json
import re
import shutil
import sys
import textwrap
import unicodedata
from collections.abc import Callable, Mapping, Sequence
from contextvars import ContextVar
from dataclasses import dataclass
from datetime import date, datetime
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import typer

from studio.cli.streams import writes_every_sign
from studio.errors import BadInput, NotFound

if TYPE_CHECKING:
    from rich.console import Console

    from studio.catalogue.history import Doing
    from studio.storage.address import Database
    from studio.storage.unit_of_work import UnitOfWork

_TOLD: Final = frozenset({"Cc", "Cf", "Co", "Cn", "Zl", "Zp"})
"""What is no sign to print (halves of surrogate pairs aside: the stream writes them so)."""

_NEXT_STEPS: Final = frozenset({"next", "begin_anew", "mend"})
"""Names of JSON fields that hold a command to give next."""

_given: ContextVar[tuple[str, ...]] = ContextVar("_given", default=())
"""What stood before the command and says which studio it works on, such as `--demo`."""


@dataclass(frozen=True, slots=True)
class Session:
    """Which studio a command line works on.

    Args:
        named: the file or address named by --db or STUDIO_DB.
        demo: the demo studio was asked for.
        words: the words after `studio`, as they were typed.
    """

    named: str | None
    demo: bool
    words: tuple[str, ...] = ()

    @property
    def database(self) -> "Database":
        """The database, a file or a server's.

        Raises:
            BadInput: the address cannot be understood.
        """
        from studio.storage.address import database_at  # noqa: PLC0415
        from studio.storage.place import default_database, demo_database  # noqa: PLC0415

        if self.demo:
            return demo_database()
        return default_database() if self.named is None else database_at(self.named)

    @property
    def path(self) -> Path:
        """The database file, for what can be done with a file alone.

        Raises:
            BadInput: the studio lies on a server.
        """
        from studio.storage.address import file_of  # noqa: PLC0415

        return file_of(self.database)


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

        build_demo(session.database, today())
    doing = _doing(session) if write else None
    work = open_studio(
        session.database, write=write, create=create, now=now(), tell=tell, doing=doing
    )
    if write:
        _opened.append(work)
    return work


_opened: "list[UnitOfWork]" = []
"""What commands of this process opened to record something."""


def recorded() -> bool:
    """Whether anything was recorded since this was last asked."""
    kept = any(work.kept for work in _opened)
    _opened.clear()
    return kept


def _doing(session: Session) -> "Doing":
    """What the history will tell: the command with its words, without what stands before it."""
    import shlex  # noqa: PLC0415 - only commands that record

    from studio.catalogue.history import Doing  # noqa: PLC0415
    from studio.storage.address import word_without_password  # noqa: PLC0415
    from studio.storage.recorder import login_name  # noqa: PLC0415

    words = list(session.words)
    while words and words[0].startswith("-"):
        del words[: 2 if words[0] == "--db" else 1]
    told = shlex.join(map(word_without_password, words)) or "studio"
    return Doing(told, login_name(), now())


def back_up_first(context: typer.Context, why: str) -> None:
    """A backup before a command that changes much; the demo studio and a server have none."""
    from studio.actions.keep_backups import back_up_before  # noqa: PLC0415

    session = session_of(context)
    database = session.database
    if session.demo or not isinstance(database, Path):
        return  # a server's backups are its administrator's
    made = back_up_before(database, why, now())
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


def remember_studio(words: Sequence[str]) -> None:
    """Remember how a command line says which studio it works on, for the next steps it prints.

    Args:
        words: what was typed after `studio`. A studio that STUDIO_DB names needs no words.
    """
    kept: list[str] = []
    rest = list(words)
    while rest and rest[0].startswith("-"):
        count = 2 if rest[0] == "--db" else 1
        if rest[0] in {"--db", "--demo"} or rest[0].startswith("--db="):
            kept += rest[:count]
        del rest[:count]
    _given.set(tuple(kept))


def as_given(text: str) -> str:
    """A text with its next steps as they work on this studio: `studio --demo check`."""
    given = _given.get()
    if not given or "studio " not in text:
        return text
    import shlex  # noqa: PLC0415 - only where there is a next step

    from studio.storage.address import word_without_password  # noqa: PLC0415

    named = shlex.join(map(word_without_password, given))
    return _next_step().sub(lambda found: f"{found[0]}{named} ", text)


@cache
def _next_step() -> re.Pattern[str]:
    """`studio` before a command, where one is told to give it: not in a title or a note."""
    from studio.cli.app import COMMANDS  # noqa: PLC0415 - loaded by whoever runs a command

    names = "|".join(map(re.escape, sorted(COMMANDS.keys() - {"demo"})))
    before = r"(?:^|(?<=[:;,] )|(?<=[('\"`])|(?<=\bsee )|(?<=\bwith )|(?<=\bor ))"
    return re.compile(rf"{before}studio (?=(?:{names})\b)")


def console(*, demo: bool = False) -> "Console":
    """The terminal that results go to; next steps name the studio, here or always the demo."""
    from studio.sheets.screen import console_for  # noqa: PLC0415

    if demo:
        _given.set(("--demo",))
    return console_for(sys.stdout, as_given)


def answer(sentence: str) -> None:
    """A result of one line, on standard output."""
    print(as_given(sentence))


def tell(sentence: str) -> None:
    """A message for the user, beside the results; a terminal gets it broken between words.

    Names of files may hold line breaks and what steers a terminal; they are told, not done.
    """
    # What is hidden must be found before it is broken between words.
    hide = getattr(sys.stderr, "hide", str)
    line = "studio: " + "".join(
        repr(sign)[1:-1] if unicodedata.category(sign) in _TOLD else sign
        for sign in hide(as_given(sentence))
    )
    if sys.stderr is not None and sys.stderr.isatty():
        columns = shutil.get_terminal_size().columns
        line = textwrap.fill(line, columns, break_long_words=False, break_on_hyphens=False)
    print(line, file=sys.stderr)


def print_json(value: Mapping[str, Any] | Sequence[Mapping[str, Any]]) -> None:
    """A result as JSON on standard output."""
    ascii_only = not writes_every_sign(sys.stdout)
    said = _with_next_steps(value) if _given.get() else value
    print(json.dumps(said, ensure_ascii=ascii_only, indent=2))


def _with_next_steps(value: Any) -> Any:  # noqa: ANN401 - whatever JSON holds
    """The same JSON, its commands to give next as they work on this studio."""
    if isinstance(value, Mapping):
        return {
            name: as_given(each)
            if name in _NEXT_STEPS and isinstance(each, str)
            else _with_next_steps(each)
            for name, each in value.items()
        }
    if isinstance(value, list | tuple):
        return [_with_next_steps(each) for each in value]
    return value


def can_ask() -> bool:
    """Whether somebody sits at the terminal who can be asked."""
    return sys.stdin.isatty() and sys.stderr.isatty()


def asked(
    value: str | None, what: str, option: str, check: Callable[[str], object] | None = None
) -> str:
    """A value, asked for at a terminal when it was not given.

    Args:
        value: as it was given.
        what: names the value.
        option: how it is given on the command line.
        check: raises where an answer will not do; then it is said why, and asked for again, so
            that what was answered before is kept.

    Raises:
        BadInput: it was not given, and there is nobody to ask.
    """
    if value is not None:
        return value
    if not can_ask():
        msg = f"{what} is missing; give {option}"
        raise BadInput(msg)
    while True:
        answer: str = typer.prompt(what[0].upper() + what[1:], err=True)
        try:
            if check is not None:
                check(answer)
        except (BadInput, NotFound) as error:
            tell(str(error))
        else:
            return answer
