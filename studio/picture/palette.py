"""The main colours of a picture, how much of it each covers, and where each lies."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from studio.colour.difference import Triple
from studio.errors import BadInput
from studio.picture.spots import colour_of_spot

if TYPE_CHECKING:
    import numpy as np
    from numpy.random import Generator
    from numpy.typing import NDArray

MOST_COLOURS: Final = 40

_TRIES: Final = 4
_MORE_TRIES: Final = 20
_STEPS: Final = 60


@dataclass(frozen=True, slots=True)
class MainColour:
    """One of the colours that a picture comes down to.

    Args:
        lab: (L*, a*, b*), the geometric median of its pixels.
        spread: mean ΔE00 of its pixels from it.
        share: of the picture, 0 to 1; those of all main colours add up to 1.
        x: of the place farthest inside its largest connected part, in shares of the width.
        y: the same, in shares of the height.
    """

    lab: Triple
    spread: float
    share: float
    x: float
    y: float


def main_colours(labs: "NDArray[np.float64]", count: int, seed: int = 0) -> tuple[MainColour, ...]:
    """The main colours of a picture, the one that covers most first; the same for the same seed.

    Clusters of k-means in CIE L*a*b*, the best of a few starts chosen by k-means++ (Arthur,
    Vassilvitskii 2007, "k-means++: the advantages of careful seeding"), by scipy.

    Args:
        labs: L*, a*, b* of the picture or of a lattice of its pixels, shape (height, width, 3).
        count: how many colours.
        seed: of the random starts.

    Raises:
        BadInput: there are not so many different colours, or the count is out of range.
    """
    import numpy as np  # noqa: PLC0415

    if not 1 <= count <= MOST_COLOURS:
        msg = f"ask for 1 to {MOST_COLOURS} colours, not {count}"
        raise BadInput(msg)
    pixels = labs.reshape(-1, 3)
    different = len(np.unique(pixels, axis=0))
    if different < count:
        msg = (
            f"the picture does not hold {count} different colours; ask for at most {different} "
            f"with -n"
        )
        raise BadInput(msg)
    labels = _clusters(pixels, count, np.random.default_rng(seed)).reshape(labs.shape[:2])
    colours = [_main_colour(labs, labels == label) for label in range(count)]
    return tuple(sorted(colours, key=lambda colour: (-colour.share, colour.lab)))


def _clusters(
    pixels: "NDArray[np.float64]", count: int, random: "Generator"
) -> "NDArray[np.int64]":
    """The number of the cluster of each pixel; no cluster is empty."""
    import numpy as np  # noqa: PLC0415
    from scipy.cluster.vq import ClusterError, kmeans2  # noqa: PLC0415

    best: tuple[float, NDArray[np.int64]] | None = None
    for attempt in range(_MORE_TRIES):
        if attempt >= _TRIES and best is not None:
            break
        try:
            centres, labels = kmeans2(
                pixels, count, iter=_STEPS, minit="++", missing="raise", rng=random
            )
        except ClusterError:
            continue  # a cluster lost its last pixel on the way; another start does not
        if len(np.unique(labels)) < count:
            continue
        size = float(((pixels - centres[labels]) ** 2).sum())
        if best is None or size < best[0]:
            best = size, labels
    if best is None:
        msg = f"the picture cannot be parted into {count} colours; ask for fewer with -n"
        raise BadInput(msg)
    return best[1]


def _main_colour(labs: "NDArray[np.float64]", mask: "NDArray[np.bool_]") -> MainColour:
    """What is told of the pixels of a cluster."""
    import numpy as np  # noqa: PLC0415
    from scipy import ndimage  # noqa: PLC0415

    parts, _ = ndimage.label(mask)
    largest = parts == 1 + int(np.argmax(np.bincount(parts.ravel())[1:]))
    depth = ndimage.distance_transform_edt(np.pad(largest, 1))[1:-1, 1:-1]
    row, column = np.unravel_index(int(np.argmax(depth)), depth.shape)
    colour = colour_of_spot(labs[mask])
    return MainColour(
        colour.lab,
        colour.spread,
        float(mask.mean()),
        (float(column) + 0.5) / mask.shape[1],
        (float(row) + 0.5) / mask.shape[0],
    )
