"""A pigment or dye by its Colour Index name, with all that is said of it."""

import re
from dataclasses import dataclass
from typing import Final

from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import Hazard
from studio.catalogue.lightfastness import LightfastnessRating, worst
from studio.errors import BadInput

_CODES: Final = {
    "Y": "yellow", "O": "orange", "R": "red", "V": "violet", "B": "blue", "G": "green",
    "BR": "brown", "BK": "black", "W": "white", "M": "metal",
}  # fmt: skip
"""Hues as the short names write them, in the order of the Colour Index, and the words for them."""
_HUES: Final = {hue: code.capitalize() for code, hue in _CODES.items()}
_DYES: Final = {
    "A": "Acid", "B": "Basic", "D": "Direct", "F": "Food", "M": "Mordant", "R": "Reactive",
    "S": "Solvent", "V": "Vat",
}  # fmt: skip
"""Classes of dyes by the letter that their short names begin with."""
_CLASSES: Final = ("Pigment", "Natural", *_DYES.values(), "Disperse")

_NUMBER: Final = r"(?P<number>[1-9][0-9]{0,2}(?::[0-9]+)?)(?: (?P<words>.+))?"
_SHORT: Final = re.compile(
    rf"(?P<kind>[PN{''.join(_DYES)}])(?P<hue>BR|BK|[YORVBGWM]) ?{_NUMBER}", re.IGNORECASE
)
_LONG: Final = re.compile(
    rf"(?:C\.? ?I\.? ?)?(?P<kind>{'|'.join(_CLASSES)}) "
    rf"(?P<hue>{'|'.join(_CODES.values())}) {_NUMBER}",
    re.IGNORECASE,
)

FORMS: Final = frozenset(
    {"alpha", "beta", "gamma", "delta", "epsilon", "sienna", "umber", "ochre", "raw", "burnt",
     "natural", "synthetic", "calcined", "genuine", "lake", "transparent", "semi-transparent",
     "opaque", "semi-opaque"}
)  # fmt: skip
"""Words for a crystal form, an earth or a make, which may stand behind a name."""
SHADES: Final = frozenset(
    {"light", "lightest", "medium", "middle", "mid", "deep", "dark", "pale", "bright", "extra",
     "very", "warm", "cool", "cold", "shade", "yellow", "yellowish", "orange", "golden", "lemon",
     "primrose", "red", "reddish", "scarlet", "rose", "pink", "magenta", "maroon", "violet",
     "purple", "blue", "bluish", "green", "greenish", "turquoise", "brown", "black", "grey",
     "white"}
)  # fmt: skip
"""Ordinary words for a colour, which may stand behind a name."""
_ABBREVIATED: Final = {"rs": "red shade", "ys": "yellow shade", "gs": "green shade",
                       "bs": "blue shade"}  # fmt: skip
IMITATION: Final = "hue"
"""What a label says of a paint that is made of other pigments than its name tells."""


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
        looked_up: who looked it up, where and when, with what result; None where
            nobody has.
        as_base: the pigment that ratings and hazards are of, for a variant or sub-grade without a
            row of its own, such as PR108 of `PR108 light`.
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
    looked_up: str | None = None
    as_base: str | None = None

    @property
    def label(self) -> str:
        """Its name, and whose ratings and hazards are shown for it: `PR108 light (as PR108)`."""
        return f"{self.ci_name} (as {self.as_base})" if self.as_base else self.ci_name

    @property
    def has_data(self) -> bool:
        """Whether it or the pigment it is a variant of stands in a reference table."""
        return self.evidence is not None or self.as_base is not None

    @property
    def is_not_looked_up(self) -> bool:
        """Whether no caution is on record and nobody has looked for one."""
        return not self.hazards and self.looked_up is None

    @property
    def worst_rating(self) -> LightfastnessRating | None:
        """The rating that counts; None where nothing is known."""
        return worst(self.ratings)


def ci_name(text: str) -> str:
    """A Colour Index name in its usual spelling: `pbr7` is PBr7, `C.I. Basic Violet 10` or BV10 is
    Basic Violet 10; words for a shade or a form may follow, such as `PR108 light`.

    Raises:
        BadInput: it is not built like a Colour Index name, or other words follow it.
    """
    folded = " ".join(text.replace("(", " ").replace(")", " ").split())
    found = _SHORT.fullmatch(folded) or _LONG.fullmatch(folded)
    if found is None:
        msg = (
            f"{text!r} is not a Colour Index name; write it like PB29, PBr7 or PV19, or a dye like "
            "Basic Violet 10"
        )
        raise BadInput(msg)
    name = _spelled(found)
    words = [_ABBREVIATED.get(word, word) for word in (found["words"] or "").lower().split()]
    if IMITATION in words:
        msg = (
            f"{text!r} names a hue, which imitates {name} with other pigments; give the pigments "
            "that the label itself lists"
        )
        raise BadInput(msg)
    for word in " ".join(words).split():
        if word not in FORMS | SHADES:
            msg = (
                f"{word!r} behind {name} is neither a shade such as light or red shade nor a form "
                f"such as beta or sienna; give {name} alone and the rest as the paint's note"
            )
            raise BadInput(msg)
    return " ".join((name, *words))


def _spelled(found: re.Match[str]) -> str:
    """The name without the words behind it: pigments and natural dyes short, other dyes whole."""
    kind, hue = found["kind"].capitalize(), found["hue"].lower()
    kind = _DYES.get(kind, kind)
    hue = _CODES.get(hue.upper(), hue)
    if kind[0] in "PN":
        return f"{kind[0]}{_HUES[hue]}{found['number']}"
    return f"{kind} {hue.capitalize()} {found['number']}"


def base_names(name: str) -> tuple[str, ...]:
    """The names whose data hold for a pigment that has none of its own, the nearest first.

    A name with `hue` behind it, as older versions recorded it, has none: it is another pigment.
    """
    found = _SHORT.fullmatch(name) or _LONG.fullmatch(name)
    if found is None:
        return ()
    words = (found["words"] or "").split()
    if IMITATION in words:
        return ()
    grade = _spelled(found)
    grades = dict.fromkeys((grade, grade.split(":")[0]))
    fewer = [" ".join(words[:count]) for count in range(len(words) - 1, 0, -1)]
    behind = (*(f" {each}" for each in dict.fromkeys((*fewer, *words))), "")
    names = (f"{each}{more}" for each in grades for more in behind)
    return tuple(each for each in names if each != name)


def is_sub_grade(name: str) -> bool:
    """Whether a name ends its number with a sub-grade, such as PR48:2."""
    return ":" in name


def order_of(name: str) -> tuple[int, int, int, str]:
    """Where a name stands in a list: by class, hue in the order of the Colour Index, and number."""
    found = _SHORT.fullmatch(name) or _LONG.fullmatch(name)
    if found is None:
        return len(_CLASSES), 0, 0, name
    kind, hue = found["kind"].capitalize(), found["hue"].lower()
    kind = {"P": "Pigment", "N": "Natural", **_DYES}.get(kind, kind)
    place = max(_CLASSES.index(kind) - 1, 0)  # natural dyes stand among the pigments
    hues = (*_CODES.values(),)
    return place, hues.index(_CODES.get(hue.upper(), hue)), int(found["number"].split(":")[0]), name
