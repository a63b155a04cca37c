"""What a mixing chart says of itself, in the picture and in the terminal alike."""

from collections.abc import Sequence

from studio.actions.chart_cells import Cell
from studio.actions.match_colour import Ingredient
from studio.actions.mixing_chart import MixingChart
from studio.actions.paper_ground import GroundBasis
from studio.colour.display import on_screen
from studio.mixing.settings import TOO_UNCERTAIN
from studio.sheets.chart_sheet import WHITE
from studio.sheets.chart_words import counted
from studio.sheets.page_parts import starred
from studio.sheets.screen import OUTSIDE

NEAR = (
    "A swatch stands for a cell where its proportion is the same to 2 in 100 and its wash at most "
    "a tenth stronger or weaker; dry, one layer, on this paper."
)
ERROR = "±: two of three such predictions stay within this ΔE00."

UNSURE = "unsure"
"""Below a patch that is crossed out."""
CROSSED = (
    f"Crossed out: too uncertain to act on. Above ±{TOO_UNCERTAIN:g} what is laid is more often "
    "another colour than the one predicted; studio paint show names the swatch that would tell "
    "most of a paint."
)


def shown_cells(chart: MixingChart) -> list[Cell]:
    """The cells whose colour is shown."""
    return [each for each in chart.cells if each.lab is not None and not each.is_too_uncertain]


def pair_title(chart: MixingChart) -> str:
    """The heading of a chart of two paints."""
    one, other = chart.paints
    return f"{one.facts.name} and {other.facts.name}"


def pairs_title(chart: MixingChart) -> str:
    """The heading of a chart of pairs."""
    return f"{len(chart.paints)} paints, each pair mixed 1:1"


def halves_text(chart: MixingChart) -> str:
    """Where the strong and the thin washes of a chart of pairs are."""
    strong, thin = map(water_of, chart.waters)
    return f"Above the diagonal {strong}, below it {thin}; on it each paint alone, {strong}."


def where_text(chart: MixingChart) -> str:
    """The paper, how many cells are of what kind, and the white."""
    paper = "a usual white paper" if chart.paper is None else chart.paper.facts.full_name
    swatches = {cell.swatch.id for cell in chart.cells if cell.swatch is not None}
    empty = len(chart.cells) - chart.measured - chart.predicted
    read = counted(len(swatches), "swatch", "swatches")
    parts = [
        f"{counted(chart.measured, 'cell', 'cells')} measured from {read}",
        f"{chart.predicted:,} predicted"
        + (f", {chart.uncertain:,} of these too uncertain" if chart.uncertain else ""),
        *([f"{empty:,} empty"] if empty else []),
    ]
    return f"{paper}. {', '.join(parts)}. {WHITE}."


def notes_of(chart: MixingChart) -> list[str]:
    """What the marks mean and what is missing, a sentence each."""
    notes = [NEAR] if chart.measured else []
    notes += [ERROR] if chart.predicted else []
    notes += [CROSSED] if chart.uncertain else []
    if chart.predicted and chart.basis is not GroundBasis.MEASURED:
        white = (
            "is estimated from its Lab" if chart.basis is GroundBasis.ESTIMATED else "was not read"
        )
        notes.append(f"The white of the paper {white}.")
    if any(cell.lab and not on_screen(cell.lab).in_gamut for cell in shown_cells(chart)):
        notes.append(f"{OUTSIDE}.")
    for each in chart.unknown:
        facts = each.paint.facts
        notes.append(f"{facts.code} {facts.name} cannot be predicted: {each.why}.")
    return notes


def caption_of(cell: Cell) -> str:
    """The swatch that was measured, or the error of the prediction; `*` outside sRGB."""
    if cell.is_too_uncertain:
        return f"±{cell.error:.1f} {UNSURE}"
    if cell.lab is None:
        return ""
    return starred(name_of(cell), cell.lab)


def name_of(cell: Cell) -> str:
    """The swatch that was measured, or the error of the prediction."""
    return f"±{cell.error:.1f}" if cell.swatch is None else cell.swatch.facts.code


def proportion_of(recipe: Sequence[Ingredient]) -> str:
    """`alone`, or the parts of two paints as `3:1`."""
    return "alone" if len(recipe) == 1 else ":".join(str(part.parts) for part in recipe)


def water_of(water: float) -> str:
    """`no water`, `water 3:1`."""
    return "no water" if water == 0 else f"water {water:.3g}:1"
