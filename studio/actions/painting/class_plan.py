"""What a class that paints a painting together needs; `plan_class.py` makes it."""

from dataclasses import dataclass

from studio.actions.advise_care import Document
from studio.actions.painting.plan import Plan, PlannedColour
from studio.actions.painting.substitutes import Substitute
from studio.actions.reorder_stock import ShoppingList
from studio.catalogue.care import Work
from studio.catalogue.care_points import Care
from studio.catalogue.paint import Paint
from studio.catalogue.painting import Passage


@dataclass(frozen=True, slots=True)
class LeftHome:
    """A paint of the painter's own plan that stays at home.

    Args:
        paint: the paint.
        care: why.
        colours: what it was to make, as the class makes it: by another mix, or not at all.
    """

    paint: Paint
    care: Care
    colours: tuple[PlannedColour, ...]

    @property
    def lost(self) -> tuple[PlannedColour, ...]:
        """The colours that nothing else makes within tolerance."""
        return tuple(each for each in self.colours if each.mix is None)


@dataclass(frozen=True, slots=True)
class Supply:
    """A paint for the whole class.

    Args:
        paint: the paint.
        each_ml: what one student needs.
        all_ml: what all need, with the reserve.
        containers: how many full ones hold that; None where their size is not on record.
    """

    paint: Paint
    each_ml: float
    all_ml: float
    containers: int | None


@dataclass(frozen=True, slots=True)
class PaperSupply:
    """The paper for the whole class.

    Args:
        pieces: of the size of the painting, with the reserve.
        each_sheet: how many pieces a sheet gives; None where its size is not on record, 0 where the
            painting is larger.
        needed: sheets, or mm of a roll.
    """

    pieces: int
    each_sheet: int | None
    needed: float


@dataclass(frozen=True, slots=True)
class ClassPlan:
    """A plan for a class, with what to bring and to mind.

    Args:
        plan: the plan for one student, without what stays at home.
        students: how many.
        kind: adults or children.
        reserve: share that is added for strips and mishaps.
        left_home: paints of the painter's own plan that the class does without.
        supplies: the paints to bring, in the order of the palette.
        paper: the paper to bring.
        shopping: what of all that has to be bought.
        substitutes: for each paint, how to do without it.
        care: what to mind with the palette in such a class.
        documents: the data sheets of the palette.
        no_spatter: passages that the class does not spatter.
    """

    plan: Plan
    students: int
    kind: Work
    reserve: float
    left_home: tuple[LeftHome, ...]
    supplies: tuple[Supply, ...]
    paper: PaperSupply
    shopping: ShoppingList
    substitutes: tuple[Substitute, ...]
    care: Care
    documents: tuple[Document, ...]
    no_spatter: tuple[Passage, ...]
