"""studio mix: one recipe is one mix, whatever its order and scale."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import Does
from tests.conftest import Run


def test_a_new_recipe_is_a_new_mix(shelf: Does) -> None:
    assert shelf("mix", "add", "2 ultramarine + 1 burnt sienna").out == (
        "M1  2 French Ultramarine + 1 Burnt Sienna\n"
    )
    assert shelf("mix", "add", "FU").out == "M2  French Ultramarine\n"


@pytest.mark.parametrize(
    "again",
    ["1 BS + 2 FU", "4 FU + 2 BS", "FU + 0.5 BS", "1 1/2 FU + 3/4 BS", "1 FU + 1 BS + 1 FU"],
)
def test_the_same_recipe_in_another_order_or_scale_was_recorded_before(
    again: str, shelf: Does
) -> None:
    first = shelf("mix", "add", "2 FU + 1 BS").out.strip()
    assert shelf("mix", "add", again).out == f"{first}  (recorded before)\n"
    assert len(json.loads(shelf("mix", "list", "--json").out)) == 1


def test_a_name_given_later_is_added(shelf: Does) -> None:
    shelf("mix", "add", "2 FU + 1 BS")
    shelf("mix", "add", "4 FU + 2 BS", "--name", "mud at low water", "--note", "cools as it dries")
    mix = json.loads(shelf("mix", "show", "mud", "--json").out)
    assert (mix["mix"], mix["name"], mix["note"]) == (
        "M1",
        "mud at low water",
        "cools as it dries",
    )


def test_name_and_note_are_changed_and_removed(shelf: Does) -> None:
    def described() -> Any:
        mix = json.loads(shelf("mix", "show", "M1", "--json").out)
        return mix["name"], mix["note"]

    shelf("mix", "add", "2 FU + 1 BS", "--name", "mud", "--note", "cools")
    assert shelf("mix", "edit", "M1", "--name", "wet slipway").out == "M1 is changed\n"
    assert described() == ("wet slipway", "cools")
    shelf("mix", "edit", "2 FU + 1 BS", "--name", "", "--note", "")
    assert described() == (None, None)


def test_the_list_is_narrowed_to_mixes_that_hold_all_the_paints(run: Run, demo_db: Path) -> None:
    def codes(*words: str) -> set[str]:
        listed = json.loads(run("mix", "list", *words, "--json", db=demo_db).out)
        return {mix["mix"] for mix in listed}

    with_sienna = codes("--with", "raw sienna")
    assert {"M3", "M38", "M74"} <= with_sienna
    assert codes("--with", "RS", "--with", "FU") == {"M38", "M74"}


def test_a_shown_mix_shows_the_family_of_its_colours(run: Run, demo_db: Path) -> None:
    shown = run("mix", "show", "salt marsh turf", db=demo_db).out
    assert shown.startswith("M38  salt marsh turf\n  recipe      3 Raw Sienna + 1 French Ultra")
    for text in (
        "\n  #787d62  S112  L* 51.4  a* −5.8  b* +14.1  (D50/2°)\n",
        "        water 1:1, 1 layer, flat wash, Eddering Mill Slipway Rag, 26 Sep 2025,",
        "dry brush, Corvane Paper Foreshore Rough",
    ):
        assert text in shown, text


def test_a_mix_without_swatches_says_so(shelf: Does) -> None:
    shelf("mix", "add", "2 FU + 1 BS")
    assert shelf("mix", "show", "M1").out.endswith("\nNo swatch yet\n")
