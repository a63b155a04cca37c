"""What to do about a test patch that is not yet right."""

from collections.abc import Sequence
from fractions import Fraction

import numpy as np

from studio.actions.adjust_paints import MayAdd, allowed, known_paints, left_out, never_added
from studio.actions.adjustment import Addition, Adjustment, Proposed, log_line, quoted, terms_text
from studio.actions.drying_shift import ExpectedDry, expected_dry
from studio.actions.match_colour import Ingredient, ingredients
from studio.actions.measured_patch import from_model, measured_patch
from studio.actions.paint_model import PaintModel
from studio.actions.read_target import Target
from studio.catalogue.paper import Paper
from studio.catalogue.reading import State
from studio.catalogue.recipe import in_lowest_terms
from studio.catalogue.swatch import Swatch
from studio.colour.difference import ciede2000
from studio.colour.lab import Lab
from studio.colour.words import separation
from studio.errors import BadInput
from studio.mixing.adjust import Correction, adjust
from studio.mixing.changes import Way
from studio.mixing.settings import is_too_uncertain
from studio.storage.unit_of_work import UnitOfWork

FINE = 4.0
"""Parts of water to one of paint below which hundredths are told."""


def adjust_swatch(  # noqa: PLR0913 - the options of a search
    work: UnitOfWork,
    model: PaintModel,
    swatch: Swatch,
    target: Target | None,
    may_add: MayAdd,
    *,
    paper: Paper | None = None,
    count: int = 3,
) -> Adjustment:
    """What to add to the mix of a test patch, or to do to the patch, so that it comes nearer.

    Args:
        work: the studio.
        model: its paints.
        swatch: the patch.
        target: the wanted colour; None for the one the swatch was logged for.
        may_add: which paints may be added.
        paper: what the next patch comes on; that of the swatch by default.
        count: how many proposals to return.

    Raises:
        BadInput: there is no target, the patch or one of its paints is not in the model, or it has
            only been read wet and nothing is known of drying.
    """
    wanted = _target_of(swatch) if target is None else target
    mix = work.mixes.by_ids([swatch.mix_id])[swatch.mix_id]
    own_paper = work.papers.by_id(swatch.paper_id)
    known = known_paints(model, swatch, mix)
    paints = allowed(model, may_add)
    drying = None
    lab = swatch.lab
    if swatch.state is State.WET:
        drying = _dry_of(work, swatch)
        lab = drying.target.lab
    patch = measured_patch(model, known, swatch, mix, own_paper, lab)
    reference = lab.coordinates
    away = ciede2000(wanted.lab.coordinates, reference)
    found = adjust(
        known,
        patch,
        np.array(wanted.lab.coordinates),
        [paint.id for paint in paints],
        must_add=[paint.id for paint in may_add.using],
        paper=None if paper is None else model.ground(paper).reflectance,
    )
    laid_on = own_paper if paper is None else paper
    return Adjustment(
        swatch=swatch,
        mix=mix,
        recipe=ingredients(work, mix),
        paper=own_paper,
        next_paper=laid_on,
        target=wanted,
        lab=lab,
        delta_e=away,
        needed=separation(reference, wanted.lab.coordinates),
        model_delta_e=from_model(known, patch),
        reading_error=_reading_error(swatch),
        estimated=patch.estimated,
        drying=drying,
        proposed=tuple(
            _proposed(work, swatch, laid_on, wanted, rank, each)
            for rank, each in enumerate(_chosen(_surest_first(found), count), start=1)
        ),
        unknown=left_out(model, may_add),
        never=never_added(model),
    )


def _surest_first(found: Sequence[Correction]) -> list[Correction]:
    """The ways in their order, but what is too uncertain to act on behind all others."""
    return sorted(found, key=lambda each: is_too_uncertain(each.error))


def _chosen(found: Sequence[Correction], count: int) -> list[Correction]:
    """Additions to the puddle at hand first; the last place is for the best other way."""
    added = [each for each in found if each.change.way is Way.ADD]
    others = [each for each in found if each.change.way is not Way.ADD]
    first = added[: max(count - 1, 1)] if others else added[:count]
    return [*first, *others][:count]


def _target_of(swatch: Swatch) -> Target:
    facts = swatch.facts
    if facts.target_lab is None or facts.target is None:
        msg = (
            f"{facts.code} was logged without --for, so its target is not known; name it: "
            f'studio adjust {facts.code} "#5b5f6e"'
        )
        raise BadInput(msg)
    return Target(facts.target_lab, facts.target, f"what {facts.code} was made for")


def _dry_of(work: UnitOfWork, swatch: Swatch) -> ExpectedDry:
    code = swatch.facts.code
    wet = Target(swatch.lab, code, None, swatch.id)
    try:
        return expected_dry(work, wet)
    except BadInput:
        msg = (
            f"{code} has only been read wet, and no patch read both wet and dry tells how it "
            f"dries; read it again when it is dry: studio swatch read {code}"
        )
        raise BadInput(msg) from None


def _reading_error(swatch: Swatch) -> float | None:
    errors = [each.error for each in swatch.readings if each.state is swatch.state]
    known = [each for each in errors if each is not None]
    return max(known) if known else None


def _proposed(  # noqa: PLR0913, PLR0917 - what a proposal refers to
    work: UnitOfWork, swatch: Swatch, paper: Paper, target: Target, rank: int, each: Correction
) -> Proposed:
    change, facts = each.change, swatch.facts
    recipe = in_lowest_terms((key, Fraction(parts)) for key, parts in change.parts)
    laid = tuple(Ingredient(work.paints.by_id(key), parts) for key, parts in recipe.parts)
    water = round(change.water, 2 if change.water < FINE else 1)
    how: dict[str, object] = {}
    if change.way is Way.LIFT:
        how["applied"] = "lifted"
    if facts.water is not None or change.way in {Way.FRESH, Way.GLAZE}:
        how["water"] = f"{water:g}:1"
    layers = facts.layers if change.way is Way.LIFT else round(change.layers)
    if layers > 1:
        how["layers"] = layers
    line = log_line(laid, paper, target, how)
    if change.way is Way.GLAZE:
        over = terms_text(laid)
        note = f"{facts.note}; " if facts.note else ""
        note += f"glazed with {over}, water {water:g}:1"
        line = f"studio swatch edit {facts.code} --note {quoted(note)}"
    return Proposed(
        rank=rank,
        way=change.way,
        added=tuple(Addition(work.paints.by_id(key), parts) for key, parts in change.added),
        added_water=change.added_water,
        recipe=laid,
        water=water,
        layers=change.layers,
        lab=Lab(*each.lab),
        delta_e=each.delta_e,
        error=each.error,
        separation=separation(target.lab.coordinates, each.lab),
        next_line=line,
    )
