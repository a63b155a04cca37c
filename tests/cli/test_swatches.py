"""studio swatch: logged, read again, corrected."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import Does
from tests.conftest import Run

LOG = ("swatch", "log", "2 FU + 1 BS", "--lab", "41,2,-12")


def _swatch(does: Does, code: str = "S1") -> Any:
    return json.loads(does("swatch", "show", code, "--json").out)


def test_a_new_recipe_becomes_a_mix_and_a_second_swatch_joins_it(shelf: Does) -> None:
    shelf(*LOG)
    shelf("swatch", "log", "1 BS + 2 FU", "--lab", "63,1,-8", "--water", "8:1")
    assert (_swatch(shelf)["mix"], _swatch(shelf, "S2")["mix"]) == ("M1", "M1")
    assert json.loads(shelf("mix", "list", "--json").out)[0]["swatches"] == 2


def test_how_it_was_made_is_kept(shelf: Does) -> None:
    shelf(
        *LOG, "--water", "3:2", "--layers", "2", "--applied", "Glaze", "--on", "2026-03-14",
        "--kept", "box 1, row 2", "--note", "cockled", "--instrument", "45/0", "--condition", "m1",
        "--error", "0.4", "--method", "spectrophotometer",
    )  # fmt: skip
    swatch = _swatch(shelf)
    assert {name: swatch[name] for name in ("water", "layers", "application", "made_on")} == {
        "water": 1.5,
        "layers": 2,
        "application": "glaze",
        "made_on": "2026-03-14",
    }
    assert (swatch["kept_at"], swatch["note"], swatch["paper"]) == ("box 1, row 2", "cockled", "SR")
    (reading,) = swatch["readings"]
    assert reading["given"] == {"lab": [41.0, 2.0, -12.0], "illuminant": "D50", "observer": 2}
    assert (reading["origin"], reading["method"]) == ("measured", "spectrophotometer")
    assert (reading["condition"], reading["error_delta_e"]) == ("M1", 0.4)
    assert reading["read_on"] == "2026-03-14"


def test_a_target_is_answered_with_the_difference_in_words(shelf: Does) -> None:
    # Sharma, Wu and Dalal 2005, pair 21: ΔE00 of (50, 2.5, 0) and (50, 3.2592, 0.3350) is 1.0000
    shown = shelf("swatch", "log", "FU", "--lab", "50,3.2592,0.3350", "--for", "lab(50 2.5 0)").out
    assert "lab(50 2.5 0)  ΔE00 1.00\n" in shown
    assert "this swatch is a trace redder (ΔL* 0.0, Δa* +0.8, Δb* +0.3)" in shown
    lighter = shelf("swatch", "log", "FU", "--lab", "60,2.5,0", "--for", "lab(50 2.5 0)").out
    assert "this swatch is much lighter (ΔL* +10.0, Δa* 0.0, Δb* 0.0)" in lighter


def test_an_earlier_swatch_can_be_the_target(shelf: Does) -> None:
    shelf(*LOG)
    shelf("swatch", "log", "FU", "--lab", "45,2,-12", "--for", "S1")
    assert _swatch(shelf, "S2")["target_lab"] == [41.0, 2.0, -12.0]


def test_a_dry_reading_replaces_a_wet_colour_and_dry_ones_are_averaged(shelf: Does) -> None:
    shelf("swatch", "log", "FU", "--lab", "30,2,-20", "--wet")
    assert (_swatch(shelf)["state"], _swatch(shelf)["lab"]) == ("wet", [30.0, 2.0, -20.0])
    shown = shelf("swatch", "read", "s1", "--lab", "40,2,-12").out
    assert shown.startswith("S1  #")
    assert (_swatch(shelf)["state"], _swatch(shelf)["lab"]) == ("dry", [40.0, 2.0, -12.0])
    shelf("swatch", "read", "S1", "--lab", "42,4,-14")
    assert _swatch(shelf)["lab"] == [41.0, 3.0, -13.0]
    assert [reading["state"] for reading in _swatch(shelf)["readings"]] == ["wet", "dry", "dry"]


def test_a_colour_judged_by_eye_says_so(shelf: Does) -> None:
    shelf("swatch", "log", "FU", "--colour", "lab(41 2 -12)")
    (reading,) = _swatch(shelf)["readings"]
    assert (reading["lab"], reading["method"]) == ([41.0, 2.0, -12.0], "by eye")


def test_another_white_is_kept_and_marked_as_adapted(shelf: Does) -> None:
    shown = shelf(*LOG, "--illuminant", "D65", "--observer", "10").out
    assert "adapted from L* 41.0  a* +2.0  b* −12.0  (D65/10°)" in shown
    assert "off by ΔE00 2.2 on average; a spectrum makes it exact" in " ".join(shown.split())
    (reading,) = _swatch(shelf)["readings"]
    assert (reading["origin"], reading["given"]["illuminant"]) == ("adapted", "D65")
    assert reading["given"]["lab"] == [41.0, 2.0, -12.0]
    assert reading["lab"] != reading["given"]["lab"]


def test_a_spectrum_is_kept_and_turned_into_lab(shelf: Does, tmp_path: Path) -> None:
    table = tmp_path / "grey.csv"
    rows = [f"{wavelength},0.184187" for wavelength in range(380, 740, 10)]
    table.write_text("\n".join(["nm,reflectance", *rows]))
    shelf("swatch", "log", "FU", "--spectrum", str(table))
    (reading,) = _swatch(shelf)["readings"]
    # Y = 0.184187 is L* 50 by its definition (CIE 15), and a flat spectrum is neutral.
    assert reading["lab"] == pytest.approx([50.0, 0.0, 0.0], abs=0.02)
    assert reading["spectrum"]["start_nm"] == 380
    assert reading["spectrum"]["reflectance"] == [0.184187] * 36
    assert (reading["origin"], reading["method"]) == ("from spectrum", "spectrophotometer")


def test_the_paper_is_that_of_the_last_swatch_unless_named(shelf: Does) -> None:
    shelf("paper", "add", "Creek Rough", "--maker", "Eddering Mill")
    shelf(*LOG, "--paper", "creek")
    outcome = shelf(*LOG)
    assert "on Eddering Mill Creek Rough, as the last swatch" in outcome.err
    assert _swatch(shelf, "S2")["paper"] == "CR"
    assert shelf(*LOG, "--paper", "SR").err == ""


def test_of_several_papers_the_first_swatch_must_name_one(
    shelf: Does, run: Run, empty_db: Path, in_a_pipe: None
) -> None:
    del in_a_pipe
    shelf("paper", "add", "Creek Rough", "--maker", "Eddering Mill")
    outcome = run(*LOG, db=empty_db)
    assert (outcome.status, outcome.out) == (3, "")
    assert outcome.err == "studio: the paper is missing; give --paper\n"


def test_a_correction_changes_only_what_it_names(shelf: Does) -> None:
    shelf(*LOG, "--water", "3:1", "--for", "#5b5f6e", "--kept", "box 1", "--note", "cockled")
    before = _swatch(shelf)
    shelf("swatch", "edit", "S1", "--water", "4", "--layers", "3", "--applied", "dry brush")
    after = _swatch(shelf)
    changed = {"water": 4.0, "layers": 3, "application": "dry brush"}
    assert after == {**before, **changed}
    shelf("swatch", "edit", "S1", "--for", "", "--kept", "", "--note", "", "--on", "2026-01-02")
    cleared = _swatch(shelf)
    assert (cleared["target"], cleared["target_lab"]) == (None, None)
    assert (cleared["kept_at"], cleared["note"], cleared["made_on"]) == (None, None, "2026-01-02")
    assert cleared["readings"] == before["readings"]


def test_a_swatch_moves_to_another_paper(shelf: Does) -> None:
    shelf("paper", "add", "Creek Rough", "--maker", "Eddering Mill")
    shelf(*LOG, "--paper", "SR")
    assert (
        "  paper       CR Eddering Mill Creek Rough\n"
        in shelf("swatch", "edit", "S1", "--paper", "CR").out
    )


def test_the_list_is_narrowed_by_mix_paper_and_number(run: Run, demo_db: Path) -> None:
    def codes(*words: str) -> list[str]:
        listed = json.loads(run("swatch", "list", *words, "--json", db=demo_db).out)
        return [swatch["swatch"] for swatch in listed]

    assert len(codes()) == 244
    assert codes("-n", "2") == ["S243", "S244"]
    assert codes("--of", "M38") == ["S112", "S113", "S114"]
    assert codes("--of", "salt marsh turf", "--paper", "CRO") == ["S113"]
    assert codes("--of", "M38", "--last", "1") == ["S114"]
