"""Tell what was done in a studio: the last commands, or all that ever touched one thing."""

from dataclasses import dataclass

from studio.actions.find import find_paint_or_mix, find_paper
from studio.actions.find_target import targets_like
from studio.actions.told_rows import ToldRow, told_rows
from studio.catalogue.container import Container
from studio.catalogue.fade import FadeTest
from studio.catalogue.history import Command, Count, RowChange
from studio.catalogue.mix import Mix
from studio.catalogue.painting import Painting
from studio.catalogue.swatch import Swatch
from studio.errors import NotFound
from studio.storage.unit_of_work import UnitOfWork

Thing = tuple[str, int]
"""A table and the id of a row."""


@dataclass(frozen=True, slots=True)
class ToldCommand:
    """A command with what it did.

    Args:
        command: the command.
        taken_back: the command it took back; None for one that recorded something itself.
        counts: how many rows of each table it added, changed and took out.
        rows: what it did to the thing that was asked for; None where all commands were.
    """

    command: Command
    taken_back: Command | None
    counts: tuple[Count, ...]
    rows: tuple[ToldRow, ...] | None = None


def last_commands(work: UnitOfWork, most: int) -> tuple[ToldCommand, ...]:
    """The last commands, the newest first."""
    return _told(work, work.history.last(most), None)


def commands_of(work: UnitOfWork, name: str, most: int) -> tuple[ToldCommand, ...]:
    """The last commands that touched a thing or its parts, the oldest first.

    A swatch has its readings, a container and a paint their ledgers, a fade test its readings, a
    painting its passages with their colours and tries.

    Args:
        work: the studio.
        name: a code, or a name of a paint, a mix, a paper, a target or a painting.
        most: how many commands.

    Raises:
        NotFound: nothing is called so, or several things are.
    """
    found = {
        (row.change_id, row.key): row
        for table, key in _with_parts(work, *_thing(work, name))
        for row in work.history.of_thing(table, key)
    }
    rows: list[RowChange] = list(found.values())
    keys = sorted({row.command_id for row in rows})[-most:]
    commands = work.history.by_ids(keys)
    wanted = [row for row in sorted(rows, key=_order) if row.command_id in commands]
    told = told_rows(work, wanted)
    return _told(work, tuple(commands[key] for key in keys), told)


def _order(row: RowChange) -> int:
    return row.change_id


def _told(
    work: UnitOfWork, commands: tuple[Command, ...], rows: tuple[ToldRow, ...] | None
) -> tuple[ToldCommand, ...]:
    counts = work.history.counts_of([command.id for command in commands])
    return tuple(
        ToldCommand(
            command,
            _first(work, command),
            counts.get(command.id, ()),
            None if rows is None else tuple(row for row in rows if row.command_id == command.id),
        )
        for command in commands
    )


def _first(work: UnitOfWork, command: Command) -> Command | None:
    """The command that recorded what an undo or a redo is about."""
    first: Command | None = None
    while command.takes_back is not None:
        first = command = work.history.by_ids([command.takes_back])[command.takes_back]
    return first


def _with_parts(work: UnitOfWork, table: str, key: int) -> list[Thing]:
    """A thing, the containers of a paint or a paper, the passages of a painting."""
    if table == "painting":
        passages, colours = work.paintings.keys_of_parts(key)
        return [
            (table, key),
            *(("passage", each) for each in passages),
            *(("passage_colour", each) for each in colours),
        ]
    containers: tuple[Container, ...] = ()
    if table == "paint":
        containers = work.containers.of_paint(key)
    elif table == "paper":
        containers = work.containers.of_paper(key)
    return [(table, key), *(("container", each.id) for each in containers)]


def _thing(work: UnitOfWork, name: str) -> Thing:
    code = name.strip().upper()
    coded: tuple[tuple[str, Swatch | Container | FadeTest | Painting | None], ...] = (
        ("swatch", work.swatches.with_code(code)),
        ("container", work.containers.with_code(code)),
        ("fade_test", work.fade_tests.with_code(code)),
        ("painting", work.paintings.with_code(code)),
    )
    for table, thing in coded:
        if thing is not None:
            return table, thing.id
    for paper in work.papers.all():
        if paper.facts.code == code:
            return "paper", paper.id
    if work.pigments.get(name.strip()):
        return "pigment", work.pigments.id_of(name.strip())
    return work.history.gone(code) or _named(work, name)


def _named(work: UnitOfWork, name: str) -> Thing:
    targets = targets_like(work, name)
    if len(targets) == 1:
        return "target", targets[0].id
    try:
        found = find_paint_or_mix(work, name)
    except NotFound as no_paint:
        if no_paint.candidates:
            raise
        try:
            return "paper", find_paper(work, name).id
        except NotFound:
            words = name.casefold().split()
            titled = [
                each
                for each in work.paintings.all()
                if words and all(word in each.title.casefold() for word in words)
            ]
            if len(titled) == 1:
                return "painting", titled[0].id
            msg = (
                f"nothing is called {name!r}; give the code of a swatch, a mix, a container, a "
                "fade test or a painting, or the name of a paint, a paper or a target"
            )
            raise NotFound(msg) from None
    return ("mix" if isinstance(found, Mix) else "paint"), found.id
