"""Where a database file lies: a local disk, a network drive, or a folder kept in step with others.

SQLite's write-ahead log needs memory that all who write share, and locks that hold: a network drive
promises neither, and a synchronising program copies a file while it is written.
"""

import hashlib
import re
from datetime import date
from pathlib import Path
from typing import Final

MOUNTS: Final = Path("/proc/self/mountinfo")
"""Linux's list of what is mounted where; elsewhere there is none, and only names tell."""

NETWORK: Final = frozenset(
    {
        "9p", "afs", "ceph", "cifs", "davfs", "fuse.ceph", "fuse.davfs2", "fuse.glusterfs",
        "fuse.rclone", "fuse.s3fs", "fuse.sshfs", "glusterfs", "gpfs", "lustre", "ncpfs", "nfs",
        "nfs4", "smb3", "smbfs", "vboxsf", "virtiofs",
    }
)  # fmt: skip
"""File systems, as Linux names them, whose files another machine may write."""

MARKERS: Final = (".stfolder", ".dropbox", ".owncloudsync.log", ".nextcloudsync.log")
"""Files or folders by which a synchronising program marks the folder that it keeps."""

NAMES: Final = re.compile(
    r"(dropbox|onedrive|google ?drive|icloud ?drive|mobile documents|nextcloud|owncloud|syncthing)"
    r"(\b.*)?",
    re.IGNORECASE,
)
"""What such folders are usually called."""


def unfit_place(path: Path) -> str | None:
    """Why a file's place does not serve several writers, as the end of a sentence; None if it does.

    Args:
        path: the database; it need not exist.
    """
    # The letters of a share on a server, as Windows has them, are kept by resolve().
    whole = path.resolve()
    kind = "a share of a server" if whole.as_posix().startswith("//") else _network_kind(whole)
    if kind is not None:
        return f"on a network drive ({kind})"
    for folder in whole.parents:
        marked = any((folder / marker).exists() for marker in MARKERS)
        if marked or NAMES.fullmatch(folder.name):
            return f"in a folder that is synchronised ({folder})"
    return None


def told_today(path: Path, today: date) -> bool:
    """Whether the owner was warned of a place today already; from now on, they were."""
    from platformdirs import user_cache_path  # noqa: PLC0415 - only in places that are no good

    digest = hashlib.sha256(str(path.resolve()).encode("utf-8", "surrogateescape")).hexdigest()
    stamp = user_cache_path("painters-studio", appauthor=False) / f"warned-{digest[:16]}"
    try:
        if stamp.read_text(encoding="utf-8") == today.isoformat():
            return True
        stamp.write_text(today.isoformat(), encoding="utf-8")
    except FileNotFoundError:
        try:
            stamp.parent.mkdir(parents=True, exist_ok=True)
            stamp.write_text(today.isoformat(), encoding="utf-8")
        except OSError:
            return False
    except (OSError, ValueError):
        return False
    return False


def _network_kind(whole: Path) -> str | None:
    """The network file system that a path lies on."""
    try:
        lines = MOUNTS.read_text(encoding="utf-8", errors="surrogateescape").splitlines()
    except OSError:
        return None
    deepest, kind = -1, ""
    for line in lines:
        before, _, after = line.partition(" - ")
        words = before.split(" ")
        if len(words) < 5 or not after:  # noqa: PLR2004 - the fifth word is the mount point
            continue
        point = Path(_unescaped(words[4]))
        # What is mounted later over the same place hides what was there.
        if whole.is_relative_to(point) and len(point.parts) >= deepest:
            deepest, kind = len(point.parts), after.split(" ")[0]
    return kind if kind in NETWORK else None


def _unescaped(word: str) -> str:
    return re.sub(r"\\([0-7]{3})", lambda found: chr(int(found[1], 8)), word)
