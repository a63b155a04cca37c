"""Patches as the browser draws them: Lab where it can, sRGB where it cannot, ours where neither."""

import io
import random
import re
from importlib.resources import files
from pathlib import Path
from typing import Final

import colour
import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import Page as BrowserPage

from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets.blocks import Page, Patches
from studio.sheets.page_html import html_of
from tests.browser.conftest import Opens
from tests.browser.searching import ask

COUNT: Final = 120
D50: Final = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D50"]


def _drawn(count: int) -> list[Lab]:
    """Colours all over what sRGB can show."""
    chance = random.Random(11)  # noqa: S311 - colours to look at, always the same
    found: list[Lab] = []
    while len(found) < count:
        lab = Lab(chance.uniform(3, 98), chance.uniform(-80, 90), chance.uniform(-90, 90))
        if _expected(lab).min() > 0.0 and _expected(lab).max() < 255.0:
            found.append(lab)
    return found


def _expected(lab: Lab) -> np.ndarray:
    """Its three bytes, not yet rounded, by colour-science with the Bradford adaptation."""
    xyz = colour.Lab_to_XYZ(lab.coordinates, D50)
    encoded = colour.XYZ_to_sRGB(xyz, D50, chromatic_adaptation_transform="Bradford")
    return np.asarray(255.0 * encoded)


def _pixels(page: BrowserPage, patches: str) -> list[tuple[int, ...]]:
    """The colour in the middle of each patch, from screenshots."""
    pixels = []
    for patch in page.locator(patches).all():
        picture = Image.open(io.BytesIO(patch.screenshot())).convert("RGB")
        pixel = picture.getpixel((picture.width // 2, picture.height // 2))
        assert isinstance(pixel, tuple)
        pixels.append(pixel)
    return pixels


def _page_of(labs: list[Lab], file: Path, was: str = "", now: str = "") -> Path:
    written = html_of(Page("Patches", "", (Patches(tuple((lab, "a") for lab in labs)),), ""))
    changed = re.sub(was, now, written) if was else written
    assert (changed != written) is bool(was)
    file.write_text(changed, encoding="utf-8")
    return file


def test_lab_is_drawn_as_colour_science_has_it(tmp_path: Path, opens: Opens) -> None:
    """Within one step of 8 bits; the colours to fall back on are all black here."""
    labs = _drawn(COUNT)
    page = opens(_page_of(labs, tmp_path / "page.html", r"--srgb: #\w{6}", "--srgb: #000000"))
    for lab, pixel in zip(labs, _pixels(page, ".colour"), strict=True):
        assert np.abs(np.asarray(pixel) - _expected(lab)).max() <= 1.0, lab


def test_where_lab_is_not_known_srgb_is_shown(tmp_path: Path, opens: Opens) -> None:
    labs = _drawn(30)
    known = r"@supports \(color: lab\(50% 0 0\)\)"
    page = opens(_page_of(labs, tmp_path / "page.html", known, "@supports (color: tide(1 0 0))"))
    assert _pixels(page, ".colour") == [on_screen(lab).rgb for lab in labs]


def test_outside_srgb_the_nearest_colour_is_shown(tmp_path: Path, opens: Opens) -> None:
    """As studio/colour/display.py finds it, on a screen of sRGB."""
    kelp = Lab(60.0, -90.0, 40.0)
    page = opens(_page_of([kelp], tmp_path / "page.html"))
    assert _pixels(page, ".colour") == [on_screen(kelp).rgb]
    assert on_screen(kelp).mark in page.inner_text("figcaption")


def test_the_books_script_finds_the_same_nearest_colours(demo_book: Path, opens: Opens) -> None:
    """The bytes and how far off they are, of colours in and out of sRGB, some as far as can be."""
    chance = random.Random(23)  # noqa: S311 - colours to show, always the same
    labs = [
        Lab(chance.uniform(0, 100), chance.uniform(-128, 128), chance.uniform(-128, 128))
        for _ in range(400)
    ]
    labs += [Lab(91, 2, 99), Lab(0, 0, 0), Lab(100, 0, 0), Lab(100, 30, 40), Lab(0, -30, 40)]
    script = files("studio.sheets").joinpath("book_colour.js").read_text(encoding="utf-8")
    assert script in demo_book.read_text(encoding="utf-8")
    found = opens(demo_book).evaluate(
        f"all => {{ {script} return all.map(onScreen); }}", [list(lab.coordinates) for lab in labs]
    )
    outside = 0
    for lab, drawn in zip(labs, found, strict=True):
        shown = on_screen(lab)
        assert (drawn["hex"], drawn["inside"]) == (shown.hex, shown.in_gamut), lab
        assert drawn["off"] == pytest.approx(shown.off, abs=1e-9)
        outside += not shown.in_gamut
    assert outside > 200


@pytest.mark.parametrize("wanted", ["#767d63", "lab(60 -90 40)", "lab(20 5 -9)", "S112"])
def test_a_book_shows_what_is_sought_beside_what_was_found(
    wanted: str, demo_book: Path, opens: Opens
) -> None:
    page = opens(demo_book)
    (first, *_) = ask(page, wanted)
    sought, found = _pixels(page, "#shown figure:first-child .colour")
    lab = _exact(page, first.code)
    assert np.abs(np.asarray(found) - on_screen(lab).rgb).max() <= 1
    asked = {
        "#767d63": (0x76, 0x7D, 0x63),
        "lab(60 -90 40)": on_screen(Lab(60, -90, 40)).rgb,
        "lab(20 5 -9)": on_screen(Lab(20, 5, -9)).rgb,
        "S112": on_screen(_exact(page, "S112")).rgb,
    }[wanted]
    assert np.abs(np.asarray(sought) - asked).max() <= 1


def _exact(page: BrowserPage, code: str) -> Lab:
    said = page.get_attribute(f"#{code}", "data-lab")
    assert said is not None
    lightness, a, b = map(float, said.split(" "))
    return Lab(lightness, a, b)
