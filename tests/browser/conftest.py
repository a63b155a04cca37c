"""One headless Chromium a process; its pages may neither complain nor reach a network."""

import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, Final, Literal

import pytest
from playwright.sync_api import (
    Browser,
    ConsoleMessage,
    Dialog,
    Page,
    Request,
    sync_playwright,
)

from studio.actions.swatch_book import swatch_book
from studio.catalogue.book_order import Order
from studio.sheets.book_html import book_html
from studio.storage.unit_of_work import UnitOfWork
from tests.browser.chromium import MISSING, chromium, flags
from tests.conftest import TODAY

Screen = Literal["desk", "phone"]
SCREENS: Final[dict[Screen, dict[str, Any]]] = {
    "desk": {"viewport": {"width": 1280, "height": 900}},
    "phone": {
        "viewport": {"width": 390, "height": 844},
        "device_scale_factor": 2,
        "is_mobile": True,
        "has_touch": True,
    },
}

Opens = Callable[..., Page]


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """A browser of this process, with a new profile."""
    program = chromium()
    if program is None:
        pytest.skip(MISSING)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        started = playwright.chromium.launch(
            executable_path=program, args=flags(), env={"HOME": folder, "LANG": "C.UTF-8"}
        )
        yield started
        started.close()


class Troubles(list[str]):
    """What a page complained of, asked of a network or asked its reader."""

    def watch(self, page: Page, file: str) -> None:
        """Listen to a page that may read one file alone."""

        def note_request(request: Request) -> None:
            if request.url.partition("#")[0] != file:
                self.append(f"request: {request.url}")

        page.on("console", self._note_console)
        page.on("dialog", self._note_dialog)
        page.on("pageerror", lambda error: self.append(f"error: {error}"))
        page.on("requestfailed", lambda request: self.append(f"failed: {request.url}"))
        page.on("request", note_request)

    def _note_console(self, said: ConsoleMessage) -> None:
        kind: str = said.type
        if kind != "verbose":  # advice of the browser's on speed
            self.append(f"console {kind}: {said.text}")

    def _note_dialog(self, dialog: Dialog) -> None:
        self.append(f"dialog: {dialog.message}")
        dialog.dismiss()


def opening(browser: Browser, troubles: Troubles) -> Iterator[Opens]:
    """A function that opens files, each in a window of its own without a network."""
    contexts = []

    def opens(file: Path, screen: Screen = "desk", *, at: str = "", scripts: bool = True) -> Page:
        context = browser.new_context(**SCREENS[screen], offline=True, java_script_enabled=scripts)
        contexts.append(context)
        page = context.new_page()
        troubles.watch(page, file.as_uri())
        page.goto(file.as_uri() + at)
        return page

    yield opens
    for context in contexts:
        context.close()


@pytest.fixture
def troubles() -> Troubles:
    """What the pages of this test complained of; empty at its end, or the test fails."""
    return Troubles()


@pytest.fixture
def opens(browser: Browser, troubles: Troubles) -> Iterator[Opens]:
    """`opens(file, "phone")`: the page, which must stay without any trouble."""
    yield from opening(browser, troubles)
    assert troubles == []


@pytest.fixture(scope="session")
def demo_book(demo_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The book of the demo studio, by hue."""
    file = tmp_path_factory.mktemp("book") / "book.html"
    with UnitOfWork(demo_template, write=False) as work:
        file.write_text(book_html(swatch_book(work), Order.HUE, TODAY), encoding="utf-8")
    return file
