"""studio swatch read --all: every sample of a file to the swatch it is named for."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from studio.cli.reading_options import ReadingOptions, told
from studio.cli.session import back_up_first, console, print_json, reading, tell, today, writing
from studio.errors import BadInput

if TYPE_CHECKING:
    from studio.catalogue.swatch import Swatch

All = Annotated[
    bool,
    typer.Option(
        "--all",
        help="Every sample of --file, each to the swatch whose code is its name; what follows the "
        "code after a sign tells several readings apart: S12 a, S12-2, s12_3.",
    ),
]
DryRun = Annotated[
    bool,
    typer.Option(
        "--dry-run", help="Only say which sample of --all goes where, or what --picture reads as."
    ),
]
Map = Annotated[
    Path | None,
    typer.Option(
        "--map",
        help="CSV file with the columns sample and swatch for --all; an empty swatch leaves the "
        "sample out.",
    ),
]
OnlyFitting = Annotated[
    bool,
    typer.Option("--only-fitting", help="With --all, record those that fit though others do not."),
]


def check_all(*, dry_run: bool, mapped: Path | None, only_fitting: bool) -> None:
    """Refuse the options of --all where it is not given.

    Raises:
        BadInput: one of them is given.
    """
    given = {"--dry-run": dry_run, "--map": mapped is not None, "--only-fitting": only_fitting}
    for option, is_given in given.items():
        if is_given:
            msg = f"{option} goes with --all: studio swatch read --file FILE --all {option}"
            raise BadInput(msg)


def read_all(
    context: typer.Context,
    options: ReadingOptions,
    *,
    code: str | None,
    dry_run: bool,
    mapped: Path | None,
    only_fitting: bool,
    as_json: bool,
) -> None:
    """Record every sample of a file, or only tell where each goes.

    Raises:
        BadInput: there is no file, a swatch or a sample is named too, or a sample fits nothing.
    """
    from studio.actions.map_samples import plan_samples, read_map, record_samples  # noqa: PLC0415
    from studio.actions.open_measurements import open_measurements  # noqa: PLC0415

    if options.file is None:
        msg = "--all takes the samples of a file; give it with --file"
        raise BadInput(msg)
    others = (code, options.sample, options.lab, options.colour, options.spectrum)
    if any(value is not None for value in others):
        msg = "--all maps samples to swatches by their names; leave the swatch and --sample out"
        raise BadInput(msg)
    say = told(options)
    chosen = {} if mapped is None else read_map(mapped)
    opened = open_measurements(options.file)
    changed: list[Swatch] = []
    with reading(context) if dry_run else writing(context) as work:
        plan = plan_samples(work, opened, chosen, say, today())
        if not dry_run:
            if plan.mapped and (only_fitting or not plan.unfit):
                back_up_first(context, "swatch-read-all")  # nothing has been written yet
            changed = record_samples(work, plan, today(), only_fitting=only_fitting)
            work.commit()
    if as_json:
        from studio.sheets.sample_plan_view import plan_fields  # noqa: PLC0415

        print_json(plan_fields(plan, changed, recorded=not dry_run))
        return
    from studio.sheets.sample_plan_view import print_plan  # noqa: PLC0415

    print_plan(console(), plan, changed, recorded=not dry_run)
    for remark in plan.remarks:
        tell(remark)
