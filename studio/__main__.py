"""python -m studio."""

import sys


def run() -> None:
    """The `studio` command."""
    from studio.cli.app import main  # noqa: PLC0415 - importing studio costs nothing

    sys.exit(main())


if __name__ == "__main__":
    run()
