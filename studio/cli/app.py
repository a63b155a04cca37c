"""The `studio` command as a whole, and the one place that turns errors into exit statuses."""

import os
import sys
from collections.abc import Callable, Collection, Sequence
from importlib import import_module
from typing import Annotated, Final

import typer
from typer.exceptions import TyperException
from typer.main import get_command

from studio import __version__
from studio.cli.session import Session, recorded, remember_studio, tell
from studio.cli.streams import GONE, NO_ROOM, guarded
from studio.errors import ExitStatus, StudioError

TOUR = """The swatch, mix and paint memory of a watercolour painter.

\b
A look at an invented studio:
  studio demo
\b
Your own, day by day:
  studio paint add, studio paper add        what you own
  studio swatch log "2 FU + 1 BS" --lab 41,2,-12
                                            a test patch, just read
  studio match "#6b7a5e"                    a new colour: mixed before?
  studio formulate "#6b7a5e"                if not: what to mix, predicted
  studio adjust S12                         a patch not yet right: add what?
  studio target pick creek.jpg --at 40%,62% the colour of that place
  studio painting start "low water"         its passages, tests and mixes
  studio painting plan P1                   its mixes, from the fewest paints
  studio stock weigh ultramarine 21.4       what is left, by the scale
  studio care ultramarine --for spatter     what to avoid, what to use instead
  studio check                              what is low, fades, needs care

Paints, papers and mixes are named by their short code or by any part of their name that fits only
one. Every list, show, report, match, check and care takes --json. Results go to standard output,
messages to standard error; README.md lists the exit statuses and the JSON names.
"""

COMMANDS: Final = {
    "demo": ("demo", "Build an invented studio in a folder of its own, and use it."),
    "match": ("match", "Find the past mixes nearest a colour, by CIEDE2000."),
    "formulate": ("formulate", "Predict recipes for a colour from your own swatches."),
    "adjust": ("adjust", "Say what to add to a test patch that is not yet right."),
    "trust": ("trust", "Show how far predictions can be trusted, from your own mixes."),
    "target": ("target", "Targets: colours to match, from the reference picture."),
    "painting": ("painting", "Paintings: passages, tests, and the record of each mix."),
    "check": ("check", "Show what runs low, would fade or needs care."),
    "care": ("care", "Cautions for a paint, a mix, a kind of work or a class."),
    "swatch": ("swatch", "Test swatches: what a mix looked like on paper."),
    "mix": ("mix", "Mixes: paints and their parts."),
    "paint": ("paint", "Paints: what lies on your shelf."),
    "paper": ("paper", "Papers: what you paint and test on."),
    "stock": ("stock", "Stock: paint in ml, paper in sheets, as a ledger."),
    "pigment": ("pigment", "Pigments: lightfastness and cautions, each with its source."),
    "fade": ("fade", "Fade tests of your own: strips half covered, half in the light."),
    "undo": ("undo", "Take back the last command, exactly."),
    "redo": ("undo", "Repeat what was undone last."),
    "history": ("history", "Show which command recorded what, and when."),
    "backup": ("backup", "Make a checked backup; list the backups."),
    "restore": ("restore", "Put a backup in the place of the database."),
    "export": ("export", "Write everything to a folder of CSV and JSON files."),
    "import": ("import_", "Import CSV tables, or a whole exported folder."),
    "db": ("db", "The database: where it is, its upgrade, its integrity."),
}
"""Each command with the module that holds it and its line in the tour."""

_SHOWN: Final = 200
"""How much of a name that cannot be used is told."""


def build_app(words: Collection[str] = tuple(COMMANDS)) -> typer.Typer:
    """The command line with those commands whose name is among some words.

    The others stand in the help but are not loaded: building all thirty-odd takes longer than most
    commands run.
    """
    app = typer.Typer(
        name="studio",
        help=TOUR,
        no_args_is_help=True,
        add_completion=False,
        rich_markup_mode=None,
        pretty_exceptions_enable=False,
    )
    app.callback()(studio)
    for name, (module, line) in COMMANDS.items():
        if name in words:
            import_module(f"studio.cli.{module}").register(app, name, line)
        else:
            app.command(name, short_help=line)(_not_loaded)
    return app


def _not_loaded() -> None:
    """Stands in the help for a command that the words of this command line do not name."""


def _print_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"studio {__version__}")
        raise typer.Exit


def studio(
    context: typer.Context,
    db: Annotated[
        str | None,
        typer.Option(
            envvar="STUDIO_DB",
            metavar="FILE|ADDRESS",
            help="The database: a file (yours lies in your data folder), or one on a server as "
            "postgresql://user@host/name.",
        ),
    ] = None,
    demo: Annotated[
        bool, typer.Option("--demo", help="Work in the demo studio instead of your own.")
    ] = False,
    traceback: Annotated[
        bool, typer.Option("--traceback", help="Show where an error came from.")
    ] = False,
    version: Annotated[
        bool,
        typer.Option(
            "--version", is_eager=True, callback=_print_version, help="Print the version."
        ),
    ] = False,
) -> None:
    """Put what every command shares into the context; the help text is TOUR."""
    del version, traceback
    context.obj = Session(named=db, demo=demo, words=context.obj or ())


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command line; the exit status as README.md documents it.

    Args:
        argv: the words after `studio`; None takes those of the process.
    """
    recorded()
    words = list(sys.argv[1:] if argv is None else argv)
    with guarded(_hiding(words)) as (results, messages):
        status = _status_of(words)
        results.flush()
        if results.failure is not None:
            status = _unprinted(results.failure, status)
            results.let_go()
        messages.flush()
        if messages.failure is not None:
            messages.let_go()
    return status


def _hiding(words: Sequence[str]) -> Callable[[str], str]:
    """What takes passwords out of a message; none are looked for where no server is named."""
    named = [*words, os.environ.get("STUDIO_DB", "")]
    if not any("postgres" in word.lower() or "password" in word.lower() for word in named):
        return str
    kept = os.environ.get("PGPASSWORD", "")

    def without_passwords(text: str) -> str:
        # Where nothing is told, as by --help, nothing of the storage loads.
        from studio.storage.address import SHORTEST, hidden, secrets_in  # noqa: PLC0415

        secrets = (*secrets_in(named), *([kept] if len(kept) >= SHORTEST else []))
        return hidden(text, secrets)

    return without_passwords


def traceback_of(error: BaseException, argv: Sequence[str] | None = None) -> str:
    """Where an error came from, for --traceback, without the passwords of the command line."""
    import traceback  # noqa: PLC0415 - only where something went wrong

    hide = _hiding(list(sys.argv[1:] if argv is None else argv))
    return hide("".join(traceback.format_exception(error)))


def _unprinted(failure: OSError, status: int) -> int:
    """Tell that standard output takes no more, such as a file on a full disk; the exit status.

    A reader that has seen enough and left is no error, but must not leave open whether a record
    was kept.
    """
    if failure.errno in GONE:
        if recorded():
            tell("nobody reads the result any more; what was recorded is kept")
        return status
    reason = (failure.strerror or str(failure)).lower()
    tell(f"the result cannot be written: {reason}; what was recorded is kept")
    return ExitStatus.BAD_INPUT if status in _AS_DONE else status


_AS_DONE: Final = frozenset({ExitStatus.DONE, ExitStatus.ATTENTION})


def _status_of(words: list[str]) -> int:
    """Run one command line, and tell on standard error what went wrong."""
    raw = "--traceback" in words
    status: int = ExitStatus.INTERRUPTED
    loading = True
    remember_studio(words)
    try:
        command = get_command(build_app(words))
        loading = False
        result = command.main(
            args=words, prog_name="studio", standalone_mode=False, obj=tuple(words)
        )
        status = result if isinstance(result, int) else ExitStatus.DONE
    except TyperException as error:
        error.show(file=sys.stderr)  # type: ignore[attr-defined] # all but Exit and Abort have it
        status = ExitStatus.USAGE
    except (typer.Abort, KeyboardInterrupt):
        if not loading:  # else nothing was begun that could be stopped
            tell("stopped")
    except StudioError as error:
        if raw:
            raise
        tell(str(error))
        status = error.status
    except Exception as error:
        if raw:
            raise
        status = _unforeseen(error)
    return status


def _unforeseen(error: Exception) -> int:
    """Tell of a path that no system can look for, of what is no text, a full disk; or a defect."""
    if isinstance(error, OSError) and error.filename is not None:
        name, reason = str(error.filename), (error.strerror or str(error)).lower()
        shown = name if len(name) <= _SHOWN else f"{name[:_SHOWN]}…"
        tell(f"{shown} cannot be used: {reason}")
        return ExitStatus.BAD_INPUT
    if isinstance(error, UnicodeEncodeError) and error.encoding == "utf-8":
        # Bytes of the command line that are no UTF-8 arrive as halves of surrogate pairs.
        shown = error.object[max(0, error.start - _SHOWN // 2) : error.end]
        tell(f"{shown!a} is not text in UTF-8; write it anew")
        return ExitStatus.BAD_INPUT
    if isinstance(error, ValueError) and "embedded null" in str(error):
        tell("no name of a file holds a NUL; write it anew")
        return ExitStatus.BAD_INPUT
    if isinstance(error, UnicodeDecodeError):
        tell(
            f"what was typed is not text in {error.encoding}; type it anew, or set "
            "PYTHONIOENCODING to the encoding of the terminal"
        )
        return ExitStatus.BAD_INPUT
    if isinstance(error, OSError) and error.errno in NO_ROOM | GONE:
        return _unprinted(error, ExitStatus.DONE)
    tell(
        f"a defect in the program ({type(error).__name__}: {error}); please report it with what "
        "--traceback shows."
    )
    return ExitStatus.DEFECT
