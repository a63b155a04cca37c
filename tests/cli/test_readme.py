"""README.md holds what the program does: commands, examples, exit statuses."""

import re
import shlex
import shutil
from itertools import pairwise
from pathlib import Path
from typing import Final

import pytest

from studio.cli.app import COMMANDS
from studio.errors import ExitStatus
from tests.cli.command_tree import EVERY, LEAVES
from tests.conftest import Run

TOP: Final = Path(__file__).resolve().parents[2]
README: Final = (TOP / "README.md").read_text(encoding="utf-8")
DEMO_FILES: Final = Path("seed_demo", "files")
"""Where the examples take pictures and readings from, seen from the top of the checkout."""


def _examples() -> list[list[str]]:
    blocks = re.findall(r"^```console\n(.*?)^```", README, re.MULTILINE | re.DOTALL)
    lines = [line for block in blocks for line in block.splitlines()]
    assert all(line.startswith("$ studio ") for line in lines)
    return [shlex.split(line.removeprefix("$ "))[1:] for line in lines]


def test_the_program_has_the_commands_that_its_tour_lists() -> None:
    assert set(COMMANDS) == {path[0] for path in LEAVES}
    assert len(LEAVES) >= 30


@pytest.mark.parametrize("path", LEAVES, ids=" ".join)
def test_every_command_is_named_in_the_readme(path: tuple[str, ...]) -> None:
    """As `swatch log`, as one of `swatch log|read|list`, or in an example."""
    lines = [line for line in README.splitlines() if line.startswith("$ studio ")]
    named: set[str] = set()
    for text in (*re.findall(r"`([^`\n]+)`", README), *lines):
        words = re.findall(r"[a-z|]+", re.sub(r"^(\$ )?(studio )?(--demo )?", "", text))
        if words[:1] == [path[0]]:
            named.update((words[1] if len(words) > 1 else "").split("|"))
            if len(words) > 2 and (*words[:2],) in EVERY:  # a group in a group
                named.update(f"{words[1]} {word}" for word in words[2].split("|"))
            named.add("")
    assert " ".join(path[1:]) in named


@pytest.mark.parametrize("path", EVERY, ids=lambda path: " ".join(path) or "studio")
def test_every_help_fits_80_columns_and_explains_every_option(
    path: tuple[str, ...], run: Run
) -> None:
    outcome = run(*path, "--help")
    assert (outcome.status, outcome.err) == (0, "")
    assert outcome.out.startswith(f"Usage: {' '.join(('studio', *path))} ")
    assert max(map(len, outcome.out.splitlines())) <= 80
    for option in EVERY[path].params:
        assert getattr(option, "help", None) or option.name == "help", option.name


def test_a_group_alone_shows_its_verbs(run: Run) -> None:
    outcome = run("paint")
    shown = outcome.out + outcome.err
    assert all(f"  {verb} " in shown for verb in ("add", "list", "show", "edit", "retire"))


def test_every_console_example_runs_in_order_in_one_fresh_folder(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shutil.copytree(TOP / DEMO_FILES, tmp_path / DEMO_FILES)
    monkeypatch.chdir(tmp_path)
    examples = _examples()
    assert len(examples) >= 15
    for words in examples:
        outcome = run(*words)
        expected = ExitStatus.ATTENTION if words[0] == "check" else ExitStatus.DONE
        assert outcome.status == expected, (words, outcome.err)
        written = [
            file
            for option, file in pairwise(words)
            if option in {"--annotate", "--csv", "--html", "--pdf", "--png"}
        ]
        assert all(Path(file).is_file() for file in written), words
        assert outcome.out or written or words[:2] == ["pigment", "verify"], words


def test_the_table_of_exit_statuses_is_that_of_the_program() -> None:
    table = re.search(r"\| exit status \|.*?\n\n", README, re.DOTALL)
    assert table is not None
    documented = [int(row) for row in re.findall(r"^\| (\d+) \|", table[0], re.MULTILINE)]
    assert documented == [int(status) for status in ExitStatus]


def test_the_version_is_that_of_the_package(run: Run) -> None:
    from studio import __version__

    assert run("--version").out == f"studio {__version__}\n"
    assert f"- {__version__}: " in README
