"""The demo's containers: when each was bought, what it weighs, what happened to it by plan."""

from dataclasses import dataclass
from typing import Final

from seed_demo.plan_paints import PAINTS

# item | day and lot of each container; one that is not of the item's usual kind says which
_BOUGHT: Final = """
FU|2024-11-02 P24-102|2025-03-22 T25-011 half pan|2025-06-14 P25-117|2026-05-09 P26-118
BS|2024-11-02 P24-098|2025-03-22 T25-012 half pan|2026-01-10 P26-044
RS|2024-11-02 P24-081|2025-03-22 T25-013 pan|2025-10-11 P25-201
YO|2024-11-02 P24-090
RU|2024-11-02 P24-066|2025-05-17 P25-072
BU|2024-11-02 P24-131
CB|2024-11-02 P24-120|2025-03-22 T25-014 half pan|2025-07-05 P25-098|2026-02-21 P26-009
CE|2024-11-02 P24-144|2025-09-13 P25-166
PBG|2024-11-02 B4471
PGB|2024-11-02 B4386
AC|2024-11-02 P24-155
QM|2024-11-02 B4502
PYR|2024-11-02 B4433|2026-03-07 B4610
CR|2024-11-02 P24-060
HY|2024-11-02 B4390
GG|2024-11-02 B4402|2025-07-05 B4555
DV|2024-11-02 O-311
COG|2024-11-02 B4418
LR|2024-11-02 P24-070|2025-04-12 P25-033
IB|2024-11-02 B4523
PYG|2024-11-02 O-298|2025-09-13 O-350
SG|2024-11-02 B4401|2025-10-11 B4477
BT|2024-11-02 B4460|2025-09-13 B4581
TW|2024-11-02 P24-177
ECP|2024-11-02 -|2025-05-17 -|2026-03-07 -
EHP|2024-11-02 -|2025-10-11 -
CRO|2024-11-02 -|2025-09-13 - block
HSR|2025-02-08 -
"""

_PAPER: Final[dict[str, tuple[str, str, float, float]]] = {
    "ECP": ("loose sheets", "sheets", 10, 74.00),
    "EHP": ("loose sheets", "sheets", 5, 39.50),
    "CRO": ("loose sheets", "sheets", 10, 46.00),
    "HSR": ("roll", "mm", 10_000, 128.00),
}
"""Kind, unit, what one holds and its price."""

_PANS: Final[dict[str, tuple[float, float]]] = {"half pan": (1.8, 4.20), "pan": (3.5, 6.90)}
"""What the pans of the travelling box hold, ml, and their price."""

_YEARLY_RISE: Final = 1.04

DENSITY: Final = {
    "FU": 1.46, "BS": 1.62, "RS": 1.60, "YO": 1.66, "RU": 1.64, "BU": 1.63, "CB": 1.74, "CE": 1.78,
    "PBG": 1.32, "PGB": 1.33, "AC": 1.31, "QM": 1.30, "PYR": 1.36, "CR": 1.80, "HY": 1.35,
    "GG": 1.33, "DV": 1.32, "COG": 1.76, "LR": 1.70, "IB": 1.34, "PYG": 1.44, "SG": 1.35,
    "BT": 1.66, "TW": 1.72,
}  # fmt: skip
"""What the paints weigh, g/ml: invented, organic ones light, earths, cobalt and cadmium heavy."""

_EMPTY: Final = {"tube": 4.7, "jar": 38.4, "half pan": 1.3, "pan": 2.1}
_EMPTY_SPREAD: Final = (0.0, 0.1, -0.1)
"""Weight of an empty container, g, and by how much one differs from the next."""


@dataclass(frozen=True, slots=True)
class Planned:
    """A container as it really is.

    Args:
        item: paint or paper.
        code: item and number.
        kind: tube, half pan, …
        unit: ml, sheets or mm.
        holds: what a full one holds.
        bought_on: the day.
        price: of one.
        lot: batch number, empty where there is none.
        empty_g: weight of the empty container; 0 for paper.
        density: of the paint, g/ml; 0 for paper.
    """

    item: str
    code: str
    kind: str
    unit: str
    holds: float
    bought_on: str
    price: float
    lot: str
    empty_g: float = 0.0
    density: float = 0.0

    def weight(self, left: float) -> float:
        """What a scale of 0.1 g shows with so much in it."""
        return round(self.empty_g + self.density * left, 1)


def shelf() -> dict[str, list[Planned]]:
    """The containers of each item in the order they were bought."""
    return {
        item: [_planned(item, number, text) for number, text in enumerate(bought, start=1)]
        for item, *bought in (line.split("|") for line in _BOUGHT.strip().splitlines())
    }


def _planned(item: str, number: int, text: str) -> Planned:
    day, lot, *kinds = text.split(" ", 2)
    rise = _YEARLY_RISE ** (int(day[:4]) - 2024)
    if item in _PAPER:
        kind, unit, holds, price = _PAPER[item]
        return Planned(
            item, f"{item}-{number}", kinds[0] if kinds else kind, unit, holds, day,
            round(price * rise, 1), "",
        )  # fmt: skip
    paint = next(paint for paint in PAINTS if paint["code"] == item)
    kind, holds, price = paint["form"], float(paint["volume_ml"]), float(paint["price"])
    if kinds:
        kind, (holds, price) = kinds[0], _PANS[kinds[0]]
    return Planned(
        item, f"{item}-{number}", kind, "ml", holds, day, round(price * rise, 1), lot,
        empty_g=_EMPTY[kind] + _EMPTY_SPREAD[number % len(_EMPTY_SPREAD)],
        density=DENSITY[item],
    )  # fmt: skip
