"""How long a painting takes, and where it has to dry."""

from collections.abc import Sequence
from typing import Final

from studio.catalogue.painting import Passage
from studio.catalogue.swatch import Application

MIXING: Final = (2.0, 5.0)
"""Minutes for a mix: at least, at most. Assumed, as all that follow."""
TESTING: Final = (2.0, 4.0)
"""Minutes for a strip of a mix that has been laid before, beside its card."""
UNTESTED: Final = (20.0, 45.0)
"""Minutes for a mix that was never laid, or a colour without one: a test swatch has to dry."""
DRYING: Final = (15.0, 40.0)
"""Minutes until a layer is dry."""
LAYING: Final = {
    Application.FLAT_WASH: (3.0, 8.0),
    Application.GRADED_WASH: (4.0, 10.0),
    Application.WET_IN_WET: (5.0, 15.0),
    Application.DRY_BRUSH: (5.0, 20.0),
    Application.GLAZE: (3.0, 8.0),
    Application.SPATTER: (2.0, 5.0),
    Application.LIFTED: (3.0, 10.0),
}
"""Minutes for a layer of a passage."""

ASSUMED: Final = (
    "Minutes: a mix 2 to 5, a strip of it 2 to 4, a test swatch with its drying 20 to 45, a layer "
    "2 to 20 by technique, its drying 15 to 40 (common practice, no source)."
)


def drying_steps(passages: Sequence[Passage]) -> tuple[int, ...]:
    """The numbers of the passages to wait after: all that have to dry before the next."""
    return tuple(
        number for number, each in enumerate(passages[:-1], start=1) if each.dry_before_next
    )


def minutes(passages: Sequence[Passage], laid: int, untested: int) -> tuple[float, float]:
    """(at least, at most) for mixing, testing, laying and drying.

    Args:
        passages: in working order.
        laid: how many mixes were laid and read before.
        untested: how many mixes and colours were not.
    """
    dried = len(drying_steps(passages)) + sum(each.layers - 1 for each in passages)
    low, high = (
        laid * (MIXING[end] + TESTING[end])
        + untested * (MIXING[end] + UNTESTED[end])
        + sum(LAYING[each.technique][end] * each.layers for each in passages)
        + dried * DRYING[end]
        for end in (0, 1)
    )
    return low, high
