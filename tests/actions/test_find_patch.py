"""The colour that stands for a paint."""

from datetime import date

from studio.actions.find_patch import find_patch
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint, PaintFacts
from studio.catalogue.paper import PaperFacts
from studio.catalogue.reading import Method, Origin, Reading, State
from studio.catalogue.recipe import Recipe
from studio.catalogue.swatch import Application, SwatchFacts
from studio.colour.lab import Lab
from studio.storage.unit_of_work import UnitOfWork

DAY = date(2026, 9, 3)


def _paint(work: UnitOfWork, code: str = "KG") -> Paint:
    return work.paints.by_id(
        work.paints.add(PaintFacts(code, "Brackwater", f"Kelp {code}", ("PG7",)))
    )


def _mix(work: UnitOfWork, *parts: tuple[int, int]) -> int:
    code = work.mixes.next_code()
    return work.mixes.add(Mix(0, code, Recipe(parts), None, None, DAY))


def _swatch(work: UnitOfWork, mix: int, lab: Lab, state: State = State.DRY) -> None:
    paper = next((each.id for each in work.papers.all()), None)
    if paper is None:
        paper = work.papers.add(PaperFacts("SR", "Eddering Mill", "Slipway Rag"))
    reading = Reading(
        lab, lab, Origin.MEASURED, None, state, Method.COLORIMETER, None, None, None, DAY
    )
    facts = SwatchFacts(work.swatches.next_code(), 3.0, 1, Application.FLAT_WASH, DAY)
    work.swatches.add(facts, mix, paper, (reading,))


def test_the_most_intense_dry_swatch_of_the_paint_alone_stands_for_it(work: UnitOfWork) -> None:
    kelp, other = _paint(work), _paint(work, "KB")
    alone = _mix(work, (kelp.id, 1))
    _swatch(work, alone, Lab(70, -20, 5))
    _swatch(work, alone, Lab(45, -40, 10))
    _swatch(work, alone, Lab(30, -5, 2))
    _swatch(work, alone, Lab(40, -60, 20), State.WET)
    _swatch(work, _mix(work, (kelp.id, 1), (other.id, 1)), Lab(40, -70, 0))
    assert find_patch(work, kelp) == Lab(45, -40, 10)


def test_without_a_mix_of_it_alone_nothing_stands_for_a_paint(work: UnitOfWork) -> None:
    kelp, other = _paint(work), _paint(work, "KB")
    _swatch(work, _mix(work, (kelp.id, 1), (other.id, 2)), Lab(40, -70, 0))
    assert find_patch(work, kelp) is None


def test_a_paint_whose_swatches_were_only_read_wet_has_no_patch(work: UnitOfWork) -> None:
    kelp = _paint(work)
    alone = _mix(work, (kelp.id, 1))
    assert find_patch(work, kelp) is None
    _swatch(work, alone, Lab(40, -60, 20), State.WET)
    assert find_patch(work, kelp) is None
