"""Every page that the studio writes: no complaint, no barrier, no hue beside the colours."""

from pathlib import Path
from typing import Final

import pytest
from axe_playwright_python.sync_playwright import Axe

from studio.errors import ExitStatus
from tests.browser.conftest import SCREENS, Opens, Screen
from tests.browser.written import PAGES
from tests.conftest import Run

# Every colour that something but a patch is drawn in, as the browser computed it.
DRAWN: Final = """() => {
  const drawn = new Set();
  const names = ["color", "backgroundColor", "borderTopColor", "borderBottomColor",
    "borderLeftColor", "outlineColor", "accentColor", "caretColor"];
  for (const element of document.querySelectorAll("body, body *:not(.colour)")) {
    const style = getComputedStyle(element);
    names.forEach((name) => drawn.add(style[name]));
  }
  return Array.from(drawn);
}"""


@pytest.fixture
def written(run: Run, demo_db: Path, tmp_path: Path, name: str) -> Path:
    """The page of a name, as its command writes it."""
    file = tmp_path / "page.html"
    outcome = run(*PAGES[name], str(file), db=demo_db)
    assert outcome.status == ExitStatus.DONE, outcome.err
    return file


@pytest.mark.parametrize("screen", SCREENS)
@pytest.mark.parametrize("name", PAGES)
def test_a_page_opens_without_complaint_and_without_barriers(
    name: str, screen: Screen, written: Path, opens: Opens
) -> None:
    """By the rules of axe-core, WCAG 2.2 A and AA and its best practices."""
    del name
    page = opens(written, screen)
    found = Axe().run(page)
    assert len(found.response["passes"]) > 10
    assert [
        (each["id"], [node["html"][:200] for node in each["nodes"][:3]])
        for each in found.response["violations"]
    ] == []


@pytest.mark.parametrize("name", PAGES)
def test_a_phone_never_scrolls_sideways(name: str, written: Path, opens: Opens) -> None:
    del name
    page = opens(written, "phone")
    assert page.evaluate("document.documentElement.scrollWidth") <= 390


@pytest.mark.parametrize("name", PAGES)
def test_nothing_but_a_patch_has_a_hue(name: str, written: Path, opens: Opens) -> None:
    del name
    drawn = opens(written).evaluate(DRAWN)
    assert len(drawn) > 3
    assert [each for each in drawn if not _is_grey(each)] == []


def _is_grey(colour: str) -> bool:
    """Whether a computed colour, `rgb(26, 26, 26)` or `auto`, has no hue."""
    if colour == "auto":
        return True
    red, green, blue, *_ = colour[colour.index("(") + 1 : -1].split(", ")
    return red == green == blue


def test_the_scan_does_find_a_barrier(tmp_path: Path, opens: Opens) -> None:
    file = tmp_path / "poor.html"
    file.write_text('<title>poor</title><input type="text"><p style="color: #aaaaaa">pale')
    ids = {each["id"] for each in Axe().run(opens(file)).response["violations"]}
    assert {"html-has-lang", "label", "color-contrast"} <= ids
