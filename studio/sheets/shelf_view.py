"""A pigment, a paint or a paper in the terminal, with all that is known of it."""

from collections.abc import Iterable, Sequence
from typing import Final

from rich.console import Console

from studio.actions.known_paint import KnownPaint
from studio.actions.match_colour import Ingredient
from studio.catalogue.care import NEVER
from studio.catalogue.container import Container
from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import ADVICE, NO_DATA
from studio.catalogue.lightfastness import LightfastnessRating
from studio.catalogue.mix import Mix
from studio.catalogue.paint import SIENNA_OR_UMBER, Paint
from studio.catalogue.paper import Paper
from studio.catalogue.pigment import Pigment
from studio.catalogue.stock import amount_text
from studio.sheets.care_columns import listing_text, looked_up_text
from studio.sheets.known_paint_view import print_known_paint
from studio.sheets.match_view import caution_lines
from studio.sheets.record_parts import print_fact, print_readings
from studio.sheets.screen import (
    day_text,
    indented,
    verified_text,
)
from studio.sheets.stock_view import left_text

SIENNA_OR_UMBER_TEXT: Final = (
    f"{SIENNA_OR_UMBER} stands for both, and an umber holds more manganese; say which:"
)


def show_pigment(console: Console, pigment: Pigment) -> None:
    """A pigment with every rating and caution, ending with where to verify."""
    unnamed = "no row of its own" if pigment.as_base else "no data: take care"
    heading = f"{pigment.label}  {pigment.common_name or unnamed}"
    indented(console, heading, 0, "bold")
    print_fact(console, "chemistry", pigment.chemical_class)
    print_fact(console, "C.I. number", pigment.ci_number)
    print_fact(console, "note", pigment.note)
    print_fact(console, "source", _known(pigment))
    _print_ratings(console, pigment.ratings)
    _print_hazards(console, (pigment,))


def _known(pigment: Pigment) -> str | None:
    if pigment.source is None or pigment.evidence is Evidence.MEMORY:
        return pigment.source
    return f"{pigment.source} ({pigment.evidence})"


def _print_ratings(console: Console, ratings: Iterable[LightfastnessRating]) -> None:
    listed = list(ratings)
    console.print("Lightfastness", style="bold")
    for rating in listed:
        year = f", {rating.year}" if rating.year else ""
        note = f" ({rating.note})" if rating.note else ""
        confirmed = f" from {rating.verified_from}" if rating.verified_from else ""
        indented(
            console,
            f"{rating.label} {rating.scale} {rating.rating} in {rating.medium}: "
            f"{rating.source}{year}{note}; {verified_text(rating.verified_on)}{confirmed}",
        )
    if not listed:
        indented(console, "no rating on record")


def _print_hazards(console: Console, pigments: Sequence[Pigment]) -> None:
    listed = [hazard for pigment in pigments for hazard in pigment.hazards]
    console.print("Cautions", style="bold")
    for hazard in listed:
        confirmed = f" from {hazard.verified_from}" if hazard.verified_from else ""
        indented(console, f"{hazard.label}, {hazard.agent}: {hazard.summary}")
        if hazard.never_use:
            indented(console, NEVER, 4, "bold")
        if hazard.codes:
            codes = ", ".join(
                f"{code.code}{'?' if code.hedged else ''} ({code.wording.rstrip('.')})"
                for code in hazard.codes
            )
            indented(console, f"statements: {codes}", 4)
        if hazard.listings:
            listings = "; ".join(listing_text(listing) for listing in hazard.listings)
            indented(console, f"listed: {listings}", 4)
        if hazard.routes:
            indented(console, f"harm by: {', '.join(hazard.routes)}", 4)
        detail = f", {hazard.basis_detail}" if hazard.basis_detail else ""
        indented(console, f"classification: {hazard.basis}{detail}", 4)
        indented(
            console,
            f"source: {hazard.source}; {verified_text(hazard.verified_on)}{confirmed}",
            4,
        )
    for pigment in pigments:
        if not pigment.hazards:
            indented(console, f"{pigment.label}: {looked_up_text(pigment)}")
    if not pigments:
        indented(console, f"pigments not recorded: {NO_DATA}")
    indented(console, ADVICE, 0, "dim")


def pigments_text(paint: Paint) -> str:
    """Its pigments in the order of the label, each with the one whose data are shown for it."""
    return ", ".join(pigment.label for pigment in paint.pigments) or "not recorded"


def print_paint_line(console: Console, paint: Paint) -> None:
    """A paint with what is known of its light, its stock and its cautions, in a few lines."""
    facts, rating = paint.facts, paint.worst_rating
    indented(console, f"{facts.code}  {facts.full_name}", 0, "bold")
    light = "lightfastness not known"
    if rating is not None:
        light = f"lightfastness {rating.category} ({verified_text(rating.verified_on)})"
    pigments = pigments_text(paint) if paint.pigments else "pigments not recorded"
    left = "" if paint.stock.left is None else f"; {left_text(paint.stock)} left"
    indented(console, f"{pigments}; {light}{left}")
    for line in caution_lines([Ingredient(paint, 1)], mild=True):
        indented(console, line)
    if paint.is_sienna_or_umber:
        commands = " or ".join(sienna_or_umber_commands(paint))
        indented(console, f"Is it a sienna or an umber? {SIENNA_OR_UMBER_TEXT} {commands}")


def sienna_or_umber_commands(paint: Paint) -> tuple[str, str]:
    """The two commands one of which says what a PBr7 is."""
    facts = paint.facts

    def command(kind: str) -> str:
        pigments = (
            f"{each} {kind}" if each == SIENNA_OR_UMBER else each for each in facts.pigments
        )
        return f'studio paint edit {facts.code} --pigments "{" ".join(pigments)}"'

    return command("sienna"), command("umber")


def show_paint(
    console: Console, known: KnownPaint, containers: Sequence[Container], mixes: Sequence[Mix]
) -> None:
    """A paint with its label, stock, pigments, ratings and cautions, and how well it is known."""
    paint, facts = known.paint, known.paint.facts
    indented(console, f"{facts.code}  {facts.full_name}", 0, "bold")
    volume = "" if facts.volume_ml is None else f" of {facts.volume_ml:g} ml"
    print_fact(console, "form", f"{facts.form}{volume}, {facts.status}")
    print_fact(console, "pigments", pigments_text(paint))
    print_fact(console, "price", None if facts.price is None else f"{facts.price} {facts.currency}")
    label = [
        facts.transparency,
        facts.staining and f"staining {facts.staining}",
        facts.granulation and f"granulation {facts.granulation}",
    ]
    print_fact(console, "label", ", ".join(word for word in label if word))
    print_fact(console, "lot", facts.lot)
    low = "" if paint.low_at is None else f"; low at {paint.low_at:g} ml"
    print_fact(console, "left", left_text(paint.stock) + (", low" if paint.is_low else "") + low)
    print_fact(console, "mixes", ", ".join(mix.code for mix in mixes) or "none yet")
    print_fact(console, "note", facts.note)
    _print_containers(console, containers)
    print_known_paint(console, known)
    _print_ratings(console, (rating for pigment in paint.pigments for rating in pigment.ratings))
    if paint.unrated:
        indented(console, f"no rating on record for {', '.join(paint.unrated)}")
    _print_hazards(console, paint.pigments)


def _print_containers(console: Console, containers: Sequence[Container]) -> None:
    """What is in each container on the shelf, and in those that are lent."""
    here = [container for container in containers if container.on_shelf or container.is_lent]
    if here:
        console.print("Containers", style="bold")
    for container in here:
        opened = f", open since {day_text(container.opened_on)}" if container.opened_on else ""
        lot = f", lot {container.lot}" if container.lot else ""
        indented(
            console,
            f"{container.code} {container.kind}: {amount_text(container.left, container.unit)} left"
            f"{opened}{lot}{', lent' if container.is_lent else ''}",
        )
    if here:
        indented(console, "line by line: studio stock show", 2, "dim")


def show_paper(console: Console, paper: Paper, containers: Sequence[Container]) -> None:
    """A paper with its stock and the readings of its white."""
    facts = paper.facts
    indented(console, f"{facts.code}  {facts.full_name}", 0, "bold")
    print_fact(console, "fibre", facts.fibre)
    print_fact(console, "surface", facts.surface)
    print_fact(
        console, "weight", None if facts.weight_gsm is None else f"{facts.weight_gsm:g} g/m²"
    )
    if facts.sheet_width_mm is not None:
        print_fact(console, "sheet", f"{facts.sheet_width_mm:g} x {facts.sheet_height_mm:g} mm")
    print_fact(
        console,
        "left",
        f"{left_text(paper.stock)}; low at {amount_text(paper.low_at, paper.stock.unit)}",
    )
    print_fact(console, "note", facts.note)
    print_readings(console, "White", paper.white)
    _print_containers(console, containers)
