"""What a picture's tags say about it: its colours' meaning and which way is up."""

import struct
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from studio.colour.lab_arrays import Floats
from studio.errors import BadInput
from studio.picture.encodings import Encoding, Pixels, Plain, profile_channels, profiled
from studio.picture.rgb_spaces import ADOBE_RGB, SRGB

if TYPE_CHECKING:
    from PIL import Image

# What Pillow's plugins let through on files that are cut short or were tampered with.
DAMAGE: Final = (
    *(OSError, SyntaxError, ValueError, TypeError, LookupError, EOFError, ArithmeticError),
    *(AttributeError, AssertionError, RuntimeError, struct.error),
)
"""What Pillow raises on damaged files."""

_ORIENTATION, _EXIF, _INTEROPERABILITY, _COLOUR_SPACE = 0x0112, 0x8769, 0xA005, 0xA001


def orientation_of(image: "Image.Image") -> int:
    """EXIF orientation, 1 to 8; 1 for TIFF, which Pillow turns by itself."""
    if image.format == "TIFF":
        return 1
    try:
        turned = image.getexif().get(_ORIENTATION, 1)
    except DAMAGE:
        return 1
    return turned if turned in range(1, 9) else 1


def encoding_of(image: "Image.Image", name: str, notes: list[str]) -> Encoding:
    """What the device values mean: by the embedded profile, by a tag, else as sRGB, which is noted.

    Raises:
        BadInput: the channels have no known meaning, or the profile is broken.
    """
    if image.mode in {"LAB", "F", "I"}:
        msg = f"{name} is stored in a way that no camera or scanner uses; save it in RGB"
        raise BadInput(msg)
    profile = image.info.get("icc_profile")
    if profile:
        return _by_profile(image.mode, profile, name)
    if image.mode == "CMYK":
        msg = f"{name} is in CMYK without a colour profile; save it in RGB"
        raise BadInput(msg)
    if _says_srgb(image):
        return Plain(SRGB)
    if _says_adobe(image):
        return Plain(ADOBE_RGB)
    notes.append("it has no colour profile and is taken for sRGB")
    return Plain(SRGB)


@dataclass(frozen=True, slots=True)
class _GreyAsRgb:
    """A grey picture whose profile speaks of RGB: each grey stands for three equal channels."""

    of_rgb: Encoding

    def lab(self, values: Pixels) -> Floats:
        return self.of_rgb.lab(np.repeat(values, 3, axis=1))

    def linear(self, values: Pixels) -> Floats:
        return self.of_rgb.linear(np.repeat(values, 3, axis=1))

    @property
    def to_xyz(self) -> Floats:
        return self.of_rgb.to_xyz


def _by_profile(mode: str, profile: bytes, name: str) -> Encoding:
    if mode.startswith("I;16"):
        return profiled(profile, "I;16", name)
    if mode in {"1", "L", "LA", "La"}:
        if profile_channels(profile) == "RGB":
            return _GreyAsRgb(profiled(profile, "RGB", name))
        return profiled(profile, "L", name)
    return profiled(profile, "CMYK" if mode == "CMYK" else "RGB", name)


def _says_srgb(image: "Image.Image") -> bool:
    if "srgb" in image.info:
        return True
    try:
        return bool(image.getexif().get_ifd(_EXIF).get(_COLOUR_SPACE) == 1)
    except DAMAGE:
        return False


def _says_adobe(image: "Image.Image") -> bool:
    """True where the interoperability index is R03, as DCF 2.0 marks Adobe RGB."""
    try:
        return str(image.getexif().get_ifd(_INTEROPERABILITY).get(1, "")).startswith("R03")
    except DAMAGE:
        return False
