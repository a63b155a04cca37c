"""The demo's swatches: which mix was laid on which paper, how and when."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from seed_demo.plan_mixes import MIXES, PASSAGE, TARGET
from seed_demo.plan_paints import PAINTS

FIRST_SESSION: Final = date(2024, 11, 5)
LAST_SESSION: Final = date(2026, 10, 24)
SWATCHES_A_SESSION: Final = 4

Way = tuple[float, int, str, str]

# Water to one part of paint, layers, application, paper; a passage alternates between two rows.
_WAYS: Final[dict[str, tuple[tuple[Way, ...], tuple[Way, ...]]]] = {
    "mud": (
        ((1, 1, "flat wash", "ECP"), (3, 1, "flat wash", "ECP"), (6, 2, "glaze", "ECP")),
        ((1.5, 1, "flat wash", "ECP"), (4, 1, "wet in wet", "ECP"), (2, 1, "dry brush", "CRO")),
    ),
    "hull": (
        ((0.5, 1, "flat wash", "ECP"), (1.5, 1, "dry brush", "CRO"), (4, 2, "glaze", "EHP")),
        ((0.75, 1, "flat wash", "ECP"), (2, 1, "flat wash", "EHP"), (3, 1, "spatter", "ECP")),
    ),
    "water": (
        ((2, 1, "flat wash", "ECP"), (5, 1, "graded wash", "ECP"), (8, 2, "glaze", "EHP")),
        ((1.5, 1, "flat wash", "ECP"), (6, 1, "wet in wet", "ECP"), (4, 3, "glaze", "ECP")),
    ),
    "distance": (
        ((4, 1, "flat wash", "ECP"), (8, 1, "wet in wet", "ECP"), (12, 2, "glaze", "ECP")),
        ((3, 1, "flat wash", "ECP"), (6, 1, "graded wash", "CRO"), (16, 1, "flat wash", "ECP")),
    ),
    "sky": (
        ((6, 1, "graded wash", "ECP"), (10, 1, "wet in wet", "ECP"), (16, 2, "glaze", "ECP")),
        ((4, 1, "wet in wet", "ECP"), (8, 1, "graded wash", "EHP"), (12, 1, "flat wash", "ECP")),
    ),
    "marsh": (
        ((1, 1, "flat wash", "ECP"), (3, 1, "dry brush", "CRO"), (5, 1, "wet in wet", "ECP")),
        ((1.5, 1, "flat wash", "ECP"), (6, 2, "glaze", "ECP"), (2, 1, "spatter", "ECP")),
    ),
    "sand": (
        ((2, 1, "flat wash", "ECP"), (5, 1, "flat wash", "ECP"), (1, 1, "spatter", "CRO")),
        ((1, 1, "flat wash", "ECP"), (4, 1, "wet in wet", "ECP"), (8, 2, "glaze", "EHP")),
    ),
}

# Made last: tint ladders for the classes, and old mixes again on the other papers.
_LATER: Final = (
    ("M1", 0.5, 1, "flat wash", "ECP", "ladder"),
    ("M1", 2, 1, "flat wash", "ECP", "ladder"),
    ("M1", 7, 1, "flat wash", "ECP", "ladder"),
    ("M1", 16, 1, "flat wash", "ECP", "ladder"),
    ("M2", 0.5, 1, "flat wash", "ECP", "ladder"),
    ("M2", 2, 1, "flat wash", "ECP", "ladder"),
    ("M2", 7, 1, "flat wash", "ECP", "ladder"),
    ("M2", 16, 1, "flat wash", "ECP", "ladder"),
    ("M20", 0.5, 1, "flat wash", "ECP", "full strength"),
    ("M17", 0.5, 1, "flat wash", "ECP", "full strength"),
    ("M10", 0.5, 1, "flat wash", "ECP", "full strength"),
    ("M19", 0.5, 1, "flat wash", "CRO", "full strength"),
    ("M25", 1, 1, "flat wash", "ECP", "again with the new tube of FU"),
    ("M25", 1, 1, "flat wash", "EHP", "the same on the smooth paper"),
    ("M25", 1, 1, "flat wash", "CRO", "the same on the rough paper"),
    ("M32", 6, 3, "glaze", "ECP", "three glazes, each dry before the next"),
)


@dataclass(frozen=True, slots=True)
class Swatch:
    """A swatch without its readings; `number` counts from 1 in the order of making."""

    number: int
    mix: str
    paper: str
    water: float
    layers: int
    application: str
    made_on: date
    kept_at: str
    note: str
    target: str


def swatches() -> Iterator[Swatch]:
    """Every swatch of the demo, oldest first."""
    rows = [*_washes(), *_mixtures(), *((*row, "") for row in _LATER)]
    for number, (mix, water, layers, application, paper, note, target) in enumerate(rows, start=1):
        yield Swatch(
            number=number,
            mix=mix,
            paper=paper,
            water=water,
            layers=layers,
            application=application,
            made_on=_session(number, len(rows)),
            kept_at=f"card box {1 + (number - 1) // 80}, row {1 + (number - 1) % 80 // 10}",
            note=note,
            target=target,
        )


Row = tuple[str, float, int, str, str, str, str]


def _washes() -> Iterator[Row]:
    for index in range(len(PAINTS)):
        mix, other = MIXES[index]["code"], ("EHP", "CRO")[index % 2]
        yield mix, 1, 1, "flat wash", "ECP", "", ""
        yield mix, 4, 1, "flat wash", "ECP", "", ""
        yield mix, 10, 1, "flat wash", other, "", ""


def _mixtures() -> Iterator[Row]:
    seen: Counter[str] = Counter()
    for mix, passage in PASSAGE.items():
        ways = _WAYS[passage][seen[passage] % 2]
        seen[passage] += 1
        for place, (water, layers, application, paper) in enumerate(ways):
            # Their second swatch is a broken texture, which nobody holds against a reference.
            judged = 0 if passage in {"hull", "marsh"} else 1
            target = TARGET[mix] if place == judged else ""
            yield mix, water, layers, application, paper, "", target


def _session(number: int, total: int) -> date:
    """The day of a swatch: sessions about 12 days apart, moved by up to two days."""
    session = (number - 1) // SWATCHES_A_SESSION
    last = (total - 1) // SWATCHES_A_SESSION
    days = round((LAST_SESSION - FIRST_SESSION).days * session / last)
    return FIRST_SESSION + timedelta(days=days + session * 7 % 5 - (2 if session else 0))
