"""Where the databases lie when nobody names another place."""

from pathlib import Path

from platformdirs import user_data_path

_APPLICATION = "painters-studio"


def default_database() -> Path:
    """The owner's database, in the user's data folder."""
    return user_data_path(_APPLICATION, appauthor=False) / "studio.sqlite3"


def demo_database() -> Path:
    """The demo studio, in a folder of its own beside it."""
    return user_data_path(_APPLICATION, appauthor=False) / "demo" / "studio.sqlite3"
