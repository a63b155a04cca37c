"""How many sheets a class takes, by counting pieces."""

import pytest

from studio.actions.painting.class_plan import PaperSupply
from studio.actions.painting.plan_class import paper_supply
from studio.catalogue.paper import Paper, PaperFacts
from studio.catalogue.stock import Stock, Unit
from tests.actions.painting.paintings import painting


def _paper(width: float | None, height: float | None, unit: Unit = Unit.SHEETS) -> Paper:
    facts = PaperFacts(
        "SR", "Eddering Mill", "Slipway Rag", sheet_width_mm=width, sheet_height_mm=height
    )
    return Paper(1, facts, Stock(None, unit, None), ())


def _supply(paper: Paper, students: int) -> PaperSupply:
    return paper_supply(painting(paper), paper, students)


@pytest.mark.parametrize(
    ("sides", "students", "expected"),
    [
        ((559.0, 762.0), 8, (10, 2, 5.0)),  # 500 x 340 mm: 500 of 559, twice 340 of 762
        ((680.0, 1000.0), 8, (10, 4, 3.0)),  # exactly two by two
        ((500.0, 340.0), 1, (2, 1, 2.0)),  # a quarter more than one is a second piece
        ((400.0, 400.0), 4, (5, 0, 5.0)),
        ((None, None), 4, (5, None, 5.0)),
    ],
)
def test_pieces_of_a_sheet(
    sides: tuple[float | None, float | None],
    students: int,
    expected: tuple[int, int | None, float],
) -> None:
    found = _supply(_paper(*sides), students)
    assert (found.pieces, found.each_sheet, found.needed) == expected


def test_a_roll_is_cut_by_the_shorter_side() -> None:
    found = _supply(_paper(None, None, Unit.MM), 4)
    assert (found.pieces, found.needed) == (5, 5 * 340.0)
