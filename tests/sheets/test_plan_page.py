"""The plan sheet: every passage in order, each mix once, cautions and what all of it rests on."""

from dataclasses import replace
from pathlib import Path

import pytest

from studio.actions.match_colour import Wanted
from studio.actions.paint_model import paint_model
from studio.actions.painting.plan import Plan
from studio.actions.painting.plan_painting import plan_painting
from studio.actions.painting.shopping import shopping_for
from studio.actions.reorder_stock import ShoppingList
from studio.catalogue.hazard import ADVICE
from studio.catalogue.measurement_file import MeasurementFile
from studio.catalogue.painting import Passage
from studio.catalogue.swatch import Application
from studio.sheets.blocks import Bullets, Grid, Heading, Page, Paragraph, Steps
from studio.sheets.page_html import html_of
from studio.sheets.page_parts import plain
from studio.sheets.plan_page import colour_number, marks_of, plan_page
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.painting.paintings import painting, passage
from tests.conftest import TODAY
from tests.sheets.pages import HOSTILE, read_html

SKY, MUD, HULL = (72.0, -4.0, -18.0), (39.0, 4.0, 8.0), (25.0, 0.0, -4.0)
FAR_OUT = (60.0, 94.0, -60.0)


@pytest.fixture(scope="module")
def planned(demo_template: Path) -> tuple[Plan, ShoppingList]:
    """A plan of four passages: one with two colours, one out of reach, one without a colour."""
    with UnitOfWork(demo_template) as work:
        return _planned(work)


def _planned(work: UnitOfWork) -> tuple[Plan, ShoppingList]:
    paper = work.papers.all()[0]
    sky = passage(1, SKY, name="sky", technique=Application.GRADED_WASH, share=0.4)
    first = replace(sky.colours[0], at=(0.3, 0.2), place="30 %, 20 %")
    value = painting(
        paper,
        replace(sky, colours=(first,)),
        passage(2, MUD, HULL, name="mud", share=0.5),
        passage(3, FAR_OUT, name="buoy", dry=False),
        Passage(4, "weed", Application.DRY_BRUSH),
        tolerance=5.0,
    )
    plan = plan_painting(work, paint_model(work, TODAY), value, Wanted())
    return plan, shopping_for(work, plan, TODAY)


def _page(planned: tuple[Plan, ShoppingList], missing: str | None = None) -> Page:
    return plan_page(*planned, None, missing, TODAY)


def _steps(page: Page) -> Steps:
    (steps,) = [block for block in page.blocks if isinstance(block, Steps)]
    return steps


def test_every_passage_stands_in_order_with_its_colours_beside_their_mixes(
    planned: tuple[Plan, ShoppingList],
) -> None:
    plan, _ = planned
    steps = _steps(_page(planned)).steps
    assert [step.title for step in steps] == ["1 sky", "2 mud", "3 buoy", "4 weed"]
    assert [len(step.held) for step in steps] == [1, 2, 1, 0]
    held = [each for step in steps for each in step.held]
    for each, colour in zip(held, plan.colours, strict=True):
        assert each.wanted == colour.colour.lab
        assert each.mixed == (colour.chosen.lab if colour.chosen else None)
        if colour.mix is not None:
            assert each.mixed_caption.startswith(f"mix {colour.mix.letter}, ")
            assert f"ΔE00 {colour.delta_e:.1f}" in each.lines[1]
    assert [each.wanted_caption for each in held] == [
        *("1 wanted", "2.1 wanted", "2.2 wanted", "3 wanted")
    ]
    assert held[-1].mixed_caption == "test swatch needed"
    assert held[-1].lines == (plan.colours[-1].needed,)
    assert steps[3].lines == ("No colour is chosen for it.",)


def test_only_what_was_picked_is_marked_on_the_picture(
    planned: tuple[Plan, ShoppingList],
) -> None:
    plan, _ = planned
    assert [(mark.at, mark.text) for mark in marks_of(plan)] == [((0.3, 0.2), "1")]
    earlier = MeasurementFile(7, "earlier.png", "0" * 64, 10, is_kept=False)
    colours = tuple(
        replace(each, colour=replace(each.colour, picture=earlier)) for each in plan.colours
    )
    assert marks_of(replace(plan, colours=colours)) == []
    assert [colour_number(plan, each) for each in plan.colours] == ["1", "2.1", "2.2", "3"]


def test_each_mix_stands_once_with_its_amounts_and_what_it_serves(
    planned: tuple[Plan, ShoppingList],
) -> None:
    plan, _ = planned
    mixes, palette = [block for block in _page(planned).blocks if isinstance(block, Grid)]
    assert [row[0] for row in mixes.rows] == [mix.letter for mix in plan.mixes]
    served = [number for row in mixes.rows for number in row[-1].split(", ")]
    assert sorted(served) == ["1", "2.1", "2.2"]
    assert [row[0] for row in palette.rows] == [need.paint.facts.code for need in plan.palette]


def test_cautions_light_and_assumptions_are_on_it_with_where_to_verify(
    planned: tuple[Plan, ShoppingList],
) -> None:
    page = _page(planned)
    assert page.foot.endswith(ADVICE)
    place = page.blocks.index(Heading("Light and care"))
    listed = page.blocks[place + 1]
    assert isinstance(listed, Bullets)
    assert listed.items[0].startswith("Lightfastness")
    assert "unverified" in listed.items[0]
    assert listed.items[-1] == ADVICE
    assumed = page.blocks[page.blocks.index(Heading("Assumed")) + 1]
    assert isinstance(assumed, Paragraph)
    assert "common practice, no source" in assumed.text


def test_what_is_to_be_known_of_the_picture_is_said(planned: tuple[Plan, ShoppingList]) -> None:
    first = _page(planned, "the picture /creek.jpg is gone; say where it is").blocks[0]
    assert first == Paragraph("The picture /creek.jpg is gone; say where it is.")
    assert Heading("In working order") == _page(planned).blocks[0]


def test_names_are_text(planned: tuple[Plan, ShoppingList]) -> None:
    plan, shopping = planned
    named = tuple(
        replace(each, name=f"{HOSTILE} {number}", note=HOSTILE)
        for number, each in enumerate(plan.painting.passages)
    )
    value = replace(plan.painting, title=HOSTILE, passages=named)
    root = read_html(html_of(_page((replace(plan, painting=value), shopping))))
    assert not root.all("script")
    assert [each.text for each in root.all("h1")] == [plain(HOSTILE)]
    assert sum(plain(HOSTILE) in each.text for each in root.all("h3")) == 4
