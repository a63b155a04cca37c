"""Trust is the model's error on mixes that it was not computed from, paint by paint."""

import numpy as np
import pytest

from studio.actions.paint_model import paint_model
from studio.actions.trust import recipe_of, trust
from studio.colour.difference import ciede2000
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.conftest import DAY, Shelf
from tests.actions.washes import Washes, film, lab, spectrum
from tests.conftest import TODAY


@pytest.fixture
def washes(shelf: Shelf) -> Washes:
    return Washes(shelf)


def test_each_mix_is_told_from_the_others_and_washes_are_not(washes: Washes) -> None:
    washes.usual()
    model = paint_model(washes.shelf.work, DAY)
    found = trust(model)
    assert sorted(each.patch.code for each in found.foretold) == ["S7", "S8", "S9"]
    assert (found.mixes.count, found.sets.count, found.staying) == (3, 3, 0)
    for each in found.foretold:
        there, here = each.measured.coordinates, each.predicted.coordinates
        assert ciede2000(there, here) == pytest.approx(each.delta_e, abs=1e-6)
        assert ciede2000(there, each.patch.swatch.lab.coordinates) < 0.1
        assert each.delta_e < 6.0  # the studio is as the model has it
    away = [each.delta_e for each in found.foretold]
    assert away == sorted(away, reverse=True)
    assert found.sets.mean == pytest.approx(np.mean(away))
    assert found.sets.median == pytest.approx(np.median(away))
    assert found.sets.within == np.mean([each.delta_e <= each.expected for each in found.foretold])
    assert {each.paint.facts.code: each.errors.count for each in found.paints} == {
        "UM": 2, "BS": 2, "AC": 2,
    }  # fmt: skip
    means = [each.errors.mean for each in found.paints]
    assert means == sorted(means, reverse=True)


def test_leaving_out_a_mix_leaves_its_sisters_and_a_set_does_not(washes: Washes) -> None:
    washes.usual()
    for recipe in ("4 UM + BS", "2 UM + BS", "UM + 2 BS", "UM + 4 BS"):
        washes.lay(recipe)
    found = trust(paint_model(washes.shelf.work, DAY))
    assert found.mixes.count == found.sets.count == 7
    assert found.mixes.mean < found.sets.mean


def test_a_swatch_that_is_wrong_is_the_furthest_off(washes: Washes) -> None:
    washes.usual()
    washes.lay("2 UM + AC", reading=spectrum(film("BS")))
    worst = trust(paint_model(washes.shelf.work, DAY)).foretold[0]
    assert worst.patch.code == "S10"
    assert worst.delta_e > 3.0 * worst.expected


def test_a_mix_stays_where_one_of_its_paints_has_nothing_else(washes: Washes) -> None:
    washes.usual()
    washes.lay("SO + UM", reading=lab(60, 0, 20))
    washes.lay("3 SO + UM", reading=lab(65, 5, 40))
    found = trust(paint_model(washes.shelf.work, DAY))
    assert found.sets.count == 3
    assert found.staying == 2
    assert "SO" not in {each.paint.facts.code for each in found.paints}


def test_without_swatches_or_mixes_it_says_what_is_missing(washes: Washes) -> None:
    work = washes.shelf.work
    with pytest.raises(BadInput, match=r"no paint has enough dry swatches .* log flat washes"):
        trust(paint_model(work, DAY))
    washes.lay("UM")
    with pytest.raises(BadInput, match="no mix can be left out yet: log washes of two paints"):
        trust(paint_model(work, DAY))


def test_a_studio_without_paints_is_told_to_begin_with_one(work: UnitOfWork) -> None:
    with pytest.raises(BadInput, match="there is no paint yet"):
        trust(paint_model(work, DAY))


def test_on_the_demo_the_expected_error_is_honest_and_small(demo_work: UnitOfWork) -> None:
    model = paint_model(demo_work, TODAY)
    found = trust(model)
    assert found.sets.count > 100
    assert found.sets.mean < 3.0
    assert 0.58 < found.sets.within < 0.78
    assert len(found.paints) == 24
    codes = [part.paint.facts.code for part in recipe_of(model, found.foretold[0].patch)]
    assert len(codes) > 1
