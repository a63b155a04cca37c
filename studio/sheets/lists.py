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
from studio.catalogue.stock import Stock, StockEvent, fold
from studio.catalogue.swatch import Swatch
from studio.colour.lab import Lab
from studio.sheets.match_view import recipe_text
from studio.sheets.screen import MINUS, indented, legend, patch, print_table, signed

UNVERIFIED = "? unverified: confirm it from the label, a data sheet or a named source"


def print_pigments(console: Console, pigments: Sequence[Pigment]) -> None:
    """Pigments with the lightfastness that counts and whether there are cautions."""
    table = _table("pigment", "common name", "chemistry", "light", "cautions")
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
    table = _table("code", "paint", "pigments", "form", "left", "light", "care", right={4})
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
    return "?" if paint.lacks_data else ""


def left_text(stock: Stock) -> str:
    """What is left with its unit; `not counted` when nothing was ever recorded."""
    return "not counted" if stock.left is None else f"{stock.left:g} {stock.unit}"


def print_papers(console: Console, papers: Sequence[Paper]) -> None:
    """Papers with surface, weight, sheet and what is left."""
    table = _table("code", "paper", "surface", "g/m²", "sheet mm", "left", "white", right={3, 4, 5})
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
    table = _table("mix", "colour", "recipe", "name", "swatches", right={4})
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
    table = _table(
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


def print_stock(console: Console, items: Iterable[Paint | Paper]) -> None:
    """What is left of paints and papers."""
    table = _table("code", "item", "left", "low at", "as of", right={2, 3})
    for item in items:
        low_at = item.low_at
        table.add_row(
            item.facts.code,
            item.facts.full_name,
            left_text(item.stock) + (" low" if item.is_low else ""),
            "" if low_at is None else f"{low_at:g} {item.stock.unit}",
            "" if item.stock.as_of is None else item.stock.as_of.isoformat(),
        )
    _print(console, table)


def print_ledger(console: Console, item: Paint | Paper, events: Sequence[StockEvent]) -> None:
    """Every entry of a ledger with what was left after it."""
    indented(console, f"{item.facts.code}  {item.facts.full_name}", 0, "bold")
    table = _table("day", "what", "amount", "left", "note", right={2, 3})
    for number, event in enumerate(events, start=1):
        after = fold(events[:number], event.unit)
        price = "" if event.price is None else f"{event.price} {event.currency}"
        table.add_row(
            event.happened_on.isoformat(),
            event.kind,
            f"{event.amount:g} {event.unit}",
            left_text(after),
            ", ".join(
                part for part in (price, event.lot and f"lot {event.lot}", event.note) if part
            ),
        )
    _print(console, table)
    low = "" if item.low_at is None else f", low at {item.low_at:g} {item.stock.unit}"
    console.print(f"{left_text(item.stock)} left{low}")


def _table(*columns: str, right: Iterable[int] = ()) -> Table:
    table = Table(box=None, padding=(0, 2, 0, 0), header_style="dim", show_edge=False)
    for index, column in enumerate(columns):
        number = index in set(right)
        table.add_column(column, justify="right" if number else "left", no_wrap=number)
    return table


def _print(console: Console, table: Table) -> None:
    if table.row_count:
        print_table(console, table)
    else:
        console.print("Nothing on record to list.")


def _print_legend(console: Console, labs: Sequence[Lab]) -> None:
    note = legend(console, *labs)
    if note:
        indented(console, note, 0, "dim")
