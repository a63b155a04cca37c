"""Which sample of a measurement file goes to which swatch, in the terminal and as JSON."""

from collections.abc import Sequence

from rich.console import Console

from studio.actions.map_samples import SamplePlan
from studio.catalogue.spread import spread_of
from studio.catalogue.swatch import Swatch
from studio.sheets.fields import Fields, lab_fields, spread_fields
from studio.sheets.record_parts import spread_text
from studio.sheets.screen import indented, legend, patch, print_table, signed
from studio.sheets.tables import plain_table


def print_plan(
    console: Console, plan: SamplePlan, changed: Sequence[Swatch], *, recorded: bool
) -> None:
    """Each sample with its swatch, its colour and how far it is from the swatch as it stood."""
    contents = plan.opened.contents
    indented(console, f"{plan.opened.name}: {contents.kind}", 0, "bold")
    table = plain_table("sample", "swatch", "colour", "L* a* b*", "ΔE00", "", right={3, 4})
    for each in plan.mapped:
        lab = each.reading.lab
        table.add_row(
            each.sample,
            each.swatch.facts.code,
            patch(console, lab),
            f"{lab.lightness:.1f} {signed(lab.a)} {signed(lab.b)}",
            f"{each.delta_e:.2f}",
            "" if each.is_new else "there already",
        )
    if plan.mapped:
        print_table(console, table)
        indented(console, "ΔE00 from the swatch as it stood; L* a* b* under D50/2°", 0, "dim")
    for left in plan.unfit:
        indented(console, f"{left.sample}: fits nothing: {left.reason}")
    for name in plan.left_out:
        indented(console, f"{name}: left out by the map")
    new = sum(each.is_new for each in plan.mapped)
    what = f"{new} reading{'' if new == 1 else 's'}"
    console.print(f"{what} {'recorded' if recorded else 'to record; nothing was recorded'}.")
    for swatch in changed:
        spread = spread_of(swatch.readings)
        if spread is not None:
            indented(console, f"{swatch.facts.code}: {spread_text(spread)}")
    note = legend(console, *(each.reading.lab for each in plan.mapped))
    if note:
        indented(console, note, 0, "dim")


def plan_fields(plan: SamplePlan, changed: Sequence[Swatch], *, recorded: bool) -> Fields:
    """A plan and what came of it."""
    return {
        "file": plan.opened.name,
        "kind": plan.opened.contents.kind,
        "recorded": recorded,
        "readings": [
            {
                "sample": each.sample,
                "swatch": each.swatch.facts.code,
                "lab": lab_fields(each.reading.lab),
                "delta_e": round(each.delta_e, 4),
                "new": each.is_new,
            }
            for each in plan.mapped
        ],
        "unfit": [{"sample": left.sample, "reason": left.reason} for left in plan.unfit],
        "left_out": list(plan.left_out),
        "swatches": [
            {
                "swatch": swatch.facts.code,
                "lab": lab_fields(swatch.lab),
                "spread": spread_fields(spread_of(swatch.readings)),
            }
            for swatch in changed
        ],
        "remarks": list(plan.remarks),
    }
