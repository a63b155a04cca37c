"""Fade tests are kept with their readings."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from studio.catalogue.fade import FadeReading, FadeTest
from studio.catalogue.mix import Mix
from studio.catalogue.paint import PaintFacts
from studio.catalogue.recipe import Recipe
from studio.colour.lab import Lab
from studio.storage.unit_of_work import UnitOfWork
from tests.storage import values

HUNG = date(2026, 3, 1)
MARSH = PaintFacts("MG", "Saltings Colour", "Marsh Green", ("PG7", "PBr7"))

labs = st.builds(
    Lab, values.measures(0, 100), values.measures(-200, 200), values.measures(-200, 200)
)
readings = st.builds(
    FadeReading,
    read_on=values.days,
    covered=labs,
    exposed=labs,
    blue_wool=st.none() | st.integers(0, 8),
    note=values.maybe_words,
)


@pytest.fixture
def paint(work: UnitOfWork) -> int:
    """A paint on record."""
    return work.paints.add(MARSH)


def _test(paint: int | None, mix: int | None = None, code: str = "F1") -> FadeTest:
    return FadeTest(0, code, paint, mix, None, "south window", HUNG)


@settings(
    max_examples=60,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(
    place=values.words,
    note=values.maybe_words,
    code=values.codes,
    read=st.lists(readings, max_size=4, unique_by=lambda reading: reading.read_on),
)
def test_a_test_comes_back_with_its_readings_in_the_order_of_their_days(
    work: UnitOfWork, place: str, note: str | None, code: str, read: list[FadeReading]
) -> None:
    before = work.connection.begin_nested()
    test = FadeTest(0, code, work.paints.add(MARSH), None, None, place, HUNG, None, note)
    key = work.fade_tests.add(test)
    for reading in read:
        work.fade_tests.add_reading(key, reading)
    ordered = tuple(sorted(read, key=lambda reading: reading.read_on))
    work.forget()
    assert work.fade_tests.all() == (replace(test, id=key, readings=ordered),)
    assert work.paints.all()[0].fade_tests == work.fade_tests.all()
    before.rollback()
    work.forget()


def test_codes_are_counted_on_and_found_in_any_case(work: UnitOfWork, paint: int) -> None:
    assert work.fade_tests.next_code() == "F1"
    work.fade_tests.add(_test(paint, code="F9"))
    assert work.fade_tests.next_code() == "F10"
    found = work.fade_tests.with_code(" f9 ")
    assert found is not None
    assert found.code == "F9"
    assert work.fade_tests.with_code("F1") is None


def test_tests_of_a_paint_and_of_a_mix_are_kept_apart(work: UnitOfWork, paint: int) -> None:
    mix = work.mixes.add(Mix(0, "M1", Recipe(((paint, 1),)), None, None, HUNG))
    work.fade_tests.add(_test(paint))
    work.fade_tests.add(_test(None, mix, "F2"))
    assert [test.code for test in work.fade_tests.of_paint(paint)] == ["F1"]
    assert [test.code for test in work.fade_tests.of_mix(mix)] == ["F2"]
    assert [test.code for test in work.paints.by_id(paint).fade_tests] == ["F1"]


def test_a_changed_test_keeps_its_readings(work: UnitOfWork, paint: int) -> None:
    key = work.fade_tests.add(_test(paint))
    reading = FadeReading(date(2026, 4, 1), Lab(40, 0, 0), Lab(45, 0, 0), 2)
    work.fade_tests.add_reading(key, reading)
    (test,) = work.fade_tests.all()
    work.fade_tests.change(replace(test, ended_on=date(2026, 5, 1), place="north sill", note="x"))
    work.forget()
    assert work.fade_tests.all() == (
        replace(test, ended_on=date(2026, 5, 1), place="north sill", note="x"),
    )
    assert work.fade_tests.all()[0].readings == (reading,)


def test_a_paint_in_hand_is_renewed(work: UnitOfWork, paint: int) -> None:
    assert work.paints.by_id(paint).fade_tests == ()
    key = work.fade_tests.add(_test(paint))
    work.paints.renew_fade_tests(paint)
    assert [test.id for test in work.paints.by_id(paint).fade_tests] == [key]
