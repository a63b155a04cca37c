"""Predicted recipes hold to the filters, say what they rest on, and refuse in one sentence."""

from dataclasses import replace

import pytest

from studio.actions.beyond_paints import Failing
from studio.actions.find import find_paint, find_paper
from studio.actions.formulate_colour import FormulateResult, Laying, formulate_colour
from studio.actions.match_colour import ANOTHER_COLOUR, Wanted
from studio.actions.paint_model import paint_model
from studio.actions.paper_ground import GroundBasis
from studio.actions.proposed_mix import ProposedMix
from studio.actions.read_target import read_target
from studio.actions.use_stock import correct_stock
from studio.catalogue.stock import StockEvent, StockKind
from studio.colour.difference import ciede2000
from studio.colour.lab import Lab
from studio.colour.metamerism import PASSES
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.conftest import Shelf
from tests.conftest import TODAY

GREEN = "#767d63"
UNMIXED = "lab(58 18 34)"


def _asked(
    work: UnitOfWork,
    target: str = UNMIXED,
    wanted: Wanted = Wanted(in_stock=True),  # noqa: B008 - frozen
    laying: Laying = Laying(most=2),  # noqa: B008 - frozen
    count: int = 5,
) -> FormulateResult:
    model = paint_model(work, TODAY)
    return formulate_colour(work, model, read_target(work, target), wanted, laying, count=count)


def _codes(mix: ProposedMix) -> set[str]:
    return {part.paint.facts.code for part in mix.recipe}


def test_recipes_are_ranked_and_say_what_they_rest_on(demo_work: UnitOfWork) -> None:
    found = _asked(demo_work, laying=Laying(3))
    assert [each.rank for each in found.proposals] == [1, 2, 3, 4, 5]
    assert found.beyond is None
    assert found.reached <= found.nearest.delta_e <= found.proposals[0].delta_e + 1e-9
    for each in found.proposals:
        assert each.delta_e <= ANOTHER_COLOUR
        assert each.delta_e == ciede2000(found.target.lab.coordinates, each.lab.coordinates)
        assert each.expected_error > 0.5
        assert not each.out_of_stock
        assert [rest.paint for rest in each.rests] == [part.paint for part in each.recipe]
        assert all(rest.alone + rest.mixed > 0 for rest in each.rests)
        assert all(rest.estimated <= rest.alone + rest.mixed for rest in each.rests)
    assert found.measured > 0
    assert found.estimated > 0


def test_mixes_on_record_that_are_near_are_named(demo_work: UnitOfWork) -> None:
    found = _asked(demo_work, GREEN)
    assert found.recorded[0].mix.name == "salt marsh turf"
    assert all(match.difference <= PASSES for match in found.recorded)


def test_pairs_that_were_never_mixed_are_told(demo_work: UnitOfWork) -> None:
    mixed = {mix.recipe.paints for mix in demo_work.mixes.all()}
    for each in _asked(demo_work, count=20).proposals:
        for one, other in each.strangers:
            assert not any({one.id, other.id} <= paints for paints in mixed)
            assert {one, other} <= {part.paint for part in each.recipe}


def test_a_recipe_on_record_is_named(demo_work: UnitOfWork) -> None:
    raw_sienna = find_paint(demo_work, "RS")
    found = _asked(demo_work, GREEN, Wanted(only=[raw_sienna]))
    (only,) = found.proposals
    assert only.mix is not None
    assert only.mix.recipe.paints == {raw_sienna.id}


def test_filters_hold(demo_work: UnitOfWork) -> None:
    blue, sienna, ochre = (find_paint(demo_work, code) for code in ("FU", "BS", "YO"))
    for each in _asked(demo_work, wanted=Wanted(only=[blue, sienna, ochre])).proposals:
        assert _codes(each) <= {"FU", "BS", "YO"}
    for each in _asked(demo_work, wanted=Wanted(using=[ochre], without=[sienna])).proposals:
        assert "YO" in _codes(each)
        assert "BS" not in _codes(each)
    lasting = _asked(demo_work, wanted=Wanted(lightfast=1, hazards=frozenset({"cobalt"})))
    assert lasting.proposals
    for each in lasting.proposals:
        rating = each.worst_rating
        assert rating is not None
        assert rating.rank == 1
        assert not any("cobalt" in part.paint.hazard_classes for part in each.recipe)
        assert not any(part.paint.unread for part in each.recipe)
    one = _asked(demo_work, laying=Laying(most=1))
    assert {len(each.recipe) for each in one.proposals} == {1}
    assert _asked(demo_work, laying=Laying(2)).combinations > one.combinations


def test_stock_counts_unless_a_paint_is_named(demo_work: UnitOfWork) -> None:
    ochre = find_paint(demo_work, "YO")
    for container in demo_work.containers.of_paint(ochre.id):
        if container.on_shelf:
            counted = StockEvent(StockKind.CORRECTED, TODAY, 0.0)
            correct_stock(demo_work, ochre, counted, TODAY, container)
    demo_work.forget()
    emptied = find_paint(demo_work, "YO")
    assert not emptied.in_stock
    assert emptied not in _asked(demo_work).paints.paints
    assert emptied in _asked(demo_work, wanted=Wanted()).paints.paints
    named = _asked(demo_work, wanted=Wanted(in_stock=True, using=[emptied]))
    assert all(each.out_of_stock == (emptied,) for each in named.proposals)
    only = _asked(demo_work, wanted=Wanted(in_stock=True, only=[emptied]))
    assert only.paints.paints == (emptied,)


def test_a_retired_paint_is_not_offered(demo_work: UnitOfWork) -> None:
    red, blue = find_paint(demo_work, "CR"), find_paint(demo_work, "FU")
    assert red not in _asked(demo_work, wanted=Wanted()).paints.paints
    both = _asked(demo_work, wanted=Wanted(only=[red, blue]))
    assert both.paints.retired == (red,)
    assert both.paints.paints == (blue,)
    for wanted in (Wanted(only=[red]), Wanted(using=[red])):
        with pytest.raises(BadInput, match="Cadmium Red is retired"):
            _asked(demo_work, wanted=wanted)


@pytest.mark.parametrize(
    ("target", "failing"),
    [
        ("lab(8 0 0)", Failing.VALUE),
        ("#ff2000", Failing.CHROMA),
        ("lab(99.5 30 0)", Failing.VALUE),
    ],
)
def test_a_target_out_of_reach_says_what_fails(
    demo_work: UnitOfWork, target: str, failing: Failing
) -> None:
    found = _asked(demo_work, target, laying=Laying(2))
    assert found.beyond is not None
    assert found.beyond.failing is failing
    assert PASSES < found.reached <= found.nearest.delta_e
    limit = max(ANOTHER_COLOUR, found.nearest.delta_e + 1.0)
    assert all(each.delta_e <= limit for each in found.proposals)


def test_a_paper_is_what_recipes_are_laid_on(demo_work: UnitOfWork) -> None:
    paper = find_paper(demo_work, "ECP")
    assert _asked(demo_work, laying=Laying(2, paper=paper)).ground is GroundBasis.MEASURED
    usual = _asked(demo_work, laying=Laying(2))
    assert usual.ground is GroundBasis.USUAL


def test_layers_darken_and_the_recipe_keeps_them(demo_work: UnitOfWork) -> None:
    one, three = (_asked(demo_work, "lab(15 0 0)", laying=Laying(2, layers=n)) for n in (1, 3))
    assert three.reached < one.reached


def test_a_colour_alone_tells_how_recipes_shift_under_a_light(demo_work: UnitOfWork) -> None:
    found = _asked(demo_work, laying=Laying(2, lights=("A", "LED-B3")))
    for each in found.proposals:
        assert [shift.light for shift in each.shifts] == ["A", "LED-B3"]
        assert each.lights is None
        assert each.spectral_error is None
        assert all(shift.delta_e > 0.0 for shift in each.shifts)


def test_a_swatch_with_a_spectrum_is_compared_under_each_light(demo_work: UnitOfWork) -> None:
    laying = Laying(2, lights=("A",))
    colour = _asked(demo_work, "S74", laying=laying)
    spectral = _asked(demo_work, "S74", laying=replace(laying, spectral=True))
    for each in (*colour.proposals, *spectral.proposals):
        assert each.lights is not None
        assert each.lights[0].light == "A"
        assert each.lights[0].reference_delta_e == pytest.approx(each.delta_e, abs=0.5)
        assert each.shifts == ()
    assert colour.nearest.spectral_error is not None
    assert spectral.nearest.spectral_error is not None
    assert spectral.nearest.spectral_error <= colour.nearest.spectral_error
    broken = [any(x.breaks for x in each.lights or ()) for each in colour.proposals]
    assert broken == sorted(broken)


def test_what_has_no_spectrum_cannot_be_come_near_spectrally(demo_work: UnitOfWork) -> None:
    spectral = Laying(2, spectral=True)
    with pytest.raises(BadInput, match="a colour alone has no spectrum"):
        _asked(demo_work, "tan", laying=spectral)
    with_lab = next(
        swatch
        for swatch in demo_work.swatches.all()
        if all(reading.spectrum is None for reading in swatch.readings)
    )
    with pytest.raises(BadInput, match="has no spectrum of its"):
        _asked(demo_work, with_lab.facts.code, laying=spectral)
    looked = _asked(demo_work, with_lab.facts.code, laying=Laying(most=1, lights=("A",)))
    assert looked.nearest.lights is None
    assert len(looked.nearest.shifts) == 1


def test_more_paints_asked_for_than_a_recipe_may_hold(demo_work: UnitOfWork) -> None:
    using = [find_paint(demo_work, code) for code in ("FU", "BS")]
    with pytest.raises(BadInput, match="only 1; ask for more with --paints 2"):
        _asked(demo_work, wanted=Wanted(using=using), laying=Laying(most=1))


def test_filters_that_leave_nothing_are_told(demo_work: UnitOfWork) -> None:
    blue = find_paint(demo_work, "FU")
    with pytest.raises(BadInput, match="no paint passes these filters"):
        _asked(demo_work, wanted=Wanted(only=[blue], without=[blue]))
    with pytest.raises(BadInput, match="another filter leaves it out"):
        _asked(demo_work, wanted=Wanted(using=[blue], without=[blue]))


def test_an_empty_studio_is_told_what_to_record_first(work: UnitOfWork) -> None:
    with pytest.raises(BadInput, match="studio paint add"):
        _asked(work)


def test_a_paint_without_swatches_is_named_with_what_is_missing(shelf: Shelf) -> None:
    with pytest.raises(BadInput, match=r"nothing can be predicted yet of .*; make a flat wash of"):
        _asked(shelf.work)
    paint = shelf.work.paints.all()[0]
    code = paint.facts.code
    shelf.swatch(code, Lab(45.0, 10.0, -30.0))
    shelf.swatch(code, Lab(75.0, 4.0, -15.0))
    found = _asked(shelf.work, wanted=Wanted())
    assert found.paints.paints == (paint,)
    assert len(found.paints.unknown) == len(shelf.work.paints.all()) - 1
    assert (found.measured, found.estimated) == (0, 2)
    other = found.paints.unknown[0].paint
    with pytest.raises(BadInput, match="nothing can be predicted yet of"):
        _asked(shelf.work, wanted=Wanted(using=[other]))
