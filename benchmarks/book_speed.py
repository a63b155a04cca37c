"""How long a swatch book of many swatches takes to write, to open and to search in a browser.

`python benchmarks/book_speed.py [COUNT]` writes a book of so many swatches (5,000) of half as
many mixes, opens it in headless Chromium several times and searches it by colour and by words.
Opening is until the first patches are painted and the search answers; a search is from the typed
value to the next frame that is painted. Wall-clock times, as a browser works in several processes.
"""

import random
import statistics
import sys
import tempfile
import time
from datetime import date
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from studio.actions.open_studio import create_studio
from studio.actions.swatch_book import swatch_book
from studio.catalogue.book_order import Order
from studio.catalogue.mix import Mix
from studio.catalogue.paint import PaintFacts
from studio.catalogue.paper import PaperFacts
from studio.catalogue.reading import Method, Origin, Reading, State
from studio.catalogue.recipe import Recipe
from studio.catalogue.swatch import Application, SwatchFacts
from studio.colour.lab import Lab
from studio.sheets.book_html import book_html
from studio.storage.swatches import NewSwatch
from studio.storage.unit_of_work import UnitOfWork
from tests.browser.chromium import chromium, flags

DAY = date(2026, 5, 4)
COLOURS = (
    "#767d63",
    "#c8a94f",
    "lab(30 20 -30)",
    "#5b5f6e",
    "#9e493d",
    "S17",
    "#eeeeee",
    "#101010",
)
WORDS = ("slipway", "ultra 3", "row 7", "M12", "sienna", "rag", "box 1", "nothing such")

# Sets a field and tells the milliseconds to the end of the script and to the next painted frame.
SEARCH = """([id, text]) => new Promise((done) => {
  const field = document.getElementById(id);
  field.value = text;
  const began = performance.now();
  field.dispatchEvent(new Event("input", { bubbles: true }));
  const script = performance.now() - began;
  requestAnimationFrame(() => {
    const channel = new MessageChannel();
    channel.port1.onmessage = () => done([script, performance.now() - began]);
    channel.port2.postMessage(0);
  });
})"""
OPENED = "() => performance.getEntriesByName('first-contentful-paint')[0].startTime"


def fill(path: Path, count: int) -> None:
    """A studio with so many dry swatches."""
    chance = random.Random(7)  # noqa: S311 - colours of no meaning, always the same
    create_studio(path)
    with UnitOfWork(path, write=True, in_history=False) as work:
        paints = [
            work.paints.add(PaintFacts(code, "Pellow & Strand", name))
            for code, name in (("FU", "French Ultramarine"), ("BS", "Burnt Sienna"))
        ]
        work.papers.add(PaperFacts("SR", "Eddering Mill", "Slipway Rag"))
        for number in range(1, count // 2 + 1):
            recipe = Recipe(((paints[0], number), (paints[1], number + 1)))
            work.mixes.add(Mix(0, f"M{number}", recipe, f"tideline {number}", None, DAY))
        swatches = []
        for key in range(1, count + 1):
            lab = Lab(chance.uniform(20, 95), chance.uniform(-40, 40), chance.uniform(-40, 60))
            reading = Reading(
                lab,
                lab,
                Origin.MEASURED,
                None,
                State.DRY,
                Method.COLORIMETER,
                None,
                None,
                None,
                DAY,
            )
            mix, water = chance.randint(1, count // 2), float(chance.randint(1, 9))
            kept_at = f"card box {key // 100}, row {key % 12}"
            facts = SwatchFacts("", water, 1, Application.FLAT_WASH, DAY, kept_at)
            swatches.append(NewSwatch(f"S{key}", facts, mix, 1, reading))
        work.swatches.add_many(swatches)
        work.commit()


def _searched(page: Page, field: str, texts: tuple[str, ...]) -> None:
    times = [page.evaluate(SEARCH, [field, text]) for text in texts]
    page.evaluate(SEARCH, [field, ""])
    for place, what in enumerate(("script alone", "until painted")):
        told = [time[place] for time in times]
        worst = max(told)
        print(f"  {field}, {what}: median {statistics.median(told):.0f} ms, worst {worst:.0f} ms")


def main(count: int) -> None:
    """Print the figures."""
    program = chromium()
    if program is None:
        sys.exit("no Chromium is installed; see .ci/browser")
    with tempfile.TemporaryDirectory() as folder:
        database, file = Path(folder) / "studio.sqlite3", Path(folder) / "book.html"
        fill(database, count)
        began = time.perf_counter()
        with UnitOfWork(database, write=False) as work:
            file.write_text(book_html(swatch_book(work), Order.HUE, DAY), encoding="utf-8")
        size = file.stat().st_size / 1e6
        print(f"{count:,} swatches: written in {time.perf_counter() - began:.2f} s, {size:.1f} MB")
        with sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=program, args=flags())
            for kind, width, height in (("desk", 1280, 900), ("phone", 390, 844)):
                print(kind)
                opened = []
                for _ in range(5):
                    page = browser.new_page(viewport={"width": width, "height": height})
                    began = time.perf_counter()
                    page.goto(file.as_uri())
                    ready = page.evaluate(SEARCH, ["words", ""]) and time.perf_counter() - began
                    opened.append((page.evaluate(OPENED), 1000 * ready))
                    if len(opened) < 5:  # noqa: PLR2004 - the last one is searched
                        page.close()
                painted, ready = (statistics.median(each) for each in zip(*opened, strict=True))
                print(f"  first painted after {painted:.0f} ms, searchable after {ready:.0f} ms")
                page.wait_for_timeout(1500)
                _searched(page, "colour", COLOURS)
                _searched(page, "words", WORDS)
                page.close()
            browser.close()


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5000)
