"""Paintings that the tests of their actions work with."""

from pathlib import Path
from typing import Final

import numpy as np
from PIL import Image

from studio.actions.painting.find_painting import find_painting, find_passage
from studio.actions.painting.passages import add_passage
from studio.actions.painting.read_colours import TypedColours, read_colours
from studio.actions.painting.start_painting import start_painting
from studio.actions.painting.tries import keep_try
from studio.catalogue.painting import Painting, Passage
from studio.catalogue.swatch import Application, Swatch
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.conftest import DAY, Shelf
from tests.conftest import TODAY

SKY, MUD, SAIL = (180, 205, 225), (102, 88, 66), (230, 30, 20)
FLAT: Final = Application.FLAT_WASH


def creek(folder: Path, name: str = "creek.png", *, mud: tuple[int, int, int] = MUD) -> Path:
    """A picture of 80 x 60 pixels: sky above mud, and a red sail across the middle."""
    pixels = np.empty((60, 80, 3), np.uint8)
    pixels[:30], pixels[30:] = SKY, mud
    pixels[20:40, 44:56] = SAIL
    path = folder / name
    Image.fromarray(pixels).save(path)
    return path


def begun(
    shelf: Shelf, *, reference: Path | None = None, within: float = 3.0, paper: str = "SM"
) -> Painting:
    """A painting without passages, begun on the day of these tests."""
    painting = Painting(0, "", "Low water", shelf.paper(paper).id, 380.0, 280.0, within, DAY)
    return start_painting(shelf.work, painting, TODAY, reference)


def with_passage(
    work: UnitOfWork,
    painting: Painting,
    name: str,
    *colours: str,
    technique: Application = FLAT,
    share: float | None = None,
    over: str | None = None,
    place: int | None = None,
    typed: TypedColours | None = None,
) -> Painting:
    """The painting with one more passage."""
    read = read_colours(work, painting, typed or TypedColours(colours=colours))
    passage = Passage(
        0,
        name,
        technique,
        share=share,
        over=None if over is None else find_passage(painting, over).id,
    )
    return add_passage(work, painting, passage, read.colours, place)


def tried(work: UnitOfWork, name: str, swatch: Swatch, colour: int = 0) -> Painting:
    """The painting P1 once a swatch was held against a colour of a passage."""
    passage = find_passage(find_painting(work, "P1"), name)
    keep_try(work, passage, passage.colours[colour], swatch)
    return find_painting(work, "P1")


def names(painting: Painting) -> list[str]:
    """The passages of a painting in working order."""
    return [passage.name for passage in painting.passages]
