"""Drying shifts in the terminal: the one a match was made by, and all that are known."""

from rich.console import Console

from studio.actions.drying_shift import DryingReport, ExpectedDry, OwnShift
from studio.catalogue.drying import (
    ENOUGH,
    PUBLISHED_LIGHTNESS,
    PUBLISHED_PAINTS,
    PUBLISHED_SOURCE,
    DryingShift,
)
from studio.catalogue.swatch import Swatch
from studio.sheets.screen import MINUS, indented, lab_text, print_table, signed


def print_drying(console: Console, drying: ExpectedDry) -> None:
    """The wet colour a target was given as, and by which shift the dry one follows."""
    shift = drying.own.shift
    indented(console, f"wet: {lab_text(drying.wet.lab)}", 8, "dim")
    lone = shift.spread is None
    how = "1 pair, so its uncertainty is not known" if lone else f"{shift.pairs} pairs"
    kind = "" if lone else " (mean ± standard deviation of single patches)"
    indented(
        console,
        f"drying shift of {_of_text(drying.own)}, from {how}: "
        f"{', '.join(_axis_texts(shift))}{kind}",
        8,
        "dim",
    )
    if shift.left_out is not None and shift.standard_error is not None:
        error = shift.standard_error
        indented(
            console,
            f"standard error of the mean ΔL* {error.lightness:.1f}, ΔH* {error.hue:.1f}, "
            f"ΔC* {error.chroma:.1f}; each of these patches predicted from the others was off by "
            f"ΔE00 {shift.left_out:.1f} on average",
            8,
            "dim",
        )


def print_drying_report(console: Console, report: DryingReport) -> None:
    """The drying shifts of the studio as a table, with what is missing for more."""
    from studio.sheets.tables import plain_table  # noqa: PLC0415 - a match has no table

    if report.overall is None:
        indented(
            console,
            "No swatch has been read both wet and dry: read a patch with --wet, and again when it "
            "is dry (studio swatch read).",
            0,
        )
    else:
        table = plain_table(
            "drying shift of", "pairs", "ΔL*", "ΔH*", "ΔC*", "ΔE00 off", right={1, 2, 3, 4, 5}
        )
        for own in (report.overall, *report.papers, *report.paints):
            left_out = own.shift.left_out
            table.add_row(
                _of_text(own),
                str(own.shift.pairs),
                *(text.split(" ", 1)[1] for text in _axis_texts(own.shift)),
                MINUS if left_out is None else f"{left_out:.1f}",
            )
        print_table(console, table)
        indented(
            console,
            "Dry minus wet, mean ± standard deviation of single patches; ΔE00 off: how far, on "
            "average, each patch dried from what the others predicted. match --wet takes the shift "
            f"of a paper or of paints from {ENOUGH} pairs on, else that of all pairs.",
            0,
            "dim",
        )
    _print_codes(console, "Read wet, not yet dry", report.waiting)
    _print_codes(console, "Left out, as it was wetted again after it was dry", report.unpaired)
    indented(
        console,
        f"Published mean of {PUBLISHED_PAINTS} other paints: ΔL* {signed(PUBLISHED_LIGHTNESS)} "
        f"({PUBLISHED_SOURCE}); to compare, never computed with.",
        0,
        "dim",
    )


def _print_codes(console: Console, what: str, swatches: tuple[Swatch, ...]) -> None:
    if swatches:
        indented(console, f"{what}: {', '.join(swatch.facts.code for swatch in swatches)}.", 0)


def _of_text(own: OwnShift) -> str:
    """What a shift is of, such as `FU French Ultramarine on Eddering Mill Slipway Rag`."""
    paints = ", ".join(f"{paint.facts.code} {paint.facts.name}" for paint in own.paints)
    paper = own.paper.facts.full_name if own.paper else ""
    if paints and paper:
        return f"{paints} on {paper}"
    return paints or paper or "all paints and papers"


def _axis_texts(shift: DryingShift) -> list[str]:
    """Such as `ΔL* +2.1 ± 0.4`, in the order that painters correct in; one pair has no spread."""
    mean, spread = shift.mean, shift.spread
    axes = (
        ("ΔL*", mean.lightness, spread.lightness if spread else None),
        ("ΔH*", mean.hue, spread.hue if spread else None),
        ("ΔC*", mean.chroma, spread.chroma if spread else None),
    )
    return [
        f"{symbol} {signed(value)}" + ("" if around is None else f" ± {around:.1f}")
        for symbol, value, around in axes
    ]
