"""Boxes in L*, a*, b* that provably hold every colour within a difference of a reference.

A `Box` is the smallest and largest L*, a* and b*. `ciede2000_box`, `cie76_box` and `cmc_box` take
(reference, τ) and give one outside of which no colour differs from the reference by τ or less, so
that a search may leave everything else in the database. Letters are those of Sharma, Wu, Dalal
(2005), equations 2 to 22, and of BOX.md beside this file, where the proof stands in full; here
the reference is colour 1 and g is 1 + G.
"""

import math
from typing import TYPE_CHECKING, Final, NamedTuple

if TYPE_CHECKING:
    from studio.colour.difference import Triple

_25_POW_7: Final = 25.0**7
T_MOST: Final = 1.573
"""T of equation (15) never exceeds 1.5725."""
T_SLOPE: Final = 2.42
"""|dT/dh̄| <= 0.17 + 2·0.24 + 3·0.32 + 4·0.20 = 2.41 for a radian, whatever the hue."""
BLUE: Final = math.radians(275.0)
"""The hue about which R_T of equations (16) and (21) turns chroma into hue."""
_WIDTH: Final = math.radians(25.0)
_SLACK: Final = 1e-9
"""What the rounding of some dozen operations on numbers of this size never reaches."""
_ROUNDS: Final = 6
"""Each round narrows what the next starts from; further ones gain less than one in a hundred."""


Interval = tuple[float, float]


class Box(NamedTuple):
    """All colours between two values of L*, of a* and of b*, the ends included."""

    lightness_low: float
    lightness_high: float
    a_low: float
    a_high: float
    b_low: float
    b_high: float


def g_of(chroma: float) -> float:
    """1 + G of equation (4), for a mean C*ab; falls from 1.5 to 1."""
    if chroma > 1e4:  # noqa: PLR2004 - by then it is 1 to the last digit, and c**7 must not overflow
        return 1.0
    seventh = chroma**7
    return 1.5 - 0.5 * math.sqrt(seventh / (seventh + _25_POW_7))


def most_t(hue: float, half: float) -> float:
    """A T that (15) stays under for every mean hue within `half` of one, both in radians."""
    if half >= 0.5:  # noqa: PLR2004 - wider, the slope says nothing
        return T_MOST
    at = (
        1.0
        - 0.17 * math.cos(hue - math.radians(30.0))
        + 0.24 * math.cos(2.0 * hue)
        + 0.32 * math.cos(3.0 * hue + math.radians(6.0))
        - 0.20 * math.cos(4.0 * hue - math.radians(63.0))
    )
    return min(T_MOST, at + T_SLOPE * half)


def most_turning(chroma: float, hue: float, half: float) -> float:
    """A ρ >= |R_T| for every mean C' up to one and every mean hue within `half` of one (radians).

    Equations (16), (17) and (21); the distance of the hue from 275° is taken round the circle,
    which is never longer than |h̄' - 275°|.
    """
    r_c = 2.0 * (3.0 - 2.0 * g_of(chroma))  # (17), as the root in it is that of (4)
    gap = max(0.0, abs(math.remainder(hue - BLUE, math.tau)) - half) / _WIDTH
    return r_c * math.sin(math.radians(60.0) * math.exp(-gap * gap))


def ciede2000_box(reference: "Triple", tau: float) -> Box:
    """A box that holds every colour within ΔE00 `tau` of a reference; the steps are BOX.md's."""
    l1, a1, b1 = reference
    spare = 1.0 - 0.0075 * tau
    dl = tau * (1.0 + 0.015 * abs(l1 - 50.0)) / spare if spare > 0.0 else math.inf  # step 4
    c1 = math.hypot(a1, b1)
    low, high, eta, disc = 0.0, math.inf, math.pi, math.inf
    for _ in range(_ROUNDS):
        # Step 0: C2 <= C2' <= 1.5 C2, and |C2 - C1| <= |p2' - p1'| <= D.
        g_high = g_of((c1 + max(low / 1.5, c1 - disc, 0.0)) / 2.0)
        g_low = g_of((c1 + min(high, c1 + disc)) / 2.0)
        c1_low, c1_high = math.hypot(g_low * a1, b1), math.hypot(g_high * a1, b1)
        h1, h1_half = _middle(math.atan2(b1, g_low * a1), math.atan2(b1, g_high * a1))
        half = h1_half + eta / 2.0
        rho = most_turning((c1_high + high) / 2.0, h1, half)  # step 1
        t = tau / math.sqrt(1.0 - rho * rho / 4.0)
        s, k = 0.0225 * t, 0.0075 * most_t(h1, half)
        if s < 1.0:
            high = min(high, (c1_high * (1.0 + s) + t) / (1.0 - s))
        low = max(low, (min(c1_low * (1.0 - s), c1_high * (1.0 - s)) - t) / (1.0 + s))
        eta = min(eta, _hue_room(t, k, (c1_low, c1_high), (low, high)))
        d = tau / math.sqrt(1.0 - rho / 2.0)  # steps 1 to 3
        if 0.0225 * d < 1.0:  # step 5
            disc = min(disc, d * (1.0 + 0.045 * c1_high) / (1.0 - 0.0225 * d))
    # The last round's h1, g: true for what it started from, and so for what it ended with.
    a, b = _sector(low, high, h1, h1_half + eta)
    a_low = a[0] / (g_low if a[0] < 0.0 else g_high)
    a_high = a[1] / (g_low if a[1] > 0.0 else g_high)
    return _widened(
        Box(
            l1 - dl,
            l1 + dl,
            max(a_low, a1 - disc / g_low),
            min(a_high, a1 + disc / g_low),
            max(b[0], b1 - disc),
            min(b[1], b1 + disc),
        )
    )


def cie76_box(reference: "Triple", tau: float) -> Box:
    """The box about the sphere of all colours within ΔE*ab `tau` of a reference."""
    l1, a1, b1 = reference
    return _widened(Box(l1 - tau, l1 + tau, a1 - tau, a1 + tau, b1 - tau, b1 + tau))


def cmc_box(reference: "Triple", tau: float, weights: "Triple") -> Box:
    """A box that holds every colour within CMC `tau` of a reference.

    Args:
        reference: (L*, a*, b*) of the standard, which alone sets the weights.
        tau: the difference.
        weights: (l S_L, c S_C, S_H) of the standard.
    """
    l1, a1, b1 = reference
    s_l, s_c, s_h = weights
    c1 = math.hypot(a1, b1)
    low, high = max(0.0, c1 - tau * s_c), c1 + tau * s_c
    disc = tau * max(s_c, s_h)
    eta = _hue_room(tau * s_h, 0.0, (c1, c1), (low, high))
    a, b = _sector(low, high, math.atan2(b1, a1), eta)
    return _widened(
        Box(
            l1 - tau * s_l,
            l1 + tau * s_l,
            max(a[0], a1 - disc),
            min(a[1], a1 + disc),
            max(b[0], b1 - disc),
            min(b[1], b1 + disc),
        )
    )


def _hue_room(t: float, k: float, c1: Interval, c2: Interval) -> float:
    """How far apart two hues can be, in radians: |ΔH'| <= t (1 + k (C1' + C2')) for chromas in two
    intervals; half a turn where that leaves any hue.

    sin(η/2) <= t (1 + k (C1' + C2')) / (2 √(C1' C2')), convex in each √C' and so largest at a
    corner.
    """
    if c1[0] <= _SLACK or c2[0] <= _SLACK or c2[1] == math.inf:
        return math.pi
    sine = max(
        t * (1.0 + k * (one + other)) / (2.0 * math.sqrt(one * other)) for one in c1 for other in c2
    )
    return 2.0 * math.asin(sine) + _SLACK if sine < 1.0 - _SLACK else math.pi


def _middle(one: float, other: float) -> Interval:
    """The hue midway between two that are less than half a turn apart, and half of what parts
    them.
    """
    half = math.remainder(other - one, math.tau) / 2.0
    return one + half, abs(half)


def _sector(low: float, high: float, hue: float, half: float) -> tuple[Interval, Interval]:
    """The intervals that two axes have in a sector of a ring: radii from `low` to `high`, hues
    within `half` of one.
    """
    return _extent(low, high, hue, half), _extent(low, high, hue - math.pi / 2.0, half)


def _extent(low: float, high: float, hue: float, half: float) -> Interval:
    """From the least to the most of r cos h over a sector."""
    most, least = _most_cosine(hue, half), -_most_cosine(hue + math.pi, half)
    return (
        least * (high if least < 0.0 else low) if high < math.inf or least >= 0.0 else -math.inf,
        most * (high if most > 0.0 else low) if high < math.inf or most <= 0.0 else math.inf,
    )


def _most_cosine(hue: float, half: float) -> float:
    """The largest cosine of an angle within `half` of one."""
    away = abs(math.remainder(hue, math.tau)) - half
    return 1.0 if away <= 0.0 else math.cos(away)


def _widened(box: Box) -> Box:
    """A box with room for the rounding of its own calculation and of the difference."""
    return Box(
        *(
            value + (_SLACK if place % 2 else -_SLACK) * (1.0 + abs(value))
            for place, value in enumerate(box)
        )
    )
