"""Names of backups, and the rule that keeps them."""

from datetime import UTC, datetime, timedelta, timezone
from typing import Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.catalogue.backup import BackupName, backup_name, parsed_name, superseded

NOW: Final = datetime(2026, 11, 25, 17, 12, tzinfo=UTC)


def _daily(days: int) -> list[BackupName]:
    return [backup_name(NOW - timedelta(days=day)) for day in range(days)]


def test_a_name_tells_moment_number_and_reason_and_comes_back() -> None:
    there = datetime(2026, 11, 25, 18, 12, 0, 900, tzinfo=timezone(timedelta(hours=1)))
    name = backup_name(there, "before-import", 2)
    assert name.text("studio") == "studio-20261125T171200Z-2-before-import.sqlite3"
    assert parsed_name("studio", name.text("studio")) == name
    assert backup_name(NOW).text("my studio") == "my studio-20261125T171200Z.sqlite3"


@pytest.mark.parametrize(
    "name",
    [
        "studio.sqlite3",
        "studio-20261125T171200Z.sqlite3-wal",
        "studio-20261131T171200Z.sqlite3",
        "studio-20261125T171200Z.sqlite3.txt",
        "other-20261125T171200Z.sqlite3",
        "studio-old-20261125T171200Z.sqlite3",
        "studio-20261125T171200.sqlite3",
    ],
)
def test_a_file_of_another_name_is_no_backup(name: str) -> None:
    assert parsed_name("studio", name) is None


def test_the_last_ten_are_kept_however_close_they_lie() -> None:
    names = [backup_name(NOW - timedelta(seconds=second)) for second in range(30)]
    assert superseded(names, NOW) == set(names[10:])


def test_of_three_years_of_days_two_weeks_eight_weeks_and_two_years_are_left() -> None:
    names = _daily(3 * 365)
    kept = sorted(set(names) - superseded(names, NOW), key=lambda name: name.order, reverse=True)
    days = [(NOW - name.made_at).days for name in kept]
    assert days[:14] == list(range(14))
    # 25 November 2026 is a Wednesday: before the two weeks the newest of a week is its Sunday.
    assert days[14:19] == [17, 24, 25, 31, 38]
    assert 25 in days  # 31 October, the newest of its month
    months = {(name.made_at.year, name.made_at.month) for name in kept}
    assert len(months) == 24
    assert min(months) == (2024, 12)
    assert len(kept) <= 14 + 8 + 24


def test_days_without_a_backup_do_not_count() -> None:
    names = [backup_name(NOW - timedelta(days=100 * step)) for step in range(14)]
    assert superseded(names, NOW) == set()


def test_what_a_wrong_clock_named_is_kept_and_takes_no_place() -> None:
    ahead = [backup_name(NOW + timedelta(days=day)) for day in range(1, 40)]
    names = [backup_name(NOW - timedelta(seconds=second)) for second in range(12)]
    assert superseded([*ahead, *names], NOW) == set(names[10:])


@pytest.mark.parametrize("why", ["before-upgrade-from-0003", "before-restore", "damaged"])
def test_what_cannot_be_made_again_is_never_removed(why: str) -> None:
    old = [backup_name(NOW - timedelta(days=5000, seconds=second), why) for second in range(30)]
    assert superseded([*old, *_daily(100)], NOW).isdisjoint(old)


_NAMES = st.lists(
    st.builds(
        BackupName,
        st.integers(0, 2555).map(lambda days: NOW + timedelta(days=40) - timedelta(days=days)),
        st.integers(1, 3),
        st.sampled_from([None, "before-import", "damaged"]),
    ),
    unique=True,
    max_size=120,
)


@given(_NAMES)
def test_the_newest_stays_and_a_second_look_removes_nothing_more(names: list[BackupName]) -> None:
    gone = superseded(names, NOW)
    kept = set(names) - gone
    past = [name for name in names if name.made_at <= NOW]
    assert not past or max(past, key=lambda name: name.order) in kept
    assert superseded(kept, NOW) == set()
    assert {name for name in gone if name.why == "damaged"} == set()
