"""The check finds what was changed behind the program's back, and nothing in a sound database."""

from contextlib import closing
from pathlib import Path
from typing import Final

import pytest

from studio.actions.check_database import check_database
from studio.errors import DatabaseTrouble
from studio.storage.address import Database, ServerAddress
from studio.storage.schema import connect
from tests.servers import by_hand, fingerprint

_OF: Final = "container_id = (SELECT id FROM container WHERE code = '{}')"


def _tamper(path: Database, *statements: str) -> None:
    if isinstance(path, ServerAddress):
        with by_hand(path) as server:
            for statement in statements:
                assert server.execute(statement.encode()).rowcount != 0, statement
        return
    with closing(connect(path)) as connection:
        connection.execute("PRAGMA foreign_keys = OFF")
        for statement in statements:
            assert connection.execute(statement).rowcount != 0, statement


def _said(path: Path) -> list[str]:
    return [fault.text for fault in check_database(path)]


def test_a_sound_database_has_no_fault(demo_db: Path, empty_template: Path) -> None:
    before = fingerprint(demo_db)
    assert check_database(demo_db) == []
    assert check_database(empty_template) == []
    assert fingerprint(demo_db) == before


@pytest.mark.parametrize(
    ("statement", "fault"),
    [
        (
            "UPDATE swatch SET b = b + 0.001 WHERE code = 'S9'",
            "swatch S9 is searched by another colour than its readings give",
        ),
        (
            "UPDATE swatch SET state = 'wet' WHERE code = 'S9'",
            "swatch S9 is searched by another colour than its readings give",
        ),
        (
            "UPDATE swatch SET paint_marks_low = paint_marks_low + 1 WHERE code = 'S9'",
            "swatches of mix M3 are searched by other paints than it has",
        ),
        (
            "UPDATE swatch SET paint_marks_high = 1 WHERE code IN ('S9', 'S10')",
            "swatches of mix M3 are searched by other paints than it has",
        ),
        (
            (
                "UPDATE reading SET lightness = 1 WHERE swatch_id = "
                "(SELECT id FROM swatch WHERE code = 'S9')"
            ),
            "swatch S9 is searched by another colour than its readings give",
        ),
        (
            "DELETE FROM reading WHERE swatch_id = (SELECT id FROM swatch WHERE code = 'S9')",
            "swatch S9 has no reading",
        ),
        (
            "UPDATE mix SET recipe_key = '1*7' WHERE code = 'M7'",
            "mix M7 is filed under another recipe than its own",
        ),
        (
            (
                "UPDATE mix_component SET parts = 3 WHERE position = 1 AND mix_id = "
                "(SELECT id FROM mix WHERE code = 'M26')"
            ),
            "mix M26 is filed under another recipe than its own",
        ),
        (
            "DELETE FROM mix_component WHERE mix_id = (SELECT id FROM mix WHERE code = 'M7')",
            "the mixes cannot be read: a recipe needs at least one paint",
        ),
        (
            (
                "UPDATE mix_component SET parts = 2 WHERE mix_id = "
                "(SELECT id FROM mix WHERE code = 'M7')"
            ),
            "the mixes cannot be read: a recipe needs at least one paint, with whole parts",
        ),
        (
            "UPDATE reading SET spectrum_values = 'murky' WHERE spectrum_values IS NOT NULL",
            "the swatches cannot be read: ",
        ),
        (
            "UPDATE reading SET spectrum_values = '7' WHERE spectrum_values IS NOT NULL",
            "the swatches cannot be read: ",
        ),
        (
            f"UPDATE stock_event SET amount = 999 WHERE kind = 'used' AND {_OF.format('YO-1')}",
            "the stock ledger does not add up: 999 ml used on ",
        ),
        (
            f"DELETE FROM stock_event WHERE kind = 'bought' AND {_OF.format('CRO-2')}",
            "the stock ledger does not add up: ",
        ),
        (
            "UPDATE container SET capacity = 1 WHERE code = 'YO-1'",
            "the stock ledger does not add up: YO-1 holds 1 ml and has 0",
        ),
        (
            f"UPDATE stock_event SET amount = 999 WHERE kind = 'used' AND {_OF.format('FU-1')}",
            "the stock ledger does not add up: 999 ml used on ",  # it was thrown away since
        ),
        (
            (
                "UPDATE stock_event SET happened_on = '2999-01-01' WHERE kind = 'bought' AND "
                f"{_OF.format('RU-2')}"
            ),
            "the stock ledger does not add up: RU-2 has an entry of 2999-01-01",  # it is lent
        ),
    ],
)
def test_what_was_tampered_with_is_named(demo_db: Path, statement: str, fault: str) -> None:
    _tamper(demo_db, statement)
    faults = _said(demo_db)
    assert any(found.startswith(fault) for found in faults), faults
    assert len(faults) <= 2


def test_every_fault_is_listed_not_the_first_alone(demo_db: Path) -> None:
    _tamper(
        demo_db,
        "UPDATE swatch SET a = a + 1 WHERE code IN ('S9', 'S10')",
        "UPDATE mix SET recipe_key = 'wrong' WHERE code = 'M7'",
    )
    faults = _said(demo_db)
    assert [fault.split()[:2] for fault in faults] == [
        ["swatch", "S9"], ["swatch", "S10"], ["mix", "M7"],
    ]  # fmt: skip


@pytest.mark.file_only("a server lets no such thing happen")
def test_a_dangling_reference_is_found(demo_db: Path) -> None:
    _tamper(demo_db, "DELETE FROM paper WHERE id = 1")
    faults = _said(demo_db)
    assert "refers to a missing paper" in faults[0]


@pytest.mark.file_only("a server lets no such thing happen")
def test_a_row_that_breaks_a_check_is_found(demo_db: Path) -> None:
    with closing(connect(demo_db)) as connection:
        connection.execute("PRAGMA ignore_check_constraints = ON")
        connection.execute("UPDATE swatch SET layers = 0 WHERE code = 'S9'")
    assert _said(demo_db) == ["CHECK constraint failed in swatch"]


@pytest.mark.file_only("a server lets no such thing happen")
def test_an_index_that_lost_a_row_is_found(demo_db: Path) -> None:
    with closing(connect(demo_db)) as connection:
        sql = "SELECT rootpage FROM sqlite_master WHERE name = 'ix_swatch_mix_id'"
        (page,) = connection.execute(sql).fetchone()
        (size,) = connection.execute("PRAGMA page_size").fetchone()
    content = bytearray(demo_db.read_bytes())
    start = (page - 1) * size
    cells = int.from_bytes(content[start + 3 : start + 5], "big")
    content[start + 3 : start + 5] = (cells - 1).to_bytes(2, "big")
    demo_db.write_bytes(content)
    assert any("ix_swatch_mix_id" in fault for fault in _said(demo_db))


@pytest.mark.file_only("a server lets no such thing happen")
def test_damaged_pages_are_found_or_told_of(demo_db: Path) -> None:
    sound = demo_db.read_bytes()
    pages = len(sound) // 4096
    for page in range(2, pages, max(1, pages // 12)):
        content = bytearray(sound)
        content[page * 4096 : (page + 1) * 4096] = b"\xa5" * 4096
        demo_db.write_bytes(content)
        try:
            faults = _said(demo_db)
        except DatabaseTrouble as error:
            faults = [str(error)]
            assert "is damaged; restore a backup" in faults[0]
        assert faults, page


def test_a_file_that_is_no_database_is_trouble(tmp_path: Path) -> None:
    path = tmp_path / "letter.txt"
    path.write_text("Dear harbour master, the slipway is under water again." * 20, encoding="utf-8")
    with pytest.raises(DatabaseTrouble, match="is not a database"):
        check_database(path)
    with pytest.raises(DatabaseTrouble, match="cannot be opened"):
        check_database(tmp_path / "gone.sqlite3")
