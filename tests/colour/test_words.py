"""The words for what separates two colours: value, then hue, then chroma, each by its size."""

import math
from typing import Final

import colour
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from studio.colour.difference import Triple, components
from studio.colour.words import NEUTRAL_CHROMA, UNIQUE_HUES, Separation, separation

HUES: Final = frozenset(UNIQUE_HUES)

axes = st.floats(-100.0, 100.0)
colours = st.tuples(st.floats(0.0, 100.0), axes, axes)

DEGREES: Final = ("a trace ", "a little ", "", "much ")
TURNED: Final = {
    "lighter": "darker",
    "more intense": "duller",
    "redder": "greener",
    "yellower": "bluer",
}


def _lch(lightness: float, chroma: float, hue: float) -> Triple:
    angle = math.radians(hue)
    return lightness, chroma * math.cos(angle), chroma * math.sin(angle)


def _direction(word: str) -> str:
    for degree in ("a trace ", "a little ", "much "):
        word = word.removeprefix(degree)
    return word


def test_value_comes_first_then_hue_then_chroma() -> None:
    found = separation(_lch(50, 40, 45), _lch(60, 60, 75))
    assert found.words == ("much lighter", "much yellower", "much more intense")
    assert found.sentence == "much lighter, much yellower, much more intense"


def test_the_numbers_behind_the_words_come_with_them() -> None:
    reference, sample = _lch(50, 40, 45), _lch(44, 30, 60)
    assert separation(reference, sample).numbers == components(reference, sample)


@pytest.mark.parametrize(
    ("hue", "anticlockwise", "clockwise"),
    [
        (45, "yellower", "redder"),
        (135, "greener", "yellower"),
        (225, "bluer", "greener"),
        (315, "redder", "bluer"),
    ],
)
def test_a_hue_leans_to_the_neighbours_of_its_quarter(
    hue: float, anticlockwise: str, clockwise: str
) -> None:
    reference = _lch(50, 50, hue)
    assert separation(reference, _lch(50, 50, hue + 20)).words == (f"much {anticlockwise}",)
    assert separation(reference, _lch(50, 50, hue - 20)).words == (f"much {clockwise}",)


@pytest.mark.parametrize(
    ("word", "anticlockwise", "clockwise"),
    [
        ("redder", "yellower", "bluer"),
        ("yellower", "greener", "redder"),
        ("greener", "bluer", "yellower"),
        ("bluer", "redder", "greener"),
    ],
)
def test_a_unique_hue_moves_away_from_itself_to_both_sides(
    word: str, anticlockwise: str, clockwise: str
) -> None:
    hue = UNIQUE_HUES[word]
    reference = _lch(50, 50, hue)
    assert separation(reference, _lch(50, 50, hue + 20)).words == (f"much {anticlockwise}",)
    assert separation(reference, _lch(50, 50, hue - 20)).words == (f"much {clockwise}",)
    assert separation(_lch(50, 50, hue + 20), reference).words == (f"much {word}",)
    assert separation(_lch(50, 50, hue - 20), reference).words == (f"much {word}",)


LEMON, CADMIUM_YELLOW, PINK = _lch(88, 80, 98), _lch(78, 85, 80), _lch(70, 40, 349)


@pytest.mark.parametrize(
    ("reference", "sample", "word"),
    [
        (PINK, LEMON, "yellower"),
        (LEMON, PINK, "redder"),
        (CADMIUM_YELLOW, LEMON, "greener"),
        (LEMON, CADMIUM_YELLOW, "redder"),
        (_lch(50, 50, 10), _lch(50, 50, 26), "redder"),
        (_lch(50, 50, 26), _lch(50, 50, 10), "bluer"),
        (_lch(50, 50, 16), _lch(50, 50, 29), "yellower"),
        (_lch(50, 50, 29), _lch(50, 50, 16), "bluer"),
        (_lch(50, 50, 270), _lch(50, 50, 242), "bluer"),
        (_lch(50, 50, 242), _lch(50, 50, 270), "redder"),
    ],
)
def test_a_difference_across_a_unique_hue_is_named_by_where_it_leads(
    reference: Triple, sample: Triple, word: str
) -> None:
    (named,) = [each for each in separation(reference, sample).words if _direction(each) in HUES]
    assert _direction(named) == word


@pytest.mark.parametrize("hue", range(3, 360, 5))
def test_about_half_a_turn_the_word_does_not_hang_on_the_way_round(hue: int) -> None:
    reference = _lch(50, 50, hue)
    words = {separation(reference, _lch(50, 50, hue + turn)).words for turn in (179.99, 180.01)}
    assert len(words) == 1


@pytest.mark.parametrize("lightness", [30.0, 50.0, 70.0, 85.0])
@pytest.mark.parametrize("chroma", [25.0, 40.0, 60.0])
def test_the_unique_hues_are_those_of_ciecam02_seen_by_d50(lightness: float, chroma: float) -> None:
    """CIE 159:2004 has hue angles of the unique hues, here as colour-science carries them."""
    appearance = colour.appearance
    angles = appearance.ciecam02.HUE_DATA_FOR_HUE_QUADRATURE["h_i"][:4]
    xy = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D50"]
    white = 100.0 * colour.xy_to_XYZ(xy)
    for angle, ours in zip(angles, UNIQUE_HUES.values(), strict=True):
        seen = appearance.CAM_Specification_CIECAM02(J=lightness, C=chroma, h=float(angle))
        _, a, b = colour.XYZ_to_Lab(
            appearance.CIECAM02_to_XYZ(seen, white, 63.66, 20.0) / 100.0, xy
        )
        off = abs((math.degrees(math.atan2(b, a)) - ours + 180.0) % 360.0 - 180.0)
        assert off <= (0.5 if (lightness, chroma) == (50.0, 40.0) else 9.0)


@pytest.mark.parametrize(
    ("step", "degree"),
    [
        (0.5, "a trace "),
        (1.19, "a trace "),
        (1.2, "a little "),
        (2.99, "a little "),
        (3.0, ""),
        (5.99, ""),
        (6.0, "much "),
        (40.0, "much "),
    ],
)
def test_a_step_of_value_is_named_by_its_size(step: float, degree: str) -> None:
    # About mid grey S_L is 1, so that the step is the difference of L* itself.
    darker, lighter = (50.0 - step / 2, 30.0, 30.0), (50.0 + step / 2, 30.0, 30.0)
    assert separation(darker, lighter).words == (f"{degree}lighter",)
    assert separation(lighter, darker).words == (f"{degree}darker",)


@pytest.mark.parametrize("middle", [5.0, 95.0])
def test_a_step_of_value_counts_less_in_the_darkest_and_the_lightest(middle: float) -> None:
    # S_L of equation 18 of Sharma, Wu, Dalal (2005) is 1.67 at 45 from mid grey.
    small, larger = (middle - 0.4, middle + 0.4), (middle - 0.42, middle + 0.42)
    assert separation((small[0], 30, 30), (small[1], 30, 30)).words == ()
    assert separation((larger[0], 30, 30), (larger[1], 30, 30)).words == ("a trace lighter",)


def test_chroma_and_hue_are_judged_by_their_ciede2000_weights() -> None:
    # S_C = 1 + .045·C and S_H <= 1 + .015·C: at C* 100 a step of 5 in chroma is below 1.
    assert separation(_lch(50, 97.5, 45), _lch(50, 102.5, 45)).words == ("a trace more intense",)
    assert separation(_lch(50, 102.5, 45), _lch(50, 97.5, 45)).words == ("a trace duller",)
    turn = math.degrees(2 * math.asin(5 / 200))
    assert separation(_lch(50, 100, 40), _lch(50, 100, 40 + turn)).words == ("a little yellower",)


def test_differences_below_half_a_step_are_the_same_to_the_eye() -> None:
    found = separation((50.0, 30.0, 30.0), (50.4, 30.3, 30.2))
    assert found.words == ()
    assert found.sentence == "the same to the eye"


def test_a_sentence_of_no_words_says_so() -> None:
    nothing = components((50.0, 0.0, 0.0), (50.0, 0.0, 0.0))
    assert Separation((), nothing).sentence == "the same to the eye"


@pytest.mark.parametrize(
    ("reference", "sample", "words"),
    [
        ((50, 0, 0), (50, 2, 0), ("a little redder",)),
        ((50, 0, 0), (50, -2, 0), ("a little greener",)),
        ((50, 0, 0), (50, 0, 4), ("yellower",)),
        ((50, 0, 0), (50, 0, -4), ("bluer",)),
        ((50, 0, 0), (50, 1, -7), ("much bluer", "a trace redder")),
        ((50, 0, 0), (50, 7, -1), ("much redder", "a trace bluer")),
        ((50, 3, 3.9), (46, 20, 3.9), ("darker", "much redder")),
        ((80, 1, 1), (80, 1.2, 1.2), ()),
    ],
)
def test_near_grey_the_lean_is_named_the_stronger_one_first(
    reference: Triple, sample: Triple, words: tuple[str, ...]
) -> None:
    assert separation(reference, sample).words == words


def test_a_grey_beside_a_vivid_colour_is_duller_and_not_of_another_hue() -> None:
    assert separation((50.0, 60.0, 30.0), (50.0, 0.0, 1.0)).words == ("much duller",)


def test_from_one_weak_colour_to_its_opposite_the_lean_is_named_both_ways() -> None:
    # Chroma alone would call this difference of 10 in a* a trace.
    there = separation((50.0, 5.5, 0.0), (50.0, -4.5, 0.0))
    assert (there.words, there.lean) == (("much greener",), (-10.0, 0.0))
    assert separation((50.0, -4.5, 0.0), (50.0, 5.5, 0.0)).words == ("much redder",)


def test_at_a_chroma_of_five_hue_and_chroma_are_named_again() -> None:
    assert separation((50.0, 5.0, 0.0), (50.0, 25.0, 0.0)).words == ("much more intense",)


@given(colours, colours)
def test_what_is_lighter_or_more_intense_is_darker_or_duller_the_other_way(
    reference: Triple, sample: Triple
) -> None:
    def told(one: Triple, other: Triple) -> list[str]:
        words = separation(one, other).words
        return [word for word in words if _direction(word) in told_of]

    # From a grey the lean is named, towards a grey the chroma: only like pairs turn round.
    assume((math.hypot(*reference[1:]) < 5.0) == (math.hypot(*sample[1:]) < 5.0))
    told_of = {"lighter", "darker", "more intense", "duller"}
    there, back = told(reference, sample), told(sample, reference)
    assert [word.replace(_direction(word), _turned(_direction(word))) for word in there] == back


greys = st.tuples(st.floats(20.0, 95.0), st.floats(-3.0, 3.0), st.floats(-3.0, 3.0))


@given(greys, greys)
def test_near_grey_every_word_turns_when_the_colours_are_swapped(
    reference: Triple, grey: Triple
) -> None:
    there, back = separation(reference, grey).words, separation(grey, reference).words
    assert [word.replace(_direction(word), _turned(_direction(word))) for word in there] == [*back]


@given(colours, colours)
def test_no_hue_is_named_both_from_a_to_b_and_from_b_to_a(one: Triple, other: Triple) -> None:
    there, back = separation(one, other).words, separation(other, one).words
    assert not set(map(_direction, there)) & set(map(_direction, back))


@given(colours, colours)
def test_a_hue_ends_nearer_to_the_hue_that_is_named(reference: Triple, sample: Triple) -> None:
    assume(min(math.hypot(*reference[1:]), math.hypot(*sample[1:])) >= NEUTRAL_CHROMA)
    words = map(_direction, separation(reference, sample).words)
    for name in HUES.intersection(words):
        wanted = UNIQUE_HUES[name]
        assert _degrees(sample, wanted) < _degrees(reference, wanted)


steps = st.floats(2.0, 30.0)


@given(st.floats(0.0, 360.0), steps, st.sampled_from([1, -1]))
def test_a_small_step_is_named_by_the_first_unique_hue_ahead_or_one_it_ends_at(
    start: float, step: float, way: int
) -> None:
    reference, sample = _lch(50, 50, start), _lch(50, 50, start + way * step)
    (named,) = separation(reference, sample).words
    ahead = way * (UNIQUE_HUES[_direction(named)] - start) % 360.0
    others = [way * (hue - start) % 360.0 for hue in UNIQUE_HUES.values()]
    assert ahead >= step * 2.0 / 3.0 - 1e-6
    assert not [each for each in others if step * 2.0 / 3.0 + 1e-6 < each < ahead - 1e-6]


def _degrees(lab: Triple, hue: float) -> float:
    """How far a colour's hue lies from a hue."""
    return abs((math.degrees(math.atan2(lab[2], lab[1])) - hue + 180.0) % 360.0 - 180.0)


def _turned(direction: str) -> str:
    return (TURNED | {less: more for more, less in TURNED.items()})[direction]


@given(colours, colours)
def test_value_is_always_named_before_hue_and_hue_before_chroma(
    reference: Triple, sample: Triple
) -> None:
    order = [
        {"lighter", "darker"},
        {"redder", "yellower", "greener", "bluer"},
        {"more intense", "duller"},
    ]
    words = separation(reference, sample).words
    places = [
        next(place for place, names in enumerate(order) if _direction(word) in names)
        for word in words
    ]
    assert places == sorted(places)
    assert all(word.removesuffix(_direction(word)) in DEGREES for word in words)
