"""How well a paint's mixes can be predicted, in the terminal and as JSON."""

from rich.console import Console

from studio.actions.known_paint import KnownPaint
from studio.actions.model_inputs import UnknownPaint
from studio.actions.paint_knowledge import NextSwatch, PaintKnowledge
from studio.catalogue.paint import Paint, Status
from studio.sheets.fields import Fields
from studio.sheets.screen import indented, water_text


def print_known_paint(console: Console, known: KnownPaint) -> None:
    """The section of a paint's record on its mixes."""
    console.print("In mixes", style="bold")
    knowledge = known.knowledge
    if isinstance(knowledge, UnknownPaint):
        indented(console, f"too little is known to predict them: {knowledge.why}")
        indented(console, f"missing: {knowledge.missing}")
        return
    indented(
        console,
        f"predicted from {_rests_on(knowledge)}: two of three 1:1 mixes with your other paints are "
        f"expected within ΔE00 {knowledge.error:.1f}",
    )
    if knowledge.next is not None:
        indented(
            console,
            f"{_swatch_text(known, knowledge.next)}, read when it is dry, would bring that to "
            f"ΔE00 {knowledge.next.after:.1f}",
        )
    elif known.paint.facts.status is Status.IN_USE:
        indented(console, "no single swatch more would bring that down by ΔE00 0.1")


def known_paint_fields(known: KnownPaint) -> Fields:
    """The same as JSON; README.md documents the names."""
    knowledge = known.knowledge
    if isinstance(knowledge, UnknownPaint):
        return {
            "expected_delta_e": None,
            "washes": 0,
            "mixes": 0,
            "mix_swatches": 0,
            "estimated": 0,
            "unknown_because": knowledge.why,
            "missing": knowledge.missing,
            "next_swatch": None,
        }
    return {
        "expected_delta_e": round(knowledge.error, 2),
        "washes": knowledge.alone,
        "mixes": knowledge.mixes,
        "mix_swatches": knowledge.mixed,
        "estimated": knowledge.estimated,
        "unknown_because": None,
        "missing": None,
        "next_swatch": None
        if knowledge.next is None
        else {
            "recipe": [
                {"paint": known.partners[key].facts.code, "parts": parts}
                for key, parts in knowledge.next.parts
            ],
            "water": knowledge.next.water,
            "expected_delta_e": round(knowledge.next.after, 2),
        },
    }


def _rests_on(knowledge: PaintKnowledge) -> str:
    washes = "1 wash of it" if knowledge.alone == 1 else f"{knowledge.alone} washes of it"
    mixes = "1 mix" if knowledge.mixes == 1 else f"{knowledge.mixes} mixes"
    swatches = "1 swatch" if knowledge.mixed == 1 else f"{knowledge.mixed} swatches"
    text = f"{washes} and {swatches} of {mixes}" if knowledge.mixes else washes
    count = knowledge.alone + knowledge.mixed
    if knowledge.estimated == count:
        return f"{text} (all read as Lab without a spectrum)"
    return f"{text} ({knowledge.estimated} read as Lab alone)" if knowledge.estimated else text


def _swatch_text(known: KnownPaint, swatch: NextSwatch) -> str:
    water = water_text(swatch.water)
    others = [known.partners[key] for key, _ in swatch.parts if key != known.paint.id]
    if not others:
        return f"one more wash of it alone, {water}"
    ratio = ":".join(str(parts) for _, parts in swatch.parts)
    return f"one {ratio} mix with {' and '.join(map(_name, others))}, {water}"


def _name(paint: Paint) -> str:
    return f"{paint.facts.code} {paint.facts.name}"
