"""What the numbers of a picture mean: from device values to Lab and to linear RGB."""

import io
import struct
import warnings
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Final, Protocol

import numpy as np
import numpy.typing as npt

from studio.colour.lab_arrays import Floats, lab_to_xyz
from studio.errors import BadInput
from studio.picture.rgb_spaces import WIDE_RGB_TO_XYZ, RgbSpace

if TYPE_CHECKING:
    from PIL import ImageCms

Pixels = npt.NDArray[np.unsignedinteger[Any]]
"""Device values: uint8, or uint16 for grey of 16 bits."""

_ROW: Final = 4096


class Encoding(Protocol):
    """A meaning of device values."""

    def lab(self, values: Pixels) -> Floats:
        """(n, 3) Lab under D50/2° of (n, channels) device values."""

    def linear(self, values: Pixels) -> Floats:
        """(n, 3) linear RGB, 0 to about 1, of (n, channels) device values."""

    @property
    def to_xyz(self) -> Floats:
        """(3, 3) from linear RGB to XYZ under D50/2°."""


@dataclass(frozen=True, slots=True)
class Plain:
    """A picture without a profile, in a space that is known by name; exact to rounding.

    Args:
        space: sRGB or Adobe RGB.
    """

    space: RgbSpace

    def lab(self, values: Pixels) -> Floats:
        """(n, 3) Lab under D50/2° of (n, 3) or (n, 1) device values."""
        return self.space.lab(_fractions(values))

    def linear(self, values: Pixels) -> Floats:
        """(n, 3) linear RGB in the space's own primaries, 0 to 1."""
        return self.space.decode(_fractions(values))

    @property
    def to_xyz(self) -> Floats:
        """(3, 3) from linear RGB to XYZ under D50/2°."""
        return self.space.matrix


@dataclass(frozen=True, slots=True, eq=False)
class Profiled:
    """A picture with an ICC profile, turned into Lab by LittleCMS without a stop in sRGB.

    ImageCms gives Lab in 8 bits alone, a whole unit of a* and b*. So each axis is asked for by
    itself, through a made profile whose one 16-bit channel is that axis: L* comes in steps of
    0.0015, a* and b* in steps of 0.004. Colours are relative to the profile's white.

    Args:
        profile: the embedded profile.
        mode: Pillow's name of the picture's channels.
    """

    profile: bytes
    mode: str
    _transforms: tuple["ImageCms.ImageCmsTransform", ...] = field(init=False)

    def __post_init__(self) -> None:
        from PIL import ImageCms  # noqa: PLC0415

        flags = ImageCms.Flags.NOOPTIMIZE | ImageCms.Flags.NOCACHE
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            given = ImageCms.ImageCmsProfile(io.BytesIO(self.profile))
            made = tuple(
                ImageCms.buildTransform(
                    given,
                    ImageCms.ImageCmsProfile(io.BytesIO(_axis_profile(axis))),
                    self.mode,
                    "I;16",
                    ImageCms.Intent.RELATIVE_COLORIMETRIC,
                    flags,
                )
                for axis in range(3)
            )
        object.__setattr__(self, "_transforms", made)

    def lab(self, values: Pixels) -> Floats:
        """(n, 3) Lab under D50/2° of (n, channels) device values."""
        from PIL import Image  # noqa: PLC0415

        count = len(values)
        width = max(min(count, _ROW), 1)
        height = max(-(-count // width), 1)
        little = values.dtype.newbyteorder("<")  # as I;16 is
        padded = np.zeros((height * width, values.shape[1]), little)
        padded[:count] = values
        given = Image.frombytes(self.mode, (width, height), padded.tobytes())
        axes = []
        for transform in self._transforms:
            axis = Image.new("I;16", given.size)
            transform.apply(given, axis)
            axes.append(np.asarray(axis, dtype=np.float64).reshape(-1)[:count])
        lightness, a, b = axes
        return np.stack([lightness * (100.0 / 65280.0), a / 256.0 - 128.0, b / 256.0 - 128.0], -1)

    def linear(self, values: Pixels) -> Floats:
        """(n, 3) linear RGB with the primaries of ITU-R BT.2020, by way of Lab."""
        linear: Floats = lab_to_xyz(self.lab(values)) @ np.linalg.inv(WIDE_RGB_TO_XYZ).T
        return linear

    @property
    def to_xyz(self) -> Floats:
        """(3, 3) from linear RGB to XYZ under D50/2°."""
        return WIDE_RGB_TO_XYZ


def profiled(profile: bytes, mode: str, name: str) -> Profiled:
    """The encoding of an embedded profile.

    Raises:
        BadInput: LittleCMS finds the profile broken, or made for other channels.
    """
    from PIL import ImageCms  # noqa: PLC0415

    try:
        return Profiled(profile, mode)
    except (ImageCms.PyCMSError, OSError, ValueError, TypeError):
        msg = (
            f"the colour profile in {name} is damaged or made for other channels; save the "
            "picture again in sRGB, or without its profile"
        )
        raise BadInput(msg) from None


def profile_channels(profile: bytes) -> str:
    """The colour space that a profile's header names: RGB, GRAY, CMYK or another."""
    return profile[16:20].decode("latin-1").strip()


def _fractions(values: Pixels) -> Floats:
    fractions = values.astype(np.float64) / np.iinfo(values.dtype).max
    return np.repeat(fractions, 3, axis=1) if values.shape[1] == 1 else fractions


def _axis_profile(axis: int) -> bytes:
    """An ICC version 2 output profile whose one channel is L*, a* or b* itself.

    Its table has the eight corners of Lab, at which the chosen axis is 0 or full, and lies linearly
    between them. Source: ICC.1:2001-04, 6.1 (header), 6.5.8 (lut16Type); Lab as in 6.3.4.
    """
    corners = [(corner >> (2 - axis) & 1) * 65535 for corner in range(8)]
    identity = [65536 if row == column else 0 for row in range(3) for column in range(3)]
    table = (
        struct.pack(">4s4xBBBx9i2H", b"mft2", 3, 1, 2, *identity, 2, 2)
        + struct.pack(">6H", *[0, 65535] * 3)
        + struct.pack(">8H", *corners)
        + struct.pack(">2H", 0, 65535)
    )
    d50 = (0xF6D6, 0x10000, 0xD32D)
    white = struct.pack(">4s4x3i", b"XYZ ", *d50)
    directory = struct.pack(
        ">I4sII4sII", 2, b"B2A0", 156, len(table), b"wtpt", 156 + len(table), 20
    )
    size = 156 + len(table) + len(white)
    header = struct.pack(
        ">I4xI4s4s4s6H4s28x3i48x",
        *(size, 0x02400000, b"prtr", b"GRAY", b"Lab ", 2001, 4, 1, 0, 0, 0, b"acsp", *d50),
    )
    return header + directory + table + white
