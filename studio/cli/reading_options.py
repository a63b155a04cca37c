"""How a reading is typed: the options that `swatch log` and `swatch read` share."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli import values
from studio.cli.session import asked
from studio.errors import BadInput

if TYPE_CHECKING:
    from studio.catalogue.reading import Reading

LabOption = Annotated[str | None, typer.Option("--lab", help="Measured L*,a*,b*: 41,2,-12.")]
Colour = Annotated[
    str | None, typer.Option(help="A colour judged by eye: #5b5f6e, a CSS colour or Munsell.")
]
Spectrum = Annotated[
    Path | None,
    typer.Option(help="CSV file of a spectrum: wavelength in nm, reflectance as a fraction."),
]
Illuminant = Annotated[str, typer.Option(help="Illuminant of --lab.")]
Observer = Annotated[int, typer.Option(help="Observer of --lab: 2 or 10 degrees.")]
Wet = Annotated[bool, typer.Option("--wet", help="It was still wet when it was read.")]
MethodOption = Annotated[
    str | None,
    typer.Option(help="spectrophotometer, colorimeter, scanner, camera or by eye."),
]
Instrument = Annotated[str | None, typer.Option(help="Make and model.")]
ConditionOption = Annotated[str | None, typer.Option(help="M0, M1, M2 or M3 (ISO 13655).")]
Error = Annotated[float | None, typer.Option(help="Expected error of the reading, ΔE00.")]


def typed_reading(
    lab: str | None,
    colour: str | None,
    spectrum: Path | None,
    illuminant: str,
    observer: int,
    wet: bool,
    on: str | None,
    method: str | None,
    instrument: str | None,
    condition: str | None,
    error: float | None,
) -> "Reading":
    """The reading that the options of a command give, asked for at a terminal when none does.

    Raises:
        BadInput: several colours are given, or one that cannot be recorded.
    """
    from studio.actions import make_reading  # noqa: PLC0415
    from studio.actions.read_target import read_colour  # noqa: PLC0415
    from studio.catalogue.checks import word  # noqa: PLC0415
    from studio.catalogue.reading import Condition, Method, State  # noqa: PLC0415

    given = [value is not None for value in (lab, colour, spectrum)].count(True)
    if given > 1:
        msg = "give one of --lab, --colour and --spectrum, not several"
        raise BadInput(msg)
    if not given:
        lab = asked(None, "the colour as L*,a*,b*", "--lab, --colour or --spectrum")
    usual = Method.SPECTROPHOTOMETER if spectrum else Method.COLORIMETER if lab else Method.BY_EYE
    how = make_reading.Circumstances(
        read_on=values.day(on),
        method=usual if method is None else word(method, Method, "method"),
        state=State.WET if wet else State.DRY,
        instrument=instrument,
        condition=None if condition is None else word(condition, Condition, "condition"),
        error=error,
    )
    if spectrum is not None:
        return make_reading.reading_of_spectrum(make_reading.read_spectrum_file(spectrum), how)
    if lab is not None:
        typed = make_reading.lab(*values.lab_triple(lab), illuminant, observer)
        return make_reading.reading_of_lab(typed, how)
    assert colour is not None  # noqa: S101 - one of the three was given
    return make_reading.reading_of_lab(read_colour(colour).lab, how)
