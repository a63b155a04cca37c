"""How many swatches a second an import records, beside what the database alone takes for them.

Usage: python benchmarks/import_speed.py [--rows N] [--rounds N]

A table of swatches with a Lab reading each, three of a mix, which is told by its recipe and new, is
imported into a studio with the paints and papers of the demo, as `studio import` does it but for
its backup (new mixes); then as many that name by its code a mix that is there (known mixes). Beside
it the very rows that the first left, written by INSERTs of one row each into a studio with the same
shelf (rows alone), and into tables that have no CHECK and no index but their keys (bare rows).
Seconds are those that a processor was busy, the least of some rounds.
"""

import argparse
import csv
import sqlite3
import sys
import tempfile
import time
from collections.abc import Callable
from contextlib import closing
from datetime import date
from pathlib import Path
from typing import Final

import numpy as np

from studio.actions.importing.tables import import_tables, kind_named, tables_at
from studio.actions.open_studio import create_studio
from studio.storage.shipped import shipped_folder
from studio.storage.unit_of_work import UnitOfWork

TODAY: Final = date(2026, 11, 25)
SEED: Final = 20261125
SHELF: Final = ("paints", "papers")
TABLES: Final = ("mix", "mix_component", "swatch", "reading")
COLUMNS: Final = (
    *("code", "paper", "made_on", "water", "lab_l", "lab_a", "lab_b", "method", "recipe", "mix"),
)

Rows = dict[str, list[tuple[object, ...]]]


def new_studio(path: Path) -> None:
    """A studio with the shelf of the demo, no mix and no swatch."""
    tables = [each for each in tables_at([shipped_folder("seed_demo")]) if each[0].name in SHELF]

    def stock_shelf(work: UnitOfWork) -> None:
        import_tables(work, tables, TODAY)

    create_studio(path, stock_shelf)


def write_table(path: Path, studio: Path, count: int, *, known: bool) -> None:
    """A table of so many swatches of what a studio has on its shelf, or of mixes that it has."""
    with UnitOfWork(studio) as work:
        paints = [paint.facts.code for paint in work.paints.all()]
        papers = [paper.facts.code for paper in work.papers.all()]
        mixes = [mix.code for mix in work.mixes.all()]
    chance = np.random.default_rng(SEED)
    recipe = ""
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(COLUMNS)
        for key in range(count):
            if key % 3 == 0 and not known:
                held = chance.choice(paints, chance.integers(1, 5), replace=False)
                recipe = " + ".join(f"{chance.integers(1, 13)} {paint}" for paint in held)
            writer.writerow(
                [
                    f"{'K' if known else 'N'}{key}",
                    papers[key % len(papers)],
                    f"2026-{chance.integers(1, 11):02}-{chance.integers(1, 29):02}",
                    key % 3 + 1,
                    *np.round(chance.uniform((20.0, -60.0, -60.0), (95.0, 60.0, 60.0)), 2),
                    "colorimeter",
                    recipe,
                    mixes[key // 3 % len(mixes)] if known else "",
                ]
            )


def import_all(studio: Path, table: Path) -> None:
    """Import a table and commit."""
    with UnitOfWork(studio, write=True) as work:
        result = import_tables(work, tables_at([table], kind_named("swatches")), TODAY)
        if result.faults:
            sys.exit(f"line {result.faults[0].line}: {result.faults[0].reason}")
        work.commit()


def rows_of(studio: Path) -> Rows:
    """The rows that an import left."""
    with closing(sqlite3.connect(studio)) as connection:
        return {
            name: connection.execute(f"SELECT * FROM {name}").fetchall()  # noqa: S608
            for name in TABLES
        }


def write_rows(studio: Path, rows: Rows) -> None:
    """Write those rows that are not there, in one transaction."""
    with closing(sqlite3.connect(studio)) as connection:
        connection.execute("PRAGMA foreign_keys = ON")
        for name, values in rows.items():
            cells = ",".join("?" * len(values[0]))
            sql = f"INSERT OR IGNORE INTO {name} VALUES ({cells})"  # noqa: S608
            connection.executemany(sql, values)
        connection.commit()


def bare_tables(studio: Path, rows: Rows) -> None:
    """Tables of as many columns as some rows have, and nothing else."""
    with closing(sqlite3.connect(studio)) as connection:
        for name, values in rows.items():
            rest = ", ".join(f"c{place}" for place in range(1, len(values[0])))
            connection.execute(f"CREATE TABLE {name} (id INTEGER PRIMARY KEY, {rest})")


def seconds(call: Callable[[], None]) -> float:
    """How long a call keeps a processor busy."""
    start = time.process_time()
    call()
    return time.process_time() - start


def measured(here: Path, count: int) -> dict[str, float]:
    """The seconds of each way, in a folder of its own."""
    full, alone, bare = (here / f"{name}.sqlite3" for name in ("full", "alone", "bare"))
    table, second = here / "new.csv", here / "known.csv"
    took: dict[str, float] = {}
    new_studio(full)
    new_studio(alone)
    write_table(table, full, count, known=False)
    took["new mixes"] = seconds(lambda: import_all(full, table))
    rows = rows_of(full)
    write_table(second, full, count, known=True)
    took["known mixes"] = seconds(lambda: import_all(full, second))
    took["rows alone"] = seconds(lambda: write_rows(alone, rows))
    rows["mix_component"] = [(None, *row) for row in rows["mix_component"]]
    bare_tables(bare, rows)
    took["bare rows"] = seconds(lambda: write_rows(bare, rows))
    return took


def main() -> None:
    """Import, write the rows alone, print the figures."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--rows", type=int, default=100_000)
    parser.add_argument("--rounds", type=int, default=3)
    options = parser.parse_args()
    rounds = []
    for _ in range(options.rounds):
        with tempfile.TemporaryDirectory() as folder:
            rounds.append(measured(Path(folder), options.rows))
    sys.stdout.write(f"{options.rows:,} swatches\n")
    for name in rounds[0]:
        took = min(each[name] for each in rounds)
        sys.stdout.write(
            f"{name:<12}{took:>7.2f} s {1e6 * took / options.rows:>6.0f} µs each"
            f"{options.rows / took:>10,.0f} a second\n"
        )


if __name__ == "__main__":
    main()
