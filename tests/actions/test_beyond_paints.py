"""Which of value, hue and chroma fails is what ΔE00 holds most against the nearest recipe."""

import pytest

from studio.actions.beyond_paints import Failing, beyond_paints
from studio.colour.difference import Triple


@pytest.mark.parametrize(
    ("wanted", "nearest", "failing", "more"),
    [
        ((10.0, 2.0, 1.0), (30.0, 3.0, 1.0), Failing.VALUE, True),
        ((95.0, 30.0, 10.0), (70.0, 31.0, 10.0), Failing.VALUE, False),
        ((50.0, 80.0, 10.0), (51.0, 50.0, 7.0), Failing.CHROMA, False),
        ((50.0, 30.0, 10.0), (50.0, 60.0, 20.0), Failing.CHROMA, True),
        ((50.0, 40.0, 0.0), (50.0, 30.0, 26.0), Failing.HUE, True),
        ((50.0, 40.0, 0.0), (50.0, 30.0, -26.0), Failing.HUE, False),
        # near grey the hue says nothing
        ((50.0, 1.0, 1.0), (50.0, 15.0, -15.0), Failing.CHROMA, True),
        ((50.0, -30.0, 20.0), (50.0, 1.0, 2.0), Failing.CHROMA, False),
    ],
)
def test_what_fails(wanted: Triple, nearest: Triple, failing: Failing, *, more: bool) -> None:
    found = beyond_paints(wanted, nearest)
    assert (found.failing, found.more) == (failing, more)
    assert found.separation.words
