"""A recipe is the same whatever the order or the scale it was typed in."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.catalogue.recipe import LARGEST_PART, Recipe, in_lowest_terms, read_recipe, read_terms
from studio.errors import BadInput, NotFound

amounts = st.integers(1, 144).map(lambda twelfths: Fraction(twelfths, 12))
recipes = st.dictionaries(st.integers(1, 50), amounts, min_size=1, max_size=4)

SHELF = {"ultramarine": 7, "burnt sienna": 3, "fu": 7, "white": 9}


def _paint(name: str) -> int:
    if name not in SHELF:
        raise NotFound(name)
    return SHELF[name]


@pytest.mark.parametrize(
    ("text", "terms"),
    [
        ("2 ultramarine + 1 burnt sienna", [("2", "ultramarine"), ("1", "burnt sienna")]),
        ("ultramarine", [("1", "ultramarine")]),
        ("ultramarine+burnt sienna", [("1", "ultramarine"), ("1", "burnt sienna")]),
        ("0.5 fu + 1.25 bs", [("1/2", "fu"), ("5/4", "bs")]),
        ("1,5 fu + .5 bs + ,25 y", [("3/2", "fu"), ("1/2", "bs"), ("1/4", "y")]),
        ("1/2 fu + 2 / 3 bs", [("1/2", "fu"), ("2/3", "bs")]),
        ("1 1/2 fu + 10 1 / 4 bs", [("3/2", "fu"), ("41/4", "bs")]),
        ("2 parts of fu + 1 part bs + of y", [("2", "fu"), ("1", "bs"), ("1", "y")]),
        ("3 drops of fu + 1 drop bs", [("3", "fu"), ("1", "bs")]),
        ("2fu", [("2", "fu")]),
        ("  2\tfu \n +  burnt   sienna ", [("2", "fu"), ("1", "burnt sienna")]),
        ("2 Partridge Brown + Offset Grey", [("2", "Partridge Brown"), ("1", "Offset Grey")]),
        ("0.1 fu", [("1/10", "fu")]),
    ],
)
def test_terms_are_read_exactly(text: str, terms: list[tuple[str, str]]) -> None:
    assert read_terms(text) == [(Fraction(amount), name) for amount, name in terms]


@pytest.mark.parametrize("text", ["", "  ", "+", "fu +", "+ fu", "fu ++ bs", "2", "2 + 1", "1/2"])
def test_a_term_without_a_name_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match="is not clear; write it as: 2 ultramarine"):
        read_terms(text)


@pytest.mark.parametrize("text", ["0 fu", "0.0 fu", "0/3 fu", "-1 fu", "-1/2 fu", "bs + -2.5 fu"])
def test_parts_must_be_above_zero(text: str) -> None:
    with pytest.raises(BadInput, match="parts must be above zero; fu has"):
        read_terms(text)


@pytest.mark.parametrize("text", ["1/0 fu", "2 1/0 fu"])
def test_a_division_by_zero_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match="divide by zero"):
        read_terms(text)


def test_a_number_of_thousands_of_digits_is_refused() -> None:
    with pytest.raises(BadInput):
        read_recipe("9" * 5000 + " ultramarine + white", _paint)


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("2 ultramarine + 4 burnt sienna", ((7, 1), (3, 2))),
        ("0.5 ultramarine + 1/3 burnt sienna", ((7, 3), (3, 2))),
        ("1 1/2 ultramarine + burnt sienna", ((7, 3), (3, 2))),
        ("ultramarine + burnt sienna + 2 fu", ((7, 3), (3, 1))),
        ("17 ultramarine", ((7, 1),)),
        ("10000 white + ultramarine", ((9, 10_000), (7, 1))),
    ],
)
def test_parts_are_the_smallest_whole_numbers(
    text: str, parts: tuple[tuple[int, int], ...]
) -> None:
    assert read_recipe(text, _paint).parts == parts


def test_a_name_that_fits_no_paint_is_passed_on() -> None:
    with pytest.raises(NotFound, match="mud"):
        read_recipe("ultramarine + mud", _paint)


@pytest.mark.parametrize("text", ["10001 white + fu", "0.00001 white + fu", "1/10001 white + fu"])
def test_a_ratio_beyond_the_largest_part_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match="beyond 1:10000; round them"):
        read_recipe(text, _paint)


@given(recipes, st.fractions(min_value=Fraction(1, 100), max_value=100))
def test_order_and_scale_do_not_matter(typed: dict[int, Fraction], scale: Fraction) -> None:
    once = in_lowest_terms(typed.items())
    again = in_lowest_terms([(paint, amount * scale) for paint, amount in reversed(typed.items())])
    assert once.key == again.key
    assert sorted(once.parts) == sorted(again.parts)
    assert once.paints == again.paints == frozenset(typed)


@given(recipes)
def test_the_ratio_is_kept(typed: dict[int, Fraction]) -> None:
    parts = dict(in_lowest_terms(typed.items()).parts)
    assert list(parts) == list(typed)
    ratios = {Fraction(parts[paint]) / amount for paint, amount in typed.items()}
    assert len(ratios) == 1


@given(recipes, st.integers(1, 50), amounts)
def test_amounts_of_one_paint_add_up(
    typed: dict[int, Fraction], paint: int, more: Fraction
) -> None:
    apart = in_lowest_terms([*typed.items(), (paint, more)])
    together = in_lowest_terms((typed | {paint: typed.get(paint, Fraction(0)) + more}).items())
    assert apart.key == together.key


@given(st.lists(st.tuples(amounts, st.sampled_from([*SHELF])), min_size=1, max_size=5))
def test_what_is_written_is_read(terms: list[tuple[Fraction, str]]) -> None:
    assert read_terms(" + ".join(f"{amount} {name}" for amount, name in terms)) == terms


def test_recipes_of_other_ratios_or_paints_have_other_keys() -> None:
    texts = ["ultramarine", "white", "ultramarine + white", "2 ultramarine + white",
             "ultramarine + 2 white"]  # fmt: skip
    assert len({read_recipe(text, _paint).key for text in texts}) == len(texts)


def test_a_key_lists_paints_by_their_number() -> None:
    assert Recipe(((7, 1), (3, 2))).key == "3*2+7*1"


@pytest.mark.parametrize(
    "parts", [(), ((1, 0),), ((1, -1),), ((1, 2), (2, 4)), ((1, 3),), ((1, 1), (2, 0))]
)
def test_a_recipe_must_be_in_lowest_terms(parts: tuple[tuple[int, int], ...]) -> None:
    with pytest.raises(BadInput, match="whole parts in lowest terms"):
        Recipe(parts)


def test_a_recipe_names_a_paint_once() -> None:
    with pytest.raises(BadInput, match="names each paint once"):
        Recipe(((1, 1), (1, 2)))


@pytest.mark.parametrize(
    "parts",
    [[], [(1, Fraction(0))], [(1, Fraction(1)), (2, Fraction(0))], [(1, Fraction(-1))],
     [(1, Fraction(1)), (1, Fraction(-1))]],
)  # fmt: skip
def test_no_paint_or_no_amount_makes_no_recipe(parts: list[tuple[int, Fraction]]) -> None:
    with pytest.raises(BadInput):
        in_lowest_terms(parts)


def test_the_largest_part_itself_is_allowed() -> None:
    assert in_lowest_terms([(1, Fraction(LARGEST_PART)), (2, Fraction(1))]).parts[0] == (1, 10_000)


@pytest.mark.parametrize(
    ("text", "amounts"),
    [
        ("½ fu + 1½ bs", [Fraction(1, 2), Fraction(3, 2)]),
        ("⅔ fu", [Fraction(2, 3)]),
        ("2 x fu + 3 × bs", [Fraction(2), Fraction(3)]),
    ],
)
def test_fractions_and_times_may_be_typed_as_signs(text: str, amounts: list[Fraction]) -> None:
    assert [amount for amount, _ in read_terms(text)] == amounts
    assert {name for _, name in read_terms(text)} <= {"fu", "bs"}
