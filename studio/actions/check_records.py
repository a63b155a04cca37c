"""Whether the records of a studio keep the program's own rules, and what is derived its source."""

import hashlib
from collections.abc import Callable, Iterator
from typing import Final

from studio.actions.check_colours import wrong_labs
from studio.actions.check_paintings import painting_faults
from studio.actions.fault import MEND, Fault
from studio.catalogue.reading import representative
from studio.errors import BadInput
from studio.storage.paint_marks import wrong_marks
from studio.storage.unit_of_work import UnitOfWork

TOLERANCE: Final = 1e-9


def check_records(work: UnitOfWork) -> list[Fault]:
    """What is wrong with the records, one fault each; empty when nothing is."""
    return [
        *_unless_unreadable("pigments", lambda: _pigment_faults(work)),
        *_unless_unreadable("swatches", lambda: _swatch_faults(work)),
        *_unless_unreadable("readings", lambda: _reading_faults(work)),
        *_unless_unreadable("mixes", lambda: _mix_faults(work)),
        *_unless_unreadable("stock ledger", lambda: _stock_faults(work)),
        *_unless_unreadable("paintings", lambda: painting_faults(work)),
        *_unless_unreadable("measurement files", lambda: _file_faults(work)),
    ]


def _unless_unreadable(what: str, look: Callable[[], Iterator[Fault]]) -> list[Fault]:
    """The faults found, and the one that kept rows from becoming values at all."""
    found: list[Fault] = []
    try:
        found.extend(look())
    except (BadInput, ValueError, TypeError, ArithmeticError, AttributeError) as error:
        found.append(Fault(f"the {what} cannot be read: {error}"))
    except LookupError as error:
        found.append(Fault(f"the {what} refer to what is not there: {error}"))
    return found


def _pigment_faults(work: UnitOfWork) -> Iterator[Fault]:
    work.pigments.all()
    return iter(())


def _swatch_faults(work: UnitOfWork) -> Iterator[Fault]:
    for swatch in work.swatches.every():
        code = swatch.facts.code
        if not swatch.readings:
            yield Fault(f"swatch {code} has no reading", f"studio swatch read {code} --lab L,A,B")
            continue
        state, lab = representative(swatch.readings)
        pairs = zip(lab.coordinates, swatch.lab.coordinates, strict=True)
        if state is not swatch.state or any(abs(a - b) > TOLERANCE for a, b in pairs):
            yield Fault(f"swatch {code} is searched by another colour than its readings give", MEND)
    for code in wrong_marks(work.connection).values():
        yield Fault(f"swatches of mix {code} are searched by other paints than it has", MEND)


def _reading_faults(work: UnitOfWork) -> Iterator[Fault]:
    for key, whose, right in wrong_labs(work):
        text = f"reading {key} of {whose} has another Lab than what was read gives"
        yield Fault(text) if right is None else Fault(text, MEND)


def _mix_faults(work: UnitOfWork) -> Iterator[Fault]:
    for mix in work.mixes.all():
        filed = work.mixes.with_recipe(mix.recipe)
        if filed is None:
            yield Fault(f"mix {mix.code} is filed under another recipe than its own", MEND)
        elif filed != mix:
            yield Fault(f"mix {mix.code} is filed under another recipe than its own")


def _stock_faults(work: UnitOfWork) -> Iterator[Fault]:
    """Of every container, those that are lent or discarded too."""
    for container in work.containers.all():
        try:
            _ = container.lines
        except BadInput as error:
            yield Fault(f"the stock ledger does not add up: {error}")


def _file_faults(work: UnitOfWork) -> Iterator[Fault]:
    for file in work.files.all():
        content = work.files.content(file.id)
        if content is not None and hashlib.sha256(content).hexdigest() != file.sha256:
            yield Fault(f"the measurement file {file.name} is not what was recorded of it")
