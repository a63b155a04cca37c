"""Wells for children: few whole parts, cards before predictions, and what that costs."""

import pytest

from studio.actions.match_colour import ANOTHER_COLOUR, Wanted
from studio.actions.paint_model import paint_model
from studio.actions.painting.candidates import NEAR, in_small_parts
from studio.actions.painting.class_plan import SmallParts
from studio.actions.painting.plan import Basis, Candidate, Plan
from studio.actions.painting.plan_class import SMALL_PARTS, _small_parts
from studio.actions.painting.plan_painting import open_search, planned
from studio.catalogue.swatch import Swatch
from studio.colour.lab import Lab
from studio.sheets.class_plan_words import counted_texts, small_text
from tests.actions.conftest import Shelf
from tests.actions.painting.paintings import painting, passage
from tests.actions.washes import Washes
from tests.conftest import TODAY


@pytest.fixture
def washes(shelf: Shelf) -> Washes:
    """A studio of three paints with two washes of each and a mix of each pair."""
    made = Washes(shelf)
    made.usual()
    return made


def _plans(washes: Washes, *labs: Lab, tolerance: float = 3.0) -> tuple[Plan, Plan]:
    """The plan in any parts and the one in small parts."""
    work = washes.shelf.work
    model = paint_model(work, TODAY)
    passages = [passage(number, lab) for number, lab in enumerate(labs, start=1)]
    one = painting(washes.shelf.paper("SR"), *passages, tolerance=tolerance)
    free, small = (
        planned(open_search(work, model, one, Wanted(), together))[0]
        for together in (None, SMALL_PARTS)
    )
    return free, small


def _beside(swatch: Swatch, by: float) -> Lab:
    """A colour so much lighter than a swatch."""
    return Lab(swatch.lab.lightness + by, swatch.lab.a, swatch.lab.b)


def test_no_well_has_more_than_four_parts(washes: Washes) -> None:
    five = washes.lay("7 UM + 2 BS")
    eleven = washes.lay("5 UM + 6 BS", 2.0)
    free, small = _plans(washes, five.lab, eleven.lab)
    assert [each.chosen.swatch for each in free.colours if each.chosen] == [five, eleven]
    assert small.mixes
    for mix in small.mixes:
        assert sum(part.parts for part in mix.recipe) <= SMALL_PARTS
        assert mix.water is not None
        assert (2 * mix.water).is_integer()


def test_a_card_that_is_near_comes_before_any_prediction(washes: Washes) -> None:
    """Beyond what the painting lets pass, but no other colour: a child can hold the card."""
    card = washes.lay("1 UM + 1 AC", 5.0)
    asked = _beside(card, 5.0)
    free, small = _plans(washes, asked)
    (loose,), (held,) = free.colours, small.colours
    assert loose.chosen is not None
    assert loose.chosen.basis is not Basis.RECORDED
    assert held.chosen is not None
    assert held.chosen.swatch == card
    assert 3.0 < held.chosen.delta_e <= NEAR == ANOTHER_COLOUR


def test_where_none_is_near_small_parts_are_predicted(washes: Washes) -> None:
    free, small = _plans(washes, _beside(washes.lay("5 UM + 4 BS", 12.0), 0.5))
    (each,) = small.colours
    assert free.colours[0].chosen is not None
    assert free.colours[0].chosen.basis is Basis.RECORDED
    assert each.chosen is None or each.chosen.basis is Basis.PREDICTED


def test_what_small_parts_cost_is_told(washes: Washes) -> None:
    free, small = _plans(washes, washes.lay("7 UM + 2 BS").lab, washes.lay("UM + BS", 2.0).lab)
    told = _small_parts(free, small)
    assert [each.delta_e for each in told.colours] == pytest.approx([0.0, 0.0], abs=1e-6)
    costs = [cost for _, cost in told.costs]
    made = [each.delta_e for each in small.colours if each.mix is not None]
    assert costs == pytest.approx(made)
    assert costs[0] > 0.2
    assert told.mean_cost == pytest.approx(sum(costs) / len(costs))
    text = " ".join(small_text(told))
    assert f"ΔE00 {told.mean_cost:.1f} on average" in text
    assert f"1 passage 1 {made[0]:.1f} instead of 0.0" in text


def test_a_colour_that_only_larger_parts_make_is_named(washes: Washes) -> None:
    free, small = _plans(washes, washes.lay("5 UM + 6 BS", 0.5).lab, tolerance=0.01)
    (lost,) = small.colours
    assert lost.mix is None
    assert lost.needed is not None
    assert lost.needed.startswith(f"in {SMALL_PARTS} parts at most ")
    assert "Only larger parts make 1 passage 1." in small_text(_small_parts(free, small))


def test_a_plan_of_nothing_costs_nothing() -> None:
    none = SmallParts(4, 5.0, ())
    assert none.mean_cost is None
    assert len(small_text(none)) == 1


def test_a_water_that_nobody_measures_is_left_out(washes: Washes) -> None:
    card = washes.lay("UM + BS", 3.0)
    work = washes.shelf.work
    model = paint_model(work, TODAY)
    one = painting(washes.shelf.paper("SR"), passage(1, card.lab))
    found = planned(open_search(work, model, one, Wanted()))[0].colours[0].chosen
    assert found is not None
    assert in_small_parts([found, _with(found, 2.37), _with(found, 2.5)], 4) == (
        found,
        _with(found, 2.5),
    )


def _with(candidate: Candidate, water: float) -> Candidate:
    from dataclasses import replace

    return replace(candidate, water=water)


@pytest.mark.parametrize(
    ("recipe", "water", "said"),
    [
        ("UM + BS", 3.0, ("1 part Ultramarine + 1 part Burnt Sienna", "6 parts water")),
        ("2 UM + 1 BS", 2.5, ("2 parts Ultramarine + 1 part Burnt Sienna", "7 1/2 parts water")),
        ("UM", 0.5, ("1 part Ultramarine", "1/2 part water")),
        ("UM", 1.0, ("1 part Ultramarine", "1 part water")),
    ],
)
def test_parts_are_counted_out(
    washes: Washes, recipe: str, water: float, said: tuple[str, str]
) -> None:
    _, small = _plans(washes, washes.lay(recipe, water).lab)
    (mix,) = small.mixes
    assert counted_texts(mix) == said
