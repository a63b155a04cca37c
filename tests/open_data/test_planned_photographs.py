"""Two real photographs planned from their main colours to a palette, with 780 real mixtures.

What is held was measured by `benchmarks/plan_photograph.py`. That no colour near a mixture goes
without one is checked by going through all of them.
"""

from pathlib import Path

import pytest

from benchmarks.plan_photograph import TOLERANCE, planned_photograph
from studio.actions.importing.tables import ImportResult
from studio.actions.open_picture import open_picture
from studio.actions.paint_model import PaintModel, paint_model
from studio.actions.target_grid import grid_of
from studio.actions.target_palette import target_palette
from studio.colour.difference import ciede2000
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import TODAY
from tests.open_data import photographs, wpsm

for data in (wpsm, photographs):
    if not data.wheel().is_file():
        pytest.skip(data.HOW_TO_GET.format(path=data.wheel()), allow_module_level=True)

MATCHED = {"china.jpg": (5, 2, 7), "flower.jpg": (3, 3, 4)}
"""Of eight main colours: within ΔE00 3, of these by a past mix as measured, and paints."""


@pytest.fixture(scope="module")
def model(imported: tuple[Path, ImportResult]) -> PaintModel:
    """The 13 paints as the mixtures tell them."""
    with UnitOfWork(imported[0]) as work:
        return paint_model(work, TODAY)


@pytest.mark.parametrize("name", photographs.NAMES)
def test_the_colours_of_a_photograph_are_matched_with_few_paints(
    name: str, imported: tuple[Path, ImportResult], model: PaintModel, tmp_path: Path
) -> None:
    picture = tmp_path / name
    picture.write_bytes(photographs.photograph(name))
    with UnitOfWork(imported[0]) as work:
        figure = planned_photograph(work, model, picture)
        opened = open_picture(picture)
        colours = target_palette(work, opened, grid_of(opened.picture, None, 4), 8, 0)
        swatches = [swatch.lab.coordinates for swatch in work.swatches.all()]
    within = sum(
        min(ciede2000(each.lab.coordinates, lab) for lab in swatches) <= TOLERANCE
        for each in colours
    )
    assert figure.recorded <= within <= figure.matched
    assert (figure.matched, figure.recorded, figure.paints) == MATCHED[name]
    unmatched = figure.out_of_reach + figure.too_uncertain
    assert figure.matched + unmatched == figure.colours == 8
    assert figure.fewest_proven
    assert figure.mean_delta_e < TOLERANCE
