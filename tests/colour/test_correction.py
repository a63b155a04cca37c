"""Corrections: known cameras are undone, errors are those of leaving out, chart data published."""

import warnings

import numpy as np
import pytest

from studio.colour.correction import (
    METHODS,
    QUICK,
    Method,
    chart_24,
    fit_correction,
    fit_matrix,
)
from studio.colour.lab_arrays import Floats, delta_e, lab_to_roots, lab_to_xyz, xyz_to_lab

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import colour

CAMERA = np.array([[0.7, 0.3, 0.02], [0.25, 0.9, 0.1], [0.02, 0.1, 1.1]])
_, LAB = chart_24("24")
LINEAR = lab_to_xyz(LAB) @ CAMERA.T
METHOD = {method.name: method for method in METHODS}


def test_a_known_camera_matrix_is_undone() -> None:
    fit = fit_correction(LINEAR, LAB)
    assert fit.correction.method.name == "matrix of 3 x 3"
    assert fit.most < 1e-6
    np.testing.assert_allclose(fit.correction.lab(LINEAR), LAB, atol=1e-6)
    np.testing.assert_allclose(fit.correction.matrix, np.linalg.inv(CAMERA).T * LINEAR.max())


@pytest.mark.parametrize("method", METHODS, ids=lambda method: method.name)
def test_the_error_is_that_of_leaving_each_patch_out(method: Method) -> None:
    rng = np.random.default_rng(5)
    xyz = rng.dirichlet(np.full(24, 0.2), 60) @ lab_to_xyz(LAB)  # a chart of 60 patches
    reference = xyz_to_lab(xyz)
    linear = np.clip(xyz @ CAMERA.T + rng.normal(0, 0.004, xyz.shape), 0.001, None)
    quick = fit_correction(linear, reference, [method])
    brute = []
    for left_out in range(60):
        kept = np.arange(60) != left_out
        scale = linear.max()
        expanded = method.expand(linear / scale)
        target = lab_to_roots(reference) if method.cube_root else xyz
        y = xyz[:, 1:2]
        weight = np.ones_like(y) if method.cube_root else (y + 0.02) ** (-2 / 3)
        matrix = np.linalg.lstsq((expanded * weight)[kept], (target * weight)[kept], rcond=None)[0]
        value = expanded[left_out] @ matrix
        brute.append(_lab(value, method))
    np.testing.assert_allclose(
        quick.errors, delta_e(np.array(brute), reference), rtol=1e-3, atol=1e-4
    )


def _lab(value: Floats, method: Method) -> Floats:
    if not method.cube_root:
        return xyz_to_lab(value)
    x, y, z = value
    return np.array([116 * y - 16, 500 * (x - y), 200 * (y - z)])


def test_expansions_are_those_of_colour_science() -> None:
    rgb = np.array([[0.2, 0.5, 0.7], [0.9, 0.1, 0.3]])
    for name, terms in (("Cheung 2004, 7 terms", 7), ("Cheung 2004, 14 terms", 14)):
        expected = colour.characterisation.matrix_augmented_Cheung2004(rgb, terms)
        np.testing.assert_allclose(METHOD[name].expand(rgb), expected)
    # Finlayson (2015), table 1: the root-polynomials of degree 2.
    r, g, b = rgb.T
    roots = np.column_stack([r, g, b, np.sqrt(r * g), np.sqrt(g * b), np.sqrt(r * b)])
    found = METHOD["Finlayson 2015, degree 2"].expand(rgb)
    np.testing.assert_allclose(np.sort(found), np.sort(roots))
    single = METHOD["Vandermonde, degree 2 of cube roots"].expand(rgb[:1])
    np.testing.assert_allclose(
        np.sort(single), np.sort([[*np.cbrt(rgb[0]), *np.cbrt(rgb[0]) ** 2, 1]])
    )


def test_exposure_does_not_change_what_is_read() -> None:
    bright, dark = fit_correction(LINEAR, LAB), fit_correction(LINEAR * 0.2, LAB)
    np.testing.assert_allclose(
        bright.correction.lab(LINEAR[:3]), dark.correction.lab(LINEAR[:3] * 0.2)
    )


def test_a_tone_curve_takes_more_than_a_matrix() -> None:
    bent = (LINEAR / LINEAR.max()) ** 0.8
    fit = fit_correction(bent, LAB)
    assert fit.mean < 0.6 * fit_matrix(bent, LAB).mean
    assert len(fit.correction.matrix) > 3


def test_a_simpler_method_is_taken_where_it_is_as_good() -> None:
    rng = np.random.default_rng(2)
    noisy = LINEAR * (1 + rng.normal(0, 0.01, LINEAR.shape))
    fit = fit_correction(noisy, LAB)
    alone = [
        fit_correction(noisy, LAB, [method]) for method in METHODS if len(_terms(method)) <= 14
    ]
    assert fit.mean <= 1.05 * min(one.mean for one in alone)
    better = [one for one in alone if one.mean <= 1.05 * min(other.mean for other in alone)]
    assert len(fit.correction.matrix) == min(len(one.correction.matrix) for one in better)


def _terms(method: Method) -> Floats:
    terms: Floats = method.expand(LINEAR[:1])[0]
    return terms


def test_few_patches_allow_few_terms() -> None:
    assert len(fit_correction(LINEAR[:8] ** 0.7, LAB[:8]).correction.matrix) <= 4
    assert len(QUICK) == 5


@pytest.mark.parametrize(
    ("chart", "patch", "lab"),
    [  # the maker's published Lab under D50/2°, to its two digits, from memory
        ("24", "dark skin", (37.54, 14.37, 14.92)),
        ("24", "white 9.5 (.05 D)", (95.19, -1.03, 2.93)),
        ("24-older", "dark skin", (37.99, 13.56, 14.06)),
        ("24-older", "white 9.5 (.05 D)", (96.54, -0.43, 1.19)),
    ],
)
def test_chart_data_is_the_published(
    chart: str, patch: str, lab: tuple[float, float, float]
) -> None:
    names, values = chart_24(chart)
    assert len(names) == len(values) == 24
    np.testing.assert_allclose(values[names.index(patch)], lab, atol=0.011)
