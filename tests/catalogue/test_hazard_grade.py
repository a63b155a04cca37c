"""Three grades by stated rules: grave before mild, and what nobody looked up has none."""

from dataclasses import replace

import pytest

from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import Basis, Hazard, HazardCode, Listing, ListName, Scope, Use
from studio.catalogue.hazard_grade import RULES, Grade, grade_of, gravest_first, rule_of


def _code(code: str, word: str, *, hedged: bool = False) -> HazardCode:
    return HazardCode(code, word, "a statement", hedged)


def _listing(name: ListName, entry: str, word: str, scope: Scope | None = None) -> Listing:
    return Listing(name, entry, scope, (word,))


def _hazard(
    *codes: HazardCode,
    metals: tuple[str, ...] = (),
    routes: tuple[str, ...] = ("swallowing",),
    listings: tuple[Listing, ...] = (),
    use: Use | None = None,
) -> Hazard:
    return Hazard(
        pigment="PY0",
        agent="an agent",
        cas=None,
        summary="a caution",
        codes=codes,
        basis=Basis.NONE,
        basis_detail=None,
        routes=routes,
        metals=metals,
        evidence=Evidence.MEMORY,
        source="a test",
        use=use,
        listings=listings,
    )


CANCER = _code("H350", "carcinogen")
SWALLOWED = _code("H302", "acute toxicity")

LEAD_CHROMATE = _hazard(CANCER, metals=("chromate", "lead"), use=Use.NEVER)
SIENNA_OR_UMBER = _hazard(
    _code("H302", "acute toxicity", hedged=True), metals=("manganese",), routes=("breathing dust",)
)


@pytest.mark.parametrize(
    "hazard",
    [
        LEAD_CHROMATE,
        _hazard(use=Use.NEVER),
        *(_hazard(metals=(metal,)) for metal in ("lead", "mercury", "arsenic", "cadmium")),
        _hazard(_code("H350", "carcinogen", hedged=True), metals=("chromate",)),
        _hazard(CANCER),
        _hazard(_code("H341", "mutagen")),
        _hazard(_code("H360", "reproductive toxicity")),
        _hazard(CANCER, routes=("breathing dust",)),
        _hazard(listings=(_listing(ListName.NTP, "known", "carcinogen"),)),
        _hazard(listings=(_listing(ListName.IARC, "2A", "carcinogen"),)),
        _hazard(listings=(_listing(ListName.HCIS, "H360F", "reproductive toxicity"),)),
    ],
)
def test_lasting_harm_and_what_is_never_used_are_grave(hazard: Hazard) -> None:
    assert grade_of(hazard) is Grade.GRAVE


@pytest.mark.parametrize(
    "hazard",
    [
        _hazard(_code("H350i", "carcinogen", hedged=True), metals=("nickel",)),
        _hazard(listings=(_listing(ListName.IARC, "1", "carcinogen", Scope.GROUP),)),
        _hazard(listings=(_listing(ListName.IARC, "2B", "carcinogen"),)),
        _hazard(
            listings=(_listing(ListName.PROPOSITION_65, "cancer", "carcinogen"),),
            routes=("breathing dust",),
        ),
        _hazard(SWALLOWED),
        _hazard(_code("H410", "aquatic"), metals=("zinc",)),
        _hazard(_code("H317", "skin sensitiser"), metals=("cobalt",)),
    ],
)
def test_a_doubt_takes_one_grade_off_and_other_classes_stand_between(hazard: Hazard) -> None:
    assert grade_of(hazard) is Grade.MIDDLE


@pytest.mark.parametrize(
    "hazard",
    [
        SIENNA_OR_UMBER,
        _hazard(),
        _hazard(metals=("cobalt",)),
        _hazard(_code("EUH031", "other")),
        _hazard(_code("H317", "skin sensitiser", hedged=True)),
        _hazard(listings=(_listing(ListName.IARC, "2B", "carcinogen", Scope.PARENT_DYE),)),
    ],
)
def test_what_is_hedged_or_a_route_alone_is_mild(hazard: Hazard) -> None:
    assert grade_of(hazard) is Grade.MILD


def test_a_sienna_does_not_look_like_lead_chromate() -> None:
    assert grade_of(SIENNA_OR_UMBER) is not grade_of(LEAD_CHROMATE)
    middle = _hazard(SWALLOWED)
    grave = replace(LEAD_CHROMATE, use=None)
    shown = gravest_first([SIENNA_OR_UMBER, middle, grave, LEAD_CHROMATE])
    assert shown == [LEAD_CHROMATE, grave, middle, SIENNA_OR_UMBER]


def test_every_rule_is_stated_and_reached() -> None:
    assert [rule.grade for rule in RULES] == sorted(
        (rule.grade for rule in RULES), key=list(Grade).index
    )
    assert all(rule.text and rule.source for rule in RULES)
    reached = {
        rule_of(hazard)
        for hazard in (
            LEAD_CHROMATE,
            _hazard(CANCER),
            _hazard(_code("H350", "carcinogen", hedged=True)),
            _hazard(SWALLOWED),
            SIENNA_OR_UMBER,
        )
    }
    assert reached == set(RULES)
