"""studio paper add|list|show|edit."""

from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any

import typer

from studio.cli import values
from studio.cli.session import asked, console, print_json, reading, today, writing
from studio.errors import BadInput

if TYPE_CHECKING:
    from studio.catalogue.container import ContainerKind

app = typer.Typer(no_args_is_help=True)


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the commands to the top."""
    top.add_typer(app, name=name, help=line)


Name = Annotated[str, typer.Argument(help="Code, or any part of maker and name.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]
Fibre = Annotated[
    str | None, typer.Option(help="cotton, cotton and wood pulp, wood pulp, linen or other.")
]
Weight = Annotated[str | None, typer.Option(help="Weight: 300gsm or 140lb.")]
Surface = Annotated[str | None, typer.Option(help="hot pressed, cold pressed or rough.")]
Size = Annotated[str | None, typer.Option(help="A full sheet: 560x760mm or 22x30in.")]
LowAt = Annotated[float | None, typer.Option(help="Report it as low from this on, sheets (2).")]
LowAtMm = Annotated[
    float | None, typer.Option(help="Report a roll as low from this on, mm (1000).")
]
Note = Annotated[str | None, typer.Option(help="Remarks.")]


@app.command()
def add(
    context: typer.Context,
    name: Annotated[str | None, typer.Argument(help="What its maker calls it.")] = None,
    maker: Annotated[str | None, typer.Option(help="Who makes it.")] = None,
    fibre: Fibre = None,
    weight: Weight = None,
    surface: Surface = None,
    size: Size = None,
    sheets: Annotated[float | None, typer.Option(help="How many sheets you have.")] = None,
    roll: Annotated[
        float | None, typer.Option(help="It comes as a roll: how many mm you have.")
    ] = None,
    kind: Annotated[
        str | None, typer.Option("--as", help="loose sheets, pad or block; loose by default.")
    ] = None,
    white: Annotated[
        str | None, typer.Option(help="Its measured white, Lab under D50/2°: 96,-0.5,2.")
    ] = None,
    low_at: LowAt = None,
    low_at_mm: LowAtMm = None,
    code: Annotated[str | None, typer.Option(help="Short code; by default initials.")] = None,
    note: Note = None,
) -> None:
    """Record a paper."""
    from studio.actions import make_reading  # noqa: PLC0415
    from studio.actions.add_paper import add_paper  # noqa: PLC0415
    from studio.catalogue.paper import PaperFacts  # noqa: PLC0415
    from studio.catalogue.reading import Method  # noqa: PLC0415

    facts = PaperFacts(
        code=code or "",
        name=asked(name, "the name of the paper", "its name as an argument"),
        maker=asked(maker, "the maker", "--maker"),
        **_given(
            fibre=fibre,
            weight=weight,
            surface=surface,
            size=size,
            low_at=low_at,
            low_at_mm=low_at_mm,
            note=note,
        ),
    )
    if sheets is not None and roll is not None:
        msg = "give one of --sheets and --roll; record rolls and sheets as two papers"
        raise BadInput(msg)
    read = None
    if white is not None:
        lab = make_reading.lab(*values.lab_triple(white), "D50", 2)
        how = make_reading.Circumstances(today(), Method.COLORIMETER)
        read = make_reading.reading_of_lab(lab, how)
    with writing(context, create=True) as work:
        key = add_paper(
            work,
            facts,
            today(),
            bought=sheets if roll is None else roll,
            kind=_kind(kind, roll),
            white=read,
        )
        work.commit()
        paper = work.papers.by_id(key)
    print(f"{paper.facts.code}  {paper.facts.full_name}")


@app.command("list")
def list_(context: typer.Context, as_json: Json = False) -> None:
    """List the papers."""
    with reading(context) as work:
        papers = work.papers.all()
    if as_json:
        from studio.sheets.fields import paper_fields  # noqa: PLC0415

        print_json([paper_fields(paper) for paper in papers])
        return
    from studio.sheets.lists import print_papers  # noqa: PLC0415

    print_papers(console(), papers)


@app.command()
def show(context: typer.Context, name: Name, as_json: Json = False) -> None:
    """Show everything on record for one paper."""
    from studio.actions.find import find_paper  # noqa: PLC0415

    with reading(context) as work:
        paper = find_paper(work, name)
        containers = work.containers.of_paper(paper.id)
    if as_json:
        from studio.sheets.fields import paper_fields  # noqa: PLC0415
        from studio.sheets.stock_fields import container_fields  # noqa: PLC0415

        print_json(
            {
                **paper_fields(paper),
                "containers": [container_fields(each) for each in containers],
            }
        )
        return
    from studio.sheets.shelf_view import show_paper  # noqa: PLC0415

    show_paper(console(), paper, containers)


@app.command()
def edit(
    context: typer.Context,
    paper_name: Name,
    name: Annotated[str | None, typer.Option(help="What its maker calls it.")] = None,
    maker: Annotated[str | None, typer.Option(help="Who makes it.")] = None,
    fibre: Fibre = None,
    weight: Weight = None,
    surface: Surface = None,
    size: Size = None,
    low_at: LowAt = None,
    low_at_mm: LowAtMm = None,
    code: Annotated[str | None, typer.Option(help="Short code.")] = None,
    note: Note = None,
) -> None:
    """Change what is recorded of a paper; only what you name is changed."""
    from studio.actions.add_paper import edit_paper  # noqa: PLC0415
    from studio.actions.find import find_paper  # noqa: PLC0415

    changes = _given(
        fibre=fibre,
        weight=weight,
        surface=surface,
        size=size,
        low_at=low_at,
        low_at_mm=low_at_mm,
        note=note,
    )
    named = {"name": name, "maker": maker, "code": code}
    changes |= {field: value for field, value in named.items() if value is not None}
    if not changes:
        msg = "say what to change: studio paper edit --help lists it"
        raise BadInput(msg)
    with writing(context) as work:
        paper = find_paper(work, paper_name)
        edit_paper(work, paper, replace(paper.facts, **changes))
        work.commit()
        paper = work.papers.by_id(paper.id)
    print(f"{paper.facts.code}  {paper.facts.full_name}")


def _given(
    *,
    fibre: str | None,
    weight: str | None,
    surface: str | None,
    size: str | None,
    low_at: float | None,
    low_at_mm: float | None,
    note: str | None,
) -> dict[str, Any]:
    """The facts that were given, as the catalogue knows them."""
    from studio.catalogue import paper as p  # noqa: PLC0415
    from studio.catalogue.checks import word  # noqa: PLC0415

    width, height = values.sheet_size(size)
    facts = {
        "fibre": None if fibre is None else word(fibre, p.Fibre, "fibre"),
        "weight_gsm": values.paper_weight(weight),
        "surface": None if surface is None else word(surface, p.Surface, "surface"),
        "sheet_width_mm": width,
        "sheet_height_mm": height,
        "low_at_sheets": low_at,
        "low_at_mm": low_at_mm,
        "note": note,
    }
    return {field: value for field, value in facts.items() if value is not None}


def _kind(kind: str | None, roll: float | None) -> "ContainerKind | None":
    from studio.catalogue.checks import word  # noqa: PLC0415
    from studio.catalogue.container import ContainerKind  # noqa: PLC0415

    if roll is not None:
        return ContainerKind.ROLL
    return word(kind, ContainerKind, "--as") if kind else None
