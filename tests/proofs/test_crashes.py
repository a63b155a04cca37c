"""Nothing is lost to a kill at any moment, in short; tests/proofs/crashes.py has the full form."""

import shutil
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from studio.storage.schema import connect
from tests.conftest import Run
from tests.proofs.forked import Ended
from tests.proofs.killed import NAME, Plan, judge
from tests.proofs.studios import content

LOG = ("swatch", "log", "2 FU + 3 BS", "--lab", "50,3,-4")


def test_kills_at_random_moments_lose_nothing() -> None:
    command = [sys.executable, "-m", "tests.proofs.crashes", "--moments", "25"]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    assert " kills in " in done.stdout


@pytest.fixture
def plan(demo_db: Path, run: Run, tmp_path: Path) -> Plan:
    """A plan of one command that is run already: the folder holds the studio as it left it."""
    folder = tmp_path / "studio"
    folder.mkdir()
    studio = Path(shutil.copy(demo_db, folder / NAME))
    before = content(studio)
    assert run("swatch", "log", "1 FU + 1 BS", "--lab", "50,3,-4", db=studio).status == 0
    return Plan("single writes", folder, (LOG,), (before, content(studio)), 0.1)


SAID = Ended(killed=True, statuses=(), printed=("S300",), err="")
NOT_SAID = Ended(killed=True, statuses=(), printed=(), err="")


def _write(folder: Path, sql: str) -> None:
    with closing(connect(folder / NAME)) as connection:
        connection.execute(sql)


@pytest.mark.parametrize("ended", [SAID, NOT_SAID])
@pytest.mark.file_only("kills of a program that writes a file")
def test_a_studio_that_holds_it_is_sound(plan: Plan, ended: Ended) -> None:
    found = judge(plan, plan.folder, ended)
    assert (found.done, found.left_over, found.faults) == (1, False, ())


@pytest.mark.file_only("kills of a program that writes a file")
def test_an_acknowledged_record_that_is_missing_is_a_fault(plan: Plan, demo_db: Path) -> None:
    shutil.copy(demo_db, plan.folder / NAME)
    (fault,) = judge(plan, plan.folder, SAID).faults
    assert fault.endswith(
        "1 commands had said that they were done, and it holds what 0 commands leave"
    )


@pytest.mark.parametrize(
    "sql",
    [
        "DELETE FROM reading WHERE id = (SELECT max(id) FROM reading)",
        "DELETE FROM change WHERE id = (SELECT max(id) FROM change)",
        "UPDATE reading SET note = 'half' WHERE id = (SELECT max(id) FROM reading)",
    ],
)
@pytest.mark.file_only("kills of a program that writes a file")
def test_half_a_record_is_a_fault(plan: Plan, sql: str) -> None:
    _write(plan.folder, sql)
    assert any(
        "nothing that a command leaves" in each
        for each in judge(plan, plan.folder, NOT_SAID).faults
    )


@pytest.mark.file_only("kills of a program that writes a file")
def test_a_backup_that_is_not_whole_is_a_fault(plan: Plan) -> None:
    backups = plan.folder / "backups"
    backups.mkdir()
    whole = (plan.folder / NAME).read_bytes()
    half = backups / "studio-20261125T171200Z.sqlite3"
    half.write_bytes(whole)
    assert judge(plan, plan.folder, SAID).faults == ()
    half.write_bytes(whole[: len(whole) // 2])
    assert judge(plan, plan.folder, SAID).faults


@pytest.mark.file_only("kills of a program that writes a file")
def test_a_file_under_an_unknown_name_is_a_fault_and_an_unfinished_one_is_not(plan: Plan) -> None:
    (plan.folder / ".unfinished-0a0b").touch()
    found = judge(plan, plan.folder, SAID)
    assert (found.left_over, found.faults) == (True, ())
    (plan.folder / "studio.copy").touch()
    assert judge(plan, plan.folder, SAID).faults == ("studio.copy lies there",)
