"""A colour chart: patches of known Lab in rows and columns."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from studio.colour.difference import Triple
from studio.colour.lab_arrays import Floats
from studio.errors import BadInput

LEAST_PATCHES: Final = 12
"""A correction that is tried on patches left out needs some to leave out."""

_GRID_NAME: Final = re.compile(r"([A-Z]{1,2})[ _-]?0*(\d{1,2})")


@dataclass(frozen=True, slots=True, eq=False)
class Chart:
    """A chart in one arrangement.

    Args:
        name: what it is called in messages.
        patches: name of each patch.
        lab: (n, 3) reference Lab under D50/2°.
        cells: (n, 2) row and column of each, from 0 at the top left.
        rows: how many there are.
        columns: how many there are.
    """

    name: str
    patches: tuple[str, ...]
    lab: Floats
    cells: "np.ndarray[tuple[int, ...], np.dtype[np.int64]]"
    rows: int
    columns: int

    @property
    def centres(self) -> Floats:
        """(n, 2) x and y of each patch in a unit square over the chart."""
        places: Floats = (self.cells[:, ::-1] + 0.5) / np.array([self.columns, self.rows])
        return places

    @property
    def transposed(self) -> "Chart":
        """The same patches with rows and columns exchanged."""
        return Chart(
            self.name, self.patches, self.lab, self.cells[:, ::-1], self.columns, self.rows
        )


def row_by_row(name: str, patches: Sequence[str], lab: Floats, columns: int) -> Chart:
    """A chart whose patches are listed row by row from the top left."""
    places = np.arange(len(patches), dtype=np.int64)
    cells = np.column_stack([places // columns, places % columns])
    return Chart(name, tuple(patches), lab, cells, -(-len(patches) // columns), columns)


def by_sample_names(name: str, samples: Sequence[tuple[str, Triple]]) -> Chart:
    """A chart laid out by the names of its patches: letters for rows, numbers for columns (A1…L22).

    So does ISO 12641. Samples that are named otherwise, such as the grey scale below such a
    target, take no part. A chart whose letters are columns is found by `Chart.transposed`.

    Args:
        name: what it is called in messages.
        samples: name and Lab under D50/2° of each.

    Raises:
        BadInput: two patches have one name, or fewer than 12 are named so.
    """
    known: dict[tuple[int, int], tuple[str, Triple]] = {}
    for sample, lab in samples:
        found = _GRID_NAME.fullmatch(sample.strip().upper())
        if found is None:
            continue
        cell = _letters(found[1]), int(found[2])
        if cell in known:
            msg = f"{name} has two patches {sample}; keep one of them in the file"
            raise BadInput(msg)
        known[cell] = sample.strip(), lab
    rows_of_grid = _longest_run({row for row, _ in known})
    known = {cell: patch for cell, patch in known.items() if cell[0] in rows_of_grid}
    if len(known) < LEAST_PATCHES:
        msg = (
            f"{name} names {len(known)} patches by row and column, such as A1 to D6, and "
            f"{LEAST_PATCHES} are needed; give the reference file that came with the chart"
        )
        raise BadInput(msg)
    cells = np.array(list(known), dtype=np.int64)
    cells -= cells.min(axis=0)
    rows, columns = (cells.max(axis=0) + 1).tolist()
    return Chart(
        name,
        tuple(patch for patch, _ in known.values()),
        np.array([lab for _, lab in known.values()]),
        cells,
        rows,
        columns,
    )


def _longest_run(numbers: set[int]) -> set[int]:
    """The longest run of numbers that follow on each other: GS is no row after L."""
    runs: list[set[int]] = [set()]
    for number in sorted(numbers):
        if number - 1 not in runs[-1]:
            runs.append(set())
        runs[-1].add(number)
    return max(runs, key=len)


def _letters(text: str) -> int:
    """A is 1, Z 26, AA 27."""
    number = 0
    for letter in text:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number
