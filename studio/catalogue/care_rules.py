"""What to mind with hazards in each kind of work: rules as data, and no verdict of harmlessness."""

from dataclasses import dataclass
from typing import Final

from studio.catalogue.care import ARTS, PRACTICE, Work
from studio.catalogue.hazard import HEAVY_METALS


@dataclass(frozen=True, slots=True)
class Rule:
    """What to mind in some kinds of work where a hazard has one of several marks.

    Args:
        works: the kinds of work.
        text: what to mind, in a painter's words.
        source: where the advice is from.
        avoid: whether the paint is better left out of this work.
        milder: passed over where another rule already says to avoid the hazard.
        metals: of `METALS`.
        classes: hazard classes.
        codes: statement codes.
        routes: ways of harm.
    """

    works: frozenset[Work]
    text: str
    source: str = PRACTICE
    avoid: bool = False
    milder: bool = False
    metals: frozenset[str] = frozenset()
    classes: frozenset[str] = frozenset()
    codes: frozenset[str] = frozenset()
    routes: frozenset[str] = frozenset()


SWALLOWED: Final = frozenset({"H300", "H301", "H302", "H304"})
ON_SKIN: Final = frozenset({"H310", "H311", "H312"})
BREATHED: Final = frozenset({"H330", "H331", "H332", "EUH071", "EUH211", "EUH212"})
GRAVE: Final = frozenset(
    {"carcinogen", "mutagen", "reproductive toxicity", "organ toxicity", "airway sensitiser",
     "endocrine disruptor"}
)  # fmt: skip
"""Classes of harm that lasts; with inhaled acute toxicity and heavy metals not for the air."""
ALLERGIES: Final = frozenset({"skin sensitiser", "airway sensitiser"})
TOUCH: Final = frozenset({"skin sensitiser", "skin irritation", "skin corrosion"})
NATURE: Final = frozenset(
    {"aquatic", "environmental endocrine disruptor", "persistent and bioaccumulative",
     "persistent and mobile"}
)  # fmt: skip
"""Classes of harm to water and what lives in it."""
EYES: Final = frozenset({"eye damage", "eye irritation"})
FIRE: Final = frozenset({"flammable", "oxidiser", "explosive"})
CHILD: Final = GRAVE | TOUCH | EYES | frozenset({"acute toxicity", "aspiration"})
CHILD_CODES: Final = BREATHED | {"EUH201", "EUH201A", "EUH207"}
"""Children are kept from every statement of harm to people; a route alone is no statement."""

_AIR: Final = frozenset({Work.SPATTER, Work.SPRAY, Work.DRY_PIGMENT, Work.SANDING})
_DUST: Final = frozenset({Work.DRY_PIGMENT, Work.SANDING})
_HANDS: Final = _AIR | {Work.BRUSH, Work.ADULTS, Work.PREGNANCY}

AVOID_UNREAD: Final = frozenset(Work) - {Work.BRUSH}
"""The kinds of work that leave paints out: all but the painter's own brush work."""


def _air(work: Work, text: str) -> Rule:
    return Rule(
        frozenset({work}), text, avoid=True, metals=HEAVY_METALS, classes=GRAVE, codes=BREATHED
    )


RULES: Final = (
    Rule(
        frozenset({Work.BRUSH, Work.SPATTER}),
        "Keep it out of the mouth: no brush between the lips, hands washed before you eat.",
        source=ARTS,
        metals=HEAVY_METALS,
        codes=SWALLOWED,
        routes=frozenset({"swallowing"}),
    ),
    Rule(
        frozenset({Work.BRUSH}),
        "Keep it wet: wipe up splashes before they dry to dust, and use it by brush alone.",
        classes=GRAVE,
        codes=BREATHED,
        routes=frozenset({"breathing dust", "breathing mist"}),
    ),
    _air(
        Work.SPATTER,
        "Do not spatter it: flick no mist. Touch single drops on with the tip, or take another.",
    ),
    _air(Work.SPRAY, "Do not spray or airbrush it: the mist is breathed. Lay it with a brush."),
    _air(Work.DRY_PIGMENT, "Do not handle it as dry powder: use it as made-up paint, wet."),
    _air(Work.SANDING, "Do not sand or scrape it: lift it with water and a sponge."),
    Rule(
        frozenset({Work.SPRAY}),
        "Do not spray it: its mist is a way of harm on record.",
        avoid=True,
        milder=True,
        routes=frozenset({"breathing mist"}),
    ),
    Rule(
        frozenset({Work.SPATTER}),
        "Spatter it low and wet, in fresh air: its mist is a way of harm on record.",
        milder=True,
        routes=frozenset({"breathing mist"}),
    ),
    Rule(
        _DUST,
        "Keep its dust out of the air: a way of harm on record. Work wet, wipe up wet.",
        milder=True,
        routes=frozenset({"breathing dust"}),
    ),
    Rule(
        _HANDS,
        "Keep it off the skin: gloves where hands get wet with it, none of it on cuts.",
        classes=TOUCH,
        codes=ON_SKIN,
        routes=frozenset({"skin"}),
    ),
    Rule(
        _HANDS,
        "Keep it out of the eyes; rinse at once with plenty of water, and see a doctor.",
        classes=EYES,
        codes=frozenset({"EUH070"}),
        routes=frozenset({"eyes"}),
    ),
    Rule(
        _AIR | {Work.BRUSH, Work.RINSE_WATER, Work.ADULTS, Work.CHILDREN},
        "Keep acids away from it, vinegar and descaler too: they may free a toxic gas.",
        codes=frozenset({"EUH029", "EUH031", "EUH032"}),
    ),
    Rule(
        _DUST | {Work.BRUSH, Work.ADULTS},
        "Do not heat it: no heat gun, no hot plate, and no scraps on the fire.",
        routes=frozenset({"heating"}),
    ),
    Rule(
        _DUST,
        "No flame and no sparks: its dry powder may burn or feed a fire.",
        classes=FIRE,
    ),
    Rule(
        frozenset({Work.RINSE_WATER}),
        "Not down the drain: let it settle in a jar, and take the sludge where local rules say.",
        avoid=True,
        metals=HEAVY_METALS,
        classes=NATURE,
        routes=frozenset({"environment"}),
    ),
    Rule(
        frozenset({Work.ADULTS}),
        "Keep it out of students' hands unless the label and the data sheet say otherwise.",
        avoid=True,
        metals=HEAVY_METALS,
        classes=GRAVE | {"acute toxicity"},
    ),
    Rule(
        frozenset({Work.ADULTS}),
        "Ask who has an allergy before you hand it out.",
        classes=ALLERGIES,
        metals=frozenset({"nickel", "cobalt", "chromate"}),
    ),
    Rule(
        frozenset({Work.ADULTS}),
        "Only as wet paint, laid with a brush; no dust, no mist and no heat.",
        milder=True,
        routes=frozenset({"swallowing", "breathing dust", "breathing mist", "heating"}),
    ),
    Rule(
        frozenset({Work.CHILDREN}),
        "Leave it at home.",
        avoid=True,
        metals=HEAVY_METALS,
        classes=CHILD,
        codes=CHILD_CODES,
    ),
    Rule(
        frozenset({Work.CHILDREN}),
        "Only if label and data sheet allow it at their age, as wet paint by brush: no mouth, no "
        "dust, no mist, no heat, and hands washed after.",
        milder=True,
        routes=frozenset(
            {"swallowing", "skin", "eyes", "breathing dust", "breathing mist", "heating"}
        ),
    ),
    Rule(
        frozenset({Work.PREGNANCY}),
        "Leave it out, and ask your doctor before you use it again.",
        avoid=True,
        metals=frozenset({"lead", "mercury", "cadmium", "arsenic", "chromate"}),
        classes=frozenset(
            {"reproductive toxicity", "mutagen", "carcinogen", "endocrine disruptor"}
        ),
        codes=frozenset({"H362"}),
    ),
    Rule(
        frozenset({Work.PREGNANCY}),
        "Ask your doctor first, with the label and the data sheet in hand.",
        milder=True,
        metals=HEAVY_METALS,
        classes=frozenset({"acute toxicity", "organ toxicity", "airway sensitiser"}),
        routes=frozenset({"swallowing", "breathing dust", "breathing mist"}),
    ),
)
"""Every rule, the avoiding ones of a kind of work before its milder ones."""
