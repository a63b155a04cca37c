"""Soft glare on a swatch: lightness that rises smoothly over it, alike in every channel.

Glare adds the same to each channel. A thinner wash lets the paper through where the pigment absorbs
and leaves alone the channel that it reflects; weaker light takes the same share of each. So the two
are told apart on a colour whose channels differ; on a grey nobody can from one place.
"""

from dataclasses import dataclass
from typing import Final, Protocol

import numpy as np

from studio.colour.lab_arrays import Floats
from studio.picture.falloff import Falloff, direction
from studio.picture.sampling import Sample
from studio.picture.spots import Spot

_SMOOTH: Final = 0.8
"""Share of the variance between blocks that a smooth surface explains; of mere mottling a third."""

_VEIL: Final = 1.2
"""L* across an area from which a rise that is alike in all channels is told."""

_ANY: Final = 2.5
"""L* across an area from which any smooth rise is told."""

_ALIKE: Final = (0.6, 1.6)
"""What the strongest channel rises by beside the weakest, where glare is likely."""

_COLOURED: Final = 1.6
"""The strongest channel beside the weakest, from which one can tell."""


class Basis(Protocol):
    """What device values become Lab by."""

    @property
    def falloff(self) -> Falloff:
        """How the light falls off."""
        ...

    def lab(self, linear: Floats, place: Floats) -> Floats:
        """(3,) Lab under D50/2° of linear RGB (3,) at a place (2,), pixels."""
        ...


@dataclass(frozen=True, slots=True)
class Rise:
    """A smooth rise of lightness over an area.

    Args:
        lightness: L* from its darkest to its lightest part.
        towards: where it is lightest, in words.
        is_veil: it is alike in all channels, as glare is.
    """

    lightness: float
    towards: str
    is_veil: bool


def rise_over(spot: Spot, sample: Sample, basis: Basis) -> Rise | None:
    """The rise of lightness over an area, None where it is even or merely mottled."""
    down = min(4, spot.height)
    across = len(sample.blocks) // down
    rows, columns = np.divmod(np.arange(len(sample.blocks)), across)
    x, y = (columns + 0.5) / across - 0.5, (rows + 0.5) / down - 0.5
    places = np.array(spot.middle) + np.column_stack([x * spot.width, y * spot.height])
    lightness = np.array(
        [basis.lab(block, place)[0] for block, place in zip(sample.blocks, places, strict=True)]
    )
    surface = np.column_stack([np.ones_like(x), x, y, x * x, x * y, y * y])
    smooth = surface @ np.linalg.lstsq(surface, lightness, rcond=None)[0]
    risen = float(np.ptp(smooth))
    explained = 1.0 - float(
        ((lightness - smooth) ** 2).sum() / max(np.var(lightness) * len(x), 1e-9)
    )
    if explained < _SMOOTH or risen < _VEIL:
        return None
    even = sample.blocks / basis.falloff.light(places)[:, None]
    order = np.argsort(smooth)
    quarter = len(order) // 4
    low, high = even[order[:quarter]].mean(axis=0), even[order[-quarter:]].mean(axis=0)
    weakest, strongest = int(low.argmin()), int(low.argmax())
    added = high - low
    coloured = low[strongest] > _COLOURED * max(low[weakest], 1e-6)
    alike = _ALIKE[0] < added[strongest] / max(added[weakest], 1e-9) < _ALIKE[1]
    is_veil = bool(coloured and alike)
    if not is_veil and risen < _ANY:
        return None
    top = int(smooth.argmax())
    inner = max(abs(x[top]), abs(y[top])) < 0.25  # noqa: PLR2004 - the inner quarter
    towards = "its middle" if inner else direction(np.array([x[top], y[top]]))
    return Rise(risen, towards, is_veil)
