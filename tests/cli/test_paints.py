"""studio paint: recorded, found, listed, changed, retired."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import Does
from tests.conftest import Run


def _paint(does: Does, name: str) -> Any:
    return json.loads(does("paint", "show", name, "--json").out)


def test_a_new_paint_is_full_and_summed_up(does: Does) -> None:
    outcome = does(
        "paint", "add", "French Ultramarine", "--maker", "Pellow & Strand",
        "--pigments", "PB29", "--volume", "14",
    )  # fmt: skip
    assert outcome.out.splitlines()[:2] == [
        "FU  Pellow & Strand French Ultramarine",
        "  PB29; lightfastness I (unverified); 14 ml left",
    ]


def test_everything_on_its_label_is_kept(does: Does) -> None:
    does(
        "paint", "add", "Creek Green", "--maker", "Orsel Pans", "--pigments", "PB29, PY43",
        "-p", "PG7", "--form", "Half Pan", "--volume", "2", "--price", "4,50", "--currency", "gbp",
        "--transparency", "semi-opaque", "--staining", "low", "--granulation", "high",
        "--lot", "L 7", "--low-at", "0.5", "--left", "1.5", "--code", "crg",
        "--note", "two  halves",
    )  # fmt: skip
    paint = _paint(does, "crg")
    del paint["cautions"], paint["left_as_of"]
    assert paint.pop("in_mixes")["unknown_because"] == "no dry swatch holds it"
    (pan,) = paint.pop("containers")
    (event,) = pan["events"]
    assert (pan["container"], pan["kind"], pan["capacity"], pan["lot"]) == (
        "CRG-1", "half pan", 2.0, "L 7",
    )  # fmt: skip
    assert (event["kind"], event["amount"], event["price"]) == ("bought", 1.5, 4.5)
    assert paint == {
        "paint": "CRG",
        "maker": "Orsel Pans",
        "name": "Creek Green",
        "pigments": ["PB29", "PY43", "PG7"],
        "form": "half pan",
        "volume_ml": 2.0,
        "price": 4.5,
        "currency": "GBP",
        "transparency": "semi-opaque",
        "staining": "low",
        "granulation": "high",
        "lot": "L 7",
        "status": "in use",
        "left_ml": 1.5,
        "left_estimated": False,
        "low_at_ml": 0.5,
        "low": False,
        "in_stock": True,
        "lightfastness": "I",
        "lightfastness_source": "a maker's watercolour chart, ASTM column",
        "lightfastness_verified": False,
        "mixes": [],
        "note": "two halves",
    }


def test_codes_are_initials_and_numbered_where_taken(shelf: Does) -> None:
    added = shelf("paint", "add", "Bright Scarlet", "--maker", "Orsel Pans").out
    assert added.startswith("BS2  Orsel Pans Bright Scarlet\n")


def test_a_paint_without_pigments_says_so(does: Does) -> None:
    outcome = does("paint", "add", "Locker Brown", "--maker", "Orsel Pans")
    assert "  pigments not recorded; lightfastness not known\n" in outcome.out
    assert "no caution on record: take care" in does("paint", "show", "LB").out


def test_a_pigment_nobody_knows_is_recorded_as_unknown(does: Does) -> None:
    does("paint", "add", "Locker Blue", "--maker", "Orsel Pans", "--pigments", "PB999")
    assert "PB999  no data: take care" in does("pigment", "show", "pb999").out


@pytest.mark.parametrize("name", ["FU", "fu", "ultramarine", "strand french", "French  ultra"])
def test_a_paint_is_found_by_code_name_or_part(name: str, shelf: Does) -> None:
    assert shelf("paint", "show", name).out.startswith("FU  Pellow & Strand French Ultramarine\n")


def test_the_list_is_narrowed_by_name_or_pigment(shelf: Does) -> None:
    def codes(*words: str) -> list[str]:
        return [
            paint["paint"] for paint in json.loads(shelf("paint", "list", *words, "--json").out)
        ]

    assert codes() == ["BS", "FU"]
    assert codes("sienna") == codes("pbr7") == ["BS"]
    assert codes("nosuch") == []
    assert shelf("paint", "list", "nosuch").out == "Nothing on record to list.\n"


def test_only_what_is_named_is_changed(shelf: Does) -> None:
    before = _paint(shelf, "FU")
    shelf("paint", "edit", "FU", "--price", "12.30", "--note", "the big tube", "--low-at", "4")
    after = _paint(shelf, "FU")
    assert (after["price"], after["note"], after["low_at_ml"]) == (12.3, "the big tube", 4.0)
    assert {name for name in after if after[name] != before[name]} == {"price", "note", "low_at_ml"}
    shelf("paint", "edit", "FU", "--note", "")
    assert _paint(shelf, "FU")["note"] is None


def test_a_renamed_paint_keeps_its_mixes(shelf: Does) -> None:
    shelf("mix", "add", "2 FU + 1 BS")
    shelf("paint", "edit", "FU", "--code", "ULT", "--name", "Ultramarine Deep", "-p", "PB29 PV15")
    paint = _paint(shelf, "ULT")
    assert (paint["name"], paint["pigments"], paint["mixes"]) == (
        "Ultramarine Deep",
        ["PB29", "PV15"],
        ["M1"],
    )
    assert "2 Ultramarine Deep + 1 Burnt Sienna" in shelf("mix", "show", "M1").out


def test_a_retired_paint_leaves_the_shelf_and_keeps_its_mixes(run: Run, demo_db: Path) -> None:
    said = run("paint", "retire", "FU", db=demo_db).out
    assert said == (
        "FU Pellow & Strand French Ultramarine is retired; its mixes and swatches stay\n"
    )
    assert "FU " not in run("paint", "list", "ultramarine", db=demo_db).out
    assert "retired" in run("paint", "list", "ultramarine", "--retired", db=demo_db).out
    assert "FU" not in run("stock", "list", db=demo_db).out
    assert "2 French Ultramarine + 1 Burnt Sienna" in run("mix", "show", "M25", db=demo_db).out
    assert "not in stock: French Ultramarine" in run("match", "#767d63", "-n1", db=demo_db).out
    run("paint", "edit", "FU", "--status", "In Use", db=demo_db)
    assert "FU " in run("paint", "list", "ultramarine", db=demo_db).out


def test_a_shown_paint_names_its_stock_ratings_and_cautions(run: Run, demo_db: Path) -> None:
    shown = run("paint", "show", "burnt sienna", db=demo_db).out
    assert shown.startswith("BS  Pellow & Strand Burnt Sienna\n")
    for text in (
        "  form        tube of 14 ml, in use",
        "  left        2.73 ml, low; low at 4 ml",
        "  price       9.40 GBP",
        "\nContainers\n  BS-2 half pan: 0.69 ml left, lot T25-012\n  BS-3 tube: 2.04 ml left, open",
        "  line by line: studio stock show\n",
        "PBr7 ASTM D4303 I in watercolour",
        "hold manganese",
    ):
        assert text in shown, text
