"""A test patch as the model sees it, with a spectrum of just the colour that was read."""

import numpy as np

from studio.actions.paint_model import PaintModel
from studio.catalogue.mix import Mix
from studio.catalogue.paper import Paper
from studio.catalogue.reading import Backing
from studio.catalogue.swatch import Swatch
from studio.colour.lab import Lab
from studio.colour.tristimulus import ciede2000
from studio.errors import BadInput
from studio.mixing.bent_spectrum import bent_to
from studio.mixing.characterisation import Characterisation
from studio.mixing.observation import Observation, batch_of
from studio.mixing.predict import predict
from studio.mixing.ranges import FloatArray
from studio.mixing.settings import USUAL_WATER


def measured_patch(  # noqa: PLR0913, PLR0917 - a patch is its mix, paper and colour
    model: PaintModel,
    known: Characterisation,
    swatch: Swatch,
    mix: Mix,
    paper: Paper,
    lab: Lab,
) -> Observation:
    """The patch with a spectrum of just its colour: measured, or the model's bent to its Lab.

    Raises:
        BadInput: no film has that colour.
    """
    facts = swatch.facts
    seen = [
        each
        for patch, each in model.patches_of(swatch.id)
        if patch.readings[0].backing is not Backing.BLACK
    ]
    measured = seen[0].spectrum if seen and not seen[0].estimated else None
    ground = seen[0].paper if seen else model.ground(paper).reflectance
    plain = Observation(
        dict(mix.recipe.parts), ground, ground, facts.water, facts.layers, name=facts.code
    )
    start = _predicted(known, plain) if measured is None else measured
    wanted = np.array(lab.coordinates)
    spectrum = bent_to(known.light, start, wanted)
    if spectrum is None and seen:
        spectrum = bent_to(known.light, seen[0].spectrum, wanted)
    if spectrum is None:
        msg = (
            f"no film of paint has the colour of {facts.code}; read it again: studio swatch read "
            f"{facts.code}"
        )
        raise BadInput(msg)
    return Observation(
        plain.parts,
        spectrum,
        ground,
        facts.water,
        facts.layers,
        estimated=measured is None,
        name=facts.code,
    )


def _predicted(known: Characterisation, patch: Observation) -> FloatArray:
    shares = batch_of([patch], known.paints).shares
    water = USUAL_WATER if patch.water is None else patch.water
    return np.asarray(predict(known, shares, water, patch.paper, patch.layers)[0])


def from_model(known: Characterisation, patch: Observation) -> float:
    """ΔE00 of a patch from what the model alone predicts of it."""
    light = known.light
    labs = light.lab(np.array([patch.spectrum, _predicted(known, patch)]))
    return float(ciede2000(labs[0], labs[1]))
