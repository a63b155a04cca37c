"""The numbers that describe a studio's paints, and the wash they make.

K of a paint is exp(ln_K). S is exp(ln_S_part + likeness ln K): pigments that absorb more at a
wavelength mostly scatter more there as well, so what is left is nearly even.

A layer of n parts of paint, 1 at the usual water, has the thickness X = n^dilution, below
proportion, as thin washes spread and sink in. Layers add. Thickness varies over the patch (brush,
grain, pools) as a lognormal distribution with the spread `unevenness`, summed over three points of
Gauss-Hermite quadrature. The surface turns back k1 on bare paper and k1 / (1 + n)^levelling of the
light on paint, which fills the paper's roughness; k2 is the same on both (`surface`).

Sources:
    `film` for the optics; D. R. Duncan, Proc. Phys. Soc. 52 (1940) 390 for the mix; M. Abramowitz,
    I. A. Stegun, Handbook of Mathematical Functions, table 25.10, for the quadrature. The laws of
    dilution and levelling and the likeness of S and K are empirical.
"""
# ruff: noqa: N806, N815 - K, S, X and R keep the case they have in the papers

from dataclasses import dataclass
from typing import Final, NamedTuple

import numpy as np

from studio.mixing.film_slopes import film_slopes
from studio.mixing.observation import Batch
from studio.mixing.ranges import FloatArray

NODES: Final = ((-np.sqrt(3.0), 1.0 / 6.0), (0.0, 2.0 / 3.0), (np.sqrt(3.0), 1.0 / 6.0))
"""Standard normal deviates and their weights."""


@dataclass(frozen=True, slots=True, eq=False)
class Parameters:
    """What is known of some paints.

    Args:
        ln_K: (paints, wavelengths), absorption of thickness 1.
        ln_S_part: (paints, wavelengths), scattering of thickness 1 less what goes with K.
        law: the numbers of `settings.LAW`: logit k1, logit k2, dilution, levelling, likeness, and
            ln of the unevenness.
    """

    ln_K: FloatArray
    ln_S_part: FloatArray
    law: FloatArray

    @property
    def K(self) -> FloatArray:  # noqa: N802 - the letter of the papers
        """Absorption of each paint, (paints, wavelengths)."""
        return np.asarray(np.exp(self.ln_K))

    @property
    def S(self) -> FloatArray:  # noqa: N802
        """Scattering of each paint, (paints, wavelengths)."""
        return np.asarray(np.exp(self.ln_S_part + self.likeness * self.ln_K))

    @property
    def k1(self) -> float:
        """Share of the light that bare paper turns back at its surface."""
        return float(_logistic(self.law[0]))

    @property
    def k2(self) -> float:
        """Share of the light from inside that the surface throws back."""
        return float(_logistic(self.law[1]))

    @property
    def dilution(self) -> float:
        """Exponent from the paint in a layer to its thickness."""
        return float(self.law[2])

    @property
    def levelling(self) -> float:
        """How fast the surface reflection falls with paint."""
        return float(self.law[3])

    @property
    def likeness(self) -> float:
        """Slope of ln S on ln K."""
        return float(self.law[4])

    @property
    def unevenness(self) -> float:
        """Standard deviation of ln thickness over a patch."""
        return float(np.exp(self.law[5]))


class WashSlopes(NamedTuple):
    """Reflectance of washes and what it changes with, each (recipes, wavelengths).

    Args:
        R: measured reflectance.
        by_K: change with K of the mix.
        by_S: change with S of the mix.
        by_thickness: change with ln thickness.
        by_law: change with the numbers of the law, (recipes, wavelengths, 6).
    """

    R: FloatArray
    by_K: FloatArray
    by_S: FloatArray
    by_thickness: FloatArray
    by_law: FloatArray


def wash_slopes(parameters: Parameters, batch: Batch, ln_extra: FloatArray) -> WashSlopes:
    """Reflectance of a batch of washes and its derivatives.

    Args:
        parameters: of the paints, in the order of the shares.
        batch: the recipes.
        ln_extra: by how much each film is thicker than its water tells, in ln, (recipes,).
    """
    p = parameters
    K, S = batch.shares @ p.K, batch.shares @ p.S
    ln_load = np.log(batch.load)
    X = np.exp(np.log(batch.layers) + p.dilution * ln_load + ln_extra)[:, np.newaxis]
    amount = (batch.layers * batch.load)[:, np.newaxis]
    fall = (1.0 + amount) ** -p.levelling
    k1f, k2 = p.k1 * fall, p.k2
    outer = batch.paper - p.k1
    share = (1.0 - p.k1) * (1.0 - k2) + k2 * outer
    ground = np.clip(outer / share, 0.0, 1.0)
    inside = (outer > 0.0) & (ground < 1.0)
    R, by_K, by_S, by_X, by_spread, by_k1f, by_k2, by_ground = (np.zeros_like(K) for _ in range(8))
    for deviate, weight in NODES:
        x = X * np.exp(deviate * p.unevenness - p.unevenness**2 / 2.0)
        film = film_slopes(x * K, x * S, ground)
        inner = 1.0 - k2 * film.R
        body = (1.0 - k2) * film.R / inner
        out = weight * (1.0 - k1f) * (1.0 - k2) / inner**2
        along = out * x * (film.by_k * K + film.by_s * S)
        R += weight * (k1f + (1.0 - k1f) * body)
        by_K += out * x * film.by_k
        by_S += out * x * film.by_s
        by_X += along
        by_spread += along * (deviate - p.unevenness)
        by_k1f += weight * (1.0 - body)
        by_k2 += weight * (1.0 - k1f) * film.R * (film.R - 1.0) / inner**2
        by_ground += out * film.by_Rg
    by_outer = np.where(inside, by_ground / share**2, 0.0)
    by_k1 = by_k1f * fall + by_outer * (outer - share)
    by_k2 += by_outer * outer * (1.0 - p.k1 - outer)
    by_law = np.stack(
        [
            by_k1 * p.k1 * (1.0 - p.k1),
            by_k2 * k2 * (1.0 - k2),
            by_X * ln_load[:, np.newaxis],
            -by_k1f * k1f * np.log1p(amount),
            by_S * (batch.shares @ (p.S * p.ln_K)),
            by_spread * p.unevenness,
        ],
        axis=-1,
    )
    return WashSlopes(R, by_K, by_S, by_X, by_law)


def _logistic(x: float) -> float:
    return float(1.0 / (1.0 + np.exp(-x)))
