"""studio swatch log and read take files of instruments: from file to match."""

import json
from pathlib import Path
from typing import Any, Final

import pytest

from tests.cli.conftest import Does, Refuses
from tests.conftest import Run
from tests.formats.files import (
    MUD,
    WAVELENGTHS,
    cgats,
    cxf,
    cxf_lab,
    cxf_object,
    cxf_spectrum,
    spdx,
)
from tests.servers import SERVER, fingerprint

HEADER: Final = "sample,l,a,b,illuminant,observer"
POINTS: Final = list(zip(WAVELENGTHS, MUD, strict=True))
FIELDS: Final = ["SAMPLE_ID", *(f"nm{nm}" for nm in WAVELENGTHS)]
FILES: Final = {
    "mud.cxf": cxf(cxf_object("mud", cxf_spectrum())),
    "mud.txt": cgats(FIELDS, [["mud", *MUD]]).encode(),
    "mud.csv": "\n".join(f"{nm},{value}" for nm, value in POINTS).encode(),
    "mud.spdx": spdx(POINTS),
    "readings.dat": cxf(cxf_object("mud", cxf_spectrum())),
}


def _swatch(does: Does, code: str = "S1") -> Any:
    return json.loads(does("swatch", "show", code, "--json").out)


def _write(tmp_path: Path, *rows: str, header: str = HEADER) -> str:
    path = tmp_path / "creek.csv"
    path.write_text("\n".join([header, *rows]) + "\n")
    return str(path)


@pytest.mark.parametrize("name", FILES)
def test_a_file_of_each_kind_becomes_a_swatch_that_is_found(
    name: str, shelf: Does, tmp_path: Path
) -> None:
    path = tmp_path / name
    path.write_bytes(FILES[name])
    shelf("swatch", "log", "2 FU + 1 BS", "--file", str(path), "--on", "2026-11-20")
    (reading,) = _swatch(shelf)["readings"]
    assert reading["spectrum"]["reflectance"] == list(MUD)
    assert (reading["sample"], reading["file"]) == ("mud", name)
    assert (reading["origin"], reading["method"]) == ("from spectrum", "spectrophotometer")
    lab = " ".join(str(axis) for axis in reading["lab"])
    (found,) = json.loads(shelf("match", f"lab({lab})", "--json").out)["matches"]
    assert found["swatch"] == "S1"
    assert found["delta_e"] < 0.01


def test_a_new_swatch_is_as_old_as_its_file(shelf: Does, tmp_path: Path) -> None:
    path = tmp_path / "mud.cxf"
    path.write_bytes(FILES["mud.cxf"])
    outcome = shelf("swatch", "log", "FU", "--file", str(path))
    assert _swatch(shelf)["made_on"] == "2026-05-04"
    assert "made on 2026-05-04, the day of the reading; --on takes another" in outcome.err


def test_a_sample_is_named_and_what_was_noticed_is_told(shelf: Does, tmp_path: Path) -> None:
    path = tmp_path / "creek.cxf"
    glowing = [*MUD[:10], 1.3, *MUD[11:]]
    path.write_bytes(
        cxf(
            cxf_object("mud", cxf_spectrum(), cxf_lab(80, 0, 0))
            + cxf_object("buoy", cxf_spectrum(glowing))
        )
    )
    said = shelf("swatch", "log", "FU", "--file", str(path), "--sample", "MUD").err
    assert "mud: the file's own Lab (D50/2°) is ΔE00" in said
    outcome = shelf("swatch", "read", "S1", "--file", str(path), "--sample", "buoy")
    assert "buoy: it fluoresces: reflectance is up to 1.3 at 480 nm" in outcome.err
    shown = " ".join(outcome.out.split())
    assert "it fluoresces: reflectance is up to 1.3 at 480 nm, 'buoy' of creek.cxf" in shown


def test_options_say_how_it_was_read(shelf: Does, tmp_path: Path) -> None:
    file = _write(tmp_path, "mud,41,2,12,,")
    outcome = shelf(
        "swatch", "log", "FU", "--file", file, "--illuminant", "D65", "--observer", "10",
        "--geometry", "d/8", "--backing", "Black", "--condition", "m2", "--instrument", "Marram 45",
        "--wet", "--on", "2026-05-04",
    )  # fmt: skip
    (reading,) = _swatch(shelf)["readings"]
    assert reading["given"] == {"lab": [41.0, 2.0, 12.0], "illuminant": "D65", "observer": 10}
    assert (reading["geometry"], reading["backing"]) == ("d/8", "black")
    assert (reading["condition"], reading["instrument"]) == ("M2", "Marram 45")
    assert (reading["state"], reading["read_on"]) == ("wet", "2026-05-04")
    assert "d/8, black backing" in outcome.out


def test_a_typed_reading_keeps_geometry_and_backing_too(shelf: Does) -> None:
    shelf("swatch", "log", "FU", "--lab", "41,2,12", "--geometry", "45/0", "--backing", "self")
    (reading,) = _swatch(shelf)["readings"]
    assert (reading["geometry"], reading["backing"]) == ("45/0", "self")
    assert (reading["sample"], reading["file"]) == (None, None)


def test_several_readings_show_their_spread_and_what_stands_out(
    shelf: Does, tmp_path: Path
) -> None:
    shelf("swatch", "log", "FU", "--lab", "41,2,12")
    rows = ["S1 a,41.2,2,12,D50,2", "S1 b,40.9,2.1,12,D50,2", "S1 c,55,2,12,D50,2"]
    assert _swatch(shelf)["spread"] is None
    shelf("swatch", "read", "--file", _write(tmp_path, *rows), "--all")
    spread = _swatch(shelf)["spread"]
    assert spread["count"] == 4
    # ΔL* 13.9 from the median of 41.1, over S_L 1.012 (CIEDE2000 of two colours alike but for L*)
    assert spread["outliers"] == [{"reading": 4, "delta_e": pytest.approx(13.74, abs=0.01)}]
    shown = shelf("swatch", "show", "S1").out
    told = f"4 dry readings differ from their mean by ΔE00 {spread['mcdm']:.1f} on average; one"
    assert f"{told} stands out, it counts in the mean" in " ".join(shown.split())
    assert "    stands out: ΔE00 " in shown
    # Nothing is dropped: the colour is the mean of all four.
    assert _swatch(shelf)["lab"][0] == pytest.approx((41 + 41.2 + 40.9 + 55) / 4, abs=1e-4)
    more = _write(tmp_path, "S1,56,2,12,D50,2")
    answered = shelf("swatch", "read", "S1", "--file", more).out
    assert "5 dry readings differ from their mean by ΔE00 " in answered


def test_a_dry_run_shows_the_mapping_and_records_nothing(
    shelf: Does, empty_db: Path, tmp_path: Path
) -> None:
    shelf("swatch", "log", "FU", "--lab", "41,2,12")
    before = fingerprint(empty_db)
    file = _write(tmp_path, "S1 a,43,2,12,D50,2", "mast,45,2,12,D50,2")
    lines = shelf("swatch", "read", "--file", file, "--all", "--dry-run").out.splitlines()
    assert lines[0] == "creek.csv: CSV of spectra or of Lab"
    assert lines[1].split() == ["sample", "swatch", "colour", "L*", "a*", "b*", "ΔE00"]
    assert lines[2].split()[:2] == ["S1", "a"]
    # ΔL* 2 over S_L 1.1047 (CIEDE2000 of two colours alike but for L*)
    assert lines[2].split()[-4:] == ["43.0", "+2.0", "+12.0", "1.81"]
    assert "  mast: fits nothing: no swatch has its name as code" in lines
    assert "1 reading to record; nothing was recorded." in lines
    assert fingerprint(empty_db) == before


def test_the_mapping_in_json(shelf: Does, tmp_path: Path) -> None:
    shelf("swatch", "log", "FU", "--lab", "41,2,12")
    file = _write(tmp_path, "S1 a,43,2,12,,", "mast,45,2,12,D50,2", "tile,95,0,0,D50,2")
    chosen = tmp_path / "map.csv"
    chosen.write_text("sample,swatch\ntile,\n")
    words = ("swatch", "read", "--file", file, "--all", "--map", str(chosen), "--json")
    plan = json.loads(shelf(*words, "--dry-run").out)
    assert plan["recorded"] is False
    assert (plan["file"], plan["kind"]) == ("creek.csv", "CSV of spectra or of Lab")
    ((sample, swatch, lab, new),) = [
        (each["sample"], each["swatch"], each["lab"], each["new"]) for each in plan["readings"]
    ]
    assert (sample, swatch, lab, new) == ("S1 a", "S1", [43.0, 2.0, 12.0], True)
    assert plan["unfit"] == [{"sample": "mast", "reason": "no swatch has its name as code"}]
    assert (plan["left_out"], plan["swatches"]) == (["tile"], [])
    assert plan["remarks"] == [
        "S1 a: the white of its Lab is not stated; D50/2° by ISO 13655 is assumed"
    ]
    done = json.loads(shelf(*words, "--only-fitting").out)
    assert done["recorded"] is True
    assert [each["swatch"] for each in done["swatches"]] == ["S1"]
    assert done["swatches"][0]["lab"] == [42.0, 2.0, 12.0]
    assert done["swatches"][0]["spread"]["count"] == 2
    again = json.loads(shelf(*words, "--only-fitting").out)
    assert ([each["new"] for each in again["readings"]], again["swatches"]) == ([False], [])


def test_all_in_the_terminal_tells_what_became_of_each(shelf: Does, tmp_path: Path) -> None:
    shelf("swatch", "log", "FU", "--lab", "41,2,12")
    file = _write(tmp_path, "S1 a,43,2,12,,", "tile,95,0,0,D50,2")
    chosen = tmp_path / "map.csv"
    chosen.write_text("sample,swatch\ntile,\n")
    words = ("swatch", "read", "--file", file, "--all", "--map", str(chosen))
    outcome = shelf(*words)
    *backup, remark = outcome.err.splitlines()
    assert len(backup) == (SERVER is None)  # a server's is its administrator's to make
    assert all(line.startswith("studio: the studio as it was is kept at ") for line in backup)
    assert remark == (
        "studio: S1 a: the white of its Lab is not stated; D50/2° by ISO 13655 is assumed"
    )
    shown = outcome.out
    assert "  tile: left out by the map\n1 reading recorded.\n" in shown
    assert "  S1: 2 dry readings agree to ΔE00 " in shown
    again = shelf(*words).out
    assert "there already" in again
    assert "0 readings recorded." in again


def test_one_reading_answers_in_json_too(shelf: Does) -> None:
    shelf("swatch", "log", "FU", "--lab", "41,2,12")
    answer = json.loads(shelf("swatch", "read", "S1", "--lab", "43,2,12", "--json").out)
    assert (answer["swatch"], answer["spread"]["count"]) == ("S1", 2)
    assert answer == _swatch(shelf)


def test_the_same_file_twice_is_told(shelf: Does, tmp_path: Path) -> None:
    file = _write(tmp_path, "mud,41,2,12,D50,2")
    shelf("swatch", "log", "FU", "--file", file)
    again = shelf("swatch", "read", "S1", "--file", file)
    assert again.err == "studio: mud of creek.csv is with S1 already: not recorded\n"
    assert len(_swatch(shelf)["readings"]) == 1


GOOD: Final = "S1,41,2,12,D50,2"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("swatch", "log", "FU", "--file", "{file}"), "holds 2 samples; name one with --sample"),
        (("swatch", "read", "S1", "--file", "{file}"), "holds 2 samples; name one with --sample"),
        (("swatch", "read", "--file", "{file}"), "the swatch is missing"),
        (("swatch", "read", "S1", "--file", "nothing.cxf"), "cannot be read: no such file"),
        (("swatch", "read", "S1", "--file", "{file}", "--lab", "1,2,3"), "not several"),
        (("swatch", "read", "S1", "--sample", "S1"), "give the file with --file"),
        (("swatch", "read", "S1", "--lab", "1,2,3", "--dry-run"), "--dry-run goes with --all"),
        (("swatch", "read", "S1", "--lab", "1,2,3", "--map", "m.csv"), "--map goes with --all"),
        (("swatch", "read", "S1", "--lab", "1,2,3", "--only-fitting"), "goes with --all"),
        (("swatch", "read", "--all"), "give it with --file"),
        (("swatch", "read", "S1", "--file", "{file}", "--all"), "leave the swatch and --sample"),
        (("swatch", "read", "--file", "{file}", "--all"), "mast (no swatch has its name as code)"),
        (("swatch", "read", "--file", "{file}", "--all", "--map", "m.csv"), "m.csv cannot be read"),
        (("swatch", "read", "S1", "--file", "{bad}"), "is not a table of spectra or Lab"),
        (("swatch", "log", "FU", "--lab", "1,2,3", "--backing", "wood"), "white, black, self"),
    ],
)
def test_it_is_refused_in_one_sentence_and_nothing_changes(
    words: tuple[str, ...], said: str, refuses: Refuses, tmp_path: Path
) -> None:
    folder = tmp_path / "files"
    folder.mkdir()
    file = _write(folder, GOOD, "mast,45,2,12,D50,2")
    (folder / "bad.csv").write_text("the tide is out\n")
    named = {"{file}": file, "{bad}": str(folder / "bad.csv")}
    assert said in refuses(3, *(named.get(word, word) for word in words))


def test_a_sample_that_is_not_there_is_not_found(refuses: Refuses, tmp_path: Path) -> None:
    folder = tmp_path / "files"
    folder.mkdir()
    file = _write(folder, GOOD)
    said = refuses(4, "swatch", "read", "S1", "--file", file, "--sample", "mast")
    assert said == "creek.csv has no sample 'mast'; it has: S1"


def test_a_file_with_a_bomb_changes_nothing(refuses: Refuses, tmp_path: Path) -> None:
    folder = tmp_path / "files"
    folder.mkdir()
    bomb = folder / "bomb.cxf"
    bomb.write_text('<!DOCTYPE CxF [<!ENTITY a "mud"><!ENTITY b "&a;&a;">]><CxF>&b;</CxF>')
    assert "document type" in refuses(3, "swatch", "read", "S1", "--file", str(bomb))


def test_the_help_tells_how_samples_are_mapped(run: Run, empty_db: Path) -> None:
    told = " ".join(run("swatch", "read", "--help", db=empty_db).out.split())
    assert "each to the swatch whose code is its name; what follows the code after a sign" in told
    assert "S12 a, S12-2, s12_3" in told
