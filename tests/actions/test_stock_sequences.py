"""Whatever is tried in whatever order: what was taken is in the ledger, what was refused is not."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from typing import Final

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from studio.actions.buy_stock import Purchase, buy_stock
from studio.actions.find_stock import Item, containers_of
from studio.actions.use_stock import correct_stock, move_container, refill_container, use_stock
from studio.actions.weigh_stock import weigh_stock
from studio.catalogue.container import Container, ContainerKind, total
from studio.catalogue.stock import StockEvent, StockKind, WeighedAs
from studio.errors import StudioError
from studio.storage.address import Database
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.stock_things import a_paint, a_paper, bought, entry, weighing
from tests.conftest import TODAY
from tests.servers import SERVER, copy_of, fingerprint

POURING: Final = (StockKind.REFILLED, StockKind.POURED)

Ledger = dict[str, tuple[StockEvent, ...]]

amounts = st.integers(1, 400).map(lambda number: number / 100) | st.integers(1, 30).map(float)
weights = st.integers(140, 460).map(lambda number: number / 10)
places = st.sampled_from((0, 1, 1, 0, 2, 3, 0, 1))
# Mostly in order; some days lie before an entry, and some ahead of today.
days = st.sampled_from((0, 0, 0, 0, 0, 0, -1, -2, 1)).map(lambda days: TODAY + timedelta(days=days))


@dataclass(frozen=True, slots=True)
class Command:
    """Something that is tried: on which item, on which day, and what it should add.

    Args:
        item: place of the paint or paper.
        kind: kind of the entries it should add.
        amount: their sum, None where none is measured.
        run: does it.
    """

    item: int
    kind: StockKind
    amount: float | None
    run: Callable[[UnitOfWork, Item, date], object]
    day: date

    def __repr__(self) -> str:
        """For a failure."""
        return f"{self.kind} {self.amount} of item {self.item} on {self.day}"


def _one(work: UnitOfWork, item: Item, place: int) -> Container | None:
    every = containers_of(work, item)
    return every[place % len(every)] if every else None


def _needed(work: UnitOfWork, item: Item, place: int) -> Container:
    container = _one(work, item, place)
    if container is None:
        message = "there is none yet"
        raise StudioError(message)
    return container


@st.composite
def commands(draw: st.DrawFn) -> Command:
    """Any command with any values."""
    kind, amount = draw(st.sampled_from(StockKind)), draw(amounts)
    place, other = draw(places), draw(places)
    of_paint = kind in {StockKind.WEIGHED, *POURING}
    item = draw(st.sampled_from((0, 0, 0, 0, 1) if of_paint else (0, 1)))
    estimated, grams = draw(st.booleans()), draw(weights)
    mark = draw(st.sampled_from((None, None, None, *WeighedAs)))
    named = draw(st.booleans())
    sort = draw(st.none() | st.just(ContainerKind.HALF_PAN))

    def run(work: UnitOfWork, item: Item, day: date) -> object:
        made = entry(kind, amount, day, estimated=estimated)
        match kind:
            case StockKind.BOUGHT:
                purchase = Purchase(day, capacity=20.0, left=amount, kind=sort, weight_g=grams)
                return buy_stock(work, item, purchase, TODAY)
            case StockKind.USED:
                return use_stock(
                    work, item, made, TODAY, _one(work, item, place) if named else None
                )
            case StockKind.WEIGHED:
                seen = weighing(grams, mark, day)
                return weigh_stock(work, _needed(work, item, place), seen, TODAY)
            case StockKind.REFILLED | StockKind.POURED:
                ends = _needed(work, item, place), _needed(work, item, other)
                return refill_container(work, *ends, made, TODAY)
            case StockKind.CORRECTED:
                return correct_stock(work, item, made, TODAY, _one(work, item, place))
            case _:
                moved = entry(kind, None, day)
                return move_container(work, _needed(work, item, place), moved, TODAY)

    measured = kind in {StockKind.BOUGHT, StockKind.USED, StockKind.CORRECTED, *POURING}
    return Command(item, kind, amount if measured else None, run, draw(days))


def _ledger(path: Database) -> Ledger:
    with UnitOfWork(path) as work:
        return {container.code: container.events for container in work.containers.all()}


@settings(
    max_examples=80 if SERVER is None else 8,  # a copy on a server takes ten times as long
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(tried=st.lists(commands(), min_size=4, max_size=16))
def test_no_order_of_commands_loses_an_entry(
    empty_template: Path, tmp_path: Path, tried: list[Command]
) -> None:
    with copy_of(empty_template, tmp_path / "studio.sqlite3") as path:
        _try(path, tried)


def _try(path: Database, tried: list[Command]) -> None:
    with UnitOfWork(path, write=True) as work:
        items: tuple[Item, Item] = (a_paint(work), a_paper(work))
        bought(work, items[0], 20.0, weight=45.0)
        bought(work, items[0], 20.0, left=5.0, weight=90.0, kind=ContainerKind.JAR)
        bought(work, items[1], 20.0)
        work.commit()
    for command in tried:
        before, all_before = _ledger(path), fingerprint(path)
        if not _taken(path, items[command.item], command):
            assert fingerprint(path) == all_before
            continue
        _check_added(command, before, _ledger(path))
    _check_whole(path)


def _taken(path: Database, item: Item, command: Command) -> bool:
    """Run a command as the command line does: all of it is kept, or nothing."""
    try:
        with UnitOfWork(path, write=True) as work:
            found = next(each for each in _items(work) if each.facts == item.facts)
            command.run(work, found, command.day)
            work.commit()
    except StudioError:
        return False
    return True


def _items(work: UnitOfWork) -> list[Item]:
    return [*work.paints.all(), *work.papers.all()]


def _check_added(command: Command, before: Ledger, after: Ledger) -> None:
    """Nothing that stood there changed, and the new entries are those of the command."""
    added: list[StockEvent] = []
    for code, events in after.items():
        known = before.get(code, ())
        assert events[: len(known)] == known
        added += events[len(known) :]
    assert set(before) <= set(after)
    kinds = set(POURING) if command.kind in POURING else {command.kind}
    assert {event.kind for event in added} == kinds
    assert {event.happened_on for event in added} == {command.day}
    assert command.day <= TODAY
    if command.amount is not None:
        for kind in kinds:
            of_kind = [event.amount or 0.0 for event in added if event.kind is kind]
            assert abs(sum(of_kind) - command.amount) < 1e-6


def _check_whole(path: Database) -> None:
    with UnitOfWork(path) as work:
        for container in work.containers.all():
            changes = sum(line.change for line in container.lines)
            assert abs(container.left - changes) < 1e-5
            assert all(line.left >= 0.0 for line in container.lines)
            assert container.left <= (container.capacity or 1e9) + 1e-6
        for item in _items(work):
            assert item.stock == total(containers_of(work, item), item.stock.unit)


def test_the_commands_of_that_test_are_taken_and_refused(tmp_path: Path, empty_db: Path) -> None:
    """A purchase and a use are taken, a second use is not: the test above tells them apart."""
    del tmp_path
    with UnitOfWork(empty_db, write=True) as work:
        paint = a_paint(work)
        work.commit()
    kinds = (StockKind.BOUGHT, StockKind.USED, StockKind.USED)
    runs: tuple[Callable[[UnitOfWork, Item, date], object], ...] = (
        lambda work, item, day: buy_stock(work, item, Purchase(day), TODAY),
        lambda work, item, day: use_stock(work, item, entry(kinds[1], 9.0, day), TODAY),
        lambda work, item, day: use_stock(work, item, entry(kinds[2], 9.0, day), TODAY),
    )
    commands_run = [
        Command(0, kind, None, run, TODAY) for kind, run in zip(kinds, runs, strict=True)
    ]
    assert [_taken(empty_db, paint, each) for each in commands_run] == [True, True, False]
    assert [event.kind for event in _ledger(empty_db)["SG-1"]] == list(kinds[:2])
