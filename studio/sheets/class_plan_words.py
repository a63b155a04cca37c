"""The sentences about a class that terminal and handout share."""

from collections.abc import Iterable
from typing import Final

from studio.actions.adjustment import parts_text
from studio.actions.painting.class_plan import (
    ClassPlan,
    LeftHome,
    PaperSupply,
    SmallParts,
    Supply,
)
from studio.actions.painting.plan import PlannedColour, PlannedMix
from studio.actions.painting.substitutes import Substitute
from studio.catalogue.care import Work
from studio.catalogue.paint import Paint
from studio.catalogue.stock import Unit, amount_text
from studio.sheets.match_view import recipe_text
from studio.sheets.screen import water_text

_TOLD: Final = 0.1
"""ΔE00 from which on what a colour costs is told."""
_NAMED: Final = 4


def students_text(plan: ClassPlan) -> str:
    """Who paints."""
    who = "children" if plan.kind is Work.CHILDREN else "adults"
    return f"for {plan.students} {who}" if plan.students > 1 else f"for one of a class of {who}"


def reserve_text(plan: ClassPlan) -> str:
    """What is added to what one needs so many times."""
    return (
        f"Each amount is what one needs, times {plan.students}, and {plan.reserve:.0%} more for "
        "strips and mishaps (common practice, no source)."
    )


def containers_text(supply: Supply) -> str:
    """How many whole containers hold what is needed."""
    volume = supply.paint.facts.volume_ml
    if supply.containers is None or volume is None:
        return "size not known"
    return f"{supply.containers} x {amount_text(volume, Unit.ML)}"


def paper_text(plan: ClassPlan) -> str:
    """The paper to bring, and how it is cut."""
    paper, painting = plan.paper, plan.plan.painting
    name = plan.plan.paper.facts.full_name
    size = f"{painting.width_mm:g} x {painting.height_mm:g} mm"
    told = f"{paper.pieces} pieces of {size}"
    if plan.plan.paper.stock.unit is Unit.MM:
        return f"{told}: {amount_text(paper.needed, Unit.MM)} of the roll of {name}"
    sheets = _sheets(paper)
    if paper.each_sheet is None:
        return f"{told}: {sheets} of {name}, one each, as the size of a sheet is not on record"
    if paper.each_sheet == 0:
        return f"{told}: {sheets} of {name}, but the painting is larger than a sheet"
    return f"{told}: {sheets} of {name}, {paper.each_sheet} from each; strips from what is left"


def _sheets(paper: PaperSupply) -> str:
    return "1 sheet" if paper.needed == 1 else f"{paper.needed:g} sheets"


def left_home_text(left: LeftHome, small: SmallParts | None = None) -> str:
    """What the class does without a paint of the painter's own plan."""
    in_parts = "" if small is None else f" in {small.together} parts at most"
    replaced = [each for each in left.colours if each.mix is not None]
    parts = []
    if replaced:
        mixes = dict.fromkeys(each.mix.letter for each in replaced if each.mix)
        parts.append(f"{_passages(replaced)} from {', '.join(mixes)} instead")
    if left.lost:
        parts.append(f"nothing else makes {_passages(left.lost)}{in_parts}")
    return "; ".join(parts)


def _passages(colours: Iterable[PlannedColour]) -> str:
    return ", ".join(dict.fromkeys(f"{each.number} {each.passage.name}" for each in colours))


def substitute_lines(substitute: Substitute, kept: Iterable[Paint]) -> list[str]:
    """How to do without a paint, a line for what to bring and one for each mix."""
    facts = substitute.paint.facts
    known = {paint.id for paint in kept}
    more = [paint.facts.name for paint in substitute.more if paint.id not in known]
    if not substitute.mixes:
        lead = f"{facts.name}: nothing takes its place"
    elif more:
        lead = f"{facts.name}: bring {' and '.join(more)} instead"
    else:
        lead = f"{facts.name}: the others do"
    lines = [lead]
    mixes: dict[tuple[object, ...], list[str]] = {}
    texts: dict[tuple[object, ...], str] = {}
    for each in substitute.mixes:
        one = each.candidate
        guess = "" if one.error is None else f" ± {one.error:.1f}, predicted"
        texts.setdefault(one.well, f"{recipe_text(one.recipe)}, {water_text(one.water)}")
        name = f"{each.weighed.number} {each.weighed.passage.name}"
        mixes.setdefault(one.well, []).append(f"{name} ΔE00 {one.delta_e:.1f}{guess}")
    lines += [f"{texts[well]} for {'; '.join(of)}" for well, of in mixes.items()]
    if substitute.lost:
        lost = dict.fromkeys(f"{each.number} {each.passage.name}" for each in substitute.lost)
        lines.append(f"not made without it: {', '.join(lost)}")
    return lines


def small_text(small: SmallParts) -> list[str]:
    """What small parts are, and what they cost, a sentence each."""
    lead = (
        f"Wells of {small.together} parts of paint at most; a recorded mix within ΔE00 "
        f"{small.near:g} comes before anything predicted."
    )
    told = [lead]
    if small.mean_cost is not None:
        dear = sorted((pair for pair in small.costs if pair[1] > _TOLD), key=lambda pair: -pair[1])
        named = "; ".join(
            f"{each.colour.number} {each.colour.passage.name} {each.delta_e + cost:.1f} instead of "
            f"{each.delta_e:.1f}"
            for each, cost in dear[:_NAMED]
        )
        more = f"; {len(dear) - _NAMED} more" if len(dear) > _NAMED else ""
        told.append(
            f"That costs ΔE00 {small.mean_cost:.1f} on average beside any parts of the same paints"
            f"{f' ({named}{more})' if named else ''}."
        )
    if small.lost:
        told.append(f"Only larger parts make {_passages(small.lost)}.")
    return told


def counted_texts(mix: PlannedMix) -> tuple[str, str]:
    """The paint and the water of a well in parts that a child counts out."""
    paint = " + ".join(f"{_parts(part.parts)} {part.paint.facts.name}" for part in mix.recipe)
    if mix.water is None:
        return paint, "try how much"
    water = mix.water * sum(part.parts for part in mix.recipe)
    return paint, f"{_parts(water)} water" if water else "no water"


def _parts(count: float) -> str:
    return f"{parts_text(count)} {'part' if count <= 1 else 'parts'}"


def spatter_text(plan: ClassPlan) -> str | None:
    """The passages that children do not spatter."""
    if not plan.no_spatter:
        return None
    names = ", ".join(passage.name for passage in plan.no_spatter)
    return f"Children do not spatter: dab {names} with the tip of a brush, or leave it out."
