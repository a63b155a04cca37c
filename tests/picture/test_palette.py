"""The main colours of a picture: shares, places, and the same answer for the same seed."""

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.errors import BadInput
from studio.picture import palette
from studio.picture.palette import main_colours

Floats = npt.NDArray[np.float64]

SKY, MUD, SAIL = (82.0, -3.0, -12.0), (38.0, 4.0, 14.0), (47.0, 48.0, 40.0)


def _creek() -> Floats:
    """Sky over mud with a red sail, 60 x 40, slightly uneven."""
    picture = np.empty((40, 60, 3))
    picture[:22], picture[22:] = SKY, MUD
    picture[10:30, 40:46] = SAIL
    picture += np.random.default_rng(7).normal(0.0, 0.4, picture.shape)
    return picture


def test_three_colours_are_found_with_their_shares_and_places() -> None:
    sky, mud, sail = main_colours(_creek(), 3)
    for found, wanted in ((sky, SKY), (mud, MUD), (sail, SAIL)):
        assert found.lab == pytest.approx(wanted, abs=0.3)
        assert found.spread < 1.0
    pixels = [22 * 60 - 12 * 6, 18 * 60 - 8 * 6, 20 * 6]
    assert [colour.share * 2400 for colour in (sky, mud, sail)] == pytest.approx(pixels)
    assert 40 / 60 < sail.x < 46 / 60
    assert 10 / 40 < sail.y < 30 / 40
    # Farthest inside: the middle of the broad part left of the sail.
    assert sky.x < 40 / 60
    assert sky.y == pytest.approx(11 / 40, abs=0.05)
    assert mud.y == pytest.approx(31 / 40, abs=0.05)


def test_the_place_lies_in_the_colours_own_largest_part_and_never_in_a_gap() -> None:
    picture = np.full((41, 41, 3), SKY)
    rows, columns = np.ogrid[:41, :41]
    distance = np.hypot(rows - 20, columns - 20)
    picture[(distance < 18) & (distance > 10)] = MUD  # a ring: its middle is sky
    picture[0:2, 0:2] = MUD  # and a speck
    mud = min(main_colours(picture, 2), key=lambda colour: colour.lab[0])
    assert 10 < np.hypot(mud.y * 41 - 20.5, mud.x * 41 - 20.5) < 18


@settings(max_examples=25)
@given(
    st.integers(1, 6),
    st.integers(0, 2**32 - 1),
    st.integers(0, 2**32 - 1),
)
def test_the_same_seed_repeats_itself_and_shares_add_up(count: int, seed: int, noise: int) -> None:
    picture = np.random.default_rng(noise).uniform((0, -60, -60), (100, 60, 60), (9, 11, 3))
    found = main_colours(picture, count, seed)
    assert found == main_colours(picture.copy(), count, seed)
    assert len(found) == count
    assert sum(colour.share for colour in found) == pytest.approx(1.0)
    assert [colour.share for colour in found] == sorted(
        (colour.share for colour in found), reverse=True
    )
    assert all(0 < colour.x < 1 and 0 < colour.y < 1 and colour.share > 0 for colour in found)


def test_another_seed_may_part_an_even_spread_otherwise() -> None:
    picture = np.random.default_rng(3).uniform((0, -60, -60), (100, 60, 60), (20, 20, 3))
    answers = {main_colours(picture, 7, seed) for seed in range(6)}
    assert len(answers) > 1


def test_as_many_colours_as_there_are_is_each_of_them() -> None:
    colours = [SKY, MUD, SAIL, (10.0, 0.0, 0.0)]
    picture = np.array([colours[0:2], colours[2:4]])
    found = main_colours(picture, 4)
    assert sorted(colour.lab for colour in found) == sorted(colours)
    assert {colour.share for colour in found} == {0.25}


@pytest.mark.parametrize("count", [0, -3, 41])
def test_a_count_out_of_range_is_refused(count: int) -> None:
    with pytest.raises(BadInput, match=f"ask for 1 to 40 colours, not {count}"):
        main_colours(_creek(), count)


def test_more_colours_than_the_picture_holds_are_refused_with_how_many_it_has() -> None:
    with pytest.raises(BadInput, match="does not hold 3 different colours; ask for at most 2"):
        main_colours(np.array([[SKY, MUD], [MUD, SKY]]), 3)


def test_a_start_that_loses_a_cluster_is_tried_again(monkeypatch: pytest.MonkeyPatch) -> None:
    from scipy.cluster import vq

    real, calls = vq.kmeans2, []

    def unlucky(*given: object, **options: object) -> object:
        calls.append(given)
        if len(calls) == 1:
            raise vq.ClusterError
        centres, labels = real(*given, **options)
        return (centres, np.zeros_like(labels)) if len(calls) == 2 else (centres, labels)

    monkeypatch.setattr(vq, "kmeans2", unlucky)
    assert len(main_colours(_creek(), 3)) == 3
    assert len(calls) == palette._TRIES


def test_a_picture_that_cannot_be_parted_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    from scipy.cluster import vq

    def never(*_given: object, **_options: object) -> object:
        raise vq.ClusterError

    monkeypatch.setattr(vq, "kmeans2", never)
    with pytest.raises(BadInput, match="cannot be parted into 3 colours; ask for fewer"):
        main_colours(_creek(), 3)
