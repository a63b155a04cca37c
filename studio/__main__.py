"""python -m studio."""

import gc
import os
import sys


def run() -> None:
    """The `studio` command."""
    # A command lives for a fraction of a second: collecting garbage while it loads buys nothing.
    gc.set_threshold(100_000, 50, 50)
    # The matrices are small: on a busy machine threads of the linear algebra wait for each other,
    # and characterising the paints takes six times the processor time.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    from studio.cli.app import main  # noqa: PLC0415 - importing studio costs nothing

    sys.exit(main())


if __name__ == "__main__":
    run()
