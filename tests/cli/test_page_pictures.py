"""Printed pages as pictures: a PNG for each sheet of the PDF, numbered where there are several."""

from pathlib import Path
from typing import Final

import numpy as np
import pytest
from PIL import Image
from pypdf import PdfReader

from studio.errors import ExitStatus
from studio.sheets.page_png import SHEET_DPI
from tests.conftest import Run

PAGES: Final = {
    ("swatch", "book"): False,
    ("care", "sheet"): True,
    ("paint", "card", "FU"): True,
    ("paint", "card", "--all"): False,
    ("stock", "reorder"): True,
    ("painting", "class", "P2", "--students", "8"): None,
    ("painting", "record", "P1"): None,
}
"""Whether it stands on one sheet, where that is known beforehand."""


@pytest.mark.parametrize("words", PAGES, ids=" ".join)
def test_every_sheet_of_a_page_is_a_picture(
    words: tuple[str, ...], run: Run, demo_db: Path, tmp_path: Path
) -> None:
    png, pdf = tmp_path / "a.b.png", tmp_path / "a.pdf"
    outcome = run(*words, "--pdf", str(pdf), "--png", str(png), db=demo_db)
    assert outcome.status == ExitStatus.DONE, outcome.err
    sheets = PdfReader(pdf).pages
    if PAGES[words] is not None:
        assert (len(sheets) == 1) is PAGES[words]
    names = [f"a.b-{n}.png" for n in range(1, len(sheets) + 1)] if len(sheets) > 1 else ["a.b.png"]
    assert sorted(each.name for each in tmp_path.glob("*.png")) == sorted(names)
    assert outcome.err.count("studio: wrote ") == 1 + len(names)
    for name, sheet in zip(names, sheets, strict=True):
        assert f"studio: wrote {tmp_path / name}\n" in outcome.err
        with Image.open(tmp_path / name) as picture:
            assert (picture.format, picture.mode) == ("PNG", "RGB")
            assert "srgb" in picture.info
            across, down = picture.size
            assert np.asarray(picture.convert("L")).min() < 100
        assert across == pytest.approx(float(sheet.mediabox.width) / 72 * SHEET_DPI, abs=1)
        assert down == pytest.approx(float(sheet.mediabox.height) / 72 * SHEET_DPI, abs=1)


@pytest.mark.parametrize("words", PAGES, ids=" ".join)
def test_a_picture_alone_is_enough_and_one_that_cannot_be_written_is_refused(
    words: tuple[str, ...], run: Run, demo_db: Path, tmp_path: Path
) -> None:
    png = tmp_path / "a.png"
    assert run(*words, "--png", str(png), db=demo_db).status == ExitStatus.DONE
    assert {each.suffix for each in tmp_path.glob("a*")} == {".png"}
    outcome = run(*words, "--png", str(tmp_path / "nowhere" / "a.png"), db=demo_db)
    assert outcome.status == ExitStatus.BAD_INPUT
    assert "cannot be written" in outcome.err
    assert not (tmp_path / "nowhere").exists()


def test_a_picture_goes_with_the_sheet_of_cautions_alone(
    run: Run, demo_db: Path, tmp_path: Path
) -> None:
    outcome = run("care", "FU", "--png", str(tmp_path / "a.png"), db=demo_db)
    assert outcome.err == "studio: --html, --pdf and --png go with: studio care sheet\n"
    assert not list(tmp_path.glob("a*"))
