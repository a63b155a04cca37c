"""The Chromium of this machine, without a network and in the colours of sRGB."""

import os
import shutil
from typing import Final

NAMES: Final = ("chromium", "chromium-browser", "google-chrome")
MISSING: Final = (
    "no Chromium is installed, so nothing is tried in a browser (Debian: apt-get install chromium)"
)


def chromium() -> str | None:
    """Where Chromium is, None where it is not installed."""
    return next((found for found in map(shutil.which, NAMES) if found), None)


def flags() -> list[str]:
    """What it is started with besides what the driver of tests asks for."""
    given = [
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        "--force-color-profile=srgb",
    ]
    # Root has no sandbox to start it in; the pages are ours and reach no network.
    return [*given, "--no-sandbox"] if os.geteuid() == 0 else given
