"""A shelf that commands of stock work on, and a command that must succeed."""

from datetime import UTC, datetime
from pathlib import Path
from typing import Final

import pytest

from studio.cli import session
from tests.conftest import Run

NOW: Final = datetime(2026, 11, 25, 14, 30, tzinfo=UTC)
MAKER: Final = ("--maker", "Pellow & Strand")


def pin_the_day(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every command runs on one afternoon, in a wide terminal."""
    monkeypatch.setenv("COLUMNS", "140")
    monkeypatch.setattr(session, "now", lambda: NOW)


def fill_shelf(run: Run, db: Path) -> None:
    """Two paints, sheets and a roll, none of them bought yet."""
    for words in (
        ("paint", "add", "French Ultramarine", *MAKER, "--pigments", "PB29"),
        ("paint", "add", "Burnt Sienna", *MAKER, "--pigments", "PBr7"),
        ("paper", "add", "Slipway Rag", "--maker", "Eddering Mill"),
        ("paper", "add", "Longshore Roll", "--maker", "Harrow Staithe"),
    ):
        assert run(*words, db=db).status == 0


def done(run: Run, db: Path, *words: str) -> str:
    """What a command of stock printed that was done without a message."""
    outcome = run("stock", *words, db=db)
    assert (outcome.status, outcome.err) == (0, ""), outcome.err
    return outcome.out
