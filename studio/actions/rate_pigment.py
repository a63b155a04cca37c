"""Add the owner's own rating to a pigment, or confirm what a source says of it."""

from datetime import date

from studio.catalogue import checks
from studio.catalogue.evidence import Evidence
from studio.catalogue.hazard import Hazard
from studio.catalogue.lightfastness import LightfastnessRating, Scale, spelled_rating
from studio.catalogue.pigment import Pigment
from studio.errors import BadInput, NotFound
from studio.storage.unit_of_work import UnitOfWork


def rate_pigment(  # noqa: PLR0913 - the fields of a rating
    work: UnitOfWork,
    pigment: Pigment,
    rating: str,
    source: str,
    today: date,
    *,
    scale: Scale = Scale.ASTM_D4303,
    medium: str = "watercolour",
    year: int | None = None,
    note: str | None = None,
) -> LightfastnessRating:
    """Add a rating that the owner read in a source; it counts as verified today.

    Raises:
        BadInput: the scale has no such rating, no source is named, or it is recorded already.
    """
    spelled = spelled_rating(scale, rating)
    added = LightfastnessRating(
        pigment=pigment.ci_name,
        scale=scale,
        rating=spelled,
        medium=checks.text(medium, "the medium").lower().replace("watercolor", "watercolour"),
        year=year if year is None else int(checks.number(year, "the year", 1800, today.year)),
        source=checks.text(source, "the source"),
        evidence=Evidence.OWNER,
        note=checks.optional_text(note, "the note"),
        verified_on=today,
        verified_from=checks.text(source, "the source"),
    )
    for known in pigment.ratings:
        if added.is_of_same_source(known):
            msg = f"{pigment.ci_name} has a rating from that source already: {known.rating}"
            raise BadInput(msg)
    work.pigments.add_rating(added)
    return added


def verify_pigment(  # noqa: PLR0913 - which rows, and by what
    work: UnitOfWork,
    pigment: Pigment,
    verified_from: str,
    today: date,
    *,
    ratings: bool,
    hazards: bool,
    source: str | None = None,
) -> int:
    """Mark ratings or hazards of a pigment as confirmed by the owner today.

    Args:
        work: the studio.
        pigment: the pigment.
        verified_from: what they were confirmed from, such as the tube's label.
        today: the day that is recorded.
        ratings: mark its lightfastness ratings.
        hazards: mark its hazards.
        source: only rows from this source; None for every source.

    Returns:
        How many rows were marked.

    Raises:
        BadInput: neither kind was named.
        NotFound: no unverified row is from that source.
    """
    if not (ratings or hazards):
        msg = "say what you verified: --lightfastness, --hazards or both"
        raise BadInput(msg)
    confirmed_from = checks.text(verified_from, "what it was verified from")
    every: list[LightfastnessRating | Hazard] = []
    every += pigment.ratings if ratings else ()
    every += pigment.hazards if hazards else ()
    rows = [row for row in every if row.as_base is None]
    if every and not rows:
        msg = (
            f"what is shown for {pigment.ci_name} is of {pigment.as_base}; verify it there, for "
            "all its variants"
        )
        raise NotFound(msg)
    if hazards and not (ratings or pigment.hazards):
        msg = (
            f"there is no caution of {pigment.ci_name} to verify; when you have read a paint's "
            "label and data sheet, record what they say: studio paint document"
        )
        raise NotFound(msg)
    sources = {row.source for row in rows if row.verified_on is None}
    wanted = sources if source is None else sources & {source}
    marked = sum(
        work.pigments.verify(
            pigment.ci_name, each, today, confirmed_from, ratings=ratings, hazards=hazards
        )
        for each in sorted(wanted)
    )
    if not sources:
        msg = f"everything of that kind on record for {pigment.ci_name} is verified already"
        raise NotFound(msg)
    if not marked:
        listed = "; ".join(sorted(sources))
        msg = f"nothing unverified of {pigment.ci_name} is from that source; sources: {listed}"
        raise NotFound(msg)
    return marked
