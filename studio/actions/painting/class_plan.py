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
    def is_unread(self) -> bool:
        """Whether it stays there only until label and data sheet are read."""
        return self.care.unread

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
class Simpler:
    """A colour whose mix is another because its parts are small and cards come first.

    Args:
        colour: as it is planned.
        delta_e: ΔE00 of the mix that the same paints would give without that.
    """

    colour: PlannedColour
    delta_e: float

    @property
    def cost(self) -> float | None:
        """By how much it is further off, ΔE00; None where small parts do not make it."""
        if self.colour.mix is None or self.colour.delta_e is None:
            return None
        return self.colour.delta_e - self.delta_e


@dataclass(frozen=True, slots=True)
class SmallParts:
    """What small parts cost a plan.

    Args:
        together: parts of paint in one well at most.
        near: ΔE00 within which a recorded mix was taken before anything predicted.
        colours: the colours that would be made without that, in working order.
    """

    together: int
    near: float
    colours: tuple[Simpler, ...]

    @property
    def costs(self) -> tuple[tuple[Simpler, float], ...]:
        """The colours that are made, with what each costs."""
        pairs = ((each, each.cost) for each in self.colours)
        return tuple((each, cost) for each, cost in pairs if cost is not None)

    @property
    def mean_cost(self) -> float | None:
        """What they cost on average, ΔE00; None where no colour is made."""
        costs = [cost for _, cost in self.costs]
        return sum(costs) / len(costs) if costs else None

    @property
    def lost(self) -> tuple[PlannedColour, ...]:
        """The colours that only larger parts make."""
        return tuple(each.colour for each in self.colours if each.cost is None)


@dataclass(frozen=True, slots=True)
class ClassPlan:
    """A plan for a class, with what to bring and to mind.

    Args:
        plan: the plan for one student, without what stays at home.
        students: how many.
        kind: adults or children.
        reserve: share that is added for strips and mishaps.
        left_home: paints of the painter's own plan that the class does without.
        never: paints in use that are never to be used, so that no mix holds them.
        supplies: the paints to bring, in the order of the palette.
        paper: the paper to bring.
        shopping: what of all that has to be bought.
        substitutes: for each paint, how to do without it.
        care: what to mind with the palette in such a class.
        documents: the data sheets of the palette.
        no_spatter: passages that the class does not spatter.
        small: what small parts cost; None where any parts may be mixed.
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
    small: SmallParts | None = None
    never: tuple[Paint, ...] = ()
