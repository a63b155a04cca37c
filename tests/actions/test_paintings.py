"""Paintings are begun and corrected, and their passages kept in an order that can be painted."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from studio.actions.painting.find_painting import find_painting, find_passage
from studio.actions.painting.passage_colours import add_colours, drop_colour, restore_colour
from studio.actions.painting.passages import (
    edit_passage,
    move_passage,
    place_of,
    remove_passage,
    restore_passage,
)
from studio.actions.painting.read_colours import TypedColours, read_colours
from studio.actions.painting.start_painting import (
    edit_painting,
    remove_painting,
    restore_painting,
    start_painting,
)
from studio.catalogue.swatch import Application
from studio.colour.lab import Lab
from studio.errors import Ambiguous, BadInput, NotFound
from tests.actions.conftest import DAY, Shelf
from tests.actions.painted import begun, creek, names, with_passage
from tests.conftest import TODAY

LARGEST = "studio.storage.measurement_files.LARGEST_KEPT"


def test_a_painting_takes_the_next_code_and_is_found_by_it_or_its_title(shelf: Shelf) -> None:
    first, second = begun(shelf), begun(shelf)
    assert (first.code, second.code) == ("P1", "P2")
    assert first.area_mm2 == 380 * 280
    assert find_painting(shelf.work, "p2") == second
    with pytest.raises(Ambiguous, match=r"fits 2 paintings; say which by its code: P1 \(Low wa"):
        find_painting(shelf.work, "low")
    third = start_painting(shelf.work, replace(first, code="tide", title=" Slack   water "), TODAY)
    assert (third.code, third.title) == ("TIDE", "Slack water")
    assert find_painting(shelf.work, "slack") == third
    with pytest.raises(BadInput, match="code P1 is taken by another painting"):
        start_painting(shelf.work, replace(first, code="p1"), TODAY)


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"title": " "}, "the title is empty"),
        ({"title": "x" * 101}, "the title is longer than 100 characters"),
        ({"width_mm": 9.0}, "each side of the painting in mm must be at least 10"),
        ({"height_mm": float("nan")}, "each side of the painting in mm must be"),
        ({"tolerance": 0.0}, "ΔE00 that a mix may be off by must be above 0"),
        ({"started_on": TODAY.replace(year=2030)}, "lies in the future"),
    ],
)
def test_what_no_painting_is_is_refused(shelf: Shelf, changes: dict[str, Any], said: str) -> None:
    painting = begun(shelf)
    with pytest.raises(BadInput, match=said):
        start_painting(shelf.work, replace(painting, code="", **changes), TODAY)
    with pytest.raises(BadInput, match=said):
        edit_painting(shelf.work, painting, replace(painting, **changes), TODAY)
    assert shelf.work.paintings.all() == (painting,)


def test_removing_marks_and_restoring_brings_back_all(shelf: Shelf) -> None:
    painting = with_passage(shelf.work, begun(shelf), "mud", "#5b5f6e")
    removed = remove_painting(shelf.work, painting, "torn", TODAY)
    assert shelf.work.paintings.all() == ()
    assert shelf.work.paintings.removed() == (removed,)
    with pytest.raises(NotFound, match="P1 was removed on 2026-11-25; restore it first"):
        find_painting(shelf.work, "P1")
    with pytest.raises(BadInput, match="was removed on 2026-11-25 already"):
        remove_painting(shelf.work, removed, None, TODAY)
    assert begun(shelf).code == "P2"
    assert restore_painting(shelf.work, "p1") == painting
    with pytest.raises(BadInput, match="P1 was not removed"):
        restore_painting(shelf.work, "P1")
    with pytest.raises(NotFound, match="no painting has the code 'P9'"):
        restore_painting(shelf.work, "P9")


def test_passages_are_added_last_or_where_it_is_said(shelf: Shelf) -> None:
    work = shelf.work
    painting = with_passage(work, begun(shelf), "sky", share=0.4)
    painting = with_passage(work, painting, "mud")
    painting = with_passage(work, painting, "far bank", over="sky", place=1)
    assert names(painting) == ["sky", "far bank", "mud"]
    assert painting.passages[1].over == painting.passages[0].id
    assert work.paintings.places(painting.id) == (1, 2, 3)
    with pytest.raises(BadInput, match="'hull' lies over 'mud', which therefore comes before it"):
        with_passage(work, painting, "hull", over="mud", place=0)
    with pytest.raises(BadInput, match="P1 has a passage 'SKY' already"):
        with_passage(work, painting, "SKY")
    with pytest.raises(BadInput, match="on bare paper take 110% of the painted area"):
        with_passage(work, painting, "hull", share=0.7)
    assert find_painting(work, "P1") == painting


def test_moving_keeps_what_lies_over_another_after_it(shelf: Shelf) -> None:
    work = shelf.work
    painting = begun(shelf)
    for name, over in (("sky", None), ("bank", "sky"), ("mud", None), ("pool", "mud")):
        painting = with_passage(work, painting, name, over=over)

    def moved(name: str, **where: Any) -> list[str]:
        now = find_painting(work, "P1")
        passage = find_passage(now, name)
        said: dict[str, Any] = {"before": None, "after": None, "first": False} | where
        place = place_of(now, moved=passage, **said)
        assert place is not None
        return names(move_passage(work, now, passage, place))

    assert moved("mud", first=True) == ["mud", "sky", "bank", "pool"]
    assert moved("pool", before="sky") == ["mud", "pool", "sky", "bank"]
    assert moved("sky", after="mud") == ["mud", "sky", "pool", "bank"]
    assert moved("pool", last=True) == ["mud", "sky", "bank", "pool"]
    for name, where in (("mud", {"last": True}), ("bank", {"first": True})):
        with pytest.raises(BadInput, match="which therefore comes before it"):
            moved(name, **where)
    with pytest.raises(BadInput, match="'mud' cannot be placed beside itself"):
        moved("mud", after="mud")
    with pytest.raises(BadInput, match="say where in one way"):
        moved("mud", first=True, last=True)
    assert names(find_painting(work, "P1")) == ["mud", "sky", "bank", "pool"]


def test_a_passage_is_corrected_and_refused_what_cannot_be(shelf: Shelf) -> None:
    work = shelf.work
    painting = with_passage(work, begun(shelf), "sky", "#8da1b8", share=0.5)
    painting = with_passage(work, painting, "mud", share=0.5)
    sky, mud = painting.passages
    changed = edit_passage(
        work, painting, mud, replace(mud, name="wet mud", technique=Application.GLAZE,
                                     share=0.9, layers=3, over=sky.id, dry_before_next=False),
    )  # fmt: skip
    assert changed.passages[0] == sky
    assert changed.passages[1].name == "wet mud"
    assert (changed.passages[1].layers, changed.passages[1].dry_before_next) == (3, False)
    for wrong, said in (
        ({"over": changed.passages[1].id}, "'sky' lies over 'wet mud', which"),
        ({"over": sky.id}, "'sky' cannot lie over itself"),
        ({"share": 0.0}, "the share in percent must be above 0"),
        ({"share": 1.01}, "at most 100"),
        ({"layers": 0}, "the number of layers must be at least 1"),
        ({"name": "wet mud"}, "has a passage 'wet mud' already"),
    ):
        with pytest.raises(BadInput, match=said):
            edit_passage(work, changed, sky, replace(sky, **wrong))
    assert find_painting(work, "P1") == changed


def test_a_removed_passage_gives_its_name_and_place_free_and_comes_back_last(
    shelf: Shelf,
) -> None:
    work = shelf.work
    painting = with_passage(work, begun(shelf), "sky", "#8da1b8", share=0.6)
    painting = with_passage(work, painting, "bank", over="sky")
    with pytest.raises(BadInput, match="'bank' lies over 'sky'; remove that one first"):
        remove_passage(work, painting, painting.passages[0], None, TODAY)
    painting = remove_passage(work, painting, painting.passages[1], "too busy", TODAY)
    sky = painting.passages[0]
    painting = remove_passage(work, painting, sky, None, TODAY)
    assert painting.passages == ()
    with pytest.raises(BadInput, match="'bank' lies over a passage that is not there"):
        restore_passage(work, painting, "bank")
    painting = with_passage(work, painting, "Sky", share=0.3)
    with pytest.raises(BadInput, match="has a passage 'sky' already"):
        restore_passage(work, painting, "sky")
    painting = edit_passage(
        work, painting, painting.passages[0], replace(painting.passages[0], name="air", share=0.5)
    )
    with pytest.raises(BadInput, match="take 110%"):
        restore_passage(work, painting, "sky")
    painting = edit_passage(
        work, painting, painting.passages[0], replace(painting.passages[0], share=0.4)
    )
    painting = restore_passage(work, painting, "sky")
    assert names(painting) == ["air", "sky"]
    assert painting.passages[1] == sky
    painting = restore_passage(work, painting, "bank")
    assert work.paintings.places(painting.id) == (1, 2, 3)
    with pytest.raises(NotFound, match="P1 has no removed passage"):
        restore_passage(work, painting, "bank")


def test_a_passage_is_named_by_a_part_that_fits_only_one(shelf: Shelf) -> None:
    painting = begun(shelf)
    with pytest.raises(NotFound, match="P1 has no passage yet; add one with"):
        find_passage(painting, "sky")
    for name in ("far bank", "near bank", "bank"):
        painting = with_passage(shelf.work, painting, name)
    assert find_passage(painting, "FAR").name == "far bank"
    assert find_passage(painting, "bank").name == "bank"
    with pytest.raises(NotFound, match="'ban' fits 3 passages of P1: 'far bank', 'near bank'"):
        find_passage(painting, "ban")
    with pytest.raises(NotFound, match="P1 has no passage 'reed'; it has 'far bank'"):
        find_passage(painting, "reed")


def test_colours_are_typed_named_or_taken_from_a_swatch(shelf: Shelf) -> None:
    swatch = shelf.swatch("UM", Lab(30.0, 10.0, -40.0))
    painting = with_passage(shelf.work, begun(shelf), "sky", "#8da1b8", "5PB 4/2", "S1")
    first, second, third = painting.passages[0].colours
    assert (first.given, second.given, third.given) == ("#8da1b8", "5PB 4/2", "S1")
    assert third.lab == swatch.lab
    assert (first.place, first.at, first.spread, first.picture) == (None, None, None, None)
    with pytest.raises(BadInput, match="'sky' has the colour #8da1b8 already"):
        add_colours(shelf.work, painting.passages[0], [replace(first, id=0)])


def test_a_dropped_colour_stays_on_record_and_comes_back_in_its_place(shelf: Shelf) -> None:
    work = shelf.work
    painting = with_passage(work, begun(shelf), "sky", "#8da1b8", "#999ea5", "#928c5d")
    first, second, third = painting.passages[0].colours
    drop_colour(work, painting.passages[0], 2, TODAY)
    sky = find_painting(work, "P1").passages[0]
    assert sky.colours == (first, third)
    assert work.paintings.removed_colours(sky.id) == (second,)
    with pytest.raises(BadInput, match="'sky' has the colours 1 to 2, and not 3"):
        drop_colour(work, sky, 3, TODAY)
    for number in (0, 2):
        with pytest.raises(
            BadInput, match=f"'sky' has one dropped colour, number 1, and not {number}"
        ):
            restore_colour(work, sky, number)
    restore_colour(work, sky, 1)
    assert find_painting(work, "P1") == painting


def test_colours_are_picked_from_the_reference_picture(shelf: Shelf, tmp_path: Path) -> None:
    painting = begun(shelf, reference=creek(tmp_path))
    assert painting.reference is not None
    assert painting.reference.is_kept
    assert painting.reference_path == str(tmp_path / "creek.png")
    typed = TypedColours(at=["10%,75%"], areas=["60%,40%,5%,5%"], cells=["A1"], colours=["#8da1b8"])
    painting = with_passage(shelf.work, painting, "all", typed=typed)
    mud, sail, sky, given = painting.passages[0].colours
    assert mud.place == "at 10%,75%, 3 x 3 px"
    assert mud.at == (8.5 / 80, 45.5 / 60)
    assert (mud.spread, mud.picture) == (0.0, painting.reference)
    assert sail.place == "area 60%,40%,5%,5%, 4 x 3 px"
    assert sky.at is not None
    assert sky.at[1] < 0.25
    assert sail.lab.a > 50 > sky.lab.a
    assert given.picture is None
    with pytest.raises(BadInput, match="--size is the square around a point"):
        read_colours(shelf.work, painting, TypedColours(size="3%", colours=["#8da1b8"]))


def test_a_varied_spot_is_told_of(shelf: Shelf, tmp_path: Path) -> None:
    painting = begun(shelf, reference=creek(tmp_path))
    read = read_colours(shelf.work, painting, TypedColours(areas=["0%,25%,50%,50%"]))
    (remark,) = read.remarks
    spread = f"ΔE00 {read.colours[0].spread:.1f} (mean)"
    assert remark.startswith(f"what was picked area 0%,25%,50%,50%, 40 x 30 px varies by {spread}")


def test_without_a_picture_nothing_is_picked(shelf: Shelf) -> None:
    painting = begun(shelf)
    with pytest.raises(BadInput, match="P1 has no reference picture; name it with"):
        read_colours(shelf.work, painting, TypedColours(at=["10%,75%"]))


@pytest.mark.parametrize("fate", ["gone", "changed", "same length"])
def test_a_picture_that_moved_or_changed_is_read_from_the_copy(
    shelf: Shelf, tmp_path: Path, fate: str
) -> None:
    path = creek(tmp_path)
    painting = begun(shelf, reference=path)
    typed = TypedColours(at=["10%,75%"])
    before = read_colours(shelf.work, painting, typed)
    assert before.remarks == ()
    if fate == "gone":
        path.unlink()
    elif fate == "changed":
        creek(tmp_path, mud=(0, 0, 0))
    else:
        path.write_bytes(path.read_bytes()[:-1] + b"!")
    after = read_colours(shelf.work, painting, typed)
    assert after.colours == before.colours
    told = "is not there any more" if fate == "gone" else "is another file by now"
    assert after.remarks == (f"{path} {told}; the copy that the studio keeps of it was read",)


@pytest.mark.parametrize("gone", [True, False])
def test_a_picture_too_large_to_keep_is_asked_for_once_it_moved(
    shelf: Shelf, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, *, gone: bool
) -> None:
    monkeypatch.setattr(LARGEST, 10)
    path = creek(tmp_path)
    painting = begun(shelf, reference=path)
    (tmp_path / "album").mkdir()
    moved = creek(tmp_path / "album", "moved.png")
    if gone:
        path.unlink()
    else:
        creek(tmp_path, mud=(0, 0, 0))
    with pytest.raises(BadInput, match="say where it is: studio painting edit P1 --reference"):
        read_colours(shelf.work, painting, TypedColours(at=["10%,75%"]))
    painting = edit_painting(shelf.work, painting, painting, TODAY, reference=moved)
    assert painting.reference_path == str(moved)
    assert read_colours(shelf.work, painting, TypedColours(at=["10%,75%"])).remarks == ()


def test_another_picture_is_taken_only_when_it_is_said(shelf: Shelf, tmp_path: Path) -> None:
    work = shelf.work
    painting = begun(shelf, reference=creek(tmp_path))
    typed = TypedColours(at=["10%,75%"])
    painting = with_passage(work, painting, "mud", typed=typed)
    other = creek(tmp_path, "storm.png", mud=(20, 20, 30))
    with pytest.raises(BadInput, match=r"is another picture than creek\.png, which P1 was begun"):
        edit_painting(work, painting, painting, TODAY, reference=other)
    changed = edit_painting(work, painting, painting, TODAY, reference=other, another=True)
    assert changed.reference is not None
    assert changed.reference.name == "storm.png"
    assert changed.passages == painting.passages
    assert changed.passages[0].colours[0].picture == painting.reference
    with pytest.raises(BadInput, match="there is no file"):
        edit_painting(work, changed, changed, TODAY, reference=tmp_path / "none.png")


def test_a_painting_without_a_picture_may_get_one(shelf: Shelf, tmp_path: Path) -> None:
    painting = begun(shelf)
    changed = edit_painting(shelf.work, painting, painting, TODAY, reference=creek(tmp_path))
    assert changed.reference is not None
    assert changed.started_on == DAY


def test_what_is_no_picture_is_refused_at_the_start(shelf: Shelf, tmp_path: Path) -> None:
    letter = tmp_path / "letter.png"
    letter.write_text("Dear harbour master")
    with pytest.raises(BadInput):
        begun(shelf, reference=letter)
    assert shelf.work.paintings.all() == ()
    assert shelf.work.files.all() == ()
