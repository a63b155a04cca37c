"""What passages of a painting may not be to each other."""

from datetime import date

import pytest

from studio.catalogue.painting import Painting, Passage
from studio.catalogue.painting_rules import (
    beyond_sheet,
    checked_passages,
    is_on_paper,
    order_faults,
    share_on_paper,
)
from studio.catalogue.paper import PaperFacts
from studio.catalogue.swatch import Application
from studio.errors import BadInput

SKY = Passage(1, "sky", Application.GRADED_WASH, share=0.4)
BANK = Passage(2, "far bank", Application.FLAT_WASH, share=0.1, over=1)
MUD = Passage(3, "mud", Application.FLAT_WASH, share=0.6)


def test_passages_in_a_possible_order_are_accepted() -> None:
    checked_passages([])
    checked_passages([SKY, BANK, MUD])
    checked_passages([MUD, SKY, BANK])


def test_what_lies_over_another_comes_after_it() -> None:
    with pytest.raises(BadInput, match="'far bank' lies over 'sky', which therefore comes before"):
        checked_passages([BANK, SKY])
    assert list(order_faults([BANK, MUD])) == ["'far bank' lies over a passage that is not there"]


@pytest.mark.parametrize("technique", Application)
def test_only_what_takes_bare_paper_counts_towards_the_whole(technique: Application) -> None:
    passage = Passage(9, "reeds", technique, share=0.5)
    bare = technique not in {Application.GLAZE, Application.SPATTER, Application.LIFTED}
    assert is_on_paper(passage) is bare
    assert not is_on_paper(Passage(9, "reeds", technique, share=0.5, over=1))
    if bare:
        with pytest.raises(BadInput, match=r"take 150% of the painted area"):
            checked_passages([SKY, MUD, passage])
    else:
        checked_passages([SKY, MUD, passage])


def test_shares_that_make_exactly_the_whole_are_accepted_whatever_their_last_bits() -> None:
    tenths = [Passage(key, str(key), Application.FLAT_WASH, share=0.1) for key in range(1, 11)]
    assert sum(each.share or 0 for each in tenths) != 1.0
    checked_passages(tenths)
    with pytest.raises(BadInput, match=r"take 100\.1% of"):
        checked_passages([*tenths, Passage(11, "spit", Application.DRY_BRUSH, share=0.001)])


def test_an_unknown_share_takes_nothing() -> None:
    unknown = Passage(4, "hull", Application.FLAT_WASH)
    assert share_on_paper([SKY, unknown]) == 0.4
    checked_passages([SKY, MUD, unknown])


@pytest.mark.parametrize(
    ("sides", "fits"),
    [
        ((380, 280), True),
        ((280, 380), True),
        ((560, 760), True),
        ((760, 561), False),
        ((800, 90), False),
    ],
)
def test_a_painting_fits_its_sheet_either_way_round(sides: tuple[int, int], *, fits: bool) -> None:
    painting = Painting(1, "P1", "Low water", 1, *sides, 3.0, date(2026, 5, 4))
    said = beyond_sheet(
        painting,
        PaperFacts("SR", "Tidewrack Mill", "Sedge Rag", sheet_width_mm=560, sheet_height_mm=760),
    )
    assert (said is None) is fits
    if said:
        assert said == (
            f"{sides[0]} x {sides[1]} mm is larger than a sheet of Tidewrack Mill Sedge Rag "
            "(560 x 760 mm)"
        )


def test_nothing_is_said_of_a_sheet_whose_size_is_not_on_record() -> None:
    painting = Painting(1, "P1", "Low water", 1, 9000, 9000, 3.0, date(2026, 5, 4))
    assert beyond_sheet(painting, PaperFacts("SR", "Tidewrack Mill", "Sedge Rag")) is None
