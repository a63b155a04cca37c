"""Hue and chroma of washes of real watercolours, as ranges: what the demo's washes are held to.

Source: the 143 single washes of Chen, Huang, Chang, Ouhyoung (2019), arXiv:1904.00275, eleven
amounts from 0.01 to 0.12 ml of each of 13 paints on one paper. CIELAB under D50 for 2 degrees by
ASTM E308. `tests/open_data/test_demo_beside_real_washes.py` compares these numbers with the data.
"""

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True)
class Washes:
    """Eleven washes of one paint.

    Args:
        number: of the paint in the data, as `tests/open_data/wpsm.py` counts them.
        hues: the least and the greatest hue angle, degrees.
        chromas: the least and the greatest C*.
        kind: which kind of paint it is, by its spectrum and hue; the data names none.
    """

    number: int
    hues: tuple[float, float]
    chromas: tuple[float, float]
    kind: str

    @property
    def drift(self) -> float:
        """How far the hue moves over the amounts, degrees."""
        return self.hues[1] - self.hues[0]


MEASURED: Final = {
    washes.kind: washes
    for washes in (
        Washes(1, (32.4, 34.5), (66.3, 79.1), "red"),
        Washes(2, (19.0, 24.5), (30.2, 55.7), "crimson"),
        Washes(3, (26.3, 42.8), (19.9, 56.3), "brown"),
        Washes(4, (91.2, 96.0), (86.2, 89.3), "lemon yellow"),
        Washes(5, (70.9, 75.2), (82.6, 90.5), "deep yellow"),
        Washes(6, (53.3, 68.3), (39.1, 71.2), "ochre"),
        Washes(7, (120.4, 147.9), (9.4, 45.8), "green"),
        Washes(8, (251.1, 269.2), (35.1, 55.5), "phthalo blue"),
        Washes(9, (284.3, 285.5), (59.6, 63.7), "ultramarine"),
        Washes(10, (286.4, 295.3), (19.8, 72.3), "violet blue"),
    )
}
