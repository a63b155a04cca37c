"""What is reported of a pigment's hazards, and how a class is asked for."""

import pytest

from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import (
    ADVICE,
    EVERY_PAINT,
    HEAVY_METALS,
    METALS,
    NO_DATA,
    UNCLASSIFIED,
    Basis,
    Hazard,
    HazardCode,
    read_class,
)
from studio.errors import BadInput

CANCER = HazardCode("H350", "carcinogen", "May cause cancer", hedged=False)
SWALLOWED = HazardCode("H302", "toxic", "Harmful if swallowed", hedged=False)
PERHAPS_CANCER = HazardCode("H351", "carcinogen", "Suspected of causing cancer", hedged=True)
PERHAPS_WATER = HazardCode("H410", "aquatic", "Very toxic to aquatic life", hedged=True)
SUPPLEMENT = HazardCode("EUH208", UNCLASSIFIED, "May produce an allergic reaction", hedged=False)


def _hazard(*codes: HazardCode, metals: tuple[str, ...] = ()) -> Hazard:
    return Hazard(
        pigment="PY35",
        agent="an agent",
        cas=None,
        summary="a caution",
        codes=codes,
        basis=Basis.NONE,
        basis_detail=None,
        routes=("swallowing",),
        metals=metals,
        evidence=Evidence.MEMORY,
        source="a test",
    )


@pytest.mark.parametrize("code", [CANCER, SWALLOWED, PERHAPS_CANCER])
def test_a_classified_statement_needs_care_hedged_or_not(code: HazardCode) -> None:
    assert _hazard(code).needs_care


@pytest.mark.parametrize("metal", sorted(HEAVY_METALS))
def test_a_heavy_metal_needs_care_without_any_statement(metal: str) -> None:
    assert _hazard(metals=(metal,)).needs_care


@pytest.mark.parametrize("metal", sorted(set(METALS) - HEAVY_METALS))
def test_another_metal_alone_does_not(metal: str) -> None:
    assert not _hazard(metals=(metal,)).needs_care
    assert _hazard(SWALLOWED, metals=(metal,)).needs_care


def test_a_supplementary_statement_alone_does_not() -> None:
    assert not _hazard(SUPPLEMENT).needs_care
    assert not _hazard().needs_care
    assert _hazard(SUPPLEMENT, SWALLOWED).needs_care


def test_heavy_metals_are_among_the_known_metals() -> None:
    assert set(METALS) > HEAVY_METALS


def test_what_only_some_grades_carry_has_a_question_mark() -> None:
    assert _hazard(SWALLOWED, PERHAPS_WATER).class_words == ("aquatic?", "toxic")


def test_a_certain_class_is_not_questioned_by_a_hedged_statement_of_it() -> None:
    assert _hazard(PERHAPS_CANCER, CANCER).class_words == ("carcinogen",)


def test_each_class_is_named_once() -> None:
    assert _hazard(CANCER, CANCER, PERHAPS_WATER, PERHAPS_WATER).class_words == (
        "aquatic?",
        "carcinogen",
    )


def test_without_statements_there_are_no_words() -> None:
    assert _hazard(metals=("lead",)).class_words == ()


def test_classes_are_those_of_its_statements_and_its_metals() -> None:
    found = _hazard(CANCER, PERHAPS_WATER, metals=("cadmium", "zinc")).classes
    assert found == {"carcinogen", "aquatic", "cadmium", "zinc"}


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("any", "any"),
        (" ANY ", "any"),
        ("Carcinogen", "carcinogen"),
        ("skin  sensitiser", "skin sensitiser"),
        ("Cadmium", "cadmium"),
    ],
)
def test_a_class_is_asked_for_in_any_case(typed: str, read: str) -> None:
    assert read_class(typed, ["carcinogen", "skin sensitiser"]) == read


@pytest.mark.parametrize("typed", ["", "poison", "cadmiums", "gold"])
def test_an_unknown_class_is_refused_with_the_known_ones(typed: str) -> None:
    with pytest.raises(BadInput, match=r"choose any, or one of: antimony, .*carcinogen") as refusal:
        read_class(typed, ["carcinogen"])
    assert all(metal in str(refusal.value) for metal in METALS)


@pytest.mark.parametrize("sentence", [ADVICE, EVERY_PAINT, NO_DATA])
def test_no_general_sentence_calls_a_paint_safe(sentence: str) -> None:
    words = sentence.lower().replace("safety data sheet", "").split()
    assert not {"safe", "harmless", "non-toxic", "nontoxic"}.intersection(words)
