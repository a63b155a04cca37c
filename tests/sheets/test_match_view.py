"""A match in the terminal: every number with its unit or symbol, colours where they can be."""

import re
from datetime import date
from typing import Final

import pytest

from studio.actions.match_colour import MatchResult, Wanted, match_colour
from studio.actions.rate_pigment import verify_pigment
from studio.actions.read_target import read_target
from studio.colour import difference
from studio.sheets.match_view import print_match
from studio.storage.unit_of_work import UnitOfWork
from tests.servers import names_alone
from tests.sheets.conftest import ColorSystem, Terminal, printed

GREEN: Final = "#767d63"

MARKED: Final = re.compile(
    r"#[0-9a-f]{6}(?:\*(?:\d+\.\d)?)?|\*\d+\.\d:"  # sRGB, and how far it is off
    r"|(?:ΔE00|ΔE\*ab|ΔE CMC\([12]:1\)) \d+\.\d+"  # a difference
    r"|(?:ΔL\*|ΔH\*|ΔC\*|Δa\*|Δb\*|L\*|a\*|b\*)[ \N{NO-BREAK SPACE}][+−]?\d+\.\d"  # a coordinate
    r"|\(D50/2°\)"
    r"|[MSF]\d+"  # codes of mixes, swatches and fade tests
    r"|water [\d.]+:1|\d+ layers?"
    r"|box \d+, row \d+"
    r"|\d{1,2} [A-Z][a-z]{2} \d{4}"  # days
    r"|P[A-Z][a-z]?\d+(?::\d)?|ASTM D4303|blue wool \d"
    r"|\d+ [A-Z][\w']+"  # parts of a paint
)


def _match(work: UnitOfWork, count: int = 8, metric: str = "ciede2000") -> MatchResult:
    ranking = difference.metric(metric)
    return match_colour(work, read_target(work, GREEN), Wanted(), count=count, metric=ranking)


@pytest.mark.parametrize("metric", ["ciede2000", "cie76", "cmc", "cmc(1:1)"])
def test_every_number_has_its_unit_or_symbol(
    metric: str, demo_work: UnitOfWork, terminal: Terminal
) -> None:
    console = terminal(None, width=200)
    print_match(console, _match(demo_work, 76, metric))
    for line in printed(console).splitlines():
        rest = MARKED.sub("", re.sub(r"^ {1,2}\d+ ", "", line))  # the rank stands first
        assert not re.search(r"\d", rest), line


def test_target_and_swatch_are_shown_side_by_side(
    demo_work: UnitOfWork, terminal: Terminal
) -> None:
    console = terminal("truecolor")
    print_match(console, _match(demo_work, 1))
    shown = printed(console)
    assert "\x1b[48;2;118;125;99m    \x1b[0m\x1b[48;2;120;125;98m    \x1b[0m" in shown
    assert "#787d62" not in shown


@pytest.mark.parametrize(
    ("colours", "marks"),
    [("truecolor", (False, False)), ("256", (True, True)), (None, (False, False))],
)
def test_what_only_comes_near_is_marked_and_explained(
    colours: ColorSystem, marks: tuple[bool, bool], demo_work: UnitOfWork, terminal: Terminal
) -> None:
    console = terminal(colours)
    print_match(console, _match(demo_work, 2))
    shown = printed(console)
    assert ("~" in shown, "as near as this terminal shows" in shown) == marks


def test_without_colour_no_escape_codes_are_sent(demo_work: UnitOfWork, terminal: Terminal) -> None:
    console = terminal(None)
    print_match(console, _match(demo_work))
    assert "\x1b" not in printed(console)
    assert "#767d63 #787d62" in printed(console)


def test_a_typed_code_is_not_repeated_without_colour(
    demo_work: UnitOfWork, terminal: Terminal
) -> None:
    console = terminal(None)
    print_match(console, _match(demo_work, 1))
    assert printed(console).splitlines()[0] == "Target  #767d63"


def test_a_rating_is_unverified_until_it_was_confirmed(
    demo_work: UnitOfWork, terminal: Terminal
) -> None:
    for name in ("PB29", "PBr7"):
        pigment = demo_work.pigments.get(name)
        assert pigment is not None
        verify_pigment(
            demo_work, pigment, "tube label", date(2026, 3, 14), ratings=True, hazards=False
        )
    demo_work.forget()
    console = terminal(None, width=120)
    print_match(console, _match(demo_work, 1))
    shown = printed(console)
    assert "lightfastness I by PBr7 (ASTM D4303, verified 14 Mar 2026)" in shown
    assert "° mild, and no verdict: RS manganese" in shown
    assert shown.count("unverified") == 1


def test_a_recipe_with_an_unrated_paint_has_no_rating(
    demo_work: UnitOfWork, terminal: Terminal
) -> None:
    names_alone(demo_work.connection)
    demo_work.connection.exec_driver_sql(
        "DELETE FROM lightfastness_rating WHERE pigment_id = "
        "(SELECT id FROM pigment WHERE ci_name = 'PB29')"
    )
    demo_work.forget()
    console = terminal(None, width=120)
    print_match(console, _match(demo_work, 1))
    assert "lightfastness not known for every pigment" in printed(console)
