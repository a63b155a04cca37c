"""A test patch after a change, from the model held to the patch as it was measured."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, NamedTuple

import numpy as np

from studio.colour.tristimulus import ciede2000
from studio.mixing.anchor import Anchor, anchored
from studio.mixing.changes import Change, Way
from studio.mixing.characterisation import Characterisation
from studio.mixing.observation import Batch, Observation, batch_of, load_of_water, shares_of
from studio.mixing.predict import glaze, predict, recipes, sensitivity
from studio.mixing.ranges import FloatArray
from studio.mixing.settings import USUAL_WATER

REACH: Final = 1.0
"""ΔE00 of a step over which what a patch differs by from the model falls to 1/e; chosen with its
form in two deals of `benchmarks/corrections.py`, which measures it in others."""
THICKNESS_REACH: Final = 4.0
"""The same of how thick the film came out: water measured by hand stays off while a puddle is
worked on. (Where amounts were metered, 1 to 4 differ by less than ΔE00 0.02 on the mean.)"""
TOLD: Final = 0.4
"""Share of the variance of predictions that a patch takes away for others like it."""
LIFTED_BY_HAND: Final = 0.25
"""Standard deviation of ln thickness of what is left of a lifted film (an estimate)."""
SAME_FILM: Final = frozenset({Way.LAYER, Way.GLAZE, Way.LIFT})


class After(NamedTuple):
    """What some changes lead to.

    Args:
        spectra: reflectance, (changes, wavelengths).
        shared: share of the patch's own difference from the model that a film of its own after the
            change would have, 0 to 1, (changes,).
    """

    spectra: FloatArray
    shared: FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Held:
    """The model held to a measured patch.

    Laid again unchanged, the patch has the colour that was measured. What it differs by from the
    model is kept whole where the film stays the very same (a layer or a glaze over it, lifting). In
    a film laid afresh the share exp(-step / `REACH`) of it is kept, step being the ΔE00 that the
    model gives for the change: measured swatches of two paints share their difference from the
    model only while they are near each other in colour. Its thickness is kept for longer.

    Args:
        known: the paints.
        patch: as it was measured, dry.
        anchor: its difference from the model.
        paper: what is laid afresh comes on, (wavelengths,).
    """

    known: Characterisation
    patch: Observation
    anchor: Anchor
    paper: FloatArray

    def after(self, changes: Sequence[Change]) -> After:
        """The reflectance after some changes."""
        spectra = np.empty((len(changes), len(self.paper)))
        shared = np.empty(len(changes))
        glazes = np.array([each.way is Way.GLAZE for each in changes], dtype=bool)
        for rows, follow in (
            (np.flatnonzero(~glazes), self._washes),
            (np.flatnonzero(glazes), self._glazes),
        ):
            if len(rows):
                spectra[rows], shared[rows] = follow([changes[row] for row in rows.tolist()])
        return After(spectra, shared)

    def errors(self, changes: Sequence[Change], shared: FloatArray) -> FloatArray:
        """The ΔE00 that about 68 % of patches stay within after some changes, (changes,).

        As `predict.expected_error`, less `TOLD` shared² of the variance: what the patch has told.
        The rest of it is what two patches of one recipe differ by.
        """
        known = self.known
        by_unknown, by_thickness = sensitivity(known, self._batch(changes))
        # One product of two matrices: many small ones wait for each other's threads.
        rows = by_unknown.reshape(-1, by_unknown.shape[-1])
        spread = (rows @ known.covariance).reshape(by_unknown.shape)
        variance = (spread * by_unknown).sum(axis=(1, 2))
        by_hand = np.array(
            [LIFTED_BY_HAND if each.way is Way.LIFT else known.thickness for each in changes]
        )
        laid = by_hand**2 * (by_thickness**2).sum(axis=1)
        error = known.error
        left = (1.0 - TOLD * shared**2) * (error.share * variance + error.floor**2)
        return np.asarray(error.scale * np.sqrt(left + error.share * laid))

    def _washes(self, changes: Sequence[Change]) -> tuple[FloatArray, FloatArray]:
        known, anchor = self.known, self.anchor
        batch = self._batch(changes)
        water = np.array([each.water for each in changes])
        plain = predict(known, batch.shares, water, batch.paper, batch.layers)
        same = np.array([each.way in SAME_FILM for each in changes])
        step = self._step(plain, self._plain())
        shared = np.exp(-step / REACH)
        kept = np.where(same, 1.0, shared)
        as_thick = np.where(same, 1.0, np.exp(-step / THICKNESS_REACH))
        # How thick a puddle of unknown water lays is told by the patch alone.
        extra = (1.0 if self.patch.water is None else as_thick) * anchor.ln_extra
        spectra = predict(known, batch.shares, water, batch.paper, batch.layers, extra)
        return np.minimum(spectra * np.exp(np.outer(kept, anchor.ln_ratio)), 1.0), shared

    def _glazes(self, changes: Sequence[Change]) -> tuple[FloatArray, FloatArray]:
        known, patch = self.known, self.patch
        one = batch_of([patch], known.paints)
        lower = one._replace(layers=one.layers * np.exp(self.anchor.ln_extra))
        upper = self._batch(changes)
        nothing = recipes(upper.shares[:1], changes[0].water, patch.paper, 0.0)
        bare, glazed = glaze(known, nothing, lower), glaze(known, upper, lower)
        shared = np.exp(-self._step(glazed, bare) / REACH)
        return np.minimum(patch.spectrum * glazed / bare, 1.0), shared

    def _batch(self, changes: Sequence[Change]) -> Batch:
        """What is laid; a glaze comes on the patch, all else on paper."""
        own, new = self.patch.paper, self.paper
        ground = {Way.GLAZE: self.patch.spectrum, Way.LAYER: own, Way.LIFT: own}
        return Batch(
            shares_of([dict(each.parts) for each in changes], self.known.paints),
            load_of_water(np.array([each.water for each in changes])),
            np.array([each.layers for each in changes]),
            np.array([ground.get(each.way, new) for each in changes]),
        )

    def _plain(self) -> FloatArray:
        """The patch as the model alone has it, on the paper that comes next, (1, wavelengths)."""
        batch = batch_of([self.patch], self.known.paints)
        return predict(
            self.known, batch.shares, water_of(self.patch), self.paper, self.patch.layers
        )

    def _step(self, after: FloatArray, before: FloatArray) -> FloatArray:
        """ΔE00 from each to each, (spectra,)."""
        light = self.known.light
        return np.asarray(ciede2000(light.lab(after), light.lab(before)))


def water_of(patch: Observation) -> float:
    """Parts of water to one of paint; the usual where it was not recorded."""
    return USUAL_WATER if patch.water is None else patch.water


def held(known: Characterisation, patch: Observation, paper: FloatArray | None = None) -> Held:
    """The model held to a patch.

    Args:
        known: the paints.
        patch: as it was measured, dry.
        paper: what the next patch comes on; that of this one by default.

    Raises:
        KeyError: one of its paints is not characterised.
    """
    return Held(known, patch, anchored(known, patch), patch.paper if paper is None else paper)
