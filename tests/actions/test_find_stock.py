"""A typed name means a paint, a paper, or one container of it."""

import pytest

from studio.actions.add_paint import add_paint
from studio.actions.add_paper import add_paper
from studio.actions.edit_paint import retire_paint
from studio.actions.find_stock import containers_of, find_container, find_item, item_of, unit_of
from studio.actions.use_stock import move_container
from studio.catalogue.container import ContainerKind
from studio.catalogue.paint import PaintFacts
from studio.catalogue.paper import PaperFacts
from studio.catalogue.stock import StockKind, Unit
from studio.errors import NotFound
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.stock_things import a_paint, a_paper, bought, entry
from tests.conftest import TODAY


def test_an_item_is_found_by_code_name_or_container(work: UnitOfWork) -> None:
    paint, paper = a_paint(work), a_paper(work)
    tube, pad = bought(work, paint), bought(work, paper, 20.0, kind=ContainerKind.PAD)
    for name in ("sg", "sea sg", "saltings colour sea", "SG-1", "sg-1"):
        assert find_item(work, name).facts == paint.facts
    for name in ("MR", "mud rag", "mud", "mr-1"):
        assert find_item(work, name).facts == paper.facts
    assert item_of(work, tube).facts == paint.facts
    assert item_of(work, pad).facts == paper.facts
    assert containers_of(work, paper) == (pad,)


def test_a_name_that_fits_a_paint_and_a_paper_lists_both(work: UnitOfWork) -> None:
    a_paint(work, "TR")
    a_paper(work, "TR")
    with pytest.raises(NotFound, match="'TR' fits 2 items; say which by its code: TR") as refused:
        find_item(work, "TR")
    assert refused.value.candidates == (
        "TR (Saltings Colour Sea TR)",
        "TR (Tidewrack Mill Mud Rag TR)",
    )


@pytest.fixture
def sedge(work: UnitOfWork) -> UnitOfWork:
    """A paint and two papers that share a word of their names."""
    add_paint(work, PaintFacts("SO", "Hard & Quay", "Sedge Ochre"), TODAY)
    for code, name in (("SR", "Sedge Rag"), ("SM", "Sedge Smooth")):
        add_paper(work, PaperFacts(code, "Tidewrack Mill", name), TODAY)
    return work


def _refused(work: UnitOfWork, name: str) -> tuple[str, ...]:
    with pytest.raises(NotFound, match=f"'{name}'") as refused:
        find_item(work, name)
    assert all(label in str(refused.value) for label in refused.value.candidates)
    return refused.value.candidates


def test_a_name_that_fits_several_is_refused_with_every_candidate(sedge: UnitOfWork) -> None:
    assert _refused(sedge, "sedge") == (
        "SO (Hard & Quay Sedge Ochre)",
        "SM (Tidewrack Mill Sedge Smooth)",
        "SR (Tidewrack Mill Sedge Rag)",
    )


def test_two_paints_and_a_paper_of_one_name_are_not_taken_for_the_paper(work: UnitOfWork) -> None:
    for code in ("A1", "A2"):
        add_paint(work, PaintFacts(code, "Hard & Quay", f"Marsh {code}"), TODAY)
    add_paper(work, PaperFacts("MR", "Tidewrack Mill", "Marsh Rag"), TODAY)
    assert len(_refused(work, "marsh")) == 3


def test_a_code_is_meant_before_a_part_of_another_name(work: UnitOfWork) -> None:
    add_paint(work, PaintFacts("SG", "Hard & Quay", "Marsh Green"), TODAY)
    add_paper(work, PaperFacts("MAR", "Tidewrack Mill", "Rush Rag"), TODAY)
    assert find_item(work, "mar").facts.code == "MAR"


def test_a_retired_paint_gives_way_to_a_paper_of_that_name(sedge: UnitOfWork) -> None:
    retire_paint(sedge, sedge.paints.all()[0])
    assert _refused(sedge, "sedge") == (
        "SM (Tidewrack Mill Sedge Smooth)",
        "SR (Tidewrack Mill Sedge Rag)",
    )
    assert find_item(sedge, "ochre").facts.code == "SO"


def test_a_name_that_fits_nothing_says_what_is_near(work: UnitOfWork) -> None:
    a_paint(work)
    with pytest.raises(NotFound, match="no paint or paper is called 'heron'; see: studio stock"):
        find_item(work, "heron")
    with pytest.raises(NotFound, match=r"called 'saltngs'; near it: SG \(Saltings Colour Sea SG\)"):
        find_item(work, "saltngs")


def test_units_are_those_of_the_containers(work: UnitOfWork) -> None:
    paint, paper = a_paint(work), a_paper(work)
    assert (unit_of(work, paint), unit_of(work, paper)) == (Unit.ML, Unit.SHEETS)
    bought(work, paper, 10_000, kind=ContainerKind.ROLL)
    assert unit_of(work, paper) is Unit.MM


def test_the_only_container_on_the_shelf_is_meant(work: UnitOfWork) -> None:
    paint = a_paint(work)
    first = bought(work, paint)
    assert find_container(work, "sea sg") == first
    second = bought(work, paint)
    move_container(work, first, entry(StockKind.LENT), TODAY)
    assert find_container(work, "sea sg") == second
    assert find_container(work, "SG-1").code == "SG-1"


def test_the_only_open_one_is_meant_else_they_are_listed(work: UnitOfWork) -> None:
    paint = a_paint(work)
    first = bought(work, paint)
    bought(work, paint)
    with pytest.raises(NotFound, match=r"Sea SG has 2 containers; say which: SG-1 \(tube, 14 ml\)"):
        find_container(work, "SG")
    move_container(work, first, entry(StockKind.OPENED), TODAY)
    assert find_container(work, "SG").code == "SG-1"


def test_without_one_on_the_shelf_those_away_are_listed(work: UnitOfWork) -> None:
    paint = a_paint(work)
    with pytest.raises(NotFound, match=r"no container of .* Sea SG is on record; book one with"):
        find_container(work, "SG")
    move_container(work, bought(work, paint), entry(StockKind.LENT), TODAY)
    with pytest.raises(NotFound) as refused:
        find_container(work, "SG")
    assert refused.value.candidates == ("SG-1 (tube, 14 ml, not on the shelf)",)
