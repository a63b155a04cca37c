"""Measurement files as instruments write them, of an invented painter's swatches."""

from collections.abc import Sequence
from typing import Final

from studio.colour.reflectance import Reflectance

MUD: Final = tuple(round(0.05 + 0.004 * step, 4) for step in range(36))
"""Reflectance of wet mud, 380 to 730 nm by 10 nm, invented."""
WAVELENGTHS: Final = tuple(range(380, 731, 10))
MUD_SPECTRUM: Final = Reflectance(380.0, 10.0, MUD)


def cgats(
    fields: Sequence[str],
    rows: Sequence[Sequence[object]],
    *,
    header: Sequence[str] = (),
    first: str = "CGATS.17",
    separator: str = "\t",
) -> str:
    """A file of one table."""
    lines = [
        first,
        *header,
        f"NUMBER_OF_FIELDS {len(fields)}",
        "BEGIN_DATA_FORMAT",
        separator.join(fields),
        "END_DATA_FORMAT",
        f"NUMBER_OF_SETS {len(rows)}",
        "BEGIN_DATA",
        *(separator.join(str(cell) for cell in row) for row in rows),
        "END_DATA",
    ]
    return "\n".join(lines) + "\n"


SPEC: Final = """
<TristimulusSpec><Illuminant>D50</Illuminant><Observer>2_Degree</Observer>
<Method>E308_Table5</Method></TristimulusSpec>
<MeasurementSpec><MeasurementType>Spectrum_Reflectance</MeasurementType>
<GeometryChoice><SingleAngle>
<SingleAngleConfiguration>Annular</SingleAngleConfiguration>
<IlluminationAngle>45</IlluminationAngle><MeasurementAngle>0</MeasurementAngle>
</SingleAngle></GeometryChoice>
<WavelengthRange StartWL="380" Increment="10"/>
</MeasurementSpec>"""
"""A colour specification: D50/2 degrees, 45/0, 380 nm by 10 nm."""


def cxf(objects: str, *specs: str, more: str = "") -> bytes:
    """A file with those objects, its specifications called s1, s2 and so on."""
    collection = "".join(
        f'<ColorSpecification Id="s{number}">{spec}</ColorSpecification>'
        for number, spec in enumerate(specs or (SPEC,), start=1)
    )
    return f"""<?xml version="1.0" encoding="UTF-8"?>
<CxF xmlns="http://colorexchangeformat.com/CxF3-core"><Resources>
<ObjectCollection>{objects}</ObjectCollection>
<ColorSpecificationCollection>{collection}</ColorSpecificationCollection>
</Resources>{more}</CxF>""".encode()


def cxf_object(name: str, *values: str, created: str = "2026-05-04T10:00:00Z") -> str:
    """An object with those colour values."""
    colours = f"<ColorValues>{''.join(values)}</ColorValues>" if values else ""
    return (
        f'<Object ObjectType="Standard" Name="{name}" Id="id-{name}">'
        f"<CreationDate>{created}</CreationDate>{colours}</Object>"
    )


def cxf_spectrum(
    values: Sequence[float] = MUD, *, spec: str = "s1", start: str = 'StartWL="380"'
) -> str:
    """A reflectance spectrum."""
    numbers = " ".join(map(str, values))
    return (
        f'<ReflectanceSpectrum {start} ColorSpecification="{spec}">{numbers}</ReflectanceSpectrum>'
    )


def cxf_lab(lightness: object, a: object, b: object, *, spec: str = "s1") -> str:
    """A Lab."""
    return (
        f'<ColorCIELab ColorSpecification="{spec}"><L>{lightness}</L><A>{a}</A><B>{b}</B>'
        "</ColorCIELab>"
    )


def spdx(
    points: Sequence[tuple[float, float]], quantity: str = "reflectance", more: str = ""
) -> bytes:
    """An IES TM-27 document."""
    data = "".join(
        f'<SpectralData wavelength="{wavelength}">{value}</SpectralData>'
        for wavelength, value in points
    )
    return f"""<?xml version="1.0"?>
<IESTM2714 xmlns="iestm2714" version="1.0">
<Header><Description>mud</Description>{more}</Header>
<SpectralDistribution><SpectralQuantity>{quantity}</SpectralQuantity>{data}</SpectralDistribution>
</IESTM2714>""".encode()
