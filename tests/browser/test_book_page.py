"""A book without scripts, its anchors, its order, and what it holds on to when printed."""

import re
from pathlib import Path
from typing import Final

from playwright.sync_api import Browser

from studio.errors import ExitStatus
from studio.storage.unit_of_work import UnitOfWork
from tests.browser.conftest import Opens, Troubles, opening
from tests.browser.searching import ask, said, show_all
from tests.conftest import Run

IN_VIEW: Final = """code => {
  const box = document.getElementById(code).getBoundingClientRect();
  return box.top >= 0 && box.top < innerHeight / 2 && box.height > 100;
}"""


def test_without_scripts_it_is_a_book_to_read(
    demo_book: Path, opens: Opens, demo_work: UnitOfWork
) -> None:
    page = opens(demo_book, scripts=False)
    dry = [swatch for swatch in demo_work.swatches.all() if swatch.state == "dry"]
    assert page.locator("figure").count() == len(dry) > 200
    assert page.locator("figure:visible").count() == len(dry)
    assert not page.is_visible("#search")
    assert page.locator("#answer, #more").locator("visible=true").count() == 0
    assert "salt marsh turf" in (page.text_content("#S112") or "")


def test_a_code_leads_to_its_patch(demo_book: Path, opens: Opens) -> None:
    page = opens(demo_book, "phone", at="#S200")
    page.wait_for_function(IN_VIEW, arg="S200")
    ask(page, "#767d63")
    page.evaluate("location.hash = '#S112'")
    page.wait_for_function(IN_VIEW, arg="S112")
    assert (said(page), page.input_value("#colour")) == ("", "")
    page.evaluate("location.hash = '#%'")
    assert not page.is_visible("#shown figure")


def test_only_the_books_own_script_runs(demo_book: Path, tmp_path: Path, browser: Browser) -> None:
    """A changed or an added script is refused by the policy, and so are handlers and addresses."""
    written = demo_book.read_text(encoding="utf-8")
    changed = tmp_path / "changed.html"
    changed.write_text(written.replace('"use strict";', '"use strict"; window.ran = 1;'))
    added = tmp_path / "added.html"
    added.write_text(
        written.replace(
            "</main>",
            "<script>window.ran = 1</script><b onclick='window.ran = 1' id='b'>b</b>"
            "<a href='javascript:window.ran = 1' id='a'>a</a></main>",
        )
    )
    for file in (changed, added):
        troubles = Troubles()
        for opens in opening(browser, troubles):
            page = opens(file)
            for each in page.locator("#a, #b").all():
                each.click()
            assert page.evaluate("'ran' in window") is False
            assert page.is_visible("#search") is (file is added)
        assert troubles
        assert all("Content Security Policy" in each for each in troubles)


def test_an_order_of_the_readers_own_is_printed_whole(demo_book: Path, opens: Opens) -> None:
    page = opens(demo_book)
    page.select_option("#order", "chroma")
    assert page.locator("#shown figure").count() < 200
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    assert page.locator("#shown figure").count() == page.locator("#book figure").count()
    ask(page, "#767d63")
    shown = page.locator("#shown figure").count()
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    assert page.locator("#shown figure").count() == shown


def test_more_comes_while_a_reader_scrolls(demo_book: Path, opens: Opens) -> None:
    page = opens(demo_book)
    page.select_option("#order", "chroma")
    for _ in range(20):
        page.mouse.wheel(0, 4000)
        page.wait_for_timeout(50)
        if not page.is_visible("#more"):
            break
    assert page.locator("#shown figure").count() == page.locator("#book figure").count()


def test_the_orders_of_the_page_are_those_of_the_command(
    run: Run, demo_db: Path, tmp_path: Path, demo_book: Path, opens: Opens
) -> None:
    page = opens(demo_book)
    for order in ("chroma", "value", "hue"):
        file = tmp_path / f"{order}.html"
        outcome = run("swatch", "book", "--by", order, "--html", str(file), db=demo_db)
        assert outcome.status == ExitStatus.DONE
        written = re.findall(r'<figure id="([^"]+)"|<h2[^>]*>([^<]+)', file.read_text("utf-8"))
        page.select_option("#order", order)
        show_all(page)
        where = "#book" if order == "hue" else "#shown"
        shown = page.eval_on_selector_all(
            f"{where} h2, {where} figure .name a", "all => all.map(each => each.textContent)"
        )
        assert shown == [code or title for code, title in written]
