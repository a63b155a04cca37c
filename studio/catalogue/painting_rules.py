"""What holds among the passages of a painting: their order, what lies over what, their shares."""

from collections.abc import Iterator, Sequence
from typing import Final

from studio.catalogue import checks
from studio.catalogue.painting import Painting, Passage
from studio.catalogue.paper import PaperFacts
from studio.catalogue.swatch import Application
from studio.errors import BadInput

LONGEST_NAME: Final = 100
"""Characters of a title or of a passage's name: both stand in the heads of lists and sheets."""

ON_TOP: Final = frozenset({Application.GLAZE, Application.SPATTER, Application.LIFTED})
"""What is always done upon paint that is there, whether or not a passage is named for it."""

_ROUNDING: Final = 1e-9


def short_text(value: str, what: str) -> str:
    """A text as `checks.text` has it, short enough for a heading.

    Raises:
        BadInput: it is empty or too long.
    """
    folded = checks.text(value, what)
    if len(folded) > LONGEST_NAME:
        msg = (
            f"{what} is longer than {LONGEST_NAME} characters; shorten it, and keep the rest in a "
            "note"
        )
        raise BadInput(msg)
    return folded


def is_on_paper(passage: Passage) -> bool:
    """Whether a passage takes bare paper, which no other such passage can take too."""
    return passage.over is None and passage.technique not in ON_TOP


def share_on_paper(passages: Sequence[Passage]) -> float:
    """The share of the painted area that passages on bare paper take together, unknown ones 0."""
    return sum(each.share or 0.0 for each in passages if is_on_paper(each))


def order_faults(passages: Sequence[Passage]) -> Iterator[str]:
    """What is wrong with passages in their working order, a sentence each."""
    names = {each.id: each.name for each in passages}
    done: set[int] = set()
    for each in passages:
        if each.over is not None and each.over not in done:
            below = names.get(each.over)
            yield (
                f"{each.name!r} lies over a passage that is not there"
                if below is None
                else f"{each.name!r} lies over {below!r}, which therefore comes before it"
            )
        done.add(each.id)


def share_faults(passages: Sequence[Passage]) -> Iterator[str]:
    """What is wrong with the shares of passages, a sentence."""
    total = share_on_paper(passages)
    if total > 1.0 + _ROUNDING:
        yield (
            f"the passages on bare paper take {100 * total:.4g}% of the painted area; give less, "
            "or say what one is laid over: --over"
        )


def checked_passages(passages: Sequence[Passage]) -> None:
    """Refuse passages whose order or shares cannot be.

    Raises:
        BadInput: one comes before what it lies over, or they take more than the whole.
    """
    for fault in (*order_faults(passages), *share_faults(passages)):
        raise BadInput(fault)


def beyond_sheet(painting: Painting, paper: PaperFacts) -> str | None:
    """That a painting is larger than a sheet of its paper, in one sentence; None where it fits.

    It may be turned; nothing is said where the size of a sheet is not on record.
    """
    if paper.sheet_width_mm is None or paper.sheet_height_mm is None:
        return None
    sheet = sorted((paper.sheet_width_mm, paper.sheet_height_mm))
    sides = sorted((painting.width_mm, painting.height_mm))
    if all(side <= room for side, room in zip(sides, sheet, strict=True)):
        return None
    return (
        f"{painting.width_mm:g} x {painting.height_mm:g} mm is larger than a sheet of "
        f"{paper.full_name} ({paper.sheet_width_mm:g} x {paper.sheet_height_mm:g} mm)"
    )
