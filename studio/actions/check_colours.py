"""The stored Lab of every reading against what was read: spectrum, other white, or Lab itself."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from typing import Final

from studio.catalogue.reading import Origin, Reading
from studio.colour.lab import Lab
from studio.storage.readings import every_reading
from studio.storage.unit_of_work import UnitOfWork

TOLERANCE: Final = 1e-6
"""Of L*, a* and b*: libraries of another version may differ in the last digits of a double."""

_BATCH: Final = 2000

Stored = tuple[int, str, Reading]


def wrong_labs(work: UnitOfWork) -> Iterator[tuple[int, str, Lab | None]]:
    """(id, whose, Lab that it should be) of the readings whose stored Lab is another.

    The Lab is None where none follows from what was read.
    """
    spectra: list[Stored] = []
    for stored in every_reading(work.connection):
        key, whose, reading = stored
        if reading.origin is Origin.SPECTRUM:
            spectra.append(stored)
            if len(spectra) == _BATCH:
                yield from _wrong_spectra(spectra)
                spectra = []
        elif not _near(reading.lab, right := _derived(reading)):
            yield key, whose, right
    yield from _wrong_spectra(spectra)


def _wrong_spectra(stored: Iterable[Stored]) -> Iterator[tuple[int, str, Lab | None]]:
    """By one product of matrices for a grid of wavelengths, and singly what that finds wrong."""
    grids: dict[tuple[float, float, int], list[Stored]] = defaultdict(list)
    for each in stored:
        spectrum = each[2].spectrum
        if spectrum is not None:
            grids[spectrum.start, spectrum.step, len(spectrum.values)].append(each)
    for grid in grids.values():
        for key, whose, reading in _suspects(grid):
            right = _derived(reading)
            if not _near(reading.lab, right):
                yield key, whose, right


def _suspects(grid: list[Stored]) -> list[Stored]:
    import numpy as np  # noqa: PLC0415 - colours are computed only where spectra are kept

    from studio.colour.science import tristimulus  # noqa: PLC0415

    read = [reading.spectrum for _, _, reading in grid if reading.spectrum is not None]
    try:
        weights = tristimulus(read[0].wavelengths)
    except ValueError:
        return grid  # a grid that ASTM E308 has no weights for: one by one
    labs = weights.lab(np.array([spectrum.values for spectrum in read]))
    return [
        each
        for each, lab in zip(grid, labs, strict=True)
        if np.max(np.abs(lab - np.array(each[2].lab.coordinates))) > TOLERANCE
    ]


def _derived(reading: Reading) -> Lab | None:
    if reading.origin is Origin.MEASURED:
        return reading.given if reading.given.is_standard else None
    from studio.colour.science import adapted, reflectance_to_lab  # noqa: PLC0415

    try:
        if reading.origin is Origin.ADAPTED:
            return adapted(reading.given)
        return None if reading.spectrum is None else reflectance_to_lab(reading.spectrum)
    except ValueError:
        return None


def _near(stored: Lab, right: Lab | None) -> bool:
    if right is None:
        return False
    pairs = zip(stored.coordinates, right.coordinates, strict=True)
    return all(abs(a - b) <= TOLERANCE for a, b in pairs)
