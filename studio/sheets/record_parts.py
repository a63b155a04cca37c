"""Parts that the records of several things are shown with: labelled facts, readings."""

import textwrap
from collections.abc import Sequence
from typing import Final

from rich.console import Console

from studio.catalogue.reading import Origin, Reading
from studio.catalogue.spread import Spread
from studio.colour.reflectance import fluorescence
from studio.sheets.screen import (
    day_text,
    indented,
    lab_text,
)

_AGREE: Final = 1.0
"""ΔE00 that is just seen side by side (common practice, no source): readings that lie further from
their mean do not agree."""


def print_readings(
    console: Console,
    title: str,
    readings: Sequence[Reading],
    spread: Spread | None = None,
    numbers: Sequence[int] = (),
) -> None:
    """Readings with all that was noted of how they were made, and their spread where it is given.

    Readings that stand out are marked; they count like the others. Numbers, where they are given,
    are what a reading is set aside by.
    """
    console.print(title if readings else f"{title}: not read yet", style="bold")
    outliers = {outlier.index: outlier.delta_e for outlier in spread.outliers} if spread else {}
    for index, reading in enumerate(readings):
        how = [str(reading.state), str(reading.method)]
        how += [reading.instrument] if reading.instrument else []
        how += [str(reading.condition)] if reading.condition else []
        how += [reading.geometry] if reading.geometry else []
        how += [f"{reading.backing} backing"] if reading.backing else []
        how += [] if reading.error is None else [f"error ΔE00 {reading.error:g}"]
        if reading.origin is Origin.SPECTRUM and reading.spectrum is not None:
            spectrum = reading.spectrum
            how.append(f"spectrum {spectrum.start:g} to {spectrum.end:g} nm by {spectrum.step:g}")
            above = fluorescence(spectrum)
            how += [above] if above else []
        elif reading.origin is Origin.ADAPTED:
            how.append(
                f"adapted from {lab_text(reading.given)}, which is off by ΔE00 "
                f"{reading.adaptation_error:.1f} on average; a spectrum makes it exact"
            )
        if reading.file is not None:
            sample = f"{reading.sample!r} of " if reading.sample else ""
            how.append(f"{sample}{reading.file.name}")
        how += [reading.note] if reading.note else []
        number = f"{numbers[index]}.  " if numbers else ""
        indented(console, f"{number}{lab_text(reading.lab)}  {day_text(reading.read_on)}")
        indented(console, ", ".join(how), 4)
        if index in outliers:
            indented(console, f"stands out: ΔE00 {outliers[index]:.2f} from the middle", 4)
    if spread is not None:
        indented(console, spread_text(spread))


def spread_text(spread: Spread) -> str:
    """How far some readings agree, in one line."""
    count = len(spread.outliers)
    outliers = {0: "", 1: "; one stands out, it counts in the mean all the same"}.get(
        count, f"; {count} stand out, they count in the mean all the same"
    )
    verb = "agree to" if spread.mcdm <= _AGREE else "differ from their mean by"
    return f"{spread.count} dry readings {verb} ΔE00 {spread.mcdm:.1f} on average{outliers}"


def print_fact(console: Console, label: str, value: object | None) -> None:
    """A labelled line of a record; nothing where nothing is known."""
    if value:
        width = max(20, console.width - 14)
        lines = textwrap.wrap(str(value), width, break_long_words=False, break_on_hyphens=False)
        for index, line in enumerate(lines):
            console.print(f"  {label if not index else '':<12}{line}", soft_wrap=True)
