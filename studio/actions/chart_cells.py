"""Cells of a mixing chart: each wash as it was measured, else as it is predicted, else why not."""

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, NamedTuple

from studio.actions.match_colour import Ingredient
from studio.actions.model_inputs import UNEVEN, UnknownPaint
from studio.actions.paint_model import PaintModel
from studio.catalogue.paint import Paint
from studio.catalogue.paper import Paper
from studio.catalogue.reading import State
from studio.catalogue.swatch import Swatch
from studio.colour.lab import Lab
from studio.mixing.settings import is_too_uncertain
from studio.storage.unit_of_work import UnitOfWork

SHARE_NEAR: Final = 0.02
"""A swatch stands for a proportion where the share of each paint is nearer than this."""
WASH_NEAR: Final = 1.1
"""And for a wash where it is at most so many times as strong or as weak."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One wash of a chart.

    Args:
        recipe: the paints with their parts, one or two.
        water: parts of water to one of paint.
        lab: its colour, D50/2°; None where nothing tells it.
        swatch: the swatch it was measured from; None for a predicted colour.
        alike: how many further swatches would do as well.
        error: the ΔE00 that about 68 % of such predictions stay within; None where measured.
        why: what keeps it empty.
    """

    recipe: tuple[Ingredient, ...]
    water: float
    lab: Lab | None
    swatch: Swatch | None = None
    alike: int = 0
    error: float | None = None
    why: str | None = None

    @property
    def is_measured(self) -> bool:
        """Whether its colour was read from a swatch."""
        return self.swatch is not None

    @property
    def is_too_uncertain(self) -> bool:
        """Whether its colour is the model's and no ground to act on; it is never shown then."""
        return is_too_uncertain(self.error)

    @property
    def is_predicted(self) -> bool:
        """Whether its colour is the model's."""
        return self.error is not None


class Laid(NamedTuple):
    """A dry swatch in one layer that may stand for a cell.

    Args:
        swatch: the swatch.
        water: its parts of water to one of paint.
        parts: of each paint in its mix, by id.
    """

    swatch: Swatch
    water: float
    parts: dict[int, int]

    def share(self, paint: int) -> float:
        """How much of the paint in it is this one, 0 to 1."""
        return self.parts[paint] / sum(self.parts.values())


Asked = tuple[tuple[Ingredient, ...], float]
"""A recipe and its water."""


def laid_swatches(work: UnitOfWork, paints: Iterable[Paint], most: int = 2) -> list[Laid]:
    """The dry swatches of these paints alone, so many together at most, in one even layer."""
    wanted = {paint.id for paint in paints}
    mixes = {
        mix.id: mix
        for mix in work.mixes.with_any(wanted)
        if mix.recipe.paints <= wanted and len(mix.recipe.paints) <= most
    }
    return [
        Laid(swatch, swatch.facts.water, dict(mixes[swatch.mix_id].recipe.parts))
        for swatch in work.swatches.of_mixes(mixes)
        if swatch.removed is None
        and swatch.state is State.DRY
        and swatch.facts.layers == 1
        and swatch.facts.application not in UNEVEN
        and swatch.facts.water is not None
    ]


def usual_paper(work: UnitOfWork, laid: Iterable[Laid]) -> Paper | None:
    """The paper of most mixtures among some swatches, then of most of all; else the last one used.

    A paint alone is predicted better than a mixture, so mixtures decide.
    """
    mixed, every = Counter[int](), Counter[int]()
    for each in laid:
        every[each.swatch.paper_id] += 1
        mixed[each.swatch.paper_id] += len(each.parts) > 1
    if every:
        return work.papers.by_id(max(every, key=lambda key: (mixed[key], every[key], -key)))
    last = work.swatches.last_paper()
    return None if last is None else work.papers.by_id(last)


def settled(
    steps: Sequence[float], first: Iterable[float], laid: Iterable[float] = ()
) -> tuple[float, ...]:
    """Steps of a scale, each moved to the value that was laid most often about it.

    Args:
        steps: above 0, each a constant times the last.
        first: values on record; those nearer to a step than half-way to the next, by ratio, count.
        laid: further ones, for where the first leave a choice.
    """
    half = abs(math.log(steps[1] / steps[0])) / 2
    counts = Counter(value for value in first if value > 0)
    others = Counter(value for value in laid if value > 0)

    def moved(step: float) -> float:
        near = [v for v in counts | others if -half <= math.log(v / step) < half]
        return max(
            near,
            key=lambda v: (counts[v], others[v], -abs(math.log(v / step))),
            default=step,
        )

    return tuple(map(moved, steps))


def chart_cells(
    model: PaintModel, laid: Sequence[Laid], paper: Paper | None, asked: Sequence[Asked]
) -> list[Cell]:
    """A cell for each wash: the nearest swatch on the paper, else predicted on it.

    Args:
        model: the paints.
        laid: swatches that may stand for a cell.
        paper: the paper; None for a usual white and no swatch.
        asked: the washes.
    """
    of_paints: dict[frozenset[int], list[Laid]] = defaultdict(list)
    for swatch in laid:
        if paper is not None and swatch.swatch.paper_id == paper.id:
            of_paints[frozenset(swatch.parts)].append(swatch)
    cells = [_measured(of_paints, each) for each in asked]
    gaps = [place for place, cell in enumerate(cells) if cell is None]
    for place, cell in zip(gaps, _predicted(model, paper, [asked[n] for n in gaps]), strict=True):
        cells[place] = cell
    return [cell for cell in cells if cell is not None]


def unknown_paints(model: PaintModel, cells: Iterable[Cell]) -> tuple[UnknownPaint, ...]:
    """The paints that keep cells empty, each once."""
    of_paint = {each.paint.id: each for each in model.inputs.unknown}
    lacking = {
        part.paint.id: of_paint[part.paint.id]
        for cell in cells
        if cell.lab is None
        for part in cell.recipe
        if part.paint.id in of_paint
    }
    return tuple(lacking.values())


def _measured(of_paints: Mapping[frozenset[int], Sequence[Laid]], asked: Asked) -> Cell | None:
    recipe, water = asked
    total = sum(part.parts for part in recipe)
    found = []
    for each in of_paints.get(frozenset(part.paint.id for part in recipe), ()):
        away = max(abs(part.parts / total - each.share(part.paint.id)) for part in recipe)
        ratio = abs(math.log((1 + each.water) / (1 + water)))
        if away < SHARE_NEAR and ratio <= math.log(WASH_NEAR):
            found.append(((ratio, away, -each.swatch.id), each.swatch))
    if not found:
        return None
    swatch = min(found, key=lambda pair: pair[0])[1]
    return Cell(recipe, water, swatch.lab, swatch, len(found) - 1)


def _predicted(model: PaintModel, paper: Paper | None, asked: Sequence[Asked]) -> list[Cell]:
    import numpy as np  # noqa: PLC0415 - for what is not measured

    from studio.mixing.predict import expected_error, predict, recipes_of  # noqa: PLC0415

    known = model.known
    keys = set() if known is None else set(known.paints)
    told = [place for place, each in enumerate(asked) if {p.paint.id for p in each[0]} <= keys]
    cells = [Cell(recipe, water, None, why=_why(model, recipe)) for recipe, water in asked]
    if known is None or not told:
        return cells
    shares = recipes_of(
        known, [{p.paint.id: float(p.parts) for p in asked[place][0]} for place in told]
    )
    waters = np.array([asked[place][1] for place in told])
    ground = model.ground(paper).reflectance
    labs = known.light.lab(predict(known, shares, waters, ground)).tolist()
    errors = expected_error(known, shares, waters, ground).tolist()
    for place, (lightness, a, b), error in zip(told, labs, errors, strict=True):
        # Beyond white or black a prediction is cut back.
        lab = Lab(min(max(lightness, 0.0), 100.0), a, b)
        cells[place] = Cell(*asked[place], lab, error=error)
    return cells


def _why(model: PaintModel, recipe: Iterable[Ingredient]) -> str:
    unknown = {each.paint.id: each for each in model.inputs.unknown}
    lacking = [unknown[part.paint.id] for part in recipe if part.paint.id in unknown]
    return "; ".join(f"{each.paint.facts.code}: {each.why}" for each in lacking)
