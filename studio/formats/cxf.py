"""Samples of a CxF3 file (ISO 17972-1), read by colour-cxf."""

import logging
import math
import warnings
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any, Final

from studio.colour.lab import Lab
from studio.colour.reflectance import HIGHEST, Reflectance
from studio.formats import spectra
from studio.formats.cxf_spec import Spec, specs_of
from studio.formats.plain_text import printable
from studio.formats.sample import Contents, Kind, Sample, SampleFault, UnreadableFile
from studio.formats.whites import White, lab_under, xyz_under

if TYPE_CHECKING:
    from colour_cxf.cxf3 import CxF, Object

_NO_COLOUR: Final = "it has no spectrum, Lab, LCh or XYZ of reflected light"


def read_cxf(content: bytes, file: str) -> Contents:
    """The samples of a file, an object each; one for each spectrum where an object has several.

    Args:
        content: XML that `xml_guard` has looked through.
        file: its name, for messages.

    Raises:
        UnreadableFile: it is not written as ISO 17972-1 has it, or no object of it has a colour.
    """
    document = _document(content, file)
    resources = document.resources
    collection = resources.object_collection if resources else None
    objects = collection.object_value if collection else []
    specs = specs_of(resources.color_specification_collection if resources else None)
    coloured = [each for each in objects if each.color_values and each.color_values.choice]
    if not coloured:
        held = f"{len(objects)} objects, none with a colour" if objects else "no objects"
        msg = f"{file} holds {held}; export it with its spectra or Lab values"
        raise UnreadableFile(msg)
    percent = any(value >= HIGHEST for each in coloured for value in _reflectances(each))
    samples: list[Sample] = []
    faults: list[SampleFault] = []
    for index, each in enumerate(coloured, start=1):
        name = printable(each.name or "") or printable(each.id or "") or str(index)
        for found in _samples(each, name, specs, percent=percent):
            if isinstance(found, Sample):
                samples.append(found)
            else:
                faults.append(found)
    remarks = [f"{spectra.PERCENT_REMARK} (ISO 17972-1 wants fractions)"] if percent else []
    left = len(objects) - len(coloured)
    if left:
        remarks.append(f"{left} object{'s' if left > 1 else ''} of it hold no colour")
    return Contents(Kind.CXF, tuple(samples), tuple(faults), tuple(remarks))


def _document(content: bytes, file: str) -> "CxF":
    # Half a second of classes, for this kind of file alone.
    from colour_cxf.cxf3 import CxF  # noqa: PLC0415
    from xsdata.exceptions import ParserError  # noqa: PLC0415
    from xsdata.formats.dataclass.parsers import XmlParser  # noqa: PLC0415
    from xsdata.formats.dataclass.parsers.config import ParserConfig  # noqa: PLC0415
    from xsdata.formats.dataclass.parsers.handlers import XmlEventHandler  # noqa: PLC0415

    # Makers add elements of their own, which are passed over. A value that is no number is left as
    # a text with a warning, and told by whoever needs the number.
    log = logging.getLogger("xsdata")
    if not log.handlers:  # else what it passes over is printed between the user's messages
        log.addHandler(logging.NullHandler())
    lenient = ParserConfig(fail_on_unknown_properties=False, fail_on_unknown_attributes=False)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            return XmlParser(config=lenient, handler=XmlEventHandler).from_bytes(content, CxF)
    except (ParserError, AttributeError, KeyError, TypeError, ValueError) as error:
        msg = f"{file} is not written as CxF3 has it ({printable(str(error))}); export it again"
        raise UnreadableFile(msg) from None


def _reflectances(each: "Object") -> Iterator[float]:
    """The values of every spectrum of an object that are numbers."""
    for value in _choices(each):
        kind = type(value).__name__
        if kind == "ReflectanceSpectrum":
            yield from (number for number in value.value if isinstance(number, float))
        elif kind == "CustomSpectrum":
            points = value.spectral_point
            yield from (point.value for point in points if isinstance(point.value, float))


def _samples(
    each: "Object", name: str, specs: dict[str, Spec], *, percent: bool
) -> Iterator[Sample | SampleFault]:
    """One sample for each spectrum of an object; without one, a sample of its Lab."""
    values = _choices(each)
    read = [value for value in values if type(value).__name__ in _SPECTRA]
    if not read:
        yield _without_spectrum(each, name, values, specs)
        return
    for value in read:
        spec = specs.get(value.color_specification or "", Spec())
        try:
            spectrum = _spectrum(value, spec, percent=percent)
            lab = _lab(values, specs, value.color_specification if len(read) > 1 else None)
            yield Sample(
                name,
                spectrum,
                lab[0] if lab else None,
                spec.dated(value.measure_date, each.creation_date),
                printable(each.id or "") or None,
                white_is_assumed=lab is not None and not lab[1].is_stated,
                remarks=spec.remarks,
            )
        except ValueError as error:
            yield SampleFault(name, str(error))


def _without_spectrum(
    each: "Object", name: str, values: list[Any], specs: dict[str, Spec]
) -> Sample | SampleFault:
    try:
        lab = _lab(values, specs, None, strict=True)
        if lab is None:
            return SampleFault(name, _NO_COLOUR)
        colour, white, spec = lab
        return Sample(
            name,
            None,
            colour,
            spec.dated(None, each.creation_date),
            printable(each.id or "") or None,
            white_is_assumed=not white.is_stated,
            remarks=spec.remarks,
        )
    except ValueError as error:
        return SampleFault(name, str(error))


def _spectrum(value: Any, spec: Spec, *, percent: bool) -> Reflectance:  # noqa: ANN401
    spec.check_reflected()
    if type(value).__name__ == "CustomSpectrum":
        points = [(_number(point.wl), _number(point.value)) for point in value.spectral_point]
        return spectra.spectrum_of(points, percent=percent)
    start = value.start_wl if value.start_wl is not None else spec.start
    if start is None or spec.step is None:
        msg = "the file does not say at which wavelength its spectrum starts and in what steps"
        raise ValueError(msg)
    step = _number(spec.step)
    points = [(_number(start) + step * at, _number(each)) for at, each in enumerate(value.value)]
    return spectra.spectrum_of(points, percent=percent)


def _lab(
    values: list[Any], specs: dict[str, Spec], under: str | None, *, strict: bool = False
) -> tuple[Lab, White, Spec] | None:
    """The Lab of an object, from Lab, else LCh, else XYZ.

    Args:
        values: its colour values.
        specs: the specifications they name.
        under: only values of this specification, where it is given.
        strict: whether a value that is no colour is an error; beside a spectrum it is not missed.

    Raises:
        ValueError: `strict`, and the first value is no colour of reflected light.
    """
    for kind, convert in _COLOURS.items():
        for value in values:
            named = value.color_specification if type(value).__name__ == kind else None
            if type(value).__name__ != kind or (under is not None and named != under):
                continue
            spec = specs.get(named or "", Spec())
            try:
                spec.check_reflected()
                return convert(value, spec.white()), spec.white(), spec
            except ValueError:
                if strict:
                    raise
    return None


def _from_lab(value: Any, white: White) -> Lab:  # noqa: ANN401
    return lab_under(white, _number(value.l), _number(value.a), _number(value.b))


def _from_lch(value: Any, white: White) -> Lab:  # noqa: ANN401
    chroma, hue = _number(value.c), math.radians(_number(value.h))
    return lab_under(white, _number(value.l), chroma * math.cos(hue), chroma * math.sin(hue))


def _from_xyz(value: Any, white: White) -> Lab:  # noqa: ANN401
    return xyz_under(white, _number(value.x), _number(value.y), _number(value.z))


_SPECTRA: Final = {"ReflectanceSpectrum", "CustomSpectrum"}
_COLOURS: Final = {"ColorCielab": _from_lab, "ColorCielch": _from_lch, "ColorCiexyz": _from_xyz}


def _choices(each: "Object") -> list[Any]:
    return list(each.color_values.choice) if each.color_values else []


def _number(value: object) -> float:
    """A finite number; colour-cxf leaves a text where the file has none."""
    if isinstance(value, int | float) and math.isfinite(value):
        return float(value)
    msg = (
        "one of its values is missing"
        if value is None or value == ""
        else f"{value!r} in it is not a number"
    )
    raise ValueError(msg)
