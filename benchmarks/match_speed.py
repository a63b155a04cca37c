"""How long `studio match` and `studio --help` take, as ratios to loading their libraries.

Usage: python benchmarks/match_speed.py [--runs N] [--sizes N ...] [--json]

Studios of 300, 10,000 and 100,000 swatches are written into a folder that is removed at the end:
the paints, papers and stock of the demo studio, a mix for every three swatches, and colours
scattered about the demo's own, from a fixed seed. The smallest passes `studio db check` or nothing
is timed.

Then each command runs as a process of its own, so that nothing of an earlier run is loaded; its
files are in the system's cache. The commands take turns, each round starting with another one, and
the first round does not count. Every run is divided by the run of its reference in the same round,
`python -c "import typer, sqlalchemy"` for a match and `python -c "import typer"` for the help, and
the median of these ratios is what is compared with the aim: it says the same on a fast machine and
on a slow one. The quartiles beside it tell how busy the machine was: an aim between them is neither
met nor missed for sure, and more runs are needed. The milliseconds are medians too. Aims are
printed, never enforced.

With --json: a list of objects with `command`, `swatches`, `milliseconds`, `reference`,
`reference_milliseconds`, `ratio`, `quartiles` (lower and upper, of the ratio), `aim` and `met`;
what has no aim has null in the last two.
"""

import argparse
import json
import math
import os
import random
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from datetime import date
from pathlib import Path
from typing import Any, Final

from sqlalchemy import Connection, insert

from studio.actions.build_demo import build_demo
from studio.actions.check_database import check_database
from studio.actions.importing.tables import import_tables, tables_at
from studio.actions.open_studio import create_studio
from studio.catalogue.recipe import Recipe
from studio.storage import tables as t
from studio.storage.paint_marks import cells_of_mixes
from studio.storage.shipped import shipped_folder
from studio.storage.sqlite_copy import copy
from studio.storage.unit_of_work import UnitOfWork

ROOT: Final = Path(__file__).resolve().parents[1]
TARGET: Final = "#6f7d6b"
SIZES: Final = (300, 10_000, 100_000)
AIM_SIZE: Final = 10_000
MATCH_AIM: Final = 1.6
HELP_AIM: Final = 1.5

TODAY: Final = date(2026, 11, 25)
SEED: Final = 20261125
SWATCHES_A_MIX: Final = 3
PAINTS: Final = 20
SHELF: Final = ("paints", "papers", "stock")

Triple = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Timed:
    """A command, the reference it is divided by, and the ratio it is to stay under."""

    command: str
    words: tuple[str, ...]
    reference: tuple[str, ...]
    swatches: int | None = None
    aim: float | None = None


@dataclass(frozen=True, slots=True)
class Figure:
    """What came out for one command."""

    command: str
    swatches: int | None
    milliseconds: float
    reference: str
    reference_milliseconds: float
    ratio: float
    quartiles: tuple[float, float]
    aim: float | None
    met: bool | None


def write_studios(sizes: Sequence[int], folder: Path) -> dict[int, Path]:
    """A studio of each size."""
    demo, shelf = folder / "demo.sqlite3", folder / "shelf.sqlite3"
    build_demo(demo, TODAY)
    with UnitOfWork(demo) as work:
        colours = [swatch.lab.coordinates for swatch in work.swatches.all()]

    def stock_shelf(work: UnitOfWork) -> None:
        tables = tables_at([shipped_folder("seed_demo")])
        import_tables(work, [each for each in tables if each[0].name in SHELF], TODAY)

    create_studio(shelf, stock_shelf)
    studios = {}
    for size in sorted(set(sizes)):
        path = studios[size] = folder / f"{size}.sqlite3"
        copy(shelf, path)
        with UnitOfWork(path, write=True) as work:
            paints = sorted(paint.id for paint in work.paints.all())[:PAINTS]
            papers = sorted(paper.id for paper in work.papers.all())
            _fill(work.connection, size, colours, paints, papers)
            work.commit()
    return studios


def _fill(
    connection: Connection,
    size: int,
    colours: Sequence[Triple],
    paints: Sequence[int],
    papers: Sequence[int],
) -> None:
    """Mixes with their swatches and readings, each reading in keeping with its swatch."""
    chance = random.Random(SEED)  # noqa: S311 - the same studio every time is what is wanted
    rows: dict[Any, list[dict[str, Any]]] = {
        table: [] for table in (t.mix, t.mix_component, t.swatch, t.reading)
    }
    recipes = _recipes(chance, paints)
    near = (50.0, 0.0, 0.0)
    for number in range(1, size + 1):
        mix = (number - 1) // SWATCHES_A_MIX + 1
        if (number - 1) % SWATCHES_A_MIX == 0:
            near = _scattered(chance, chance.choice(colours), 4.0)
            recipe = next(recipes)
            rows[t.mix].append(
                {"id": mix, "code": f"M{mix}", "recipe_key": recipe.key, "created_on": TODAY}
            )
            rows[t.mix_component] += [
                {"mix_id": mix, "paint_id": paint, "position": place, "parts": parts}
                for place, (paint, parts) in enumerate(recipe.parts, start=1)
            ]
        lab = _scattered(chance, near, 2.0)
        state = "wet" if number % 25 == 0 else "dry"
        rows[t.swatch].append(
            {
                "id": number,
                "code": f"S{number}",
                "mix_id": mix,
                "paper_id": chance.choice(papers),
                "water": chance.choice((1.0, 2.0, 4.0, 8.0)),
                "layers": 1,
                "application": "flat wash",
                "made_on": TODAY,
                "kept_at": f"card box {mix // 60 + 1}",
                "state": state,
                **_lab(lab),
            }
        )
        # Every fifth was read twice, as far to either side of the colour it is searched by.
        for away in (-0.25, 0.25) if number % 5 == 0 else (0.0,):
            read = (lab[0] + away, lab[1] - away, lab[2])
            rows[t.reading].append(
                {
                    "swatch_id": number,
                    **_lab(read),
                    **_lab(read, "given_"),
                    "given_illuminant": "D50",
                    "given_observer": 2,
                    "origin": "measured",
                    "state": state,
                    "method": "colorimeter",
                    "read_on": TODAY,
                }
            )
    connection.execute(insert(t.mix), rows[t.mix])
    connection.execute(insert(t.mix_component), rows[t.mix_component])
    marks = cells_of_mixes(connection, (row["id"] for row in rows[t.mix]))
    connection.execute(insert(t.swatch), [row | marks[row["mix_id"]] for row in rows[t.swatch]])
    connection.execute(insert(t.reading), rows[t.reading])


def _recipes(chance: random.Random, paints: Sequence[int]) -> Iterator[Recipe]:
    """Recipes of one to three paints, no two alike."""
    seen = set()
    while True:
        chosen = chance.sample(paints, chance.choice((1, 2, 2, 2, 3, 3)))
        parts = [chance.randint(1, 12) for _ in chosen]
        divisor = math.gcd(*parts)
        recipe = Recipe(tuple(zip(chosen, (part // divisor for part in parts), strict=True)))
        if recipe.key not in seen:
            seen.add(recipe.key)
            yield recipe


def _scattered(chance: random.Random, lab: Triple, spread: float) -> Triple:
    """A colour about another one, within what can be painted."""
    lightness, a, b = (chance.gauss(axis, spread) for axis in lab)
    return min(98.0, max(5.0, lightness)), a, b


def _lab(lab: Triple, prefix: str = "") -> dict[str, object]:
    return dict(zip((f"{prefix}lightness", f"{prefix}a", f"{prefix}b"), lab, strict=True))


def measure(timed: Sequence[Timed], rounds: int) -> list[Figure]:
    """The figures of some commands, each run once a round, after a round that does not count."""
    lines = list(dict.fromkeys(line for each in timed for line in (each.words, each.reference)))
    seconds: dict[tuple[str, ...], list[float]] = {line: [] for line in lines}
    for turn in range(rounds + 1):
        first = turn % len(lines)
        for line in lines[first:] + lines[:first]:
            taken = _seconds(line)
            if turn > 0:
                seconds[line].append(taken)
    figures = []
    for each in timed:
        own, reference = seconds[each.words], seconds[each.reference]
        ratios = [a / b for a, b in zip(own, reference, strict=True)]
        low, ratio, high = statistics.quantiles(ratios, n=4, method="inclusive")
        figures.append(
            Figure(
                command=each.command,
                swatches=each.swatches,
                milliseconds=round(1000 * statistics.median(own), 1),
                reference=each.reference[-1],
                reference_milliseconds=round(1000 * statistics.median(reference), 1),
                ratio=round(ratio, 3),
                quartiles=(round(low, 3), round(high, 3)),
                aim=each.aim,
                met=None if each.aim is None else ratio <= each.aim,
            )
        )
    return figures


def _seconds(words: Sequence[str]) -> float:
    """How long a Python process with these arguments takes.

    Raises:
        CalledProcessError: it failed.
    """
    # Without its compiled files, Python would compile the program each time.
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    start = time.perf_counter()
    subprocess.run(
        [sys.executable, *words],
        check=True,
        cwd=ROOT,
        env=environment,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
    )
    return time.perf_counter() - start


def print_table(figures: Sequence[Figure]) -> None:
    """A line for each command."""
    print(
        f"{'command':<16}{'swatches':>9}{'ms':>8}{'reference ms':>14}{'ratio':>7}{'quartiles':>13}"
        f"{'aim':>6}"
    )
    for each in figures:
        swatches = "" if each.swatches is None else f"{each.swatches:,}"
        low, high = each.quartiles
        line = (
            f"{each.command:<16}{swatches:>9}{each.milliseconds:>8.0f}"
            f"{each.reference_milliseconds:>14.0f}{each.ratio:>7.2f}{low:>7.2f}-{high:.2f} "
        )
        if each.aim is not None:
            unsure = ", perhaps" if low <= each.aim < high else ""
            line += f"{each.aim:>5.1f}  {'met' if each.met else 'missed'}{unsure}"
        print(line)
    print("references: " + "; ".join(dict.fromkeys(each.reference for each in figures)))


def main() -> None:
    """Write the studios, time the commands, print the figures."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--runs", type=int, default=21, help="rounds that count (21)")
    parser.add_argument(
        "--sizes", type=int, nargs="+", default=SIZES, help="swatches (300 10000 100000)"
    )
    parser.add_argument("--json", action="store_true", help="print JSON")
    options = parser.parse_args()
    if options.runs < 2 or min(options.sizes) < 1:  # noqa: PLR2004 - quartiles need two
        parser.error("at least 2 runs, and studios of at least 1 swatch")
    with tempfile.TemporaryDirectory() as folder:
        studios = write_studios(options.sizes, Path(folder))
        faults = check_database(studios[min(studios)])
        if faults:
            sys.exit(f"the written studio is not consistent: {faults[0]}")
        timed = [
            Timed(
                command="match",
                words=("-m", "studio", "--db", str(path), "match", TARGET),
                reference=("-c", "import typer, sqlalchemy"),
                swatches=size,
                aim=MATCH_AIM if size == AIM_SIZE else None,
            )
            for size, path in studios.items()
        ]
        timed.append(
            Timed("--help", ("-m", "studio", "--help"), ("-c", "import typer"), aim=HELP_AIM)
        )
        figures = measure(timed, options.runs)
    if options.json:
        print(json.dumps([asdict(figure) for figure in figures], indent=2))
    else:
        print_table(figures)


if __name__ == "__main__":
    main()
