"""The sentences about predicted recipes: what they rest on, what fails, what to do next."""

from collections.abc import Sequence
from fractions import Fraction
from typing import Final

from studio.actions.beyond_paints import BeyondPaints, Failing
from studio.actions.formulate_colour import FormulateResult
from studio.actions.match_colour import Ingredient
from studio.actions.paper_ground import GroundBasis
from studio.actions.proposed_mix import LayFirst, ProposedMix
from studio.catalogue.paint import Transparency
from studio.catalogue.paper import Paper
from studio.mixing.proposal import EACH_PAINT
from studio.mixing.settings import TOO_UNCERTAIN
from studio.sheets.screen import separation_text, water_text

ERROR_NOTE: Final = (
    "± is the ΔE00 within which about 68 % of such predictions lie of what is then measured. "
    "Recipes stand in order of ΔE00 and ± together (root of their squares); each further paint has "
    f"to be worth ΔE00 {EACH_PAINT:g}."
)
UNCERTAIN: Final = (
    f"Above ±{TOO_UNCERTAIN:g} what is laid is more often another colour than the one predicted."
)
SHIFT_NOTE: Final = (
    "itself: how far the mix's own colour moves from D50 to that light, each in its own white; "
    "the target has no spectrum to compare with under it."
)
_BASIS: Final = {
    GroundBasis.MEASURED: "its white measured",
    GroundBasis.ESTIMATED: "the spectrum of its white estimated from its Lab",
    GroundBasis.USUAL: "its white was never read: a usual white is taken",
}


def parts_ratio(water: Fraction) -> str:
    """Water to paint in whole parts, such as `5:2`."""
    return f"{water.numerator}:{water.denominator}"


def ground_text(result: FormulateResult) -> str:
    """What the recipes are laid on."""
    paper = result.laying.paper
    if paper is None:
        return "on a usual white paper: none is on record with a swatch; name one with --paper"
    return f"on {paper.facts.full_name} ({_BASIS[result.ground]})"


def rests_text(mix: ProposedMix) -> str:
    """What a prediction rests on."""
    each = [
        f"{rest.paint.facts.code} {_swatches(rest.alone)} alone, {rest.mixed} in mixes"
        for rest in mix.rests
    ]
    text = f"rests on {'; '.join(each)}"
    estimated = [rest for rest in mix.rests if rest.estimated]
    if estimated:
        told = ", ".join(
            f"{rest.estimated} of {rest.alone + rest.mixed} of {rest.paint.facts.code}"
            for rest in estimated
        )
        return f"{text}; spectra estimated from Lab: {told}"
    return f"{text}; every spectrum measured"


def doubts(mix: ProposedMix) -> list[str]:
    """What makes a prediction less sure, a line each."""
    lines = []
    if mix.strangers:
        pairs = ", ".join(
            f"{one.facts.code} with {other.facts.code}" for one, other in mix.strangers
        )
        lines.append(f"never mixed yet: {pairs}")
    opaque = [
        part.paint.facts.code
        for part in mix.recipe
        if part.paint.facts.transparency is Transparency.OPAQUE
    ]
    if opaque:
        lines.append(f"opaque: {', '.join(opaque)}; it covers what lies below")
    if mix.mix is not None:
        lines.append(f"this recipe is on record: studio mix show {mix.mix.code}")
    return lines


def failing_text(beyond: BeyondPaints, result: FormulateResult) -> str:
    """That a target cannot be reached, what fails, and what would help."""
    return (
        f"The {beyond.failing} cannot be reached with these paints. The nearest predicted is "
        f"{beyond.separation.sentence} ({separation_text(beyond.separation)}); no amounts come "
        f"nearer than ΔE00 {result.reached:.1f}. {_remedy(beyond, result.laying.layers)}"
    )


def _remedy(beyond: BeyondPaints, layers: int) -> str:
    if beyond.failing is Failing.VALUE and beyond.more:
        return f"Darker: another layer (--layers {layers + 1}), or a darker paint."
    if beyond.failing is Failing.VALUE:
        return "Lighter: a whiter paper, or a white paint."
    if beyond.failing is Failing.CHROMA and beyond.more:
        return "Duller: let a paint of the opposite hue take part."
    if beyond.failing is Failing.CHROMA:
        return "More intense: it needs a more intense paint of that hue, or more paints to choose."
    return "It needs a paint nearer that hue, or more paints to choose from."


def doubtful_text(result: FormulateResult) -> str:
    """That recipes are not shown, as they are too uncertain, and why that is so."""
    errors = [each.expected_error for each in result.doubtful]
    low, high = f"{min(errors):.0f}", f"{max(errors):.0f}"
    count = "1 recipe is" if len(errors) == 1 else f"{len(errors)} recipes are"
    whose = "its" if len(errors) == 1 else "their"
    spread = low if low == high else f"{low} to {high}"
    text = f"{count} too uncertain to act on and not ranked: {whose} ± is {spread}. {UNCERTAIN}"
    if result.proposals and result.within_reach is None:
        text += " Whether these paints reach the colour is not known before a swatch tells more."
    return text


def lay_first_text(patch: LayFirst) -> str:
    """Which test patch to lay instead of recipes that are too uncertain."""
    return (
        f"Lay first what would tell most: {lay_first_words(patch)}, read when it is dry. "
        f"It would bring that ± from about {patch.before:.0f} to about {patch.after:.0f}."
    )


def lay_first_words(patch: LayFirst) -> str:
    """A test patch by its paint, water and paper."""
    names = [f"{part.paint.facts.code} {part.paint.facts.name}" for part in patch.recipe]
    what = f"{names[0]} alone" if len(names) == 1 else f"{' and '.join(names)} 1:1"
    paper = "" if patch.paper is None else f", on {patch.paper.facts.full_name}"
    return f"a flat wash of {what}, {water_text(patch.water)}{paper}"


def lay_first_line(patch: LayFirst) -> str:
    """The command that records such a patch."""
    return f'studio swatch log "{_terms(patch.recipe)}" --water {patch.water:g}:1{_on(patch.paper)}'


def next_text(result: FormulateResult) -> tuple[str, list[str]]:
    """Which test patch to make next, and the commands that record and correct it.

    There is a recipe that is not too uncertain.
    """
    first = result.proposals[0] if result.proposals else result.nearest
    parts = _terms(first.recipe)
    water = parts_ratio(first.water)
    layers = result.laying.layers
    more = f" --layers {layers}" if layers > 1 else ""
    on = _on(result.laying.paper)
    given = result.target.given
    sentence = (
        f"These are predictions; nothing of this was laid. Next test patch: {parts}, water {water}"
        f"{_layers(layers)}, read when it is dry:"
    )
    return sentence, [
        f'studio swatch log "{parts}" --water {water}{more}{on} --for "{given}"',
        f'studio adjust S… "{given}"',
    ]


def _terms(recipe: Sequence[Ingredient]) -> str:
    """A recipe by the codes of its paints, as commands take it."""
    if len(recipe) == 1:
        return recipe[0].paint.facts.code
    return " + ".join(f"{part.parts} {part.paint.facts.code}" for part in recipe)


def _on(paper: Paper | None) -> str:
    return "" if paper is None else f" --paper {paper.facts.code}"


def left_out_lines(left_out: Sequence[str], retired: Sequence[str]) -> list[str]:
    """Paints that take no part, a sentence each."""
    lines = [f"left out: {text}" for text in left_out]
    return lines + [f"left out: {name} is retired" for name in retired]


def _layers(layers: int) -> str:
    return "" if layers == 1 else f", {layers} layers"


def _swatches(count: int) -> str:
    return "1 swatch" if count == 1 else f"{count} swatches"
