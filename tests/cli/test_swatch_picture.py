"""studio swatch log|read --picture: from a picture to readings, and what is refused."""

import io
import json
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from studio.colour.lab_arrays import delta_e
from tests.cli.conftest import Does, Refuses
from tests.conftest import Run
from tests.picture.scene import AREAS, Light, lab_of, png, render, swatch_spectra

SCALE = 0.6
TRUE = lab_of(np.array(list(swatch_spectra().values())))


def typed(area: tuple[int, int, int, int]) -> str:
    return ",".join(str(round(number * SCALE)) for number in area)


@pytest.fixture(scope="module")
def tide(tmp_path_factory: pytest.TempPathFactory) -> str:
    path = tmp_path_factory.mktemp("pictures") / "tide.png"
    path.write_bytes(render(Light("LED-B3"), scale=SCALE))
    return str(path)


@pytest.fixture
def three(shelf: Does) -> Does:
    """S1 to S3, each with a reading by eye."""
    for parts in (1, 2, 3):
        shelf("swatch", "log", f"{parts} ultramarine + 1 burnt sienna", "--colour", "#806040")
    return shelf


def areas(*codes: str) -> list[str]:
    return [word for code in codes for word in ("--area", f"{code}={typed(AREAS[code])}")]


def test_several_swatches_are_read_in_one_go(three: Does, tide: str, tmp_path: Path) -> None:
    drawn = tmp_path / "read.png"
    done = three(
        "swatch", "read", "--picture", tide, "--chart", "24", *areas("S1", "S2", "S3"),
        "--annotate", str(drawn), "--method", "scanner", "--json",
    )  # fmt: skip
    assert done.err.endswith("studio: recorded for S1, S2, S3\n")
    told = json.loads(done.out)
    assert told["recorded"] == ["S1", "S2", "S3"]
    assert told["chart"]["patches"] == 24
    assert told["chart"]["left_out"] == []
    read = np.array([area["lab"] for area in told["areas"]])
    # The 24 published values stand for another chart than the one rendered: spectra of 30 charts.
    missed = delta_e(read, TRUE[:3])
    assert all(
        off <= area["error_95_delta_e"] for off, area in zip(missed, told["areas"], strict=True)
    )
    assert told["unread"] == []
    with Image.open(drawn) as image:
        assert min(image.size) > 500
    (shown,) = json.loads(three("swatch", "show", "S2", "--json").out)["readings"][1:]
    assert shown["method"] == "scanner"
    assert shown["condition"] is None
    assert shown["error_delta_e"] == round(told["areas"][1]["error_delta_e"], 2)
    assert shown["sample"] == f"area {typed(AREAS['S2'])} px"
    assert shown["file"] == "tide.png"
    most = told["areas"][1]["error_95_delta_e"]
    assert shown["note"] == (
        f"{told['how']}; of 100 such swatches 95 are read within ΔE00 {most:.1f}"
    )


def test_an_area_that_cannot_be_read_does_not_stop_the_others(
    three: Does, run: Run, empty_db: Path, tmp_path: Path
) -> None:
    with Image.open(io.BytesIO(render(scale=0.6))) as image:
        pixels = np.asarray(image.convert("RGB")).copy()
    left, top, across, down = (round(0.6 * number) for number in AREAS["S2"])
    pixels[top : top + down, left : left + across, 0] = 255
    path = tmp_path / "glare.png"
    path.write_bytes(png(pixels))
    line = (
        "swatch", "read", "--picture", str(path), "--chart", "24", *areas("S1", "S2", "S3"),
    )  # fmt: skip
    drawn = tmp_path / "read.png"
    done = run(*line, "--json", "--annotate", str(drawn), db=empty_db)
    assert done.status == 6
    told = json.loads(done.out)
    assert told["recorded"] == ["S1", "S3"]
    assert [area["swatch"] for area in told["areas"]] == ["S1", "S3"]
    (left_out,) = told["unread"]
    assert left_out["swatch"] == "S2"
    assert left_out["reason"].startswith("S2 is overexposed or catches glare: ")
    assert "studio: not read: S2; the reasons stand beside the readings\n" in done.err
    words = " ".join(run(*line, "--dry-run", db=empty_db).out.split())
    assert "S2 not read" in words
    assert "is overexposed or catches glare" in words
    assert len(json.loads(three("swatch", "show", "S2", "--json").out)["readings"]) == 1
    assert len(json.loads(three("swatch", "show", "S3", "--json").out)["readings"]) == 2


def test_the_same_area_of_the_same_picture_is_recorded_once(three: Does, tide: str) -> None:
    line = (
        "swatch",
        "read",
        "S1",
        "--picture",
        tide,
        "--chart",
        "24",
        "--area",
        typed(AREAS["S1"]),
    )
    three(*line)
    again = three(*line)
    assert "S1 of tide.png is recorded already: not again" in again.err
    assert len(json.loads(three("swatch", "show", "S1", "--json").out)["readings"]) == 2


def test_a_dry_run_shows_and_records_nothing(three: Does, tide: str, tmp_path: Path) -> None:
    drawn = tmp_path / "read.png"
    told = three(
        "swatch", "read", "--picture", tide, "--chart", "24", *areas("S1"), "--dry-run",
        "--annotate", str(drawn),
    )  # fmt: skip
    assert told.err == "studio: nothing was recorded (--dry-run)\n"
    words = " ".join(told.out.split())
    assert "Read by 24 of 24 patches of the 24-patch chart made since November 2014" in words
    assert "patches left out in turn miss by ΔE00" in words
    assert "tide.png: it has no colour profile and is taken for sRGB." in words
    assert drawn.exists()
    assert len(json.loads(three("swatch", "show", "S1", "--json").out)["readings"]) == 1


def test_a_new_swatch_is_logged_from_a_picture(shelf: Does, tide: str) -> None:
    done = shelf(
        "swatch", "log", "2 ultramarine + 1 burnt sienna", "--picture", tide, "--chart", "24",
        "--corners", "8%,9.5% 68%,12.5% 65.5%,66.5% 9.5%,68.5%", "--area", typed(AREAS["S4"]),
        "--wet",
    )  # fmt: skip
    assert "Read by 24 of 24 patches" in done.err
    (reading,) = json.loads(shelf("swatch", "show", "S1", "--json").out)["readings"]
    assert (reading["method"], reading["state"]) == ("camera", "wet")
    assert delta_e(np.array([reading["lab"]]), TRUE[3:4])[0] < 2.5


def test_grey_card_and_paper_have_the_larger_error(shelf: Does, tide: str) -> None:
    shelf(
        "paper", "add", "Hard Rag", "--maker", "Eddering Mill", "--weight", "140lb",
        "--white", "94.6,0,1.5",
    )  # fmt: skip
    shelf("swatch", "log", "ultramarine", "--colour", "#806040", "--paper", "hard rag")
    line = ("swatch", "read", "S1", "--picture", tide, "--area", typed(AREAS["S1"]), "--json")
    # The third grey of the chart: its Y is 0.36.
    grey = json.loads(shelf(*line, "--grey", "150,220,20,20", "--reflectance", "36").out)
    paper = json.loads(shelf(*line, *["--white", "400,60,30,30"]).out)
    for told in (grey, paper):
        assert told["chart"] is None
        assert told["error_delta_e"] == 8
        assert told["how"].endswith("error ΔE00 8 is an estimate, no source")
        assert delta_e(np.array([told["areas"][0]["lab"]]), TRUE[:1])[0] < 8
    assert grey["how"].startswith("by a grey card of 36 % alone")
    assert paper["how"].startswith("by the paper's white alone")


def test_paper_beside_the_chart_tells_of_the_light(three: Does, tmp_path: Path) -> None:
    path = tmp_path / "lamp.png"
    path.write_bytes(render(Light(falloff=(0.4, 0.2)), scale=SCALE))
    whites = [word for at in ("390,40", "490,40", "390,230", "500,330")
              for word in ("--white", f"{at},25,25")]  # fmt: skip
    told = three(
        "swatch", "read", "--picture", str(path), "--chart", "24", *areas("S1"), *whites,
    )  # fmt: skip
    words = " ".join(told.out.split())
    assert "towards the lower right, which is evened out; the paper then still varies by" in words


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--area", "S1=1,1,20,20"], "--area belongs to a picture; give the"),
        (["--chart", "24"], "--chart belongs to a picture"),
        (["--picture", "PICTURE", "--lab", "40,1,1"], "leave out --lab"),
        (["--picture", "PICTURE", "--error", "1"], "leave out --error"),
        (["--picture", "PICTURE", "--condition", "M1"], "leave out --condition"),
        (["--picture", "PICTURE", "--method", "colorimeter"], "not by colorimeter"),
        (["--picture", "PICTURE"], "no swatch area is given"),
        (["--picture", "PICTURE", "--area", "1,1,20,20"], "nothing in the picture has a known col"),
        (["--picture", "PICTURE", "--area", "1,1,20,20", "--chart", "24", "--grey", "1,1,9,9"],
         "give --grey alone"),
        (["--picture", "PICTURE", "--area", "1,1,20,20", "--corners", "1,1 9,1 9,9 1,9"],
         "--corners are those of a chart; name it with --chart"),
        (["--picture", "PICTURE", "--area", "1,1,20,20", "--reflectance", "18"],
         "say where it lies with --grey"),
        (["--picture", "PICTURE", "--area", "1,1,20,20", "--grey", "1,1,9,9",
          "--reflectance", "0"], "reflectance in percent"),
        (["--picture", "PICTURE", "--area", "900,1,20,20", "--chart", "24"], "beyond the picture"),
        (["--picture", "no.png", "--area", "1,1,20,20", "--chart", "24"], "there is no file"),
        (["--picture", "PICTURE", "--map", "x.csv", "--area", "1,1,9,9"], "--map goes with --all"),
    ],
)  # fmt: skip
def test_what_does_not_fit_is_refused(
    refuses: Refuses, tide: str, words: list[str], said: str
) -> None:
    line = [tide if word == "PICTURE" else word for word in words]
    sentence = refuses(3, "swatch", "read", "S1", *line)
    assert said in sentence


def test_unknown_swatches_and_several_papers_are_refused(
    refuses: Refuses, run: Run, demo_db: Path, tide: str
) -> None:
    refuses(4, "swatch", "read", "--picture", tide, "--chart", "24", "--area", "S9999=1,1,20,20")
    swatches = json.loads(run("swatch", "list", "--json", db=demo_db).out)
    papers = {swatch["paper"]: swatch["swatch"] for swatch in swatches}
    one, other, *_ = papers.values()
    said = refuses(
        3, "swatch", "read", "--picture", tide, "--white", "400,60,30,30",
        "--area", f"{one}=1,1,20,20", "--area", f"{other}=1,1,20,20",
    )  # fmt: skip
    assert "the swatches lie on different papers" in said


def test_paper_without_a_recorded_white_is_no_measure(
    three: Does, run: Run, empty_db: Path, tide: str
) -> None:
    del three
    line = ("swatch", "read", "S1", "--picture", tide, "--area", typed(AREAS["S1"]))
    told = run(*line, "--white", "400,60,30,30", db=empty_db)
    assert (told.status, told.out) == (3, "")
    assert told.err == (
        "studio: Eddering Mill Slipway Rag has no recorded white; lay a chart or a grey card "
        "beside the swatches, and give --chart or --grey\n"
    )


def test_one_swatch_is_logged_at_a_time(refuses: Refuses, tide: str) -> None:
    said = refuses(
        3, "swatch", "log", "ultramarine", "--picture", tide, "--chart", "24",
        "--area", "1,1,20,20", "--area", "30,1,20,20",
    )  # fmt: skip
    assert said == "one swatch is logged at a time; give one --area: 60,500,70,80"


def test_a_picture_without_a_chart_records_nothing(refuses: Refuses, tmp_path: Path) -> None:
    path = tmp_path / "mud.png"
    path.write_bytes(png(np.full((200, 300, 3), 120, np.uint8)))
    said = refuses(
        3, "swatch", "read", "S1", "--picture", str(path), "--chart", "24", "--area", "1,1,20,20"
    )
    assert "was not found in mud.png for certain; give the outer corners" in said


def test_an_annotated_copy_that_cannot_be_written_records_nothing(
    refuses: Refuses, tide: str, tmp_path: Path
) -> None:
    said = refuses(
        3, "swatch", "read", "S1", "--picture", tide, "--chart", "24", "--area",
        typed(AREAS["S1"]), "--annotate", str(tmp_path / "none" / "read.png"),
    )  # fmt: skip
    assert "cannot be written" in said
