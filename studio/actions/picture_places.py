"""Places in a picture as a painter types them: a chart's corners and named swatch areas."""

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from studio.errors import BadInput
from studio.picture.decoding import Picture
from studio.picture.spots import Spot, spot_of_area

if TYPE_CHECKING:
    from studio.colour.lab_arrays import Floats

_COORDINATE: Final = re.compile(r"(-?\d+(?:\.\d+)?)(%|px)?", re.IGNORECASE)


def corners_of(text: str, picture: Picture) -> "Floats":
    """(4, 2) pixels of four corners: `120,80 1480,95 1470,990 110,975`, in pixels or percent.

    Raises:
        BadInput: they are not four points, or one lies outside the picture.
    """
    import numpy as np  # noqa: PLC0415

    parts = [_COORDINATE.fullmatch(part) for part in re.split(r"[\s,;]+", text.strip())]
    found = [part for part in parts if part is not None]
    if len(found) != 8 or len(parts) != 8:  # noqa: PLR2004 - four points of two
        msg = (
            f"the corners {text!r} are not clear; write four points, clockwise from the chart's "
            "top left, such as 120,80 1480,95 1470,990 110,975 or 8%,9% 92%,10% 91%,88% 7%,87%"
        )
        raise BadInput(msg)
    sides = (picture.width, picture.height) * 4
    points = np.array(
        [
            float(part[1]) * side / 100 if part[2] == "%" else float(part[1])
            for part, side in zip(found, sides, strict=True)
        ]
    ).reshape(4, 2)
    if (points < 0).any() or (points > (picture.width, picture.height)).any():
        msg = (
            f"a corner lies outside the picture, which is {picture.width} x {picture.height} "
            "pixels; give the corners inside it"
        )
        raise BadInput(msg)
    return points


def areas_of(
    texts: Sequence[str], code: str | None, picture: Picture
) -> tuple[tuple[str, Spot], ...]:
    """Named swatch areas: `S12=60,500,70,80`, or with one swatch named before `60,500,70,80`.

    Args:
        texts: one or more areas: left, top, width, height in pixels or percent.
        code: the swatch that areas without a name belong to.
        picture: where they lie.

    Raises:
        BadInput: there is none, one has no name or two, or it lies outside the picture.
    """
    if not texts:
        msg = (
            "no swatch area is given; give each one as --area S12=60,500,70,80 (pixels or percent)"
        )
        raise BadInput(msg)
    areas = []
    for text in texts:
        name, equals, place = text.rpartition("=")
        if equals and code is not None:
            msg = f"area {text!r} already belongs to {code}; leave out one of the two names"
            raise BadInput(msg)
        if code is None and not name.strip():
            msg = f"area {text!r} has no swatch; write it like S12={place}"
            raise BadInput(msg)
        areas.append(
            (name.strip() or code or "", spot_of_area(place, picture.width, picture.height))
        )
    return tuple(areas)
