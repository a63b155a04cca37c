"""studio paper and studio stock: sheets and millilitres, container by container."""

import json
from typing import Any

from tests.cli.conftest import Does, Refuses


def _paper(does: Does, name: str) -> Any:
    return json.loads(does("paper", "show", name, "--json").out)


def test_pounds_and_inches_are_kept_as_grams_and_millimetres(shelf: Does) -> None:
    paper = _paper(shelf, "SR")
    # 500 sheets of 22 x 30 in weigh 140 lb: 140 * 453.59237 / (500 * 0.5588 * 0.762) g/m²
    assert paper["weight_gsm"] == 298.3
    assert (paper["sheet_width_mm"], paper["sheet_height_mm"]) == (558.8, 762.0)
    assert (paper["surface"], paper["left_sheets"], paper["low"]) == ("cold pressed", 10.0, False)


def test_centimetres_and_plain_numbers_are_sizes_too(does: Does) -> None:
    does("paper", "add", "Creek Rough", "--maker", "Eddering Mill", "--size", "56x76cm")
    does("paper", "add", "Bar Smooth", "--maker", "Eddering Mill", "--size", "560 × 760")
    assert _paper(does, "CR")["sheet_width_mm"] == _paper(does, "BS")["sheet_width_mm"] == 560.0


def test_a_paper_keeps_its_measured_white(does: Does) -> None:
    added = does(
        "paper", "add", "Creek Rough", "--maker", "Eddering Mill", "--white", "96,-0.5,2",
        "--fibre", "cotton", "--weight", "300", "--code", "crr", "--note", "rough side up",
    )  # fmt: skip
    assert added.out == "CRR  Eddering Mill Creek Rough\n"
    shown = does("paper", "show", "crr").out
    for text in (
        "  fibre       cotton\n",
        "  weight      300 g/m²\n",
        "  left        not counted; low at 2 sheets\n",
        "  note        rough side up\n",
        "  L* 96.0  a* −0.5  b* +2.0  (D50/2°)  ",
    ):
        assert text in shown, text


def test_only_what_is_named_of_a_paper_is_changed(shelf: Does) -> None:
    before = _paper(shelf, "SR")
    assert shelf("paper", "edit", "SR", "--low-at", "3", "--code", "RAG").out == (
        "RAG  Eddering Mill Slipway Rag\n"
    )
    after = _paper(shelf, "RAG")
    assert {name for name in after if after[name] != before[name]} == {"paper", "low_at_sheets"}


def test_a_roll_is_kept_by_its_length(does: Does) -> None:
    does(
        "paper", "add", "Longshore Roll", "--maker", "Harrow Staithe", "--roll", "10000",
        "--low-at-mm", "1500",
    )  # fmt: skip
    paper = _paper(does, "LR")
    assert (paper["left_mm"], paper["low_at_mm"], paper["low"]) == (10000.0, 1500.0, False)
    assert (paper["left_sheets"], paper["low_at_sheets"]) == (None, None)
    (roll,) = paper["containers"]
    assert (roll["container"], roll["kind"], roll["unit"]) == ("LR-1", "roll", "mm")
    does("stock", "use", "longshore", "8500")
    assert _paper(does, "LR")["low"] is True


def test_every_ledger_adds_up_to_what_is_left(shelf: Does) -> None:
    def left(*words: str) -> str:
        return shelf("stock", *words).out.rsplit(": ", 1)[1]

    assert left("use", "FU", "2.5", "--note", "evening tide") == "11.5 ml left in all\n"
    assert left("buy", "FU", "14", "--price", "12,30", "--currency", "GBP") == (
        "25.5 ml left in all\n"
    )
    assert left("discard", "FU", "0.5", "--note", "dried in the cap") == "25 ml left in all\n"
    assert left("correct", "FU", "6") == "20 ml left in all\n"
    assert left("use", "slipway", "1.5") == "8.5 sheets left in all\n"
    assert _ledger(shelf, "FU-1") == [
        ["bought", "+14 ml", "14 ml", "11.80 GBP"],
        ["used", "\N{MINUS SIGN}2.5 ml", "11.5 ml", "evening tide"],
        ["discarded", "\N{MINUS SIGN}0.5 ml", "11 ml", "dried in the cap"],
        ["corrected", "\N{MINUS SIGN}5 ml", "6 ml"],
    ]
    assert _ledger(shelf, "FU-2") == [["bought", "+14 ml", "14 ml", "12.30 GBP"]]
    assert shelf("stock", "show", "FU").out.endswith("\n20 ml left, low at 2.8 ml\n")


def _ledger(does: Does, container: str) -> list[list[str]]:
    """The cells of each entry, without its day."""
    lines = does("stock", "show", container).out.splitlines()[3:-1]
    rows = [line.split(maxsplit=1)[1].split("  ") for line in lines]
    return [[cell.strip() for cell in row if cell.strip()] for row in rows]


def test_what_is_used_up_is_low_and_out_of_stock(shelf: Does) -> None:
    shelf("stock", "use", "FU", "14")
    paint = json.loads(shelf("paint", "show", "FU", "--json").out)
    assert (paint["left_ml"], paint["low"], paint["in_stock"]) == (0.0, True, False)
    assert "0 ml  low 2.8 ml" in shelf("stock", "list").out


def test_a_fifth_of_a_tube_is_low(shelf: Does) -> None:
    def low(amount: str) -> bool:
        shelf("stock", "correct", "FU", amount)
        return bool(json.loads(shelf("stock", "show", "FU", "--json").out)["low"])

    assert low("2.8")
    assert not low("2.81")


def test_the_list_holds_paints_and_papers(shelf: Does) -> None:
    lines = shelf("stock", "list").out.splitlines()
    assert [line.split()[0] for line in lines[:4]] == ["code", "BS", "FU", "SR"]
    assert "not counted" in lines[1]
    assert "14 ml" in lines[2]
    assert "10 sheets" in lines[3]
    assert lines[4].startswith("weeks until nothing is left")


def test_a_paper_comes_in_sheets_or_on_a_roll_not_both(refuses: Refuses) -> None:
    both = ("--sheets", "4", "--roll", "900")
    said = refuses(3, "paper", "add", "Saltings Rag", "--maker", "Eddering Mill", *both)
    assert said == "give one of --sheets and --roll; record rolls and sheets as two papers"
