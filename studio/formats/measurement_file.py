"""A measurement file of any known kind; the kind is told from what is in it, not from its name."""

from typing import Final

from studio.formats.cgats import read_cgats
from studio.formats.cgats_text import looks_like_cgats
from studio.formats.cxf import read_cxf
from studio.formats.plain_text import decoded
from studio.formats.sample import Contents, Kind, UnreadableFile
from studio.formats.spdx import read_spdx
from studio.formats.tables import read_table
from studio.formats.xml_guard import root_of

LARGEST: Final = 20_000_000
"""Bytes; 10,000 spectra as CxF take about 9 million."""

_CXF: Final = "http://colorexchangeformat.com/CxF3-core CxF"
_XML_STARTS: Final = (
    b"<",
    b"\xef\xbb\xbf<",
    b"\xff\xfe<\x00",
    b"\xfe\xff\x00<",
    b"<\x00",
    b"\x00<",
)


def read_measurements(content: bytes, file: str) -> Contents:
    """The samples of a file.

    Args:
        content: its bytes, at most `LARGEST`.
        file: its name, for messages and for samples without a name.

    Raises:
        UnreadableFile: it is of no known kind, damaged, or holds no reading.
    """
    if len(content) > LARGEST:
        msg = f"{file} is larger than {LARGEST // 1_000_000} MB; export fewer readings at a time"
        raise UnreadableFile(msg)
    if content.lstrip().startswith(_XML_STARTS):
        root = root_of(content, file)
        if root == _CXF:
            contents = read_cxf(content, file)
        elif root.split(" ")[-1] == "IESTM2714":
            contents = read_spdx(content, file)
        else:
            msg = f"{file} is XML of another kind ({root.split(' ')[-1]}); {_kinds()}"
            raise UnreadableFile(msg)
    elif _is_binary(content):
        msg = f"{file} is none of the files that readings are taken from; {_kinds()}"
        raise UnreadableFile(msg)
    elif looks_like_cgats(decoded(content, file)):
        contents = read_cgats(content, file)
    else:
        contents = read_table(content, file)
    if not contents.samples:
        msg = f"{file} holds no sample that can be read"
        if contents.faults:
            first = contents.faults[0]
            more = len(contents.faults) - 1
            msg = f"{file}: {first.name}: {first.reason}"
            msg += f" (and {more} more that cannot be read)" if more else ""
        raise UnreadableFile(msg)
    return contents


def _is_binary(content: bytes) -> bool:
    """Whether there are bytes that no text in any encoding begins with."""
    return b"\x00" in content and not content.startswith((b"\xff\xfe", b"\xfe\xff"))


def _kinds() -> str:
    return f"it takes {', '.join(Kind)}"
