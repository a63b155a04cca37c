"""What a printed page is made of: the same blocks become HTML and PDF."""

from dataclasses import dataclass, field

from studio.colour.lab import Lab


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
    """Colour patches side by side, each with a caption; large, on neutral ground."""

    patches: tuple[tuple[Lab, str], ...]


@dataclass(frozen=True, slots=True)
class Grid:
    """A table.

    Args:
        columns: headings.
        rows: cells, as many as there are columns.
        widths: relative widths of the columns; equal when empty.
        numbers: indexes of columns that are flush right.
    """

    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    widths: tuple[float, ...] = ()
    numbers: frozenset[int] = field(default_factory=frozenset)


Block = Heading | Paragraph | Bullets | Patches | Grid


@dataclass(frozen=True, slots=True)
class Page:
    """A printed page.

    Args:
        title: its heading.
        lead: one line under it, such as the day and whose studio it is.
        blocks: what it holds.
        foot: what stands at the bottom of every sheet, such as where to verify.
    """

    title: str
    lead: str
    blocks: tuple[Block, ...]
    foot: str
