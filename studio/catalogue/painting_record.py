"""How to mix each colour of a finished painting again: a record that nothing later changes."""

from dataclasses import dataclass
from datetime import date
from typing import Final

from studio.colour.lab import Lab
from studio.colour.reflectance import Reflectance

VERSION: Final = 1
"""Of the form of a record; a later program reads every earlier one."""


@dataclass(frozen=True, slots=True)
class RecordedContainer:
    """A tube, pan or jar that was on the shelf, by its code, with its lot where it is known."""

    code: str
    lot: str | None


@dataclass(frozen=True, slots=True)
class RecordedPaint:
    """A paint as it was.

    Args:
        code: short code.
        maker: who made it.
        name: what the maker called it.
        form: tube, pan, …
        lot: of the paint, where it is told apart by its lots.
        pigments: Colour Index names, in the order of the label.
        containers: what of it was on the shelf.
        parts: its parts of the mix; 0 where it stands in no mix.
        used_ml: what was booked of it; 0 where it stands in a mix.
    """

    code: str
    maker: str
    name: str
    form: str
    lot: str | None
    pigments: tuple[str, ...]
    containers: tuple[RecordedContainer, ...]
    parts: int = 0
    used_ml: float = 0.0


@dataclass(frozen=True, slots=True)
class RecordedMix:
    """The mix that was laid, and the card that shows it.

    Args:
        mix: its code.
        paints: with their parts.
        water: parts of water to one part of paint; None where that was not noted.
        layers: each dry before the next.
        application: how the card was laid.
        swatch: code of the card.
        kept_at: where the card is.
        made_on: the day of the card.
        paper: code and name of the card's paper.
        lab: its colour, under D50 for 2 degrees.
        method: how that was read.
        spectrum: its reflectance, where it was read as a spectrum.
        delta_e: ΔE00 from the colour that was wanted.
        passes: whether that was within the painting's tolerance.
        named: whether the painter chose it, rather than its being the nearest.
        tries: how many cards were held against the colour.
    """

    mix: str
    paints: tuple[RecordedPaint, ...]
    water: float | None
    layers: int
    application: str
    swatch: str
    kept_at: str | None
    made_on: date
    paper: str
    lab: Lab
    method: str
    spectrum: Reflectance | None
    delta_e: float
    passes: bool
    named: bool
    tries: int


@dataclass(frozen=True, slots=True)
class RecordedColour:
    """A colour of a passage.

    Args:
        lab: what was wanted, under D50 for 2 degrees.
        given: how it was named.
        place: where it was picked.
        picture: what it was picked from.
        mix: what was laid; None where none was tested that passed.
        tries: how many cards were held against it; None in records made before it was noted.
    """

    lab: Lab
    given: str | None
    place: str | None
    picture: str | None
    mix: RecordedMix | None
    tries: int | None = None


@dataclass(frozen=True, slots=True)
class RecordedPassage:
    """A passage as it was planned."""

    name: str
    technique: str
    share: float | None
    layers: int
    dry_before_next: bool
    over: str | None
    note: str | None
    colours: tuple[RecordedColour, ...]


@dataclass(frozen=True, slots=True)
class PaintingRecord:
    """A finished painting.

    Args:
        painting: its code.
        title: what it was called.
        width_mm: of the painted area.
        height_mm: of the painted area.
        tolerance: ΔE00 that passed for a colour of it.
        paper: code, maker, name, surface and weight of its paper, in words.
        white: Lab of that paper, where it was read.
        picture: name of the reference picture.
        picture_sha256: its digest.
        started_on: the day.
        finished_on: the day.
        note: remarks on the painting.
        used: the paint that was booked, without water.
        paper_used: sheets (mm of a roll) that were booked; None for none.
        passages: in working order.
    """

    painting: str
    title: str
    width_mm: float
    height_mm: float
    tolerance: float
    paper: str
    white: Lab | None
    picture: str | None
    picture_sha256: str | None
    started_on: date
    finished_on: date
    note: str | None
    used: tuple[RecordedPaint, ...]
    paper_used: float | None
    passages: tuple[RecordedPassage, ...]

    @property
    def without_mix(self) -> tuple[tuple[RecordedPassage, int, RecordedColour], ...]:
        """(its passage, its number there from 1 on, colour) of the colours without a mix."""
        return tuple(
            (passage, number, colour)
            for passage in self.passages
            for number, colour in enumerate(passage.colours, start=1)
            if colour.mix is None
        )
