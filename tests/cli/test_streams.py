"""No output fails what a command records: other encodings, readers that leave, full disks, ^C."""

import io
import json
import os
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.cli.streams import PLAIN, Results, plain
from tests.conftest import Run
from tests.servers import SERVER, fingerprint

ROOT: Final = Path(__file__).resolve().parents[2]

SURROUNDINGS: Final[dict[str, dict[str, str]]] = {
    "LC_ALL=C": {"LC_ALL": "C"},
    "C without UTF-8": {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
    "ascii": {"PYTHONIOENCODING": "ascii"},
    "latin-1": {"PYTHONIOENCODING": "latin-1"},
    "cp1252": {"PYTHONIOENCODING": "cp1252"},
}

COLOUR: Final = "#5f6f8d"

COMMANDS: Final[tuple[tuple[str, ...], ...]] = (
    ("paper", "add", "Slipway Rag", "--maker", "Eddering Mill"),
    ("paint", "add", "Cobalt Tidé 墨", "--maker", "Orsel Pans", "--code", "CT", "-p", "PB28"),
    ("paint", "add", "Burnt Sienna", "--maker", "Orsel Pans", "--code", "BS", "-p", "PBr7"),
    ("stock", "buy", "CT", "14"),
    ("swatch", "log", "1 CT", "--paper", "SR", "--lab", "38,2.5,-41"),
    ("swatch", "log", "1 BS", "--paper", "SR", "--lab", "42,24,31"),
    ("swatch", "log", "2 CT + 1 BS", "--paper", "SR", "--lab", "41,-2,-12"),
    ("swatch", "list"),
    ("swatch", "show", "S3"),
    ("swatch", "list", "--json"),
    ("match", COLOUR),
    ("match", COLOUR, "--json"),
    ("mix", "show", "M3"),
    ("paint", "show", "CT"),
    ("paint", "list", "--json"),
    ("pigment", "show", "PB28"),
    ("care", "CT", "--for", "spatter"),
    ("check",),
    ("stock", "show", "CT"),
    ("target", "add", "wet mud", "lab(50 1 -9)"),
    ("history",),
    ("undo",),
    ("redo",),
    ("--help",),
)
"""Commands that record and commands that look, each of whose results has signs beyond ASCII."""


EACH: Final = """
import json, sys
from studio.cli.app import main
for words in json.loads(sys.argv[1]):
    status = main(words)
    print(f"\x1e{status}\x1f", end="", flush=True)
"""
"""Command lines one after the other in a process of its own, whose streams are real ones."""


@pytest.mark.parametrize("named", SURROUNDINGS)
def test_what_is_recorded_is_told_in_the_signs_there_are(
    named: str, empty_db: Path, data_home: Path, run: Run
) -> None:
    surroundings = SURROUNDINGS[named]
    lines = [["--db", str(empty_db), *words] for words in COMMANDS]
    ended = subprocess.run(
        [sys.executable, "-c", EACH, json.dumps(lines)],
        capture_output=True,
        cwd=ROOT,
        env=os.environ | {"COLUMNS": "80", "XDG_DATA_HOME": str(data_home)} | surroundings,
        check=False,
    )
    assert (ended.returncode, b"defect" in ended.stderr) == (0, False), ended.stderr
    printed = ended.stdout.decode(surroundings.get("PYTHONIOENCODING", "utf-8"))
    *parts, _ = (part.rpartition("\x1e") for part in printed.split("\x1f"))
    assert {status for _, _, status in parts} <= {"0", "10"}, ended.stderr
    told = dict(zip(COMMANDS, (text for text, _, _ in parts), strict=True))
    for listed in ("swatch", "paint"):
        there = json.loads(run(listed, "list", "--json", db=empty_db).out)
        assert len(there) == {"swatch": 3, "paint": 2}[listed]
        assert json.loads(told[listed, "list", "--json"]) == there
    match = told["match", COLOUR]
    assert ("b* \N{MINUS SIGN}" if named == "LC_ALL=C" else "b* -18.6") in match
    assert ("ΔE00" if named == "LC_ALL=C" else "dE00") in match


def test_a_reader_that_leaves_after_a_record_is_told_that_it_is_kept(
    empty_db: Path, data_home: Path, run: Run
) -> None:
    reader, writer = os.pipe()
    os.close(reader)
    ended = subprocess.run(
        [sys.executable, "-m", "studio", "--db", str(empty_db), "paint", "add", "Quay Blue",
         "--maker", "Orsel Pans"],
        stdout=writer,
        stderr=subprocess.PIPE,
        cwd=ROOT,
        env=os.environ | {"XDG_DATA_HOME": str(data_home)},
        check=False,
    )  # fmt: skip
    os.close(writer)
    said = b"studio: nobody reads the result any more; what was recorded is kept\n"
    assert (ended.returncode, ended.stderr) == (0, said)
    assert '"Quay Blue"' in run("paint", "list", "--json", db=empty_db).out


def _run_with(
    db: Path, data_home: Path, how: str, *words: str, shell: str = "sh"
) -> subprocess.CompletedProcess[bytes]:
    """A command line whose streams a shell has led elsewhere."""
    return subprocess.run(
        [shell, "-c", f'exec "$@" {how}', shell, sys.executable, "-m", "studio", "--db", str(db),
         *words],
        capture_output=True,
        cwd=ROOT,
        env=os.environ | {"XDG_DATA_HOME": str(data_home)},
        check=False,
    )  # fmt: skip


@pytest.mark.parametrize(
    "case",
    [
        (">/dev/full", 3, "the result cannot be written: no space left on device; what was"),
        ("1</dev/null", 3, "the result cannot be written: bad file descriptor; what was recorded"),
        (">&-", 0, ""),
        ("2>&-", 0, ""),
        (">&- 2>&-", 0, ""),
        ("2>/dev/full", 0, ""),
        (">/dev/full 2>/dev/full", 3, ""),
    ],
)
def test_what_streams_refuse_is_recorded_once_all_the_same(
    case: tuple[str, int, str], empty_db: Path, data_home: Path, run: Run
) -> None:
    how, status, said = case
    for unbuffered in ("", "1"):
        name = f"Quay Blue {unbuffered}".strip()
        os.environ["PYTHONUNBUFFERED"] = unbuffered
        try:
            ended = _run_with(empty_db, data_home, how, "paint", "add", name, "--maker", "Orsel")
        finally:
            del os.environ["PYTHONUNBUFFERED"]
        assert ended.returncode == status, ended.stderr
        assert said in ended.stderr.decode()
        assert b"Traceback" not in ended.stderr
        assert run("paint", "list", "--json", db=empty_db).out.count(f'"{name}"') == 1
    if how == "2>&-":
        assert b"QB" in ended.stdout


@pytest.mark.file_only("begins a studio, of which it tells before the record")
def test_a_closed_standard_error_costs_no_record(data_home: Path, run: Run, tmp_path: Path) -> None:
    db = tmp_path / "new.sqlite3"
    ended = _run_with(db, data_home, "2>/dev/full", "paint", "add", "Mud", "--maker", "Orsel")
    assert ended.returncode == 0
    assert '"Mud"' in run("paint", "list", "--json", db=db).out


def test_a_stream_of_text_takes_text_alone() -> None:
    """Typer writes no bytes to find out whether a stream takes them, and then writes all so."""
    stream = io.StringIO()
    results = Results(stream)
    with pytest.raises(TypeError):
        results.write(b"")
    results.writelines(["tide", "\n"])
    assert stream.getvalue() == "tide\n"


def test_help_is_text(run: Run) -> None:
    for words in (("--help",), ("match", "--help"), ("--version",)):
        assert not run(*words).out.startswith("b'")


@given(st.text(), st.sampled_from(["ascii", "latin-1", "cp1252", "cp437", "utf-8"]))
def test_every_text_can_be_written(text: str, encoding: str) -> None:
    written = plain(text, encoding)
    assert written.encode(encoding).decode(encoding) == written
    assert plain(written, encoding) == written
    if text.isascii():
        assert written == text


def test_signs_have_the_plain_one_that_stands_for_them() -> None:
    text = "ΔE00 −2.5 ± 0.4 · 45° · 300 g/m² · 1½ sheets · Café – 墨 …"
    assert plain(text, "ascii") == (
        "dE00 -2.5 +/- 0.4 | 45 deg | 300 g/m2 | 1 1/2 sheets | Cafe - \\u58a8 ..."
    )
    assert plain(text, "latin-1") == (
        "dE00 -2.5 ± 0.4 · 45° · 300 g/m² · 1½ sheets · Café - \\u58a8 ..."
    )
    assert all(sign.isascii() for sign in PLAIN.values())


@pytest.mark.parametrize(
    "module",
    ["studio.cli", "typer", "typer.main", "studio.cli.match", "studio.storage.unit_of_work"],
)
@pytest.mark.skipif(SERVER is not None, reason="about loading, not about a database")
def test_an_interrupt_while_the_program_loads_ends_it_in_silence(
    module: str, data_home: Path, demo_db: Path, tmp_path: Path
) -> None:
    before = fingerprint(demo_db)
    (tmp_path / "first.py").write_text(INTERRUPTING.format(module=module), encoding="utf-8")
    ended = subprocess.run(
        [sys.executable, str(tmp_path / "first.py"), "--db", str(demo_db), "match", "tan"],
        capture_output=True,
        cwd=ROOT,
        env=os.environ | {"PYTHONPATH": str(ROOT), "XDG_DATA_HOME": str(data_home)},
        check=False,
    )
    assert (ended.returncode, ended.stdout, ended.stderr) == (130, b"", b"")
    assert fingerprint(demo_db) == before


INTERRUPTING: Final = '''
import os, signal, sys

class Finder:
    """Sends the interrupt at the moment when a module is looked for."""
    def find_spec(self, name, path=None, target=None):
        if name == "{module}":
            sys.meta_path.remove(self)
            os.kill(os.getpid(), signal.SIGINT)

sys.meta_path.insert(0, Finder())
import runpy
runpy.run_module("studio", run_name="__main__", alter_sys=True)
'''


@pytest.mark.skipif(SERVER is not None, reason="about a process, not about a database")
def test_who_ignores_interrupts_goes_on_ignoring_them(
    data_home: Path, demo_db: Path, tmp_path: Path
) -> None:
    (tmp_path / "first.py").write_text(INTERRUPTING.format(module="typer"), encoding="utf-8")
    ignore: Callable[[], object] = lambda: signal.signal(signal.SIGINT, signal.SIG_IGN)  # noqa: E731
    ended = subprocess.run(
        [sys.executable, str(tmp_path / "first.py"), "--db", str(demo_db), "db", "where"],
        capture_output=True,
        cwd=ROOT,
        env=os.environ | {"PYTHONPATH": str(ROOT), "XDG_DATA_HOME": str(data_home)},
        preexec_fn=ignore,
        check=False,
    )
    assert (ended.returncode, ended.stderr) == (0, b"")
