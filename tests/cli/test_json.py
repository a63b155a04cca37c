"""--json parses, and its names are exactly those that README.md documents."""

import json
import math
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any, Final

import pytest

from studio.catalogue.hazard import Listing, ListName
from studio.storage.unit_of_work import UnitOfWork
from tests.cli import command_tree
from tests.cli.command_tree import LEAVES
from tests.cli.json_names import Names, documented, names_in
from tests.conftest import Run

PICTURES: Final = Path(__file__).resolve().parents[2] / "seed_demo" / "files"
DOCUMENTED: Final = documented()
READING: Final = DOCUMENTED["a reading"]
RATING: Final = DOCUMENTED["a rating"]
HAZARD: Final = DOCUMENTED["a hazard"]
CONTAINER: Final = DOCUMENTED["a container"]
POINT: Final = DOCUMENTED["a point of care"]
GROUND: Final = POINT["grounds"]
GENERAL: Final = POINT | {"grounds": None}  # it rests on no pigment, so its list is empty
RECIPE: Final[Names] = {"paint": None, "parts": None}


def _object(name: str, **inside: Names | None) -> Names:
    """A documented object; what the table calls by the name of another stands in `inside`."""
    return {key: value for key, value in DOCUMENTED[name].items() if key not in {"show", ""}} | {
        **inside
    }


def _shown(name: str, **inside: Names | None) -> Names:
    more: Names = DOCUMENTED[name]["show"]
    return _object(name) | more | inside


LIGHT: Final = DOCUMENTED["a light"]
REACH: Final = DOCUMENTED["a reach"]
WITHIN: Final = REACH | {"beyond": None}
_MEANS: Final = DOCUMENTED["a drying shift"]["mean"]
SPREAD: Final[Names] = {"mcdm": None, "count": None, "outliers": None}
PICTURE: Final = DOCUMENTED["target pick"]["picture"]
PALETTE: Final = _object(
    "target palette",
    picture=PICTURE,
    colours=DOCUMENTED["target palette"]["colours"] | {"reach": WITHIN},
)
SHIFT: Final = _object("a drying shift", spread=_MEANS, standard_error=_MEANS)

PAINT: Final = _object("paint", cautions=HAZARD)
PAPER: Final = _object("paper", white=READING)
SWATCH: Final = _object("swatch", recipe=RECIPE, readings=READING)
PIGMENT: Final = _object("pigment", ratings=RATING, hazards=HAZARD)
FINDING: Final = DOCUMENTED["check"][""]
MATCH_ROW: Final = DOCUMENTED["match"]["matches"] | {"cautions": {"paint": None, **HAZARD}}
BETWEEN: Final = _object("a tint between", recipe=RECIPE)
TARGET: Final = DOCUMENTED["match"]["target"]
PREDICTED: Final = DOCUMENTED["formulate"]["recipes"] | {
    "recipe": RECIPE,
    "cautions": MATCH_ROW["cautions"],
    "own_fade_tests": MATCH_ROW["own_fade_tests"],
}
OWN_TEST: Final = MATCH_ROW["own_fade_tests"]
FADE: Final = DOCUMENTED["fade"]["report"] | {"ratings": RATING}
CHECK: Final = _object(
    "check",
    low_paints=FINDING,
    low_papers=PAPER,
    fading=FINDING | {"rating": RATING},
    fade_tests=OWN_TEST | {"mixes": None},
    care=FINDING | {"cautions": HAZARD},
    unknown=FINDING | {"unrated": None},
)
CARE: Final = _object(
    "care",
    recipe=RECIPE,
    work=DOCUMENTED["care"]["work"] | {"points": POINT, "general": GENERAL},
    cautions=DOCUMENTED["care"]["cautions"] | HAZARD,
    substitutes=MATCH_ROW,
)
CLASS: Final = _object(
    "care --class",
    leave=DOCUMENTED["care --class"]["leave"] | {"grounds": GROUND, "substitutes": MATCH_ROW},
    low_papers=PAPER,
    fading={"paint": None, "rating": RATING},
    documents=CARE["documents"],
    points=POINT,
    general=GENERAL,
)

_ERRORS: Final = DOCUMENTED["trust"]["whole_sets"]
TRUST: Final = _object(
    "trust",
    whole_mixes=_ERRORS,
    paints=_ERRORS | {"paint": None},
    swatches=DOCUMENTED["trust"]["swatches"] | {"recipe": RECIPE},
)

WORK: Final = DOCUMENTED["care"]["work"] | {"points": POINT, "general": GENERAL}
ORDERS: Final = DOCUMENTED["stock reorder"]
PLAN: Final = _object(
    "painting plan",
    mixes=DOCUMENTED["painting plan"]["mixes"] | {"recipe": RECIPE},
    shopping=ORDERS,
    lightfastness=RATING,
    own_fade_tests=OWN_TEST,
    cautions=MATCH_ROW["cautions"],
    care=WORK,
)
_CLASS: Final = DOCUMENTED["painting class"]
CLASS_PLAN: Final = _object(
    "painting class",
    left_home=_CLASS["left_home"] | {"care": WORK},
    substitutes=_CLASS["substitutes"]
    | {"mixes": _CLASS["substitutes"]["mixes"] | {"recipe": RECIPE}},
    shopping=ORDERS,
    care=WORK,
    documents=CARE["documents"],
    plan=PLAN,
)

COUNTS: Final = DOCUMENTED["history"]["counts"]
ROWS: Final = DOCUMENTED["history"]["rows"]

TRY: Final = _object("a try", recipe=RECIPE)
PASSAGE: Final = _object("a passage", colours=DOCUMENTED["a passage"]["colours"] | {"tries": TRY})
PAINTING: Final = _object("painting", passages=PASSAGE)

EVERY: Final[dict[str, Names]] = {
    "match #767d63": _object("match", matches=MATCH_ROW),
    "match S6 --light A": _object("match", matches=MATCH_ROW | {"lights": LIGHT}),
    "match #767d63 --wet": _object("match", matches=MATCH_ROW, drying={"wet_lab": None, **SHIFT}),
    "match S1 --all-swatches": _object("match", matches=MATCH_ROW),
    "match #6b86b0 --between": _object("match", matches=MATCH_ROW, between=BETWEEN),
    "formulate #98a060 --paints 2": _object(
        "formulate",
        too_uncertain=None,
        lay_first=None,
        target=TARGET,
        # The best recipe has no caution with a statement, and no strip.
        nearest=PREDICTED
        | {"cautions": PREDICTED["cautions"] | {"statements": None}, "own_fade_tests": None},
        recipes=PREDICTED,
    ),
    "adjust S74 #4f6f8e": _object(
        "adjust",
        recipe=RECIPE,
        target=TARGET,
        ways=DOCUMENTED["adjust"]["ways"] | {"recipe": RECIPE},
    ),
    "painting plan P1": PLAN,
    "painting class P1 --students 2 --kind children --within 1.5": CLASS_PLAN,
    "check": {name: inside for name, inside in CHECK.items() if name != "class"},
    "check --class children --low --fading --care": CHECK | {"class": CLASS},
    "care M34 --for spray": CARE,
    "care --class children": CLASS,
    "care sheet": _object("care sheet"),
    "paint list": PAINT,
    "paint show RS": _shown("paint", cautions=HAZARD, containers=CONTAINER),
    "paper list": PAPER,
    "paper show ECP": _shown("paper", white=READING, containers=CONTAINER),
    "mix list": _object("mix", recipe=RECIPE),
    "mix show M38": _object("mix", recipe=RECIPE, swatches=SWATCH),
    "swatch list": SWATCH | {"spread": SPREAD},
    "swatch show S1": SWATCH,
    "swatch compare S57 S175": _object(
        "swatch compare",
        swatches=DOCUMENTED["swatch compare"]["swatches"] | {"recipe": RECIPE},
        lights=LIGHT,
    ),
    "swatch cards S1 S74": _object(
        "swatch cards", cards=DOCUMENTED["swatch cards"]["cards"] | {"recipe": RECIPE}
    ),
    "swatch plane --target #767d63": _object("swatch plane", reach=WITHIN),
    "swatch spectra S1 S5": _object(
        "swatch spectra", swatches=DOCUMENTED["swatch spectra"]["swatches"] | {"recipe": RECIPE}
    ),
    "mix chart FU BS": _object(
        "mix chart", cells=DOCUMENTED["mix chart"]["cells"] | {"recipe": RECIPE}, unknown=None
    ),
    "mix chart --only FU,BS": _object(
        "mix chart", cells=DOCUMENTED["mix chart"]["cells"] | {"recipe": RECIPE}, unknown=None
    ),
    "swatch drying": _object("swatch drying", overall=SHIFT, papers=SHIFT, paints=SHIFT),
    "swatch read S1 --lab 40,2,-60": SWATCH | {"spread": SPREAD},
    "target add hull #000000": _shown("target", reach=REACH),
    "target list": _object("target"),
    "target show mud": _shown("target", reach=WITHIN),
    "target pick creek.png --at 40%,60%": _object(
        "target pick", reach=WITHIN, nearest=DOCUMENTED["target"]["show"]["nearest"]
    ),
    "target palette creek.png -n 2": PALETTE,
    "target grid creek.png --paper ECP": _object(
        "target grid", picture=PICTURE, kept=PALETTE["kept"]
    ),
    "painting list": PAINTING,
    "painting show P1": PAINTING,
    "painting show P1 mud": PASSAGE,
    "painting test P2 hull --swatch S13": _object("painting test") | TRY,
    "painting record P1": _object("painting record"),
    "trust": TRUST,
    "history": _object("history") | {"rows": None},
    "history mud": _object("history"),
    "undo": _object("undo") | {"counts": COUNTS, "rows": ROWS},
    "redo": _object("undo") | {"counts": COUNTS, "rows": ROWS},
    "stock list": _object("stock"),
    "stock show FU": _shown("stock", containers=CONTAINER),
    "stock reorder": _object("stock reorder"),
    "fade list": FADE,
    "fade report": FADE,
    "pigment list": PIGMENT,
    "pigment show PBr7": PIGMENT,
    "db where": _object("db where"),
    "backup": _object("a backup"),
    "backup list": _object("a backup"),
    "export whole": _object("export"),
    "db check": _object("db check", faults=None, remarks=DOCUMENTED["db check"]["faults"]),
}


OF_A_FILE: Final = {"backup", "backup list", "db check"}
"""What a server's administrator does, or is told in other words of a server."""

Parsed = Callable[..., Any]


@pytest.fixture
def parsed(run: Run, demo_db: Path) -> Parsed:
    """`parsed("match", "tan")`: the JSON of a command line in the demo studio."""

    def parse(*words: str) -> Any:
        outcome = run(*words, "--json", db=demo_db)
        assert outcome.status in {0, 6, 10}
        return json.loads(outcome.out)

    return parse


@pytest.mark.parametrize(
    "line",
    [
        pytest.param(
            line, marks=pytest.mark.file_only("done with a file") if line in OF_A_FILE else ()
        )
        for line in EVERY
    ],
)
def test_the_names_are_exactly_the_documented_ones(
    line: str,
    parsed: Parsed,
    run: Run,
    demo_db: Path,
    *,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(PICTURES)
    _list_and_look_up(demo_db)
    run("paint", "add", "Locker Brown", "--maker", "Orsel Pans", db=demo_db)
    run("target", "add", "mud", "#5b5f6e", db=demo_db)
    if line == "redo":
        run("undo", db=demo_db)
    words = line.split()
    if line == "export whole":
        words = ["export", str(tmp_path / "whole")]
    if line == "backup list":
        run("backup", db=demo_db)
    if line == "db check":
        demo_db.chmod(0o644)
    assert names_in(parsed(*words), ("costs",)) == EVERY[line]


def _list_and_look_up(path: Path) -> None:
    """Give every caution a listing, and let somebody have looked up every other pigment."""
    with UnitOfWork(path, write=True, in_history=False) as work:
        for pigment in work.pigments.all():
            if pigment.evidence is not None and not pigment.hazards:
                work.pigments.change(replace(pigment, looked_up="the harbour's list"))
            for hazard in pigment.hazards:
                if not hazard.listings and hazard.as_base is None:
                    listing = Listing(ListName.IARC, "3")
                    work.pigments.complete_hazard(hazard, hazard.use, [listing])
        work.commit()


def test_every_command_that_prints_json_is_among_these() -> None:
    printing = {
        " ".join(path)
        for path in LEAVES
        if any("--json" in option.opts for option in command_tree.EVERY[path].params)
    }
    tried = {line: tuple(line.split()) for line in (*EVERY, "import")}
    assert printing == {
        " ".join(path) for path in LEAVES for words in tried.values() if words[: len(path)] == path
    }


def test_an_import_names_what_it_kept_and_what_it_left_out(parsed: Parsed, tmp_path: Path) -> None:
    table = tmp_path / "paints.csv"
    table.write_text("maker,name,volume_ml\nOrsel Pans,Locker Brown,2\nOrsel Pans,Bilge,-1\n")
    result = parsed("import", str(table), "--dry-run")
    assert names_in(result, ("added", "present")) == _object("import")
    assert (result["kept"], result["added"], result["present"]) == (False, {"paints": 1}, {})
    fault = result["faults"][0]
    assert (fault["file"], fault["line"]) == ("paints.csv", 3)
    assert "volume" in fault["reason"]


def test_a_match_says_what_was_asked_and_ranks_what_was_found(parsed: Parsed) -> None:
    result = parsed("match", "lab(51.3 -6.4 13.3)", "-n", "4")
    assert result["target"] == {
        "lab": [51.3, -6.4, 13.3],
        "illuminant": "D50",
        "observer": 2,
        "given": "lab(51.3 -6.4 13.3)",
        "note": None,
    }
    assert (result["metric"], result["near"]) == ("CIEDE2000", True)
    rows = result["matches"]
    assert [row["rank"] for row in rows] == [1, 2, 3, 4]
    assert sorted(rows, key=lambda row: float(row["delta_e"])) == rows
    assert len({row["mix"] for row in rows}) == 4
    first = rows[0]
    assert first["recipe"] == [{"paint": "RS", "parts": 3}, {"paint": "FU", "parts": 1}]
    assert first["lightness_difference"] == pytest.approx(first["lab"][0] - 51.3, abs=2e-4)
    assert {caution["paint"] for caution in first["cautions"]} == {"RS", "FU"}
    assert first["lightfastness_verified"] is False


@pytest.mark.parametrize("metric", ["cie76", "cmc", "cmc(1:1)"])
def test_a_match_names_its_metric(metric: str, parsed: Parsed) -> None:
    name = parsed("match", "tan", "--metric", metric)["metric"]
    assert name.lower().startswith(metric[:3])
    assert name != parsed("match", "tan")["metric"]


def test_the_difference_by_cie76_is_the_distance_of_the_labs(parsed: Parsed) -> None:
    result = parsed("match", "lab(50 0 0)", "--metric", "cie76", "-n", "1")
    row = result["matches"][0]
    distance = math.dist(result["target"]["lab"], row["lab"])
    assert row["delta_e"] == pytest.approx(distance, abs=2e-4)


@pytest.mark.parametrize("noun", ["paint", "paper", "mix", "swatch", "stock", "fade"])
def test_an_empty_list_is_an_empty_array(noun: str, run: Run, empty_db: Path) -> None:
    assert run(noun, "list", "--json", db=empty_db).out == "[]\n"


def test_signs_beyond_ascii_are_written_as_they_are(
    parsed: Parsed, run: Run, demo_db: Path
) -> None:
    run("paint", "edit", "FU", "--note", "für Schlick, 2°", db=demo_db)
    assert "für Schlick, 2°" in run("paint", "show", "FU", "--json", db=demo_db).out
    assert parsed("paint", "show", "FU")["note"] == "für Schlick, 2°"


def test_the_check_in_json_has_its_exit_status_too(run: Run, demo_db: Path) -> None:
    assert run("check", "--json", db=demo_db).status == 10
