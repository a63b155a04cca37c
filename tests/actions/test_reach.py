"""What lies outside what paint on paper has reached: darker, lighter or more intense."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.actions.make_reading import Circumstances, reading_of_lab
from studio.actions.reach import (
    HUE_WINDOW,
    LIGHTNESS_WINDOW,
    Limit,
    Reach,
    nearest_swatch,
    reach_of,
)
from studio.catalogue.reading import Method, State
from studio.colour.box import Box
from studio.colour.difference import ciede2000
from studio.colour.lab import Lab
from tests.actions.conftest import DAY, Shelf


def lch(lightness: float, chroma: float, hue: float) -> Lab:
    """A colour by lightness, chroma and hue angle in degrees."""
    angle = math.radians(hue)
    return Lab(lightness, chroma * math.cos(angle), chroma * math.sin(angle))


@pytest.fixture
def washes(shelf: Shelf) -> Shelf:
    """Dry washes: the darkest S1, two reds S2 and S3, a grey S4; one that was only read wet, S5."""
    shelf.swatch("UM", lch(20.0, 12.0, 280.0))
    shelf.swatch("CR", lch(48.0, 60.0, 35.0))
    shelf.swatch("1 CR + 1 BS", lch(52.0, 40.0, 40.0))
    shelf.swatch("1 UM + 1 BS", lch(60.0, 2.0, 200.0))
    shelf.swatch("AC", lch(12.0, 90.0, 35.0), state=State.WET)
    return shelf


def one(shelf: Shelf, lab: Lab) -> Reach:
    (reach,) = reach_of(shelf.work, [lab])
    return reach


def test_without_dry_swatches_nothing_is_known(shelf: Shelf) -> None:
    shelf.swatch("UM", lch(20.0, 12.0, 280.0), state=State.WET)
    reach = one(shelf, lch(50.0, 50.0, 30.0))
    assert (reach.swatches, reach.beyond, reach.is_known) == (0, (), False)
    assert nearest_swatch(shelf.work, reach.lab) is None


def test_what_is_no_more_than_the_records_is_inside(washes: Shelf) -> None:
    reach = one(washes, lch(48.0, 55.0, 35.0))
    assert (reach.beyond, reach.neighbours, reach.is_known) == ((), 2, True)
    assert reach.nearest == reach.lab


def test_darker_than_the_darkest_is_outside(washes: Shelf) -> None:
    reach = one(washes, Lab(8.0, 1.0, 1.0))
    (beyond,) = reach.beyond
    assert beyond.limit is Limit.DARKER
    assert (beyond.asked, beyond.reached, beyond.by) == (8.0, 20.0, "S1")
    assert reach.nearest == Lab(20.0, 1.0, 1.0)
    assert reach.neighbours is None
    assert reach.is_known


def test_more_chromatic_than_every_swatch_near_that_hue_is_outside(washes: Shelf) -> None:
    reach = one(washes, lch(50.0, 80.0, 38.0))
    (beyond,) = reach.beyond
    assert beyond.limit is Limit.MORE_INTENSE
    assert beyond.asked == pytest.approx(80.0)
    assert beyond.reached == pytest.approx(60.0)
    assert beyond.by == "S2"
    assert reach.nearest.coordinates == pytest.approx(lch(50.0, 60.0, 38.0).coordinates)
    assert reach.neighbours == 2


def test_the_chroma_of_a_dark_colour_is_judged_at_the_value_that_was_reached(
    washes: Shelf,
) -> None:
    reach = one(washes, lch(10.0, 40.0, 280.0))
    assert [beyond.limit for beyond in reach.beyond] == [Limit.DARKER, Limit.MORE_INTENSE]
    assert reach.nearest.coordinates == pytest.approx(lch(20.0, 12.0, 280.0).coordinates)


@pytest.mark.parametrize(
    ("lightness", "hue", "neighbours"),
    [
        (48.0, 35.0 + HUE_WINDOW - 0.1, 2),
        (48.0, 35.0 - HUE_WINDOW + 0.1, 1),
        (48.0, 35.0 - HUE_WINDOW - 0.1, 0),
        (48.0 - LIGHTNESS_WINDOW + 0.1, 37.0, 1),
        (48.0 - LIGHTNESS_WINDOW - 0.1, 37.0, 0),
        (60.0, 200.0, 0),
    ],
    ids=["at the window", "one of two", "beyond it", "value", "beyond the value", "of greys none"],
)
def test_neighbours_lie_within_both_windows(
    washes: Shelf, lightness: float, hue: float, neighbours: int
) -> None:
    reach = one(washes, lch(lightness, 70.0, hue))
    assert reach.neighbours == neighbours
    assert reach.is_known == (neighbours > 0)
    assert bool(reach.beyond) == (neighbours > 0)


def test_hues_meet_across_the_full_turn(shelf: Shelf) -> None:
    shelf.swatch("AC", lch(40.0, 50.0, 355.0))
    assert one(shelf, lch(40.0, 70.0, 5.0)).neighbours == 1
    assert one(shelf, lch(40.0, 70.0, 20.0)).neighbours == 0


def test_a_difference_that_is_not_seen_is_not_called_outside(washes: Shelf) -> None:
    assert one(washes, lch(48.0, 61.0, 35.0)).beyond == ()
    assert one(washes, lch(19.5, 12.0, 280.0)).beyond == ()


def test_lighter_than_the_lightest_white_is_outside(washes: Shelf) -> None:
    assert one(washes, Lab(99.0, 0.0, 0.0)).beyond == ()  # no white was read
    for code, lightness in (("SR", 94.0), ("SM", 92.0)):
        white = reading_of_lab(
            Lab(lightness, 0.0, 2.0), Circumstances(DAY, Method.COLORIMETER, State.DRY)
        )
        washes.work.papers.add_white(washes.paper(code).id, white)
    washes.work.forget()
    (beyond,) = one(washes, Lab(99.0, 0.0, 0.0)).beyond
    assert (beyond.limit, beyond.asked, beyond.reached, beyond.by) == (
        Limit.LIGHTER, 99.0, 94.0, "SR",
    )  # fmt: skip


def test_the_nearest_mix_is_that_of_the_exact_search(washes: Shelf) -> None:
    lab = lch(50.0, 80.0, 38.0)
    nearest = nearest_swatch(washes.work, lab)
    assert nearest is not None
    distances = {
        swatch.facts.code: ciede2000(lab.coordinates, swatch.lab.coordinates)
        for swatch in washes.work.swatches.all()
        if swatch.state is State.DRY
    }
    assert nearest.swatch.facts.code == min(distances, key=lambda code: distances[code])


coordinates = st.tuples(st.floats(0, 100), st.floats(0, 90), st.floats(0, 360, exclude_max=True))


@settings(max_examples=40)
@given(st.lists(coordinates, min_size=1, max_size=6))
def test_the_nearest_value_is_itself_inside(labs: list[tuple[float, float, float]]) -> None:
    """On a stream of swatches without a database; and a colour inside is its own nearest value."""
    shelf = _StreamOf([lch(30, 40, 90), lch(50, 20, 100), lch(70, 60, 80), lch(45, 30, 300)])
    for reach in reach_of(shelf, [lch(*each) for each in labs]):  # type: ignore[arg-type]
        if not reach.beyond:
            assert reach.nearest == reach.lab
        (again,) = reach_of(shelf, [reach.nearest])  # type: ignore[arg-type]
        assert again.beyond == ()


class _StreamOf:
    """What `reach_of` asks of a unit of work."""

    def __init__(self, labs: list[Lab]) -> None:
        self._labs = labs
        self.swatches = self.papers = self

    def all(self) -> tuple[()]:
        return ()

    def darkest(self) -> tuple[int, float] | None:
        rows = [(lab.lightness, key) for key, lab in enumerate(self._labs)]
        return min(rows)[::-1] if rows else None

    def count_dry(self) -> int:
        return len(self._labs)

    def searched(self, _wanted: object) -> "_StreamOf":
        return self

    def inside(self, box: Box) -> list[tuple[int, int, float, float, float]]:
        return [
            (key, key, *lab.coordinates)
            for key, lab in enumerate(self._labs)
            if box.lightness_low <= lab.lightness <= box.lightness_high
        ]

    def by_ids(self, keys: list[int]) -> "dict[int, _StreamOf]":
        return dict.fromkeys(keys, self)

    @property
    def facts(self) -> "_StreamOf":
        return self

    code = "S1"
