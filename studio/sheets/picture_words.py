"""How a picture was read, in sentences for the terminal and for the picture itself."""

from studio.actions.read_picture import PictureReading
from studio.picture.area_reading import AreaReading
from studio.picture.chart_reading import ChartReading
from studio.picture.falloff import Falloff


def basis_lines(read: PictureReading) -> list[str]:
    """By what the picture was read, what was left out, the light, and what was taken for granted.

    The first says by what, with the error to expect.
    """
    lines = [f"Read {read.how}."]
    basis = read.basis
    if isinstance(basis, ChartReading):
        lines += [f"Left out {patch.name}: {patch.refusal}." for patch in basis.refused]
        if basis.turned:
            lines.append("The chart lies otherwise than its corners were given; its colours tell.")
    lines.append(_light(basis.falloff))
    return lines + [f"{read.opened.picture.name}: {note}." for note in read.opened.picture.notes]


def error_words(area: AreaReading) -> str:
    """The error of an area, and what 95 % of such readings stay under where that is known."""
    most = "" if area.most is None else f" (95 %: {area.most:.1f})"
    return f"error ΔE00 {area.error:.1f}{most}"


def _light(falloff: Falloff) -> str:
    if len(falloff.reach) < 3:  # noqa: PLR2004 - a slope needs three places
        return "How the light falls off is not known: chart or paper at three places would tell."
    even = "The light is even within 2 % where it was seen"
    if falloff.share:
        share = f"{100 * falloff.share:.0f} %"
        even = f"The light falls by {share} towards {falloff.towards}, which is evened out"
    if falloff.paper is None:
        return f"{even}."
    return f"{even}; the paper then still varies by {100 * falloff.paper:.0f} %."
