"""The error that a reading claims holds for swatches, cameras and lights that it was not fitted on.

`photographed.py` says what is rendered; `benchmarks/picture_error.py` fits the model.
"""

from dataclasses import replace

import numpy as np

from studio.picture.reading_error import MOST, USUAL, Expected
from tests.picture.photographed import fitted, okumura, outcomes, photographed, shots, unseen

SCENES, SEED = 45, 12


def test_68_and_95_percent_hold_on_scenes_that_were_not_used() -> None:
    found = outcomes(unseen(), SCENES, SEED)
    assert len({one.shot.camera for one in found}) == 3
    assert len(found) > 400
    usual = np.mean([one.missed <= one.read.error for one in found])
    most = np.mean([one.missed <= (one.read.most or 0.0) for one in found])
    assert abs(usual - 0.68) < 0.05, usual
    assert abs(most - 0.95) < 0.05, most
    # The claim tells the well read from the badly read.
    order = np.argsort([one.read.error for one in found])
    missed = np.array([one.missed for one in found])[order]
    third = len(order) // 3
    assert missed[-third:].mean() > 1.8 * missed[:third].mean()


def test_the_sets_share_no_camera_no_light_and_no_pigment() -> None:
    one, other = fitted(), unseen()
    assert not set(one.cameras) & set(other.cameras)
    assert not set(one.lights) & set(other.lights)
    assert len(okumura()) == 26
    both = np.concatenate([one.pigments, other.pigments])
    assert len(np.unique(both.round(9), axis=0)) == len(both) == 78


def test_more_paper_does_not_make_it_worse() -> None:
    """Mean ΔE00 of the same scenes with more bare paper shown, in light that falls off."""
    lit = [
        replace(shot, lamp=(3.0, 2.0, 6.0), lens=0.0, tone=0.0) for shot in shots(unseen(), 6, SEED)
    ]
    by_whites = []
    for whites in (0, 3, 5):
        found = [
            one for shot in lit for one in photographed(unseen(), replace(shot, whites=whites), 24)
        ]
        by_whites.append(np.mean([one.missed for one in found]))
    bare, three, five = by_whites
    assert three < bare
    assert five < 1.05 * three


def test_a_doubt_is_added_as_a_variance() -> None:
    more = Expected(3.0, 3.0 * MOST / USUAL).with_doubt(4.0)
    assert np.isclose(more.usual, 5.0)
    assert np.isclose(more.most, 5.0 * MOST / USUAL)
