"""Whatever commands did, undo leads back exactly, and redo forth again."""

import random
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Final

import pytest

from studio.actions.add_mix import add_mix
from studio.actions.find import find_mix, find_paint, find_paper, find_recipe
from studio.actions.log_swatch import edit_swatch, log_swatch, mix_to_log, read_swatch
from studio.actions.make_reading import Circumstances, reading_of_lab
from studio.actions.name_target import name_target
from studio.actions.remove_swatch import (
    count_reading_again,
    remove_swatch,
    restore_swatch,
    set_reading_aside,
)
from studio.actions.remove_target import remove_target, restore_target
from studio.actions.undo_commands import redo_commands, undo_commands
from studio.catalogue.history import CommandKind
from studio.catalogue.reading import Method, State
from studio.catalogue.swatch import Application, SwatchFacts
from studio.colour.lab import Lab
from studio.errors import StudioError
from studio.storage.unit_of_work import UnitOfWork
from tests.storage.test_history import Dump, dump

DAY: Final = date(2026, 11, 25)
RECIPES: Final = ("FU", "RS", "2 FU + 1 RS", "1 FU + 3 RS", "YO", "3 YO + 1 FU", "M1", "M2")

Chance = random.Random


def _lab(chance: Chance) -> Lab:
    return Lab(chance.uniform(20, 90), chance.uniform(-30, 30), chance.uniform(-30, 30))


def _log(work: UnitOfWork, chance: Chance) -> None:
    facts = SwatchFacts("", chance.choice((None, 2.0)), 1, Application.FLAT_WASH, DAY)
    log_swatch(
        work,
        mix=mix_to_log(work, chance.choice(RECIPES), DAY),
        paper=find_paper(work, "ECP"),
        facts=facts,
        reading=reading_of_lab(_lab(chance), Circumstances(DAY, Method.COLORIMETER)),
        today=DAY,
    )


def _read(work: UnitOfWork, chance: Chance) -> None:
    swatch = chance.choice(work.swatches.all()[-12:])
    state = chance.choice((State.DRY, State.WET))
    how = Circumstances(DAY, Method.COLORIMETER, state)
    read_swatch(work, swatch, reading_of_lab(_lab(chance), how), DAY)


def _edit(work: UnitOfWork, chance: Chance) -> None:
    swatch = chance.choice(work.swatches.all()[-12:])
    facts = replace(swatch.facts, kept_at=chance.choice((None, "box 1", "box 2")))
    edit_swatch(work, swatch, facts, work.papers.by_id(swatch.paper_id), DAY)


def _remove(work: UnitOfWork, chance: Chance) -> None:
    remove_swatch(work, chance.choice(work.swatches.all()[-12:]), "smudged", DAY)


def _restore(work: UnitOfWork, chance: Chance) -> None:
    removed = work.swatches.removed()
    if removed:
        restore_swatch(work, chance.choice(removed))


def _set_aside(work: UnitOfWork, chance: Chance) -> None:
    swatch = chance.choice(work.swatches.all()[-12:])
    number = chance.randint(1, len(swatch.every_reading))
    if number in swatch.numbers:
        set_reading_aside(work, swatch, number, None, DAY)
    else:
        count_reading_again(work, swatch, number)


def _mix(work: UnitOfWork, chance: Chance) -> None:
    parts = f"{chance.randint(1, 9)} FU + {chance.randint(1, 9)} YO"
    add_mix(work, find_recipe(work, parts), DAY)


def _describe(work: UnitOfWork, chance: Chance) -> None:
    mix = find_mix(work, chance.choice(("M1", "M2", "M3")))
    work.mixes.describe(mix.id, chance.choice((None, "reed", "hull")), mix.note)


def _paint(work: UnitOfWork, chance: Chance) -> None:
    paint = find_paint(work, chance.choice(("FU", "RS", "YO")))
    pigments = chance.choice((("PB29",), ("PB29", "PBr7"), ("PBr7", "PB29"), ()))
    work.paints.change(paint.id, replace(paint.facts, pigments=pigments))


def _target(work: UnitOfWork, chance: Chance) -> None:
    name = chance.choice(("mud", "reed bed", "rusty hull"))
    known = work.targets.named(name)
    if known is None:
        name_target(work, name, _lab(chance), today=DAY)
    else:
        remove_target(work, known, None, DAY)


def _target_again(work: UnitOfWork, chance: Chance) -> None:
    restore_target(work, chance.choice(("mud", "reed bed", "rusty hull")))


COMMANDS: Final[tuple[Callable[[UnitOfWork, Chance], None], ...]] = (
    _log, _log, _read, _read, _edit, _remove, _restore, _set_aside, _mix, _describe, _paint,
    _target, _target_again,
)  # fmt: skip


def _do(path: Path, chance: Chance) -> None:
    """One command of several steps, kept or, where it was refused, not."""
    try:
        with UnitOfWork(path, write=True) as work:
            for _ in range(chance.randint(1, 3)):
                chance.choice(COMMANDS)(work, chance)
            work.commit()
    except StudioError:
        pass


def _standing(path: Path) -> int:
    with UnitOfWork(path) as work:
        return len(work.history.standing(CommandKind.RECORDED))


def _undo(path: Path, count: int) -> None:
    with UnitOfWork(path, write=True) as work:
        undo_commands(work, count)
        work.commit()


def _redo(path: Path, count: int) -> None:
    with UnitOfWork(path, write=True) as work:
        redo_commands(work, count)
        work.commit()


@pytest.mark.parametrize("number", range(6))
def test_random_commands_are_undone_to_the_start_and_redone_to_the_end(
    number: int, demo_db: Path
) -> None:
    chance = Chance(number)
    start = dump(demo_db)
    for _ in range(16):
        _do(demo_db, chance)
    end, count = dump(demo_db), _standing(demo_db)
    assert count > 5
    assert end != start
    steps = [chance.randint(1, 4) for _ in range(count)]
    left = count
    for step in steps:
        if left:
            _undo(demo_db, min(step, left))
            left -= min(step, left)
    assert dump(demo_db) == start
    _redo(demo_db, count)
    assert dump(demo_db) == end


@pytest.mark.parametrize("number", range(4))
def test_commands_undo_and_redo_in_any_order_lead_to_states_that_were(
    number: int, demo_db: Path
) -> None:
    """A stack of whole copies says what each state must be."""
    chance = Chance(100 + number)
    done: list[Dump] = [dump(demo_db)]
    undone: list[Dump] = []
    for step in range(40):
        act = chance.choice(("do", "do", "undo", "undo", "redo"))
        if act == "do":
            before = _standing(demo_db)
            _do(demo_db, chance)
            if _standing(demo_db) > before:
                done.append(dump(demo_db))
                undone = []
        elif act == "undo" and len(done) > 1:
            _undo(demo_db, 1)
            undone.append(done.pop())
        elif act == "redo" and undone:
            _redo(demo_db, 1)
            done.append(undone.pop())
        elif act == "redo":
            with pytest.raises(StudioError, match="redo"):
                _redo(demo_db, 1)
        assert dump(demo_db) == done[-1], step


@pytest.fixture
def two(demo_db: Path) -> Path:
    """A demo studio in which two commands were undone, the second after a third was recorded."""
    for note in ("a", "b"):
        with UnitOfWork(demo_db, write=True) as work:
            work.mixes.describe(1, note, None)
            work.commit()
    _undo(demo_db, 1)
    with UnitOfWork(demo_db, write=True) as work:
        work.mixes.describe(2, "c", None)
        work.commit()
    _undo(demo_db, 1)
    return demo_db


def test_what_was_undone_before_something_newer_is_not_redone_beside_it(two: Path) -> None:
    with (
        pytest.raises(StudioError, match="only 1 command can be redone, not 2"),
        UnitOfWork(two, write=True) as work,
    ):
        redo_commands(work, 2)
    _redo(two, 1)
    with UnitOfWork(two) as work:
        assert [work.mixes.by_ids([key])[key].name for key in (1, 2)] == ["a", "c"]
    with (
        pytest.raises(StudioError, match="was recorded since the last undo"),
        UnitOfWork(two, write=True) as work,
    ):
        redo_commands(work)
