"""Paintings in the terminal: what there are, the passages of one in order, the tries for each."""

from collections.abc import Sequence

from rich.console import Console
from rich.text import Text

from studio.actions.painting.show_painting import ShownColour, ShownPainting, ShownPassage
from studio.catalogue.painting import Painting, PassageColour
from studio.catalogue.painting_rules import is_on_paper, share_on_paper
from studio.colour.lab import Lab
from studio.sheets.painting_try_view import print_try, verdict_text
from studio.sheets.record_parts import print_fact
from studio.sheets.screen import (
    day_text,
    indented,
    lab_text,
    layers_text,
    legend,
    patch,
    print_parts,
    print_table,
)
from studio.sheets.swatch_view import removal_text
from studio.sheets.tables import plain_table

NONE_YET = (
    'No painting yet; begin one with: studio painting start "low water" --paper slipway --size '
    "380x280mm"
)


def print_paintings(console: Console, shown: Sequence[ShownPainting]) -> None:
    """Each painting with its paper and size, and how many of its colours are matched."""
    if not shown:
        indented(console, NONE_YET, 0)
        return
    table = plain_table(
        "code", "title", "paper", "size mm", "matched", "begun", "finished",
        right={4}, whole={0, 3, 5, 6},
    )  # fmt: skip
    for each in shown:
        painting = each.painting
        table.add_row(
            painting.code,
            painting.title,
            each.paper.facts.code,
            f"{painting.width_mm:g} x {painting.height_mm:g}",
            f"{each.matched} of {len(each.colours)}" if each.colours else "",
            painting.started_on.isoformat(),
            painting.finished_on.isoformat() if painting.finished_on else "",
        )
    print_table(console, table)


def print_painting(console: Console, shown: ShownPainting) -> None:
    """A painting with its passages in working order, and how far each colour is matched."""
    painting = shown.painting
    _print_heading(console, shown)
    print_fact(console, "removed", removal_text(painting.removed))
    print_fact(console, "paper", f"{shown.paper.facts.code} {shown.paper.facts.full_name}")
    print_fact(console, "size", f"{painting.width_mm:g} x {painting.height_mm:g} mm")
    print_fact(console, "within", f"ΔE00 {painting.tolerance:g} passes for its colour")
    if painting.reference is not None:
        print_fact(console, "picture", painting.reference_path)
    print_fact(console, "begun", day_text(painting.started_on))
    if painting.finished_on is not None:
        print_fact(console, "finished", day_text(painting.finished_on))
    print_fact(console, "note", painting.note)
    if not shown.passages:
        indented(
            console,
            "No passage yet; add one with: studio painting passage add "
            f'{painting.code} "sky" --technique "graded wash" --at 50%,10% --share 35%',
            0,
        )
        return
    console.print("Passages in working order", style="bold")
    for each in shown.passages:
        _print_passage(console, shown, each)
    covered = share_on_paper(painting.passages)
    unknown = sum(each.share is None for each in painting.passages if is_on_paper(each))
    if covered:
        more = f"; {unknown} without a share" if unknown else ""
        indented(console, f"on bare paper: {_percent(covered)} of the painted area{more}", 0, "dim")
    _print_legend(console, [each.colour.lab for each in shown.colours])


def print_passage(
    console: Console,
    shown: ShownPainting,
    one: ShownPassage,
    dropped: Sequence[PassageColour] = (),
) -> None:
    """A passage with every try for each of its colours, and what was still to be corrected."""
    painting = shown.painting
    indented(console, f"{painting.code}  {one.passage.name}", 0, "bold")
    print_fact(console, "painting", painting.title)
    print_fact(console, "laid", laid_text(one))
    print_fact(console, "note", one.passage.note)
    labs: list[Lab] = []
    for each in one.colours:
        labs += [each.colour.lab, *(attempt.swatch.lab for attempt in each.tries)]
        print_parts(
            console,
            "",
            [f"Colour {each.number}", patch(console, each.colour.lab), lab_text(each.colour.lab)],
            2,
        )
        indented(console, origin_text(each))
        for attempt in each.tries:
            print_try(console, painting, each.colour, attempt)
        if not each.tries:
            indented(console, untested_text(painting, one, each))
    for number, colour in enumerate(dropped, start=1):
        labs.append(colour.lab)
        said = f"{colour.given or colour.place}, bring back: --restore {number}"
        print_parts(console, "Dropped  ", [patch(console, colour.lab), said], 2)
    _print_legend(console, labs)


def laid_text(one: ShownPassage) -> str:
    """How a passage is laid, in one line."""
    passage = one.passage
    parts = [str(passage.technique)]
    parts += [] if one.over is None else [f"over {one.over}"]
    parts += [] if passage.share is None else [f"{_percent(passage.share)} of the area"]
    parts += [layers_text(passage.layers)] if passage.layers > 1 else []
    parts.append("dry before the next" if passage.dry_before_next else "no wait before the next")
    return ", ".join(parts)


def origin_text(shown: ShownColour) -> str:
    """Where a colour was taken from."""
    colour = shown.colour
    if colour.place is None:
        return f"given as {colour.given}"
    picture = f" of {colour.picture.name}" if colour.picture else ""
    earlier = ", an earlier picture than the painting has now" if shown.from_earlier else ""
    varied = "" if colour.spread is None else f"; it varies by ΔE00 {colour.spread:.1f} (mean)"
    return f"picked {colour.place}{picture}{earlier}{varied}"


def untested_text(painting: Painting, one: ShownPassage, shown: ShownColour) -> str:
    """That nothing was tested for a colour, and how to."""
    which = f" --which {shown.number}" if shown.number > 1 else ""
    return (
        f'not tested yet: studio painting test {painting.code} "{one.passage.name}" "2 FU + 1 BS" '
        f"--lab 41,2,-12{which}"
    )


def _print_heading(console: Console, shown: ShownPainting) -> None:
    painting = shown.painting
    indented(console, f"{painting.code}  {painting.title}", 0, "bold")
    if shown.colours:
        count = len(shown.colours)
        print_fact(console, "matched", f"{shown.matched} of {count} colours")


def _print_passage(console: Console, shown: ShownPainting, one: ShownPassage) -> None:
    indented(console, f"{one.number}. {one.passage.name}", 2, "bold")
    indented(console, laid_text(one), 5)
    for each in one.colours:
        said = str(each.colour.given or each.colour.place)
        earlier = " (an earlier picture)" if each.from_earlier else ""
        parts: list[Text | str] = [
            patch(console, each.colour.lab),
            f"{said}{earlier}",
            _state_text(shown.painting, each),
        ]
        print_parts(console, "     ", parts, 5)
    if not one.colours:
        indented(console, "no colour chosen yet", 5)
    if one.passage.note:
        indented(console, one.passage.note, 5, "dim")


def _state_text(painting: Painting, shown: ShownColour) -> str:
    count = len(shown.tries)
    tries = "1 try" if count == 1 else f"{count} tries"
    if not count:
        return "not tested"
    nearest = shown.nearest
    if nearest is None:
        return f"{tries}, read wet"
    found = f"{nearest.swatch.facts.code} ΔE00 {nearest.delta_e:.1f}"
    return f"{tries}, nearest {found}, {verdict_text(painting, nearest)}"


def _percent(share: float) -> str:
    return f"{100 * share:.4g}%"


def _print_legend(console: Console, labs: Sequence[Lab]) -> None:
    note = legend(console, *labs)
    if note:
        indented(console, note, 0, "dim")
