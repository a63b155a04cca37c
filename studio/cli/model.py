"""The model of the paints for commands: computed with a sign of life, kept for the next one."""

from typing import TYPE_CHECKING

from studio.cli.session import today

if TYPE_CHECKING:
    from studio.actions.known_paint import KnownPaint
    from studio.actions.paint_model import PaintModel
    from studio.catalogue.paint import Paint
    from studio.storage.unit_of_work import UnitOfWork


def model_of(work: "UnitOfWork") -> "PaintModel":
    """The model of the paints; whoever waits for it at a terminal is told what for."""
    from studio.actions.paint_model import paint_model  # noqa: PLC0415 - numpy
    from studio.sheets.waiting import waiting  # noqa: PLC0415

    with waiting("working out from your dry swatches how your paints mix"):
        return paint_model(work, today())


def keep_for_next_time(work: "UnitOfWork", model: "PaintModel | None") -> None:
    """Keep what was computed, last thing in a command that looks; where it cannot be, no matter."""
    if model is not None:
        from studio.actions.paint_model import keep_model  # noqa: PLC0415 - numpy

        keep_model(work, model)


def known_paint_of(work: "UnitOfWork", paint: "Paint") -> "KnownPaint":
    """How well a paint is known; a command that only looks calls it last."""
    from studio.actions.known_paint import known_paint  # noqa: PLC0415

    known = known_paint(work, paint, model_of)
    keep_for_next_time(work, known.model)
    return known
