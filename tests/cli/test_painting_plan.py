"""studio painting plan and class: what is printed, what JSON holds, and what is refused."""

import json
import math
import re
import shlex
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from tests.cli.conftest import Refuses
from tests.conftest import Run
from tests.servers import fingerprint

PLAIN = ("painting", "passage", "add", "P3")
AWKWARD = "<b>[red]& mud"


@pytest.fixture
def boat(run: Run, demo_db: Path) -> Path:
    """The demo studio with a small painting P3: a sky twice, a spattered hedge, a lifted glint.

    What nobody looked up of its paints was read on their labels and data sheets.
    """
    told = json.loads(run("check", "--class", "adults", "--json", db=demo_db).out)
    for each in told["class"]["unread"]:
        words = ("--file-or-address", "sheets/read.pdf", "--marks", "AP")
        assert run("paint", "document", each["paint"], *words, db=demo_db).status == 0
    lines = (
        'painting start "Slack water" --paper ECP --size 300x200mm',
        'painting passage add P3 sky --technique "graded wash" --colour S106 --share 40%',
        'painting passage add P3 bank --technique "flat wash" --colour S208',
        'painting passage add P3 water --technique "flat wash" --colour S106 --layers 2',
        "painting passage add P3 hedge --technique spatter --colour S44 --share 2%",
        'painting passage add P3 glint --technique lifted --colour "#eef1f2" --over water',
    )
    for line in lines:
        outcome = run(*shlex.split(line), db=demo_db)
        assert outcome.status == 0, outcome.err
    return demo_db


KEPT: dict[tuple[str, ...], Any] = {}
"""What was planned, by command line: the studio is the same for all tests."""


@pytest.fixture
def planned(run: Run, boat: Path) -> Any:
    """`planned("--in-stock")`: what is planned for it, as JSON."""

    def ask(*words: str) -> Any:
        if words not in KEPT:
            outcome = run("painting", "plan", "P3", *words, "--json", db=boat)
            assert (outcome.status, outcome.err) == (0, "")
            KEPT[words] = json.loads(outcome.out)
        return KEPT[words]

    return ask


@pytest.fixture
def children(run: Run, boat: Path, tmp_path_factory: pytest.TempPathFactory) -> Any:
    """What eight children need, as JSON, and their handout as HTML and as the text of its PDF."""
    words = ("class", "P3", "--students", "8", "--kind", "children")
    if words not in KEPT:
        folder = tmp_path_factory.mktemp("handout")
        html, pdf = folder / "handout.html", folder / "handout.pdf"
        run(*PLAIN, AWKWARD, "--technique", "flat wash", "--colour", "S208", db=boat)
        outcome = run("painting", *words, "--json", "--html", str(html), "--pdf", str(pdf), db=boat)
        assert outcome.status == 0
        assert outcome.err.count("wrote") == 2
        sheets = " ".join(sheet.extract_text() for sheet in PdfReader(pdf).pages)
        page = html.read_text(encoding="utf-8")
        KEPT[words] = json.loads(outcome.out), page, " ".join(sheets.split())
    return KEPT[words]


def test_a_plan_stands_on_the_screen_with_all_a_painter_needs(run: Run, boat: Path) -> None:
    outcome = run("painting", "plan", "slack", db=boat)
    assert (outcome.status, outcome.err) == (0, "")
    lines = outcome.out.splitlines()
    assert all(len(line) <= 80 and line == line.rstrip() for line in lines)
    assert lines[0] == "P3  Slack water"
    text = " ".join(outcome.out.split())
    for part in (
        "1 sky graded wash · 40% of the area",
        "3 water flat wash · 2 layers",
        "5 glint lifted · from 3 water",
        "card S106 (card box",
        "then wait until it is dry",
        "Mixes, with what stays in the well",
        "of the mixes considered, no fewer make all of these",
        "Try on an offcut first: 5 glint (no mix yet).",
        "Wait until dry after 1, 2, 3, 4.",
        "(common practice, no source)",
        "unverified",
        "With every paint, spattering",
        "Heavy spattering makes a mist that is breathed.",
        "read the label and the maker's safety data sheet",
    ):
        assert part in text, part


def test_the_same_colour_twice_is_one_mix(planned: Any) -> None:
    plan = planned()
    sky, bank, water, hedge, glint = plan["colours"]
    assert sky["mix"] == water["mix"] != bank["mix"]
    assert sky["delta_e"] == 0
    assert glint["mix"] is None
    assert "how far the wash below lifts" in glint["test_needed"]
    first = plan["mixes"][0]
    assert first["letter"] == sky["mix"] == "A"
    assert first["serves"] == [1, 3]
    wash = sky["wash_ml"] + water["wash_ml"]
    assert first["paint_ml"] + first["water_ml"] == pytest.approx(1.2 * wash, abs=2e-3)
    assert hedge["wash_ml"] == pytest.approx(0.06 * 0.02 * 20, abs=1e-3)
    needs = sum(need["needs_ml"] for need in plan["palette"])
    assert needs == pytest.approx(sum(mix["paint_ml"] for mix in plan["mixes"]), abs=5e-3)
    assert [care["work"] for care in plan["care"]] == ["brush", "spatter"]
    assert any("3 water has 2 layers, but A was judged at 1 layer" in r for r in plan["remarks"])
    assert plan["fewest_proven"]


def test_filters_and_tolerance_are_those_asked_for(planned: Any) -> None:
    free = planned()
    barred = free["palette"][0]["paint"]
    plan = planned("--without", barred, "--within", "2")
    assert plan["tolerance_delta_e"] == 2
    assert barred not in {need["paint"] for need in plan["palette"]}
    assert all(c["delta_e"] <= 2 for c in plan["colours"] if c["mix"])


def test_looking_at_a_plan_records_nothing(run: Run, boat: Path) -> None:
    run("painting", "plan", "P3", db=boat)
    before = fingerprint(boat)
    assert run("painting", "class", "P3", "--students", "2", db=boat).status == 0
    assert fingerprint(boat) == before


def test_a_class_of_children_leaves_paint_at_home_and_does_not_spatter(
    planned: Any, children: Any
) -> None:
    """What the painter's own plan holds of cobalt stays at home."""
    own, (found, *_) = planned(), children
    home = {left["paint"] for left in found["left_home"]}
    assert home
    assert home <= {need["paint"] for need in own["palette"]}
    assert not home & {each["paint"] for each in found["bring"]}
    assert not home & {need["paint"] for need in found["plan"]["palette"]}
    assert found["no_spatter"] == ["hedge"]
    assert not found["care"]["avoid"]
    for left in found["left_home"]:
        assert left["care"]["avoid"]
        assert left["passages"]
    assert not home & {paint for each in found["substitutes"] for paint in each["bring"]}


def test_supplies_are_what_one_needs_so_many_times_and_a_quarter_more(children: Any) -> None:
    found = children[0]
    for each, need in zip(found["bring"], found["plan"]["palette"], strict=True):
        assert each["paint"] == need["paint"]
        assert each["all_ml"] == pytest.approx(8 * 1.25 * need["needs_ml"], abs=6e-3)
        assert each["containers"] == math.ceil(each["all_ml"] / each["volume_ml"])
    paper = found["paper"]
    assert paper["pieces"] == 10
    # Of a sheet of 559 x 762 mm, pieces of 200 x 300 mm laid the one way or the other.
    one, other = (559 // 200) * (762 // 300), (559 // 300) * (762 // 200)
    assert paper["pieces_a_sheet"] == max(one, other) == 4
    assert paper["needed"] == 3


def test_every_substitute_does_without_the_paint(children: Any) -> None:
    found = children[0]
    letters = {mix["letter"]: mix for mix in found["plan"]["mixes"]}
    assert found["substitutes"]
    for each in found["substitutes"]:
        uses = {
            colour["position"]
            for colour in found["plan"]["colours"]
            if colour["mix"]
            and each["paint"] in {part["paint"] for part in letters[colour["mix"]]["recipe"]}
        }
        told = {mix["position"] for mix in each["mixes"]}
        told |= {lost["position"] for lost in each["not_made"]}
        assert told == uses
        kept = {need["paint"] for need in found["plan"]["palette"]} - {each["paint"]}
        for mix in each["mixes"]:
            assert {part["paint"] for part in mix["recipe"]} <= kept | set(each["bring"])
            assert mix["delta_e"] <= found["small_parts"]["near_delta_e"]


def test_the_handout_tells_each_step_in_both_forms(children: Any) -> None:
    _, page, printed = children
    for text in (page, printed):
        for part in ("Slack water", "1 sky", "let it dry", "Mix and match"):
            assert part in text
    assert "Children do not spatter: dab hedge" in page


def test_the_handout_of_children_bears_no_chemistry_and_the_teacher_has_it_all(
    run: Run, boat: Path, children: Any, tmp_path: Path
) -> None:
    told, page, printed = children
    for text in (page, printed):
        assert not re.search(r"\b(P[BGOROVY]|PBr|PBk|PW)\d|\b[HP]\d{3}|EUH|\bC\.?I\.", text)
        for word in ("cobalt", "manganese", "allerg", "preservative", "unverified", "hazard"):
            assert word not in re.sub(r"(?i)cobalt blue", "", text).lower()
        assert "your teacher has their labels, data sheets and cautions" in text
        assert "Wash your hands" in text
        assert re.search(r"[1-4] parts? ", text)
    assert told["care"]["general"]
    assert told["documents"]
    handout = tmp_path / "handout.html"
    words = ("class", "P3", "--students", "8", "--kind", "children", "--html", str(handout))
    screen = run("painting", *words, db=boat).out
    assert "Care in a class of children" in screen
    assert "professional" in screen
    assert "Wells of 4 parts of paint at most" in screen


def test_the_handout_of_adults_keeps_its_cautions(run: Run, boat: Path, tmp_path: Path) -> None:
    handout = tmp_path / "adults.html"
    outcome = run("painting", "class", "P3", "--students", "2", "--html", str(handout), db=boat)
    assert (outcome.status, outcome.out) == (0, "")
    page = handout.read_text(encoding="utf-8")
    assert "Where to verify" in page
    assert "professional" in page


def test_children_count_out_four_parts_at_most(children: Any) -> None:
    told = children[0]
    small = told["small_parts"]
    assert small["most"] == 4
    for mix in told["plan"]["mixes"]:
        assert sum(part["parts"] for part in mix["recipe"]) <= 4
    costs = [each["cost_delta_e"] for each in small["colours"] if each["cost_delta_e"] is not None]
    assert small["mean_cost_delta_e"] == pytest.approx(sum(costs) / len(costs), abs=1e-3)


def test_names_from_elsewhere_are_escaped(run: Run, boat: Path, children: Any) -> None:
    page = children[1]
    assert AWKWARD not in page
    assert "&lt;b&gt;[red]&amp; mud" in page
    run(*PLAIN, AWKWARD, "--technique", "flat wash", "--colour", "S208", db=boat)
    assert f"6 {AWKWARD}" in run("painting", "plan", "P3", db=boat).out


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("plan P3 --within -1", "what passes"),
        ("plan P3 --within nan", "what passes"),
        ("plan P3 --only FU --without FU", "no paint in use passes these filters"),
        ("plan P3 --only CR", "no paint in use passes these filters"),
        ("plan P3 --lightfast VI", "lightfast"),
        ("class P3 --students 0", "the number of students"),
        ("class P3 --students 2 --kind pensioners", "choose adults or children"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(
    boat: Path, refuses: Refuses, line: str, said: str
) -> None:
    del boat
    assert said in refuses(3, "painting", *shlex.split(line))


def test_paintings_that_cannot_be_planned_yet(run: Run, demo_db: Path) -> None:
    run("painting", "start", "Bare", "--paper", "ECP", "--size", "300x200mm", db=demo_db)
    bare = run("painting", "plan", "Bare", db=demo_db)
    assert (bare.status, bare.out) == (3, "")
    assert "has no passage yet" in bare.err
    assert run("painting", "plan", "P99", db=demo_db).status == 4
    assert run("painting", "class", "P3", db=demo_db).status == 2


def test_a_studio_without_paints_or_swatches(run: Run, empty_db: Path) -> None:
    assert run("painting", "plan", "P1", db=empty_db).status == 4
    run("paper", "add", "Rag", "--maker", "Eddering Mill", db=empty_db)
    run("painting", "start", "Ebb", "--paper", "Rag", "--size", "300x200mm", db=empty_db)
    run(
        "painting", "passage", "add", "P1", "sky", "--technique", "flat wash", "--colour", "tan",
        db=empty_db,
    )  # fmt: skip
    outcome = run("painting", "plan", "P1", db=empty_db)
    assert outcome.status == 3
    assert "no paint is on record yet" in outcome.err
    run("paint", "add", "Ultramarine", "--maker", "Orsel Pans", db=empty_db)
    plan = json.loads(run("painting", "plan", "P1", "--json", db=empty_db).out)
    (colour,) = plan["colours"]
    assert plan["to_test"] == 1
    assert colour["delta_e"] is None
    assert "no past mix passes" in colour["test_needed"]
    assert "nothing can be predicted yet of Ultramarine" in colour["test_needed"]
