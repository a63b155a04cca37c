"""Starting, reading and ending fade tests, and what match and check make of them."""

from datetime import date

import pytest

from studio.actions.add_mix import add_mix
from studio.actions.check_shelf import check_shelf
from studio.actions.end_fade import end_fade
from studio.actions.fade_results import every_fade_result, fade_result
from studio.actions.find import find_mix, find_paint, find_paint_or_mix, find_paper, find_recipe
from studio.actions.find_fade import find_test
from studio.actions.log_swatch import log_swatch
from studio.actions.make_reading import Circumstances, reading_of_lab
from studio.actions.match_colour import Match, Wanted, match_colour
from studio.actions.read_fade import HalvesRead, read_fade
from studio.actions.read_target import read_target
from studio.actions.start_fade import start_fade
from studio.catalogue.fade import FadeTest
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint, PaintFacts, Status
from studio.catalogue.paper import PaperFacts
from studio.catalogue.reading import Method
from studio.catalogue.swatch import Application, SwatchFacts
from studio.colour.lab import Lab
from studio.colour.science import adapted
from studio.errors import BadInput, NotFound
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import TODAY

HUNG = date(2026, 3, 1)
MAY, JULY = date(2026, 5, 1), date(2026, 7, 1)
COVERED = Lab(40, 10, -30)


@pytest.fixture
def shelf(work: UnitOfWork) -> UnitOfWork:
    """Paints rated I and IV, one without pigments, a paper and a mix of the first two."""
    work.paints.add(PaintFacts("FU", "Pellow & Strand", "French Ultramarine", ("PB29",)))
    work.paints.add(PaintFacts("AC", "Pellow & Strand", "Alizarin Crimson", ("PR83",)))
    work.paints.add(PaintFacts("TM", "Tidewrack", "Tarred Mud"))
    work.papers.add(PaperFacts("SR", "Eddering Mill", "Slipway Rag"))
    recipe = find_recipe(work, "3 FU + 1 AC")
    add_mix(work, recipe, HUNG, name="dusk on the slip")
    return work


def _start(work: UnitOfWork, name: str = "FU", day: date = HUNG) -> FadeTest:
    subject = find_paint_or_mix(work, name)
    return start_fade(work, subject, place="south window", started_on=day, today=TODAY)


def _halves(change: float, day: date = MAY, blue_wool: int | None = None) -> HalvesRead:
    return HalvesRead(day, COVERED, Lab(40 + change, 10, -30), blue_wool)


def _tested(work: UnitOfWork, name: str, change: float) -> FadeTest:
    return read_fade(work, _start(work, name), _halves(change), TODAY)


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("fu", "FU"),
        ("ultramarine", "FU"),
        ("French Ultramarine", "FU"),
        ("M1", "M1"),
        ("m1", "M1"),
        ("1 AC + 3 FU", "M1"),
        ("dusk on the slip", "M1"),
        ("the slip", "M1"),
    ],
)
def test_a_strip_is_of_a_paint_by_code_or_name_or_of_a_mix(
    shelf: UnitOfWork, name: str, code: str
) -> None:
    found = find_paint_or_mix(shelf, name)
    assert (found.facts.code if isinstance(found, Paint) else found.code) == code


def test_of_equal_names_the_paint_is_meant_and_a_code_names_the_mix(shelf: UnitOfWork) -> None:
    mix, _ = add_mix(shelf, find_recipe(shelf, "TM"), HUNG, name="tarred mud")
    paint = find_paint_or_mix(shelf, "Tarred Mud")
    assert isinstance(paint, Paint)
    assert find_paint_or_mix(shelf, mix.code) == mix


def test_the_whole_name_of_a_mix_goes_before_a_part_of_a_paints(shelf: UnitOfWork) -> None:
    mix, _ = add_mix(shelf, find_recipe(shelf, "TM"), HUNG, name="mud")
    assert find_paint_or_mix(shelf, "mud") == mix


def test_the_code_of_a_paint_goes_before_that_of_a_mix(shelf: UnitOfWork) -> None:
    shelf.paints.add(PaintFacts("M1", "Tidewrack", "Wet Slate"))
    assert isinstance(find_paint_or_mix(shelf, "M1"), Paint)


@pytest.mark.parametrize("name", ["gorse", "", "1 FU + 9 AC", "pellow"])
def test_what_fits_nothing_or_several_is_not_found(shelf: UnitOfWork, name: str) -> None:
    with pytest.raises(NotFound):
        find_paint_or_mix(shelf, name)


def test_several_paints_are_listed_when_no_mix_fits(shelf: UnitOfWork) -> None:
    with pytest.raises(NotFound, match=r"FU .*AC|AC .*FU"):
        find_paint_or_mix(shelf, "pellow")


def test_a_test_is_recorded_with_place_day_paper_and_note(shelf: UnitOfWork) -> None:
    test = start_fade(
        shelf,
        find_paint(shelf, "FU"),
        place="  skylight over   the slip ",
        started_on=HUNG,
        today=TODAY,
        paper=find_paper(shelf, "SR"),
        note=" one wash ",
    )
    assert (test.code, test.place, test.started_on, test.note) == (
        "F1",
        "skylight over the slip",
        HUNG,
        "one wash",
    )
    assert test.paper_id == find_paper(shelf, "SR").id
    assert find_paint(shelf, "FU").fade_tests == (test,)
    assert _start(shelf, "M1").mix_id == find_mix(shelf, "M1").id
    assert [each.code for each in shelf.fade_tests.all()] == ["F1", "F2"]


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"place": " "}, "the place is empty"),
        ({"started_on": date(2026, 11, 26)}, "lies in the future"),
        ({"code": "F-1"}, "must start with a letter"),
        ({"code": "f1"}, "code F1 is taken by another fade test"),
    ],
)
def test_an_impossible_test_is_refused(
    shelf: UnitOfWork, change: dict[str, object], words: str
) -> None:
    _start(shelf)
    given = {"place": "north sill", "started_on": HUNG, "today": TODAY, **change}
    with pytest.raises(BadInput, match=words):
        start_fade(shelf, find_paint(shelf, "FU"), **given)  # type: ignore[arg-type]
    assert len(shelf.fade_tests.all()) == 1


def test_a_reading_keeps_both_halves_and_the_card(shelf: UnitOfWork) -> None:
    test = read_fade(shelf, _start(shelf), _halves(5, blue_wool=3), TODAY)
    (reading,) = test.readings
    assert (reading.covered, reading.exposed) == (COVERED, Lab(45, 10, -30))
    assert (reading.blue_wool, reading.category, reading.note) == (3, "II", None)
    assert find_paint(shelf, "FU").fade_tests == (test,)


def test_a_reading_on_the_first_day_and_today_counts(shelf: UnitOfWork) -> None:
    test = read_fade(shelf, _start(shelf), _halves(0, HUNG, 0), TODAY)
    test = read_fade(shelf, test, _halves(3, TODAY), TODAY)
    result = fade_result(shelf, test)
    assert [result.days(reading.read_on) for reading in test.readings] == [0, 269]
    assert result.blue_wool == 0


def test_halves_under_another_white_are_adapted_and_marked(shelf: UnitOfWork) -> None:
    covered, exposed = Lab(40, 10, -30, "D65", 10), Lab(48, 8, -25, "D65", 10)
    test = read_fade(
        shelf, _start(shelf), HalvesRead(MAY, covered, exposed, note="by the window"), TODAY
    )
    (reading,) = test.readings
    assert (reading.covered, reading.exposed) == (adapted(covered), adapted(exposed))
    assert reading.note == "adapted from D65/10°; by the window"


@pytest.mark.parametrize(
    ("read", "words"),
    [
        (HalvesRead(MAY, None, COVERED), "the covered half is missing"),
        (HalvesRead(MAY, COVERED, None), "the exposed half is missing"),
        (HalvesRead(MAY, None, None), "the covered half is missing"),
        (_halves(5, date(2026, 2, 28)), "is older than the test F1"),
        (_halves(5, date(2026, 11, 26)), "lies in the future"),
        (_halves(5, MAY), "was read on 2026-05-01 already"),
        (_halves(5, JULY, 9), "the blue wool step must be at least 0 and at most 8"),
        (_halves(5, JULY, -1), "the blue wool step must be at least 0 and at most 8"),
        (
            HalvesRead(JULY, COVERED, Lab(100, 0, -100, "A", 2)),
            "this Lab cannot be adapted to D50",
        ),
    ],
)
def test_an_impossible_reading_is_refused_in_one_sentence(
    shelf: UnitOfWork, read: HalvesRead, words: str
) -> None:
    test = read_fade(shelf, _start(shelf), _halves(2), TODAY)
    with pytest.raises(BadInput, match=words) as refused:
        read_fade(shelf, test, read, TODAY)
    assert "\n" not in str(refused.value)
    assert find_test(shelf, "F1").readings == test.readings


def test_an_ended_test_keeps_its_readings_and_counts_no_more_days(shelf: UnitOfWork) -> None:
    test = end_fade(shelf, _tested(shelf, "FU", 5), JULY, TODAY)
    assert (test.ended_on, len(test.readings)) == (JULY, 1)
    assert fade_result(shelf, test).days(TODAY) == 122
    assert read_fade(shelf, test, _halves(6, JULY), TODAY).readings[-1].read_on == JULY


def test_a_reading_after_the_end_is_refused(shelf: UnitOfWork) -> None:
    test = end_fade(shelf, _tested(shelf, "FU", 5), JULY, TODAY)
    with pytest.raises(BadInput, match="F1 ended on 2026-07-01"):
        read_fade(shelf, test, _halves(6, date(2026, 7, 2)), TODAY)


@pytest.mark.parametrize(
    ("day", "words"),
    [
        (date(2026, 2, 28), "was started on 2026-03-01"),
        (date(2026, 4, 30), "was read on 2026-05-01"),
        (date(2026, 11, 26), "lies in the future"),
    ],
)
def test_an_impossible_end_is_refused(shelf: UnitOfWork, day: date, words: str) -> None:
    test = _tested(shelf, "FU", 5)
    with pytest.raises(BadInput, match=words):
        end_fade(shelf, test, day, TODAY)
    assert find_test(shelf, "F1").ended_on is None


def test_a_test_ends_once(shelf: UnitOfWork) -> None:
    test = end_fade(shelf, _start(shelf), JULY, TODAY)
    with pytest.raises(BadInput, match="ended on 2026-07-01 already"):
        end_fade(shelf, test, TODAY, TODAY)


def test_a_code_without_a_test_is_not_found(shelf: UnitOfWork) -> None:
    with pytest.raises(NotFound, match="studio fade list"):
        find_test(shelf, "F1")


def test_a_paint_is_held_to_its_rating_and_a_mix_to_the_worst_of_its_paints(
    shelf: UnitOfWork,
) -> None:
    for name in ("FU", "AC", "M1", "TM"):
        _tested(shelf, name, 12)
    results = every_fade_result(shelf)
    published = [result.published.category if result.published else None for result in results]
    # shared/lightfastness.csv: PB29 I, PR83 IV in watercolour.
    assert published == ["I", "IV", "IV", None]
    assert [result.contradicts for result in results] == [True, False, False, False]
    assert all(result.needs_attention for result in results)
    contradicting = find_paint(shelf, "FU").contradicting
    assert contradicting is not None
    assert contradicting.code == "F1"


def _match(work: UnitOfWork) -> Match:
    (match,) = match_colour(work, read_target(work, "lab(30 20 -30)"), Wanted()).matches
    return match


def _log(work: UnitOfWork, mix: Mix) -> None:
    facts = SwatchFacts("", None, 1, Application.FLAT_WASH, HUNG)
    reading = reading_of_lab(Lab(30, 20, -30), Circumstances(HUNG, Method.COLORIMETER))
    log_swatch(
        work, mix=mix, paper=find_paper(work, "SR"), facts=facts, reading=reading, today=TODAY
    )


def test_a_match_names_the_tests_of_its_mix_and_its_paints(shelf: UnitOfWork) -> None:
    _log(shelf, find_mix(shelf, "M1"))
    assert _match(shelf).own_tests == ()
    _start(shelf, "TM")
    _tested(shelf, "AC", 2)
    _tested(shelf, "FU", 9)
    _tested(shelf, "M1", 3)
    _start(shelf, "FU")  # not read, so it says nothing
    own = _match(shelf).own_tests
    assert [(each.test.code, each.subject_code) for each in own] == [
        ("F4", "M1"),
        ("F3", "FU"),
        ("F2", "AC"),
    ]
    assert [each.needs_attention for each in own] == [False, True, False]


def test_the_check_names_tests_that_contradict_or_have_reached_three(shelf: UnitOfWork) -> None:
    for name, change in (("FU", 5), ("FU", 3), ("AC", 7), ("AC", 9), ("M1", 17), ("TM", 8.1)):
        _tested(shelf, name, change)
    found = check_shelf(shelf, low=False, care=False).fade_tests
    assert [(each.result.test.code, [mix.code for mix in each.mixes]) for each in found] == [
        ("F1", ["M1"]),
        ("F4", ["M1"]),
        ("F5", ["M1"]),
        ("F6", []),
    ]


def test_the_check_counts_a_test_alone_as_attention(shelf: UnitOfWork) -> None:
    for code in ("AC", "TM"):
        paint = find_paint(shelf, code)
        shelf.paints.change(
            paint.id, PaintFacts(code, "Tidewrack", code, ("PB29",), status=Status.IN_USE)
        )
    assert not check_shelf(shelf, low=False, care=False).needs_attention
    _tested(shelf, "FU", 5)
    assert check_shelf(shelf, low=False, care=False).needs_attention
    assert not check_shelf(shelf, fading=False, care=False).needs_attention


def test_the_check_leaves_out_tests_of_retired_paints_and_their_mixes(shelf: UnitOfWork) -> None:
    _tested(shelf, "AC", 30)
    _tested(shelf, "M1", 30)
    paint = find_paint(shelf, "AC")
    retired = PaintFacts("AC", "Pellow & Strand", "Alizarin Crimson", status=Status.RETIRED)
    shelf.paints.change(paint.id, retired)
    assert check_shelf(shelf).fade_tests == ()
