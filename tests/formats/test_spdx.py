"""IES TM-27 documents, through colour-science."""

from collections.abc import Callable
from typing import Final

import pytest

from studio.formats.measurement_file import read_measurements
from studio.formats.sample import Contents, Kind, UnreadableFile
from tests.formats.files import MUD, MUD_SPECTRUM, WAVELENGTHS, spdx

POINTS: Final = list(zip(WAVELENGTHS, MUD, strict=True))


def _read(content: bytes) -> Contents:
    return read_measurements(content, "mud.spdx")


@pytest.mark.parametrize("quantity", ["reflectance", "R-Factor", "Reflectance"])
def test_a_reflectance_is_a_sample_named_by_its_file(quantity: str) -> None:
    contents = _read(spdx(POINTS, quantity))
    assert contents.kind is Kind.SPDX
    (sample,) = contents.samples
    assert (sample.name, sample.spectrum, sample.lab) == ("mud", MUD_SPECTRUM, None)


def test_percent_are_told_and_divided() -> None:
    contents = _read(spdx([(nm, round(100 * value, 2)) for nm, value in POINTS]))
    assert contents.samples[0].spectrum is not None
    assert contents.samples[0].spectrum.values == pytest.approx(MUD)
    assert contents.remarks == ("reflectance is in percent and was divided by 100",)


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (spdx(POINTS, "flux"), "its spectrum is 'flux', the light of a lamp"),
        (spdx(POINTS[:1]), "mud.spdx: "),
        (spdx([]), "mud.spdx: "),
        (spdx([(nm, -value) for nm, value in POINTS]), "at 380 nm is -0.05, below zero"),
        (spdx([*POINTS, (float("inf"), 0.5)]), "wavelengths or values of its spectrum"),
        (spdx([*POINTS[:4], *POINTS[5:]]), "missing between 410 and 430 nm"),
        (spdx([*POINTS, (740, float("nan"))]), "values of its spectrum is not a number"),
        (spdx(POINTS).replace(b'wavelength="400"', b'nm="400"'), "not written as IES TM-27 has it"),
        (spdx(POINTS).replace(b'wavelength="400"', b'wavelength="x"'), "not written as IES TM-27"),
        (spdx(POINTS).replace(b' xmlns="iestm2714"', b""), "not written as IES TM-27 has it"),
        (spdx(POINTS)[:-30], "damaged or cut off"),
    ],
    ids=range(11),
)
def test_what_is_no_reflectance_in_equal_steps_is_refused(content: bytes, said: str) -> None:
    with pytest.raises(UnreadableFile, match=said) as refused:
        _read(content)
    assert "\n" not in str(refused.value)


def test_a_real_lamp_is_no_swatch(collected: Callable[[str], bytes]) -> None:
    with pytest.raises(UnreadableFile, match="its spectrum is 'relative', the light of a lamp"):
        _read(collected("Fluorescent.spdx"))
