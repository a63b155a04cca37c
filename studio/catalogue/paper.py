"""A paper: maker, fibre, weight, surface, sheet, stock and measured white."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from studio.catalogue.reading import Reading
from studio.catalogue.stock import Stock, Unit

GSM_PER_POUND: Final = 453.59237 / (500 * 0.5588 * 0.762)
"""g/m² of 1 lb paper: 500 sheets of 22 x 30 in weigh the pounds (computed; 1 lb = 453.59237 g)."""


class Surface(StrEnum):
    """How the sheet was pressed."""

    HOT_PRESSED = "hot pressed"
    COLD_PRESSED = "cold pressed"
    ROUGH = "rough"


class Fibre(StrEnum):
    """What the sheet is made of."""

    COTTON = "cotton"
    COTTON_AND_PULP = "cotton and wood pulp"
    PULP = "wood pulp"
    LINEN = "linen"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class PaperFacts:
    """What is known of a paper from its maker.

    Args:
        code: short code.
        maker: who makes it.
        name: what the maker calls it.
        fibre: cotton, wood pulp, …
        weight_gsm: g/m².
        surface: hot pressed, cold pressed or rough.
        sheet_width_mm: shorter or first side of a sheet, mm.
        sheet_height_mm: other side, mm.
        low_at_sheets: sheets left when it counts as low; None for 2.
        low_at_mm: mm of a roll left when it counts as low; None for 1,000.
        note: remarks.
    """

    code: str
    maker: str
    name: str
    fibre: Fibre | None = None
    weight_gsm: float | None = None
    surface: Surface | None = None
    sheet_width_mm: float | None = None
    sheet_height_mm: float | None = None
    low_at_sheets: float | None = None
    low_at_mm: float | None = None
    note: str | None = None

    @property
    def full_name(self) -> str:
        """Maker and name."""
        return f"{self.maker} {self.name}"


@dataclass(frozen=True, slots=True)
class Paper:
    """A recorded paper with its stock and the readings of its white."""

    id: int
    facts: PaperFacts
    stock: Stock
    white: tuple[Reading, ...]

    @property
    def low_at(self) -> float:
        """Sheets (or mm of a roll) at which it counts as low: its own mark, else two (1,000)."""
        if self.stock.unit is Unit.MM:
            return 1000.0 if self.facts.low_at_mm is None else self.facts.low_at_mm
        return 2.0 if self.facts.low_at_sheets is None else self.facts.low_at_sheets

    @property
    def is_low(self) -> bool:
        """Known to have no more left than its threshold."""
        return self.stock.left is not None and self.stock.left <= self.low_at
