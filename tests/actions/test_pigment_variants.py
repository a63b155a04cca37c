"""A variant or sub-grade without a row of its own has what is known of its base, and says so."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Final

import pytest

from studio.actions.add_paint import add_paint
from studio.actions.advise_care import advise_class
from studio.actions.edit_paint import edit_paint
from studio.actions.find import find_paint, find_pigment
from studio.actions.match_colour import Wanted, barred
from studio.actions.rate_pigment import rate_pigment, verify_pigment
from studio.catalogue.care import Work
from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import Basis, Hazard, read_listing
from studio.catalogue.paint import Paint, PaintFacts
from studio.catalogue.pigment import Pigment
from studio.errors import BadInput, NotFound
from studio.storage.unit_of_work import UnitOfWork

DAY: Final = date(2026, 12, 1)


@pytest.fixture
def work(empty_db: Path) -> Iterator[UnitOfWork]:
    """A new studio, open to write."""
    with UnitOfWork(empty_db, write=True) as opened:
        yield opened


def _paint(work: UnitOfWork, code: str, *pigments: str) -> Paint:
    add_paint(work, PaintFacts(code, "Quay Colour", f"Tide {code}", pigments, volume_ml=14), DAY)
    return find_paint(work, code)


@pytest.mark.parametrize("name", ["PR108 light", "PR108:2", "PR108:2 deep", "PR108 red shade"])
def test_it_has_the_cautions_and_ratings_of_its_base(work: UnitOfWork, name: str) -> None:
    base = work.pigments.get("PR108")
    assert base is not None
    paint = _paint(work, "RD", name)
    (pigment,) = paint.pigments
    assert (pigment.as_base, pigment.label) == ("PR108", f"{name} (as PR108)")
    assert [each.label for each in pigment.hazards] == [f"{name} (as PR108)"] * len(base.hazards)
    assert [replace(each, pigment="PR108", as_base=None) for each in pigment.hazards] == [
        *base.hazards
    ]
    assert [each.rank for each in pigment.ratings] == [each.rank for each in base.ratings]
    for kind in (Work.ADULTS, Work.CHILDREN):
        advice = advise_class(work, kind, DAY)
        assert [left.paint for left in advice.leave] == [paint]


def test_nothing_found_for_a_base_holds_for_a_shade_but_not_for_a_sub_grade(
    work: UnitOfWork,
) -> None:
    facts = Pigment("PO998", None, "a", None, Evidence.MEMORY, "notes", None, looked_up="a list")
    work.pigments.add(facts)
    assert _paint(work, "OL", "PO998 light").unread == ()
    assert [why.text for why in _paint(work, "OG", "PO998:1").unread] == [
        "PO998:1 (as PO998) not looked up"
    ]


def test_a_studio_that_holds_such_names_already_has_them_too(work: UnitOfWork) -> None:
    """An older version took any word behind a name, and `hue`, which is another pigment."""
    for name in ("PR108 seaweed", "PR108 hue"):
        work.pigments.add(Pigment(name, None, None, None, None, None, None))
    work.paints.add(PaintFacts("SW", "Quay Colour", "Seaweed", ("PR108 seaweed", "PR108 hue")))
    paint = find_paint(work, "SW")
    assert "cadmium" in paint.hazard_classes
    assert [why.text for why in paint.unread] == ["PR108 hue in no table"]
    edit_paint(work, paint, replace(paint.facts, note="kept"))
    assert find_paint(work, "SW").facts.pigments == ("PR108 seaweed", "PR108 hue")
    assert find_pigment(work, "PR108 seaweed").as_base == "PR108"
    with pytest.raises(BadInput, match="neither a shade"):
        _paint(work, "NW", "PR108 seaweed")


def test_own_ratings_stand_beside_and_cautions_are_verified_at_the_base(work: UnitOfWork) -> None:
    _paint(work, "RL", "PR108 light")
    light = find_pigment(work, "PR108 light")
    rate_pigment(work, light, "V", "my south window", DAY)
    light = find_pigment(work, "PR108 light")
    assert light.worst_rating is not None
    assert (light.worst_rating.rating, light.worst_rating.as_base) == ("V", None)
    with pytest.raises(NotFound, match="is of PR108; verify it there"):
        verify_pigment(work, light, "label", DAY, ratings=False, hazards=True)


@pytest.mark.parametrize(
    ("listed", "kept"),
    [
        ("IARC 1", False),
        ("IARC 2B (group)", False),
        ("IARC 2A (parent dye)", False),
        ("NTP reasonably anticipated", False),
        ("Proposition 65 cancer", False),
        ("HCIS H302 H351", False),
        ("IARC 3", True),
        ("Proposition 65 male", True),
    ],
)
def test_a_filter_bars_what_any_list_calls_a_carcinogen(
    work: UnitOfWork, listed: str, *, kept: bool
) -> None:
    work.pigments.add(Pigment("PO998", None, "a", None, Evidence.MEMORY, "notes", None))
    listing = read_listing(listed, work.pigments.statements())
    work.pigments.add_hazard(
        Hazard("PO998", "weed", None, "Keep off.", (), Basis.NONE, None, (), (), Evidence.MEMORY,
               "notes", listings=(listing,))
    )  # fmt: skip
    paint = _paint(work, "OW", "PO998")
    wanted = Wanted(hazards=frozenset({"carcinogen"}))
    assert (paint.id not in barred([paint], wanted)) is kept


@pytest.mark.parametrize(
    "listed", ["IARC 4", "IARC", "Harbour list 1", "NTP known (cousin)", "HCIS H9999", "HCIS weed"]
)
def test_a_listing_that_no_list_has_is_refused(work: UnitOfWork, listed: str) -> None:
    with pytest.raises(BadInput):
        read_listing(listed, work.pigments.statements())
