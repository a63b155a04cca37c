"""The search of a book answers as `studio match` does, with CIEDE2000 computed in the page."""

import csv
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Final

import pytest
from axe_playwright_python.sync_playwright import Axe
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from playwright.sync_api import Browser, Page

from studio.actions.find import find_paper
from studio.actions.match_colour import Wanted, match_colour
from studio.actions.read_target import read_target
from studio.storage.unit_of_work import UnitOfWork
from tests.browser.conftest import Opens, Troubles, opening
from tests.browser.searching import Found, ask, said, show_all
from tests.conftest import Run

PUBLISHED: Final = Path(__file__).resolve().parents[1] / "published"
COLOURS: Final = (
    "#767d63", "#5B5F6E", "c8a94f", "#fff", "lab(51 -6 13)", "lab(62, 12, 30)", "lch(40 20 280)",
    "lab(0 0 0)", "S112", " s1 ",
)  # fmt: skip

axes = st.floats(-60.0, 70.0)
labs = st.builds("lab({:.6f} {:.6f} {:.6f})".format, st.floats(2.0, 98.0), axes, axes)
hexes = st.builds("#{:06x}".format, st.integers(0, 0xFFFFFF))


@pytest.fixture(scope="module")
def book(browser: Browser, demo_book: Path) -> Iterator[Page]:
    """The demo studio's book, open for all tests of this file."""
    troubles = Troubles()
    for opens in opening(browser, troubles):
        yield opens(demo_book)
    assert troubles == []


@pytest.fixture(scope="module")
def demo(demo_template: Path) -> Iterator[UnitOfWork]:
    """The demo studio, to look at."""
    with UnitOfWork(demo_template, write=False) as work:
        yield work


def _matched(
    work: UnitOfWork, colour: str, wanted: Wanted | None = None, *, every: bool = False
) -> list[Found]:
    """What `match` answers with, all of it, as the page shows it."""
    result = match_colour(
        work, read_target(work, colour), wanted or Wanted(), count=10_000, every_swatch=every
    )
    return [
        Found(each.swatch.facts.code, f"ΔE00 {each.difference:.2f}", each.difference)
        for each in result.matches
    ]


def _same(found: list[Found], matched: list[Found]) -> None:
    assert [each[:2] for each in found] == [each[:2] for each in matched]
    assert [each.exact for each in found] == pytest.approx([each.exact for each in matched])


@pytest.mark.parametrize("colour", COLOURS)
def test_the_book_answers_as_match_does(colour: str, book: Page, demo: UnitOfWork) -> None:
    found = ask(book, colour)
    assert len(found) >= 70
    _same(found, _matched(demo, colour))
    assert f"nearest: {found[0].code}, {found[0].shown}" in said(book) or (
        f"even the nearest, {found[0].code}, {found[0].shown}" in said(book)
    )


@settings(max_examples=12, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(colour=labs | hexes)
def test_so_it_does_for_any_colour(colour: str, book: Page, demo: UnitOfWork) -> None:
    _same(ask(book, colour), _matched(demo, colour))


def test_so_does_the_command(book: Page, demo_db: Path, run: Run) -> None:
    for colour in ("#767d63", "lab(40 30 20)"):
        listed = json.loads(run("match", colour, "-n", "20", "--json", db=demo_db).out)["matches"]
        found = ask(book, colour)[:20]
        assert [each.code for each in found] == [each["swatch"] for each in listed]
        assert [each.exact for each in found] == pytest.approx(
            [each["delta_e"] for each in listed], abs=6e-4
        )


def test_every_swatch_may_be_asked_for_and_words_filter_first(book: Page, demo: UnitOfWork) -> None:
    _same(ask(book, "#767d63", every=True), _matched(demo, "#767d63", every=True))
    rough = Wanted(paper=find_paper(demo, "Foreshore Rough"))
    found = ask(book, "#767d63", "foreshore ROUGH")
    assert len(found) > 5
    _same(found, _matched(demo, "#767d63", rough))
    assert "with “foreshore ROUGH”" in said(book)


def test_words_alone_keep_the_order_of_the_book(book: Page, demo: UnitOfWork) -> None:
    found = ask(book, words="burnt sienna ultramarine")
    holding = [
        swatch.facts.code
        for mix in demo.mixes.all()
        if {"Burnt Sienna", "French Ultramarine"}
        <= {demo.paints.by_id(paint).facts.name for paint, _ in mix.recipe.parts}
        for swatch in demo.swatches.of_mix(mix.id)
        if swatch.state == "dry"
    ]
    assert len(holding) > 3
    codes = [each.code for each in found]
    assert sorted(codes) == sorted(holding)
    written = book.eval_on_selector_all("#book figure", "all => all.map(each => each.id)")
    assert codes == [code for code in written if code in codes]
    assert said(book) == f"{len(codes)} swatches with “burnt sienna ultramarine”."
    assert ask(book, words="no such tide") == []
    assert said(book) == "0 swatches with “no such tide”."


@pytest.mark.parametrize(
    "colour",
    ["#76", "lab(101 0 0)", "lab(50 300 0)", "S9999", "tide", "lab(1 2)", "<b>", "5YR 6/4"],
)
def test_what_is_no_colour_is_said_and_the_book_stays(colour: str, book: Page) -> None:
    assert ask(book, colour) == []
    assert said(book).startswith(f"“{colour}” is not a colour that this book can read; write one")
    assert book.get_attribute("#colour", "aria-invalid") == "true"
    assert book.is_visible("#book figure >> nth=0")
    ask(book)
    assert (said(book), book.get_attribute("#colour", "aria-invalid")) == ("", "false")


def test_a_picked_colour_is_searched_and_a_typed_one_shown_beside_each(book: Page) -> None:
    book.locator("#picker").evaluate(
        "each => { each.value = '#5b5f6e';"
        " each.dispatchEvent(new Event('input', {bubbles: true})); }"
    )
    assert book.input_value("#colour") == "#5b5f6e"
    picked = book.eval_on_selector_all("#shown .apart", "all => all.map(e => e.textContent)")
    assert picked[:3] == [each.shown for each in ask(book, "#5b5f6e")][:3]
    halves = book.locator("#shown figure >> nth=0").locator(".colour")
    assert halves.count() == 2
    assert book.get_attribute("#shown figure >> nth=0 >> .colour >> nth=0", "style") == (
        "--srgb: #5b5f6e; --lab: lab("
        + str(book.evaluate("getComputedStyle(document.querySelector('#shown .colour'))"
                            ".getPropertyValue('--lab')")).removeprefix("lab(") + ";"
    )  # fmt: skip
    ask(book, "lab(60 -90 40)")
    assert said(book).endswith("It is outside sRGB; the nearest is shown, ΔE00 8.8 off.")


def test_the_order_may_be_chosen_and_has_its_own_headings(book: Page, demo: UnitOfWork) -> None:
    ask(book)
    book.select_option("#order", "value")
    show_all(book)
    codes = book.eval_on_selector_all("#shown .name a", "all => all.map(e => e.textContent)")
    lightness = [demo.swatches.with_code(code).lab.lightness for code in codes]  # type: ignore[union-attr]
    assert len(codes) == len(set(codes)) == book.locator("#book figure").count()
    assert lightness == sorted(lightness, reverse=True)
    titles = book.locator("#shown h2").all_inner_texts()
    assert titles == sorted(set(titles), reverse=True)
    assert all(title.startswith("L* ") for title in titles)
    book.click("button[type=reset]")
    book.wait_for_function("() => document.querySelector('#shown figure') === null")
    assert book.input_value("#order") == "hue"
    assert book.is_visible("#book figure >> nth=0")


def test_a_scan_finds_no_barrier_in_what_was_found(demo_book: Path, opens: Opens) -> None:
    page = opens(demo_book)
    assert page.get_attribute("#said", "aria-live") == "polite"
    ask(page, "#767d63")
    assert Axe().run(page).response["violations"] == []


def test_the_difference_in_the_page_is_that_of_the_published_pairs(
    demo_book: Path, tmp_path: Path, opens: Opens
) -> None:
    """Sharma, Wu, Dalal (2005), table 1, to the four decimals printed there."""
    with (PUBLISHED / "ciede2000_sharma2005_34pairs.csv").open(encoding="utf-8") as table:
        pairs = list(csv.DictReader(table))
    assert len(pairs) == 34
    seconds = iter(pairs)
    codes: list[str] = []

    def second(figure: re.Match[str]) -> str:
        """The patch with the second colour of the next pair for its own; at last as it was."""
        pair = next(seconds, None)
        if pair is None:
            return figure[0]
        codes.append(figure["code"])
        return f'{figure["before"]}data-lab="{pair["L2"]} {pair["a2"]} {pair["b2"]}"'

    file = tmp_path / "book.html"
    figure = r'(?P<before><figure id="(?P<code>\w+)"[^>]*?)data-lab="[^"]*"'
    file.write_text(re.sub(figure, second, demo_book.read_text("utf-8")), encoding="utf-8")
    page = opens(file)
    for pair, code in zip(pairs, codes, strict=True):
        found = ask(page, "lab({L1} {a1} {b1})".format(**pair), every=True)
        (exact,) = (one.exact for one in found if one.code == code)
        assert round(exact, 4) == float(pair["dE00"]), pair


def test_what_is_equally_near_comes_in_the_order_it_was_recorded(
    run: Run, empty_db: Path, tmp_path: Path, opens: Opens
) -> None:
    """Two mixes and the swatches of each at one place, mirrored places, and one place twice."""
    for words in (
        ("paper", "add", "Slipway Rag", "--maker", "Eddering Mill"),
        *(("paint", "add", name, "--maker", "Pellow & Strand") for name in ("Kelp", "Ebb", "Silt")),
        *(
            ("swatch", "log", mix, "--lab", lab)
            for mix, lab in (
                ("Silt", "60,0,20"), ("Ebb", "40,10,-10"), ("Kelp", "40,10,-10"),
                ("Ebb", "40,10,-10"), ("Kelp", "60,0,-20"), ("Silt", "40,10,-10"),
                ("Kelp + Ebb", "60,0,20"),
            )
        ),
    ):  # fmt: skip
        assert run(*words, db=empty_db).status == 0
    file = tmp_path / "book.html"
    assert run("swatch", "book", "--html", str(file), db=empty_db).status == 0
    page = opens(file)
    with UnitOfWork(empty_db, write=False) as work:
        for colour in ("lab(40 10 -10)", "lab(41 9 -11)", "lab(60 0 20)", "S2", "S3", "S1"):
            for every in (False, True):
                _same(ask(page, colour, every=every), _matched(work, colour, every=every))
    assert [each.code for each in ask(page, "lab(40 10 -10)")] == ["S2", "S3", "S6", "S7"]
