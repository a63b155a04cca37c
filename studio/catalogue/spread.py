"""How far apart several dry readings of a swatch lie, and which of them stand out."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean, median
from typing import Final

from studio.catalogue.reading import Reading, State
from studio.colour.difference import Triple, ciede2000

_FEWEST_TO_JUDGE: Final = 3
"""Of two readings neither can be told to be the odd one."""

_MODIFIED_Z: Final = 3.5
_NORMAL_MAD: Final = 0.6745
"""Iglewicz and Hoaglin's limit and constant: the MAD of a normal distribution is 0.6745 σ."""

_SEEN: Final = 1.0
"""ΔE00; closer to the middle than can just be seen (common practice), nothing stands out."""


@dataclass(frozen=True, slots=True)
class Outlier:
    """A reading that stands out.

    Args:
        index: its place among all readings of the swatch, from 0.
        delta_e: ΔE00 from the median L*, a*, b* of the dry readings.
    """

    index: int
    delta_e: float


@dataclass(frozen=True, slots=True)
class Spread:
    """The spread of the dry readings of a swatch.

    Args:
        mcdm: mean colour difference from the mean, ΔE00.
        count: how many dry readings there are, 2 at least.
        outliers: those that stand out; they count in the mean like the others.
    """

    mcdm: float
    count: int
    outliers: tuple[Outlier, ...]


def spread_of(readings: Sequence[Reading]) -> Spread | None:
    """The spread of the dry ones among some readings; None for fewer than two.

    The MCDM (mean colour difference from the mean) is that of ASTM E2214, in ΔE00. A reading stands
    out by the modified z-score of B. Iglewicz and D. C. Hoaglin, "How to Detect and Handle
    Outliers", ASQC (1993): 0.6745 (d - median d) / MAD above 3.5, for d its ΔE00 from the median of
    each axis, and d at least 1.
    """
    dry = {
        index: reading.lab.coordinates
        for index, reading in enumerate(readings)
        if reading.state is State.DRY
    }
    if len(dry) < 2:  # noqa: PLR2004 - one reading has no spread
        return None
    axes = tuple(zip(*dry.values(), strict=True))
    mean: Triple = (fmean(axes[0]), fmean(axes[1]), fmean(axes[2]))
    mcdm = fmean(ciede2000(mean, lab) for lab in dry.values())
    return Spread(mcdm, len(dry), _outliers(dry) if len(dry) >= _FEWEST_TO_JUDGE else ())


def _outliers(labs: dict[int, Triple]) -> tuple[Outlier, ...]:
    axes = tuple(zip(*labs.values(), strict=True))
    middle: Triple = (median(axes[0]), median(axes[1]), median(axes[2]))
    apart = {index: ciede2000(middle, lab) for index, lab in labs.items()}
    usual = median(apart.values())
    deviation = median(abs(each - usual) for each in apart.values())
    return tuple(
        Outlier(index, each)
        for index, each in apart.items()
        if each >= _SEEN and _NORMAL_MAD * (each - usual) > _MODIFIED_Z * deviation
    )
