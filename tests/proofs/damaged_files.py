"""Proof: whatever happened to a file, reading it ends in one sentence or in sound records.

    python -m tests.proofs.damaged_files --runs 5000

Real files of every kind that the program takes (its CSV tables, an exported folder, CxF3, CGATS,
CSV and SPDX files of instruments, pictures) are damaged by hypothesis and given to the commands
that take them, each on a fresh copy of the demo studio. What is checked of every command line is
checked here too (tests/proofs/command_lines.py); besides, `--strict` keeps all rows or none, and
an exported folder of which any listed file differs in any byte is refused.
"""

import io
import json
import shutil
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from studio.actions.importing.tables import KINDS
from studio.errors import ExitStatus
from tests.formats.files import MUD, WAVELENGTHS, spdx
from tests.proofs.command_lines import RUN, Figures, checked_by, faults_of, proof_of
from tests.proofs.mutations import damaged
from tests.proofs.studio_beside import FILES, Beside

SHARED: Final = FILES.parent / "shared"
_ROWS: Final = 10
"""Rows of a table that is damaged; more would take longer and show no more."""


@dataclass(frozen=True, slots=True)
class Case:
    """A kind of file, and a command line that takes it.

    Args:
        name: for the figures.
        content: the whole file.
        file: what it is called.
        words: the command line; FILE stands for the file.
    """

    name: str
    content: bytes
    file: str
    words: tuple[str, ...]


def cases() -> Iterator[Case]:
    """Every importer with a file that it takes."""
    for kind in KINDS:
        path = next(
            each / f"{kind.name}.csv"
            for each in (FILES, SHARED)
            if (each / f"{kind.name}.csv").exists()
        )
        rows = path.read_bytes().splitlines(keepends=True)
        content = b"".join([rows[0], *rows[1 :: max(1, len(rows) // _ROWS)]])
        for strict in ((), ("--strict",)):
            yield Case(
                " ".join((kind.name, *strict)), content, path.name, ("import", "FILE", *strict)
            )
    table = "\n".join(
        [
            ",".join(("sample", *(f"{nm}nm" for nm in WAVELENGTHS))),
            *(",".join((code, *map(str, MUD))) for code in ("S12", "S13")),
        ]
    ).encode()
    points = list(zip(WAVELENGTHS, MUD, strict=True))
    measured = {
        "readings.cxf": (FILES / "files" / "readings.cxf").read_bytes(),
        "readings.cgats": (FILES / "files" / "readings.cgats").read_bytes(),
        "S12.csv": table,
        "S12.spdx": spdx(points),
        "S12.txt": "".join(f"{nm} {value}\n" for nm, value in points).encode(),
    }
    for file, content in measured.items():
        for words in (
            ("swatch", "read", "--all", "--only-fitting", "--file", "FILE"),
            ("swatch", "read", "S12", "--sample", "S12", "--file", "FILE"),
        ):
            yield Case(f"{file} {words[2]}", content, file, words)
    yield Case(
        "spectrum",
        measured["S12.txt"].replace(b" ", b","),
        "s.csv",
        ("swatch", "log", "FU", "--paper", "ECP", "--spectrum", "FILE"),
    )
    yield Case(
        "map",
        b"sample,swatch\nS12,S12\nS13,S14\nS14,\n",
        "map.csv",
        (
            "swatch",
            "read",
            "--all",
            "--file",
            str(FILES / "files" / "readings.cxf"),
            "--map",
            "FILE",
            "--only-fitting",
        ),
    )
    creek = (FILES / "files" / "creek.png").read_bytes()
    yield Case(
        "creek.png",
        creek,
        "creek.png",
        ("target", "pick", "FILE", "--at", "30,20", "--name", "creek"),
    )
    with Image.open(io.BytesIO(creek)) as picture:
        small = picture.convert("RGB").resize((60, 40))
    for form in ("PNG", "JPEG", "TIFF", "WEBP"):
        written = io.BytesIO()
        small.save(written, form)
        yield Case(
            form,
            written.getvalue(),
            f"small.{form.lower()}",
            ("target", "pick", "FILE", "--at", "30,20", "--name", "creek"),
        )


def _prove_case(
    beside: Beside, case: Case, runs: int, number: int | None, figures: Figures
) -> None:
    path = tuple(case.words[: 1 if case.words[0] == "import" else 2])

    def one(content: bytes) -> None:
        beside.renew()
        file = beside.root / "tmp" / case.file
        file.write_bytes(content)
        beside.look()
        words = [str(file) if word == "FILE" else word for word in case.words]
        ended = beside.run(*words)
        figures.add(case.name, ended, beside)
        found = faults_of(words, RUN[path], ended, beside)
        if "--strict" in words and ended.status == ExitStatus.PARTLY_IMPORTED:
            found.append("kept some rows in spite of --strict")
        figures.faults += [f"{case.name}, {content[:300]!r}: {fault}" for fault in found]

    checked_by(given(damaged(case.content))(one), runs, number)()


def _prove_folder(beside: Beside, runs: int, number: int | None, figures: Figures) -> None:
    """An exported folder with any one of its files damaged, into a studio that is not there yet."""
    whole = beside.root / "given" / "whole"
    about = json.loads((whole / "studio.json").read_text())
    listed = [entry["file"] for entry in (*about["tables"], *about["files"])]

    def one(data: st.DataObject) -> None:
        name = data.draw(st.sampled_from([*listed, "studio.json"]))
        before = (whole / name).read_bytes()
        content = data.draw(damaged(before))
        beside.renew()
        folder = beside.root / "tmp" / "whole"
        shutil.copytree(whole, folder)
        (folder / name).write_bytes(content)
        new = beside.here / "new.sqlite3"
        beside.look()
        words = ["import", str(folder)]
        ended = beside.run(*words, database=new)
        figures.add("exported folder", ended, beside)
        found = faults_of(words, RUN["import",], ended, beside, also=(new,))
        if name != "studio.json" and content != before and ended.status != ExitStatus.BAD_INPUT:
            found.append("was imported all the same")
        if ended.status != ExitStatus.DONE and new.exists():
            found.append("left a studio behind")
        figures.faults += [f"{name}, {content[:200]!r}: {fault}" for fault in found]

    checked_by(given(st.data())(one), runs, number)()


def prove(beside: Beside, runs: int, number: int | None) -> Figures:
    """Read so many damaged files.

    Args:
        beside: the studio to read them into.
        runs: how many.
        number: of the random choices; None makes the same ones each time.
    """
    every = list(cases())
    share = max(1, round(runs / (len(every) + 2)))
    figures = Figures("damaged files")
    with figures.timed(), beside.inside():
        for case in every:
            _prove_case(beside, case, share, number, figures)
        _prove_folder(beside, 2 * share, number, figures)
    return figures


if __name__ == "__main__":
    sys.exit(proof_of(prove, __doc__, 5000))
