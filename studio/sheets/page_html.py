"""A page as one HTML file: for a phone, for a screen and for paper, in greys alone."""

from html import escape
from typing import Final

from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets.blocks import Bullets, Grid, Heading, Page, Paragraph, Patches
from studio.sheets.page_parts import OUTSIDE, column_shares, marked, plain
from studio.sheets.page_style import STYLE

_LONG: Final = 20
"""A table with more rows than this may be cut between them when printed."""

_NARROW: Final = 2
"""A table with more columns than this stands in stacked rows on a phone."""

_POLICY: Final = "default-src 'none'; style-src 'unsafe-inline'"
"""Nothing is fetched and no script runs, whatever a name holds."""


def html_of(page: Page) -> str:
    """A page as the text of one HTML file that needs no other."""
    body: list[str] = []
    heading, sections = "title", 0
    for block in page.blocks:
        if isinstance(block, Heading):
            body += ["</section>"] if sections else []
            sections += 1
            heading = f"section-{sections}"
            body.append(f'<section aria-labelledby="{heading}">')
            body.append(f'<h2 id="{heading}">{_text(block.text)}</h2>')
        else:
            body.append(_block(block, heading))
    body += ["</section>"] if sections else []
    lines = (
        "<!DOCTYPE html>",
        '<html lang="en">',
        "<head>",
        '<meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        '<meta name="color-scheme" content="only light">',
        f"<title>{_text(page.title)}</title>",
        f"<style>{STYLE}</style>",
        "</head>",
        "<body>",
        "<main>",
        f'<h1 id="title">{_text(page.title)}</h1>',
        f'<p class="lead">{_text(page.lead)}</p>',
        *body,
        "</main>",
        f"<footer><p>{_text(page.foot)}</p></footer>",
        "</body>",
        "</html>",
    )
    return "\n".join(lines) + "\n"


def _block(block: Paragraph | Bullets | Patches | Grid, heading: str) -> str:
    match block:
        case Paragraph():
            names = [name for name in ("strong", "small") if getattr(block, name)]
            kind = f' class="{" ".join(names)}"' if names else ""
            return f"<p{kind}>{_text(block.text)}</p>"
        case Bullets():
            return "\n".join(["<ul>", *(f"<li>{_text(i)}</li>" for i in block.items), "</ul>"])
        case Patches():
            return _patches(block)
        case Grid():
            return _grid(block, heading)


def _patches(block: Patches) -> str:
    count = len(block.patches)
    size = {1: "one", 2: "two", 3: "few", 4: "few", 5: "few", 6: "few"}.get(count, "many")
    figures = [_figure(lab, caption) for lab, caption in block.patches]
    outside = any(not on_screen(lab).in_gamut for lab, _ in block.patches)
    return "\n".join(
        [
            f'<div class="patch-block{" long" if count > _LONG else ""}">',
            f'<div class="patches {size}">',
            *figures,
            "</div>",
            *([f'<p class="small">{_text(OUTSIDE)}</p>'] if outside else []),
            "</div>",
        ]
    )


def _figure(lab: Lab, caption: str) -> str:
    shown = on_screen(lab)
    colours = f"--srgb: {shown.hex}; --lab: lab({lab.lightness:.2f}% {lab.a:.2f} {lab.b:.2f})"
    kind = "colour" if shown.in_gamut else "colour outside"
    return (
        f'<figure><div class="ground"><div class="{kind}" role="img" aria-label="colour patch" '
        f'style="{colours}"></div></div><figcaption>{_text(marked(lab, caption))}</figcaption>'
        "</figure>"
    )


def _grid(grid: Grid, heading: str) -> str:
    """A table; roles stand beside the tags, as a phone's stacked rows would hide them."""
    kinds = [' class="number"' if i in grid.numbers else "" for i in range(len(grid.columns))]
    labels = [_text(column) for column in grid.columns]
    heads = [
        f'<th scope="col" role="columnheader"{kind}>{label}</th>'
        for kind, label in zip(kinds, labels, strict=True)
    ]
    classes = ["table"]
    classes += ["stack" if len(labels) > _NARROW else "pair"]
    classes += ["long"] if len(grid.rows) > _LONG else []
    lines = [
        f'<div class="{" ".join(classes)}">',
        f'<table role="table" aria-labelledby="{heading}">',
        "<colgroup>",
        *(f'<col style="width: {100 * share:.2f}%">' for share in column_shares(grid)),
        "</colgroup>",
        f'<thead role="rowgroup"><tr role="row">{"".join(heads)}</tr></thead>',
        '<tbody role="rowgroup">',
    ]
    for row in grid.rows:
        cells = (
            f'<td role="cell" data-label="{label}"{kind}>{_text(cell)}</td>'
            for cell, label, kind in zip(row, labels, kinds, strict=True)
        )
        lines.append(f'<tr role="row">{"".join(cells)}</tr>')
    return "\n".join([*lines, "</tbody>", "</table>", "</div>"])


def _text(text: str) -> str:
    return escape(plain(text), quote=True)
