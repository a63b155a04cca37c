"""ICC profiles with known numbers, written by hand after ICC.1:2001-04."""

import struct

import numpy as np
import numpy.typing as npt

D50 = (0.9642, 1.0, 0.8249)


def profile(colour_space: bytes, pcs: bytes, tags: dict[bytes, bytes]) -> bytes:
    """A version 2 display profile of some tags."""
    tags = {**tags, b"wtpt": xyz(*D50)}
    place = 128 + 4 + 12 * len(tags)
    directory, body = struct.pack(">I", len(tags)), b""
    for name, content in tags.items():
        directory += struct.pack(">4sII", name, place + len(body), len(content))
        body += content + bytes(-len(content) % 4)
    header = struct.pack(
        ">I4xI4s4s4s6H4s28x3i48x",
        *(place + len(body), 0x02400000, b"mntr", colour_space, pcs),
        *(2020, 1, 1, 0, 0, 0, b"acsp", *(round(65536 * v) for v in D50)),
    )
    return header + directory + body


def xyz(*values: float) -> bytes:
    """An XYZType tag."""
    return struct.pack(">4s4x3i", b"XYZ ", *(round(65536 * v) for v in values))


def gamma(value: float) -> bytes:
    """A curveType tag of a power."""
    return struct.pack(">4s4xIH2x", b"curv", 1, round(256 * value))


def matrix_profile(matrix: npt.NDArray[np.float64], power: float = 2.0) -> bytes:
    """RGB by a matrix to XYZ under D50 and one power."""
    tags = {
        name: xyz(*column)
        for name, column in zip((b"rXYZ", b"gXYZ", b"bXYZ"), matrix.T, strict=True)
    }
    return profile(
        b"RGB ", b"XYZ ", {**tags, **dict.fromkeys((b"rTRC", b"gTRC", b"bTRC"), gamma(power))}
    )


def grey_profile(power: float) -> bytes:
    """Grey by a power."""
    return profile(b"GRAY", b"XYZ ", {b"kTRC": gamma(power)})


def table_profile(colour_space: bytes, channels: int) -> bytes:
    """A table (lut16Type): L* is the first channel, a* the second, b* the third, all linear."""
    corners = []
    for corner in range(2**channels):
        first = [corner >> (channels - 1 - channel) & 1 for channel in range(3)]
        corners += [0xFF00 * first[0], 65535 * first[1], 65535 * first[2]]
    identity = [65536 if row == column else 0 for row in range(3) for column in range(3)]
    table = struct.pack(">4s4xBBBx9i2H", b"mft2", channels, 3, 2, *identity, 2, 2)
    table += struct.pack(f">{2 * channels}H", *[0, 65535] * channels)
    table += struct.pack(f">{len(corners)}H", *corners)
    table += struct.pack(">6H", *[0, 65535] * 3)
    return profile(colour_space, b"Lab ", {b"A2B0": table})
