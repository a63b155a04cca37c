"""Names that mean one metric, and what each measures by."""

import pytest

from studio.colour.difference import CIE76, CIEDE2000, metric


@pytest.mark.parametrize(
    "name", ["ciede2000", "CIEDE2000", " CIEDE 2000 ", "de00", "dE2000", "CieDe2000"]
)
def test_ciede2000_goes_by_several_names(name: str) -> None:
    assert metric(name) is CIEDE2000


@pytest.mark.parametrize("name", ["cie76", "CIE76", "de76", "dEab"])
def test_cie76_goes_by_several_names(name: str) -> None:
    assert metric(name) is CIE76


@pytest.mark.parametrize(
    ("name", "label"),
    [
        ("cmc", "CMC(2:1)"),
        ("CMC(2:1)", "CMC(2:1)"),
        ("cmc(1:1)", "CMC(1:1)"),
        ("cmc 1:1", "CMC(1:1)"),
        ("CMC ( 1.5 : 0.5 )", "CMC(1.5:0.5)"),
    ],
)
def test_cmc_takes_its_weights_from_its_name(name: str, label: str) -> None:
    found = metric(name)
    assert found.name == label
    assert found.symbol == f"ΔE {found.name}"


def test_the_weights_of_cmc_count() -> None:
    reference, sample = (50.0, 20.0, 20.0), (60.0, 20.0, 20.0)
    twice = metric("cmc(1:1)").between(reference, sample)
    assert metric("cmc(2:1)").between(reference, sample) == pytest.approx(twice / 2)
    paler = (50.0, 10.0, 10.0)
    twice = metric("cmc(1:1)").between(reference, paler)
    assert metric("cmc(1:2)").between(reference, paler) == pytest.approx(twice / 2)


@pytest.mark.parametrize("name", ["", "lab", "ciede", "cie94", "76", "euclid"])
def test_an_unknown_name_is_refused_with_the_known_ones(name: str) -> None:
    with pytest.raises(ValueError, match="write ciede2000, cie76, cmc"):
        metric(name)


@pytest.mark.parametrize("name", ["cmc()", "cmc(2)", "cmc(2:1:1)", "cmc(a:b)", "cmcx", "cmc(2;1)"])
def test_malformed_weights_are_refused(name: str) -> None:
    with pytest.raises(ValueError, match="is not a CMC difference"):
        metric(name)


@pytest.mark.parametrize("name", ["cmc(0:1)", "cmc(1:0)", "cmc(-2:1)", "cmc(nan:1)", "cmc(1:inf)"])
def test_weights_must_be_finite_and_above_zero(name: str) -> None:
    with pytest.raises(ValueError, match="above zero"):
        metric(name)


def test_the_metrics_measure_by_their_own_formula() -> None:
    reference, sample = (50.0, 30.0, 40.0), (50.0, 33.0, 44.0)
    assert CIE76.between(reference, sample) == pytest.approx(5.0)
    # S_C of equation 19 of Sharma, Wu, Dalal (2005) is about 1 + .045·52.5 at the same hue.
    assert CIEDE2000.between(reference, sample) == pytest.approx(5.0 / (1 + 0.045 * 52.5), rel=0.01)
