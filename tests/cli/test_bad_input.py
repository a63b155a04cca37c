"""Values that cannot be recorded: exit status 3, one sentence, nothing changed."""

import shlex
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Final

import pytest

from tests.cli.conftest import Refuses

LOG: Final = "swatch log FU --lab 50,0,0"
PAINT: Final = "paint add 'Quay Green' --maker 'Orsel Pans'"
PAPER: Final = "paper add 'Creek Rough' --maker 'Eddering Mill'"

REFUSED: Final = {
    # bytes that are no UTF-8, as Python has them in the command line (PEP 383)
    "match '\udcff'": "is not text in UTF-8",
    "swatch show 'mud \udce9'": "is not text in UTF-8",
    "mix show '\udcff'": "is not text in UTF-8",
    "target show '\udcff'": "is not text in UTF-8",
    "care '\udcff'": "is not text in UTF-8",
    "history '\udcff'": "is not text in UTF-8",
    # colours
    "match '#nan'": "is not a CSS colour",
    "match '#12'": "is not a CSS colour",
    "match 'lab(nan 0 0)'": "is not a CSS colour",
    "match ''": "is not a CSS colour",
    "match 'lab(120 0 0)'": "from 0 to 100",
    "match 'lab(-1 0 0)'": "from 0 to 100",
    "match 'rgb(255 0 0 / 0.5)'": "transparent",
    "match '5YR 6/99'": "Munsell",
    "swatch log FU --lab nan,0,0": "finite",
    "swatch log FU --lab inf,0,0": "finite",
    "swatch log FU --lab 101,0,0": "from 0 to 100",
    "swatch log FU --lab -1,0,0": "from 0 to 100",
    "swatch log FU --lab 50,900,0": "from -200 to 200",
    "swatch log FU --lab 50,0": "three numbers",
    "swatch log FU --lab ''": "three numbers",
    "swatch log FU --colour blurple": "is not a CSS colour",
    "swatch log FU --spectrum no-such-file.csv": "cannot be read",
    f"{LOG} --colour tan": "one of --lab, --colour and --spectrum",
    f"{LOG} --for '#blurple'": "is not a CSS colour",
    f"{LOG} --illuminant D51": "such as A, C, D50",
    f"{LOG} --observer 3": "2 or 10",
    "swatch read S1 --lab nan,0,0": "finite",
    # recipes
    "swatch log '0 FU + 1 BS' --lab 50,0,0": "above zero",
    "swatch log --lab 50,0,0 -- '-1 FU + 1 BS'": "above zero",
    "swatch log '1 BS + -1 FU' --lab 50,0,0": "above zero",
    "swatch log '1/0 BS + 1 FU' --lab 50,0,0": "zero",
    "mix add '1000000 BS + 1 FU'": "round them",
    "mix add ''": "is not clear",
    "mix add ' + '": "is not clear",
    "mix add '2 FU + 1 BS' --name mud": "shadow on the mud",
    # days
    f"{LOG} --on 2999-01-01": "future",
    f"{LOG} --on yesterday": "2026-03-14",
    f"{LOG} --on 2026-02-30": "2026-03-14",
    "swatch read S1 --lab 50,0,0 --on 2020-01-01": "older than the swatch",
    "swatch edit S1 --on 2999-01-01": "future",
    "stock use RS 1 --on 2999-01-01": "future",
    "stock weigh RS-3 20 --on 2999-01-01": "future",
    "stock lend RS-3 --on 2999-01-01": "future",
    "fade start FU --place mast --on 2999-01-01": "future",
    "fade read F4 --covered 50,0,0 --exposed 51,0,0 --on 2999-01-01": "future",
    "fade end F4 --on 2999-01-01": "future",
    "paint document FU --file-or-address fu.pdf --dated 2999-01-01": "future",
    # how a swatch was made
    f"{LOG} --water much": "such as 3:1",
    f"{LOG} --water 3:0": "such as 3:1",
    f"{LOG} --water -3": "such as 3:1",
    f"{LOG} --water 5000": "at most 1000",
    f"{LOG} --layers 0": "at least 1",
    f"{LOG} --applied sponge": "flat wash, graded wash",
    f"{LOG} --applied ''": "flat wash, graded wash",
    f"{LOG} --method nose": "spectrophotometer",
    f"{LOG} --condition M9": "M0, M1",
    f"{LOG} --error -1": "at least 0",
    f"{LOG} --error nan": "not nan",
    "swatch edit S1 --applied ''": "flat wash, graded wash",
    "swatch list --last 0": "at least 1",
    # paints
    f"{PAINT} --pigments XX99": "PB29, PBr7",
    f"{PAINT} --form sachet": "tube, pan",
    f"{PAINT} --form ''": "tube, pan",
    f"{PAINT} --transparency milky": "semi-opaque",
    f"{PAINT} --staining lots": "none, low, medium, high",
    f"{PAINT} --granulation ''": "none, low, medium, high",
    f"{PAINT} --volume 0": "above 0",
    f"{PAINT} --volume nan": "not nan",
    f"{PAINT} --volume 14 --left -1": "at least 0",
    f"{PAINT} --left 0": "above 0",
    f"{PAINT} --price abc": "is not a number",
    f"{PAINT} --price nan": "between 0",
    f"{PAINT} --price -1": "between 0",
    f"{PAINT} --price 9.999": "two decimals",
    f"{PAINT} --price 9.50 --currency POUND": "three letters",
    f"{PAINT} --low-at -1": "at least 0",
    f"{PAINT} --code 1A": "start with a letter",
    f"{PAINT} --code FU": "is taken by Pellow & Strand French Ultramarine",
    "paint add 'French Ultramarine' --maker 'Pellow & Strand' --lot P26-118": "recorded already",
    "paint add '' --maker 'Orsel Pans'": "the name is empty",
    "paint edit FU --status gone": "in use, retired",
    "paint edit FU --code BS": "is taken",
    # papers
    f"{PAPER} --weight heavy": "300gsm or 140lb",
    f"{PAPER} --weight 0": "at least 20",
    f"{PAPER} --size big": "22x30in",
    f"{PAPER} --size 0x10in": "at least 10",
    f"{PAPER} --surface bumpy": "cold pressed",
    f"{PAPER} --surface ''": "cold pressed",
    f"{PAPER} --fibre nylon": "wood pulp",
    f"{PAPER} --sheets 0": "above 0",
    f"{PAPER} --white 96,-0.5": "three numbers",
    f"{PAPER} --low-at -1": "at least 0",
    # stock
    "stock use RS 0": "above 0",
    "stock use RS nan": "not nan",
    "stock use RS 1000": "only 6.125 ml of Pellow & Strand Raw Sienna are on record",
    "stock use ECP 100": "only 6 sheets of Eddering Mill Slipway Rag are on record",
    "stock buy RS 14 --price free": "is not a number",
    "stock buy RS nan": "not nan",
    "stock buy RS 14 --weight nan": "not nan",
    "stock weigh RS-3 inf": "not inf",
    "stock weigh RS-3 0": "above 0",
    "stock refill RS-2 nan --from RS-3": "not nan",
    "stock discard RS nan": "not nan",
    "stock correct YO inf": "not inf",
    "stock correct -- YO -1": "at least 0",
    "stock reorder --weeks nan": "not nan",
    "stock reorder --need FU=nan": "not nan",
    "stock reorder --students 8 --each FU=inf": "not inf",
    "stock reorder --students -1 --each FU=1": "number of students must be at least 1",
    # strips in the window
    "fade start FU --place ''": "is empty",
    "fade read F4 --covered nan,0,0 --exposed 50,0,0": "finite",
    "fade read F4 --covered 50,0 --exposed 50,0,0": "three numbers",
    "fade read F4 --covered 50,0,0": "half",
    "fade read F4 --covered 50,0,0 --exposed 51,0,0 --blue-wool 9": "blue wool",
    "fade read F4 --covered 50,0,0 --exposed 51,0,0 --illuminant D51": "such as A, C, D50",
    "fade read F4 --covered 50,0,0 --exposed 51,0,0 --observer 3": "2 or 10",
    # care
    "care": "sheet",
    "care FU --class children": "one of them",
    "care FU --for licking": "rinse water",
    "care --class llamas": "adults or children",
    "care FU --pdf sheet.pdf": "studio care sheet",
    "check --class llamas": "adults or children",
    "paint document FU": "nothing to record",
    # searches
    "match tan --within -1": "at least 0",
    "match tan --within nan": "not nan",
    "match tan -n 0": "at least 1",
    "match tan --metric cie94": "ciede2000, cie76",
    "match tan --metric 'cmc(0:1)'": "above zero",
    "match tan --without-hazard plutonium": "cadmium, carcinogen",
    "match tan --without-hazard ''": "cadmium, carcinogen",
    "match tan --lightfast VI": "I, II, III, IV, V",
    "match tan --lightfast ''": "I, II, III, IV, V",
    # pigments
    "pigment rate PB29 VI --source label": "I, II, III, IV, V",
    "pigment rate PB29 9 --source label --scale 'blue wool'": "1 to 8",
    "pigment rate PB29 I --source label --scale stars": "blue wool",
    "pigment rate PB29 I --source label --year 1700": "at least 1800",
    "pigment rate PB29 I --source ''": "the source is empty",
    "pigment verify PB29 --from label": "--lightfastness, --hazards",
    "pigment verify PB29 --hazards --from ''": "is empty",
    # tables
    "import no-such-file.csv": "there is no file",
    "import no-such-file.csv --as sonnets": "not a kind of table",
    # what is missing, with nobody to ask
    "paint add": "the name of the paint is missing; give its name as an argument",
    "paint add 'Quay Green'": "the maker is missing; give --maker",
    "paper add": "the name of the paper is missing; give its name as an argument",
    "paper add 'Creek Rough'": "the maker is missing; give --maker",
    "mix add": "the recipe is missing; give the recipe as an argument",
    "swatch log": "the recipe is missing; give the recipe as an argument",
    "swatch log FU": "is missing; give --lab, --colour or --spectrum",
    "swatch read S1": "is missing; give --lab, --colour or --spectrum",
}


@pytest.mark.parametrize("line", REFUSED)
def test_it_is_refused_in_one_sentence_and_nothing_changes(line: str, refuses: Refuses) -> None:
    assert REFUSED[line] in refuses(3, *shlex.split(line))


def test_a_spectrum_must_be_a_table_of_equal_steps(refuses: Refuses, tmp_path: Path) -> None:
    table = tmp_path / "spectrum.csv"
    for text, said in (
        ("not a table\nnor this\n", "wavelength and reflectance"),
        ("400,0.1\n410,0.2\n430,0.3\n", "equal steps"),
        ("400,0.1\n", "fewer than two readings"),
        ("", "fewer than two readings"),
    ):
        table.write_text(text)
        assert said in refuses(3, "swatch", "log", "FU", "--spectrum", str(table))


def test_the_kind_of_a_table_must_be_clear(refuses: Refuses, tmp_path: Path) -> None:
    table = tmp_path / "shopping.csv"
    table.write_text("maker,name\nOrsel Pans,Locker Brown\n")
    assert "--as" in refuses(3, "import", str(table))
    (tmp_path / "nothing").mkdir()
    assert "holds no table" in refuses(3, "import", str(tmp_path / "nothing"))


@pytest.mark.file_only("a server lets no such thing happen")
def test_a_swatch_needs_a_paper_on_record(refuses: Refuses, demo_db: Path) -> None:
    with closing(sqlite3.connect(demo_db)) as connection, connection:
        connection.execute("PRAGMA foreign_keys = OFF")
        for table in ("reading", "swatch", "paper"):
            connection.execute(f"DELETE FROM {table}")
    assert "studio paper add" in refuses(3, "swatch", "log", "FU", "--lab", "50,0,0")
