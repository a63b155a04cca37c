"""studio stock from the purchase to the shopping list."""

import csv
import io
import json
from pathlib import Path
from typing import Any, Final

import pytest

from studio.errors import ExitStatus
from tests.cli.stock_steps import done, fill_shelf, pin_the_day
from tests.conftest import Run


@pytest.fixture
def db(run: Run, empty_db: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Two paints, sheets and a roll, none of them bought yet."""
    pin_the_day(monkeypatch)
    fill_shelf(run, empty_db)
    return empty_db


def _json(run: Run, db: Path, *words: str) -> Any:
    return json.loads(done(run, db, *words, "--json"))


def test_a_purchase_with_its_weight_can_be_weighed_by_name(run: Run, db: Path) -> None:
    """14 - (25.2 - 21.4) / 1.5 = 11.467 ml."""
    out = done(run, db, "buy", "ultramarine", "14", "--weight", "25.2", "--price", "11.80")
    assert out.splitlines() == [
        "FU-1 tube: 14 ml left",
        "FU Pellow & Strand French Ultramarine: 14 ml left in all",
    ]
    out = done(run, db, "weigh", "ultramarine", "21.4")
    assert out.splitlines() == [
        "25.2 g full, assumed density 1.50 g/ml; −2.53 ml since the last entry",
        "FU-1 tube: 11.47 ml left",
        "FU Pellow & Strand French Ultramarine: about 11.47 ml left in all",
    ]


def test_an_empty_tube_teaches_the_density_of_the_next(run: Run, db: Path) -> None:
    for weight in ("25.2", "25.4"):
        done(run, db, "buy", "FU", "14", "--weight", weight)
    out = done(run, db, "weigh", "FU-1", "4.9", "--as", "empty")
    assert out.startswith("weighed as empty; −14 ml since the last entry\nFU-1 tube: 0 ml left\n")
    out = done(run, db, "weigh", "FU-2", "19.6")
    assert out.startswith("25.4 g full, learnt density 1.45 g/ml; −4 ml")
    assert _json(run, db, "show", "FU-1")["containers"][0]["density_g_per_ml"] == pytest.approx(
        1.45
    )


def test_the_scale_tells_the_tube_from_the_pan(run: Run, db: Path) -> None:
    done(run, db, "buy", "FU", "14", "--weight", "25.2")
    done(run, db, "open", "FU-1")
    done(run, db, "buy", "FU", "1.8", "--kind", "half pan", "--weight", "3.8")
    assert "FU-1 tube: 12.67 ml left" in done(run, db, "weigh", "ultramarine", "23.2")
    assert "FU-2 half pan: 0.87 ml left" in done(run, db, "weigh", "ultramarine", "2.4")
    outcome = run("stock", "weigh", "ultramarine", "90", db=db)
    assert outcome.status == 4
    assert "has 2 containers; say which: FU-1 (tube, 12.67 ml), FU-2" in outcome.err


def test_a_pan_is_bought_empty_weighed_and_filled(run: Run, db: Path) -> None:
    done(run, db, "buy", "FU", "14")
    out = done(run, db, "buy", "FU", "1.8", "--kind", "half pan", "--empty", "--weight", "1.2")
    assert out.startswith("FU-2 half pan: 0 ml left\n")
    shown = _json(run, db, "show", "FU-2")["containers"][0]
    assert (shown["empty_g"], shown["full_g"], shown["capacity"]) == (1.2, None, 1.8)
    assert "FU-2 half pan: 1.5 ml left" in done(run, db, "refill", "FU-2", "1.5", "--from", "FU-1")
    assert "FU-2 half pan: 1 ml left" in done(run, db, "weigh", "FU-2", "2.7")


def test_a_mix_is_used_by_its_parts(run: Run, db: Path) -> None:
    for paint in ("FU", "BS"):
        done(run, db, "buy", paint, "14")
    assert run("mix", "add", "2 FU + 1 BS", "--name", "mud shadow", db=db).status == 0
    assert done(run, db, "use", "mud shadow", "3", "--estimate").splitlines() == [
        "FU-1 tube: 12 ml left",
        "BS-1 tube: 13 ml left",
        "FU Pellow & Strand French Ultramarine: about 12 ml left in all",
        "BS Pellow & Strand Burnt Sienna: about 13 ml left in all",
    ]
    assert "BS-1 tube: 10 ml left" in done(run, db, "use", "1 FU + 3 BS", "4")
    outcome = run("stock", "use", "M1", "60", db=db)
    assert outcome.status == 3
    assert "40 ml used on 2026-11-25, but only 11 ml of" in outcome.err
    assert _json(run, db, "show", "BS")["left"] == 10.0


def test_a_swatch_books_the_paint_it_took_as_a_guess(run: Run, db: Path) -> None:
    for paint in ("FU", "BS"):
        done(run, db, "buy", paint, "14", "--weight", "25.2")
    logged = ("swatch", "log", "2 FU + 1 BS", "--lab", "40,2,-9", "--paper", "slipway")
    assert run(*logged, "--used", "0.3", db=db).status == 0
    used = _json(run, db, "show", "FU")["containers"][0]["events"][-1]
    assert (used["kind"], used["amount"], used["estimated"], used["note"]) == (
        "used", 0.2, True, "swatch S1",
    )  # fmt: skip
    done(run, db, "weigh", "FU", "25.2", "--as", "full")
    assert not _json(run, db, "show", "FU")["estimated"]
    outcome = run(*logged, "--used", "90", db=db)
    assert (outcome.status, outcome.out) == (3, "")
    assert json.loads(run("swatch", "list", "--json", db=db).out)[-1]["swatch"] == "S1"


def test_several_are_bought_at_once_and_used_one_after_the_other(run: Run, db: Path) -> None:
    done(run, db, "buy", "FU", "14", "-n", "2", "--lot", "P26", "--on", "2026-05-04")
    assert "FU-2 tube: 13 ml left" in done(run, db, "use", "FU-2", "1", "--on", "2026-05-05")
    out = done(run, db, "use", "ultramarine", "15", "--estimate", "--note", "class")
    assert out.splitlines() == [
        "FU-2 tube: 0 ml left",
        "FU-1 tube: 12 ml left",
        "FU Pellow & Strand French Ultramarine: about 12 ml left in all",
    ]
    events = _json(run, db, "show", "FU-1")["containers"][0]["events"]
    assert events[-1] == {
        "kind": "used", "happened_on": "2026-11-25", "amount": 2.0, "change": -2.0, "left": 12.0,
        "weight_g": None, "weighed_as": None, "estimated": True, "other": None, "price": None,
        "currency": None, "note": "class",
    }  # fmt: skip


def test_a_pan_is_filled_from_a_tube(run: Run, db: Path) -> None:
    done(run, db, "buy", "FU", "14")
    done(run, db, "buy", "FU", "1.8", "--kind", "half pan")
    done(run, db, "use", "FU-2", "1.5")
    out = done(run, db, "refill", "FU-2", "1.4", "--from", "FU-1")
    assert out.splitlines()[:2] == ["FU-2 half pan: 1.7 ml left", "FU-1 tube: 12.6 ml left"]


def test_a_container_is_opened_lent_returned_and_thrown_away(run: Run, db: Path) -> None:
    done(run, db, "buy", "FU", "14")
    assert done(run, db, "open", "ultramarine").startswith("FU-1 tube: 14 ml left\n")
    assert done(run, db, "lend", "FU", "--note", "to Wend").splitlines() == [
        "FU-1 tube: 14 ml left, not on the shelf",
        "FU Pellow & Strand French Ultramarine: 0 ml left in all",
    ]
    assert done(run, db, "return", "FU-1").endswith("French Ultramarine: 14 ml left in all\n")
    assert done(run, db, "discard", "FU", "2.5").startswith("FU-1 tube: 11.5 ml left\n")
    assert done(run, db, "discard", "FU").startswith("FU-1 tube: 0 ml left, not on the shelf\n")
    assert done(run, db, "correct", "FU-1", "3").startswith("FU-1 tube: 3 ml left\n")


def test_a_count_of_paper_without_containers_makes_an_assortment(run: Run, db: Path) -> None:
    out = done(run, db, "correct", "slipway", "7", "--note", "drawer")
    assert out.splitlines() == [
        "SR-1 assorted: 7 sheets left",
        "SR Eddering Mill Slipway Rag: 7 sheets left in all",
    ]
    assert done(run, db, "correct", "slipway", "6").startswith("SR-1 assorted: 6 sheets left\n")


def test_a_roll_is_used_by_its_length(run: Run, db: Path) -> None:
    done(run, db, "buy", "longshore", "10000", "--kind", "roll")
    assert "LR-1 roll: 9400 mm left" in done(run, db, "use", "longshore", "600")


def test_show_explains_what_is_left_line_by_line(run: Run, db: Path) -> None:
    done(
        run, db, "buy", "FU", "14", "--weight", "25.2", "--price", "11.8", "--currency", "gbp",
        "--lot", "P26-118", "--note", "quay", "--on", "2026-05-09",
    )  # fmt: skip
    done(run, db, "buy", "FU", "1.8", "--kind", "half pan", "--on", "2026-05-09")
    for words in (
        ("open", "FU-1", "--on", "2026-05-10"),
        ("use", "FU-1", "2.5", "--estimate", "--on", "2026-05-11"),
        ("use", "FU-2", "1.8", "--on", "2026-05-12"),
        ("refill", "FU-2", "1.5", "--from", "FU-1", "--on", "2026-05-13"),
        ("weigh", "FU-1", "19.2", "--on", "2026-08-30"),
        ("lend", "FU-2", "--on", "2026-09-19"),
    ):
        done(run, db, *words)
    out = done(run, db, "show", "ultramarine")
    lines = [" ".join(line.split()) for line in out.splitlines() if line.strip()]
    assert lines[:8] == [
        "FU Pellow & Strand French Ultramarine",
        "FU-1 tube of 14 ml, lot P26-118, 25.2 g full",
        "day change left",
        "2026-05-09 bought +14 ml 14 ml 25.2 g full, 11.80 GBP, quay",
        "2026-05-10 opened 14 ml",
        "2026-05-11 used −2.5 ml 11.5 ml estimate",
        "2026-05-13 poured −1.5 ml 10 ml estimate, into FU-2",
        "2026-08-30 weighed 10 ml 19.2 g, estimate",
    ]
    assert "FU-2 half pan of 1.8 ml, not on the shelf" in lines
    assert "2026-05-13 refilled +1.5 ml 1.5 ml estimate, from FU-1" in lines
    # 2.5 and 1.8 ml in the 200 days since the first entry: 66.4 weeks, within 71.6 %.
    assert lines[-2] == "about 10 ml left"
    assert lines[-1] == (
        "lasts about 66 weeks at this rate (39\N{EN DASH}234, a guess); "
        "0.15 ml a week, from 2 entries of use over 200 days"
    )


def test_show_of_one_container_shows_that_one(run: Run, db: Path) -> None:
    done(run, db, "buy", "FU", "14", "-n", "2")
    assert "FU-2" in done(run, db, "show", "FU")
    out = done(run, db, "show", "FU-1")
    assert "FU-1" in out
    assert "FU-2" not in out
    assert [each["container"] for each in _json(run, db, "show", "FU-1")["containers"]] == ["FU-1"]


def test_show_without_containers_says_how_to_begin(run: Run, db: Path) -> None:
    assert "nothing booked yet: studio stock buy" in done(run, db, "show", "sienna")


def test_list_says_what_is_low_and_for_how_long_it_lasts(run: Run, db: Path) -> None:
    done(run, db, "buy", "FU", "14", "--on", "2026-05-09")
    for day in ("2026-06-01", "2026-07-01", "2026-08-01", "2026-09-01"):
        done(run, db, "use", "FU", "1.75", "--on", day)
    done(run, db, "correct", "slipway", "2")
    out = done(run, db, "list")
    ultramarine, sienna, rag = (
        next(" ".join(line.split()) for line in out.splitlines() if line.startswith(code))
        for code in ("FU", "BS", "SR")
    )
    # 7 ml in 200 days; 7 ml more last as long.
    assert ultramarine.startswith("FU French Ultramarine 7 ml")
    assert ultramarine.endswith(" 29 19\N{EN DASH}57, rough")
    assert sienna == "BS Burnt Sienna not counted"
    assert "2 sheets low 2 sheets" in rag


STOCK: Final = {
    "item", "name", "left", "unit", "estimated", "as_of", "low_at", "low", "forecast",
}  # fmt: skip
FORECAST: Final = {
    "per_week", "weeks", "weeks_low", "weeks_high", "confidence", "entries", "days",
}  # fmt: skip
CONTAINER: Final = {
    "container", "kind", "capacity", "unit", "lot", "left", "on_shelf", "estimated", "full_g",
    "empty_g", "density_g_per_ml", "events",
}  # fmt: skip
EVENT: Final = {
    "kind", "happened_on", "amount", "change", "left", "weight_g", "weighed_as", "estimated",
    "other", "price", "currency", "note",
}  # fmt: skip
ORDER: Final = [
    "item", "name", "quantity", "size", "unit", "needed", "price", "cost", "currency", "reason",
]  # fmt: skip


def test_json_has_the_names_that_scripts_rely_on(run: Run, db: Path) -> None:
    done(run, db, "buy", "FU", "14", "--price", "11.80", "--currency", "GBP", "--on", "2026-05-09")
    done(run, db, "use", "FU", "13", "--on", "2026-06-01")
    listed = {fields["item"]: fields for fields in _json(run, db, "list")}
    assert list(listed) == ["BS", "FU", "LR", "SR"]
    assert all(set(fields) == STOCK for fields in listed.values())
    assert set(listed["FU"]["forecast"]) == FORECAST
    assert (listed["BS"]["left"], listed["BS"]["forecast"], listed["BS"]["as_of"]) == (
        None,
        None,
        None,
    )
    assert (listed["FU"]["forecast"]["weeks_high"], listed["FU"]["as_of"]) == (None, "2026-06-01")
    shown = _json(run, db, "show", "FU")
    assert set(shown) == {*STOCK, "containers"}
    assert set(shown["containers"][0]) == CONTAINER
    assert all(set(event) == EVENT for event in shown["containers"][0]["events"])
    assert shown["containers"][0]["events"][0]["price"] == 11.8
    shopping = _json(run, db, "reorder", "--need", "FU=2")
    assert list(shopping) == ["weeks", "orders", "costs", "unpriced"]
    assert list(shopping["orders"][0]) == ORDER
    assert shopping["costs"] == {"GBP": 11.8}


def test_a_shopping_list_for_a_class_is_printed_and_written(
    run: Run, db: Path, tmp_path: Path
) -> None:
    done(run, db, "buy", "FU", "14", "--price", "11.80", "--currency", "GBP")
    done(run, db, "buy", "BS", "14", "--price", "9.40", "--currency", "GBP")
    done(run, db, "buy", "SR", "10")
    file = tmp_path / "list.csv"
    plan = ("--students", "12", "--each", "FU=2", "--need", "ultramarine=1", "--need", "SR=20")
    outcome = run("stock", "reorder", *plan, "--csv", str(file), db=db)
    assert outcome.err == f"studio: wrote {file}\n"
    out = [" ".join(line.split()) for line in outcome.out.splitlines()]
    assert out[0] == "To buy for the next 8 weeks"
    assert out[-1] == "Together 11.80 GBP and 1 without a known price, at the prices last paid"
    rows = list(csv.DictReader(io.StringIO(file.read_text(encoding="utf-8"))))
    assert list(rows[0]) == ORDER
    assert [(row["item"], row["quantity"], row["cost"], row["reason"]) for row in rows] == [
        ("FU", "1", "11.8", "25 ml planned"),
        ("SR", "2", "", "20 sheets planned"),
    ]


@pytest.mark.parametrize(
    "words",
    [
        ("--each", "FU=2", "--students", "0"),
        ("--students", "501"),
        ("--students", "-1"),
        ("--students", "9" * 400),
    ],
)
def test_a_class_has_as_many_students_as_a_class_may_have(
    run: Run, db: Path, words: tuple[str, ...]
) -> None:
    outcome = run("stock", "reorder", *words, db=db)
    assert (outcome.status, outcome.out) == (ExitStatus.BAD_INPUT, "")
    assert outcome.err.startswith("studio: the number of students must be at least ")


def test_what_each_student_needs_goes_with_how_many_there_are(run: Run, db: Path) -> None:
    alone = run("stock", "reorder", "--each", "FU=2", db=db)
    assert (alone.status, alone.err) == (
        ExitStatus.BAD_INPUT,
        "studio: the number of students is missing; give it with --students 8\n",
    )
    none = run("stock", "reorder", "--students", "12", db=db)
    assert none.status == ExitStatus.BAD_INPUT
    assert "give it with --each FU=0.8" in none.err


def test_a_shopping_list_is_written_as_pages(run: Run, db: Path, tmp_path: Path) -> None:
    done(run, db, "buy", "FU", "2", "--on", "2026-05-09")
    done(run, db, "use", "FU", "2")
    html, pdf = tmp_path / "list.html", tmp_path / "list.pdf"
    outcome = run("stock", "reorder", "--html", str(html), "--pdf", str(pdf), db=db)
    assert (outcome.status, outcome.err.count("studio: wrote")) == (0, 2)
    assert "French Ultramarine" in html.read_text(encoding="utf-8")
    assert pdf.read_bytes().startswith(b"%PDF-")


def test_with_nothing_to_buy_the_table_has_its_columns(run: Run, db: Path, tmp_path: Path) -> None:
    file = tmp_path / "list.csv"
    outcome = run("stock", "reorder", "--weeks", "4", "--csv", str(file), db=db)
    assert outcome.out == "Nothing to buy for the next 4 weeks.\n"
    assert file.read_text(encoding="utf-8") == ",".join(ORDER) + "\n"
