"""studio swatch compare|drying and match --light|--wet, as typed and as JSON."""

import json
from pathlib import Path
from typing import Any, Final

import pytest

from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets.screen import OUTSIDE
from tests.cli.conftest import Does, Refuses
from tests.conftest import Run
from tests.servers import fingerprint

LIGHT: Final = {"light", "delta_e", "reference_delta_e", "index", "index_by_xyz", "breaks"}
SHIFT: Final = {
    *("paper", "paints", "pairs", "enough", "mean", "spread", "standard_error"),
    "left_out_delta_e",
}
COMPONENTS: Final = {"lightness_difference", "chroma_difference", "hue_difference"}


def _json(run: Run, db: Path, *words: str) -> Any:
    outcome = run(*words, "--json", db=db)
    assert outcome.status == 0, outcome.err
    return json.loads(outcome.out)


def test_two_swatches_are_compared_under_the_usual_lights(run: Run, demo_db: Path) -> None:
    found = _json(run, demo_db, "swatch", "compare", "s57", "S175")
    assert found.keys() == {
        *("swatches", "illuminant", "observer", "delta_e", "words", "lights", "note"),
        *COMPONENTS,
    }
    assert [each["swatch"] for each in found["swatches"]] == ["S57", "S175"]
    assert found["swatches"][0].keys() == {"swatch", "mix", "recipe", "paper", "state", "lab"}
    assert (found["illuminant"], found["observer"], found["note"]) == ("D50", 2, None)
    lights = {each["light"]: each for each in found["lights"]}
    assert list(lights) == ["A", "LED-B3", "FL2"]
    assert all(each.keys() == LIGHT for each in found["lights"])
    assert found["delta_e"] == lights["A"]["reference_delta_e"] == pytest.approx(1.96, abs=0.01)
    assert lights["A"]["delta_e"] == pytest.approx(2.06, abs=0.01)
    assert [each["breaks"] for each in found["lights"]] == [True, True, False]


def test_what_breaks_is_said_with_its_number(run: Run, demo_db: Path) -> None:
    shown = run("swatch", "compare", "S57", "S175", "--light", "a,fl2", db=demo_db).out
    lines = shown.splitlines()
    assert "under D50  #f59d8b #f8a594  ΔE00 1.96" in lines
    assert "  S175 is a little lighter, a trace duller  (ΔL* +2.2, ΔH* −0.1, ΔC* −3.1)" in lines
    assert any(line.startswith("A ") and line.endswith("breaks") for line in lines)
    assert any(line.startswith("FL2 ") and line.endswith("holds") for line in lines)
    assert "The match breaks under A (ΔE00 2.1)." in lines
    assert "common practice, no source" in shown
    assert "ISO 18314-4" in shown


def test_what_is_no_match_by_day_cannot_break(run: Run, demo_db: Path) -> None:
    shown = run("swatch", "compare", "S6", "S9", db=demo_db).out
    assert "The match breaks" not in shown
    assert [line.split()[-1] for line in shown.splitlines() if line.startswith(("D50", "A "))][
        :2
    ] == ["none", "none"]


def test_a_colour_that_the_screen_cannot_show_is_marked(run: Run, demo_db: Path) -> None:
    shown = run("swatch", "compare", "S28", "S6", db=demo_db).out
    first = on_screen(Lab(*_json(run, demo_db, "swatch", "show", "S28")["lab"]))
    assert f"{first.hex}{first.mark} " in shown
    assert first.mark.startswith("*")
    assert OUTSIDE in shown


def test_without_a_spectrum_the_studios_light_is_told_and_why_no_other(
    run: Run, demo_db: Path
) -> None:
    shown = " ".join(run("swatch", "compare", "S112", "S110", db=demo_db).out.split())
    assert "ΔE00 24.57" in shown
    assert "S112 and S110 have no spectrum of their dry colour" in shown
    found = _json(run, demo_db, "swatch", "compare", "S112", "S110")
    assert found["lights"] == []
    assert "no spectrum" in found["note"]


REFUSED: Final = {
    "swatch compare S1 S1": "name two swatches",
    "swatch compare S50 S6": "S50 has only been read wet",
    "swatch compare S57 S175 --light gallery": "is not an illuminant of CIE 15",
    "swatch compare S57 S175 --light D50": "name another",
    "swatch compare S6 S112 --light A": "S112 has no spectrum of its dry colour",
    "match tan --light A": "a colour alone has no spectrum",
    "match S112 --light A": "S112 has no spectrum of its dry colour",
    "match S6 --light candle": "is not an illuminant of CIE 15",
    "match S50 --wet --light A": "expected dry colour of a wet patch has no spectrum",
    "match S6 --wet": "match it without --wet",
    "match tan --wet --wet-swatches": "leave --wet-swatches away",
}


@pytest.mark.parametrize("line", REFUSED)
def test_what_cannot_be_told_is_refused_in_one_sentence(line: str, refuses: Refuses) -> None:
    assert REFUSED[line] in refuses(3, *line.split())


def test_a_swatch_that_is_not_there_is_4(refuses: Refuses) -> None:
    assert "S999" in refuses(4, "swatch", "compare", "S1", "S999")


def test_matches_are_looked_at_under_each_light(run: Run, demo_db: Path) -> None:
    found = _json(run, demo_db, "match", "S57", "--light", "A,FL2", "-n", "30", "--all-swatches")
    assert found["lights"] == ["A", "FL2"]
    rows = {row["swatch"]: row["lights"] for row in found["matches"]}
    assert None in rows.values()
    known = [lights for lights in rows.values() if lights]
    assert all([each["light"] for each in lights] == ["A", "FL2"] for lights in known)
    assert all(each.keys() == LIGHT for lights in known for each in lights)
    assert [each["breaks"] for each in rows["S175"]] == [True, False]
    plain = _json(run, demo_db, "match", "S57", "-n", "30", "--all-swatches")
    assert plain["lights"] == []
    assert {row["lights"] for row in plain["matches"]} == {None}
    assert [row["swatch"] for row in plain["matches"]] == list(rows)


def test_a_match_that_breaks_is_named_below(run: Run, demo_db: Path) -> None:
    shown = run("match", "S57", "--light", "A,FL2", "--all-swatches", db=demo_db).out
    said = " ".join(shown.split())
    assert "under A ΔE00 2.06, index 2.00: the match breaks · under FL2 ΔE00 1.29" in said
    assert "Breaks under A (incandescent lamp): M59." in shown
    assert "Breaks under FL2" not in shown
    other = run("match", "S6", "--light", "D65", "-n", "60", db=demo_db).out
    assert "Breaks under D65" not in other
    assert "no spectrum: not known under D65" in other


def _read_pairs(shelf: Does, count: int, folder: Path) -> None:
    """Patches of FU alone that dry 2 L* lighter and lose about 4 C*."""
    rows = ["code,recipe,paper,made_on,state,lab_l,lab_a,lab_b,method,read_on"]
    for place in range(count):
        start = f"S{place + 1},FU,SR,2026-03-01"
        rows.append(f"{start},wet,{40 + place},10,-40,colorimeter,2026-03-01")
        rows.append(f"{start},dry,{42 + place},9,-36,colorimeter,2026-03-02")
    table = folder / "swatches.csv"
    table.write_text("\n".join(rows) + "\n", encoding="utf-8")
    shelf("import", str(table))


def test_without_a_pair_drying_says_what_to_do_and_match_refuses(
    shelf: Does, run: Run, empty_db: Path
) -> None:
    shelf("swatch", "log", "FU", "--lab", "40,10,-40", "--wet")
    shown = shelf("swatch", "drying").out
    assert "No swatch has been read both wet and dry: read a patch with --wet" in shown
    assert "Read wet, not yet dry: S1." in shown
    assert "Published mean of 75 other paints: ΔL* +2.3" in shown
    before = fingerprint(empty_db)
    refused = run("match", "tan", "--wet", db=empty_db)
    assert (refused.status, refused.out) == (3, "")
    assert "no swatch has been read both wet and dry, so there is no drying shift" in refused.err
    assert fingerprint(empty_db) == before
    found = _json(run, empty_db, "swatch", "drying")
    assert (found["overall"], found["papers"], found["paints"]) == (None, [], [])
    assert (found["waiting"], found["unpaired"]) == (["S1"], [])


def test_the_shift_is_told_by_paper_and_paint_with_its_spread(
    shelf: Does, run: Run, empty_db: Path, tmp_path: Path
) -> None:
    _read_pairs(shelf, 2, tmp_path)
    shelf("swatch", "log", "BS", "--lab", "40,20,30", "--wet")
    shelf("swatch", "read", "S3", "--lab", "42,20,30")
    found = _json(run, empty_db, "swatch", "drying")
    assert found.keys() == {"overall", "papers", "paints", "waiting", "unpaired", "published"}
    assert all(each.keys() == SHIFT for each in (found["overall"], *found["papers"]))
    overall = found["overall"]
    assert overall["mean"].keys() == overall["spread"].keys() == COMPONENTS
    assert [(each["paper"], each["paints"], each["pairs"]) for each in found["papers"]] == [
        ("SR", [], 3)
    ]
    assert [(each["paper"], each["paints"], each["pairs"]) for each in found["paints"]] == [
        (None, ["FU"], 2),
        (None, ["BS"], 1),
    ]
    assert found["paints"][0]["mean"]["lightness_difference"] == 2.0
    assert found["paints"][1]["spread"] is None
    assert found["published"]["paints"] == 75
    lines = shelf("swatch", "drying").out.splitlines()
    assert lines[1].split()[:8] == ["all", "paints", "and", "papers", "3", "+2.0", "±", "0.0"]
    assert lines[4].split() == ["BS", "Burnt", "Sienna", "1", "+2.0", "0.0", "0.0", "−"]


def test_a_wet_patch_is_matched_by_what_it_dries_to(
    shelf: Does, run: Run, empty_db: Path, tmp_path: Path
) -> None:
    _read_pairs(shelf, 5, tmp_path)
    shelf("swatch", "log", "BS", "--lab", "62,0,26")
    found = _json(run, empty_db, "match", "lab(60 0 30)", "--wet", "--paper", "SR", "-n", "1")
    assert found["target"]["lab"] == pytest.approx([62.0, 0.0, 25.9], abs=0.2)
    assert found["target"]["given"] == "lab(60 0 30)"
    assert found["target"]["note"] == "expected dry colour of a wet patch"
    assert found["drying"].keys() == {"wet_lab", *SHIFT}
    assert found["drying"]["wet_lab"] == [60.0, 0.0, 30.0]
    assert (found["drying"]["paper"], found["drying"]["pairs"]) == ("SR", 5)
    assert found["drying"]["enough"] is True
    assert found["matches"][0]["swatch"] == "S6"
    assert _json(run, empty_db, "match", "tan")["drying"] is None
    shown = " ".join(
        shelf("match", "lab(60 0 30)", "--wet", "--paper", "SR", "-n", "1").out.split()
    )
    assert "expected dry colour of a wet patch wet: L* 60.0 a* 0.0 b* +30.0" in shown
    assert "drying shift of Eddering Mill Slipway Rag, from 5 pairs: ΔL* +2.0 ± 0.0" in shown
    assert "standard error of the mean ΔL* 0.0" in shown
    of_paint = shelf("match", "lab(45 10 -40)", "--wet", "--paper", "SR", "--with", "FU").out
    said = " ".join(of_paint.split())
    assert "drying shift of FU French Ultramarine on Eddering Mill Slipway Rag" in said


def test_one_pair_says_that_its_uncertainty_is_not_known(shelf: Does, tmp_path: Path) -> None:
    _read_pairs(shelf, 1, tmp_path)
    shown = " ".join(shelf("match", "lab(45 10 -40)", "--wet").out.split())
    assert "shift of all paints and papers, from 1 pair, so its uncertainty is not known" in shown
    assert "standard" not in shown


def test_a_hex_target_that_is_wet_shows_what_it_dries_to(shelf: Does, tmp_path: Path) -> None:
    _read_pairs(shelf, 1, tmp_path)
    first = shelf("match", "#3d4a5c", "--wet").out.splitlines()[0].split()
    assert (first[0], first[1], first[-1]) == ("Target", "#3d4a5c", "#3d4a5c")
    assert first[2] != "#3d4a5c"


def test_what_was_wetted_again_is_named(shelf: Does) -> None:
    shelf("swatch", "log", "FU", "--lab", "42,9,-36", "--on", "2026-03-01")
    shelf("swatch", "read", "S1", "--lab", "40,10,-40", "--wet", "--on", "2026-03-02")
    assert "wetted again after it was dry: S1." in shelf("swatch", "drying").out
