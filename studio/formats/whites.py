"""The white that a file's Lab or XYZ stands under, and what is assumed where it does not say."""

from dataclasses import dataclass

from studio.colour.lab import Lab


@dataclass(frozen=True, slots=True)
class White:
    """A white.

    Args:
        illuminant: of CIE 15.
        observer: 2 or 10 degrees.
        is_stated: whether the file names its illuminant; if not, ISO 13655 is followed.
    """

    illuminant: str = "D50"
    observer: int = 2
    is_stated: bool = False

    @classmethod
    def of(cls, illuminant: str | None, observer: int | None) -> "White":
        """The white of what a file names; D50 and 2 degrees stand for what it leaves out."""
        return cls(illuminant or "D50", observer or 2, illuminant is not None)


def lab_under(white: White, lightness: float, a: float, b: float) -> Lab:
    """A Lab of a file; a perfect white a hair above 100 is taken as 100.

    Raises:
        ValueError: it is no colour.
    """
    if 100.0 < lightness < 100.01:  # noqa: PLR2004 - as instruments round it
        lightness = 100.0
    return Lab(lightness, a, b, white.illuminant, white.observer)


def xyz_under(white: White, x: float, y: float, z: float) -> Lab:
    """The Lab of tristimulus values with Y = 100 for the white.

    Raises:
        ValueError: they are no colour.
    """
    # Half a second of colour-science, for files without Lab alone.
    from studio.colour.science import xyz_to_lab  # noqa: PLC0415

    return xyz_to_lab((x / 100.0, y / 100.0, z / 100.0), white.illuminant, white.observer)
