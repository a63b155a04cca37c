"""What a studio's swatches tell of its paints, and all that predictions need."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from typing import Any, Final

import numpy as np

from studio.colour.tristimulus import Tristimulus
from studio.mixing.parameters import Parameters
from studio.mixing.ranges import FloatArray

FUNCTIONS: Final = 12
"""Cosines of the wavelength by which uncertainty is kept; what varies faster shows in no colour."""

FAR: Final = 5.0
FAR_TIMES: Final = 4.0


@dataclass(frozen=True, slots=True)
class ErrorModel:
    """How far predictions lie from what is measured, from swatches that were left out.

    The error that about 68 % of predictions stay within is
    scale √(share variance + floor²), in ΔE00.

    Args:
        share: of the variance of the parameters that shows.
        floor: what even a well-known paint leaves, ΔE00.
        scale: from the root to the 68 % bound.
        swatches: from how many left-out swatches; 0 for what is usual.
    """

    share: float
    floor: float
    scale: float
    swatches: int


@dataclass(frozen=True, slots=True)
class Support:
    """What the knowledge of one paint rests on.

    Args:
        paint: its id.
        alone: swatches of the paint alone.
        mixed: swatches of mixes that it is in.
        mixes: mixes it is in, whatever their water and layers.
        partners: ids of the paints it was mixed with.
        grounds: different papers and backings.
        estimated: how many of its swatches have a spectrum estimated from Lab.
    """

    paint: int
    alone: int
    mixed: int
    mixes: int
    partners: tuple[int, ...]
    grounds: int
    estimated: int


@dataclass(frozen=True, slots=True, eq=False)
class Characterisation:
    """The paints of a studio as the model knows them.

    Args:
        paints: their ids, rising.
        parameters: of these paints, in that order.
        light: from spectra to Lab; its wavelengths are those of the parameters.
        covariance: of the unknowns along `FUNCTIONS` cosines, in units of the fit.
        thickness: standard deviation of ln thickness of a film to be laid.
        error: the calibration of expected errors.
        support: of each paint.
        fitted: ΔE00 of each swatch from its fit, (swatches,), in the order they were given.
        left_out: ΔE00 of each swatch from what the others predict, every mix of its set of paints
            left out; not a number where it cannot be.
        ln_extra: how much thicker the film of each is than its water tells, in ln.
    """

    paints: tuple[int, ...]
    parameters: Parameters
    light: Tristimulus
    covariance: FloatArray
    thickness: float
    error: ErrorModel
    support: tuple[Support, ...]
    fitted: FloatArray
    left_out: FloatArray
    ln_extra: FloatArray

    @property
    def K(self) -> FloatArray:  # noqa: N802 - the letter of the papers
        """Absorption of a film of one layer at the usual water, (paints, wavelengths)."""
        return self.parameters.K

    @property
    def S(self) -> FloatArray:  # noqa: N802
        """Scattering of the same, (paints, wavelengths)."""
        return self.parameters.S

    def of(self, paint: int) -> Support:
        """What the knowledge of a paint rests on.

        Raises:
            KeyError: no swatch has it.
        """
        for each in self.support:
            if each.paint == paint:
                return each
        raise KeyError(paint)

    def pair_seen(self, paints: Sequence[int]) -> bool:
        """Whether all of these paints were mixed with each other, two by two at least."""
        return all(
            other == paint or other in self.of(paint).partners
            for paint in paints
            for other in paints
        )


def contradictory(known: Characterisation) -> tuple[int, ...]:
    """Rows of swatches that the fit could not follow although it may thin and thicken their films.

    They lie more than `FAR` ΔE00 from it, and more than `FAR_TIMES` the median of all swatches.
    """
    far = max(FAR, FAR_TIMES * float(np.median(known.fitted)))
    return tuple(int(row) for row in np.flatnonzero(known.fitted > far))


def cosines(count: int) -> FloatArray:
    """The first `FUNCTIONS` functions of the orthonormal cosine transform (DCT-II), as columns.

    Args:
        count: number of wavelengths.
    """
    width = min(FUNCTIONS, count)
    angle = np.pi / count * (np.arange(count)[:, np.newaxis] + 0.5) * np.arange(width)
    basis = np.cos(angle) * np.sqrt(2.0 / count)
    basis[:, 0] /= np.sqrt(2.0)
    return np.asarray(basis)


def to_arrays(known: Characterisation) -> dict[str, FloatArray]:
    """A characterisation as arrays by name, to be stored; `from_arrays` reads them back."""
    light = known.light
    return {
        "paints": np.array(known.paints, dtype=np.float64),
        "ln_K": known.parameters.ln_K,
        "ln_S_part": known.parameters.ln_S_part,
        "law": known.parameters.law,
        "wavelengths": light.wavelengths,
        "weights": light.weights,
        "white": light.white,
        "observer": np.array(float(light.observer)),
        "covariance": known.covariance.astype(np.float32),
        "thickness": np.array(known.thickness),
        "error": np.array([float(getattr(known.error, f.name)) for f in fields(ErrorModel)]),
        "support": np.array(
            [(s.alone, s.mixed, s.mixes, s.grounds, s.estimated) for s in known.support],
            dtype=np.float64,
        ),
        "partners": np.array(
            [[float(other in s.partners) for other in known.paints] for s in known.support]
        ),
        "fitted": known.fitted,
        "left_out": known.left_out,
        "ln_extra": known.ln_extra,
    }


def from_arrays(arrays: Mapping[str, Any], illuminant: str = "D50") -> Characterisation:
    """The characterisation that `to_arrays` gave.

    Args:
        arrays: by name.
        illuminant: the light it was computed for.
    """
    read = {name: np.asarray(value, dtype=np.float64) for name, value in arrays.items()}
    paints = tuple(int(paint) for paint in read["paints"])
    share, floor, scale, swatches = read["error"].tolist()
    support = []
    for paint, row, with_it in zip(paints, read["support"], read["partners"], strict=True):
        alone, mixed, mixes, grounds, estimated = (int(number) for number in row)
        partners = tuple(p for p, seen in zip(paints, with_it, strict=True) if seen)
        support.append(Support(paint, alone, mixed, mixes, partners, grounds, estimated))
    return Characterisation(
        paints,
        Parameters(read["ln_K"], read["ln_S_part"], read["law"]),
        Tristimulus(
            read["wavelengths"],
            read["weights"],
            read["white"],
            illuminant,
            int(read["observer"]),
        ),
        read["covariance"],
        float(read["thickness"]),
        ErrorModel(share, floor, scale, int(swatches)),
        tuple(support),
        read["fitted"],
        read["left_out"],
        read["ln_extra"],
    )
