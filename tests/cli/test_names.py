"""Names that fit nothing or several things: exit status 4, with what could be meant."""

import shlex
from typing import Final

import pytest

from studio.cli.app import build_app
from tests.cli.conftest import Refuses

UNKNOWN: Final = {
    "paint show nosuch": "studio paint list",
    "paint edit nosuch --note x": "studio paint list",
    "paint retire nosuch": "studio paint list",
    "paper show nosuch": "studio paper list",
    "paper edit nosuch --note x": "studio paper list",
    "mix show M9999": "studio mix list",
    "mix edit nosuch --name x": "studio mix list",
    "mix list --with nosuch": "studio paint list",
    "mix add '1 nosuch + 1 FU'": "studio paint list",
    "swatch show S9999": "studio swatch list",
    "swatch edit S9999 --note x": "studio swatch list",
    "swatch read S9999 --lab 50,0,0": "studio swatch list",
    "swatch list --of nosuch": "studio mix list",
    "swatch list --paper nosuch": "studio paper list",
    "swatch log '1 nosuch + 1 FU' --lab 50,0,0": "studio paint list",
    "swatch log FU --lab 50,0,0 --paper nosuch": "studio paper list",
    "swatch log FU --lab 50,0,0 --for S9999": "studio swatch list",
    "stock show nosuch": "studio stock list",
    "stock use nosuch 1": "studio stock list",
    "stock use '' 1": "studio stock list",
    "stock buy nosuch 1": "studio stock list",
    "stock weigh nosuch 20": "studio stock list",
    "stock refill nosuch 1 --from RS-3": "studio stock list",
    "stock refill RS-2 0.1 --from nosuch": "studio stock list",
    "stock open nosuch": "studio stock list",
    "stock lend nosuch": "studio stock list",
    "stock return nosuch": "studio stock list",
    "stock correct nosuch 1": "studio stock list",
    "stock discard nosuch 1": "studio stock list",
    "stock discard nosuch": "studio stock list",
    "stock reorder --need nosuch=1": "studio stock list",
    "stock reorder --students 8 --each nosuch=1": "studio stock list",
    "paint card nosuch --pdf card.pdf": "studio paint list",
    "paint document nosuch --marks AP": "studio paint list",
    "fade start nosuch --place mast": "studio paint list",
    "fade start FU --place mast --paper nosuch": "studio paper list",
    "fade read F99 --covered 50,0,0 --exposed 51,0,0": "studio fade list",
    "fade report F99": "studio fade list",
    "fade end F99": "studio fade list",
    "care nosuch": "studio paint list",
    "pigment show PX1": "studio pigment list",
    "pigment rate PX1 I --source label": "studio pigment list",
    "pigment verify PX1 --hazards --from label": "studio pigment list",
    "painting show nosuch": "studio painting list",
    "painting edit nosuch --note x": "studio painting list",
    "painting remove nosuch": "studio painting list",
    "painting finish nosuch": "studio painting list",
    "painting record nosuch": "studio painting list",
    "painting start Ebb --paper nosuch --size 380x280mm": "studio paper list",
    "painting passage add nosuch sky": "studio painting list",
    "painting test nosuch sky FU --lab 50,0,0": "studio painting list",
    "match S9999": "studio swatch list",
    "match tan --paper nosuch": "studio paper list",
    "match tan --with nosuch": "studio paint list",
    "match tan --without nosuch": "studio paint list",
    "match tan --only nosuch": "studio paint list",
}

EMPTY: Final = (
    "match tan --paper ''",
    "match tan --with ''",
    "swatch list --of ''",
    "swatch list --paper ''",
    "swatch edit S1 --paper ''",
    "paint show ' '",
)

AMBIGUOUS: Final = {
    "paint show sienna": ("BS (Pellow & Strand Burnt Sienna)", "RS (Pellow & Strand Raw Sienna)"),
    "match tan --without umber": ("BU (", "RU ("),
    "mix add '2 sienna + 1 FU'": ("BS (", "RS ("),
    "swatch log 'phthalo' --lab 50,0,0": ("PBG (", "PGB ("),
    "paper show slipway": ("ECP (Eddering Mill Slipway Rag)", "EHP ("),
    "mix show samphire": ("M41 (samphire, June)", "M42 (young samphire)", "M43 (", "M44 ("),
    "stock use slipway 1": ("ECP (", "EHP ("),
    "stock lend FU": ("FU-2 (half pan, ", "FU-4 (tube, "),
    "stock reorder --need slipway=3": ("ECP (", "EHP ("),
    "fade start sienna --place mast": ("BS (", "RS ("),
    "care sienna": ("BS (Pellow & Strand Burnt Sienna)", "RS (Pellow & Strand Raw Sienna)"),
    "pigment show cadmium": ("PY37 (cadmium yellow)", "PR108 (cadmium red)", "and 2 more"),
}


@pytest.mark.parametrize("line", UNKNOWN)
def test_a_name_that_fits_nothing_says_where_the_names_are(line: str, refuses: Refuses) -> None:
    assert UNKNOWN[line] in refuses(4, *shlex.split(line))


@pytest.mark.parametrize("line", EMPTY)
def test_an_empty_name_is_no_name_and_no_filter_is_dropped(line: str, refuses: Refuses) -> None:
    assert "give its code or a part of its name" in refuses(4, *shlex.split(line))


@pytest.mark.parametrize("line", AMBIGUOUS)
def test_a_name_that_fits_several_lists_them(line: str, refuses: Refuses) -> None:
    said = refuses(4, *shlex.split(line))
    assert all(candidate in said for candidate in AMBIGUOUS[line]), said


def test_a_name_spelled_nearly_right_is_offered(refuses: Refuses) -> None:
    assert "FU (Pellow & Strand French Ultramarine)" in refuses(4, "paint", "show", "ultramarin3")


def test_a_recipe_that_was_never_mixed_says_how_to_record_it(refuses: Refuses) -> None:
    assert "studio mix add '3 BS + 17 FU'" in refuses(4, "mix", "show", "3 BS + 17 FU")


def test_a_source_that_said_nothing_is_answered_with_those_that_did(refuses: Refuses) -> None:
    said = refuses(4, "pigment", "verify", "PB31", "--hazards", "--from", "x", "--source", "y")
    assert said.endswith("sources: from memory")


def test_building_the_command_line_again_adds_nothing_to_it() -> None:
    """Many command lines in one process, as in tests, are each as quick as the first."""
    from studio.cli import painting, painting_passage, stock, swatch

    apps = (painting.app, painting_passage.app, stock.app, swatch.app)
    build_app()
    before = [(len(app.registered_groups), len(app.registered_commands)) for app in apps]
    build_app()
    assert [(len(app.registered_groups), len(app.registered_commands)) for app in apps] == before
