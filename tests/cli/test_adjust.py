"""studio adjust and match --between, as typed and as JSON."""

import json
import shlex
from pathlib import Path
from typing import Any, Final

import pytest

from tests.cli.conftest import Refuses
from tests.conftest import Run

SEPARATION: Final = {
    "words",
    *("lightness_difference", "chroma_difference", "hue_difference"),
}
ADJUST: Final = {
    *(
        "puddle_parts",
        "swatch",
        "mix",
        "recipe",
        "water",
        "layers",
        "paper",
        "next_paper",
        "target",
        "lab",
    ),
    *("delta_e", "needed", "right", "reached", "model_delta_e", "reading_error_delta_e"),
    *("spectrum_estimated", "drying", "ways", "not_characterised", "never_use", "begin_anew"),
}
WAY: Final = {
    *("rank", "way", "add", "add_water_parts", "recipe", "water", "layers", "lab", "delta_e"),
    *("error_delta_e", "too_uncertain", "next", *SEPARATION),
}
BETWEEN: Final = {
    *("rank", "delta_e", "error_delta_e", "predicted", "mix", "name", "recipe", "water", "layers"),
    *("application", "paper", "lab", "beside", "beyond", "nearest_recorded_delta_e"),
    *("spectrum_estimated", "too_uncertain", *SEPARATION),
}


def _json(run: Run, db: Path, *words: str) -> Any:
    outcome = run(*words, "--json", db=db)
    assert outcome.status == 0, outcome.err
    return json.loads(outcome.out)


def test_the_json_names_of_an_adjustment(run: Run, demo_db: Path) -> None:
    found = _json(run, demo_db, "adjust", "S74", "#5b6270", "-n", "4")
    assert found.keys() == ADJUST
    assert found["needed"].keys() == SEPARATION
    assert len(found["ways"]) == 4
    for way in found["ways"]:
        assert way.keys() == WAY
        assert all(each.keys() == {"paint", "parts"} for each in (*way["add"], *way["recipe"]))
    assert (found["right"], found["reached"], found["drying"]) == (False, True, None)
    assert found["puddle_parts"] == 3


def test_a_wet_patch_brings_its_drying_shift(run: Run, demo_db: Path) -> None:
    found = _json(run, demo_db, "adjust", "S50", "#5a48a0")
    assert found["drying"]["pairs"] > 0
    assert len(found["drying"]["wet_lab"]) == 3
    shown = run("adjust", "S50", "#5a48a0", db=demo_db).out
    assert "Read wet only: its dry colour and its spectrum are estimated." in shown


def test_what_to_add_is_told_in_parts_with_the_line_that_records_it(
    run: Run, demo_db: Path
) -> None:
    shown = run("adjust", "S74", "#60627a", "--only", "BU", db=demo_db).out
    lines = shown.splitlines()
    assert lines[0].endswith("S74 beside #60627a")
    assert "     + 1 part Burnt Umber" in lines
    assert any(line.startswith("     then 2 French Ultramarine + 1 Burnt Sienna") for line in lines)
    assert "     Make it darker" in shown
    assert '  studio swatch log "2 FU + 1 BS + 1 BU" --paper ECP' in shown
    assert "A part is 1/3 of the paint in the puddle of S74." in shown
    assert all(len(line) <= 80 for line in lines)


def test_the_line_that_records_it_can_be_typed(run: Run, demo_db: Path) -> None:
    way = _json(run, demo_db, "adjust", "S74", "#60627a", "--only", "BU")["ways"][0]

    words = shlex.split(way["next"].replace("L,a,b", "42,3,-13.5"))
    assert words[0] == "studio"
    outcome = run(*words[1:], db=demo_db)
    assert outcome.status == 0, outcome.err
    code = outcome.out.split()[0]
    again = _json(run, demo_db, "adjust", code)
    assert again["target"]["given"] == "#60627a"
    assert again["right"]


def test_a_right_patch_is_to_be_laid(run: Run, demo_db: Path) -> None:
    shown = run("adjust", "S112", "#797d64", db=demo_db).out
    assert "ΔE00 0.9 from the target" in shown
    assert "lay it." in shown.replace("\n", " ")
    assert "swatch log" not in shown


def test_out_of_reach_says_what_fails_and_where_to_begin(run: Run, demo_db: Path) -> None:
    shown = " ".join(run("adjust", "S1", "#ff0000", "-n", "1", db=demo_db).out.split())
    assert "The target cannot be reached from this patch" in shown
    assert "off (up to 3 passes) and still much darker" in shown
    assert 'Begin anew: studio formulate "#ff0000"' in shown
    assert "swatch log" not in shown


def test_doubts_are_told(run: Run, demo_db: Path) -> None:
    shown = " ".join(run("adjust", "S14", "#a08c70", db=demo_db).out.split())
    assert "No spectrum was read: it is estimated from Lab and the paints." in shown
    assert "Its reading is only good to ΔE00 4.0, more than it is off." in shown
    assert "It is off by less than the ± of the first way" in shown
    other = run("adjust", "S74", "#3c5a80", "--paper", "CRO", db=demo_db).out
    assert "The next patch comes on Corvane Paper Foreshore Rough." in other


def test_every_way_has_its_words(run: Run, demo_db: Path) -> None:
    darker = run("adjust", "S77", "#5d6b88", "-n", "20", db=demo_db).out
    assert "another layer of the same over the dry patch" in darker
    assert "mix it anew with less water: " in darker
    assert "over the dry patch a glaze of " in darker
    paler = run("adjust", "S74", "#6a7bab", "-n", "20", db=demo_db).out
    assert "lift or blot about " in paler
    assert " water (" in paler


def test_a_strange_patch_and_unknown_water_are_pointed_out(run: Run, demo_db: Path) -> None:
    log = run("swatch", "log", "1 YO", "--lab", "60,-20,10", "--for", "#7a9a80", db=demo_db)
    code = log.out.split()[0]
    shown = " ".join(run("adjust", code, db=demo_db).out.split())
    assert "Its water is not recorded: 3:1 is assumed." in shown
    assert "from what its recipe and water let expect: check both." in shown


def test_new_paints_that_are_not_known_are_named(run: Run, demo_db: Path) -> None:
    added = run(
        *("paint", "add", "Tide Blue", "--maker", "Saltings", "--pigments", "PB15"),
        *("--volume", "14"),
        db=demo_db,
    )
    assert added.status == 0, added.err
    shown = " ".join(run("adjust", "S74", "#5b6270", db=demo_db).out.split())
    assert "Left out, with too few swatches to predict by: Tide Blue. Log " in shown


def test_nothing_nearer_is_said(run: Run, demo_db: Path) -> None:
    shown = run("adjust", "S74", "#4d78a8", "--only", "HY", db=demo_db).out
    assert "Nothing you can add brings it nearer." in shown


@pytest.mark.parametrize(
    ("status", "words", "said"),
    [
        (4, ("adjust", "S999", "tan"), "no swatch has the code 'S999'"),
        (3, ("adjust", "S1"), "logged without --for"),
        (3, ("adjust", "S78", "tan"), "not an even film"),
        (4, ("adjust", "S74", "nonsense"), "nothing is called 'nonsense'"),
        (3, ("adjust", "S74", "tan", "-n", "0"), "count"),
        (3, ("adjust", "S74", "tan", "--with", "cadmium"), "retired"),
        (4, ("adjust", "S74", "tan", "--only", "umber"), "fits 2 paints"),
    ],
    ids=str,
)
def test_what_cannot_be_adjusted_is_refused(
    status: int, words: tuple[str, ...], said: str, refuses: Refuses
) -> None:
    assert said in refuses(status, *words)


def test_the_json_of_a_match_has_tints_between(run: Run, demo_db: Path) -> None:
    found = _json(run, demo_db, "match", "#b58a6e", "--between", "--in-stock")
    assert found["between"]
    for tint in found["between"]:
        assert tint.keys() == BETWEEN
        assert tint["predicted"] is True
        assert all(each.keys() == {"swatch", "water"} for each in tint["beside"])
        assert len(tint["beside"]) == (1 if tint["beyond"] else 2)
    assert _json(run, demo_db, "match", "#b58a6e")["between"] is None


def test_tints_between_are_marked_as_predicted(run: Run, demo_db: Path) -> None:
    shown = run("match", "#b58a6e", "--between", "-n", "3", "--in-stock", db=demo_db).out
    assert "Between recorded tints (predicted, not laid)" in shown
    assert "less sure" in shown
    assert "inner swatches of tint series" in " ".join(shown.split())
    assert all(len(line) <= 80 for line in shown.splitlines())
    between = run("match", "S231", "--between", db=demo_db).out
    assert "between S2 (water 4:1) and S232 (water 16:1)" in " ".join(between.split())


def test_a_far_match_points_to_the_tints_between(run: Run, demo_db: Path) -> None:
    hint = "--between also looks"
    assert hint in run("match", "#b58a6e", db=demo_db).out
    assert hint not in run("match", "#767d63", db=demo_db).out


def test_no_series_is_said(run: Run, demo_db: Path) -> None:
    far = run("match", "#00ff00", "--between", db=demo_db).out
    assert "None of " in far
    only = ("--with", "DV", "--with", "YO")
    lone = run("match", "#b58a6e", "--between", *only, db=demo_db).out
    assert "No mix has dry swatches of two waters" in lone
