"""Import CSV tables: the good rows are kept, the bad ones listed by line with the reason."""

import gc
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Final

from studio.actions.importing import documents, fade, reference, shelf, stock, swatches
from studio.actions.importing.record_rows import ImportRow, record_rows
from studio.actions.importing.table_file import read_table
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class TableKind:
    """A kind of table.

    Args:
        name: its name, which is also the usual name of its file.
        needed: columns that must be there.
        optional: columns that may be there.
        import_row: records one row; False when it stands there already.
    """

    name: str
    needed: tuple[str, ...]
    optional: tuple[str, ...]
    import_row: ImportRow


_SPECTRUM: Final = ("spectrum_start_nm", "spectrum_step_nm", "reflectance")

KINDS: Final = (
    TableKind(
        "pigments",
        ("ci_name", "common_name", "evidence", "source"),
        ("ci_number", "chemical_class", "note", "looked_up"),
        reference.import_pigment,
    ),
    TableKind(
        "lightfastness",
        ("ci_name", "scale", "rating", "medium", "source", "evidence"),
        ("year", "note"),
        reference.import_lightfastness,
    ),
    TableKind(
        "h_statements",
        ("code", "hazard_class", "wording", "source"),
        (),
        reference.import_statement,
    ),
    TableKind(
        "hazards",
        ("ci_name", "agent", "summary", "basis", "evidence", "source"),
        ("cas", "h_codes", "basis_detail", "routes", "metals", "listed", "use"),
        reference.import_hazard,
    ),
    TableKind(
        "paints",
        ("maker", "name"),
        (
            "code", "pigments", "form", "volume_ml", "price", "currency", "transparency",
            "staining", "granulation", "lot", "status", "low_at_ml", "note",
        ),
        shelf.import_paint,
    ),
    TableKind(
        "papers",
        ("maker", "name"),
        (
            "code", "fibre", "weight_gsm", "surface", "sheet_width_mm", "sheet_height_mm",
            "low_at_sheets", "low_at_mm", "white_l", "white_a", "white_b", "white_illuminant",
            "white_observer", "white_condition", "white_method", "white_read_on",
            "white_spectrum_start_nm", "white_spectrum_step_nm", "white_reflectance", "note",
        ),
        shelf.import_paper,
    ),
    TableKind(
        "mixes", ("recipe",), ("code", "name", "note", "created_on"), swatches.import_mix
    ),
    TableKind(
        "swatches",
        ("paper", "made_on"),
        (
            "code", "mix", "recipe", "water", "layers", "application", "state", "kept_at",
            "note", "target", "lab_l", "lab_a", "lab_b", "illuminant", "observer", "method",
            "instrument", "condition", "geometry", "backing", "sample", "error_de", "read_on",
            "reading_note", *_SPECTRUM,
        ),
        swatches.import_swatch,
    ),
    TableKind(
        "stock",
        ("item", "kind", "happened_on"),
        (
            "container", "amount", "unit", "weight_g", "weighed_as", "estimated", "other",
            "container_kind", "capacity", "price", "currency", "lot", "note",
        ),
        stock.import_stock,
    ),
    TableKind(
        "fade_tests",
        ("code", "item", "place", "started_on"),
        (
            "ended_on", "paper", "note", "read_on", "covered_l", "covered_a", "covered_b",
            "exposed_l", "exposed_a", "exposed_b", "illuminant", "observer", "blue_wool",
            "reading_note",
        ),
        fade.import_fade,
    ),
    TableKind(
        "data_sheets",
        ("paint",),
        ("location", "dated_on", "label_marks", "recorded_on"),
        documents.import_data_sheet,
    ),
)  # fmt: skip
"""Every kind of table, in the order in which they build on each other."""


@dataclass(frozen=True, slots=True)
class Fault:
    """A row that was left out: its file, its line and the reason."""

    file: str
    line: int
    reason: str


@dataclass(frozen=True, slots=True)
class ImportResult:
    """What an import did.

    Args:
        added: rows recorded, by kind.
        present: rows that stood there already, by kind.
        faults: rows that were left out.
    """

    added: dict[str, int]
    present: dict[str, int]
    faults: tuple[Fault, ...]


def kind_named(name: str) -> TableKind:
    """The kind of table of a name.

    Raises:
        BadInput: there is no such kind.
    """
    for kind in KINDS:
        if kind.name == name.strip().lower():
            return kind
    msg = f"{name!r} is not a kind of table; choose of: {', '.join(kind.name for kind in KINDS)}"
    raise BadInput(msg)


def tables_at(paths: Sequence[Path], kind: TableKind | None = None) -> list[tuple[TableKind, Path]]:
    """The tables at some paths, in the order in which they build on each other.

    Args:
        paths: CSV files, or folders with files named after their kinds.
        kind: the kind of every file; None takes it from each file's name.

    Raises:
        BadInput: a path is missing, or the kind of a file cannot be told.
    """
    tables: list[tuple[TableKind, Path]] = []
    for path in paths:
        if path.is_dir():
            found = [(each, path / f"{each.name}.csv") for each in KINDS]
            inside = [(each, file) for each, file in found if file.is_file()]
            if not inside:
                msg = f"{path} holds no table; files are named like paints.csv or swatches.csv"
                raise BadInput(msg)
            tables += inside
        elif not path.is_file():
            msg = f"there is no file {path}"
            raise BadInput(msg)
        elif kind is not None:
            tables.append((kind, path))
        else:
            tables.append((_kind_of(path), path))
    return sorted(tables, key=lambda table: KINDS.index(table[0]))


def _kind_of(path: Path) -> TableKind:
    for kind in KINDS:
        if kind.name == path.stem.lower():
            return kind
    msg = (
        f"the kind of {path.name} is not clear; say it with --as, one of: "
        f"{', '.join(kind.name for kind in KINDS)}"
    )
    raise BadInput(msg)


@contextmanager
def _spared() -> Iterator[None]:
    """Let Python's collector look seldom, and not through all that is loaded, while rows come and
    go; it would take a fifth of the time of a long table.
    """
    often = gc.get_threshold()
    gc.freeze()
    gc.set_threshold(100_000)
    try:
        yield
    finally:
        gc.set_threshold(*often)
        gc.unfreeze()


def import_tables(
    work: UnitOfWork, tables: Sequence[tuple[TableKind, Path]], today: date
) -> ImportResult:
    """Record the rows of some tables; the caller commits or, where rows are bad, may not.

    Raises:
        BadInput: a file cannot be read as a table with the columns of its kind.
    """
    added: dict[str, int] = {}
    present: dict[str, int] = {}
    faults: list[Fault] = []
    for kind, path in tables:
        header, lines = read_table(path, kind.name, kind.needed, kind.optional)
        with _spared():
            outcomes = sorted(
                record_rows(work, kind.import_row, header, lines, today), key=lambda each: each[0]
            )
        for line, outcome in outcomes:
            if isinstance(outcome, str):
                faults.append(Fault(path.name, line, outcome))
            else:
                counts = added if outcome else present
                counts[kind.name] = counts.get(kind.name, 0) + 1
    return ImportResult(added, present, tuple(faults))
