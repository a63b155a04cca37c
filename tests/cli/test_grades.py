"""Grave cautions in words on the line, mild ones as a mark, and PBr7 asked which it is."""

import json

from tests.cli.conftest import Does
from tests.conftest import Run

COLOUR = "lab(50 5 20)"


def _two_mixes(shelf: Does) -> None:
    shelf("paint", "add", "Signal Yellow", "--maker", "Old Tin", "--pigments", "PY34")
    shelf("paint", "add", "Tide Wrack", "--maker", "Orsel Pans", "--pigments", "PBk99")
    shelf("swatch", "log", "BS", "--lab", "50,10,22", "--water", "3:1", "--paper", "SR")
    for recipe, lab in (("SY", "52,6,24"), ("TW", "48,4,18"), ("BS + SY + TW", "50,5,20")):
        shelf("swatch", "log", recipe, "--lab", lab, "--water", "3:1")


def test_a_match_says_the_grave_in_words_and_marks_the_mild(shelf: Does) -> None:
    _two_mixes(shelf)
    out = shelf("match", COLOUR).out
    lines = [line.strip() for line in out.splitlines()]
    text = " ".join(out.split())
    assert "Burnt Sienna °" in lines
    assert "Signal Yellow" in lines
    assert "GRAVE PY34 (SY): chromate, lead" in text or "never use PY34 (SY)" in text
    assert "caution PBr7" not in text
    assert text.count("° mild, and no verdict: BS manganese?") == 1
    assert "label and data sheet decide" in text
    assert text.index("° mild, and") > text.rindex("Signal Yellow")
    # What nobody looked up has no grade, and is not passed over.
    assert "hazards not known (TW): read label and data sheet first" in text
    cautions = json.loads(shelf("match", COLOUR, "--json").out)["matches"][0]["cautions"]
    grades = {each["pigment"]: each["grade"] for each in cautions}
    assert grades == {"PY34": "grave", "PBr7": "mild"}


def test_check_and_care_order_grave_before_mild(shelf: Does, run: Run) -> None:
    _two_mixes(shelf)
    out = shelf("care", "BS + SY").out
    assert out.index("PY34") < out.rindex("PBr7")
    db = shelf("db", "where").out.split("\n")[0].split()[-1]
    outcome = run("check", "--care", db=db)
    assert outcome.out.index("grave  PY34") < outcome.out.index("mild  PBr7")


def test_a_pbr7_is_asked_which_it_is_until_it_is_said(does: Does, run: Run) -> None:
    out = " ".join(
        does("paint", "add", "Estuary Brown", "--maker", "Old Tin", "-p", "PBr7").out.split()
    )
    assert "Is it a sienna or an umber?" in out
    command = 'studio paint edit EB --pigments "PBr7 sienna"'
    assert command in out
    assert 'or studio paint edit EB --pigments "PBr7 umber"' in out
    db = does("db", "where").out.split("\n")[0].split()[-1]
    assert json.loads(run("check", "--json", db=db).out)["sienna_or_umber"] == ["EB"]
    assert command in " ".join(run("check", db=db).out.split())
    assert "sienna or an umber" not in does("paint", "list").out
    does("paint", "edit", "EB", "--pigments", "PBr7 sienna")
    assert json.loads(run("check", "--json", db=db).out)["sienna_or_umber"] == []
    assert "Sienna or umber" not in run("check", db=db).out
