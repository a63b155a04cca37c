"""Rows of what lies on the shelf: paints and papers."""

from dataclasses import replace
from datetime import date
from typing import TypeVar

from studio.actions.add_paint import add_paint, checked_paint
from studio.actions.add_paper import add_paper, checked_paper
from studio.actions.importing.row import Row
from studio.actions.make_reading import Circumstances, reading_of_lab, reading_of_spectrum
from studio.catalogue import checks
from studio.catalogue.paint import Degree, Form, PaintFacts, Status, Transparency
from studio.catalogue.paper import Fibre, PaperFacts, Surface
from studio.catalogue.reading import Condition, Method, Reading
from studio.storage.unit_of_work import UnitOfWork

_Facts = TypeVar("_Facts", PaintFacts, PaperFacts)


def import_paint(work: UnitOfWork, row: Row, today: date) -> bool:
    """Record a paint; False when it stands there already, fact for fact."""
    facts = checked_paint(
        PaintFacts(
            code=row.text("code") or "",
            maker=row.needed("maker"),
            name=row.needed("name"),
            pigments=row.words("pigments", ";"),
            form=row.word("form", Form) or Form.TUBE,
            volume_ml=row.number("volume_ml"),
            price=row.price("price"),
            currency=row.text("currency"),
            transparency=row.word("transparency", Transparency),
            staining=row.word("staining", Degree),
            granulation=row.word("granulation", Degree),
            lot=row.text("lot"),
            status=row.word("status", Status) or Status.IN_USE,
            low_at_ml=row.number("low_at_ml"),
            note=row.text("note"),
        )
    )
    if any(_same(paint.facts, facts) for paint in work.paints.all()):
        return False
    add_paint(work, facts, today, stock=False)
    return True


def import_paper(work: UnitOfWork, row: Row, today: date) -> bool:
    """Record a paper; False when it stands there already, fact for fact."""
    facts = checked_paper(
        PaperFacts(
            code=row.text("code") or "",
            maker=row.needed("maker"),
            name=row.needed("name"),
            fibre=row.word("fibre", Fibre),
            weight_gsm=row.number("weight_gsm"),
            surface=row.word("surface", Surface),
            sheet_width_mm=row.number("sheet_width_mm"),
            sheet_height_mm=row.number("sheet_height_mm"),
            low_at_sheets=row.number("low_at_sheets"),
            low_at_mm=row.number("low_at_mm"),
            note=row.text("note"),
        )
    )
    if any(_same(paper.facts, facts) for paper in work.papers.all()):
        return False
    add_paper(work, facts, today, white=_white(row, today))
    return True


def _same(recorded: _Facts, facts: _Facts) -> bool:
    """Whether facts are those on record; a row without a code leaves it to the program."""
    return recorded == (facts if facts.code else replace(facts, code=recorded.code))


def _white(row: Row, today: date) -> Reading | None:
    how = Circumstances(
        read_on=checks.past(row.day("white_read_on") or today, today, "white_read_on"),
        method=row.word("white_method", Method) or Method.SPECTROPHOTOMETER,
        condition=row.word("white_condition", Condition),
    )
    spectrum = row.spectrum(
        "white_spectrum_start_nm", "white_spectrum_step_nm", "white_reflectance"
    )
    if spectrum is not None:
        return reading_of_spectrum(spectrum, how)
    lab = row.lab("white_", "white_illuminant", "white_observer")
    return None if lab is None else reading_of_lab(lab, how)
