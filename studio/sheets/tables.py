"""The one plain look of tables in the terminal."""

from collections.abc import Iterable

from rich.table import Table


def plain_table(*columns: str, right: Iterable[int] = ()) -> Table:
    """A table without lines; the columns numbered in `right` are flush right."""
    flush_right = set(right)
    table = Table(box=None, pad_edge=False, header_style="dim", show_edge=False)
    for index, column in enumerate(columns):
        table.add_column(column, justify="right" if index in flush_right else "left")
    return table
