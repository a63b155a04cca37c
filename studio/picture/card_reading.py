"""Read a picture by one known grey or white alone: a weaker way than by a chart."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from studio.colour.difference import Triple
from studio.colour.lab_arrays import Floats, lab_to_xyz, xyz_to_lab
from studio.errors import BadInput
from studio.picture.decoding import Picture
from studio.picture.falloff import PAPERS, Falloff, even_light, falloff_of_paper
from studio.picture.sampling import area_sample
from studio.picture.spots import Spot

ERROR: Final = 8.0
"""ΔE00 to expect; an estimate, no source: 24 chart patches and 8 films of paint, rendered for two
cameras under six lights with and without a tone curve and balanced by one grey, were off by 7.6 on
average, and by 14 with the worst camera and light."""

_FULL: Final = 0.02


@dataclass(frozen=True, slots=True, eq=False)
class CardReading:
    """A grey card or bare paper as it was read.

    Args:
        spots: where.
        gains: (3,) that bring its linear RGB to what it should be.
        to_xyz: (3, 3) from linear RGB to XYZ under D50/2°.
        falloff: of the light, where paper was shown at three places or more.
    """

    spots: tuple[Spot, ...]
    gains: Floats
    to_xyz: Floats
    falloff: Falloff

    def lab(self, linear: Floats, place: Floats) -> Floats:
        """(3,) Lab under D50/2° of linear RGB (3,) that was read at a place (2,), pixels."""
        even = linear / self.falloff.light(place[None])[0]
        return xyz_to_lab(self.to_xyz @ (even * self.gains))


def read_card(picture: Picture, spots: Sequence[Spot], lab: Triple) -> CardReading:
    """Each channel scaled so that the card reads what it is known to be.

    Args:
        picture: where it lies.
        spots: places on it, one or more.
        lab: its colour under D50/2°.

    Raises:
        BadInput: it is overexposed or black.
    """
    samples = [area_sample(picture, spot) for spot in spots]
    for spot, sample in zip(spots, samples, strict=True):
        if sample.full > _FULL:
            msg = (
                f"the picture is overexposed at {spot.place}: {100 * sample.full:.0f} % of the "
                "pixels are at full scale; take it again, darker"
            )
            raise BadInput(msg)
        if sample.linear.min() <= 0.0:
            msg = f"the picture is black at {spot.place}; point at the grey card or the bare paper"
            raise BadInput(msg)
    places = np.array([spot.middle for spot in spots])
    seen = [(place, one.luminance) for place, one in zip(places, samples, strict=True)]
    falloff = falloff_of_paper(seen) if len(seen) >= PAPERS else even_light(places)
    linear = np.array([sample.linear for sample in samples]) / falloff.light(places)[:, None]
    wanted = np.linalg.solve(picture.encoding.to_xyz, lab_to_xyz(np.array(lab)))
    return CardReading(tuple(spots), wanted / linear.mean(axis=0), picture.encoding.to_xyz, falloff)
