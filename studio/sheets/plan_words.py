"""The sentences about a plan that terminal and pages share."""

from collections.abc import Iterable

from studio.actions.painting.plan import Basis, Candidate, Plan, PlannedColour, PlannedMix
from studio.actions.reorder_stock import ShoppingList
from studio.catalogue.lightfastness import FADING
from studio.catalogue.paint import Paint, worst_of
from studio.catalogue.painting import Passage
from studio.catalogue.stock import Unit, amount_text
from studio.sheets.screen import layers_text, verified_text


def ml_text(ml: float) -> str:
    """An amount that is measured out, to a tenth of a ml."""
    return "under 0.1 ml" if 0.0 < ml < 0.05 else f"{ml:.1f} ml"  # noqa: PLR2004 - rounds to 0.0


def passage_text(passage: Passage, names: dict[int, str]) -> str:
    """How a passage is laid: technique, layers, what it goes over, its share."""
    parts = [str(passage.technique)]
    if passage.layers > 1:
        parts.append(layers_text(passage.layers))
    if passage.over in names:
        verb = "from" if passage.technique == "lifted" else "over"
        parts.append(f"{verb} {names[passage.over or 0]}")
    if passage.share is not None:
        parts.append(f"{passage.share:.0%} of the area")
    return " · ".join(parts)


def passage_names(plan: Plan) -> dict[int, str]:
    """Number and name of each passage by its id."""
    passages = plan.painting.passages
    return {each.id: f"{number} {each.name}" for number, each in enumerate(passages, start=1)}


def basis_text(planned: PlannedColour, plan: Plan) -> str:
    """What a mix rests on: its card, the cards of a tint, or a prediction."""
    chosen = planned.chosen
    if chosen is None:
        return ""
    elsewhere = "" if chosen.paper.id == plan.paper.id else f" on {chosen.paper.facts.code}"
    if chosen.swatch is None:
        known = f", {chosen.mix.code} laid otherwise" if chosen.mix else ", never mixed"
        return f"predicted{known}"
    facts = chosen.swatch.facts
    where = f" ({facts.kept_at})" if facts.kept_at else ""
    card = f"{facts.code}{elsewhere}{where}"
    if chosen.basis is Basis.TINT:
        return f"tint between cards, beside {card}"
    return f"its own test {card}" if chosen.is_try else f"card {card}"


def delta_text(chosen: Candidate) -> str:
    """How far off a mix is, with what a prediction may miss by."""
    if chosen.error is None:
        return f"ΔE00 {chosen.delta_e:.1f}"
    return f"ΔE00 {chosen.delta_e:.1f} ± {chosen.error:.1f}"


def served_text(mix: PlannedMix, plan: Plan) -> str:
    """The numbers of the passages that a mix serves."""
    numbers = dict.fromkeys(each.number for each in plan.colours if each.mix == mix)
    return ", ".join(map(str, numbers))


def palette_text(plan: Plan) -> str:
    """How many paints make the colours, and whether fewer could."""
    count = len(plan.palette)
    paints = "1 paint" if count == 1 else f"{count} paints"
    if plan.fewest_proven:
        return f"Palette: {paints}; of the mixes considered, no fewer make all of these"
    return f"Palette: {paints}; the search for fewer ran out of time"


def try_first_texts(plan: Plan) -> list[str]:
    """What to try on an offcut before the painting: predictions, and colours without a mix."""
    letters = [mix.letter for mix in plan.mixes if mix.basis is not Basis.RECORDED]
    needed = [f"{each.number} {each.passage.name}" for each in plan.to_test]
    told = [f"{', '.join(letters)} (never laid)"] if letters else []
    told += [f"{', '.join(dict.fromkeys(needed))} (no mix yet)"] if needed else []
    return [f"Try on an offcut first: {'; '.join(told)}."] if told else []


def drying_text(plan: Plan) -> str:
    """Where to wait."""
    if not plan.drying_steps:
        return "No passage has to dry before the next."
    numbers = ", ".join(map(str, plan.drying_steps))
    return f"Wait until dry after {numbers}."


def time_text(plan: Plan) -> str:
    """How long it takes."""
    low, high = (hours_text(minutes) for minutes in plan.minutes)
    return f"About {low} to {high} for mixing, testing, laying and drying."


def hours_text(minutes: float) -> str:
    """Minutes as people say them, to five minutes."""
    whole = max(5, 5 * round(minutes / 5))
    hours, rest = divmod(whole, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest} min" if rest else f"{hours} h"


def fading_text(paints: Iterable[Paint]) -> str:
    """The worst lightfastness of some paints, with its source and how far it can be trusted."""
    every = list(paints)
    unrated = [paint.facts.name for paint in every if paint.worst_rating is None]
    worst = worst_of(paint.worst_known_rating for paint in every)
    unknown = f"not known for every pigment of {', '.join(unrated)}" if unrated else ""
    if worst is None:
        return f"Lightfastness {unknown}" if unknown else "No paint, so nothing that fades"
    grave = "; paintings for sale want I or II" if worst.rank >= FADING else ""
    told = (
        f"Lightfastness {worst.category} by {worst.pigment} ({worst.scale}, {worst.source}; "
        f"{verified_text(worst.verified_on)}){grave}"
    )
    return f"{told}; {unknown}" if unknown else told


def shopping_text(shopping: ShoppingList, paints: Iterable[Paint]) -> str:
    """What to buy, in one line, and of what the stock is not known."""
    unknown = [paint.facts.name for paint in paints if paint.stock.left is None]
    bought = []
    for order in shopping.orders:
        size = "" if order.size is None else f" of {amount_text(order.size, order.item.stock.unit)}"
        price = "" if order.cost is None else f", {order.cost} {order.currency}"
        bought.append(f"{order.quantity} {order.item.facts.name}{size} ({order.reason}{price})")
    told = (
        f"To buy: {'; '.join(bought)}."
        if bought
        else "Nothing to buy, as far as the stock is known."
    )
    return f"{told} Stock not known: {', '.join(unknown)}." if unknown else told


def left_text(ml: float | None) -> str:
    """What is left on the shelf."""
    return "not known" if ml is None else amount_text(ml, Unit.ML)
