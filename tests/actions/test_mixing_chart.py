"""Mixing charts: measured where a swatch is on record, else what the model predicts, else why."""

import math
from dataclasses import replace

import numpy as np
import pytest

from studio.actions.chart_cells import SHARE_NEAR, WASH_NEAR, Cell, settled
from studio.actions.find import find_paint, find_paper
from studio.actions.mixing_chart import (
    MOST_PAINTS,
    RATIOS,
    WATERS,
    MixingChart,
    pair_chart,
    pairs_chart,
)
from studio.actions.paint_model import PaintModel, paint_model
from studio.catalogue.paint import Paint, Status
from studio.catalogue.swatch import Application
from studio.errors import BadInput
from studio.mixing.predict import expected_error, predict
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.conftest import Shelf
from tests.actions.washes import Washes
from tests.conftest import TODAY


@pytest.fixture
def model(demo_work: UnitOfWork) -> PaintModel:
    """The paints of the demo studio."""
    return paint_model(demo_work, TODAY)


@pytest.fixture
def demo_pair(demo_work: UnitOfWork, model: PaintModel) -> MixingChart:
    """Ultramarine and burnt sienna, the pair with most swatches."""
    pair = find_paint(demo_work, "FU"), find_paint(demo_work, "BS")
    return pair_chart(demo_work, model, pair)


def _shares(cell: Cell) -> dict[int, float]:
    total = sum(part.parts for part in cell.recipe)
    return {part.paint.id: part.parts / total for part in cell.recipe}


def test_a_measured_cell_is_the_reading_of_its_swatch(
    demo_pair: MixingChart, demo_work: UnitOfWork
) -> None:
    measured = [cell for cell in demo_pair.cells if cell.is_measured]
    assert len(measured) == demo_pair.measured >= 10
    for cell in measured:
        swatch = cell.swatch
        assert swatch is not None
        assert cell.lab == swatch.lab == demo_work.swatches.by_ids([swatch.id])[swatch.id].lab
        parts = dict(demo_work.mixes.by_ids([swatch.mix_id])[swatch.mix_id].recipe.parts)
        shares = {key: amount / sum(parts.values()) for key, amount in parts.items()}
        assert shares.keys() == _shares(cell).keys()
        assert all(abs(shares[key] - share) < SHARE_NEAR for key, share in _shares(cell).items())
        assert swatch.facts.water is not None
        assert 1 / WASH_NEAR <= (1 + swatch.facts.water) / (1 + cell.water) <= WASH_NEAR
        assert swatch.facts.layers == 1
        assert swatch.paper_id == (demo_pair.paper and demo_pair.paper.id)
        assert (cell.error, cell.why) == (None, None)


def test_a_predicted_cell_is_what_the_model_predicts(
    demo_pair: MixingChart, model: PaintModel
) -> None:
    known = model.known
    assert known is not None
    ground = model.ground(demo_pair.paper).reflectance
    predicted = [cell for cell in demo_pair.cells if cell.is_predicted]
    assert len(predicted) == demo_pair.predicted > 20
    for cell in predicted[::5]:
        shares = [[_shares(cell).get(key, 0.0) for key in known.paints]]
        lab = known.light.lab(predict(known, shares, cell.water, ground))[0]
        assert cell.lab is not None
        np.testing.assert_allclose(cell.lab.coordinates, lab, atol=1e-9)
        error = expected_error(known, shares, cell.water, ground)[0]
        assert cell.error == pytest.approx(error, abs=1e-9)


def test_even_pairs_are_what_the_model_predicts_and_halves_have_their_waters(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    paints = [find_paint(demo_work, code) for code in ("FU", "BS", "HY", "QM")]
    found = pairs_chart(demo_work, model, paints, as_named=True, waters=(2.5, 9.0))
    known = model.known
    assert known is not None
    assert found.paints == tuple(paints)
    for down, row in enumerate(found.rows):
        for across, cell in enumerate(row):
            assert cell.water == (9.0 if down > across else 2.5)
            assert {part.paint.id for part in cell.recipe} == {paints[down].id, paints[across].id}
            assert all(part.parts == 1 for part in cell.recipe)
            if cell.is_predicted:
                shares = [[_shares(cell).get(key, 0.0) for key in known.paints]]
                ground = model.ground(found.paper).reflectance
                lab = known.light.lab(predict(known, shares, cell.water, ground))[0]
                assert cell.lab is not None
                np.testing.assert_allclose(cell.lab.coordinates, lab, atol=1e-9)


def test_the_ends_are_each_paint_alone_and_between_them_proportions_fall(
    demo_pair: MixingChart,
) -> None:
    one, other = demo_pair.paints
    for row in demo_pair.rows:
        assert [part.paint for part in row[0].recipe] == [one]
        assert [part.paint for part in row[-1].recipe] == [other]
        assert len({cell.water for cell in row}) == 1
        shares = [_shares(cell).get(one.id, 0.0) for cell in row]
        assert shares == sorted(shares, reverse=True)
        assert len(set(shares)) == len(RATIOS) + 2
    waters = [row[0].water for row in demo_pair.rows]
    assert waters == sorted(waters)


def test_steps_move_to_what_was_laid_and_never_past_one_another() -> None:
    assert settled(WATERS, []) == WATERS
    assert settled(WATERS, [3.0, 3.0, 5.0, 6.0]) == (0.5, 1.0, 2.0, 3.0, 6.0, 16.0)
    assert settled((2.0, 8.0), [1.5, 1.5, 2.0, 4.0]) == (1.5, 4.0)
    assert settled(WATERS, [0.0, 1000.0]) == WATERS
    assert settled((8.0, 4.0, 2.0), [3.0, 5.0, 5.0]) == (8.0, 5.0, 2.0)
    assert settled(WATERS, [3.0], [2.0, 2.0]) == (0.5, 1.0, 2.0, 3.0, 8.0, 16.0)
    assert settled(WATERS, [2.5], [2.0, 2.0]) == (0.5, 1.0, 2.5, 4.0, 8.0, 16.0)
    moved = settled(WATERS, [2**0.5, 2.8, 2.9, 5.6, 5.7])
    assert list(moved) == sorted(set(moved))


def test_proportions_on_record_stand_in_the_chart_as_they_were_mixed(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    """M49 is 5 hansa yellow to 1 pyrrol red, for which 4:1 gives way."""
    pair = find_paint(demo_work, "HY"), find_paint(demo_work, "PYR")
    found = pair_chart(demo_work, model, pair)
    parts = [tuple(part.parts for part in cell.recipe) for cell in found.rows[0]]
    assert parts == [(1,), (8, 1), (5, 1), (2, 1), (1, 1), (1, 2), (1, 4), (1, 8), (1,)]
    assert {row[2].swatch.facts.code for row in found.rows if row[2].swatch} == {"S145"}


def test_paper_and_waters_can_be_named(demo_work: UnitOfWork, model: PaintModel) -> None:
    pair = find_paint(demo_work, "FU"), find_paint(demo_work, "BS")
    rough = find_paper(demo_work, "CRO")
    found = pair_chart(demo_work, model, pair, paper=rough, waters=[1.0, 10.0, 1.0])
    assert found.paper == rough
    assert [row[0].water for row in found.rows] == [1.0, 10.0]
    assert {cell.swatch.paper_id for cell in found.cells if cell.swatch} == {rough.id}
    nowhere = pair_chart(demo_work, model, pair, paper=find_paper(demo_work, "HSR"))
    assert nowhere.measured == 0


@pytest.mark.parametrize("waters", [[-1.0], [math.nan], [2000.0], [float(n) for n in range(20)]])
def test_waters_that_cannot_be_are_refused(
    waters: list[float], demo_work: UnitOfWork, model: PaintModel
) -> None:
    pair = find_paint(demo_work, "FU"), find_paint(demo_work, "BS")
    with pytest.raises(BadInput, match="water"):
        pair_chart(demo_work, model, pair, waters=waters)


def test_one_paint_twice_too_few_and_too_many_are_refused(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    blue = find_paint(demo_work, "FU")
    with pytest.raises(BadInput, match="name another paint"):
        pair_chart(demo_work, model, (blue, blue))
    with pytest.raises(BadInput, match="two paints at least"):
        pairs_chart(demo_work, model, [blue])
    many = [replace(blue, id=1000 + number) for number in range(MOST_PAINTS + 1)]
    with pytest.raises(BadInput, match="or fewer by --only"):
        pairs_chart(demo_work, model, many)
    with pytest.raises(BadInput, match="two waters"):
        pairs_chart(demo_work, model, [blue, find_paint(demo_work, "BS")], waters=(1, 2, 3))


def test_paints_go_round_by_hue(demo_work: UnitOfWork, model: PaintModel) -> None:
    paints = [each for each in demo_work.paints.all() if each.facts.status is Status.IN_USE]
    found = pairs_chart(demo_work, model, paints)
    codes = [paint.facts.code for paint in found.paints]
    assert sorted(codes) == sorted(paint.facts.code for paint in paints)
    order = [codes.index(code) for code in ("HY", "RS", "PYR", "QM", "FU", "CE", "PGB")]
    assert order == sorted(order)


def test_a_paint_that_cannot_be_predicted_leaves_cells_empty_with_the_reason(shelf: Shelf) -> None:
    washes = Washes(shelf)
    for code in ("UM", "BS"):
        for water in (2.0, 4.0):
            washes.lay(code, water)
    washes.lay("1 UM + 1 AC", 2.0)
    model = paint_model(shelf.work, TODAY)
    found = pair_chart(shelf.work, model, (shelf.paint("UM"), shelf.paint("AC")))
    (unknown,) = found.unknown
    assert unknown.paint.facts.code == "AC"
    empty = [cell for cell in found.cells if cell.lab is None]
    assert empty
    assert all(cell.why and cell.why.startswith("AC: ") for cell in empty)
    assert all(
        cell.lab is not None for row in found.rows for cell in row[:1]
    )  # ultramarine alone is known
    even = [cell for cell in found.cells if _is_even(cell) and cell.water == 2.0]
    assert [cell.is_measured for cell in even] == [True]  # a swatch needs no model


def _is_even(cell: Cell) -> bool:
    return len(cell.recipe) > 1 and cell.recipe[0].parts == cell.recipe[1].parts


def test_where_nothing_is_known_at_all_it_says_what_to_lay(shelf: Shelf) -> None:
    model = paint_model(shelf.work, TODAY)
    with pytest.raises(BadInput, match=r"nothing can be shown yet of .*; make a flat wash of"):
        pair_chart(shelf.work, model, (shelf.paint("UM"), shelf.paint("AC")))
    with pytest.raises(BadInput, match="nothing can be shown yet"):
        pairs_chart(shelf.work, model, shelf.work.paints.all())


@pytest.mark.parametrize(
    ("layers", "application"), [(2, Application.FLAT_WASH), (1, Application.SPATTER)]
)
def test_a_second_layer_or_an_uneven_film_stands_for_no_cell(
    layers: int, application: Application, shelf: Shelf
) -> None:
    washes = Washes(shelf)
    for code in ("UM", "BS"):
        washes.lay(code, 4.0)
    washes.lay("1 UM + 1 BS", 4.0, layers=layers, application=application)
    model = paint_model(shelf.work, TODAY)
    found = pair_chart(shelf.work, model, (shelf.paint("UM"), shelf.paint("BS")))
    assert found.measured == 2


def test_of_several_swatches_the_nearest_wash_counts(shelf: Shelf) -> None:
    washes = Washes(shelf)
    for code in ("UM", "BS"):
        washes.lay(code, 4.0)
    near, _ = washes.lay("1 UM + 1 BS", 4.0), washes.lay("1 UM + 1 BS", 4.3)
    model = paint_model(shelf.work, TODAY)
    pair: tuple[Paint, Paint] = shelf.paint("UM"), shelf.paint("BS")
    found = pair_chart(shelf.work, model, pair, waters=[4.0])
    (cell,) = [each for each in found.cells if _is_even(each)]
    assert cell.swatch is not None
    assert (cell.swatch.id, cell.alike) == (near.id, 1)
