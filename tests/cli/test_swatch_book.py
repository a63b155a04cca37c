"""`studio swatch book`: the book in a file, or a sentence that says what is missing."""

import io
import re
from base64 import b64encode
from hashlib import sha256
from pathlib import Path
from typing import Final

import pytest
from coloraide.css.color_names import name2val_map
from pypdf import PdfReader

from studio.errors import ExitStatus
from studio.sheets.book_html import book_script
from studio.sheets.book_style import BOOK_STYLE
from studio.sheets.page_shell import whole_file
from tests.cli.conftest import Does, Refuses
from tests.conftest import Run
from tests.sheets.pages import Element, read_html

KNOWN_TAGS: Final = {
    *("html", "head", "meta", "title", "style", "body", "main", "footer", "section", "script"),
    *("h1", "h2", "p", "div", "span", "figure", "figcaption", "a", "bdi", "br"),
    *("form", "label", "input", "select", "option", "button"),
}


@pytest.fixture
def swatches(shelf: Does) -> Does:
    """Three dry swatches of two mixes, a mix without, one only read wet, and a removed one."""
    shelf("paint", "add", "Kelp Green", "--maker", "Brackwater")
    shelf("paper", "add", "Foreshore", "--maker", "Corvane Paper")
    shelf(
        *("swatch", "log", "2 FU + 1 BS", "--lab", "41,2,-12", "--water", "3:1"),
        *("--paper", "SR", "--kept", "box 1, row 2"),
    )
    shelf("mix", "edit", "M1", "--name", "creek mud")
    shelf("swatch", "log", "M1", "--lab", "63,1,-3", "--water", "8:1", "--paper", "FO")
    shelf("swatch", "log", "KG", "--lab", "60,-90,40", "--layers", "2", "--applied", "glaze")
    shelf("swatch", "log", "1 FU + 1 BS", "--lab", "50,1,1", "--wet")
    shelf("swatch", "log", "BS", "--lab", "50,20,30")
    shelf("swatch", "remove", "S5")
    shelf("mix", "add", "1 FU + 3 BS")
    return shelf


def _written(does: Does, file: Path, *words: str) -> Element:
    outcome = does("swatch", "book", *words, "--html", str(file))
    assert (outcome.out, outcome.err) == ("", f"studio: wrote {file}\n")
    return read_html(file.read_text(encoding="utf-8"))


def _texts(root: Element, tag: str) -> list[str]:
    return [each.text for each in root.all(tag)]


def test_the_book_shows_every_dry_swatch_with_all_that_finds_its_card(
    swatches: Does, tmp_path: Path
) -> None:
    root = _written(swatches, tmp_path / "book.html")
    assert {each.tag for each in root.every} == KNOWN_TAGS
    assert _texts(root, "h2") == ["Greens", "Blues", "Neutrals"]
    figures = {each.attributes["id"]: each for each in root.all("figure")}
    assert list(figures) == ["S3", "S1", "S2"]
    assert figures["S1"].text.replace("\N{NO-BREAK SPACE}", " ") == (
        "S1M1 creek mud2 French Ultramarine + 1 Burnt Sienna"
        "water 3:1, Eddering Mill Slipway Ragbox 1, row 2L* 41.0  C* 12.2  h 279°"
    )
    assert figures["S3"].text.replace("\N{NO-BREAK SPACE}", " ") == (
        "S3M2Kelp Greenwater not recorded, 2 layers, glaze, Corvane Paper Foreshore"
        "L* 60.0  C* 98.5  h 156°outside sRGB, the nearest is shown, ΔE00 8.8 off"
    )
    paragraphs = _texts(root, "p")
    assert paragraphs[0].startswith("3 dry swatches of 2 mixes; ")
    assert paragraphs[1] == ("3 mixes have no dry swatch and cannot be shown: M3, M4, M5.")


def test_the_exact_colour_goes_with_each_patch(swatches: Does, tmp_path: Path) -> None:
    swatches("swatch", "log", "FU", "--lab", "33.123456789,1.1,-30.7", "--paper", "SR")
    root = _written(swatches, tmp_path / "book.html")
    (figure,) = [each for each in root.all("figure") if each.attributes["id"] == "S6"]
    assert figure.attributes["data-lab"] == "33.123456789 1.1 -30.7"
    assert figure.attributes["data-key"] == "6"


@pytest.mark.parametrize(
    ("order", "codes", "titles"),
    [
        ("hue", ["S3", "S1", "S2"], ["Greens", "Blues", "Neutrals"]),
        ("chroma", ["S3", "S1", "S2"], ["C* 60 and above", "C* 5 to 15", "C* 0 to 5"]),
        ("value", ["S2", "S3", "S1"], ["L* 60 to 70", "L* 40 to 50"]),
    ],
)
def test_an_order_may_be_named(
    order: str, codes: list[str], titles: list[str], swatches: Does, tmp_path: Path
) -> None:
    root = _written(swatches, tmp_path / "book.html", "--by", order)
    assert [each.attributes["id"] for each in root.all("figure")] == codes
    assert _texts(root, "h2") == titles
    (chosen,) = [each for each in root.all("option") if "selected" in each.attributes]
    assert chosen.attributes["value"] == order


def test_one_paper_alone(swatches: Does, tmp_path: Path) -> None:
    root = _written(swatches, tmp_path / "book.html", "--paper", "slipway")
    assert [each.attributes["id"] for each in root.all("figure")] == ["S1"]
    assert _texts(root, "p")[0].startswith("1 dry swatch of 1 mix on Eddering Mill Slipway Rag; ")
    assert _texts(root, "p")[1] == (
        "4 mixes have no dry swatch on this paper and cannot be shown: M2, M3, M4, M5."
    )


def test_a_pdf_holds_the_same_patches(swatches: Does, tmp_path: Path) -> None:
    html, pdf = tmp_path / "book.html", tmp_path / "book.pdf"
    outcome = swatches("swatch", "book", "--html", str(html), "--pdf", str(pdf))
    assert outcome.err == f"studio: wrote {html}\nstudio: wrote {pdf}\n"
    (sheet,) = PdfReader(io.BytesIO(pdf.read_bytes())).pages
    text = sheet.extract_text()
    for said in ("Swatch book", "3 mixes have no dry swatch", "Blues", "*8.8 S3", "M1 creek mud"):
        assert said in text
    assert text.index("S3") < text.index("Blues") < text.index("S1\n") < text.index("Neutrals")


def test_only_the_inlined_script_may_run(swatches: Does, tmp_path: Path) -> None:
    root = _written(swatches, tmp_path / "book.html")
    (script,) = root.all("script")
    assert script.text == book_script()
    assert "ciede2000" in script.text
    assert script.attributes == {}
    digest = b64encode(sha256(script.text.encode()).digest()).decode()
    (policy,) = [m.attributes["content"] for m in root.all("meta") if "http-equiv" in m.attributes]
    assert policy == (
        f"default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-{digest}'; "
        "base-uri 'none'; form-action 'none'"
    )
    names = {name for each in root.every for name in each.attributes}
    assert not names & {"src", "srcset", "action", "data", "background", "poster"}
    assert not any(name.startswith("on") for name in names)
    assert all(each.attributes["href"].startswith("#") for each in root.all("a"))


@pytest.mark.parametrize("script", ["a </script> b", "<!-- x", "one\r\ntwo"])
def test_a_script_that_html_would_read_otherwise_is_refused(script: str) -> None:
    with pytest.raises(ValueError, match="inlined script"):
        whole_file("Book", [], foot="", script=script)


def test_every_colour_of_the_style_is_a_grey() -> None:
    codes = re.findall(r": [^;{}]*#([0-9a-fA-F]{3,8})\b", BOOK_STYLE)
    assert len(codes) > 5
    for code in codes:
        assert re.fullmatch(r"([0-9a-f]{2})\1\1", code), code
    assert re.findall(r"(?:rgb|hsl|hwb|lab|lch|oklab|oklch|color)\(", BOOK_STYLE) == []
    values = " ".join(re.findall(r":\s*([^;{}]*)[;}]", BOOK_STYLE)).lower()
    assert not set(re.findall(r"[a-z]+", values)) & set(name2val_map)


def test_nothing_to_show_is_said(does: Does, run: Run, empty_db: Path, tmp_path: Path) -> None:
    file = tmp_path / "book.html"
    outcome = run("swatch", "book", "--html", str(file), db=empty_db)
    assert (outcome.status, outcome.out) == (ExitStatus.BAD_INPUT, "")
    assert outcome.err == (
        "studio: there is no dry swatch to put into a book; record one with: studio swatch log\n"
    )
    assert not file.exists()
    does("paint", "add", "Kelp", "--maker", "Orsel")
    does("paper", "add", "Foreshore", "--maker", "Corvane Paper")
    does("swatch", "log", "kelp", "--lab", "40,1,1", "--wet")
    assert run("swatch", "book", "--html", str(file), db=empty_db).err == outcome.err


def test_what_cannot_be_made_is_refused(refuses: Refuses, tmp_path: Path) -> None:
    file = str(tmp_path / "book.html")
    assert "needs a file to go to" in refuses(3, "swatch", "book")
    assert "choose one of: hue, chroma, value" in refuses(
        3, "swatch", "book", "--by", "mood", "--html", file
    )
    assert "is called" in refuses(4, "swatch", "book", "--paper", "tide", "--html", file)
    assert "cannot be written" in refuses(
        3, "swatch", "book", "--html", str(tmp_path / "no" / "book.html")
    )
    assert not Path(file).exists()
