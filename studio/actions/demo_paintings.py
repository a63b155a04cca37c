"""The paintings of the demo studio, made by the same actions as an owner's."""

import json
from datetime import date
from pathlib import Path
from typing import Any

from studio.actions.find import find_paper, find_swatch
from studio.actions.painting.find_painting import find_colour, find_passage
from studio.actions.painting.finish_painting import finish_painting, read_finals
from studio.actions.painting.passages import add_passage
from studio.actions.painting.read_colours import TypedColours, read_colours
from studio.actions.painting.start_painting import start_painting
from studio.actions.painting.tries import keep_try
from studio.catalogue.painting import Painting, Passage
from studio.catalogue.swatch import Application
from studio.storage.unit_of_work import UnitOfWork

SIZE = "3%"
"""Side of the square around each point that a colour was picked from."""


def demo_paintings(work: UnitOfWork, folder: Path, today: date) -> None:
    """Record the paintings that a folder's `paintings.json` tells of; nothing without that file.

    Args:
        work: a studio with the paper and the swatches they name.
        folder: that of the demo; pictures are named from it.
        today: no day may lie after it.
    """
    plan = folder / "paintings.json"
    if not plan.exists():
        return
    for told in json.loads(plan.read_text(encoding="utf-8")):
        painting = start_painting(
            work,
            Painting(
                id=0,
                code="",
                title=told["title"],
                paper_id=find_paper(work, told["paper"]).id,
                width_mm=told["width_mm"],
                height_mm=told["height_mm"],
                tolerance=told["within"],
                started_on=date.fromisoformat(told["started_on"]),
                note=told["note"],
            ),
            today,
            folder / told["picture"],
        )
        for each in told["passages"]:
            painting = _passage(work, painting, each)
        if told["finished_on"] is not None:
            finish_painting(
                work,
                painting,
                {},
                on=date.fromisoformat(told["finished_on"]),
                today=today,
                finals=read_finals(painting, told["finals"]),
            )


def _passage(work: UnitOfWork, painting: Painting, told: dict[str, Any]) -> Painting:
    over = told.get("over")
    read = read_colours(
        work, painting, TypedColours(at=told["at"], size=SIZE if told["at"] else None)
    )
    passage = Passage(
        id=0,
        name=told["name"],
        technique=Application(told["technique"]),
        share=told["share"],
        layers=told.get("layers", 1),
        dry_before_next=told.get("dry_before_next", True),
        over=None if over is None else find_passage(painting, over).id,
        note=told.get("note"),
    )
    painting = add_passage(work, painting, passage, read.colours)
    for code in told["tries"]:
        laid = find_passage(painting, told["name"])
        keep_try(work, laid, find_colour(laid, 1), find_swatch(work, code))
        painting = work.paintings.by_id(painting.id)
    return painting
