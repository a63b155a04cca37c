"""What an import loads: a search must not wait for libraries that it does not use."""

import json
import subprocess
import sys
from pathlib import Path
from typing import Final

import pytest

ROOT: Final = Path(__file__).resolve().parents[2]
HEAVY: Final = ("numpy", "scipy", "colour", "coloraide", "sqlalchemy", "alembic", "typer", "rich")
PLAIN: Final = (
    *("difference", "nearest", "display", "words", "lab", "reflectance", "srgb"),
    *("lights", "metamerism"),
)


def _loaded(code: str) -> set[str]:
    """The modules that a fresh interpreter holds after running some code."""
    script = f"{code}\nimport json, sys\nprint(json.dumps(sorted(sys.modules)))"
    done = subprocess.run(
        [sys.executable, "-c", script], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert done.stderr == ""
    return set(json.loads(done.stdout))


@pytest.mark.parametrize("module", [*PLAIN, "notation"])
def test_plain_colour_modules_load_no_library(module: str) -> None:
    loaded = _loaded(f"import studio.colour.{module}")
    assert f"studio.colour.{module}" in loaded
    assert loaded.isdisjoint(HEAVY)


def test_importing_studio_loads_nothing_else_of_it() -> None:
    assert {name for name in _loaded("import studio") if name.startswith("studio")} == {"studio"}


@pytest.mark.parametrize(
    "text", ["#b5843c", "#abc", "lab(62 12 30)", "LAB(62, 12, 30)", "lch(62 32 68)"]
)
def test_the_forms_that_painters_type_most_load_no_library(text: str) -> None:
    code = f"from studio.colour.notation import css_to_lab\ncss_to_lab({text!r})"
    assert _loaded(code).isdisjoint(HEAVY)


def test_a_named_colour_loads_coloraide_but_not_colour_science() -> None:
    loaded = _loaded("from studio.colour.notation import css_to_lab\ncss_to_lab('tan')")
    assert loaded.intersection(HEAVY) == {"coloraide"}


def test_a_search_loads_no_library() -> None:
    loaded = _loaded(
        "from studio.colour.difference import metric\n"
        "from studio.colour.nearest import nearest\n"
        "from studio.colour.words import separation\n"
        "from studio.colour.display import on_screen\n"
        "from studio.colour.lab import Lab\n"
        "lab = Lab(50, 1, 2)\n"
        "class One:\n"
        "    size = 1\n"
        "    def inside(self, box): return [(1, 1, *lab.coordinates)]\n"
        "    def few(self): return self.inside(None)\n"
        "assert nearest((50, 0, 0), One(), metric('ciede2000'), 1)\n"
        "assert separation((50, 0, 0), lab.coordinates).words\n"
        "assert on_screen(lab).in_gamut"
    )
    assert loaded.isdisjoint(HEAVY)


def test_the_door_to_colour_science_is_silent() -> None:
    loaded = _loaded("import studio.colour.science")
    assert {"colour", "numpy"} <= loaded
