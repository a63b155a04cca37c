"""Colour Index names have one spelling; a pigment's rating is the worst that counts."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.catalogue.evidence import Evidence
from studio.catalogue.lightfastness import LightfastnessRating, Scale
from studio.catalogue.pigment import Pigment, base_names, ci_name, order_of
from studio.errors import BadInput


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("PB29", "PB29"),
        ("pb29", "PB29"),
        (" pb 29 ", "PB29"),
        ("PB  15", "PB15"),
        ("pb15:3", "PB15:3"),
        ("PW6:1", "PW6:1"),
        ("pbr7", "PBr7"),
        ("PBR 7", "PBr7"),
        ("pbk9", "PBk9"),
        ("PV 19", "PV19"),
        ("pr101", "PR101"),
        ("PY154", "PY154"),
        ("po62", "PO62"),
        ("pg7", "PG7"),
        ("PM1", "PM1"),
        ("nr9", "NR9"),
        ("nbr 8", "NBr8"),
        ("PR101 Transparent", "PR101 transparent"),
        ("PB15:2 (RS)", "PB15:2 red shade"),
        ("PR108 medium deep", "PR108 medium deep"),
        ("pbr7 Sienna", "PBr7 sienna"),
        ("C.I. Pigment Red 108", "PR108"),
        ("Natural Red 9", "NR9"),
        ("BV10", "Basic Violet 10"),
        ("c.i. basic violet 10", "Basic Violet 10"),
        ("AR52", "Acid Red 52"),
        ("MR 11", "Mordant Red 11"),
        ("SBk3", "Solvent Black 3"),
        ("vb4", "Vat Blue 4"),
        ("FY13", "Food Yellow 13"),
        ("RB5", "Reactive Blue 5"),
        ("DR80", "Direct Red 80"),
        ("disperse blue 3", "Disperse Blue 3"),
        ("pv 19  ROSE", "PV19 rose"),
    ],
)
def test_a_name_has_its_usual_spelling(typed: str, name: str) -> None:
    assert ci_name(typed) == name
    assert ci_name(name) == name


@given(
    st.sampled_from("PN"),
    st.sampled_from(["Br", "Bk", *"YORVBGWM"]),
    st.integers(1, 999),
    st.one_of(st.none(), st.integers(1, 9)),
)
def test_every_hue_and_number_is_read_back_from_any_case(
    kind: str, hue: str, number: int, grade: int | None
) -> None:
    name = f"{kind}{hue}{number}" + (f":{grade}" if grade else "")
    assert ci_name(name.lower()) == ci_name(name.upper()) == ci_name(name) == name


@pytest.mark.parametrize(
    "typed",
    ["", "  ", "PB", "29", "PX1", "XB29", "PB1234", "PB-29", "P B 29", "PB29a", "PB29:",
     "PB29, PV19", "PBRK7", "ultramarine"],
)  # fmt: skip
def test_what_is_not_built_like_one_is_refused(typed: str) -> None:
    with pytest.raises(BadInput, match="write it like PB29, PBr7 or PV19"):
        ci_name(typed)


@pytest.mark.parametrize("typed", ["PR108 hue", "pr108 (HUE)", "PR108 deep hue", "PB15:3 hue"])
def test_a_hue_is_refused_with_a_word_of_where_to_look(typed: str) -> None:
    with pytest.raises(BadInput, match="give the pigments that the label itself lists"):
        ci_name(typed)


@pytest.mark.parametrize("typed", ["PR108 foo", "PB29 a b", "PY3 5", "PB15 PV19", "PB29 x light"])
def test_other_words_behind_a_name_are_refused(typed: str) -> None:
    with pytest.raises(BadInput, match="alone and the rest as the paint's note"):
        ci_name(typed)


@pytest.mark.parametrize(
    ("name", "bases"),
    [
        ("PR108", ()),
        ("PR108 light", ("PR108",)),
        ("PR108:2", ("PR108",)),
        ("PBr7 sienna deep", ("PBr7 sienna", "PBr7 deep", "PBr7")),
        ("PB15:2 light", ("PB15:2", "PB15 light", "PB15")),
        ("Basic Violet 10:1", ("Basic Violet 10",)),
        ("PR108 hue", ()),
        ("PR108 seaweed", ("PR108",)),
        ("my own red", ()),
    ],
)
def test_a_name_without_data_leads_to_its_bases_the_nearest_first(
    name: str, bases: tuple[str, ...]
) -> None:
    assert base_names(name) == bases


def test_names_stand_by_class_hue_and_number() -> None:
    names = ["my red", "Basic Violet 10", "Acid Red 52", "PB29", "PB15:3", "NR9", "PY35", "PR108"]
    assert sorted(names, key=order_of) == [
        "PY35", "NR9", "PR108", "PB15:3", "PB29", "Acid Red 52", "Basic Violet 10", "my red",
    ]  # fmt: skip


def _pigment(*ratings: str) -> Pigment:
    return Pigment(
        ci_name="PB29",
        ci_number="77007",
        common_name="ultramarine",
        chemical_class=None,
        evidence=None,
        source=None,
        note=None,
        ratings=tuple(
            LightfastnessRating(
                "PB29", Scale.ASTM_D4303, rating, "watercolour", None, "a test", Evidence.MEMORY
            )
            for rating in ratings
        ),
    )


def test_the_worst_of_its_ratings_counts() -> None:
    found = _pigment("I", "III", "II").worst_rating
    assert found is not None
    assert found.rating == "III"


def test_without_ratings_nothing_is_known() -> None:
    assert _pigment().worst_rating is None
