"""A correction from a camera's or scanner's linear RGB to Lab, fitted on patches of known Lab.

The second door to colour-science, for its chart data and published expansions.
"""

import warnings
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

import numpy as np

from studio.colour.lab_arrays import (
    Floats,
    delta_e,
    lab_to_roots,
    lab_to_xyz,
    roots_to_lab,
    xyz_to_lab,
)

with warnings.catch_warnings():
    # colour-science warns of plotting libraries that the studio does not need.
    warnings.simplefilter("ignore")
    import colour

CHARTS_24: Final = {
    "24": "ColorChecker24 - After November 2014",
    "24-older": "ColorChecker24 - Before November 2014",
}
"""Names of the 24-patch charts, by when they were made, and of their data in colour-science."""

_DARKEST: Final = 0.02
"""Y that keeps the weight of black finite."""

_LARGEST: Final = 0.6
"""Terms of an expansion, as a share of the patches that it is fitted on."""

_SIMPLER: Final = 1.05
"""A simpler method is taken where its error is within 5 % of the best (common practice)."""

_START, _STARTS, _CONCENTRATE = 5, 100, 6

_RIVAL: Final = 1.5
"""Methods whose error is within this factor of the best are asked for a second opinion."""


@dataclass(frozen=True, slots=True)
class Method:
    """A way to expand RGB before it is multiplied by a matrix.

    Args:
        name: as shown.
        expansion: its name in colour-science.
        option: what colour-science calls its size.
        size: degree, or number of terms.
        cube_root: of RGB first, to Lab instead of XYZ; fits where the camera applied a tone curve.
    """

    name: str
    expansion: str
    option: str
    size: int
    cube_root: bool

    @property
    def terms(self) -> int:
        """How many terms it expands to."""
        return int(self.expand(np.ones((1, 3))).shape[1])

    def expand(self, linear: Floats) -> Floats:
        """(n, terms) of (n, 3) linear RGB."""
        rgb = np.maximum(linear, 0.0)
        options: dict[str, Any] = {self.option: self.size}
        return np.asarray(
            colour.polynomial_expansion(
                np.cbrt(rgb) if self.cube_root else rgb, method=self.expansion, **options
            ),
            dtype=np.float64,
        ).reshape(len(linear), -1)  # colour-science drops the axis of a single row


def _methods() -> tuple[Method, ...]:
    made = [Method("matrix of 3 x 3", "Cheung 2004", "terms", 3, cube_root=False)]
    for cube_root in (False, True):
        of = " of cube roots" if cube_root else ""
        terms = (4, 7, 10, 14, 20) if cube_root else (4, 7, 10, 11, 14)
        made += [
            Method(f"Cheung 2004, {n} terms{of}", "Cheung 2004", "terms", n, cube_root)
            for n in terms
        ]
        made += [
            Method(f"Vandermonde, degree {n}{of}", "Vandermonde", "degree", n, cube_root)
            for n in (2, 3)
        ]
    made += [
        Method(f"Finlayson 2015, degree {n}", "Finlayson 2015", "degree", n, cube_root=False)
        for n in (2, 3)
    ]
    return tuple(made)


METHODS: Final = _methods()
"""Cheung, Westland, Connah, Ripamonti (2004), "A comparative study of the characterisation of
colour cameras by means of neural networks and polynomial transforms", Coloration Technology 120(1);
Finlayson, Mackiewicz, Hurlbert (2015), "Color correction using root-polynomial regression", IEEE
Transactions on Image Processing 24(5); Vandermonde's powers of each channel; all as colour-science
expands them."""


QUICK: Final = tuple(
    method
    for method in METHODS
    if method.name
    in {
        "matrix of 3 x 3",
        "Cheung 2004, 7 terms of cube roots",
        "Vandermonde, degree 3",
        "Vandermonde, degree 3 of cube roots",
        "Finlayson 2015, degree 2",
    }
)
"""A few of them, for what has to be fitted again and again."""


@dataclass(frozen=True, slots=True, eq=False)
class Correction:
    """A fitted correction.

    Args:
        method: how RGB is expanded.
        matrix: (terms, 3) to XYZ, or to the cube roots that Lab is made of.
        scale: the linear RGB that counts as 1.
    """

    method: Method
    matrix: Floats
    scale: float

    def lab(self, linear: Floats) -> Floats:
        """(n, 3) Lab under D50/2° of (n, 3) linear RGB."""
        return _to_lab(self.method.expand(linear / self.scale) @ self.matrix, self.method)


@dataclass(frozen=True, slots=True, eq=False)
class Fit:
    """A correction with what it errs by.

    Args:
        correction: the correction.
        lab: (n, 3) reference Lab of the patches it was fitted on.
        errors: (n,) ΔE00 of each patch from the correction fitted on all others.
        rivals: corrections by the other methods whose mean error is at most half as much again.
    """

    correction: Correction
    lab: Floats
    errors: Floats
    rivals: tuple[Correction, ...] = ()

    @property
    def mean(self) -> float:
        """Mean cross-validated ΔE00: the error to expect of a reading."""
        return float(self.errors.mean())

    @property
    def most(self) -> float:
        """The cross-validated ΔE00 that 95 % of the patches stay under."""
        return float(np.quantile(self.errors, 0.95))


def fit_correction(linear: Floats, lab: Floats, methods: Sequence[Method] = METHODS) -> Fit:
    """The correction, of some methods, that errs least on patches it was not fitted on.

    Each method is fitted by least squares, towards XYZ with every patch weighted by the slope of L*
    at its luminance, so that the dark ones count as the eye counts them. The error is that of
    leaving one patch out, which a linear fit gives at once: a residual divided by 1 less its
    leverage (Allen 1974, "The relationship between variable selection and data augmentation and a
    method for prediction", Technometrics 16(1)). A simpler method is taken within 5 % of the best.

    Args:
        linear: (n, 3) linear RGB, n at least 6.
        lab: (n, 3) reference Lab under D50/2°.
        methods: to choose from, the plain matrix among them.
    """
    scale = max(float(linear.max()), 1e-9)
    fits = [
        _fitted(method, linear, lab, scale)
        for method in methods
        if method.expand(linear[:1]).shape[1] <= _LARGEST * len(linear)
    ]
    best = min(fit.mean for fit in fits)
    good = [fit for fit in fits if fit.mean <= _SIMPLER * best]
    chosen = min(good, key=lambda fit: len(fit.correction.matrix))
    rivals = [fit.correction for fit in fits if fit is not chosen and fit.mean <= _RIVAL * best]
    return replace(chosen, rivals=tuple(rivals))


def fit_matrix(linear: Floats, lab: Floats) -> Fit:
    """The plain 3 x 3 correction; quick, for trying which way up a chart lies."""
    return _fitted(METHODS[0], linear, lab, max(float(linear.max()), 1e-9))


def cleanest(linear: Floats, lab: Floats) -> tuple[Floats, float]:
    """(n,) ΔE00 of each patch from the matrix of the half that agrees best, and that half's median.

    Patches that are covered do not sway it, as long as they are less than half. Source: Rousseeuw,
    Van Driessen (2006), "Computing LTS regression for large data sets", Data Mining and Knowledge
    Discovery 12 (least trimmed squares by concentration steps, from random starts).

    Args:
        linear: (n, 3) linear RGB.
        lab: (n, 3) reference Lab under D50/2°.
    """
    rng = np.random.default_rng(0)
    target, weight = _towards(METHODS[0], lab)
    rows, wanted = linear * weight, target * weight
    half = (len(lab) + 1) // 2
    chosen = np.array([rng.permutation(len(lab))[:_START] for _ in range(_STARTS)])
    matrices = np.linalg.pinv(rows[chosen]) @ wanted[chosen]
    for _ in range(_CONCENTRATE):
        off = ((rows @ matrices - wanted) ** 2).sum(axis=2)
        chosen = np.argsort(off, axis=1)[:, :half]
        matrices = np.linalg.pinv(rows[chosen]) @ wanted[chosen]
    off = ((rows @ matrices - wanted) ** 2).sum(axis=2)
    best = matrices[int(np.sort(off, axis=1)[:, :half].sum(axis=1).argmin())]
    errors = delta_e(xyz_to_lab(linear @ best), lab)
    return errors, float(np.median(np.sort(errors)[:half]))


def chart_24(name: str) -> tuple[tuple[str, ...], Floats]:
    """Names and (24, 3) Lab under D50/2° of a 24-patch chart, row by row from the brown patch.

    Source: the maker's published values through colour-science.
    """
    data = colour.CCS_COLOURCHECKERS[CHARTS_24[name]]
    xyz = colour.xyY_to_XYZ(list(data.data.values()))
    return tuple(data.data), np.asarray(colour.XYZ_to_Lab(xyz, data.illuminant), dtype=np.float64)


def unexplained(method: Method, linear: Floats, lab: Floats) -> Floats:
    """(n, 3) weighted residuals of a method fitted to patches; see `fit_correction`."""
    expanded = method.expand(linear / max(float(linear.max()), 1e-9))
    target, weight = _towards(method, lab)
    matrix = np.linalg.lstsq(expanded * weight, target * weight, rcond=None)[0]
    rest: Floats = (target - expanded @ matrix) * weight
    return rest


def _towards(method: Method, lab: Floats) -> tuple[Floats, Floats]:
    """(n, 3) what a method is fitted towards, and (n, 1) the weight of each patch."""
    if method.cube_root:
        return lab_to_roots(lab), np.ones((len(lab), 1))
    target = lab_to_xyz(lab)
    return target, 1.0 / (target[:, 1:2] + _DARKEST) ** (2 / 3)


def _fitted(method: Method, linear: Floats, lab: Floats, scale: float) -> Fit:
    expanded = method.expand(linear / scale)
    target, weight = _towards(method, lab)
    weighted = expanded * weight
    inverse = np.linalg.pinv(weighted)
    matrix = inverse @ (target * weight)
    leverage = np.einsum("ij,ji->i", weighted, inverse)[:, None]
    predicted = expanded @ matrix
    left_out = target - (target - predicted) / np.maximum(1.0 - leverage, 1e-6)
    errors = delta_e(_to_lab(left_out, method), lab)
    return Fit(Correction(method, matrix, scale), lab, errors)


def _to_lab(values: Floats, method: Method) -> Floats:
    return roots_to_lab(values) if method.cube_root else xyz_to_lab(values)
