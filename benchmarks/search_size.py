"""What a search costs at 1,000 to 1,000,000 swatches, beside simpler ways to the same answer.

Usage: python benchmarks/search_size.py [--sizes N ...] [--targets N] [--rounds N] [--folder DIR]

Studios of each size are written into a folder (one of its own, removed at the end, without
`--folder`; with it, what is there is used again): the paints, papers and stock of the demo studio,
mixes of one to four paints from a fixed seed, three swatches a mix in different waters. A swatch's
colour follows from made-up pigments by Beer's law on three bands, so that colours lie as those of
paint do: many greys, few intense ones. One paper has 5 % of the swatches; 4 % were read wet only.

Warm: one open studio, the ten nearest mixes to colours of swatches drawn from the studio (median
and worst), and to ten colours of a screen and beyond that no paint reaches (worst), for each
filter. Cold: `studio match` as a process of its own, in turns of all sizes, the median; its peak
memory is the most that any run took. Others: the same ten by CIEDE2000 over all rows that are
fetched from the same file; `rows` is the fetch alone, which no way of comparing all can beat.
scikit-image is no dependency of the project: its line appears where it happens to be installed.
Milliseconds are those that a processor was busy, so that other work on the machine counts little;
ratios are to the search, median without filter.
"""

import argparse
import colorsys
import math
import os
import random
import sqlite3
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing
from datetime import date
from importlib import import_module
from pathlib import Path
from typing import Any, Final

import numpy as np

from studio.actions.importing.tables import import_tables, tables_at
from studio.actions.match_colour import Wanted, match_colour
from studio.actions.open_studio import create_studio
from studio.actions.read_target import Target
from studio.colour import science
from studio.colour.difference import CIEDE2000, ciede2000
from studio.colour.lab import Lab
from studio.colour.nearest import nearest
from studio.storage.paint_marks import marks_of
from studio.storage.search import SwatchFilter
from studio.storage.shipped import shipped_folder
from studio.storage.unit_of_work import UnitOfWork

ROOT: Final = Path(__file__).resolve().parents[1]
SIZES: Final = (1_000, 10_000, 100_000, 1_000_000)
TODAY: Final = date(2026, 11, 25)
DAY: Final = TODAY.isoformat()
SEED: Final = 20261125
SHELF: Final = ("paints", "papers", "stock")
COUNT: Final = 10
WET: Final = 0.04
COLD: Final = "#767d63"
OUT_OF_REACH: Final = (
    (91.0, -50.0, -15.0),
    (60.0, 94.0, -60.0),
    (54.0, 81.0, 70.0),
    (88.0, -79.0, 81.0),
    (30.0, 68.0, -112.0),
    (97.0, -16.0, 93.0),
    (100.0, 0.0, 0.0),
    (0.0, 0.0, 0.0),
    (80.0, -128.0, 127.0),
    (20.0, 70.0, -90.0),
)
"""The corners of a screen's colours (L*, a*, b* under D50, rounded) and two beyond them."""

WATCHED: Final = """
import sys
from studio.cli.app import main
status = main(sys.argv[1:])
lines = open("/proc/self/status").read().splitlines()
print(next(line.split()[1] for line in lines if line.startswith("VmHWM")), file=sys.stderr)
sys.exit(status)
"""
"""A command line that tells its peak memory in KiB: what the system tells of a child counts what
the parent held when it was started."""

Way = Callable[[tuple[float, float, float]], object]


def write_studio(path: Path, size: int) -> None:
    """A studio of so many swatches."""

    def stock_shelf(work: UnitOfWork) -> None:
        tables = tables_at([shipped_folder("seed_demo")])
        import_tables(work, [each for each in tables if each[0].name in SHELF], TODAY)

    create_studio(path, stock_shelf)
    chance = np.random.default_rng(SEED)
    with closing(sqlite3.connect(path)) as connection:
        paints, papers = (
            [key for (key,) in connection.execute(f"SELECT id FROM {name} ORDER BY id")]  # noqa: S608
            for name in ("paint", "paper")
        )
        connection.execute("PRAGMA synchronous = OFF")
        mixes = -(-size // 3)
        parts = _parts(chance, mixes, len(paints))
        labs = _colours(chance, parts, size)
        marks = ((parts > 0) @ np.array([marks_of([paint]) for paint in paints])).tolist()
        where = chance.choice(
            papers, size, p=[0.05, *[0.95 / (len(papers) - 1)] * (len(papers) - 1)]
        )
        state = np.where(chance.random(size) < WET, "wet", "dry").tolist()
        rows = zip(range(1, size + 1), where.tolist(), state, labs.tolist(), strict=True)
        swatches = [(key, (key - 1) // 3 + 1, *of) for key, *of in rows]
        for sql, values in (
            (
                "INSERT INTO mix (id, code, recipe_key, created_on) VALUES (?, ?, ?, ?)",
                ((key, f"M{key}", f"{key}*1", DAY) for key in range(1, mixes + 1)),
            ),
            (
                "INSERT INTO mix_component (mix_id, paint_id, position, parts) VALUES (?, ?, ?, ?)",
                _components(parts, paints),
            ),
            (
                """INSERT INTO swatch (id, code, mix_id, paper_id, layers, application, made_on,
                state, lightness, a, b, paint_marks_low, paint_marks_high)
                VALUES (?, ?, ?, ?, 1, 'flat wash', ?, ?, ?, ?, ?, ?, 0)""",
                (
                    (k, f"S{k}", mix, paper, DAY, dry, *lab, marks[mix - 1])
                    for k, mix, paper, dry, lab in swatches
                ),
            ),
            (
                """INSERT INTO reading (swatch_id, lightness, a, b, given_lightness, given_a,
                given_b, origin, given_illuminant, given_observer, state, method, read_on)
                VALUES (?, ?, ?, ?, ?, ?, ?, 'measured', 'D50', 2, ?, 'colorimeter', ?)""",
                ((k, *lab, *lab, dry, DAY) for k, _, _, dry, lab in swatches),
            ),
        ):
            connection.executemany(sql, values)
        connection.commit()


def _parts(chance: np.random.Generator, mixes: int, paints: int) -> Any:  # noqa: ANN401 - numpy's
    """Parts of each paint in each mix: one to four paints, one to twelve parts."""
    parts = np.zeros((mixes, paints), dtype=np.int8)
    held = chance.choice([1, 2, 3, 4], mixes, p=[0.02, 0.38, 0.4, 0.2])
    for start in range(0, mixes, 50_000):
        stop = min(start + 50_000, mixes)
        rank = chance.random((stop - start, paints)).argsort(axis=1).argsort(axis=1)
        amounts = chance.integers(1, 13, (stop - start, paints))
        parts[start:stop] = np.where(rank < held[start:stop, None], amounts, 0)
    return parts // np.gcd.reduce(parts, axis=1, keepdims=True)


def _components(parts: Any, paints: Sequence[int]) -> Iterator[tuple[int, int, int, int]]:  # noqa: ANN401
    for key, row in enumerate(parts, start=1):
        for position, place in enumerate(np.flatnonzero(row), start=1):
            yield key, paints[int(place)], position, int(row[place])


def _colours(chance: np.random.Generator, parts: Any, size: int) -> Any:  # noqa: ANN401
    """L*, a*, b* of three swatches a mix: light through two layers of paint, on white paper."""
    paints = parts.shape[1]
    draws = zip(
        chance.random(paints),
        chance.uniform(0.35, 0.97, paints),
        chance.uniform(0.12, 0.95, paints),
        strict=True,
    )
    through = np.array([colorsys.hsv_to_rgb(*each) for each in draws]) ** 2.2 * 0.93 + 0.02
    strength = parts * chance.lognormal(0.0, 0.6, paints)
    absorbed = (strength / strength.sum(axis=1, keepdims=True)) @ -np.log(through)
    water = chance.choice([1.0, 2.0, 4.0, 8.0], size)
    amount = 3.2 / (1.0 + water) * chance.lognormal(0.0, 0.15, size)
    light = 0.92 * np.exp(-absorbed[np.arange(size) // 3] * amount[:, None]) + 0.01
    # Linear sRGB to XYZ under D50 (adapted by Bradford), and CIE 15 from there.
    xyz = light @ np.array(
        [[0.4360, 0.2225, 0.0139], [0.3851, 0.7169, 0.0971], [0.1431, 0.0606, 0.7141]]
    )
    x, y, z = np.cbrt(xyz / (0.9642, 1.0, 0.8249)).T
    lab = np.stack([116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)], axis=1)
    return np.clip(lab + chance.normal(0.0, 0.4, lab.shape), (1, -190, -190), (99, 190, 190))


def filters(work: UnitOfWork) -> dict[str, SwatchFilter]:
    """What a match may be asked to leave out."""
    paints = sorted(paint.id for paint in work.paints.all())
    papers = sorted(paper.id for paper in work.papers.all())
    chance = random.Random(3)  # noqa: S311
    third = frozenset(chance.sample(paints, len(paints) // 3))
    return {
        "none": SwatchFilter(),
        "a paper": SwatchFilter(paper_id=papers[0]),
        "a third of paints barred": SwatchFilter(barred_paints=third),
        "that and a paper": SwatchFilter(paper_id=papers[0], barred_paints=third),
        "two thirds barred": SwatchFilter(
            barred_paints=frozenset(chance.sample(paints, 2 * len(paints) // 3))
        ),
        "only one paint": SwatchFilter(barred_paints=frozenset(paints[1:])),
        "only three paints": SwatchFilter(barred_paints=frozenset(paints[3:])),
        "with a paint": SwatchFilter(required_paints=frozenset(paints[:1])),
        "with three paints": SwatchFilter(required_paints=frozenset(paints[3:6])),
    }


def milliseconds(call: Callable[[], object]) -> float:
    """How long a call keeps a processor busy."""
    start = time.process_time()
    call()
    return 1000.0 * (time.process_time() - start)


def warm(path: Path, targets: int) -> float:
    """Print the warm figures of one studio; the median without filter."""
    plain = math.nan
    with UnitOfWork(path) as work:
        size = work.swatches.count()
        chance = random.Random(SEED)  # noqa: S311
        keys = [chance.randint(1, size) for _ in range(targets)]
        drawn = [swatch.lab.coordinates for swatch in work.swatches.by_ids(keys).values()]
        for name, wanted in filters(work).items():

            def search(target: tuple[float, float, float], wanted: SwatchFilter = wanted) -> object:
                return nearest(target, work.swatches.searched(wanted), CIEDE2000, COUNT)

            search(drawn[0])
            inside = [milliseconds(lambda: search(target)) for target in drawn]  # noqa: B023
            outside = [milliseconds(lambda: search(target)) for target in OUT_OF_REACH]  # noqa: B023
            median = statistics.median(inside)
            plain = median if name == "none" else plain
            print(
                f"  search, {name:<26}{median:>9.1f} median{max(inside):>9.1f} worst"
                f"{max(outside):>9.1f} worst out of reach",
                flush=True,
            )
        whole = [
            milliseconds(lambda: match_colour(work, Target(Lab(*each), "drawn"), Wanted()))  # noqa: B023
            for each in drawn
        ]
        print(f"  whole match_colour          {statistics.median(whole):>16.1f} median")
    return plain


def others(path: Path, plain: float) -> None:
    """Print what comparing with every row takes."""
    sql = "SELECT id, mix_id, lightness, a, b FROM swatch WHERE state = 'dry'"
    with closing(sqlite3.connect(path)) as connection:
        fetch = min(milliseconds(lambda: connection.execute(sql).fetchall()) for _ in range(3))
        rows = connection.execute(sql).fetchall()
    colours = np.array([row[2:] for row in rows])
    delta_e = vars(science)["colour"].difference.delta_E_CIE2000
    ways: dict[str, Way] = {
        "plain math": lambda target: [ciede2000(target, row[2:]) for row in rows],
        "numpy": lambda target: np.argsort(_numpy(target, colours))[:COUNT],
        "colour-science": lambda target: np.argsort(delta_e(np.array(target), colours))[:COUNT],
    }
    try:
        color = import_module("skimage.color")
    except ImportError:
        print("  scikit-image is not installed; its line is left out")
    else:
        ways["scikit-image"] = lambda target: np.argsort(
            color.deltaE_ciede2000(np.broadcast_to(target, colours.shape), colours)
        )[:COUNT]
    print(f"  rows fetched                {fetch:>16.1f}{fetch / plain:>12.1f} times the search")
    for name, way in ways.items():
        took = min(milliseconds(lambda: way((50.0, 10.0, 20.0))) for _ in range(3))  # noqa: B023
        print(
            f"  {name:<27} {took:>16.1f}{took / plain:>12.1f} times, with the rows"
            f"{(took + fetch) / plain:>10.1f}"
        )


def _numpy(target: tuple[float, float, float], colours: Any) -> Any:  # noqa: ANN401
    sys.path.insert(0, str(ROOT))
    from tests.colour.bound_check import ciede2000 as of_many  # noqa: PLC0415

    return of_many(target, colours)


def cold(studios: dict[int, Path], rounds: int) -> None:
    """Print time and memory of `studio match` as a process, the sizes in turns."""
    for filtered in ((), ("--lightfast", "II"), ("--in-stock", "--without-hazard", "any")):
        taken: dict[int, list[tuple[float, int]]] = {size: [] for size in studios}
        for turn in range(rounds + 1):
            for size, path in studios.items():
                figures = _process(["--db", str(path), "match", COLD, *filtered])
                if turn > 0:
                    taken[size].append(figures)
        medians = {size: statistics.median(ms for ms, _ in each) for size, each in taken.items()}
        first = medians[min(medians)]
        for size, each in taken.items():
            paired = statistics.median(
                ms / one for (ms, _), (one, _) in zip(each, taken[min(taken)], strict=True)
            )
            print(
                f"cold match {' '.join(filtered):<34}{size:>10,}{medians[size]:>9.0f} ms"
                f"{medians[size] / first:>7.2f} ({paired:.2f} in pairs) times the smallest, peak "
                f"{max(kib for _, kib in each) / 1024:.0f} MiB",
                flush=True,
            )


def _process(words: Sequence[str]) -> tuple[float, int]:
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    process = subprocess.Popen(
        [sys.executable, "-c", WATCHED, *words],
        cwd=ROOT,
        env=environment,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stderr is not None  # noqa: S101
    told = process.stderr.read()
    _, status, usage = os.wait4(process.pid, 0)
    took = 1000.0 * (usage.ru_utime + usage.ru_stime)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode not in (0, 10):
        sys.exit(f"studio {' '.join(words)} failed")
    return took, int(told.split()[-1])


def main() -> None:
    """Write the studios, time the searches, print the figures."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--sizes", type=int, nargs="+", default=SIZES)
    parser.add_argument("--targets", type=int, default=60, help="targets drawn (60)")
    parser.add_argument("--rounds", type=int, default=11, help="cold runs of each that count (11)")
    parser.add_argument("--folder", type=Path, help="keep the studios here, or find them here")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as temporary:
        folder = options.folder or Path(temporary)
        studios = {size: folder / f"{size}.sqlite3" for size in sorted(options.sizes)}
        for size, path in studios.items():
            if not path.exists():
                write_studio(path, size)
        for size, path in studios.items():
            print(f"{size:,} swatches, warm, ms")
            others(path, warm(path, options.targets))
        cold(studios, options.rounds)


if __name__ == "__main__":
    main()
