"""python -m studio."""

import gc
import os
import signal
import sys

_LISTENS = signal.getsignal(signal.SIGINT) is signal.default_int_handler
"""Whether an interrupt reaches us; what a script runs in the background ignores it."""

_INTERRUPTED = 130


def _leave(_signal: int, _frame: object) -> None:
    """End at once and say nothing: while the program loads, nothing is open and nothing is done."""
    os._exit(_INTERRUPTED)


if _LISTENS:
    signal.signal(signal.SIGINT, _leave)


def run() -> None:
    """The `studio` command."""
    # A command lives for a fraction of a second: collecting garbage while it loads buys nothing.
    gc.set_threshold(100_000, 50, 50)
    # The matrices are small: on a busy machine threads of the linear algebra wait for each other,
    # and characterising the paints takes six times the processor time.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    from studio.cli.app import main, traceback_of  # noqa: PLC0415 - importing studio costs nothing

    status = _INTERRUPTED
    try:
        if _LISTENS:
            signal.signal(signal.SIGINT, signal.default_int_handler)
        status = main()
        if _LISTENS:
            # All is done and said; the interpreter's own end is not to be interrupted.
            signal.signal(signal.SIGINT, signal.SIG_IGN)
    except KeyboardInterrupt:
        os._exit(_INTERRUPTED)
    except Exception as error:  # noqa: BLE001 - asked for by --traceback
        status = 1
        sys.stderr.write(traceback_of(error))
    sys.exit(status)


if __name__ == "__main__":
    run()
