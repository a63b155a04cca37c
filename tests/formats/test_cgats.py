"""CGATS.17 text with the traps of real files."""

import re
from collections.abc import Callable
from datetime import date
from typing import Final

import colour
import pytest

from studio.catalogue.reading import Backing, Condition
from studio.colour.lab import Lab
from studio.formats.cgats_text import _Open, tables_of
from studio.formats.measurement_file import read_measurements
from studio.formats.sample import Contents, Kind, UnreadableFile
from tests.formats.files import MUD, MUD_SPECTRUM, WAVELENGTHS, cgats

LAB_FIELDS: Final = ("SAMPLE_ID", "LAB_L", "LAB_A", "LAB_B")


def _read(text: str, encoding: str = "utf-8") -> Contents:
    return read_measurements(text.encode(encoding), "creek.txt")


@pytest.mark.parametrize(
    "spelling",
    ["SPECTRAL_NM{}", "SPECTRAL_{}", "nm{}", "SPEC_{}", "R_{}", "SPECTRAL_NM_{}", "{}nm", "{}"],
)
@pytest.mark.parametrize("name", ["SAMPLE_ID", "SampleID", "SAMPLE_NAME"])
@pytest.mark.parametrize("first", ["CGATS.17", "ISO28178", "LGOROWLENGTH\t10", "MEASURED mud"])
def test_fields_are_known_however_they_are_spelled(spelling: str, name: str, first: str) -> None:
    fields = [name, *(spelling.format(nm) for nm in WAVELENGTHS)]
    contents = _read(cgats(fields, [["S12", *MUD]], first=first))
    assert contents.kind is Kind.CGATS
    (sample,) = contents.samples
    assert (sample.name, sample.spectrum) == ("S12", MUD_SPECTRUM)


@pytest.mark.parametrize("separator", ["\t", " ", "   ", "\n"])
def test_cells_are_parted_by_tabs_blanks_or_lines(separator: str) -> None:
    fields = ["SAMPLE_ID", *(f"nm{nm}" for nm in WAVELENGTHS)]
    rows = [["S12", *MUD], ["S13", *MUD]]
    contents = _read(cgats(fields, rows, separator=separator))
    assert [sample.name for sample in contents.samples] == ["S12", "S13"]
    assert contents.samples[1].spectrum == MUD_SPECTRUM


def test_a_leading_blank_column_is_passed_over() -> None:
    fields = ["", "SAMPLE_ID", *(f"nm{nm}" for nm in WAVELENGTHS)]
    contents = _read(cgats(fields, [["", "S12", *MUD], ["", "S13", *MUD, ""]]))
    assert [sample.name for sample in contents.samples] == ["S12", "S13"]
    assert contents.samples[1].spectrum == MUD_SPECTRUM


def test_a_name_may_hold_blanks_between_quotes_or_tabs() -> None:
    fields = ["SAMPLE_ID", "SAMPLE_NAME", "LAB_L", "LAB_A", "LAB_B"]
    quoted = _read(cgats(fields, [[1, '"S12 ""a"" # 2"', 41, 2, -12]], separator=" "))
    assert (quoted.samples[0].name, quoted.samples[0].number) == ('S12 "a" # 2', "1")
    tabbed = _read(cgats(fields, [[1, "S12 a", 41, 2, -12], ["2", "", 42, 2, -12]]))
    assert [sample.name for sample in tabbed.samples] == ["S12 a", "2"]
    assert tabbed.samples[0].lab == Lab(41.0, 2.0, -12.0)


def test_comments_and_keywords_are_no_data() -> None:
    header = ['KEYWORD "SAMPLE_ID"  # the word is ours', "# a whole line", "ORIGINATOR 'Tern'"]
    (sample,) = _read(cgats(LAB_FIELDS, [["S12", 41, 2, -12, " # sun"]], header=header)).samples
    assert sample.lab == Lab(41.0, 2.0, -12.0)


def test_percent_are_told_and_divided() -> None:
    fields = ["SAMPLE_ID", *(f"SPECTRAL_{nm}" for nm in WAVELENGTHS)]
    contents = _read(cgats(fields, [["S12", *(round(100 * value, 2) for value in MUD)]]))
    assert contents.samples[0].spectrum is not None
    assert contents.samples[0].spectrum.values == pytest.approx(MUD)
    assert contents.remarks == ("reflectance is in percent and was divided by 100",)


def test_a_dark_sample_is_in_percent_when_its_file_is() -> None:
    fields = ["SAMPLE_ID", *(f"SPECTRAL_{nm}" for nm in WAVELENGTHS)]
    dark, white = [0.9] * 36, [85.0] * 36
    contents = _read(cgats(fields, [["S1", *dark], ["white", *white]]))
    assert contents.samples[0].spectrum is not None
    assert contents.samples[0].spectrum.values == pytest.approx([0.009] * 36)


def test_between_a_bright_fraction_and_a_dark_percent_the_scale_is_asked_for() -> None:
    fields = ["SAMPLE_ID", *(f"SPECTRAL_{nm}" for nm in WAVELENGTHS)]
    with pytest.raises(UnreadableFile, match=r"goes up to 2\.2, which may be percent or"):
        _read(cgats(fields, [["S1", *[2.2] * 36]]))


def test_decimal_commas_are_numbers() -> None:
    fields = ["SAMPLE_ID", *(f"nm{nm}" for nm in WAVELENGTHS)]
    row = ["S12", *(str(value).replace(".", ",") for value in MUD)]
    assert _read(cgats(fields, [row])).samples[0].spectrum == MUD_SPECTRUM


WHITES: Final = {
    'MEASUREMENT_SOURCE "Illumination=D65\tObserverAngle=10°\tWhiteBase=Abs\tFilter=No"': "D65 10",
    'ILLUMINATION_NAME "D65"\nOBSERVER_ANGLE "10"': "D65 10",
    'WEIGHTING_FUNCTION "ILLUMINANT, A"\nWEIGHTING_FUNCTION "OBSERVER, 2 degree"': "A 2",
    'COMPUTATIONAL_PARAMETER "Illuminant F11, CIE 1964 observer 10°"': "FL11 10",
    'DESCRIPTOR "D65/10° readings of the creek"': "D65 10",
    'WEIGHTING_FUNCTION "D55 CIE 1931 observer 1931"': "D55 2",
    'MEASUREMENT_SOURCE "Illumination=A"\nWEIGHTING_FUNCTION "ILLUMINANT, D50"': "D50 2",
    'ILLUMINANT "LED-B3"\nOBSERVER "10"': "LED-B3 10",
}


@pytest.mark.parametrize("header", WHITES)
@pytest.mark.parametrize("encoding", ["utf-8", "latin-1", "utf-16", "utf-8-sig"])
def test_the_white_is_found_in_free_text(header: str, encoding: str) -> None:
    (sample,) = _read(
        cgats(LAB_FIELDS, [["S12", 41, 2, -12]], header=header.split("\n")), encoding
    ).samples
    assert sample.lab is not None
    assert sample.lab.white == (WHITES[header].split()[0], int(WHITES[header].split()[1]))
    assert not sample.white_is_assumed


def test_a_white_that_is_not_stated_is_assumed_and_told() -> None:
    header = ['ORIGINATOR "A lamp in a boatyard"', 'MEASUREMENT_SOURCE "Filter=No"']
    (sample,) = _read(cgats(LAB_FIELDS, [["S12", 41, 2, -12]], header=header)).samples
    assert sample.lab == Lab(41.0, 2.0, -12.0)
    assert sample.white_is_assumed


def test_the_header_says_how_it_was_read() -> None:
    header = [
        'INSTRUMENTATION "Marram 45"', 'CREATED "14 May 2026"  # Time: 16:45',
        'MEASUREMENT_GEOMETRY "45/0"', 'SAMPLE_BACKING "Black, matt"', 'FILTER "M1"',
    ]  # fmt: skip
    how = _read(cgats(LAB_FIELDS, [["S12", 41, 2, -12]], header=header)).samples[0].how
    assert (how.instrument, how.geometry) == ("Marram 45", "45/0")
    assert (how.condition, how.backing) == (Condition.M1, Backing.BLACK)
    assert how.read_on == date(2026, 5, 14)


@pytest.mark.parametrize(
    ("line", "condition"),
    [
        ('FILTER "UVcut"', Condition.M2),
        ('MEASUREMENT_SOURCE "Filter=UV-Cut"', Condition.M2),
        ('POLARIZATION "yes"', Condition.M3),
        ('POLARIZATION "no"', None),
        ('FILTER "No"', None),
        ('MEASUREMENT_CONDITION "M0"', Condition.M0),
        ('ORIGINATOR "M2 motorway"', None),
    ],
)
def test_filters_stand_for_conditions(line: str, condition: Condition | None) -> None:
    contents = _read(cgats(LAB_FIELDS, [["S12", 41, 2, -12]], header=[line]))
    assert contents.samples[0].how.condition is condition


def test_several_tables_are_read_and_keep_the_header() -> None:
    header = ['ILLUMINANT "D65"', 'INSTRUMENTATION "Marram 45"']
    first = cgats(LAB_FIELDS, [["S1", 41, 2, -12]], header=header)
    again = "BEGIN_DATA\nS2 42 2 -12\nEND_DATA\n"
    second = cgats(["SAMPLE_NAME", *(f"nm{nm}" for nm in WAVELENGTHS)], [["S3", *MUD]])
    contents = _read(first + again + second)
    assert [sample.name for sample in contents.samples] == ["S1", "S2", "S3"]
    assert contents.samples[1].lab == Lab(42.0, 2.0, -12.0, "D65", 2)
    assert contents.samples[2].spectrum == MUD_SPECTRUM
    assert contents.samples[2].how.instrument == "Marram 45"
    assert contents.remarks == ()


def test_a_table_without_colours_is_passed_over_beside_one_with() -> None:
    drawing = cgats(["SAMPLE_ID", "RGB_R", "RGB_G", "RGB_B"], [["S1", 1, 2, 3]])
    contents = _read(drawing + cgats(LAB_FIELDS, [["S2", 41, 2, -12]]))
    assert [sample.name for sample in contents.samples] == ["S2"]
    assert [fault.name for fault in contents.faults] == ["S1"]
    with pytest.raises(UnreadableFile, match="no spectrum, Lab, LCh or XYZ among its fields"):
        _read(drawing)


def test_lch_and_xyz_become_lab() -> None:
    lch = _read(cgats(["SAMPLE_ID", "LAB_L", "LAB_C", "LAB_H"], [["S1", 50, 20, 90]]))
    assert lch.samples[0].lab is not None
    assert lch.samples[0].lab.coordinates == pytest.approx((50, 0, 20), abs=1e-12)
    xyz = _read(
        cgats(["SAMPLE_ID", "XYZ_X", "XYZ_Y", "XYZ_Z"], [["S1", 18, 18.4187, 15]],
              header=['WEIGHTING_FUNCTION "ILLUMINANT, D65"'])
    )  # fmt: skip
    lab = xyz.samples[0].lab
    assert lab is not None
    assert lab.white == ("D65", 2)
    # CIE 15: 116·∛0.184187 - 16 is 50
    assert lab.lightness == pytest.approx(50.0, abs=1e-3)


def test_the_spectrum_stands_beside_the_files_own_lab() -> None:
    fields = ["SAMPLE_ID", "LAB_L", "LAB_A", "LAB_B", *(f"nm{nm}" for nm in WAVELENGTHS)]
    contents = _read(cgats(fields, [["S1", 41, 2, -12, *MUD], ["S2", "", "", "", *MUD]]))
    assert [sample.spectrum for sample in contents.samples] == [MUD_SPECTRUM] * 2
    assert [sample.lab for sample in contents.samples] == [Lab(41.0, 2.0, -12.0), None]


@pytest.mark.parametrize(
    ("row", "said"),
    [
        (["S1", 141, 2, -12], "line 8: lightness L* runs from 0 to 100"),
        (["S1", "", 2, -12], "line 8: LAB_L is empty"),
        (["S1", "n/a", 2, -12], "line 8: LAB_L is 'n/a', which is not a number"),
        (["S1", "nan", 2, -12], "line 8: LAB_L is 'nan', which is not a number"),
        (["S1", "1e999", 2, -12], "line 8: LAB_L is '1e999'"),
    ],
)
def test_a_sample_that_is_no_colour_is_told_beside_the_others(row: list[object], said: str) -> None:
    contents = _read(cgats(LAB_FIELDS, [row, ["S2", 41, 2, -12]]))
    assert [sample.name for sample in contents.samples] == ["S2"]
    (fault,) = contents.faults
    assert fault.name == "S1"
    assert fault.reason.startswith(said)
    with pytest.raises(UnreadableFile, match=re.escape(f"creek.txt: S1: {said}")):
        _read(cgats(LAB_FIELDS, [row]))


def _spectral(*values: object) -> str:
    return cgats(["SAMPLE_ID", *(f"nm{nm}" for nm in WAVELENGTHS)], [["S1", *values]])


DAMAGED: Final[dict[str, Callable[[], str]]] = {
    "ends before END_DATA: it is cut off": lambda: _spectral(*MUD)[:-10],
    "ends before END_DATA_FORMAT": lambda: _spectral(*MUD)[:120],
    "no BEGIN_DATA with readings": lambda: "CGATS.17\nORIGINATOR tern\n",
    "data without a BEGIN_DATA_FORMAT": lambda: "CGATS.17\nBEGIN_DATA\nS1 1\nEND_DATA\n",
    "38 values, and the data format has 37 fields": lambda: _spectral(*MUD, 0.5),
    "36 values, and the data format has 37 fields": lambda: _spectral(*MUD[:-1]),
    "holds no sample that can be read": lambda: cgats(LAB_FIELDS, []),
    "reflectance at 400 nm is -0.01, below zero": lambda: _spectral(0.1, 0.1, -0.01, *MUD[3:]),
    "500 nm is 'x', which is not a number": lambda: _spectral(*MUD[:12], "x", *MUD[13:]),
    "wavelength 380 nm stands twice": lambda: _spectral(*MUD).replace("nm390", "nm380"),
    "missing between 380 and 400 nm": lambda: cgats(
        ["SAMPLE_ID", *(f"nm{nm}" for nm in WAVELENGTHS if nm != 390)],
        [["S1", *MUD[1:]]],
    ),
    "not equally far apart": lambda: _spectral(*MUD).replace("nm390", "nm393"),
    "must cover 400 to 680 nm": lambda: cgats(
        ["SAMPLE_ID", *(f"nm{nm}" for nm in WAVELENGTHS[:20])], [["S1", *MUD[:20]]]
    ),
    "is empty; export the readings again": lambda: " \n ",
    "is none of the files that readings": lambda: _spectral(*MUD) + "\x00",
    "is neither text nor XML nor a table": lambda: _spectral(*MUD) + "\x01",
}


@pytest.mark.parametrize("said", DAMAGED)
def test_a_damaged_file_is_refused_in_one_sentence(said: str) -> None:
    with pytest.raises(UnreadableFile, match=said):
        _read(DAMAGED[said]())


def test_a_blank_line_among_the_data_is_no_row() -> None:
    text = cgats(LAB_FIELDS, [["S1", 41, 2, -12], ["\t"], ["S2", 41, 2, -12]])
    assert [sample.name for sample in _read(text).samples] == ["S1", "S2"]


def test_blank_columns_at_the_end_are_passed_over() -> None:
    (sample,) = _read(cgats(LAB_FIELDS, [["S 1", 41, 2, -12, "", ""]])).samples
    assert (sample.name, sample.lab) == ("S 1", Lab(41.0, 2.0, -12.0))


def test_a_wrong_number_of_sets_is_told() -> None:
    text = cgats(LAB_FIELDS, [["S1", 41, 2, -12]]).replace("SETS 1", "SETS 3")
    assert _read(text).remarks == ("it says 3 sets of data and holds 1",)


def test_samples_without_a_name_are_counted() -> None:
    contents = _read(cgats(LAB_FIELDS[1:], [[41, 2, -12], [42, 2, -12]]))
    assert [(sample.name, sample.number) for sample in contents.samples] == [
        ("1", None),
        ("2", None),
    ]


def test_a_real_file_is_read_as_colour_science_reads_it(
    collected: Callable[[str], bytes], tmp_path_factory: pytest.TempPathFactory
) -> None:
    content = collected("X-Rite_Digital_Colour_Checker.txt")
    contents = read_measurements(content, "checker.txt")
    path = tmp_path_factory.mktemp("real") / "checker.txt"
    path.write_bytes(content)
    theirs = colour.read_sds_from_xrite_file(str(path))
    assert [sample.name for sample in contents.samples] == list(theirs) == [
        f"X{number}" for number in range(1, 11)
    ]  # fmt: skip
    for sample in contents.samples:
        assert sample.spectrum is not None
        assert list(sample.spectrum.wavelengths) == list(theirs[sample.name].wavelengths)
        assert list(sample.spectrum.values) == list(theirs[sample.name].values)
        assert (sample.how.instrument, sample.how.read_on) == ("Spectrolino", date(2014, 11, 14))
        assert sample.how.condition is None


def test_a_keyword_that_stands_many_times_is_not_copied_each_time() -> None:
    """Copying made 40,000 keywords take 2.4 s, as the square of their number."""
    current = _Open()
    current.add("DESCRIPTOR", "mud")
    texts = current.keywords["DESCRIPTOR"]
    current.add("DESCRIPTOR", "weed")
    assert current.keywords["DESCRIPTOR"] is texts
    assert texts == ["mud", "weed"]


def test_keywords_of_a_table_stay_its_own_when_a_later_one_adds_to_them() -> None:
    table = "BEGIN_DATA_FORMAT\nLAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n50 1 9\nEND_DATA\n"
    many = "".join(f'REMARK "{place}"\n' for place in range(20_000))
    first, second, third = tables_of(
        f"CGATS.17\n{many}{table}REMARK later\n{table}{table}", "tide.cgats"
    )
    assert first.keywords["REMARK"] == [str(place) for place in range(20_000)]
    assert second.keywords["REMARK"] == [*first.keywords["REMARK"], "later"]
    assert third.keywords == second.keywords
