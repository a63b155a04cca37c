"""What the history costs when very many swatches are recorded, and how long taking them back lasts.

`python benchmarks/history_speed.py [COUNT]` writes swatches with a reading each, several thousand a
statement, with and without a history, then undoes and repeats the command. Times are of the
processor, as other programs may run beside it.
"""

import random
import sys
import tempfile
import time
from datetime import date
from pathlib import Path

from sqlalchemy import insert

from studio.actions.open_studio import create_studio
from studio.actions.undo_commands import redo_commands, undo_commands
from studio.catalogue.mix import Mix
from studio.catalogue.paint import PaintFacts
from studio.catalogue.paper import PaperFacts
from studio.catalogue.recipe import Recipe
from studio.storage import tables as t
from studio.storage.paint_marks import cells_of_mixes
from studio.storage.unit_of_work import UnitOfWork

DAY = date(2026, 5, 4)
A_STATEMENT = 5000


def _rows(count: int, first: int) -> tuple[list[dict[str, object]], list[dict[str, object]]]:
    chance = random.Random(7)  # noqa: S311 - colours of no meaning, always the same
    swatches: list[dict[str, object]] = []
    readings: list[dict[str, object]] = []
    for key in range(first, first + count):
        lab = {
            "lightness": chance.uniform(20, 95),
            "a": chance.uniform(-40, 40),
            "b": chance.uniform(-40, 60),
        }
        swatches.append(
            {
                "code": f"S{key}", "mix_id": 1, "paper_id": 1, "layers": 1,
                "application": "flat wash", "made_on": DAY, "state": "dry", **lab,
            }
        )  # fmt: skip
        readings.append(
            {
                "swatch_id": key, "origin": "measured", "given_illuminant": "D50",
                "given_observer": 2, "state": "dry", "method": "colorimeter", "read_on": DAY,
                **lab, **{f"given_{axis}": value for axis, value in lab.items()},
            }
        )  # fmt: skip
    return swatches, readings


def _write(path: Path, count: int, *, in_history: bool) -> float:
    swatches, readings = _rows(count, 1)
    began = time.process_time()
    with UnitOfWork(path, write=True, in_history=in_history) as work:
        marks = cells_of_mixes(work.connection, [1])[1]
        for start in range(0, count, A_STATEMENT):
            some = slice(start, start + A_STATEMENT)
            work.connection.execute(insert(t.swatch), [row | marks for row in swatches[some]])
            work.connection.execute(insert(t.reading), readings[some])
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
