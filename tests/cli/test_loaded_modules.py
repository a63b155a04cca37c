"""What a command line loads: modules, never milliseconds."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Final

import pytest

ROOT: Final = Path(__file__).resolve().parents[2]

SCRIPT: Final = """
import io, json, sys
before = set(sys.modules)
from studio.cli.app import main
results, sys.stdout = sys.stdout, io.StringIO()
for line in json.loads(sys.argv[1]):
    assert main(line) in (0, 10), line
json.dump(sorted(set(sys.modules) - before), results)
"""
HEAVY: Final = {"alembic", "coloraide", "colour", "numpy", "rich.table", "scipy", "sqlalchemy"}

READING: Final = [
    ["match", "#767d63"],
    ["match", "lab(62 12 30)", "--in-stock", "--lightfast", "II", "--without-hazard", "cadmium"],
    ["match", "S1", "--json"],
    ["check"],
    *([noun, "list"] for noun in ("paint", "paper", "mix", "swatch", "stock", "pigment")),
    ["paint", "show", "FU"],
    ["paper", "show", "ECP"],
    ["mix", "show", "M38"],
    ["swatch", "show", "S1"],
    ["swatch", "drying"],
    ["swatch", "cards", "-n", "2"],
    ["swatch", "plane"],
    ["swatch", "spectra", "S1"],
    ["match", "#767d63", "--wet"],
    ["swatch", "compare", "S112", "S110"],
    ["stock", "show", "FU"],
    ["pigment", "show", "PB29"],
]


def _loaded(db: Path, *lines: list[str]) -> set[str]:
    """The modules that one process loads for some command lines, one after the other."""
    ended = subprocess.run(
        [sys.executable, "-c", SCRIPT, json.dumps([["--db", str(db), *line] for line in lines])],
        capture_output=True,
        text=True,
        cwd=ROOT,
        env={**os.environ, "COLUMNS": "80"},
        check=False,
    )
    assert ended.returncode == 0, ended.stderr
    return set(json.loads(ended.stdout))


def test_the_help_loads_neither_database_nor_tables_nor_colour(demo_db: Path) -> None:
    loaded = _loaded(demo_db, ["--help"])
    assert "studio.cli.app" in loaded
    assert not loaded & {*HEAVY, "rich"}
    assert not {name for name in loaded if name.startswith("studio.storage")}


def test_looking_loads_no_colour_science_numpy_or_migrations(demo_db: Path) -> None:
    loaded = _loaded(demo_db, *READING)
    assert "sqlalchemy" in loaded
    assert not loaded & {"alembic", "colour", "numpy", "scipy", "pytest"}


@pytest.mark.file_only("a file needs nothing of a server")
def test_looking_into_a_file_loads_nothing_of_a_server(demo_db: Path) -> None:
    loaded = _loaded(demo_db, *READING)
    assert not loaded & {
        *("psycopg", "studio.storage.server", "studio.storage.server_trouble"),
        "sqlalchemy.dialects.postgresql",
    }


def test_only_a_swatch_since_then_makes_paint_show_load_the_model(demo_db: Path) -> None:
    log = ["swatch", "log", "FU", "--lab", "41,2,-12", "--water", "2:1"]
    assert "numpy" not in _loaded(demo_db, log)
    assert {"numpy", "scipy", "colour"} <= _loaded(demo_db, ["paint", "show", "BS"])
    assert not {"numpy", "scipy", "colour"} & _loaded(demo_db, ["paint", "show", "FU"])


def test_only_tints_between_swatches_make_a_match_load_the_kept_model(demo_db: Path) -> None:
    assert "numpy" not in _loaded(demo_db, ["match", "#b58a6e"], ["match", "#b58a6e", "--json"])
    loaded = _loaded(demo_db, ["match", "#b58a6e", "--between"], ["adjust", "S74", "#5b6270"])
    assert "numpy" in loaded
    assert not {"colour", "scipy"} & loaded


def test_only_a_pdf_loads_what_makes_one(demo_db: Path, tmp_path: Path) -> None:
    html, pdf = str(tmp_path / "page.html"), str(tmp_path / "page.pdf")
    pages = (
        *(["care", "sheet"], ["paint", "card", "FU"], ["stock", "reorder"]),
        *(["swatch", "book"], ["swatch", "book", "--by", "value"]),
    )
    makers = {"fpdf", "matplotlib", "fontTools"}
    assert not makers & _loaded(
        demo_db, *READING, ["care", "FU"], ["care", "sheet"], ["care", "--class", "children"]
    )
    assert not makers & _loaded(demo_db, *([*page, "--html", html] for page in pages))
    loaded = _loaded(demo_db, ["paint", "card", "FU", "--pdf", pdf])
    assert makers <= loaded
    assert "matplotlib.pyplot" not in loaded
    pictures = (
        ["swatch", "cards", "S1"],
        ["swatch", "plane", "--target", "#767d63"],
        ["swatch", "spectra", "S1"],
        ["mix", "chart", "FU", "BS"],
        ["mix", "chart", "--only", "FU,BS", "--json"],
    )
    assert not makers & _loaded(demo_db, *pictures)
    drawn = _loaded(demo_db, *([*line, "--pdf", pdf] for line in pictures))
    assert makers <= drawn
    assert not {"matplotlib.pyplot", "tkinter"} & drawn


def test_a_plain_match_loads_no_library_for_colours(demo_db: Path) -> None:
    assert "coloraide" not in _loaded(demo_db, ["match", "#767d63"])


def test_a_plain_match_loads_nothing_of_drying_lights_or_upgrades(demo_db: Path) -> None:
    loaded = _loaded(demo_db, ["match", "#767d63", "--in-stock"])
    assert {"studio.colour.nearest", "studio.storage.search"} <= loaded
    idle = {
        *("actions.compare_swatches", "actions.drying_shift", "colour.metamerism"),
        *("sheets.drying_view", "sheets.light_view", "sheets.result_fields", "storage.migrate"),
    }
    assert not {f"studio.{name}" for name in idle} & loaded


def test_a_command_loads_no_other_command(demo_db: Path) -> None:
    loaded = _loaded(demo_db, ["check"])
    others = {"match", "paint", "paper", "mix", "swatch", "stock", "pigment", "demo", "db"}
    assert not {f"studio.cli.{name}" for name in others} & loaded


def test_recording_a_lab_loads_no_colour_science_or_migrations(demo_db: Path) -> None:
    loaded = _loaded(
        demo_db,
        ["swatch", "log", "2 FU + 1 BS", "--lab", "41,2,-12", "--for", "#5b5f6e"],
        ["swatch", "read", "S1", "--lab", "41,2,-12"],
        ["stock", "use", "FU", "1"],
    )
    assert not loaded & {"alembic", "colour", "numpy"}


def test_naming_and_listing_targets_loads_no_picture(demo_db: Path) -> None:
    loaded = _loaded(
        demo_db,
        ["target", "add", "mud under the hull", "#5b5f6e"],
        ["target", "list"],
        ["target", "show", "mud"],
        ["match", "mud under the hull"],
    )
    assert not loaded & {"alembic", "colour", "numpy", "scipy", "PIL", "matplotlib"}


def test_only_a_picture_that_is_picked_from_loads_what_reads_pictures(demo_db: Path) -> None:
    plain = _loaded(
        demo_db,
        ["painting", "list"],
        ["painting", "show", "P2"],
        ["painting", "start", "Ebb", "--paper", "ECP", "--size", "38x28cm"],
        ["painting", "passage", "add", "P2", "reeds", "--colour", "#5b5f6e", "--over", "mud"],
        ["painting", "passage", "move", "P2", "reeds", "--after", "mud"],
        ["painting", "test", "P2", "reeds", "FU", "--lab", "40,2,-12"],
        ["painting", "finish", "P2"],
        ["painting", "record", "P2"],
    )
    assert "studio.actions.painting.finish_painting" in plain
    assert not plain & {"numpy", "PIL", "coloraide", "colour", "alembic"}


@pytest.mark.parametrize(
    "line",
    [
        ["match", "5YR 6/4"],
        ["swatch", "log", "FU", "--lab", "41,2,-12", "--illuminant", "D65"],
        ["swatch", "compare", "S57", "S175"],
        ["match", "S6", "--light", "A"],
    ],
    ids=" ".join,
)
def test_munsell_other_whites_and_other_lights_load_colour_science(
    line: list[str], demo_db: Path
) -> None:
    assert "colour" in _loaded(demo_db, line)
