"""A page as HTML: whole, of one file, in greys, and deaf to what names hold."""

import re
from typing import Final

import pytest
from coloraide.css.color_names import name2val_map
from hypothesis import given
from hypothesis import strategies as st

from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.sheets.blocks import Bullets, Chips, Grid, Heading, NewSheet, Page, Paragraph, Patches
from studio.sheets.page_html import html_of
from studio.sheets.page_parts import OUTSIDE, plain
from studio.sheets.page_style import STYLE
from tests.sheets.pages import (
    HOSTILE,
    KELP,
    LONG_WORD,
    MUD,
    Element,
    page_full_of,
    page_of,
    read_html,
)

KNOWN_TAGS: Final = {
    *("html", "head", "meta", "title", "style", "body", "header", "main", "footer", "section"),
    *("h1", "h2", "span"),
    *("p", "ul", "li", "div", "figure", "figcaption", "table", "colgroup", "col"),
    *("thead", "tbody", "tr", "th", "td"),
}


def _only(root: Element, tag: str) -> Element:
    (found,) = root.all(tag)
    return found


def test_a_page_has_language_title_viewport_and_one_heading_above_its_sections() -> None:
    root = read_html(html_of(page_of(Heading("Stock"), Paragraph("two tubes"))))
    assert _only(root, "html").attributes["lang"] == "en"
    assert _only(root, "title").text == "Sluice paints"
    metas = {
        meta.attributes.get("name"): meta.attributes.get("content") for meta in root.all("meta")
    }
    assert metas["viewport"] == "width=device-width, initial-scale=1"
    assert any(meta.attributes.get("charset") == "utf-8" for meta in root.all("meta"))
    assert _only(root, "h1").text == "Sluice paints"
    assert _only(root, "footer").text.strip() == "Read the label of each tube."


def test_blocks_keep_their_order_and_stand_in_the_section_of_their_heading() -> None:
    root = read_html(
        html_of(page_of(Paragraph("first"), Heading("A"), Bullets(("b", "c")), Heading("D")))
    )
    assert _only(root, "main").text.split() == [
        "Sluice",
        "paints",
        "25",
        "Nov",
        "2026",
        "first",
        *"AbcD",
    ]
    sections = root.all("section")
    assert [_only(each, "h2").text for each in sections] == ["A", "D"]
    for section in sections:
        assert section.attributes["aria-labelledby"] == _only(section, "h2").attributes["id"]


def test_paragraphs_that_must_not_be_missed_and_remarks_differ() -> None:
    root = read_html(
        html_of(page_of(Paragraph("a"), Paragraph("b", strong=True), Paragraph("c", small=True)))
    )
    kinds = {each.text: each.attributes.get("class") for each in root.all("p")}
    assert (kinds["a"], kinds["b"], kinds["c"]) == (None, "strong", "small")


@pytest.mark.parametrize("text", [HOSTILE, LONG_WORD, "tide\u202eedit", "a\x00b\x1bc", "\ud800"])
def test_a_name_is_text_wherever_it_stands(text: str) -> None:
    written = html_of(page_full_of(text))
    written.encode()
    root = read_html(written)
    assert {each.tag for each in root.every} <= KNOWN_TAGS
    shown = plain(text)
    assert [each.text for tag in ("title", "h1", "h2") for each in root.all(tag)] == [shown] * 3
    assert [each.text for each in root.all("li")] == [shown] * 4
    assert _only(root, "header").text.strip("\n") == shown
    assert [each.text for each in root.all("td")] == [shown, "1", shown]
    assert root.all("td")[0].attributes["data-label"] == root.all("th")[0].text == shown
    assert [each.text for each in root.all("figcaption")] == [shown, f"*8.8 {shown}"]
    assert _only(root, "style").text == STYLE


@given(st.text())
def test_any_text_at_all_comes_back_as_it_was(text: str) -> None:
    root = read_html(html_of(page_full_of(text)))
    assert _only(root, "main").all("p")[1].text == plain(text)
    assert {each.tag for each in root.every} <= KNOWN_TAGS
    assert not any(name.startswith("on") for each in root.every for name in each.attributes)


def test_nothing_is_fetched_and_no_script_runs() -> None:
    root = read_html(html_of(page_full_of("https://example.org/sheet.pdf")))
    names = {name for each in root.every for name in each.attributes}
    assert not names & {"src", "href", "srcset", "action", "data", "background", "poster"}
    assert re.findall(r"url\(|@import|image-set|expression", STYLE) == []
    policy = [m.attributes["content"] for m in root.all("meta") if "http-equiv" in m.attributes]
    assert policy == ["default-src 'none'; style-src 'unsafe-inline'"]


def test_every_colour_of_the_style_is_a_grey() -> None:
    codes = re.findall(r"#([0-9a-fA-F]{3,8})\b", STYLE)
    assert len(codes) > 5
    for code in codes:
        assert re.fullmatch(r"([0-9a-f]{2})\1\1", code), code
    assert re.findall(r"(?:rgb|hsl|hwb|lch|oklab|oklch|color)\(", STYLE) == []
    assert set(re.findall(r"\blab\([^)]*\)", STYLE)) == {"lab(50% 0 0)"}
    values = " ".join(re.findall(r":\s*([^;{}]*)[;}]", STYLE)).lower()
    assert not set(re.findall(r"[a-z]+", values)) & set(name2val_map)


def _luminance(code: str) -> float:
    """Relative luminance of a grey `#rrggbb` (WCAG 2.2)."""
    channel = int(code[1:3], 16) / 255
    return channel / 12.92 if channel <= 0.04045 else float(((channel + 0.055) / 1.055) ** 2.4)


def test_all_text_stands_out_from_its_ground() -> None:
    grounds = re.findall(r"body \{[^}]*background: (#\w{6})", STYLE)
    texts = re.findall(r"[;{\s]color: (#\w{6})", STYLE)
    assert grounds == ["#f4f4f4", "#ffffff"]
    assert len(texts) > 3
    for ground in grounds:
        for text in texts:
            contrast = (_luminance(ground) + 0.05) / (_luminance(text) + 0.05)
            assert contrast >= 4.5, (text, ground)


def test_a_patch_is_lab_with_srgb_to_fall_back_on() -> None:
    root = read_html(html_of(page_of(Patches(((MUD, "creek mud"),)))))
    (patch,) = [each for each in root.all("div") if each.attributes.get("role") == "img"]
    assert patch.attributes["style"] == (
        f"--srgb: {on_screen(MUD).hex}; --lab: lab(41.00% 2.00 -12.00)"
    )
    assert patch.attributes["class"] == "colour"
    assert patch.attributes["aria-label"]
    assert ".colour { height: 11rem; background: var(--srgb); }" in STYLE
    assert "@supports (color: lab(50% 0 0)) { .colour { background: var(--lab); } }" in STYLE
    assert _only(root, "figcaption").text == "creek mud"
    assert OUTSIDE not in root.text


def test_a_colour_outside_srgb_is_marked_and_the_mark_explained_once() -> None:
    root = read_html(html_of(page_of(Patches(((KELP, "kelp"), (MUD, "mud"), (KELP, "weed"))))))
    assert [each.text for each in root.all("figcaption")] == ["*8.8 kelp", "mud", "*8.8 weed"]
    assert root.text.count(OUTSIDE) == 1
    kinds = [
        each.attributes["class"] for each in root.all("div") if each.attributes.get("role") == "img"
    ]
    assert kinds == ["colour outside", "colour", "colour outside"]


@pytest.mark.parametrize(("count", "size"), [(1, "one"), (2, "two"), (3, "few"), (7, "many")])
def test_few_patches_are_larger_than_many(count: int, size: str) -> None:
    patches = tuple((Lab(50, 0, number), str(number)) for number in range(count))
    root = read_html(html_of(page_of(Patches(patches))))
    assert [
        e.attributes["class"] for e in root.all("div") if "patches" in e.attributes["class"]
    ] == [f"patches {size}"]
    assert len(root.all("figure")) == count


def test_a_table_names_its_columns_and_numbers_stand_to_the_right() -> None:
    grid = Grid(
        ("code", "paint", "left"), (("FU", "Ultramarine", "11.5"),), (1, 4, 2), frozenset({2})
    )
    root = read_html(html_of(page_of(Heading("Stock"), grid)))
    assert [(th.attributes["scope"], th.text) for th in root.all("th")] == [
        ("col", "code"),
        ("col", "paint"),
        ("col", "left"),
    ]
    assert [td.attributes.get("class") for td in root.all("td")] == [None, None, "number"]
    assert root.all("th")[2].attributes["class"] == "number"
    assert ".number { text-align: right;" in STYLE
    table = _only(root, "table")
    assert table.attributes["aria-labelledby"] == _only(root, "h2").attributes["id"]
    assert [table.all("thead")[0].all("tr")[0].text] == ["codepaintleft"]
    widths = [float(c.attributes["style"].removeprefix("width: ")[:-1]) for c in root.all("col")]
    assert sum(widths) == pytest.approx(100, abs=0.1)
    assert widths[1] == max(widths)


def test_a_table_before_any_heading_is_named_by_the_page() -> None:
    root = read_html(html_of(page_of(Grid(("code",), (("FU",),)))))
    assert _only(root, "table").attributes["aria-labelledby"] == _only(root, "h1").attributes["id"]


@pytest.mark.parametrize(
    ("columns", "cell", "kind"),
    [
        (2, "mud" * 20, "table pair"),
        (3, "mud\nmud mud", "table slim"),
        (5, "mud mu", "table slim"),
        (5, "mud mud", "table stack"),
    ],
)
def test_wide_tables_are_stacked_on_a_phone(columns: int, cell: str, kind: str) -> None:
    root = read_html(html_of(page_of(Grid(("a",) * columns, ((cell,) * columns,)))))
    assert kind in [each.attributes.get("class") for each in root.all("div")]


def test_only_a_long_table_may_be_cut_on_paper() -> None:
    for rows, kind in ((20, "table pair"), (21, "table pair long")):
        root = read_html(html_of(page_of(Grid(("a", "b"), (("c", "d"),) * rows))))
        assert kind in [each.attributes.get("class") for each in root.all("div")]
    assert ".table { overflow: visible; break-inside: avoid; }" in STYLE
    assert ".table.long { break-inside: auto; }" in STYLE
    assert "thead { display: table-header-group; }" in STYLE
    assert "tr { break-inside: avoid; }" in STYLE


def test_the_notice_stands_before_the_title_and_on_every_printed_sheet() -> None:
    page = Page("Sluice paints", "25 Nov 2026", (), "foot", notice="Read the label & ask.")
    root = read_html(html_of(page))
    body = [each for each in _only(root, "body").inside if isinstance(each, Element)]
    assert [each.tag for each in body] == ["header", "main", "footer"]
    assert body[0].text.strip() == "Read the label & ask."
    assert "header { display: table-header-group; break-inside: avoid; }" in STYLE
    assert read_html(html_of(page_of())).all("header") == []


def test_a_new_sheet_begins_a_printed_page_and_what_fits_has_a_scale() -> None:
    page = page_of(Paragraph("a"), NewSheet(fits=True), Heading("B"), NewSheet(), Paragraph("c"))
    root = read_html(html_of(page))
    runs = [e for e in root.all("div") if e.attributes.get("class", "").startswith("run")]
    assert [e.attributes["class"] for e in runs] == ["run", "run fits", "run"]
    assert [e.attributes.get("style") for e in runs] == [None, "--scale: 1.0000", None]
    assert ".run + .run { break-before: page;" in STYLE


def test_a_wide_page_lies_across_the_printed_sheet() -> None:
    wide = read_html(html_of(Page("a", "b", (), "c", wide=True)))
    assert _only(wide, "body").attributes["class"] == "wide"
    assert "@page wide { size: A4 landscape;" in STYLE
    assert ".wide { page: wide; }" in STYLE


def test_small_patches_stand_before_their_lines_and_none_where_there_is_no_colour() -> None:
    rows = (("mud\nreeds", "x"), ("<kelp>", "y"))
    grid = Grid(("paints", "b"), rows, chips=((MUD, None), (KELP,)))
    root = read_html(html_of(page_of(grid, Chips(((MUD, "creek"),)))))
    lines = [e for e in root.all("span") if e.attributes.get("class") == "line"]
    assert [e.text for e in lines] == ["mud", "reeds", "<kelp>", "creek"]
    chips = [e.all("span")[0].attributes for e in lines]
    assert [chip["class"] for chip in chips] == [
        "chip colour",
        "chip",
        "chip colour outside",
        "chip colour",
    ]
    assert f"--srgb: {on_screen(MUD).hex}" in chips[0]["style"]


def test_a_cell_reaches_over_the_rows_that_go_on_with_its_own() -> None:
    rows = (("SG", "PY150", "a"), ("", "PG36", "b"), ("", "PBk7", ""), ("CB", "PB28", "c"))
    grid = Grid(("paint", "pigment", "note"), rows, joined=frozenset({1, 2}))
    body = _only(read_html(html_of(page_of(grid))), "tbody").all("tr")
    assert [[cell.text for cell in row.all("td")] for row in body] == [
        ["SG", "PY150", "a"],
        ["PG36", "b"],
        ["PBk7", ""],
        ["CB", "PB28", "c"],
    ]
    assert [row.attributes.get("class") for row in body] == [
        "goes-on",
        "goes-on joined",
        "joined",
        None,
    ]
    assert [cell.attributes.get("rowspan") for cell in body[0].all("td")] == ["3", None, None]


def test_a_caption_of_several_texts_has_a_line_for_each_and_the_first_is_bold() -> None:
    root = read_html(html_of(page_of(Patches(((KELP, ("S3", HOSTILE, "box 1")),), many=True))))
    assert _only(root, "b").text == "*8.8 S3"
    caption = _only(root, "figcaption")
    assert len(caption.all("br")) == 2
    assert caption.text == f"*8.8 S3{plain(HOSTILE)}box 1"
    kinds = [each.attributes.get("class") for each in root.all("div")]
    assert "patches many" in kinds
