"""Writes the demo's pictures and instrument files: `python seed_demo/build_files.py`.

Run from the repository. Nothing is random and no file holds the day it was written on.
"""

from pathlib import Path
from typing import Final

from seed_demo import swatch_spectra
from seed_demo.creek_picture import creek
from seed_demo.instrument_files import cgats, cxf
from seed_demo.picture_tools import save
from seed_demo.scan_picture import OFFCUTS, scan

FILES: Final = Path(__file__).resolve().parent / "files"
COLOURS_OF_THE_CREEK: Final = 256


def main(folder: Path = FILES) -> None:
    """Build every file into `folder`."""
    folder.mkdir(exist_ok=True)
    save(folder / "creek.png", creek(), COLOURS_OF_THE_CREEK)
    painted = {code: swatch_spectra.swatch(code) for code in OFFCUTS.values()}
    save(folder / "scan.png", scan(swatch_spectra.paper("ECP"), painted))
    for name, text in (("readings.cgats", cgats()), ("readings.cxf", cxf())):
        (folder / name).write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
