"""How a typed name finds one of the studio's things: by code, by name, or by any part of it."""

import difflib
import re
import unicodedata
from collections.abc import Callable, Collection, Sequence
from typing import Final, TypeVar

from studio.errors import Ambiguous, BadInput, NotFound

_Thing = TypeVar("_Thing")

CODE: Final = re.compile(r"[A-Z][A-Z0-9]{0,11}")
"""A short code: a capital letter, then capitals and digits, at most 12 in all."""

_SHOWN: Final = 8


def code(value: str) -> str:
    """A short code in its stored form, capitals.

    Raises:
        BadInput: it is not made of letters and digits, or does not start with a letter.
    """
    spelled = value.strip().upper()
    if not CODE.fullmatch(spelled):
        msg = f"code {value!r} must start with a letter and hold only A-Z and 0-9, at most 12"
        raise BadInput(msg)
    return spelled


def initials(name: str, taken: Collection[str]) -> str:
    """A short code for a name that is not taken: its initials, as painters label a swatch card."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode()
    words = re.findall(r"[A-Za-z0-9]+", plain)
    letters = "".join(word[0] for word in words if word[0].isalpha()).upper()
    if len(letters) < 2:  # noqa: PLR2004 - one letter says too little
        letters = re.sub(r"[^A-Z]", "", plain.upper())[:2] or "X"
    letters = letters[:8]
    number = 1
    candidate = letters
    while candidate in taken:
        number += 1
        candidate = f"{letters}{number}"
    return candidate


def find(  # noqa: PLR0913 - what is searched, and how its things are named
    wanted: str,
    things: Sequence[_Thing],
    *,
    what: str,
    code_of: Callable[[_Thing], str],
    name_of: Callable[[_Thing], str],
    preferred: Callable[[_Thing], bool] = lambda _thing: True,
) -> _Thing:
    """The one thing that a typed name means.

    In this order: its code; its whole name; every typed word standing in its name. Among several,
    the only preferred one wins (a paint in use over a retired one).

    Args:
        wanted: what was typed, in any case.
        things: all that could be meant.
        what: the noun for messages, such as `paint`.
        code_of: the code of a thing.
        name_of: the full name of a thing, such as maker and name.
        preferred: tells the things that win over the others.

    Raises:
        NotFound: nothing fits; `candidates` lists what is spelled nearly so.
        Ambiguous: several fit; `candidates` lists them.
    """
    words = wanted.casefold().split()
    spelled = " ".join(words)
    if not spelled:
        msg = f"no {what} was named; give its code or a part of its name"
        raise NotFound(msg)

    def has_code(thing: _Thing) -> bool:
        return code_of(thing).casefold() == spelled

    def has_name(thing: _Thing) -> bool:
        return name_of(thing).casefold() == spelled

    def has_words(thing: _Thing) -> bool:
        return all(word in name_of(thing).casefold() for word in words)

    for fits in (has_code, has_name, has_words):
        found = [thing for thing in things if fits(thing)]
        if len(found) > 1:
            found = [thing for thing in found if preferred(thing)] or found
        if len(found) == 1:
            return found[0]
        if found:
            labels = tuple(f"{code_of(thing)} ({name_of(thing)})" for thing in found)
            plural = f"{what}es" if what == "mix" else f"{what}s"
            msg = f"{wanted!r} fits {len(found)} {plural}; say which by its code{_listed(labels)}"
            raise Ambiguous(msg, labels)
    close = _close(spelled, things, code_of, name_of)
    hint = "; near it" if close else f"; see: studio {what} list"
    msg = f"no {what} is called {wanted!r}{hint}{_listed(close)}"
    raise NotFound(msg, close)


def _close(
    spelled: str,
    things: Sequence[_Thing],
    code_of: Callable[[_Thing], str],
    name_of: Callable[[_Thing], str],
) -> tuple[str, ...]:
    """The labels of things whose name or one of its words is spelled nearly so."""
    by_word: dict[str, list[str]] = {}
    for thing in things:
        label = f"{code_of(thing)} ({name_of(thing)})"
        name = name_of(thing).casefold()
        for word in {code_of(thing).casefold(), name, *name.split()}:
            by_word.setdefault(word, []).append(label)
    labels: dict[str, None] = {}
    for word in (spelled, *spelled.split()):
        for near in difflib.get_close_matches(word, by_word, n=_SHOWN, cutoff=0.75):
            labels.update(dict.fromkeys(by_word[near]))
    return tuple(labels)[:_SHOWN]


def _listed(labels: Sequence[str]) -> str:
    if not labels:
        return ""
    more = f" and {len(labels) - _SHOWN} more" if len(labels) > _SHOWN else ""
    return ": " + ", ".join(labels[:_SHOWN]) + more
