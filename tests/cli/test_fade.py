"""studio fade from the first strip to the chart, and every refusal with the database untouched."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.conftest import Run
from tests.servers import fingerprint

START = ("--place", "south window", "--on", "2024-03-01")
COVERED = ("--covered", "40,10,-30")
LATER = ("--exposed", "45,10,-30", "--on", "2024-05-01")


@pytest.fixture
def db(run: Run, empty_db: Path) -> Path:
    """Two paints, a mix with a swatch, a paper, and a fade test F1 of the ultramarine."""
    maker = ("--maker", "Pellow & Strand")
    for words in (
        ("paint", "add", "French Ultramarine", *maker, "--pigments", "PB29"),
        ("paint", "add", "Burnt Sienna", *maker, "--pigments", "PBr7"),
        ("paper", "add", "Slipway Rag", "--maker", "Eddering Mill"),
        ("swatch", "log", "2 FU + 1 BS", "--lab", "41,2,-12", "--on", "2024-02-01"),
        ("fade", "start", "ultramarine", *START, "--paper", "slipway", "--note", "one wash"),
    ):
        assert run(*words, db=empty_db).status == 0
    return empty_db


def _json(run: Run, db: Path, *words: str) -> Any:
    return json.loads(run(*words, "--json", db=db).out)


def _read(run: Run, db: Path, exposed: str, day: str, *more: str) -> str:
    done = run("fade", "read", "F1", *COVERED, "--exposed", exposed, "--on", day, *more, db=db)
    assert done.status == 0
    return done.out


def test_a_strip_is_started_read_reported_and_ended(run: Run, db: Path) -> None:
    assert _read(run, db, "43,10,-30", "2024-04-01", "--blue-wool", "2") == (
        "own test F1 of FU has changed ΔE*ab 3.0, band I, rated I: indicative\n"
    )
    assert _read(run, db, "40,10,-20.9", "2024-05-01", "--blue-wool", "3", "--note", "dry") == (
        "own test F1 of FU has changed ΔE*ab 9.1, band III, although rated I: indicative\n"
    )
    ended = run("fade", "end", "F1", "--on", "2024-06-01", db=db)
    assert ended.out.startswith("F1 ended after 92 days; own test F1 of FU")
    told = run("fade", "report", "f1", db=db)
    assert told.status == 0
    words = " ".join(told.out.split())
    for part in (
        "F1 FU Pellow & Strand French Ultramarine",
        "south window, from 1 Mar 2024 to 1 Jun 2024 (92 days)",
        "on Eddering Mill Slipway Rag",
        "one wash",
        "1 Apr 2024, 31 days",
        "ΔE*ab 3.0 band I (excellent) so far",
        "ΔE*ab 9.1 band III (fair) so far",
        "the exposed half is",
        "blue wool step 3 had faded",
        "Step 3 has faded: about 4 times the exposure that fades step 1.",
        "usually set in category IV (from memory)",
        "about twice the exposure of the one before (CAMEO",
        "PB29 ASTM D4303 I in watercolour",
        "unverified",
        "allows 4: the test contradicts it.",
        "A home test is indicative only",
    ):
        assert part in words


def test_a_mix_is_started_by_its_code(run: Run, db: Path) -> None:
    started = run("fade", "start", "M1", *START, db=db)
    assert started.out == (
        "F2  M1 2 French Ultramarine + 1 Burnt Sienna: south window, from 2024-03-01\n"
    )
    # The worst published rating of its paints stands beside it, and each of their sources.
    report = " ".join(run("fade", "report", "F2", db=db).out.split())
    assert "PB29 ASTM D4303" in report
    assert "PBr7 ASTM D4303" in report
    assert "Not read yet, so nothing can be said." in report


@pytest.mark.parametrize("words", [("list",), ("report",)])
def test_without_a_test_it_says_how_to_start_one(
    run: Run, empty_db: Path, words: tuple[str, ...]
) -> None:
    told = run("fade", *words, db=empty_db)
    assert (told.status, told.out) == (
        0,
        "No fade test yet; start one with: studio fade start\n",
    )
    assert _json(run, empty_db, "fade", *words) == []


def test_the_list_shows_what_hangs_and_what_contradicts(run: Run, db: Path) -> None:
    assert "unread" in run("fade", "list", db=db).out
    _read(run, db, "45,10,-30", "2024-05-01")
    told = run("fade", "list", db=db).out
    assert "5.0" in told
    assert "contradicts" in told
    assert "indicative" in told


def test_the_json_of_list_and_report_keeps_its_names(run: Run, db: Path) -> None:
    _read(run, db, "45,10,-30", "2024-05-01", "--blue-wool", "3", "--note", "clear edge")
    (told,) = _json(run, db, "fade", "report", "F1")
    assert [told] == _json(run, db, "fade", "list")
    indicative, days, ratings = told.pop("indicative"), told.pop("days"), told.pop("ratings")
    assert "indicative" in indicative
    assert days > 0
    assert {rating["pigment"] for rating in ratings} == {"PB29"}
    assert told == {
        "test": "F1",
        "paint": "FU",
        "mix": None,
        "delta_e": 5.0,
        "category": "II",
        "published": "I",
        "contradicts": True,
        "name": "French Ultramarine",
        "recipe": None,
        "place": "south window",
        "paper": "SR",
        "started_on": "2024-03-01",
        "ended_on": None,
        "blue_wool": 3,
        "readings": [
            {
                "read_on": "2024-05-01",
                "days": 61,
                "covered": [40.0, 10.0, -30.0],
                "exposed": [45.0, 10.0, -30.0],
                "delta_e": 5.0,
                "category": "II",
                "blue_wool": 3,
                "words": ["lighter"],
                "lightness_difference": 5.0,
                "chroma_difference": 0.0,
                "hue_difference": 0.0,
                "note": "clear edge",
            }
        ],
        "note": "one wash",
    }


def test_the_chart_is_written_whole_and_said(run: Run, db: Path, tmp_path: Path) -> None:
    _read(run, db, "45,10,-30", "2024-05-01")
    picture = tmp_path / "strip.png"
    told = run("fade", "report", "--png", str(picture), db=db)
    assert told.status == 0
    assert told.err == f"studio: wrote {picture}\n"
    assert picture.read_bytes().startswith(b"\x89PNG\r\n")
    assert [path.name for path in tmp_path.glob("*png*")] == ["strip.png"]


def test_a_match_and_the_check_tell_of_a_test_that_contradicts(run: Run, db: Path) -> None:
    target = ("match", "lab(41 2 -12)")
    assert "own test" not in run(*target, db=db).out
    assert _json(run, db, *target)["matches"][0]["own_fade_tests"] == []
    _read(run, db, "40,10,-20.9", "2024-05-01")
    line = "own test F1 of FU has changed ΔE*ab 9.1, band III, although rated I: indicative"
    assert line in " ".join(run(*target, db=db).out.split())
    own = {
        "test": "F1",
        "paint": "FU",
        "mix": None,
        "delta_e": 9.1,
        "category": "III",
        "published": "I",
        "contradicts": True,
    }
    assert _json(run, db, *target)["matches"][0]["own_fade_tests"] == [own]
    checked = run("check", "--fading", db=db)
    assert checked.status == 10
    assert "Own fade tests" in checked.out
    assert line in " ".join(checked.out.split())
    assert "in mix M1" in checked.out
    report = _json(run, db, "check")
    assert report["attention"] is True
    assert report["fade_tests"] == [{**own, "mixes": ["M1"]}]


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("start", "FU", "--place", " "), "the place is empty"),
        (("start", "FU", *START[:2], "--on", "2126-03-01"), "lies in the future"),
        (("start", "FU", *START[:2], "--on", "1 March"), "is not a date"),
        (("start", "FU", *START, "--note", "tide\x07"), "cannot be printed"),
        (("read", "F1", *LATER), "the covered half is missing"),
        (("read", "F1", *COVERED), "the exposed half is missing"),
        (("read", "F1", "--covered", "40,10", *LATER), "is not three numbers"),
        (("read", "F1", "--covered", "140,10,-30", *LATER), "runs from 0 to 100"),
        (("read", "F1", *COVERED, *LATER, "--blue-wool", "9"), "the blue wool step must be"),
        (("read", "F1", *COVERED, *LATER, "--illuminant", "lamp"), "illuminant 'lamp'"),
        (("read", "F1", *COVERED, *LATER[:3], "2024-02-28"), "is older than the test F1"),
        (("read", "F1", *COVERED, *LATER[:3], "2126-02-28"), "lies in the future"),
        (("read", "F1", *COVERED, *LATER[:3], "2024-04-01"), "was read on 2024-04-01 already"),
        (("end", "F1", "--on", "2024-02-28"), "was started on 2024-03-01"),
        (("end", "F1", "--on", "2024-03-31"), "was read on 2024-04-01"),
        (("end", "F1", "--on", "2126-03-31"), "lies in the future"),
        (("report", "F1", "--png", "no/such/folder/strip.png"), "cannot be written"),
        (("report", "F2", "--png", "strip.png"), "there is no reading to draw yet"),
    ],
)
def test_a_refusal_is_one_sentence_and_changes_nothing(
    run: Run, db: Path, words: tuple[str, ...], sentence: str
) -> None:
    _read(run, db, "42,10,-30", "2024-04-01")
    assert run("fade", "start", "BS", *START, db=db).status == 0
    before = fingerprint(db)
    refused = run("fade", *words, db=db)
    assert refused.status == 3
    assert refused.out == ""
    assert sentence in refused.err
    assert refused.err.count("\n") == 1
    assert fingerprint(db) == before


@pytest.mark.parametrize(
    "words",
    [
        ("start", "gorse", *START),
        ("start", "M9", *START),
        ("start", "FU", *START, "--paper", "sailcloth"),
        ("read", "F9", *COVERED, *LATER),
        ("report", "F9"),
        ("end", "F9"),
    ],
)
def test_a_name_that_fits_nothing_changes_nothing(
    run: Run, db: Path, words: tuple[str, ...]
) -> None:
    before = fingerprint(db)
    assert run("fade", *words, db=db).status == 4
    assert fingerprint(db) == before


def test_a_test_taken_down_is_read_and_ended_no_more(run: Run, db: Path) -> None:
    assert run("fade", "end", "F1", "--on", "2024-04-01", db=db).status == 0
    before = fingerprint(db)
    assert "ended on 2024-04-01 already" in run("fade", "end", "F1", db=db).err
    late = run("fade", "read", "F1", *COVERED, *LATER, db=db)
    assert (late.status, "F1 ended on 2024-04-01" in late.err) == (3, True)
    assert fingerprint(db) == before


def test_nothing_of_it_is_ever_deleted(run: Run) -> None:
    for word in ("delete", "remove", "rm"):
        assert run("fade", word, "F1").status == 2
