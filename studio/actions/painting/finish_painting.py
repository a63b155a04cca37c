"""Finish a painting: book what it took, and keep how to mix each of its colours again."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from studio.actions.painting.find_painting import find_colour, find_passage
from studio.actions.painting.make_record import FinalTry, make_record
from studio.actions.painting.tries import Try, nearest_try, tries_of
from studio.actions.use_stock import use_stock
from studio.catalogue import checks
from studio.catalogue.painting import Painting, Passage, PassageColour
from studio.catalogue.painting_record import PaintingRecord
from studio.catalogue.stock import StockEvent, StockKind
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class Finished:
    """A finished painting with its record."""

    painting: Painting
    record: PaintingRecord


def finish_painting(  # noqa: PLR0913 - what was used of paint and paper, what was laid, and when
    work: UnitOfWork,
    painting: Painting,
    used: Mapping[int, float],
    *,
    on: date,
    today: date,
    paper_used: float | None = None,
    finals: Mapping[int, str] | None = None,
    estimated: bool = False,
) -> Finished:
    """Book the paint and the paper that a painting took, and keep its record.

    Like every action it keeps nothing itself: where one amount cannot be booked, the command ends
    and the studio is as it was.

    Args:
        work: the studio.
        painting: in the making.
        used: ml of each paint, without water, by the paint's id.
        on: the day it was finished.
        today: no day may lie after it.
        paper_used: sheets (mm of a roll); None where no sheet was given for it.
        finals: codes of the swatches that were laid in the end, by the id of their colour; the
            others take the nearest try within the tolerance.
        estimated: the amounts are a plan's rather than measured.

    Raises:
        BadInput: it is finished already, was begun later, has no colour, more is booked than there
            is, or a swatch was never tested for its colour.
    """
    if painting.finished_on is not None:
        msg = f"{painting.code} was finished on {painting.finished_on.isoformat()} already"
        raise BadInput(msg)
    checks.past(on, today, "the day")
    if on < painting.started_on:
        msg = f"{painting.code} was begun on {painting.started_on.isoformat()}, after that day"
        raise BadInput(msg)
    if not any(passage.colours for passage in painting.passages):
        msg = (
            f"{painting.code} has no colour to keep a record of; give its passages colours with: "
            "studio painting passage add, or remove it"
        )
        raise BadInput(msg)
    laid = {
        colour.id: _final(work, painting, passage, colour, (finals or {}).get(colour.id))
        for passage in painting.passages
        for colour in passage.colours
    }
    finished = replace(painting, finished_on=on)
    # Before anything is booked, so that the record holds what was on the shelf.
    record = make_record(work, finished, laid, used, paper_used)
    event = StockEvent(StockKind.USED, on, estimated=estimated, note=f"painting {painting.code}")
    for key, amount in used.items():
        use_stock(work, work.paints.by_id(key), replace(event, amount=amount), today)
    if paper_used is not None:
        paper = work.papers.by_id(painting.paper_id)
        use_stock(work, paper, replace(event, amount=paper_used), today)
    work.paintings.change(finished)
    work.painting_records.add(painting.id, record)
    return Finished(work.paintings.by_id(painting.id), record)


def read_finals(painting: Painting, texts: list[str]) -> dict[int, str]:
    """Codes of swatches by the id of their colour, as typed: `far bank=S14`, `sky:2=S15`.

    Raises:
        BadInput: one is not clear, or a colour is named twice.
        NotFound: there is no such passage.
    """
    found: dict[int, str] = {}
    for text in texts:
        name, equals, code = text.rpartition("=")
        if not (name.strip() and equals and code.strip()):
            msg = f'{text!r} is not clear; write a passage and its swatch: --final "far bank=S14"'
            raise BadInput(msg)
        whole, colon, number = name.rpartition(":")
        numbered = bool(colon) and number.strip().isdecimal()
        passage = find_passage(painting, whole if numbered else name)
        colour = find_colour(passage, int(number[:9]) if numbered else 1)
        if colour.id in found:
            msg = (
                f"{passage.name!r} is given two swatches for one colour; name its second colour as "
                f'"{passage.name}:2={code}"'
            )
            raise BadInput(msg)
        found[colour.id] = code.strip().upper()
    return found


def _final(
    work: UnitOfWork,
    painting: Painting,
    passage: Passage,
    colour: PassageColour,
    named: str | None,
) -> FinalTry | None:
    """The try that was laid in the end; None where none passes and none is named."""
    tries = tries_of(work, painting, colour)
    if named is not None:
        chosen: Try | None = next((each for each in tries if each.swatch.facts.code == named), None)
        if chosen is None:
            msg = (
                f"{named} was not tested for {passage.name!r}; do that first: studio painting "
                f'test {painting.code} "{passage.name}" --swatch {named}'
            )
            raise BadInput(msg)
        return FinalTry(chosen, named=True, tries=len(tries))
    nearest = nearest_try(tries)
    if nearest is None or not nearest.passes:
        return None
    return FinalTry(nearest, named=False, tries=len(tries))
