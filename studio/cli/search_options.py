"""What is looked for and what may be answered: options that `match` and `formulate` share."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated

import typer

from studio.errors import BadInput

if TYPE_CHECKING:
    from studio.actions.match_colour import Wanted
    from studio.storage.unit_of_work import UnitOfWork

Target = Annotated[
    list[str],
    typer.Argument(
        metavar="TARGET",
        help='A colour: "#b5843c", "lab(62 12 30)", "lch(62 32 68)", a CSS name, '
        'Munsell "5YR 6/4", a swatch such as S12, or the name of a target.',
    ),
]
Lightfast = Annotated[
    str | None, typer.Option(help="Every pigment rated this or better: I, II, III, IV.")
]
WithoutHazard = Annotated[
    list[str] | None,
    typer.Option(
        help="No pigment of this hazard class or metal on record, such as cadmium, "
        "carcinogen, or any; paints without data are left out too."
    ),
]


def wanted_of(
    work: "UnitOfWork",
    *,
    paper: str | None,
    in_stock: bool,
    only: Sequence[str] | None,
    using: Sequence[str] | None,
    without: Sequence[str] | None,
    lightfast: str | None,
    without_hazard: Sequence[str] | None,
    dry_only: bool = True,
) -> "Wanted":
    """What may be answered, its names found in the studio."""
    from studio.actions.find import find_paint, find_paper  # noqa: PLC0415
    from studio.actions.match_colour import Wanted  # noqa: PLC0415
    from studio.catalogue.hazard import read_class  # noqa: PLC0415
    from studio.catalogue.lightfastness import category_rank  # noqa: PLC0415

    return Wanted(
        paper=None if paper is None else find_paper(work, paper),
        in_stock=in_stock,
        only=[find_paint(work, name) for name in only or ()],
        using=[find_paint(work, name) for name in using or ()],
        without=[find_paint(work, name) for name in without or ()],
        lightfast=None if lightfast is None else category_rank(lightfast),
        hazards=frozenset(
            read_class(word, work.pigments.hazard_classes()) for word in without_hazard or ()
        ),
        dry_only=dry_only,
    )


def lights_of(text: str | None, usual: tuple[str, ...] = ()) -> tuple[str, ...]:
    """The illuminants of an option such as `A,LED-B3`; the usual ones where it was not given."""
    from studio.colour.lights import read_lights  # noqa: PLC0415

    try:
        return usual if text is None else read_lights(text)
    except ValueError as error:
        raise BadInput(str(error)) from None
