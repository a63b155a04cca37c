"""The demo's tables: reproducible, consistent with each other, and believable as paint on paper."""

import csv
import importlib.util
import re
from collections import Counter, defaultdict
from datetime import date
from fractions import Fraction
from functools import cache
from itertools import pairwise
from pathlib import Path
from types import ModuleType
from typing import Final

import numpy as np
import pytest

from seed_demo.plan_paints import DRYING
from studio.catalogue.stock import StockKind, Unit
from studio.colour.lab import Lab
from studio.colour.notation import canonical_munsell, css_to_lab
from studio.colour.reflectance import Reflectance
from studio.colour.science import munsell_to_lab, reflectance_to_lab

SEED: Final = Path(__file__).resolve().parents[2] / "seed_demo"
TABLES: Final = (
    "paints",
    "papers",
    "mixes",
    "swatches",
    "stock",
    "fade_tests",
    "data_sheets",
)

Row = dict[str, str]


@cache
def _table(name: str) -> list[Row]:
    with (SEED / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _builder() -> ModuleType:
    spec = importlib.util.spec_from_file_location("build_seed", SEED / "build_seed.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def _recipe(text: str) -> dict[str, Fraction]:
    """Shares of a recipe: the same whatever its scale and order."""
    parts = {code: Fraction(amount) for amount, code in re.findall(r"([\d.]+) (\w+)", text)}
    total = sum(parts.values())
    return {code: parts[code] / total for code in sorted(parts)}


def _spectrum(text: str) -> tuple[float, ...]:
    return tuple(map(float, text.split()))


@cache
def _lab(text: str) -> Lab:
    return reflectance_to_lab(Reflectance(380, 10, _spectrum(text)))


def test_building_again_changes_no_byte(tmp_path: Path) -> None:
    _builder().main(tmp_path)
    for name in TABLES:
        assert (tmp_path / f"{name}.csv").read_bytes() == (SEED / f"{name}.csv").read_bytes()


def test_there_is_enough_to_search() -> None:
    assert len(_table("paints")) >= 24
    assert len(_table("papers")) == 4
    assert len(_table("mixes")) >= 64
    assert len({row["code"] for row in _table("swatches")}) >= 220


@pytest.mark.parametrize("name", ["paints", "papers", "mixes"])
def test_codes_are_unique(name: str) -> None:
    codes = [row["code"] for row in _table(name)]
    assert len(set(codes)) == len(codes)


def test_codes_look_as_painters_write_them() -> None:
    assert all(re.fullmatch(r"[A-Z][A-Z0-9]{1,3}", row["code"]) for row in _table("paints"))
    assert not {r["code"] for r in _table("paints")} & {r["code"] for r in _table("papers")}


@pytest.mark.parametrize(
    ("name", "column", "words"),
    [
        ("paints", "form", {"tube", "pan", "half pan", "jar"}),
        ("paints", "transparency", {"transparent", "semi-transparent", "semi-opaque", "opaque"}),
        ("paints", "staining", {"none", "low", "medium", "high"}),
        ("paints", "granulation", {"none", "low", "medium", "high"}),
        ("paints", "status", {"in use", "retired"}),
        ("papers", "fibre", {"cotton", "wood pulp"}),
        ("papers", "surface", {"hot pressed", "cold pressed", "rough"}),
        ("swatches", "state", {"dry", "wet"}),
        ("swatches", "condition", {"M0", "M1", "M2", ""}),
        ("swatches", "layers", {"1", "2", "3"}),
        ("stock", "kind", set(StockKind) - {StockKind.POURED}),
        ("stock", "unit", set(Unit)),
    ],
)
def test_columns_hold_the_known_words(name: str, column: str, words: set[str]) -> None:
    assert {row[column] for row in _table(name)} <= words


def test_every_application_and_method_occurs() -> None:
    assert {row["application"] for row in _table("swatches")} == {
        "flat wash", "graded wash", "wet in wet", "dry brush", "glaze", "spatter",
    }  # fmt: skip
    assert {row["method"] for row in _table("swatches")} == {
        "spectrophotometer", "colorimeter", "scanner", "camera", "by eye",
    }  # fmt: skip


def test_pigments_are_colour_index_names_the_studio_knows() -> None:
    with (SEED.parent / "shared" / "pigments.csv").open(encoding="utf-8", newline="") as file:
        known = {row["ci_name"] for row in csv.DictReader(file)}
    used = {name for row in _table("paints") for name in row["pigments"].split(";")}
    assert used <= known


def test_one_paint_is_retired_and_one_is_fugitive() -> None:
    assert [row["code"] for row in _table("paints") if row["status"] == "retired"] == ["CR"]
    assert [row["code"] for row in _table("paints") if "PR83" in row["pigments"]] == ["AC"]


def test_recipes_differ_by_more_than_scale_and_order() -> None:
    recipes = [tuple(_recipe(row["recipe"]).items()) for row in _table("mixes")]
    assert len(set(recipes)) == len(recipes)


def test_every_paint_is_in_a_wash_of_its_own_and_in_a_mixture() -> None:
    paints = {row["code"] for row in _table("paints")}
    recipes = [_recipe(row["recipe"]) for row in _table("mixes")]
    assert {code for recipe in recipes for code in recipe} == paints
    assert {code for recipe in recipes if len(recipe) == 1 for code in recipe} == paints
    assert {code for recipe in recipes if len(recipe) > 1 for code in recipe} == paints


def test_every_mix_has_a_swatch_and_every_swatch_its_mix_and_paper() -> None:
    assert {r["mix"] for r in _table("swatches")} == {r["code"] for r in _table("mixes")}
    papers = {row["code"] for row in _table("papers")}
    assert {row["paper"] for row in _table("swatches")} == papers - {"HSR"}


def test_rows_of_one_swatch_differ_only_in_the_reading() -> None:
    shared = ["mix", "paper", "water", "layers", "application", "made_on", "kept_at", "target"]
    seen: dict[str, list[str]] = {}
    for row in _table("swatches"):
        assert seen.setdefault(row["code"], [row[c] for c in shared]) == [row[c] for c in shared]
    counts = Counter(row["code"] for row in _table("swatches"))
    assert sum(count > 1 for count in counts.values()) >= 10


def test_swatches_are_numbered_by_day_and_made_from_paint_in_the_studio() -> None:
    rows = _table("swatches")
    codes = list(dict.fromkeys(row["code"] for row in rows))
    assert codes == [f"S{number}" for number in range(1, len(codes) + 1)]
    days = [date.fromisoformat(row["made_on"]) for row in rows]
    assert days == sorted(days)
    assert date(2024, 11, 1) <= days[0]
    assert days[-1] <= date(2026, 10, 31)

    first: dict[str, date] = {}
    gone: dict[str, date] = {}
    for row in _table("stock"):
        first.setdefault(row["item"], date.fromisoformat(row["happened_on"]))
        if row["kind"] == "discarded" and row["item"] == "CR":
            gone[row["item"]] = date.fromisoformat(row["happened_on"])
    recipes = {row["code"]: _recipe(row["recipe"]) for row in _table("mixes")}
    for row, day in zip(rows, days, strict=True):
        for item in [*recipes[row["mix"]], row["paper"]]:
            assert first[item] <= day <= gone.get(item, day)
        assert 0.5 <= float(row["water"]) <= 16


def test_a_reading_is_a_spectrum_or_a_lab_with_its_white() -> None:
    spectral = [row for row in _table("swatches") if row["reflectance"]]
    colours = [row for row in _table("swatches") if not row["reflectance"]]
    assert len(spectral) > 0.7 * len(_table("swatches"))
    assert len(colours) > 20
    for row in spectral:
        assert (row["spectrum_start_nm"], row["spectrum_step_nm"]) == ("380", "10")
        assert not row["lab_l"] + row["lab_a"] + row["lab_b"] + row["illuminant"] + row["observer"]
        assert row["method"] == "spectrophotometer"
    for row in colours:
        lightness, a, b = (float(row[f"lab_{axis}"]) for axis in "lab")
        lab = Lab(lightness, a, b, row["illuminant"], int(row["observer"]))
        assert lab.white == (("D65", 10) if row["method"] == "colorimeter" else ("D50", 2))
        assert not row["spectrum_start_nm"] + row["spectrum_step_nm"] + row["condition"]


def test_every_spectrum_has_36_fractions_and_is_smooth() -> None:
    texts = [r["reflectance"] for r in _table("swatches") if r["reflectance"]]
    for text in [*texts, *(r["white_reflectance"] for r in _table("papers"))]:
        assert all(re.fullmatch(r"[01]\.\d{4}", value) for value in text.split())
        values = np.array(_spectrum(text))
        assert values.shape == (36,)
        assert np.all((values > 0.0) & (values < 1.0))
        assert np.abs(np.diff(values)).max() < 0.4


def test_papers_are_white() -> None:
    for row in _table("papers"):
        white = _lab(row["white_reflectance"])
        assert 94.0 < white.lightness < 98.5
        assert -1.0 < white.a < 1.0
        assert 1.5 < white.b < 6.0
        assert not row["white_l"] + row["white_a"] + row["white_b"]


def test_colours_are_those_of_watercolour() -> None:
    whites = {row["code"]: _lab(row["white_reflectance"]) for row in _table("papers")}
    for row in _table("swatches"):
        if row["reflectance"]:
            lab = _lab(row["reflectance"])
            assert 23.0 < lab.lightness <= whites[row["paper"]].lightness + 0.3
            assert np.hypot(lab.a, lab.b) < 91.0


def test_a_one_to_one_wash_of_ultramarine_is_dark_blue() -> None:
    row = next(r for r in _table("swatches") if (r["mix"], r["water"]) == ("M1", "1"))
    lab = _lab(row["reflectance"])
    assert 35.0 < lab.lightness < 45.0
    assert lab.b < -50.0
    assert 10.0 < lab.a < 20.0


def test_more_water_is_lighter() -> None:
    flat = defaultdict(list)
    for row in _table("swatches"):
        if row["application"] == "flat wash" and row["state"] == "dry" and row["reflectance"]:
            key = (row["mix"], row["paper"])
            flat[key].append((float(row["water"]), _lab(row["reflectance"]).lightness))
    ladders = [sorted(set(steps)) for key, steps in flat.items() if key[0] != "M24"]
    assert sum(len(steps) > 1 for steps in ladders) > 10
    for steps in ladders:
        for (water, dark), (more, light) in pairwise(steps):
            assert light > dark or more == water


def test_wet_readings_dry_lighter_and_duller_by_the_published_mean_each_by_its_own() -> None:
    by_state: dict[str, dict[str, Lab]] = defaultdict(dict)
    for row in _table("swatches"):
        if row["reflectance"]:
            by_state[row["code"]].setdefault(row["state"], _lab(row["reflectance"]))
    pairs = [states for states in by_state.values() if len(states) == 2]
    assert len(pairs) >= 15
    for states in pairs:
        wet, dry = states["wet"], states["dry"]
        assert np.hypot(dry.a, dry.b) < np.hypot(wet.a, wet.b) + 0.2
    rises = [states["dry"].lightness - states["wet"].lightness for states in pairs]
    assert min(rises) > 1.0
    assert max(rises) < 3.7
    assert np.mean(rises) == pytest.approx(2.3, abs=0.2)
    assert 0.4 < np.std(rises, ddof=1) < 0.8


def test_every_paint_has_a_drying_of_its_own() -> None:
    assert set(DRYING) == {row["code"] for row in _table("paints")}
    assert np.mean(list(DRYING.values())) == pytest.approx(2.3, abs=0.15)


def test_targets_are_colours() -> None:
    targets = {row["target"] for row in _table("swatches")} - {""}
    munsell = {text for text in targets if canonical_munsell(text)}
    assert len(targets) > 30
    assert len(munsell) >= 8
    for text in targets:
        lab = munsell_to_lab(text) if text in munsell else css_to_lab(text)
        assert 20.0 < lab.lightness < 98.0


def test_readme_counts_the_rows() -> None:
    text = (SEED / "README.md").read_text(encoding="utf-8")
    counted = dict(re.findall(r"^\| `(\w+)\.csv` .* \| (\d+)", text, flags=re.MULTILINE))
    assert counted == {name: str(len(_table(name))) for name in TABLES}
    for name, noun in (("swatches", "swatches"), ("fade_tests", "strips")):
        assert f"({len({row['code'] for row in _table(name)})} {noun})" in text
