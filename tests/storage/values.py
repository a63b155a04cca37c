"""Strategies for whole records, and a database they are stored in and read back from."""

import string
from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Final

from hypothesis import strategies as st

from studio.catalogue.container import Container, ContainerKind
from studio.catalogue.evidence import Evidence
from studio.catalogue.lightfastness import (
    CATEGORIES,
    FUGITIVE,
    WORDS,
    LightfastnessRating,
    Scale,
)
from studio.catalogue.measurement_file import MeasurementFile
from studio.catalogue.named_target import NamedTarget
from studio.catalogue.paint import Degree, Form, PaintFacts, Status, Transparency
from studio.catalogue.paper import Fibre, PaperFacts, Surface
from studio.catalogue.reading import Backing, Condition, Method, Origin, Reading, State
from studio.catalogue.stock import StockEvent, StockKind, Unit, WeighedAs
from studio.catalogue.swatch import Application, SwatchFacts
from studio.colour.lab import ILLUMINANTS, OBSERVERS, Lab
from studio.colour.reflectance import Reflectance
from studio.errors import BadInput

PIGMENTS: Final = ("PB29", "PBr7", "PR83", "PY43", "PG7", "PV23")
"""Pigments of the reference table that the paints of these tests are made of."""

days = st.dates(date(1, 1, 1), date(9999, 12, 31))
words = st.text(
    st.characters(exclude_categories=("C", "Z"), include_characters=" "), min_size=1, max_size=40
).filter(lambda text: bool(text.strip()))
maybe_words = st.none() | words
codes = st.builds(
    "".join,
    st.tuples(
        st.sampled_from(string.ascii_uppercase),
        st.text(string.ascii_uppercase + string.digits, max_size=11),
    ),
)


def measures(low: float, high: float) -> st.SearchStrategy[float]:
    """Floats of any exactness; never -0.0, which SQLite keeps as 0.0."""
    return st.floats(low, high).map(lambda value: value + 0.0)


@st.composite
def prices(draw: st.DrawFn) -> tuple[Decimal | None, str | None]:
    """A price with its currency, or neither."""
    if draw(st.booleans()):
        return None, None
    hundredths = draw(st.integers(0, 99_999_999))
    return Decimal(hundredths).scaleb(-2), draw(st.sampled_from(("EUR", "GBP", "USD")))


@st.composite
def paints(draw: st.DrawFn) -> PaintFacts:
    """The facts of a paint."""
    price, currency = draw(prices())
    return PaintFacts(
        code=draw(codes),
        maker=draw(words),
        name=draw(words),
        pigments=tuple(draw(st.lists(st.sampled_from(PIGMENTS), unique=True))),
        form=draw(st.sampled_from(Form)),
        volume_ml=draw(st.none() | measures(1e-6, 1e6)),
        price=price,
        currency=currency,
        transparency=draw(st.none() | st.sampled_from(Transparency)),
        staining=draw(st.none() | st.sampled_from(Degree)),
        granulation=draw(st.none() | st.sampled_from(Degree)),
        lot=draw(maybe_words),
        status=draw(st.sampled_from(Status)),
        low_at_ml=draw(st.none() | measures(0.0, 1e6)),
        note=draw(maybe_words),
    )


@st.composite
def papers(draw: st.DrawFn) -> PaperFacts:
    """The facts of a paper."""
    sheet = draw(st.booleans())
    side = measures(10.0, 20_000.0) if sheet else st.none()
    return PaperFacts(
        code=draw(codes),
        maker=draw(words),
        name=draw(words),
        fibre=draw(st.none() | st.sampled_from(Fibre)),
        weight_gsm=draw(st.none() | measures(20.0, 2000.0)),
        surface=draw(st.none() | st.sampled_from(Surface)),
        sheet_width_mm=draw(side),
        sheet_height_mm=draw(side),
        low_at_sheets=draw(st.none() | measures(0.0, 1e6)),
        low_at_mm=draw(st.none() | measures(0.0, 1e6)),
        note=draw(maybe_words),
    )


@st.composite
def labs(draw: st.DrawFn, *, standard: bool = True) -> Lab:
    """A Lab, under D50 for 2 degrees or under any white."""
    axis = measures(-200.0, 200.0)
    lightness, a, b = draw(measures(0.0, 100.0)), draw(axis), draw(axis)
    if standard:
        return Lab(lightness, a, b)
    white = draw(st.sampled_from(ILLUMINANTS)), draw(st.sampled_from(OBSERVERS))
    return Lab(lightness, a, b, *white)


@st.composite
def spectra(draw: st.DrawFn) -> Reflectance:
    """A spectrum of any start and step that covers 400 to 700 nm."""
    start, step = draw(measures(200.0, 400.0)), draw(measures(2.5, 20.0))
    count = int((700.0 - start) / step) + 2
    values = draw(st.lists(st.floats(0.0, 1.5), min_size=count, max_size=count))
    return Reflectance(start, step, tuple(values))


@st.composite
def readings(draw: st.DrawFn, *, file: MeasurementFile | None = None) -> Reading:
    """A reading of any kind, with or without a file that is on record."""
    origin = draw(st.sampled_from(Origin))
    spectrum = draw(spectra()) if origin is Origin.SPECTRUM else None
    return Reading(
        lab=draw(labs()),
        given=draw(labs(standard=False)),
        origin=origin,
        spectrum=spectrum,
        state=draw(st.sampled_from(State)),
        method=draw(st.sampled_from(Method)),
        instrument=draw(maybe_words),
        condition=draw(st.none() | st.sampled_from(Condition)),
        error=draw(st.none() | measures(0.0, 100.0)),
        read_on=draw(days),
        note=draw(maybe_words),
        geometry=draw(maybe_words),
        backing=draw(st.none() | st.sampled_from(Backing)),
        sample=draw(maybe_words),
        file=draw(st.sampled_from((None, file))),
    )


@st.composite
def targets(draw: st.DrawFn, *, picture: MeasurementFile) -> NamedTarget:
    """A named target, typed or from a picture that is on record."""
    return NamedTarget(
        id=0,
        name=" ".join(draw(words).lower().split()),
        lab=draw(labs()),
        spread=draw(st.none() | measures(0.0, 200.0)),
        place=draw(maybe_words),
        picture=draw(st.sampled_from((None, picture))),
        created_on=draw(days),
        note=draw(maybe_words),
    )


@st.composite
def swatches(draw: st.DrawFn) -> SwatchFacts:
    """The facts of a swatch."""
    target = draw(maybe_words)
    return SwatchFacts(
        code=draw(codes),
        water=draw(st.none() | measures(0.0, 1000.0)),
        layers=draw(st.integers(1, 100)),
        application=draw(st.sampled_from(Application)),
        made_on=draw(days),
        kept_at=draw(maybe_words),
        note=draw(maybe_words),
        target=target,
        target_lab=draw(st.none() | labs()) if target else None,
    )


@st.composite
def ratings(draw: st.DrawFn) -> LightfastnessRating:
    """A rating of PB29 on some scale."""
    scale = draw(st.sampled_from(Scale))
    steps = {
        Scale.ASTM_D4303: CATEGORIES,
        Scale.BLUE_WOOL: ("1", "8", "3-6", "7-8"),
        Scale.WORDS: (*WORDS.values(), FUGITIVE),
    }
    verified = draw(st.booleans())
    return LightfastnessRating(
        pigment="PB29",
        scale=scale,
        rating=draw(st.sampled_from(steps[scale])),
        medium=draw(words),
        year=draw(st.none() | st.integers(1800, 2200)),
        source=draw(words),
        evidence=draw(st.sampled_from(Evidence)),
        note=draw(maybe_words),
        verified_on=draw(days) if verified else None,
        verified_from=draw(words) if verified else None,
    )


@st.composite
def containers(draw: st.DrawFn, *, paint: int, paper: int) -> Container:
    """A container of a paint or a paper, without entries."""
    kind = draw(st.sampled_from(ContainerKind))
    of_paint = draw(st.booleans())
    unit = Unit.ML if of_paint else draw(st.sampled_from((Unit.SHEETS, Unit.MM)))
    return Container(
        id=0,
        code=draw(codes) + f"-{draw(st.integers(1, 9_999))}",
        paint_id=paint if of_paint else None,
        paper_id=None if of_paint else paper,
        kind=kind,
        unit=unit,
        capacity=None if kind is ContainerKind.ASSORTED else draw(measures(1e-6, 1e6)),
        lot=draw(maybe_words),
    )


_MOVES: Final = (StockKind.OPENED, StockKind.LENT, StockKind.RETURNED)
_ZERO: Final = (StockKind.WEIGHED, StockKind.CORRECTED)


@st.composite
def stock_events(draw: st.DrawFn, *, other: str) -> StockEvent:
    """An entry that a row can hold, whether or not it can follow those before it."""
    kind = draw(st.sampled_from(StockKind))
    amount: float | None = None
    if kind not in _MOVES and not (kind is StockKind.DISCARDED and draw(st.booleans())):
        amount = draw(measures(0.0 if kind in _ZERO else 1e-6, 1e6))
    scale = kind in {StockKind.WEIGHED, StockKind.BOUGHT} and draw(st.booleans())
    price, currency = draw(prices())
    return StockEvent(
        kind=kind,
        happened_on=draw(days),
        amount=amount,
        weight_g=draw(measures(0.0, 1e6)) if scale else None,
        weighed_as=draw(st.none() | st.sampled_from(WeighedAs)) if scale else None,
        estimated=draw(st.booleans()),
        other=other if kind in {StockKind.REFILLED, StockKind.POURED} else None,
        price=price,
        currency=currency,
        note=draw(maybe_words),
    )


def ledger(container: Container, tried: Iterable[StockEvent]) -> tuple[StockEvent, ...]:
    """Those entries, by their days, that are possible one after the other."""
    kept = replace(container, events=())
    for event in sorted(tried, key=lambda event: event.happened_on):
        changed = replace(kept, events=(*kept.events, event))
        try:
            _ = changed.lines
        except BadInput:
            continue
        kept = changed
    return kept.events
