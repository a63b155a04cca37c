"""The demo's instrument files: the same kind of readings as CGATS.17 text and as CxF3."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from seed_demo import swatch_spectra
from seed_demo.optics import START, STEP, WAVELENGTHS, FloatArray

INSTRUMENT: Final = "45/0 spectrophotometer"


@dataclass(frozen=True, slots=True)
class Reading:
    """One reading of a wash on Slipway Rag.

    Args:
        sample: its name in the file.
        recipe: of the wash.
        water: parts of water to one of paint.
        place: thickness of the film where it was read, as a share of the mean.
    """

    sample: str
    recipe: str
    water: float
    place: float = 1.0

    @property
    def reflectance(self) -> FloatArray:
        """What an instrument reads."""
        return swatch_spectra.film(self.recipe, (1.0 + self.water) / self.place - 1.0)


IN_CGATS: Final = (
    Reading("wet slipway", "1 FU + 1 BS", 2, 1.00),
    Reading("wet slipway", "1 FU + 1 BS", 2, 1.05),
    Reading("wet slipway", "1 FU + 1 BS", 2, 0.97),
    Reading("mud at the bend", "2 FU + 3 BS", 3, 1.00),
    Reading("S74", "2 FU + 1 BS", 3, 1.02),
)
"""The first was read three times, the card turned and moved."""

IN_CXF: Final = (
    Reading("S74 a", "2 FU + 1 BS", 3, 1.03),
    Reading("S74 b", "2 FU + 1 BS", 3, 0.98),
    Reading("S79", "2 FU + 3 BS + 1 YO", 1, 1.02),
    Reading("S100", "2 CB + 1 BS", 4, 0.97),
    Reading("S115", "4 YO + 1 FU", 1.5, 1.02),
    Reading("reed bed, new", "5 RS + 2 BS + 1 FU", 2, 1.00),
)
"""Swatches of the demo read again, one of them twice, and a wash that is no swatch yet."""


def cgats(readings: Sequence[Reading] = IN_CGATS) -> str:
    """The text of a CGATS.17 file; it names no day, so the readings are of the day they come in."""
    fields = ["SAMPLE_ID", "SAMPLE_NAME", *(f"SPECTRAL_NM{nm}" for nm in WAVELENGTHS)]
    rows = (
        [str(number), f'"{each.sample}"', *_decimals(each)]
        for number, each in enumerate(readings, start=1)
    )
    lines = [
        "CGATS.17",
        'ORIGINATOR\t"studio of Ottilie Marrack (invented)"',
        'DESCRIPTOR\t"washes on Slipway Rag"',
        f'INSTRUMENTATION\t"{INSTRUMENT}"',
        'MEASUREMENT_SOURCE\t"MeasurementCondition=M1"',
        'MEASUREMENT_GEOMETRY\t"45/0"',
        'SAMPLE_BACKING\t"white"',
        f"NUMBER_OF_FIELDS\t{len(fields)}",
        "BEGIN_DATA_FORMAT",
        "\t".join(fields),
        "END_DATA_FORMAT",
        f"NUMBER_OF_SETS\t{len(readings)}",
        "BEGIN_DATA",
        *("\t".join(row) for row in rows),
        "END_DATA",
    ]
    return "\n".join(lines) + "\n"


def cxf(readings: Sequence[Reading] = IN_CXF) -> str:
    """The text of a CxF3 file, with the day on which its samples were read."""
    day = "2026-10-30T16:05:00Z"
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        '<CxF xmlns="http://colorexchangeformat.com/CxF3-core">',
        " <FileInformation>",
        "  <Creator>studio of Ottilie Marrack (invented)</Creator>",
        f"  <CreationDate>{day}</CreationDate>",
        "  <Description>card box 1 and 2, read again</Description>",
        " </FileInformation>",
        " <Resources>",
        "  <ObjectCollection>",
    ]
    for number, each in enumerate(readings, start=1):
        lines += [
            f'   <Object ObjectType="Swatch" Name="{each.sample}" Id="o{number}">',
            f"    <CreationDate>{day}</CreationDate>",
            "    <ColorValues>",
            f'     <ReflectanceSpectrum ColorSpecification="c1" StartWL="{START}">',
            f"      {' '.join(_decimals(each))}",
            "     </ReflectanceSpectrum>",
            "    </ColorValues>",
            "   </Object>",
        ]
    lines += [
        "  </ObjectCollection>",
        "  <ColorSpecificationCollection>",
        '   <ColorSpecification Id="c1">',
        "    <TristimulusSpec>",
        "     <Illuminant>D50</Illuminant>",
        "     <Observer>2_Degree</Observer>",
        "     <Method>E308_Table5</Method>",
        "    </TristimulusSpec>",
        "    <MeasurementSpec>",
        "     <MeasurementType>Spectrum_Reflectance</MeasurementType>",
        "     <GeometryChoice>",
        "      <SingleAngle>",
        "       <SingleAngleConfiguration>Annular</SingleAngleConfiguration>",
        "       <IlluminationAngle>45</IlluminationAngle>",
        "       <MeasurementAngle>0</MeasurementAngle>",
        "      </SingleAngle>",
        "     </GeometryChoice>",
        f'     <WavelengthRange StartWL="{START}" Increment="{STEP}"/>',
        "     <Device>",
        f"      <Model>{INSTRUMENT}</Model>",
        "      <DeviceIllumination>M1_Daylight</DeviceIllumination>",
        "     </Device>",
        "     <Backing>White</Backing>",
        "    </MeasurementSpec>",
        "   </ColorSpecification>",
        "  </ColorSpecificationCollection>",
        " </Resources>",
        "</CxF>",
    ]
    return "\n".join(lines) + "\n"


def _decimals(reading: Reading) -> list[str]:
    return [f"{value:.4f}" for value in reading.reflectance]
