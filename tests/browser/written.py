"""The pages that the studio writes: a new kind is a line here, and is tried like the rest."""

from typing import Final

PAGES: Final[dict[str, tuple[str, ...]]] = {
    "swatch book": ("swatch", "book", "--html"),
    "swatch book by value": ("swatch", "book", "--by", "value", "--html"),
    "caution sheet": ("care", "sheet", "--html"),
    "paint card": ("paint", "card", "FU", "--html"),
    "paint cards": ("paint", "card", "--all", "--html"),
    "shopping list": ("stock", "reorder", "--html"),
    "plan sheet": ("painting", "plan", "P2", "--html"),
    "handout of a class": ("painting", "class", "P2", "--students", "8", "--html"),
    "mixing chart": ("mix", "chart", "FU", "BS", "--html"),
    "chart of pairs": ("mix", "chart", "--only", "YO,BS,FU,CB", "--html"),
    "colour plane": ("swatch", "plane", "--target", "#767d63", "--html"),
    "spectra": ("swatch", "spectra", "S1", "S74", "S112", "--html"),
    "fade tests": ("fade", "report", "--html"),
    "trust": ("trust", "--html"),
    "record of a painting": ("painting", "record", "P1", "--html"),
}
"""For each the words after `studio`, in the demo studio; the name of the file follows them."""
