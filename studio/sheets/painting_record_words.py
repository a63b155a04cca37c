"""What terminal and page say alike of the record of a finished painting."""

from collections.abc import Sequence

from studio.catalogue.painting_record import (
    PaintingRecord,
    RecordedColour,
    RecordedMix,
    RecordedPaint,
    RecordedPassage,
)
from studio.sheets.screen import day_text, layers_text, water_text

_ORDINALS = ("first", "second", "third", "fourth", "fifth")


def facts_of(record: PaintingRecord) -> list[tuple[str, str]]:
    """Label and text of what is known of the painting as a whole."""
    facts = [
        ("paper", record.paper),
        ("size", f"{record.width_mm:g} x {record.height_mm:g} mm"),
        ("begun", day_text(record.started_on)),
        ("finished", day_text(record.finished_on)),
        ("within", f"ΔE00 {record.tolerance:g} passed for its colour"),
    ]
    if record.picture is not None:
        facts.append(("picture", record.picture))
    if record.note is not None:
        facts.append(("note", record.note))
    return facts


def laid_text(passage: RecordedPassage) -> str:
    """How a passage was to be laid."""
    parts = [passage.technique]
    parts += [] if passage.over is None else [f"over {passage.over}"]
    parts += [] if passage.share is None else [f"{100 * passage.share:.4g}% of the area"]
    parts += [layers_text(passage.layers)] if passage.layers > 1 else []
    parts.append("dry before the next" if passage.dry_before_next else "no wait before the next")
    return ", ".join(parts)


def wanted_text(colour: RecordedColour) -> str:
    """What a colour was taken from."""
    if colour.place is None:
        return str(colour.given)
    return colour.place + (f" of {colour.picture}" if colour.picture else "")


def recipe_text(mix: RecordedMix) -> str:
    """A recipe with its water and layers."""
    paints = " + ".join(f"{each.parts} {each.name}" for each in mix.paints)
    alone = mix.paints[0].name if len(mix.paints) == 1 else paints
    how = f"{water_text(mix.water)}, {layers_text(mix.layers)}, {mix.application}"
    return f"{mix.mix}  {alone}; {how}"


def card_text(record: PaintingRecord, mix: RecordedMix) -> str:
    """The card that shows a mix, where it is, and how far off it is."""
    place = f", {mix.kept_at}" if mix.kept_at else ", its place was not noted"
    paper = "" if mix.paper == record.paper else f", on {mix.paper}"
    passes = "within" if mix.passes else "beyond"
    chosen = ", chosen by name" if mix.named else ""
    tries = "one try" if mix.tries == 1 else f"{mix.tries} tries"
    return (
        f"card {mix.swatch} of {day_text(mix.made_on)}{place}{paper}: ΔE00 {mix.delta_e:.1f}, "
        f"{passes} {record.tolerance:g}, of {tries}{chosen}; read by {mix.method}"
    )


def paint_text(paint: RecordedPaint) -> str:
    """A paint so that it is found again: maker, pigments, lot and containers."""
    pigments = ", ".join(paint.pigments) or "pigments not recorded"
    parts = [f"{paint.code} {paint.maker} {paint.name}", paint.form, pigments]
    shelf = shelf_text(paint)
    return "; ".join([*parts, shelf] if shelf else parts)


def shelf_text(paint: RecordedPaint) -> str:
    """The lot of a paint, and the containers it was taken from or could be."""
    lots = [f"lot {paint.lot}"] if paint.lot else []
    return ", ".join(
        [
            *lots,
            *(each.code + (f" (lot {each.lot})" if each.lot else "") for each in paint.containers),
        ]
    )


def used_text(record: PaintingRecord) -> str:
    """What was booked."""
    parts = [f"{each.code} {each.used_ml:g} ml" for each in record.used]
    if record.paper_used is not None:
        parts.append(f"paper {record.paper_used:g}")
    return ", ".join(parts) or "nothing was booked"


def spectrum_text(mix: RecordedMix) -> str | None:
    """That a spectrum is kept, and of what range."""
    if mix.spectrum is None:
        return None
    spectrum = mix.spectrum
    return f"its spectrum, {spectrum.start:g} to {spectrum.end:g} nm, is kept too (--json)"


def without_mix_text(record: PaintingRecord, colour: RecordedColour) -> str:
    """Why the record has no mix for a colour."""
    if colour.tries is None:
        return "no mix that passed is on record for it"
    if not colour.tries:
        return "not tested: no mix is on record for it"
    tries = "one try" if colour.tries == 1 else f"{colour.tries} tries"
    return f"{tries}, none dry within ΔE00 {record.tolerance:g}: no mix is on record for it"


def all_without_mix_text(record: PaintingRecord) -> str | None:
    """Which colours the record has no mix for, in one sentence; None where each has one.

    A passage is named alone where none of its colours has a mix, else the colour in it.
    """
    lacking: dict[str, list[int]] = {}
    whole: dict[str, int] = {}
    for passage, number, _ in record.without_mix:
        lacking.setdefault(passage.name, []).append(number)
        whole[passage.name] = len(passage.colours)
    if not lacking:
        return None
    names = [
        name if len(numbers) == whole[name] else f"{_colours_text(numbers)} of {name}"
        for name, numbers in lacking.items()
    ]
    return f"No mix is on record for: {', '.join(names)}."


def _colours_text(numbers: Sequence[int]) -> str:
    """`the second colour`, `the first and third colours`, `colour 7`."""
    if max(numbers) > len(_ORDINALS):
        words = [str(each) for each in numbers]
        return f"colour{'s' if len(words) > 1 else ''} {' and '.join(words)}"
    words = [_ORDINALS[each - 1] for each in numbers]
    return f"the {' and '.join(words)} colour{'s' if len(words) > 1 else ''}"
