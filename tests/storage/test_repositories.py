"""What the repositories find, in what order, and what they pass over."""

from collections.abc import Callable, Iterable
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.catalogue.mix import Mix
from studio.catalogue.paint import PaintFacts
from studio.catalogue.paper import PaperFacts
from studio.catalogue.pigment import Pigment
from studio.catalogue.reading import Method, Origin, Reading, State
from studio.catalogue.recipe import Recipe
from studio.catalogue.swatch import Application, Swatch, SwatchFacts
from studio.colour.lab import Lab
from studio.errors import BadInput
from studio.storage.money import from_hundredths, to_hundredths
from studio.storage.place import default_database, demo_database
from studio.storage.search import SwatchFilter
from studio.storage.unit_of_work import UnitOfWork
from tests.servers import names_alone

DAY: Final = date(2026, 5, 4)


def _reading(lab: Lab, state: State = State.DRY) -> Reading:
    return Reading(lab, lab, Origin.MEASURED, None, state, Method.BY_EYE, None, None, None, DAY)


def _paint(work: UnitOfWork, code: str) -> int:
    return work.paints.add(PaintFacts(code, "Saltings Colour", f"Marsh {code}"))


def _mix(work: UnitOfWork, code: str, *parts: tuple[int, int]) -> int:
    return work.mixes.add(Mix(0, code, Recipe(parts), None, None, DAY))


def _swatch(work: UnitOfWork, code: str, mix: int, paper: int, *readings: Reading) -> Swatch:
    facts = SwatchFacts(code, None, 1, Application.FLAT_WASH, DAY)
    key = work.swatches.add(facts, mix, paper, readings)
    return work.swatches.by_ids([key])[key]


@pytest.fixture
def mixes(work: UnitOfWork) -> dict[str, int]:
    """Three paints a, b, c and the mixes a, ab, abc and c."""
    a, b, c = (_paint(work, code) for code in ("A", "B", "C"))
    return {
        "a": _mix(work, "M1", (a, 1)),
        "ab": _mix(work, "M2", (b, 2), (a, 1)),
        "abc": _mix(work, "M3", (a, 1), (b, 1), (c, 3)),
        "c": _mix(work, "M4", (c, 1)),
    }


def _codes(mixes: Iterable[Mix]) -> list[str]:
    return [mix.code for mix in mixes]


def _ids(work: UnitOfWork) -> dict[str, int]:
    return {paint.facts.code: paint.id for paint in work.paints.all()}


@pytest.mark.usefixtures("mixes")
def test_mixes_are_found_by_any_of_their_paints_oldest_first(work: UnitOfWork) -> None:
    ids = _ids(work)
    assert _codes(work.mixes.with_any([ids["A"]])) == ["M1", "M2", "M3"]
    assert _codes(work.mixes.with_any([ids["B"], ids["C"]])) == ["M2", "M3", "M4"]
    assert work.mixes.with_any([]) == work.mixes.with_any([9999]) == ()


def test_mixes_are_found_by_id_code_and_recipe(work: UnitOfWork, mixes: dict[str, int]) -> None:
    ids = _ids(work)
    found = work.mixes.by_ids([mixes["ab"], mixes["c"], 9999])
    assert set(found) == {mixes["ab"], mixes["c"]}
    assert found[mixes["ab"]].recipe.parts == ((ids["B"], 2), (ids["A"], 1))
    assert work.mixes.with_recipe(Recipe(((ids["A"], 1), (ids["B"], 2)))) == found[mixes["ab"]]
    assert work.mixes.with_recipe(Recipe(((ids["A"], 2), (ids["B"], 1)))) is None
    assert work.mixes.with_code("M2") == found[mixes["ab"]]
    assert work.mixes.with_code("M9") is None


def test_a_mix_without_paints_on_record_is_refused_rather_than_guessed(work: UnitOfWork) -> None:
    key = _mix(work, "M1", (_paint(work, "A"), 1))
    names_alone(work.connection)
    work.connection.exec_driver_sql("DELETE FROM mix_component")
    with pytest.raises(BadInput, match="at least one paint"):
        work.mixes.by_ids([key])


@pytest.mark.parametrize(
    ("codes", "following"),
    [
        ([], "M1"),
        (["M1", "M2"], "M3"),
        (["M9", "M10"], "M11"),
        (["M7", "HULL"], "M8"),
        (["MUD"], "M1"),
        (["M5B", "MUD2"], "M6"),
    ],
)
def test_the_next_code_follows_the_highest_of_its_series(
    work: UnitOfWork, codes: list[str], following: str
) -> None:
    paint = _paint(work, "A")
    other = _paint(work, "B")
    for place, code in enumerate(codes, start=1):
        _mix(work, code, (paint, place), (other, place * place + 1))
    assert work.mixes.next_code() == following
    assert work.swatches.next_code() == "S1"


def test_swatches_are_counted_for_each_mix_and_in_all(
    work: UnitOfWork, mixes: dict[str, int]
) -> None:
    paper = work.papers.add(PaperFacts("P", "Tidewrack Mill", "Sedge Rag"))
    other = work.papers.add(PaperFacts("Q", "Tidewrack Mill", "Sedge Rough"))
    assert work.swatches.last_paper() is None
    for code, mix, sheet in (("S1", "a", paper), ("S2", "ab", other), ("S3", "a", paper)):
        _swatch(work, code, mixes[mix], sheet, _reading(Lab(50.0, 0.0, 0.0)))
    assert work.mixes.swatch_counts() == {mixes["a"]: 2, mixes["ab"]: 1}
    assert work.swatches.count() == len(work.swatches.all()) == 3
    assert [swatch.facts.code for swatch in work.swatches.of_mix(mixes["a"])] == ["S1", "S3"]
    assert work.swatches.last_paper() == paper
    found = work.swatches.with_code("S2")
    assert found is not None
    assert found.paper_id == other
    assert work.swatches.with_code("S9") is None


def test_a_swatch_without_a_reading_is_refused(work: UnitOfWork, mixes: dict[str, int]) -> None:
    paper = work.papers.add(PaperFacts("P", "Tidewrack Mill", "Sedge Rag"))
    with pytest.raises(BadInput, match="at least one reading"):
        _swatch(work, "S1", mixes["a"], paper)
    assert work.swatches.count() == 0


def test_the_colour_of_a_mix_is_its_most_intense_dry_swatch(
    work: UnitOfWork, mixes: dict[str, int]
) -> None:
    paper = work.papers.add(PaperFacts("P", "Tidewrack Mill", "Sedge Rag"))
    dull, bright, wet = Lab(70.0, 3.0, 4.0), Lab(40.0, -30.0, 40.0), Lab(35.0, 60.0, 60.0)
    _swatch(work, "S1", mixes["a"], paper, _reading(dull))
    _swatch(work, "S2", mixes["a"], paper, _reading(bright))
    _swatch(work, "S3", mixes["a"], paper, _reading(wet, State.WET))
    _swatch(work, "S4", mixes["ab"], paper, _reading(wet, State.WET))
    assert work.swatches.colours_of_mixes() == {mixes["a"]: bright}


def test_each_further_reading_counts_even_for_a_swatch_that_was_read_long_ago(
    work: UnitOfWork, mixes: dict[str, int]
) -> None:
    paper = work.papers.add(PaperFacts("P", "Tidewrack Mill", "Sedge Rag"))
    stale = _swatch(work, "S1", mixes["a"], paper, _reading(Lab(30.0, 0.0, 0.0)))
    work.swatches.add_reading(stale, _reading(Lab(40.0, 0.0, 0.0)))
    work.swatches.add_reading(stale, _reading(Lab(80.0, 0.0, 0.0)))
    found = work.swatches.by_ids([stale.id])[stale.id]
    assert found.lab.lightness == pytest.approx(50.0)


def test_every_filter_leaves_out_what_it_says_and_nothing_else(demo_work: UnitOfWork) -> None:
    swatches = demo_work.swatches.all()
    mixes = {mix.id: mix.recipe.paints for mix in demo_work.mixes.all()}
    ids = _ids(demo_work)
    paper = next(p.id for p in demo_work.papers.all() if p.facts.code == "ECP")
    barred, required = frozenset({ids["FU"], ids["AC"]}), frozenset({ids["BS"], ids["IB"]})
    cases: list[tuple[SwatchFilter, Callable[[Swatch], bool]]] = [
        (SwatchFilter(), lambda s: s.state is State.DRY),
        (SwatchFilter(dry_only=False), lambda _s: True),
        (SwatchFilter(paper_id=paper), lambda s: s.state is State.DRY and s.paper_id == paper),
        (SwatchFilter(dry_only=False, not_swatch=swatches[7].id), lambda s: s is not swatches[7]),
        (
            SwatchFilter(dry_only=False, barred_paints=barred),
            lambda s: not mixes[s.mix_id] & barred,
        ),
        (
            SwatchFilter(dry_only=False, required_paints=required),
            lambda s: mixes[s.mix_id] >= required,
        ),
        (
            SwatchFilter(paper, required_paints=required, barred_paints=barred),
            lambda s: (
                s.state is State.DRY
                and s.paper_id == paper
                and mixes[s.mix_id] >= required
                and not mixes[s.mix_id] & barred
            ),
        ),
    ]
    sizes = set()
    for wanted, allowed in cases:
        found = {row[0] for row in demo_work.swatches.searched(wanted).all()}
        assert found == {swatch.id for swatch in swatches if allowed(swatch)}, wanted
        assert found
        sizes.add(len(found))
    assert len(sizes) >= 6  # the filters differ in what they leave


def test_paints_and_papers_come_by_code_and_pigments_by_hue_family_and_number(
    demo_work: UnitOfWork,
) -> None:
    for codes in (
        [paint.facts.code for paint in demo_work.paints.all()],
        [paper.facts.code for paper in demo_work.papers.all()],
    ):
        assert codes == sorted(codes)
    demo_work.pigments.add(Pigment("tide wrack", None, None, None, None, None, None))
    names = [pigment.ci_name for pigment in demo_work.pigments.all()]
    wanted = ["PY3", "PY43", "PO73", "PR83", "PV23", "PB15", "PB15:1", "PB29", "PG7", "PBk7"]
    assert [name for name in names if name in wanted] == wanted
    assert names[-1] == "tide wrack"  # what is no Colour Index name comes last


def test_a_pigment_that_is_not_on_record_is_none(work: UnitOfWork) -> None:
    assert work.pigments.get("PB999") is None
    work.pigments.add(Pigment("PB999", None, None, None, None, None, None))
    assert work.pigments.get("PB999") is not None


def test_the_hazard_classes_are_those_of_the_statements_on_record(work: UnitOfWork) -> None:
    before = work.pigments.hazard_classes()
    assert {"carcinogen", "other"} <= before
    work.pigments.add_statement("H998", "slippery", "Slippery when wet.", "harbour notes")
    assert work.pigments.hazard_classes() == before | {"slippery"}


def test_the_containers_of_a_paint_are_not_those_of_the_paper_with_its_id(
    demo_work: UnitOfWork,
) -> None:
    paint, paper = demo_work.containers.of_paint(1), demo_work.containers.of_paper(1)
    assert paint
    assert paper
    assert {(each.paint_id, each.paper_id) for each in paint} == {(1, None)}
    assert {(each.paint_id, each.paper_id) for each in paper} == {(None, 1)}
    every = demo_work.containers.all()
    assert paint == tuple(each for each in every if each.paint_id == 1)
    assert paper == tuple(each for each in every if each.paper_id == 1)
    assert demo_work.containers.of_paint(9999) == demo_work.containers.of_paper(9999) == ()


@given(st.integers(0, 99_999_999))
def test_a_price_goes_to_hundredths_and_back_exactly(hundredths: int) -> None:
    price = Decimal(hundredths) / 100
    assert to_hundredths(price) == hundredths
    assert from_hundredths(hundredths) == price
    assert to_hundredths(None) is None
    assert from_hundredths(None) is None


def test_the_demo_never_lies_where_the_owner_s_studio_lies(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert default_database() != demo_database()
    assert default_database().name == demo_database().name == "studio.sqlite3"
    assert demo_database().parent.parent == default_database().parent


def test_swatches_read_wet_are_found_whatever_was_read_since(work: UnitOfWork) -> None:
    paper = work.papers.add(PaperFacts("SR", "Tidewrack Mill", "Sedge Rag"))
    work.papers.add_white(paper, _reading(Lab(96.0, 0.0, 2.0), State.WET))
    mix = _mix(work, "M1", (_paint(work, "A"), 1))
    lab = Lab(40.0, 1.0, 2.0)
    wet = _swatch(work, "S1", mix, paper, _reading(lab, State.WET))
    _swatch(work, "S2", mix, paper, _reading(lab))
    both = _swatch(work, "S3", mix, paper, _reading(lab, State.WET), _reading(lab))
    assert work.swatches.read_wet() == (wet, both)
