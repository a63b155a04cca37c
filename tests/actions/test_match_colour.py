"""A match answers with the nearest allowed mixes, exactly, by every difference."""

import math
from collections.abc import Callable, Sequence
from functools import cache
from random import Random
from typing import Any, Final

import numpy as np
import pytest

from studio.actions.edit_paint import retire_paint
from studio.actions.match_colour import Wanted, match_colour
from studio.actions.read_target import Target, read_target
from studio.actions.use_stock import use_stock
from studio.catalogue.reading import State
from studio.catalogue.stock import StockEvent, StockKind
from studio.catalogue.swatch import Swatch
from studio.colour import science
from studio.colour.difference import CIE76, CIEDE2000, Metric, cmc_metric
from studio.colour.lab import Lab
from studio.storage.unit_of_work import UnitOfWork
from tests.actions.conftest import DAY, Shelf

colour: Any = vars(science)["colour"]  # imported there with its start-up warnings passed over

GREY: Final = Lab(50.0, 0.0, 0.0)


def _found(work: UnitOfWork, wanted: Wanted, target: Lab = GREY, **options: float) -> list[str]:
    result = match_colour(work, Target(target, "grey"), wanted, count=1000, **options)  # type: ignore[arg-type]
    return [_recipe(work, match.mix.id) for match in result.matches]


@cache
def _recipe_text(parts: tuple[tuple[str, int], ...]) -> str:
    return " + ".join(f"{amount} {code}" for code, amount in parts)


def _recipe(work: UnitOfWork, mix: int) -> str:
    parts = work.mixes.by_ids([mix])[mix].recipe.parts
    return _recipe_text(tuple((work.paints.by_id(key).facts.code, n) for key, n in parts))


@pytest.fixture
def mixed(shelf: Shelf) -> Shelf:
    """Six mixes, each of one swatch, ever further from a middle grey."""
    for place, (recipe, paper, state) in enumerate(
        (
            ("1 UM + 1 BS", "SR", State.DRY),
            ("1 UM + 1 AC", "SM", State.DRY),
            ("1 CR", "SR", State.DRY),
            ("1 TG + 1 BS", "SR", State.DRY),
            ("1 UM", "SR", State.WET),
            ("1 SO", "SR", State.DRY),
        )
    ):
        shelf.swatch(recipe, Lab(50.0 + place, 0.0, 0.0), paper=paper, state=state)
    return shelf


Filter = Callable[[Shelf], Wanted]
FILTERS: Final[list[tuple[str, Filter, list[str]]]] = [
    ("none", lambda _: Wanted(), ["1 UM + 1 BS", "1 UM + 1 AC", "1 CR", "1 TG + 1 BS", "1 SO"]),
    (
        "wet too",
        lambda _: Wanted(dry_only=False),
        ["1 UM + 1 BS", "1 UM + 1 AC", "1 CR", "1 TG + 1 BS", "1 UM", "1 SO"],
    ),
    ("paper", lambda s: Wanted(paper=s.paper("SM")), ["1 UM + 1 AC"]),
    ("with", lambda s: Wanted(using=[s.paint("UM")]), ["1 UM + 1 BS", "1 UM + 1 AC"]),
    ("with both", lambda s: Wanted(using=[s.paint("UM"), s.paint("AC")]), ["1 UM + 1 AC"]),
    ("without", lambda s: Wanted(without=[s.paint("UM"), s.paint("CR")]), ["1 TG + 1 BS", "1 SO"]),
    ("only", lambda s: Wanted(only=[s.paint("UM"), s.paint("BS")]), ["1 UM + 1 BS"]),
    ("only and without", lambda s: Wanted(only=[s.paint("UM")], without=[s.paint("UM")]), []),
    ("lightfast I", lambda _: Wanted(lightfast=1), ["1 UM + 1 BS", "1 CR", "1 SO"]),
    ("lightfast V", lambda _: Wanted(lightfast=5), ["1 UM + 1 BS", "1 UM + 1 AC", "1 CR", "1 SO"]),
    ("any hazard", lambda _: Wanted(hazards=frozenset({"any"})), []),
    (
        "cadmium",
        lambda _: Wanted(hazards=frozenset({"cadmium"})),
        ["1 UM + 1 BS", "1 UM + 1 AC"],  # nobody looked up the pigment of SO
    ),
    (
        "in stock",
        lambda _: Wanted(in_stock=True),
        ["1 UM + 1 BS", "1 CR", "1 TG + 1 BS", "1 SO"],
    ),
]


@pytest.mark.parametrize(
    ("wanted", "expected"), [case[1:] for case in FILTERS], ids=[case[0] for case in FILTERS]
)
def test_a_filter_leaves_what_it_allows(mixed: Shelf, wanted: Filter, expected: list[str]) -> None:
    used = StockEvent(StockKind.USED, DAY.replace(year=2027), 5.0)
    use_stock(mixed.work, mixed.paint("AC"), used, used.happened_on)  # all of it
    assert _found(mixed.work, wanted(mixed)) == expected


def test_a_retired_paint_is_not_in_stock_and_its_mixes_say_so(mixed: Shelf) -> None:
    retire_paint(mixed.work, mixed.paint("BS"))
    assert _found(mixed.work, Wanted(in_stock=True)) == ["1 UM + 1 AC", "1 CR", "1 SO"]
    best = match_colour(mixed.work, Target(GREY, "grey"), Wanted()).matches[0]
    assert [paint.facts.code for paint in best.out_of_stock] == ["BS"]


def test_a_match_tells_the_worst_rating_only_when_every_paint_has_one(mixed: Shelf) -> None:
    result = match_colour(mixed.work, Target(GREY, "grey"), Wanted())
    worst = {_recipe(mixed.work, m.mix.id): m.worst_rating for m in result.matches}
    assert worst["1 TG + 1 BS"] is None  # nobody rated the pigments of TG
    rating = worst["1 UM + 1 AC"]
    assert rating is not None
    assert (rating.pigment, rating.rank) == ("PR83", 4)


def test_nothing_further_than_the_limit_is_listed_and_the_nearest_is_still_told(
    mixed: Shelf,
) -> None:
    assert _found(mixed.work, Wanted(), within=1.5) == ["1 UM + 1 BS", "1 UM + 1 AC"]
    far = match_colour(mixed.work, Target(Lab(90.0, 0.0, 0.0), "pale"), Wanted(), within=2.0)
    assert far.matches == ()
    assert far.nearest is not None
    assert _recipe(mixed.work, far.nearest.mix.id) == "1 SO"
    assert not far.is_near


def test_near_means_within_5_by_ciede2000_whatever_ranks(mixed: Shelf) -> None:
    for lightness, near in ((50.0, True), (55.0, True), (45.3, True), (44.0, False)):
        target = Target(Lab(lightness, 0.0, 0.0), "grey")
        for by in (CIEDE2000, CIE76, cmc_metric()):
            result = match_colour(mixed.work, target, Wanted(), metric=by)
            assert result.is_near is near, (lightness, by.name, result.nearest_delta_e00)
            assert result.nearest_delta_e00 <= 5.0 or not near


def test_an_empty_studio_finds_nothing_and_nothing_is_near(work: UnitOfWork) -> None:
    result = match_colour(work, Target(GREY, "grey"), Wanted())
    assert (result.matches, result.nearest, result.is_near) == ((), None, False)
    assert result.nearest_delta_e00 == math.inf


def test_a_swatch_as_target_leaves_itself_out(mixed: Shelf) -> None:
    second = mixed.swatch("1 UM + 1 BS", Lab(52.0, 0.0, 0.0))
    target = read_target(mixed.work, second.facts.code)
    every = match_colour(mixed.work, target, Wanted(), every_swatch=True, count=100)
    assert second.id not in {match.swatch.id for match in every.matches}
    assert len(every.matches) == 5
    own = match_colour(mixed.work, target, Wanted(only=[mixed.paint("UM"), mixed.paint("BS")]))
    assert own.matches[0].swatch.facts.code == "S1"


def test_each_mix_is_listed_once_by_its_best_swatch_unless_every_swatch_is_wanted(
    mixed: Shelf,
) -> None:
    mixed.swatch("1 UM + 1 BS", Lab(50.5, 0.0, 0.0))
    assert _found(mixed.work, Wanted()).count("1 UM + 1 BS") == 1
    assert _found(mixed.work, Wanted(), every_swatch=True)[:2] == ["1 UM + 1 BS"] * 2


def _by_hand(
    swatches: Sequence[Swatch],
    target: Lab,
    between: Callable[..., object],
    every_swatch: bool,  # noqa: FBT001
) -> list[tuple[int, float]]:
    """(swatch id, difference) of every mix's best dry swatch, nearest first, by brute force."""
    dry = [swatch for swatch in swatches if swatch.state is State.DRY]
    samples = np.array([swatch.lab.coordinates for swatch in dry])
    reference = np.broadcast_to(np.array(target.coordinates), samples.shape)
    differences = np.asarray(between(reference, samples), dtype=float)
    ranked = sorted(zip(differences.tolist(), dry, strict=True), key=lambda d: (d[0], d[1].id))
    seen: set[int] = set()
    best = []
    for difference, swatch in ranked:
        group = swatch.id if every_swatch else swatch.mix_id
        if group not in seen:
            seen.add(group)
            best.append((swatch.id, difference))
    return best


METRICS: Final[dict[str, tuple[Metric, Callable[..., object]]]] = {
    "CIEDE2000": (CIEDE2000, colour.difference.delta_E_CIE2000),
    "CIE76": (CIE76, colour.difference.delta_E_CIE1976),
    "CMC(2:1)": (cmc_metric(), colour.difference.delta_E_CMC),
}


@pytest.mark.parametrize("every_swatch", [False, True])
@pytest.mark.parametrize("name", METRICS)
def test_a_match_is_what_comparing_with_every_swatch_finds(
    demo_work: UnitOfWork, name: str, *, every_swatch: bool
) -> None:
    by, between = METRICS[name]
    random = Random(f"saltings {name}")  # noqa: S311 - repeatable targets
    swatches = demo_work.swatches.all()
    chosen = [swatch.lab for swatch in swatches[::37]]
    chosen += [
        Lab(random.uniform(0, 100), random.gauss(0, 35), random.gauss(0, 35)) for _ in range(40)
    ]
    for target in chosen:
        result = match_colour(
            demo_work, Target(target, "random"), Wanted(), metric=by, count=7,
            every_swatch=every_swatch,
        )  # fmt: skip
        expected = _by_hand(swatches, target, between, every_swatch)[:7]
        assert [m.difference for m in result.matches] == pytest.approx(
            [difference for _, difference in expected], abs=1e-9
        )
        assert [m.swatch.id for m in result.matches] == [key for key, _ in expected]
        assert [m.rank for m in result.matches] == list(range(1, 8))
        nearest = _by_hand(swatches, target, METRICS["CIEDE2000"][1], every_swatch)[0]
        assert result.nearest is not None
        assert result.nearest.swatch.id == nearest[0]
        assert result.nearest_delta_e00 == pytest.approx(nearest[1], abs=1e-9)


def test_recipe_paper_and_separation_are_those_of_the_swatch(mixed: Shelf) -> None:
    target = Target(Lab(70.0, 0.0, 0.0), "pale")
    match = match_colour(mixed.work, target, Wanted(paper=mixed.paper("SM"))).matches[0]
    assert [(part.paint.facts.code, part.parts) for part in match.recipe] == [("UM", 1), ("AC", 1)]
    assert match.paper == mixed.paper("SM")
    assert "darker" in match.separation.sentence
    assert match.separation.numbers.lightness == pytest.approx(-19.0)
