"""A PostgreSQL server's errors as one sentence for the painter; loaded where one occurs."""

from typing import Any, Final

from studio.errors import BadInput, DatabaseTrouble, StudioError
from studio.storage.address import ServerAddress, without_password

_IN_USE: Final = "{address} is in use by another program; let it finish and try again"
_BROKE_OFF: Final = (
    "the connection to {address} broke off; look whether the last entry is there, and try again"
)
_NO_RIGHT: Final = "you may not do that in {address}; ask its administrator for the right"
_FULL: Final = "the disk of the server with {address} is full; ask its administrator for space"

_BY_STATE: Final = {
    "25006": "{address} can only be read",
    "25P03": "{address} waited too long for this command and gave it up; try again",
    "40001": _IN_USE,
    "40P01": _IN_USE,
    "42501": _NO_RIGHT,
    "53100": _FULL,
    "53300": "{address} has no place for one more now; try again",
    "55P03": _IN_USE,
    "57014": "{address} took too long to answer; try again when it has less to do",
    "57P01": _BROKE_OFF,
    "57P02": _BROKE_OFF,
    "XX001": "{address} is damaged; ask its administrator for the last dump",
    "XX002": "{address} is damaged; ask its administrator for the last dump",
}
"""SQLSTATE (PostgreSQL documentation, appendix A) and what it means here."""

_ON_CONNECTING: Final = (
    ("authentication failed", "{address} refuses the password; set PGPASSWORD or ~/.pgpass"),
    ("no password supplied", "{address} asks for a password; set PGPASSWORD or ~/.pgpass"),
    ("no pg_hba.conf entry", "{address} lets nobody in from here; ask its administrator"),
    ("role", "{address} knows no such user; ask its administrator for one"),
    ("permission denied for database", _NO_RIGHT),
    ("does not exist", "there is no database at {address}; ask its administrator to make it"),
    ("too many", "{address} has no place for one more now; try again"),
    ("starting up", "the server with {address} is just starting; try again"),
    ("shutting down", "the server with {address} is just stopping; try again later"),
    ("Connection refused", "no server answers at {address}; check that it runs, and the address"),
    ("timeout", "no server answers at {address}; check the network and the address"),
    ("resolve host", "the host of {address} is not found; check the address and the network"),
    ("translate host", "the host of {address} is not found; check the address and the network"),
    ("closed the connection", _BROKE_OFF),
    ("connection is lost", _BROKE_OFF),
    ("connection is closed", _BROKE_OFF),
)
"""Parts of libpq's messages, which come without a SQLSTATE; the first that is found counts."""


def trouble_of(error: Any, address: object) -> StudioError:  # noqa: ANN401 - psycopg is not loaded
    """What an error of psycopg means and what to do about it."""
    state = error.sqlstate or ""
    words = _plain(error, address)
    if state.startswith("23"):
        msg = f"this would break a rule of the database ({words}); nothing was changed"
        return BadInput(msg)
    if state.startswith("22") or type(error).__name__ == "DataError":
        msg = f"this cannot be recorded ({words}); nothing was changed"
        return BadInput(msg)
    sentence = _BY_STATE.get(state)
    if sentence is None and state.startswith("08"):
        sentence = _BROKE_OFF
    if sentence is None and not state:
        sentence = next((said for part, said in _ON_CONNECTING if part in words), None)
    if sentence is None:
        return DatabaseTrouble(f"{address} cannot be used ({words})")
    return DatabaseTrouble(sentence.format(address=address))


def _plain(error: Any, address: object) -> str:  # noqa: ANN401 - psycopg is not loaded
    """The server's own words on one line; the details beneath would show whole rows."""
    words = error.diag.message_primary or next(iter(str(error).strip().splitlines()), "")
    words = without_password(" ".join(words.split()))
    if isinstance(address, ServerAddress):
        for secret in (address.password, *(value for _, value in address.hidden)):
            words = words.replace(secret, "…") if secret else words
    return words
