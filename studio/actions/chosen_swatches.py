"""Which swatches a command is about: named by code, or the last ones, of a mix, on a paper."""

from collections.abc import Sequence

from studio.actions.find import find_mix, find_paper, find_swatch
from studio.catalogue.checks import number
from studio.catalogue.swatch import Swatch
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork


def chosen_swatches(
    work: UnitOfWork,
    codes: Sequence[str],
    *,
    mix: str | None = None,
    paper: str | None = None,
    last: int | None = None,
) -> tuple[Swatch, ...]:
    """The named swatches, each once, in the order they were named, narrowed by mix and paper.

    Where none is named, those of the mix and the paper in the order they were recorded, of which
    `last` takes the last ones.

    Raises:
        BadInput: nothing says which swatches, or none is left.
        NotFound: a code or a name fits nothing.
    """
    if not codes and mix is None and paper is None and last is None:
        msg = "say which swatches: by code (S12 S13), --last 10, --mix M3 or --paper NAME"
        raise BadInput(msg)
    if codes:
        named = {each.id: each for each in (find_swatch(work, code) for code in codes)}
        swatches = tuple(named.values())
    elif mix is not None:
        swatches = work.swatches.of_mix(find_mix(work, mix).id)
    else:
        swatches = work.swatches.all()
    if codes and mix is not None:
        mix_id = find_mix(work, mix).id
        swatches = tuple(each for each in swatches if each.mix_id == mix_id)
    if paper is not None:
        paper_id = find_paper(work, paper).id
        swatches = tuple(each for each in swatches if each.paper_id == paper_id)
    if last is not None:
        swatches = swatches[-int(number(last, "how many", 1, 1_000_000)) :]
    if not swatches:
        raise BadInput(_none(work))
    return swatches


def _none(work: UnitOfWork) -> str:
    if work.swatches.count() == 0:
        return "no swatch is on record yet; log the first one with: studio swatch log"
    return "no swatch is left by these; take a mix, a paper or a code away (studio swatch list)"
