"""The shipped reference tables are well formed, agree and claim nothing unmarked."""

import csv
import re
from pathlib import Path

import pytest

SHARED = Path(__file__).resolve().parents[2] / "shared"

COLUMNS = {
    "pigments.csv": ("ci_name ci_number common_name chemical_class evidence source note looked_up"),
    "lightfastness.csv": "ci_name scale rating medium year source evidence note",
    "hazards.csv": (
        "ci_name agent cas summary h_codes basis basis_detail routes metals listed use evidence "
        "source"
    ),
    "h_statements.csv": "code hazard_class wording source",
}
MARKED = ("pigments.csv", "lightfastness.csv", "hazards.csv")
EVIDENCE = {"published", "partly", "memory"}
BASES = {"harmonised", "exempt", "notified", "annulled", "none"}
ROUTES = {
    "swallowing",
    "breathing dust",
    "breathing mist",
    "skin",
    "eyes",
    "environment",
    "heating",
}
METALS = {
    "cadmium",
    "cobalt",
    "nickel",
    "chromium",
    "chromate",
    "lead",
    "manganese",
    "antimony",
    "mercury",
    "arsenic",
    "barium",
    "copper",
    "zinc",
    "selenium",
}
HAZARD_CLASSES = {
    "explosive",
    "flammable",
    "oxidiser",
    "corrosive to metals",
    "acute toxicity",
    "aspiration",
    "skin corrosion",
    "skin irritation",
    "eye damage",
    "eye irritation",
    "skin sensitiser",
    "airway sensitiser",
    "mutagen",
    "carcinogen",
    "reproductive toxicity",
    "organ toxicity",
    "aquatic",
    "ozone",
    "other",
    "endocrine disruptor",
    "environmental endocrine disruptor",
    "persistent and bioaccumulative",
    "persistent and mobile",
}
MEDIA = {"watercolour", "oil", "acrylic", "gouache", "handmade paper", "not stated"}
WORDS = {"excellent", "very good", "fair", "poor", "very poor"}
CI_NAME = re.compile(
    r"^(?:(P|N)(Y|O|R|V|B|G|Br|Bk|W|M)|(Acid|Basic|Direct|Disperse|Food|Mordant|Reactive|Solvent|"
    r"Vat) (Yellow|Orange|Red|Violet|Blue|Green|Brown|Black) )(\d+)(?::(\d+))?(?: ([a-z]+))?$"
)
CI_NUMBER = re.compile(r"^(\d{5,6}(:\d)?( \+ \d{5,6}(:\d)?)*)?$")
H_CODE = re.compile(r"^(H[234]\d\d([iDFdf]|FD|Fd|Df|fd)?|EUH\d{3}A?)$")
HEAVY_METAL_WORDS = {
    "cadmium": "cadmium",
    "cobalt": "cobalt",
    "nickel": "nickel",
    "chromate": "chromate",
    "lead": r"\blead\b",
    "manganese": "mangan",
    "antimony": "antimon",
    "mercury": "mercur",
    "arsenic": "arsen",
}
# Number beside the Colour Index name in the identifier table (built from PubChem) of the
# MIT-licensed Python package chemicals 1.5.2.
CHEMICALS_1_5_2 = {
    "PBr27": "73410",
    "PO17": "15510:1",
    "PR3": "12120",
    "PR21": "12300",
    "PR101": "77491",
    "PR106": "77766",
    "PR107": "77060",
    "PR170": "12475",
    "PV19": "73900",
    "PY1": "11680",
    "PY31": "77103",
    "PY38": "77878",
    "PY46": "77577",
    "PY184": "771740",
}
# From memory: numbers that every list prints alike, against slips of the pen.
COMMON_NUMBERS = {
    "NR4": "75470",
    "NB1": "75780",
    "PB27": "77510",
    "PB29": "77007",
    "PB66": "73000",
    "PG7": "74260",
    "PR83": "58000:1",
    "PR108": "77202",
    "PW4": "77947",
    "PW6": "77891",
    "PY42": "77492",
}

Row = dict[str, str]


def table(name: str) -> list[Row]:
    """Rows of one shared table, as text."""
    with (SHARED / name).open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def name_key(ci_name: str) -> tuple[int, str, str, int, int, str]:
    """Sorting key of a Colour Index name: pigments, naturals, dyes by class, then the binder."""
    match = CI_NAME.match(ci_name)
    if match is None:
        return (3, "", "", 0, 0, ci_name)
    kind, hue, dye, dye_hue, number, grade, variant = match.groups(default="")
    order = {"P": 0, "N": 1, "": 2}[kind]
    return (order, dye, hue or dye_hue, int(number), int(grade or 0), variant)


def pigment_names() -> set[str]:
    """Every Colour Index name of the pigment table."""
    return {row["ci_name"] for row in table("pigments.csv")}


def cas_check_digit_holds(cas: str) -> bool:
    """Whether a CAS number's last digit is the weighted sum of the others, modulo 10."""
    digits = [int(digit) for digit in cas.replace("-", "")]
    total = sum(i * digit for i, digit in enumerate(reversed(digits[:-1]), 1))
    return total % 10 == digits[-1]


@pytest.mark.parametrize("name", COLUMNS)
def test_files_are_plain_utf8_csv_with_the_documented_columns(name: str) -> None:
    """LF line ends, the agreed header, no ragged row, no stray blanks."""
    data = (SHARED / name).read_bytes()
    assert b"\r" not in data
    assert data.endswith(b"\n")
    rows = list(csv.reader(data.decode("utf-8").splitlines()))
    assert rows[0] == COLUMNS[name].split()
    assert all(len(row) == len(rows[0]) for row in rows)
    assert all(field == field.strip() for row in rows for field in row)


def test_pigment_names_are_well_formed_unique_and_many() -> None:
    """At least 130 Colour Index names, each once, in order."""
    names = [row["ci_name"] for row in table("pigments.csv")]
    assert [name for name in names if not CI_NAME.match(name)] == []
    assert len(names) == len(set(names))
    assert len(names) >= 130
    assert names == sorted(names, key=name_key)


def test_constitution_numbers_are_well_formed_and_agree_with_outside_tables() -> None:
    """Numbers have the Colour Index's shape and equal those seen elsewhere."""
    numbers = {row["ci_name"]: row["ci_number"] for row in table("pigments.csv")}
    assert {n: v for n, v in numbers.items() if not CI_NUMBER.match(v)} == {}
    for outside in (CHEMICALS_1_5_2, COMMON_NUMBERS):
        assert {name: numbers[name] for name in outside} == outside


def test_published_numbers_are_those_that_were_compared() -> None:
    """A pigment row is marked published only where its number was seen in the named source."""
    path = SHARED.parent / "tests" / "published" / "pigments_seen.csv"
    with path.open(encoding="utf-8", newline="") as stream:
        numbered = {row["pigment"] for row in csv.DictReader(stream) if row["ci_number"]}
    published = {r["ci_name"] for r in table("pigments.csv") if r["evidence"] == "published"}
    assert published <= set(CHEMICALS_1_5_2) | numbered
    assert set(CHEMICALS_1_5_2) <= published
    assert len(published) == 65


@pytest.mark.parametrize("name", ["lightfastness.csv", "hazards.csv"])
def test_every_row_names_a_known_pigment_in_order(name: str) -> None:
    """Only the hazard table's binder has no pigment row."""
    names = [row["ci_name"] for row in table(name)]
    assert set(names) - pigment_names() == ({"binder"} if name == "hazards.csv" else set())
    assert names == sorted(names, key=name_key)


@pytest.mark.parametrize("name", COLUMNS)
def test_every_row_has_a_source_and_a_known_mark(name: str) -> None:
    """A fact carries where it comes from, and memory is never marked published."""
    for row in table(name):
        assert row["source"], row
        if name in MARKED:
            assert row["evidence"] in EVIDENCE, row
            if row["source"].startswith("from memory"):
                assert row["evidence"] == "memory", row
            if row["evidence"] == "published":
                assert "from memory" not in row["source"].split(";")[0], row


def test_ratings_are_well_formed_and_one_a_source() -> None:
    """ASTM classes I to V or their words, blue wool 1 to 8 or a rising range, one a source."""
    seen: set[tuple[str, str, str, str]] = set()
    for row in table("lightfastness.csv"):
        if row["scale"] == "ASTM D4303":
            assert row["rating"] in {"I", "II", "III", "IV", "V"}, row
        elif row["scale"] == "words":
            assert row["rating"] in WORDS, row
            assert row["note"], row
        else:
            assert row["scale"] == "blue wool", row
            match = re.match(r"^([1-8])(?:-([1-8]))?$", row["rating"])
            assert match is not None, row
            assert match[2] is None or int(match[1]) < int(match[2]), row
        assert row["medium"] in MEDIA, row
        assert re.match(r"^((19|20)\d\d)?$", row["year"]), row
        key = (row["ci_name"], row["scale"], row["medium"], row["source"])
        assert key not in seen, row
        seen.add(key)


def test_disputed_pigments_keep_every_source() -> None:
    """PR9, PR83, PR122 and PV23 are rated differently and are not averaged."""
    rows = table("lightfastness.csv")
    for name in ("PR9", "PR83", "PR122", "PV23"):
        ratings = {r["rating"] for r in rows if r["ci_name"] == name and "ASTM" in r["scale"]}
        assert len(ratings) > 1, name


def test_hazard_codes_are_in_the_statement_table() -> None:
    """A code, hedged or not, can always be put into words."""
    codes = {row["code"] for row in table("h_statements.csv")}
    for row in table("hazards.csv"):
        used = row["h_codes"].split()
        assert {code.removesuffix("?") for code in used} <= codes, row
        assert len(used) == len(set(used)), row


def test_hazard_words_come_from_their_vocabularies() -> None:
    """Basis, routes and metals are words that the program can filter by."""
    seen: set[tuple[str, str]] = set()
    for row in table("hazards.csv"):
        assert row["agent"], row
        assert row["summary"].endswith("."), row
        assert row["basis"] in BASES, row
        routes = row["routes"].split(";")
        assert set(routes) <= ROUTES, row
        assert len(routes) == len(set(routes)), row
        assert set(row["metals"].split()) <= METALS, row
        key = (row["ci_name"], row["agent"])
        assert key not in seen, row
        seen.add(key)


def test_cas_numbers_have_a_right_check_digit() -> None:
    """A mistyped CAS number does not pass."""
    for row in table("hazards.csv"):
        if row["cas"]:
            assert re.match(r"^\d{2,7}-\d\d-\d$", row["cas"]), row
            assert cas_check_digit_holds(row["cas"]), row


def test_every_heavy_metal_pigment_has_a_caution_that_names_the_metal() -> None:
    """Cadmium, cobalt, nickel, chromate, lead, manganese, antimony, mercury and arsenic."""
    metals: dict[str, set[str]] = {}
    routes: dict[str, set[str]] = {}
    for row in table("hazards.csv"):
        metals.setdefault(row["ci_name"], set()).update(row["metals"].split())
        routes.setdefault(row["ci_name"], set()).update(row["routes"].split(";"))
    for row in table("pigments.csv"):
        name, chemistry = row["ci_name"], row["chemical_class"].lower()
        for metal, pattern in HEAVY_METAL_WORDS.items():
            if re.search(pattern, chemistry):
                assert metal in metals.get(name, set()), (name, metal)
    for name, found in metals.items():
        if found & set(HEAVY_METAL_WORDS):
            assert routes[name] >= {"swallowing", "breathing dust", "breathing mist"}, name


def test_hazard_statements_are_well_formed_and_complete() -> None:
    """Codes are unique, in order, classed, worded, and cover the ones the program needs."""
    rows = table("h_statements.csv")
    codes = [row["code"] for row in rows]
    assert codes == sorted(set(codes), key=lambda code: (code.startswith("EUH"), code))
    for row in rows:
        assert H_CODE.match(row["code"]), row
        assert row["hazard_class"] in HAZARD_CLASSES, row
        assert row["wording"].endswith("."), row
    needed = "H300 H302 H317 H334 H341 H350 H350i H360 H360F H360D H360FD H360Fd H360Df"
    needed += " H361f H361d H361fd H372 H410 H413 H420 EUH031 EUH032 EUH066 EUH208"
    needed += " EUH210 EUH211 EUH212"
    assert set(needed.split()) <= set(codes)


@pytest.mark.parametrize("name", [*COLUMNS, "astm_d4303_categories.csv"])
def test_no_table_calls_a_pigment_safe(name: str) -> None:
    """The words are absent, other than inside a source's domain name."""
    text = (SHARED / name).read_text(encoding="utf-8").lower()
    text = re.sub(r"\b[\w-]+(\.[\w-]+)*\.(com|org|net|nz)\b", "", text)
    assert re.findall(r"\bsafe(?:ly|r|st)?\b|harmless|non-?toxic", text) == []


def test_lightfastness_classes_rise_without_a_gap() -> None:
    """The five ASTM D4303 classes, each beginning where the one before ends."""
    rows = table("astm_d4303_categories.csv")
    assert [row["category"] for row in rows] == ["I", "II", "III", "IV", "V"]
    ends = [float(row["dE_ab_to"]) for row in rows[:-1]]
    assert ends == [4.0, 8.0, 16.0, 24.0]
    starts = [re.findall(r"[\d.]+", row["dE_ab_from"])[0] for row in rows[1:]]
    assert [float(start) for start in starts] == ends


def test_okumura_holds_k_and_s_of_27_paints() -> None:
    """54 rows, 360 to 750 nm by 10, positive, Titanium White scattering 1 everywhere."""
    rows = table("okumura2005_k_s_27_acrylics.csv")
    assert len(rows) == 54
    wavelengths = [str(nm) for nm in range(360, 760, 10)]
    assert list(rows[0]) == ["paint", "coef", *wavelengths]
    assert {row["coef"] for row in rows} == {"K", "S"}
    assert len({row["paint"] for row in rows}) == 27
    assert all(float(row[nm]) > 0 for row in rows for nm in wavelengths)
    white = next(r for r in rows if r["paint"] == "Titanium White" and r["coef"] == "S")
    assert {float(white[nm]) for nm in wavelengths} == {1.0}
