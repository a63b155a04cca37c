"""studio painting: from the first passage to the record, each step undone and repeated exactly."""

import json
import shlex
from pathlib import Path
from typing import Any, Final

import numpy as np
import pytest
from PIL import Image
from pypdf import PdfReader

from tests.cli.conftest import Does, Refuses
from tests.conftest import Outcome, Run
from tests.servers import fingerprint
from tests.storage.test_history import dump

SKY, MUD = (180, 205, 225), (102, 88, 66)


@pytest.fixture
def creek(tmp_path: Path) -> str:
    """A picture of 80 x 60 pixels: sky above mud."""
    pixels = np.empty((60, 80, 3), np.uint8)
    pixels[:30], pixels[30:] = SKY, MUD
    path = tmp_path / "creek.png"
    Image.fromarray(pixels).save(path)
    return str(path)


@pytest.fixture
def begun(shelf: Does, creek: str) -> Does:
    """The shelf with the painting P1, its passages sky, mud and a pool over the mud."""
    shelf("painting", "start", "Low water", "--paper", "SR", "--size", "380x285mm",
          "--reference", creek)  # fmt: skip
    shelf("painting", "passage", "add", "P1", "sky", "--technique", "graded wash",
          "--at", "50%,20%", "--share", "40%")  # fmt: skip
    shelf("painting", "passage", "add", "P1", "mud", "--cell", "B4", "--colour", "#5b5f6e",
          "--share", "50 %", "--layers", "2", "--no-wait")  # fmt: skip
    shelf("painting", "passage", "add", "P1", "pool", "--over", "mud", "--colour", "5PB 4/2")
    return shelf


def _shown(does: Does, *more: str) -> Any:
    return json.loads(does("painting", "show", "P1", *more, "--json").out)


def test_a_painting_is_planned_tested_and_shown(begun: Does) -> None:
    said = begun(
        "painting", "test", "P1", "mud", "2 FU + 1 BS", "--lab", "48,3,17", "--water", "3:1",
        "--kept", "box 1",
    )  # fmt: skip
    assert "try 1: ΔE00 " in said.out
    assert "what to add: studio adjust S1\n" in said.out
    said = begun("painting", "test", "P1", "mud", "1 FU + 2 BS", "--lab", "38,3,14")
    assert said.out.splitlines()[-1].startswith("try 2: ΔE00 ")
    assert "nearer than try 1 (" in said.out
    assert "; within ΔE00 3, it passes" in said.out
    swatch = json.loads(begun("swatch", "show", "S1", "--json").out)
    assert (swatch["target"], swatch["layers"], swatch["application"]) == (
        "P1 mud", 2, "flat wash",
    )  # fmt: skip
    assert (swatch["paper"], swatch["kept_at"]) == ("SR", "box 1")
    shown = _shown(begun)
    assert (shown["colours"], shown["matched"]) == (4, 1)
    sky, mud, pool = shown["passages"]
    assert sky["colours"][0]["at"] == [0.50625, 0.208333]
    assert sky["colours"][0]["srgb"] == "#b4cde1"
    assert (mud["share"], mud["layers"], mud["dry_before_next"]) == (0.5, 2, False)
    assert [each["swatch"] for each in mud["colours"][0]["tries"]] == ["S1", "S2"]
    assert mud["colours"][0]["nearest"] == "S2"
    assert (pool["over"], pool["colours"][0]["given"]) == ("mud", "5PB 4/2")
    assert _shown(begun, "mud") == mud
    text = begun("painting", "show", "P1").out
    assert "  2. mud\n     flat wash, 50% of the area, 2 layers, no wait before the next\n" in text
    assert "2 tries, nearest S2 " in text
    assert "on bare paper: 90% of the painted area\n" in text
    history = begun("painting", "show", "P1", "mud").out
    assert history.index("  try 1  ") < history.index("  try 2  ")
    assert 'studio painting test P1 "mud" "2 FU + 1 BS"' in history
    lines = [line for line in (text + history).splitlines() if not line.startswith("  picture ")]
    assert max(map(len, lines)) <= 80  # a path is never broken


def test_a_swatch_on_record_is_held_against_a_colour(begun: Does) -> None:
    begun("swatch", "log", "BS", "--lab", "40,1,-9", "--paper", "SR")
    said = json.loads(
        begun("painting", "test", "P1", "mud", "--swatch", "s1", "--which", "2", "--json").out
    )
    assert (said["swatch"], said["number"], said["try"]) == ("S1", 2, 1)
    outcome = begun("painting", "test", "P1", "sky", "--swatch", "S1")
    assert 'studio adjust S1 "lab(' in outcome.out


def test_a_swatch_on_another_paper_is_taken_and_told_of(begun: Does) -> None:
    begun("paper", "add", "Rough Rag", "--maker", "Eddering Mill")
    begun("swatch", "log", "BS", "--lab", "40,1,-9", "--paper", "Rough Rag")
    told = begun("painting", "test", "P1", "mud", "--swatch", "S1").err
    assert told == ("studio: S1 lies on Eddering Mill Rough Rag, not on the painting's paper\n")


def test_finishing_books_and_keeps_the_record(begun: Does, tmp_path: Path) -> None:
    begun("painting", "test", "P1", "sky", "FU", "--lab", "81,-4,-12", "--kept", "box 1")
    assert "no paint was booked" not in begun(
        "painting", "finish", "P1", "--used", "FU=1.2", "--paper-used", "0.5", "--final", "sky=S1"
    ).err  # fmt: skip
    assert json.loads(begun("paint", "show", "FU", "--json").out)["left_ml"] == 12.8
    assert json.loads(begun("paper", "show", "SR", "--json").out)["left_sheets"] == 9.5
    record = json.loads(begun("painting", "record", "P1", "--json").out)
    mix = record["passages"][0]["colours"][0]["mix"]
    assert (mix["swatch"], mix["kept_at"], mix["named"]) == ("S1", "box 1", True)
    assert mix["paints"][0]["name"] == "French Ultramarine"
    assert record["passages"][1]["colours"][0]["mix"] is None
    text = begun("painting", "record", "P1").out
    assert "No mix is on record for: mud, pool.\n" in text
    assert max(map(len, text.splitlines())) <= 80
    html, pdf = tmp_path / "record.html", tmp_path / "record.pdf"
    begun("painting", "record", "P1", "--html", str(html), "--pdf", str(pdf))
    page = html.read_text(encoding="utf-8")
    printed = "\n".join(sheet.extract_text() for sheet in PdfReader(pdf).pages)
    for words in ("French Ultramarine", "how to mix each colour", "card S1", "not tested"):
        assert words in " ".join(page.split())
        assert words in " ".join(printed.split())


def test_a_painting_beyond_its_sheet_is_told_of_and_recorded(shelf: Does) -> None:
    told = shelf("painting", "start", "Wall", "--paper", "SR", "--size", "90x70cm")
    assert told.out == "P1  Wall\n"
    assert told.err == (
        "studio: P1: 900 x 700 mm is larger than a sheet of Eddering Mill Slipway Rag "
        "(558.8 x 762 mm)\n"
    )


STEPS: Final = (
    "painting start Ebb --paper SR --size 200x100mm",
    "painting edit P1 --title 'High water' --within 4 --note 'for the yard'",
    "painting passage add P1 reeds --technique 'dry brush' --colour '#222222' --first",
    "painting passage edit P1 mud --name 'wet mud' --share 20% --layers 1 --wait",
    "painting passage colour P1 sky --at 10%,90% --colour '#123456'",
    "painting passage colour P1 mud --drop 1",
    "painting passage colour P1 mud --restore 1",
    "painting passage move P1 sky --last",
    "painting passage remove P1 pool --because 'too busy'",
    "painting passage restore P1 pool",
    "painting test P1 mud FU --lab 40,2,-3 --used 0.1",
    "painting test P1 pool --swatch S1",
    "painting finish P1 --used FU=1 --paper-used 1",
    "painting remove P1 --because torn",
    "painting restore P1",
)


def test_every_step_is_undone_and_repeated_to_the_last_bit(begun: Does, empty_db: Path) -> None:
    states = [dump(empty_db)]
    for line in STEPS:
        begun(*shlex.split(line))
        states.append(dump(empty_db))
        assert states[-1] != states[-2], line
    for before in reversed(states[:-1]):
        begun("undo")
        assert dump(empty_db) == before
    for after in states[1:]:
        begun("redo")
        assert dump(empty_db) == after
    assert begun("db", "check").out.endswith("no faults found\n")


def test_everything_of_a_painting_is_exported_and_imported_to_the_last_bit(
    begun: Does, run: Run, empty_db: Path, tmp_path: Path
) -> None:
    for line in STEPS:
        begun(*shlex.split(line))
    begun("export", str(tmp_path / "whole"))
    other = tmp_path / "other.sqlite3"
    assert run("import", str(tmp_path / "whole"), db=other).status == 0
    assert dump(other) == dump(empty_db)
    for words in (("show", "P1"), ("record", "P1"), ("list",)):
        there = run("painting", *words, "--json", db=other)
        assert there.out == begun("painting", *words, "--json").out
    assert run("db", "check", db=other).out.endswith("no faults found\n")


REFUSED: Final = {
    3: {
        "painting start '' --paper ECP --size 380x280mm": "the title is empty",
        "painting start Ebb --paper ECP --size 380": "size '380' is not clear",
        "painting start Ebb --paper ECP --size 1x1mm": "each side of the painting in mm",
        "painting start Ebb --paper ECP --size 38x28cm --within 0": "must be above 0",
        "painting start Ebb --paper ECP --size 38x28cm --code P1": "code P1 is taken",
        "painting start Ebb --paper ECP --size 38x28cm --reference none.jpg": "there is no file",
        "painting start Ebb --size 38x28cm": "the paper is missing; give --paper",
        "painting start Ebb --paper ECP": "the size is missing; give --size",
        "painting start": "the title is missing",
        "painting edit P2": "say what to change",
        "painting edit P2 --another": "--another goes with a picture",
        "painting edit P2 --within 101": "at most 100",
        "painting edit P2 --on 2030-01-01": "lies in the future",
        "painting passage add P1 reeds": "P1 was finished on 2026-10-31",
        "painting passage edit P1 mud --layers 2": "P1 was finished on 2026-10-31",
        "painting passage move P1 mud --first": "P1 was finished on 2026-10-31",
        "painting passage remove P1 mud": "P1 was finished on 2026-10-31",
        "painting passage restore P1 mud": "P1 was finished on 2026-10-31",
        "painting passage colour P1 mud --drop 1": "P1 was finished on 2026-10-31",
        "painting passage add P2 reeds --technique poured": "technique 'poured' is not known",
        "painting passage add P2 reeds --share 0.12": "write it in percent, such as 12%",
        "painting passage add P2 reeds --share much": "write it in percent, such as 12%",
        "painting passage add P2 reeds --share 0%": "the share in percent must be above 0",
        "painting passage add P2 reeds --share 12%": "take 101% of the painted area",
        "painting passage add P2 reeds --layers 0": "the number of layers",
        "painting passage add P2 reeds --colour '#nosuch'": "write a colour like",
        "painting passage add P2 reeds --at 140%,5%": "lies outside the picture",
        "painting passage add P2 reeds --size 3%": "--size is the square around a point",
        "painting passage add P2 reeds --over mud --first": "which therefore comes before it",
        "painting passage add P2 reeds --after mud --first": "say where in one way",
        "painting passage add P2 MUD": "P2 has a passage 'MUD' already",
        "painting passage edit P2 mud": "say what to change",
        "painting passage edit P2 mud --over shadow": "which therefore comes before it",
        "painting passage move P2 mud": "say where: --before or --after",
        "painting passage move P2 mud --last": "which therefore comes before it",
        "painting passage remove P2 mud": "lies over 'mud'; remove that one first",
        "painting passage colour P2 mud": "say which colour",
        "painting passage colour P2 mud --drop 1 --restore 1": "not two of these at once",
        "painting passage colour P2 mud --drop 3": "has the colours 1 to 2",
        "painting passage colour P2 mud --restore 1": "has no dropped colour to bring back",
        "painting test P2 mud": "the recipe is missing",
        "painting test P2 mud FU": "the colour as L*,a*,b* is missing",
        "painting test P2 mud FU --lab 40,0,0 --which 3": "has the colours 1 to 2, and not 3",
        "painting test P2 weed FU --lab 40,0,0": "no colour was chosen for 'weed on the posts'",
        "painting test P2 hull --swatch S193": "S193 is try 2 for 'hull' already",
        "painting test P2 hull FU --swatch S13": "S13 is on record already",
        "painting test P2 hull --swatch S13 --lab 40,0,0": "S13 is on record already",
        "painting finish P1": "P1 was finished on 2026-10-31 already",
        "painting finish P2 --on 2026-11-01": "P2 was begun on 2026-11-07, after that day",
        "painting finish P2 --used FU": "write paints with their ml",
        "painting finish P2 --used FU=much": "write paints with their ml",
        "painting finish P2 --used FU=-1": "write paints with their ml",
        "painting finish P2 --used FU=1,FU=2": "FU is named twice",
        "painting finish P2 --used FU=0": "the amount must be above 0",
        "painting finish P2 --used FU=1,BS=900": "book a purchase, or correct",
        "painting finish P2 --used FU=1 --paper-used 900": "book a purchase, or correct",
        "painting finish P2 --final hull": "write a passage and its swatch",
        "painting finish P2 --final hull=S13": "S13 was not tested for 'hull'",
        "painting record P2": "P2 has no record yet",
        "painting restore P2": "P2 was not removed",
    },
    4: {
        "painting show P9": "studio painting list",
        "painting show aground weeds": "P2 has no passage 'weeds'",
        "painting start Ebb --paper nosuch --size 38x28cm": "studio paper list",
        "painting passage add P9 reeds": "studio painting list",
        "painting passage add P2 reeds --colour nosuch": "nothing is called 'nosuch'",
        "painting passage add P2 reeds --over nosuch": "P2 has no passage 'nosuch'",
        "painting passage add P2 reeds --colour S9999": "studio swatch list",
        "painting passage move P2 mud --before nosuch": "P2 has no passage 'nosuch'",
        "painting passage restore P2 reeds": "P2 has no removed passage",
        "painting test P2 nosuch FU --lab 40,0,0": "P2 has no passage 'nosuch'",
        "painting test P2 hull --swatch S9999": "studio swatch list",
        "painting test P2 hull '1 nosuch + 1 FU' --lab 40,0,0": "studio paint list",
        "painting finish P2 --used nosuch=1": "studio paint list",
        "painting restore P9": "studio painting list --removed",
    },
}


@pytest.mark.parametrize(
    ("status", "line", "said"),
    [(status, line, said) for status, lines in REFUSED.items() for line, said in lines.items()],
)
def test_what_cannot_be_is_refused_in_one_sentence(
    status: int, line: str, said: str, refuses: Refuses
) -> None:
    assert said in refuses(status, *shlex.split(line))


def test_a_moved_picture_is_asked_for_or_read_from_its_copy(
    begun: Does, creek: str, tmp_path: Path
) -> None:
    Path(creek).rename(tmp_path / "moved.png")
    told = begun("painting", "passage", "colour", "P1", "pool", "--at", "10%,90%")
    assert told.err == (
        f"studio: {creek} is not there any more; the copy that the studio keeps of it was read\n"
    )
    begun("painting", "edit", "P1", "--reference", str(tmp_path / "moved.png"))
    assert begun("painting", "passage", "colour", "P1", "pool", "--at", "50%,20%").err == ""


def test_names_from_the_owner_are_escaped_on_the_page(shelf: Does, tmp_path: Path) -> None:
    shelf("painting", "start", "<script>x</script>", "--paper", "SR", "--size", "38x28cm")
    shelf("painting", "passage", "add", "P1", "<b>sky</b>", "--colour", "#5b5f6e")
    shelf("painting", "finish", "P1")
    shelf("painting", "record", "P1", "--html", str(tmp_path / "record.html"))
    page = (tmp_path / "record.html").read_text(encoding="utf-8")
    assert "<script>x" not in page
    assert "<b>sky" not in page
    assert "&lt;b&gt;sky" in page


def test_looking_at_paintings_changes_nothing(run: Run, demo_db: Path) -> None:
    before = fingerprint(demo_db)
    looks: list[Outcome] = [
        run("painting", *words, db=demo_db)
        for words in (("list",), ("list", "--removed"), ("show", "P1"), ("show", "P2", "hull"),
                      ("record", "low water"))
    ]  # fmt: skip
    assert [(look.status, look.err) for look in looks] == [(0, "")] * len(looks)
    assert looks[1].out.startswith("No painting yet")
    assert fingerprint(demo_db) == before
