"""Readings of swatches and of paper whites, as rows and as values."""

import json
from collections.abc import Iterator, Sequence

from sqlalchemy import (
    ColumnElement,
    Connection,
    RowMapping,
    func,
    insert,
    literal,
    select,
    update,
)

from studio.catalogue.reading import Backing, Condition, Method, Origin, Reading, State
from studio.catalogue.removal import Removal
from studio.colour.lab import Lab
from studio.colour.reflectance import Reflectance
from studio.storage import tables as t
from studio.storage.many_rows import insert_many
from studio.storage.measurement_files import file_columns, file_of
from studio.storage.removals import marked, removal_of

MarkedReading = tuple[Reading, Removal | None]


def add_reading(connection: Connection, reading: Reading, **of: int) -> None:
    """Record a reading of one swatch (`swatch_id=`) or of one paper (`paper_id=`)."""
    connection.execute(insert(t.reading).values(**of, **_values(reading)))


def add_readings(connection: Connection, of_swatches: Sequence[tuple[int, Reading]]) -> None:
    """Record readings, each of the swatch of an id."""
    rows = [{"swatch_id": key, **_values(reading)} for key, reading in of_swatches]
    insert_many(connection, t.reading, rows)


def _values(reading: Reading) -> dict[str, object]:
    spectrum = reading.spectrum
    return {
        "lightness": reading.lab.lightness,
        "a": reading.lab.a,
        "b": reading.lab.b,
        "origin": reading.origin,
        "given_lightness": reading.given.lightness,
        "given_a": reading.given.a,
        "given_b": reading.given.b,
        "given_illuminant": reading.given.illuminant,
        "given_observer": reading.given.observer,
        "spectrum_start_nm": spectrum.start if spectrum else None,
        "spectrum_step_nm": spectrum.step if spectrum else None,
        "spectrum_values": json.dumps(spectrum.values) if spectrum else None,
        "state": reading.state,
        "method": reading.method,
        "instrument": reading.instrument,
        "condition": reading.condition,
        "geometry": reading.geometry,
        "backing": reading.backing,
        "sample": reading.sample,
        "file_id": reading.file.id if reading.file else None,
        "error_delta_e": reading.error,
        "read_on": reading.read_on,
        "note": reading.note,
    }


def readings_of_swatches(
    connection: Connection, swatches: ColumnElement[bool]
) -> dict[int, tuple[MarkedReading, ...]]:
    """The readings of the swatches that meet a condition, in the order they were recorded.

    Each comes with its mark where it was set aside.
    """
    wanted = select(t.swatch.c.id).where(swatches)
    return _grouped(connection, "swatch_id", t.reading.c.swatch_id.in_(wanted))


def mark_reading(
    connection: Connection, swatch_id: int, number: int, removal: Removal | None
) -> None:
    """Set the reading of a number aside, or with None count it again."""
    c = t.reading.c
    nth = (
        select(c.id)
        .where(c.swatch_id == swatch_id)
        .order_by(c.id)
        .offset(number - 1)
        .limit(1)
        .scalar_subquery()
    )
    connection.execute(update(t.reading).where(c.id == nth).values(**marked(removal)))


def readings_of_papers(connection: Connection) -> dict[int, tuple[Reading, ...]]:
    """The readings of every paper's white, in the order they were recorded."""
    # As a subquery it takes the index; IS NOT NULL would read every reading there is.
    found = _grouped(connection, "paper_id", t.reading.c.paper_id.in_(select(t.paper.c.id)))
    return {
        key: tuple(reading for reading, removal in readings if removal is None)
        for key, readings in found.items()
    }


def every_reading(connection: Connection) -> Iterator[tuple[int, str, Reading]]:
    """(id, whose it is in words, reading) of every reading, in the order they were recorded."""
    whose = func.coalesce(
        literal("swatch ").concat(t.swatch.c.code), literal("paper ").concat(t.paper.c.code)
    )
    statement = (
        select(t.reading, *file_columns(), whose.label("whose"))
        .join_from(t.reading, t.measurement_file, isouter=True)
        .join(t.swatch, t.reading.c.swatch_id == t.swatch.c.id, isouter=True)
        .join(t.paper, t.reading.c.paper_id == t.paper.c.id, isouter=True)
        .order_by(t.reading.c.id)
    )
    for row in connection.execute(statement).mappings():
        yield row["id"], row["whose"], _reading(row)


def put_lab(connection: Connection, key: int, lab: Lab) -> None:
    """Replace the D50/2° colour that was derived from what a reading holds."""
    connection.execute(
        update(t.reading)
        .where(t.reading.c.id == key)
        .values(lightness=lab.lightness, a=lab.a, b=lab.b)
    )


def _grouped(
    connection: Connection, column: str, where: ColumnElement[bool]
) -> dict[int, tuple[MarkedReading, ...]]:
    rows = connection.execute(
        select(
            t.reading,
            *file_columns(),
        )
        .join_from(t.reading, t.measurement_file, isouter=True)
        .where(where)
        .order_by(t.reading.c.id)
    ).mappings()
    grouped: dict[int, list[MarkedReading]] = {}
    for row in rows:
        grouped.setdefault(row[column], []).append((_reading(row), removal_of(row)))
    return {key: tuple(readings) for key, readings in grouped.items()}


def _reading(row: RowMapping) -> Reading:
    spectrum = None
    if row["spectrum_values"] is not None:
        spectrum = Reflectance(
            row["spectrum_start_nm"],
            row["spectrum_step_nm"],
            tuple(json.loads(row["spectrum_values"])),
        )
    return Reading(
        lab=Lab(row["lightness"], row["a"], row["b"]),
        given=Lab(
            row["given_lightness"],
            row["given_a"],
            row["given_b"],
            row["given_illuminant"],
            row["given_observer"],
        ),
        origin=Origin(row["origin"]),
        spectrum=spectrum,
        state=State(row["state"]),
        method=Method(row["method"]),
        instrument=row["instrument"],
        condition=Condition(row["condition"]) if row["condition"] else None,
        error=row["error_delta_e"],
        read_on=row["read_on"],
        note=row["note"],
        geometry=row["geometry"],
        backing=Backing(row["backing"]) if row["backing"] else None,
        sample=row["sample"],
        file=file_of(row),
    )
