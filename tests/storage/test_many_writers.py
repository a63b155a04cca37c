"""Several programs write one studio at once, and nothing is lost or there twice."""

import subprocess
import sys
from pathlib import Path
from typing import Final

import pytest

ROOT: Final = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize("place", ["local", "synchronised"])
def test_eight_writers_at_once_lose_nothing(tmp_path: Path, place: str) -> None:
    """The full form: python benchmarks/many_writers.py (8 processes, 500 records each)."""
    folder = tmp_path / place
    folder.mkdir()
    if place == "synchronised":  # where no log is kept, and writers keep readers out
        (folder / ".stfolder").mkdir()
    script = ROOT / "benchmarks" / "many_writers.py"
    writes = "25" if place == "local" else "5"
    done = subprocess.run(
        [sys.executable, str(script), "--writes", writes, "--db", str(folder / "s.sqlite3")],
        capture_output=True,
        text=True,
        cwd=ROOT,
        env={"PYTHONPATH": str(ROOT), "XDG_CACHE_HOME": str(tmp_path / "cache")},
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    count = 8 * int(writes)
    assert f"{count} of {count} stand there, 0 lost, 0 doubled, codes without gaps" in done.stdout
