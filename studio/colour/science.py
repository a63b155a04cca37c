"""The one door to colour-science: spectra to Lab, chromatic adaptation, Munsell.

Importing this module takes about half a second; only what computes with spectra, with another white
or with Munsell notations imports it.
"""

import math
import tempfile
import warnings
from collections.abc import Sequence
from pathlib import Path
from typing import Final

import numpy as np

from studio.colour.lab import Lab
from studio.colour.lab_arrays import Floats
from studio.colour.reflectance import Reflectance
from studio.colour.tristimulus import Tristimulus

with warnings.catch_warnings():
    # colour-science warns of plotting libraries that the studio does not need.
    warnings.simplefilter("ignore")
    import colour

_OBSERVER_NAMES: Final = {
    2: "CIE 1931 2 Degree Standard Observer",
    10: "CIE 1964 10 Degree Standard Observer",
}


def white_point(illuminant: str, observer: int) -> tuple[float, float, float]:
    """XYZ of an illuminant with Y = 1, from its CIE 15 chromaticity."""
    xy = colour.CCS_ILLUMINANTS[_OBSERVER_NAMES[observer]][illuminant]
    x, y, z = map(float, colour.xy_to_XYZ(xy))
    return x, y, z


def reflectance_to_lab(reflectance: Reflectance, illuminant: str = "D50", observer: int = 2) -> Lab:
    """Lab of a reflectance spectrum by ASTM E308 with weights by ASTM E2022.

    Steps of 1, 5, 10 and 20 nm on whole wavelengths (5 nm: on multiples of 5) are used as they are;
    others are interpolated to multiples of 5 nm after CIE 167 (Sprague). Missing ends take the
    nearest value, as E308 folds their weights in.

    Raises:
        ValueError: the computed lightness leaves 0 to 100 (a fluorescing sample).
    """
    sd = colour.SpectralDistribution(
        np.asarray(reflectance.values), np.asarray(reflectance.wavelengths)
    )
    usable = reflectance.step in {1.0, 5.0, 10.0, 20.0}
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        if not usable or reflectance.start % (5.0 if reflectance.step == 5.0 else 1.0):  # noqa: PLR2004
            first, last = 5 * math.ceil(reflectance.start / 5), 5 * math.floor(reflectance.end / 5)
            sd = sd.interpolate(colour.SpectralShape(first, last, 5))
        xyz = (
            colour.sd_to_XYZ(
                sd,
                colour.MSDS_CMFS[_OBSERVER_NAMES[observer]],
                colour.SDS_ILLUMINANTS[illuminant],
                method="ASTM E308",
            )
            / 100.0
        )
    return _lab(xyz, illuminant, observer)


def tristimulus(
    wavelengths: Sequence[float], illuminant: str = "D50", observer: int = 2
) -> Tristimulus:
    """The weights from reflectance at these wavelengths to XYZ, by ASTM E308.

    Args:
        wavelengths: nm, rising in steps of 1, 5, 10 or 20; what lies beyond them counts as the
            nearest value.
        illuminant: CIE name of the light.
        observer: 2 or 10 degrees.
    """
    # XYZ is linear in the spectrum: what each wavelength alone gives is its weight.
    alone = colour.MultiSpectralDistributions(np.eye(len(wavelengths)), wavelengths)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        xyz = colour.msds_to_XYZ(
            alone,
            colour.MSDS_CMFS[_OBSERVER_NAMES[observer]],
            colour.SDS_ILLUMINANTS[illuminant],
            method="ASTM E308",
        )
    return Tristimulus(
        np.asarray(wavelengths, dtype=np.float64),
        np.asarray(xyz, dtype=np.float64).T / 100.0,
        np.asarray(white_point(illuminant, observer)),
        illuminant,
        observer,
    )


def resampled(reflectance: Reflectance, wavelengths: Sequence[float]) -> Floats:
    """A spectrum at other wavelengths, interpolated after CIE 167 (Sprague), 0 upwards.

    Args:
        reflectance: as it was read.
        wavelengths: nm, rising in equal steps; beyond the ends of the spectrum its nearest value
            holds, as ASTM E308 has it.
    """
    read = dict(zip(reflectance.wavelengths, reflectance.values, strict=True))
    if read.keys() >= set(wavelengths):
        return np.array([read[nm] for nm in wavelengths])
    sd = colour.SpectralDistribution(read)
    inside = np.clip(wavelengths, reflectance.start, reflectance.end)
    return np.maximum(np.asarray(colour.SpragueInterpolator(sd.wavelengths, sd.values)(inside)), 0)


def estimated_reflectance(lab: Lab, wavelengths: Sequence[float]) -> Floats:
    """A spectrum that has a colour under D50 for 2 degrees, such as surfaces have, 0 to 1.

    A colour that no surface has gets one that comes near.

    Source: H. Otsu, M. Yamamoto, T. Hachisuka, "Reproducing spectral reflectances from tristimulus
    colours", Computer Graphics Forum 37 (2018) 370: principal components of measured surfaces, a
    set for each region of chromaticity, through colour-science.

    Args:
        lab: the colour, D50, 2 degrees.
        wavelengths: nm, rising in equal steps.
    """
    shape = colour.recovery.SPECTRAL_SHAPE_OTSU2018
    white = colour.XYZ_to_xy(np.asarray(white_point("D50", 2)))
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        sd = colour.XYZ_to_sd(
            colour.Lab_to_XYZ(lab.coordinates, white),
            method="Otsu 2018",
            cmfs=colour.MSDS_CMFS[_OBSERVER_NAMES[2]].copy().align(shape),
            illuminant=colour.SDS_ILLUMINANTS["D50"].copy().align(shape),
        )
    curve = Reflectance(shape.start, shape.interval, tuple(map(float, sd.values)))
    return resampled(curve, wavelengths)


def adapted(lab: Lab, illuminant: str = "D50", observer: int = 2) -> Lab:
    """A Lab carried to another white by the linear Bradford transform (ICC.1, Annex E).

    A colour read for the 10 degree observer has no exact counterpart for 2 degrees without its
    spectrum; the result is an estimate and callers mark it as adapted.
    """
    if lab.white == (illuminant, observer):
        return lab
    from_white = white_point(lab.illuminant, lab.observer)
    xyz = colour.Lab_to_XYZ(lab.coordinates, colour.XYZ_to_xy(from_white))
    moved = colour.chromatic_adaptation(
        xyz,
        np.asarray(from_white),
        np.asarray(white_point(illuminant, observer)),
        method="Von Kries",
        transform="Bradford",
    )
    return _lab(moved, illuminant, observer)


def xyz_to_lab(xyz: tuple[float, float, float], illuminant: str, observer: int) -> Lab:
    """Lab of tristimulus values with Y = 1 for the white (CIE 15).

    Raises:
        ValueError: they are no colour.
    """
    return _lab(np.asarray(xyz), illuminant, observer)


def read_iestm2714(content: bytes) -> tuple[str, list[tuple[float, float]]]:
    """The spectral quantity and the (wavelength in nm, value) points of an IES TM-27 document.

    Args:
        content: well-formed XML that was looked through for entities before.

    Raises:
        ValueError: it is no such document.
    """
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "readings.spdx")
        path.write_bytes(content)
        sd = colour.SpectralDistribution_IESTM2714()
        sd.path = str(path)
        try:
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")
                sd.read()
                points = list(zip(map(float, sd.wavelengths), map(float, sd.values), strict=True))
        except (AssertionError, AttributeError, KeyError, TypeError, ValueError) as error:
            msg = f"it is not written as IES TM-27 has it ({error})"
            raise ValueError(msg) from None
    return str(sd.spectral_quantity), points


def munsell_to_lab(notation: str) -> Lab:
    """Lab (D50, 2 degrees) of a Munsell renotation, adapted from illuminant C by Bradford.

    Source: Newhall, Nickerson, Judd (1943) renotation data through colour-science.

    Raises:
        ValueError: the notation is malformed or outside the renotation data.
    """
    msg = f"{notation!r} lies outside the Munsell renotation data"
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            xyy = colour.munsell_colour_to_xyY(notation)
    except (ValueError, AssertionError, RuntimeError, IndexError):
        raise ValueError(msg) from None
    if not (np.all(np.isfinite(xyy)) and 0.0 <= xyy[2] <= 1.0 + 1e-9):  # N10/ is 1 and a hair
        raise ValueError(msg)
    xyz = colour.xyY_to_XYZ(xyy)
    return adapted(_lab(xyz, "C", 2))


def _lab(xyz: np.ndarray, illuminant: str, observer: int) -> Lab:
    """Lab of XYZ (Y = 1 for white); rounding may leave 0..100 by a hair and is cut back."""
    white = colour.XYZ_to_xy(np.asarray(white_point(illuminant, observer)))
    lightness, a, b = map(float, colour.XYZ_to_Lab(xyz, white))
    if abs(lightness - 100.0) < 1e-3:  # noqa: PLR2004 - the white itself
        lightness = min(lightness, 100.0)
    return Lab(max(lightness, 0.0) if lightness > -1e-9 else lightness, a, b, illuminant, observer)  # noqa: PLR2004
