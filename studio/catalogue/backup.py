"""The names of backups, and which of them are kept."""

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Final

LAST: Final = 10
DAYS: Final = 14
WEEKS: Final = 8
MONTHS: Final = 24
"""How many are kept: the last ones, and the newest of as many days, weeks and months."""

ALWAYS_KEPT: Final = ("before-upgrade", "before-restore", "damaged")
"""Copies made for these reasons are never removed by the rule."""

_FORM: Final = re.compile(r"-(\d{8}T\d{6})Z(?:-(\d+))?(?:-([a-z][a-z0-9-]*))?\.sqlite3")
_MOMENT: Final = "%Y%m%dT%H%M%S"


@dataclass(frozen=True, slots=True)
class BackupName:
    """What the name of a backup says.

    Args:
        made_at: the moment, UTC, whole seconds.
        number: 1 upwards; tells those of one second apart.
        why: what it was made before, None for one that was asked for.
    """

    made_at: datetime
    number: int = 1
    why: str | None = None

    def text(self, stem: str) -> str:
        """The file's name.

        Args:
            stem: of the database, such as studio.
        """
        number = f"-{self.number}" if self.number > 1 else ""
        why = f"-{self.why}" if self.why else ""
        return f"{stem}-{self.made_at:{_MOMENT}}Z{number}{why}.sqlite3"

    @property
    def order(self) -> tuple[datetime, int]:
        """Backups in the order in which they were made, by the clock."""
        return self.made_at, self.number

    @property
    def kept_for_good(self) -> bool:
        """Whether no rule removes it."""
        return self.why is not None and self.why.startswith(ALWAYS_KEPT)


def backup_name(now: datetime, why: str | None = None, number: int = 1) -> BackupName:
    """The name of a backup made at a moment of any time zone."""
    return BackupName(now.astimezone(UTC).replace(microsecond=0), number, why)


def parsed_name(stem: str, name: str) -> BackupName | None:
    """What a file's name says, None where it is no backup of that database."""
    if not name.startswith(stem):
        return None
    found = _FORM.fullmatch(name, len(stem))
    if found is None:
        return None
    try:
        made_at = datetime.strptime(found[1], _MOMENT).replace(tzinfo=UTC)
    except ValueError:  # a day that no month has
        return None
    return BackupName(made_at, int(found[2] or 1), found[3])


def superseded(names: Iterable[BackupName], now: datetime) -> set[BackupName]:
    """The backups that newer ones stand for.

    Kept are the last ten, the newest of each of the last 14 days, 8 weeks and 24 months that have
    one (UTC; weeks begin on Monday), what was made before an upgrade or a restore or of a damaged
    database, and what lies in the future, since only a clock that was wrong can have named it.

    Args:
        names: the backups of one database.
        now: the moment, any time zone.
    """
    rest = sorted(
        (name for name in names if not name.kept_for_good and name.made_at <= now),
        key=lambda name: name.order,
        reverse=True,
    )
    kept = set(rest[:LAST])
    for count, span in ((DAYS, _day), (WEEKS, _week), (MONTHS, _month)):
        newest: dict[object, BackupName] = {}
        for name in rest:
            newest.setdefault(span(name.made_at), name)
        kept.update(list(newest.values())[:count])
    return set(rest) - kept


_Span = Callable[[datetime], object]
_day: _Span = datetime.date
_week: _Span = lambda moment: moment.isocalendar()[:2]  # noqa: E731
_month: _Span = lambda moment: (moment.year, moment.month)  # noqa: E731
