"""CxF3 files: spectra, Lab, specifications, and what XML can do to a program."""

import csv
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Final

import pytest
from xsdata.exceptions import ParserError
from xsdata.formats.dataclass.parsers import XmlParser

from studio.catalogue.reading import Backing, Condition
from studio.colour.difference import cie76
from studio.colour.lab import Lab
from studio.colour.reflectance import Reflectance
from studio.colour.science import reflectance_to_lab
from studio.formats.measurement_file import LARGEST, read_measurements
from studio.formats.sample import Contents, Kind, UnreadableFile
from tests.formats.files import (
    MUD,
    MUD_SPECTRUM,
    SPEC,
    cxf,
    cxf_lab,
    cxf_object,
    cxf_spectrum,
)

Collected = Callable[[str], bytes]
PUBLISHED: Final = Path(__file__).resolve().parents[1] / "published"


def _read(content: bytes) -> Contents:
    return read_measurements(content, "creek.cxf")


def test_a_spectrum_is_kept_as_it_stands_with_how_it_was_read() -> None:
    device = (
        "<Device><Manufacturer>Marram</Manufacturer><Model>45</Model>"
        "<DeviceIllumination>M1_Daylight</DeviceIllumination></Device>"
    )
    spec = SPEC.replace(
        "</MeasurementSpec>", f"<Backing>White tile</Backing>{device}</MeasurementSpec>"
    )
    contents = _read(cxf(cxf_object("S12", cxf_spectrum()), spec))
    assert contents.kind is Kind.CXF
    (sample,) = contents.samples
    assert (sample.name, sample.number) == ("S12", "id-S12")
    assert (sample.spectrum, sample.lab) == (MUD_SPECTRUM, None)
    assert (sample.how.instrument, sample.how.geometry) == ("Marram 45", "45/0 annular")
    assert (sample.how.condition, sample.how.backing) == (Condition.M1, Backing.WHITE)
    assert sample.how.read_on == date(2026, 5, 4)
    assert not contents.faults
    assert not contents.remarks


def test_the_day_of_the_measurement_wins_over_that_of_the_object() -> None:
    spectrum = cxf_spectrum().replace("StartWL", 'MeasureDate="2026-04-30T09:00:00Z" StartWL')
    assert _read(cxf(cxf_object("S1", spectrum))).samples[0].how.read_on == date(2026, 4, 30)


@pytest.mark.parametrize(
    ("device", "condition"),
    [
        ("<DeviceIllumination>M0_Incandescent</DeviceIllumination>", Condition.M0),
        ("<DeviceIllumination>M2_UVExcluded</DeviceIllumination>", Condition.M2),
        ("<DeviceIllumination>LED</DeviceIllumination>", None),
        ("<DeviceFilter>Filter_UVExcluded</DeviceFilter>", Condition.M2),
        ("<DeviceFilter>Filter_None</DeviceFilter>", None),
        ("<DevicePolarization>true</DevicePolarization>", Condition.M3),
    ],
)
def test_the_condition_is_that_of_the_device(device: str, condition: Condition | None) -> None:
    spec = SPEC.replace("</MeasurementSpec>", f"<Device>{device}</Device></MeasurementSpec>")
    sample = _read(cxf(cxf_object("S1", cxf_spectrum()), spec)).samples[0]
    assert sample.how.condition is condition


def test_an_object_read_under_two_conditions_is_two_samples_of_one_name() -> None:
    def under(condition: str) -> str:
        device = f"<Device><DeviceIllumination>{condition}</DeviceIllumination></Device>"
        return SPEC.replace("</MeasurementSpec>", f"{device}</MeasurementSpec>")

    brighter = [round(value + 0.1, 4) for value in MUD]
    values = (cxf_spectrum(), cxf_spectrum(brighter, spec="s2"), cxf_lab(41, 2, -12, spec="s2"))
    contents = _read(cxf(cxf_object("S1", *values), under("M0_Incandescent"), under("M1_Daylight")))
    assert [sample.how.condition for sample in contents.samples] == [Condition.M0, Condition.M1]
    assert [sample.name for sample in contents.samples] == ["S1", "S1"]
    assert [sample.lab for sample in contents.samples] == [None, Lab(41.0, 2.0, -12.0)]


def test_lab_lch_and_xyz_are_taken_in_that_order() -> None:
    lch = '<ColorCIELCh ColorSpecification="s1"><L>50</L><C>20</C><H>90</H></ColorCIELCh>'
    xyz = '<ColorCIEXYZ ColorSpecification="s1"><X>17.76</X><Y>18.4187</Y><Z>15.2</Z></ColorCIEXYZ>'
    contents = _read(
        cxf(
            cxf_object("S1", xyz, lch, cxf_lab(41, 2, -12))
            + cxf_object("S2", xyz, lch)
            + cxf_object("S3", xyz)
        )
    )
    first, second, third = (sample.lab for sample in contents.samples)
    assert first == Lab(41.0, 2.0, -12.0)
    assert second is not None
    assert second.coordinates == pytest.approx((50, 0, 20), abs=1e-12)
    assert third is not None
    assert third.coordinates == pytest.approx((50, 0, 0), abs=0.1)  # D50 is (96.4, 100, 82.5)


@pytest.mark.parametrize(
    ("light", "observer", "white"),
    [
        ("D65", "10_Degree", ("D65", 10)),
        ("F11", "2_Degree", ("FL11", 2)),
        ("A", "2_Degree", ("A", 2)),
        ("E", "2_Degree", ("E", 2)),
    ],
)
def test_a_lab_stands_under_the_white_of_its_specification(
    light: str, observer: str, white: tuple[str, int]
) -> None:
    spec = SPEC.replace("D50", light).replace("2_Degree", observer)
    (sample,) = _read(cxf(cxf_object("S1", cxf_lab(41, 2, -12)), spec)).samples
    assert sample.lab is not None
    assert sample.lab.white == white
    assert not sample.white_is_assumed


def test_a_lab_without_specification_has_an_assumed_white() -> None:
    (sample,) = _read(cxf(cxf_object("S1", cxf_lab(41, 2, -12, spec="gone")))).samples
    assert (sample.lab, sample.white_is_assumed) == (Lab(41.0, 2.0, -12.0), True)


def _custom(points: str) -> str:
    return f'<CustomSpectrum ColorSpecification="s1">{points}</CustomSpectrum>'


def test_points_in_any_order_at_equal_steps_are_a_spectrum() -> None:
    pairs = list(zip(range(380, 731, 10), MUD, strict=True))
    points = "".join(
        f'<SpectralPoint WL="{nm}">{value}</SpectralPoint>' for nm, value in reversed(pairs)
    )
    assert _read(cxf(cxf_object("S1", _custom(points)))).samples[0].spectrum == MUD_SPECTRUM


def test_percent_are_told_against_the_standard() -> None:
    percent = [round(100 * value, 2) for value in MUD]
    contents = _read(cxf(cxf_object("S1", cxf_spectrum(percent))))
    assert contents.samples[0].spectrum is not None
    assert contents.samples[0].spectrum.values == pytest.approx(MUD)
    assert contents.remarks == (
        "reflectance is in percent and was divided by 100 (ISO 17972-1 wants fractions)",
    )


def test_fluorescence_is_kept() -> None:
    bright = (*MUD[:20], 2.4, *MUD[21:])
    (sample,) = _read(cxf(cxf_object("S1", cxf_spectrum(bright)))).samples
    assert sample.spectrum == Reflectance(380.0, 10.0, bright)


def test_elements_of_a_maker_are_passed_over() -> None:
    own = '<Tide xmlns="urn:marram" height="3.2 m"><Ebb/></Tide>'
    content = cxf(
        cxf_object("S1", cxf_spectrum(), own),
        SPEC,
        more=f"<CustomResources>{own}</CustomResources>",
    )
    assert _read(content).samples[0].spectrum == MUD_SPECTRUM


EMISSIVE: Final = SPEC.replace("Spectrum_Reflectance", "Colorimetric_Emissive")
FAULTS: Final = {
    "the file does not say at which wavelength": (cxf_spectrum(start=""), SPEC.replace(
        '<WavelengthRange StartWL="380" Increment="10"/>', "")),
    "fewer than two wavelengths": (cxf_spectrum(MUD[:1]), SPEC),
    "reflectance at 400 nm is -0.05, below zero": (cxf_spectrum((0.1, 0.1, -0.05, *MUD)), SPEC),
    "must cover 400 to 680 nm": (cxf_spectrum(MUD[:25]), SPEC),
    "'mud' in it is not a number": (cxf_lab("mud", 2, 3), SPEC),
    "one of its values is missing": (cxf_lab("", 2, 3), SPEC),
    "lightness L* runs from 0 to 100": (cxf_lab(120, 2, 3), SPEC),
    "a measurement of colorimetric emissive": (cxf_lab(41, 2, 3), EMISSIVE),
    "a white that CIE 15 has not (TL84, 2_Degree)": (
        cxf_lab(41, 2, 3), SPEC.replace("D50", "TL84")),
    "no spectrum, Lab, LCh or XYZ": (
        '<ColorSRGB ColorSpecification="s1"><R>1</R><G>2</G><B>3</B></ColorSRGB>', SPEC),
}  # fmt: skip


@pytest.mark.parametrize("said", FAULTS)
def test_a_sample_that_cannot_be_read_is_told_beside_the_others(said: str) -> None:
    value, spec = FAULTS[said]
    good = cxf_lab(41, 2, -12, spec="s2")
    contents = _read(cxf(cxf_object("bad", value) + cxf_object("good", good), spec, SPEC))
    assert [sample.name for sample in contents.samples] == ["good"]
    ((name, reason),) = [(fault.name, fault.reason) for fault in contents.faults]
    assert name == "bad"
    assert said in reason
    with pytest.raises(UnreadableFile, match=r"creek\.cxf: bad: "):
        _read(cxf(cxf_object("bad", value), spec))


def test_a_value_that_is_missing_beside_a_spectrum_is_not_missed() -> None:
    (sample,) = _read(cxf(cxf_object("S1", cxf_lab(120, 2, 3), cxf_spectrum()))).samples
    assert (sample.spectrum, sample.lab) == (MUD_SPECTRUM, None)


def test_what_the_library_refuses_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        msg = "no class\nfor mud"
        raise ParserError(msg)

    monkeypatch.setattr(XmlParser, "from_bytes", refuse)
    with pytest.raises(UnreadableFile, match=r"not written as CxF3 has it \(no class for mud\)"):
        _read(cxf(cxf_object("S1", cxf_spectrum())))


def test_a_white_a_hair_above_100_is_100() -> None:
    (sample,) = _read(cxf(cxf_object("tile", cxf_lab(100.004, 0, 0)))).samples
    assert sample.lab == Lab(100.0, 0.0, 0.0)


def test_a_specification_without_geometry_or_white_is_enough_for_a_spectrum() -> None:
    spec = '<MeasurementSpec><WavelengthRange StartWL="380" Increment="10"/></MeasurementSpec>'
    (sample,) = _read(
        cxf(cxf_object("S1", cxf_spectrum(start=""), cxf_lab(41, 2, 3)), spec)
    ).samples
    assert (sample.spectrum, sample.how.geometry) == (MUD_SPECTRUM, None)
    assert sample.white_is_assumed


def test_objects_without_colour_are_told() -> None:
    contents = _read(cxf(cxf_object("S1", cxf_spectrum()) + cxf_object("tide")))
    assert contents.remarks == ("1 object of it hold no colour",)


BOMB: Final = b"""<?xml version="1.0"?><!DOCTYPE CxF [<!ENTITY a "mud mud mud">
<!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;">]>
<CxF xmlns="http://colorexchangeformat.com/CxF3-core">&c;</CxF>"""
OUTSIDE: Final = b"""<?xml version="1.0"?><!DOCTYPE CxF [<!ENTITY a SYSTEM "file:///etc/hostname">]>
<CxF xmlns="http://colorexchangeformat.com/CxF3-core">&a;</CxF>"""
DTD: Final = b"""<!DOCTYPE CxF SYSTEM "http://127.0.0.1:1/a.dtd">
<CxF xmlns="http://colorexchangeformat.com/CxF3-core"/>"""


@pytest.mark.parametrize("content", [BOMB, OUTSIDE, DTD])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-16"])
def test_a_document_type_is_refused_before_anything_is_built(content: bytes, encoding: str) -> None:
    with pytest.raises(UnreadableFile, match="declares a document type or entities"):
        _read(content.decode().encode(encoding))


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (
            cxf(cxf_object("S1", cxf_spectrum()))[:-20],
            "damaged or cut off: line 13: unclosed token",
        ),
        (cxf("")[:40], "damaged or cut off"),
        (cxf("<Object>&a;</Object>"), "undefined entity"),
        (cxf(""), "holds no objects"),
        (cxf(cxf_object("S1") + cxf_object("S2")), "holds 2 objects, none with a colour"),
        (b"<CxF/>", r"XML of another kind \(CxF\); it takes CxF3"),
        (
            b"<html><body/></html>",
            r"XML of another kind \(html\); it takes CxF3 \(ISO 17972-1\), C",
        ),
        (b"<a>" * 200 + b"</a>" * 200, "nested more than 100 deep"),
        (b'<?xml version="1.0" encoding="tide"?><CxF/>', "an encoding that cannot be read"),
        (b'<?xml version="1.0" encoding="utf-8"?><CxF a="\xff"/>', "damaged or cut off"),
        (b"", "is empty"),
        (b"\x89PNG\r\n\x1a\n\x00\x00", "none of the files that readings are taken from; it takes"),
        (b" " * (LARGEST + 1), "is larger than 20 MB"),
    ],
    ids=range(13),
)
def test_a_file_that_is_no_cxf_is_refused_in_one_sentence(content: bytes, said: str) -> None:
    with pytest.raises(UnreadableFile, match=said) as refused:
        _read(content)
    assert "\n" not in str(refused.value)


def test_the_real_chart_has_the_lab_of_its_own_spectra(collected: Collected) -> None:
    contents = _read(collected("sample.cxf"))
    assert len(contents.samples) == 144
    apart = []
    for sample in contents.samples:
        assert sample.spectrum is not None
        assert sample.lab is not None
        lab = reflectance_to_lab(sample.spectrum, *sample.lab.white)
        apart.append(cie76(sample.lab.coordinates, lab.coordinates))
        assert (sample.spectrum.start, sample.spectrum.end) == (380.0, 680.0)
    assert max(apart) <= 0.15
    assert sample.how.read_on == date(2007, 6, 14)


EDGE: Final = {
    "minimal_cxf.cxf": "holds no objects",
    "multiple_objects.cxf": "holds 10 objects, none with a colour",
    "custom_spectrum_irregular.cxf": "are not equally far apart",
}


@pytest.mark.parametrize("name", EDGE)
def test_a_real_file_without_a_reading_is_refused(name: str, collected: Collected) -> None:
    with pytest.raises(UnreadableFile, match=EDGE[name]):
        _read(collected(name))


def test_real_boundaries_of_spectra(collected: Collected) -> None:
    contents = _read(collected("spectral_data_boundaries.cxf"))
    (sample,) = contents.samples
    assert sample.spectrum is not None
    assert (sample.name, max(sample.spectrum.values)) == ("Fluorescent Material", 2.95)
    assert [fault.reason for fault in contents.faults] == [
        "reflectance at 364 nm is -0.09, below zero; calibrate the instrument and read it again",
        "its spectrum has fewer than two wavelengths",
    ]


def test_real_geometries_are_named_and_lamps_refused(collected: Collected) -> None:
    contents = _read(collected("geometry_edge_cases.cxf"))
    assert [sample.how.geometry for sample in contents.samples] == [
        "multi-angle 15as, 25as, 45as",
        "multi-angle 15as30az, 25as60az",
        "X",
        "d/8, specular excluded",
    ]
    assert [sample.lab.white for sample in contents.samples if sample.lab] == [
        ("D65", 2), ("D50", 10), ("A", 2), ("D65", 2),
    ]  # fmt: skip
    assert "which one is not said" in contents.samples[0].remarks[0]
    assert [fault.name for fault in contents.faults] == ["Emissive Mode Sample"]


def test_real_names_in_every_script_can_be_printed(collected: Collected) -> None:
    names = [sample.name for sample in _read(collected("unicode_special_characters.cxf")).samples]
    assert len(names) == 12
    assert all(name.isprintable() and name == name.strip() for name in names)
    assert names[0] == "Color™ • 漢字 & Ñoño"
    assert names[5] == "<XML> \"Quotes\" & 'Apostrophes'"
    assert names[10:] == ["Zero Width: abcd", "Control: Tab NewLine CarriageReturn"]


def test_the_24_patches_have_the_published_colours() -> None:
    # BabelColor averages (2012), tests/published/README.md: xyY published beside the spectra.
    with (PUBLISHED / "babelcolor_average_24.csv").open("rb") as file:
        contents = read_measurements(file.read(), "chart.csv")
    with (PUBLISHED / "babelcolor_average_24.csv").open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    apart = []
    for row, sample in zip(rows, contents.samples, strict=True):
        assert sample.name == row["patch"]
        assert sample.spectrum is not None
        published = float(row["L_ref"]), float(row["a_ref"]), float(row["b_ref"])
        apart.append(cie76(reflectance_to_lab(sample.spectrum).coordinates, published))
    assert len(apart) == 24
    assert sum(apart) / 24 <= 0.06
