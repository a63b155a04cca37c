"""A computed model as bytes and back."""

import io
import zipfile
from typing import Any, Final, NamedTuple

import numpy as np

from studio.actions.paint_knowledge import PART, PaintKnowledge, read_from, written
from studio.mixing.characterisation import Characterisation, from_arrays, to_arrays
from studio.mixing.ranges import FloatArray

_ARRAYS: Final = "arrays.npz"


class Computed(NamedTuple):
    """What the model computed.

    Args:
        known: the paints.
        spectra: of each patch, (patches, wavelengths).
        grounds: what each was laid on, (patches, wavelengths).
        papers: white of each paper, (papers, wavelengths).
        knowledge: how well each paint is known.
    """

    known: Characterisation
    spectra: FloatArray
    grounds: FloatArray
    papers: FloatArray
    knowledge: tuple[PaintKnowledge, ...]


def packed(computed: Computed) -> bytes:
    """A result as a ZIP archive."""
    own = {"spectra": computed.spectra, "grounds": computed.grounds, "papers": computed.papers}
    named: dict[str, Any] = to_arrays(computed.known) | own
    arrays = io.BytesIO()
    np.savez_compressed(arrays, **named)
    whole = io.BytesIO()
    with zipfile.ZipFile(whole, "w") as file:
        file.writestr(PART, written(computed.knowledge))
        file.writestr(_ARRAYS, arrays.getvalue())
    return whole.getvalue()


def unpacked(content: bytes) -> Computed:
    """The result that `packed` made bytes of."""
    with zipfile.ZipFile(io.BytesIO(content)) as file:
        arrays = file.read(_ARRAYS)
    with np.load(io.BytesIO(arrays)) as named:
        read = dict(named)
    own = (read.pop("spectra"), read.pop("grounds"), read.pop("papers"))
    return Computed(from_arrays(read), *own, read_from(content))
