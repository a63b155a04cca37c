"""A picture as it was read: in the terminal and as JSON."""

from collections.abc import Collection

from rich.console import Console
from rich.text import Text

from studio.actions.read_picture import PictureReading
from studio.colour.lab import Lab
from studio.picture.chart_reading import ChartReading
from studio.sheets.fields import Fields, lab_fields
from studio.sheets.picture_words import basis_lines, error_words
from studio.sheets.screen import indented, lab_text, legend, patch, print_parts


def show_picture_reading(console: Console, read: PictureReading) -> None:
    """By what a picture was read, and the colour of each area."""
    for line in basis_lines(read):
        indented(console, line, 0)
    labs = [Lab(*area.lab) for area in read.areas]
    for area, lab in zip(read.areas, labs, strict=True):
        parts: list[Text | str] = [
            Text(area.name, "bold"),
            patch(console, lab),
            lab_text(lab),
            error_words(area),
        ]
        print_parts(console, "", parts, 2)
        indented(
            console, "; ".join((area.spot.place, f"varies by ΔE00 {area.spread:.1f}", *area.notes))
        )
    for left in read.unread:
        print_parts(console, "", [Text(left.name, "bold"), "not read"], 2)
        indented(console, f"{left.spot.place}; {left.reason}")
    note = legend(console, *labs)
    if note:
        indented(console, note, 0, "dim")


def picture_reading_fields(read: PictureReading, recorded: Collection[str]) -> Fields:
    """A picture as it was read.

    Args:
        read: the picture.
        recorded: codes of the swatches that a reading was recorded for.
    """
    picture = read.opened.picture
    return {
        "picture": picture.name,
        "width_px": picture.width,
        "height_px": picture.height,
        "notes": list(picture.notes),
        "how": read.how,
        "error_delta_e": round(read.error, 4),
        "chart": _chart_fields(read.basis) if isinstance(read.basis, ChartReading) else None,
        "falloff": round(read.basis.falloff.share, 4),
        "areas": [
            {
                "swatch": area.name,
                "place": area.spot.place,
                "lab": lab_fields(Lab(*area.lab)),
                "spread_delta_e": round(area.spread, 4),
                "error_delta_e": round(area.error, 4),
                "error_95_delta_e": None if area.most is None else round(area.most, 4),
                "notes": list(area.notes),
            }
            for area in read.areas
        ],
        "unread": [
            {"swatch": left.name, "place": left.spot.place, "reason": left.reason}
            for left in read.unread
        ],
        "recorded": sorted(recorded),
    }


def _chart_fields(chart: ChartReading) -> Fields:
    return {
        "name": chart.chart.name,
        "corners_px": [[round(x, 1), round(y, 1)] for x, y in chart.corners.tolist()],
        "patches": len(chart.patches),
        "left_out": [{"patch": one.name, "reason": one.refusal} for one in chart.refused],
        "method": chart.fit.correction.method.name,
        "error_95_delta_e": round(chart.fit.most, 4),
    }
