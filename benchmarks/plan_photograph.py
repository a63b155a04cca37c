"""Plan real photographs with a history of 780 real mixtures: how many colours, how few paints.

The studio's history is NTU WPSM (13 watercolours, every pair mixed; Chen et al. 2019), imported as
a painter imports swatches; the pictures are two photographs that scikit-learn carries. Each one's
eight main colours, found by `target palette`, are the passages of a painting, which is planned
as `painting plan` does. Neither was made for the other: the paints were chosen by no one who knew
the pictures. Usage:

    python benchmarks/plan_photograph.py --data FOLDER
"""

import argparse
import json
import os
import sys
import tempfile
import time
from collections import Counter
from dataclasses import asdict, dataclass
from datetime import date
from pathlib import Path
from typing import Final

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from studio.actions.importing.tables import import_tables, tables_at
from studio.actions.match_colour import Wanted
from studio.actions.open_picture import open_picture
from studio.actions.open_studio import create_studio
from studio.actions.paint_model import PaintModel, paint_model
from studio.actions.painting.plan import Basis
from studio.actions.painting.plan_painting import plan_painting
from studio.actions.target_grid import grid_of
from studio.actions.target_palette import target_palette
from studio.catalogue.painting import Painting, Passage, PassageColour
from studio.catalogue.swatch import Application
from studio.storage.unit_of_work import UnitOfWork
from tests.open_data.csv_tables import write_shelf, write_swatches
from tests.open_data.photographs import NAMES, photograph
from tests.open_data.wpsm import read_wheel, wheel

DAY: Final = date(2019, 2, 1)
COLOURS: Final = 8
TOLERANCE: Final = 3.0


@dataclass(frozen=True, slots=True)
class Figure:
    """A photograph planned.

    Args:
        picture: its file.
        colours: its main colours.
        matched: how many have a mix within the tolerance, recorded, between or predicted.
        recorded: how many by a past mix as it was measured.
        predicted: how many by a tint between or a prediction.
        out_of_reach: how many of the others no paint here reaches, by the studio's own words.
        too_uncertain: how many of the others are predicted, but not surely enough to act on.
        paints: in the palette.
        fewest_proven: whether no smaller palette makes them.
        mean_delta_e: of the matched.
        seconds: for the plan.
    """

    picture: str
    colours: int
    matched: int
    recorded: int
    predicted: int
    out_of_reach: int
    too_uncertain: int
    paints: int
    fewest_proven: bool
    mean_delta_e: float
    seconds: float


def planned_photograph(
    work: UnitOfWork, model: PaintModel, picture: Path, tolerance: float = TOLERANCE
) -> Figure:
    """A photograph planned with a studio's history.

    Args:
        work: the studio, with one paper.
        model: its paints.
        picture: the photograph.
        tolerance: ΔE00 that passes.
    """
    opened = open_picture(picture)
    found = target_palette(work, opened, grid_of(opened.picture, None, 4), COLOURS, 0)
    passages = tuple(
        Passage(
            number,
            f"colour {number}",
            Application.FLAT_WASH,
            (PassageColour(number, each.lab),),
            each.share,
        )
        for number, each in enumerate(found, start=1)
    )
    (paper,) = work.papers.all()
    painting = Painting(1, "P1", picture.name, paper.id, 380.0, 280.0, tolerance, DAY, passages)
    began = time.perf_counter()
    plan = plan_painting(work, model, painting, Wanted())
    took = time.perf_counter() - began
    chosen = [each.chosen for each in plan.colours if each.chosen is not None]
    basis = Counter(each.basis for each in chosen)
    return Figure(
        picture.name,
        len(plan.colours),
        len(chosen),
        basis[Basis.RECORDED],
        basis[Basis.TINT] + basis[Basis.PREDICTED],
        sum("cannot be reached" in (each.needed or "") for each in plan.to_test),
        sum("too uncertain to act on" in (each.needed or "") for each in plan.to_test),
        len(plan.palette),
        plan.fewest_proven,
        round(sum(each.delta_e for each in chosen) / max(len(chosen), 1), 2),
        round(took, 1),
    )


def history(folder: Path) -> Path:
    """A studio with the 780 mixtures as its swatches, made in a folder."""
    measured = read_wheel(wheel())
    write_shelf(measured, folder / "tables")
    write_swatches(measured.mixtures, folder / "tables")
    path = folder / "studio.sqlite3"
    create_studio(path)
    with UnitOfWork(path, write=True) as work:
        import_tables(work, tables_at([folder / "tables"]), DAY)
        paint_model(work, DAY)
        work.commit()
    return path


def main() -> None:
    """Build the studio, plan both photographs, print the table."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--data", type=Path, help="the folder with both wheels")
    parser.add_argument("--json", action="store_true", help="print JSON")
    options = parser.parse_args()
    if options.data is not None:
        os.environ["STUDIO_OPEN_DATA"] = str(options.data)
    figures = []
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        with UnitOfWork(history(folder)) as work:
            model = paint_model(work, DAY)
            for each in NAMES:
                (folder / each).write_bytes(photograph(each))
                figures.append(planned_photograph(work, model, folder / each))
    if options.json:
        print(json.dumps([asdict(each) for each in figures], indent=2))
        return
    print(
        f"{'picture':<12}{'matched':>12}{'recorded':>10}{'predicted':>11}{'no reach':>10}"
        f"{'unsure':>8}{'paints':>8}{'fewest':>8}{'mean ΔE00':>11}{'s':>7}"
    )
    for one in figures:
        print(
            f"{one.picture:<12}{f'{one.matched} of {one.colours}':>12}{one.recorded:>10}"
            f"{one.predicted:>11}{one.out_of_reach:>10}"
            f"{one.too_uncertain:>8}{one.paints:>8}"
            f"{'proven' if one.fewest_proven else 'open':>8}{one.mean_delta_e:>11.2f}"
            f"{one.seconds:>7.1f}"
        )


if __name__ == "__main__":
    main()
