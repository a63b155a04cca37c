"""Several programs record swatches in one studio at once: none may be lost, none stand there twice.

python benchmarks/many_writers.py                                 in a file
python benchmarks/many_writers.py --db postgresql://user@host/n   in an empty database on a server
.ci/with_server python benchmarks/many_writers.py --test-server   on a server started for it

Each process records its swatches one by one, every one in a transaction of its own that takes the
next free code, as `studio swatch log` does. A writer that is told to try again does so, and is
counted. Prints what was found; ends with 1 when a record is lost, doubled or not whole.
"""

import argparse
import multiprocessing
import os
import sys
import tempfile
import time
from collections import Counter
from dataclasses import dataclass
from datetime import date
from multiprocessing.synchronize import Barrier
from pathlib import Path
from typing import Final

from studio.actions.find import find_paper
from studio.actions.log_swatch import log_swatch, mix_to_log
from studio.actions.open_studio import create_studio
from studio.catalogue.paint import PaintFacts
from studio.catalogue.paper import PaperFacts
from studio.catalogue.reading import Method, Origin, Reading, State
from studio.catalogue.swatch import Application, SwatchFacts
from studio.colour.lab import Lab
from studio.errors import DatabaseTrouble
from studio.storage.address import Database, database_at
from studio.storage.unit_of_work import UnitOfWork

DAY: Final = date(2026, 5, 4)
PAINTS: Final = ("FU", "BS", "YO")


@dataclass(frozen=True, slots=True)
class Found:
    """What stood in the studio after all had written.

    Args:
        expected: how many records were made.
        records: how many stand there.
        lost: notes of records that do not.
        doubled: notes or codes that stand there more than once.
        codes: whether the codes are S1, S2 and so on without a gap.
        tries: how often a writer was told that another is writing, and tried again.
        seconds: from the first writer's start to the last one's end.
    """

    expected: int
    records: int
    lost: tuple[str, ...]
    doubled: tuple[str, ...]
    codes: bool
    tries: int
    seconds: float

    @property
    def whole(self) -> bool:
        """Whether every record stands there once."""
        return self.records == self.expected and self.codes and not (self.lost or self.doubled)


def begin_studio(database: Database) -> None:
    """A new studio with three paints and a paper."""

    def fill(work: UnitOfWork) -> None:
        for code in PAINTS:
            work.paints.add(PaintFacts(code, "Pellow & Strand", f"Paint {code}"))
        work.papers.add(PaperFacts("SR", "Tidewrack Mill", "Sedge Rag"))

    create_studio(database, fill)


def write_all(database: Database, processes: int, writes: int) -> Found:
    """Let some processes write at once, and look at what stands there afterwards.

    Args:
        database: a studio that `begin_studio` made.
        processes: how many write at once.
        writes: how many swatches each of them records.
    """
    context = multiprocessing.get_context("spawn")
    start = context.Barrier(processes + 1)
    told = context.SimpleQueue()
    writers = [
        context.Process(target=_write, args=(database, number, writes, start, told))
        for number in range(processes)
    ]
    for writer in writers:
        writer.start()
    start.wait(timeout=120)
    began = time.perf_counter()
    tries = sum(told.get() for _ in writers)
    for writer in writers:
        writer.join()
    return _look(database, processes, writes, tries, time.perf_counter() - began)


def _write(
    database: Database,
    number: int,
    writes: int,
    start: Barrier,
    told: "multiprocessing.SimpleQueue[int]",
) -> None:
    start.wait(timeout=120)
    tries = 0
    for turn in range(writes):
        while True:
            try:
                _record(database, number, turn)
                break
            except DatabaseTrouble as trouble:
                if "in use" not in str(trouble):
                    raise
                tries += 1
    told.put(tries)


def _record(database: Database, number: int, turn: int) -> None:
    lab = Lab(20.0 + turn % 60, number - 4.0, turn / 100)
    reading = Reading(
        lab=lab,
        given=lab,
        origin=Origin.MEASURED,
        spectrum=None,
        state=State.DRY,
        method=Method.COLORIMETER,
        instrument=None,
        condition=None,
        error=None,
        read_on=DAY,
    )
    facts = SwatchFacts(
        code="",
        water=4.0,
        layers=1,
        application=Application.FLAT_WASH,
        made_on=DAY,
        note=f"writer {number}, record {turn}",
    )
    with UnitOfWork(database, write=True) as work:
        # Each writer meets mixes that others may just be recording.
        recipe = f"{turn % 7 + 1} {PAINTS[turn % 3]} + {turn % 5 + 1} {PAINTS[(turn + 1) % 3]}"
        log_swatch(
            work,
            mix=mix_to_log(work, recipe, DAY),
            paper=find_paper(work, "SR"),
            facts=facts,
            reading=reading,
            today=DAY,
        )
        work.commit()


def _look(database: Database, processes: int, writes: int, tries: int, seconds: float) -> Found:
    with UnitOfWork(database) as work:
        swatches = work.swatches.all()
        mixes = work.mixes.all()
    notes = Counter(str(swatch.facts.note) for swatch in swatches)
    codes = Counter(swatch.facts.code for swatch in swatches)
    recipes = Counter(mix.recipe.key for mix in mixes)
    wanted = {f"writer {n}, record {turn}" for n in range(processes) for turn in range(writes)}
    doubled = [
        name for names in (notes, codes, recipes) for name, times in names.items() if times > 1
    ]
    return Found(
        expected=len(wanted),
        records=len(swatches),
        lost=tuple(sorted(wanted - set(notes))),
        doubled=tuple(doubled),
        codes=set(codes) == {f"S{place + 1}" for place in range(len(wanted))},
        tries=tries,
        seconds=seconds,
    )


def main() -> int:
    """Run it as the command line says."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--db", help="an empty database on a server, or a file to be made")
    parser.add_argument("--test-server", action="store_true", help="as .ci/with_server names it")
    parser.add_argument("--processes", type=int, default=8)
    parser.add_argument("--writes", type=int, default=500)
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        named = os.environ["STUDIO_TEST_SERVER"] if given.test_server else given.db
        database = database_at(named) if named else Path(folder) / "studio.sqlite3"
        begin_studio(database)
        found = write_all(database, given.processes, given.writes)
    print(
        f"{given.processes} processes x {given.writes} swatches on {database}: "
        f"{found.records} of {found.expected} stand there, {len(found.lost)} lost, "
        f"{len(found.doubled)} doubled, codes {'without' if found.codes else 'WITH'} gaps, "
        f"{found.tries} told to try again, {found.seconds:.1f} s"
    )
    return 0 if found.whole else 1


if __name__ == "__main__":
    sys.exit(main())
