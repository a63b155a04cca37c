"""Every sample of a file goes to the swatch it is named for, all of them or none."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path

import pytest

from studio.actions.map_samples import FITS_NONE, plan_samples, read_map, record_samples
from studio.actions.open_measurements import OpenFile, open_measurements
from studio.actions.read_measurements import Told
from studio.catalogue.reading import Condition
from studio.colour.difference import ciede2000
from studio.colour.lab import Lab
from studio.errors import BadInput, NotFound
from tests.actions.conftest import Shelf
from tests.conftest import TODAY

MUD = Lab(41.0, 2.0, 12.0)


@pytest.fixture
def creek(shelf: Shelf) -> Shelf:
    """A studio with swatches S1 and S2."""
    shelf.swatch("UM", MUD)
    shelf.swatch("BS", MUD)
    return shelf


def _open(tmp_path: Path, *rows: str, columns: str = "sample,l,a,b,illuminant") -> OpenFile:
    path = tmp_path / "creek.csv"
    path.write_text("\n".join([columns, *rows]) + "\n")
    return open_measurements(path)


def _goes(shelf: Shelf, opened: OpenFile, **chosen: str | None) -> dict[str, str]:
    plan = plan_samples(shelf.work, opened, chosen, Told(), TODAY)
    return {each.sample: each.swatch.facts.code for each in plan.mapped}


def test_samples_go_by_their_name_whatever_sign_parts_the_number(
    creek: Shelf, tmp_path: Path
) -> None:
    names = ["S1", "s1", "S1 a", "S1-2", "s1_3", "S1.4", "S1/b", "S1 (2)", "S1 #3", " s2 : 12 "]
    opened = _open(tmp_path, *(f"{name},41,2,12,D50" for name in names))
    goes = _goes(creek, opened)
    assert len(goes) == len(names)
    assert set(list(goes.values())[:-1]) == {"S1"}
    assert goes["s2 : 12"] == "S2"


@pytest.mark.parametrize("name", ["S12", "S1a", "S1 four", "S1 a b", "mast", "1", "XS1 a", "S3-1"])
def test_other_names_fit_nothing(name: str, creek: Shelf, tmp_path: Path) -> None:
    opened = _open(tmp_path, f"{name},41,2,12,D50", "S1,41,2,12,D50")
    plan = plan_samples(creek.work, opened, {}, Told(), TODAY)
    assert [(left.sample, left.reason) for left in plan.unfit] == [(name, FITS_NONE)]
    assert [each.sample for each in plan.mapped] == ["S1"]


def test_a_plan_says_how_far_each_is_from_the_swatch_and_records_nothing(
    creek: Shelf, tmp_path: Path
) -> None:
    opened = _open(tmp_path, "S1,44,2,12,D50", "S2 a,41,2,12,D65")
    before = creek.work.swatches.all()
    plan = plan_samples(creek.work, opened, {}, Told(), TODAY)
    first, second = plan.mapped
    assert first.delta_e == ciede2000(MUD.coordinates, (44.0, 2.0, 12.0))
    assert second.delta_e > 1
    assert first.is_new
    assert second.is_new
    assert creek.work.swatches.all() == before
    assert creek.work.files.all() == ()


def test_all_are_recorded_and_not_twice(creek: Shelf, tmp_path: Path) -> None:
    opened = _open(tmp_path, "S1 a,43,2,12,D50", "S1 b,45,2,12,D50", "S2,41,2,12,D50")
    plan = plan_samples(creek.work, opened, {}, Told(), TODAY)
    first, second = record_samples(creek.work, plan, TODAY)
    assert (first.facts.code, second.facts.code) == ("S1", "S2")
    assert [reading.sample for reading in first.readings] == [None, "S1 a", "S1 b"]
    assert first.lab == Lab(43.0, 2.0, 12.0)
    (file,) = creek.work.files.all()
    assert first.readings[1].file == file
    again = plan_samples(creek.work, opened, {}, Told(), TODAY)
    assert [each.is_new for each in again.mapped] == [False, False, False]
    assert record_samples(creek.work, again, TODAY) == []
    assert len(creek.work.swatches.all()[0].readings) == 3


def test_one_that_fits_nothing_holds_up_all_unless_the_others_are_wanted(
    creek: Shelf, tmp_path: Path
) -> None:
    opened = _open(tmp_path, "S1,43,2,12,D50", "mast,45,2,12,D50", "S2,145,2,12,D50")
    plan = plan_samples(creek.work, opened, {}, Told(), TODAY)
    said = r"nothing was recorded of creek\.csv: mast \(no swatch .*, S2 \(line 4: lightness"
    with pytest.raises(BadInput, match=said):
        record_samples(creek.work, plan, TODAY)
    assert creek.work.files.all() == ()
    (swatch,) = record_samples(creek.work, plan, TODAY, only_fitting=True)
    assert swatch.facts.code == "S1"


def test_where_none_fits_nothing_is_recorded_even_then(creek: Shelf, tmp_path: Path) -> None:
    plan = plan_samples(creek.work, _open(tmp_path, "mast,45,2,12,D50"), {}, Told(), TODAY)
    with pytest.raises(BadInput, match="nothing was recorded"):
        record_samples(creek.work, plan, TODAY, only_fitting=True)


def test_a_map_wins_over_names_and_leaves_out(creek: Shelf, tmp_path: Path) -> None:
    opened = _open(tmp_path, "S1,43,2,12,D50", "mast,45,2,12,D50", "tile,145,2,12,D50")
    chosen = {"s1": "s2", "mast": None, "tile": None}
    plan = plan_samples(creek.work, opened, chosen, Told(), TODAY)
    assert [(each.sample, each.swatch.facts.code) for each in plan.mapped] == [("S1", "S2")]
    assert (plan.unfit, plan.left_out) == ((), ("mast", "tile"))


def test_a_map_must_fit_the_file_and_the_studio(creek: Shelf, tmp_path: Path) -> None:
    opened = _open(tmp_path, "S1,43,2,12,D50")
    with pytest.raises(BadInput, match=r"the map names samples that creek\.csv has not: hull"):
        _goes(creek, opened, hull="S1")
    with pytest.raises(NotFound, match="no swatch has the code 'S9'"):
        _goes(creek, opened, s1="S9")


def test_the_other_name_of_a_sample_is_tried_too(creek: Shelf, tmp_path: Path) -> None:
    path = tmp_path / "creek.txt"
    path.write_text(
        "CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID SAMPLE_NAME LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\n"
        "BEGIN_DATA\nS1 mud 41 2 12\nEND_DATA\n"
    )
    assert _goes(creek, open_measurements(path)) == {"mud": "S1"}


def test_a_reading_older_than_its_swatch_fits_nothing(creek: Shelf, tmp_path: Path) -> None:
    opened = _open(tmp_path, "S1,43,2,12,2020-01-02", columns="sample,l,a,b,date")
    plan = plan_samples(creek.work, opened, {}, Told(), TODAY)
    assert "older than the swatch" in plan.unfit[0].reason
    told = Told(read_on=date(2026, 6, 1))
    assert len(plan_samples(creek.work, opened, {}, told, TODAY).mapped) == 1


def test_readings_of_one_name_under_several_conditions_must_be_chosen_of(
    creek: Shelf, tmp_path: Path
) -> None:
    rows = ("S1,43,2,12,M0", "S1,44,2,12,M1", "S2,44,2,12,M1")
    opened = _open(tmp_path, *rows, columns="sample,l,a,b,condition")
    with pytest.raises(BadInput, match="S1 was read under M0, M1; choose one with --condition"):
        _goes(creek, opened)
    plan = plan_samples(creek.work, opened, {}, Told(condition=Condition.M1), TODAY)
    assert [each.reading.lab.lightness for each in plan.mapped] == [44.0, 44.0]


def _map(tmp_path: Path, lines: Sequence[str]) -> dict[str, str | None]:
    path = tmp_path / "map.csv"
    path.write_text("\n".join(lines) + "\n")
    return read_map(path)


def test_a_map_is_a_table_of_samples_and_swatches(tmp_path: Path) -> None:
    lines = ["Sample,Swatch", "Mud bank ,S1", '" white  tile",', "3, s2 "]
    assert _map(tmp_path, lines) == {"mud bank": "S1", "white tile": None, "3": "s2"}


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (["sample", "S1"], "has no column swatch, which a map of samples need"),
        (["sample,swatch", "mud"], "line 2: it needs a sample and a swatch"),
        (["sample,swatch", "mud,S1", "MUD,S2"], "line 3: it names its sample twice"),
        (["sample,swatch", ",S1"], "line 2: it names no sample"),
    ],
)
def test_a_map_that_is_none_is_refused(tmp_path: Path, lines: list[str], said: str) -> None:
    with pytest.raises(BadInput, match=said):
        _map(tmp_path, lines)
