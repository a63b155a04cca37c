"""Several programs that write one studio at once: every record is there once, and how long it took.

    python benchmarks/many_writers.py                        8 processes, 500 swatches each
    python benchmarks/many_writers.py --processes 8 --writes 25
    python benchmarks/many_writers.py --db /path/new.sqlite3

Each process records its swatches in transactions of their own, as commands do: it opens the studio,
takes the next free code, records and commits. Afterwards the codes must be S1 to
the last without a gap, and every record of every process must be there exactly once. The exit
status is 1 if one is lost or there twice, or if a process gave up.
"""

import argparse
import subprocess
import sys
import tempfile
import time
from collections import Counter
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Final

from studio.actions.log_swatch import log_swatch, mix_to_log
from studio.actions.make_reading import Circumstances, reading_of_lab
from studio.actions.open_studio import create_studio, open_studio
from studio.catalogue.paint import PaintFacts
from studio.catalogue.paper import PaperFacts
from studio.catalogue.reading import Method
from studio.catalogue.swatch import Application, SwatchFacts
from studio.colour.lab import Lab
from studio.storage.unit_of_work import UnitOfWork

TODAY: Final = date(2026, 11, 25)


def main() -> int:
    """Run the writers, or be one of them."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--db", type=Path, help="a new studio; a temporary one is removed")
    parser.add_argument("--processes", type=int, default=8)
    parser.add_argument("--writes", type=int, default=500, help="of each process")
    parser.add_argument("--writer", type=int, help=argparse.SUPPRESS)
    options = parser.parse_args()
    if options.writer is not None:
        write(options.db, options.writer, options.writes)
        return 0
    if options.db is not None:
        return run(options.db, options.processes, options.writes)
    with tempfile.TemporaryDirectory() as folder:
        return run(Path(folder, "studio.sqlite3"), options.processes, options.writes)


def run(db: Path, processes: int, writes: int) -> int:
    """Start the writers at once and count what they left; 0 when all of it is there."""
    create_studio(db, _shelf)
    command = [sys.executable, __file__, "--db", str(db), "--writes", str(writes), "--writer"]
    began = time.perf_counter()
    running = [subprocess.Popen([*command, str(number)]) for number in range(processes)]
    gave_up = sum(process.wait() != 0 for process in running)
    seconds = time.perf_counter() - began
    with UnitOfWork(db) as work:
        swatches = work.swatches.all()
    notes = Counter(swatch.facts.note for swatch in swatches)
    wanted = {_note(number, nth) for number in range(processes) for nth in range(writes)}
    lost, twice = wanted - set(notes), [note for note, count in notes.items() if count > 1]
    codes = {swatch.facts.code for swatch in swatches}
    whole = codes == {f"S{number}" for number in range(1, len(wanted) + 1)}
    print(
        f"{len(swatches)} records of {len(wanted)} by {processes} processes in {seconds:.1f} s "
        f"({len(swatches) / seconds:.0f} a second): {len(lost)} lost, {len(twice)} twice, "
        f"{gave_up} gave up, codes {'without' if whole else 'with'} gaps"
    )
    return int(bool(lost or twice or gave_up or not whole))


def write(db: Path, number: int, writes: int) -> None:
    """One program's records."""
    for nth in range(writes):
        with open_studio(db, write=True, now=datetime.now(UTC), tell=print) as work:
            facts = SwatchFacts(
                code="", water=2.0, layers=1, application=Application.FLAT_WASH, made_on=TODAY,
                kept_at=None, note=_note(number, nth), target=None, target_lab=None,
            )  # fmt: skip
            log_swatch(
                work,
                mix=work.mixes.all()[0],
                paper=work.papers.all()[0],
                facts=facts,
                reading=reading_of_lab(
                    Lab(40.0 + number, nth % 100, -5.0), Circumstances(TODAY, Method.COLORIMETER)
                ),
                today=TODAY,
            )
            work.commit()


def _shelf(work: UnitOfWork) -> None:
    work.paints.add(PaintFacts("CG", "Saltings Colour", "Creek Green", ("PG7",)))
    work.paints.add(PaintFacts("MB", "Saltings Colour", "Mud Brown", ("PBr7",)))
    work.papers.add(PaperFacts("SR", "Tidewrack Mill", "Sedge Rag"))
    mix_to_log(work, "2 CG + 1 MB", TODAY)


def _note(number: int, nth: int) -> str:
    return f"writer {number}, record {nth}"


if __name__ == "__main__":
    sys.exit(main())
