"""A match in the terminal: target beside swatch, words, recipe and where the card is."""

from collections.abc import Iterable, Sequence

from rich.console import Console
from rich.text import Text

from studio.actions.match_colour import ANOTHER_COLOUR, Ingredient, Match, MatchResult
from studio.catalogue.hazard import ADVICE, UNCLASSIFIED, Hazard
from studio.catalogue.hazard_grade import Grade, grade_of, gravest_first
from studio.catalogue.lightfastness import LightfastnessRating
from studio.catalogue.paint import Paint
from studio.catalogue.reading import State
from studio.colour.display import on_screen
from studio.colour.lab import Lab
from studio.colour.words import separation
from studio.sheets.own_tests import own_test_text
from studio.sheets.screen import (
    day_text,
    indented,
    lab_text,
    layers_text,
    legend,
    make_it,
    patch,
    print_parts,
    separation_text,
    shows_colour,
    verified_text,
    water_text,
)

_INDENT = 5
MILD = "°"
"""Behind a recipe with a paint of which a mild caution is on record."""
_LEADS = {Grade.GRAVE: "GRAVE", Grade.MIDDLE: "caution", Grade.MILD: "mild"}
LOOK_BETWEEN = 2.0
"""ΔE00 of the nearest swatch above which a search points to the tints between swatches."""
_BETWEEN = "--between also looks at the waters between the swatches of a mix."


def print_match(console: Console, result: MatchResult) -> None:
    """Print what a search found."""
    labs = _print_target(console, result)
    if result.nearest is None:
        indented(
            console, "No swatch passes these filters; take one away, or log the first swatch.", 0
        )
        return
    if not result.matches:
        console.print("No recorded mix is as near as that.")
    for match in result.matches:
        _print_one(console, result, match)
    if result.between is not None:
        from studio.sheets.between_view import print_between  # noqa: PLC0415 - numpy

        print_between(console, result.target.lab, result.between)
    elif result.nearest_delta_e00 > LOOK_BETWEEN:
        indented(console, _BETWEEN, 0, "dim")
    if result.lights:
        from studio.sheets.light_view import print_lights_note  # noqa: PLC0415

        print_lights_note(console, result)
    if not result.is_near:
        _print_need(console, result, result.nearest)
    print_advice(console, [part.paint for match in result.matches for part in match.recipe])
    note = legend(console, *labs, *(match.swatch.lab for match in result.matches))
    if note:
        indented(console, note, 0, "dim")


def _print_target(console: Console, result: MatchResult) -> tuple[Lab, ...]:
    """Print the target, and before it the wet patch it follows from; the colours shown."""
    target = result.target
    heading = Text("Target  ")
    labs = (target.lab,) if result.drying is None else (result.drying.wet.lab, target.lab)
    if shows_colour(console) or len(labs) > 1 or target.given != on_screen(target.lab).hex:
        heading.append_text(patch(console, *labs)).append("  ")
    console.print(heading.append(target.given), soft_wrap=True)
    indented(console, lab_text(target.lab), 8, "dim")
    if target.note:
        indented(console, target.note, 8, "dim")
    if result.drying is not None:
        from studio.sheets.drying_view import print_drying  # noqa: PLC0415

        print_drying(console, result.drying)
    console.print()
    return labs


def _print_one(console: Console, result: MatchResult, match: Match) -> None:
    facts = match.swatch.facts
    name = f"  {match.mix.name}" if match.mix.name else ""
    first: list[Text | str] = [
        *never_words(match.recipe),
        patch(console, result.target.lab, match.swatch.lab),
        Text(f"{result.metric.symbol} {match.difference:.2f}", "bold"),
        f"{match.mix.code}{name}",
    ]
    print_parts(console, f"{match.rank:>3}  ", first, _INDENT)
    words = f"{match.separation.sentence}  ({separation_text(match.separation)})"
    how = [water_text(facts.water), layers_text(facts.layers), str(facts.application)]
    if match.swatch.state is State.WET:
        how.append("read wet")
    where = [match.paper.facts.full_name, f"swatch {facts.code}"]
    where += [facts.kept_at] if facts.kept_at else []
    where.append(day_text(facts.made_on))
    lines = [
        (marked_recipe(match.recipe), "bold"),
        (words, ""),
        (" · ".join(how), ""),
        (" · ".join(where), ""),
        *((line, "") for line in _light_lines(result, match)),
        (shelf_text(match.out_of_stock, match.worst_rating), ""),
        *((own_test_text(own), "") for own in match.own_tests if own.needs_attention),
        *((line, "") for line in caution_lines(match.recipe)),
    ]
    for line, style in lines:
        indented(console, line, _INDENT, style)
    console.print()


def _light_lines(result: MatchResult, match: Match) -> list[str]:
    if not result.lights:
        return []
    from studio.sheets.light_view import light_lines  # noqa: PLC0415

    return list(light_lines(result, match))


def recipe_text(recipe: Sequence[Ingredient]) -> str:
    """A recipe as people say it, such as `2 French Ultramarine + 1 Burnt Sienna`."""
    if len(recipe) == 1:
        return recipe[0].paint.facts.name
    return " + ".join(f"{part.parts} {part.paint.facts.name}" for part in recipe)


def never_words(recipe: Sequence[Ingredient]) -> list[Text | str]:
    """What stands first where a paint of a recipe is never to be used; else nothing."""
    codes = [part.paint.facts.code for part in recipe if part.paint.never_use]
    return [Text(f"DO NOT USE {', '.join(codes)}", "bold")] if codes else []


def marked_recipe(recipe: Sequence[Ingredient]) -> str:
    """A recipe with a mark behind it where a paint has a mild caution; `mild_note` tells which."""
    mild = any(grade_of(each) is Grade.MILD for part in recipe for each in part.paint.hazards)
    return f"{recipe_text(recipe)} {MILD}" if mild else recipe_text(recipe)


def grave_text(recipe: Iterable[Ingredient]) -> str | None:
    """The grave cautions of a recipe in few words; None where there are none."""
    told = [
        f"{', '.join(codes)} {hazard.label} {_what(hazard)}"
        for hazard, codes in _holders(recipe).items()
        if grade_of(hazard) is Grade.GRAVE
    ]
    return f"grave: {'; '.join(told)}" if told else None


def caution_lines(
    recipe: Iterable[Ingredient], *, mild: bool = False, unknown: bool = True
) -> list[str]:
    """One line for each pigment that asks for care: which paints hold it, what it is and does.

    The gravest stand first; mild ones are left to `mild_note` unless asked for. What nobody looked
    up is said as well, unless a screen says it by itself: it has no grade, and is never mild by
    silence.
    """
    parts = list(recipe)
    lines = []
    for hazard, codes in _holders(parts).items():
        grade = grade_of(hazard)
        if grade is Grade.MILD and not mild:
            continue
        if hazard.never_use:
            lines.append(
                f"never use {hazard.label} ({', '.join(codes)}): {hazard.summary} "
                f"({verified_text(hazard.verified_on)})"
            )
            continue
        routes = f"; harm by {', '.join(hazard.routes)}" if hazard.routes else ""
        lines.append(
            f"{_LEADS[grade]} {hazard.label} ({', '.join(codes)}): {_what(hazard)}{routes}; "
            f"{verified_text(hazard.verified_on)}"
        )
    codes = [part.paint.facts.code for part in parts if part.paint.unread]
    if codes and unknown:
        lines.append(f"hazards not known ({', '.join(codes)}): read label and data sheet first")
    return lines


def mild_note(paints: Iterable[Paint]) -> str | None:
    """What the mark of mild cautions stands for, once at the end; None where none has it."""
    holders = _holders(Ingredient(paint, 1) for paint in dict.fromkeys(paints))
    words: dict[str, dict[str, None]] = {}
    mild = {each: codes for each, codes in holders.items() if grade_of(each) is Grade.MILD}
    alike = len({each.verified_on for each in mild}) == 1
    for hazard, codes in mild.items():
        trust = "" if alike else f" ({verified_text(hazard.verified_on)})"
        words.setdefault(f"{_what(hazard)}{trust}", {}).update(dict.fromkeys(codes))
    if not words:
        return None
    told = "; ".join(f"{', '.join(codes)} {what}" for what, codes in words.items())
    if alike:
        told += f" ({verified_text(next(iter(mild)).verified_on)})"
    return (
        f"{MILD} mild, and no verdict: {told}. Some grades, traces or ways of harm alone; "
        "label and data sheet decide."
    )


def print_advice(console: Console, paints: Sequence[Paint]) -> None:
    """What the mark of mild cautions stands for, and where every caution is to be verified."""
    mild = mild_note(paints)
    if mild is not None:
        indented(console, mild, 0, "dim")
    if any(paint.hazards or paint.unread for paint in paints):
        indented(console, ADVICE, 0, "dim")


def _what(hazard: Hazard) -> str:
    """Its metals and classes; without these its ways of harm, or what it is."""
    if grade_of(hazard) is Grade.MILD and hazard.codes and all(x.hedged for x in hazard.codes):
        metals = [f"{metal}?" for metal in hazard.metals]
    else:
        metals = list(hazard.metals)
    classes = [word for word in hazard.class_words if word.rstrip("?") != UNCLASSIFIED]
    return ", ".join([*metals, *classes] or [*hazard.routes] or [hazard.agent])


def _holders(recipe: Iterable[Ingredient]) -> dict[Hazard, list[str]]:
    """Each hazard of a recipe, the gravest first, with the codes of the paints that hold it."""
    holders: dict[Hazard, list[str]] = {}
    for part in recipe:
        for hazard in part.paint.hazards:
            holders.setdefault(hazard, []).append(part.paint.facts.code)
    return {hazard: holders[hazard] for hazard in gravest_first(holders)}


def shelf_text(out_of_stock: Iterable[Paint], rating: LightfastnessRating | None) -> str:
    """Which paints of a recipe are missing, and how lightfast it is by its worst rating."""
    missing = ", ".join(paint.facts.name for paint in out_of_stock)
    stock = f"not in stock: {missing}" if missing else "all paints in stock"
    if rating is None:
        return f"{stock} · lightfastness not known for every pigment"
    return (
        f"{stock} · lightfastness {rating.category} by {rating.label} "
        f"({rating.scale}, {verified_text(rating.verified_on)})"
    )


def _print_need(console: Console, result: MatchResult, nearest: Match) -> None:
    """Say that nothing is near, and how the nearest would have to change."""
    need = separation(nearest.swatch.lab.coordinates, result.target.lab.coordinates)
    indented(
        console,
        f"Nothing recorded is within ΔE00 {ANOTHER_COLOUR:g} of this colour. The nearest is "
        f"{nearest.mix.code} (swatch {nearest.swatch.facts.code}, "
        f"ΔE00 {result.nearest_delta_e00:.1f}). {make_it(need)}.",
        0,
    )
