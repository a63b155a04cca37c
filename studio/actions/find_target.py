"""Find a target that was given a name."""

import difflib

from studio.catalogue.named_target import NamedTarget
from studio.errors import NotFound
from studio.storage.unit_of_work import UnitOfWork


def find_target(work: UnitOfWork, name: str) -> NamedTarget:
    """The target of a name, or of a part of a name that fits only one.

    Raises:
        NotFound: none fits, or several do.
    """
    found = targets_like(work, name)
    if len(found) == 1:
        return found[0]
    if found:
        labels = tuple(target.name for target in found)
        msg = f"{name!r} fits {len(found)} targets; say which by its whole name{_listed(labels)}"
        raise NotFound(msg, labels)
    names = [target.name for target in work.targets.all()]
    close = tuple(difflib.get_close_matches(_folded(name), names, cutoff=0.6))
    hint = f"; near it{_listed(close)}" if close else "; see: studio target list"
    msg = f"no target is called {name!r}{hint}"
    raise NotFound(msg, close)


def targets_like(work: UnitOfWork, name: str) -> tuple[NamedTarget, ...]:
    """The target of exactly this name in any case, else all whose names hold every word of it."""
    wanted = _folded(name)
    exact = work.targets.named(wanted)
    if exact is not None:
        return (exact,)
    words = wanted.split()
    return tuple(
        target
        for target in work.targets.all()
        if words and all(word in target.name for word in words)
    )


def _folded(name: str) -> str:
    return " ".join(name.lower().split())


def _listed(labels: tuple[str, ...]) -> str:
    shown = ", ".join(labels[:8])
    return f": {shown}" + (f" and {len(labels) - 8} more" if len(labels) > 8 else "")  # noqa: PLR2004
