"""The shortened forms of the proofs that damaged input and odd command lines do no harm."""

import shutil
import sys
from pathlib import Path

import pytest

from tests.conftest import TODAY
from tests.proofs import command_lines, damaged_files
from tests.proofs.fence import fenced
from tests.proofs.studio_beside import Beside, Ended, furnished, records, run_line

pytestmark = pytest.mark.file_only("copies the file for each command line")


@pytest.fixture(scope="module")
def beside(demo_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Beside:
    """A demo studio with files around it."""
    path = tmp_path_factory.mktemp("template") / "template.sqlite3"
    shutil.copy(demo_template, path)
    return Beside(furnished(path, TODAY), tmp_path_factory.mktemp("proof"))


def test_no_command_line_ends_in_a_defect_or_half_done(
    beside: Beside, capsys: pytest.CaptureFixture[str]
) -> None:
    figures = command_lines.prove(beside, 142, None)
    with capsys.disabled():
        sys.stdout.write(f"\n{figures}\n")
    assert figures.faults == []
    assert len(figures.kinds) == len(command_lines.RUN) - 2  # demo and trust take seconds each
    assert {0, 2, 3, 4} <= set(figures.statuses)
    assert figures.recorded > 5


def test_no_damaged_file_does_harm(beside: Beside, capsys: pytest.CaptureFixture[str]) -> None:
    figures = damaged_files.prove(beside, 82, None)
    with capsys.disabled():
        sys.stdout.write(f"\n{figures}\n")
    assert figures.faults == []
    assert {0, 3, 6} <= set(figures.statuses)


def test_the_proof_sees_what_it_looks_for(beside: Beside) -> None:
    """A record, a file and a status that should not be are each found."""
    with beside.inside():
        beside.renew()
        words = ["paint", "list"]
        command = command_lines.RUN["paint", "list"]
        ended = run_line(["--db", str(beside.database), *words])
        assert command_lines.faults_of(words, command, ended, beside) == []
        run_line(["--db", str(beside.database), "target", "add", "oar", "#445566"])
        assert records(beside.database) != beside.kept
        stray = beside.root / "beside" / "stray.txt"
        stray.touch()
        loose = beside.database.parent / "loose"
        loose.touch(mode=0o644)
        loose.chmod(0o644)
        bad = Ended(1, "", "studio: a defect")
        found = command_lines.faults_of(words, command, bad, beside)
        assert [fault.split()[0] for fault in found] == ["status", "the", "wrote", "others"]


def test_the_fence_keeps_writing_inside(tmp_path: Path) -> None:
    inside, outside = tmp_path / "inside", tmp_path / "outside"
    inside.mkdir()
    with fenced(inside):
        (inside / "a").write_text("a")
        (inside / "a").rename(inside / "b")
        with pytest.raises(PermissionError):
            outside.write_text("a")
        with pytest.raises(PermissionError):
            (inside / "b").rename(outside)
        with pytest.raises(PermissionError):
            (inside / ".." / "outside").mkdir()
        with pytest.raises(PermissionError):
            tmp_path.chmod(0o755)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["inside"]
