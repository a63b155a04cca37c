"""The page that each student of a class gets: what to mix, how to lay it, what to mind."""

from datetime import date

from studio.actions.painting.class_plan import ClassPlan
from studio.actions.painting.plan import PlannedColour, PlannedMix
from studio.catalogue.care import UNREAD_TITLE, WORK_WORDS, Work
from studio.catalogue.hazard import ADVICE
from studio.colour.lab import Lab
from studio.sheets.blocks import Block, Bullets, Grid, Heading, Page, Paragraph, Patches
from studio.sheets.care_view import document_text, ground_text
from studio.sheets.class_plan_words import counted_texts, spatter_text
from studio.sheets.match_view import recipe_text
from studio.sheets.plan_words import (
    ml_text,
    passage_names,
    passage_text,
    time_text,
)
from studio.sheets.screen import day_text, water_text

_MIXED = (
    "Mix each well by its parts, lay a strip on the offcut, let it dry and hold it beside its "
    "patch. Printed and screen colours are approximate: the card, or the tested strip, decides."
)
_FOR_CHILDREN = "Use these paints alone; your teacher has their labels, data sheets and cautions."
_CHILDREN_MIND = (
    "No brush in your mouth, and no food or drink at the table.",
    "Lay the paint with a brush: no blowing, no spraying, no scraping of dry paint.",
    "Wash your hands when you are done.",
    "Something in your eye, or on your skin? Tell your teacher at once.",
)
"""What is on record for every class of children, in words for them (common practice, no source)."""
_WITHOUT = "colour without a mix yet: test with the teacher"


def class_handout(plan: ClassPlan, today: date) -> Page:
    """The handout of a class on a day; for children it bears no word of chemistry.

    What is on record of hazards is then the teacher's, on the screen and in JSON.

    Args:
        plan: what the class paints.
        today: the day.
    """
    painting = plan.plan.painting
    blocks: list[Block] = [
        Heading("Your paints"),
        Grid(
            ("paint", "for you"),
            tuple((each.paint.facts.full_name, ml_text(each.each_ml)) for each in plan.supplies),
            widths=(5, 2),
            numbers=frozenset({1}),
        ),
        *_unread(plan),
        Heading("Mix and match"),
        Paragraph(_MIXED),
        Patches(tuple(_patches(plan))),
        _mixes(plan),
        Heading("Paint, in this order"),
        _steps(plan),
        Paragraph(time_text(plan.plan)),
        *_to_mind(plan),
    ]
    paper = plan.plan.paper.facts.full_name
    size = f"{painting.width_mm:g} x {painting.height_mm:g} mm"
    return Page(
        painting.title,
        f"{size} on {paper}; {day_text(today)}",
        tuple(blocks),
        f"{painting.code} {painting.title}, {day_text(today)}",
        notice=_FOR_CHILDREN if plan.kind is Work.CHILDREN else ADVICE,
        day=today,
    )


def _unread(plan: ClassPlan) -> list[Block]:
    """The paints of the painter's own plan that nobody knows enough of to bring them."""
    names = [left.paint.facts.full_name for left in plan.left_home if left.is_unread]
    return [Paragraph(f"{UNREAD_TITLE}: {', '.join(names)}.")] if names else []


def _patches(plan: ClassPlan) -> list[tuple[Lab, str]]:
    """Each colour once by its mix: the colour to match, named by passage and letter."""
    found = []
    for each in plan.plan.colours:
        letter = "test" if each.mix is None else each.mix.letter
        found.append((each.colour.lab, f"{letter}: {each.number} {each.passage.name}"))
    return found


def _to_mind(plan: ClassPlan) -> tuple[Block, ...]:
    """What to mind, and where to verify it; a child minds what a child can."""
    if plan.kind is Work.CHILDREN:
        spatter = spatter_text(plan)
        return Heading("Mind"), Bullets((*([spatter] if spatter else []), *_CHILDREN_MIND))
    return (
        Heading("Mind"),
        Bullets(tuple(_cautions(plan))),
        Heading("Where to verify"),
        Bullets(tuple(document_text(document) for document in plan.documents)),
    )


def _mixes(plan: ClassPlan) -> Grid:
    chips = tuple((mix.lab,) for mix in plan.plan.mixes)
    if plan.small is not None:
        wells = tuple((mix.letter, *counted_texts(mix)) for mix in plan.plan.mixes)
        return Grid(("well", "paint", "water"), wells, widths=(1, 6, 3), chips=chips)
    rows = [(mix.letter, recipe_text(mix.recipe), *_amounts(mix)) for mix in plan.plan.mixes]
    return Grid(
        ("well", "parts of paint", "dilution", "paint", "water"),
        tuple(rows),
        widths=(1, 6, 2, 1.6, 1.6),
        numbers=frozenset({3, 4}),
        chips=chips,
    )


def _amounts(mix: PlannedMix) -> tuple[str, str, str]:
    water = "test how much" if mix.water_ml is None else ml_text(mix.water_ml)
    return water_text(mix.water), ml_text(mix.paint_ml), water


def _steps(plan: ClassPlan) -> Grid:
    names = passage_names(plan.plan)
    rows, chips = [], []
    for number, passage in enumerate(plan.plan.painting.passages, start=1):
        colours = [each for each in plan.plan.colours if each.number == number]
        dry = "let it dry" if number in plan.plan.drying_steps else "go on while it is wet"
        last = number == len(plan.plan.painting.passages)
        rows.append(
            (
                f"{number} {passage.name}".replace("\n", " "),
                passage_text(passage, names),
                "; ".join(dict.fromkeys(map(_well, colours))) or "as you like",
                "done" if last else dry,
            )
        )
        chips.append((colours[0].colour.lab if colours else None,))
    return Grid(
        ("passage", "how", "from", "then"),
        tuple(rows),
        widths=(4, 5, 4, 3),
        chips=tuple(chips),
    )


def _well(each: PlannedColour) -> str:
    return _WITHOUT if each.mix is None else each.mix.letter


def _cautions(plan: ClassPlan) -> list[str]:
    spatter = spatter_text(plan)
    told = [spatter] if spatter else []
    for point in plan.care.points:
        grounds = "; ".join(ground_text(ground) for ground in point.grounds)
        told.append(f"{point.text} ({point.source}){': ' if grounds else ''}{grounds}")
    words = WORK_WORDS[plan.kind]
    told += [f"In {words}: {point.text} ({point.source})" for point in plan.care.general]
    return told
