"""Where a file lies is told from what is mounted, and from marks and names of folders."""

from datetime import date, timedelta
from pathlib import Path
from typing import Final

import pytest

from studio.storage import sqlite_place
from studio.storage.sqlite_place import told_today, unfit_place

pytestmark = pytest.mark.file_only("where a file lies")

MOUNTS: Final = """\
22 1 254:0 / / rw,relatime shared:1 - ext4 /dev/vda rw
30 22 0:44 / /mnt/school rw,relatime - nfs4 mill:/studio rw,vers=4.2
31 22 0:45 / /mnt/sea\\040wall rw,relatime - cifs //mill/wall rw
32 30 8:1 / /mnt/school/stick rw,relatime - vfat /dev/sdb1 rw
33 22 0:46 / /mnt/over rw - nfs mill:/over rw
34 22 8:2 / /mnt/over rw - ext4 /dev/sdc rw
35 22 0:47 / /mnt/cloud rw - fuse.sshfs me@mill: rw
a line that says nothing
"""


@pytest.fixture
def mounted(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    mounts = tmp_path / "mountinfo"
    mounts.write_text(MOUNTS, encoding="utf-8")
    monkeypatch.setattr(sqlite_place, "MOUNTS", mounts)


@pytest.mark.usefixtures("mounted")
@pytest.mark.parametrize(
    ("path", "said"),
    [
        ("/home/me/studio.sqlite3", None),
        ("/mnt/school/studio.sqlite3", "on a network drive (nfs4)"),
        ("/mnt/schoolbook/studio.sqlite3", None),
        ("/mnt/sea wall/deep/studio.sqlite3", "on a network drive (cifs)"),
        ("/mnt/school/stick/studio.sqlite3", None),
        ("/mnt/over/studio.sqlite3", None),
        ("/mnt/cloud/studio.sqlite3", "on a network drive (fuse.sshfs)"),
        (
            "/home/me/Dropbox/a/studio.sqlite3",
            "in a folder that is synchronised (/home/me/Dropbox)",
        ),
        (
            "/home/me/OneDrive - Mill/studio.sqlite3",
            "in a folder that is synchronised (/home/me/OneDrive - Mill)",
        ),
        ("/home/me/dropboxes/studio.sqlite3", None),
    ],
)
def test_a_place_is_told_by_its_mount_or_its_name(path: str, said: str | None) -> None:
    assert unfit_place(Path(path)) == said


def test_a_place_is_told_by_the_mark_of_a_synchronising_program(tmp_path: Path) -> None:
    path = tmp_path / "deep" / "studio.sqlite3"
    path.parent.mkdir()
    assert unfit_place(path) is None
    (tmp_path / ".stfolder").mkdir()
    assert unfit_place(path) == f"in a folder that is synchronised ({tmp_path})"


def test_a_link_is_followed_to_where_the_file_lies(tmp_path: Path) -> None:
    (tmp_path / "there" / ".stfolder").mkdir(parents=True)
    (tmp_path / "here").symlink_to(tmp_path / "there")
    assert unfit_place(tmp_path / "here" / "studio.sqlite3") is not None


def test_where_nothing_tells_what_is_mounted_names_still_do(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sqlite_place, "MOUNTS", tmp_path / "none")
    assert unfit_place(Path("/home/me/studio.sqlite3")) is None
    assert unfit_place(Path("/home/me/Nextcloud/studio.sqlite3")) is not None


def test_a_warning_is_given_once_a_day_for_each_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    today, one, other = date(2026, 11, 25), Path("/a/s.sqlite3"), Path("/b/s.sqlite3")
    assert [told_today(one, today), told_today(one, today)] == [False, True]
    assert [told_today(other, today), told_today(other, today)] == [False, True]
    assert not told_today(one, today + timedelta(days=1))
    (tmp_path / "file").write_text("no folder")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    assert [told_today(one, today), told_today(one, today)] == [False, False]
