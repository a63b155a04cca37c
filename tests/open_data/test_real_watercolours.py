"""780 measured mixtures of real watercolours: imported, and each matched against the others.

What the studio answers is held against colour-science, from the spectra on: tristimulus values,
Lab and CIEDE2000 are computed there, and every distance is looked at.
"""

import shutil
import warnings
from collections import defaultdict
from collections.abc import Iterator, Sequence
from decimal import Decimal
from pathlib import Path

import colour
import numpy as np
import numpy.typing as npt
import pytest

from studio.actions.check_database import check_database
from studio.actions.importing.tables import ImportResult, import_tables, tables_at
from studio.actions.match_colour import MatchResult, Wanted, match_colour
from studio.actions.read_target import read_target
from studio.catalogue.swatch import Swatch
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import TODAY
from tests.open_data.csv_tables import swatch_code, write_swatches
from tests.open_data.wpsm import HOW_TO_GET, WAVELENGTHS, Measurements, Spectrum, wheel

if not wheel().is_file():
    pytest.skip(HOW_TO_GET.format(path=wheel()), allow_module_level=True)

Floats = npt.NDArray[np.float64]

MIXTURES = 780
COUNT = 10
ROUNDING = 1e-9
"""How far two computations of one ΔE00 or one Lab may part."""

OBSERVER = "CIE 1931 2 Degree Standard Observer"


def test_every_mixture_of_two_of_the_13_paints_stands_twice(measured: Measurements) -> None:
    """13 paints in 11 washes each; 78 pairs, 1:1 in four thicknesses, 1:2 and 2:1 in three."""
    amounts = [Decimal(text) / 100 for text in (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12)]
    assert sorted(measured.washes) == list(range(1, 14))
    assert all(sorted(washes) == amounts for washes in measured.washes.values())
    by_pair: dict[frozenset[int], list[float]] = defaultdict(list)
    for first, second in measured.recipes:
        assert second.paints == first.paints[::-1]
        assert second.amounts == first.amounts[::-1]
        assert second.reflectance == first.reflectance
        low, high = sorted(first.paints)
        amount = dict(zip(first.paints, first.amounts, strict=True))
        by_pair[frozenset(first.paints)].append(float(amount[low] / amount[high]))
    assert len(measured.recipes) == MIXTURES
    assert len(by_pair) == 13 * 12 / 2
    assert {tuple(sorted(ratios)) for ratios in by_pair.values()} == {
        (0.5, 0.5, 0.5, 1, 1, 1, 1, 2, 2, 2)
    }


def test_more_of_a_paint_is_darker(measured: Measurements) -> None:
    """A wash that was given to the wrong paint would break the order."""
    for washes in measured.washes.values():
        means = [float(np.mean(washes[amount])) for amount in sorted(washes)]
        assert means == sorted(means, reverse=True)


def test_two_amounts_of_one_paint_are_its_wash_in_their_sum(measured: Measurements) -> None:
    """What the paints were told apart by leaves no spectrum for two paints at once."""
    washes = [spectrum for each in measured.washes.values() for spectrum in each.values()]
    mixtures = {mixture.reflectance for mixture in measured.mixtures}
    assert len(mixtures) == MIXTURES
    assert mixtures.isdisjoint(washes)


def test_every_row_is_imported(imported: tuple[Path, ImportResult]) -> None:
    path, result = imported
    assert result.faults == ()
    assert result.added == {"paints": 13, "papers": 1, "swatches": MIXTURES}
    assert result.present == {}
    assert check_database(path) == []


def test_a_recipe_is_one_mix_in_either_order_and_any_thickness(
    imported: tuple[Path, ImportResult], measured: Measurements, tmp_path: Path
) -> None:
    """78 pairs in the ratios 1:1, 1:2 and 2:1 are 234 mixes; B + A finds the mix of A + B."""
    path = Path(shutil.copy(imported[0], tmp_path / "studio.sqlite3"))
    write_swatches([second for _, second in measured.recipes], tmp_path / "turned")
    with UnitOfWork(path, write=True) as work:
        before = work.mixes.all()
        result = import_tables(work, tables_at([tmp_path / "turned"]), TODAY)
        assert result.faults == ()
        assert (result.added, result.present) == ({}, {"swatches": MIXTURES})
        assert work.mixes.all() == before
        counts = work.mixes.swatch_counts()
    assert len(before) == 78 * 3
    assert {tuple(sorted(n for _, n in mix.recipe.parts)) for mix in before} == {(1, 1), (1, 2)}
    assert sorted(counts) == [mix.id for mix in before]
    assert sorted(counts.values()) == [3] * 156 + [4] * 78


@pytest.fixture(scope="module")
def colours(measured: Measurements) -> Floats:
    """L*, a*, b* of every mixture under D50 for 2 degrees, by colour-science alone."""
    return _lab([mixture.reflectance for mixture in measured.mixtures])


@pytest.fixture(scope="module")
def distances(colours: Floats) -> Floats:
    """ΔE00 of every mixture from every other, by colour-science; a mixture's own is infinite."""
    table = colour.difference.delta_E_CIE2000(colours[:, np.newaxis], colours[np.newaxis])
    np.fill_diagonal(table, np.inf)
    return np.asarray(table, dtype=np.float64)


def test_the_stored_colour_is_that_of_the_spectrum(
    imported: tuple[Path, ImportResult], measured: Measurements, colours: Floats
) -> None:
    with UnitOfWork(imported[0]) as work:
        swatches = _by_number(work)
        (white,) = work.papers.all()[0].white
    spectra = [reading.spectrum for swatch in swatches for reading in swatch.readings]
    assert [spectrum.values for spectrum in spectra if spectrum] == [
        mixture.reflectance for mixture in measured.mixtures
    ]
    stored = np.array([swatch.lab.coordinates for swatch in swatches])
    np.testing.assert_allclose(stored, colours, rtol=0, atol=ROUNDING)
    np.testing.assert_allclose(white.lab.coordinates, _lab([measured.paper])[0], atol=ROUNDING)


def test_the_ten_nearest_of_every_swatch_are_those_of_brute_force(
    imported: tuple[Path, ImportResult], distances: Floats
) -> None:
    """Each swatch is matched by its own colour with itself left out, against all 779 others."""
    for own, answer in enumerate(_answers(imported[0], every_swatch=True)):
        found = [int(match.swatch.facts.code[1:]) - 1 for match in answer.matches]
        assert own not in found
        _check(distances[own], found, [match.difference for match in answer.matches])


def test_the_ten_nearest_mixes_of_every_swatch_are_those_of_brute_force(
    imported: tuple[Path, ImportResult], distances: Floats
) -> None:
    """The same where each mix answers with its best swatch alone."""
    with UnitOfWork(imported[0]) as work:
        mix_ids = np.array([swatch.mix_id for swatch in _by_number(work)])
    mixes = np.unique(mix_ids)
    by_mix = np.stack([distances[:, mix_ids == mix].min(axis=1) for mix in mixes], axis=1)
    for own, answer in enumerate(_answers(imported[0], every_swatch=False)):
        found = [int(np.searchsorted(mixes, match.mix.id)) for match in answer.matches]
        differences = [match.difference for match in answer.matches]
        _check(by_mix[own], found, differences)
        swatches = [int(match.swatch.facts.code[1:]) - 1 for match in answer.matches]
        np.testing.assert_allclose(distances[own, swatches], differences, rtol=0, atol=ROUNDING)


def _check(every_distance: Floats, found: list[int], differences: list[float]) -> None:
    """The whole answer against all distances: how far, and who where no two are equally far."""
    assert len(set(found)) == COUNT
    order = np.argsort(every_distance, kind="stable")[: COUNT + 1]
    ordered = every_distance[order]
    np.testing.assert_allclose(differences, ordered[:COUNT], rtol=0, atol=ROUNDING)
    np.testing.assert_allclose(every_distance[found], differences, rtol=0, atol=ROUNDING)
    apart = np.diff(ordered, prepend=-np.inf) > ROUNDING
    sure = apart[:-1] & apart[1:]
    np.testing.assert_array_equal(np.array(found)[sure], order[:COUNT][sure])


def _answers(path: Path, *, every_swatch: bool) -> Iterator[MatchResult]:
    """What the studio answers to the code of each swatch, in the order of the mixtures."""
    with UnitOfWork(path) as work:
        for number in range(1, MIXTURES + 1):
            target = read_target(work, swatch_code(number))
            yield match_colour(work, target, Wanted(), count=COUNT, every_swatch=every_swatch)


def _by_number(work: UnitOfWork) -> list[Swatch]:
    """Every swatch in the order of the mixtures."""
    return sorted(work.swatches.all(), key=lambda swatch: int(swatch.facts.code[1:]))


def _lab(reflectances: Sequence[Spectrum]) -> Floats:
    """L*, a*, b* under D50 for 2 degrees by ASTM E308, straight from colour-science."""
    spectra = colour.MultiSpectralDistributions(np.transpose(reflectances), WAVELENGTHS)
    observer, illuminant = colour.MSDS_CMFS[OBSERVER], colour.SDS_ILLUMINANTS["D50"]
    with warnings.catch_warnings():
        # It tells of the illuminant, which is tabulated at 5 nm, being interpolated to 1 nm.
        warnings.simplefilter("ignore", colour.utilities.ColourRuntimeWarning)
        xyz = colour.msds_to_XYZ(spectra, observer, illuminant, method="ASTM E308")
    return np.asarray(colour.XYZ_to_Lab(xyz / 100, colour.CCS_ILLUMINANTS[OBSERVER]["D50"]))
