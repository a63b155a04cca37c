"""The spectra of some swatches, as they were read."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from studio.actions.swatch_rows import SwatchRow
from studio.catalogue.reading import Reading
from studio.errors import BadInput

MOST: Final = 12
"""More lines cannot be told apart."""


@dataclass(frozen=True, slots=True)
class SwatchSpectra:
    """What is drawn of some swatches.

    Args:
        rows: those with a spectrum, each with its readings that have one, in the state the
            swatch is in.
        without: those without.
    """

    rows: tuple[tuple[SwatchRow, tuple[Reading, ...]], ...]
    without: tuple[SwatchRow, ...]


def swatch_spectra(rows: Sequence[SwatchRow]) -> SwatchSpectra:
    """Those of some swatches that have spectra, and the others.

    Raises:
        BadInput: none has one, or too many have.
    """
    found, without = [], []
    for row in rows:
        swatch = row[0]
        readings = tuple(
            each for each in swatch.readings if each.state is swatch.state and each.spectrum
        )
        if readings:
            found.append((row, readings))
        else:
            without.append(row)
    if not found:
        codes = ", ".join(row[0].facts.code for row in without[:5])
        more = ", …" if len(without) > 5 else ""  # noqa: PLR2004 - as above
        msg = (
            f"no spectrum was read of {codes}{more}; read one with a spectrophotometer: "
            f"studio swatch read {without[0][0].facts.code} --file FILE"
        )
        raise BadInput(msg)
    if len(found) > MOST:
        msg = f"{len(found)} spectra cannot be told apart; name {MOST} swatches or fewer"
        raise BadInput(msg)
    return SwatchSpectra(tuple(found), tuple(without))
