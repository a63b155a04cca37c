"""Advice on care: about what, why, what instead, and what a class needs of the shelf."""

from dataclasses import replace
from datetime import date

import pytest

from studio.actions.add_paint import add_paint
from studio.actions.advise_care import (
    advise,
    advise_class,
    barred_paints,
    document_of,
    find_substitutes,
)
from studio.actions.check_shelf import check_shelf
from studio.actions.edit_paint import retire_paint
from studio.actions.find import find_paint
from studio.actions.find_subject import find_subject
from studio.actions.match_colour import Wanted, match_colour
from studio.actions.read_target import read_target
from studio.actions.record_data_sheet import amend_data_sheet
from studio.catalogue.care import Work
from studio.catalogue.care_points import care_of
from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import HEAVY_METALS
from studio.catalogue.lightfastness import FADING
from studio.catalogue.paint import PaintFacts, Status
from studio.catalogue.pigment import Pigment
from studio.errors import BadInput, NotFound
from studio.storage.unit_of_work import UnitOfWork

TODAY = date(2026, 11, 25)
CLASSES = (Work.ADULTS, Work.CHILDREN)


def _add(work: UnitOfWork, code: str, *pigments: str, name: str = "") -> None:
    facts = PaintFacts(code, "Pellow & Strand", name or f"Tide {code}", pigments, volume_ml=14)
    add_paint(work, facts, TODAY)


def _codes(paints: object) -> list[str]:
    assert isinstance(paints, tuple)
    return [paint.facts.code for paint in paints]


def test_a_subject_is_a_paint_a_mix_or_a_recipe(demo_work: UnitOfWork) -> None:
    paint = find_subject(demo_work, "french ultramarine")
    assert paint.is_paint
    assert _codes(paint.paints) == ["FU"]
    assert paint.mix is not None
    assert paint.mix.recipe.paints == {paint.paints[0].id}
    mix = find_subject(demo_work, "salt marsh turf")
    assert not mix.is_paint
    assert mix.mix is not None
    assert mix.mix.name == "salt marsh turf"
    recipe = find_subject(demo_work, "1 FU + 7 CB")
    assert not recipe.is_paint
    assert recipe.mix is None
    assert sorted(_codes(recipe.paints)) == ["CB", "FU"]


def test_a_mix_is_found_by_its_code(demo_work: UnitOfWork) -> None:
    subject = find_subject(demo_work, "m27")
    assert subject.mix is not None
    assert subject.mix.code == "M27"


def test_a_name_that_fits_several_paints_is_no_mix(demo_work: UnitOfWork) -> None:
    with pytest.raises(NotFound, match="fits 2 paints") as refusal:
        find_subject(demo_work, "sienna")
    assert len(refusal.value.candidates) == 2


def test_a_name_that_fits_several_mixes_lists_them(demo_work: UnitOfWork) -> None:
    named = [mix.name for mix in demo_work.mixes.all() if mix.name and "mud" in mix.name]
    assert len(named) > 1
    with pytest.raises(NotFound, match=f"fits {len(named)} mixes"):
        find_subject(demo_work, "mud")


def test_a_name_that_fits_nothing_lists_what_is_near(demo_work: UnitOfWork) -> None:
    with pytest.raises(NotFound, match="near it: FU"):
        find_subject(demo_work, "ultramarin blu")
    with pytest.raises(NotFound, match="salt marsh turf"):
        find_subject(demo_work, "salt marsh turv")
    with pytest.raises(NotFound, match="'xyzzy'; see: studio paint list"):
        find_subject(demo_work, "xyzzy")


def test_without_a_kind_of_work_there_are_no_substitutes(demo_work: UnitOfWork) -> None:
    advice = advise(demo_work, find_subject(demo_work, "CB"), list(Work), TODAY)
    assert [care.work for care in advice.cares] == list(Work)
    assert advice.substitutes is None


def test_what_is_not_avoided_gets_no_substitutes(demo_work: UnitOfWork) -> None:
    advice = advise(demo_work, find_subject(demo_work, "FU"), [Work.SPATTER], TODAY)
    assert not advice.cares[0].avoid
    assert advice.cares[0].points
    assert advice.substitutes is None


@pytest.mark.parametrize("name", ["CB", "SG", "salt marsh turf", "M27"])
@pytest.mark.parametrize("kind", [Work.SPRAY, Work.RINSE_WATER, Work.ADULTS, Work.CHILDREN])
def test_substitutes_are_the_nearest_mixes_without_what_is_avoided(
    demo_work: UnitOfWork, name: str, kind: Work
) -> None:
    advice = advise(demo_work, find_subject(demo_work, name), [kind], TODAY)
    found = advice.substitutes
    assert found is not None
    assert found.compared is not None
    assert found.matches
    paints = [part.paint for match in found.matches for part in match.recipe]
    assert all(paint.in_stock for paint in paints)
    assert not any(care_of([paint], kind).avoid for paint in paints)
    own = match_colour(
        demo_work,
        read_target(demo_work, found.compared.facts.code),
        Wanted(in_stock=True),
        count=1000,
    )
    allowed = [
        match.mix.code
        for match in own.matches
        if not care_of([part.paint for part in match.recipe], kind).avoid
    ]
    assert [match.mix.code for match in found.matches] == allowed[:3]


def test_the_compared_swatch_is_the_most_intense_dry_one(demo_work: UnitOfWork) -> None:
    subject = find_subject(demo_work, "CB")
    assert subject.mix is not None
    found = find_substitutes(demo_work, subject.mix, (), 1)
    colours = demo_work.swatches.colours_of_mixes()
    assert found.compared is not None
    assert found.compared.lab == colours[subject.mix.id]


def test_without_a_swatch_there_is_nothing_to_compare(demo_work: UnitOfWork) -> None:
    advice = advise(demo_work, find_subject(demo_work, "1 FU + 7 CB"), [Work.SPRAY], TODAY)
    assert advice.substitutes is not None
    assert advice.substitutes.compared is None
    assert advice.substitutes.matches == ()


def test_a_paint_without_data_is_never_a_substitute(demo_work: UnitOfWork) -> None:
    blue = find_paint(demo_work, "FU")
    demo_work.paints.change(blue.id, replace(blue.facts, pigments=()))
    amend_data_sheet(demo_work, find_paint(demo_work, "FU"), TODAY, label_marks="")
    assert find_paint(demo_work, "FU").unread
    for kind in Work:
        assert "FU" in _codes(barred_paints(demo_work, kind))
    advice = advise(demo_work, find_subject(demo_work, "CB"), [Work.ADULTS], TODAY)
    assert advice.substitutes is not None
    held = {part.paint.id for match in advice.substitutes.matches for part in match.recipe}
    assert held
    assert blue.id not in held


@pytest.mark.parametrize("kind", CLASSES)
def test_a_class_brings_leaves_or_has_to_read_of_every_paint_in_stock(
    demo_work: UnitOfWork, kind: Work
) -> None:
    advice = advise_class(demo_work, kind, TODAY)
    stock = {paint.id for paint in demo_work.paints.all() if paint.in_stock}
    leave = {left.paint.id for left in advice.leave}
    bring = {paint.id for paint in advice.bring}
    unread = {paint.id for paint in advice.unread}
    assert leave | bring | unread == stock
    assert len(leave) + len(bring) + len(unread) == len(stock)
    assert all(paint.unread for paint in advice.unread)
    assert not any(paint.unread for paint in advice.bring)
    assert all(left.care.avoided_for for left in advice.leave)
    for left in advice.leave:
        assert len(left.substitutes.matches) <= 1
        held = {part.paint.id for match in left.substitutes.matches for part in match.recipe}
        assert held <= bring
    assert set(advice.low) == {paint for paint in advice.bring if paint.is_low}
    assert [each.paint for each in advice.documents] == list(advice.bring)
    assert advice.needs_attention


def test_children_bring_no_more_than_adults(demo_work: UnitOfWork) -> None:
    adults = advise_class(demo_work, Work.ADULTS, TODAY)
    children = advise_class(demo_work, Work.CHILDREN, TODAY)
    assert set(_codes(children.bring)) < set(_codes(adults.bring))
    assert {"CB", "CE", "BS", "RS"} <= {left.paint.facts.code for left in adults.leave}
    assert {"AC", "CB"} <= {left.paint.facts.code for left in children.leave}


@pytest.mark.parametrize("kind", CLASSES)
def test_no_heavy_metal_comes_to_a_class(demo_work: UnitOfWork, kind: Work) -> None:
    for paint in advise_class(demo_work, kind, TODAY).bring:
        assert not HEAVY_METALS & paint.hazard_classes


@pytest.mark.parametrize("kind", [*CLASSES, Work.PREGNANCY])
def test_what_nobody_knows_is_not_brought_until_it_is_read(work: UnitOfWork, kind: Work) -> None:
    work.pigments.add(Pigment("PO998", None, "a", None, Evidence.MEMORY, "notes", None))
    looked = Pigment("PO999", None, "b", None, Evidence.MEMORY, "notes", None, looked_up="list")
    work.pigments.add(looked)
    for code, *pigments in (("NA",), ("NB", "PBk99"), ("NC", "PO998"), ("OK", "PO999")):
        _add(work, code, *pigments)
    advice = advise_class(work, kind, TODAY)
    assert _codes(advice.unread) == ["NA", "NB", "NC"]
    assert _codes(advice.unknown) == ["NA", "NB"]
    assert _codes(advice.not_looked_up) == ["NC"]
    assert (_codes(advice.bring), advice.leave) == (["OK"], ())
    assert advice.needs_attention
    assert [why.text for paint in advice.unread for why in paint.unread] == [
        "pigments not recorded",
        "PBk99 in no table",
        "PO998 not looked up",
    ]
    for code in ("NA", "NB", "NC"):
        paint = find_paint(work, code)
        amend_data_sheet(work, paint, TODAY, location="a.pdf", label_marks="AP")
    assert _codes(advise_class(work, kind, TODAY).bring) == ["NA", "NB", "NC", "OK"]


def test_children_bring_what_has_a_route_alone_and_leave_what_has_more(
    demo_work: UnitOfWork,
) -> None:
    advice = advise_class(demo_work, Work.CHILDREN, TODAY)
    assert {"PBG", "PGB", "GG", "FU"} <= set(_codes(advice.bring))
    assert {"AC", "BS", "CB", "SG"} <= {left.paint.facts.code for left in advice.leave}
    minded = {
        ground.pigment
        for point in advice.care.points
        if "label and data sheet" in point.text
        for ground in point.grounds
    }
    assert {"PB15:3", "PG7", "PY129"} <= minded


def test_a_class_is_told_what_would_fade_and_which_own_test_says_worse(
    demo_work: UnitOfWork,
) -> None:
    advice = advise_class(demo_work, Work.CHILDREN, TODAY)
    rated = [(paint, paint.worst_known_rating) for paint in advice.bring]
    assert set(advice.fading) == {p for p, rating in rated if rating and rating.rank >= FADING}
    assert set(advice.contradicting) == {p for p in advice.bring if p.contradicting}
    assert set(advice.fading) | set(advice.contradicting) <= set(advice.bring)
    papers = {paper for paper in demo_work.papers.all() if paper.is_low}
    assert set(advice.low_papers) == papers != set()


def test_a_retired_paint_goes_to_no_class(work: UnitOfWork) -> None:
    _add(work, "FU", "PB29")
    retire_paint(work, find_paint(work, "FU"))
    advice = advise_class(work, Work.ADULTS, TODAY)
    assert (advice.bring, advice.leave) == ((), ())
    assert not advice.needs_attention


def test_documents_tell_missing_old_and_good_sheets(work: UnitOfWork) -> None:
    _add(work, "FU", "PB29")
    _add(work, "CB", "PB28")
    _add(work, "YO", "PY43")
    amend_data_sheet(
        work,
        find_paint(work, "FU"),
        TODAY,
        location="sheets/fu.pdf",
        dated_on=date(2026, 1, 5),
        label_marks="AP",
    )
    amend_data_sheet(
        work, find_paint(work, "CB"), TODAY, location="sheets/cb.pdf", dated_on=date(2020, 1, 5)
    )
    good, old, none = (document_of(find_paint(work, code), TODAY) for code in ("FU", "CB", "YO"))
    assert (good.fault, good.is_on_record, good.label_marks) == (None, True, "AP")
    assert old.is_on_record
    assert "2020-01-05" in str(old.fault)
    assert (none.fault, none.is_on_record) == ("no data sheet on record", False)
    report = check_shelf(work, low=False, fading=False, today=TODAY)
    assert [each.paint.facts.code for each in report.documents] == ["CB", "YO"]
    assert [each.paint.facts.code for each in report.faulty_sheets] == ["CB"]
    assert report.needs_attention


def test_a_sheet_never_recorded_needs_no_attention_by_itself(work: UnitOfWork) -> None:
    _add(work, "YO", "PY43")
    report = check_shelf(work, today=TODAY)
    assert [each.fault for each in report.documents] == ["no data sheet on record"]
    assert not report.needs_attention


def test_label_marks_alone_are_no_sheet(work: UnitOfWork) -> None:
    _add(work, "YO", "PY43")
    amend_data_sheet(work, find_paint(work, "YO"), TODAY, label_marks="AP")
    document = document_of(find_paint(work, "YO"), TODAY)
    assert not document.is_on_record
    assert document.label_marks == "AP"
    assert document.fault is not None


def test_data_sheets_are_looked_at_with_care_and_a_day_alone(demo_work: UnitOfWork) -> None:
    assert check_shelf(demo_work).documents == ()
    assert check_shelf(demo_work, care=False, today=TODAY).documents == ()
    documents = check_shelf(demo_work, today=TODAY).documents
    assert documents
    assert {each.paint.facts.status for each in documents} == {Status.IN_USE}


def test_a_recipe_that_is_none_is_refused(demo_work: UnitOfWork) -> None:
    with pytest.raises(BadInput):
        find_subject(demo_work, "2 FU +")
