"""Where the folders lie that ship with the program: in the wheel, or beside it in a checkout."""

from pathlib import Path

from studio.errors import StudioError

_PACKAGE = Path(__file__).resolve().parents[1]


def shipped_folder(name: str) -> Path:
    """The folder `migrations`, `seed_demo` or `shared` of this installation.

    Raises:
        StudioError: the installation is incomplete.
    """
    for folder in (_PACKAGE / f"_{name}", _PACKAGE.parent / name):
        if folder.is_dir():
            return folder
    msg = f"the folder {name} of the program is missing; install it again"
    raise StudioError(msg)
