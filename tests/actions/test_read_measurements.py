"""Readings from measurement files: which sample, what the owner says, and what is noticed."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Final

import pytest

from studio.actions.open_measurements import (
    OpenFile,
    of_condition,
    open_measurements,
    samples_named,
)
from studio.actions.read_measurements import Told, reading_of_sample, take_from_file
from studio.actions.taken_readings import log_with, read_with
from studio.catalogue.reading import Backing, Condition, Method, Origin, Reading, State
from studio.catalogue.swatch import Application, SwatchFacts
from studio.colour.lab import Lab
from studio.colour.reflectance import Reflectance
from studio.colour.science import reflectance_to_lab
from studio.errors import BadInput, NotFound
from studio.formats import measurement_file
from studio.formats.sample import Circumstance, Sample
from tests.actions.conftest import DAY, Shelf
from tests.conftest import TODAY
from tests.formats.files import MUD, MUD_SPECTRUM, WAVELENGTHS, cgats

FACTS: Final = SwatchFacts("", None, 1, Application.FLAT_WASH, DAY)
OF_MUD: Final = reflectance_to_lab(MUD_SPECTRUM)


def _sample(
    *, spectrum: Reflectance | None = None, lab: Lab | None = None, assumed: bool = False,
    condition: Condition | None = None,
) -> Sample:  # fmt: skip
    how = Circumstance("Marram 45", condition, "45/0", Backing.BLACK, date(2026, 5, 6))
    return Sample("S1 a", spectrum, lab, how, "7", white_is_assumed=assumed)


def _read(sample: Sample, told: Told = Told()) -> tuple[Reading, tuple[str, ...]]:  # noqa: B008
    return reading_of_sample(sample, None, told, TODAY)


def test_a_reading_keeps_what_the_file_says_of_it() -> None:
    reading, remarks = _read(_sample(spectrum=MUD_SPECTRUM, condition=Condition.M1))
    assert (reading.lab, reading.origin) == (OF_MUD, Origin.SPECTRUM)
    assert reading.spectrum == MUD_SPECTRUM
    assert (reading.instrument, reading.geometry) == ("Marram 45", "45/0")
    assert (reading.condition, reading.backing) == (Condition.M1, Backing.BLACK)
    assert (reading.sample, reading.read_on) == ("S1 a", date(2026, 5, 6))
    assert (reading.method, reading.state) == (Method.SPECTROPHOTOMETER, State.DRY)
    assert (remarks, reading.note) == ((), None)


def test_what_the_owner_says_wins() -> None:
    told = Told(
        read_on=DAY, method=Method.SCANNER, state=State.WET, instrument="other", geometry="d/8",
        backing=Backing.WHITE, error=0.4, condition=Condition.M2,
    )  # fmt: skip
    reading, _ = _read(_sample(lab=Lab(41.0, 2.0, 12.0)), told)
    assert (reading.read_on, reading.method, reading.state) == (DAY, Method.SCANNER, State.WET)
    assert (reading.instrument, reading.geometry) == ("other", "d/8")
    assert (reading.backing, reading.error) == (Backing.WHITE, 0.4)
    assert reading.condition is Condition.M2


def test_without_a_day_in_the_file_it_was_read_today() -> None:
    reading, _ = _read(Sample("S1", None, Lab(41.0, 2.0, 12.0)))
    assert (reading.read_on, reading.method) == (TODAY, Method.COLORIMETER)


def test_the_spectrum_wins_over_a_lab_of_its_own_that_is_compared() -> None:
    near = Lab(OF_MUD.lightness + 0.3, OF_MUD.a, OF_MUD.b)
    reading, remarks = _read(_sample(spectrum=MUD_SPECTRUM, lab=near))
    assert (reading.lab, remarks) == (OF_MUD, ())
    far = Lab(OF_MUD.lightness + 3, OF_MUD.a, OF_MUD.b)
    reading, remarks = _read(_sample(spectrum=MUD_SPECTRUM, lab=far))
    assert reading.lab == OF_MUD
    assert remarks[0].startswith("S1 a: the file's own Lab (D50/2°) is ΔE00 ")
    assert reading.note == remarks[0].removeprefix("S1 a: ")


def test_a_lab_of_its_own_is_compared_under_its_own_white() -> None:
    own = reflectance_to_lab(MUD_SPECTRUM, "A", 10)
    assert _read(_sample(spectrum=MUD_SPECTRUM, lab=own))[1] == ()


def test_fluorescence_is_kept_and_told() -> None:
    bright = Reflectance(380.0, 10.0, (*MUD[:10], 1.25, *MUD[11:]))
    reading, remarks = _read(_sample(spectrum=bright))
    assert reading.spectrum == bright
    assert remarks == ("S1 a: it fluoresces: reflectance is up to 1.25 at 480 nm",)


def test_what_is_brighter_than_white_is_refused_by_name() -> None:
    white = Reflectance(380.0, 10.0, (1.4,) * 36)
    with pytest.raises(BadInput, match="S1 a: no colour can be computed from this spectrum"):
        _read(_sample(spectrum=white))


def test_an_assumed_white_is_told_and_noted_unless_the_owner_names_it() -> None:
    sample = _sample(lab=Lab(41.0, 2.0, 12.0), assumed=True)
    reading, remarks = _read(sample)
    assert reading.origin is Origin.MEASURED
    assert remarks == ("S1 a: the white of its Lab is not stated; D50/2° by ISO 13655 is assumed",)
    assert "ISO 13655" in str(reading.note)
    reading, remarks = _read(sample, Told(illuminant="D65", observer=10))
    assert (reading.origin, reading.given.white, remarks) == (Origin.ADAPTED, ("D65", 10), ())
    with pytest.raises(BadInput, match="the observer is 2 or 10 degrees, not 3"):
        _read(sample, Told(observer=3))


def test_a_white_that_the_file_states_is_not_the_owners_to_change() -> None:
    given = Lab(41.0, 2.0, 12.0, "D65", 10)
    assert _read(_sample(lab=given), Told(illuminant="A"))[0].given == given


def test_readings_under_several_conditions_must_be_chosen_of() -> None:
    both = tuple(
        _sample(spectrum=MUD_SPECTRUM, condition=each) for each in (Condition.M0, Condition.M1)
    )
    assert of_condition(both, Condition.M1) == both[1:]
    with pytest.raises(BadInput, match="S1 a was read under M0, M1; choose one with --condition"):
        of_condition(both, None)
    with pytest.raises(BadInput, match="S1 a was read under M0, M1, not M3"):
        of_condition(both, Condition.M3)
    unsaid = (_sample(spectrum=MUD_SPECTRUM),)
    assert of_condition(unsaid, Condition.M2) == unsaid


def _file(tmp_path: Path, rows: Sequence[Sequence[object]], name: str = "creek.txt") -> OpenFile:
    path = tmp_path / name
    fields = ["SAMPLE_ID", "SAMPLE_NAME", *(f"nm{nm}" for nm in WAVELENGTHS)]
    path.write_text(cgats(fields, rows, header=['CREATED "2026-05-06"']))
    return open_measurements(path)


DARKER: Final = tuple(round(value / 2, 5) for value in MUD)


def test_a_sample_is_found_by_name_or_number_and_several_by_one_name(tmp_path: Path) -> None:
    opened = _file(tmp_path, [[1, "mud", *MUD], [2, "Silt bank", *DARKER], [3, "mud", *DARKER]])
    (found,) = samples_named(opened, " silt  BANK ", None)
    assert found.number == "2"
    assert samples_named(opened, "2", None) == (found,)
    assert len(samples_named(opened, "mud", None)) == 2
    with pytest.raises(NotFound, match="has no sample 'mast'; it has: mud, Silt bank") as refused:
        samples_named(opened, "mast", None)
    assert refused.value.candidates == ("mud", "Silt bank")
    with pytest.raises(BadInput, match="holds 2 samples; name one with --sample, or take all"):
        samples_named(opened, None, None)


def test_the_only_sample_needs_no_name(tmp_path: Path) -> None:
    assert samples_named(_file(tmp_path, [[1, "mud", *MUD]]), None, None)[0].name == "mud"


def test_a_sample_that_cannot_be_read_is_named_with_its_reason(tmp_path: Path) -> None:
    opened = _file(tmp_path, [[1, "mud", *MUD], [2, "silt", -0.1, *MUD[1:]]])
    with pytest.raises(BadInput, match=r"silt: line 10: reflectance at 380 nm is -0\.1"):
        samples_named(opened, "silt", None)
    with pytest.raises(BadInput, match=r"2 samples.*mud, silt \(cannot be read\)"):
        samples_named(opened, None, None)


def test_a_file_that_cannot_be_opened_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with pytest.raises(BadInput, match=r"mud\.cxf cannot be read: no such file"):
        open_measurements(tmp_path / "mud.cxf")
    (tmp_path / "big.csv").write_bytes(b"x" * 20)
    monkeypatch.setattr("studio.actions.open_measurements.LARGEST", 10)
    with pytest.raises(BadInput, match=r"big\.csv is larger than"):
        open_measurements(tmp_path / "big.csv")
    assert measurement_file.LARGEST == 20_000_000


def test_a_new_swatch_takes_every_reading_of_its_sample_and_the_file(
    shelf: Shelf, tmp_path: Path
) -> None:
    opened = _file(tmp_path, [[1, "mud", *MUD], [2, "mud", *DARKER]])
    samples = samples_named(opened, "mud", None)
    work = shelf.work
    taken = take_from_file(work, opened, samples, None, told=Told(), today=TODAY)
    swatch = log_with(
        work, taken, mix=shelf.mix("UM"), paper=shelf.paper("SR"), facts=FACTS, today=TODAY
    )
    assert [reading.spectrum for reading in swatch.readings] == [
        MUD_SPECTRUM, Reflectance(380.0, 10.0, DARKER),
    ]  # fmt: skip
    (file,) = work.files.all()
    assert (file.name, work.files.content(file.id)) == ("creek.txt", opened.content)
    assert {reading.file for reading in swatch.readings} == {file}


def test_a_reading_is_recorded_once_from_a_file(shelf: Shelf, tmp_path: Path) -> None:
    opened = _file(tmp_path, [[1, "mud", *MUD], [2, "silt", *DARKER]])
    swatch, other = shelf.swatch("UM", OF_MUD), shelf.swatch("BS", OF_MUD)
    work, mud = shelf.work, samples_named(opened, "mud", None)
    taken = take_from_file(work, opened, mud, swatch, told=Told(), today=TODAY)
    swatch = read_with(work, taken, swatch, TODAY)
    assert (len(swatch.readings), taken.remarks) == (2, ())
    again = take_from_file(work, opened, mud, swatch, told=Told(), today=TODAY)
    assert again.readings == ()
    assert again.remarks == ("mud of creek.txt is with S1 already: not recorded",)
    assert read_with(work, again, swatch, TODAY) == swatch
    elsewhere = take_from_file(work, opened, mud, other, told=Told(), today=TODAY)
    assert len(elsewhere.readings) == 1
    assert elsewhere.remarks == ("mud of creek.txt is also with S1",)
    with pytest.raises(BadInput, match=r"mud of creek\.txt is recorded already, with S1"):
        take_from_file(work, opened, mud, None, told=Told(), today=TODAY)
    silt = samples_named(opened, "silt", None)
    assert take_from_file(work, opened, silt, None, told=Told(), today=TODAY).readings
