"""The highest chroma near each hue and value, against going through every colour."""

import math

import pytest

from studio.colour.outline import chroma_by_hue, chroma_by_lightness, near_hue, near_lightness

LABS = [
    (50 + 50 * math.sin(7.3 * n), 80 * math.cos(n) * math.sin(0.1 * n), 70 * math.sin(n))
    for n in range(300)
]


def _hue(a: float, b: float) -> float:
    return math.degrees(math.atan2(b, a)) % 360


@pytest.mark.parametrize("window", [0, 5, 15])
def test_chroma_by_hue_is_the_highest_within_the_window_to_a_degree(window: int) -> None:
    found = chroma_by_hue(LABS, window)
    assert len(found) == 360
    for hue in range(360):

        def highest(degrees: float, at: int = hue) -> float:
            chromas = [
                math.hypot(a, b)
                for _, a, b in LABS
                if abs((_hue(a, b) - at + 180) % 360 - 180) <= degrees and math.hypot(a, b) >= 5
            ]
            return max(chromas, default=0.0)

        assert highest(window - 0.5) <= found[hue] <= highest(window + 0.5)


def test_greys_and_no_colours_reach_nowhere() -> None:
    assert set(chroma_by_hue([(50, 1, 1)], 15)) == {0.0}
    assert set(chroma_by_hue([], 15)) == {0.0}
    assert set(chroma_by_lightness([], 10)) == {0.0}


def test_hue_goes_round() -> None:
    found = chroma_by_hue([(50, 40 * math.cos(0.02), -40 * math.sin(0.02))], 3)
    places = [hue for hue, chroma in enumerate(found) if chroma]
    assert places == [0, 1, 2, 356, 357, 358, 359]


def test_chroma_by_lightness_is_the_highest_within_the_window_to_a_unit() -> None:
    found = chroma_by_lightness(LABS, 10)
    for step in range(101):
        low, high = (
            max(
                (math.hypot(a, b) for light, a, b in LABS if abs(light - step) <= window),
                default=0.0,
            )
            for window in (9.5, 10.5)
        )
        assert low <= found[step] <= high


def test_windows_leave_out_the_rest() -> None:
    assert all(abs(lab[0] - 40) <= 10 for lab in near_lightness(LABS, 40, 10))
    near = near_hue(LABS, 350, 15)
    assert near
    assert all(_hue(a, b) >= 335 or _hue(a, b) <= 5 for _, a, b in near)
