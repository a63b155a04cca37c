"""Plans of paintings in the demo studio, held against going through all its swatches."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations

import pytest

from studio.actions.edit_paint import edit_paint
from studio.actions.find import find_paint, find_paper, find_swatch
from studio.actions.match_colour import Wanted
from studio.actions.paint_model import PaintModel, paint_model
from studio.actions.painting.plan import Basis, Plan
from studio.actions.painting.plan_painting import open_search, plan_painting
from studio.actions.painting.weigh import Weighed, weigh_colours
from studio.actions.remove_swatch import remove_swatch
from studio.catalogue.paint import Status
from studio.catalogue.painting import Painting
from studio.catalogue.swatch import Application
from studio.colour.difference import ciede2000
from studio.colour.lab import Lab
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.painting.paintings import painting, passage
from tests.conftest import TODAY

NOTHING = Wanted()


@pytest.fixture
def model(demo_work: UnitOfWork) -> PaintModel:
    """The paints of the demo studio."""
    return paint_model(demo_work, TODAY)


def _lab(work: UnitOfWork, code: str, by: float = 0.0) -> Lab:
    """The colour of a swatch, or one beside it."""
    lab = find_swatch(work, code).lab
    return Lab(lab.lightness + by, lab.a, lab.b)


def _painting(work: UnitOfWork, codes: Sequence[str], tolerance: float = 3.0) -> Painting:
    paper = find_paper(work, "ECP")
    labs = [_lab(work, code, 0.5) for code in codes]
    passages = [passage(number, lab) for number, lab in enumerate(labs, start=1)]
    return painting(paper, *passages, tolerance=tolerance)


CODES = ("S5", "S40", "S90", "S120", "S150", "S208")


@pytest.mark.parametrize("tolerance", [1.0, 3.0])
def test_every_past_mix_within_tolerance_is_weighed(
    tolerance: float, demo_work: UnitOfWork, model: PaintModel
) -> None:
    """By going through every swatch; on the painting's paper where the mix has one there."""
    wanted = _painting(demo_work, CODES, tolerance)
    every = weigh_colours(open_search(demo_work, model, wanted, NOTHING))
    retired = {p.id for p in demo_work.paints.all() if p.facts.status is Status.RETIRED}
    mixes = {mix.id: mix for mix in demo_work.mixes.all()}
    for weighed in every:
        near: dict[int, set[int]] = {}
        for swatch in demo_work.swatches.all():
            apart = ciede2000(weighed.colour.lab.coordinates, swatch.lab.coordinates)
            if apart <= tolerance and not mixes[swatch.mix_id].recipe.paints & retired:
                near.setdefault(swatch.mix_id, set()).add(swatch.id)
        laid = [each for each in weighed.candidates if each.basis is Basis.RECORDED]
        assert {each.mix.id for each in laid if each.mix} == set(near)
        for each in laid:
            assert each.swatch is not None
            assert each.delta_e <= tolerance
            here = {
                swatch.id
                for swatch in demo_work.swatches.of_mix(each.swatch.mix_id)
                if swatch.paper_id == wanted.paper_id and swatch.id in near[each.swatch.mix_id]
            }
            assert not here or each.swatch.id in here


def _fewest(weighed: Sequence[Weighed], paints: Sequence[int]) -> int:
    """The least number of paints, by trying every set of them."""
    needed = [{each.paints for each in one.candidates} for one in weighed if one.candidates]
    for count in range(1, len(paints) + 1):
        for some in combinations(paints, count):
            if all(any(own <= set(some) for own in sets) for sets in needed):
                return count
    raise AssertionError


def test_no_smaller_palette_makes_every_colour(demo_work: UnitOfWork, model: PaintModel) -> None:
    wanted = _painting(demo_work, CODES)
    weighed = weigh_colours(open_search(demo_work, model, wanted, NOTHING))
    plan = plan_painting(demo_work, model, wanted, NOTHING)
    assert plan.fewest_proven
    assert plan.to_test == ()
    every = sorted({paint for one in weighed for each in one.candidates for paint in each.paints})
    assert len(plan.palette) == _fewest(weighed, every)
    used = {part.paint.id for mix in plan.mixes for part in mix.recipe}
    assert used == {need.paint.id for need in plan.palette}
    for planned in plan.colours:
        assert planned.chosen is not None
        assert planned.delta_e is not None
        assert planned.delta_e == pytest.approx(
            ciede2000(planned.colour.lab.coordinates, planned.chosen.lab.coordinates), abs=1e-6
        )
        assert planned.delta_e <= wanted.tolerance


def test_what_is_recorded_is_never_predicted(demo_work: UnitOfWork, model: PaintModel) -> None:
    plan = plan_painting(demo_work, model, _painting(demo_work, CODES), NOTHING)
    assert all(mix.basis is not Basis.PREDICTED for mix in plan.mixes)


def _one(work: UnitOfWork, lab: Lab | tuple[float, float, float], **how: object) -> Painting:
    return painting(find_paper(work, "ECP"), passage(1, lab, **how))  # type: ignore[arg-type]


def test_a_colour_nothing_recorded_is_near_is_predicted(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    plan = plan_painting(demo_work, model, _one(demo_work, (48.0, -5.0, 22.0)), NOTHING)
    (mix,) = plan.mixes
    assert mix.basis is Basis.PREDICTED
    assert mix.swatch is None
    assert mix.error is not None
    assert mix.error > 0
    assert plan.colours[0].delta_e is not None
    assert plan.colours[0].delta_e <= 3.0


@pytest.mark.parametrize(
    ("lab", "failing"),
    [((5.0, 0.0, 0.0), "value"), ((60.0, 90.0, 0.0), "chroma")],
)
def test_what_paint_does_not_reach_is_told_with_what_fails(
    lab: tuple[float, float, float], failing: str, demo_work: UnitOfWork, model: PaintModel
) -> None:
    plan = plan_painting(demo_work, model, _one(demo_work, lab), NOTHING)
    (needed,) = plan.to_test
    assert (plan.mixes, plan.palette) == ((), ())
    assert needed.needed is not None
    assert f"its {failing} cannot be reached with these paints" in needed.needed
    assert needed.delta_e is not None
    assert needed.delta_e > 3.0
    nearest = min(ciede2000(lab, swatch.lab.coordinates) for swatch in demo_work.swatches.all())
    assert needed.delta_e <= nearest + 1e-9


def test_at_tolerance_0_only_the_same_colour_passes(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    same = _lab(demo_work, "S90")
    paper = find_paper(demo_work, "ECP")
    both = painting(paper, passage(1, same), passage(2, (55.0, -3.0, 28.0)), tolerance=0.0)
    plan = plan_painting(demo_work, model, both, NOTHING)
    assert plan.colours[0].mix is not None
    assert plan.colours[0].delta_e == 0.0
    assert plan.colours[1].needed is not None
    assert "nothing comes within ΔE00 0" in plan.colours[1].needed


def test_a_try_within_tolerance_is_the_mix(demo_work: UnitOfWork, model: PaintModel) -> None:
    """Although the target is another mix's own swatch to the last digit."""
    retired = {p.id for p in demo_work.paints.all() if p.facts.status is Status.RETIRED}
    gone = {mix.id for mix in demo_work.mixes.with_any(retired)}
    swatches = [each for each in demo_work.swatches.all() if each.mix_id not in gone]
    own, tried = next(
        (one, other)
        for one, other in combinations(swatches, 2)
        if one.mix_id != other.mix_id
        and 0.5 < ciede2000(one.lab.coordinates, other.lab.coordinates) < 3.0
    )
    plan = plan_painting(demo_work, model, _one(demo_work, own.lab, tries=[tried.id]), NOTHING)
    assert plan.mixes[0].swatch == tried
    assert plan.colours[0].chosen is not None
    assert plan.colours[0].chosen.is_try
    (far,) = [each for each in swatches if each.facts.code == "S208"]
    off = plan_painting(demo_work, model, _one(demo_work, own.lab, tries=[far.id]), NOTHING)
    assert off.colours[0].delta_e == 0.0
    assert off.colours[0].chosen is not None
    assert not off.colours[0].chosen.is_try


def test_a_try_of_retired_paint_is_no_mix(demo_work: UnitOfWork, model: PaintModel) -> None:
    """S40 of the demo studio holds a red that was retired since."""
    tried = find_swatch(demo_work, "S40")
    plan = plan_painting(demo_work, model, _one(demo_work, tried.lab, tries=[tried.id]), NOTHING)
    assert all(mix.swatch is None or mix.swatch.id != tried.id for mix in plan.mixes)
    assert "1 passage 1 was tried with" in plan.remarks[0]
    assert "(swatch S40), retired since" in plan.remarks[0]


def test_a_try_that_was_removed_counts_no_more(demo_work: UnitOfWork, model: PaintModel) -> None:
    tried = find_swatch(demo_work, "S90")
    wanted = _one(demo_work, tried.lab, tries=[tried.id])
    assert plan_painting(demo_work, model, wanted, NOTHING).mixes[0].swatch == tried
    remove_swatch(demo_work, tried, "smudged", TODAY)
    plan = plan_painting(demo_work, paint_model(demo_work, TODAY), wanted, NOTHING)
    assert all(mix.swatch is None or mix.swatch.id != tried.id for mix in plan.mixes)


def _retire(work: UnitOfWork, code: str) -> None:
    paint = find_paint(work, code)
    edit_paint(work, paint, replace(paint.facts, status=Status.RETIRED))


def test_paint_retired_since_is_planned_around_and_said(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    tried = find_swatch(demo_work, "S90")
    wanted = _one(demo_work, tried.lab, tries=[tried.id])
    before = plan_painting(demo_work, model, wanted, NOTHING)
    gone = before.mixes[0].recipe[0].paint
    _retire(demo_work, gone.facts.code)
    plan = plan_painting(demo_work, paint_model(demo_work, TODAY), wanted, NOTHING)
    assert gone.id not in {need.paint.id for need in plan.palette}
    assert any(gone.facts.name in remark and "retired" in remark for remark in plan.remarks)


def test_one_well_serves_all_its_colours(demo_work: UnitOfWork, model: PaintModel) -> None:
    lab = _lab(demo_work, "S90")
    paper = find_paper(demo_work, "ECP")
    three = painting(
        paper,
        passage(1, lab, share=0.2),
        passage(2, _lab(demo_work, "S208"), share=0.5),
        passage(3, lab, _lab(demo_work, "S90", 0.3), share=0.1, layers=2),
    )
    plan = plan_painting(demo_work, model, three, NOTHING)
    first, second, third, fourth = plan.colours
    assert first.mix == third.mix == fourth.mix
    assert [mix.letter for mix in plan.mixes] == ["A", "B"]
    wash = first.wash_ml + third.wash_ml + fourth.wash_ml
    assert wash == pytest.approx(0.17 * (0.2 + 0.1 * 2) * 100)
    mix = plan.mixes[0]
    assert mix.water_ml is not None
    assert mix.paint_ml + mix.water_ml == pytest.approx(1.2 * wash)
    assert mix.water_ml / mix.paint_ml == pytest.approx(mix.water)
    assert second.mix == plan.mixes[1]


def test_the_needs_add_up(demo_work: UnitOfWork, model: PaintModel) -> None:
    plan = plan_painting(demo_work, model, _painting(demo_work, CODES), NOTHING)
    paint_ml = sum(mix.paint_ml for mix in plan.mixes)
    assert sum(need.ml for need in plan.palette) == pytest.approx(paint_ml)
    for need in plan.palette:
        assert need.left_ml == need.paint.stock.left
        assert need.short_ml == pytest.approx(max(0.0, need.ml - (need.left_ml or 0.0)))


def test_filters_hold_for_every_paint_of_the_palette(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    wanted = _painting(demo_work, CODES)
    free = plan_painting(demo_work, model, wanted, NOTHING)
    barred = free.palette[0].paint
    plan = plan_painting(demo_work, model, wanted, Wanted(without=[barred], lightfast=2))
    assert barred.id not in {need.paint.id for need in plan.palette}
    ranks = [need.paint.worst_rating.rank for need in plan.palette if need.paint.worst_rating]
    assert len(ranks) == len(plan.palette)
    assert max(ranks) <= 2


def test_in_stock_leaves_out_what_is_used_up(demo_work: UnitOfWork, model: PaintModel) -> None:
    plan = plan_painting(demo_work, model, _painting(demo_work, CODES), Wanted(in_stock=True))
    assert all(need.paint.in_stock for need in plan.palette)


def _fault(work: UnitOfWork, model: PaintModel, some: Painting, wanted: Wanted = NOTHING) -> str:
    with pytest.raises(BadInput) as fault:
        plan_painting(work, model, some, wanted)
    return str(fault.value)


def test_what_cannot_be_planned_is_said_in_one_sentence(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    paper = find_paper(demo_work, "ECP")
    assert "has no passage yet" in _fault(demo_work, model, painting(paper))
    assert "has a colour yet" in _fault(demo_work, model, painting(paper, passage(1)))
    ultramarine = find_paint(demo_work, "FU")
    wanted = Wanted(only=[ultramarine], without=[ultramarine])
    some = _painting(demo_work, CODES)
    assert "no paint in use passes these filters" in _fault(demo_work, model, some, wanted)


def test_filters_that_leave_paints_without_swatches_ask_for_tests(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    """One paint alone cannot make a red and a green."""
    only = Wanted(only=[find_paint(demo_work, "FU")])
    paper = find_paper(demo_work, "ECP")
    some = painting(paper, passage(1, (45.0, 50.0, 25.0)), passage(2, (50.0, -30.0, 30.0)))
    plan = plan_painting(demo_work, model, some, only)
    assert len(plan.to_test) == 2
    assert plan.palette == ()
    assert plan.fewest_proven


def test_what_is_lifted_is_held_against_lifted_swatches(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    lab = _lab(demo_work, "S90")
    assert find_swatch(demo_work, "S90").facts.application is not Application.LIFTED
    lifted = passage(2, lab, technique=Application.LIFTED, over=1)
    some = painting(find_paper(demo_work, "ECP"), passage(1, _lab(demo_work, "S208")), lifted)
    plan = plan_painting(demo_work, model, some, NOTHING)
    (needed,) = plan.to_test
    assert needed.number == 2
    assert needed.needed is not None
    assert "how far the wash below lifts" in needed.needed


def test_care_of_spatter_is_told_for_what_is_spattered(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    lab = _lab(demo_work, "S90")
    paper = find_paper(demo_work, "ECP")
    plan = plan_painting(
        demo_work,
        model,
        painting(paper, passage(1, lab, technique=Application.SPATTER, share=0.1)),
        NOTHING,
    )
    assert [str(care.work) for care in plan.cares] == ["brush", "spatter"]
    assert any("mist" in point.text for point in plan.cares[1].general)


def _of(plan: Plan) -> list[str]:
    return [mix.letter for mix in plan.mixes]


def test_progress_rises_to_nearly_the_end(demo_work: UnitOfWork, model: PaintModel) -> None:
    told: list[float] = []
    plan = plan_painting(demo_work, model, _painting(demo_work, CODES), NOTHING, tell=told.append)
    assert told == sorted(told)
    assert 0.0 <= told[0] <= told[-1] <= 1.0
    assert _of(plan) == sorted(_of(plan))
