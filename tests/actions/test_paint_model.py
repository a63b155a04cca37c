"""The model is computed once from what the swatches tell, kept, and found again as it was."""

import numpy as np
import pytest

from studio.actions import paint_model as module
from studio.actions.contradictions import between_patches
from studio.actions.edit_paint import retire_paint
from studio.actions.known_paint import known_paint
from studio.actions.model_inputs import UnknownPaint, model_inputs
from studio.actions.paint_knowledge import PaintKnowledge, read_from
from studio.actions.paint_model import PaintModel, keep_model, paint_model
from studio.actions.paper_ground import GroundBasis, usual_white
from studio.catalogue.reading import Backing
from studio.colour.tristimulus import ciede2000
from studio.mixing.predict import predict, recipes_of
from studio.storage.address import Database
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.conftest import DAY, Shelf
from tests.actions.washes import NM, PAPER, Washes, film, glowing, lab, spectrum
from tests.servers import names_alone


@pytest.fixture
def washes(shelf: Shelf) -> Washes:
    return Washes(shelf)


@pytest.fixture
def usual(washes: Washes) -> Washes:
    washes.usual()
    return washes


def _model(washes: Washes) -> PaintModel:
    return paint_model(washes.shelf.work, DAY)


def _off(washes: Washes, model: PaintModel) -> float:
    """ΔE00 of a predicted mix, 2 UM + 1 BS, from what it is."""
    assert model.known is not None
    parts = {washes.shelf.paint("UM").id: 2, washes.shelf.paint("BS").id: 1}
    seen = predict(model.known, recipes_of(model.known, [parts]), 3.0, PAPER)
    lab_of = model.known.light.lab
    return float(ciede2000(lab_of(seen)[0], lab_of(film("2 UM + 1 BS"))))


def _no_computing(*_: object, **__: object) -> None:
    msg = "computed again"
    raise AssertionError(msg)


def test_the_model_predicts_washes_that_it_was_not_computed_from(usual: Washes) -> None:
    model = _model(usual)
    assert model.known is not None
    ground = model.ground(usual.shelf.paper("SR"))
    assert ground.basis is GroundBasis.MEASURED
    np.testing.assert_allclose(ground.reflectance, PAPER, atol=1e-12)
    assert _off(usual, model) < 3.0
    assert (model.measured, model.estimated) == (9, 0)
    assert model.contradictions == ()


def test_what_was_kept_is_found_again_without_computing(
    usual: Washes, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = _model(usual)
    assert first.fresh is None  # recorded, as the unit of work writes
    monkeypatch.setattr(module, "characterise", _no_computing)
    again = _model(usual)
    assert first.known is not None
    assert again.known is not None
    np.testing.assert_array_equal(first.known.K, again.known.K)
    np.testing.assert_array_equal(first.known.covariance, again.known.covariance)
    assert again.knowledge == first.knowledge
    for one, other in zip(first.observations, again.observations, strict=True):
        assert one.parts == other.parts
        np.testing.assert_array_equal(one.spectrum, other.spectrum)
    usual.lay("UM + BS", 6.0)
    with pytest.raises(AssertionError, match="computed again"):
        _model(usual)


def test_a_new_swatch_refines_what_was_kept(usual: Washes) -> None:
    before = _off(usual, _model(usual))
    for recipe in ("3 UM + BS", "UM + 3 BS"):
        usual.lay(recipe)
        usual.lay(recipe, 6.0)
    model = _model(usual)
    assert _off(usual, model) < before
    kept = usual.shelf.work.characterisations.last()
    assert kept is not None
    assert (kept.swatches, kept.estimated, kept.computed_on) == (13, 0, DAY)
    assert read_from(kept.content) == model.knowledge


def test_a_result_of_another_model_is_no_beginning(
    usual: Washes, monkeypatch: pytest.MonkeyPatch
) -> None:
    _model(usual)
    kept = usual.shelf.work.characterisations.last()
    assert kept is not None
    monkeypatch.setattr(module, "unpacked", _no_computing)
    assert module._start(None) is None
    with monkeypatch.context() as patch:
        patch.setattr(module, "MODEL", "film 0")
        assert module._start(kept) is None
    with pytest.raises(AssertionError):
        module._start(kept)


def test_looking_computes_and_keeps_only_when_told(usual: Washes) -> None:
    work = usual.shelf.work
    work.commit()
    with UnitOfWork(work.path) as looking:
        model = paint_model(looking, DAY)
        assert model.fresh is not None
        assert looking.characterisations.last() is None
        assert keep_model(looking, model)
    with UnitOfWork(work.path) as looking:
        again = paint_model(looking, DAY)
        assert again.fresh is None
        assert not keep_model(looking, again)


@pytest.mark.file_only("a setting of SQLite")
def test_a_database_that_cannot_be_written_still_has_a_model(usual: Washes) -> None:
    work = usual.shelf.work
    work.commit()
    with UnitOfWork(work.path) as looking:
        looking.connection.exec_driver_sql("PRAGMA query_only = ON")
        model = paint_model(looking, DAY)
        assert model.known is not None
        assert not keep_model(looking, model)
        assert len(looking.swatches.all()) == 9  # the unit of work goes on
        assert looking.characterisations.last() is None


@pytest.mark.file_only("a setting of SQLite")
def test_another_program_writing_does_no_harm(usual: Washes) -> None:
    work = usual.shelf.work
    work.commit()
    with UnitOfWork(work.path) as looking:
        model = paint_model(looking, DAY)
        with UnitOfWork(work.path, write=True):
            looking.connection.exec_driver_sql("PRAGMA busy_timeout = 1")
            assert not keep_model(looking, model)


def test_without_a_swatch_there_is_no_model_and_no_guess(washes: Washes) -> None:
    model = _model(washes)
    assert model.known is None
    assert model.offered == ()
    assert (model.measured, model.estimated) == (0, 0)
    assert not keep_model(washes.shelf.work, model)
    assert model.ground(washes.shelf.paper("SR")).basis is GroundBasis.USUAL


def test_without_spectra_it_works_from_estimated_ones_and_is_less_sure(usual: Washes) -> None:
    exact = _model(usual)
    assert exact.known is not None
    light = exact.known.light
    other = Washes(usual.shelf)
    mean = sum(each.error for each in exact.knowledge) / 3
    work = usual.shelf.work
    names_alone(work.connection)
    for table in ("reading", "swatch", "mix_component", "mix", "characterisation"):
        work.connection.exec_driver_sql(f"DELETE FROM {table}")
    work.forget()
    for recipe, water in [*((code, w) for code in ("UM", "BS", "AC") for w in (2.0, 6.0))]:
        lightness, a, b = light.lab(film(recipe, water)).tolist()
        other.lay(recipe, water, reading=lab(lightness, a, b))
    model = _model(other)
    assert (model.measured, model.estimated) == (0, 6)
    assert all(seen.estimated for seen in model.observations)
    assert model.ground(usual.shelf.paper("SR")).basis is GroundBasis.USUAL
    assert sum(each.error for each in model.knowledge) / 3 > mean
    for patch, seen in zip(model.inputs.patches, model.observations, strict=True):
        there = np.array(patch.readings[0].lab.coordinates)
        assert ciede2000(light.lab(seen.spectrum), there) < 0.6


def test_a_paper_read_as_lab_alone_is_estimated_and_one_not_read_is_a_usual_white(
    usual: Washes,
) -> None:
    smooth = usual.shelf.paper("SM")
    assert _model(usual).ground(smooth).basis is GroundBasis.USUAL
    usual.shelf.work.papers.add_white(smooth.id, lab(95, -0.3, 3.2))
    model = _model(usual)
    ground = model.ground(usual.shelf.paper("SM"))
    assert ground.basis is GroundBasis.ESTIMATED
    assert model.known is not None
    assert np.linalg.norm(model.known.light.lab(ground.reflectance) - (95, -0.3, 3.2)) < 1.0
    assert np.all(model.ground(None).reflectance == usual_white())
    assert np.linalg.norm(model.known.light.lab(usual_white())[1:]) < 6.0


def test_brightened_paper_is_no_whiter_than_white(usual: Washes) -> None:
    usual.shelf.work.papers.add_white(
        usual.shelf.paper("SM").id, spectrum(np.where(NM == 440.0, 1.2, PAPER))
    )
    ground = _model(usual).ground(usual.shelf.paper("SM"))
    assert ground.reflectance.max() == 0.99


def test_a_retired_paint_is_known_and_not_offered(usual: Washes) -> None:
    retire_paint(usual.shelf.work, usual.shelf.paint("BS"))
    model = _model(usual)
    assert model.known is not None
    sienna = usual.shelf.paint("BS").id
    assert sienna in model.known.paints
    assert [paint.facts.code for paint in model.offered] == ["UM", "AC"]
    for each in model.knowledge:
        named = () if each.next is None else each.next.parts
        assert sienna not in dict(named)
        assert each.paint != sienna or each.next is None


def test_a_fluorescing_paint_is_left_out_of_the_model(usual: Washes) -> None:
    usual.lay("SO", reading=spectrum(glowing()))
    usual.lay("UM + SO", reading=lab(50, 10, 10))
    model = _model(usual)
    assert model.known is not None
    assert usual.shelf.paint("SO").id not in model.known.paints
    (unknown,) = [each for each in model.inputs.unknown if each.paint.facts.code == "SO"]
    assert "in one mix alone" in unknown.why


def test_patches_of_a_swatch_are_told_with_what_the_model_saw(usual: Washes) -> None:
    swatch = usual.shelf.work.swatches.all()[0]
    usual.again(swatch, spectrum(0.95 * film("UM", 2.0), backing=Backing.BLACK))
    model = _model(usual)
    pairs = model.patches_of(swatch.id)
    assert [patch.readings[0].backing for patch, _ in pairs] == [None, Backing.BLACK]
    assert [seen.name for _, seen in pairs] == ["S1", "S1"]
    assert model.patches_of(999) == ()


def test_swatches_of_one_mix_that_disagree_are_named(usual: Washes) -> None:
    assert between_patches(model_inputs(usual.shelf.work).patches) == []
    usual.lay("UM", 2.0, reading=spectrum(film("UM", 6.0)))
    found = _model(usual).contradictions
    assert found[0].codes == ("S1", "S10")
    assert found[0].why.startswith("S1 and S10 are the same mix laid alike and differ by ΔE00 ")
    assert found[0].delta_e > 6.0


def test_more_paint_must_not_be_paler(usual: Washes) -> None:
    usual.lay("UM", 1.0, layers=2, reading=spectrum(film("UM", 12.0)))
    (found, *_) = between_patches(model_inputs(usual.shelf.work).patches)
    assert found.codes == ("S1", "S10")
    assert "S10 was laid with more paint than S1 of the same mix" in found.why
    assert "(water 1:1 in 2 layers against water 2:1)" in found.why


def test_water_is_not_compared_where_the_paper_was_not_read_or_water_not_recorded(
    washes: Washes,
) -> None:
    washes.lay("UM", 2.0)
    washes.lay("UM", 1.0, reading=spectrum(film("UM", 12.0)))
    washes.lay("UM", None, reading=spectrum(film("UM", 30.0)))
    assert between_patches(model_inputs(washes.shelf.work).patches) == []


def test_a_swatch_that_all_others_speak_against_is_named(usual: Washes) -> None:
    for recipe in ("UM + BS", "UM + AC", "BS + AC"):
        usual.lay(recipe, 5.0)
    usual.lay("2 UM + AC", 3.0, reading=spectrum(film("BS")))
    found = _model(usual).contradictions
    assert found[0].codes == ("S13",)
    assert found[0].why.endswith("from what all other swatches of its paints tell, "
                                 "however thick its film")  # fmt: skip


def test_knowing_a_paint_reads_what_is_kept_and_else_computes(usual: Washes) -> None:
    work = usual.shelf.work
    asked: list[Database] = []

    def compute(asking: UnitOfWork) -> PaintModel:
        asked.append(asking.path)
        return paint_model(asking, DAY)

    first = known_paint(work, usual.shelf.paint("UM"), compute)
    again = known_paint(work, usual.shelf.paint("UM"), compute)
    assert len(asked) == 1
    assert first.model is not None
    assert again.model is None
    assert isinstance(first.knowledge, PaintKnowledge)
    assert first.knowledge == again.knowledge
    assert (first.knowledge.alone, first.knowledge.mixes, first.knowledge.mixed) == (2, 2, 2)
    assert first.knowledge.next is not None
    assert set(first.partners) == {paint for paint, _ in first.knowledge.next.parts}
    assert first.knowledge.next.after < first.knowledge.error - 0.1
    missing = known_paint(work, usual.shelf.paint("TG"), compute)
    assert isinstance(missing.knowledge, UnknownPaint)
    assert len(asked) == 1
