"""What studio stock refuses, with the database untouched, and which container a name means."""

from pathlib import Path

import pytest

from tests.cli.stock_steps import done, fill_shelf, pin_the_day
from tests.conftest import Run
from tests.servers import fingerprint


@pytest.fixture
def stocked(run: Run, empty_db: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A weighed tube, opened, and a half pan of ultramarine, and ten sheets."""
    pin_the_day(monkeypatch)
    fill_shelf(run, empty_db)
    done(run, empty_db, "buy", "FU", "14", "--weight", "25.2", "--on", "2026-05-04")
    done(run, empty_db, "open", "FU-1", "--on", "2026-05-04")
    done(run, empty_db, "buy", "FU", "1.8", "--kind", "half pan", "--on", "2026-05-04")
    done(run, empty_db, "buy", "SR", "10", "--on", "2026-05-04")
    return empty_db


@pytest.mark.parametrize(
    ("status", "words", "said"),
    [
        (3, ("buy", "sienna"), "how much a full tube of Pellow & Strand Burnt Sienna holds is not"),
        (3, ("buy", "FU", "14", "--kind", "pad"), "does not come as a pad"),
        (3, ("buy", "FU", "14", "--kind", "bucket"), "kind 'bucket' is not known"),
        (3, ("buy", "FU", "0"), "what it holds, in ml, must be above 0"),
        (3, ("buy", "FU", "14", "--price", "dear"), "price 'dear' is not a number"),
        (3, ("buy", "FU", "14", "--price", "9", "--currency", "quid"), "is not three letters"),
        (3, ("buy", "FU", "14", "--on", "2026-11-26"), "lies in the future"),
        (3, ("buy", "FU", "14", "--on", "May"), "the day 'May' is not a date"),
        (3, ("buy", "SR", "10000", "--kind", "roll"), "is counted in sheets"),
        (3, ("use", "FU", "15.9"), "15.9 ml used on 2026-11-25, but only 15.8 ml of"),
        (3, ("use", "FU-2", "2"), "FU-2 has only 1.8 ml"),
        (3, ("use", "FU", "1", "--on", "2026-05-03"), "has an entry of 2026-05-04"),
        (3, ("weigh", "FU-1", "25.4"), "FU-1 weighs 25.2 g full, and 25.4 g is more"),
        (3, ("weigh", "FU-1", "20", "--as", "half"), "the mark 'half' is not known"),
        (3, ("weigh", "FU-2", "3"), "neither the full nor the empty weight of FU-2 is known"),
        (3, ("weigh", "SR", "400"), "SR-1 holds paper, which is counted"),
        (3, ("refill", "FU-2", "1", "--from", "FU-1"), "1 more do not go in"),
        (3, ("refill", "FU-1", "1", "--from", "FU-1"), "cannot be refilled from itself"),
        (3, ("return", "FU-1"), "FU-1 was not lent"),
        (3, ("discard", "SR", "11"), "only 10 sheets of Eddering Mill Slipway Rag"),
        (3, ("correct", "FU-1", "15"), "FU-1 holds 14 ml; it cannot have 15"),
        (3, ("reorder", "--need", "FU"), "'FU' is not clear; write a paint or paper"),
        (3, ("reorder", "--need", "FU=much"), "'FU=much' is not clear"),
        (3, ("reorder", "--need", "FU=-1"), "what is planned of FU must be at least 0"),
        (3, ("reorder", "--weeks", "1000"), "the number of weeks must be"),
        (4, ("buy", "heron", "14"), "no paint or paper is called 'heron'"),
        (4, ("use", "heron", "1"), "no paint or paper is called 'heron'"),
        (4, ("show", "FU-9"), "no paint or paper is called 'FU-9'"),
        (4, ("correct", "FU", "3"), "French Ultramarine has 2 containers; say which: FU-1"),
        (4, ("lend", "FU", "--on", "2026-05-03"), "French Ultramarine has 2 containers"),
        (4, ("open", "sienna"), "no container of Pellow & Strand Burnt Sienna is on record"),
        (4, ("refill", "FU-2", "1", "--from", "heron"), "is called 'heron'"),
        (4, ("reorder", "--need", "heron=2"), "is called 'heron'"),
        (2, ("use", "FU"), "Missing argument 'amount'"),
        (2, ("refill", "FU-2", "1"), "Missing option '--from'"),
    ],
)
def test_what_is_refused_leaves_the_database_as_it_was(
    run: Run, stocked: Path, status: int, words: tuple[str, ...], said: str
) -> None:
    before = fingerprint(stocked)
    outcome = run("stock", *words, db=stocked)
    assert outcome.status == status, outcome.err
    assert outcome.out == ""
    assert said in " ".join(outcome.err.split())
    assert "Traceback" not in outcome.err
    assert fingerprint(stocked) == before


def test_a_tube_that_was_opened_is_meant_where_there_are_several(run: Run, stocked: Path) -> None:
    done(run, stocked, "discard", "FU-2")
    done(run, stocked, "buy", "FU", "14")
    assert done(run, stocked, "correct", "FU", "9").startswith("FU-1 tube: 9 ml left")
    assert "23 ml left" in done(run, stocked, "show", "FU")
