"""The demo's stock book: what was bought, used, weighed and thrown away in two years."""

from typing import Final

from seed_demo.plan_paints import PAINTS

STOCK_FIELDS: Final = [
    "item",
    "kind",
    "amount",
    "unit",
    "happened_on",
    "price",
    "currency",
    "lot",
    "note",
]

# item | day and lot of each purchase
_BOUGHT: Final = """
FU|2024-11-02 P24-102|2025-06-14 P25-117|2026-05-09 P26-118
BS|2024-11-02 P24-098|2026-01-10 P26-044
RS|2024-11-02 P24-081|2025-10-11 P25-201
YO|2024-11-02 P24-090
RU|2024-11-02 P24-066|2025-05-17 P25-072
BU|2024-11-02 P24-131
CB|2024-11-02 P24-120|2025-07-05 P25-098|2026-02-21 P26-009
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
ECP|2024-11-02 |2025-05-17 |2026-03-07
EHP|2024-11-02 |2025-10-11
CRO|2024-11-02 |2025-09-13
"""

_PAPER_PURCHASE: Final = {"ECP": (10, 74.00), "EHP": (5, 39.50), "CRO": (10, 46.00)}
"""Sheets and price of one purchase."""

# ml or sheets used in a quarter of average work
_USE: Final = {
    "FU": 3.6, "BS": 3.0, "RS": 2.4, "YO": 1.4, "RU": 2.0, "BU": 1.2, "CB": 3.8, "CE": 2.2,
    "PBG": 0.9, "PGB": 0.7, "AC": 0.6, "QM": 1.0, "PYR": 1.7, "CR": 1.0, "HY": 1.71, "GG": 2.6,
    "DV": 0.18, "COG": 0.8, "LR": 1.5, "IB": 1.5, "PYG": 0.3, "SG": 1.9, "BT": 2.6, "TW": 1.5,
    "ECP": 3.0, "EHP": 1.0, "CRO": 1.8,
}  # fmt: skip

_QUARTERS: Final = (
    ("2025-01-26", 0.7, "winter in the studio"),
    ("2025-04-27", 1.0, "spring class and paintings"),
    ("2025-07-27", 1.4, "summer on the foreshore"),
    ("2025-10-26", 1.1, "autumn class and paintings"),
    ("2026-01-25", 0.7, "winter in the studio"),
    ("2026-04-26", 1.0, "spring class and paintings"),
    ("2026-07-26", 1.4, "summer on the foreshore"),
    ("2026-10-25", 1.1, "autumn class and paintings"),
)

_WEIGHED_ON: Final = "2025-12-28"
_WEIGHED: Final = ("FU", "BS", "RS", "CB", "CE", "HY", "GG", "IB", "BT", "TW")
_SPREAD: Final = (-0.3, 0.2, -0.1, 0.3, -0.2)
"""By how many ml the scales corrected the book, in turn."""

_RETIRED_ON: Final = "2026-03-08"
_RETIRED: Final = "CR"

_YEARLY_RISE: Final = 1.04

Row = dict[str, str]


def stock_book() -> list[Row]:
    """The rows of stock.csv by date; of one day by item, in the order of the lists above."""
    rows = [row for line in _BOUGHT.strip().splitlines() for row in _item(*line.split("|"))]
    return sorted(rows, key=lambda row: row["happened_on"])


def _item(item: str, *purchases: str) -> list[Row]:
    unit = "sheets" if item in _PAPER_PURCHASE else "ml"
    events: list[tuple[str, str, float, str]] = []
    for purchase in purchases:
        day, _, lot = purchase.partition(" ")
        events.append((day, "bought", 0.0, lot.strip()))
    for day, season, note in _QUARTERS:
        if item != _RETIRED or day < _RETIRED_ON:
            events.append((day, "used", _USE[item] * season, note))
    if item in _WEIGHED:
        correction = _SPREAD[_WEIGHED.index(item) % len(_SPREAD)]
        events.append((_WEIGHED_ON, "counted", correction, "tube weighed"))
    if item == _RETIRED:
        events.append((_RETIRED_ON, "discarded", 0.0, "retired, taken to the hazardous waste"))

    rows, left = [], 0.0
    for day, kind, number, text in sorted(events, key=lambda event: event[0]):
        row = dict.fromkeys(STOCK_FIELDS, "") | {"item": item, "kind": kind, "unit": unit}
        if kind == "bought":
            amount, price = _purchase(item, day)
            left += amount
            row |= {"price": f"{price:.2f}", "currency": "GBP", "lot": text}
        else:
            amount = left if kind == "discarded" else number + (left if kind == "counted" else 0)
            amount = float(round(amount)) if unit == "sheets" else round(amount, 1)
            left = amount if kind == "counted" else left - amount
            row["note"] = text
        row |= {"amount": f"{amount:g}", "happened_on": day}
        rows.append(row)
    return rows


def _purchase(item: str, day: str) -> tuple[float, float]:
    """Amount and price; prices rise once a year."""
    rise = _YEARLY_RISE ** (int(day[:4]) - 2024)
    if item in _PAPER_PURCHASE:
        sheets, price = _PAPER_PURCHASE[item]
        return sheets, round(price * rise, 1)
    paint = next(paint for paint in PAINTS if paint["code"] == item)
    return float(paint["volume_ml"]), round(float(paint["price"]) * rise, 1)
