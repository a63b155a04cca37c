"""`studio paint card`: a card in a file, or a sentence that says what is missing."""

import contextlib
import io
from pathlib import Path

import pytest
from pypdf import PdfReader

from studio.errors import ExitStatus
from tests.conftest import Run
from tests.sheets.pages import HOSTILE, LONG_WORD, read_html


@pytest.fixture
def shelf(run: Run, empty_db: Path) -> Path:
    """A studio with three paints, one of them retired, and a swatch of one alone."""
    for words in (
        (
            "paint",
            "add",
            "Tidal Teal",
            "--maker",
            "Brackwater",
            "--pigments",
            "PG50",
            "--volume",
            "15",
        ),
        ("paint", "add", "Marsh Mud", "--maker", "Orsel"),
        ("paint", "add", "Old Rust", "--maker", "Orsel", "--pigments", "PR101"),
        ("paint", "retire", "OR"),
        ("paper", "add", "Slipway Rag", "--maker", "Eddering Mill"),
        ("swatch", "log", "teal", "--lab", "45,-20,-12", "--water", "3:1"),
    ):
        outcome = run(*words, db=empty_db)
        assert outcome.status == ExitStatus.DONE, outcome.err
    return empty_db


def test_a_card_is_written_as_html_and_pdf_and_both_are_named(
    run: Run, shelf: Path, tmp_path: Path
) -> None:
    html, pdf = tmp_path / "teal.html", tmp_path / "teal.pdf"
    outcome = run("paint", "card", "teal", "--html", str(html), "--pdf", str(pdf), db=shelf)
    assert (outcome.status, outcome.out) == (ExitStatus.DONE, "")
    assert outcome.err == f"studio: wrote {html}\nstudio: wrote {pdf}\n"
    root = read_html(html.read_text(encoding="utf-8"))
    assert [each.text for each in root.all("h1")] == ["Brackwater Tidal Teal"]
    (caption,) = root.all("figcaption")
    assert "L*\N{NO-BREAK SPACE}45.0" in caption.text
    text = PdfReader(io.BytesIO(pdf.read_bytes())).pages[0].extract_text()
    assert "Brackwater Tidal Teal" in text


@pytest.mark.parametrize("kind", ["html", "pdf"])
def test_one_file_is_enough(run: Run, shelf: Path, tmp_path: Path, kind: str) -> None:
    file = tmp_path / f"mud.{kind}"
    assert run("paint", "card", "MM", f"--{kind}", str(file), db=shelf).status == ExitStatus.DONE
    assert [each.name for each in tmp_path.glob("mud*")] == [file.name]
    assert file.stat().st_size > 1000


def test_all_cards_make_one_page_of_the_paints_in_use(
    run: Run, shelf: Path, tmp_path: Path
) -> None:
    html = tmp_path / "shelf.html"
    assert run("paint", "card", "--all", "--html", str(html), db=shelf).status == ExitStatus.DONE
    headings = [each.text for each in read_html(html.read_text(encoding="utf-8")).all("h2")]
    assert headings == [
        "At a glance",
        "How to read the cards",
        "MM  Orsel Marsh Mud",
        "TT  Brackwater Tidal Teal",
    ]


def test_a_retired_paint_still_has_a_card(run: Run, shelf: Path, tmp_path: Path) -> None:
    html = tmp_path / "rust.html"
    assert run("paint", "card", "OR", "--html", str(html), db=shelf).status == ExitStatus.DONE
    assert "retired" in read_html(html.read_text(encoding="utf-8")).all("main")[0].all("p")[0].text


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("teal",), "the card needs a file to go to; give --html FILE, --pdf FILE or --png FILE"),
        (("--html", "x"), "name one paint, or give --all for every paint in use"),
        (("teal", "--all", "--pdf", "x"), "name one paint, or give --all for every paint in use"),
    ],
)
def test_what_is_missing_is_said_and_nothing_written(
    run: Run, shelf: Path, data_home: Path, words: tuple[str, ...], sentence: str
) -> None:
    with contextlib.chdir(data_home.parent):
        outcome = run("paint", "card", *words, db=shelf)
    assert (outcome.status, outcome.err) == (ExitStatus.BAD_INPUT, f"studio: {sentence}\n")
    assert not (data_home.parent / "x").exists()


def test_an_empty_shelf_has_no_cards(run: Run, empty_db: Path, tmp_path: Path) -> None:
    html = tmp_path / "shelf.html"
    outcome = run("paint", "card", "--all", "--html", str(html), db=empty_db)
    assert outcome.status == ExitStatus.BAD_INPUT
    assert outcome.err == "studio: no paint is in use; record one with: studio paint add\n"
    assert not html.exists()


def test_an_unknown_paint_is_not_found(run: Run, shelf: Path, tmp_path: Path) -> None:
    html = tmp_path / "x.html"
    outcome = run("paint", "card", "heron", "--html", str(html), db=shelf)
    assert outcome.status == ExitStatus.NOT_FOUND
    assert not html.exists()


def test_a_folder_that_is_not_there_is_told(run: Run, shelf: Path, tmp_path: Path) -> None:
    html = tmp_path / "boathouse" / "teal.html"
    outcome = run("paint", "card", "teal", "--html", str(html), db=shelf)
    assert outcome.status == ExitStatus.BAD_INPUT
    assert outcome.err == f"studio: {html} cannot be written: no such file or directory\n"


def test_a_hostile_name_stays_a_name(run: Run, shelf: Path, tmp_path: Path) -> None:
    html, pdf = tmp_path / "h.html", tmp_path / "h.pdf"
    name = HOSTILE.replace("\\", "") + " " + LONG_WORD[:100]
    added = run("paint", "add", name, "--maker", "Orsel", "--code", "ZZ", db=shelf)
    assert added.status == ExitStatus.DONE, added.err
    outcome = run("paint", "card", "ZZ", "--html", str(html), "--pdf", str(pdf), db=shelf)
    assert outcome.status == ExitStatus.DONE
    root = read_html(html.read_text(encoding="utf-8"))
    shown = " ".join(root.all("h1")[0].text.split())
    assert shown == " ".join(f"Orsel {name}".split())
    assert root.all("script") == []
    metadata = PdfReader(io.BytesIO(pdf.read_bytes())).metadata
    assert metadata is not None
    assert '<script>alert("tide")</script>' in str(metadata.title)


def test_a_sheet_that_one_page_cannot_hold_is_told(
    run: Run, empty_db: Path, tmp_path: Path
) -> None:
    table = tmp_path / "paints.csv"
    rows = "".join(f"C{n},Orsel,Estuary Blue {n},PB28;PBr7;PY{n}\n" for n in range(1, 81))
    table.write_text(f"code,maker,name,pigments\n{rows}", encoding="utf-8")
    added = run("import", str(table), db=empty_db)
    assert added.status == ExitStatus.DONE, added.err
    pdf = tmp_path / "wall.pdf"
    outcome = run("care", "sheet", "--pdf", str(pdf), db=empty_db)
    count = len(PdfReader(pdf).pages)
    assert count > 1
    assert outcome.err == (
        f"studio: wrote {pdf}, on {count} sheets: one does not hold it in type of 6.5 pt\n"
    )
