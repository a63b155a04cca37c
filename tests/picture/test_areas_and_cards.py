"""Swatch areas: what is refused, what is noted; and reading by a grey card or paper alone."""

from dataclasses import replace
from functools import cache

import numpy as np
import numpy.typing as npt
import pytest

from studio.colour.lab_arrays import Floats, delta_e
from studio.errors import BadInput
from studio.picture.area_reading import read_area
from studio.picture.card_reading import ERROR, CardReading, read_card
from studio.picture.chart_reading import ChartReading, read_chart
from studio.picture.decoding import Picture, from_bytes
from studio.picture.sampling import area_sample
from studio.picture.spots import Spot, spot_of_area
from tests.picture.scene import (
    AREAS,
    CORNERS,
    PAPER,
    PAPERS,
    Light,
    chart_24,
    lab_of,
    png,
    render,
    swatch_spectra,
)

WHITE = lab_of(PAPER[None])[0]
TRUE = lab_of(np.array(list(swatch_spectra().values())))
SCALE = 0.6


@cache
def scene(light: Light) -> Picture:
    return from_bytes(render(light, scale=SCALE), "tide.png")


@cache
def by_chart() -> ChartReading:
    return read_chart(scene(Light()), chart_24(), CORNERS * SCALE)


def place(area: tuple[int, int, int, int]) -> Spot:
    return spot_of_area(",".join(str(round(n * SCALE)) for n in area), 540, 384)


def colours(picture: Picture, basis: CardReading | ChartReading) -> Floats:
    return np.array(
        [read_area(picture, name, place(area), basis).lab for name, area in AREAS.items()]
    )


def flat(colour: tuple[int, int, int]) -> Picture:
    pixels: npt.NDArray[np.uint8] = np.full((60, 60, 3), colour, np.uint8)
    return from_bytes(png(pixels), "tide.png")


def refusal(picture: Picture, spot: Spot, basis: CardReading | ChartReading) -> str:
    with pytest.raises(BadInput) as refused:
        read_area(picture, "S12", spot, basis)
    return str(refused.value)


def test_areas_that_cannot_be_read_are_refused() -> None:
    spot = Spot(10, 10, 30, 30, "area 10,10,30,30 px")
    assert refusal(flat((90, 90, 90)), Spot(1, 1, 4, 30, ""), by_chart()).startswith(
        "the area of S12 is 4 x 30 pixels, and 5 x 5 are needed"
    )
    assert refusal(flat((255, 90, 90)), spot, by_chart()).startswith(
        "S12 is overexposed or catches glare: 100 % of its pixels are at full scale"
    )
    assert refusal(flat((0, 90, 90)), spot, by_chart()).startswith(
        "S12 lies outside the picture's colour space: 100 % of its pixels have a channel at 0"
    )
    assert refusal(flat((252, 252, 252)), spot, by_chart()).startswith(
        "S12 reads lighter than white (L* 10"
    )


def test_what_reads_as_no_colour_is_refused() -> None:
    broken = replace(
        by_chart().fit.correction, matrix=by_chart().fit.correction.matrix * [1, 1, -9]
    )
    basis = replace(by_chart(), fit=replace(by_chart().fit, correction=broken))
    spot = Spot(10, 10, 30, 30, "")
    assert "reads as no colour" in refusal(flat((30, 30, 200)), spot, basis)


def test_a_varied_area_and_one_beyond_the_patches_are_noted() -> None:
    pixels = np.full((60, 60, 3), 150, np.uint8)
    pixels[:, 30:] = (90, 110, 160)
    spot = Spot(4, 4, 50, 50, "")
    varied = read_area(from_bytes(png(pixels), "x"), "S12", spot, by_chart())
    assert varied.spread > 3
    assert varied.notes[0].startswith("it varies by ΔE00 ")
    dark = read_area(flat((18, 18, 18)), "S12", spot, by_chart())
    assert dark.notes == ("it is darker than every patch that counts: less sure",)
    lit = by_chart()
    lit = replace(
        lit,
        patches=tuple(
            replace(p, refusal="it is covered") if "white" in p.name else p for p in lit.patches
        ),
    )
    light = read_area(flat((238, 238, 238)), "S12", spot, lit)
    assert light.notes == ("it is lighter than every patch that counts: less sure",)


def test_an_area_far_from_chart_and_paper_is_noted() -> None:
    wide = np.full((300, 3000, 3), 150, np.uint8)
    read = read_area(from_bytes(png(wide), "x"), "S12", Spot(2900, 20, 50, 50, ""), by_chart())
    assert read.notes == ("the light was not seen so far out: lay it nearer to the chart",)


@pytest.mark.parametrize("light", [Light(), Light("A"), Light("LED-B3"), Light(tone=0.6)], ids=str)
def test_paper_alone_reads_within_the_larger_error(light: Light) -> None:
    basis = read_card(scene(light), [place(PAPERS[0])], tuple(WHITE.tolist()))
    errors = delta_e(colours(scene(light), basis), TRUE)
    assert errors.mean() < ERROR
    sample = area_sample(scene(light), place(PAPERS[0]))
    np.testing.assert_allclose(
        basis.lab(sample.linear, np.array(place(PAPERS[0]).middle)), WHITE, atol=1e-6
    )


def test_paper_at_three_places_evens_the_light() -> None:
    light = Light(falloff=(0.5, 0.3), exposure=0.7)
    spots = [place(area) for area in PAPERS]
    one = read_card(scene(light), spots[:1], tuple(WHITE.tolist()))
    four = read_card(scene(light), spots, tuple(WHITE.tolist()))
    assert four.falloff.share > 0.2
    assert one.falloff.share == 0
    of_one, of_four = (delta_e(colours(scene(light), basis), TRUE) for basis in (one, four))
    assert of_four.mean() < of_one.mean()


def test_a_grey_card_reads_as_the_grey_it_is() -> None:
    basis = read_card(flat((118, 121, 110)), [Spot(10, 10, 20, 20, "")], (49.5, 0.0, 0.0))
    read = read_area(flat((118, 121, 110)), "S12", Spot(10, 10, 20, 20, ""), basis)
    np.testing.assert_allclose(read.lab, (49.5, 0, 0), atol=1e-9)
    assert read.notes == ()


def test_a_card_that_shows_nothing_is_refused() -> None:
    spot = Spot(10, 10, 20, 20, "area 10,10,20,20 px")
    with pytest.raises(BadInput, match="the picture is overexposed at area 10,10,20,20 px: 100 %"):
        read_card(flat((255, 250, 250)), [spot], (96.0, 0.0, 0.0))
    with pytest.raises(BadInput, match="black at area 10,10,20,20 px; point at the grey card"):
        read_card(flat((0, 10, 10)), [spot], (96.0, 0.0, 0.0))
