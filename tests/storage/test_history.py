"""The history holds every row that a transaction changed, and nothing of one that failed."""

import ast
import math
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any, Final

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sqlalchemy import delete, insert, select, update

from studio.catalogue.container import Container, ContainerKind
from studio.catalogue.data_sheet import DataSheet
from studio.catalogue.evidence import Evidence
from studio.catalogue.fade import FadeReading, FadeTest
from studio.catalogue.hazard import Basis, Hazard, HazardCode, Listing, ListName, Scope, Use
from studio.catalogue.history import Command, CommandKind, Doing
from studio.catalogue.lightfastness import LightfastnessRating, Scale
from studio.catalogue.mix import Mix
from studio.catalogue.named_target import NamedTarget
from studio.catalogue.paint import PaintFacts
from studio.catalogue.painting import Painting, Passage, PassageColour
from studio.catalogue.painting_record import PaintingRecord
from studio.catalogue.paper import PaperFacts
from studio.catalogue.pigment import Pigment
from studio.catalogue.reading import Method, Origin, Reading, State
from studio.catalogue.recipe import Recipe
from studio.catalogue.removal import Removal
from studio.catalogue.stock import StockEvent, StockKind, Unit
from studio.catalogue.swatch import Application, SwatchFacts
from studio.colour.lab import Lab
from studio.errors import BadInput
from studio.storage import images
from studio.storage import tables as t
from studio.storage.characterisations import KeptCharacterisation
from studio.storage.swatches import NewSwatch
from studio.storage.unit_of_work import UnitOfWork
from tests.servers import execute, fingerprint
from tests.storage import values

DAY: Final = date(2026, 5, 4)
LAB: Final = Lab(41.0, 2.0, -12.0)
DOING: Final = Doing("swatch log 'FU'", "skipper", datetime(2026, 5, 4, 9, 30, tzinfo=UTC))
STUDIO: Final = Path(__file__).resolve().parents[2] / "studio"

Dump = dict[str, list[tuple[object, ...]]]


def dump(path: Path) -> Dump:
    """Every row of every table that has a history."""
    with UnitOfWork(path) as work:
        return {
            name: sorted(map(tuple, work.connection.execute(select(table))), key=repr)
            for name, table in images.KEPT.items()
        }


def _reading(lightness: float = 41.0, state: State = State.DRY) -> Reading:
    lab = Lab(lightness, 2.0, -12.0)
    return Reading(lab, lab, Origin.MEASURED, None, state, Method.BY_EYE, None, None, None, DAY)


def _paint(work: UnitOfWork) -> int:
    return work.paints.add(PaintFacts("MG", "Saltings Colour", "Marsh Green", ("PG7", "PBr7")))


def _paper(work: UnitOfWork) -> int:
    return work.papers.add(PaperFacts("SR", "Tidewrack Mill", "Sedge Rag"))


def _mix(work: UnitOfWork) -> int:
    other = PaintFacts("UG", "Saltings Colour", "Ulva Green")
    parts = ((_paint(work), 2), (work.paints.add(other), 1))
    return work.mixes.add(Mix(0, "M1", Recipe(parts), None, None, DAY))


FACTS: Final = SwatchFacts("S1", 3.0, 1, Application.FLAT_WASH, DAY)


def _swatch(work: UnitOfWork) -> int:
    return work.swatches.add(FACTS, _mix(work), _paper(work), (_reading(), _reading(43.0)))


def _container(work: UnitOfWork) -> Container:
    return work.containers.add(
        Container(0, "MG-1", _paint(work), None, ContainerKind.TUBE, Unit.ML, 14.0, None)
    )


def _test(work: UnitOfWork) -> FadeTest:
    test = FadeTest(0, "F1", _paint(work), None, None, "south window", DAY)
    return replace(test, id=work.fade_tests.add(test))


def _target(work: UnitOfWork) -> int:
    file = work.files.keep("creek.png", b"\x00\xffmud", DAY)
    return work.targets.add(NamedTarget(0, "wet mud", LAB, 1.5, "30%, 60%", file, DAY)).id


def _hazard(work: UnitOfWork) -> None:
    codes = (HazardCode("H204", "", "", hedged=False),)
    work.pigments.add_hazard(
        Hazard(
            "PG7", "bilge water", None, "Keep out.", codes, Basis.NONE, None, ("breathing",),
            ("copper",), Evidence.OWNER, "harbour notes", use=Use.NEVER,
            listings=(Listing(ListName.IARC, "2B", Scope.GROUP),),
        )
    )  # fmt: skip


def _rating(work: UnitOfWork) -> None:
    work.pigments.add_rating(
        LightfastnessRating(
            "PG7", Scale.ASTM_D4303, "I", "watercolour", 2004, "harbour notes", Evidence.OWNER
        )
    )


def _pg7(work: UnitOfWork) -> Pigment:
    pigment = work.pigments.get("PG7")
    assert pigment is not None
    return pigment


def _verified(work: UnitOfWork) -> None:
    _rating(work)
    work.pigments.verify("PG7", "harbour notes", DAY, "label", ratings=True, hazards=False)


def _event(work: UnitOfWork, container: Container) -> None:
    work.containers.add_event(container, StockEvent(StockKind.BOUGHT, DAY, 14.0))


def _painting(work: UnitOfWork) -> Painting:
    file = work.files.keep("creek.png", b"\x00\xffmud", DAY)
    painting = Painting(
        0, "P1", "Low water", _paper(work), 380.0, 280.0, 3.0, DAY, (), file, "/home/skipper/c.png"
    )
    return replace(painting, id=work.paintings.add(painting))


def _passages(work: UnitOfWork) -> tuple[Painting, int, int]:
    painting = _painting(work)
    sky = work.paintings.add_passage(painting.id, Passage(0, "sky", Application.GRADED_WASH))
    bank = Passage(0, "far bank", Application.GLAZE, share=0.25, over=sky)
    return painting, sky, work.paintings.add_passage(painting.id, bank)


def _colour(work: UnitOfWork) -> int:
    painting, _, bank = _passages(work)
    picked = PassageColour(
        0, LAB, place="at 40%,62%", at=(0.1 + 0.2, 0.62), spread=1.5, picture=painting.reference
    )
    return work.paintings.add_colour(bank, picked)


def _record(work: UnitOfWork) -> None:
    key = work.paintings.add(
        Painting(0, "P1", "Low water", _paper(work), 380.0, 280.0, 3.0, DAY, finished_on=DAY)
    )
    work.painting_records.add(
        key,
        PaintingRecord(
            "P1", "Low water", 380.0, 280.0, 3.0, "SR Sedge Rag", LAB, None, None, DAY, DAY, None,
            (), None, (),
        ),
    )  # fmt: skip


def _marked_passage(work: UnitOfWork) -> None:
    _, _, bank = _passages(work)
    work.paintings.mark_passage(bank, Removal(DAY, "washed off"))


def _two_places(work: UnitOfWork) -> None:
    _, sky, bank = _passages(work)
    work.paintings.set_order([bank, sky])


WRITERS: Final[dict[str, Callable[[UnitOfWork], object]]] = {
    "Pigments.add": lambda work: work.pigments.add(
        Pigment("PO999", None, None, None, Evidence.MEMORY, "from memory", None)
    ),
    "Pigments.change": lambda work: work.pigments.change(
        Pigment("PG7", None, "weed green", None, Evidence.OWNER, "harbour notes", None)
    ),
    "Pigments.change_statement": lambda work: work.pigments.change_statement(
        "H204", "tide", "Wet.", "harbour notes"
    ),
    "Pigments.take_out_rating": lambda work: work.pigments.take_out_rating(_pg7(work).ratings[0]),
    "Pigments.take_out_hazard": lambda work: work.pigments.take_out_hazard(_pg7(work).hazards[0]),
    "Pigments.complete_hazard": lambda work: work.pigments.complete_hazard(
        _pg7(work).hazards[0], Use.NEVER, [Listing(ListName.NTP, "known")]
    ),
    "Pigments.add_rating": _rating,
    "Pigments.add_statement": lambda work: work.pigments.add_statement("H9", "tide", "Wet.", "x"),
    "Pigments.add_hazard": _hazard,
    "Pigments.verify": _verified,
    "Paints.add": _paint,
    "Paints.change": lambda work: work.paints.change(
        _paint(work), PaintFacts("MG", "Saltings Colour", "Marsh Green", ("PBr7", "PG7"))
    ),
    "Paints.set_data_sheet": lambda work: work.paints.set_data_sheet(
        _paint(work), DataSheet("sheets/mg.pdf", DAY, None, DAY)
    ),
    "Papers.add": _paper,
    "Papers.change": lambda work: work.papers.change(
        _paper(work), PaperFacts("SR", "Tidewrack Mill", "Sedge Rag", note="buckles")
    ),
    "Papers.add_white": lambda work: work.papers.add_white(_paper(work), _reading(96.0)),
    "Mixes.add": _mix,
    "Mixes.describe": lambda work: work.mixes.describe(_mix(work), "reed", None),
    "Mixes.add_many": lambda work: work.mixes.add_many(
        {"1*1": Recipe(((_paint(work), 1),))}, DAY, 7
    ),
    "Mixes.file_anew": lambda work: work.mixes.file_anew(
        work.mixes.by_ids([key := _mix(work)])[key]
    ),
    "Swatches.add": _swatch,
    "Swatches.add_many": lambda work: work.swatches.add_many(
        [
            NewSwatch(code, FACTS, _mix(work) if code == "S1" else 1, paper, _reading())
            for paper in [_paper(work)]
            for code in ("S1", "S2")
        ]
    ),
    "Swatches.derive_colour": lambda work: work.swatches.derive_colour(_swatch(work)),
    "Swatches.add_reading": lambda work: work.swatches.add_reading(
        work.swatches.by_ids([key := _swatch(work)])[key], _reading(47.0)
    ),
    "Swatches.change": lambda work: work.swatches.change(
        _swatch(work), replace(FACTS, kept_at="box 1"), 1
    ),
    "Swatches.mark": lambda work: work.swatches.mark(_swatch(work), Removal(DAY, "smudged")),
    "Swatches.mark_reading": lambda work: work.swatches.mark_reading(
        _swatch(work), 2, Removal(DAY)
    ),
    "MeasurementFiles.keep": lambda work: work.files.keep("creek.png", b"\x00\xffmud", DAY),
    "Targets.add": _target,
    "Targets.mark": lambda work: work.targets.mark(_target(work), Removal(DAY)),
    "Containers.add": _container,
    "Containers.add_event": lambda work: _event(work, _container(work)),
    "FadeTests.add": _test,
    "FadeTests.change": lambda work: work.fade_tests.change(replace(_test(work), ended_on=DAY)),
    "FadeTests.add_reading": lambda work: work.fade_tests.add_reading(
        _test(work).id, FadeReading(DAY, LAB, LAB)
    ),
    "Paintings.add": _painting,
    "Paintings.change": lambda work: work.paintings.change(
        replace(_painting(work), title="High water", reference=None, reference_path=None)
    ),
    "Paintings.mark": lambda work: work.paintings.mark(_painting(work).id, Removal(DAY, "torn")),
    "Paintings.add_passage": _passages,
    "Paintings.change_passage": lambda work: work.paintings.change_passage(
        Passage(_passages(work)[2], "far bank, left", Application.WET_IN_WET)
    ),
    "Paintings.set_order": _two_places,
    "Paintings.mark_passage": _marked_passage,
    "Paintings.add_colour": _colour,
    "Paintings.mark_colour": lambda work: work.paintings.mark_colour(_colour(work), Removal(DAY)),
    "Paintings.add_try": lambda work: work.paintings.add_try(
        _colour(work), work.swatches.add(FACTS, _mix(work), 1, (_reading(),))
    ),
    "PaintingRecords.add": _record,
}
"""Every method of a repository that writes, but for what is computed; the rows it needs with it."""


def _last(path: Path) -> Command:
    with UnitOfWork(path) as work:
        return work.history.last(1)[0]


def _write(path: Path, *writers: Callable[[UnitOfWork], object]) -> None:
    with UnitOfWork(path, write=True, doing=DOING) as work:
        for writer in writers:
            writer(work)
        work.commit()


def _undo(path: Path) -> None:
    with UnitOfWork(path, write=True, doing=DOING) as work:
        work.take_back(work.history.standing(CommandKind.RECORDED)[0], CommandKind.UNDO)
        work.commit()


def _redo(path: Path) -> None:
    with UnitOfWork(path, write=True, doing=DOING) as work:
        work.take_back(work.history.standing(CommandKind.UNDO)[0], CommandKind.REDO)
        work.commit()


def _writing_methods() -> set[str]:
    """The methods of repositories whose source calls insert, update or delete, or one that does."""
    calls: dict[str, set[str]] = {}
    homes: dict[str, str] = {}
    for file in sorted((STUDIO / "storage").glob("*.py")):
        for node in ast.parse(file.read_text("utf-8")).body:
            methods = node.body if isinstance(node, ast.ClassDef) else [node]
            for method in methods:
                if isinstance(method, ast.FunctionDef):
                    owner = f"{node.name}." if isinstance(node, ast.ClassDef) else ""
                    homes[owner + method.name] = file.stem
                    calls[owner + method.name] = {
                        getattr(call.func, "id", getattr(call.func, "attr", ""))
                        for call in ast.walk(method)
                        if isinstance(call, ast.Call)
                    }
    writing = {"insert", "insert_many", "update", "delete"}
    while True:
        more = {name.rpartition(".")[2] for name, made in calls.items() if made & writing}
        more = {name for name in more if name.startswith("_") or name in homes}
        if more <= writing:
            break
        writing |= more
    return {
        name
        for name, made in calls.items()
        if made & writing and "._" not in name and "." in name
        and homes[name] not in {"history", "unit_of_work", "recorder", "characterisations"}
    }  # fmt: skip


def test_every_method_that_writes_is_among_these() -> None:
    assert _writing_methods() == set(WRITERS)


@pytest.mark.parametrize("method", WRITERS)
def test_what_a_method_wrote_is_taken_back_and_repeated_exactly(
    method: str, empty_db: Path
) -> None:
    start = dump(empty_db)
    _write(empty_db, WRITERS[method])
    end = dump(empty_db)
    assert end != start
    assert (_last(empty_db).words, _last(empty_db).who) == ("swatch log 'FU'", "skipper")
    _undo(empty_db)
    assert dump(empty_db) == start
    _redo(empty_db)
    assert dump(empty_db) == end


def test_every_changed_row_is_found_in_the_history(empty_db: Path) -> None:
    start = dump(empty_db)
    _write(empty_db, _swatch, _target, _hazard, _rating)
    _write(
        empty_db,
        lambda work: work.swatches.change(1, replace(FACTS, kept_at="box 1"), 1),
        lambda work: work.swatches.mark_reading(1, 1, Removal(DAY, "smudged")),
    )
    end = dump(empty_db)
    added = {name: len(end[name]) - len(start[name]) for name in end if end[name] != start[name]}
    with UnitOfWork(empty_db) as work:
        of = work.history.counts_of([1, 2])
    assert {each.table: each.added for each in of[1]} == added
    assert {(each.table, each.changed) for each in of[2]} == {("swatch", 1), ("reading", 1)}


HARMLESS: Final = ("PRAGMA", "BEGIN", "SET LOCAL", "advisory_xact_lock", "COMMENT", "setval")
"""Statements of these change no row: they set, lock, comment or look."""


def test_no_statement_is_written_by_hand_past_the_recorder() -> None:
    """Raw SQL would not be seen; these change no row."""
    for file in sorted((STUDIO / "storage").rglob("*.py")):
        if file.name in {"rebuild.py", "many_rows.py"}:
            continue  # a migration's own; and what tells the recorder itself
        for call in ast.walk(ast.parse(file.read_text("utf-8"))):
            if isinstance(call, ast.Call) and isinstance(call.func, ast.Attribute):
                assert call.func.attr != "executemany", file
                if call.func.attr == "exec_driver_sql":
                    said = ast.unparse(call.args[0])
                    assert any(word in said for word in HARMLESS), said


def test_a_command_that_changes_nothing_leaves_no_trace(empty_db: Path) -> None:
    _write(empty_db, _swatch)
    _write(
        empty_db,
        lambda work: work.swatches.change(1, FACTS, 1),
        lambda work: work.paints.change(
            1, PaintFacts("MG", "Saltings Colour", "Marsh Green", ("PG7", "PBr7"))
        ),
        lambda work: work.characterisations.keep(
            KeptCharacterisation("0b" * 32, "1", 12, 3, b"mud", DAY)
        ),
    )
    with UnitOfWork(empty_db) as work:
        assert [command.id for command in work.history.last(9)] == [1]


def test_a_row_changed_twice_was_changed_once_and_one_added_and_gone_never_was(
    empty_db: Path,
) -> None:
    _write(empty_db, _swatch)

    def to_and_fro(work: UnitOfWork) -> None:
        work.swatches.change(1, replace(FACTS, note="a"), 1)
        work.swatches.change(1, replace(FACTS, note="b"), 1)
        key = work.targets.add(NamedTarget(0, "hull", LAB, None, None, None, DAY)).id
        work.connection.execute(delete(t.target).where(t.target.c.id == key))

    _write(empty_db, to_and_fro)
    with UnitOfWork(empty_db) as work:
        (change,) = work.history.changes_of(2)
    assert (change.before or {}).get("note") is None
    assert (change.after or {})["note"] == "b"


def test_a_row_out_of_the_middle_of_new_ones_splits_their_range(empty_db: Path) -> None:
    def write(work: UnitOfWork) -> None:
        for number in range(5):
            work.files.keep(f"{number}.png", bytes([number]), DAY)
        work.connection.execute(delete(t.measurement_file).where(t.measurement_file.c.id == 3))

    start = dump(empty_db)
    _write(empty_db, write)
    with UnitOfWork(empty_db) as work:
        assert [change.ids for change in work.history.changes_of(1)] == [(1, 2), (4, 5)]
    _undo(empty_db)
    assert dump(empty_db) == start


@pytest.mark.file_only("a server gives no id twice")
def test_a_row_taken_out_and_put_back_under_its_id_was_changed(empty_db: Path) -> None:
    _write(empty_db, _target)

    def replace_it(work: UnitOfWork) -> None:
        work.connection.execute(delete(t.target))
        work.targets.add(NamedTarget(0, "dry mud", LAB, None, None, None, DAY))

    before = dump(empty_db)
    _write(empty_db, replace_it)
    with UnitOfWork(empty_db) as work:
        (change,) = work.history.changes_of(2)
        assert not change.adds
        assert not change.takes_out
    _undo(empty_db)
    assert dump(empty_db) == before


def test_many_rows_of_one_statement_are_one_range(empty_db: Path) -> None:
    rows = [
        {"name": f"mud {n}", "lightness": n / 10, "a": 0.0, "b": 0.0, "created_on": DAY}
        for n in range(700)
    ]
    start = dump(empty_db)
    _write(empty_db, lambda work: work.connection.execute(insert(t.target), rows))
    with UnitOfWork(empty_db) as work:
        (change,) = work.history.changes_of(1)
    assert (change.ids, change.before, change.after) == ((1, 700), None, None)
    end = dump(empty_db)
    _write(empty_db, lambda work: work.connection.execute(update(t.target).values(a=1.0)))
    _undo(empty_db)
    assert dump(empty_db) == end
    _undo(empty_db)
    assert dump(empty_db) == start
    for _ in range(2):
        _redo(empty_db)
    assert len(dump(empty_db)["target"]) == 700


def test_what_a_savepoint_took_back_is_not_in_the_history(empty_db: Path) -> None:
    def write(work: UnitOfWork) -> None:
        work.files.keep("kept.png", b"1", DAY)
        outer = work.connection.begin_nested()
        work.files.keep("lost.png", b"2", DAY)
        with work.connection.begin_nested():
            work.files.keep("lost too.png", b"3", DAY)
        outer.rollback()
        with work.connection.begin_nested():
            work.files.keep("kept too.png", b"4", DAY)

    start = dump(empty_db)
    _write(empty_db, write)
    with UnitOfWork(empty_db) as work:
        assert sum(change.rows for change in work.history.changes_of(1)) == 2
    _undo(empty_db)
    assert dump(empty_db) == start


class _CutError(Exception):
    pass


def test_what_was_not_committed_left_neither_change_nor_history(empty_db: Path) -> None:
    start = fingerprint(empty_db)

    def cut(work: UnitOfWork) -> None:
        _swatch(work)
        raise _CutError

    with pytest.raises(_CutError):
        _write(empty_db, cut)
    assert fingerprint(empty_db) == start


def test_a_crash_between_the_records_and_their_history_keeps_neither(
    empty_db: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    start = dump(empty_db)
    written = images.written

    def cut(image: Any) -> str:
        raise _CutError(written(image))

    _write(empty_db, _swatch)
    after = dump(empty_db)
    monkeypatch.setattr("studio.storage.gathered.written", cut)
    with pytest.raises(_CutError):
        _write(empty_db, lambda work: work.swatches.change(1, replace(FACTS, note="b"), 1))
    assert dump(empty_db) == after != start
    assert _last(empty_db).id == 1


def test_the_order_is_that_of_the_commands_whatever_the_clock_says(empty_db: Path) -> None:
    start = dump(empty_db)
    _write(empty_db, _paper)
    earlier = replace(DOING, at=datetime(1999, 12, 31, 23, 0, tzinfo=UTC), words="set back")
    with UnitOfWork(empty_db, write=True, doing=earlier) as work:
        work.papers.change(1, PaperFacts("SR", "Tidewrack Mill", "Sedge Rag", note="b"))
        work.commit()
    assert _last(empty_db).words == "set back"
    assert _last(empty_db).happened_at == earlier.at
    _undo(empty_db)
    _undo(empty_db)
    assert dump(empty_db) == start


def test_a_program_without_a_command_line_is_a_script(empty_db: Path) -> None:
    with UnitOfWork(empty_db, write=True) as work:
        _paper(work)
        work.commit()
    command = _last(empty_db)
    assert command.words == "(a script)"
    assert command.who
    assert abs((command.happened_at - datetime.now(UTC)).total_seconds()) < 600


def test_very_long_words_are_cut_and_a_user_without_a_name_is_somebody(
    empty_db: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def nobody() -> str:
        raise KeyError

    monkeypatch.setattr("getpass.getuser", nobody)
    with UnitOfWork(empty_db, write=True) as work:
        _paper(work)
        work.commit()
    with UnitOfWork(empty_db, write=True, doing=replace(DOING, words="x" * 9000)) as work:
        work.papers.change(1, PaperFacts("SR", "Tidewrack Mill", "Sedge Rag", note="b"))
        work.commit()
    with UnitOfWork(empty_db) as work:
        long, script = work.history.last(2)
    assert script.who == "somebody"
    assert len(long.words) == 4000
    assert long.words.endswith("x …")


def test_a_new_studio_begins_without_a_history(empty_db: Path) -> None:
    with UnitOfWork(empty_db) as work:
        assert work.pigments.all()
        assert work.history.last(5) == ()


def _by_hand(path: Path, sql: str) -> None:
    execute(path, *(["PRAGMA foreign_keys = ON"] if isinstance(path, Path) else []), sql)


REFUSED: Final = {
    "UPDATE paper SET note = 'by hand'": "paper SR is not as it left it",
    "DELETE FROM paper": "paper SR is not as it left it",
}


@pytest.mark.parametrize("sql", REFUSED)
def test_a_row_that_something_else_changed_is_not_taken_back(empty_db: Path, sql: str) -> None:
    _write(empty_db, _paper)
    _write(
        empty_db,
        lambda work: work.papers.change(
            1, PaperFacts("SR", "Tidewrack Mill", "Sedge Rag", note="buckles")
        ),
    )
    _by_hand(empty_db, sql)
    before = fingerprint(empty_db)
    with pytest.raises(BadInput, match=REFUSED[sql]):
        _undo(empty_db)
    assert fingerprint(empty_db) == before


def test_a_new_row_that_something_else_took_out_is_not_taken_back(empty_db: Path) -> None:
    _write(empty_db, lambda work: work.files.keep("a.png", b"1", DAY))
    _by_hand(empty_db, "DELETE FROM measurement_file")
    with pytest.raises(BadInput, match="measurement file 1 is not as it left it"):
        _undo(empty_db)


def test_a_joining_row_that_something_else_took_out_is_not_taken_back(empty_db: Path) -> None:
    _write(empty_db, _paint)
    _by_hand(empty_db, "DELETE FROM paint_pigment WHERE position = 2")
    with pytest.raises(BadInput, match="paint pigment 1 2 is not as it left it"):
        _undo(empty_db)


def test_what_something_else_rests_on_is_not_taken_back(empty_db: Path) -> None:
    _write(empty_db, _paint)
    _by_hand(empty_db, "INSERT INTO mix VALUES (1, 'M1', '1*1', NULL, NULL, '2026-05-04')")
    _by_hand(empty_db, "INSERT INTO mix_component VALUES (1, 1, 1, 1)")
    before = fingerprint(empty_db)
    with pytest.raises(BadInput, match="cannot be taken back: something that is not in the hist"):
        _undo(empty_db)
    assert fingerprint(empty_db) == before


def test_a_place_that_something_else_took_stays_with_it(empty_db: Path) -> None:
    _write(empty_db, _paper)
    _undo(empty_db)
    _by_hand(
        empty_db, "INSERT INTO paper (id, code, maker, name) VALUES (1, 'SR', 'Mill', 'Other')"
    )
    with pytest.raises(BadInput, match="took its place"):
        _redo(empty_db)


@settings(max_examples=60, derandomize=True)
@given(row=st.data())
def test_images_are_exact_and_come_back_as_cells(row: st.DataObject) -> None:
    day = row.draw(values.days)
    number = row.draw(st.floats(allow_nan=False, allow_infinity=False))
    content = row.draw(st.binary(max_size=50))
    words = row.draw(values.words)
    cells: dict[str, Any] = {"id": 3, "name": words, "content": content, "read_on": day}
    with closing(sqlite3.connect(":memory:")):
        image = images.image_of(cells)  # type: ignore[arg-type] # a row is a mapping
    back = images.cells_of(t.measurement_file, _through_text(image))
    assert back == cells | {"sha256": None, "size": None}
    reading = images.image_of({"lightness": number})  # type: ignore[arg-type]
    again = images.cells_of(t.target, _through_text(reading))["lightness"]
    assert (again, math.copysign(1, again)) == (number, math.copysign(1, number))
    assert images.alike(reading, {"lightness": number})
    assert not images.alike(reading, {"lightness": math.nextafter(number, math.inf)})


def _through_text(image: Any) -> Any:
    import json

    return json.loads(images.written(image))


@pytest.fixture
def story(empty_db: Path) -> Iterator[UnitOfWork]:
    """A swatch that was logged, read, undone and read otherwise; a second one beside it."""
    _write(empty_db, _swatch)
    third = _reading(47.0)
    _write(
        empty_db,
        lambda work: work.swatches.add_reading(work.swatches.all()[0], third),
    )
    _undo(empty_db)
    second = replace(FACTS, code="S2")
    _write(empty_db, lambda work: work.swatches.add(second, 1, 1, (_reading(60.0),)))
    with UnitOfWork(empty_db) as work:
        yield work


def test_the_history_of_a_swatch_has_its_own_readings_alone(story: UnitOfWork) -> None:
    def told(key: int) -> list[tuple[object, ...]]:
        return [
            (
                row.command_id,
                row.table,
                None if row.before is None else row.before["lightness"],
                None if row.after is None else row.after["lightness"],
            )
            for row in story.history.of_thing("swatch", key)
        ]

    # The third reading was undone, and its id went to the reading of the other swatch.
    assert told(1) == [
        (1, "swatch", None, 42.0),
        (1, "reading", None, 41.0),
        (1, "reading", None, 43.0),
        (2, "swatch", 42.0, pytest.approx(131 / 3)),
        (2, "reading", None, 47.0),
        (3, "swatch", pytest.approx(131 / 3), 42.0),
        (3, "reading", 47.0, None),
    ]
    assert told(2) == [(4, "swatch", None, 60.0), (4, "reading", None, 60.0)]
