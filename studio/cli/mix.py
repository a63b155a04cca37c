"""studio mix add|list|show|edit; mix_chart.py draws."""

from typing import Annotated

import typer

from studio.cli import mix_chart
from studio.cli.session import asked, console, print_json, reading, today, writing
from studio.errors import BadInput

app = typer.Typer(no_args_is_help=True)
app.add_typer(mix_chart.app)


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the commands to the top."""
    top.add_typer(app, name=name, help=line)


Name = Annotated[str, typer.Argument(help='Code, name, or recipe such as "2 FU + 1 BS".')]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]


@app.command()
def add(
    context: typer.Context,
    recipe: Annotated[
        str | None, typer.Argument(help='Such as "2 ultramarine + 1 burnt sienna".')
    ] = None,
    name: Annotated[str | None, typer.Option(help="A name of your own.")] = None,
    note: Annotated[str | None, typer.Option(help="Remarks.")] = None,
) -> None:
    """Record a mix; the same recipe in another order or scale is the same mix."""
    from studio.actions.add_mix import add_mix  # noqa: PLC0415
    from studio.actions.find import find_recipe  # noqa: PLC0415
    from studio.actions.match_colour import ingredients  # noqa: PLC0415
    from studio.sheets.match_view import recipe_text  # noqa: PLC0415

    def check(text: str) -> None:
        with reading(context) as work:
            find_recipe(work, text)

    text = asked(recipe, "the recipe", "the recipe as an argument", check)
    with writing(context) as work:
        mix, new = add_mix(work, find_recipe(work, text), today(), name=name, note=note)
        work.commit()
        written = recipe_text(ingredients(work, mix))
    print(f"{mix.code}  {written}{'' if new else '  (recorded before)'}")


@app.command("list")
def list_(
    context: typer.Context,
    using: Annotated[
        list[str] | None, typer.Option("--with", help="Only mixes that hold this paint.")
    ] = None,
    as_json: Json = False,
) -> None:
    """List the mixes."""
    from studio.actions.find import find_paint  # noqa: PLC0415
    from studio.actions.match_colour import ingredients  # noqa: PLC0415

    with reading(context) as work:
        wanted = {find_paint(work, name).id for name in using or ()}
        mixes = [mix for mix in work.mixes.all() if wanted <= mix.recipe.paints]
        counts = work.mixes.swatch_counts()
        colours = work.swatches.colours_of_mixes()
        rows = [
            (mix, ingredients(work, mix), counts.get(mix.id, 0), colours.get(mix.id))
            for mix in mixes
        ]
    if as_json:
        from studio.sheets.fields import mix_fields  # noqa: PLC0415

        print_json([mix_fields(mix, recipe, count) for mix, recipe, count, _ in rows])
        return
    from studio.sheets.lists import print_mixes  # noqa: PLC0415

    print_mixes(console(), rows)


@app.command()
def show(context: typer.Context, name: Name, as_json: Json = False) -> None:
    """Show a mix and the family of colours its swatches show."""
    from studio.actions.find import find_mix  # noqa: PLC0415
    from studio.actions.match_colour import ingredients  # noqa: PLC0415

    with reading(context) as work:
        mix = find_mix(work, name)
        recipe = ingredients(work, mix)
        swatches = [(s, work.papers.by_id(s.paper_id)) for s in work.swatches.of_mix(mix.id)]
    if as_json:
        from studio.sheets.fields import mix_fields, swatch_fields  # noqa: PLC0415

        print_json(
            {
                **mix_fields(mix, recipe, len(swatches)),
                "swatches": [swatch_fields(s, mix, recipe, paper) for s, paper in swatches],
            }
        )
        return
    from studio.sheets.swatch_view import show_mix  # noqa: PLC0415

    show_mix(console(), mix, recipe, swatches)


@app.command()
def edit(
    context: typer.Context,
    mix_name: Name,
    name: Annotated[str | None, typer.Option(help='A name of your own; "" removes it.')] = None,
    note: Annotated[str | None, typer.Option(help='Remarks; "" removes them.')] = None,
) -> None:
    """Change name or note of a mix; its recipe stays, as its swatches were made with it."""
    from studio.actions.add_mix import describe_mix  # noqa: PLC0415
    from studio.actions.find import find_mix  # noqa: PLC0415

    if name is None and note is None:
        msg = "say what to change: --name or --note"
        raise BadInput(msg)
    with writing(context) as work:
        mix = find_mix(work, mix_name)
        describe_mix(work, mix, name, note)
        work.commit()
    print(f"{mix.code} is changed")
