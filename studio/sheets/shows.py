"""One record in the terminal, with all that is known of it."""

import textwrap
from collections.abc import Iterable, Sequence

from rich.console import Console
from rich.text import Text

from studio.actions.match_colour import Ingredient
from studio.catalogue.container import Container
from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import ADVICE, NO_DATA, Hazard
from studio.catalogue.lightfastness import LightfastnessRating
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint
from studio.catalogue.paper import Paper
from studio.catalogue.pigment import Pigment
from studio.catalogue.reading import Origin, Reading
from studio.catalogue.stock import amount_text
from studio.catalogue.swatch import Swatch
from studio.colour.difference import ciede2000
from studio.colour.words import separation
from studio.sheets.match_view import caution_lines, recipe_text
from studio.sheets.screen import (
    day_text,
    indented,
    lab_text,
    layers_text,
    legend,
    patch,
    print_parts,
    separation_text,
    verified_text,
    water_text,
)
from studio.sheets.stock_view import left_text


def show_pigment(console: Console, pigment: Pigment) -> None:
    """A pigment with every rating and caution, ending with where to verify."""
    heading = f"{pigment.ci_name}  {pigment.common_name or 'no data: treat with care'}"
    indented(console, heading, 0, "bold")
    _fact(console, "chemistry", pigment.chemical_class)
    _fact(console, "C.I. number", pigment.ci_number)
    _fact(console, "note", pigment.note)
    _fact(console, "source", _known(pigment))
    _print_ratings(console, pigment.ratings)
    _print_hazards(console, pigment.hazards)


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
            f"{rating.pigment} {rating.scale} {rating.rating} in {rating.medium}: "
            f"{rating.source}{year}{note}; {verified_text(rating.verified_on)}{confirmed}",
        )
    if not listed:
        indented(console, "no rating on record")


def _print_hazards(console: Console, hazards: Iterable[Hazard]) -> None:
    listed = list(hazards)
    console.print("Cautions", style="bold")
    for hazard in listed:
        confirmed = f" from {hazard.verified_from}" if hazard.verified_from else ""
        indented(console, f"{hazard.pigment}, {hazard.agent}: {hazard.summary}")
        if hazard.codes:
            codes = ", ".join(
                f"{code.code}{'?' if code.hedged else ''} ({code.wording.rstrip('.')})"
                for code in hazard.codes
            )
            indented(console, f"statements: {codes}", 4)
        if hazard.routes:
            indented(console, f"harm by: {', '.join(hazard.routes)}", 4)
        detail = f", {hazard.basis_detail}" if hazard.basis_detail else ""
        indented(console, f"classification: {hazard.basis}{detail}", 4)
        indented(
            console,
            f"source: {hazard.source}; {verified_text(hazard.verified_on)}{confirmed}",
            4,
        )
    if not listed:
        indented(console, NO_DATA)
    indented(console, ADVICE, 0, "dim")


def print_paint_line(console: Console, paint: Paint) -> None:
    """A paint with what is known of its light, its stock and its cautions, in a few lines."""
    facts, rating = paint.facts, paint.worst_rating
    indented(console, f"{facts.code}  {facts.full_name}", 0, "bold")
    light = "lightfastness not known"
    if rating is not None:
        light = f"lightfastness {rating.category} ({verified_text(rating.verified_on)})"
    pigments = ", ".join(facts.pigments) or "pigments not recorded"
    left = "" if paint.stock.left is None else f"; {left_text(paint.stock)} left"
    indented(console, f"{pigments}; {light}{left}")
    for line in caution_lines([Ingredient(paint, 1)]):
        indented(console, line)


def show_paint(
    console: Console, paint: Paint, containers: Sequence[Container], mixes: Sequence[Mix]
) -> None:
    """A paint with its label, stock, pigments, ratings and cautions."""
    facts = paint.facts
    indented(console, f"{facts.code}  {facts.full_name}", 0, "bold")
    volume = "" if facts.volume_ml is None else f" of {facts.volume_ml:g} ml"
    _fact(console, "form", f"{facts.form}{volume}, {facts.status}")
    _fact(console, "pigments", ", ".join(facts.pigments) or "not recorded")
    _fact(console, "price", None if facts.price is None else f"{facts.price} {facts.currency}")
    label = [
        facts.transparency,
        facts.staining and f"staining {facts.staining}",
        facts.granulation and f"granulation {facts.granulation}",
    ]
    _fact(console, "label", ", ".join(word for word in label if word))
    _fact(console, "lot", facts.lot)
    low = "" if paint.low_at is None else f"; low at {paint.low_at:g} ml"
    _fact(console, "left", left_text(paint.stock) + (", low" if paint.is_low else "") + low)
    _fact(console, "mixes", ", ".join(mix.code for mix in mixes) or "none yet")
    _fact(console, "note", facts.note)
    _print_containers(console, containers)
    _print_ratings(console, (rating for pigment in paint.pigments for rating in pigment.ratings))
    if paint.unrated:
        indented(console, f"no rating on record for {', '.join(paint.unrated)}")
    _print_hazards(console, paint.hazards)


def _print_containers(console: Console, containers: Sequence[Container]) -> None:
    """What is in each container on the shelf."""
    here = [container for container in containers if container.on_shelf]
    if here:
        console.print("Containers", style="bold")
    for container in here:
        opened = f", open since {day_text(container.opened_on)}" if container.opened_on else ""
        lot = f", lot {container.lot}" if container.lot else ""
        indented(
            console,
            f"{container.code} {container.kind}: {amount_text(container.left, container.unit)} left"
            f"{opened}{lot}",
        )
    if here:
        indented(console, "line by line: studio stock show", 2, "dim")


def show_paper(console: Console, paper: Paper, containers: Sequence[Container]) -> None:
    """A paper with its stock and the readings of its white."""
    facts = paper.facts
    indented(console, f"{facts.code}  {facts.full_name}", 0, "bold")
    _fact(console, "fibre", facts.fibre)
    _fact(console, "surface", facts.surface)
    _fact(console, "weight", None if facts.weight_gsm is None else f"{facts.weight_gsm:g} g/m²")
    if facts.sheet_width_mm is not None:
        _fact(console, "sheet", f"{facts.sheet_width_mm:g} x {facts.sheet_height_mm:g} mm")
    _fact(
        console,
        "left",
        f"{left_text(paper.stock)}; low at {amount_text(paper.low_at, paper.stock.unit)}",
    )
    _fact(console, "note", facts.note)
    _print_readings(console, "White", paper.white)
    _print_containers(console, containers)


def show_mix(
    console: Console,
    mix: Mix,
    recipe: Sequence[Ingredient],
    swatches: Sequence[tuple[Swatch, Paper]],
) -> None:
    """A mix with its recipe and the family of colours its swatches show."""
    name = f"  {mix.name}" if mix.name else ""
    indented(console, f"{mix.code}{name}", 0, "bold")
    _fact(console, "recipe", recipe_text(recipe))
    _fact(console, "recorded", day_text(mix.created_on))
    _fact(console, "note", mix.note)
    console.print("Swatches" if swatches else "No swatch yet", style="bold")
    for swatch, paper in swatches:
        facts = swatch.facts
        parts: list[Text | str] = [patch(console, swatch.lab), facts.code, lab_text(swatch.lab)]
        print_parts(console, "  ", parts, 2)
        where = f", {facts.kept_at}" if facts.kept_at else ""
        indented(
            console,
            f"{water_text(facts.water)}, {layers_text(facts.layers)}, {facts.application}, "
            f"{paper.facts.full_name}, {day_text(facts.made_on)}{where}",
            8,
        )
    note = legend(console, *(swatch.lab for swatch, _ in swatches))
    if note:
        indented(console, note, 0, "dim")


def show_swatch(
    console: Console, swatch: Swatch, mix: Mix, recipe: Sequence[Ingredient], paper: Paper
) -> None:
    """A swatch with its recipe, its readings, and how it stands to the target it was made for."""
    facts = swatch.facts
    heading: list[Text | str] = [
        Text(facts.code, "bold"),
        patch(console, swatch.lab),
        lab_text(swatch.lab),
    ]
    print_parts(console, "", heading, 2)
    name = f" ({mix.name})" if mix.name else ""
    _fact(console, "mix", f"{mix.code}{name}: {recipe_text(recipe)}")
    _fact(
        console,
        "laid",
        f"{water_text(facts.water)}, {layers_text(facts.layers)}, {facts.application}",
    )
    _fact(console, "paper", f"{paper.facts.code} {paper.facts.full_name}")
    _fact(console, "made on", day_text(facts.made_on))
    _fact(console, "card", facts.kept_at)
    _fact(console, "note", facts.note)
    print_against_target(console, swatch)
    _print_readings(console, "Readings", swatch.readings)
    note = legend(console, swatch.lab)
    if note:
        indented(console, note, 0, "dim")


def print_against_target(console: Console, swatch: Swatch) -> None:
    """How a swatch stands to the target it was made for, in the order to correct it."""
    facts = swatch.facts
    if facts.target_lab is None:
        return
    wanted = facts.target_lab.coordinates
    apart = separation(wanted, swatch.lab.coordinates)
    parts: list[Text | str] = [
        patch(console, facts.target_lab, swatch.lab),
        str(facts.target),
        f"ΔE00 {ciede2000(wanted, swatch.lab.coordinates):.2f}",
    ]
    print_parts(console, f"  {'made for':<12}", parts, 14)
    indented(console, f"this swatch is {apart.sentence} ({separation_text(apart)})", 14)


def _print_readings(console: Console, title: str, readings: Sequence[Reading]) -> None:
    console.print(title if readings else f"{title}: not read yet", style="bold")
    for reading in readings:
        how = [str(reading.state), str(reading.method)]
        how += [reading.instrument] if reading.instrument else []
        how += [str(reading.condition)] if reading.condition else []
        how += [] if reading.error is None else [f"error ΔE00 {reading.error:g}"]
        if reading.origin is Origin.SPECTRUM and reading.spectrum is not None:
            spectrum = reading.spectrum
            how.append(f"spectrum {spectrum.start:g} to {spectrum.end:g} nm by {spectrum.step:g}")
        elif reading.origin is Origin.ADAPTED:
            how.append(f"adapted from {lab_text(reading.given)}")
        how += [reading.note] if reading.note else []
        indented(console, f"{lab_text(reading.lab)}  {day_text(reading.read_on)}")
        indented(console, ", ".join(how), 4)


def _fact(console: Console, label: str, value: object | None) -> None:
    if value:
        width = max(20, console.width - 14)
        lines = textwrap.wrap(str(value), width, break_long_words=False, break_on_hyphens=False)
        for index, line in enumerate(lines):
            console.print(f"  {label if not index else '':<12}{line}", soft_wrap=True)
