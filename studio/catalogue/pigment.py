"""A pigment by its Colour Index name, with all that is said of it."""

import re
from dataclasses import dataclass
from typing import Final

from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import Hazard
from studio.catalogue.lightfastness import LightfastnessRating, worst
from studio.errors import BadInput

CI_NAME: Final = re.compile(
    r"(?P<kind>[PN])(?P<hue>BR|BK|Y|O|R|V|B|G|W|M)(?P<number>[1-9][0-9]{0,2}(?::[0-9]+)?)"
    r"(?: (?P<variant>[A-Z]+))?"
)
"""Colour Index generic name: pigment or natural dye, hue, number, sub-grade, and our variant."""

_HUES: Final = {"BR": "Br", "BK": "Bk"}


@dataclass(frozen=True, slots=True)
class Pigment:
    """A pigment of the reference table.

    Args:
        ci_name: Colour Index name, such as PB29.
        ci_number: constitution number, where known.
        common_name: what painters call it; None for a pigment without data.
        chemical_class: its chemistry in a few words.
        evidence: how well its source was seen; None for a pigment without data.
        source: where the row is from.
        note: remarks.
        ratings: lightfastness, one for each scale, medium and source.
        hazards: cautions, one for each agent and source.
    """

    ci_name: str
    ci_number: str | None
    common_name: str | None
    chemical_class: str | None
    evidence: Evidence | None
    source: str | None
    note: str | None
    ratings: tuple[LightfastnessRating, ...] = ()
    hazards: tuple[Hazard, ...] = ()

    @property
    def worst_rating(self) -> LightfastnessRating | None:
        """The rating that counts; None where nothing is known."""
        return worst(self.ratings)


def ci_name(text: str) -> str:
    """A Colour Index name in its usual spelling: `pbr7` is PBr7, `PV 19` is PV19.

    Raises:
        BadInput: it is not built like a Colour Index name.
    """
    folded = " ".join(text.upper().split())
    found = CI_NAME.fullmatch(re.sub(r"^([PN](?:BR|BK|[YORVBGWM]))\s+(?=\d)", r"\1", folded))
    if found is None:
        msg = f"{text!r} is not a Colour Index name; write it like PB29, PBr7 or PV19"
        raise BadInput(msg)
    name = found["kind"] + _HUES.get(found["hue"], found["hue"]) + found["number"]
    return f"{name} {found['variant'].lower()}" if found["variant"] else name
