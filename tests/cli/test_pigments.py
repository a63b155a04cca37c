"""studio pigment: what sources say, what the owner confirmed, and never a verdict."""

import json
from pathlib import Path
from typing import Any

from tests.cli.conftest import Does
from tests.conftest import Run


def _pigment(does: Does, name: str) -> Any:
    return json.loads(does("pigment", "show", name, "--json").out)


def test_everything_shipped_is_unverified(does: Does) -> None:
    pigments = json.loads(does("pigment", "list", "--json").out)
    assert len(pigments) > 200
    said = [row for pigment in pigments for row in (*pigment["ratings"], *pigment["hazards"])]
    assert {row["verified"] for row in said} == {False}
    assert {row["verified_on"] for row in said} == {None}


def test_what_the_owner_confirmed_is_verified_and_nothing_else(does: Does) -> None:
    before = does("pigment", "show", "PB29").out
    assert "unverified" in before.split("Lightfastness", 1)[1].split("Cautions")[0]
    said = does("pigment", "verify", "PB29", "--lightfastness", "--from", "tube label").out
    assert said == "PB29: 1 marked as verified from tube label\n"
    after = " ".join(does("pigment", "show", "PB29").out.split())
    ratings, cautions = after.split("Lightfastness", 1)[1].split("Cautions")
    assert "; verified " in ratings
    assert "from tube label" in ratings
    assert "unverified" not in ratings
    assert "unverified" in cautions.split("Unverified summary")[0]
    shown = _pigment(does, "PB29")
    assert shown["ratings"][0]["verified_from"] == "tube label"
    assert not any(hazard["verified"] for hazard in shown["hazards"])
    others = json.loads(does("pigment", "list", "--json").out)
    verified = [p["pigment"] for p in others if any(row["verified"] for row in p["ratings"])]
    assert verified == ["PB29"]


def test_a_source_of_several_is_confirmed_alone(does: Does) -> None:
    listed = json.loads(does("pigment", "list", "--json").out)
    name, sources = next(
        (pigment["pigment"], sources)
        for pigment in listed
        if len(sources := {rating["source"] for rating in pigment["ratings"]}) > 1
    )
    one = min(sources)
    does("pigment", "verify", name, "--lightfastness", "--from", "a book", "--source", one)
    shown = _pigment(does, name)["ratings"]
    assert {row["source"] for row in shown if row["verified"]} == {one}
    assert {row["source"] for row in shown if not row["verified"]} == sources - {one}


def test_cautions_are_confirmed_alone(does: Does) -> None:
    does("pigment", "verify", "PBr7", "--hazards", "--from", "safety data sheet")
    shown = _pigment(does, "PBr7")
    assert all(row["verified"] for row in shown["hazards"])
    assert not any(row["verified"] for row in shown["ratings"])


def test_an_own_rating_stands_beside_the_others_and_the_worst_counts(does: Does) -> None:
    assert _pigment(does, "PB29")["lightfastness"] == "I"
    said = does("pigment", "rate", "ultramarine", "iii", "--source", "my own window test").out
    assert said == "PB29: ASTM D4303 III from my own window test\n"
    shown = _pigment(does, "PB29")
    assert shown["lightfastness"] == "III"
    assert [(row["rating"], row["verified"]) for row in shown["ratings"]] == [
        ("I", False),
        ("III", True),
    ]


def test_blue_wool_steps_count_by_the_usual_correspondence(does: Does) -> None:
    does(
        "pigment", "rate", "PB29", "3", "--scale", "Blue Wool", "--source", "my own window test",
        "--year", "2025", "--note", "south window",
    )  # fmt: skip
    shown = _pigment(does, "PB29")
    assert (shown["lightfastness"], shown["ratings"][-1]["year"]) == ("IV", 2025)


def test_a_pigment_is_found_however_it_is_written(does: Does) -> None:
    first_line = does("pigment", "show", "PB29").out.splitlines()[0]
    for name in ("pb29", "PB 29", "Ultramarine"):
        assert does("pigment", "show", name).out.splitlines()[0] == first_line


def test_the_list_is_narrowed_by_name(does: Does) -> None:
    listed = json.loads(does("pigment", "list", "CADMIUM", "--json").out)
    assert {"PR108", "PY35"} <= {pigment["pigment"] for pigment in listed}
    assert all("cadmium" in pigment["common_name"] for pigment in listed)


def test_a_verified_rating_reaches_the_paint_and_the_match(run: Run, demo_db: Path) -> None:
    assert "(ASTM D4303, unverified)" in run("match", "#767d63", "-n1", db=demo_db).out
    for name in ("PB29", "PBr7"):
        run("pigment", "verify", name, "--lightfastness", "--from", "tube label", db=demo_db)
    matched = run("match", "#767d63", "-n1", db=demo_db).out
    assert "(ASTM D4303, verified " in " ".join(matched.split())
    row = json.loads(run("match", "#767d63", "-n1", "--json", db=demo_db).out)["matches"][0]
    assert row["lightfastness_verified"] is True
