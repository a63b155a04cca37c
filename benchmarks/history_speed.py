"""What the history costs when very many swatches are recorded, and how long taking them back lasts.

`python benchmarks/history_speed.py [COUNT]` writes swatches with a reading each, some thousand at
once as an import does, with and without a history, then undoes and repeats the command. Times are
of the processor, as other programs may run beside it.
"""

import random
import sys
import tempfile
import time
from datetime import date
from pathlib import Path

from studio.actions.open_studio import create_studio
from studio.actions.undo_commands import redo_commands, undo_commands
from studio.catalogue.mix import Mix
from studio.catalogue.paint import PaintFacts
from studio.catalogue.paper import PaperFacts
from studio.catalogue.reading import Method, Origin, Reading, State
from studio.catalogue.recipe import Recipe
from studio.catalogue.swatch import Application, SwatchFacts
from studio.colour.lab import Lab
from studio.storage.swatches import NewSwatch
from studio.storage.unit_of_work import UnitOfWork

DAY = date(2026, 5, 4)
TOGETHER = 4000


def _swatches(count: int) -> list[NewSwatch]:
    chance = random.Random(7)  # noqa: S311 - colours of no meaning, always the same
    swatches = []
    facts = SwatchFacts("", None, 1, Application.FLAT_WASH, DAY)
    for key in range(1, count + 1):
        lab = Lab(chance.uniform(20, 95), chance.uniform(-40, 40), chance.uniform(-40, 60))
        reading = Reading(
            lab, lab, Origin.MEASURED, None, State.DRY, Method.COLORIMETER, None, None, None, DAY
        )
        swatches.append(NewSwatch(f"S{key}", facts, 1, 1, reading))
    return swatches


def _write(path: Path, count: int, *, in_history: bool) -> float:
    swatches = _swatches(count)
    began = time.process_time()
    with UnitOfWork(path, write=True, in_history=in_history) as work:
        for start in range(0, count, TOGETHER):
            work.swatches.add_many(swatches[start : start + TOGETHER])
        work.commit()
    return time.process_time() - began


def main(count: int) -> None:
    """Print the figures."""
    with tempfile.TemporaryDirectory() as folder:
        for in_history in (False, True):
            path = Path(folder) / f"{in_history}.sqlite3"
            create_studio(path)
            with UnitOfWork(path, write=True) as work:
                paint = work.paints.add(PaintFacts("FU", "Pellow & Strand", "French Ultramarine"))
                work.papers.add(PaperFacts("SR", "Eddering Mill", "Slipway Rag"))
                work.mixes.add(Mix(0, "M1", Recipe(((paint, 1),)), None, None, DAY))
                work.commit()
            took = _write(path, count, in_history=in_history)
            how = "with" if in_history else "without"
            size = path.stat().st_size / 1e6
            print(f"{how} a history: {took:.2f} s, {2 * count / took:,.0f} rows/s, {size:.0f} MB")
        for name, action in (("undo", undo_commands), ("redo", redo_commands)):
            began = time.process_time()
            with UnitOfWork(path, write=True) as work:
                action(work)
                work.commit()
            took = time.process_time() - began
            print(f"{name}: {took:.2f} s, {path.stat().st_size / 1e6:.0f} MB")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100_000)
