"""Fade tests in the terminal: what hangs where, and what each reading says."""

from collections.abc import Sequence
from datetime import date

from rich.console import Console
from rich.text import Text

from studio.actions.fade_results import FadeResult
from studio.catalogue.fade import (
    BANDS,
    INDICATIVE,
    FadeReading,
    category_of_step,
    exposure_of_step,
)
from studio.catalogue.lightfastness import CATEGORIES, WORDS
from studio.colour.words import separation
from studio.sheets.own_tests import mix_text, subject_text
from studio.sheets.screen import (
    day_text,
    indented,
    lab_text,
    legend,
    patch,
    print_parts,
    print_table,
    separation_text,
    verified_text,
)
from studio.sheets.tables import plain_table

_BLUE_WOOL_RULE = (
    "Blue wool: each step needs about twice the exposure of the one before (CAMEO, Museum of Fine "
    "Arts, Boston, Blue Wool Standard page). Which category a step stands for is usual practice, "
    "from memory, and no part of ASTM D4303."
)
NONE_YET = "No fade test yet; start one with: studio fade start"


def print_fade_list(console: Console, results: Sequence[FadeResult], today: date) -> None:
    """One line a test: what it is of, where it hangs, how far it has changed."""
    if not results:
        indented(console, NONE_YET, 0)
        return
    table = plain_table("test", "of", "place", "days", "ΔE*ab", "band", "rated", "", right={3, 4})
    for result in results:
        worst, rating = result.worst, result.published
        ended = " (ended)" if result.test.ended_on else ""
        table.add_row(
            result.test.code,
            subject_text(result),
            f"{result.test.place}{ended}",
            str(result.days(today)),
            f"{worst.delta_e:.1f}" if worst else "unread",
            worst.category if worst else "",
            rating.category if rating else "no",
            "contradicts" if result.contradicts else "",
        )
    print_table(console, table)
    indented(console, INDICATIVE, 0, "dim")


def print_fade_report(console: Console, results: Sequence[FadeResult], today: date) -> None:
    """Each test with its readings, its ratings and its verdict."""
    if not results:
        indented(console, NONE_YET, 0)
        return
    for result in results:
        _print_test(console, result, today)
        console.print()
    if any(result.blue_wool is not None for result in results):
        indented(console, _BLUE_WOOL_RULE, 0, "dim")
    labs = [
        half
        for result in results
        for reading in result.test.readings
        for half in (reading.covered, reading.exposed)
    ]
    note = legend(console, *labs)
    if note:
        indented(console, note, 0, "dim")
    indented(console, INDICATIVE, 0, "bold")


def _print_test(console: Console, result: FadeResult, today: date) -> None:
    test = result.test
    indented(console, f"{test.code}  {subject_text(result)}", 0, "bold")
    if result.mix is not None and result.mix.name:
        indented(console, mix_text(result))
    until = f" to {day_text(test.ended_on)}" if test.ended_on else ", still hanging"
    since = f"{test.place}, from {day_text(test.started_on)}{until}"
    indented(console, f"{since} ({days_text(result.days(today))})")
    if result.paper is not None:
        indented(console, f"on {result.paper.facts.full_name}")
    if test.note:
        indented(console, test.note)
    for reading in test.readings:
        _print_reading(console, result, reading)
    if result.blue_wool is not None:
        console.print("Blue wool", style="bold")
        indented(console, blue_wool_text(result.blue_wool))
    console.print("Published ratings", style="bold")
    _print_ratings(console, result)
    console.print("Verdict", style="bold")
    indented(console, verdict_text(result))


def _print_reading(console: Console, result: FadeResult, reading: FadeReading) -> None:
    apart = separation(reading.covered.coordinates, reading.exposed.coordinates)
    parts: list[Text | str] = [
        patch(console, reading.covered, reading.exposed),
        f"ΔE*ab {reading.delta_e:.1f}",
        f"band {reading.category} ({WORDS[reading.category]}) so far",
    ]
    day = f"{day_text(reading.read_on)}, {days_text(result.days(reading.read_on))}"
    indented(console, day, 0, "bold")
    print_parts(console, "  ", parts, 2)
    indented(console, f"covered  {lab_text(reading.covered)}", 4)
    indented(console, f"exposed  {lab_text(reading.exposed)}", 4)
    indented(console, f"the exposed half is {apart.sentence} ({separation_text(apart)})", 4)
    if reading.blue_wool is not None:
        step = f"{reading.blue_wool} had" if reading.blue_wool else "1 had not yet"
        indented(console, f"blue wool step {step} faded", 4)
    if reading.note:
        indented(console, reading.note, 4)


def _print_ratings(console: Console, result: FadeResult) -> None:
    ratings = {
        rating: None
        for paint in result.paints
        for pigment in paint.pigments
        for rating in pigment.ratings
    }
    for rating in ratings:
        indented(
            console,
            f"{rating.label} {rating.scale} {rating.rating} in {rating.medium}: "
            f"{rating.source}; {verified_text(rating.verified_on)}",
        )
    unrated = dict.fromkeys(name for paint in result.paints for name in paint.unrated)
    if unrated:
        indented(console, f"no rating on record for {', '.join(unrated)}")
    for paint in result.paints:
        if not paint.pigments:
            indented(console, f"{paint.facts.code}: pigments not recorded")


def verdict_text(result: FadeResult) -> str:
    """Whether a test contradicts what is published, in plain words."""
    worst, rating = result.worst, result.published
    if worst is None:
        return "Not read yet, so nothing can be said."
    change = f"It has changed ΔE*ab {worst.delta_e:.1f}, band {worst.category} of ASTM D4303"
    if rating is None:
        return f"{change}; no published rating is on record to compare it with."
    usual = "" if rating.category == rating.rating else f", usually set beside {rating.category}"
    rated = f"the published rating of {rating.label} ({rating.scale} {rating.rating}{usual})"
    if not result.contradicts:
        return f"{change}, so far within {rated}; the test does not contradict it."
    limit = BANDS[CATEGORIES.index(rating.category)]
    return f"{change}; {rated} allows {limit:g}: the test contradicts it."


def blue_wool_text(step: int) -> str:
    """What the highest faded step of a blue wool card means."""
    if step == 0:
        return "No step has faded beside it yet."
    exposure = (
        "the first step to fade"
        if step == 1
        else f"about {exposure_of_step(step):g} times the exposure that fades step 1"
    )
    return (
        f"Step {step} has faded: {exposure}. A paint that fades along with step {step} is usually "
        f"set in category {category_of_step(step)} (from memory)."
    )


def days_text(days: int) -> str:
    """`1 day`, `2 days`."""
    return "1 day" if days == 1 else f"{days} days"
