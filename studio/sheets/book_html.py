"""A swatch book as one HTML file: to print, to read on a phone, and to search without a network."""

import json
from datetime import date
from importlib.resources import files
from typing import Final
from urllib.parse import quote

from studio.actions.swatch_book import Book
from studio.actions.swatch_rows import SwatchRow
from studio.catalogue.book_order import Order, Part, parts_by
from studio.sheets.book_page import (
    FOOT,
    TITLE,
    PatchWords,
    lead_of,
    missing_of,
    outside_words,
    words_of,
)
from studio.sheets.book_style import BOOK_STYLE
from studio.sheets.page_parts import plain
from studio.sheets.page_shell import html_text, isolated, patch_html, whole_file

SCRIPTS: Final = ("book_colour.js", "book.js")
"""Inlined one after the other; the second uses the first."""

_ORDERS: Final = {
    Order.HUE: "hue, neutrals last",
    Order.CHROMA: "chroma, most intense first",
    Order.VALUE: "value, light to dark",
}


def book_html(book: Book, order: Order, day: date) -> str:
    """The text of the file.

    The patches stand in it as HTML, so that it is whole without scripts; the script reads from
    their attributes what it searches: the exact colour, the mix, the order of recording and the
    place in each order.
    """
    labs = [swatch.lab for swatch, *_ in book.rows]
    orders = {each: parts_by(each, labs) for each in Order}
    places = {
        each: {at: place for place, at in enumerate(at for part in parts for at in part.places)}
        for each, parts in orders.items()
    }
    missing = missing_of(book)
    body = [
        f'<h1 id="title">{html_text(TITLE)}</h1>',
        f'<p class="lead">{html_text(lead_of(book, day))}</p>',
        *([f"<p>{html_text(missing)}</p>"] if missing else []),
        *_search(order, orders),
        f'<div id="book" data-order="{order}">',
    ]
    for number, part in enumerate(orders[order], start=1):
        body += [
            f'<section aria-labelledby="part-{number}">',
            f'<h2 id="part-{number}">{html_text(part.title)}</h2>',
            '<div class="swatches">',
        ]
        for at in part.places:
            ranks = " ".join(str(places[each][at]) for each in Order)
            body.append(_figure(book.rows[at], ranks))
        body += ["</div>", "</section>"]
    body.append("</div>")
    return whole_file(TITLE, body, foot=FOOT, kind="book", style=BOOK_STYLE, script=book_script())


def book_script() -> str:
    """The script of a book, which leaves nothing behind in the window."""
    folder = files("studio.sheets")
    texts = (folder.joinpath(name).read_text(encoding="utf-8") for name in SCRIPTS)
    return "".join(['(() => {\n"use strict";\n', *texts, "})();\n"])


def _search(order: Order, orders: dict[Order, tuple[Part, ...]]) -> list[str]:
    """The form, hidden until the script shows it, and the place of what is found."""
    options = [
        f'<option value="{each}"{" selected" if each is order else ""} data-parts="{parts}">'
        f"{html_text(_ORDERS[each])}</option>"
        for each in Order
        for parts in [_sizes(orders[each])]
    ]
    return [
        '<form id="search" role="search" aria-label="Search the book" autocomplete="off" hidden>',
        '<div><label for="colour">Colour to find</label>',
        '<span class="pair">',
        '<input id="colour" type="text" spellcheck="false" aria-describedby="how said">',
        '<input id="picker" type="color" value="#777777" aria-label="Pick the colour"></span>',
        '<p class="small" id="how">#767d63, lab(51 -6 13) or a swatch such as S12</p></div>',
        '<div><label for="words">Words</label>',
        '<input id="words" type="search" spellcheck="false" aria-describedby="what">',
        '<p class="small" id="what">of a name, recipe, paper or place</p></div>',
        '<div class="last"><div id="ordering"><label for="order">Order</label>',
        f'<select id="order">{"".join(options)}</select></div>',
        '<label id="all" hidden><input id="every" type="checkbox">',
        "Every swatch, not only the nearest of each mix</label>",
        '<button type="reset">Clear</button></div>',
        "</form>",
        '<p id="said" role="status" aria-live="polite"></p>',
        '<section id="answer" aria-label="Found" hidden>',
        '<div class="swatches" id="shown"></div>',
        '<button type="button" id="more" hidden>Show more</button>',
        "</section>",
    ]


def _sizes(parts: tuple[Part, ...]) -> str:
    """The titles of parts and how many swatches each has."""
    return html_text(json.dumps([[part.title, len(part.places)] for part in parts]))


def _figure(row: SwatchRow, ranks: str) -> str:
    swatch, mix, *_ = row
    words = words_of(row)
    code = html_text(words.code)
    outside = outside_words(swatch.lab)
    exact = " ".join(repr(float(value)) for value in swatch.lab.coordinates)
    return (
        f'<figure id="{code}" data-key="{swatch.id}" data-mix="{mix.id}" '
        f'data-lab="{exact}" data-places="{ranks}">'
        f"{patch_html(swatch.lab, f'colour of {words.code}')}"
        f"<figcaption>{_caption(words)}"
        f'<span class="numbers">{html_text(words.numbers)}'
        f"{f'<br>{outside}' if outside else ''}</span>"
        "</figcaption></figure>"
    )


def _caption(words: PatchWords) -> str:
    anchor = quote(plain(words.code), safe="")
    name = f"{html_text(words.mix)} {isolated(words.name)}" if words.name else html_text(words.mix)
    recipe = "".join(html_text(before) + isolated(paint) for before, paint in words.recipe)
    kept = f'<span class="said kept">{isolated(words.kept)}</span>' if words.kept else ""
    return (
        f'<span class="name said"><a href="#{anchor}">{html_text(words.code)}</a></span>'
        f'<span class="said mix">{name}</span>'
        f'<span class="said recipe">{recipe}</span>'
        f'<span class="said">{html_text(words.laid)}, {isolated(words.paper)}</span>{kept}'
    )
