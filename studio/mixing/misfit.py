"""How far predictions lie from measured swatches, and the normal equations that bring them nearer.

A swatch counts by its difference in colour, W (Lab - Lab measured), whose length is about ΔE00,
and by its difference in reflectance; beyond a few ΔE00 it counts less than squared (pseudo-Huber).
Film thickness of each swatch is an unknown of its own, tied to what its water and layers tell; as
no other swatch shares it, it is eliminated from the equations (Schur complement).
"""
# ruff: noqa: N806 - K and S keep the case they have in the papers

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from studio.colour.tristimulus import Tristimulus, ciede2000_root
from studio.mixing.observation import Batch
from studio.mixing.parameters import Parameters, WashSlopes, wash_slopes
from studio.mixing.ranges import FloatArray
from studio.mixing.settings import LAW


@dataclass(frozen=True, slots=True, eq=False)
class Measured:
    """Swatches with what was measured of them.

    Args:
        batch: their recipes and grounds.
        spectra: measured reflectance, (swatches, wavelengths).
        lab: its L*a*b*, (swatches, 3).
        root: W of each, (swatches, 3, 3).
        weight: how much each counts, (swatches,).
        spectral: weight of a difference in reflectance at one wavelength, ΔE00, (swatches,).
        thickness: standard deviation of ln thickness, (swatches,).
        robust: ΔE00 from which on a difference counts less than squared.
        light: the weights from spectra to Lab.
    """

    batch: Batch
    spectra: FloatArray
    lab: FloatArray
    root: FloatArray
    weight: FloatArray
    spectral: FloatArray
    thickness: FloatArray
    robust: float
    light: Tristimulus


class Misfit(NamedTuple):
    """The misfit at some parameters.

    Args:
        cost: of all swatches and of their thicknesses.
        colour: W (Lab - Lab measured), (swatches, 3).
        influence: weight of each swatch after its distance, (swatches,).
    """

    cost: float
    colour: FloatArray
    influence: FloatArray


class Equations(NamedTuple):
    """Normal equations of the unknowns, the thicknesses eliminated.

    Args:
        matrix: (size, size).
        gradient: (size,).
        coupling: thickness of each swatch with the unknowns, (swatches, size).
        own: its own element of the matrix, (swatches,).
        own_gradient: (swatches,).
    """

    matrix: FloatArray
    gradient: FloatArray
    coupling: FloatArray
    own: FloatArray
    own_gradient: FloatArray

    def thickness_step(self, step: FloatArray) -> FloatArray:
        """How the thicknesses follow a step of the unknowns, in ln, (swatches,)."""
        return np.asarray(-(self.own_gradient + self.coupling @ step) / self.own)


def measured(  # noqa: PLR0913, PLR0917 - the parts of a weight
    batch: Batch,
    spectra: FloatArray,
    weight: FloatArray,
    spectral: FloatArray,
    thickness: FloatArray,
    robust: float,
    light: Tristimulus,
) -> Measured:
    """Swatches with their Lab and what a difference from it counts."""
    lab = light.lab(spectra)
    root = ciede2000_root(lab)
    return Measured(batch, spectra, lab, root, weight, spectral, thickness, robust, light)


def misfit(data: Measured, reflectance: FloatArray, ln_extra: FloatArray) -> Misfit:
    """The misfit of predicted reflectances, (swatches, wavelengths)."""
    colour = colour_error(data, reflectance)
    spectral = data.spectral[:, np.newaxis] * (reflectance - data.spectra)
    squared = (colour**2).sum(axis=1) + (spectral**2).sum(axis=1)
    distance = np.sqrt(squared + data.robust**2)
    cost = data.weight * 2.0 * data.robust * (distance - data.robust)
    cost += (ln_extra / data.thickness) ** 2
    return Misfit(float(cost.sum()), colour, data.weight * data.robust / distance)


def colour_error(data: Measured, reflectance: FloatArray) -> FloatArray:
    """W (Lab - Lab measured), (swatches, 3)."""
    away = data.light.lab(reflectance) - data.lab
    return np.asarray((data.root @ away[:, :, np.newaxis])[:, :, 0])


def colour_slopes(  # noqa: PLR0913, PLR0917 - what a chain of derivatives needs
    parameters: Parameters,
    batch: Batch,
    slopes: WashSlopes,
    root: FloatArray,
    light: Tristimulus,
    to_basis: FloatArray | None = None,
) -> tuple[FloatArray, FloatArray]:
    """How W Lab changes with the unknowns and with ln thickness.

    Args:
        parameters: of the paints.
        batch: the recipes.
        slopes: of their reflectance.
        root: W of each recipe, (recipes, 3, 3).
        light: the weights from spectra to Lab.
        to_basis: (wavelengths, functions): slopes along these functions of the wavelength.

    Returns:
        (recipes, 3, size) and (recipes, 3).
    """
    p = parameters
    to_lab = root @ light.lab_slopes(slopes.R)
    by_K = to_lab * slopes.by_K[:, np.newaxis]
    by_S = to_lab * slopes.by_S[:, np.newaxis]
    basis = np.eye(by_K.shape[-1]) if to_basis is None else to_basis
    count, paints, width = len(by_K), len(p.K), basis.shape[1]
    found = np.zeros((count, 3, 2 * paints * width + len(LAW)))
    spectral = found[:, :, : -len(LAW)].reshape(count, 3, 2, paints, width)
    for paint, (K, S) in enumerate(zip(p.K, p.S, strict=True)):
        rows = np.flatnonzero(batch.shares[:, paint])
        share = batch.shares[rows, paint, np.newaxis, np.newaxis]
        part_S = share * by_S[rows] * S
        along_K = share * by_K[rows] * K + p.likeness * part_S
        for place, along in enumerate((along_K, part_S)):
            spectral[rows, :, place, paint] = along if to_basis is None else along @ basis
    found[:, :, -len(LAW) :] = to_lab @ slopes.by_law
    return found, np.asarray((to_lab @ slopes.by_thickness[:, :, np.newaxis])[:, :, 0])


def equations(
    parameters: Parameters, data: Measured, ln_extra: FloatArray, influence: FloatArray
) -> Equations:
    """The normal equations of the swatches at some parameters, without the prior."""
    slopes = wash_slopes(parameters, data.batch, ln_extra)
    scale = np.sqrt(influence)
    by_unknown, by_thickness = colour_slopes(parameters, data.batch, slopes, data.root, data.light)
    by_unknown *= scale[:, np.newaxis, np.newaxis]
    by_thickness = by_thickness * scale[:, np.newaxis]
    error = colour_error(data, slopes.R) * scale[:, np.newaxis]
    rows = by_unknown.reshape(-1, by_unknown.shape[-1])
    matrix, gradient = rows.T @ rows, rows.T @ error.ravel()
    coupling = (by_unknown.transpose(0, 2, 1) @ by_thickness[:, :, np.newaxis])[:, :, 0]
    own = 1.0 / data.thickness**2 + (by_thickness**2).sum(axis=1)
    own_gradient = ln_extra / data.thickness**2 + (by_thickness * error).sum(axis=1)

    weight = (scale * data.spectral)[:, np.newaxis]
    _add_reflectance(parameters, data, slopes, weight, matrix, gradient, coupling)
    along = slopes.by_thickness * weight
    own += (along**2).sum(axis=1)
    own_gradient += (along * weight * (slopes.R - data.spectra)).sum(axis=1)

    eliminated = coupling / np.sqrt(own)[:, np.newaxis]
    matrix -= eliminated.T @ eliminated
    gradient -= coupling.T @ (own_gradient / own)
    return Equations(matrix, gradient, coupling, own, own_gradient)


def _add_reflectance(  # noqa: PLR0913, PLR0917 - sums into three arrays
    parameters: Parameters,
    data: Measured,
    slopes: WashSlopes,
    weight: FloatArray,
    matrix: FloatArray,
    gradient: FloatArray,
    coupling: FloatArray,
) -> None:
    """The share of the reflectances, which couple only unknowns of their own wavelength."""
    p = parameters
    paints, count = p.ln_K.shape
    spectral = 2 * paints * count
    by_K, by_S = (weight * each for each in (slopes.by_K, slopes.by_S))
    # Wavelengths first, since only unknowns of the same wavelength meet.
    shares = data.batch.shares
    part_S = by_S.T[:, :, np.newaxis] * shares * p.S.T[:, np.newaxis]
    along_K = by_K.T[:, :, np.newaxis] * shares * p.K.T[:, np.newaxis] + p.likeness * part_S
    rows = np.concatenate([along_K, part_S], axis=-1)
    law = np.moveaxis(slopes.by_law * weight[:, :, np.newaxis], 1, 0)
    error = (weight * (slopes.R - data.spectra)).T
    turned = rows.transpose(0, 2, 1)
    at = np.arange(count)
    blocks = matrix[:spectral, :spectral].reshape(2 * paints, count, 2 * paints, count)
    blocks[:, at, :, at] += turned @ rows
    across = np.moveaxis(turned @ law, 0, 1).reshape(spectral, len(LAW))
    matrix[:spectral, spectral:] += across
    matrix[spectral:, :spectral] += across.T
    matrix[spectral:, spectral:] += (law.transpose(0, 2, 1) @ law).sum(axis=0)
    gradient[:spectral] += (turned @ error[:, :, np.newaxis])[:, :, 0].T.ravel()
    gradient[spectral:] += (law.transpose(0, 2, 1) @ error[:, :, np.newaxis]).sum(axis=0)[:, 0]
    along = (slopes.by_thickness * weight).T[:, :, np.newaxis]
    coupling[:, :spectral] += np.moveaxis(rows * along, 0, -1).reshape(len(weight), spectral)
    coupling[:, spectral:] += (law * along).sum(axis=0)
