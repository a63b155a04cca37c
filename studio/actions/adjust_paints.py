"""Which paints a correction may use, and whether those of a patch are known well enough."""

from collections.abc import Sequence
from dataclasses import dataclass

from studio.actions.model_inputs import UnknownPaint
from studio.actions.paint_model import PaintModel
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint, Status, never_text
from studio.catalogue.reading import State
from studio.catalogue.swatch import Swatch
from studio.errors import BadInput
from studio.mixing.characterisation import Characterisation


@dataclass(frozen=True, slots=True)
class MayAdd:
    """Which paints may be added.

    Args:
        only: these alone; empty for all in stock.
        using: all of these in every proposal.
        without: none of these.
    """

    only: Sequence[Paint] = ()
    using: Sequence[Paint] = ()
    without: Sequence[Paint] = ()


def known_paints(model: PaintModel, swatch: Swatch, mix: Mix) -> Characterisation:
    """The model of the paints of a patch.

    Raises:
        BadInput: one of them, or the patch, is not in the model, or is never to be used.
    """
    code = swatch.facts.code
    held = [paint for paint in model.inputs.paints if paint.id in mix.recipe.paints]
    for paint in held:
        if paint.never_use:
            msg = f"{code} is not adjusted: {never_text(paint)}; mix the colour of other paints"
            raise BadInput(msg)
    for unknown in model.inputs.unknown:
        if unknown.paint.id in mix.recipe.paints:
            msg = f"{code} cannot be adjusted: {_unknown_text(unknown)}"
            raise BadInput(msg)
    aside = {each.swatch.id: each.why for each in model.inputs.left_aside}
    if swatch.id in aside and swatch.state is State.DRY:
        msg = (
            f"{code} {aside[swatch.id]}, so it does not show what to add; lay and log a flat "
            "wash of the same mix"
        )
        raise BadInput(msg)
    if model.known is None:
        msg = (
            f"{code} cannot be adjusted: no paint is known by a dry flat wash yet; log one of each "
            "paint, water 3:1 (studio swatch log)"
        )
        raise BadInput(msg)
    return model.known


def _unknown_text(unknown: UnknownPaint) -> str:
    name = unknown.paint.facts.name
    return f"{name} is not known well enough ({unknown.why}); log {unknown.missing}"


def allowed(model: PaintModel, may_add: MayAdd) -> tuple[Paint, ...]:
    """The paints that may be added: named ones, or all that are in stock.

    Raises:
        BadInput: a named paint is left out as well, retired, or not known well enough.
    """
    unknown = {each.paint.id: each for each in model.inputs.unknown}
    named = {paint.id for paint in (*may_add.only, *may_add.using)}
    barred = {paint.id for paint in may_add.without}
    for paint in (*may_add.only, *may_add.using):
        if paint.never_use:
            msg = f"{never_text(paint)}; name another paint"
            raise BadInput(msg)
        if paint.id in barred:
            msg = f"{paint.facts.name} is both asked for and left out; take one of the two away"
            raise BadInput(msg)
        if paint.facts.status is Status.RETIRED:
            msg = f"{paint.facts.name} is retired; name a paint in use"
            raise BadInput(msg)
        if paint.id in unknown:
            raise BadInput(_unknown_text(unknown[paint.id]))
    return tuple(
        paint
        for paint in model.offered
        if paint.id not in barred
        and not paint.never_use
        and (paint.id in named if may_add.only else paint.in_stock or paint.id in named)
    )


def never_added(model: PaintModel) -> tuple[Paint, ...]:
    """The paints in stock that no proposal holds, because they are never to be used."""
    return tuple(paint for paint in model.inputs.paints if paint.never_use and paint.in_stock)


def left_out(model: PaintModel, may_add: MayAdd) -> tuple[UnknownPaint, ...]:
    """The paints in stock that nothing can be told of."""
    if may_add.only:
        return ()
    return tuple(
        each
        for each in model.inputs.unknown
        if each.paint.in_stock and each.paint.facts.status is Status.IN_USE
    )
