"""A page as one HTML file: for a phone, for a screen and for paper, in greys alone."""

from typing import Final

from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets.blocks import (
    Bullets,
    Chip,
    Chips,
    CrossedOut,
    Grid,
    Heading,
    Illustration,
    NewSheet,
    Page,
    Paragraph,
    Patches,
    Steps,
)
from studio.sheets.page_html_steps import illustration_html, steps_html
from studio.sheets.page_layout import LaidOut, Run, lay_out, paper_of, runs_of
from studio.sheets.page_parts import (
    OUTSIDE,
    WIDE,
    Paper,
    cell_lines,
    column_shares,
    marked,
    plain,
)
from studio.sheets.page_pen import Estimate
from studio.sheets.page_shell import colour_kind, colours, patch_html, whole_file
from studio.sheets.page_shell import html_text as _text

_LONG: Final = 20
"""A table with more rows than this may be cut between them when printed."""

_NARROW: Final = 2
"""A table with more columns than this stands in stacked rows on a phone."""

_SLIM: Final = 34
"""But not where its columns are so many characters wide together, which a phone has room for."""

_ROOM: Final = 0.96
"""Share of a sheet that what is to stand on one may fill by estimate, as typefaces differ."""


def html_of(page: Page) -> str:
    """A page as the text of one HTML file that needs no other.

    What is to stand on one printed sheet is given the scale of its type for that; the typeface is
    the reader's, so it is an estimate on the careful side.
    """
    laid = lay_out(page, Estimate(plain), room=_ROOM)
    body = _Body(paper_of(page))
    for number, (run, fitted) in enumerate(zip(runs_of(page), laid, strict=True)):
        body.add(run, fitted, page if number == 0 else None)
    return whole_file(
        page.title,
        body.lines,
        foot=page.foot,
        notice=page.notice,
        kind="wide" if page.wide else "",
        pictures=any(isinstance(block, Illustration) for block in page.blocks),
    )


class _Body:
    """The runs of a page, each with its sections."""

    def __init__(self, paper: Paper) -> None:
        self.lines: list[str] = []
        self._paper = paper
        self._sections = 0

    def add(self, run: Run, fitted: LaidOut, page: Page | None) -> None:
        """A run on a new printed sheet; the first has the title of its page."""
        kind = "run fits" if run.fits else "run"
        style = f' style="--scale: {fitted.scale:.4f}"' if run.fits else ""
        self.lines.append(f'<div class="{kind}"{style}>')
        heading, inside = "title", False
        if page is not None:
            self.lines.append(f'<h1 id="title">{_text(page.title)}</h1>')
            self.lines.append(f'<p class="lead">{_text(page.lead)}</p>')
        for block in run.blocks:
            if isinstance(block, Heading):
                self.lines += ["</section>"] if inside else []
                inside = True
                self._sections += 1
                heading = f"section-{self._sections}"
                self.lines.append(f'<section aria-labelledby="{heading}">')
                self.lines.append(f'<h2 id="{heading}">{_text(block.text)}</h2>')
            elif not isinstance(block, NewSheet):
                self.lines.append(_block(block, heading, self._paper, fitted.scale))
        self.lines += ["</section>"] if inside else []
        self.lines.append("</div>")


def _block(
    block: Paragraph | Bullets | Patches | Grid | Chips | Illustration | Steps,
    heading: str,
    paper: Paper,
    scale: float,
) -> str:
    match block:
        case Illustration():
            return illustration_html(block)
        case Steps():
            return steps_html(block)
        case Patches():
            return _patches(block)
        case Grid():
            return _grid(
                block, heading, column_shares(block, paper, scale if paper is WIDE else 1.0)
            )
        case _:
            return _texts(block)


def _texts(block: Paragraph | Bullets | Chips) -> str:
    match block:
        case Paragraph():
            names = [name for name in ("strong", "small") if getattr(block, name)]
            kind = f' class="{" ".join(names)}"' if names else ""
            return f"<p{kind}>{_text(block.text)}</p>"
        case Bullets():
            return "\n".join(["<ul>", *(f"<li>{_text(i)}</li>" for i in block.items), "</ul>"])
        case Chips():
            items = (f"<li>{_chip(lab, text)}</li>" for lab, text in block.items)
            return "\n".join(['<ul class="chips">', *items, "</ul>"])


def _patches(block: Patches) -> str:
    count = len(block.patches)
    sizes = {1: "one", 2: "two", 3: "few", 4: "few", 5: "few", 6: "few"}
    size = "many" if block.many else sizes.get(count, "many")
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


def _figure(lab: Lab, caption: str | tuple[str, ...]) -> str:
    first, *others = map(_text, marked(lab, caption))
    lines = "<br>".join([f"<b>{first}</b>", *others]) if others else first
    return f"<figure>{patch_html(lab, 'colour patch')}<figcaption>{lines}</figcaption></figure>"


def _grid(grid: Grid, heading: str, shares: tuple[float, ...]) -> str:
    """A table; roles stand beside the tags, as a phone's stacked rows would hide them."""
    kinds = [' class="number"' if i in grid.numbers else "" for i in range(len(grid.columns))]
    labels = [_text(column) for column in grid.columns]
    heads = [
        f'<th scope="col" role="columnheader"{kind}>{label}</th>'
        for kind, label in zip(kinds, labels, strict=True)
    ]
    classes = ["table"]
    few = "pair" if len(labels) <= _NARROW else "slim"
    classes += [few if few == "pair" or _characters(grid) <= _SLIM else "stack"]
    classes += ["long"] if len(grid.rows) > _LONG else []
    lines = [
        f'<div class="{" ".join(classes)}">',
        f'<table role="table" aria-labelledby="{heading}">',
        "<colgroup>",
        *(f'<col style="width: {100 * share:.2f}%">' for share in shares),
        "</colgroup>",
        f'<thead role="rowgroup"><tr role="row">{"".join(heads)}</tr></thead>',
        '<tbody role="rowgroup">',
    ]
    for index, row in enumerate(grid.rows):
        following = _following(grid, index)
        joined = index in grid.joined
        cells = []
        for at, (label, kind) in enumerate(zip(labels, kinds, strict=True)):
            if joined and _is_spanned(grid, index, at):
                continue
            rows = 0 if joined else _spanned(grid, index, at, following)
            span = f' rowspan="{rows + 1}"' if rows else ""
            text = _chips(grid, index) if grid.chips and at == 0 else _text(row[at])
            cells.append(f'<td role="cell" data-label="{label}"{kind}{span}>{text}</td>')
        names = [*(["goes-on"] if following else []), *(["joined"] if joined else [])]
        kind = f' class="{" ".join(names)}"' if names else ""
        lines.append(f'<tr role="row"{kind}>{"".join(cells)}</tr>')
    return "\n".join([*lines, "</tbody>", "</table>", "</div>"])


def _characters(grid: Grid) -> int:
    """How many characters the columns of a table take side by side; a small patch takes four."""
    columns = zip(grid.columns, *grid.rows, strict=True)
    widths = (max(len(line) for text in column for line in text.split("\n")) for column in columns)
    return sum(widths) + (4 if grid.chips else 0)


def _following(grid: Grid, index: int) -> int:
    """How many rows go on with a row."""
    count = 0
    while index + count + 1 in grid.joined:
        count += 1
    return count


def _spanned(grid: Grid, index: int, column: int, following: int) -> int:
    """How many rows below a cell reaches over: all that go on with its row, if empty there."""
    below = grid.rows[index + 1 : index + 1 + following]
    return following if not any(row[column] for row in below) and grid.rows[index][column] else 0


def _is_spanned(grid: Grid, index: int, column: int) -> bool:
    """Whether a cell of a joined row lies under one that reaches over it."""
    first = index
    while first in grid.joined:
        first -= 1
    return _spanned(grid, first, column, _following(grid, first)) > 0


def _chips(grid: Grid, index: int) -> str:
    """The lines of a first cell, each with its small patch."""
    lines = "".join(_chip(lab, text) for lab, text in cell_lines(grid, index))
    return f"<div>{lines}</div>" if lines else ""


def _chip(shown: Chip, text: str) -> str:
    """A text behind its small patch, which says nothing by itself unless it is crossed out."""
    chip = '<span class="chip"></span>'
    if isinstance(shown, CrossedOut):
        label = _text(shown.label)
        chip = f'<span class="chip crossed" role="img" aria-label="{label}"></span>'
    elif shown is not None:
        chip = f'<span class="chip {colour_kind(shown)}" style="{colours(shown)}"></span>'
    return f'<span class="line">{chip}<span>{_text(text)}</span></span>'
