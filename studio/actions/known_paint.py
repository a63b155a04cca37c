"""How well one paint's mixes can be predicted, read from what is kept where that still holds."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from studio.actions.model_inputs import ModelInputs, UnknownPaint, model_inputs
from studio.actions.paint_knowledge import PaintKnowledge, read_from
from studio.catalogue.paint import Paint
from studio.storage.unit_of_work import UnitOfWork

if TYPE_CHECKING:
    from studio.actions.paint_model import PaintModel


@dataclass(frozen=True, slots=True)
class KnownPaint:
    """How well a paint is known, or why it is not.

    Args:
        paint: the paint.
        knowledge: what is known, or why it is too little.
        partners: the paints of the swatch that would tell most, by id.
        model: what had to be computed for it; None where it was kept.
    """

    paint: Paint
    knowledge: PaintKnowledge | UnknownPaint
    partners: dict[int, Paint]
    model: "PaintModel | None"


def known_paint(
    work: UnitOfWork, paint: Paint, compute: "Callable[[UnitOfWork], PaintModel]"
) -> KnownPaint:
    """How well a paint is known.

    Args:
        work: the studio.
        paint: the paint.
        compute: gives the model where what is kept no longer holds.
    """
    inputs = model_inputs(work)
    unknown = next((each for each in inputs.unknown if each.paint.id == paint.id), None)
    if unknown is not None:
        return KnownPaint(paint, unknown, {}, None)
    kept, model = _kept(work, inputs), None
    if kept is None:
        model = compute(work)
        kept = model.knowledge
    knowledge = next(each for each in kept if each.paint == paint.id)
    named = () if knowledge.next is None else knowledge.next.parts
    partners = {key: work.paints.by_id(key) for key, _ in named}
    return KnownPaint(paint, knowledge, partners, model)


def _kept(work: UnitOfWork, inputs: ModelInputs) -> tuple[PaintKnowledge, ...] | None:
    kept = work.characterisations.last()
    if kept is None or kept.inputs_sha256 != inputs.sha256:
        return None
    return read_from(kept.content)
