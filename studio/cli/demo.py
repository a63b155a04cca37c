"""studio demo."""

from typing import Annotated

import typer

from studio.cli.session import console, tell, today

EXAMPLE = "#767d63"
"""A grey-green of salt marsh under cloud."""


def register(top: typer.Typer, name: str, line: str) -> None:
    """Add the command to the top."""
    top.command(name, short_help=line)(demo)


def demo(
    fresh: Annotated[
        bool, typer.Option("--fresh", help="Build it anew, without what you changed in it.")
    ] = False,
) -> None:
    """Build an invented studio in a folder of its own, and look up a colour in it."""
    from studio.actions.build_demo import build_demo, remove_demo  # noqa: PLC0415
    from studio.actions.check_shelf import check_shelf  # noqa: PLC0415
    from studio.actions.match_colour import Wanted, match_colour  # noqa: PLC0415
    from studio.actions.open_studio import open_studio  # noqa: PLC0415
    from studio.actions.read_target import read_target  # noqa: PLC0415
    from studio.cli.session import now  # noqa: PLC0415
    from studio.sheets.check_view import print_check  # noqa: PLC0415
    from studio.sheets.match_view import print_match  # noqa: PLC0415
    from studio.sheets.screen import indented, print_parts  # noqa: PLC0415
    from studio.storage.place import demo_database  # noqa: PLC0415

    path = demo_database()
    if fresh:
        remove_demo(path)
    if not path.exists():
        tell("building the demo studio, a few seconds once")
    if build_demo(path, today()):
        tell(f"built the demo studio at {path}")
    screen = console(demo=True)
    with open_studio(path, write=False, now=now(), tell=tell) as work:
        counts = (
            len(work.paints.all()),
            len(work.papers.all()),
            len(work.mixes.all()),
            work.swatches.count(),
        )
        result = match_colour(work, read_target(work, EXAMPLE), Wanted(), count=3)
        report = check_shelf(work, today=today())
    indented(
        screen,
        "The demo studio of an invented painter of boatyards, creeks and salt marsh: "
        "{} paints, {} papers, {} mixes, {} swatches.".format(*counts),
        0,
    )
    screen.print()
    screen.rule(f'studio --demo match "{EXAMPLE}" -n 3', align="left", style="dim")
    print_match(screen, result)
    screen.print()
    screen.rule("studio --demo check", align="left", style="dim")
    print_check(screen, report)
    screen.print()
    screen.rule("Where to go next", align="left", style="dim")
    hints = (
        ('studio --demo match "5YR 6/4" --in-stock', "another colour, from the shelf alone"),
        ("studio --demo mix show M38", "the family of colours of one mix"),
        ("studio --demo paint show ultramarine", "a paint, its ratings and cautions"),
        ("studio --demo stock list", "what is left, and for how long"),
        ("studio --demo check --class children", "what to bring to a class of children"),
        ("studio --demo painting show P2", "a painting half tested, passage by passage"),
        ("studio --demo fade report F4", "a strip that faded beyond its label"),
        ("studio paint add", "begin your own studio"),
        ("studio --help", "everything else"),
    )
    longest = max(len(command) for command, _ in hints)
    for command, purpose in hints:
        one_line = 2 * len("  ") + longest + max(len(text) for _, text in hints) <= screen.width
        print_parts(screen, "  ", [command.ljust(longest if one_line else 0), purpose], 4)
