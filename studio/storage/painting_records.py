"""The records of finished paintings: JSON documents that need no other row to be read."""

import json
from datetime import date
from typing import Any

from sqlalchemy import Connection, insert, select

from studio.catalogue.painting_record import (
    VERSION,
    PaintingRecord,
    RecordedColour,
    RecordedContainer,
    RecordedMix,
    RecordedPaint,
    RecordedPassage,
)
from studio.colour.lab import Lab
from studio.colour.reflectance import Reflectance
from studio.errors import BadInput
from studio.storage import tables as t

Document = dict[str, Any]


class PaintingRecords:
    """The records of one database, one a finished painting."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def add(self, painting_id: int, record: PaintingRecord) -> None:
        """Keep the record of a painting."""
        self._connection.execute(
            insert(t.painting_record).values(
                painting_id=painting_id,
                recorded_on=record.finished_on,
                content=json.dumps(document_of(record), ensure_ascii=False),
            )
        )

    def of_painting(self, painting_id: int) -> PaintingRecord | None:
        """The record of a painting; None while it is in the making.

        Raises:
            BadInput: it cannot be read.
        """
        content = self._connection.execute(
            select(t.painting_record.c.content).where(
                t.painting_record.c.painting_id == painting_id
            )
        ).scalar()
        return None if content is None else record_of(content)


def document_of(record: PaintingRecord) -> Document:
    """A record as JSON; README.md documents its names, and `VERSION` their form."""
    return {
        "record": "how to mix each colour again",
        "version": VERSION,
        "painting": record.painting,
        "title": record.title,
        "width_mm": record.width_mm,
        "height_mm": record.height_mm,
        "tolerance_delta_e": record.tolerance,
        "paper": record.paper,
        "white_lab": _lab(record.white),
        "picture": record.picture,
        "picture_sha256": record.picture_sha256,
        "started_on": record.started_on.isoformat(),
        "finished_on": record.finished_on.isoformat(),
        "note": record.note,
        "used": [_paint(each) for each in record.used],
        "paper_used": record.paper_used,
        "passages": [_passage(each) for each in record.passages],
    }


def record_of(content: str) -> PaintingRecord:
    """A record from its JSON.

    Raises:
        BadInput: it is not one, or of a later form than this program knows.
    """
    try:
        document = json.loads(content)
        version = document["version"]
        if version == VERSION:
            return _record(document)
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError) as error:
        msg = f"the record of a painting cannot be read ({type(error).__name__}: {error})"
        raise BadInput(msg) from None
    msg = f"the record of a painting has form {version!r}, which a later studio reads"
    raise BadInput(msg)


def _record(document: Document) -> PaintingRecord:
    return PaintingRecord(
        painting=document["painting"],
        title=document["title"],
        width_mm=document["width_mm"],
        height_mm=document["height_mm"],
        tolerance=document["tolerance_delta_e"],
        paper=document["paper"],
        white=_read_lab(document["white_lab"]),
        picture=document["picture"],
        picture_sha256=document["picture_sha256"],
        started_on=date.fromisoformat(document["started_on"]),
        finished_on=date.fromisoformat(document["finished_on"]),
        note=document["note"],
        used=tuple(_read_paint(each) for each in document["used"]),
        paper_used=document["paper_used"],
        passages=tuple(_read_passage(each) for each in document["passages"]),
    )


def _passage(passage: RecordedPassage) -> Document:
    return {
        "passage": passage.name,
        "technique": passage.technique,
        "share": passage.share,
        "layers": passage.layers,
        "dry_before_next": passage.dry_before_next,
        "over": passage.over,
        "note": passage.note,
        "colours": [
            {
                "lab": _lab(colour.lab),
                "given": colour.given,
                "place": colour.place,
                "picture": colour.picture,
                "mix": None if colour.mix is None else _mix(colour.mix),
                "tries": colour.tries,
            }
            for colour in passage.colours
        ],
    }


def _read_passage(document: Document) -> RecordedPassage:
    return RecordedPassage(
        name=document["passage"],
        technique=document["technique"],
        share=document["share"],
        layers=document["layers"],
        dry_before_next=document["dry_before_next"],
        over=document["over"],
        note=document["note"],
        colours=tuple(
            RecordedColour(
                lab=Lab(*colour["lab"]),
                given=colour["given"],
                place=colour["place"],
                picture=colour["picture"],
                mix=None if colour["mix"] is None else _read_mix(colour["mix"]),
                tries=colour.get("tries"),
            )
            for colour in document["colours"]
        ),
    )


def _mix(mix: RecordedMix) -> Document:
    spectrum = mix.spectrum
    return {
        "mix": mix.mix,
        "paints": [_paint(each) for each in mix.paints],
        "water": mix.water,
        "layers": mix.layers,
        "application": mix.application,
        "swatch": mix.swatch,
        "kept_at": mix.kept_at,
        "made_on": mix.made_on.isoformat(),
        "paper": mix.paper,
        "lab": _lab(mix.lab),
        "method": mix.method,
        "spectrum": None
        if spectrum is None
        else {
            "start_nm": spectrum.start,
            "step_nm": spectrum.step,
            "reflectance": list(spectrum.values),
        },
        "delta_e": mix.delta_e,
        "passes": mix.passes,
        "named": mix.named,
        "tries": mix.tries,
    }


def _read_mix(document: Document) -> RecordedMix:
    spectrum = document["spectrum"]
    return RecordedMix(
        mix=document["mix"],
        paints=tuple(_read_paint(each) for each in document["paints"]),
        water=document["water"],
        layers=document["layers"],
        application=document["application"],
        swatch=document["swatch"],
        kept_at=document["kept_at"],
        made_on=date.fromisoformat(document["made_on"]),
        paper=document["paper"],
        lab=Lab(*document["lab"]),
        method=document["method"],
        spectrum=None
        if spectrum is None
        else Reflectance(spectrum["start_nm"], spectrum["step_nm"], tuple(spectrum["reflectance"])),
        delta_e=document["delta_e"],
        passes=document["passes"],
        named=document["named"],
        tries=document["tries"],
    )


def _paint(paint: RecordedPaint) -> Document:
    return {
        "paint": paint.code,
        "maker": paint.maker,
        "name": paint.name,
        "form": paint.form,
        "lot": paint.lot,
        "pigments": list(paint.pigments),
        "containers": [{"code": each.code, "lot": each.lot} for each in paint.containers],
        "parts": paint.parts,
        "used_ml": paint.used_ml,
    }


def _read_paint(document: Document) -> RecordedPaint:
    return RecordedPaint(
        code=document["paint"],
        maker=document["maker"],
        name=document["name"],
        form=document["form"],
        lot=document["lot"],
        pigments=tuple(document["pigments"]),
        containers=tuple(
            RecordedContainer(each["code"], each["lot"]) for each in document["containers"]
        ),
        parts=document["parts"],
        used_ml=document["used_ml"],
    )


def _lab(lab: Lab | None) -> list[float] | None:
    return None if lab is None else list(lab.coordinates)


def _read_lab(cells: list[float] | None) -> Lab | None:
    return None if cells is None else Lab(cells[0], cells[1], cells[2])
