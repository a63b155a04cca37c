"""The demo's fade tests: half-covered strips in the south window, and how far each has faded."""

from dataclasses import dataclass
from datetime import date
from math import exp
from typing import Final

from studio.colour.lab import Lab

FADE_FIELDS: Final = [
    "code",
    "item",
    "place",
    "started_on",
    "ended_on",
    "paper",
    "note",
    "read_on",
    "covered_l",
    "covered_a",
    "covered_b",
    "exposed_l",
    "exposed_a",
    "exposed_b",
    "blue_wool",
    "reading_note",
]


@dataclass(frozen=True, slots=True)
class Strip:
    """A strip of one paint.

    Args:
        code: of the test.
        paint: what it is painted with.
        water: parts of water, as in the paint's own swatch on the same paper.
        days: after so many days in the window the exposed half has gone 1 - 1/e of the way to the
            paper's white.
        ended_on: the day it was taken down, empty while it hangs.
        note: remarks.
    """

    code: str
    paint: str
    water: float
    days: float
    ended_on: str = ""
    note: str = ""


STRIPS: Final = (
    Strip("F1", "AC", 4, 900, "2026-10-31", "taken down: no more sky with it for sale"),
    Strip("F2", "DV", 1, 1700),
    Strip("F3", "FU", 4, 14000),
    Strip("F4", "HY", 4, 2100, "", "the label says very good"),
)

PAPER: Final = "ECP"
_PLACE: Final = "south window of the boat shed"
_STARTED_ON: Final = "2026-01-31"
_READ_ON: Final = ("2026-02-28", "2026-04-30", "2026-06-30", "2026-08-31", "2026-10-31")

_DAYS: Final = (0, *(25 * 2**step for step in range(8)))
"""Days in that window after which each step of a blue wool card is seen to fade. That a step takes
about twice the exposure of the one before is published (ISO 105-B; source: CAMEO), 25 invented."""


def strip_rows(strip: Strip, covered: Lab, white: Lab) -> list[dict[str, str]]:
    """The readings of a strip, a row each.

    Args:
        strip: what hangs in the window.
        covered: colour of the half under card, which stays as it was.
        white: colour of the paper.
    """
    rows = []
    for read_on in _READ_ON:
        days = (date.fromisoformat(read_on) - date.fromisoformat(_STARTED_ON)).days
        gone = 1.0 - exp(-days / strip.days)
        pairs = zip(covered.coordinates, white.coordinates, strict=True)
        exposed = [here + (bare - here) * gone for here, bare in pairs]
        step = max(step for step in range(9) if days >= _DAYS[step])
        cells = (
            strip.code,
            strip.paint,
            _PLACE,
            _STARTED_ON,
            strip.ended_on if read_on == _READ_ON[-1] else "",
            PAPER,
            strip.note,
            read_on,
            *(f"{value:.2f}" for value in (*covered.coordinates, *exposed)),
            str(step),
            "",
        )
        rows.append(dict(zip(FADE_FIELDS, cells, strict=True)))
    return rows
