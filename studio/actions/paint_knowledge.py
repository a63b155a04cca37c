"""How well each paint is known, as plain numbers that are kept beside the model."""

import io
import json
import zipfile
from collections.abc import Collection, Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from studio.mixing.characterisation import Characterisation
    from studio.mixing.ranges import FloatArray

PART: Final = "knowledge.json"
"""Its name in a kept result, which is a ZIP archive."""

LEAST: Final = 0.1
"""ΔE00 that a swatch must bring the expected error down by to be worth asking for."""


@dataclass(frozen=True, slots=True)
class NextSwatch:
    """The one swatch after which a paint's mixes would be predicted best.

    Args:
        parts: (paint id, parts) pairs, the paint itself first.
        water: parts of water to one of paint.
        after: mean expected error of the paint's 1:1 mixes once it is read, ΔE00.
    """

    parts: tuple[tuple[int, int], ...]
    water: float
    after: float


@dataclass(frozen=True, slots=True)
class PaintKnowledge:
    """How well one paint is known.

    Args:
        paint: its id.
        error: mean expected error of its 1:1 mixes with each other paint, ΔE00.
        alone: swatches of the paint alone.
        mixed: swatches of mixes that it is in.
        mixes: mixes it is in.
        estimated: how many of its swatches have a spectrum estimated from their Lab.
        next: what would tell most of it; None where no swatch would bring `error` down by 0.1.
    """

    paint: int
    error: float
    alone: int
    mixed: int
    mixes: int
    estimated: int
    next: NextSwatch | None


def knowledge_of(
    known: "Characterisation", paper: "FloatArray", retired: Collection[int]
) -> tuple[PaintKnowledge, ...]:
    """How well each paint is known.

    Args:
        known: the paints.
        paper: reflectance of the paper that is used most, (wavelengths,).
        retired: ids of paints that no swatch can be made with.
    """
    from studio.mixing.improve import best_swatch, paint_errors  # noqa: PLC0415 - numpy

    found = []
    partners = set(known.paints) - set(retired)
    for paint, error in zip(known.paints, paint_errors(known, paper).tolist(), strict=True):
        support = known.of(paint)
        best = None if paint in retired else best_swatch(known, paint, paper, partners)
        next_swatch = None
        if best is not None and best.before - best.after >= LEAST:
            parts = sorted(((key, int(n)) for key, n in best.parts), key=lambda p: p[0] != paint)
            next_swatch = NextSwatch(tuple(parts), best.water, best.after)
        found.append(
            PaintKnowledge(
                paint,
                error,
                support.alone,
                support.mixed,
                support.mixes,
                support.estimated,
                next_swatch,
            )
        )
    return tuple(found)


def written(knowledge: Sequence[PaintKnowledge]) -> str:
    """Knowledge of paints as JSON."""
    return json.dumps([asdict(each) for each in knowledge])


def read_from(content: bytes) -> tuple[PaintKnowledge, ...]:
    """The knowledge of paints in a kept result, without the arrays beside it."""
    with zipfile.ZipFile(io.BytesIO(content)) as file:
        return tuple(_knowledge(told) for told in json.loads(file.read(PART)))


def _knowledge(told: Mapping[str, Any]) -> PaintKnowledge:
    swatch = told["next"]
    if swatch is not None:
        parts = tuple((int(paint), int(n)) for paint, n in swatch["parts"])
        swatch = NextSwatch(parts, swatch["water"], swatch["after"])
    return PaintKnowledge(**{**told, "next": swatch})
