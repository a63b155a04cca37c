"""Compare two swatches, under the studio's light and, by their spectra, under others."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from studio.actions.read_target import Target
from studio.catalogue.reading import State
from studio.catalogue.swatch import Swatch
from studio.colour.difference import ciede2000
from studio.colour.lab import Lab
from studio.colour.lights import REFERENCE
from studio.colour.metamerism import UnderLight, under_light
from studio.colour.reflectance import Reflectance
from studio.colour.words import Separation, separation
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two swatches side by side.

    Args:
        standard: the first.
        sample: the second, which is judged.
        delta_e: ΔE00 under D50 for 2 degrees, by all their readings.
        separation: how the second looks beside the first.
        lights: the pair under each light that was asked for; empty without spectra.
        without_spectrum: those that no spectrum was read from.
    """

    standard: Swatch
    sample: Swatch
    delta_e: float
    separation: Separation
    lights: tuple[UnderLight, ...]
    without_spectrum: tuple[Swatch, ...]

    @property
    def breaking(self) -> tuple[UnderLight, ...]:
        """The lights that the match breaks under."""
        return tuple(each for each in self.lights if each.breaks)


def compare_swatches(standard: Swatch, sample: Swatch, lights: Sequence[str]) -> Comparison:
    """How one swatch looks beside another, under D50 and under other lights.

    Args:
        standard: the first.
        sample: the second, which is judged.
        lights: CIE illuminants.

    Raises:
        BadInput: both are the same swatch, or one was read wet and the other dry.
    """
    if standard.id == sample.id:
        msg = f"{standard.facts.code} is compared with itself; name two swatches"
        raise BadInput(msg)
    if standard.state is not sample.state:
        wet = standard if standard.state is State.WET else sample
        msg = (
            f"{wet.facts.code} has only been read wet and the other dry; read it again when it is "
            f"dry: studio swatch read {wet.facts.code}"
        )
        raise BadInput(msg)
    here = standard.lab.coordinates, sample.lab.coordinates
    lacking = tuple(each for each in (standard, sample) if not spectra_of(each))
    under: tuple[UnderLight, ...] = ()
    if not lacking:
        every = (REFERENCE, *lights)
        under = _under(_seen(standard, every), _seen(sample, every), lights)
    return Comparison(standard, sample, ciede2000(*here), separation(*here), under, lacking)


def lighting(
    work: UnitOfWork, target: Target, lights: Sequence[str], *, wet: bool
) -> Callable[[Iterable[Swatch]], dict[int, tuple[UnderLight, ...]]]:
    """Looks at swatches beside a target under some lights: those with a spectrum, by their id.

    Args:
        work: the studio.
        target: a swatch with a spectrum.
        lights: CIE illuminants.
        wet: what is matched is not the target itself but the dry colour expected of it.

    Raises:
        BadInput: what is matched has no spectrum.
    """
    if target.swatch_id is None or wet:
        what = "the expected dry colour of a wet patch" if wet else "a colour alone"
        msg = (
            f"{what} has no spectrum, so other lights cannot be computed; with --light the target "
            "is a swatch that was read dry by a spectrophotometer, such as S12"
        )
        raise BadInput(msg)
    swatch = work.swatches.by_ids([target.swatch_id])[target.swatch_id]
    if not spectra_of(swatch):
        raise BadInput(no_spectrum_text(swatch))
    every = (REFERENCE, *lights)

    def look(samples: Iterable[Swatch]) -> dict[int, tuple[UnderLight, ...]]:
        wanted = _seen(swatch, every)
        return {
            sample.id: _under(wanted, _seen(sample, every), lights)
            for sample in samples
            if spectra_of(sample)
        }

    return look


def spectra_of(swatch: Swatch) -> tuple[Reflectance, ...]:
    """The spectra a swatch was read with, dry where it has been read dry."""
    return tuple(
        reading.spectrum
        for reading in swatch.readings
        if reading.state is swatch.state and reading.spectrum is not None
    )


def no_spectrum_text(*swatches: Swatch) -> str:
    """Why nothing is told of swatches under other lights, and what to do."""
    codes = [swatch.facts.code for swatch in swatches]
    have = "has no spectrum of its" if len(codes) == 1 else "have no spectrum of their"
    return (
        f"{' and '.join(codes)} {have} {swatches[0].state} colour, so other lights cannot be "
        f"computed; read one with a spectrophotometer (studio swatch read {codes[0]} --spectrum "
        "FILE)"
    )


Seen = Mapping[str, Lab]
"""The colour of a swatch under each light, for 2 degrees."""


def _seen(swatch: Swatch, lights: Sequence[str]) -> Seen:
    """The mean colour of its spectra under each light: Labs are averaged as for the search."""
    # Half a second of colour-science, for comparing under lights alone.
    from studio.colour.science import reflectance_to_lab  # noqa: PLC0415

    seen = {}
    for light in lights:
        try:
            labs = [reflectance_to_lab(each, light).coordinates for each in spectra_of(swatch)]
        except ValueError as error:
            msg = f"no colour of {swatch.facts.code} under {light} can be computed: {error}"
            raise BadInput(msg) from None
        lightness, a, b = (sum(axis) / len(labs) for axis in zip(*labs, strict=True))
        seen[light] = Lab(lightness, a, b, light)
    return seen


def _under(standard: Seen, sample: Seen, lights: Sequence[str]) -> tuple[UnderLight, ...]:
    here = standard[REFERENCE], sample[REFERENCE]
    return tuple(under_light(*here, standard[light], sample[light]) for light in lights)
