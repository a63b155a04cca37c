"""Of what was computed of the paints, the last result alone is kept."""

from dataclasses import replace
from datetime import date
from typing import Final

from studio.storage.characterisations import KeptCharacterisation
from studio.storage.unit_of_work import UnitOfWork

RESULT: Final = KeptCharacterisation("0b" * 32, "1", 12, 3, bytes(range(256)), date(2026, 5, 4))


def test_a_studio_begins_without_any(work: UnitOfWork) -> None:
    assert work.characterisations.last() is None


def test_the_next_result_takes_the_place_of_the_one_before(work: UnitOfWork) -> None:
    work.characterisations.keep(RESULT)
    assert work.characterisations.last() == RESULT
    later = replace(RESULT, inputs_sha256="0c" * 32, content=b"mud", computed_on=date(2026, 5, 9))
    work.characterisations.keep(later)
    assert work.characterisations.last() == later
    work.characterisations.keep(replace(later, model="2"))
    last = work.characterisations.last()
    assert last is not None
    assert last.model == "2"
