"""Colour differences: CIEDE2000, CIE76 and CMC(l:c), in plain math on (L*, a*, b*) triples."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from studio.colour.box import Box, cie76_box, ciede2000_box, cmc_box
from studio.colour.least import cie76_least, ciede2000_least, cmc_least

Triple = tuple[float, float, float]

_25_POW_7: Final = 25.0**7


def ciede2000(lab1: Triple, lab2: Triple) -> float:
    """ΔE00 between two colours under the same white, with k_L = k_C = k_H = 1.

    Source: Sharma, Wu, Dalal (2005), "The CIEDE2000 color-difference formula: implementation
    notes", Color Research and Application 30(1), equations 2 to 22; CIE 142-2001. Symmetric.
    """
    l1, a1, b1 = lab1
    l2, a2, b2 = lab2
    c_bar = (math.hypot(a1, b1) + math.hypot(a2, b2)) / 2  # (2), (3)
    c_bar_7 = c_bar**7
    g_1 = 1.5 - 0.5 * math.sqrt(c_bar_7 / (c_bar_7 + _25_POW_7))  # 1 + G of (4)
    a1p, a2p = g_1 * a1, g_1 * a2  # (5)
    c1p, c2p = math.hypot(a1p, b1), math.hypot(a2p, b2)  # (6)
    h1p = math.degrees(math.atan2(b1, a1p)) % 360.0  # (7)
    h2p = math.degrees(math.atan2(b2, a2p)) % 360.0
    neutral = c1p * c2p == 0.0

    dhp = 0.0 if neutral else h2p - h1p  # (10)
    if dhp > 180.0:  # noqa: PLR2004 - half a turn
        dhp -= 360.0
    elif dhp < -180.0:  # noqa: PLR2004
        dhp += 360.0
    d_h = 2.0 * math.sqrt(c1p * c2p) * math.sin(math.radians(dhp) / 2)  # (11)

    l_bar, cp_bar = (l1 + l2) / 2, (c1p + c2p) / 2  # (12), (13)
    h_sum = h1p + h2p
    if neutral:
        h_bar = h_sum  # (14)
    elif abs(h1p - h2p) <= 180.0:  # noqa: PLR2004
        h_bar = h_sum / 2
    else:
        h_bar = (h_sum + 360.0) / 2 if h_sum < 360.0 else (h_sum - 360.0) / 2  # noqa: PLR2004

    t = (
        1.0
        - 0.17 * math.cos(math.radians(h_bar - 30.0))
        + 0.24 * math.cos(math.radians(2.0 * h_bar))
        + 0.32 * math.cos(math.radians(3.0 * h_bar + 6.0))
        - 0.20 * math.cos(math.radians(4.0 * h_bar - 63.0))
    )  # (15)
    d_theta = 30.0 * math.exp(-(((h_bar - 275.0) / 25.0) ** 2))  # (16)
    cp_bar_7 = cp_bar**7
    r_c = 2.0 * math.sqrt(cp_bar_7 / (cp_bar_7 + _25_POW_7))  # (17)
    l_50 = (l_bar - 50.0) ** 2
    s_l = 1.0 + 0.015 * l_50 / math.sqrt(20.0 + l_50)  # (18)
    s_c = 1.0 + 0.045 * cp_bar  # (19)
    s_h = 1.0 + 0.015 * cp_bar * t  # (20)
    r_t = -math.sin(math.radians(2.0 * d_theta)) * r_c  # (21)
    x, y, z = (l2 - l1) / s_l, (c2p - c1p) / s_c, d_h / s_h
    return math.sqrt(max(0.0, x * x + y * y + z * z + r_t * y * z))  # (22)


def cie76(lab1: Triple, lab2: Triple) -> float:
    """ΔE*ab, the straight distance in L*a*b* (CIE 15, ISO/CIE 11664-4). Symmetric."""
    return math.dist(lab1, lab2)


def cmc(reference: Triple, sample: Triple, lightness: float = 2.0, chroma: float = 1.0) -> float:
    """ΔE CMC(l:c) of a sample from a reference; not symmetric, the reference sets the weights.

    Source: Clarke, McDonald, Rigg (1984), "Modification to the JPC79 colour-difference formula",
    Journal of the Society of Dyers and Colourists 100; ISO 105-J03.

    Args:
        reference: (L*, a*, b*) of the standard.
        sample: (L*, a*, b*) of the batch.
        lightness: l, 2 for acceptability and 1 for perceptibility.
        chroma: c, 1.
    """
    l1, a1, b1 = reference
    l2, a2, b2 = sample
    s_l, s_c, s_h = cmc_weights(reference, lightness, chroma)
    d_c = math.hypot(a1, b1) - math.hypot(a2, b2)
    d_h2 = max(0.0, (a1 - a2) ** 2 + (b1 - b2) ** 2 - d_c * d_c)
    x, y = (l1 - l2) / s_l, d_c / s_c
    return math.sqrt(x * x + y * y + d_h2 / (s_h * s_h))


def cmc_weights(reference: Triple, lightness: float = 2.0, chroma: float = 1.0) -> Triple:
    """L S_L, c S_C and S_H of CMC(l:c), set by the reference alone; see `cmc`."""
    l1, a1, b1 = reference
    c1 = math.hypot(a1, b1)
    h1 = math.degrees(math.atan2(b1, a1)) % 360.0
    if 164.0 <= h1 <= 345.0:  # noqa: PLR2004 - hue limits of the formula
        t = 0.56 + abs(0.2 * math.cos(math.radians(h1 + 168.0)))
    else:
        t = 0.36 + abs(0.4 * math.cos(math.radians(h1 + 35.0)))
    f = math.sqrt(c1**4 / (c1**4 + 1900.0))
    s_l = 0.511 if l1 < 16.0 else 0.040975 * l1 / (1.0 + 0.01765 * l1)  # noqa: PLR2004
    s_c = 0.0638 * c1 / (1.0 + 0.0131 * c1) + 0.638
    return lightness * s_l, chroma * s_c, s_c * (f * t + 1.0 - f)


@dataclass(frozen=True, slots=True)
class Metric:
    """A colour difference as the search uses it.

    Args:
        name: how results are labelled, such as `CIEDE2000`.
        symbol: short label for a table, such as `ΔE00`.
        between: (reference, sample) -> difference.
        box: (reference, τ) -> a box that holds every colour within τ of the reference.
        least: (reference, box) -> a difference that no colour of the box stays under.
    """

    name: str
    symbol: str
    between: Callable[[Triple, Triple], float]
    box: Callable[[Triple, float], Box]
    least: Callable[[Triple, Box], float]


def cmc_metric(lightness: float = 2.0, chroma: float = 1.0) -> Metric:
    """CMC(l:c) as a metric.

    Raises:
        ValueError: l or c is not a finite number above zero.
    """
    if not all(math.isfinite(v) and v > 0 for v in (lightness, chroma)):
        msg = "CMC needs l and c above zero, such as 2:1"
        raise ValueError(msg)
    return Metric(
        f"CMC({lightness:g}:{chroma:g})",
        f"ΔE CMC({lightness:g}:{chroma:g})",
        lambda ref, smp: cmc(ref, smp, lightness, chroma),
        lambda ref, tau: cmc_box(ref, tau, cmc_weights(ref, lightness, chroma)),
        lambda ref, box: cmc_least(ref, box, cmc_weights(ref, lightness, chroma)),
    )


CIEDE2000: Final = Metric("CIEDE2000", "ΔE00", ciede2000, ciede2000_box, ciede2000_least)
CIE76: Final = Metric("CIE76", "ΔE*ab", cie76, cie76_box, cie76_least)


def metric(name: str) -> Metric:
    """The metric that a name stands for: `ciede2000`, `cie76`, `cmc` or `cmc(l:c)`, in any case.

    Raises:
        ValueError: no metric has that name.
    """
    key = name.strip().lower().replace(" ", "")
    if key in {"ciede2000", "de2000", "de00"}:
        return CIEDE2000
    if key in {"cie76", "de76", "deab"}:
        return CIE76
    if key == "cmc":
        return cmc_metric()
    if key.startswith("cmc"):
        weights = key[3:].strip("()").split(":")
        try:
            lightness, chroma = map(float, weights)
        except ValueError:
            msg = f"{name!r} is not a CMC difference; write cmc, cmc(2:1) or cmc(1:1)"
            raise ValueError(msg) from None
        return cmc_metric(lightness, chroma)
    msg = f"{name!r} is not a colour difference; write ciede2000, cie76, cmc or cmc(1:1)"
    raise ValueError(msg)


@dataclass(frozen=True, slots=True)
class Components:
    """ΔL*, ΔC*ab and ΔH*ab of a sample from a reference, sample minus reference (CIE 15).

    A positive hue difference is anticlockwise: red towards yellow, green, blue and red again.
    """

    lightness: float
    chroma: float
    hue: float


def components(reference: Triple, sample: Triple) -> Components:
    """What separates two colours, as CIE 1976 lightness, chroma and hue differences.

    ΔH*ab² = ΔE*ab² - ΔL*² - ΔC*ab²; its sign is that of a1·b2 - a2·b1 (Sève 1991, "New formula
    for the computation of CIE 1976 hue difference", Color Research and Application 16).
    """
    l1, a1, b1 = reference
    l2, a2, b2 = sample
    c1, c2 = math.hypot(a1, b1), math.hypot(a2, b2)
    size = math.sqrt(max(0.0, 2.0 * (c1 * c2 - a1 * a2 - b1 * b2)))
    return Components(l2 - l1, c2 - c1, math.copysign(size, a1 * b2 - a2 * b1) if size else 0.0)
