"""CSV and text tables: a sample a row, or a wavelength a row."""

import csv
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Final

import colour
import pytest

from studio.catalogue.reading import Backing, Condition
from studio.colour.lab import Lab
from studio.formats.measurement_file import read_measurements
from studio.formats.sample import Contents, Kind, UnreadableFile
from tests.formats.files import MUD, MUD_SPECTRUM, WAVELENGTHS

PUBLISHED: Final = Path(__file__).resolve().parents[1] / "published"
PAIRS: Final = list(zip(WAVELENGTHS, MUD, strict=True))


def _read(text: str, name: str = "creek.csv") -> Contents:
    return read_measurements(text.encode(), name)


def _joined(rows: Sequence[Sequence[object]], separator: str = ",") -> str:
    return "\n".join(separator.join(map(str, row)) for row in rows) + "\n"


@pytest.mark.parametrize("separator", [",", ";", "\t", ", "])
@pytest.mark.parametrize("spelling", ["{}", "R_{}", "{} nm", "nm{}"])
@pytest.mark.parametrize("name", ["sample", "Sample Name", "SWATCH", "code", "id"])
def test_a_row_is_a_sample_with_a_column_for_each_wavelength(
    separator: str, spelling: str, name: str
) -> None:
    header = [name, *(spelling.format(nm) for nm in WAVELENGTHS)]
    contents = _read(_joined([header, ["S12 a", *MUD], ["S13", *MUD]], separator))
    assert contents.kind is Kind.TABLE
    assert [sample.name for sample in contents.samples] == ["S12 a", "S13"]
    assert [sample.spectrum for sample in contents.samples] == [MUD_SPECTRUM] * 2
    assert not any(sample.white_is_assumed for sample in contents.samples)


def test_rows_without_names_are_named_by_their_line() -> None:
    contents = _read(_joined([list(WAVELENGTHS), list(MUD), list(MUD)]))
    assert [sample.name for sample in contents.samples] == ["line 2", "line 3"]


@pytest.mark.parametrize("separator", [",", ";", "\t", " ", "   "])
@pytest.mark.parametrize(
    "header", [["wavelength", "reflectance"], ["nm", "R"], ["Wavelength (nm)", "value"], []]
)
def test_a_row_is_a_wavelength(separator: str, header: list[object]) -> None:
    if "Wavelength (nm)" in header and separator.isspace() and separator != "\t":
        header = ["Wavelength", "R"]
    contents = _read(_joined([header, *([nm, value] for nm, value in PAIRS)], separator), "mud.txt")
    (sample,) = contents.samples
    assert (sample.name, sample.spectrum) == ("mud", MUD_SPECTRUM)


def test_several_samples_stand_in_columns() -> None:
    rows: list[list[object]] = [["nm", "S1", "S2", ""]]
    rows += [[nm, value, round(value / 2, 5), value] for nm, value in PAIRS]
    contents = _read(_joined(rows))
    assert [sample.name for sample in contents.samples] == ["S1", "S2", "creek 3"]
    assert contents.samples[0].spectrum == MUD_SPECTRUM


@pytest.mark.parametrize("separator", [";", "\t", " "])
def test_decimal_commas_are_told_from_separators(separator: str) -> None:
    rows: list[list[object]] = [[nm, str(value).replace(".", ",")] for nm, value in PAIRS]
    assert _read(_joined(rows, separator)).samples[0].spectrum == MUD_SPECTRUM


def test_percent_are_told_and_divided() -> None:
    contents = _read(_joined([[nm, round(100 * value, 2)] for nm, value in PAIRS]))
    assert contents.samples[0].spectrum is not None
    assert contents.samples[0].spectrum.values == pytest.approx(MUD)
    assert contents.remarks == ("reflectance is in percent and was divided by 100",)


@pytest.mark.parametrize("header", ["sample,L*,a*,b*", "sample,lab_l,lab_a,lab_b", "name,L,a,b",
                                    "code,CIE L*,CIE a*,CIE b*"])  # fmt: skip
def test_lab_stands_in_three_columns(header: str) -> None:
    (sample,) = _read(f"{header}\nS12,41,2,-12\n").samples
    assert (sample.name, sample.lab) == ("S12", Lab(41.0, 2.0, -12.0))
    assert sample.white_is_assumed


def test_a_row_says_how_it_was_read() -> None:
    header = "sample,l,a,b,illuminant,observer,instrument,condition,geometry,backing,date"
    (sample,) = _read(f"{header}\nS1,41,2,-12,F11,10,Marram 45,M2,45/0,self,2026-05-04\n").samples
    assert sample.lab == Lab(41.0, 2.0, -12.0, "FL11", 10)
    assert not sample.white_is_assumed
    assert (sample.how.instrument, sample.how.geometry) == ("Marram 45", "45/0")
    assert (sample.how.condition, sample.how.backing) == (Condition.M2, Backing.SELF)
    assert sample.how.read_on == date(2026, 5, 4)


def test_lines_before_the_header_and_comments_are_passed_over() -> None:
    text = '# mud at low water\nMarram 45,serial 12\n\n"sample","L*","a*","b*"\n"S1, a",41,2,-12\n'
    assert [sample.name for sample in _read(text).samples] == ["S1, a"]


def test_spectra_and_lab_may_stand_in_one_table() -> None:
    header = ["sample", "L*", "a*", "b*", *WAVELENGTHS]
    rows = [header, ["S1", 41, 2, -12, *MUD], ["S2", 42, 2, -12, *[""] * 36]]
    first, second = _read(_joined(rows)).samples
    assert (first.spectrum, first.lab) == (MUD_SPECTRUM, Lab(41.0, 2.0, -12.0))
    assert (second.spectrum, second.lab) == (None, Lab(42.0, 2.0, -12.0))


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("S1,41,2", "it has 3 cells, and the header has 5"),
        ("S1,41,2,high,D50", "b* is 'high', which is not a number"),
        ("S1,41,2,,D50", "b* is empty"),
        ("S1,141,2,3,D50", "lightness L* runs from 0 to 100"),
        ("S1,41,2,3,D51", "illuminant 'D51' is not one of CIE 15"),
        ("S1,,,,", "it has neither a spectrum nor a Lab"),
    ],
)
def test_a_row_that_is_no_sample_is_told_beside_the_others(row: str, said: str) -> None:
    contents = _read(f"sample,l,a,b,illuminant\n{row}\nS2,41,2,-12,D50\n")
    assert [sample.name for sample in contents.samples] == ["S2"]
    (fault,) = contents.faults
    assert (fault.name, fault.reason.startswith("line 2: ")) == ("S1", True)
    assert said in fault.reason


POINTS: Final[list[list[object]]] = [[nm, value] for nm, value in PAIRS]


def _long(*rows: Sequence[object]) -> str:
    return _joined([["nm", "S1"], *rows])


REFUSED: Final = {
    "is not a table of spectra or Lab": "maker,name\nOrsel Pans,Locker Brown\n",
    "is not a table of spectra or Lab: a header": "the tide is out\n",
    "line 3: a wavelength without reflectance": "nm,S1\n380,0.1\n390\n",
    "line 3 is 'deep', which is not a number": _long([380, 0.1], [390, "deep"]),
    "the wavelength of line 3 is 'mud'": _long([380, 0.1], ["mud", 0.2]),
    "fewer than two wavelengths": _long([380, 0.1]),
    "missing between 390 and 410 nm": _long(*([nm, v] for nm, v in PAIRS if nm != 400)),
    "wavelength 380 nm stands twice": _long([380, 0.1], *POINTS),
    "are not equally far apart": _long([380, 0.1], [385.5, 0.1], [400, 0.1], [700, 0.1]),
    "at 380 nm is -0.1, below zero": _long([380, -0.1], *POINTS[1:]),
    "may be percent or fluorescence": _long([380, 2.2], *POINTS[1:]),
    "must cover 400 to 680 nm; this one runs from 380 to 580": _long(*POINTS[:21]),
    "line 2: ": 'sample,l,a,b\n"S1,41,2,3\n',
}


@pytest.mark.parametrize("said", REFUSED)
def test_a_table_that_holds_no_reading_is_refused_in_one_sentence(said: str) -> None:
    with pytest.raises(UnreadableFile, match=r"creek\.csv") as refused:
        _read(REFUSED[said])
    assert said in str(refused.value)
    assert "\n" not in str(refused.value)


def test_a_published_spectrum_is_read_as_colour_science_reads_it() -> None:
    path = PUBLISHED / "astm_e308_sample_sd_colour_science.csv"
    (sample,) = read_measurements(path.read_bytes(), path.name).samples
    theirs = colour.read_sds_from_csv_file(str(path), delimiter=",")["reflectance"]
    assert sample.spectrum is not None
    assert list(sample.spectrum.wavelengths) == list(theirs.wavelengths)
    assert list(sample.spectrum.values) == list(theirs.values)


def test_a_chart_with_other_columns_is_read_by_its_wavelengths() -> None:
    path = PUBLISHED / "babelcolor_average_24.csv"
    contents = read_measurements(path.read_bytes(), path.name)
    with path.open(encoding="utf-8") as file:
        patches = [row["patch"] for row in csv.DictReader(file)]
    assert [sample.name for sample in contents.samples] == patches
