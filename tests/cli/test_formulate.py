"""studio formulate: what is printed, what JSON holds, and what is refused."""

import json
import shlex
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import Refuses
from tests.cli.json_names import names_in
from tests.conftest import Run
from tests.servers import fingerprint

UNMIXED = "lab(58 18 34)"


@pytest.fixture
def asked(run: Run, demo_db: Path) -> Any:
    """`asked("tan", "-n", "1")`: what is predicted, as JSON."""

    def formulate(*words: str) -> Any:
        outcome = run("formulate", *words, "--json", db=demo_db)
        assert outcome.status == 0, outcome.err
        return json.loads(outcome.out)

    return formulate


def test_a_recipe_comes_with_all_that_is_needed_to_try_it(run: Run, demo_db: Path) -> None:
    lines = run("formulate", UNMIXED, "-n", "1", "--paints", "2", db=demo_db).out.splitlines()
    assert lines[0].endswith(f"  {UNMIXED}")
    assert lines[2] == "        on Eddering Mill Slipway Rag (its white measured)"
    first = next(line for line in lines if line.startswith("  1  "))
    assert " ± " in first
    assert first.endswith("predicted")
    text = " ".join(line.strip() for line in lines)
    for part in (" · water ", "rests on ", " alone, ", "lightfastness ", "These are predictions"):
        assert part in text
    assert any(line.startswith('  studio swatch log "') for line in lines)
    assert any(line == f'  studio adjust S… "{UNMIXED}"' for line in lines)
    assert all(len(line) <= 80 for line in lines)


def test_the_next_test_patch_is_logged_as_it_is_printed(run: Run, demo_db: Path) -> None:
    out = run("formulate", UNMIXED, "-n", "1", "--layers", "2", db=demo_db).out
    start = out.index("  studio swatch log") + len("  studio ")
    command = shlex.split(out[start : out.index("  studio adjust")])
    assert command[-1] == UNMIXED
    logged = run(*command, "--lab", "58,18,34", db=demo_db)
    assert logged.status == 0, logged.err
    assert "2 layers" in logged.out


def test_mixes_on_record_are_named_first(run: Run, demo_db: Path) -> None:
    out = run("formulate", "#767d63", "-n", "1", "--paints", "2", db=demo_db).out
    assert 'Already mixed: M38 salt marsh turf, ΔE00 0.9: studio match "#767d63"' in out
    assert out.index("Already mixed") < out.index("\n  1  ")


def test_out_of_reach_says_what_fails_and_what_would_help(run: Run, demo_db: Path) -> None:
    dark = " ".join(run("formulate", "lab(8 0 0)", "--paints", "1", db=demo_db).out.split())
    assert "The value cannot be reached with these paints." in dark
    assert "another layer (--layers 2)" in dark
    red = " ".join(run("formulate", "#ff2000", "--paints", "2", db=demo_db).out.split())
    assert "The chroma cannot be reached" in red


def test_json_holds_its_names(asked: Any) -> None:
    found = asked(UNMIXED, "--paints", "2")
    assert set(found) == {
        "target", "predicted", "paper", "paper_basis", "layers", "within_reach", "failing",
        "reached_delta_e", "nearest", "recipes", "recorded", "lights", "paints", "left_out",
        "never_use",
        "too_uncertain", "lay_first", "combinations", "swatches_measured", "swatches_estimated",
    }  # fmt: skip
    names = names_in(found["recipes"])
    assert names is not None
    assert set(names) == {
        "rank", "delta_e", "expected_error", "recipe", "water", "lab", "words",
        "lightness_difference", "chroma_difference", "hue_difference", "spectral_difference",
        "mix", "rests_on", "never_mixed", "in_stock", "out_of_stock", "lightfastness",
        "lightfastness_source", "lightfastness_verified", "never_use", "cautions",
        "own_fade_tests", "lights",
        "shifts", "too_uncertain",
    }  # fmt: skip
    assert set(found["recipes"][0]["rests_on"][0]) == {"paint", "alone", "mixed", "estimated"}
    assert set(found["nearest"]) == set(names)
    assert found["predicted"] is True
    assert found["within_reach"] is True
    assert found["failing"] is None


def test_filters_and_lights_reach_the_search(asked: Any) -> None:
    found = asked(UNMIXED, "--only", "FU", "--only", "BS", "--with", "YO", "--light", "A")
    assert found["paints"] == ["FU", "BS", "YO"]
    assert all("YO" in {part["paint"] for part in each["recipe"]} for each in found["recipes"])
    assert [shift["light"] for shift in found["recipes"][0]["shifts"]] == ["A"]
    paper = asked(UNMIXED, "--paints", "1", "--paper", "EHP", "--lightfast", "I")
    assert paper["paper"] == "EHP"
    swatch = asked("S74", "--paints", "2", "--spectral", "--light", "A,LED-B3", "--any-stock")
    assert [each["light"] for each in swatch["recipes"][0]["lights"]] == ["A", "LED-B3"]


def test_looking_changes_no_record(run: Run, demo_db: Path) -> None:
    before = fingerprint(demo_db)
    assert run("formulate", UNMIXED, "--paints", "1", db=demo_db).status == 0
    assert fingerprint(demo_db) == before


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("tan --paints 5", "at most 4"),
        ("tan --paints 0", "at least 1"),
        ("tan --layers 0", "at least 1"),
        ("tan -n 0", "at least 1"),
        ("tan --light blue", "is not an illuminant"),
        ("tan --light D50", "name another"),
        ("tan --spectral", "a colour alone has no spectrum"),
        ("'#blurple'", "is not a CSS colour"),
        ("tan --only CR", "Cadmium Red is retired"),
        ("tan --with CR", "Cadmium Red is retired"),
        ("tan --only FU --without FU", "no paint passes these filters"),
        ("tan --with FU --without FU", "another filter leaves it out"),
        ("tan --with FU --with BS --paints 1", "ask for more with --paints 2"),
        ("tan --lightfast VI", "lightfast"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(refuses: Refuses, line: str, said: str) -> None:
    assert said in refuses(3, "formulate", *shlex.split(line))


def test_names_that_fit_nothing_are_not_found(refuses: Refuses) -> None:
    assert "S9999" in refuses(4, "formulate", "S9999")
    assert "nothing is called 'blurple'; near it: purple" in refuses(4, "formulate", "blurple")
    refuses(4, "formulate", "tan", "--only", "no such paint")
    refuses(4, "formulate", "tan", "--paper", "no such paper")


def test_a_new_studio_is_told_what_to_do(run: Run, empty_db: Path) -> None:
    outcome = run("formulate", "tan", db=empty_db)
    assert (outcome.status, outcome.out) == (3, "")
    assert "studio paint add" in outcome.err
