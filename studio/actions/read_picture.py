"""Read swatches in a picture: by a chart, a grey card or the paper's white; then record them."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import TYPE_CHECKING, Final

from studio.actions.find import find_swatch
from studio.actions.log_swatch import read_swatch
from studio.actions.make_reading import Circumstances, lab, reading_of_lab
from studio.actions.open_picture import OpenPicture
from studio.actions.read_measurements import is_recorded
from studio.actions.taken_readings import TakenReadings
from studio.catalogue.paper import Paper
from studio.catalogue.reading import Reading, representative
from studio.catalogue.swatch import Swatch
from studio.colour.lab import Lab
from studio.errors import BadInput
from studio.picture.spots import Spot
from studio.storage.unit_of_work import UnitOfWork

if TYPE_CHECKING:
    from studio.colour.lab_arrays import Floats
    from studio.picture.area_reading import AreaReading
    from studio.picture.card_reading import CardReading
    from studio.picture.chart import Chart
    from studio.picture.chart_reading import ChartReading

GREY: Final = 18.0
"""Reflectance of a grey card, percent, where none is given (common practice, no source)."""


NEW: Final = "the swatch"
"""What a swatch is called that has no code yet."""


@dataclass(frozen=True, slots=True, eq=False)
class KnownColours:
    """What in a picture has a known colour.

    Args:
        chart: the chart, if there is one.
        corners: (4, 2) its corners, pixels; None to look for them.
        grey: a grey card.
        reflectance: of the grey card, percent.
        whites: places on bare paper.
        white: colour of the paper; not needed beside a chart.
    """

    chart: "Chart | None" = None
    corners: "Floats | None" = None
    grey: Spot | None = None
    reflectance: float = GREY
    whites: tuple[Spot, ...] = ()
    white: Lab | None = None


@dataclass(frozen=True, slots=True)
class Unread:
    """A swatch area that could not be read.

    Args:
        name: of the swatch, as it was typed.
        spot: where it lies.
        reason: why, a sentence that says what to do.
    """

    name: str
    spot: Spot
    reason: str


@dataclass(frozen=True, slots=True, eq=False)
class PictureReading:
    """A picture as it was read.

    Args:
        opened: the picture.
        basis: the chart or card by which it was read.
        areas: each swatch area that could be read, with the error of its own.
        unread: those that could not.
        error: ΔE00 to expect of the patches of the chart, or of the card.
        how: by what, with that error, in words.
    """

    opened: OpenPicture
    basis: "ChartReading | CardReading"
    areas: "tuple[AreaReading, ...]"
    unread: tuple[Unread, ...]
    error: float
    how: str


def read_picture(
    opened: OpenPicture, areas: Sequence[tuple[str, Spot]], known: KnownColours
) -> PictureReading:
    """The colour of each area of a picture; one that cannot be read does not stop the others.

    Raises:
        BadInput: nothing in the picture has a known colour, the chart cannot be found or read, or
            no area can be: each is clipped, too small or lighter than white.
    """
    from studio.picture.area_reading import compared, read_area  # noqa: PLC0415

    basis, error, how = _basis(opened, known)
    read: list[AreaReading] = []
    unread: list[Unread] = []
    for name, spot in areas:
        try:
            read.append(read_area(opened.picture, name, spot, basis))
        except BadInput as refused:
            unread.append(Unread(name, spot, str(refused)))
    if unread and not read:
        more = f" (so it is with all {len(unread)} areas)" if len(unread) > 1 else ""
        msg = unread[0].reason + more
        raise BadInput(msg)
    return PictureReading(opened, basis, compared(read), tuple(unread), error, how)


def reading_of_area(read: PictureReading, area: "AreaReading", how: Circumstances) -> Reading:
    """The reading of one area, with its error and where it was taken."""
    return reading_of_lab(
        lab(*area.lab, "D50", 2),
        replace(
            how,
            error=round(area.error, 2),
            note="; ".join((read.how, *_most(area), *area.notes)),
            sample=area.spot.place,
        ),
    )


def _most(area: "AreaReading") -> list[str]:
    """What 95 % of such readings stay under, where it is known, as a clause."""
    if area.most is None:
        return []
    return [f"of 100 such swatches 95 are read within ΔE00 {area.most:.1f}"]


def record_picture(
    work: UnitOfWork, read: PictureReading, how: Circumstances, today: date
) -> tuple[list[Swatch], list[str]]:
    """Add the reading of each area to the swatch of its name; the picture is recorded with them.

    Returns:
        The swatches as they are now, and what was not recorded because it was before.

    Raises:
        NotFound: an area is named for no swatch.
        BadInput: a reading was made before its swatch.
    """
    picture = read.opened.picture
    file = work.files.keep(picture.name, read.opened.content, today)
    changed: dict[int, Swatch] = {}
    remarks = []
    for area in read.areas:
        swatch = find_swatch(work, area.name)
        reading = reading_of_area(read, area, replace(how, file=file))
        if is_recorded(reading, file.id, swatch):
            remarks.append(f"{area.name} of {picture.name} is recorded already: not again")
            continue
        changed[swatch.id] = read_swatch(work, swatch, reading, today)
    return list(changed.values()), remarks


def take_area(
    work: UnitOfWork,
    read: PictureReading,
    how: Circumstances,
    today: date,
    remarks: tuple[str, ...],
) -> TakenReadings:
    """The reading of the first area, for a new swatch; the picture is recorded with it."""
    file = work.files.keep(read.opened.picture.name, read.opened.content, today)
    reading = reading_of_area(read, read.areas[0], replace(how, file=file))
    return TakenReadings((reading,), remarks)


def white_of(paper: Paper) -> Lab:
    """The recorded white of a paper.

    Raises:
        BadInput: none was recorded.
    """
    if not paper.white:
        msg = (
            f"{paper.facts.full_name} has no recorded white; lay a chart or a grey card beside the "
            "swatches, and give --chart or --grey"
        )
        raise BadInput(msg)
    return representative(paper.white)[1]


def _basis(
    opened: OpenPicture, known: KnownColours
) -> "tuple[ChartReading | CardReading, float, str]":
    # colour-science and SciPy load for pictures alone.
    from studio.picture.card_reading import ERROR, read_card  # noqa: PLC0415

    picture = opened.picture
    if known.chart is not None:
        chart = _read_chart(opened, known, known.chart)
        counted = len(chart.patches) - len(chart.refused)
        how = (
            f"by {counted} of {len(chart.patches)} patches of {known.chart.name}, "
            f"{chart.fit.correction.method.name}; patches left out in turn miss by ΔE00 "
            f"{chart.fit.mean:.1f} on average, 95 % of them by {chart.fit.most:.1f} at most"
        )
        return chart, chart.fit.mean, how
    estimate = f"error ΔE00 {ERROR:.0f} is an estimate, no source"
    if known.grey is not None:
        grey = read_card(picture, [known.grey], (_lightness(known.reflectance), 0.0, 0.0))
        return grey, ERROR, f"by a grey card of {known.reflectance:g} % alone; {estimate}"
    if known.whites and known.white is not None:
        paper = read_card(picture, known.whites, known.white.coordinates)
        return paper, ERROR, f"by the paper's white alone; {estimate}"
    msg = (
        "nothing in the picture has a known colour; give --chart, or with a larger error --grey "
        "or --white"
    )
    raise BadInput(msg)


def _read_chart(opened: OpenPicture, known: KnownColours, chart: "Chart") -> "ChartReading":
    import numpy as np  # noqa: PLC0415

    from studio.picture.chart_reading import read_chart  # noqa: PLC0415
    from studio.picture.find_chart import find_chart  # noqa: PLC0415
    from studio.picture.sampling import area_sample  # noqa: PLC0415

    picture = opened.picture
    corners = find_chart(picture, chart) if known.corners is None else known.corners
    papers = [
        (np.array(spot.middle), area_sample(picture, spot).luminance) for spot in known.whites
    ]
    return read_chart(picture, chart, corners, papers)


def _lightness(reflectance: float) -> float:
    """L* of a neutral of that reflectance, percent."""
    y = reflectance / 100.0
    return float(116.0 * y ** (1 / 3) - 16.0) if y > 216 / 24389 else y * 24389 / 27
