"""What is recorded is read back by another unit of work, value for value and float for float."""

import struct
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import METALS, Basis, Hazard, HazardCode, Use, in_order, read_listing
from studio.catalogue.lightfastness import LightfastnessRating
from studio.catalogue.mix import Mix
from studio.catalogue.paint import PaintFacts
from studio.catalogue.paper import PaperFacts
from studio.catalogue.pigment import Pigment
from studio.catalogue.reading import Reading, representative
from studio.catalogue.recipe import Recipe, in_lowest_terms
from studio.catalogue.swatch import SwatchFacts
from studio.storage.unit_of_work import UnitOfWork
from tests.servers import copy_of
from tests.storage import values

MARSH = PaintFacts("MG", "Saltings Colour", "Marsh Green", ("PG7", "PBr7"))
SEDGE = PaperFacts("SR", "Tidewrack Mill", "Sedge Rag")


@pytest.fixture(scope="module")
def reopen(
    empty_template: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Callable[[], tuple[UnitOfWork, UnitOfWork]]]:
    """A writer on a database that nothing is ever kept in, and a second look at what it wrote."""
    opened: list[UnitOfWork] = []

    def open_both() -> tuple[UnitOfWork, UnitOfWork]:
        while opened:
            opened.pop().connection.close()
        writer, reader = UnitOfWork(database, write=True), UnitOfWork(database)
        writer.__enter__()
        reader.connection = writer.connection  # the same transaction with nothing remembered
        opened.append(writer)
        return writer, reader

    file = tmp_path_factory.mktemp("round") / "studio.sqlite3"
    with copy_of(empty_template, file) as database:
        yield open_both
        while opened:
            opened.pop().connection.close()


Reopen = Callable[[], tuple[UnitOfWork, UnitOfWork]]
many = settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)


def _bits(numbers: Iterable[float | None]) -> list[bytes | None]:
    return [None if number is None else struct.pack("<d", number) for number in numbers]


def _measured(reading: Reading) -> list[bytes | None]:
    spectrum = reading.spectrum
    return _bits(
        (
            *reading.lab.coordinates,
            *reading.given.coordinates,
            reading.error,
            *((spectrum.start, spectrum.step, *spectrum.values) if spectrum else ()),
        )
    )


@many
@given(facts=values.paints())
def test_a_paint_comes_back_as_it_was(reopen: Reopen, facts: PaintFacts) -> None:
    writer, reader = reopen()
    key = writer.paints.add(facts)
    found = reader.paints.by_id(key)
    assert found.facts == facts
    assert _bits([found.facts.volume_ml]) == _bits([facts.volume_ml])
    assert tuple(pigment.ci_name for pigment in found.pigments) == facts.pigments


@many
@given(first=values.paints(), then=values.paints())
def test_a_changed_paint_keeps_nothing_of_what_it_was(
    reopen: Reopen, first: PaintFacts, then: PaintFacts
) -> None:
    writer, reader = reopen()
    key = writer.paints.add(first)
    writer.paints.change(key, then)
    assert reader.paints.by_id(key).facts == writer.paints.by_id(key).facts == then


@many
@given(facts=values.papers(), then=values.papers(), white=st.lists(values.readings(), max_size=2))
def test_a_paper_comes_back_with_its_white_and_its_changes(
    reopen: Reopen, facts: PaperFacts, then: PaperFacts, white: list[Reading]
) -> None:
    writer, reader = reopen()
    key = writer.papers.add(facts)
    for reading in white:
        writer.papers.add_white(key, reading)
    found = reader.papers.by_id(key)
    assert found.facts == facts
    assert found.white == tuple(white)
    assert [_measured(reading) for reading in found.white] == list(map(_measured, white))
    writer.papers.change(key, then)
    assert writer.papers.by_id(key).facts == then
    assert writer.papers.by_id(key).white == tuple(white)


@many
@given(
    parts=st.lists(st.fractions("1/4", 20, max_denominator=4), min_size=1, max_size=6),
    code=values.codes,
    name=values.maybe_words,
    note=values.maybe_words,
    day=values.days,
)
def test_a_mix_comes_back_and_is_found_by_its_recipe(  # noqa: PLR0917 - the fields of a mix
    reopen: Reopen, parts: list[Fraction], code: str, name: str | None, note: str | None, day: date
) -> None:
    writer, reader = reopen()
    keys = [writer.paints.add(replace(MARSH, code=f"P{n}", lot=f"{n}")) for n in range(len(parts))]
    recipe = in_lowest_terms(zip(keys, parts, strict=True))
    mix = Mix(0, code, recipe, name, note, day)
    mix = replace(mix, id=writer.mixes.add(mix))
    assert reader.mixes.all() == (mix,)
    assert reader.mixes.with_recipe(Recipe(recipe.parts[::-1])) == mix
    assert reader.mixes.with_code(code) == mix


@many
@given(
    facts=values.swatches(), readings=st.lists(values.readings(), min_size=1, max_size=3).map(tuple)
)
def test_a_swatch_comes_back_with_every_reading(
    reopen: Reopen, facts: SwatchFacts, readings: tuple[Reading, ...]
) -> None:
    writer, reader = reopen()
    paint, paper = writer.paints.add(MARSH), writer.papers.add(SEDGE)
    mix = writer.mixes.add(Mix(0, "M1", Recipe(((paint, 1),)), None, None, date(2026, 5, 4)))
    key = writer.swatches.add(facts, mix, paper, readings[:1])
    for reading in readings[1:]:
        writer.swatches.add_reading(writer.swatches.by_ids([key])[key], reading)
    found = reader.swatches.by_ids([key])[key]
    assert found.facts == facts
    assert (found.mix_id, found.paper_id, found.readings) == (mix, paper, readings)
    assert [_measured(reading) for reading in found.readings] == list(map(_measured, readings))
    assert (found.state, found.lab) == representative(readings)
    if facts.target_lab is not None and found.facts.target_lab is not None:
        assert _bits(found.facts.target_lab.coordinates) == _bits(facts.target_lab.coordinates)


@many
@given(data=st.data(), name=values.words, content=st.binary(max_size=100), day=values.days)
def test_readings_and_targets_come_back_with_the_file_they_were_taken_from(
    reopen: Reopen, data: st.DataObject, name: str, content: bytes, day: date
) -> None:
    writer, reader = reopen()
    file = writer.files.keep(name, content, day)
    assert reader.files.all() == (file,)
    assert reader.files.content(file.id) == content
    paper = writer.papers.add(SEDGE)
    white = data.draw(values.readings(file=file))
    writer.papers.add_white(paper, white)
    assert reader.papers.by_id(paper).white == (white,)
    wanted = data.draw(values.targets(picture=file))
    added = writer.targets.add(wanted)
    assert added == replace(wanted, id=added.id)
    assert reader.targets.all() == (added,)
    assert reader.targets.named(f"  {wanted.name} ") == added
    assert _bits((*added.lab.coordinates, added.spread)) == _bits(
        (*wanted.lab.coordinates, wanted.spread)
    )


@many
@given(rating=values.ratings())
def test_a_rating_comes_back_beside_those_that_stood_there(
    reopen: Reopen, rating: LightfastnessRating
) -> None:
    writer, reader = reopen()
    before = writer.pigments.get("PB29")
    assert before is not None
    writer.pigments.add_rating(rating)
    after = reader.pigments.get("PB29")
    assert after is not None
    assert after.ratings == (*before.ratings, rating)
    assert after == writer.pigments.get("PB29")


@many
@given(
    codes=st.lists(st.sampled_from(("H302", "H350", "H411")), unique=True).map(sorted),
    metals=st.lists(st.sampled_from(METALS), unique=True).map(sorted),
    routes=st.lists(st.sampled_from(("swallowing", "breathing dust", "eyes")), unique=True),
    text=values.words,
    maybe=values.maybe_words,
    verified=st.none() | values.days,
    use=st.none() | st.sampled_from(Use),
    listed=st.lists(
        st.sampled_from(("HCIS H350 H361fd", "IARC 2B (group)", "IARC 3 (parent dye)",
                         "NTP known", "Proposition 65 male")), unique=True,
    ),
)  # fmt: skip
def test_a_hazard_comes_back_with_codes_metals_and_routes(  # noqa: PLR0917 - the fields of a hazard
    reopen: Reopen,
    codes: list[str],
    metals: list[str],
    routes: list[str],
    text: str,
    maybe: str | None,
    verified: date | None,
    use: Use | None,
    listed: list[str],
) -> None:
    writer, reader = reopen()
    writer.pigments.add(Pigment("PO999", None, None, None, None, None, None))
    known = writer.pigments.statements()
    hazard = Hazard(
        pigment="PO999",
        agent=text,
        cas=maybe,
        summary=text,
        codes=tuple(HazardCode(code, *known[code], hedged=code == "H350") for code in codes),
        basis=Basis.NOTIFIED,
        basis_detail=maybe,
        routes=tuple(routes),
        metals=tuple(metals),
        evidence=Evidence.PARTLY,
        source=text,
        verified_on=verified,
        verified_from=None if verified is None else text,
        use=use,
        listings=in_order(read_listing(each, known) for each in listed),
    )
    writer.pigments.add_hazard(hazard)
    found = reader.pigments.get("PO999")
    assert found is not None
    assert found.hazards == (hazard,)
    assert found == writer.pigments.get("PO999")
