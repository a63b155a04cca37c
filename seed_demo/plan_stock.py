"""The demo's stock book: what was bought, opened, used, weighed, lent and thrown away."""

from collections.abc import Callable, Iterator
from datetime import date, timedelta
from functools import partial
from typing import Final

from seed_demo.plan_shelf import Planned, shelf
from seed_demo.stock_hand import Hand, Row

STOCK_FIELDS: Final = [
    "item",
    "container",
    "kind",
    "amount",
    "unit",
    "weight_g",
    "weighed_as",
    "estimated",
    "other",
    "container_kind",
    "capacity",
    "happened_on",
    "price",
    "currency",
    "lot",
    "note",
]

PERIODS: Final = (
    ("2024-12-29", 0.6, "winter in the studio"),
    ("2025-02-23", 0.7, "winter in the studio"),
    ("2025-04-27", 1.1, "spring class and paintings"),
    ("2025-06-29", 1.1, "early summer by the creeks"),
    ("2025-08-31", 1.4, "summer on the foreshore"),
    ("2025-10-26", 1.1, "autumn class and paintings"),
    ("2025-12-28", 0.6, "winter in the studio"),
    ("2026-02-22", 0.7, "winter in the studio"),
    ("2026-04-26", 1.1, "spring class and paintings"),
    ("2026-06-28", 1.1, "early summer by the creeks"),
    ("2026-08-30", 1.4, "summer on the foreshore"),
    ("2026-10-25", 1.1, "autumn class and paintings"),
)
"""Last day of each two months, how busy they were, and with what."""

# ml, sheets or mm used in two months of average work
_USE: Final = {
    "FU": 2.3, "BS": 1.97, "RS": 1.55, "YO": 0.93, "RU": 0.84, "BU": 0.82, "CB": 2.5, "CE": 1.5,
    "PBG": 0.68, "PGB": 0.7, "AC": 0.7, "QM": 0.7, "PYR": 1.5, "CR": 0.6, "HY": 1.21, "GG": 1.8,
    "DV": 0.125, "COG": 0.68, "LR": 1.25, "IB": 1.16, "PYG": 0.22, "SG": 1.4, "BT": 1.9,
    "TW": 1.3, "ECP": 1.85, "EHP": 0.68, "CRO": 1.2, "HSR": 560,
}  # fmt: skip

_VARIED: Final = (1.0, 0.9, 1.1, 0.95, 1.05)
"""No two months are alike."""

_WEIGHED: Final = frozenset({"FU", "BS", "RS", "CB", "CE", "PYR", "GG", "SG", "BT", "IB"})
"""Paints whose tubes are put on the scale every two months."""

_CLASS: Final = frozenset({"FU", "BS", "YO", "HY", "PBG", "QM", "LR"})
"""Paints of the autumn class, where nobody measures; half of what goes then is guessed."""

# container | day | kind | amount (of a correction: more or less than the book) | note
_SINGLE: Final = """
YO-1|2025-06-07|discarded|0.3|dried in the neck of the tube
ECP-1|2025-01-18|discarded|1|buckled in the damp
LR-2|2026-03-14|lent||to a student of the spring class
LR-2|2026-05-09|returned||
RU-2|2026-09-19|lent||to a neighbour at the moorings
TW-1|2025-12-28|corrected|-0.4|by the marks on the jar
ECP-2|2025-12-28|corrected|-1|sheets counted
YO-1|2025-12-28|corrected|-0.2|tubes sorted
HY-1|2025-12-28|corrected|0.1|tubes sorted
PBG-1|2025-12-28|corrected|-0.2|tubes sorted
QM-1|2025-12-28|corrected|0.2|tubes sorted
LR-1|2025-12-28|corrected|-0.1|tubes sorted
CR-1|2026-03-08|discarded||retired, taken to the hazardous waste
"""

_RETIRED: Final = "CR"
_RETIRED_ON: Final = "2026-03-08"

# The travelling box: paint | used by the end of each summer stretch; it is filled up a week later
_BOX: Final = {"FU": (1.0, 1.3, 0.9, 1.2), "BS": (0.8, 1.1, 0.9, 1.0), "CB": (1.1, 1.2, 1.0, 1.3),
               "RS": (1.4, 2.0, 1.5, 1.8)}  # fmt: skip
_BOX_DAYS: Final = (
    ("2025-06-28", "2025-07-06"),
    ("2025-08-30", "2025-09-07"),
    ("2026-06-27", "2026-07-05"),
    ("2026-08-29", ""),
)

_FIRST_OPENED: Final = "2024-11-04"

_SHARES: Final = (0.34, 0.38, 0.28)
"""Of two months' use: booked at the easel after three weeks, after six, and told by the scale."""

_CLASS_DAYS: Final = ("2025-10-11", "2026-10-10")
_CLASS_SHARE: Final = 0.5

Happening = tuple[str, Callable[[str], None]]
"""A day, and what is done on it."""


def stock_book() -> list[Row]:
    """The rows of stock.csv by day; of one day by item, in the order of the shelf."""
    rows: list[Row] = []
    for item, containers in shelf().items():
        hand = Hand(by_weight=item in _WEIGHED)
        for day, happen in sorted(_happenings(hand, item, containers), key=lambda pair: pair[0]):
            happen(day)
        rows += hand.rows
    return sorted(rows, key=lambda row: row["happened_on"])


def _happenings(hand: Hand, item: str, containers: list[Planned]) -> Iterator[Happening]:
    for planned in containers:
        yield planned.bought_on, partial(hand.buy, planned=planned)
    yield max(_FIRST_OPENED, containers[0].bought_on), partial(hand.open, code=containers[0].code)
    for line in _SINGLE.strip().splitlines():
        code, day, kind, amount, note = line.split("|")
        if code.rpartition("-")[0] == item:
            yield day, partial(hand.single, code=code, kind=kind, amount=amount, note=note)
    for pan in (each for each in containers if item in _BOX and each.kind.endswith("pan")):
        for used, (home, filled) in zip(_BOX[item], _BOX_DAYS, strict=True):
            yield home, partial(hand.use_pan, code=pan.code, amount=used)
            if filled:
                yield filled, partial(hand.fill, code=pan.code)
    yield from _periods(hand, item, containers[0].bought_on)


def _periods(hand: Hand, item: str, first: str) -> Iterator[Happening]:
    start = _FIRST_OPENED
    for number, (end, busy, note) in enumerate(PERIODS):
        amount = _USE[item] * busy * _VARIED[(number + ord(item[0])) % len(_VARIED)]
        if first < end and (item != _RETIRED or end < _RETIRED_ON):
            for day, share in _easel_days(item, start, end):
                guessed = day in _CLASS_DAYS and item in _CLASS
                said = "autumn class, guessed" if guessed else note
                yield day, partial(hand.use, amount=amount * share, note=said, estimated=guessed)
                amount -= amount * share if guessed else 0.0
            if item in _WEIGHED:
                yield end, partial(hand.spend, amount=amount * _SHARES[-1])
                yield end, hand.weigh
        start = end


def _easel_days(item: str, start: str, end: str) -> Iterator[tuple[str, float]]:
    """When use is booked, and which share of the two months' use each time."""
    class_day = next((day for day in _CLASS_DAYS if start < day <= end), None)
    if class_day is not None and item in _CLASS:
        yield class_day, _CLASS_SHARE
        start = class_day
    if item not in _WEIGHED:
        yield end, 1.0
    elif start == class_day:
        yield end, _SHARES[0] + _SHARES[1]
    else:
        first = date.fromisoformat(start)
        yield (first + timedelta(days=20)).isoformat(), _SHARES[0]
        yield (first + timedelta(days=41)).isoformat(), _SHARES[1]
