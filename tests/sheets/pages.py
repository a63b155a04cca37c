"""Pages to print in tests, and a reader of the HTML they become."""

from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Final

from studio.colour.lab import Lab
from studio.sheets.blocks import Block, Bullets, Chips, Grid, Heading, Page, Paragraph, Patches

MUD: Final = Lab(41.0, 2.0, -12.0)
"""The mud of a creek at low tide, well inside sRGB."""
KELP: Final = Lab(60.0, -90.0, 40.0)
"""A green that no sRGB screen can show."""

HOSTILE: Final = """<script>alert("tide")</script> '&amp;' </style></title> --> {nb} %s \\ é"""
"""What a name might hold that would break a page that took it as it is."""

LONG_WORD: Final = "mudflat" * 120
"""A word wider than any sheet."""

_VOID: Final = frozenset({"br", "col", "img", "input", "meta"})


def page_of(*blocks: Block) -> Page:
    """A page with some blocks."""
    return Page("Sluice paints", "25 Nov 2026", blocks, "Read the label of each tube.")


def page_full_of(text: str) -> Page:
    """A page with a text wherever a page takes one."""
    return Page(
        text,
        text,
        (
            Heading(text),
            Paragraph(text, strong=True),
            Bullets((text, text)),
            Patches(((MUD, text), (KELP, text))),
            Grid((text, "second", "third"), ((text, "1", text),), numbers=frozenset({1})),
            Chips(((MUD, text), (None, text))),
        ),
        text,
        text,
    )


@dataclass
class Element:
    """An element of an HTML file with the texts and elements inside."""

    tag: str
    attributes: dict[str, str]
    inside: list["Element | str"] = field(default_factory=list)

    @property
    def text(self) -> str:
        """All text inside."""
        return "".join(each if isinstance(each, str) else each.text for each in self.inside)

    def all(self, tag: str) -> list["Element"]:
        """Every element of a tag inside, from top to bottom."""
        found = []
        for each in self.inside:
            if isinstance(each, Element):
                found += [each] if each.tag == tag else []
                found += each.all(tag)
        return found

    @property
    def every(self) -> list["Element"]:
        """Every element inside, from top to bottom."""
        inner = [each for each in self.inside if isinstance(each, Element)]
        return [found for each in inner for found in (each, *each.every)]


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.root = Element("", {})
        self.open = [self.root]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert len({name for name, _ in attrs}) == len(attrs)
        element = Element(tag, {name: value or "" for name, value in attrs})
        self.open[-1].inside.append(element)
        if tag not in _VOID:
            self.open.append(element)

    def handle_endtag(self, tag: str) -> None:
        assert self.open[-1].tag == tag
        self.open.pop()

    def handle_data(self, data: str) -> None:
        self.open[-1].inside.append(data)


def read_html(text: str) -> Element:
    """The elements of an HTML file in which every tag is closed in its turn."""
    reader = _Reader()
    reader.feed(text)
    reader.close()
    assert reader.open == [reader.root]
    return reader.root
