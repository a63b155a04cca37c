"""Where everything of a page stands on its sheets, in the largest type that it may be set in."""

from dataclasses import dataclass

from studio.sheets import page_type as t
from studio.sheets.blocks import Block, NewSheet, Page
from studio.sheets.page_parts import UPRIGHT, WIDE, Paper
from studio.sheets.page_pen import Pen, wrapped
from studio.sheets.page_plan import Sheet, plan
from studio.sheets.page_setter import Setter


@dataclass(frozen=True, slots=True)
class Run:
    """What stands between two new sheets.

    Args:
        blocks: what it holds.
        fits: whether it is to stand on one sheet.
    """

    blocks: tuple[Block, ...]
    fits: bool


@dataclass(frozen=True, slots=True)
class LaidOut:
    """A run on its sheets.

    Args:
        sheets: its pieces, ready to draw.
        scale: the scale of its type.
        too_long: it was to stand on one sheet and does not.
    """

    sheets: list[Sheet]
    scale: float
    too_long: bool


def paper_of(page: Page) -> Paper:
    """The sheet a page is printed on."""
    return WIDE if page.wide else UPRIGHT


def runs_of(page: Page) -> list[Run]:
    """A page parted at its new sheets; never empty."""
    runs: list[Run] = []
    held: list[Block] = []
    fits = page.fits
    for block in page.blocks:
        if isinstance(block, NewSheet):
            runs.append(Run(tuple(held), fits))
            held, fits = [], block.fits
        else:
            held.append(block)
    return [*runs, Run(tuple(held), fits)]


def lay_out(page: Page, pen: Pen, room: float = 1.0) -> list[LaidOut]:
    """Every run of a page on its sheets, in the largest type that it may be set in.

    `room` is the share of a sheet's text that may be filled.
    """
    paper = paper_of(page)
    height = paper.height - paper.margin - paper.bottom - notice_height(page, pen)
    laid: list[LaidOut] = []
    for number, run in enumerate(runs_of(page)):
        sheets: list[Sheet] = []
        scale = 1.0
        for scale in t.SCALES if run.fits else (1.0,):
            setter = Setter(pen, paper, scale, close=run.fits)
            parts = setter.head(page) if number == 0 else []
            sheets = plan(
                [*parts, *map(setter.part, run.blocks)], height * room, whole=not run.fits
            )
            if len(sheets) == 1:
                break
        laid.append(LaidOut(sheets, scale, run.fits and len(sheets) > 1))
    return laid


def notice_lines(page: Page, pen: Pen) -> list[str]:
    """The notice at the top of every sheet, in lines."""
    if not page.notice:
        return []
    return wrapped(pen, page.notice, t.NOTICE, paper_of(page).text_width)


def notice_height(page: Page, pen: Pen) -> float:
    """The height of the notice (mm) with the rule and the space under it."""
    lines = len(notice_lines(page, pen))
    return lines * t.NOTICE.line + 5.0 if lines else 0.0
