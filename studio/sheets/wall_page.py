"""The cautions of a whole shelf on one sheet for the studio's wall, with where to verify them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from studio.catalogue.care import ARTS, BASIS_NOTE, LOOKED_UP_TITLE, PRACTICE, Work
from studio.catalogue.care_points import paint_points
from studio.catalogue.hazard import ADVICE, UNCLASSIFIED, Hazard
from studio.catalogue.paint import Paint
from studio.colour.lab import Lab
from studio.sheets.blocks import Block, Bullets, Chips, Grid, Page, Paragraph
from studio.sheets.card_sections import STANDING
from studio.sheets.care_columns import (
    LABEL_COLUMN,
    NO_DATA,
    NOT_NOTED,
    STANDING_COLUMNS,
    label_marks,
    looked_up_lines,
    standing_cells,
    standing_of,
    statement_codes,
    trust_mark,
)
from studio.sheets.care_page import avoid_text
from studio.sheets.screen import day_text

UNREAD_HEADING: Final = "Not looked up, so not known until label and data sheet are read:"
NOTED_HEADING: Final = "Not looked up, and known by what was noted of label and data sheet alone:"
SILENT_TITLE: Final = f"{LOOKED_UP_TITLE[0].upper()}{LOOKED_UP_TITLE[1:]}:"
_NO_BREAK: Final = "\N{NO-BREAK SPACE}"
MISSING: Final = "missing"
COLUMNS: Final = (
    *("paints", "keep from", "pigment", "caution", "harm by", *STANDING_COLUMNS, "verified"),
    *(LABEL_COLUMN, "data sheet"),
)
_WIDTHS: Final = (38, 34, 11, 23, 34, 16, 11, 14, 20, 17, 24, 22)
TITLE: Final = "Cautions for the paints of this studio"
RULES: Final = (
    f"No brush in the mouth, no food or drink at the table ({ARTS}).",
    f"No dust from dry pigment or sanding, no mist from spraying or spattering ({ARTS}).",
    f"Wash your hands before you eat; wipe up wet; let rinse water settle ({PRACTICE}).",
)


@dataclass(frozen=True, slots=True)
class Group:
    """Paints whose pigments and cautions are the same.

    Args:
        cautions: for each, the cells from `pigment` to `verified`.
        avoid_for: the kinds of work that they are better left out of.
        paints: the paints.
    """

    cautions: tuple[tuple[str, ...], ...]
    avoid_for: tuple[Work, ...]
    paints: tuple[Paint, ...]


def wall_page(paints: Sequence[Paint], patches: Mapping[int, Lab], today: date) -> Page:
    """The page for the wall, of the paints in use.

    Args:
        paints: the paints.
        patches: a colour for each paint id that has one.
        today: the day of the page, by which a data sheet is old.
    """
    blocks: list[Block] = [Bullets(RULES)]
    bare = [paint for paint in paints if paint.pigments and not _has_record(paint)]
    unread = [paint for paint in bare if paint.unread]
    noted = [paint for paint in bare if paint.not_known and not paint.unread]
    silent = [paint for paint in bare if not paint.not_known]
    if listed := [paint for paint in paints if paint not in bare]:
        blocks.append(care_grid(listed, patches, today))
    for heading, told in (
        (UNREAD_HEADING, unread),
        (NOTED_HEADING, noted),
        (SILENT_TITLE, silent),
    ):
        if told:
            blocks.append(Paragraph(heading, strong=True))
            blocks.append(Chips(tuple((patches.get(p.id), silent_text(p, today)) for p in told)))
    blocks.append(Paragraph(f"{BASIS_NOTE} {STANDING}", small=True))
    count = "1 paint" if len(paints) == 1 else f"{len(paints)} paints"
    return Page(
        TITLE,
        f"{day_text(today)}, {count} in use",
        tuple(blocks),
        f"{TITLE}, {day_text(today)}",
        notice=ADVICE,
        day=today,
        wide=True,
        fits=True,
    )


def groups_of(paints: Sequence[Paint]) -> list[Group]:
    """Paints in groups, what is left out of most kinds of work first."""
    held: dict[tuple[tuple[tuple[str, ...], ...], tuple[Work, ...]], list[Paint]] = {}
    for paint in paints:
        held.setdefault((_cautions(paint), _avoid_for(paint)), []).append(paint)
    groups = [Group(*key, tuple(alike)) for key, alike in held.items()]
    return sorted(groups, key=lambda group: (-len(group.avoid_for), group.cautions))


def care_grid(paints: Sequence[Paint], patches: Mapping[int, Lab], today: date) -> Grid:
    """The cautions of some paints as a table.

    Args:
        paints: the paints.
        patches: a colour for each paint id that has one.
        today: the day by which a data sheet is old.
    """
    rows: list[tuple[str, ...]] = []
    chips: list[tuple[Lab | None, ...]] = []
    joined: list[int] = []
    for group in groups_of(paints):
        names = "\n".join(
            " ".join(f"{each.facts.code} {each.facts.name}".split()) for each in group.paints
        )
        marks = _each(group.paints, [label_marks(each) or NOT_NOTED for each in group.paints])
        sheets = _each(group.paints, [sheet_text(each, today) for each in group.paints])
        for number, cells in enumerate(group.cautions):
            if number:
                joined.append(len(rows))
                rows.append(("", "", *cells, "", ""))
                chips.append(())
            else:
                rows.append((names, _kept_from(group.avoid_for), *cells, marks, sheets))
                chips.append(tuple(patches.get(each.id) for each in group.paints))
    return Grid(COLUMNS, tuple(rows), _WIDTHS, joined=frozenset(joined), chips=tuple(chips))


def _kept_from(works: Sequence[Work]) -> str:
    """Kinds of work in still fewer words: spattering and spraying are told as mist."""
    return avoid_text(works).replace("spatter, spray, dust", "mist, dust") or "–"


def sheet_text(paint: Paint, today: date) -> str:
    """The day of a paint's data sheet, or what is wrong with it, in a word or two."""
    sheet = paint.data_sheet
    if sheet is None or sheet.location is None:
        return MISSING
    if sheet.dated_on is None:
        return "no date"
    told = day_text(sheet.dated_on).replace(" ", _NO_BREAK)
    return told if sheet.fault(today) is None else f"{told}, old"


def silent_text(paint: Paint, today: date) -> str:
    """A paint without any caution on record in one line, and who looked for one, if anybody."""
    facts = paint.facts
    marks = label_marks(paint)
    where = "; ".join(looked_up_lines([paint]))
    return "; ".join(
        (
            f"{facts.code} {facts.name}, {', '.join(p.label for p in paint.pigments)}",
            *filter(None, (where,)),
            f"label {NOT_NOTED}" if marks is None else f"label: {marks}",
            f"sheet {sheet_text(paint, today)}",
        )
    )


def _has_record(paint: Paint) -> bool:
    """Whether there is a caution, or a pigment of which nothing is known and so one may be."""
    return any(pigment.hazards or not pigment.has_data for pigment in paint.pigments)


def _cautions(paint: Paint) -> tuple[tuple[str, ...], ...]:
    if not paint.pigments:
        return (_blank("not recorded", "no data: read label and data sheet", NO_DATA),)
    rows: list[tuple[str, ...]] = []
    for pigment in paint.pigments:
        if not pigment.has_data:
            rows.append(_blank(pigment.ci_name, "no data: read label and data sheet", NO_DATA))
        elif not pigment.hazards:
            rows.append(_blank(pigment.label, "none on record", standing_of(pigment)))
        rows += [_hazard_cells(hazard) for hazard in pigment.hazards]
    return tuple(rows)


def _blank(pigment: str, caution: str, other: str) -> tuple[str, ...]:
    return (pigment, caution, "–", "", "", "", other, "–")


def _hazard_cells(hazard: Hazard) -> tuple[str, ...]:
    words = [word for word in hazard.class_words if word.rstrip("?") != UNCLASSIFIED]
    return (
        hazard.label,
        ("do not use: " if hazard.never_use else "")
        + (", ".join((*hazard.metals, *words)) or "no class on record"),
        ", ".join(route.removeprefix("breathing ") for route in hazard.routes) or "not on record",
        *_standing(hazard),
        trust_mark(verified=hazard.verified_on is not None).replace(" ", _NO_BREAK),
    )


def _standing(hazard: Hazard) -> tuple[str, ...]:
    """The cells of its standing, what other lists say of it under `other`."""
    *regulated, other = standing_cells(hazard.basis, statement_codes(hazard))
    listed = "; ".join(listing.text for listing in hazard.listings)
    return *regulated, "; ".join(filter(None, (other, listed)))


def _avoid_for(paint: Paint) -> tuple[Work, ...]:
    return tuple(work for work in Work if any(each.avoid for each in paint_points(paint, work)))


def _each(paints: Sequence[Paint], texts: Sequence[str]) -> str:
    """What holds for each of some paints, said once where it is the same."""
    if len(set(texts)) == 1:
        return texts[0]
    pairs = zip(paints, texts, strict=True)
    return "; ".join(f"{paint.facts.code}:{_NO_BREAK}{text}" for paint, text in pairs)
