"""Pictures and steps on a page: in HTML, PDF and PNG."""

import base64
import io
from pathlib import Path
from typing import Final

import numpy as np
import pytest
from PIL import Image
from pypdf import PdfReader

from studio.colour.display import on_screen
from studio.sheets.blocks import Held, Illustration, Page, Paragraph, Step, Steps
from studio.sheets.page_html import html_of
from studio.sheets.page_parts import OUTSIDE, plain
from studio.sheets.page_pdf import pdf_of
from studio.sheets.page_png import sheets_png
from studio.sheets.writing import write_page
from tests.sheets.pages import HOSTILE, KELP, MUD, page_of, read_html

POINTS_A_MM: Final = 72 / 25.4
STEP: Final = Step(
    "3  mud",
    "flat wash",
    (
        Held(MUD, MUD, "3a wanted", "mix A, card S12", ("2 parts of this",)),
        Held(MUD, None, "3b wanted", "test swatch needed", ("nothing is near",)),
    ),
    ("Wait until it is dry.",),
)


def _jpeg(width: int, height: int) -> bytes:
    file = io.BytesIO()
    Image.new("RGB", (width, height), (90, 120, 60)).save(file, "JPEG")
    return file.getvalue()


def _illustration(width: int = 400, height: int = 300) -> Illustration:
    return Illustration(_jpeg(width, height), width, height, "a creek", "creek.png")


def _sheets(page: Page) -> list[str]:
    reader = PdfReader(io.BytesIO(pdf_of(page).content))
    return [" ".join(sheet.extract_text().split()) for sheet in reader.pages]


def test_two_colours_stand_side_by_side_with_what_they_are_below() -> None:
    root = read_html(html_of(page_of(Steps((STEP,)))))
    (ground, other) = [e for e in root.all("div") if e.attributes["class"] == "ground"]
    kinds = [each.attributes["class"] for each in ground.inside if not isinstance(each, str)]
    assert kinds == ["colour", "colour"]
    kinds = [each.attributes["class"] for each in other.inside if not isinstance(each, str)]
    assert kinds == ["colour", "empty"]
    (step,) = root.all("li")
    assert [each.text for each in step.all("p")] == [
        "flat wash",
        *("3a wanted", "mix A, card S12", "2 parts of this"),
        *("3b wanted", "test swatch needed", "nothing is near"),
        "Wait until it is dry.",
    ]
    assert [each.text for each in step.all("h3")] == ["3  mud"]


def test_the_colours_are_lab_with_srgb_to_fall_back_on_and_marked_outside() -> None:
    held = Held(KELP, MUD, "wanted", "mix A")
    root = read_html(html_of(page_of(Steps((Step("1", "", (held,)),)))))
    patches = [each for each in root.all("div") if each.attributes.get("role") == "img"]
    assert [each.attributes["class"] for each in patches] == ["colour outside", "colour"]
    assert patches[0].attributes["style"].startswith(f"--srgb: {on_screen(KELP).hex}; --lab: lab(")
    assert [e.text for e in root.all("p") if "wanted" in e.text] == ["*8.8 wanted"]
    assert root.text.count(OUTSIDE) == 1
    (text,) = _sheets(page_of(Steps((Step("1", "", (held,)),))))
    assert "*8.8 wanted" in text
    assert text.count("outside sRGB") == 1


def test_names_in_steps_and_pictures_are_text() -> None:
    held = Held(MUD, MUD, HOSTILE, HOSTILE, (HOSTILE,))
    picture = Illustration(_jpeg(4, 3), 4, 3, HOSTILE, HOSTILE)
    page = page_of(picture, Steps((Step(HOSTILE, HOSTILE, (held,), (HOSTILE,)),)))
    root = read_html(html_of(page))
    assert not root.all("script")
    (image,) = root.all("img")
    assert image.attributes["alt"] == plain(HOSTILE)
    assert [each.text for each in root.all("h3")] == [plain(HOSTILE)]
    assert [each.text for each in root.all("p")].count(plain(HOSTILE)) == 5
    assert pdf_of(page).content.startswith(b"%PDF")


def test_a_picture_is_part_of_the_file_and_only_such_pictures_may_be_shown() -> None:
    root = read_html(html_of(page_of(_illustration())))
    (image,) = root.all("img")
    kind, _, data = image.attributes["src"].partition(",")
    assert kind == "data:image/jpeg;base64"
    assert base64.b64decode(data) == _illustration().file
    assert (image.attributes["width"], image.attributes["height"]) == ("400", "300")
    policy = [m.attributes["content"] for m in root.all("meta") if "http-equiv" in m.attributes]
    assert policy == ["default-src 'none'; style-src 'unsafe-inline'; img-src data:"]


@pytest.mark.parametrize(("width", "height"), [(400, 300), (300, 900), (2000, 100)])
def test_a_printed_picture_keeps_its_proportions_and_stays_on_the_sheet(
    width: int, height: int
) -> None:
    document = pdf_of(page_of(_illustration(width, height))).content
    pixels = np.asarray(Image.open(io.BytesIO(sheets_png(document)[0]))).astype(int)
    green = np.abs(pixels - (90, 120, 60)).max(axis=2) < 12
    down, across = (np.flatnonzero(green.any(axis=axis)) for axis in (1, 0))
    tall, wide = np.ptp(down) + 1, np.ptp(across) + 1
    assert wide / tall == pytest.approx(width / height, rel=0.03)
    assert tall <= 109 / 25.4 * 150
    left, right = across[0], pixels.shape[1] - 1 - across[-1]
    assert abs(left - right) <= 3
    assert left >= 12.5 / 25.4 * 150


def test_steps_stand_in_order_and_none_is_cut() -> None:
    steps = tuple(
        Step(f"{number}  passage", f"technique {number}.", STEP.held, (f"end of {number}.",))
        for number in range(1, 12)
    )
    sheets = _sheets(page_of(Paragraph("before"), Steps(steps)))
    assert len(sheets) > 2
    assert "1 passage" in sheets[0]  # begins at once, below what stands before
    for number in range(1, 12):
        (where,) = [i for i, text in enumerate(sheets) if f"technique {number}." in text]
        assert f"end of {number}." in sheets[where]
    numbers = [number for text in sheets for number in range(1, 12) if f"end of {number}." in text]
    assert numbers == sorted(numbers)


def test_the_patches_of_a_printed_step_touch_and_have_the_colours_they_stand_for() -> None:
    held = Held(MUD, KELP, "wanted", "mix A")
    (png,) = sheets_png(pdf_of(page_of(Steps((Step("1", "", (held,)),)))).content)
    pixels = np.asarray(Image.open(io.BytesIO(png)).convert("RGB"))
    masks = [(pixels == on_screen(lab).rgb).all(axis=2) for lab in (MUD, KELP)]
    (rows, columns), (other_rows, other_columns) = (np.nonzero(mask) for mask in masks)
    assert np.ptp(rows) + 1 == pytest.approx(17 / 25.4 * 150, abs=3)
    assert 1 <= other_columns.min() - columns.max() <= 2
    assert abs(int(rows.min()) - int(other_rows.min())) <= 1


def test_every_sheet_is_a_png_that_says_it_is_srgb(tmp_path: Path) -> None:
    page = page_of(Steps((STEP,) * 12))
    paths = {kind: tmp_path / f"plan.{kind}" for kind in ("html", "pdf", "png")}
    written = write_page(page, html=paths["html"], pdf=paths["pdf"], png=paths["png"])
    count = len(PdfReader(paths["pdf"]).pages)
    assert count > 1
    pictures = [tmp_path / f"plan-{number}.png" for number in range(1, count + 1)]
    assert [each.path for each in written] == [paths["html"], paths["pdf"], *pictures]
    for path in pictures:
        picture = Image.open(io.BytesIO(path.read_bytes()))
        assert picture.height == pytest.approx(297 / 25.4 * 150, abs=1)
        assert picture.info["dpi"] == pytest.approx((150, 150), abs=0.1)
        assert picture.info["srgb"] == 0
    (one,) = write_page(page_of(Steps((STEP,))), html=None, pdf=None, png=paths["png"])
    assert one.path == paths["png"]


def _png() -> bytes:
    """Two pixels that a JPEG would run into one another."""
    file = io.BytesIO()
    picture = Image.new("RGB", (2, 1), (255, 0, 0))
    picture.putpixel((1, 0), (0, 0, 255))
    picture.save(file, "PNG")
    return file.getvalue()


def test_a_png_stays_one_and_its_pixels_exact() -> None:
    page = page_of(Illustration(_png(), 2, 1, "two patches", "chart"))
    (image,) = read_html(html_of(page)).all("img")
    assert image.attributes["src"] == f"data:image/png;base64,{base64.b64encode(_png()).decode()}"
    assert "style" not in image.attributes
    (printed,) = PdfReader(io.BytesIO(pdf_of(page).content)).pages[0].images
    assert printed.image is not None
    pixels = printed.image.convert("RGB")
    assert [pixels.getpixel((x, 0)) for x in (0, 1)] == [(255, 0, 0), (0, 0, 255)]


def test_a_wide_picture_is_moved_sideways_and_reached_by_keys() -> None:
    (block,) = [
        each
        for each in read_html(
            html_of(page_of(Illustration(_png(), 1800, 900, "chart", "chart", 1152)))
        ).all("div")
        if each.attributes.get("class") == "sideways"
    ]
    assert block.attributes["tabindex"] == "0"
    assert block.attributes["aria-label"]
    (image,) = block.all("img")
    assert image.attributes["style"] == "min-width: 1152px; max-width: 1800px"


def test_an_illustration_of_another_kind_is_refused() -> None:
    page = page_of(Illustration(b"GIF89a", 1, 1, "none", "none"))
    with pytest.raises(ValueError, match="a JPEG or a PNG"):
        html_of(page)
