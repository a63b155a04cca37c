"""painting plan writes its sheet, whatever became of the picture; finish books its amounts."""

import io
import json
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
        *(f"studio: wrote {path}" for path in paths[:2]),
        *(f"studio: wrote {tmp_path / f'plan-{number}.png'}" for number in (1, 2)),
    ]
    root = read_html(paths[0].read_text())
    assert [each.text for each in root.all("h3")] == ["1 sky"]
    (image,) = root.all("img")
    assert "spots 1 are marked" in image.attributes["alt"]
    texts = [page.extract_text() for page in PdfReader(paths[1]).pages]
    assert "1 sky" in texts[0]
    assert Image.open(io.BytesIO((tmp_path / "plan-1.png").read_bytes())).width == 1241


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


def test_a_painting_is_finished_by_its_plan(run: Run, demo_db: Path) -> None:
    assert run(*BEGUN, db=demo_db).status == 0
    assert run(*SKY, "--colour", "S106", "--share", "60%", db=demo_db).status == 0
    plan = json.loads(run("painting", "plan", "P3", "--json", db=demo_db).out)
    before = {need["paint"]: need["left_ml"] for need in plan["palette"]}
    done = run("painting", "finish", "P3", "--by-plan", db=demo_db)
    assert done.status == 0, done.err
    for need in plan["palette"]:
        stock = json.loads(run("stock", "show", need["paint"], "--json", db=demo_db).out)
        assert stock["estimated"]
        taken = before[need["paint"]] - stock["left"]
        assert taken == pytest.approx(need["needs_ml"], abs=0.01)


@pytest.mark.parametrize("used", ["FU=1", "FU=0.5,BS=1"])
def test_a_plan_and_typed_amounts_are_not_both_booked(run: Run, demo_db: Path, used: str) -> None:
    done = run("painting", "finish", "P2", "--by-plan", "--used", used, db=demo_db)
    assert done.status == 3
    assert done.err == ("studio: --by-plan books what the plan takes; give either it or --used\n")


def test_a_plan_with_a_hole_books_nothing(run: Run, demo_db: Path) -> None:
    assert run(*BEGUN, db=demo_db).status == 0
    assert run(*SKY, "--colour", "lab(60 94 -60)", db=demo_db).status == 0
    done = run("painting", "finish", "P3", "--by-plan", db=demo_db)
    assert done.status == 3
    assert done.err.splitlines()[-1] == (
        "studio: the plan has no mix yet for sky; say what was used with --used FU=1.2,BS=0.4"
    )
    assert '"finished_on": null' in run("painting", "show", "P3", "--json", db=demo_db).out
