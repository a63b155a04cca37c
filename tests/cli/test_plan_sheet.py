"""studio painting plan writes its sheet: as asked, whole, and whatever became of the picture."""

import io
from pathlib import Path
from typing import Final

import pytest
from PIL import Image
from pypdf import PdfReader

from tests.conftest import Run
from tests.sheets.pages import read_html

CREEK: Final = Path(__file__).parents[2] / "seed_demo" / "files" / "creek.png"
BEGUN: Final = ("painting", "start", "Slack water", "--paper", "ECP", "--size", "280x210mm")
SKY: Final = ("painting", "passage", "add", "Slack water", "sky", "--technique", "graded wash")


@pytest.fixture
def begun(run: Run, demo_db: Path, tmp_path: Path) -> Path:
    """The reference of a painting that has one passage with a colour picked from it."""
    picture = tmp_path / "reference.png"
    picture.write_bytes(CREEK.read_bytes())
    assert run(*BEGUN, "--reference", str(picture), db=demo_db).status == 0
    assert run(*SKY, "--at", "60%,8%", "--share", "40%", db=demo_db).status == 0
    return picture


def _plan(run: Run, demo_db: Path, *words: str) -> tuple[str, str]:
    done = run("painting", "plan", "Slack water", *words, db=demo_db)
    assert done.status == 0, done.err
    return done.out, done.err


def test_the_sheet_is_written_as_html_pdf_and_png(
    run: Run, demo_db: Path, begun: Path, tmp_path: Path
) -> None:
    assert begun.exists()
    paths = [tmp_path / f"plan.{kind}" for kind in ("html", "pdf", "png")]
    options = [word for path in paths for word in (f"--{path.suffix[1:]}", str(path))]
    out, err = _plan(run, demo_db, *options)
    assert out == ""
    assert [line for line in err.splitlines() if "wrote" in line] == [
        f"studio: wrote {path}" for path in paths
    ]
    root = read_html(paths[0].read_text())
    assert [each.text for each in root.all("h3")] == ["1 sky"]
    (image,) = root.all("img")
    assert "spots 1 are marked" in image.attributes["alt"]
    texts = [page.extract_text() for page in PdfReader(paths[1]).pages]
    assert "1 sky" in texts[0]
    assert Image.open(io.BytesIO(paths[2].read_bytes())).width == 1241


def test_a_picture_that_is_gone_or_changed_is_said_and_the_kept_copy_drawn(
    run: Run, demo_db: Path, begun: Path, tmp_path: Path
) -> None:
    html = tmp_path / "plan.html"
    begun.unlink()
    _, err = _plan(run, demo_db, "--html", str(html))
    assert "is not there any more; the copy that the studio keeps of it was read" in err
    assert len(read_html(html.read_text()).all("img")) == 1
    Image.new("RGB", (40, 30)).save(begun)
    _, err = _plan(run, demo_db, "--html", str(html))
    assert "is another file by now" in err
    assert len(read_html(html.read_text()).all("img")) == 1


def test_a_picture_too_large_to_be_kept_leaves_a_sheet_without_it(
    run: Run, demo_db: Path, begun: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert begun.exists()
    monkeypatch.setattr("studio.storage.measurement_files.LARGEST_KEPT", 10)
    other = tmp_path / "large.png"
    Image.new("RGB", (64, 48), (120, 130, 90)).save(other)
    words = ("painting", "edit", "Slack water", "--reference", str(other), "--another")
    done = run(*words, db=demo_db)
    assert done.status == 0, done.err
    other.unlink()
    html = tmp_path / "plan.html"
    _, err = _plan(run, demo_db, "--html", str(html))
    assert "say where it is: studio painting edit" in err
    root = read_html(html.read_text())
    assert not root.all("img")
    assert "is not there any more" in root.text


def test_a_sheet_that_cannot_be_written_is_refused(
    run: Run, demo_db: Path, begun: Path, tmp_path: Path
) -> None:
    assert begun.exists()
    done = run("painting", "plan", "P3", "--pdf", str(tmp_path / "no" / "plan.pdf"), db=demo_db)
    assert done.status == 3
    assert done.err.splitlines()[-1].startswith("studio: ")
