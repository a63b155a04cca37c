"""What a printed page is made of: the same blocks become HTML and PDF."""

from dataclasses import dataclass, field
from datetime import date
from typing import Final

from studio.colour.lab import Lab

_SIGNATURES: Final = {b"\x89PNG\r\n\x1a\n": "image/png", b"\xff\xd8\xff": "image/jpeg"}
"""How files of the two kinds begin (PNG, section 5.2; JPEG, ISO/IEC 10918-1, B.1.1.3)."""


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading of a section."""

    text: str


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph; `strong` for what must not be missed, `small` for sources and remarks."""

    text: str
    strong: bool = False
    small: bool = False


@dataclass(frozen=True, slots=True)
class Bullets:
    """A list of short points."""

    items: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Patches:
    """Colour patches side by side, each with a caption; large, on neutral ground.

    Args:
        patches: colours with their captions; a caption of several texts has each on a line of its
            own, the first in bold.
        many: a part of many: in their size, and going on from sheet to sheet; else their number
            decides.
    """

    patches: tuple[tuple[Lab, str | tuple[str, ...]], ...]
    many: bool = False


@dataclass(frozen=True, slots=True)
class CrossedOut:
    """Stands where a small patch would, of a colour that is too uncertain to be shown.

    Args:
        label: what is to be known of it, for who cannot see the cross.
    """

    label: str


Chip = Lab | CrossedOut | None
"""What stands before a line: a small patch, one that is crossed out, or nothing."""


@dataclass(frozen=True, slots=True)
class Grid:
    r"""A table.

    Args:
        columns: headings.
        rows: cells, as many as there are columns.
        widths: relative widths of the columns; equal when empty.
        numbers: indexes of columns that are flush right.
        joined: indexes of rows that go on with the row above: no line between, never parted.
        chips: the small patches before the lines of the first cell of each row, one a line; the
            lines are parted by `\n`. Empty: no patches.
    """

    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    widths: tuple[float, ...] = ()
    numbers: frozenset[int] = field(default_factory=frozenset)
    joined: frozenset[int] = field(default_factory=frozenset)
    chips: tuple[tuple[Chip, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class Chips:
    """Short texts side by side, each with a small patch before it, None where there is none."""

    items: tuple[tuple[Lab | None, str], ...]


@dataclass(frozen=True, slots=True)
class Illustration:
    """A picture across the page.

    Args:
        file: the file, JPEG or PNG, in sRGB.
        width: pixels.
        height: pixels.
        instead: what it shows, for who cannot see it.
        caption: what stands under it.
        least: the width (CSS pixels, 96 an inch) that its type is read at; on a narrower screen
            it is moved sideways. 0: it is as narrow as the screen.
    """

    file: bytes
    width: int
    height: int
    instead: str
    caption: str
    least: int = 0

    @property
    def media_type(self) -> str:
        """What the file is by its first bytes.

        Raises:
            ValueError: it is neither.
        """
        for signature, name in _SIGNATURES.items():
            if self.file.startswith(signature):
                return name
        msg = "an illustration is a JPEG or a PNG"
        raise ValueError(msg)


@dataclass(frozen=True, slots=True)
class Held:
    """Two colours with a common edge, as an offcut is held against the reference.

    Args:
        wanted: the left one.
        mixed: the right one; None leaves its half empty, struck through.
        wanted_caption: under the left one.
        mixed_caption: under the right one.
        lines: what is to be known of them.
    """

    wanted: Lab
    mixed: Lab | None
    wanted_caption: str
    mixed_caption: str
    lines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Step:
    """What is done in one go.

    Args:
        title: its number and name.
        lead: how it is done, under the title.
        held: its colours.
        lines: what is to be known of all of it.
    """

    title: str
    lead: str
    held: tuple[Held, ...] = ()
    lines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Steps:
    """Steps in working order, two side by side where there is room; none is cut."""

    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class NewSheet:
    """What follows begins on a sheet of its own.

    Args:
        fits: it is set in the largest type that lets it stand on one sheet, down to a floor.
    """

    fits: bool = False


Block = Heading | Paragraph | Bullets | Patches | Grid | Chips | Illustration | Steps | NewSheet


@dataclass(frozen=True, slots=True)
class Page:
    """A printed page.

    Args:
        title: its heading.
        lead: one line under it, such as the day and whose studio it is.
        blocks: what it holds.
        foot: what stands at the bottom of every sheet.
        notice: what must not be missed: at the top of every sheet, in full and never small.
        day: the day it was made, the date of its PDF.
        wide: printed across the sheet.
        fits: what stands before the first `NewSheet` is set in the largest type that lets it
            stand on one sheet, down to a floor.
    """

    title: str
    lead: str
    blocks: tuple[Block, ...]
    foot: str
    notice: str = ""
    day: date | None = None
    wide: bool = False
    fits: bool = False
