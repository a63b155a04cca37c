"""The owner adds ratings of their own and confirms what a source says."""

from datetime import date

import pytest

from studio.actions.rate_pigment import rate_pigment, verify_pigment
from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import Hazard
from studio.catalogue.lightfastness import LightfastnessRating, Scale
from studio.catalogue.pigment import Pigment
from studio.errors import BadInput, NotFound
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import TODAY


def _pigment(work: UnitOfWork, name: str) -> Pigment:
    work.forget()
    pigment = work.pigments.get(name)
    assert pigment is not None
    return pigment


def _rows(pigment: Pigment) -> list[LightfastnessRating | Hazard]:
    return [*pigment.ratings, *pigment.hazards]


def test_a_rating_of_the_owner_counts_as_verified_today(work: UnitOfWork) -> None:
    before = _pigment(work, "PB29").ratings
    added = rate_pigment(work, _pigment(work, "PB29"), " iii ", " a  south window ", TODAY,
                         medium="Watercolour", year=2025, note="two summers")  # fmt: skip
    assert (added.rating, added.medium, added.year) == ("III", "watercolour", 2025)
    assert (added.source, added.verified_from) == ("a south window", "a south window")
    assert (added.evidence, added.verified_on, added.note) == (
        Evidence.OWNER, TODAY, "two summers",
    )  # fmt: skip
    assert _pigment(work, "PB29").ratings == (*before, added)
    assert _pigment(work, "PB29").worst_rating == added


def test_a_blue_wool_rating_may_be_a_range(work: UnitOfWork) -> None:
    added = rate_pigment(
        work, _pigment(work, "PB60"), "3-6", "harbour window", TODAY, scale=Scale.BLUE_WOOL
    )
    assert (added.rating, added.category) == ("3-6", "IV")  # by its lower end


@pytest.mark.parametrize(
    ("rating", "source", "scale", "year", "said"),
    [
        ("VI", "window", Scale.ASTM_D4303, None, "lightfastness 'VI' is not one of I, II"),
        ("7", "window", Scale.ASTM_D4303, None, "lightfastness '7' is not one of I, II"),
        ("9", "window", Scale.BLUE_WOOL, None, "blue wool rating '9' is not a step"),
        ("II", "window", Scale.BLUE_WOOL, None, "blue wool rating 'II' is not a step"),
        ("II", "  ", Scale.ASTM_D4303, None, "the source is empty"),
        ("II", "window", Scale.ASTM_D4303, 1799, "the year must be at least 1800"),
        ("II", "window", Scale.ASTM_D4303, 2027, "the year must be at least 1800 and at most 2026"),
        ("II", "from memory", Scale.ASTM_D4303, None, "PB28 has a rating from that source already"),
    ],
)
def test_an_impossible_rating_is_refused(  # noqa: PLR0917 - the fields of a rating
    work: UnitOfWork, rating: str, source: str, scale: Scale, year: int | None, said: str
) -> None:
    pigment = _pigment(work, "PB28")
    with pytest.raises(BadInput, match=said):
        rate_pigment(work, pigment, rating, source, TODAY, scale=scale, year=year)
    assert _pigment(work, "PB28") == pigment


def test_what_the_owner_confirms_is_marked_with_day_and_source(work: UnitOfWork) -> None:
    before = _pigment(work, "PR83")
    assert all(rating.verified_on is None for rating in before.ratings)
    marked = verify_pigment(
        work, before, " tube  label ", date(2026, 5, 4), ratings=True, hazards=True
    )
    after = _pigment(work, "PR83")
    assert marked == len(after.ratings) + len(after.hazards) >= 3
    for row in _rows(after):
        assert (row.verified_on, row.verified_from) == (date(2026, 5, 4), "tube label")
    with pytest.raises(NotFound, match="is verified already"):
        verify_pigment(work, after, "label", TODAY, ratings=True, hazards=True)
    assert _pigment(work, "PR83") == after


@pytest.mark.parametrize(("ratings", "hazards"), [(True, False), (False, True)])
def test_only_the_kind_that_is_named_is_marked(
    work: UnitOfWork, *, ratings: bool, hazards: bool
) -> None:
    pigment = _pigment(work, "PR83")
    marked = verify_pigment(work, pigment, "label", TODAY, ratings=ratings, hazards=hazards)
    after = _pigment(work, "PR83")
    assert marked == (len(after.ratings) if ratings else len(after.hazards))
    assert {row.verified_on for row in after.ratings} == {TODAY if ratings else None}
    assert {row.verified_on for row in after.hazards} == {TODAY if hazards else None}


def test_only_the_source_that_is_named_is_marked(work: UnitOfWork) -> None:
    pigment = _pigment(work, "PR83")
    rate_pigment(work, pigment, "V", "skylight", TODAY)
    source = pigment.ratings[0].source
    marked = verify_pigment(
        work, _pigment(work, "PR83"), "the page", TODAY, ratings=True, hazards=True, source=source
    )
    after = _pigment(work, "PR83")
    confirmed = [row for row in _rows(after) if row.verified_from == "the page"]
    assert {row.source for row in confirmed} == {source}
    assert marked == len(confirmed) >= 1
    with pytest.raises(NotFound, match="sources: "):
        verify_pigment(
            work, after, "label", TODAY, ratings=True, hazards=True, source="a tale of the harbour"
        )


def test_a_confirmation_says_of_what_and_from_what(work: UnitOfWork) -> None:
    pigment = _pigment(work, "PB29")
    with pytest.raises(BadInput, match="say what you verified"):
        verify_pigment(work, pigment, "label", TODAY, ratings=False, hazards=False)
    with pytest.raises(BadInput, match="what it was verified from is empty"):
        verify_pigment(work, pigment, " ", TODAY, ratings=True, hazards=False)
    assert _pigment(work, "PB29") == pigment
