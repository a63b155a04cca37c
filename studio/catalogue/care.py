"""The kinds of work that cautions depend on, and the sources and words of what to mind."""

from enum import StrEnum
from typing import Final

from studio.catalogue.checks import number
from studio.catalogue.hazard import Basis
from studio.errors import BadInput

ARTS: Final = "Center for Safety in the Arts"
PRACTICE: Final = "common practice, no source"
LABELLING: Final = "ASTM D4236 (US), CLP (EU)"
MEMORY: Final = "from memory, no source seen"

UNKNOWN: Final = (
    "Its hazards are not known: take care, and read the label and the data sheet first."
)
OWNER_READ: Final = "No caution on record; go by what you noted of its label and its data sheet."
NOTHING_FOUND: Final = (
    "Looked up and nothing found, which does not mean that it is safe: read the label and the data "
    "sheet."
)
NEVER: Final = "Do not use it, for any kind of work."
UNREAD_TITLE: Final = "Not brought until label and data sheet are read"
UNREAD_HOW: Final = "when read: studio paint document CODE --file-or-address WHERE --marks WORDS"
LOOKED_UP_TITLE: Final = "looked up and nothing found, which does not mean that it is safe"


class Work(StrEnum):
    """A kind of work, or whom the work is with."""

    BRUSH = "brush"
    SPATTER = "spatter"
    SPRAY = "spray"
    DRY_PIGMENT = "dry pigment"
    SANDING = "sanding"
    RINSE_WATER = "rinse water"
    ADULTS = "adults"
    CHILDREN = "children"
    PREGNANCY = "pregnancy"


WORK_WORDS: Final = {
    Work.BRUSH: "brush work",
    Work.SPATTER: "spattering",
    Work.SPRAY: "spraying and airbrush",
    Work.DRY_PIGMENT: "work with dry pigment",
    Work.SANDING: "sanding, or lifting with abrasives",
    Work.RINSE_WATER: "pouring rinse water away",
    Work.ADULTS: "a class of adults",
    Work.CHILDREN: "a class of children",
    Work.PREGNANCY: "painting while pregnant or breast-feeding",
}

BASIS_WORDS: Final = {
    Basis.HARMONISED: "harmonised",
    Basis.EXEMPT: "exempt",
    Basis.NOTIFIED: "notified",
    Basis.ANNULLED: "annulled",
    Basis.NONE: "none known",
}
"""Where a hazard stands in the law, in a column of its own."""

BASIS_NOTE: Final = (
    "Exempt, annulled, none known or not looked up: this does not mean that it is safe. A question "
    "mark behind a word: only some grades or data sheets carry it, or a list names a parent dye."
)


def read_work(text: str) -> Work:
    """The kind of work that a text names, whole or by its first word: `rinse` is rinse water.

    Raises:
        BadInput: there is no such kind of work; the sentence lists them.
    """
    spelled = " ".join(text.lower().replace("-", " ").replace("_", " ").split())
    for work in Work:
        if spelled in {work.value, work.value.split()[0]}:
            return work
    msg = f"kind of work {text!r} is not known; choose one of: {', '.join(Work)}"
    raise BadInput(msg)


def class_size(students: int, least: int = 1) -> float:
    """How many students a class has.

    Raises:
        BadInput: fewer than the least, or more than 500.
    """
    return number(students, "the number of students", least, 500)


def read_class_kind(text: str) -> Work:
    """A class of adults or of children.

    Raises:
        BadInput: it is neither.
    """
    spelled = text.strip().lower()
    if spelled not in {Work.ADULTS, Work.CHILDREN}:
        msg = f"class {text!r} is not known; choose adults or children"
        raise BadInput(msg)
    return Work(spelled)
