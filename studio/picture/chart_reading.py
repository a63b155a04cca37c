"""Read a chart in a picture: its patches, which of them can be trusted, and the correction."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from studio.colour.correction import Fit, cleanest, fit_correction
from studio.colour.lab_arrays import Floats, delta_e, lab_to_xyz
from studio.errors import BadInput
from studio.picture.chart import LEAST_PATCHES, Chart
from studio.picture.decoding import Picture
from studio.picture.falloff import Falloff, falloff_of_chart
from studio.picture.homography import Homography
from studio.picture.sampling import PATCH_SHARE, Sample, patch_sample
from studio.picture.way_up import STRANGE, way_up

LEAST_SIDE: Final = 10
"""Pixels that a patch must have across and down, so that its middle half has 5."""

_FULL: Final = 0.02
_EMPTY: Final = 0.25
_UNEVEN: Final = 6.0
"""L* within the middle of a patch; more is glare, a shadow, or an edge."""

_BRIGHT: Final = 0.1
"""Y from which a patch tells how bright a white would be."""

_LOST: Final = 0.5
"""Share of the patches that may be left out; the fewer are left, the larger the error is."""

_UNSHARP: Final = 0.25
"""Share of them that may be uneven: with more the picture is blurred, or the corners are wrong."""

_COVERED: Final = 10.0
_FAR: Final = 4.0
"""ΔE00, and how many times the median of the cleaner half, by which a covered patch misses."""

_STRANGER: Final = 5.0
"""ΔE00 by which it misses after the correction of the others, too."""

_BETTER: Final = 0.6
"""What the error must fall to without the patches that seem covered, or they count after all."""

_DARK: Final = 0.5
"""Falloff over the chart that no correction makes good."""


@dataclass(frozen=True, slots=True, eq=False)
class Patch:
    """A patch as it was read.

    Args:
        name: its name.
        corners: (4, 2) pixels, of the part that was read.
        sample: its pixels in brief.
        refusal: why it takes no part, None where it does.
    """

    name: str
    corners: Floats
    sample: Sample
    refusal: str | None


@dataclass(frozen=True, slots=True, eq=False)
class ChartReading:
    """A chart as it was read.

    Args:
        chart: in the arrangement that was found.
        corners: (4, 2) pixels, clockwise from the chart's top left.
        patches: each of the chart.
        falloff: of the light over it.
        fit: the correction with its error.
        turned: it lay otherwise than its corners were given.
    """

    chart: Chart
    corners: Floats
    patches: tuple[Patch, ...]
    falloff: Falloff
    fit: Fit
    turned: bool

    @property
    def refused(self) -> tuple[Patch, ...]:
        """The patches that took no part."""
        return tuple(patch for patch in self.patches if patch.refusal is not None)

    def lab(self, linear: Floats, place: Floats) -> Floats:
        """(3,) Lab under D50/2° of linear RGB (3,) that was read at a place (2,), pixels."""
        even = linear[None] / self.falloff.light(place[None])[:, None]
        lab: Floats = self.fit.correction.lab(even)[0]
        return lab


def read_chart(
    picture: Picture,
    chart: Chart,
    corners: Floats,
    papers: Sequence[tuple[Floats, float]] = (),
) -> ChartReading:
    """Read a chart whose corners are known.

    Whichever corner is given first, the chart is read the way up that fits its colours.

    Args:
        picture: where it lies.
        chart: its patches.
        corners: (4, 2) pixels around it: the outer corners of its corner patches.
        papers: middle (2,) in pixels and luminance of places on one sheet of paper.

    Raises:
        BadInput: the corners are none, patches are too small, too many are clipped, glaring or
            uneven, the colours are not those of this chart, or the light falls off too far.
    """
    found = way_up(picture, chart, corners, covered=True)
    if found.misfit > STRANGE:
        msg = (
            f"the colours at these corners are not those of {chart.name}: whichever way up, half "
            f"of them miss it by ΔE00 {found.misfit:.0f} or more; give the outer corners of its "
            "four corner patches: --corners"
        )
        raise BadInput(msg)
    arranged, onto = found.chart, found.onto
    patches = _without_covered(_patches(picture, arranged, onto), arranged)
    _refuse_lost(patches)
    good = np.array([patch.refusal is None for patch in patches])
    linear = np.array([patch.sample.linear for patch in patches])[good]
    lab = arranged.lab[good]
    places = onto(arranged.centres)[good]
    falloff = falloff_of_chart(places, linear, lab, papers)
    light = falloff.light(places)
    share = float(1.0 - light.min() / light.max())
    if share > _DARK:
        msg = (
            f"the light falls by {100 * share:.0f} % towards {falloff.towards}; light "
            "chart and swatches evenly, from both sides, and take the picture again"
        )
        raise BadInput(msg)
    fit = fit_correction(linear / light[:, None], lab)
    return ChartReading(arranged, found.corners, patches, falloff, fit, found.turned)


def _patches(picture: Picture, chart: Chart, onto: Homography) -> tuple[Patch, ...]:
    size = np.array([1 / chart.columns, 1 / chart.rows])
    square = np.array([[-1.0, -1], [1, -1], [1, 1], [-1, 1]]) / 2
    read = []
    for name, centre in zip(chart.patches, chart.centres, strict=True):
        whole = onto(centre + size * square)
        sides = np.linalg.norm(np.roll(whole, -1, axis=0) - whole, axis=1)
        if sides.min() < LEAST_SIDE:
            msg = (
                f"the chart's patches are only {sides.min():.0f} pixels wide, and {LEAST_SIDE} are "
                "needed; go nearer, or scan at a higher resolution"
            )
            raise BadInput(msg)
        read.append((name, onto(centre + size * square * PATCH_SHARE), centre))
    samples = [patch_sample(picture, onto, centre, tuple(size)) for _, _, centre in read]
    white = _white(samples, chart.lab)
    return tuple(
        Patch(name, corners, sample, _refusal(picture, sample, corners, white))
        for (name, corners, _), sample in zip(read, samples, strict=True)
    )


def _without_covered(patches: tuple[Patch, ...], chart: Chart) -> tuple[Patch, ...]:
    """The patches, those refused that are not the colour they should be beside the others."""
    lab = chart.lab
    good = np.flatnonzero([patch.refusal is None for patch in patches])
    if len(good) < LEAST_PATCHES:
        return patches
    linear = np.array([patches[i].sample.linear for i in good])
    errors, clean = cleanest(linear, lab[good])
    off = errors > max(_COVERED, _FAR * clean)
    if not off.any() or (~off).sum() < LEAST_PATCHES:
        return patches
    without = fit_correction(linear[~off], lab[good][~off])
    if without.mean > _BETTER * fit_correction(linear, lab[good]).mean:
        return patches
    # A matrix alone may miss a patch that the correction reads well.
    off &= delta_e(without.correction.lab(linear), lab[good]) > _STRANGER
    covered = dict(zip(good[off].tolist(), errors[off].tolist(), strict=True))
    return tuple(
        replace(
            patch,
            refusal=f"it is not its own colour, by ΔE00 {covered[index]:.0f}: covered or soiled",
        )
        if index in covered
        else patch
        for index, patch in enumerate(patches)
    )


def _white(samples: Sequence[Sample], lab: Floats) -> float:
    """The luminance that a perfect white would read, from most of the patches that are not dark."""
    y = lab_to_xyz(lab)[:, 1]
    bright = np.flatnonzero(y >= min(_BRIGHT, float(np.median(y))))
    return float(np.median([samples[i].luminance / y[i] for i in bright.tolist()]))


def _refusal(picture: Picture, sample: Sample, corners: Floats, white: float) -> str | None:
    low, high = corners.min(axis=0), corners.max(axis=0)
    if low.min() < 0 or high[0] > picture.width or high[1] > picture.height:
        return "it lies outside the picture"
    if sample.full > _FULL:
        return f"it is overexposed: {100 * sample.full:.0f} % of its pixels are at full scale"
    if sample.empty > _EMPTY:
        zero = f"{100 * sample.empty:.0f} % of its pixels at 0"
        return f"it lies outside the picture's colour space: {zero}"
    uneven = sample.lightness_range(white)
    if uneven > _UNEVEN:
        return f"it is uneven, by L* {uneven:.0f}: glare, a shadow or an edge"
    return None


def _refuse_lost(patches: tuple[Patch, ...]) -> None:
    lost = [patch for patch in patches if patch.refusal is not None]
    uneven = sum("uneven" in (patch.refusal or "") for patch in lost)
    enough = len(lost) <= _LOST * len(patches) and len(patches) - len(lost) >= LEAST_PATCHES
    if enough and uneven <= _UNSHARP * len(patches):
        return
    named = "; ".join(f"{patch.name}: {patch.refusal}" for patch in lost[:3])
    more = f"; and {len(lost) - 3} more" if len(lost) > 3 else ""  # noqa: PLR2004 - enough to see
    advice = (
        "check the corners, that the picture is sharp, and that no lamp is mirrored in the chart"
        if 2 * uneven > len(lost)
        else "take the picture again, darker and without glare"
    )
    msg = f"{len(lost)} of {len(patches)} patches cannot be read ({named}{more}); {advice}"
    raise BadInput(msg)
