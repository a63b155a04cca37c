"""Lists in the terminal: one plain table each, narrow enough for 80 columns."""

from collections.abc import Iterable, Sequence

from rich.console import Console
from rich.table import Table
from rich.text import Text

from studio.actions.match_colour import Ingredient
from studio.catalogue.hazard import UNCLASSIFIED
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint, Status
from studio.catalogue.paper import Paper
from studio.catalogue.pigment import Pigment
from studio.catalogue.swatch import Swatch
from studio.colour.lab import Lab
from studio.sheets.match_view import recipe_text
from studio.sheets.screen import MINUS, indented, legend, patch, print_table, signed
from studio.sheets.stock_view import left_text
from studio.sheets.tables import plain_table

UNVERIFIED = "? unverified: confirm it from the label, a data sheet or a named source"


def print_pigments(console: Console, pigments: Sequence[Pigment]) -> None:
    """Pigments with the lightfastness that counts and whether there are cautions."""
    table = plain_table("pigment", "common name", "chemistry", "light", "cautions")
    for pigment in pigments:
        cautions = ", ".join(
            dict.fromkeys(
                word
                for hazard in pigment.hazards
                for word in sorted(hazard.classes - {UNCLASSIFIED})
            )
        )
        table.add_row(
            pigment.ci_name,
            pigment.common_name or "no data",
            pigment.chemical_class or "",
            _light(pigment),
            cautions or ("yes" if pigment.hazards else "none on record"),
        )
    _print(console, table)
    if pigments:
        indented(console, UNVERIFIED, 0, "dim")


def _light(pigment: Pigment) -> str:
    rating = pigment.worst_rating
    if rating is None:
        return MINUS
    return rating.category + ("" if rating.verified_on else "?")


def print_paints(console: Console, paints: Sequence[Paint]) -> None:
    """Paints with pigments, what is left and the lightfastness that counts."""
    table = plain_table("code", "paint", "pigments", "form", "left", "light", "care", right={4})
    for paint in paints:
        rating = paint.worst_rating
        facts = paint.facts
        table.add_row(
            facts.code,
            facts.full_name,
            ", ".join(facts.pigments) or "not recorded",
            facts.form if facts.status is Status.IN_USE else "retired",
            left_text(paint.stock) + (" low" if paint.is_low else ""),
            MINUS if rating is None else rating.category + ("" if rating.verified_on else "?"),
            _care(paint),
        )
    _print(console, table)
    if paints:
        indented(console, f"{UNVERIFIED}; care: see studio paint show", 0, "dim")


def _care(paint: Paint) -> str:
    """Whether its cautions ask for care, or whether that is not known."""
    if paint.cautions:
        return "yes"
    return "?" if paint.unread else ""


def print_papers(console: Console, papers: Sequence[Paper]) -> None:
    """Papers with surface, weight, sheet and what is left."""
    table = plain_table(
        "code", "paper", "surface", "g/m²", "sheet mm", "left", "white", right={3, 4, 5}
    )
    labs: list[Lab] = []
    for paper in papers:
        facts = paper.facts
        labs += [reading.lab for reading in paper.white[:1]]
        table.add_row(
            facts.code,
            facts.full_name,
            facts.surface or "",
            "" if facts.weight_gsm is None else f"{facts.weight_gsm:g}",
            ""
            if facts.sheet_width_mm is None
            else f"{facts.sheet_width_mm:g} x {facts.sheet_height_mm:g}",
            left_text(paper.stock) + (" low" if paper.is_low else ""),
            patch(console, paper.white[0].lab) if paper.white else Text("not read"),
        )
    _print(console, table)
    _print_legend(console, labs)


def print_mixes(
    console: Console, rows: Iterable[tuple[Mix, Sequence[Ingredient], int, Lab | None]]
) -> None:
    """Mixes with their recipes, number of swatches, and the colour of the first swatch."""
    table = plain_table("mix", "colour", "recipe", "name", "swatches", right={4})
    labs: list[Lab] = []
    for mix, recipe, swatches, lab in rows:
        labs += [lab] if lab else []
        table.add_row(
            mix.code,
            patch(console, lab) if lab else Text(""),
            recipe_text(recipe),
            mix.name or "",
            str(swatches),
        )
    _print(console, table)
    _print_legend(console, labs)


def print_swatches(
    console: Console, rows: Iterable[tuple[Swatch, Mix, Sequence[Ingredient], Paper]]
) -> None:
    """Swatches with their colour, recipe, water, paper and where the card is."""
    table = plain_table(
        "swatch", "colour", "L* a* b*", "recipe", "water", "paper", "made on", "card", right={2}
    )
    labs: list[Lab] = []
    for swatch, mix, recipe, paper in rows:
        labs.append(swatch.lab)
        facts = swatch.facts
        table.add_row(
            facts.code,
            patch(console, swatch.lab),
            f"{swatch.lab.lightness:.0f} {signed(swatch.lab.a)} {signed(swatch.lab.b)}",
            f"{mix.code} {' + '.join(f'{part.parts} {part.paint.facts.code}' for part in recipe)}",
            "" if facts.water is None else f"{facts.water:g}:1",
            paper.facts.code,
            facts.made_on.isoformat(),
            facts.kept_at or "",
        )
    _print(console, table)
    _print_legend(console, labs)


def _print(console: Console, table: Table) -> None:
    if table.row_count:
        print_table(console, table)
    else:
        console.print("Nothing on record to list.")


def _print_legend(console: Console, labs: Sequence[Lab]) -> None:
    note = legend(console, *labs)
    if note:
        indented(console, note, 0, "dim")
