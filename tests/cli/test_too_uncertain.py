"""A prediction too uncertain to act on is crossed out, never shown as a colour nor chosen."""

import json
import re
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image
from pypdf import PdfReader

from studio.mixing.settings import TOO_UNCERTAIN
from tests.cli.conftest import Does
from tests.cli.json_names import documented, names_in

pytestmark = pytest.mark.file_only("one studio serves all of these")

ORANGE = "#e07a30"


@pytest.fixture
def mixes_alone(shelf: Does) -> Does:
    """A studio of three swatches: ultramarine and burnt sienna are known from mixes alone."""
    for recipe, lab in (
        ("2 FU + 1 BS", "38,1,-14"),
        ("1 FU + 2 BS", "42,10,6"),
        ("1 FU + 1 BS", "36,4,-5"),
    ):
        shelf("swatch", "log", recipe, "--lab", lab, "--water", "3:1", "--paper", "SR")
    return shelf


def _told(does: Does, *words: str) -> Any:
    return json.loads(does(*words, "--json").out)


def test_a_mixing_chart_crosses_them_out_in_every_file(mixes_alone: Does, tmp_path: Path) -> None:
    told = _told(mixes_alone, "mix", "chart", "FU", "BS")
    cells = told["cells"]
    unsure = [each for each in cells if (each["error_delta_e"] or 0.0) > TOO_UNCERTAIN]
    assert [each for each in cells if each["too_uncertain"]] == unsure
    assert told["too_uncertain"] == len(unsure) > 40
    alone = [each for each in cells if len(each["recipe"]) == 1]
    assert all(each["error_delta_e"] > 20 and each["too_uncertain"] for each in alone)

    files = {kind: tmp_path / f"chart.{kind}" for kind in ("png", "pdf", "html")}
    options = [word for kind, path in files.items() for word in (f"--{kind}", str(path))]
    mixes_alone("mix", "chart", "FU", "BS", *options)
    with Image.open(files["png"]) as picture:
        seen = np.unique(np.asarray(picture.convert("RGB")).reshape(-1, 3), axis=0)
    colours = {"#{:02x}{:02x}{:02x}".format(*row) for row in seen.tolist()}
    hidden = {each["srgb"] for each in unsure} - {
        each["srgb"] for each in cells if not each["too_uncertain"]
    }
    assert hidden
    assert not hidden & colours
    assert {each["srgb"] for each in cells if not each["too_uncertain"]} <= colours

    text = PdfReader(files["pdf"]).pages[0].extract_text()
    assert text.count("unsure") == len(unsure)
    assert "crossed out" in text
    page = files["html"].read_text(encoding="utf-8")
    label = 'role="img" aria-label="crossed out: predicted too uncertainly to be shown"'
    assert page.count(label) == len(unsure)
    assert page.count("too uncertain to act on</td>") == len(unsure)
    assert not [code for code in hidden if code in page]
    assert f"{len(unsure)} of these are crossed out" in page


def test_a_chart_of_pairs_and_the_terminal_cross_them_out(
    mixes_alone: Does, tmp_path: Path
) -> None:
    told = _told(mixes_alone, "mix", "chart", "--only", "FU,BS")
    hidden = {each["srgb"] for each in told["cells"] if each["too_uncertain"]}
    assert len(hidden) == 3
    path = tmp_path / "pairs.png"
    mixes_alone("mix", "chart", "--only", "FU,BS", "--png", str(path))
    with Image.open(path) as picture:
        seen = np.unique(np.asarray(picture.convert("RGB")).reshape(-1, 3), axis=0)
    assert not hidden & {"#{:02x}{:02x}{:02x}".format(*row) for row in seen.tolist()}
    rows = mixes_alone("mix", "chart", "--only", "FU,BS").out.splitlines()
    assert "FU  x  m" in rows
    assert "BS  x  x" in rows
    out = mixes_alone("mix", "chart", "FU", "BS").out
    shown = [each for each in told["cells"] if not each["too_uncertain"]]
    assert not [code for code in hidden if code in out]
    assert shown[0]["srgb"] in out
    assert "xxxxxxxx" in out
    assert "Crossed out: too uncertain to act on." in out


def test_formulate_does_not_rank_them_and_names_the_swatch_to_lay(mixes_alone: Does) -> None:
    told = _told(mixes_alone, "formulate", "#5b5f6e")
    assert told["recipes"]
    assert all(each["expected_error"] <= TOO_UNCERTAIN for each in told["recipes"])
    assert not any(each["too_uncertain"] for each in told["recipes"])
    assert told["too_uncertain"]
    assert all(each["expected_error"] > TOO_UNCERTAIN for each in told["too_uncertain"])


def test_with_nothing_else_left_it_still_names_the_swatch(mixes_alone: Does) -> None:
    told = _told(mixes_alone, "formulate", ORANGE)
    assert told["recipes"] == []
    assert told["nearest"]["too_uncertain"]
    assert told["within_reach"] is None
    first = told["lay_first"]
    names, own = documented()["formulate"], names_in(told)
    assert own is not None
    for name in ("too_uncertain", "lay_first"):
        recipe = {"recipe": {"paint": None, "parts": None}}
        assert own[name] == names[name] | recipe
    assert [part["paint"] for part in first["recipe"]] == ["BS"]
    assert first["paper"] == "SR"
    assert first["expected_error_then"] < first["expected_error_now"] / 2
    out = mixes_alone("formulate", ORANGE).out
    text = " ".join(out.split())
    water = f"{first['water']:g}:1"
    assert f"a flat wash of BS Burnt Sienna alone, water {water}, on Eddering Mill" in text
    assert f'studio swatch log "BS" --water {water} --paper SR' in text
    assert "Out of reach" not in text
    assert "Next test patch" not in text
    # The swatch it names tells what it says: laid, it leaves less uncertain than any other wash.
    mixes_alone(*f"swatch log BS --water {water} --paper SR --lab 58,26,38".split())
    after = _told(mixes_alone, "formulate", ORANGE)
    assert after["recipes"] or (
        min(each["expected_error"] for each in after["too_uncertain"])
        < min(each["expected_error"] for each in told["too_uncertain"]) / 2
    )


def test_a_plan_does_not_choose_them(mixes_alone: Does) -> None:
    mixes_alone("painting", "start", "Sheds", "--paper", "SR", "--size", "300x200mm")
    mixes_alone(
        *("painting", "passage", "add", "P1", "roof", "--technique", "flat wash"),
        *("--colour", ORANGE),
    )
    told = _told(mixes_alone, "painting", "plan", "P1", "--within", "20")
    (colour,) = told["colours"]
    assert colour["mix"] is None
    assert "too uncertain to act on" in colour["test_needed"]
    assert re.search(r"lay first a flat wash of BS alone, water \d+:1", colour["test_needed"])
    assert told["mixes"] == []
