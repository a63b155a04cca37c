"""studio mix chart."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli import values
from studio.cli.chart_files import Html, Pdf, Png, draw_files
from studio.cli.model import keep_for_next_time, model_of
from studio.cli.session import console, print_json, reading, today
from studio.errors import BadInput

if TYPE_CHECKING:
    from studio.actions.mixing_chart import MixingChart
    from studio.actions.paint_model import PaintModel
    from studio.catalogue.paint import Paint
    from studio.sheets.blocks import Page
    from studio.sheets.chart_sheet import Kind
    from studio.storage.unit_of_work import UnitOfWork

app = typer.Typer()


@app.command()
def chart(
    context: typer.Context,
    paints: Annotated[
        list[str] | None,
        typer.Argument(metavar="[PAINT PAINT]", help="Two paints; none for a chart of all pairs."),
    ] = None,
    only: Annotated[
        list[str] | None,
        typer.Option(help="The paints of a chart of pairs, such as FU,BS,RS, in that order."),
    ] = None,
    paper: Annotated[
        str | None, typer.Option(help="The paper; by default the one most of the swatches are on.")
    ] = None,
    water: Annotated[
        str | None,
        typer.Option(
            help="Waters such as 1:1,3:1,8:1, a row each; of pairs two, strong and thin. By "
            "default those you have swatches of."
        ),
    ] = None,
    html: Html = None,
    png: Png = None,
    pdf: Pdf = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Chart what two paints mix to, or every pair: measured where laid, else predicted."""
    named, waters = list(paints or ()), _waters(water)
    if len(named) not in {0, 2}:
        msg = "name two paints, or none and --only FU,BS,RS for a chart of their pairs"
        raise BadInput(msg)
    if named and only:
        msg = "--only is for a chart of pairs; name two paints, or give --only alone"
        raise BadInput(msg)
    with reading(context) as work:
        model = model_of(work)
        result = _chart(work, model, named, only or (), paper, waters)
        draw_files(
            lambda kind: _drawn(result, kind, pair=bool(named)),
            lambda drawn: _page(result, drawn, pair=bool(named)),
            html=html,
            png=png,
            pdf=pdf,
        )
        keep_for_next_time(work, model)
    if as_json:
        from studio.sheets.mix_chart_view import mix_chart_fields  # noqa: PLC0415

        print_json(mix_chart_fields(result))
        return
    from studio.sheets.mix_chart_view import print_pair_chart, print_pairs_chart  # noqa: PLC0415

    (print_pair_chart if named else print_pairs_chart)(console(), result)


def _chart(
    work: "UnitOfWork",
    model: "PaintModel",
    named: Sequence[str],
    only: Sequence[str],
    paper: str | None,
    waters: Sequence[float],
) -> "MixingChart":
    from studio.actions.find import find_paint, find_paper  # noqa: PLC0415
    from studio.actions.mixing_chart import pair_chart, pairs_chart  # noqa: PLC0415
    from studio.catalogue.paint import Status  # noqa: PLC0415

    on = None if paper is None else find_paper(work, paper)
    if named:
        one, other = (find_paint(work, name) for name in named)
        return pair_chart(work, model, (one, other), paper=on, waters=waters)
    names = [name for text in only for name in text.split(",") if name.strip()]
    if only:
        found = {each.id: each for each in (find_paint(work, name) for name in names)}
        paints: list[Paint] = list(found.values())
        if len(found) < len(names):
            msg = "--only names one paint twice; name each once"
            raise BadInput(msg)
    else:
        paints = [each for each in work.paints.all() if each.facts.status is Status.IN_USE]
    return pairs_chart(work, model, paints, paper=on, waters=waters, as_named=bool(only))


def _waters(text: str | None) -> list[float]:
    if text is None:
        return []
    found = [values.water(each) for each in text.split(",")]
    return [each for each in found if each is not None]


def _drawn(result: "MixingChart", kind: "Kind", *, pair: bool) -> bytes:
    if pair:
        from studio.sheets.pair_chart import draw_pair_chart  # noqa: PLC0415

        return draw_pair_chart(result, kind)
    from studio.sheets.pairs_chart import draw_pairs_chart  # noqa: PLC0415

    return draw_pairs_chart(result, kind)


def _page(result: "MixingChart", drawn: bytes, *, pair: bool) -> "Page":
    from studio.sheets.mix_chart_page import pair_chart_page, pairs_chart_page  # noqa: PLC0415

    return (pair_chart_page if pair else pairs_chart_page)(result, drawn, today())
