"""Two real photographs go through target pick, palette and grid by the command line.

What is expected of them was seen by eye: a blue sky over a pagoda, an orange flower before dark
leaves. Colours are held against Pillow's own means of the same pixels.
"""

import json
import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image
from pypdf import PdfReader

from studio.colour.difference import ciede2000
from studio.colour.lab import Lab
from studio.colour.srgb import srgb_to_lab
from tests.conftest import Run
from tests.open_data.photographs import HOW_TO_GET, NAMES, SIZE, photograph, wheel

if not wheel().is_file():
    pytest.skip(HOW_TO_GET.format(path=wheel()), allow_module_level=True)


@pytest.fixture
def photographs(tmp_path: Path) -> dict[str, str]:
    """The two files, by their names."""
    for name in NAMES:
        (tmp_path / name).write_bytes(photograph(name))
    return {name: str(tmp_path / name) for name in NAMES}


@pytest.fixture
def demo(run: Run, demo_db: Path) -> Any:
    """The JSON of a command line in the demo studio."""

    def parse(*words: str) -> Any:
        outcome = run("target", *words, "--json", db=demo_db)
        assert outcome.status == 0, outcome.err
        return json.loads(outcome.out)

    return parse


@pytest.mark.parametrize("place", ["20%,10%", "60%,15%", "75%,65%"])
def test_an_even_spot_is_near_the_mean_of_its_pixels(
    place: str, demo: Any, photographs: dict[str, str]
) -> None:
    picked = demo("pick", photographs["china.jpg"], "--at", place, "--size", "3%")
    assert picked["spread_delta_e"] < 3
    assert not picked["varied"]
    spot = picked["spot"]
    with Image.open(photographs["china.jpg"]) as image:
        assert image.size == SIZE
        box = (
            spot["left"],
            spot["top"],
            spot["left"] + spot["width"],
            spot["top"] + spot["height"],
        )
        pixels = np.asarray(image.crop(box), dtype=float).reshape(-1, 3)
    red, green, blue = map(float, pixels.mean(axis=0) / 255)
    mean = srgb_to_lab((red, green, blue))
    lightness, a, b = picked["lab"]
    assert ciede2000((lightness, a, b), mean) < 1.5


def test_the_flower_is_orange_and_its_leaves_dark_and_green(
    demo: Any, photographs: dict[str, str]
) -> None:
    petal = Lab(*demo("pick", photographs["flower.jpg"], "--at", "45%,45%", "--size", "1%")["lab"])
    leaf = Lab(*demo("pick", photographs["flower.jpg"], "--at", "8%,50%")["lab"])
    assert 35 < petal.hue < 80
    assert petal.chroma > 40
    assert 150 < leaf.hue < 220
    assert leaf.lightness < 45
    assert demo("pick", photographs["flower.jpg"], "--at", "25%,87%")["reach"]["outside"]


@pytest.mark.parametrize("name", NAMES)
def test_a_palette_repeats_itself_adds_up_and_covers_the_picture(
    name: str, demo: Any, photographs: dict[str, str], tmp_path: Path
) -> None:
    png = tmp_path / "palette.png"
    found = demo("palette", photographs[name], "-n", "8", "--png", str(png))
    assert found == demo("palette", photographs[name], "-n", "8")
    colours = found["colours"]
    assert sum(colour["share"] for colour in colours) == pytest.approx(1.0, abs=1e-5)
    assert all(colour["share"] > 0.01 for colour in colours)
    others = demo("palette", photographs[name], "-n", "8", "--seed", "1")["colours"]
    # Another start comes to nearly the same colours where the picture really has them.
    for colour in colours[:2]:
        nearest = min(ciede2000(tuple(colour["lab"]), tuple(other["lab"])) for other in others)
        assert nearest < 6
    # Most lie where they are said to lie: no other main colour is nearer to the few pixels there.
    own = 0
    for number, colour in enumerate(colours):
        at = f"{colour['x_percent']}%,{colour['y_percent']}%"
        there = demo("pick", photographs[name], "--at", at, "--size", "3")["lab"]
        apart = [math.dist(there, other["lab"]) for other in colours]
        own += apart[number] == min(apart)
    assert own >= 6
    with Image.open(png) as image:
        assert image.width > 1600


@pytest.mark.parametrize("name", NAMES)
def test_a_photograph_is_squared_up_for_a_sheet(
    name: str, demo: Any, photographs: dict[str, str], tmp_path: Path
) -> None:
    png, pdf = tmp_path / "grid.png", tmp_path / "grid.pdf"
    grid = demo(
        "grid", photographs[name], "--paper", "ECP", "--png", str(png), "--pdf", str(pdf)
    )  # fmt: skip
    sides = grid["sheet_width_mm"], grid["sheet_height_mm"]
    assert sides[0] > sides[1]
    assert grid["kept"]["width"] / grid["kept"]["height"] == pytest.approx(
        sides[0] / sides[1], rel=0.005
    )
    (page,) = PdfReader(pdf).pages
    assert float(page.mediabox.width) * 25.4 / 72 == pytest.approx(sides[0], abs=0.01)
    with Image.open(png) as image:
        assert image.info["dpi"] == pytest.approx((300, 300), abs=0.1)
