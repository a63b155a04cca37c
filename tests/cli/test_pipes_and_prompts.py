"""How the program behaves in a pipe whose reader leaves, and at a terminal where someone types."""

import json
import os
import pty
import subprocess
import sys
from pathlib import Path
from typing import Final

import pytest

from tests.conftest import Run
from tests.servers import SERVER

ROOT: Final = Path(__file__).resolve().parents[2]
STUDIO: Final = (sys.executable, "-m", "studio")


def _environment(data_home: Path) -> dict[str, str]:
    return {
        **os.environ,
        "COLUMNS": "80",
        "PYTHONUNBUFFERED": "",
        "TERM": "xterm",
        "XDG_DATA_HOME": str(data_home),
    }


@pytest.mark.parametrize(
    "words",
    [
        ("swatch", "list", "--json"),  # longer than any buffer, so that writing fails midway
        ("mix", "list"),
        ("db", "where"),  # short, so that only the flush at the end fails
        ("match", "tan", "--json", "-n", "1"),
        ("--help",),
    ],
    ids=" ".join,
)
def test_a_reader_that_leaves_is_no_error(
    words: tuple[str, ...], demo_db: Path, data_home: Path
) -> None:
    reader, writer = os.pipe()
    os.close(reader)
    ended = subprocess.run(
        [*STUDIO, "--db", str(demo_db), *words],
        stdout=writer,
        stderr=subprocess.PIPE,
        cwd=ROOT,
        env=_environment(data_home),
        check=False,
    )
    os.close(writer)
    assert (ended.returncode, ended.stderr) == (0, b"")


@pytest.mark.parametrize(
    "words",
    [("swatch", "list", "--json"), ("paint", "list"), ("db", "where"), ("--help",)],
    ids=" ".join,
)
def test_a_result_that_a_full_disk_does_not_take_is_told(
    words: tuple[str, ...], demo_db: Path, data_home: Path
) -> None:
    with Path("/dev/full").open("wb") as full:
        ended = subprocess.run(
            [*STUDIO, "--db", str(demo_db), *words],
            stdout=full,
            stderr=subprocess.PIPE,
            cwd=ROOT,
            env=_environment(data_home),
            check=False,
        )
    assert (ended.returncode, ended.stderr.decode()) == (
        3,
        (
            "studio: the result cannot be written: no space left on device; "
            "what was recorded is kept\n"
        ),
    )


def test_a_reader_that_leaves_hides_no_refusal(
    demo_db: Path, data_home: Path, tmp_path: Path
) -> None:
    table = tmp_path / "paints.csv"
    table.write_text("maker,name\nOrsel Pans,Locker Brown\nOrsel Pans,\n")
    reader, writer = os.pipe()
    os.close(reader)
    ended = subprocess.run(
        [*STUDIO, "--db", str(demo_db), "import", str(table)],
        stdout=writer,
        stderr=subprocess.PIPE,
        cwd=ROOT,
        env=_environment(data_home),
        check=False,
    )
    os.close(writer)
    assert ended.returncode == 6
    *backup, bad_row, kept = ended.stderr.decode().splitlines()
    assert kept == "studio: nobody reads the result any more; what was recorded is kept"
    assert len(backup) == (SERVER is None)  # a server's is its administrator's to make
    assert all("is kept at" in line for line in backup)
    assert bad_row.startswith("studio: paints.csv, line 3: ")


def _at_a_terminal(typed: str, data_home: Path, *words: str) -> tuple[int, str]:
    """The exit status of a command line at a pseudo terminal, and all that stood on it."""
    ours, theirs = pty.openpty()
    process = subprocess.Popen(
        [*STUDIO, *words],
        stdin=theirs,
        stdout=theirs,
        stderr=theirs,
        cwd=ROOT,
        env=_environment(data_home),
    )
    os.close(theirs)
    os.write(ours, typed.encode())
    shown = b""
    while True:
        try:
            chunk = os.read(ours, 4096)
        except OSError:  # how Linux says that the other side is closed
            break
        if not chunk:  # how others say it
            break
        shown += chunk
    os.close(ours)
    return process.wait(), shown.decode()


def test_at_a_terminal_what_is_missing_is_asked_for(run: Run, data_home: Path) -> None:
    status, shown = _at_a_terminal("Quay Blue\nOrsel Pans\n", data_home, "paint", "add")
    assert status == 0
    assert "The name of the paint: " in shown
    assert "The maker: " in shown
    assert "QB" in shown
    listed = run("paint", "list", "--json").out
    assert '"name": "Quay Blue"' in listed
    assert '"maker": "Orsel Pans"' in listed


def test_a_swatch_is_asked_for_its_recipe_and_its_colour(run: Run, data_home: Path) -> None:
    run("paint", "add", "Quay Blue", "--maker", "Orsel Pans")
    run("paper", "add", "Slipway Rag", "--maker", "Eddering Mill")
    status, shown = _at_a_terminal("QB\n41,2,-12\n", data_home, "swatch", "log")
    assert status == 0
    assert "The recipe: " in shown
    assert "The colour as L*,a*,b*: " in shown
    assert (
        '"lab": [\n      41.0,\n      2.0,\n      -12.0\n    ]'
        in run("swatch", "list", "--json").out
    )


def test_what_is_mistyped_is_asked_for_again_and_the_rest_is_kept(
    run: Run, data_home: Path
) -> None:
    run("paint", "add", "Quay Blue", "--maker", "Orsel Pans")
    run("paper", "add", "Slipway Rag", "--maker", "Eddering Mill")
    run("paper", "add", "Low Tide Rough", "--maker", "Eddering Mill")
    typed = "Kay Green\nQB\n41,2\n141,2,-12\n41,2,-12\nHigh Tide\nSR\n"
    status, shown = _at_a_terminal(typed, data_home, "swatch", "log")
    told = " ".join(shown.split())
    assert status == 0, shown
    assert [told.count(f"{name}: ") for name in ("The recipe", "L*,a*,b*", "The paper")] == [
        2,
        3,
        2,
    ]
    for why in ("Kay Green", "is not three numbers; write it like 41,2,-12", "from 0 to 100"):
        assert why in told
    (swatch,) = json.loads(run("swatch", "list", "--json").out)
    assert (swatch["recipe"][0]["paint"], swatch["lab"]) == ("QB", [41.0, 2.0, -12.0])
    assert swatch["paper"] == "SR"


def test_a_recipe_that_fits_nothing_is_told_before_the_colour_is_asked_for(
    run: Run, data_home: Path
) -> None:
    run("paint", "add", "Quay Blue", "--maker", "Orsel Pans")
    status, shown = _at_a_terminal("41,2,-12\n", data_home, "swatch", "log", "Kay Green")
    assert status == 4
    assert "L*,a*,b*" not in shown
    assert "Kay Green" in shown


def test_the_size_of_a_class_is_asked_for(run: Run, data_home: Path) -> None:
    run("paint", "add", "Quay Blue", "--maker", "Orsel Pans", "--volume", "10")
    words = ("stock", "reorder", "--each", "QB=2")
    status, shown = _at_a_terminal("a few\n0\n12\n", data_home, *words)
    assert status == 0, shown
    assert shown.count("The number of students: ") == 3
    assert "'a few' is not a whole number" in shown
    assert "24 ml planned" in shown


def test_end_of_input_at_a_prompt_stops_and_records_nothing(run: Run, data_home: Path) -> None:
    status, shown = _at_a_terminal("Quay Blue\n\x04", data_home, "paint", "add")
    assert status == 130
    assert "Traceback" not in shown
    assert shown.rstrip().endswith("studio: stopped")
    assert run("db", "where", "--json").out.endswith('"exists": false\n}\n')


def test_at_a_terminal_a_sentence_is_broken_between_words(run: Run, data_home: Path) -> None:
    assert run("paint", "add", "Quay Blue", "--maker", "Orsel Pans").status == 0
    assert run("undo").status == 0
    told = run("undo").err
    assert len(told) > 80
    assert told.count("\n") == 1
    status, shown = _at_a_terminal("", data_home, "undo")
    lines = shown.split("\r\n")
    assert status == 3
    assert max(map(len, lines)) <= 80
    assert " ".join(lines).strip() == told.strip()
