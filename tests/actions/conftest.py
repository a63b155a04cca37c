"""A shelf of invented paints and papers that the tests of the actions work with."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import pytest

from studio.actions.add_mix import add_mix
from studio.actions.add_paint import add_paint
from studio.actions.add_paper import add_paper
from studio.actions.find import find_recipe
from studio.actions.log_swatch import log_swatch
from studio.actions.make_reading import Circumstances, reading_of_lab
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Form, Paint, PaintFacts
from studio.catalogue.paper import Paper, PaperFacts
from studio.catalogue.reading import Method, Reading, State
from studio.catalogue.swatch import Application, Swatch, SwatchFacts
from studio.colour.lab import Lab
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import TODAY

DAY = date(2026, 5, 4)
"""The day most things of these tests happen."""


def read(lab: Lab, read_on: date = DAY, state: State = State.DRY) -> Reading:
    """A reading of a colour."""
    return reading_of_lab(lab, Circumstances(read_on, Method.COLORIMETER, state))


@dataclass(frozen=True, slots=True)
class Shelf:
    """An open studio with six paints and two papers."""

    work: UnitOfWork

    def paint(self, code: str) -> Paint:
        """The paint of a code, as it is recorded now."""
        return next(paint for paint in self.work.paints.all() if paint.facts.code == code)

    def paper(self, code: str) -> Paper:
        """The paper of a code, as it is recorded now."""
        return next(paper for paper in self.work.papers.all() if paper.facts.code == code)

    def mix(self, recipe: str) -> Mix:
        """The mix of a recipe."""
        return add_mix(self.work, find_recipe(self.work, recipe), DAY)[0]

    def swatch(
        self, recipe: str, lab: Lab, *, paper: str = "SR", state: State = State.DRY
    ) -> Swatch:
        """A swatch of a recipe that was read once."""
        return log_swatch(
            self.work,
            mix=self.mix(recipe),
            paper=self.paper(paper),
            facts=SwatchFacts("", None, 1, Application.FLAT_WASH, DAY),
            reading=read(lab, state=state),
            today=TODAY,
        )


@pytest.fixture
def shelf(work: UnitOfWork) -> Shelf:
    """Six paints in use, one of them without pigments on record, and two papers.

    Those of a known volume have a full container, and one of the papers has five sheets.
    """
    for facts in (
        PaintFacts("UM", "Saltings Colour", "Ultramarine", ("PB29",), volume_ml=14.0),
        PaintFacts("BS", "Saltings Colour", "Burnt Sienna", ("PBr7",), volume_ml=14.0),
        PaintFacts("AC", "Saltings Colour", "Alizarin Crimson", ("PR83",), volume_ml=5.0),
        PaintFacts("CR", "Hard & Quay", "Cadmium Red", ("PR108",), volume_ml=10.0),
        PaintFacts("SO", "Hard & Quay", "Sedge Ochre", ("PY42",)),
        PaintFacts("TG", "Hard & Quay", "Tide Green", form=Form.PAN),
    ):
        add_paint(work, facts, TODAY)
    add_paper(work, PaperFacts("SR", "Tidewrack Mill", "Sedge Rag", weight_gsm=300.0), TODAY)
    add_paper(work, PaperFacts("SM", "Tidewrack Mill", "Sedge Smooth"), TODAY, bought=5)
    return Shelf(work)


WriteTable = Callable[..., Path]


@pytest.fixture
def table(tmp_path: Path) -> WriteTable:
    """`table("paints", "maker,name", "a,b")`: a CSV file of that kind with those lines."""

    def write(kind: str, *lines: str, newline: str = "\n") -> Path:
        path = tmp_path / f"{kind}.csv"
        path.write_bytes((newline.join(lines) + newline).encode("utf-8"))
        return path

    return write
