"""What a search asks of the database is all that is there, at the ends of every step too."""

import math
from dataclasses import replace
from itertools import product
from random import Random
from typing import Final

import pytest
from sqlalchemy import insert, select

from studio.colour.box import Box
from studio.colour.difference import CIE76, CIEDE2000, Metric, cmc_metric
from studio.colour.nearest import Candidate, Near, nearest
from studio.storage import search, tables
from studio.storage.paint_marks import MARKS, cells_of_mixes
from studio.storage.search import SearchedSwatches, SwatchFilter
from studio.storage.unit_of_work import UnitOfWork

EDGES: Final = (0.0, 1.9999999999999998, 2.0, 2.0000000000000004, 6.0, 10.0, 50.0, 98.0, 100.0)
"""L* at which a step of the index ends, and just beside it."""


@pytest.fixture
def filled(demo_work: UnitOfWork) -> UnitOfWork:
    """A demo studio with hundreds of swatches more, many of them alike or at the end of a step."""
    row = dict(
        demo_work.connection.execute(select(tables.swatch).order_by(tables.swatch.c.id).limit(1))
        .mappings()
        .one()
    )
    chance = Random("creek")  # noqa: S311 - repeatable colours
    mixes = [mix.id for mix in demo_work.mixes.all()]
    marks = cells_of_mixes(demo_work.connection, mixes)
    papers = [paper.id for paper in demo_work.papers.all()]
    sides = (-200.0, -6.0, -2.0, 0.0, 2.0, 30.0)
    labs = [*product(EDGES, sides, sides)]
    labs += [(chance.uniform(0, 100), chance.gauss(0, 20), chance.gauss(0, 20)) for _ in range(900)]
    labs += chance.choices(labs, k=100)  # the same once more
    demo_work.connection.execute(
        insert(tables.swatch),
        [
            {
                **row,
                "id": 10_000 + place,
                "code": f"X{place}",
                "mix_id": (mix := chance.choice(mixes)),
                **marks[mix],
                "paper_id": chance.choice(papers),
                "state": chance.choice(["dry", "dry", "wet"]),
                "lightness": lightness,
                "a": a,
                "b": b,
            }
            for place, (lightness, a, b) in enumerate(labs)
        ],
    )
    return demo_work


def _inside(box: Box, row: Candidate) -> bool:
    return all(box[2 * i] <= row[2 + i] <= box[2 * i + 1] for i in range(3))


def test_a_box_gives_what_lies_in_it_its_ends_included(filled: UnitOfWork) -> None:
    swatches = SearchedSwatches(filled.connection, SwatchFilter(dry_only=False))
    every = sorted(swatches.all())
    for low, high in ((2.0, 2.0), (0.0, 2.0), (2.0, 6.0), (49.0, 100.0), (-9.0, math.inf)):
        for a, b in (((-6.0, 2.0), (-2.0, 30.0)), ((-300.0, 300.0), (-math.inf, 2.0))):
            box = Box(low, high, *a, *b)
            expected = [row for row in every if _inside(box, row)]
            assert sorted(swatches.inside(box)) == expected
            assert expected


def test_every_swatch_lies_in_one_pillar(filled: UnitOfWork) -> None:
    swatches = SearchedSwatches(filled.connection, SwatchFilter(dry_only=False))
    pillars = swatches.pillars()
    found: list[Candidate] = []
    for place, box in enumerate(pillars):
        rows = swatches.within_pillars([(place, box)])
        assert all(_inside(box, row) for row in rows)
        found += rows
    assert sorted(found) == sorted(swatches.all())
    assert sorted(swatches.within_pillars(list(enumerate(pillars)))) == sorted(found)


def brute(
    rows: list[Candidate], target: tuple[float, float, float], by: Metric, count: int
) -> list[Near]:
    """The nearest groups of some rows, each row compared."""
    best: dict[int, Near] = {}
    for near in sorted(Near(by.between(target, row[2:]), *row[:2]) for row in rows):
        best.setdefault(near.group, near)
    return list(best.values())[:count]


@pytest.mark.parametrize(
    "by", [CIEDE2000, CIE76, cmc_metric(), cmc_metric(1.0)], ids=lambda by: by.name
)
@pytest.mark.parametrize("scan", [False, True])
@pytest.mark.parametrize("each_its_own", [False, True])
def test_a_search_through_the_index_finds_what_comparing_all_finds(
    filled: UnitOfWork,
    monkeypatch: pytest.MonkeyPatch,
    by: Metric,
    *,
    scan: bool,
    each_its_own: bool,
) -> None:
    if not scan:
        monkeypatch.setattr(search, "FEW", 40)
    paints = sorted(paint.id for paint in filled.paints.all())
    paper = filled.papers.all()[0].id
    plain = SwatchFilter()
    wanted = (
        plain,
        replace(plain, dry_only=False, not_swatch=10_003),
        replace(plain, paper_id=paper, barred_paints=frozenset(paints[3:6])),
        replace(plain, barred_paints=frozenset(paints[4:])),
        replace(plain, required_paints=frozenset(paints[:1])),
        replace(plain, required_paints=frozenset(paints[:2]), barred_paints=frozenset(paints[9:])),
    )
    targets = [(50.0, 0.0, 0.0), (2.0, 2.0, -2.0), (91.0, -50.0, -15.0), (30.0, 68.0, -112.0)]
    for each in wanted:
        swatches = SearchedSwatches(filled.connection, each, each_its_own=each_its_own)
        rows = list(swatches.all())
        for target in targets:
            assert nearest(target, swatches, by, 7) == brute(rows, target, by, 7)


def more_paints(work: UnitOfWork, keys: list[int]) -> None:
    """Record paints of some ids, each like the first there is."""
    row = dict(
        work.connection.execute(select(tables.paint).order_by(tables.paint.c.id).limit(1))
        .mappings()
        .one()
    )
    work.connection.execute(
        insert(tables.paint),
        [row | {"id": key, "code": f"Q{key}", "name": f"Silt {key}"} for key in keys],
    )
    work.forget()


def _plan(work: UnitOfWork, wanted: SwatchFilter) -> list[str]:
    """The steps by which SQLite looks into a box."""
    statements: list[str] = []
    driver = work.connection.connection.driver_connection
    assert driver is not None
    driver.set_trace_callback(statements.append)
    SearchedSwatches(work.connection, wanted).inside(Box(49.0, 51.0, -1.0, 1.0, -1.0, 1.0))
    driver.set_trace_callback(None)
    (read,) = [each for each in statements if each.startswith("WITH cell")]
    return [row[3] for row in work.connection.exec_driver_sql(f"EXPLAIN QUERY PLAN {read}")]


@pytest.mark.file_only("asks SQLite for its plan")
def test_a_box_is_read_from_the_index_alone(filled: UnitOfWork) -> None:
    first, other = sorted(paint.id for paint in filled.paints.all())[:2]
    barred = SwatchFilter(paper_id=1, barred_paints=frozenset({first}))
    for wanted in (barred, replace(barred, required_paints=frozenset({other}))):
        steps = _plan(filled, wanted)
        assert any("swatch USING COVERING INDEX ix_swatch_search (<expr>=? AND" in s for s in steps)
        assert not any("part" in step for step in steps)


@pytest.mark.file_only("asks SQLite for its plan")
def test_paints_of_a_mix_are_looked_up_where_two_paints_share_a_mark(filled: UnitOfWork) -> None:
    (first,) = sorted(paint.id for paint in filled.paints.all())[:1]
    more_paints(filled, [first + MARKS])
    for wanted in (
        SwatchFilter(barred_paints=frozenset({first})),
        SwatchFilter(required_paints=frozenset({first})),
    ):
        steps = _plan(filled, wanted)
        assert any("swatch USING COVERING INDEX ix_swatch_search (<expr>=? AND" in s for s in steps)
        assert any("part USING COVERING INDEX" in step for step in steps)
    both = SwatchFilter(barred_paints=frozenset({first, first + MARKS}))
    assert not any("part" in step for step in _plan(filled, both))
