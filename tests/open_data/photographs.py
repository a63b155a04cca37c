"""Two real photographs that the package scikit-learn 1.9.1 carries; they are never kept here.

Each is a JPEG of 640 x 427 pixels without a colour profile: a pagoda above a lake, and an orange
flower before dark leaves. The package's own note states a Creative Commons Attribution 2.0 licence
for both. Only the file of the package is read; nothing of it is installed.
"""

import os
import zipfile
from pathlib import Path
from typing import Final

WHEEL: Final = "scikit_learn-1.9.1-cp311-cp311-manylinux_2_27_x86_64.manylinux_2_28_x86_64.whl"
FOLDER: Final = "sklearn/datasets/images"
NAMES: Final = ("china.jpg", "flower.jpg")
SIZE: Final = (640, 427)

HOW_TO_GET: Final = (
    "The two photographs are not on this machine ({path} is missing). `bash .ci/run "
    "tests/open_data` fetches them into .open_data (the environment variable STUDIO_OPEN_DATA may "
    "name another folder)"
)


def wheel() -> Path:
    """Where the wheel is to lie: in the folder that STUDIO_OPEN_DATA names, else in .open_data."""
    named = os.environ.get("STUDIO_OPEN_DATA")
    return (Path(named) if named else Path(__file__).resolve().parents[2] / ".open_data") / WHEEL


def photograph(name: str) -> bytes:
    """The file of a photograph."""
    with zipfile.ZipFile(wheel()) as package:
        return package.read(f"{FOLDER}/{name}")
