"""A studio as the first release left it: ledgers by paint and paper, filled by SQL."""

import random
import sqlite3
from datetime import date, timedelta
from typing import Final

START: Final = date(2025, 3, 1)

Cells = dict[str, object]

WHITE: Final[Cells] = {
    "lightness": 96.25, "a": -0.5, "b": 2.75, "origin": "measured", "given_lightness": 96.25,
    "given_a": -0.5, "given_b": 2.75, "given_illuminant": "D50", "given_observer": 2,
    "state": "dry", "method": "colorimeter", "read_on": "2025-03-02",
}  # fmt: skip


def insert(connection: sqlite3.Connection, table: str, **cells: object) -> int:
    """Insert a row; returns its id."""
    marks = ", ".join("?" for _ in cells)
    done = connection.execute(
        f"INSERT INTO {table} ({', '.join(cells)}) VALUES ({marks})", tuple(cells.values())
    )
    return int(done.lastrowid or 0)


def ledger(number: int, whole: int) -> list[Cells]:
    """Entries that follow from each other, a few days apart, in amounts of 1 / whole."""
    chance = random.Random(number)  # noqa: S311 - a plan of tests, always the same
    left, entries = 0, []
    for place in range(chance.randrange(1, 14)):
        kind = chance.choice(("bought", "used", "counted", "discarded"))
        if kind in {"used", "discarded"} and left == 0:
            kind = "bought"
        most = left if kind in {"used", "discarded"} else 3000
        amount = chance.randrange(0 if kind == "counted" else 1, most + 1)
        left = {"bought": left + amount, "counted": amount}.get(kind, left - amount)
        priced = kind == "bought" and chance.random() < 0.7
        entries.append(
            {
                "kind": kind,
                "amount": amount / whole,
                "happened_on": (START + timedelta(days=7 * place)).isoformat(),
                "price_hundredths": 100 * place + 99 if priced else None,
                "currency": "GBP" if priced else None,
                "lot": f"L{place}" if kind == "bought" and chance.random() < 0.5 else None,
                "note": f"tide {place}" if chance.random() < 0.5 else None,
            }
        )
    return entries


def fold(entries: list[Cells], whole: int) -> float:
    """What the first release computed: bought adds, used and discarded take away, counted sets."""
    left = 0
    for entry in entries:
        amount = round(float(str(entry["amount"])) * whole)
        kind = str(entry["kind"])
        left = {"bought": left + amount, "counted": amount}.get(kind, left - amount)
    return left / whole


PAINTS: Final = {f"P{number}": ledger(number, 100) for number in range(1, 31)}
PAPERS: Final = {f"R{number}": ledger(number, 4) for number in range(1, 11)}


def fill(connection: sqlite3.Connection) -> None:
    """Fill a database at 0001 with a paint and a paper for each ledger, a mix and a swatch."""
    pigment = insert(connection, "pigment", ci_name="PB29", evidence="memory", source="memory")
    maker = "Saltings Colour"
    paint, columns = 0, {"maker": maker, "form": "tube", "status": "in use"}
    for code, entries in PAINTS.items():
        paint = insert(
            connection, "paint", code=code, name=f"Sea {code}", volume_ml=14.0, **columns
        )
        insert(connection, "paint_pigment", paint_id=paint, position=1, pigment_id=pigment)
        for entry in entries:
            insert(connection, "stock_event", paint_id=paint, **entry)
    insert(connection, "paint", code="UN", name="Never booked", low_at_ml=2.5, **columns)
    paper = 0
    for number, (code, entries) in enumerate(PAPERS.items()):
        paper = insert(
            connection, "paper", code=code, maker=maker, name=f"Rag {code}", fibre="cotton",
            weight_gsm=300.0, surface="rough", sheet_width_mm=559.0, sheet_height_mm=762.0,
            low_at_sheets=number / 2 if number else None, note="from the quay",
        )  # fmt: skip
        insert(connection, "reading", paper_id=paper, **WHITE)
        for entry in entries:
            insert(connection, "stock_event", paper_id=paper, **entry)
    mix = insert(connection, "mix", code="M1", recipe_key=f"{paint}*1", created_on="2025-03-01")
    insert(connection, "mix_component", mix_id=mix, paint_id=paint, position=1, parts=1)
    swatch = insert(
        connection, "swatch", code="S1", mix_id=mix, paper_id=paper, layers=1,
        application="flat wash", made_on="2025-03-02", state="dry", lightness=96.25, a=-0.5, b=2.75,
    )  # fmt: skip
    for note in ("at once", "an hour later"):
        insert(connection, "reading", swatch_id=swatch, **(WHITE | {"note": note}))
