"""Refusals checked alike for every command, and a small shelf recorded by command lines."""

import io
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.conftest import Outcome, Run
from tests.servers import fingerprint

Refuses = Callable[..., str]
Does = Callable[..., Outcome]


@pytest.fixture
def in_a_pipe(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nobody sits at the keyboard."""
    monkeypatch.setattr(sys, "stdin", io.StringIO())


@pytest.fixture
def refuses(run: Run, demo_db: Path, in_a_pipe: None) -> Refuses:
    """`refuses(3, "match", "nan")`: the one sentence it says; the database stays as it was."""
    del in_a_pipe

    def check(status: int, *words: str) -> str:
        before = fingerprint(demo_db)
        beside = _beside(demo_db)
        outcome = run(*words, db=demo_db)
        assert (outcome.status, outcome.out) == (status, "")
        assert fingerprint(demo_db) == before
        assert _beside(demo_db) == beside
        assert outcome.err.startswith("studio: ")
        assert outcome.err.count("\n") == 1
        assert outcome.err.endswith("\n")
        return outcome.err.removeprefix("studio: ").strip()

    return check


def _beside(db: Path) -> list[Path]:
    """The files in the folder of a database; a server has none."""
    return sorted(db.parent.iterdir()) if isinstance(db, Path) else []


@pytest.fixture
def does(run: Run, empty_db: Path) -> Does:
    """`does("paint", "list")` in a new studio; the command line must succeed."""

    def succeed(*words: str) -> Outcome:
        outcome = run(*words, db=empty_db)
        assert outcome.status == 0, outcome.err
        return outcome

    return succeed


@pytest.fixture
def shelf(does: Does) -> Does:
    """A new studio with two paints (FU, BS) and a paper (SR)."""
    does(
        "paint", "add", "French Ultramarine", "--maker", "Pellow & Strand",
        "--pigments", "PB29", "--volume", "14", "--price", "11.80", "--currency", "GBP",
    )  # fmt: skip
    does("paint", "add", "Burnt Sienna", "--maker", "Pellow & Strand", "-p", "PBr7")
    does(
        "paper", "add", "Slipway Rag", "--maker", "Eddering Mill", "--weight", "140lb",
        "--size", "22x30in", "--surface", "cold pressed", "--sheets", "10",
    )  # fmt: skip
    return does
