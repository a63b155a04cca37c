"""Whatever bytes come, a parser gives samples or raises its own documented error."""

import contextlib
from typing import Final

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.formats.cgats import read_cgats
from studio.formats.measurement_file import read_measurements
from studio.formats.sample import Contents, UnreadableFile
from studio.formats.tables import read_table
from tests.formats.conftest import Collected
from tests.formats.files import (
    MUD,
    WAVELENGTHS,
    cgats,
    cxf,
    cxf_lab,
    cxf_object,
    cxf_spectrum,
    spdx,
)

ROWS: Final[list[list[object]]] = [["S1", 41, 2, -12, *MUD], ["S2", 42, 2, -12, *MUD]]
FIELDS: Final[list[str]] = [
    "SAMPLE_ID",
    "LAB_L",
    "LAB_A",
    "LAB_B",
    *(f"nm{nm}" for nm in WAVELENGTHS),
]
TABLE: Final[list[list[object]]] = [[*FIELDS], *ROWS]
WRITTEN: Final = {
    "cxf": cxf(cxf_object("S1", cxf_spectrum(), cxf_lab(41, 2, -12))),
    "cgats": cgats(FIELDS, ROWS, header=['ILLUMINANT "D65"', 'CREATED "5/4/2026"']).encode(),
    "rows": "\n".join(",".join(str(cell) for cell in row) for row in TABLE).encode(),
    "wavelengths": "".join(
        f"{nm} {value}\n" for nm, value in zip(WAVELENGTHS, MUD, strict=True)
    ).encode(),
    "spdx": spdx(list(zip(WAVELENGTHS, MUD, strict=True))),
}
PIECES: Final = (
    b"", b"\x00", b"\xff", b"<", b">", b'"', b"\t", b"\n", b",", b";", b"#", b"-", b".", b"1e999",
    b"nan", b"inf", b"9", b"\xc2\xb0", b"\xb0", b"&a;", b"</", b"BEGIN_DATA\n", b"END_DATA\n",
    b"END_DATA_FORMAT\n", b"<Object>", b"\xef\xbb\xbf", b"\xff\xfe", b"xsi:nil='true'",
    "\N{ARABIC-INDIC DIGIT FOUR}".encode(), b"_", b"0x1", b"1_000", b"999999999999999999999",
)  # fmt: skip


def _check(content: bytes) -> None:
    with contextlib.suppress(UnreadableFile):
        contents = read_measurements(content, "creek")
        assert isinstance(contents, Contents)
        assert contents.samples
        for sample in contents.samples:
            assert sample.name
            assert sample.name.isprintable()
            assert sample.spectrum or sample.lab
    for parser in (read_cgats, read_table):
        with contextlib.suppress(UnreadableFile):
            parser(content, "creek")


@st.composite
def damaged(draw: st.DrawFn, whole: bytes) -> bytes:
    """A file with some places cut, overwritten or doubled."""
    content = whole
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(content)))
        length = draw(st.sampled_from((0, 1, 2, 7, 40, 400)))
        piece = draw(
            st.sampled_from(PIECES) | st.binary(max_size=6) | st.just(content[at : at + 30])
        )
        content = content[:at] + piece + content[at + length :]
    return content[: draw(st.integers(0, len(content)))] if draw(st.booleans()) else content


@given(st.binary(max_size=300))
def test_any_bytes(content: bytes) -> None:
    _check(content)


@given(
    st.text(
        alphabet=st.sampled_from('CGATS.17BEGINDATAFORM_END \t\n"#nm380L*ab,;0.5-'), max_size=300
    )
)
def test_any_text_of_their_words(text: str) -> None:
    _check(text.encode())


@pytest.mark.parametrize("kind", WRITTEN)
@settings(max_examples=150)
@given(data=st.data())
def test_damaged_files(kind: str, data: st.DataObject) -> None:
    _check(data.draw(damaged(WRITTEN[kind])))


@pytest.mark.parametrize(
    "name",
    ["multiple_objects.cxf", "spectral_data_boundaries.cxf", "geometry_edge_cases.cxf",
     "custom_spectrum_irregular.cxf", "unicode_special_characters.cxf", "minimal_cxf.cxf",
     "X-Rite_Digital_Colour_Checker.txt", "Fluorescent.spdx"],
)  # fmt: skip
@settings(max_examples=40)
@given(data=st.data())
def test_damaged_real_files(name: str, data: st.DataObject, collected: Collected) -> None:
    _check(data.draw(damaged(collected(name))))


def test_the_files_that_are_damaged_here_are_whole_before() -> None:
    for content in WRITTEN.values():
        assert read_measurements(content, "creek").samples
