"""What is removed counts nowhere: every command prints what it prints where it never was."""

import json
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Final

import pytest

from studio.storage.unit_of_work import UnitOfWork
from tests.cli.command_tree import LEAVES
from tests.cli.conftest import Does, Refuses
from tests.conftest import TODAY, Run

pytestmark = pytest.mark.file_only("copies of files")

PICTURES: Final = Path(__file__).resolve().parents[2] / "seed_demo" / "files"
REMOVED: Final = "S2"
"""Read wet and dry with spectra, one of seven swatches of its mix."""
COLOUR: Final = "lab(49.8 11.4 -55.5)"

LOOKING: Final[tuple[str, ...]] = (
    "swatch list",
    "swatch list --of M1",
    "swatch list --paper ECP --last 300",
    "swatch show S1",
    "swatch drying",
    "swatch compare S1 S4",
    f"match '{COLOUR}' -n 20",
    f"match '{COLOUR}' --all-swatches -n 20",
    f"match '{COLOUR}' --wet-swatches --all-swatches -n 20",
    f"match '{COLOUR}' --wet",
    "match S1 --all-swatches --light A -n 10",
    f"match '{COLOUR}' --between -n 3",
    f"formulate '{COLOUR}' --paints 2 -n 2",
    "adjust S1 '#4f6f9e'",
    "trust",
    "check",
    "check --class children",
    "care M1 --for spray",
    "care --class children",
    "care sheet",
    "mix list",
    "mix show M1",
    "paint list",
    "paint show FU",
    "paper list",
    "paper show ECP",
    "stock list",
    "stock show FU",
    "stock reorder",
    "fade list",
    "fade report",
    "pigment show PB29",
    "target list",
    f"target add 'evening tide' '{COLOUR}'",
    f"target pick {PICTURES / 'creek.png'} --at 40%,60%",
    f"target palette {PICTURES / 'creek.png'} -n 2",
    f"swatch read --file {PICTURES / 'readings.cxf'} --all --dry-run",
    "swatch log M1 --lab 40,2,-50 --paper ECP",
    "swatch cards --mix M1",
    f"swatch plane --target '{COLOUR}'",
    "swatch spectra --mix M1",
    "mix chart FU BS",
    "painting list",
    "painting show P1",
    "painting test P2 mud M1 --lab 40,2,-50",
    "painting plan P2",
    "painting class P2 --students 3",
)  # fmt: skip
"""A line of every command that shows swatches or counts with them."""

ELSEWHERE: Final = {
    "demo", "backup list", "restore", "export", "redo", "undo", "history", "import",
    "db where", "db upgrade", "db check",
    "swatch edit", "swatch remove", "swatch restore", "target show", "target remove",
    "target restore", "target grid", "mix add", "mix edit", "paint add", "paint edit",
    "paint retire", "paint document", "paint card", "paper add", "paper edit", "stock buy",
    "stock use", "stock weigh", "stock refill", "stock open", "stock lend", "stock return",
    "stock discard", "stock correct", "fade start", "fade read", "fade end", "pigment list",
    "pigment rate", "pigment verify", "painting start", "painting edit", "painting remove",
    "painting restore", "painting finish", "painting record", "painting passage add",
    "painting passage edit", "painting passage colour", "painting passage move",
    "painting passage remove", "painting passage restore",
}  # fmt: skip
"""Commands that show no swatch but the one that is named, or tell of none."""

WRITING: Final = {"swatch book"}
"""Commands that show swatches in a file that they write; they have a test of their own."""

Pair = tuple[Path, Path]


@pytest.fixture(scope="module")
def pair(demo_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Pair:
    """A demo studio with a removed swatch, and one in which it never was."""
    from studio.actions.paint_model import paint_model
    from studio.cli.app import main

    folder = tmp_path_factory.mktemp("removed")
    marked = Path(shutil.copy(demo_template, folder / "studio.sqlite3"))
    never = Path(shutil.copy(demo_template, folder / "never.sqlite3"))
    assert main(["--db", str(marked), "swatch", "remove", REMOVED, "--because", "smudged"]) == 0
    with closing(sqlite3.connect(never)) as connection:
        (key,) = connection.execute("SELECT id FROM swatch WHERE code = ?", (REMOVED,)).fetchone()
        connection.execute("DELETE FROM reading WHERE swatch_id = ?", (key,))
        connection.execute("DELETE FROM swatch WHERE id = ?", (key,))
        connection.commit()
    for path in (marked, never):  # once, not for every line
        with UnitOfWork(path, write=True) as work:
            paint_model(work, TODAY)
            work.commit()
    return marked, never


Same = Callable[..., str]


@pytest.fixture
def same(pair: Pair, run: Run, tmp_path: Path) -> Same:
    """`same("swatch", "list")`: what both studios print; commands work on copies."""

    def compare(*words: str) -> str:
        printed = []
        for number, template in enumerate(pair):
            path = Path(shutil.copy(template, tmp_path / f"{number}.sqlite3"))
            outcome = run(*words, db=path)
            assert outcome.status in {0, 6, 10}, outcome.err
            printed.append((outcome.out, outcome.err.replace(str(path), "")))
        assert printed[0] == printed[1]
        return printed[0][0]

    return compare


def test_every_command_is_looked_at_or_shows_no_swatch() -> None:
    lines = [tuple(line.split()) for line in LOOKING]
    looked = {" ".join(path) for path in LEAVES for words in lines if words[: len(path)] == path}
    assert looked | ELSEWHERE | WRITING == {" ".join(path) for path in LEAVES}
    assert not looked & (ELSEWHERE | WRITING)


@pytest.mark.parametrize("line", LOOKING)
def test_a_removed_swatch_changes_nothing_that_any_command_prints(line: str, same: Same) -> None:
    import shlex

    words = shlex.split(line)
    out = same(*words)
    assert REMOVED not in out.replace(",", " ").replace('"', " ").split()
    if line.startswith(("match", "swatch list", "mix show", "formulate", "trust")):
        assert REMOVED not in same(*words, "--json").replace('"', " ").split()


def test_a_removed_swatch_stands_in_no_book(pair: Pair, run: Run, tmp_path: Path) -> None:
    books = []
    for place, database in enumerate(pair):
        file = tmp_path / f"{place}.html"
        assert run("swatch", "book", "--html", str(file), db=database).status == 0
        books.append(file.read_text(encoding="utf-8"))
    assert books[0] == books[1]
    assert 'id="S1"' in books[0]
    assert f'id="{REMOVED}"' not in books[0]


def test_the_swatch_was_in_the_way_of_these_commands(run: Run, demo_db: Path, same: Same) -> None:
    for words in (
        ("swatch", "list"),
        ("swatch", "drying"),
        ("mix", "list"),
        ("match", COLOUR, "--all-swatches"),
    ):
        assert run(*words, db=demo_db).out != same(*words)


def test_a_removed_swatch_is_shown_by_its_code_and_in_a_list_of_its_own(
    pair: Pair, run: Run
) -> None:
    marked, never = pair
    shown = run("swatch", "show", REMOVED, db=marked)
    assert "removed     " in shown.out
    assert ": smudged" in shown.out
    told = json.loads(run("swatch", "show", REMOVED, "--json", db=marked).out)
    assert told["removed_because"] == "smudged"
    assert len(told["readings"]) == 2
    listed = json.loads(run("swatch", "list", "--removed", "--json", db=marked).out)
    assert listed == [told]
    assert (
        json.loads(run("swatch", "list", "--removed", "--of", "M2", "--json", db=marked).out) == []
    )
    assert run("swatch", "list", "--removed", "--json", db=never).out == "[]\n"
    assert run("db", "check", db=marked).status == 0


AIDED: Final = (
    ("match", REMOVED),
    ("adjust", REMOVED, "#4f6f9e"),
    ("swatch", "edit", REMOVED, "--kept", "box 9"),
    ("swatch", "read", REMOVED, "--lab", "40,2,-50"),
    ("swatch", "compare", "S1", REMOVED),
    ("swatch", "remove", REMOVED, "--reading", "1"),
    ("swatch", "restore", REMOVED, "--reading", "1"),
    ("swatch", "log", "FU", "--lab", "40,2,-50", "--paper", "ECP", "--for", REMOVED),
)


@pytest.mark.parametrize("words", AIDED, ids=" ".join)
def test_whoever_names_a_removed_swatch_hears_how_to_bring_it_back(
    words: tuple[str, ...], refuses: Refuses, run: Run, demo_db: Path
) -> None:
    run("swatch", "remove", REMOVED, db=demo_db)
    said = refuses(4, *words)
    assert said.startswith(f"swatch {REMOVED} was removed on ")
    assert said.endswith(f"restore it first: studio swatch restore {REMOVED}")


def test_restoring_leads_back_to_the_same_studio(run: Run, demo_db: Path) -> None:
    before = run("swatch", "list", "--json", db=demo_db).out
    run("swatch", "remove", REMOVED, db=demo_db)
    assert run("swatch", "list", "--json", db=demo_db).out != before
    run("swatch", "restore", REMOVED, db=demo_db)
    assert run("swatch", "list", "--json", db=demo_db).out == before


def test_what_cannot_be_removed_or_restored_is_said(
    refuses: Refuses, run: Run, demo_db: Path
) -> None:
    assert refuses(3, "swatch", "restore", "S1") == (
        "S1 was not removed; removed swatches: studio swatch list --removed"
    )
    assert refuses(4, "swatch", "remove", "S999").startswith("no swatch has the code 'S999'")
    assert refuses(3, "swatch", "remove", "S1", "--because", "x" * 1001).startswith("the reason is")
    assert refuses(3, "swatch", "remove", "S1", "--reading", "3").endswith(
        "no reading 3; see: studio swatch show S1"
    )
    assert refuses(3, "swatch", "restore", "S11", "--reading", "1") == (
        "reading 1 of S11 was not set aside"
    )
    run("swatch", "remove", "S11", "--reading", "1", db=demo_db)
    assert refuses(3, "swatch", "remove", "S11", "--reading", "1") == (
        "reading 1 of S11 was set aside already"
    )
    assert refuses(3, "swatch", "remove", "S11", "--reading", "2") == (
        "reading 2 is the last of S11 that counts; remove the swatch instead: "
        "studio swatch remove S11"
    )
    run("swatch", "remove", "S1", db=demo_db)
    assert refuses(3, "swatch", "remove", "S1").startswith("S1 was removed already, on ")


def test_a_reading_set_aside_counts_nowhere_and_comes_back(run: Run, demo_db: Path) -> None:
    def told(*words: str) -> object:
        return json.loads(run(*words, "--json", db=demo_db).out)

    before = told("swatch", "show", "S11")
    assert isinstance(before, dict)
    run("swatch", "remove", "S11", "--reading", "1", "--because", "slipped", db=demo_db)
    after = told("swatch", "show", "S11")
    assert isinstance(after, dict)
    assert after["readings"] == before["readings"][1:]
    assert after["lab"] == before["readings"][1]["lab"]
    (aside,) = after["set_aside"]
    assert (aside["number"], aside["removed_because"]) == (1, "slipped")
    assert aside["reading"] == before["readings"][0]
    text = run("swatch", "show", "S11", db=demo_db).out
    assert "Set aside, not counted" in text
    assert "  1.  L*" in text.split("Set aside")[1]
    assert "  2.  L*" in text.split("Set aside")[0]
    run("swatch", "restore", "S11", "--reading", "1", db=demo_db)
    assert told("swatch", "show", "S11") == before


def test_a_wet_reading_set_aside_waits_for_no_drying(run: Run, demo_db: Path) -> None:
    wet = json.loads(run("swatch", "drying", "--json", db=demo_db).out)["overall"]["pairs"]
    run("swatch", "remove", REMOVED, "--reading", "1", db=demo_db)
    now = json.loads(run("swatch", "drying", "--json", db=demo_db).out)["overall"]["pairs"]
    assert now == wet - 1


def test_the_same_reading_is_not_taken_again_once_it_was_set_aside(
    run: Run, shelf: Does, empty_db: Path
) -> None:
    table = empty_db.with_name("swatches.csv")
    table.write_text(
        "code,paper,made_on,recipe,lab_l,lab_a,lab_b\n"
        "S5,SR,2026-03-01,FU,40,2,-50\nS5,SR,2026-03-01,FU,41,2,-50\n,SR,2026-03-02,BS,40,20,30\n"
    )
    shelf("import", str(table))
    shelf("swatch", "remove", "S5", "--reading", "1")
    shelf("swatch", "remove", "S6")
    assert "3 there already" in shelf("import", str(table)).out
    shelf("swatch", "remove", "S5")
    assert "3 there already" in shelf("import", str(table)).out
    table.write_text("code,paper,made_on,recipe,lab_l,lab_a,lab_b\nS5,SR,2026-03-01,FU,60,2,-50\n")
    outcome = run("import", str(table), db=empty_db)
    assert outcome.status == 6
    assert "swatch S5 was removed on" in outcome.err


def test_a_sample_of_a_removed_swatch_fits_none(run: Run, demo_db: Path) -> None:
    words = ("swatch", "read", "--file", str(PICTURES / "readings.cxf"), "--all", "--dry-run")
    code = json.loads(run(*words, "--json", db=demo_db).out)["readings"][0]["swatch"]
    run("swatch", "remove", code, db=demo_db)
    unfit = json.loads(run(*words, "--json", db=demo_db).out)["unfit"]
    assert f"swatch {code} was removed" in {each["reason"] for each in unfit}


def test_a_targets_name_is_free_again_once_it_was_removed(
    does: Does, run: Run, empty_db: Path
) -> None:
    does("target", "add", "wet mud", "#5b5f6e")
    assert "target restore" in does("target", "remove", "mud", "--because", "another tide").out
    assert does("target", "list", "--json").out == "[]\n"
    (removed,) = json.loads(does("target", "list", "--removed", "--json").out)
    assert (removed["target"], removed["removed_because"]) == ("wet mud", "another tide")
    assert run("target", "show", "wet mud", db=empty_db).status == 4
    assert run("match", "wet mud", db=empty_db).status == 4
    does("target", "add", "wet mud", "#6b6f7e")
    outcome = run("target", "restore", "wet mud", db=empty_db)
    assert (outcome.status, outcome.err) == (
        3,
        "studio: another target is called 'wet mud' by now; remove that one first\n",
    )
    does("target", "remove", "wet mud")
    assert "is back" in does("target", "restore", "Wet  mud").out
    assert json.loads(does("target", "list", "--json").out)[0]["srgb"] == "#6b6f7e"
    outcome = run("target", "restore", "hull", db=empty_db)
    assert (outcome.status, outcome.err) == (
        4,
        "studio: no removed target is called 'hull'; see: studio target list --removed\n",
    )
    assert run("target", "remove", "hull", db=empty_db).status == 4
