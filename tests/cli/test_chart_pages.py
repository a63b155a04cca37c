"""Charts as pages: the very picture, what it says in words, and the same values as tables."""

import base64
import io
import json
from pathlib import Path
from typing import Any, Final

import pytest
from PIL import Image

from studio.errors import ExitStatus
from tests.cli.conftest import Does
from tests.conftest import Run
from tests.sheets.pages import HOSTILE, Element, read_html

CHARTS: Final[dict[tuple[str, ...], str]] = {
    ("mix", "chart", "FU", "BS"): "The mixture nearest to grey is ",
    ("mix", "chart", "--only", "FU,BS,YO"): "A square of patches, a row and a column for each",
    ("swatch", "plane"): "The most intense is S",
    ("swatch", "plane", "--target", "#767d63", "--with", "FU"): "Nearest here: S",
    ("swatch", "spectra", "S1", "S74"): "S1 reflects least at ",
    ("trust",): "The furthest off is S",
    ("fade", "report", "F1"): "own test F1 of AC has changed ΔE*ab ",
}
"""With something that each says to who cannot see it."""


def _page(file: Path) -> Element:
    return read_html(file.read_text(encoding="utf-8"))


def _rows(root: Element) -> list[list[str]]:
    """The cells of every row below the heads."""
    return [[cell.text for cell in row.all("td")] for row in root.all("tr") if row.all("td")]


def _written(run: Run, db: Path, file: Path, *words: str) -> tuple[Element, Any]:
    """A chart's page, and the same as JSON."""
    outcome = run(*words, "--html", str(file), "--json", db=db)
    assert outcome.status == ExitStatus.DONE, outcome.err
    return _page(file), json.loads(outcome.out)


@pytest.mark.parametrize("words", CHARTS, ids=" ".join)
def test_a_page_holds_the_very_picture_and_says_it_in_words(
    words: tuple[str, ...], run: Run, demo_db: Path, tmp_path: Path
) -> None:
    html, png = tmp_path / "a.html", tmp_path / "a.png"
    outcome = run(*words, "--html", str(html), "--png", str(png), db=demo_db)
    assert (outcome.status, outcome.err) == (
        ExitStatus.DONE,
        f"studio: wrote {html}\nstudio: wrote {png}\n",
    )
    root = _page(html)
    (image,) = root.all("img")
    kind, _, data = image.attributes["src"].partition(",")
    assert (kind, base64.b64decode(data)) == ("data:image/png;base64", png.read_bytes())
    with Image.open(io.BytesIO(png.read_bytes())) as picture:
        size = str(picture.width), str(picture.height)
    assert (image.attributes["width"], image.attributes["height"]) == size
    assert CHARTS[words] in image.attributes["alt"]
    policy = [m.attributes["content"] for m in root.all("meta") if "http-equiv" in m.attributes]
    assert policy == ["default-src 'none'; style-src 'unsafe-inline'; img-src data:"]
    assert _rows(root)


def test_a_mixing_chart_is_told_cell_by_cell(run: Run, demo_db: Path, tmp_path: Path) -> None:
    for words in (("FU", "BS"), ("--only", "FU,BS,YO")):
        root, told = _written(run, demo_db, tmp_path / "a.html", "mix", "chart", *words)
        rows = _rows(root)
        assert len(rows) == len(told["cells"])
        assert sorted(r[1].split()[1] for r in rows if r[1].startswith("measured, ")) == sorted(
            cell["swatch"] for cell in told["cells"] if cell["swatch"]
        )
        errors = sorted(float(r[1].split("±")[1]) for r in rows if r[1].startswith("predicted, ±"))
        assert errors == pytest.approx(
            sorted(cell["error_delta_e"] for cell in told["cells"] if cell["predicted"]), abs=0.056
        )
        chips = [e for e in root.all("span") if "colour" in e.attributes.get("class", "")]
        assert sorted(
            e.attributes["style"].split(";")[0].removeprefix("--srgb: ") for e in chips
        ) == sorted(cell["srgb"] for cell in told["cells"])
        marked = sum("*" in row[0] for row in rows)
        assert marked == sum(not cell["srgb_exact"] for cell in told["cells"])
        assert ("outside sRGB" in root.text) is bool(marked)


def test_what_cannot_be_predicted_says_why_in_its_row(
    shelf: Does, run: Run, empty_db: Path, tmp_path: Path
) -> None:
    for water, light in (("1:1", 30), ("4:1", 60)):
        shelf("swatch", "log", "FU", "--lab", f"{light},10,-40", "--water", water)
    root, told = _written(run, empty_db, tmp_path / "a.html", "mix", "chart", "FU", "BS")
    unknown = [cell for cell in told["cells"] if cell["lab"] is None]
    assert unknown
    empty = [row for row in _rows(root) if row[2] == ""]
    assert [row[1] for row in empty] == [f"unknown: {cell['because']}" for cell in unknown]


def test_a_plane_has_a_row_for_every_swatch(run: Run, demo_db: Path, tmp_path: Path) -> None:
    root, told = _written(run, demo_db, tmp_path / "a.html", "swatch", "plane", "--with", "FU")
    rows = _rows(root)
    assert [row[0].removesuffix(" *") for row in rows] == [e["swatch"] for e in told["swatches"]]
    for row, swatch in zip(rows, told["swatches"], strict=True):
        numbers = [float(cell.replace("\N{MINUS SIGN}", "-")) for cell in row[1:5]]
        lab = swatch["lab"]
        assert numbers == pytest.approx([*lab, swatch["chroma"]], abs=0.051)


def test_spectra_are_told_as_they_were_read(run: Run, demo_db: Path, tmp_path: Path) -> None:
    root, told = _written(run, demo_db, tmp_path / "a.html", "swatch", "spectra", "S1", "S74")
    rows = _rows(root)
    spectra = [each["spectra"][0] for each in told["swatches"]]
    for row, swatch, read in zip(rows, told["swatches"], spectra, strict=False):
        end = read["start_nm"] + read["step_nm"] * (len(read["reflectance"]) - 1)
        assert row[0].removesuffix(" *") == swatch["swatch"]
        assert row[4:] == [f"{read['start_nm']:g}", f"{end:g}", f"{read['step_nm']:g}"]
    at_500 = [
        read["reflectance"][int((500 - read["start_nm"]) / read["step_nm"])] for read in spectra
    ]
    assert ["500 nm", *(f"{value:.3f}" for value in at_500)] in rows


def test_fade_readings_are_told_half_by_half(run: Run, demo_db: Path, tmp_path: Path) -> None:
    root, told = _written(run, demo_db, tmp_path / "a.html", "fade", "report", "F1")
    rows = _rows(root)
    (test,) = told
    assert len(rows) == 2 * len(test["readings"])
    for row, reading in zip(rows[::2], test["readings"], strict=True):
        assert row[-2:] == [str(reading["days"]), f"{reading['delta_e']:.1f}"]
    assert test["indicative"] in root.text
    assert "the published rating" in root.text


def test_trust_is_told_by_paint_and_by_swatch(run: Run, demo_db: Path, tmp_path: Path) -> None:
    root, told = _written(run, demo_db, tmp_path / "a.html", "trust")
    rows = _rows(root)
    by_paint = {row[0].split()[0]: row[1:] for row in rows[2 : 2 + len(told["paints"])]}
    for each in told["paints"]:
        count, mean, *_ = by_paint[each["paint"]]
        assert count == str(each["count"])
        assert float(mean) == pytest.approx(each["mean_delta_e"], abs=0.056)
    assert [row[1] for row in rows if len(row) == 5] == [e["swatch"] for e in told["swatches"]]


def test_names_on_a_chart_s_page_are_text(shelf: Does, tmp_path: Path) -> None:
    name = HOSTILE.replace("\\", "")
    shelf("paint", "add", name, "--maker", "M & N", "--code", "ZZ")
    for water, light in (("1:1", 30), ("4:1", 60)):
        for paint in ("ZZ", "FU"):
            shelf("swatch", "log", paint, "--lab", f"{light},10,-40", "--water", water)
    shelf("fade", "start", "ZZ", "--place", "<b>mast</b>")
    shelf("fade", "read", "F1", "--covered", "41,2,-32", "--exposed", "43,2,-29")
    script = '<script>alert("tide")</script>'
    file = tmp_path / "a.html"
    for words in (("fade", "report", "F1"), ("mix", "chart", "ZZ", "FU")):
        shelf(*words, "--html", str(file))
        root = _page(file)
        assert not {each.tag for each in root.every} & {"script", "b", "i"}
        assert script in root.text
    (image,) = root.all("img")
    assert script in image.attributes["alt"]


@pytest.mark.parametrize("words", CHARTS, ids=" ".join)
def test_a_page_that_cannot_be_written_leaves_nothing(
    words: tuple[str, ...], run: Run, demo_db: Path, tmp_path: Path
) -> None:
    outcome = run(*words, "--html", str(tmp_path / "nowhere" / "a"), db=demo_db)
    assert (outcome.status, outcome.out) == (ExitStatus.BAD_INPUT, "")
    assert "cannot be written" in outcome.err
    assert not (tmp_path / "nowhere").exists()
