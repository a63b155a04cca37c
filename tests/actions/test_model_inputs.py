"""Which swatches tell of the paints, how much each counts, and which paints have too few."""

from dataclasses import replace

import pytest

from studio.actions.edit_paint import retire_paint
from studio.actions.log_swatch import edit_swatch
from studio.actions.model_inputs import UNEVEN, ModelInputs, model_inputs, white_of
from studio.catalogue.reading import Backing, Method, State
from studio.catalogue.swatch import Application
from tests.actions.conftest import Shelf
from tests.actions.washes import PAPER, Washes, film, glowing, lab, spectrum
from tests.conftest import TODAY


@pytest.fixture
def washes(shelf: Shelf) -> Washes:
    return Washes(shelf)


def _inputs(washes: Washes) -> ModelInputs:
    return model_inputs(washes.shelf.work)


def _why(washes: Washes) -> dict[str, str]:
    return {each.swatch.facts.code: each.why for each in _inputs(washes).left_aside}


def test_a_studio_without_swatches_knows_no_paint_and_says_what_is_missing(washes: Washes) -> None:
    inputs = _inputs(washes)
    assert inputs.patches == ()
    assert {each.paint.facts.code for each in inputs.unknown} == {
        "UM",
        "BS",
        "AC",
        "CR",
        "SO",
        "TG",
    }
    first = next(each for each in inputs.unknown if each.paint.facts.code == "UM")
    assert first.why == "no dry swatch holds it"
    assert first.missing == "a flat wash of Ultramarine alone, water 3:1, read when it is dry"


def test_films_that_are_none_and_wet_ones_are_left_out_with_the_reason(washes: Washes) -> None:
    for application in UNEVEN:
        washes.lay("UM", application=application)
    washes.lay("UM", reading=spectrum(film("UM"), state=State.WET))
    assert _why(washes) == {
        "S1": "is not an even film (dry brush)",
        "S2": "is not an even film (spatter)",
        "S3": "is not an even film (lifted)",
        "S4": "has not been read dry",
    }
    unknown = {each.paint.facts.code: each.why for each in _inputs(washes).unknown}
    assert unknown["UM"] == (
        "none of its 4 swatches can be used: S1 is not an even film (dry brush)"
    )


@pytest.mark.parametrize("application", [Application.GRADED_WASH, Application.WET_IN_WET])
def test_films_that_vary_over_the_patch_count_half(
    washes: Washes, application: Application
) -> None:
    washes.lay("UM")
    washes.lay("UM", application=application)
    washes.lay("UM", application=Application.GLAZE, layers=2)
    assert [each.weight for each in _inputs(washes).patches] == [1.0, 0.5, 1.0]


def test_a_swatch_that_fluoresces_is_left_out_and_its_paint_with_it(washes: Washes) -> None:
    washes.lay("UM", reading=spectrum(glowing()))
    why = _why(washes)["S1"]
    assert why.startswith("fluoresces: it reflects 1.3 times the light at 600 nm")
    (unknown,) = [each for each in _inputs(washes).unknown if each.paint.facts.code == "UM"]
    assert unknown.why.startswith("S1 fluoresces")


def test_wet_readings_of_a_dry_swatch_do_not_count_and_do_not_fluoresce(washes: Washes) -> None:
    swatch = washes.lay("UM", reading=spectrum(glowing(), state=State.WET))
    washes.again(swatch, spectrum(film("UM")))
    (patch,) = _inputs(washes).patches
    assert [reading.state for reading in patch.readings] == [State.DRY]


def test_of_several_readings_those_with_a_spectrum_count(washes: Washes) -> None:
    swatch = washes.lay("UM", reading=lab(40, 5, -30))
    assert _inputs(washes).patches[0].estimated
    washes.again(swatch, spectrum(film("UM")))
    washes.again(swatch, spectrum(film("UM", 4.0)))
    (patch,) = _inputs(washes).patches
    assert not patch.estimated
    assert len(patch.readings) == 2


def test_an_uncertain_reading_counts_less(washes: Washes) -> None:
    for reading in (lab(40, 5, -30), lab(40, 5, -30, error=3.0), lab(40, 5, -30, error=9.0)):
        washes.lay("UM", reading=reading)
    washes.lay("UM", reading=lab(40, 5, -30, method=Method.BY_EYE))
    exact, three, nine, eye = (each.weight for each in _inputs(washes).patches)
    assert (exact, three, nine) == (1.0, 0.5, 0.1)
    assert nine < eye < three


def test_readings_over_black_are_a_patch_of_their_own_on_what_was_read_over_black(
    washes: Washes,
) -> None:
    paper = washes.shelf.paper("SR").id
    work = washes.shelf.work
    work.papers.add_white(paper, spectrum(PAPER, backing=Backing.WHITE))
    swatch = washes.lay("UM", reading=spectrum(film("UM"), backing=Backing.WHITE))
    washes.again(swatch, spectrum(0.95 * film("UM"), backing=Backing.BLACK))
    white, black = _inputs(washes).patches
    assert white.white == black.white == washes.shelf.paper("SR").white
    work.papers.add_white(paper, spectrum(0.95 * PAPER, backing=Backing.BLACK))
    white, black = _inputs(washes).patches
    first, second = washes.shelf.paper("SR").white
    assert (white.white, black.white) == ((first,), (second,))
    assert [each.backing for each in black.readings] == [Backing.BLACK]


def test_a_paper_read_as_lab_and_as_a_spectrum_is_known_by_its_spectrum(washes: Washes) -> None:
    paper = washes.shelf.paper("SR").id
    washes.shelf.work.papers.add_white(paper, lab(95, 0, 3))
    assert len(white_of(washes.shelf.paper("SR"), black=False)) == 1
    washes.shelf.work.papers.add_white(paper, spectrum(PAPER))
    (only,) = white_of(washes.shelf.paper("SR"), black=False)
    assert only.spectrum is not None


def test_a_paint_needs_a_wash_of_its_own_or_two_mixes(washes: Washes) -> None:
    washes.lay("UM")
    washes.lay("UM + BS")
    unknown = {each.paint.facts.code: each.why for each in _inputs(washes).unknown}
    assert "UM" not in unknown
    assert unknown["BS"] == "it is in no wash of its own and in one mix alone (M2)"
    assert [each.code for each in _inputs(washes).patches] == ["S1"]
    washes.lay("2 UM + BS")
    assert "BS" not in {each.paint.facts.code for each in _inputs(washes).unknown}
    assert len(_inputs(washes).patches) == 3


def test_a_paint_left_without_its_mixes_is_not_known_either(washes: Washes) -> None:
    """AC is in two mixes; the other paint of both has too few itself once they are gone."""
    washes.lay("UM")
    washes.lay("AC + BS")
    washes.lay("AC + SO", reading=lab(50, 20, 30))
    codes = {each.paint.facts.code for each in _inputs(washes).unknown}
    assert {"AC", "BS", "SO"} <= codes
    assert [each.code for each in _inputs(washes).patches] == ["S1"]


def test_the_digest_follows_what_is_computed_from_and_nothing_else(washes: Washes) -> None:
    work = washes.shelf.work
    swatch = washes.lay("UM")
    seen = [_inputs(washes).sha256]

    def changed() -> bool:
        seen.append(_inputs(washes).sha256)
        return seen[-1] != seen[-2]

    paper = washes.shelf.paper("SR")
    assert not changed()
    edit_swatch(work, swatch, replace(swatch.facts, note="by the slip"), paper, TODAY)
    assert not changed()
    washes.lay("UM", application=Application.SPATTER)
    assert not changed()
    edit_swatch(work, swatch, replace(swatch.facts, water=4.0), paper, TODAY)
    assert changed()
    edit_swatch(work, swatch, replace(swatch.facts, layers=2), paper, TODAY)
    assert changed()
    washes.again(swatch, spectrum(film("UM", 3.5)))
    assert changed()
    work.papers.add_white(paper.id, spectrum(PAPER))
    assert changed()
    washes.lay("BS", reading=lab(50, 20, 30))
    assert changed()
    retire_paint(work, washes.shelf.paint("BS"))
    assert changed()
    assert len(set(seen)) == 7
