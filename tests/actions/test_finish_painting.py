"""A finished painting has booked what it took, and tells for ever how to mix its colours again."""

import json
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import select

from studio.actions.check_paintings import painting_faults
from studio.actions.edit_paint import edit_paint
from studio.actions.painting.find_painting import find_painting
from studio.actions.painting.finish_painting import Finished, finish_painting, read_finals
from studio.actions.remove_swatch import remove_swatch
from studio.catalogue.paint import Status
from studio.catalogue.painting_record import (
    PaintingRecord,
    RecordedColour,
    RecordedContainer,
    RecordedMix,
    RecordedPaint,
    RecordedPassage,
)
from studio.catalogue.stock import StockKind
from studio.colour.lab import Lab
from studio.colour.reflectance import Reflectance
from studio.errors import BadInput, NotFound
from studio.sheets.painting_record_words import all_without_mix_text, without_mix_text
from studio.storage import tables as t
from studio.storage.painting_records import document_of, record_of
from tests.actions.conftest import DAY, Shelf
from tests.actions.painted import begun, creek, tried, with_passage
from tests.conftest import TODAY

MUD, POOL = Lab(40.0, 4.0, 9.0), Lab(64.0, -1.0, -4.0)


@pytest.fixture
def painted(shelf: Shelf, tmp_path: Path) -> Shelf:
    """P1 with mud (two tries, one near, one nearer), a pool (one try, far off) and an empty sky."""
    painting = begun(shelf, reference=creek(tmp_path))
    painting = with_passage(shelf.work, painting, "sky", share=0.3)
    painting = with_passage(shelf.work, painting, "mud", "lab(40 4 9)", "lab(30 2 5)", share=0.5)
    with_passage(shelf.work, painting, "pool", "lab(64 -1 -4)", over="mud")
    for lab in (replace(MUD, lightness=42.0), replace(MUD, lightness=41.0)):
        tried(shelf.work, "mud", shelf.swatch("2 UM + 1 BS", lab, paper="SM"))
    tried(shelf.work, "pool", shelf.swatch("UM", Lab(50.0, -1.0, -20.0)))
    return shelf


def _finish(
    shelf: Shelf,
    used: Mapping[str, float] | None = None,
    *,
    paper_used: float | None = None,
    finals: list[str] | None = None,
) -> Finished:
    painting = find_painting(shelf.work, "P1")
    return finish_painting(
        shelf.work,
        painting,
        {shelf.paint(code).id: amount for code, amount in (used or {}).items()},
        on=TODAY,
        today=TODAY,
        paper_used=paper_used,
        finals=read_finals(painting, finals or []),
    )


def test_paint_and_paper_are_booked_with_the_paintings_code(painted: Shelf) -> None:
    done = _finish(painted, {"UM": 1.25, "BS": 0.5}, paper_used=0.5)
    assert done.painting.finished_on == TODAY
    assert painted.paint("UM").stock.left == 12.75
    assert painted.paint("BS").stock.left == 13.5
    assert painted.paper("SM").stock.left == 4.5
    (container,) = painted.work.containers.of_paint(painted.paint("UM").id)
    entry = container.events[-1]
    assert (entry.kind, entry.amount, entry.note) == (StockKind.USED, 1.25, "painting P1")
    assert not entry.estimated
    assert {each.code: each.used_ml for each in done.record.used} == {"UM": 1.25, "BS": 0.5}
    assert done.record.paper_used == 0.5


def test_more_than_there_is_books_nothing_once_the_command_ends(painted: Shelf) -> None:
    painted.work.commit()
    with pytest.raises(BadInput, match=r"14\.5 ml used on 2026-11-25, but only 14 ml of Saltings"):
        _finish(painted, {"UM": 1.0, "BS": 14.5})
    painted.work.connection.rollback()
    painted.work.forget()
    assert painted.paint("UM").stock.left == 14.0
    assert find_painting(painted.work, "P1").finished_on is None
    assert painted.work.painting_records.of_painting(1) is None


def test_the_mix_of_a_colour_is_its_nearest_try_within_the_tolerance(painted: Shelf) -> None:
    record = _finish(painted).record
    sky, mud, pool = record.passages
    assert sky.colours == ()
    final = mud.colours[0].mix
    assert final is not None
    assert (final.swatch, final.named, final.tries, final.passes) == ("S2", False, 2, True)
    assert [(each.name, each.parts) for each in final.paints] == [
        ("Ultramarine", 2), ("Burnt Sienna", 1),
    ]  # fmt: skip
    assert final.paints[0].pigments == ("PB29",)
    assert final.paints[0].containers == (RecordedContainer("UM-1", None),)
    assert mud.colours[1].mix is None
    assert pool.colours[0].mix is None
    assert pool.over == "mud"
    lacking = [(passage.name, number) for passage, number, _ in record.without_mix]
    assert lacking == [("mud", 2), ("pool", 1)]
    assert [each.tries for each in (*mud.colours, *pool.colours)] == [2, 0, 1]


def test_a_named_swatch_is_the_mix_whatever_its_difference(painted: Shelf) -> None:
    record = _finish(painted, finals=["mud = s1", "pool=S3"]).record
    _, mud, pool = record.passages
    assert mud.colours[0].mix is not None
    assert pool.colours[0].mix is not None
    assert (mud.colours[0].mix.swatch, mud.colours[0].mix.named) == ("S1", True)
    assert (pool.colours[0].mix.swatch, pool.colours[0].mix.passes) == ("S3", False)


@pytest.mark.parametrize(
    ("text", "error", "said"),
    [
        ("mud", BadInput, "'mud' is not clear; write a passage and its swatch"),
        ("=S1", BadInput, "is not clear"),
        ("mud=", BadInput, "is not clear"),
        ("reed=S1", NotFound, "P1 has no passage 'reed'"),
        ("mud=S3", BadInput, "S3 was not tested for 'mud'; do that first"),
        ("mud=S99", BadInput, "S99 was not tested for 'mud'"),
        ("mud:2=S1", BadInput, "S1 was not tested for 'mud'"),
        ("mud:3=S1", BadInput, "'mud' has the colours 1 to 2, and not 3"),
        ("sky=S1", BadInput, "no colour was chosen for 'sky' yet"),
    ],
)
def test_a_final_that_cannot_be_is_refused(
    painted: Shelf, text: str, error: type[Exception], said: str
) -> None:
    with pytest.raises(error, match=said):
        _finish(painted, finals=[text])
    with pytest.raises(BadInput, match="two swatches for one colour"):
        _finish(painted, finals=["mud=S1", "mud:1=S2"])
    assert find_painting(painted.work, "P1").finished_on is None


def test_a_painting_is_finished_once_after_it_was_begun_and_with_a_colour(painted: Shelf) -> None:
    painting = find_painting(painted.work, "P1")
    for day, said in ((DAY.replace(day=3), "P1 was begun on 2026-05-04, after that day"),
                      (TODAY.replace(year=2030), "lies in the future")):  # fmt: skip
        with pytest.raises(BadInput, match=said):
            finish_painting(painted.work, painting, {}, on=day, today=TODAY)
    _finish(painted)
    with pytest.raises(BadInput, match="P1 was finished on 2026-11-25 already"):
        _finish(painted)
    bare = begun(painted)
    with pytest.raises(BadInput, match="P2 has no colour to keep a record of"):
        finish_painting(painted.work, bare, {}, on=TODAY, today=TODAY)


def test_the_record_stays_whatever_becomes_of_paint_swatch_and_paper(painted: Shelf) -> None:
    before = _finish(painted, {"UM": 1.0}).record
    paint = painted.paint("UM")
    edit_paint(
        painted.work,
        paint,
        replace(paint.facts, code="XX", name="Other", maker="Nobody", status=Status.RETIRED),
    )
    remove_swatch(painted.work, painted.work.swatches.with_code("S2"), None, TODAY)  # type: ignore[arg-type]
    painting = find_painting(painted.work, "P1")
    painted.work.paintings.change(replace(painting, title="Renamed", tolerance=9.0))
    assert painted.work.painting_records.of_painting(painting.id) == before
    mix = before.passages[1].colours[0].mix
    assert mix is not None
    assert mix.paints[0].name == "Ultramarine"


def test_db_check_tells_of_a_record_that_is_not_right(painted: Shelf) -> None:
    _finish(painted)
    assert list(painting_faults(painted.work)) == []
    said = []
    for change in ({"finished_on": None}, {"finished_on": DAY}):
        painting = find_painting(painted.work, "P1")
        painted.work.paintings.change(replace(painting, **change))
        said += [fault.text for fault in painting_faults(painted.work)]
    for content in ("{}", "[]", "mud", '{"version": 2}', '{"version": 1}'):
        painted.work.connection.execute(t.painting_record.update().values(content=content))
        (fault,) = painting_faults(painted.work)
        assert fault.text.startswith("P1: the record of a painting ")
    painted.work.connection.execute(t.painting_record.delete())
    said += [fault.text for fault in painting_faults(painted.work)]
    assert said == [
        "P1 has a record and is not finished",
        "P1 was finished on another day than its record says",
        "P1 is finished and has no record",
    ]


def test_db_check_tells_of_an_order_that_is_not_clear(painted: Shelf) -> None:
    update = t.passage.update()
    painted.work.connection.execute(update.where(t.passage.c.name == "pool").values(position=1))
    painted.work.connection.execute(update.where(t.passage.c.name == "sky").values(share=0.9))
    painted.work.connection.execute(update.where(t.passage.c.name == "mud").values(position=9))
    assert [fault.text for fault in painting_faults(painted.work)] == [
        "P1: 'pool' lies over 'mud', which therefore comes before it",
        (
            "P1: the passages on bare paper take 140% of the painted area; give less, or say what "
            "one is laid over: --over"
        ),
        "the passages of P1 have no clear order",
    ]


NUMBERS = st.floats(0, 100, allow_nan=False)
TEXTS = st.text(max_size=20)
LABS = st.builds(Lab, NUMBERS, NUMBERS, NUMBERS)
PAINTS = st.builds(
    RecordedPaint, TEXTS, TEXTS, TEXTS, TEXTS, st.none() | TEXTS,
    st.lists(TEXTS, max_size=2).map(tuple),
    st.lists(st.builds(RecordedContainer, TEXTS, st.none() | TEXTS), max_size=2).map(tuple),
    st.integers(0, 10_000), NUMBERS,
)  # fmt: skip
MIXES = st.builds(
    RecordedMix, TEXTS, st.lists(PAINTS, max_size=2).map(tuple), st.none() | NUMBERS,
    st.integers(1, 9), TEXTS, TEXTS, st.none() | TEXTS, st.dates(), TEXTS, LABS, TEXTS,
    st.none() | st.lists(st.floats(0, 1), min_size=36, max_size=36).map(
        lambda values: Reflectance(380.0, 10.0, tuple(values))
    ),
    NUMBERS, st.booleans(), st.booleans(), st.integers(1, 9),
)  # fmt: skip
PASSAGES = st.builds(
    RecordedPassage, TEXTS, TEXTS, st.none() | NUMBERS, st.integers(1, 9), st.booleans(),
    st.none() | TEXTS, st.none() | TEXTS,
    st.lists(
        st.builds(
            RecordedColour, LABS, st.none() | TEXTS, st.none() | TEXTS, st.none() | TEXTS,
            st.none() | MIXES, st.none() | st.integers(0, 9),
        ),
        max_size=2,
    ).map(tuple),
)  # fmt: skip
RECORDS = st.builds(
    PaintingRecord, TEXTS, TEXTS, NUMBERS, NUMBERS, NUMBERS, TEXTS, st.none() | LABS,
    st.none() | TEXTS, st.none() | TEXTS, st.dates(), st.dates(), st.none() | TEXTS,
    st.lists(PAINTS, max_size=2).map(tuple), st.none() | NUMBERS,
    st.lists(PASSAGES, max_size=2).map(tuple),
)  # fmt: skip


@given(record=RECORDS)
def test_a_record_is_read_as_it_was_written_to_the_last_bit(record: PaintingRecord) -> None:
    assert record_of(json.dumps(document_of(record), ensure_ascii=False)) == record


def test_a_record_from_before_tries_were_counted_is_still_read(painted: Shelf) -> None:
    document = document_of(_finish(painted).record)
    for passage in document["passages"]:
        for colour in passage["colours"]:
            del colour["tries"]
    old = record_of(json.dumps(document))
    assert [each.tries for each in old.passages[1].colours] == [None, None]
    assert without_mix_text(old, old.passages[1].colours[1]) == (
        "no mix that passed is on record for it"
    )


def test_only_the_colours_without_a_mix_are_named_and_why(painted: Shelf) -> None:
    record = _finish(painted).record
    assert all_without_mix_text(record) == (
        "No mix is on record for: the second colour of mud, pool."
    )
    _, mud, pool = record.passages
    assert without_mix_text(record, mud.colours[1]) == "not tested: no mix is on record for it"
    assert without_mix_text(record, pool.colours[0]) == (
        "one try, none dry within ΔE00 3: no mix is on record for it"
    )
    assert all_without_mix_text(replace(record, passages=record.passages[:1])) is None


def test_what_is_kept_is_the_document_itself(painted: Shelf) -> None:
    record = _finish(painted).record
    kept = painted.work.connection.execute(select(t.painting_record.c.content)).scalar_one()
    assert json.loads(kept) == document_of(record)
    assert json.loads(kept)["version"] == 1
