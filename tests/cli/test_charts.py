"""Commands that draw: what they write, refuse and say, and that what a card holds is found."""

import io
import json
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
import zxingcpp
from PIL import Image
from pypdf import PdfReader

from studio.errors import ExitStatus
from tests.cli.conftest import Does, Refuses
from tests.conftest import Run

DRAWING = [
    ("swatch", "cards", "S1", "S74"),
    ("swatch", "plane"),
    ("swatch", "plane", "--target", "#767d63", "--with", "FU"),
    ("swatch", "spectra", "S1", "S74"),
    ("mix", "chart", "FU", "BS"),
    ("mix", "chart", "--only", "FU,BS,YO"),
    ("trust",),
    ("fade", "report", "F1"),
]


@pytest.mark.parametrize("words", DRAWING, ids=" ".join)
def test_each_writes_a_whole_png_and_a_whole_pdf(
    words: tuple[str, ...], run: Run, demo_db: Path, tmp_path: Path
) -> None:
    folder = tmp_path / "wall"
    folder.mkdir()
    png, pdf = folder / "a.png", folder / "a.pdf"
    png.write_text("older")
    outcome = run(*words, "--png", str(png), "--pdf", str(pdf), db=demo_db)
    assert outcome.status == ExitStatus.DONE, outcome.err
    assert sorted(each.name for each in folder.iterdir()) == ["a.pdf", "a.png"]
    assert outcome.err.count("studio: wrote ") == 2
    assert outcome.out
    assert max(map(len, outcome.out.splitlines())) <= 80
    with Image.open(png) as picture:
        picture.load()
        assert picture.format == "PNG"
    reader = PdfReader(io.BytesIO(pdf.read_bytes()))
    assert reader.pages[0].extract_text().strip()


@pytest.mark.parametrize("words", DRAWING, ids=" ".join)
@pytest.mark.parametrize("option", ["--png", "--pdf"])
def test_where_a_file_cannot_be_written_it_says_so_and_leaves_nothing(
    words: tuple[str, ...], option: str, run: Run, demo_db: Path, tmp_path: Path
) -> None:
    outcome = run(*words, option, str(tmp_path / "nowhere" / "a"), db=demo_db)
    assert (outcome.status, outcome.out) == (ExitStatus.BAD_INPUT, "")
    assert outcome.err.count("\n") == 1
    assert "cannot be written" in outcome.err
    assert not (tmp_path / "nowhere").exists()


@pytest.mark.parametrize(
    ("status", "words", "said"),
    [
        (4, ("swatch", "cards", "S9999"), "no swatch has the code 'S9999'"),
        (3, ("swatch", "cards"), "say which swatches"),
        (3, ("swatch", "cards", "--last", "0"), "at least 1"),
        (4, ("swatch", "cards", "--mix", "nothing like it"), "nothing like it"),
        (3, ("swatch", "cards", "S1", "--mix", "M2"), "no swatch is left by these"),
        (3, ("swatch", "cards", "--mix", "M1", "--paper", "HSR"), "no swatch is left by these"),
        (4, ("swatch", "spectra", "S1", "S9999"), "S9999"),
        (3, ("swatch", "spectra", "S5"), "no spectrum was read of S5"),
        (3, ("swatch", "spectra", "--paper", "ECP"), "12 swatches or fewer"),
        (3, ("swatch", "plane", "--paper", "HSR"), "no dry swatch passes these filters"),
        (4, ("swatch", "plane", "--target", "no colour"), "no colour"),
        (4, ("swatch", "plane", "--with", "nothing"), "nothing"),
        (3, ("mix", "chart", "FU", "FU"), "name another paint"),
        (3, ("mix", "chart", "FU"), "name two paints"),
        (3, ("mix", "chart", "FU", "BS", "YO"), "name two paints"),
        (3, ("mix", "chart", "FU", "BS", "--only", "YO"), "--only is for a chart of pairs"),
        (3, ("mix", "chart", "--only", "FU,FU"), "twice"),
        (3, ("mix", "chart", "--only", "FU"), "two paints at least"),
        (3, ("mix", "chart", "FU", "BS", "--water", "much"), "water"),
        (3, ("mix", "chart", "--water", "1:1"), "two waters"),
        (4, ("mix", "chart", "FU", "nothing"), "nothing"),
        (4, ("mix", "chart", "FU", "BS", "--paper", "nothing"), "nothing"),
    ],
)
def test_what_cannot_be_drawn_is_told_in_one_sentence(
    status: int, words: tuple[str, ...], said: str, refuses: Refuses
) -> None:
    assert said in refuses(status, *words)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("swatch", "cards", "-n", "3"), "no swatch is on record yet"),
        (("swatch", "plane"), "no dry swatch is on record yet"),
        (("swatch", "spectra", "-n", "3"), "no swatch is on record yet"),
        (("mix", "chart"), "two paints at least"),
    ],
)
def test_an_empty_studio_says_what_to_record(
    words: tuple[str, ...], said: str, run: Run, empty_db: Path
) -> None:
    outcome = run(*words, db=empty_db)
    assert (outcome.status, outcome.out) == (ExitStatus.BAD_INPUT, "")
    assert said in outcome.err


def test_paints_without_swatches_say_which_wash_is_missing(
    shelf: Does, run: Run, empty_db: Path
) -> None:
    del shelf
    for words in (("mix", "chart", "FU", "BS"), ("mix", "chart")):
        outcome = run(*words, db=empty_db)
        assert (outcome.status, outcome.out) == (ExitStatus.BAD_INPUT, "")
        assert "make a flat wash of" in outcome.err


def test_what_a_card_holds_is_found(run: Run, demo_db: Path, tmp_path: Path) -> None:
    """Read from the picture by ZXing (zxing-cpp), and typed as a scanner types it."""
    png = tmp_path / "cards.png"
    outcome = run("swatch", "cards", "S112", "S1", "--png", str(png), "--json", db=demo_db)
    cards = json.loads(outcome.out)["cards"]
    with Image.open(png) as picture:
        read = {each.text for each in zxingcpp.read_barcodes(picture)}
    assert read == {"S112", "S1"} == {card["qr"] for card in cards}
    for code in read:
        assert run("swatch", "show", code, db=demo_db).out.startswith(code)
        assert run("match", code, "-n", "1", db=demo_db).status == ExitStatus.DONE
        assert json.loads(run("swatch", "show", code, "--json", db=demo_db).out)["swatch"] == code


def test_several_sheets_are_several_pictures_and_one_pdf(
    run: Run, demo_db: Path, tmp_path: Path
) -> None:
    png, pdf = tmp_path / "box.png", tmp_path / "box.pdf"
    outcome = run("swatch", "cards", "-n", "23", "--png", str(png), "--pdf", str(pdf), db=demo_db)
    assert sorted(each.name for each in tmp_path.glob("box*")) == [
        "box-1.png", "box-2.png", "box-3.png", "box.pdf",
    ]  # fmt: skip
    assert len(PdfReader(pdf).pages) == 3
    assert outcome.out.splitlines()[-1] == "23 cards of 74 x 52 mm on 3 sheets of A4."


def test_a_device_takes_all_sheets_and_a_folder_none(
    run: Run, demo_db: Path, tmp_path: Path
) -> None:
    devices = sorted(Path("/dev").iterdir())
    cards = ("swatch", "cards", "-n", "23", "--png")
    assert run(*cards, "/dev/null", db=demo_db).status == ExitStatus.DONE
    assert sorted(Path("/dev").iterdir()) == devices
    for path in (str(tmp_path), ".", ""):
        outcome = run(*cards, path, db=demo_db)
        assert (outcome.status, outcome.err.count("\n")) == (ExitStatus.BAD_INPUT, 1)


def test_a_swatch_named_twice_has_one_card(run: Run, demo_db: Path) -> None:
    cards = json.loads(run("swatch", "cards", "S2", "s1", "S2", "--json", db=demo_db).out)["cards"]
    assert [(each["swatch"], each["sheet"], each["place"]) for each in cards] == [
        ("S2", 1, 1), ("S1", 1, 2),
    ]  # fmt: skip


def test_a_mix_without_swatches_and_a_removed_swatch_have_no_card(
    shelf: Does, run: Run, empty_db: Path
) -> None:
    shelf("mix", "add", "2 FU + 1 BS")
    assert "no swatch is on record" in run("swatch", "cards", "--mix", "M1", db=empty_db).err
    shelf("swatch", "log", "2 FU + 1 BS", "--lab", "41,2,-12", "--water", "3:1")
    shelf("swatch", "log", "FU", "--lab", "41,2,-42", "--water", "3:1")
    shelf("swatch", "remove", "S1", "--because", "smudged")
    outcome = run("swatch", "cards", "--mix", "M1", db=empty_db)
    assert (outcome.status, "no swatch is left" in outcome.err) == (ExitStatus.BAD_INPUT, True)
    assert "was removed" in run("swatch", "cards", "S1", db=empty_db).err
    cards = json.loads(run("swatch", "plane", "--json", db=empty_db).out)["swatches"]
    assert [each["swatch"] for each in cards] == ["S2"]


def test_a_retired_paint_may_still_be_charted_and_is_named_so(
    run: Run, demo_db: Path, tmp_path: Path
) -> None:
    png, pdf = tmp_path / "a.png", tmp_path / "a.pdf"
    assert run("paint", "retire", "BS", db=demo_db).status == ExitStatus.DONE
    outcome = run("mix", "chart", "FU", "BS", "--png", str(png), "--pdf", str(pdf), db=demo_db)
    assert outcome.status == ExitStatus.DONE
    assert "retired" in PdfReader(pdf).pages[0].extract_text()
    pairs: Any = json.loads(run("mix", "chart", "--json", db=demo_db).out)
    assert "BS" not in pairs["paints"]


def test_names_that_mean_something_elsewhere_stand_as_they_are(does: Does, tmp_path: Path) -> None:
    names = ('Sky "blue" <b>', "Mud $_x^2$ \\frac", "ocher 50 %", "כחול")
    for name in names:
        does("paint", "add", name, "--maker", "M & N")
    does("paper", "add", "P_1 $a$ <i>", "--maker", "Mill")
    for number, name in enumerate(names):
        for water, light in (("1:1", 30), ("4:1", 60)):
            lab = f"{light + number},{10 * number},{-20 + 12 * number}"
            does("swatch", "log", name, "--lab", lab, "--water", water, "--kept", "box \\ $1")
    pdf = tmp_path / "a.pdf"
    does("swatch", "cards", "-n", "8", "--pdf", str(pdf))
    text = PdfReader(pdf).pages[0].extract_text()
    assert all(name in text for name in (*names[:3], "box \\ $1", "P_1 $a$ <i>"))
    does("mix", "chart", "--pdf", str(pdf))
    text = PdfReader(pdf).pages[0].extract_text()
    assert all(name in text for name in (*names[:3], "P_1 $a$ <i>"))
    does("swatch", "plane", "--pdf", str(pdf))


def test_mix_chart_cells_are_row_by_row(run: Run, demo_db: Path) -> None:
    chart = json.loads(
        run("mix", "chart", "FU", "BS", "--water", "1:1,4:1", "--json", db=demo_db).out
    )
    waters = [cell["water"] for cell in chart["cells"]]
    assert waters == [1.0] * 9 + [4.0] * 9
    row = chart["cells"][:9]
    shares = [
        sum(p["parts"] for p in cell["recipe"] if p["paint"] == "FU")
        / sum(p["parts"] for p in cell["recipe"])
        for cell in row
    ]
    assert all(before > after for before, after in pairwise(shares))
    for cell in chart["cells"]:
        assert (cell["swatch"] is None) is cell["predicted"]
        if cell["swatch"]:
            shown = json.loads(run("swatch", "show", cell["swatch"], "--json", db=demo_db).out)
            assert cell["lab"] == shown["lab"]


def test_five_thousand_swatches_are_no_trouble(does: Does, tmp_path: Path) -> None:
    table = tmp_path / "swatches.csv"
    does("paint", "add", "French Ultramarine", "--maker", "Pellow & Strand", "--code", "FU")
    does("paper", "add", "Slipway Rag", "--maker", "Eddering Mill", "--code", "SR")
    rows = [
        f"FU,SR,2026-03-14,{1 + n % 9}:1,{20 + n % 70},{n % 83 - 40},{n % 97 - 50}"
        for n in range(5000)
    ]
    head = "recipe,paper,made_on,water,lab_l,lab_a,lab_b"
    table.write_text("\n".join([head, *rows]).replace(":1,", ","), encoding="utf-8")
    does("import", str(table))
    png = tmp_path / "plane.png"
    outcome = does("swatch", "plane", "--target", "#5b5f6e", "--png", str(png))
    assert "5,000 swatches" in outcome.out
    assert png.stat().st_size > 10_000
