"""Where a reading comes from: the options that `swatch log` and `swatch read` share."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli import values
from studio.cli.session import asked, today
from studio.errors import BadInput

if TYPE_CHECKING:
    from studio.actions.make_reading import Circumstances
    from studio.actions.read_measurements import Told
    from studio.actions.taken_readings import TakenReadings, Taking
    from studio.catalogue.reading import Reading
    from studio.catalogue.swatch import Swatch
    from studio.colour.lab import Lab
    from studio.storage.unit_of_work import UnitOfWork

LabOption = Annotated[str | None, typer.Option("--lab", help="Measured L*,a*,b*: 41,2,-12.")]
Colour = Annotated[
    str | None, typer.Option(help="A colour judged by eye: #5b5f6e, a CSS colour or Munsell.")
]
Spectrum = Annotated[
    Path | None,
    typer.Option(help="CSV file of a spectrum: wavelength in nm, reflectance as a fraction."),
]
File = Annotated[
    Path | None,
    typer.Option(
        help="A file of an instrument: CxF3, CGATS.17 text, CSV of spectra or Lab, or .spdx."
    ),
]
SampleName = Annotated[
    str | None,
    typer.Option("--sample", help="Which sample of --file, by its name; the only one if left out."),
]
Illuminant = Annotated[
    str | None,
    typer.Option(help="Illuminant of a Lab that does not name its own; D50 by default."),
]
Observer = Annotated[
    int | None, typer.Option(help="Observer of such a Lab: 2 or 10 degrees; 2 by default.")
]
Wet = Annotated[bool, typer.Option("--wet", help="It was still wet when it was read.")]
On = Annotated[
    str | None,
    typer.Option("--on", help="The day: 2026-03-14; by default that of the file, or today."),
]
MethodOption = Annotated[
    str | None,
    typer.Option(help="spectrophotometer, colorimeter, scanner, camera or by eye."),
]
Instrument = Annotated[str | None, typer.Option(help="Make and model.")]
ConditionOption = Annotated[
    str | None,
    typer.Option(help="M0, M1, M2 or M3 (ISO 13655); chooses where --file has several."),
]
Geometry = Annotated[
    str | None, typer.Option(help="Of light and view: 45/0, or d/8 with specular included.")
]
BackingOption = Annotated[
    str | None, typer.Option("--backing", help="Under the sheet: white, black or self.")
]
Error = Annotated[float | None, typer.Option(help="Expected error of the reading, ΔE00.")]


@dataclass(frozen=True, slots=True)
class ReadingOptions:
    """The options of a reading as they were typed; the names are those of the options."""

    lab: str | None = None
    colour: str | None = None
    spectrum: Path | None = None
    file: Path | None = None
    sample: str | None = None
    illuminant: str | None = None
    observer: int | None = None
    wet: bool = False
    on: str | None = None
    method: str | None = None
    instrument: str | None = None
    condition: str | None = None
    geometry: str | None = None
    backing: str | None = None
    error: float | None = None

    @property
    def has_colour(self) -> bool:
        """Whether a colour is given, rather than to be asked for."""
        given = (self.lab, self.colour, self.spectrum, self.file)
        return any(value is not None for value in given)


def taking(options: ReadingOptions) -> "Taking":
    """How the readings of the options are made once the studio is open, asked for where none is.

    Raises:
        BadInput: several colours are given, or one that cannot be recorded.
        NotFound: the file has no sample of that name.
    """
    from studio.actions.taken_readings import TakenReadings  # noqa: PLC0415

    sources = (options.lab, options.colour, options.spectrum, options.file)
    given = [value is not None for value in sources].count(True)
    if given > 1:
        msg = "give one of --lab, --colour and --spectrum, or a --file, not several"
        raise BadInput(msg)
    if options.file is not None:
        return _from_file(options, options.file)
    if options.sample is not None:
        msg = "--sample names a sample of a file; give the file with --file"
        raise BadInput(msg)
    typed = _typed_reading(options)

    def take(_work: "UnitOfWork", _swatch: "Swatch | None") -> TakenReadings:
        return TakenReadings((typed,))

    return take


def told(options: ReadingOptions) -> "Told":
    """What the options say of the readings of a file.

    Raises:
        BadInput: an option is not understood.
    """
    from studio.actions.read_measurements import Told  # noqa: PLC0415
    from studio.catalogue.checks import word  # noqa: PLC0415
    from studio.catalogue.reading import Backing, Condition, Method, State  # noqa: PLC0415

    return Told(
        read_on=None if options.on is None else values.day(options.on),
        method=None if options.method is None else word(options.method, Method, "method"),
        state=State.WET if options.wet else State.DRY,
        instrument=options.instrument,
        condition=None
        if options.condition is None
        else word(options.condition, Condition, "condition"),
        geometry=options.geometry,
        backing=None if options.backing is None else word(options.backing, Backing, "backing"),
        error=options.error,
        illuminant=options.illuminant,
        observer=options.observer,
    )


def _from_file(options: ReadingOptions, path: Path) -> "Taking":
    from studio.actions import open_measurements, read_measurements  # noqa: PLC0415

    say = told(options)
    opened = open_measurements.open_measurements(path)
    samples = open_measurements.samples_named(opened, options.sample, say.condition)

    def take(work: "UnitOfWork", swatch: "Swatch | None") -> "TakenReadings":
        return read_measurements.take_from_file(
            work, opened, samples, swatch, told=say, today=today()
        )

    return take


def _typed_reading(options: ReadingOptions) -> "Reading":
    from studio.actions import make_reading  # noqa: PLC0415
    from studio.actions.read_target import read_colour  # noqa: PLC0415

    def lab_of(text: str) -> "Lab":
        observer = 2 if options.observer is None else options.observer
        return make_reading.lab(*values.lab_triple(text), options.illuminant or "D50", observer)

    lab = options.lab
    if not options.has_colour:
        lab = asked(
            None, "the colour as L*,a*,b*", "--lab, --colour or --spectrum, or a --file", lab_of
        )
    how = _circumstances(options, lab)
    if options.spectrum is not None:
        return make_reading.reading_of_spectrum(
            make_reading.read_spectrum_file(options.spectrum), how
        )
    if lab is not None:
        return make_reading.reading_of_lab(lab_of(lab), how)
    assert options.colour is not None  # noqa: S101 - one of the three was given
    return make_reading.reading_of_lab(read_colour(options.colour).lab, how)


def _circumstances(options: ReadingOptions, lab: str | None) -> "Circumstances":
    from studio.actions.make_reading import Circumstances  # noqa: PLC0415
    from studio.catalogue.reading import Method  # noqa: PLC0415

    usual = Method.COLORIMETER if lab else Method.BY_EYE
    if options.spectrum is not None:
        usual = Method.SPECTROPHOTOMETER
    say = told(options)
    return Circumstances(
        read_on=say.read_on or today(),
        method=say.method or usual,
        state=say.state,
        instrument=say.instrument,
        condition=say.condition,
        geometry=say.geometry,
        backing=say.backing,
        error=say.error,
    )
