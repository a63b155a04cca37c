"""studio target: from the reference picture to match, in words, JSON, PNG and PDF."""

import io
import json
import shlex
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image
from pypdf import PdfReader

from tests.cli.conftest import Does, Refuses
from tests.conftest import Run

SKY, MUD, SAIL = (180, 205, 225), (102, 88, 66), (230, 30, 20)
PNG = b"\x89PNG\r\n\x1a\n"


@pytest.fixture
def creek(tmp_path: Path) -> str:
    """A picture of 80 x 60 pixels: sky above mud, and a red sail in C2 and C3."""
    pixels = np.empty((60, 80, 3), np.uint8)
    pixels[:30], pixels[30:] = SKY, MUD
    pixels[20:40, 44:56] = SAIL
    path = tmp_path / "creek.png"
    Image.fromarray(pixels).save(path)
    return str(path)


Parsed = Any


@pytest.fixture
def demo(run: Run, demo_db: Path) -> Any:
    """`demo("target", "list")`: the JSON of a command line in the demo studio."""

    def parse(*words: str) -> Parsed:
        outcome = run(*words, "--json", db=demo_db)
        assert outcome.status == 0, outcome.err
        return json.loads(outcome.out)

    return parse


REACH = {"known", "outside", "beyond", "nearest_lab", "swatches_near"}
PICTURE = {"name", "width", "height", "notes"}
BOX = {"left", "top", "width", "height"}
COLOUR = {"lab", "srgb", "srgb_exact", "srgb_delta_e"}


def test_a_spot_is_picked_named_and_matched(demo: Any, creek: str) -> None:
    picked = demo("target", "pick", creek, "--at", "10%,75%", "--name", "Mud under the hull")
    assert picked["target"] == "mud under the hull"
    assert picked["srgb"] == "#665842"
    assert picked["spread_delta_e"] == 0
    assert picked["varied"] is False
    assert picked["spot"] == {"left": 7, "top": 44, "width": 3, "height": 3}
    assert picked["place"] == "at 10%,75%, 3 x 3 px"
    assert picked["cell"] == "A4 top left"
    matched = demo("match", "mud", "under", "the", "hull")
    assert matched["target"]["lab"] == picked["lab"]
    assert matched["target"]["note"].endswith("from creek.png at 10%,75%, 3 x 3 px")
    assert matched["matches"][0]["swatch"] == picked["nearest"]["swatch"]
    assert matched["matches"][0]["delta_e"] == picked["nearest"]["delta_e"]
    (listed,) = demo("target", "list")
    shown = demo("target", "show", "HULL")
    assert {**listed, "reach": shown["reach"], "nearest": shown["nearest"]} == shown
    assert (listed["picture"], listed["spread_delta_e"]) == ("creek.png", 0)


def test_json_names_are_as_documented(demo: Any, creek: str, tmp_path: Path) -> None:
    picked = demo("target", "pick", creek, "--at", "60%,55%", "--name", "sail", "--note", "dry")
    assert picked.keys() == COLOUR | {
        "target", "picture", "spread_delta_e", "varied", "place", "spot", "cell", "reach",
        "nearest",
    }  # fmt: skip
    assert picked["picture"].keys() == PICTURE
    assert picked["spot"].keys() == BOX
    assert picked["reach"].keys() == REACH
    assert picked["nearest"].keys() == {"swatch", "mix", "delta_e"}
    shown = demo("target", "show", "sail")
    assert shown.keys() == COLOUR | {
        "target", "spread_delta_e", "place", "picture", "created_on", "note", "reach", "nearest",
        "removed_on", "removed_because",
    }  # fmt: skip
    assert shown["note"] == "dry"
    palette = demo("target", "palette", creek, "-n", "3")
    assert palette.keys() == {"picture", "kept", "seed", "colours"}
    assert palette["colours"][0].keys() == COLOUR | {
        "target", "share", "spread_delta_e", "x_percent", "y_percent", "cell", "reach",
    }  # fmt: skip
    png, pdf = tmp_path / "grid.png", tmp_path / "grid.pdf"
    grid = demo("target", "grid", creek, "--sheet", "40x60cm", "--png", str(png), "--pdf", str(pdf))
    assert grid.keys() == {
        "picture", "kept", "cells", "sheet_width_mm", "sheet_height_mm", "cell_width_mm",
        "cell_height_mm",
    }  # fmt: skip
    assert grid["kept"] == {"left": 0, "top": 3, "width": 80, "height": 54}
    assert (grid["sheet_width_mm"], grid["cell_width_mm"]) == (600, 150)
    assert png.read_bytes().startswith(PNG)
    assert len(PdfReader(io.BytesIO(pdf.read_bytes())).pages) == 1


def test_a_colour_that_paint_did_not_reach_is_told_at_once(
    run: Run, demo_db: Path, tmp_path: Path
) -> None:
    path = tmp_path / "night.png"
    Image.new("RGB", (40, 30), (5, 5, 6)).save(path)
    outcome = run("target", "pick", str(path), "--cell", "B3", db=demo_db)
    assert outcome.status == 0
    text = " ".join(outcome.out.split())
    assert "outside what your paint on paper has reached: L* 1.4 is darker than the" in text
    assert "dry swatches (S" in text
    assert "nearest #" in text
    Image.new("RGB", (40, 30), (255, 0, 0)).save(path)
    text = " ".join(run("target", "pick", str(path), "--cell", "B3", db=demo_db).out.split())
    assert "is more intense than any of" in text
    assert "swatches near this hue and value (h ±15°, L* ±10; S" in text
    Image.new("RGB", (40, 30), (255, 255, 255)).save(path)
    text = " ".join(run("target", "pick", str(path), "--cell", "B3", db=demo_db).out.split())
    assert "is lighter than your lightest paper" in text


def test_a_spot_of_several_colours_is_told_to_be_too_large(
    run: Run, demo_db: Path, creek: str
) -> None:
    text = run("target", "pick", creek, "--area", "40%,20%,20%,50%", db=demo_db).out
    text = " ".join(text.split())
    assert "pick a smaller or more even spot" in text
    text = run("target", "pick", creek, "--area", "5,5,9,9", db=demo_db).out
    assert "this spot varies by ΔE00 0.0 (mean)\n" in text
    assert "pick a smaller" not in text


def test_cells_follow_the_paper_that_is_painted_on(demo: Any, creek: str) -> None:
    whole = demo("target", "pick", creek, "--cell", "A1")
    kept = demo("target", "pick", creek, "--cell", "A1", "--sheet", "100x100mm")
    assert whole["spot"] == {"left": 0, "top": 0, "width": 20, "height": 15}
    assert kept["spot"] == {"left": 10, "top": 0, "width": 15, "height": 15}
    off = demo("target", "pick", creek, "--at", "2,2", "--sheet", "100x100mm")
    assert off["cell"] is None
    named = demo("target", "pick", creek, "--cell", "F6", "--paper", "ECP", "--cells", "6")
    assert named["cell"] == "F6 bottom right"


def test_the_palette_is_recorded_under_numbers(demo: Any, creek: str, tmp_path: Path) -> None:
    png = tmp_path / "palette.png"
    found = demo("target", "palette", creek, "-n", "3", "--name", "Creek", "--png", str(png))
    assert [colour["target"] for colour in found["colours"]] == ["creek 1", "creek 2", "creek 3"]
    assert {colour["srgb"] for colour in found["colours"]} == {"#b4cde1", "#665842", "#e61e14"}
    assert sum(colour["share"] for colour in found["colours"]) == pytest.approx(1.0, abs=1e-5)
    assert found == demo("target", "palette", creek, "-n", "3", "--name", "again") | {
        "colours": [
            {**colour, "target": f"creek {number}"}
            for number, colour in enumerate(
                demo("target", "palette", creek, "-n", "3")["colours"], start=1
            )
        ]
    }
    assert len(demo("target", "list")) == 6
    for colour in found["colours"]:
        place = f"{colour['x_percent']}%,{colour['y_percent']}%"
        assert demo("target", "pick", creek, "--at", place)["srgb"] == colour["srgb"]
    assert png.read_bytes().startswith(PNG)


def test_views_in_words(run: Run, demo_db: Path, creek: str) -> None:
    text = run("target", "palette", creek, "-n", "3", "--name", "creek", db=demo_db).out
    assert "recorded as creek 1 to creek 3" in text
    assert "creek.png: it has no colour profile and is taken for sRGB" in text
    assert "more intense" in text
    assert max(map(len, text.splitlines())) <= 80
    text = run("target", "list", db=demo_db).out
    assert all(f"creek {number}" in text for number in (1, 2, 3))
    assert max(map(len, text.splitlines())) <= 80
    text = run("target", "show", "creek 1", db=demo_db).out
    assert "creek.png" in text
    assert "value " in text
    text = run("target", "grid", creek, "--paper", "ECP", "--cells", "8", db=demo_db).out
    assert "8 x 8 cells, A1 to H8, of 95.25 x 69.88 mm on the paper" in text
    assert "of the picture is left out" in text


def test_a_typed_colour_is_added_and_shown(does: Does) -> None:
    assert "No target has a name yet" in does("target", "list").out
    shown = does("target", "add", "Hull Shadow", "#5b5f6e", "--note", "late light").out
    assert "hull shadow" in shown
    assert "late light" in shown
    assert "no dry swatch is on record" in " ".join(shown.split())
    assert "typed" in does("target", "list").out
    assert "Nothing recorded" not in does("match", "hull shadow").out
    added = json.loads(does("target", "add", "grey hull", "hull shadow", "--json").out)
    assert added["srgb"] == "#5b5f6e"
    assert added["nearest"] is None
    assert added["reach"]["known"] is False


def test_picking_may_begin_a_studio(run: Run, creek: str, tmp_path: Path) -> None:
    db = tmp_path / "new.sqlite3"
    assert run("target", "pick", creek, "--at", "5,5", db=db).status == 5
    assert not db.exists()
    assert run("target", "pick", creek, "--at", "5,5", "--name", "sky", db=db).status == 0
    assert run("target", "show", "sky", db=db).status == 0


def test_a_swatch_is_logged_for_a_target(shelf: Does) -> None:
    shelf("target", "add", "mud under the hull", "#9a8a70")
    shelf("swatch", "log", "2 FU + 1 BS", "--lab", "41,2,-12", "--for", "Mud under the hull")
    (swatch,) = json.loads(shelf("swatch", "list", "--json").out)
    assert swatch["target"] == "Mud under the hull"
    (target,) = json.loads(shelf("target", "list", "--json").out)
    assert swatch["target_lab"] == target["lab"]
    text = " ".join(shelf("target", "show", "mud").out.split())
    assert "not known: no dry swatch has this hue and value (h ±15°, L* ±10)" in text


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ("pick {creek}", "say where to pick, by one of: --at 40%,62%"),
        ("pick {creek} --at 5,5 --cell B3", "say where to pick, by one of"),
        ("pick {creek} --cell B3 --size 5%", "--size is the square around a point"),
        ("pick {creek} --at 5,5 --note x", "give --name as well"),
        ("pick {creek} --at 80,5 --name x", "the point 80,5 lies outside the picture"),
        ("pick {creek} --area 5,5,0,5 --name x", "the area 5,5,0,5 is empty"),
        ("pick {creek} --area 70,5,20,5", "reaches beyond the picture, which is 80 x 60 pixels"),
        ("pick {creek} --cell E1 --name x", "is not on a grid of 4 x 4"),
        ("pick {creek} --at 5,5 --cells 0", "a grid has 1 to 26 cells a side"),
        ("pick {creek} --at 5,5 --name tan", "could be read as a colour"),
        ("pick {creek} --at 5,5 --paper HSR", "studio paper edit HSR --size 560x760mm"),
        ("pick {folder}/nothing.jpg --at 5,5 --name x", "there is no file"),
        ("pick {folder} --at 5,5", "is not a file; give the path of a picture"),
        ("pick {text} --at 5,5 --name x", "is not a picture that can be read"),
        ("pick {broken} --at 5,5 --name x", "is damaged"),
        ("palette {creek} -n 0", "ask for 1 to 40 colours, not 0"),
        ("palette {creek} -n 41 --name x", "ask for 1 to 40 colours, not 41"),
        ("palette {creek} -n 4 --name x", "does not hold 4 different colours; ask for at most 3"),
        ("palette {creek} -n 3 --seed -1", "the seed must be at least 0"),
        ("palette {creek} -n 3 --name n", "could be read as a colour"),
        ("palette {creek} -n 3 --name x --png {folder}/no/p.png", "cannot be written"),
        ("palette {text}", "is not a picture that can be read"),
        ("grid {creek}", "name the paper you paint on with --paper"),
        ("grid {creek} --paper HSR", "is not on record; set it with: studio paper edit HSR"),
        ("grid {creek} --sheet 0x3mm", "each side of the sheet in mm must be at least 10"),
        ("grid {creek} --sheet large", "write it like 560x760mm"),
        ("grid {creek} --size 30x40cm --cells 27", "a grid has 1 to 26 cells a side, not 27"),
        ("grid {creek} --size 30x40cm --png {folder}/no/g.png", "cannot be written"),
        ("add S12 tan", "could be read as a colour or the code of a swatch"),
        ("add '  ' tan", "the name of the target is empty"),
        ("add mud #estuary", "is not a CSS colour"),
    ],
)  # fmt: skip
def test_bad_input_is_refused_and_nothing_recorded(
    words: str, sentence: str, refuses: Refuses, creek: str, tmp_path: Path
) -> None:
    text, broken = tmp_path / "notes.txt", tmp_path / "broken.png"
    text.write_text("low tide at ten\n")
    broken.write_bytes(Path(creek).read_bytes()[:90])
    line = words.format(creek=creek, folder=tmp_path, text=text, broken=broken)
    assert sentence in refuses(3, "target", *shlex.split(line))


@pytest.mark.parametrize(
    "words",
    [
        "target show nosuch",
        "target add mud S9999",
        "target add mud estuary",
        "target grid {creek} --paper nosuch",
    ],
)
def test_what_is_not_there_is_told_so(words: str, refuses: Refuses, creek: str) -> None:
    assert refuses(4, *shlex.split(words.format(creek=creek)))


def test_a_file_that_may_not_be_read_is_told_so(
    refuses: Refuses, creek: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = Path.read_bytes

    def denied(path: Path) -> bytes:
        if path == Path(creek):
            raise PermissionError(13, "Permission denied")
        return real(path)

    monkeypatch.setattr(Path, "read_bytes", denied)
    sentence = refuses(3, "target", "pick", creek, "--at", "5,5")
    assert sentence == f"{creek} cannot be read: permission denied"


def test_a_file_of_gigabytes_is_not_even_read(refuses: Refuses, tmp_path: Path) -> None:
    huge = tmp_path / "huge.png"
    with huge.open("wb") as file:
        file.truncate((1 << 30) + 1)  # a hole, which takes no room
    sentence = refuses(3, "target", "palette", str(huge))
    assert sentence == "huge.png is larger than 1 GiB; save it smaller"
