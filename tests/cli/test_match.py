"""studio match: targets, filters and what is said when nothing is near."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import Does
from tests.conftest import Run

GREEN = "#767d63"


@pytest.fixture
def found(run: Run, demo_db: Path) -> Any:
    """`found("tan")`: the matches in the demo studio."""

    def match(*words: str) -> Any:
        return json.loads(run("match", *words, "--json", db=demo_db).out)["matches"]

    return match


def _mixes(matches: Any) -> list[str]:
    return [row["mix"] for row in matches]


def _paints(matches: Any) -> set[str]:
    return {part["paint"] for row in matches for part in row["recipe"]}


def test_the_nearest_mix_comes_first_with_all_that_is_needed_to_lay_it(
    run: Run, demo_db: Path
) -> None:
    lines = run("match", GREEN, "-n", "1", db=demo_db).out.splitlines()
    assert lines[:2] == ["Target  #767d63", "        L* 51.3  a* −6.4  b* +13.3  (D50/2°)"]
    assert lines[3] == "  1  #767d63 #787d62  ΔE00 0.88  M38  salt marsh turf"
    assert lines[4] == "     3 Raw Sienna + 1 French Ultramarine °"
    assert lines[5].startswith("     a trace yellower")
    assert lines[6] == "     water 1:1 · 1 layer · flat wash"
    assert lines[7].startswith("     Eddering Mill Slipway Rag · swatch S112 · card box 2, row 4")
    assert lines[8].startswith("     all paints in stock · lightfastness I by PBr7")
    assert any(line.startswith("° mild, and no verdict: RS manganese") for line in lines)


def test_each_mix_stands_once_unless_every_swatch_is_wanted(found: Any) -> None:
    once = _mixes(found(GREEN, "-n", "20"))
    assert len(set(once)) == 20
    every = _mixes(found(GREEN, "-n", "20", "--all-swatches"))
    assert len(every) == 20
    assert len(set(every)) < 20


def test_the_count_is_five_unless_named(found: Any) -> None:
    assert len(found(GREEN)) == 5
    assert len(found(GREEN, "--count", "7")) == 7
    assert found(GREEN, "-n", "7")[:5] == found(GREEN)


def test_a_swatch_as_target_does_not_find_itself(found: Any) -> None:
    rows = found("s112", "--all-swatches", "-n", "30")
    assert "S112" not in {row["swatch"] for row in rows}


def test_a_target_in_several_words_is_one_target(run: Run, demo_db: Path) -> None:
    apart = run("match", "5PB", "4/2", "-n1", "--json", db=demo_db).out
    assert json.loads(apart)["target"]["given"] == "5PB 4/2"
    assert "illuminant C" in json.loads(apart)["target"]["note"]
    assert apart == run("match", "5PB 4/2", "-n1", "--json", db=demo_db).out


def test_only_with_and_without_narrow_by_paint(found: Any) -> None:
    assert _paints(found(GREEN, "--only", "RS", "--only", "FU", "--only", "BS")) <= {
        "RS",
        "FU",
        "BS",
    }
    for row in found(GREEN, "--with", "raw sienna", "--with", "FU"):
        assert {"RS", "FU"} <= _paints([row])
    assert "RS" in _paints(found(GREEN))
    assert "RS" not in _paints(found(GREEN, "--without", "RS"))


def test_paper_narrows_to_swatches_on_it(found: Any) -> None:
    assert {row["paper"] for row in found(GREEN, "-n", "20")} != {"CRO"}
    assert {row["paper"] for row in found(GREEN, "-n", "20", "--paper", "foreshore")} == {"CRO"}


def test_in_stock_leaves_out_what_cannot_be_mixed_now(found: Any) -> None:
    red = "lab(45 60 35)"
    missing = {code for row in found(red, "-n", "20") for code in row["out_of_stock"]}
    assert missing == {"CR"}
    rows = found(red, "-n", "20", "--in-stock")
    assert all(row["in_stock"] and not row["out_of_stock"] for row in rows)
    assert "CR" not in _paints(rows)


def test_lightfast_leaves_out_what_would_fade_or_nobody_rated(found: Any) -> None:
    def categories(*words: str) -> set[str | None]:
        return {row["lightfastness"] for row in found("lab(45 40 0)", "-n", "40", *words)}

    assert {"IV", "III"} <= categories()
    assert categories("--lightfast", "ii") <= {"I", "II"}
    assert categories("--lightfast", "I") == {"I"}


def test_without_hazard_leaves_out_the_class_and_any_leaves_out_all_cautions(
    found: Any, run: Run, demo_db: Path
) -> None:
    def metals(*words: str) -> set[str]:
        rows = found("lab(55 -5 -20)", "-n", "30", *words)
        return {metal for row in rows for caution in row["cautions"] for metal in caution["metals"]}

    assert "cobalt" in metals()
    assert "cobalt" not in metals("--without-hazard", "cobalt")
    # What nobody looked up is left out too, until its label and its data sheet are read.
    class_ = json.loads(run("check", "--class", "adults", "--json", db=demo_db).out)["class"]
    for each in class_["unread"]:
        words = ("--file-or-address", "sheets/read.pdf", "--marks", "AP")
        run("paint", "document", each["paint"], *words, db=demo_db)
    rows = found("lab(55 -5 -20)", "-n", "30", "--without-hazard", "any")
    assert rows
    assert not any(row["cautions"] for row in rows)


def test_swatches_read_wet_take_part_only_when_asked(shelf: Does) -> None:
    shelf("swatch", "log", "FU", "--lab", "50,0,0", "--wet")
    assert "No swatch passes these filters" in shelf("match", "lab(50 0 0)").out
    shown = shelf("match", "lab(50 0 0)", "--wet-swatches").out
    assert "ΔE00 0.00" in shown
    assert "read wet" in shown
    assert "the same to the eye" in shown


def test_within_leaves_out_what_is_further(found: Any, run: Run, demo_db: Path) -> None:
    rows = found(GREEN, "-n", "20", "--within", "6")
    assert [row["mix"] for row in rows] == [
        row["mix"] for row in found(GREEN, "-n", "20") if row["delta_e"] <= 6
    ]
    said = run("match", GREEN, "--within", "0.5", db=demo_db).out
    assert "No recorded mix is as near as that." in said


def test_nothing_near_is_said_with_what_it_would_need(run: Run, demo_db: Path) -> None:
    outcome = run("match", "lab(20 80 -100)", "-n", "1", db=demo_db)
    assert outcome.status == 0
    said = " ".join(outcome.out.split())
    assert "Nothing recorded is within ΔE00 5 of this colour." in said
    assert "The nearest is M" in said
    assert "). Make it darker, " in said
    assert json.loads(run("match", "lab(20 80 -100)", "--json", db=demo_db).out)["near"] is False


def test_the_metric_ranks_and_is_named(run: Run, demo_db: Path, found: Any) -> None:
    assert "ΔE00 0.88" in run("match", GREEN, "-n1", db=demo_db).out
    shown = run("match", GREEN, "-n1", "--metric", "cie76", db=demo_db).out
    assert "ΔE00" not in shown
    rows = found(GREEN, "-n", "30", "--metric", "cmc(1:1)")
    assert [row["delta_e"] for row in rows] == sorted(row["delta_e"] for row in rows)
    assert _mixes(rows) != _mixes(found(GREEN, "-n", "30"))
