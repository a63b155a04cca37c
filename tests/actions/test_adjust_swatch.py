"""What to add to a test patch of the demo studio, whose paints are known by many swatches."""

from dataclasses import replace
from datetime import date

import pytest

from studio.actions.add_paint import add_paint
from studio.actions.adjust_paints import MayAdd
from studio.actions.adjust_swatch import adjust_swatch
from studio.actions.adjustment import Adjustment, parts_text, quoted, water_words
from studio.actions.find import find_paint, find_paper, find_swatch
from studio.actions.log_swatch import edit_swatch, log_swatch, mix_to_log
from studio.actions.make_reading import Circumstances, reading_of_lab
from studio.actions.paint_model import PaintModel, paint_model
from studio.actions.read_target import Target, read_target
from studio.catalogue.paint import PaintFacts
from studio.catalogue.reading import Method, State
from studio.catalogue.swatch import Application, Swatch, SwatchFacts
from studio.colour.difference import ciede2000
from studio.colour.lab import Lab
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.conftest import Shelf
from tests.conftest import TODAY


@pytest.fixture
def model(demo_work: UnitOfWork) -> PaintModel:
    """The paints of the demo studio."""
    return paint_model(demo_work, TODAY)


def _log(work: UnitOfWork, recipe: str, lab: Lab, **facts: object) -> Swatch:
    own = SwatchFacts("", 3.0, 1, Application.FLAT_WASH, date(2026, 11, 20))
    state = State.WET if facts.pop("wet", False) else State.DRY
    return log_swatch(
        work,
        mix=mix_to_log(work, recipe, TODAY),
        paper=find_paper(work, "ECP"),
        facts=replace(own, **facts),  # type: ignore[arg-type]
        reading=reading_of_lab(lab, Circumstances(own.made_on, Method.COLORIMETER, state)),
        today=TODAY,
    )


def _adjusted(
    work: UnitOfWork, model: PaintModel, code: str, target: str | None, **how: object
) -> Adjustment:
    may_add = how.pop("may_add", MayAdd())
    wanted = None if target is None else read_target(work, target)
    swatch = find_swatch(work, code)
    return adjust_swatch(work, model, swatch, wanted, may_add, **how)  # type: ignore[arg-type]


def test_a_patch_short_of_a_paint_asks_for_that_paint(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    """S76 is 1 FU + 1 BS at 1.5:1, S74 2 FU + 1 BS at 3:1: half of the sienna is missing."""
    found = _adjusted(demo_work, model, "S74", "S76", may_add=MayAdd([find_paint(demo_work, "BS")]))
    best = found.proposed[0]
    assert best.way == "add"
    assert [(part.paint.facts.code, part.parts) for part in best.added] == [("BS", 1.0)]
    assert best.delta_e < 0.7 * found.delta_e
    assert best.next_line.startswith('studio swatch log "1 FU + 1 BS" --paper ECP --water 2.25:1')
    assert "--for S76 --lab L,a,b" in best.next_line
    assert found.begin_anew == "studio formulate S76"


def test_numbers_of_a_proposal_belong_together(demo_work: UnitOfWork, model: PaintModel) -> None:
    found = _adjusted(demo_work, model, "S74", "#5b6270", count=5)
    assert [each.rank for each in found.proposed] == [1, 2, 3, 4, 5][: len(found.proposed)]
    assert found.delta_e == ciede2000(found.target.lab.coordinates, found.lab.coordinates)
    for each in found.proposed:
        away = ciede2000(found.target.lab.coordinates, each.lab.coordinates)
        assert each.delta_e == pytest.approx(away, abs=1e-6)
        assert each.delta_e < found.delta_e
        assert 0.1 < each.error < 10.0
    assert found.is_reached
    assert not found.is_right
    assert found.needed.numbers.lightness < -5.0  # it has to become darker
    assert [each.way for each in found.proposed[:-1]] == ["add"] * (len(found.proposed) - 1)


def test_the_target_is_the_one_the_swatch_was_logged_for(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    own = _adjusted(demo_work, model, "S85", None)
    assert own.target.given == "#4d4f58"
    same = _adjusted(demo_work, model, "S85", "#4d4f58")
    assert same.delta_e == pytest.approx(own.delta_e, abs=0.01)
    with pytest.raises(BadInput, match=r"S1 was logged without --for.*studio adjust S1"):
        _adjusted(demo_work, model, "S1", None)


def test_a_patch_within_what_can_be_told_apart_is_right(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    lab = find_swatch(demo_work, "S74").lab
    wanted = Target(Lab(lab.lightness + 0.5, lab.a, lab.b), "near it")
    found = adjust_swatch(demo_work, model, find_swatch(demo_work, "S74"), wanted, MayAdd())
    assert found.is_right


def test_what_no_addition_reaches_is_told(demo_work: UnitOfWork, model: PaintModel) -> None:
    found = _adjusted(demo_work, model, "S1", "#ff0000")
    assert not found.is_reached
    assert found.begin_anew == 'studio formulate "#ff0000"'


def test_a_wet_patch_goes_by_the_drying_shift(demo_work: UnitOfWork) -> None:
    swatch = _log(demo_work, "2 FU + 1 BS", Lab(46.0, -3.0, -30.0), wet=True)
    found = _adjusted(demo_work, paint_model(demo_work, TODAY), swatch.facts.code, "#5077a0")
    assert found.drying is not None
    assert found.estimated
    assert found.lab == found.drying.target.lab
    assert found.lab.lightness > 47.0


def test_a_wet_patch_without_any_drying_shift_asks_for_the_dry_reading(shelf: Shelf) -> None:
    for code in ("UM", "BS"):
        shelf.swatch(f"1 {code}", Lab(50.0, 5.0, 5.0))
    wet = shelf.swatch("1 UM", Lab(40.0, 0.0, -20.0), state=State.WET)
    model = paint_model(shelf.work, TODAY)
    with pytest.raises(BadInput, match=r"only been read wet.*studio swatch read S3"):
        adjust_swatch(shelf.work, model, wet, Target(Lab(50, 0, 0), "grey"), MayAdd())


def test_a_patch_without_spectrum_or_water_is_worked_from_and_said(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    swatch = _log(demo_work, "1 YO + 1 FU", Lab(52.0, -8.0, 4.0), water=None)
    found = _adjusted(demo_work, paint_model(demo_work, TODAY), swatch.facts.code, "#5f7a70")
    assert found.estimated
    assert found.water is None
    assert found.proposed
    assert "--water" not in found.proposed[0].next_line
    with_spectrum = _adjusted(demo_work, model, "S74", "#5077a0")
    assert not with_spectrum.estimated
    assert with_spectrum.reading_error == 0.3


def test_paints_without_swatches_are_named_and_refused_when_asked_for(shelf: Shelf) -> None:
    for code, lab in (("UM", Lab(40, 10, -50)), ("BS", Lab(50, 25, 30))):
        shelf.swatch(f"1 {code}", lab)
    patch = shelf.swatch("1 UM + 1 BS", Lab(40.0, 8.0, -8.0))
    lone = shelf.swatch("1 UM + 1 AC", Lab(35.0, 20.0, -18.0))
    model = paint_model(shelf.work, TODAY)
    grey = Target(Lab(45, 3, -3), "grey")
    found = adjust_swatch(shelf.work, model, patch, grey, MayAdd())
    assert {each.paint.facts.code for each in found.unknown} >= {"AC", "CR"}
    offered = {part.paint.facts.code for each in found.proposed for part in each.added}
    assert offered <= {"UM", "BS"}
    named = MayAdd(using=[shelf.paint("CR")])
    with pytest.raises(BadInput, match=r"Cadmium Red is not known well enough.*log a flat wash"):
        adjust_swatch(shelf.work, model, patch, grey, named)
    with pytest.raises(BadInput, match=r"cannot be adjusted: Alizarin Crimson is not known"):
        adjust_swatch(shelf.work, model, lone, grey, MayAdd())


def test_paints_that_are_retired_left_out_or_out_of_stock(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    red, blue = find_paint(demo_work, "Cadmium Red"), find_paint(demo_work, "FU")
    with pytest.raises(BadInput, match="Cadmium Red is retired"):
        _adjusted(demo_work, model, "S74", "#5077a0", may_add=MayAdd(using=[red]))
    with pytest.raises(BadInput, match="both asked for and left out"):
        _adjusted(demo_work, model, "S74", "#5077a0", may_add=MayAdd([blue], without=[blue]))
    without = _adjusted(demo_work, model, "S74", "#3c5a90", may_add=MayAdd(without=[blue]), count=9)
    assert all(part.paint.id != blue.id for each in without.proposed for part in each.added)
    with_blue = _adjusted(demo_work, model, "S74", "#3c5a90", may_add=MayAdd(using=[blue]), count=9)
    assert with_blue.proposed
    assert all(blue.id in {part.paint.id for part in each.recipe} for each in with_blue.proposed)
    assert with_blue.unknown == ()


def test_a_film_that_is_not_even_is_refused(demo_work: UnitOfWork, model: PaintModel) -> None:
    with pytest.raises(BadInput, match=r"S78 is not an even film \(dry brush\).*flat wash"):
        _adjusted(demo_work, model, "S78", "#445566")


def test_a_studio_without_any_known_paint_is_told_what_to_log(shelf: Shelf) -> None:
    patch = shelf.swatch("1 UM", Lab(40.0, 0.0, -20.0), state=State.WET)
    model = paint_model(shelf.work, TODAY)
    with pytest.raises(BadInput, match="cannot be adjusted"):
        adjust_swatch(shelf.work, model, patch, Target(Lab(50, 0, 0), "grey"), MayAdd())


def test_on_another_paper_the_next_patch_is_logged_there(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    rough = find_paper(demo_work, "CRO")
    found = _adjusted(demo_work, model, "S74", "#3c5a80", paper=rough)
    assert (found.paper.facts.code, found.next_paper.facts.code) == ("ECP", "CRO")
    assert all("--paper CRO" in each.next_line for each in found.proposed)
    assert {each.way for each in found.proposed} <= {"add", "fresh mix"}


def test_what_is_done_to_the_patch_itself_is_recorded_with_it(
    demo_work: UnitOfWork, model: PaintModel
) -> None:
    swatch = find_swatch(demo_work, "S74")
    edit_swatch(
        demo_work,
        swatch,
        replace(swatch.facts, note="for the hull"),
        find_paper(demo_work, "ECP"),
        TODAY,
    )
    only = MayAdd([find_paint(demo_work, "BU")])
    ways = _adjusted(demo_work, model, "S74", "#5b6270", may_add=only, count=20).proposed
    glaze = next(each for each in ways if each.way == "glaze")
    assert glaze.next_line.startswith(
        'studio swatch edit S74 --note "for the hull; glazed with BU, water '
    )
    paler = _adjusted(demo_work, model, "S74", "#86a2c4", count=20).proposed
    lifted = next(each for each in paler if each.way == "lift")
    assert "--applied lifted" in lifted.next_line
    layered = _adjusted(demo_work, model, "S77", "#5d6b88", count=20).proposed
    assert any("--layers" in each.next_line for each in layered if each.way == "another layer")


def test_a_colour_no_film_has_is_not_worked_from(demo_work: UnitOfWork) -> None:
    swatch = _log(demo_work, "1 YO", Lab(99.0, -90.0, 95.0))
    with pytest.raises(BadInput, match=r"no film of paint has the colour|fluoresces|no surface"):
        _adjusted(demo_work, paint_model(demo_work, TODAY), swatch.facts.code, "tan")


@pytest.mark.parametrize(
    ("after", "words"),
    [(3.0, ""), (3.5, "a little more water"), (5.0, "more water"), (9.0, "much more water")],
)
def test_water_in_words(after: float, words: str) -> None:
    assert water_words(3.0, after) == words


def test_parts_and_words_of_a_command_line() -> None:
    assert [parts_text(each) for each in (0.25, 1.0, 1.5, 12.0)] == ["1/4", "1", "1 1/2", "12"]
    assert quoted("S74") == "S74"
    assert quoted("5PB 8/4") == '"5PB 8/4"'


def test_a_paint_bought_since_is_not_weighed_yet(demo_work: UnitOfWork) -> None:
    add_paint(demo_work, PaintFacts("NB", "Saltings", "New Blue", ("PB15",), volume_ml=14.0), TODAY)
    found = _adjusted(demo_work, paint_model(demo_work, TODAY), "S74", "#5b6270")
    assert [each.paint.facts.code for each in found.unknown] == ["NB"]
