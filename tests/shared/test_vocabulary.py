"""No text of the program or its tables holds a verdict of harmlessness."""

import ast
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
VERDICT = re.compile(r"(?<!not mean that it is )\bsafe(?:ly|r|st)?\b|\bharmless(?:ly)?\b|\bnon-?toxic\b", re.IGNORECASE)
DOMAIN = re.compile(r"\b[\w-]+(?:\.[\w-]+)*\.(?:com|org|net|nz)\b")
SOURCES = sorted((ROOT / "studio").rglob("*.py"))
TABLES = sorted((ROOT / "shared").glob("*.csv"))


def _literals(path: Path) -> list[str]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    ]


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_no_text_of_the_program_is_a_verdict(path: Path) -> None:
    assert [text for text in _literals(path) if VERDICT.search(text)] == []


@pytest.mark.parametrize("path", TABLES, ids=lambda path: path.name)
def test_no_table_holds_a_verdict(path: Path) -> None:
    """Source names such as web domains are passed over."""
    assert VERDICT.findall(DOMAIN.sub("", path.read_text(encoding="utf-8"))) == []


def test_the_scan_reads_the_program_and_its_tables() -> None:
    literals = [text for path in SOURCES for text in _literals(path)]
    assert any("A summary and no verdict" in text for text in literals)
    assert {"hazards.csv", "h_statements.csv"} <= {path.name for path in TABLES}


@pytest.mark.parametrize("verdict", ["Safe to use", "safe, which does not mean that it is red", "harmless", "Non-toxic", "nontoxic", "safely"])
def test_the_scan_finds_a_verdict(verdict: str) -> None:
    assert VERDICT.search(f"This paint is {verdict}.")


@pytest.mark.parametrize("name", ["the safety data sheet", "Center for Safety in the Arts", "this does not mean that it is safe"])
def test_the_scan_passes_over_names_and_the_denial_of_a_verdict(name: str) -> None:
    assert not VERDICT.search(name)
