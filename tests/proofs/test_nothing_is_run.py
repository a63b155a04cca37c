"""No text becomes a program: the code names none of the ways to make it one."""

import ast
from pathlib import Path
from typing import Final

import pytest

import studio

SOURCES: Final = sorted(Path(studio.__file__).parent.rglob("*.py"))
CALLS: Final = {"eval", "exec", "compile", "__import__"}
MODULES: Final = {
    "pickle", "marshal", "shelve", "dill", "yaml", "code", "codeop", "subprocess", "pty",
    "commands", "xml.etree.ElementTree", "xml.dom.minidom", "xml.sax", "tarfile",
}  # fmt: skip
METHODS: Final = {
    ("os", "system"),
    ("os", "popen"),
    ("shutil", "unpack_archive"),
    ("tempfile", "mktemp"),
}


def found_in(text: str) -> list[str]:
    """The lines of a program that could run a text."""
    found = []
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, (ast.Import, ast.ImportFrom)):
            names = [each.name for each in node.names]
            if isinstance(node, ast.ImportFrom):
                names = [node.module or "", *(f"{node.module}.{name}" for name in names)]
            found += [f"{node.lineno}: import {name}" for name in names if name in MODULES]
        if not isinstance(node, ast.Call):
            continue
        if isinstance(node.func, ast.Name) and node.func.id in CALLS:
            found.append(f"{node.lineno}: {node.func.id}")
        if isinstance(node.func, ast.Attribute) and isinstance(node.func.value, ast.Name):
            called = (node.func.value.id, node.func.attr)
            if called in METHODS or called[1].startswith("spawn"):
                found.append(f"{node.lineno}: {'.'.join(called)}")
        found += [
            f"{node.lineno}: shell="
            for keyword in node.keywords
            if keyword.arg == "shell"
            and not (isinstance(keyword.value, ast.Constant) and keyword.value.value is False)
        ]
    return found


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: "/".join(path.parts[-2:]))
def test_the_program_runs_no_text(path: Path) -> None:
    assert found_in(path.read_text(encoding="utf-8")) == []


def test_each_of_them_would_be_seen() -> None:
    text = """
import pickle
from yaml import load
eval("1")
os.system("ls")
run(["ls"], shell=True)
"""
    assert {line.partition(": ")[2] for line in found_in(text)} == {
        "import pickle", "import yaml", "eval", "shell=", "os.system",
    }  # fmt: skip
