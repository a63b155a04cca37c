"""Falloff of the light: found where it is, not where a tone curve looks like it."""

import numpy as np
import pytest

from studio.colour.correction import chart_24
from studio.colour.lab_arrays import Floats, lab_to_xyz
from studio.picture.falloff import Falloff, even_light, falloff_of_chart, falloff_of_paper

_, LAB = chart_24("24")
CAMERA = np.array([[0.7, 0.3, 0.02], [0.25, 0.9, 0.1], [0.02, 0.1, 1.1]])
ROWS, COLUMNS = np.divmod(np.arange(24), 6)
PLACES = np.column_stack([100.0 + 120 * COLUMNS, 80.0 + 120 * ROWS])


def lit(slope: tuple[float, float], power: float = 1.0) -> Floats:
    rng = np.random.default_rng(4)
    light = np.exp((PLACES - PLACES.mean(axis=0)) @ np.array(slope))
    clean = lab_to_xyz(LAB) @ CAMERA.T * light[:, None] * 0.6
    noisy: Floats = clean**power * (1 + rng.normal(0, 0.004, clean.shape))
    return noisy


@pytest.mark.parametrize(
    ("slope", "towards"),
    [
        ((-4e-4, 0.0), "the right"),
        ((3e-4, 3e-4), "the upper left"),
        ((0.0, -8e-4), "the bottom"),
    ],
)
def test_it_is_found_over_a_chart(slope: tuple[float, float], towards: str) -> None:
    found = falloff_of_chart(PLACES, lit(slope), LAB)
    np.testing.assert_allclose(found.slope, slope, atol=5e-5)
    assert found.towards == towards
    light = np.exp((PLACES - PLACES.mean(axis=0)) @ np.array(slope))
    assert found.share == pytest.approx(1 - light.min() / light.max(), abs=0.04)


@pytest.mark.parametrize("power", [1.0, 0.8, 1.25])
def test_even_light_is_left_alone_whatever_the_tone_curve(power: float) -> None:
    found = falloff_of_chart(PLACES, lit((0.0, 0.0), power), LAB)
    assert found.slope.tolist() == [0, 0]
    assert found.share == 0


def test_paper_at_three_places_tells() -> None:
    slope = np.array([-2e-4, 1e-4])
    places = np.array([[0.0, 0], [900, 0], [0, 700], [900, 700], [400, 300]])
    papers = [(place, float(0.8 * np.exp(place @ slope))) for place in places]
    found = falloff_of_paper(papers)
    np.testing.assert_allclose(found.slope, slope, atol=1e-9)
    assert found.paper == pytest.approx(0, abs=1e-9)
    assert len(found.reach) == 5
    assert falloff_of_paper(papers[:3]).paper is None
    bent = [*papers[:4], (papers[4][0], papers[4][1] * 1.1)]
    assert falloff_of_paper(bent).paper == pytest.approx(0.1, abs=0.03)


def test_a_breath_of_falloff_is_left_alone() -> None:
    papers = [(np.array([x, y]), 1 - 1e-5 * x) for x, y in ((0.0, 0.0), (900.0, 0.0), (0.0, 900.0))]
    assert falloff_of_paper(papers).slope.tolist() == [0, 0]


def test_places_far_from_all_that_was_seen_are_told() -> None:
    light = even_light(PLACES)
    assert not light.is_beyond(PLACES[7])
    assert not light.is_beyond(np.array([400.0, 700.0]))
    assert light.is_beyond(np.array([3000.0, 200.0]))
    np.testing.assert_array_equal(light.light(PLACES), np.ones(24))
    assert isinstance(light, Falloff)
