"""What is assumed of watercolours before any is measured, and how much a swatch counts."""

from dataclasses import dataclass
from typing import Final

LAW: Final = (
    "surface",
    "inner surface",
    "dilution",
    "levelling",
    "likeness",
    "unevenness",
)
"""The numbers that all paints of a studio share; `parameters.Parameters` says what each does."""

USUAL_WATER: Final = 3.0
"""Parts of water to one of paint at which a single layer has the thickness 1."""

TOO_UNCERTAIN: Final = 5.0
"""The expected error (±, ΔE00) above which a prediction is no ground to act on.

Above ΔE00 5 a colour is another (`match_colour.ANOTHER_COLOUR`), and this is where what is laid
becomes more likely to be another colour than the one that was predicted. Measured by
`benchmarks/mix_prediction.py --doubt`, 8,775 predictions of 150 small studios drawn from real
watercolours: with a ± of 4 to 5, 46 % were further off than 5; of 5 to 6, 57 %; of 7 to 9, 67 %;
above 20, 97 %.
"""


def is_too_uncertain(error: float | None) -> bool:
    """Whether an expected error (ΔE00) is too large to act on; what was measured has none."""
    return error is not None and error > TOO_UNCERTAIN


@dataclass(frozen=True, slots=True)
class Settings:
    """Prior knowledge and weights, the same for every studio.

    Chosen on the open measurements of real watercolours by `benchmarks/mix_prediction.py`, which
    says how. Roughness is counted in wavelength steps of 10 nm.

    Args:
        roughness_K: weight of the squared second differences of ln K.
        roughness_S: weight of the squared second differences of ln S, less what follows ln K.
        slope_S: weight of its squared first differences.
        level_K: weight of the mean squared ln K.
        level_S: weight of the mean squared distance of that part of ln S from `usual_S`.
        usual_S: its usual value.
        law: the usual value of each number of `LAW`.
        law_spread: standard deviation of each.
        spectral: ΔE00 that a difference in reflectance of 1 at all wavelengths counts as, beside
            the difference in colour itself.
        mix_weight: weight of a mix, shared by all its swatches.
        robust: ΔE00 from which on a difference counts in proportion rather than squared.
        thickness: standard deviation of ln thickness where the water is recorded.
        unknown_thickness: the same where it is not.
        estimated: weight of a swatch whose spectrum was estimated from its Lab.
    """

    roughness_K: float = 2.0  # noqa: N815 - the letters of the papers
    roughness_S: float = 6.0  # noqa: N815
    slope_S: float = 4.0  # noqa: N815
    level_K: float = 0.2  # noqa: N815
    level_S: float = 3.0  # noqa: N815
    usual_S: float = 0.5  # noqa: N815
    law: tuple[float, ...] = (-3.9, 0.85, 0.8, 0.5, 0.25, -0.7)
    law_spread: tuple[float, ...] = (0.3, 0.3, 0.1, 0.2, 0.1, 0.3)
    spectral: float = 80.0
    mix_weight: float = 1.5
    robust: float = 1.5
    thickness: float = 0.1
    unknown_thickness: float = 0.7
    estimated: float = 0.3


DEFAULT: Final = Settings()
