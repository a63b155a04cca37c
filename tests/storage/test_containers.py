"""Containers and their ledgers are read back entry for entry, and float for float."""

import struct
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from studio.catalogue.container import Container, ContainerKind, total
from studio.catalogue.paint import PaintFacts
from studio.catalogue.paper import PaperFacts
from studio.catalogue.stock import StockEvent, StockKind, Unit
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork
from tests.servers import copy_of
from tests.storage import values

MARSH = PaintFacts("MG", "Saltings Colour", "Marsh Green", ("PG7", "PBr7"))
SEDGE = PaperFacts("SR", "Tidewrack Mill", "Sedge Rag")

Reopen = Callable[[], tuple[UnitOfWork, UnitOfWork]]


@pytest.fixture(scope="module")
def reopen(
    empty_template: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Callable[[], tuple[UnitOfWork, UnitOfWork]]]:
    """A writer on a database that nothing is ever kept in, and a second look at what it wrote."""
    opened: list[UnitOfWork] = []

    def open_both() -> tuple[UnitOfWork, UnitOfWork]:
        while opened:
            opened.pop().connection.close()
        writer, reader = UnitOfWork(database, write=True), UnitOfWork(database)
        writer.__enter__()
        reader.connection = writer.connection  # the same transaction with nothing remembered
        opened.append(writer)
        return writer, reader

    file = tmp_path_factory.mktemp("containers") / "studio.sqlite3"
    with copy_of(empty_template, file) as database:
        yield open_both
        while opened:
            opened.pop().connection.close()


def _bits(numbers: Iterable[float | None]) -> list[bytes | None]:
    return [None if number is None else struct.pack("<d", number) for number in numbers]


@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)
@given(data=st.data())
def test_a_container_comes_back_with_every_entry(reopen: Reopen, data: st.DataObject) -> None:
    writer, reader = reopen()
    paint, paper = writer.paints.add(MARSH), writer.papers.add(SEDGE)
    other = writer.containers.add(
        Container(0, "ZZ-0", paint, None, ContainerKind.ASSORTED, Unit.ML, None, None)
    )
    drawn = data.draw(values.containers(paint=paint, paper=paper))
    tried = data.draw(st.lists(values.stock_events(other=other.code), max_size=8))
    container = writer.containers.add(drawn)
    for event in values.ledger(container, tried):
        container = writer.containers.add_event(container, event)
    found = reader.containers.by_id(container.id)
    assert found == container == replace(drawn, id=container.id, events=container.events)
    assert found.lines == container.lines
    assert _bits([found.capacity]) == _bits([drawn.capacity])
    assert [_bits((e.amount, e.weight_g)) for e in found.events] == [
        _bits((e.amount, e.weight_g)) for e in container.events
    ]
    item = reader.paints.by_id(paint) if drawn.paint_id else reader.papers.by_id(paper)
    assert item.stock == total(_beside(reader, found), found.unit)


def _beside(work: UnitOfWork, container: Container) -> tuple[Container, ...]:
    every = work.containers.all()
    return tuple(
        each
        for each in every
        if (each.paint_id, each.paper_id) == (container.paint_id, container.paper_id)
    )


def test_containers_are_read_in_the_order_of_recording(reopen: Reopen) -> None:
    writer, reader = reopen()
    paint, paper = writer.paints.add(MARSH), writer.papers.add(SEDGE)
    bare = Container(0, "MG-2", paint, None, ContainerKind.TUBE, Unit.ML, 14.0, "L7")
    pad = replace(
        bare, code="SR-9", paint_id=None, paper_id=paper, kind=ContainerKind.PAD, unit=Unit.SHEETS
    )
    second, of_paper, first = (
        writer.containers.add(each) for each in (bare, pad, replace(bare, code="MG-1"))
    )
    assert reader.containers.all() == (second, of_paper, first)
    assert reader.containers.of_paint(paint) == (second, first)
    assert reader.containers.of_paper(paper) == (of_paper,)
    assert reader.containers.with_code(" mg-1 ") == first
    assert reader.containers.with_code("MG-3") is None
    assert reader.containers.next_code("MG") == "MG-3"
    assert reader.containers.next_code("SR") == "SR-10"
    assert reader.containers.next_code("M") == "M-1"


def test_a_refused_entry_is_neither_kept_nor_remembered(reopen: Reopen) -> None:
    writer, reader = reopen()
    paint = writer.paints.add(MARSH)
    tube = writer.containers.add(
        Container(0, "MG-1", paint, None, ContainerKind.TUBE, Unit.ML, 14.0, None)
    )
    bought = StockEvent(StockKind.BOUGHT, date(2026, 5, 4), 14.0)
    writer.containers.add_event(tube, bought)
    with pytest.raises(BadInput, match="has only 14 ml"):
        writer.containers.add_event(tube, StockEvent(StockKind.USED, date(2026, 5, 4), 15.0))
    assert writer.containers.by_id(tube.id).events == (bought,)
    assert reader.containers.by_id(tube.id).events == (bought,)
