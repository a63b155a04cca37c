"""Sheets of paper: nothing is lost, nothing is cut that fits, headings stay with what they head."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from studio.sheets.page_plan import Part, Piece, plan

ROOM = 100.0


def _piece(height: float) -> Piece:
    return Piece(height, lambda _top: None)


def _part(*heights: float, gap: float = 0.0, clings: bool = False, head: float = 0.0) -> Part:
    top = _piece(head) if head else None
    return Part(tuple(map(_piece, heights)), top, gap, clings)


def _heights(parts: list[Part]) -> list[list[float]]:
    return [[piece.height for _, piece in sheet] for sheet in plan(parts, ROOM)]


def test_what_fits_stands_on_one_sheet_with_gaps_but_none_at_the_top() -> None:
    (sheet,) = plan([_part(10, gap=5), _part(20, gap=5)], ROOM)
    assert [top for top, _ in sheet] == [0, 15]


def test_a_part_that_fits_on_a_sheet_is_not_cut() -> None:
    assert _heights([_part(60), _part(30, 30)]) == [[60], [30, 30]]


def test_a_loose_part_begins_where_the_last_ended_although_a_sheet_would_hold_it() -> None:
    loose = Part((_piece(30), _piece(30)), flows=True)
    assert _heights([_part(60), loose]) == [[60, 30], [30]]
    assert _heights([_part(85), _part(10, clings=True), loose]) == [[85], [10, 30, 30]]


def test_where_nothing_is_kept_whole_a_part_begins_where_the_last_ended() -> None:
    sheets = plan([_part(60), _part(30, 30, head=5)], ROOM, whole=False)
    assert [[piece.height for _, piece in sheet] for sheet in sheets] == [[60, 5, 30], [5, 30]]


def test_a_part_that_flows_begins_where_the_last_ended_and_its_heading_with_it() -> None:
    parts = [_part(60), _part(5, clings=True), replace(_part(30, 30), flows=True)]
    assert _heights(parts) == [[60, 5, 30], [30]]
    parts = [_part(80), _part(5, clings=True), replace(_part(30, 30), flows=True)]
    assert _heights(parts) == [[80], [5, 30, 30]]


def test_a_part_too_long_for_a_sheet_begins_at_once_and_repeats_its_head() -> None:
    assert _heights([_part(50), _part(*[30] * 5, head=10)]) == [
        [50, 10, 30],
        [10, 30, 30, 30],
        [10, 30],
    ]


def test_a_heading_goes_to_the_next_sheet_with_what_it_heads() -> None:
    assert _heights([_part(85), _part(10, clings=True), _part(30)]) == [[85], [10, 30]]


def test_a_heading_is_not_left_behind_by_a_long_table() -> None:
    parts = [_part(60), _part(10, clings=True), _part(*[25] * 6, head=10)]
    assert _heights(parts) == [[60], [10, 10, 25, 25, 25], [10, 25, 25, 25]]


def test_a_heading_at_the_end_is_kept() -> None:
    assert _heights([_part(10), _part(10, clings=True)]) == [[10, 10]]


def test_a_piece_taller_than_a_sheet_gets_one_of_its_own() -> None:
    assert _heights([_part(10), _part(140), _part(10)]) == [[10], [140], [10]]


parts_of_pages = st.lists(
    st.builds(
        lambda heights, gap, head, clings: _part(*heights, gap=gap, head=head, clings=clings),
        st.lists(st.floats(1, 60), min_size=1, max_size=12),
        st.floats(0, 10),
        st.sampled_from((0.0, 12.0)),
        st.booleans(),
    ),
    max_size=12,
)


@given(parts_of_pages)
def test_every_piece_is_placed_once_in_order_inside_its_sheet(parts: list[Part]) -> None:
    sheets = plan(parts, ROOM)
    heads = {id(part.head) for part in parts}
    placed = [piece for sheet in sheets for _, piece in sheet if id(piece) not in heads]
    assert list(map(id, placed)) == [id(piece) for part in parts for piece in part.pieces]
    for sheet in sheets:
        bottom = 0.0
        for top, piece in sheet:
            assert top >= bottom - 1e-9
            bottom = top + piece.height
        assert bottom <= ROOM + 1e-9


@given(parts_of_pages)
def test_no_part_is_cut_that_fits_on_a_sheet_and_none_starts_without_its_head(
    parts: list[Part],
) -> None:
    sheets = plan(parts, ROOM)
    where = {id(piece): number for number, sheet in enumerate(sheets) for _, piece in sheet}
    for part in parts:
        used = {where[id(piece)] for piece in part.pieces}
        alone = not part.clings and (part is parts[0] or not parts[parts.index(part) - 1].clings)
        if alone and part.height <= ROOM:
            assert len(used) == 1
        if part.head is not None:
            with_head = {n for n, sheet in enumerate(sheets) for _, p in sheet if p is part.head}
            assert with_head == used
