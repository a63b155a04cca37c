"""studio trust on the demo and on studios that have too little for it."""

import json
from pathlib import Path

from PIL import Image

from tests.cli.conftest import Refuses
from tests.conftest import Run


def test_it_tells_overall_by_paint_and_what_it_rests_on_and_draws_it(
    run: Run, demo_db: Path, tmp_path: Path
) -> None:
    file = tmp_path / "trust.png"
    outcome = run("trust", "--png", str(file), db=demo_db)
    assert (outcome.status, outcome.err) == (0, f"studio: wrote {file}\n")
    for said in ("whole mixes", "whole sets of paints", "FU French Ultramarine", "Furthest off"):
        assert said in outcome.out
    assert "has not been read dry" in " ".join(outcome.out.split())
    with Image.open(file) as picture:
        picture.verify()


def test_its_json_agrees_with_itself(run: Run, demo_db: Path) -> None:
    told = json.loads(run("trust", "--json", db=demo_db).out)
    away = [each["delta_e"] for each in told["swatches"]]
    assert told["whole_sets"]["count"] == len(away)
    assert abs(sum(away) / len(away) - told["whole_sets"]["mean_delta_e"]) < 0.01
    assert len(told["paints"]) == 24
    assert {each["swatch"] for each in told["left_aside"]} >= {"S50", "S78"}
    assert all(each["swatches"] and each["because"] for each in told["contradictory"])


def test_a_file_that_cannot_be_written_is_said(refuses: Refuses, tmp_path: Path) -> None:
    assert "cannot be written" in refuses(3, "trust", "--png", str(tmp_path))


def test_a_studio_with_too_little_is_told_what_to_log(run: Run, empty_db: Path) -> None:
    outcome = run("trust", db=empty_db)
    assert (outcome.status, outcome.out) == (3, "")
    assert outcome.err == "studio: there is no paint yet; record one with: studio paint add\n"
    run("paint", "add", "Tide Blue", "--maker", "Orsel Pans", db=empty_db)
    outcome = run("trust", db=empty_db)
    assert outcome.status == 3
    assert "such as Tide Blue with water 3:1 (studio swatch log)" in outcome.err
