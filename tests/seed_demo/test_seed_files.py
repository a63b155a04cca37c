"""The demo's pictures and instrument files: reproducible, small, and read as what they hold."""

import json
import re
from pathlib import Path
from typing import Any, Final

import numpy as np
import pytest
from PIL import Image

from seed_demo import build_files, scan_picture, swatch_spectra
from seed_demo.instrument_files import IN_CGATS, IN_CXF, Reading
from seed_demo.optics import lab
from seed_demo.picture_tools import grain
from studio.actions.open_measurements import open_measurements
from studio.colour.difference import ciede2000
from studio.formats.sample import Kind
from tests.conftest import Run

SEED: Final = Path(__file__).resolve().parents[2] / "seed_demo"
FILES: Final = SEED / "files"
TEXT: Final = (SEED / "README.md").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def rebuilt(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("files")
    build_files.main(folder)
    return folder


def _pixels(path: Path) -> np.ndarray[Any, Any]:
    with Image.open(path) as image:
        return np.asarray(image.convert("RGB"))


@pytest.mark.parametrize("name", ["readings.cgats", "readings.cxf"])
def test_building_again_changes_no_byte(name: str, rebuilt: Path) -> None:
    assert (rebuilt / name).read_bytes() == (FILES / name).read_bytes()


@pytest.mark.parametrize("name", ["creek.png", "scan.png"])
def test_building_again_changes_no_pixel_but_at_an_edge(name: str, rebuilt: Path) -> None:
    """Another processor may round a sine otherwise, and a pixel falls to the other side of an edge.

    How pixels are packed may change with the library that packs them.
    """
    again, kept = _pixels(rebuilt / name), _pixels(FILES / name)
    assert again.shape == kept.shape
    assert (again != kept).any(axis=-1).mean() <= 1e-4


def test_each_file_is_small_and_described() -> None:
    files = {path.name: path.stat().st_size for path in FILES.iterdir()}
    assert set(files) == set(re.findall(r"^\| `files/([\w.]+)` ", TEXT, re.MULTILINE))
    assert max(files.values()) < 300_000
    assert files.keys() == {"creek.png", "scan.png", "readings.cgats", "readings.cxf"}


@pytest.mark.parametrize("name", ["creek.png", "scan.png"])
def test_the_pictures_say_that_they_are_srgb_and_nothing_of_the_day(name: str) -> None:
    with Image.open(FILES / name) as image:
        image.load()
        assert set(image.info) == {"srgb"}


def test_the_grain_is_nearly_normal() -> None:
    noise = grain(200, 200, 1)
    assert abs(noise.mean()) < 0.02
    assert noise.std() == pytest.approx(1.0, abs=0.02)
    assert np.mean(np.abs(noise) < 1.0) == pytest.approx(0.683, abs=0.01)


def test_the_creek_has_sky_water_mud_turf_and_a_red_hull(run: Run, demo_db: Path) -> None:
    def pick(at: str) -> list[float]:
        line = ("target", "pick", str(FILES / "creek.png"), "--at", at, "--json")
        return [float(axis) for axis in json.loads(run(*line, db=demo_db).out)["lab"]]

    sky, water, mud, turf, hull = map(
        pick, ("80%,5%", "39%,85%", "72%,79%", "10%,55%", "70%,59.5%")
    )
    assert sky[2] < -10
    assert water[2] < -5
    assert mud[0] < 45 < water[0] < sky[0] + 5
    assert turf[1] < 0
    assert turf[2] > 15
    assert hull[1] > 20


def test_the_offcuts_of_the_scan_are_read_within_the_error_it_claims(
    run: Run, demo_db: Path
) -> None:
    areas = {
        code: ",".join(f"{part:g}%" for part in scan_picture.areas()[letter])
        for letter, code in scan_picture.OFFCUTS.items()
    }
    typed = [word for code, area in areas.items() for word in ("--area", f"{code}={area}")]
    picture = str(FILES / "scan.png")
    line = ("swatch", "read", "--picture", picture, "--chart", "24", *typed, "--dry-run", "--json")
    told = json.loads(run(*line, db=demo_db).out)
    assert told["notes"] == []
    assert told["chart"]["patches"] == 24
    assert told["chart"]["left_out"] == []
    assert told["falloff"] == pytest.approx(0.1, abs=0.05)
    apart = [
        ciede2000(area["lab"], lab(swatch_spectra.swatch(area["swatch"])).coordinates)
        for area in told["areas"]
    ]
    assert len(apart) == 6
    assert told["error_delta_e"] < 1.5
    assert np.mean(apart) <= np.mean([area["error_delta_e"] for area in told["areas"]]) < 2.0
    for away, area in zip(apart, told["areas"], strict=True):
        assert away <= area["error_95_delta_e"]


def test_the_readme_names_the_rectangles_of_the_scan() -> None:
    for letter, code in scan_picture.OFFCUTS.items():
        area = ",".join(f"{part:g}%" for part in scan_picture.areas()[letter])
        assert f"| {letter} | {code} | " in TEXT
        assert f"| `{area}` |" in TEXT


@pytest.mark.parametrize(
    ("name", "kind", "readings"),
    [("readings.cgats", Kind.CGATS, IN_CGATS), ("readings.cxf", Kind.CXF, IN_CXF)],
)
def test_the_instrument_files_hold_the_spectra_and_how_they_were_read(
    name: str, kind: Kind, readings: tuple[Reading, ...]
) -> None:
    contents = open_measurements(FILES / name).contents
    assert (contents.kind, contents.faults, contents.remarks) == (kind, (), ())
    assert [sample.name for sample in contents.samples] == [each.sample for each in readings]
    for sample, each in zip(contents.samples, readings, strict=True):
        assert sample.spectrum is not None
        assert (sample.spectrum.start, sample.spectrum.step) == (380.0, 10.0)
        assert sample.spectrum.values == pytest.approx(each.reflectance, abs=0.00005)
        how = sample.how
        assert (how.instrument, how.condition, how.backing) == (
            "45/0 spectrophotometer", "M1", "white",
        )  # fmt: skip
        assert how.geometry is not None
        assert how.geometry.startswith("45/0")
        assert (how.read_on is None) == (kind is Kind.CGATS)


def test_swatches_read_again_stray_a_little(run: Run, demo_db: Path) -> None:
    line = ("swatch", "read", "--file", str(FILES / "readings.cxf"), "--all", "--dry-run", "--json")
    told = json.loads(run(*line, db=demo_db).out)
    assert [each["swatch"] for each in told["readings"]] == ["S74", "S74", "S79", "S100", "S115"]
    assert all(0.1 < each["delta_e"] < 1.0 for each in told["readings"])
    assert [each["sample"] for each in told["unfit"]] == ["reed bed, new"]
