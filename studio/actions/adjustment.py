"""What `adjust` tells of a test patch: where it stands to its target, and what may be done."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from studio.actions.drying_shift import ExpectedDry
from studio.actions.match_colour import Ingredient
from studio.actions.model_inputs import UnknownPaint
from studio.actions.read_target import Target
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint
from studio.catalogue.paper import Paper
from studio.catalogue.swatch import Swatch
from studio.colour.lab import Lab
from studio.colour.words import Separation
from studio.mixing.settings import is_too_uncertain

LAY_IT: Final = 1.0
"""Up to this ΔE00 a patch is hardly told from its target (common practice, no source)."""
REACHED: Final = 3.0
"""Up to this ΔE00 a colour passes across a painting (common practice, no source)."""

_THINNING: Final = ((1.02, ""), (1.25, "a little more water"), (1.8, "more water"))


@dataclass(frozen=True, slots=True)
class Addition:
    """A paint that is added to the puddle.

    Args:
        paint: the paint.
        parts: of the recipe's own parts.
    """

    paint: Paint
    parts: float


@dataclass(frozen=True, slots=True)
class Proposed:
    """One thing to do, and what it is predicted to lead to.

    Args:
        rank: 1 for what is best.
        way: add, fresh mix, another layer, glaze or lift.
        added: paints added to the puddle.
        added_water: parts of water added to the puddle.
        recipe: what is then laid; for a glaze the glaze itself.
        water: parts of water to one of paint in it.
        layers: of it on the paper then; for a lifted film what is left of it.
        lab: predicted.
        delta_e: predicted ΔE00 from the target.
        error: about 68 % of patches stay within this ΔE00 of the prediction.
        separation: how the predicted colour looks beside the target.
        next_line: the command that records what came of it.
    """

    rank: int
    way: str
    added: tuple[Addition, ...]
    added_water: float
    recipe: tuple[Ingredient, ...]
    water: float
    layers: float
    lab: Lab
    delta_e: float
    error: float
    separation: Separation
    next_line: str

    @property
    def is_too_uncertain(self) -> bool:
        """Whether what it leads to is predicted too uncertainly to be shown."""
        return is_too_uncertain(self.error)


@dataclass(frozen=True, slots=True)
class Adjustment:
    """A test patch beside its target, with what to do about it.

    Args:
        swatch: the patch.
        mix: its mix.
        recipe: paints and parts of the mix.
        paper: of the patch.
        next_paper: what the next patch comes on.
        target: the wanted colour.
        lab: the patch as it is dry.
        delta_e: ΔE00 of the patch from the target.
        needed: how the target looks beside the patch: what is to be corrected.
        model_delta_e: ΔE00 of the patch from what the model predicts of it.
        reading_error: expected ΔE00 of its readings, where known.
        estimated: its spectrum was estimated from its Lab.
        drying: how its dry colour follows from a wet reading; None where it was read dry.
        proposed: what to do, best first.
        unknown: paints in stock that the model says nothing of.
        never: paints in stock that are never to be used, so that none is added.
    """

    swatch: Swatch
    mix: Mix
    recipe: tuple[Ingredient, ...]
    paper: Paper
    next_paper: Paper
    target: Target
    lab: Lab
    delta_e: float
    needed: Separation
    model_delta_e: float
    reading_error: float | None
    estimated: bool
    drying: ExpectedDry | None
    proposed: tuple[Proposed, ...]
    unknown: tuple[UnknownPaint, ...]
    never: tuple[Paint, ...]

    @property
    def is_right(self) -> bool:
        """Whether the patch is already within what can be told apart."""
        return self.delta_e <= LAY_IT

    @property
    def is_unsure(self) -> bool:
        """Whether the patch is off by less than the best proposal may miss."""
        return bool(self.proposed) and self.delta_e < self.proposed[0].error

    @property
    def is_reached(self) -> bool:
        """Whether the patch, or what it may become surely enough, passes for the target."""
        sure = (each.delta_e for each in self.proposed if not each.is_too_uncertain)
        return min([self.delta_e, *sure]) <= REACHED

    @property
    def water(self) -> float | None:
        """Parts of water to one of paint in the patch, where recorded."""
        return self.swatch.facts.water

    @property
    def begin_anew(self) -> str:
        """The command that looks for other recipes."""
        return f"studio formulate {quoted(self.target.given)}"


def water_words(before: float, after: float) -> str:
    """What becomes of the water in a puddle, in words.

    Args:
        before: parts of water to one of paint.
        after: the same.
    """
    ratio = (1.0 + after) / (1.0 + before)
    return next((words for most, words in _THINNING if ratio < most), "much more water")


def parts_text(parts: float) -> str:
    """Parts as a painter measures them, such as `1/4`, `1 1/2` or `3`."""
    whole, rest = divmod(parts, 1.0)
    if rest == 0.0:
        return f"{whole:g}"
    top, bottom = rest.as_integer_ratio()
    return f"{whole:g} {top}/{bottom}" if whole else f"{top}/{bottom}"


def quoted(text: str) -> str:
    """A text as one word of a command line."""
    return f'"{text}"' if set(text) & set(" #()'&;*?$|<>") else text


def terms_text(recipe: tuple[Ingredient, ...]) -> str:
    """A recipe by the codes of its paints, such as `2 FU + 1 BS`."""
    if len(recipe) == 1:
        return recipe[0].paint.facts.code
    return " + ".join(f"{each.parts} {each.paint.facts.code}" for each in recipe)


def log_line(
    recipe: tuple[Ingredient, ...], paper: Paper, target: Target, facts: Mapping[str, object]
) -> str:
    """The command that records the next patch, its reading left to be filled in."""
    given = [("paper", paper.facts.code), *facts.items(), ("for", target.given)]
    options = " ".join(f"--{name} {quoted(str(value))}" for name, value in given)
    return f"studio swatch log {quoted(terms_text(recipe))} {options} --lab L,a,b"
