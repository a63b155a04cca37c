"""Asking a book in a browser, and reading what it answers."""

from typing import NamedTuple

from playwright.sync_api import Page


class Found(NamedTuple):
    """A patch that was found: its swatch, ΔE00 as shown, and as computed."""

    code: str
    shown: str
    exact: float


def ask(page: Page, colour: str = "", words: str = "", *, every: bool = False) -> list[Found]:
    """All that the book finds, in its order."""
    page.fill("#colour", colour)
    page.fill("#words", words)
    if page.is_visible("#every"):
        page.set_checked("#every", every)
    show_all(page)
    rows = page.eval_on_selector_all(
        "#shown figure",
        "all => all.map(each => [each.querySelector('.name a').textContent,"
        " each.querySelector('.apart')?.textContent ?? '', Number(each.dataset.apart ?? 'NaN')])",
    )
    return [Found(*row) for row in rows]


def show_all(page: Page) -> None:
    """Press the button for more until there is none; scrolling would press it as well."""
    page.eval_on_selector("#more", "more => { while (!more.hidden) more.click(); }")


def said(page: Page) -> str:
    """What the book announces."""
    return page.inner_text("#said")
