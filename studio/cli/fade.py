"""studio fade start|read|list|report|end."""

from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli import values
from studio.cli.chart_files import Html, Pdf, Png, draw_files
from studio.cli.session import console, print_json, reading, today, writing
from studio.errors import BadInput

if TYPE_CHECKING:
    from collections.abc import Sequence

    from studio.actions.fade_results import FadeResult
    from studio.colour.lab import Lab
    from studio.sheets.blocks import Page
    from studio.sheets.chart_sheet import Kind

app = typer.Typer(no_args_is_help=True)


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the commands to the top."""
    top.add_typer(app, name=name, help=line)


Test = Annotated[str, typer.Argument(help="Code of the fade test, such as F1.")]
On = Annotated[str | None, typer.Option(help="The day: 2026-03-14; by default today.")]
Note = Annotated[str | None, typer.Option(help="Remarks.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]


@app.command()
def start(
    context: typer.Context,
    item: Annotated[
        str,
        typer.Argument(
            metavar="PAINT_OR_MIX", help='A paint by code or name, or a mix: M12, "2 FU + 1 BS".'
        ),
    ],
    place: Annotated[str, typer.Option(help='Where the strip hangs: "south window".')],
    on: On = None,
    paper: Annotated[str | None, typer.Option(help="The paper of the strip.")] = None,
    note: Note = None,
) -> None:
    """Start a test: hang up a strip of a paint or mix, half of it covered."""
    from studio.actions.fade_results import fade_result  # noqa: PLC0415
    from studio.actions.find import find_paint_or_mix, find_paper  # noqa: PLC0415
    from studio.actions.start_fade import start_fade  # noqa: PLC0415
    from studio.sheets.own_tests import subject_text  # noqa: PLC0415

    with writing(context) as work:
        test = start_fade(
            work,
            find_paint_or_mix(work, item),
            place=place,
            started_on=values.day(on),
            today=today(),
            paper=None if paper is None else find_paper(work, paper),
            note=note,
        )
        of = subject_text(fade_result(work, test))
        work.commit()
    print(f"{test.code}  {of}: {test.place}, from {test.started_on.isoformat()}")


@app.command()
def read(
    context: typer.Context,
    code: Test,
    covered: Annotated[
        str | None, typer.Option(help="L*,a*,b* of the covered half: 41,2,-12.")
    ] = None,
    exposed: Annotated[
        str | None, typer.Option(help="L*,a*,b* of the half in the light, on the same day.")
    ] = None,
    blue_wool: Annotated[
        int | None,
        typer.Option(help="Highest step of a blue wool card beside it that has faded: 0 to 8."),
    ] = None,
    on: On = None,
    note: Note = None,
    illuminant: Annotated[str, typer.Option(help="Illuminant of both halves.")] = "D50",
    observer: Annotated[int, typer.Option(help="Observer of both: 2 or 10 degrees.")] = 2,
) -> None:
    """Add a reading: both halves of the strip on one day."""
    from studio.actions.fade_results import fade_result  # noqa: PLC0415
    from studio.actions.find_fade import find_test  # noqa: PLC0415
    from studio.actions.read_fade import HalvesRead, read_fade  # noqa: PLC0415
    from studio.sheets.own_tests import own_test_text  # noqa: PLC0415

    halves = HalvesRead(
        read_on=values.day(on),
        covered=_lab(covered, illuminant, observer),
        exposed=_lab(exposed, illuminant, observer),
        blue_wool=blue_wool,
        note=note,
    )
    with writing(context) as work:
        test = read_fade(work, find_test(work, code), halves, today())
        result = fade_result(work, test)
        work.commit()
    print(own_test_text(result))


@app.command("list")
def list_(context: typer.Context, as_json: Json = False) -> None:
    """List the tests with how far each has changed."""
    from studio.actions.fade_results import every_fade_result  # noqa: PLC0415

    with reading(context) as work:
        results = every_fade_result(work)
    if as_json:
        _print_json(results)
        return
    from studio.sheets.fade_view import print_fade_list  # noqa: PLC0415

    print_fade_list(console(), results, today())


@app.command()
def report(
    context: typer.Context,
    code: Annotated[
        str | None, typer.Argument(help="Code of a fade test; by default every test.")
    ] = None,
    html: Html = None,
    png: Png = None,
    pdf: Pdf = None,
    as_json: Json = False,
) -> None:
    """Report each reading, and whether the tests contradict the published ratings."""
    from studio.actions.fade_results import every_fade_result, fade_result  # noqa: PLC0415
    from studio.actions.find_fade import find_test  # noqa: PLC0415

    with reading(context) as work:
        results = (
            every_fade_result(work) if code is None else (fade_result(work, find_test(work, code)),)
        )
    drawn = [result for result in results if result.test.readings]
    if (html or png or pdf) and not drawn:
        msg = "there is no reading to draw yet; add one with: studio fade read"
        raise BadInput(msg)
    draw_files(
        lambda kind: _drawn(drawn, kind),
        lambda picture: _page(drawn, picture),
        html=html,
        png=png,
        pdf=pdf,
    )
    if as_json:
        _print_json(results)
        return
    from studio.sheets.fade_view import print_fade_report  # noqa: PLC0415

    print_fade_report(console(), results, today())


@app.command()
def end(context: typer.Context, code: Test, on: On = None) -> None:
    """End a test: the strip was taken down. Its readings stay."""
    from studio.actions.end_fade import end_fade  # noqa: PLC0415
    from studio.actions.fade_results import fade_result  # noqa: PLC0415
    from studio.actions.find_fade import find_test  # noqa: PLC0415
    from studio.sheets.fade_view import days_text  # noqa: PLC0415
    from studio.sheets.own_tests import own_test_text  # noqa: PLC0415

    with writing(context) as work:
        test = end_fade(work, find_test(work, code), values.day(on), today())
        result = fade_result(work, test)
        work.commit()
    print(f"{test.code} ended after {days_text(result.days(today()))}; {own_test_text(result)}")


def _lab(text: str | None, illuminant: str, observer: int) -> "Lab | None":
    from studio.actions.make_reading import lab  # noqa: PLC0415

    return None if text is None else lab(*values.lab_triple(text), illuminant, observer)


def _drawn(results: "Sequence[FadeResult]", kind: "Kind") -> bytes:
    from studio.sheets.fade_chart import fade_chart  # noqa: PLC0415

    return fade_chart(results, kind)


def _page(results: "Sequence[FadeResult]", drawn: bytes) -> "Page":
    from studio.sheets.fade_page import fade_page  # noqa: PLC0415

    return fade_page(results, drawn, today())


def _print_json(results: "Sequence[FadeResult]") -> None:
    from studio.sheets.fade_fields import fade_fields  # noqa: PLC0415

    print_json([fade_fields(result, today()) for result in results])
