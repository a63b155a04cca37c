"""Which paper a swatch is logged on, where none was named."""

import typer

from studio.cli.session import asked, reading
from studio.errors import BadInput


def paper_to_use(context: typer.Context, name: str | None) -> tuple[str, str | None]:
    """The name of the paper: as given, that of the last swatch, or the only one; and why that one.

    It is asked for, where it must be, before anything is locked for writing.
    """
    if name is not None:
        return name, None
    with reading(context) as work:
        usual = work.swatches.last_paper()
        papers = work.papers.all()
        last = None if usual is None else work.papers.by_id(usual)
    if last is not None:
        return last.facts.code, f"on {last.facts.full_name}, as the last swatch"
    if len(papers) == 1:
        return papers[0].facts.code, f"on {papers[0].facts.full_name}, the only paper on record"
    if not papers:
        msg = "no paper is on record yet; record one first with: studio paper add"
        raise BadInput(msg)
    return asked_paper(context, None), None


def asked_paper(context: typer.Context, name: str | None) -> str:
    """The name of a paper on record, asked for, at a terminal, until it fits one."""
    from studio.actions.find import find_paper  # noqa: PLC0415

    def check(text: str) -> None:
        with reading(context) as work:
            find_paper(work, text)

    return asked(name, "the paper", "--paper", check)
