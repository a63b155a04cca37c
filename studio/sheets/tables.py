"""Tables without lines, as every list in the terminal is one."""

from collections.abc import Iterable

from rich.table import Table


def plain_table(*columns: str, right: Iterable[int] = (), whole: Iterable[int] = ()) -> Table:
    """A table without lines.

    Args:
        columns: headings.
        right: indexes of columns that are flush right, as numbers are; their cells never break.
        whole: indexes of other columns whose cells never break.
    """
    flush_right, unbroken = set(right), set(whole)
    table = Table(box=None, padding=(0, 2, 0, 0), header_style="dim", show_edge=False)
    for index, column in enumerate(columns):
        number = index in flush_right
        table.add_column(
            column, justify="right" if number else "left", no_wrap=number or index in unbroken
        )
    return table
