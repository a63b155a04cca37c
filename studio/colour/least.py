"""The least difference that any colour of a box can have from a reference, bounded from below.

A search for what is far away goes from box to box and leaves out those whose least difference is
more than what it holds already. Letters are those of Sharma, Wu, Dalal (2005), equations 2 to 22,
and of BOX.md beside this file, where the proof stands.
"""

import math
from typing import TYPE_CHECKING

from studio.colour.box import Box, g_of, most_t, most_turning

if TYPE_CHECKING:
    from studio.colour.difference import Triple


def ciede2000_least(reference: "Triple", box: Box) -> float:
    """A ΔE00 from a reference that no colour of a finite box stays under."""
    l1, a1, b1 = reference
    l_low, l_high, a_low, a_high, b_low, b_high = box
    dl = max(l_low - l1, l1 - l_high, 0.0)
    l_50 = max(abs((l1 + l_low) / 2.0 - 50.0), abs((l1 + l_high) / 2.0 - 50.0)) ** 2
    x = dl / (1.0 + 0.015 * l_50 / math.sqrt(20.0 + l_50))

    # What a*, b* and the chromas can be; g falls as C2 rises.
    a_least, a_most = max(a_low, -a_high, 0.0), max(-a_low, a_high)
    b_least, b_most = max(b_low, -b_high, 0.0), max(-b_low, b_high)
    c1 = math.hypot(a1, b1)
    g_high = g_of((c1 + math.hypot(a_least, b_least)) / 2.0)
    g_low = g_of((c1 + math.hypot(a_most, b_most)) / 2.0)
    c1_low, c1_high = math.hypot(g_low * a1, b1), math.hypot(g_high * a1, b1)
    c2_low, c2_high = math.hypot(g_low * a_least, b_least), math.hypot(g_high * a_most, b_most)
    mean = (c1_high + c2_high) / 2.0
    s_c = 1.0 + 0.045 * mean
    da, db = max(a_low - a1, a1 - a_high, 0.0), max(b_low - b1, b1 - b_high, 0.0)
    d = math.hypot(g_low * da, db)

    # The hue of the box seen from the neutral axis, and how far it can be off its middle.
    g = (g_low + g_high) / 2.0
    g_half = (g_high - g_low) / 2.0
    a_mid, b_mid = (a_low + a_high) / 2.0, (b_low + b_high) / 2.0
    off1 = _seen(g_half * abs(a1), math.hypot(g * a1, b1))
    off2 = _seen(
        math.hypot(g_high * (a_high - a_low) / 2.0 + g_half * abs(a_mid), (b_high - b_low) / 2.0),
        math.hypot(g * a_mid, b_mid),
    )
    h1 = math.atan2(b1, g * a1)
    apart = math.remainder(math.atan2(b_mid, g * a_mid) - h1, math.tau)
    off = off1 + off2 + 1e-12
    opposite = abs(apart) + off >= math.pi
    # Where the hues may be opposite, either bisector may be the mean: a quarter turn from h1.
    h_mean, h_half = (h1, math.pi / 2.0 + off1) if opposite else (h1 + apart / 2.0, off / 2.0)
    rho = most_turning(mean, h_mean, h_half + 1e-12)
    s_h = 1.0 + 0.015 * mean * most_t(h_mean, h_half + 1e-12)
    z = (
        2.0 * math.sqrt(c1_low * c2_low) * math.sin(max(0.0, abs(apart) - off) / 2.0) / s_h,
        2.0 * math.sqrt(c1_high * c2_high) * math.sin(min(math.pi, abs(apart) + off) / 2.0),
    )  # S_H >= 1
    less, more = c1_high - c2_low, c2_high - c1_low  # -ΔC' and ΔC' at most
    y = max(0.0, -less, -more) / s_c, max(less, more)  # S_C >= 1
    alike = opposite or (more > 0.0 and apart + off > 0.0) or (less > 0.0 and apart - off < 0.0)
    form = _least_form(y, z, rho) if alike else y[0] * y[0] + z[0] * z[0]
    return math.sqrt(x * x + max(form, (1.0 - rho / 2.0) * (d / s_c) ** 2))


def cie76_least(reference: "Triple", box: Box) -> float:
    """The ΔE*ab of a reference from the nearest colour of a box."""
    l1, a1, b1 = reference
    return math.hypot(
        max(box.lightness_low - l1, l1 - box.lightness_high, 0.0),
        max(box.a_low - a1, a1 - box.a_high, 0.0),
        max(box.b_low - b1, b1 - box.b_high, 0.0),
    )


def cmc_least(reference: "Triple", box: Box, weights: "Triple") -> float:
    """A CMC difference from a reference that no colour of a box stays under.

    ΔC² + ΔH² is no less than the square of the distance in a*, b*; ΔC has the weight of its own
    as far as the chromas differ at least, and what is left has at least the smaller weight.

    Args:
        reference: (L*, a*, b*) of the standard, which alone sets the weights.
        box: where the samples are.
        weights: (l S_L, c S_C, S_H) of the standard.
    """
    l1, a1, b1 = reference
    s_l, s_c, s_h = weights
    x = max(box.lightness_low - l1, l1 - box.lightness_high, 0.0) / s_l
    da = max(box.a_low - a1, a1 - box.a_high, 0.0)
    db = max(box.b_low - b1, b1 - box.b_high, 0.0)
    c1 = math.hypot(a1, b1)
    c2_low = math.hypot(max(box.a_low, -box.a_high, 0.0), max(box.b_low, -box.b_high, 0.0))
    c2_high = math.hypot(max(-box.a_low, box.a_high), max(-box.b_low, box.b_high))
    dc2 = max(c2_low - c1, c1 - c2_high, 0.0) ** 2
    rest = max(0.0, da * da + db * db - dc2)
    return math.sqrt(x * x + dc2 / (s_c * s_c) + rest / max(s_c, s_h) ** 2)


def _seen(radius: float, distance: float) -> float:
    """Half the angle that a disc fills when seen from a point; half a turn from within it."""
    return math.asin(radius / distance) if radius < distance else math.pi


def _least_form(y: tuple[float, float], z: tuple[float, float], rho: float) -> float:
    """The least y² + z² - ρ y z over two intervals of numbers from zero up, for ρ < 2.

    It is convex, and where both slopes point inwards y or z is at its low end.
    """
    z_at = min(max(rho * y[0] / 2.0, z[0]), z[1])
    y_at = min(max(rho * z[0] / 2.0, y[0]), y[1])
    return min(
        y[0] * y[0] + z_at * z_at - rho * y[0] * z_at,
        y_at * y_at + z[0] * z[0] - rho * y_at * z[0],
    )
