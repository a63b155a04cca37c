"""Measurement files: those that were collected beside the checkout, and small ones written here."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Final

import pytest

ROOT: Final = Path(__file__).resolve().parents[2]

Collected = Callable[[str], bytes]


@pytest.fixture(scope="session")
def collected() -> Collected:
    """`collected("sample.cxf")`: a file of other people's software; skips where there is none.

    They lie in the folder that STUDIO_SAMPLES names, else in shared/samples beside the checkout.
    """
    named = os.environ.get("STUDIO_SAMPLES")
    folder = Path(named) if named else ROOT.parent / "shared" / "samples"

    def read(name: str) -> bytes:
        path = folder / name
        if not path.is_file():
            pytest.skip(f"no {name}: STUDIO_SAMPLES names no folder of measurement files")
        return path.read_bytes()

    return read
