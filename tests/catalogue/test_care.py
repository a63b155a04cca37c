"""What to mind in each kind of work: every hazard has its points, and nothing is a verdict."""

import csv
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.catalogue.care import (
    ARTS,
    BASIS_WORDS,
    NEVER,
    NOTHING_FOUND,
    OWNER_READ,
    PRACTICE,
    UNKNOWN,
    WORK_WORDS,
    Work,
    read_class_kind,
    read_work,
)
from studio.catalogue.care_general import GENERAL
from studio.catalogue.care_points import (
    CODE_WORDS,
    Care,
    care_of,
    hazard_points,
    own_grounds,
)
from studio.catalogue.care_rules import RULES
from studio.catalogue.data_sheet import DataSheet
from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import (
    HEAVY_METALS,
    METALS,
    Basis,
    Hazard,
    HazardCode,
    Listing,
    ListName,
    Scope,
    Use,
)
from studio.catalogue.paint import Paint, PaintFacts
from studio.catalogue.pigment import Pigment
from studio.catalogue.stock import Stock, Unit
from studio.errors import BadInput

SHARED = Path(__file__).resolve().parents[2] / "shared"
AIR = (Work.SPATTER, Work.SPRAY, Work.DRY_PIGMENT, Work.SANDING)
with (SHARED / "h_statements.csv").open(encoding="utf-8", newline="") as _file:
    CODES = {row["code"]: row["hazard_class"] for row in csv.DictReader(_file)}
DAY = date(2026, 11, 25)
NO_STOCK = Stock(None, Unit.ML, None)
HEALTH = sorted(code for code in CODES if code.startswith("H3"))


def _hazard(
    *codes: str,
    metals: tuple[str, ...] = (),
    routes: tuple[str, ...] = (),
    basis: Basis = Basis.NONE,
    verified_on: date | None = None,
    hedged: bool = False,
) -> Hazard:
    return Hazard(
        pigment="PB99",
        agent="estuary blue",
        cas=None,
        summary="A caution of its own.",
        codes=tuple(HazardCode(code, CODES[code], "wording", hedged) for code in codes),
        basis=basis,
        basis_detail=None,
        routes=routes,
        metals=metals,
        evidence=Evidence.MEMORY,
        source="a test",
        verified_on=verified_on,
    )


def _paint(*hazards: Hazard, known: bool = True, pigments: bool = True) -> Paint:
    evidence = Evidence.MEMORY if known else None
    pigment = Pigment("PB99", None, None, None, evidence, None, None, hazards=hazards)
    listed = (pigment,) if pigments else ()
    return Paint(1, PaintFacts("EB", "Pellow & Strand", "Estuary Blue"), listed, NO_STOCK)


def _care(work: Work, *hazards: Hazard) -> Care:
    return care_of([_paint(*hazards)], work)


@pytest.mark.parametrize("work", Work)
def test_each_kind_of_work_has_words_and_points_of_its_own(work: Work) -> None:
    assert WORK_WORDS[work]
    assert len(GENERAL[work]) >= 2
    assert all(text.endswith(".") and source for text, source in GENERAL[work])


@pytest.mark.parametrize("work", [Work.BRUSH, *AIR, Work.ADULTS, Work.CHILDREN])
def test_the_main_ways_of_harm_name_their_source(work: Work) -> None:
    assert ARTS in {source for _, source in GENERAL[work]}


@pytest.mark.parametrize("work", Work)
@pytest.mark.parametrize("metal", sorted(HEAVY_METALS))
def test_each_heavy_metal_has_a_point_that_rests_on_it(metal: str, work: Work) -> None:
    points = hazard_points(_hazard(metals=(metal,)), work)
    assert any(metal in ground.marks for point in points for ground in point.grounds)


@pytest.mark.parametrize("work", [*AIR, Work.RINSE_WATER, Work.ADULTS, Work.CHILDREN])
@pytest.mark.parametrize("metal", sorted(HEAVY_METALS))
def test_a_heavy_metal_is_left_out_of_air_drain_and_classes(metal: str, work: Work) -> None:
    assert _care(work, _hazard(metals=(metal,))).avoid


@pytest.mark.parametrize("metal", sorted(set(METALS) - HEAVY_METALS))
def test_another_metal_alone_is_left_out_of_nothing(metal: str) -> None:
    assert [work for work in Work if _care(work, _hazard(metals=(metal,))).avoid] == []


@pytest.mark.parametrize("work", AIR)
@pytest.mark.parametrize(
    "code",
    ["H350", "H350i", "H351", "H340", "H361", "H372", "H334", "H330", "H331", "H332", "EUH380",
     "EUH381"],
)  # fmt: skip
def test_grave_or_inhaled_harm_is_kept_out_of_the_air(code: str, work: Work) -> None:
    care = _care(work, _hazard(code))
    assert care.avoid
    assert {mark for ground in care.avoided_for for mark in ground.marks} == {code}


@pytest.mark.parametrize("work", AIR)
@pytest.mark.parametrize("code", ["H302", "H317", "H319", "H410"])
def test_other_harm_does_not_keep_it_out_of_the_air(code: str, work: Work) -> None:
    assert not _care(work, _hazard(code)).avoid


def test_a_route_of_mist_bars_the_sprayer_and_a_route_of_dust_warns() -> None:
    mist = _hazard(routes=("breathing mist",))
    dust = _hazard(routes=("breathing dust",))
    assert _care(Work.SPRAY, mist).avoid
    assert not _care(Work.SPATTER, mist).avoid
    for work in (Work.DRY_PIGMENT, Work.SANDING):
        care = _care(work, dust)
        assert not care.avoid
        assert any("dust" in point.text for point in care.points)


@pytest.mark.parametrize(
    "hazard",
    [
        *(_hazard(code) for code in ("H410", "H411", "EUH430", "EUH431", "EUH440", "EUH450")),
        _hazard(routes=("environment",)),
        _hazard(metals=("lead",)),
    ],
)
def test_what_harms_water_does_not_go_down_the_drain(hazard: Hazard) -> None:
    care = _care(Work.RINSE_WATER, hazard)
    assert care.avoid
    assert "local rules" in care.points[0].text


def test_acid_and_heat_are_minded() -> None:
    acid = _care(Work.BRUSH, _hazard("EUH031"))
    heat = _care(Work.SANDING, _hazard(routes=("heating",)))
    assert any("acids" in point.text for point in acid.points)
    assert any("heat" in point.text for point in heat.points)


@pytest.mark.parametrize("code", HEALTH)
def test_children_are_kept_from_every_statement_of_harm_to_people(code: str) -> None:
    assert _care(Work.CHILDREN, _hazard(code)).avoid


@pytest.mark.parametrize(
    "code",
    ["EUH070", "EUH071", "EUH201", "EUH201A", "EUH207", "EUH211", "EUH380", "EUH381"],
)
def test_children_are_kept_from_supplementary_statements_of_harm(code: str) -> None:
    assert _care(Work.CHILDREN, _hazard(code)).avoid


@pytest.mark.parametrize("route", ["swallowing", "skin", "eyes", "breathing dust", "heating"])
def test_a_route_alone_comes_to_children_as_wet_paint_where_label_and_sheet_allow_it(
    route: str,
) -> None:
    care = _care(Work.CHILDREN, _hazard(metals=("copper",), routes=(route,)))
    (point,) = care.points
    assert not point.avoid
    assert point.source == PRACTICE
    assert all(
        word in point.text
        for word in ("label and data sheet", "wet paint by brush", "mouth", "hands washed")
    )
    assert [ground.marks for ground in point.grounds] == [(route,)]


@pytest.mark.parametrize(
    "hazard",
    [
        _hazard("H319", hedged=True),
        _hazard("H302", basis=Basis.NOTIFIED),
        _hazard("EUH212"),
        _hazard(metals=("cobalt",)),
    ],
)
def test_a_route_beside_a_statement_or_a_heavy_metal_stays_at_home(hazard: Hazard) -> None:
    care = _care(Work.CHILDREN, replace(hazard, routes=("swallowing", "skin", "eyes")))
    assert [point.text for point in care.points] == ["Leave it at home."]


@pytest.mark.parametrize("work", [Work.ADULTS, Work.CHILDREN, Work.RINSE_WATER])
def test_acid_is_kept_from_what_frees_gas_in_classes_too(work: Work) -> None:
    texts = [point.text for point in _care(work, _hazard("EUH031")).points]
    assert any("acids" in text for text in texts)


def test_a_statement_outside_the_classes_is_told_in_words() -> None:
    hazard = replace(_hazard("EUH031", hedged=True), routes=("breathing dust",))
    acid = next(
        g for p in hazard_points(hazard, Work.BRUSH) for g in p.grounds if "EUH031?" in g.marks
    )
    assert acid.text == "PB99 toxic gas with acid?"
    assert acid.codes == ("EUH031?",)
    assert acid.is_plain
    assert not replace(acid, words=("nickel",), marks=("nickel",)).is_plain
    assert set(CODE_WORDS) <= set(CODES)


def test_what_there_is_to_mind_with_several_paints_is_told_once() -> None:
    hazard = _hazard(routes=("swallowing", "breathing dust"))
    paints = [_paint(hazard), _paint(hazard), _paint()]
    texts = [ground.text for ground in own_grounds(paints, Work.CHILDREN)]
    assert texts == ["PB99 not looked up", "PB99 swallowing, breathing dust"]


@pytest.mark.parametrize("code", ["H317", "H319", "H315"])
def test_adults_are_told_of_allergies_and_irritation_not_kept_from_them(code: str) -> None:
    care = _care(Work.ADULTS, _hazard(code))
    assert not care.avoid
    assert code in {mark for point in care.points for g in point.grounds for mark in g.marks}


@pytest.mark.parametrize(
    "hazard",
    [
        *(_hazard(code) for code in ("H360", "H360D", "H361f", "H362", "H340", "H351", "EUH380")),
        *(_hazard(metals=(metal,)) for metal in ("lead", "mercury", "cadmium")),
    ],
)
def test_a_pregnant_painter_leaves_it_out_and_asks_a_doctor(hazard: Hazard) -> None:
    care = _care(Work.PREGNANCY, hazard)
    assert care.avoid
    assert "doctor" in care.points[0].text


@pytest.mark.parametrize("work", Work)
def test_each_statement_has_a_point_in_each_kind_of_work(work: Work) -> None:
    without = [
        code
        for code in CODES
        if not any(
            code in ground.marks
            for point in hazard_points(_hazard(code), work)
            for ground in point.grounds
        )
    ]
    assert without == []


def test_a_hazard_without_a_rule_speaks_for_itself() -> None:
    (point,) = hazard_points(_hazard(routes=("skin",)), Work.RINSE_WATER)
    assert (point.text, point.source, point.avoid) == ("A caution of its own.", "a test", False)
    assert [ground.text for ground in point.grounds] == ["PB99 skin"]
    (point,) = hazard_points(_hazard(metals=("copper",)), Work.SPRAY)
    assert [ground.text for ground in point.grounds] == ["PB99 copper"]


_HAZARDS = st.builds(
    _hazard,
    st.sampled_from(sorted(CODES)),
    metals=st.lists(st.sampled_from(METALS), max_size=2, unique=True).map(tuple),
    routes=st.lists(
        st.sampled_from(["swallowing", "skin", "eyes", "breathing dust", "environment"]),
        max_size=2,
        unique=True,
    ).map(tuple),
    basis=st.sampled_from(Basis),
    hedged=st.booleans(),
)


@given(hazards=st.lists(_HAZARDS, max_size=3), known=st.booleans(), pigments=st.booleans())
def test_what_adults_are_kept_from_children_are_kept_from(
    *, hazards: list[Hazard], known: bool, pigments: bool
) -> None:
    paint = _paint(*hazards, known=known, pigments=pigments)
    children = care_of([paint], Work.CHILDREN).avoid
    assert children or not care_of([paint], Work.ADULTS).avoid
    assert children or not paint.unread


@given(st.lists(_HAZARDS, max_size=3), st.lists(_HAZARDS, max_size=3), st.sampled_from(Work))
def test_a_mix_is_as_strict_as_the_strictest_of_its_paints(
    one: list[Hazard], other: list[Hazard], work: Work
) -> None:
    paints = [_paint(*one), _paint(*other)]
    alone = [care_of([paint], work) for paint in paints]
    both = care_of(paints, work)
    assert both.avoid == any(care.avoid for care in alone)
    assert {p.text for p in both.points} == {p.text for care in alone for p in care.points}
    assert [point.avoid for point in both.points] == sorted(
        (point.avoid for point in both.points), reverse=True
    )


@pytest.mark.parametrize("paint", [_paint(known=False), _paint(pigments=False), _paint()])
def test_what_nobody_knows_is_left_out_of_every_work_until_it_is_read(paint: Paint) -> None:
    assert paint.unread
    cares = [care_of([paint], work) for work in Work]
    assert {care.work for care in cares if care.avoid} == set(Work) - {Work.BRUSH}
    assert {care.work for care in cares if care.unread} == set(Work) - {Work.BRUSH}
    assert {point.text for care in cares for point in care.points} == {UNKNOWN}
    noted = replace(paint, data_sheet=DataSheet("a.pdf", None, "AP", DAY))
    assert noted.unread == ()
    for work in Work:
        care = care_of([noted], work)
        assert not care.avoid
        assert [point.text for point in care.points] == [OWNER_READ]
        assert "label: AP" in care.points[0].grounds[0].text


@pytest.mark.parametrize(
    "sheet",
    [
        DataSheet("a.pdf", None, None, DAY),
        DataSheet(None, None, "AP", DAY),
        DataSheet("a.pdf", None, "GHS08, danger", DAY),
        DataSheet("a.pdf", None, "CL", DAY),
    ],
)
def test_half_a_reading_or_a_label_that_warns_lets_nothing_come_along(sheet: DataSheet) -> None:
    paint = replace(_paint(), data_sheet=sheet)
    assert paint.unread
    assert care_of([paint], Work.ADULTS).unread


@pytest.mark.parametrize("marks", ["AP", "non-toxic, AP", "no warning", "ASTM D4236"])
def test_a_label_that_warns_of_nothing_does_not_warn(marks: str) -> None:
    assert DataSheet("a.pdf", None, marks, DAY).warning is None


def test_looked_up_and_nothing_found_says_who_looked_where() -> None:
    where = "the harbour's list, 2026-11: no entry found"
    (pigment,) = _paint().pigments
    paint = replace(_paint(), pigments=(replace(pigment, looked_up=where),))
    assert paint.unread == ()
    for work in Work:
        care = care_of([paint], work)
        assert [point.text for point in care.points] == [NOTHING_FOUND]
        assert where in care.points[0].grounds[0].text
        assert care.general
    assert "does not mean that it is safe" in NOTHING_FOUND


@pytest.mark.parametrize("work", Work)
def test_what_is_never_to_be_used_is_kept_from_every_work(work: Work) -> None:
    hazard = replace(_hazard("H300", routes=("swallowing",)), use=Use.NEVER)
    care = _care(work, hazard)
    assert care.avoid
    assert care.never
    assert [point.text for point in care.points] == [NEVER]
    assert care.points[0].source == hazard.source
    assert care.avoided_for[0].words == ("acute toxicity",)


def test_a_listing_counts_like_a_statement_and_a_parent_dye_is_hedged() -> None:
    listed = (
        Listing(ListName.IARC, "1", Scope.GROUP, ("carcinogen",)),
        Listing(ListName.PROPOSITION_65, "male", Scope.PARENT_DYE, ("reproductive toxicity",)),
    )
    care = _care(Work.PREGNANCY, replace(_hazard(), listings=listed))
    assert care.avoid
    (ground,) = care.avoided_for
    assert ground.marks == ("IARC 1 (group)", "Proposition 65 male (parent dye)")
    assert ground.words == ("carcinogen", "reproductive toxicity?")


def test_a_point_tells_its_grounds_hedged_and_verified() -> None:
    care = _care(Work.SPRAY, _hazard("H351", hedged=True), _hazard("H350", metals=("cadmium",)))
    certain, hedged = care.avoided_for  # the gravest first
    assert hedged.marks == ("H351?",)
    assert hedged.text == "PB99 carcinogen?"
    assert certain.marks == ("cadmium", "H350")
    assert certain.text == "PB99 cadmium, carcinogen"
    day = date(2026, 3, 1)
    confirmed = _care(Work.SPRAY, _hazard("H350", verified_on=day, basis=Basis.HARMONISED))
    assert [(g.verified_on, g.basis) for g in confirmed.avoided_for] == [(day, Basis.HARMONISED)]


def test_every_standing_in_the_law_has_words_of_its_own() -> None:
    assert len({BASIS_WORDS[basis] for basis in Basis}) == len(Basis)


def test_every_rule_asks_for_something_and_belongs_to_some_work() -> None:
    for rule in RULES:
        assert rule.works
        assert rule.metals or rule.classes or rule.codes or rule.routes
        assert rule.classes <= set(CODES.values())
        assert rule.codes <= set(CODES)
        assert rule.metals <= set(METALS)


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("Spatter", Work.SPATTER),
        ("dry pigment", Work.DRY_PIGMENT),
        ("dry-pigment", Work.DRY_PIGMENT),
        ("dry", Work.DRY_PIGMENT),
        ("rinse", Work.RINSE_WATER),
        (" rinse_water ", Work.RINSE_WATER),
    ],
)
def test_a_kind_of_work_is_read_whole_or_by_its_first_word(typed: str, read: Work) -> None:
    assert read_work(typed) is read


@pytest.mark.parametrize("typed", ["", "sp", "water", "boatyard"])
def test_another_kind_of_work_is_refused_with_those_there_are(typed: str) -> None:
    with pytest.raises(BadInput, match="choose one of: brush, spatter, spray, dry pigment"):
        read_work(typed)


def test_a_class_is_of_adults_or_children() -> None:
    assert read_class_kind(" Adults ") is Work.ADULTS
    assert read_class_kind("children") is Work.CHILDREN
    with pytest.raises(BadInput, match="choose adults or children"):
        read_class_kind("brush")
