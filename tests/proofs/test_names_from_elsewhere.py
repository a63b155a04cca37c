"""Names that come with a file stay names: no folder is left by them, no page runs them."""

import csv
import hashlib
import json
import os
import shutil
import socket
from collections.abc import Callable
from pathlib import Path
from typing import Final

import pytest

from studio.errors import ExitStatus
from tests.conftest import Run
from tests.formats.files import MUD, cxf, cxf_object, cxf_spectrum
from tests.proofs.studio_beside import records
from tests.sheets.pages import HOSTILE, read_html

pytestmark = pytest.mark.file_only("about files and folders")

OUTSIDE: Final = "kept outside"

NAMES: Final = (
    "../outside.csv", "/outside.csv", "./paint.csv", "paint.csv/../../outside.csv",
    "..\\outside.csv", "C:\\outside.csv", "\\\\host\\outside.csv", "~/outside.csv",
    "file:///outside.csv", "paint.csv\n", "paint.csv\x00", "PAINT.CSV", "p\u0430int.csv",
    "\u202evsc.tniap", f"{'m' * 10_000}.csv", ".csv", "", "CON.csv",
)  # fmt: skip


@pytest.fixture
def whole(run: Run, demo_db: Path, tmp_path: Path) -> Path:
    """An exported folder with a measurement file, and a file outside that nobody may touch."""
    (tmp_path / "creek.cxf").write_bytes(cxf(cxf_object("mud", cxf_spectrum())))
    assert (
        run("swatch", "read", "S1", "--file", str(tmp_path / "creek.cxf"), db=demo_db).status == 0
    )
    folder = tmp_path / "whole"
    assert run("export", str(folder), db=demo_db).status == 0
    (tmp_path / "outside.csv").write_text(OUTSIDE)
    return folder


@pytest.fixture
def refused(run: Run, whole: Path, tmp_path: Path) -> Callable[[], str]:
    """Import the folder, which must be refused in one sentence and leave nothing."""

    def check() -> str:
        beside = sorted(tmp_path.iterdir())
        outcome = run("import", str(whole), db=tmp_path / "new.sqlite3")
        assert (outcome.status, outcome.out) == (ExitStatus.BAD_INPUT, "")
        assert outcome.err.startswith("studio: ")
        assert outcome.err.count("\n") == 1
        assert sorted(tmp_path.iterdir()) == beside
        assert (tmp_path / "outside.csv").read_text() == OUTSIDE
        return outcome.err

    return check


def _relist(folder: Path, group: str, name: str) -> None:
    about = json.loads((folder / "studio.json").read_text(encoding="utf-8"))
    about[group][0]["file"] = name
    (folder / "studio.json").write_text(json.dumps(about), encoding="utf-8")


@pytest.mark.parametrize("name", NAMES, ids=lambda name: ascii(name)[:24])
@pytest.mark.parametrize("group", ["tables", "files"])
def test_a_listed_name_leads_nowhere_else(
    name: str, group: str, whole: Path, refused: Callable[[], str]
) -> None:
    _relist(whole, group, name if group == "tables" else f"files/{name}")
    said = ("studio.json lists a", "cannot be read: file name too long")
    assert any(each in refused() for each in said)
    _relist(whole, group, name)
    assert any(each in refused() for each in said)


def _link_to(target: str) -> Callable[[Path], None]:
    return lambda path: path.symlink_to(target)


def _socket(path: Path) -> None:
    here = Path.cwd()
    os.chdir(path.parent)  # the address of a socket is short
    try:
        with socket.socket(socket.AF_UNIX) as made:
            made.bind(path.name)
    finally:
        os.chdir(here)


INSTEAD: Final[dict[str, Callable[[Path], None]]] = {
    "a link to a device": _link_to("/dev/zero"),
    "a link outside": _link_to("../outside.csv"),
    "a link to itself": lambda path: path.symlink_to(path.name),
    "a folder": lambda path: path.mkdir(),
    "a pipe": os.mkfifo,
    "a socket": _socket,
}


@pytest.mark.parametrize("kind", INSTEAD)
@pytest.mark.parametrize("which", ["table", "measurement"])
def test_what_is_no_plain_file_of_the_folder_is_refused(
    kind: str, which: str, whole: Path, refused: Callable[[], str]
) -> None:
    path = whole / "mix.csv" if which == "table" else next((whole / "files").iterdir())
    path.unlink()
    INSTEAD[kind](path)
    assert "is a link or no file" in refused()


@pytest.mark.parametrize("kind", INSTEAD)
def test_nor_is_a_list_that_is_no_plain_file(
    kind: str, whole: Path, refused: Callable[[], str]
) -> None:
    (whole / "studio.json").unlink()
    INSTEAD[kind](whole / "studio.json")
    refused()


@pytest.mark.parametrize(
    "name",
    ["../../creek.cxf", "/etc/cron.d/creek", "creek.cxf/../../..", "..", "a\\..\\b.cxf", "n" * 5000,
     "creek.\u202efxc", "<b>&\"'.cxf"],
    ids=lambda name: ascii(name)[:24],
)  # fmt: skip
def test_a_measurement_file_is_written_under_its_digest_whatever_it_is_called(
    name: str, run: Run, whole: Path, tmp_path: Path
) -> None:
    """A folder whose table of measurement files was written by somebody else, and signed."""
    path = whole / "measurement_file.csv"
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    old = path.read_bytes()
    rows[1][rows[0].index("name")] = name
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, lineterminator="\r\n").writerows(rows)
    listed = (whole / "studio.json").read_text(encoding="utf-8")
    was, now = (hashlib.sha256(each).hexdigest() for each in (old, path.read_bytes()))
    (whole / "studio.json").write_text(listed.replace(was, now), encoding="utf-8")
    new = tmp_path / "new" / "studio.sqlite3"
    new.parent.mkdir()
    outcome = run("import", str(whole), db=new)
    if outcome.status == ExitStatus.BAD_INPUT:
        assert list(new.parent.iterdir()) == []
        return
    assert outcome.status == ExitStatus.DONE, outcome.err
    shown = run("swatch", "show", "S1", db=new).out
    assert not set(shown) & set("\x1b\x07\u202e\u202d")
    again = tmp_path / "again"
    assert run("export", str(again), db=new).status == 0
    (file_,) = (again / "files").iterdir()
    assert file_.name.startswith(hashlib.sha256(file_.read_bytes()).hexdigest())
    assert {each.name for each in again.iterdir()} == {each.name for each in whole.iterdir()}


def test_pages_of_imported_names_show_them_and_run_nothing(
    run: Run, demo_db: Path, tmp_path: Path
) -> None:
    """Names, makers, notes and places of a table that came from elsewhere, on every page."""
    names = [
        HOSTILE.replace("\\", ""),
        '" onmouseover="alert(1)',
        "' x='",
        "a & b < c > d",
        "\u05d0\u05d1 <i>mud</i>",
        "&lt;b&gt;",
    ]
    table = tmp_path / "paints.csv"
    with table.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(
            ["code", "maker", "name", "pigments", "form", "volume_ml", "low_at_ml", "note"]
        )
        writer.writerows(
            [f"ZZ{n}", f"Orsel {name}", name, "PB28;PY35", "tube", "14", "5", name]
            for n, name in enumerate(names)
        )
    imported = run("import", str(table), db=demo_db)
    assert (imported.status, imported.err.count("line ")) == (0, 0), imported.err
    for words in (
        ("paint", "card", "--all"), ("care", "sheet"),
        ("stock", "reorder", *(f"--need=ZZ{n}=3" for n in range(len(names)))),
    ):  # fmt: skip
        page = tmp_path / f"{words[0]}.html"
        outcome = run(*words, "--html", str(page), db=demo_db)
        assert outcome.status == 0, outcome.err
        root = read_html(page.read_text(encoding="utf-8"))
        assert not {each.tag for each in root.every} & {
            "script",
            "i",
            "b",
            "iframe",
            "img",
            "object",
            "a",
        }
        attributes = [name for each in root.every for name in each.attributes]
        assert not any(name.startswith("on") or name in {"src", "href", "x"} for name in attributes)
        text = " ".join(root.text.split())
        for name in names:
            assert " ".join(name.split()) in text, (words, name)


ENTITIES: Final = (
    b'<!DOCTYPE CxF [<!ENTITY a "mud">]>', b'<!DOCTYPE CxF SYSTEM "file:///dev/zero">',
    b'<!DOCTYPE CxF [<!ENTITY % a SYSTEM "http://127.0.0.1:1/a">%a;]>', b"<!DOCTYPE CxF>",
)  # fmt: skip


@pytest.mark.parametrize("document", ENTITIES)
@pytest.mark.parametrize("encoding", ["utf-8", "utf-16"])
def test_xml_with_a_document_type_is_refused(
    document: bytes, encoding: str, run: Run, demo_db: Path, tmp_path: Path
) -> None:
    whole = cxf(cxf_object("S1", cxf_spectrum(MUD))).decode()
    head, sign, rest = whole.partition("?>")
    path = tmp_path / "readings.cxf"
    text = (head + sign + document.decode() + rest) if sign else document.decode() + whole
    path.write_bytes(text.replace("utf-8", encoding).replace("UTF-8", encoding).encode(encoding))
    before = records(demo_db)
    outcome = run("swatch", "read", "S1", "--file", str(path), db=demo_db)
    assert (outcome.status, outcome.out, outcome.err.count("\n")) == (3, "", 1)
    assert records(demo_db) == before


@pytest.mark.parametrize("option", ["--file", "--spectrum"])
@pytest.mark.parametrize("device", ["/dev/zero", "/dev/full"])
def test_a_device_that_never_ends_is_read_no_further_than_a_file_may_be(
    option: str, device: str, run: Run, demo_db: Path
) -> None:
    outcome = run("swatch", "read", "S1", option, device, db=demo_db)
    assert (outcome.status, outcome.err.count("\n")) == (3, 1)
    assert " is larger than " in outcome.err


def test_a_map_that_never_ends_is_refused(run: Run, demo_db: Path, tmp_path: Path) -> None:
    path = tmp_path / "S1.cxf"
    path.write_bytes(cxf(cxf_object("S1", cxf_spectrum(MUD))))
    outcome = run("swatch", "read", "--all", "--file", str(path), "--map", "/dev/zero", db=demo_db)
    assert (outcome.status, outcome.err.count("\n")) == (3, 1)
    assert "zero is larger than 20 MB" in outcome.err


def test_a_page_is_written_into_what_is_no_plain_file_and_never_in_its_place(
    run: Run, demo_db: Path, tmp_path: Path
) -> None:
    """A device, a pipe and a link stay what they are; replacing /dev/null harms a whole machine."""
    elsewhere, link, pipe = tmp_path / "elsewhere.csv", tmp_path / "link.csv", tmp_path / "pipe"
    elsewhere.write_text("older")
    link.symlink_to(elsewhere)
    os.mkfifo(pipe)
    reader = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    order = ("stock", "reorder", "--need", "FU=30")
    try:
        for path in (link, pipe):
            assert run(*order, "--csv", str(path), db=demo_db).status == 0
        assert os.read(reader, 4) == elsewhere.read_bytes()[:4] == b"item"
    finally:
        os.close(reader)
    assert link.is_symlink()
    assert pipe.is_fifo()
    loop = tmp_path / "loop.csv"
    loop.symlink_to(loop)
    outcome = run(*order, "--csv", str(loop), db=demo_db)
    assert (outcome.status, outcome.err.count("\n")) == (3, 1)
    assert sorted(path.name for path in tmp_path.iterdir() if path.name.startswith(".")) == []


@pytest.mark.parametrize(
    "words",
    [("import", "PATH"), ("export", "PATH"), ("target", "pick", "PATH", "--at", "1,1"),
     ("trust", "--png", "PATH"), ("restore", "PATH", "--yes"), ("backup", "--to", "PATH"),
     ("swatch", "read", "S1", "--file", "PATH"), ("stock", "reorder", "--csv", "PATH")],
    ids=" ".join,
)  # fmt: skip
@pytest.mark.parametrize(
    "name", ["m" * 300, "m" * 10_000, "a/" * 3000], ids=["300", "10000", "deep"]
)
def test_a_path_that_no_system_can_look_for_is_told_in_one_sentence(
    words: tuple[str, ...], name: str, run: Run, demo_db: Path
) -> None:
    before = records(demo_db)
    outcome = run(*(name if word == "PATH" else word for word in words), db=demo_db)
    assert outcome.status in {3, 4, 5}
    assert (outcome.out, outcome.err.count("\n")) == ("", 1)
    assert outcome.err.startswith("studio: ")
    assert "defect" not in outcome.err
    assert str(demo_db) not in outcome.err
    assert records(demo_db) == before


def test_a_name_that_breaks_lines_or_steers_a_terminal_is_told_in_one_line(run: Run) -> None:
    done = run("import", "creek\n\x1b[2Jstudio: recorded\u202ecsv.\N{GREEK SMALL LETTER MU}")
    assert done.status == ExitStatus.BAD_INPUT
    assert done.err.count("\n") == 1
    assert r"creek\n\x1b[2Jstudio: recorded\u202ecsv.μ" in done.err


@pytest.mark.parametrize(
    "words", [("swatch", "book", "--png"), ("paint", "card", "FU", "--pdf"), ("import",)]
)
def test_a_nul_in_a_name_is_told_in_one_sentence(
    words: tuple[str, ...], run: Run, demo_db: Path
) -> None:
    outcome = run(*words, "creek\x00.png", db=demo_db)
    assert (outcome.status, outcome.out) == (ExitStatus.BAD_INPUT, "")
    assert outcome.err == "studio: no name of a file holds a NUL; write it anew\n"


def test_nor_can_a_database_of_such_a_name_be_opened(run: Run) -> None:
    outcome = run("paint", "list", db=Path("m" * 300))
    assert outcome.status == ExitStatus.DATABASE
    assert outcome.err == f"studio: {'m' * 300} cannot be used: file name too long\n"


def test_shutil_has_no_part_in_reading_a_folder(whole: Path, run: Run, tmp_path: Path) -> None:
    """An archive of a folder is no folder; nothing is unpacked."""
    archive = shutil.make_archive(str(tmp_path / "whole"), "zip", whole)
    outcome = run("import", archive, db=tmp_path / "new.sqlite3")
    assert outcome.status == ExitStatus.BAD_INPUT
    assert not (tmp_path / "new.sqlite3").exists()
