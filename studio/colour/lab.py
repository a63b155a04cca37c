"""A CIE 1976 L*a*b* colour together with the white it was computed for."""

import math
from dataclasses import dataclass
from typing import Final

ILLUMINANTS: Final = (
    *("A", "B", "C", "D50", "D55", "D60", "D65", "D75", "E", "ID50", "ID65"),
    *(f"FL{number}" for number in range(1, 13)),
    *(f"FL3.{number}" for number in range(1, 16)),
    *(f"HP{number}" for number in range(1, 6)),
    *("LED-B1", "LED-B2", "LED-B3", "LED-B4", "LED-B5"),
    *("LED-BH1", "LED-RGB1", "LED-V1", "LED-V2"),
)
"""CIE illuminants that a Lab value may be given under (names and data as in CIE 15:2018)."""

OBSERVERS: Final = (2, 10)
"""CIE 1931 2 degree and CIE 1964 10 degree standard observer."""

AXIS_LIMIT: Final = 200.0
"""|a*| or |b*| above this is taken for a slip; surface colours stay below about 130."""


@dataclass(frozen=True, slots=True)
class Lab:
    """A colour in CIE 1976 L*a*b*; by default under D50 for the 2 degree observer (ISO 13655).

    Args:
        lightness: L*, 0 (black) to 100 (the white of the illuminant).
        a: a*, from green (negative) to red, within ±200.
        b: b*, from blue (negative) to yellow, within ±200.
        illuminant: one of `ILLUMINANTS`.
        observer: 2 or 10 (degrees).

    Raises:
        ValueError: a coordinate is not a finite number in its range, or the white is unknown.
    """

    lightness: float
    a: float
    b: float
    illuminant: str = "D50"
    observer: int = 2

    def __post_init__(self) -> None:
        if not all(map(math.isfinite, (self.lightness, self.a, self.b))):
            msg = "a Lab colour needs three finite numbers, such as lab(62 12 30)"
            raise ValueError(msg)
        if not 0.0 <= self.lightness <= 100.0:  # noqa: PLR2004 - the scale of L*
            msg = f"lightness L* runs from 0 to 100, and {self.lightness:g} is outside"
            raise ValueError(msg)
        if max(abs(self.a), abs(self.b)) > AXIS_LIMIT:
            msg = f"a* and b* run from -200 to 200; got a* {self.a:g}, b* {self.b:g}"
            raise ValueError(msg)
        if self.illuminant not in ILLUMINANTS:
            msg = (
                f"illuminant {self.illuminant!r} is not one of CIE 15, such as A, C, D50, D65, E, "
                "FL2, FL11 or LED-B3"
            )
            raise ValueError(msg)
        if self.observer not in OBSERVERS:
            msg = f"the observer is 2 or 10 degrees, not {self.observer}"
            raise ValueError(msg)

    @property
    def coordinates(self) -> tuple[float, float, float]:
        """(L*, a*, b*)."""
        return self.lightness, self.a, self.b

    @property
    def chroma(self) -> float:
        """C*ab, the distance from the neutral axis."""
        return math.hypot(self.a, self.b)

    @property
    def hue(self) -> float:
        """h_ab in degrees, 0 (red) up to but not including 360; 0 for a neutral."""
        return math.degrees(math.atan2(self.b, self.a)) % 360.0 % 360.0  # -1e-20 % 360 is 360

    @property
    def white(self) -> tuple[str, int]:
        """(illuminant, observer): colours are compared only when these are equal."""
        return self.illuminant, self.observer

    @property
    def is_standard(self) -> bool:
        """True under D50 and 2 degrees, the white that the studio searches and shows in."""
        return self.white == ("D50", 2)
