"""Mixing charts: two paints in steps of proportion and water, and all pairs of several paints."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from studio.actions.chart_cells import (
    Asked,
    Cell,
    Laid,
    chart_cells,
    laid_swatches,
    settled,
    unknown_paints,
    usual_paper,
)
from studio.actions.match_colour import Ingredient
from studio.actions.model_inputs import UnknownPaint
from studio.actions.paint_model import PaintModel
from studio.actions.paper_ground import GroundBasis
from studio.catalogue.paint import Paint
from studio.catalogue.paper import Paper
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork

RATIOS: Final = (8.0, 4.0, 2.0, 1.0, 1 / 2, 1 / 4, 1 / 8)
"""Parts of the one paint to one of the other, where nothing else was laid: each twice the last."""
WATERS: Final = (0.5, 1.0, 2.0, 4.0, 8.0, 16.0)
"""Parts of water to one of paint, likewise."""
TWO_WATERS: Final = (2.0, 8.0)
"""A strong and a thin wash for the two halves of a chart of pairs."""
MOST_WATERS: Final = 12
MOST_PAINTS: Final = 60
"""Further ones make a sheet that no printer takes."""
_ALONE: Final = 10.0
"""C*ab below which a paint has no hue to be sorted by."""


@dataclass(frozen=True, slots=True)
class MixingChart:
    """The washes of a chart.

    Args:
        paints: the two paints, or all those of a chart of pairs in their order.
        waters: parts of water to one of paint: a row each, or the strong and the thin half.
        rows: its cells.
        paper: the paper; None where none is on record.
        basis: where the reflectance of the paper comes from.
        unknown: paints that keep cells empty.
    """

    paints: tuple[Paint, ...]
    waters: tuple[float, ...]
    rows: tuple[tuple[Cell, ...], ...]
    paper: Paper | None
    basis: GroundBasis
    unknown: tuple[UnknownPaint, ...]

    @property
    def cells(self) -> tuple[Cell, ...]:
        """Every cell, row by row."""
        return tuple(cell for row in self.rows for cell in row)

    @property
    def measured(self) -> int:
        """How many cells were read from swatches."""
        return sum(cell.is_measured for cell in self.cells)

    @property
    def predicted(self) -> int:
        """How many are the model's."""
        return sum(cell.is_predicted for cell in self.cells)

    @property
    def uncertain(self) -> int:
        """How many of these are too uncertain to be shown."""
        return sum(cell.is_too_uncertain for cell in self.cells)


def pair_chart(
    work: UnitOfWork,
    model: PaintModel,
    pair: tuple[Paint, Paint],
    *,
    paper: Paper | None = None,
    waters: Sequence[float] = (),
) -> MixingChart:
    """Two paints from all of the one to all of the other, a row for each water.

    Steps move to what was laid near them, so that what is on record stands in the chart as it is.

    Args:
        work: the studio.
        model: its paints.
        pair: two different paints.
        paper: the paper; by default the one that most of their swatches are on.
        waters: parts of water, instead of those the studio has.

    Raises:
        BadInput: one paint twice, or nothing is known of either.
    """
    one, other = pair
    if one.id == other.id:
        msg = f"{one.facts.name} with itself makes no chart; name another paint as the second"
        raise BadInput(msg)
    laid = laid_swatches(work, pair)
    paper = paper or usual_paper(work, laid)
    laid = _on(laid, paper)
    mixtures = [each for each in laid if len(each.parts) > 1]
    rows = checked_waters(waters) or _settled_waters(WATERS, laid)
    mixed = [Fraction(each.parts[one.id], each.parts[other.id]) for each in mixtures]
    ratios = settled(RATIOS, map(float, mixed))
    exact = {float(ratio): ratio for ratio in mixed}
    columns = [
        (Ingredient(one, 1),),
        *(
            _mix(one, other, exact.get(ratio) or Fraction(ratio).limit_denominator(8))
            for ratio in ratios
        ),
        (Ingredient(other, 1),),
    ]
    return _chart(
        model, laid, paper, pair, rows, [[(recipe, water) for recipe in columns] for water in rows]
    )


def pairs_chart(  # noqa: PLR0913 - what a chart is of
    work: UnitOfWork,
    model: PaintModel,
    paints: Sequence[Paint],
    *,
    paper: Paper | None = None,
    waters: Sequence[float] = (),
    as_named: bool = False,
) -> MixingChart:
    """Every pair 1:1, strong above the diagonal and thin below; each paint alone, strong, on it.

    Args:
        work: the studio.
        model: its paints.
        paints: two or more, each once.
        paper: as for `pair_chart`.
        waters: of the strong and of the thin half.
        as_named: keeps the order of `paints`; else they go round by hue, greys last.

    Raises:
        BadInput: fewer than two paints, more than `MOST_PAINTS`, waters other than two, or nothing
            is known of any.
    """
    if len(paints) < 2:  # noqa: PLR2004 - a pair
        msg = (
            "a chart of pairs needs two paints at least; name more, or record them: studio paint "
            "add"
        )
        raise BadInput(msg)
    if len(paints) > MOST_PAINTS:
        msg = f"a chart of {len(paints)} paints is too wide; name {MOST_PAINTS} or fewer by --only"
        raise BadInput(msg)
    laid = [each for each in laid_swatches(work, paints) if len(set(each.parts.values())) == 1]
    paper = paper or usual_paper(work, laid)
    laid = _on(laid, paper)
    halves = checked_waters(waters)
    if halves and len(halves) != 2:  # noqa: PLR2004 - halves
        msg = "a chart of pairs has two waters, strong and thin, such as --water 2:1,8:1"
        raise BadInput(msg)
    strong, thin = halves or _settled_waters(TWO_WATERS, laid)
    ordered = tuple(paints) if as_named else _by_hue(model, laid, paper, paints, thin)
    asked: list[list[Asked]] = [
        [
            (_even(one, other), thin if down > across else strong)
            for across, other in enumerate(ordered)
        ]
        for down, one in enumerate(ordered)
    ]
    return _chart(model, laid, paper, ordered, (strong, thin), asked)


def checked_waters(waters: Sequence[float]) -> tuple[float, ...]:
    """Waters of a chart, each once.

    Raises:
        BadInput: one is out of its range, or there are too many.
    """
    from studio.catalogue.checks import number  # noqa: PLC0415

    each_once = tuple(dict.fromkeys(number(water, "water", 0, 1000) for water in waters))
    if len(each_once) > MOST_WATERS:
        msg = f"a chart has {MOST_WATERS} waters at most, not {len(each_once)}"
        raise BadInput(msg)
    return each_once


def _chart(  # noqa: PLR0913, PLR0917 - what a chart is
    model: PaintModel,
    laid: Sequence[Laid],
    paper: Paper | None,
    paints: tuple[Paint, ...],
    waters: tuple[float, ...],
    asked: Sequence[Sequence[Asked]],
) -> MixingChart:
    cells = chart_cells(model, laid, paper, [each for row in asked for each in row])
    unknown = unknown_paints(model, cells)
    if all(cell.lab is None for cell in cells):
        from studio.actions.paints_to_mix import unknown_text  # noqa: PLC0415

        msg = f"nothing can be shown yet of {unknown_text(unknown[0])}"
        raise BadInput(msg)
    width = len(asked[0])
    rows = tuple(tuple(cells[start : start + width]) for start in range(0, len(cells), width))
    return MixingChart(paints, waters, rows, paper, model.ground(paper).basis, unknown)


def _settled_waters(steps: Sequence[float], laid: Sequence[Laid]) -> tuple[float, ...]:
    """Waters that most mixtures have; paints alone are predicted better and come second."""
    mixtures = [each.water for each in laid if len(each.parts) > 1]
    return settled(steps, mixtures, (each.water for each in laid))


def _on(laid: Sequence[Laid], paper: Paper | None) -> list[Laid]:
    return [each for each in laid if paper is not None and each.swatch.paper_id == paper.id]


def _mix(one: Paint, other: Paint, ratio: Fraction) -> tuple[Ingredient, ...]:
    return Ingredient(one, ratio.numerator), Ingredient(other, ratio.denominator)


def _even(one: Paint, other: Paint) -> tuple[Ingredient, ...]:
    if one.id == other.id:
        return (Ingredient(one, 1),)
    return Ingredient(one, 1), Ingredient(other, 1)


def _by_hue(
    model: PaintModel,
    laid: Sequence[Laid],
    paper: Paper | None,
    paints: Sequence[Paint],
    water: float,
) -> tuple[Paint, ...]:
    """From yellow over red and blue to green, then greys from light to dark, then the unknown."""
    alone = chart_cells(model, laid, paper, [((Ingredient(paint, 1),), water) for paint in paints])

    def place(cell: Cell) -> tuple[float, float]:
        if cell.lab is None:
            return math.inf, 0.0
        if cell.lab.chroma < _ALONE:
            return 360.0, -cell.lab.lightness
        return (110.0 - cell.lab.hue) % 360.0, 0.0

    return tuple(cell.recipe[0].paint for cell in sorted(alone, key=place))
