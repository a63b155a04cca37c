"""The shipped reference tables say what was seen in published sources, row by row.

`tests/published/README.md` names the sources of each table. What differs with reason is listed
here beside the reason; a difference that is not listed fails with its row.
"""

import csv
import re
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

Row = dict[str, str]


def shipped(name: str) -> list[Row]:
    """Rows of a table that ships, as text."""
    return _rows(ROOT / "shared" / name)


def seen(name: str) -> list[Row]:
    """Rows of a table of published facts, as text."""
    return _rows(ROOT / "tests" / "published" / name)


def _rows(path: Path) -> list[Row]:
    with path.open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


SCOPES = {"substance": "", "group": " (group)", "part": " (group)", "parent dye": " (parent dye)"}
REACH_ARTICLES = {"a": "carcinogenic", "b": "mutagenic", "c": "reprotoxic"}
LISTS = ("IARC", "NTP", "Proposition 65", "Candidate List", "HCIS")
HEDGED_SUBSTANCES = {
    "PM1": "made-up paint is no fine powder, so the codes of the powder depend on the grade",
}
LISTED_IN_THE_DETAIL = {
    "PV14": "only an old paint may hold the arsenate; its codes are hedged instead",
}
NOT_LISTED = {
    "decomposition": "the entry is about what heat makes of the pigment, not about the pigment",
    "none": "the list was searched in vain",
    "exception": "the entry leaves the substance out by name",
}
IN_NO_HAZARD_ROW = {
    "PW21": "excepted from the entry of barium salts; pigments.csv says who looked it up",
    "PW22": "excepted from the entry of barium salts; pigments.csv says who looked it up",
}


def _by_pigment() -> dict[str, list[Row]]:
    grouped: dict[str, list[Row]] = {}
    for row in shipped("hazards.csv"):
        grouped.setdefault(row["ci_name"], []).append(row)
    return grouped


def _codes(text: str) -> set[str]:
    """Codes of an entry, without those that another of it includes."""
    codes = set(text.split())
    if "H410" in codes:
        codes -= {"H400", "H411"}
    return codes


def _listed(row: Row) -> list[str]:
    """A row of a list other than the EU's as hazards.csv writes it."""
    scope, entry = SCOPES[row["about"]], row["entry_codes"]
    if row["list"] == "IARC":
        words = [entry.removeprefix("Group ")]
    elif row["list"] == "NTP":
        words = [entry.split(" to be ")[0]]
        words = [word.removesuffix(" known").strip() for word in words]
    elif row["list"] == "Proposition 65":
        words = re.findall(r"\b(?:cancer|developmental|female|male)\b", _bare(entry))
    elif row["list"] == "Candidate List":
        letters = re.findall(r"57\((\w)\)", entry)
        words = [REACH_ARTICLES[letter] for letter in letters if letter in REACH_ARTICLES]
    else:
        words = [" ".join(sorted(_codes(entry)))]
    return [f"{row['list']} {word}{scope}" for word in words]


def _bare(text: str) -> str:
    return re.sub(r"\([^)]*\)", "", text)


def _expected_listings() -> Iterator[tuple[str, str]]:
    """(pigment, listing) of every row seen that speaks of the pigment, its group or its dye."""
    for row in seen("hazards_seen.csv"):
        if row["list"] in LISTS and row["about"] in SCOPES:
            if row["pigment"] in LISTED_IN_THE_DETAIL and row["about"] == "part":
                continue
            for listing in _listed(row):
                yield row["pigment"], listing


def test_every_listing_that_was_seen_is_in_the_hazard_table() -> None:
    """IARC, NTP, Proposition 65, Candidate List and Safe Work Australia."""
    table = _by_pigment()
    missing = [
        f"{pigment}: {listing}"
        for pigment, listing in _expected_listings()
        if not any(listing in row["listed"].split("; ") for row in table[pigment])
    ]
    assert missing == []


def test_no_listing_stands_in_the_hazard_table_unseen() -> None:
    """A list is never quoted from memory."""
    expected = set(_expected_listings())
    unseen = [
        f"{row['ci_name']}: {listing}"
        for row in shipped("hazards.csv")
        for listing in filter(None, row["listed"].split("; "))
        if (row["ci_name"], listing) not in expected
    ]
    assert unseen == []


def test_listings_kept_out_have_a_reason() -> None:
    """What was seen and is not listed is of a kind that is explained here."""
    kinds = {row["about"] for row in seen("hazards_seen.csv") if row["list"] in LISTS}
    assert kinds - set(SCOPES) <= set(NOT_LISTED)


def test_entries_of_annex_vi_are_in_the_hazard_table() -> None:
    """Codes of the substance stand unhedged, those of a parent dye hedged, index numbers all."""
    table = _by_pigment()
    own = {
        row["pigment"]
        for row in seen("hazards_seen.csv")
        if row["list"] == "CLP Annex VI" and row["about"] in {"substance", "group"}
    }
    wrong = [
        f"{row['pigment']}, {row['index'] or 'no row'}: {fault}"
        for row in seen("hazards_seen.csv")
        if row["list"] == "CLP Annex VI" and row["pigment"] not in IN_NO_HAZARD_ROW
        for fault in _faults(row, table[row["pigment"]], excepted_from_own=row["pigment"] in own)
    ]
    assert wrong == []


def _faults(entry: Row, rows: list[Row], *, excepted_from_own: bool) -> Iterator[str]:
    held = {code for row in rows for code in row["h_codes"].split()}
    bases = {row["basis"] for row in rows}
    if entry["index"] and not any(entry["index"] in row["basis_detail"] for row in rows):
        yield "the index number is not named"
    if entry["about"] in {"substance", "group"}:
        yield from _faults_of_own(entry, held, bases)
    if entry["about"] == "parent dye":
        unhedged = _codes(entry["entry_codes"]) & held
        missing = {f"{code}?" for code in _codes(entry["entry_codes"])} - held
        if unhedged or missing:
            yield f"{sorted(unhedged)} unhedged, {sorted(missing)} missing"
    allowed = {
        "exception": "exempt" in bases or excepted_from_own,
        "annulled": bases == {"annulled"} and not held,
        "none": "harmonised" not in bases or len(rows) > 1,
    }
    if not allowed.get(entry["about"], True):
        yield f"the basis is {bases}, the codes are {sorted(held)}"


def _faults_of_own(entry: Row, held: set[str], bases: set[str]) -> Iterator[str]:
    """Faults of rows whose substance has an entry, its own or that of its group."""
    if "harmonised" not in bases:
        yield f"the basis is {bases}"
    expected, known = _codes(entry["entry_codes"]), {code.removesuffix("?") for code in held}
    if "H410" in known:
        expected -= {"H411"}
    if expected - known:
        yield f"{sorted(expected - known)} missing"
    hedge_allowed = entry["about"] == "group" or entry["pigment"] in HEDGED_SUBSTANCES
    if not hedge_allowed and expected - held:
        yield f"{sorted(expected - held)} hedged or missing"


def test_no_harmonised_code_stands_unhedged_unseen() -> None:
    """A code without a question mark is in an entry of Annex VI that was seen."""
    allowed: dict[str, set[str]] = {}
    for row in seen("hazards_seen.csv"):
        if row["list"] == "CLP Annex VI" and row["about"] in {"substance", "group", "part"}:
            allowed.setdefault(row["pigment"], set()).update(_codes(row["entry_codes"]))
    allowed["binder"].add("EUH208")
    unseen = [
        f"{row['ci_name']}: {code}"
        for row in shipped("hazards.csv")
        if row["basis"] == "harmonised"
        for code in row["h_codes"].split()
        if not code.endswith("?") and code not in allowed.get(row["ci_name"], set())
    ]
    assert unseen == []


def test_notified_stands_only_beside_a_code() -> None:
    """What suppliers notify is a code; without one the basis is none."""
    bare = [r["ci_name"] for r in shipped("hazards.csv") if r["basis"] == "notified"]
    assert bare
    assert [
        row["ci_name"]
        for row in shipped("hazards.csv")
        if row["basis"] in {"notified", "harmonised"} and not row["h_codes"]
    ] == []


def test_few_hazard_rows_are_from_memory() -> None:
    """At most 20 rows have no published source at all."""
    rows = [row["ci_name"] for row in shipped("hazards.csv") if row["evidence"] == "memory"]
    assert len(rows) <= 20, rows


def test_a_row_names_each_list_that_it_quotes() -> None:
    """The source column says where each listing was seen."""
    named = {
        "IARC": "IARC",
        "NTP": "NTP",
        "Proposition 65": "Proposition 65",
        "Candidate List": "Candidate List",
        "HCIS": "HCIS",
    }
    unnamed = [
        f"{row['ci_name']}: {listing}"
        for row in shipped("hazards.csv")
        for listing in filter(None, row["listed"].split("; "))
        if not any(
            listing.startswith(each) and source in row["source"] for each, source in named.items()
        )
    ]
    assert unnamed == []


def test_a_harmonised_or_exempt_row_names_annex_vi() -> None:
    """Its index number is in the detail, and Annex VI in the source; else it is from memory."""
    unnamed = [
        row["ci_name"]
        for row in shipped("hazards.csv")
        if row["basis"] in {"harmonised", "exempt"} and row["evidence"] != "memory"
        if "CLP Annex VI" not in row["source"] or not re.search(r"\d{3}-\d{3}", row["basis_detail"])
    ]
    assert unnamed == []


NEVER_USED = {
    "arsenic": "PG21 PG22 PY39",
    "mercury": "PO23 PR106 PR113",
    "lead": "PG15 PO21 PR104 PR105 PW1 PY34 PY41 PY46",
}
MAY_HOLD_LEAD_OR_ARSENIC = {
    "PG51": "lead is a possible modifier of some grades",
    "PR233": "lead is a possible modifier of some grades",
    "PV14": "only an old paint may hold the arsenate",
}


def test_what_is_never_to_be_used_is_marked_and_says_so() -> None:
    """Arsenic, mercury and lead pigments; mark and summary go together."""
    rows = shipped("hazards.csv")
    marked = {row["ci_name"] for row in rows if row["use"] == "never"}
    assert marked == {name for names in NEVER_USED.values() for name in names.split()}
    assert {row["use"] for row in rows} <= {"", "never"}
    for row in rows:
        assert (row["use"] == "never") == ("Never use it" in row["summary"]), row["ci_name"]
        if set(row["metals"].split()) & set(NEVER_USED):
            assert row["use"] or row["ci_name"] in MAY_HOLD_LEAD_OR_ARSENIC, row["ci_name"]


OXIDES = {
    "CoO": "cobalt",
    "NiO": "nickel",
    "MnO": "manganese",
    "Mn2O3": "manganese",
    "PbO": "lead",
    "Sb2O3": "antimony",
    "Cr2O3": "chromium",
    "CuO": "copper",
    "ZnO": "zinc",
}


def test_possible_modifiers_are_among_the_metals_and_the_summary_hedges_them() -> None:
    """What the TSCA Inventory lets a pigment hold, as oxides of metals."""
    table = _by_pigment()
    wrong = []
    for row in seen("pigments_seen.csv"):
        for oxide, metal in OXIDES.items():
            if not re.search(rf"\b{oxide}\b", row["modifiers"]):
                continue
            held = [r for r in table.get(row["pigment"], []) if metal in r["metals"].split()]
            hedges = r"may hold|in some grades"
            if not held:
                wrong.append(f"{row['pigment']}: {oxide} is possible, {metal} is not listed")
            elif not any(re.search(hedges, each["summary"]) for each in held):
                wrong.append(f"{row['pigment']}: {metal} is not said to be possible only")
    assert wrong == []


OTHER_NUMBERS = {
    "PBr7": "the plain name stands for earths of three numbers; the inventory has one of them",
    "PY3": "a painters' page prints 11770; the page is the weaker source",
}


def test_constitution_numbers_are_those_that_were_seen() -> None:
    """And a row is called published only where its number was seen."""
    rows = {row["ci_name"]: row for row in shipped("pigments.csv")}
    wrong = []
    for row in seen("pigments_seen.csv"):
        numbers = row["ci_number"].split()
        held = rows[row["pigment"]]["ci_number"]
        same = held in numbers or held.split(" + ") == numbers
        if numbers and not same and row["pigment"] not in OTHER_NUMBERS:
            wrong.append(f"{row['pigment']}: {held}, seen {row['ci_number']}")
    assert wrong == []


def test_cas_numbers_are_those_that_were_seen() -> None:
    """The inventories' CAS number of a pigment is the hazard table's."""
    table = _by_pigment()
    wrong = [
        f"{row['pigment']}: {held}, seen {row['cas']}"
        for row in seen("pigments_seen.csv")
        for held in [{each["cas"] for each in table.get(row["pigment"], [])} - {""}]
        if row["cas"] and held and row["cas"] not in held
    ]
    assert wrong == []


OTHER_RATINGS = {
    ("PB35", "ASTM D4303", "I"): "no medium is stated there; the watercolour row says so",
    ("PY3", "ASTM D4303", "II"): "no medium is stated there; the watercolour row says so",
    ("PV1", "blue wool", "3"): "one of two paints; the row 3-5 holds both",
    ("PR83", "maker's permanence", "B"): "stored in words, moderately durable being fair",
    ("NR9", "maker's permanence", "B"): "stored in words, moderately durable being fair",
    ("PR122", "maker's permanence", "B"): "a paint with a fluorescent dye says nothing of PR122",
    ("PB30", "supplier's 1 to 8", "8"): "neither the scale nor the test is stated",
    ("(classes)", "ASTM D4303", "I: delta E*ab below 4; II: 4 to 8"): "no pigment",
}
WORDS_AS_CLASSES = {"fair": "fair", "unsatisfactory or fugitive": "very poor", "faded": "fair"}
NO_CLASS = {
    "good": "lies between two classes",
    "excellent or sufficient": "spans two classes, both without fading",
    "excellent or sufficient (lightfast form); fair (high-strength form)": "depends on the form",
    "excellent or sufficient if strong; good if weaker": "depends on the strength",
}


def test_lightfastness_that_was_seen_is_in_the_table() -> None:
    """The same class on the same scale and in the same medium, from the source or one like it."""
    held = {
        (row["ci_name"], row["scale"], row["rating"], row["medium"])
        for row in shipped("lightfastness.csv")
        if row["evidence"] != "memory"
    }
    missing = []
    for row in seen("lightfastness_seen.csv"):
        key = (row["pigment"], row["scale"], row["rating"])
        if key in OTHER_RATINGS or (row["scale"] == "words" and row["rating"] in NO_CLASS):
            continue
        rating = row["rating"]
        if row["scale"] == "words":
            rating = WORDS_AS_CLASSES[rating]
        wanted = (row["pigment"], row["scale"], rating, row["medium"].removeprefix("coloured "))
        if wanted not in held:
            missing.append(wanted)
    assert missing == []


def test_a_remark_that_a_pigment_fades_is_a_rating() -> None:
    """What is only reputed fugitive or poor counts in a check of what fades."""
    rated = {row["ci_name"] for row in shipped("lightfastness.csv")}
    remarks = [
        row["ci_name"]
        for row in shipped("pigments.csv")
        if re.search(r"reputed|fugitive|\bfades\b|darkens in light|suspect in light", row["note"])
    ]
    assert len(remarks) > 15
    assert [name for name in remarks if name not in rated] == []


def test_wordings_are_the_official_ones() -> None:
    """But for the field of route, effect or organ, which a supplier fills in, and the last dot."""
    official = {row["code"]: row["wording"] for row in seen("h_statements_seen.csv")}
    held = {row["code"]: row["wording"] for row in shipped("h_statements.csv")}
    whole = {code: wording for code, wording in official.items() if "." not in code}
    assert {code: _plain(code, wording) for code, wording in whole.items()} == {
        code: wording.removesuffix(".") for code, wording in held.items()
    }
    for code, wording in official.items():
        if code.endswith(".1") and code.startswith("H"):
            assert held[code.removesuffix(".1")] == wording


def _plain(code: str, wording: str) -> str:
    if code != "EUH208":
        wording = re.sub(r"\s*<[^>]*>", "", wording)
    return wording.removesuffix(".")


def test_the_classes_of_2023_have_their_statements() -> None:
    """Endocrine disruption, PBT and vPvB, PMT and vPvM (Delegated Regulation (EU) 2023/707)."""
    held = {row["code"]: row for row in shipped("h_statements.csv")}
    assert {held[f"EUH{number}"]["hazard_class"] for number in (380, 381)} == {
        "endocrine disruptor"
    }
    for number in (380, 381, 430, 431, 440, 441, 450, 451):
        assert "2023/707" in held[f"EUH{number}"]["source"]
    assert not [row["code"] for row in held.values() if "memory" in row["source"]]


def test_what_nobody_found_says_who_looked_where_and_when() -> None:
    """`looked_up` names a list and a month, and stands only where no hazard is on record."""
    with_hazard = {row["ci_name"] for row in shipped("hazards.csv")}
    looked_up = {r["ci_name"]: r["looked_up"] for r in shipped("pigments.csv") if r["looked_up"]}
    facts = {row["pigment"] for row in seen("hazards_seen.csv")}
    assert set(looked_up) <= facts
    assert not set(looked_up) & with_hazard
    for text in looked_up.values():
        assert re.search(r"CLP Annex VI up to the \d+\w\w ATP, \d{4}-\d\d: ", text), text
