"""studio check: what is low, would fade or needs care, and which mixes depend on it."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import Does
from tests.conftest import Run

TITLES = {
    "--low": ["Running low"],
    "--fading": ["Would fade (worst pigment, worst source)", "Own fade tests"],
    "--care": ["Needs care", "Data sheets"],
}
EVERY = [title for titles in TITLES.values() for title in titles]


def test_everything_is_looked_at_unless_something_is_named(run: Run, demo_db: Path) -> None:
    lines = run("check", db=demo_db).out.splitlines()
    assert [line for line in lines if line in EVERY] == EVERY


@pytest.mark.parametrize("option", TITLES)
def test_one_thing_alone_can_be_looked_at(option: str, run: Run, demo_db: Path) -> None:
    outcome = run("check", option, db=demo_db)
    assert outcome.status == 10
    assert [line for line in outcome.out.splitlines() if line in EVERY] == TITLES[option]


def _report(does: Does) -> Any:
    return json.loads(does("check", "--json").out)


def test_a_paint_that_fades_is_named_with_its_source_and_its_mixes(run: Run, demo_db: Path) -> None:
    report = json.loads(run("check", "--fading", "--json", db=demo_db).out)
    first = report["fading"][0]
    assert (first["paint"], first["rating"]["category"]) == ("AC", "IV")
    assert "M11" in first["mixes"]
    shown = run("check", "--fading", db=demo_db).out
    assert "  AC    Pellow & Strand Alizarin Crimson: IV poor\n" in shown
    assert "unverified" in shown


def test_low_paints_and_papers_are_named_with_what_is_left(run: Run, demo_db: Path) -> None:
    shown = run("check", "--low", db=demo_db).out
    assert "  YO    Pellow & Strand Yellow Ochre: 2.3 ml left (low at 3 ml)\n" in shown
    assert "EHP   Eddering Mill Slipway Rag Smooth: 2 sheets left (low at 3 sheets)\n" in shown
    assert "M27" in shown


def test_a_roll_is_low_by_its_length(shelf: Does, run: Run, empty_db: Path) -> None:
    shelf("paper", "add", "Longshore Roll", "--maker", "Harrow Staithe")
    shelf("stock", "buy", "longshore", "10000", "--kind", "roll")
    shelf("stock", "use", "longshore", "8999")
    assert shelf("check", "--low").out == "Nothing on the shelf needs attention.\n"
    shelf("stock", "use", "longshore", "1")
    outcome = run("check", "--low", db=empty_db)
    assert outcome.status == 10
    assert "LR    Harrow Staithe Longshore Roll: 1000 mm left (low at 1000 mm)\n" in outcome.out


def test_a_new_low_mark_is_heeded(run: Run, empty_db: Path) -> None:
    run(
        "paint", "add", "French Ultramarine", "--maker", "Pellow & Strand", "-p", "PB29",
        "--volume", "14", db=empty_db,
    )  # fmt: skip
    assert run("check", "--low", db=empty_db).status == 0
    run("paint", "edit", "FU", "--low-at", "14", db=empty_db)
    outcome = run("check", "--low", db=empty_db)
    assert (outcome.status, "14 ml left (low at 14 ml)" in outcome.out) == (10, True)


def test_a_caution_names_the_paints_the_ways_of_harm_and_where_to_ask(
    run: Run, demo_db: Path
) -> None:
    shown = run("check", "--care", db=demo_db).out
    said = " ".join(shown.split())
    assert "PBr7: manganese, acute toxicity?" in said
    assert "BS Pellow & Strand Burnt Sienna BU Pellow & Strand Burnt Umber" in said
    assert "Harm by swallowing, breathing dust, breathing mist." in said
    assert "With every paint: no brush in the mouth" in said
    assert said.endswith("follow local rules, and ask a professional.")


def test_a_paint_without_pigments_is_reported_as_unknown(run: Run, empty_db: Path) -> None:
    run("paint", "add", "Locker Brown", "--maker", "Orsel Pans", db=empty_db)
    outcome = run("check", db=empty_db)
    assert outcome.status == 10
    assert "No data\n  LB    Orsel Pans Locker Brown: pigments not recorded" in outcome.out


def test_a_retired_paint_is_not_reported(run: Run, demo_db: Path) -> None:
    run("paint", "retire", "AC", db=demo_db)
    report = json.loads(run("check", "--json", db=demo_db).out)
    assert "AC" not in {paint["paint"] for paint in report["fading"]}


def test_a_shelf_in_order_needs_no_attention(shelf: Does) -> None:
    assert shelf("check", "--low").out == "Nothing on the shelf needs attention.\n"
    assert _report(lambda *words: shelf(*words, "--fading"))["attention"] is False
