"""Remove a named target: it stays on record, marked, and its name is free again."""

from datetime import date

from studio.catalogue import checks
from studio.catalogue.named_target import NamedTarget
from studio.catalogue.removal import Removal
from studio.errors import BadInput, NotFound
from studio.storage.unit_of_work import UnitOfWork


def remove_target(work: UnitOfWork, target: NamedTarget, because: str | None, today: date) -> None:
    """Mark a target as removed.

    Args:
        work: the studio.
        target: the target.
        because: why, in the owner's words.
        today: the day.
    """
    mark = Removal(today, checks.optional_text(because, "the reason"))
    work.targets.mark(target.id, mark)


def restore_target(work: UnitOfWork, name: str) -> NamedTarget:
    """Take the mark of a removed target away; of several of a name that of the last.

    Raises:
        NotFound: no removed target has the name.
        BadInput: another target has it by now.
    """
    wanted = " ".join(name.lower().split())
    found = [target for target in work.targets.removed() if target.name == wanted]
    if not found:
        msg = f"no removed target is called {name!r}; see: studio target list --removed"
        raise NotFound(msg)
    if work.targets.named(wanted) is not None:
        msg = f"another target is called {wanted!r} by now; remove that one first"
        raise BadInput(msg)
    work.targets.mark(found[-1].id, None)
    restored = work.targets.named(wanted)
    assert restored is not None  # noqa: S101 - it was restored a line before
    return restored
