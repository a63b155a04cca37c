"""The sample of an IES TM-27 document (.spdx), read by colour-science."""

from pathlib import PurePath
from typing import Final

from studio.formats import spectra
from studio.formats.plain_text import printable
from studio.formats.sample import Contents, Kind, Sample, UnreadableFile

_REFLECTED: Final = {"reflectance", "r-factor"}


def read_spdx(content: bytes, file: str) -> Contents:
    """The one spectrum of a document; it must be a reflectance, as lamps have none.

    Args:
        content: XML that `xml_guard` has looked through.
        file: its name; it names the sample.

    Raises:
        UnreadableFile: it is no reflectance in equal steps.
    """
    # Half a second of colour-science, for this kind of file alone.
    from studio.colour.science import read_iestm2714  # noqa: PLC0415

    try:
        quantity, points = read_iestm2714(content)
        if quantity.strip().lower() not in _REFLECTED:
            msg = (
                f"its spectrum is {quantity!r}, the light of a lamp or the like, and no "
                "reflectance; a swatch needs a file of reflectance"
            )
            raise ValueError(msg)  # noqa: TRY301 - one sentence for all of the file
        percent = spectra.is_percent(value for _, value in points)
        spectrum = spectra.spectrum_of(points, percent=percent)
    except ValueError as error:
        msg = f"{file}: {error}"
        raise UnreadableFile(msg) from None
    sample = Sample(printable(PurePath(file).stem) or file, spectrum, None)
    return Contents(Kind.SPDX, (sample,), (), (spectra.PERCENT_REMARK,) if percent else ())
