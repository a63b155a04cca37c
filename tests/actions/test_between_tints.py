"""Tints between the recorded swatches of a mix of the demo studio."""

from dataclasses import replace

import pytest

from studio.actions.between_tints import between_tints
from studio.actions.find import find_paint, find_paper, find_swatch
from studio.actions.match_colour import ANOTHER_COLOUR, Wanted
from studio.actions.paint_model import PaintModel, paint_model
from studio.actions.read_target import Target, read_target
from studio.colour.difference import ciede2000
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import TODAY


@pytest.fixture
def model(demo_work: UnitOfWork) -> PaintModel:
    """The paints of the demo studio."""
    return paint_model(demo_work, TODAY)


def _without(model: PaintModel, code: str) -> PaintModel:
    kept = [row for row, patch in enumerate(model.inputs.patches) if patch.code != code]
    inputs = replace(model.inputs, patches=tuple(model.inputs.patches[row] for row in kept))
    return replace(
        model, inputs=inputs, observations=tuple(model.observations[row] for row in kept)
    )


@pytest.mark.parametrize("code", ["S231", "S234", "S235"])
def test_a_held_out_tint_is_told_from_its_neighbours(
    code: str, demo_work: UnitOfWork, model: PaintModel
) -> None:
    """Washes of ultramarine and burnt sienna at 0.5 to 16 parts of water."""
    swatch = find_swatch(demo_work, code)
    target = Target(swatch.lab, code, swatch_id=swatch.id)
    found = between_tints(demo_work, _without(model, code), target, Wanted(), 3)
    (tint,) = [each for each in found.tints if each.mix.id == swatch.mix_id]
    assert tint.is_between
    assert tint.delta_e < 1.2
    assert tint.delta_e == pytest.approx(
        ciede2000(swatch.lab.coordinates, tint.lab.coordinates), abs=1e-6
    )
    water = swatch.facts.water
    assert water is not None
    assert tint.water == pytest.approx(water, rel=0.35)
    low, high = (each.facts.water for each in tint.beside)
    assert low is not None
    assert high is not None
    assert low < tint.water < high
    assert tint.nearest_delta_e > tint.delta_e


def test_tints_are_ranked_and_nearer_than_their_own_swatches(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    found = between_tints(demo_work, model, read_target(demo_work, "#b58a6e"), Wanted(), 10)
    assert found.tints
    assert [each.rank for each in found.tints] == list(range(1, len(found.tints) + 1))
    away = [each.delta_e for each in found.tints]
    assert away == sorted(away)
    assert all(each.delta_e <= min(ANOTHER_COLOUR, each.nearest_delta_e) for each in found.tints)
    assert found.left_out >= 8
    assert found.series >= 20


def test_filters_narrow_the_series(demo_work: UnitOfWork, model: PaintModel) -> None:
    target = read_target(demo_work, "#b58a6e")
    only = Wanted(using=[find_paint(demo_work, "FU")])
    every = between_tints(demo_work, model, target, Wanted(), 10)
    some = between_tints(demo_work, model, target, only, 10)
    assert 0 < some.series < every.series
    assert (
        between_tints(
            demo_work, model, target, Wanted(paper=find_paper(demo_work, "HSR")), 10
        ).tints
        == ()
    )


def test_a_studio_without_series_has_none(work: UnitOfWork) -> None:
    model = paint_model(work, TODAY)
    found = between_tints(work, model, read_target(work, "tan"), Wanted(), 3)
    assert (found.tints, found.series) == ((), 0)
