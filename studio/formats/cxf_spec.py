"""How the values of a CxF3 file were measured and computed: its colour specifications."""

from dataclasses import dataclass, field
from datetime import date
from typing import Any, Final

from studio.catalogue.reading import Condition
from studio.formats.header_words import (
    backing_in,
    condition_in,
    illuminant_named,
    observer_named,
)
from studio.formats.plain_text import printable
from studio.formats.sample import Circumstance
from studio.formats.whites import White

_SPHERE: Final = {
    "Specular_Included": "d/8, specular included",
    "Specular_Excluded": "d/8, specular excluded",
    "Diffuse": "d/8, diffuse",
}


@dataclass(frozen=True, slots=True)
class Spec:
    """What is used of one specification.

    Args:
        illuminant: its name in the file.
        observer: its name in the file.
        measured: the type of measurement in the file, such as Spectrum_Reflectance.
        start: first wavelength, nm.
        step: distance of two values, nm.
        how: instrument, condition, geometry and backing.
        remarks: what the owner should know of it.
    """

    illuminant: str | None = None
    observer: str | None = None
    measured: str = ""
    start: object | None = None
    step: object | None = None
    how: Circumstance = field(default_factory=Circumstance)
    remarks: tuple[str, ...] = ()

    def white(self) -> White:
        """The white of its colours.

        Raises:
            ValueError: it is none of CIE 15.
        """
        if self.illuminant is None:
            return White.of(None, observer_named(self.observer or ""))
        known = illuminant_named(self.illuminant)
        observer = observer_named(self.observer or "2")
        if known is None or observer is None:
            white = f"{self.illuminant}, {self.observer}"
            msg = f"its Lab stands under a white that CIE 15 has not ({white})"
            raise ValueError(msg)
        return White.of(known, observer)

    def check_reflected(self) -> None:
        """Refuse light that a lamp sends out or that goes through a film.

        Raises:
            ValueError: it is not reflected light.
        """
        if "Emissive" in self.measured or "Transmittance" in self.measured:
            kind = self.measured.replace("_", " ").lower()
            msg = f"it is a measurement of {kind}, and a swatch is read by reflectance"
            raise ValueError(msg)

    def dated(self, measured: Any, created: Any) -> Circumstance:  # noqa: ANN401
        """How it was read, with the day of the measurement, else that of the object."""
        day = _day(measured) or _day(getattr(created, "value", None))
        how = self.how
        return Circumstance(how.instrument, how.condition, how.geometry, how.backing, day)


def specs_of(collection: Any) -> dict[str, Spec]:  # noqa: ANN401
    """The specifications of a file by their ids."""
    if collection is None:
        return {}
    return {each.id: _spec(each) for each in collection.color_specification if each.id}


def _spec(each: Any) -> Spec:  # noqa: ANN401
    tristimulus, measurement = each.tristimulus_spec, each.measurement_spec
    light = getattr(tristimulus, "illuminant_or_custom_illuminant", None)
    geometry, remarks = _geometry(measurement)
    wavelengths = getattr(measurement, "wavelength_range", None)
    device = getattr(measurement, "device", None)
    return Spec(
        illuminant=_value(light) if light is not None else None,
        observer=_value(getattr(tristimulus, "observer", None)),
        measured=_value(getattr(measurement, "measurement_type", None)) or "",
        start=getattr(wavelengths, "start_wl", None),
        step=getattr(wavelengths, "increment", None),
        how=Circumstance(
            instrument=_instrument(device),
            condition=_condition(device),
            geometry=geometry,
            backing=backing_in(str(getattr(measurement, "backing", None) or "")),
        ),
        remarks=remarks,
    )


def _geometry(measurement: Any) -> tuple[str | None, tuple[str, ...]]:  # noqa: ANN401
    choice = getattr(getattr(measurement, "geometry_choice", None), "choice", None)
    if choice is None:
        return None, ()
    if hasattr(choice, "illumination_angle"):
        angles = [choice.illumination_angle, choice.measurement_angle]
        shown = "/".join(f"{angle:g}" for angle in angles if isinstance(angle, int | float))
        config = _value(choice.single_angle_configuration)
        return printable(" ".join(filter(None, (shown, config and config.lower())))) or None, ()
    if hasattr(choice, "brdfangle"):
        angles = [printable(str(angle.notation or "")) for angle in choice.brdfangle]
        shown = ", ".join(filter(None, angles))
        remark = f"it names several angles ({shown}) for one value; which one is not said"
        many = (remark,) if len(choice.brdfangle) > 1 else ()
        return printable(f"multi-angle {shown}"), many
    word = str(getattr(choice, "value", choice))
    return printable(_SPHERE.get(word, word.replace("_", " "))) or None, ()


def _instrument(device: Any) -> str | None:  # noqa: ANN401
    names = (getattr(device, "manufacturer", None), getattr(device, "model", None))
    return printable(" ".join(str(name) for name in names if name)) or None


def _condition(device: Any) -> Condition | None:  # noqa: ANN401
    illumination = _value(getattr(device, "device_illumination", None)) or ""
    stated = condition_in(illumination.split("_")[0])
    if stated is not None:
        return stated
    if getattr(device, "device_polarization", None) is True:
        return Condition.M3
    filtered = _value(getattr(device, "device_filter", None))
    return Condition.M2 if filtered == "Filter_UVExcluded" else None


def _value(element: Any) -> str | None:  # noqa: ANN401
    """The word of an element of a vocabulary; a word that is none of it is left as it is."""
    inner = getattr(element, "value", None)
    word = getattr(inner, "value", inner)
    return None if word is None else str(word)


def _day(moment: Any) -> date | None:  # noqa: ANN401
    try:
        return date(moment.year, moment.month, moment.day)
    except (AttributeError, TypeError, ValueError):
        return None
