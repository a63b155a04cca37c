"""Where the databases lie when nobody names another place."""

from pathlib import Path

_APPLICATION = "painters-studio"


def _data_folder() -> Path:
    from platformdirs import user_data_path  # noqa: PLC0415 - only where nobody named a place

    return user_data_path(_APPLICATION, appauthor=False)


def default_database() -> Path:
    """The owner's database, in the user's data folder."""
    return _data_folder() / "studio.sqlite3"


def demo_database() -> Path:
    """The demo studio, in a folder of its own beside it."""
    return _data_folder() / "demo" / "studio.sqlite3"
