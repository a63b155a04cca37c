"""Files are told again by their bytes, small ones are kept whole; targets are found by name."""

import hashlib
from datetime import date
from typing import Final

import pytest

from studio.catalogue.measurement_file import LARGEST_KEPT
from studio.catalogue.named_target import NamedTarget
from studio.colour.lab import Lab
from studio.errors import BadInput
from studio.storage.unit_of_work import UnitOfWork

DAY: Final = date(2026, 5, 4)
LATER: Final = date(2026, 5, 9)


def test_the_same_bytes_are_one_file_under_their_first_name(work: UnitOfWork) -> None:
    first = work.files.keep("tideline.cxf", b"mud", DAY)
    assert work.files.keep("copy of tideline.cxf", b"mud", LATER) == first
    assert (first.name, first.size, first.is_kept) == ("tideline.cxf", 3, True)
    assert first.sha256 == hashlib.sha256(b"mud").hexdigest()
    other = work.files.keep("tideline.cxf", b"sand", DAY)
    assert work.files.all() == (first, other)


def test_a_file_is_found_by_its_digest_alone(work: UnitOfWork) -> None:
    file = work.files.keep("tideline.cxf", b"mud", DAY)
    assert work.files.with_digest(file.sha256) == file
    assert work.files.with_digest("00" * 32) is None


@pytest.mark.parametrize(("more", "kept"), [(0, True), (1, False)])
def test_of_a_larger_file_the_digest_alone_is_kept(
    work: UnitOfWork, *, more: int, kept: bool
) -> None:
    content = bytes(LARGEST_KEPT + more)
    file = work.files.keep("quay.png", content, DAY)
    assert (file.is_kept, file.size) == (kept, len(content))
    assert work.files.with_digest(file.sha256) == file
    assert work.files.content(file.id) == (content if kept else None)


def test_targets_are_found_by_name_in_any_case_oldest_first(work: UnitOfWork) -> None:
    mud = work.targets.add(
        NamedTarget(0, "wet mud", Lab(40, 2, 9), 1.5, "B3", None, DAY, "by the slipway")
    )
    sky = work.targets.add(NamedTarget(0, "sky", Lab(80, -2, -9), None, None, None, LATER))
    assert work.targets.all() == (mud, sky)
    assert work.targets.named(" Wet  MUD ") == mud
    assert work.targets.named("mud") is None


def test_a_target_under_another_white_is_refused() -> None:
    with pytest.raises(BadInput, match="D50 for the 2 degree observer"):
        NamedTarget(0, "sky", Lab(80, -2, -9, "D65"), None, None, None, DAY)
