"""The marks of a swatch are those of its mix, and paints that share one are told apart."""

from datetime import date
from random import Random
from typing import Final

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import select, update

from studio.catalogue.reading import Method, Origin, Reading, State
from studio.catalogue.recipe import Recipe
from studio.catalogue.swatch import Application, SwatchFacts
from studio.colour.difference import CIEDE2000
from studio.colour.lab import Lab
from studio.colour.nearest import nearest
from studio.storage import search, tables
from studio.storage.paint_marks import MARKS, cells_of_mixes, marks_of, put_marks, wrong_marks
from studio.storage.search import SearchedSwatches, SwatchFilter
from studio.storage.swatches import NewSwatch
from studio.storage.unit_of_work import UnitOfWork
from tests.storage.test_search import brute, more_paints

DAY: Final = date(2026, 3, 2)


@pytest.fixture
def crowded(demo_work: UnitOfWork) -> UnitOfWork:
    """A demo studio with far more paints than marks, each in a mix with a few others."""
    keys = [*range(61, 66), *range(120, 2 * MARKS + 40), 5 * MARKS + 62, 5 * MARKS + 63]
    there = {paint.id for paint in demo_work.paints.all()}
    more_paints(demo_work, [key for key in keys if key not in there])
    chance = Random("sluice")  # noqa: S311 - repeatable mixes
    paper = demo_work.papers.all()[0].id
    recipes = {}
    for key in keys:
        others = chance.sample(sorted({*keys, *there} - {key}), chance.randrange(4))
        recipe = Recipe(tuple((paint, 1) for paint in (key, *others)))
        recipes[recipe.key] = recipe
    entries = []
    for key in demo_work.mixes.add_many(recipes, DAY, 9000).values():
        lab = Lab(chance.uniform(5, 95), chance.gauss(0, 30), chance.gauss(0, 30))
        facts = SwatchFacts("", None, 1, Application.FLAT_WASH, DAY)
        reading = Reading(
            lab, lab, Origin.MEASURED, None, State.DRY, Method.COLORIMETER, None, None, None, DAY
        )
        entries.append(NewSwatch(f"Y{key}", facts, key, paper, reading))
    demo_work.swatches.add_many(entries)
    return demo_work


def test_paints_that_share_a_mark_are_told_apart(
    crowded: UnitOfWork, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(search, "FEW", 40)
    recipes = {mix.id: {paint for paint, _ in mix.recipe.parts} for mix in crowded.mixes.all()}
    paints = sorted(paint.id for paint in crowded.paints.all())
    every = [
        (swatch.id, swatch.mix_id, *swatch.lab.coordinates)
        for swatch in crowded.swatches.all()
        if swatch.state is State.DRY
    ]
    chance = Random("weir")  # noqa: S311 - repeatable filters
    targets = [(50.0, 0.0, 0.0), (91.0, -50.0, -15.0), (30.0, 68.0, -112.0)]
    found_some = 0
    for share in (*(0.02, 0.2, 0.5, 0.8, 0.95, 1.0) * 3,):
        barred = frozenset(chance.sample(paints, round(share * len(paints))))
        some = recipes[chance.choice(every)[1]]
        required = frozenset(chance.sample(sorted(some), chance.randrange(1, len(some) + 1)))
        for wanted in (
            SwatchFilter(barred_paints=barred),
            SwatchFilter(required_paints=required),
            SwatchFilter(barred_paints=barred - required, required_paints=required),
        ):
            rows = [
                row
                for row in every
                if recipes[row[1]].isdisjoint(wanted.barred_paints)
                and recipes[row[1]] >= wanted.required_paints
            ]
            found_some += bool(rows)
            swatches = SearchedSwatches(crowded.connection, wanted)
            assert sorted(swatches.all()) == sorted(rows)
            for target in targets:
                assert nearest(target, swatches, CIEDE2000, 7) == brute(rows, target, CIEDE2000, 7)
    assert found_some > 30


@given(st.sets(st.integers(1, 10_000)), st.sets(st.integers(1, 10_000)))
def test_sets_of_paints_that_share_none_of_their_marks_share_no_paint(
    some: set[int], others: set[int]
) -> None:
    assert marks_of(some | others) == marks_of(some) | marks_of(others) < 1 << MARKS
    shared = {paint % MARKS for paint in some} & {paint % MARKS for paint in others}
    assert (marks_of(some) & marks_of(others)).bit_count() == len(shared)


def test_the_database_derives_the_marks_that_are_written(crowded: UnitOfWork) -> None:
    assert wrong_marks(crowded.connection) == {}
    columns = [tables.swatch.c.paint_marks_low, tables.swatch.c.paint_marks_high]
    statement = select(tables.swatch.c.mix_id, *columns).distinct()
    rows = {row[0]: tuple(row[1:]) for row in crowded.connection.execute(statement)}
    recipes = {mix.id: mix.recipe for mix in crowded.mixes.by_ids(rows).values()}
    for mix, (low, high) in rows.items():
        assert low | high << 63 == marks_of(paint for paint, _ in recipes[mix].parts)
    assert {
        mix: tuple(cells.values())
        for mix, cells in cells_of_mixes(crowded.connection, rows).items()
    } == rows
    assert max(max(words) for words in rows.values()) > 1 << 62

    wrong = [min(rows), max(rows)]
    for mix, column in zip(wrong, columns, strict=True):
        crowded.connection.execute(
            update(tables.swatch).where(tables.swatch.c.mix_id == mix).values({column: column + 1})
        )
    codes = {mix.id: mix.code for mix in crowded.mixes.by_ids(wrong).values()}
    assert wrong_marks(crowded.connection) == codes
    for mix in wrong:
        put_marks(crowded.connection, mix)
    assert {row[0]: tuple(row[1:]) for row in crowded.connection.execute(statement)} == rows
