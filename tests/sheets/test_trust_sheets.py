"""What trust prints and draws, and what a paint's record says of its mixes."""

import io
import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from threading import Event, Timer

import numpy as np
import pytest
from PIL import Image

from studio.actions.contradictions import Contradiction
from studio.actions.known_paint import KnownPaint
from studio.actions.paint_knowledge import NextSwatch, PaintKnowledge
from studio.actions.paint_model import PaintModel, paint_model
from studio.actions.trust import Trust, trust
from studio.catalogue.paint import Paint, PaintFacts, Status
from studio.catalogue.stock import Stock, Unit
from studio.colour.display import on_screen
from studio.sheets.chart_sheet import DPI
from studio.sheets.known_paint_view import known_paint_fields, print_known_paint
from studio.sheets.trust_chart import COLUMNS, WIDTH, trust_chart
from studio.sheets.trust_view import basis_sentences, print_trust
from studio.sheets.waiting import waiting
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import TODAY
from tests.sheets.conftest import Terminal, printed

pytestmark = pytest.mark.file_only("one copy of a file serves all of these")


@pytest.fixture(scope="session")
def demo_model(demo_template: Path, tmp_path_factory: pytest.TempPathFactory) -> PaintModel:
    path = Path(shutil.copy(demo_template, tmp_path_factory.mktemp("trust") / "demo.sqlite3"))
    with UnitOfWork(path) as work:
        return paint_model(work, TODAY)


@pytest.fixture(scope="session")
def demo_trust(demo_model: PaintModel) -> Trust:
    return trust(demo_model)


def test_the_worst_swatch_is_named_with_both_colours(demo_trust: Trust, terminal: Terminal) -> None:
    console = terminal(None, width=100)
    print_trust(console, demo_trust)
    text = printed(console)
    worst = demo_trust.foretold[0]
    assert f"  {worst.patch.code}  ΔE00 " in text
    assert f"ΔE00 {worst.delta_e:.1f} (expected {worst.expected:.1f})" in text
    assert f"{on_screen(worst.measured).hex}" in text
    assert f"{demo_trust.sets.mean:.1f}" in text
    assert "whole sets of paints" in text
    assert "left out (" in text
    assert "could not be left out" not in text
    for staying, said in ((1, "1 mix could not be left out"), (3, "3 mixes could not")):
        console = terminal(None, width=100)
        print_trust(console, replace(demo_trust, staying=staying))
        assert said in printed(console)


@pytest.mark.parametrize("width", [40, 80])
def test_it_fits_the_terminal(demo_trust: Trust, terminal: Terminal, width: int) -> None:
    console = terminal("truecolor", width=width)
    print_trust(console, demo_trust)
    plain = terminal(None, width=width)
    print_trust(plain, demo_trust)
    assert max(map(len, printed(plain).splitlines())) <= width


def test_what_it_rests_on_is_said_for_every_kind_of_studio(demo_model: PaintModel) -> None:
    first, *rest = basis_sentences(demo_model)
    assert first.startswith(f"From {demo_model.measured} patches with a measured spectrum and ")
    assert any("each has not been read dry" in sentence for sentence in rest)
    patches = demo_model.inputs.patches
    measured = tuple(each for each in patches if not each.estimated)
    estimated = tuple(each for each in patches if each.estimated)
    wrong = Contradiction(("S1", "S2"), "S1 and S2 differ", 9.0)

    def said(chosen: tuple[object, ...], aside: int) -> list[str]:
        inputs = replace(
            demo_model.inputs,
            patches=chosen,  # type: ignore[arg-type]
            left_aside=demo_model.inputs.left_aside[:aside],
        )
        return basis_sentences(replace(demo_model, inputs=inputs, contradictions=(wrong,)))

    assert said(measured, 0) == [
        f"From {len(measured)} patches, each with a measured spectrum.",
        "Contradictory: S1 and S2 differ.",
    ]
    sentences = said(estimated, 1)
    assert "without any spectrum: theirs are estimated from Lab" in sentences[0]
    assert sentences[2] == "Left out: S50 has not been read dry."


def test_the_picture_shows_every_swatch_in_its_colours(demo_trust: Trust) -> None:
    few = replace(demo_trust, foretold=demo_trust.foretold[: COLUMNS + 2])
    with Image.open(io.BytesIO(trust_chart(few))) as picture:
        assert picture.format == "PNG"
        pixels = np.asarray(picture.convert("RGB"))
    assert pixels.shape[1] == int(WIDTH * DPI)
    flat = {tuple(map(int, colour)) for colour in pixels.reshape(-1, 3)}
    for each in few.foretold:
        for lab in (each.measured, each.predicted):
            code = on_screen(lab).hex
            assert tuple(int(code[at : at + 2], 16) for at in (1, 3, 5)) in flat
    with Image.open(io.BytesIO(trust_chart(demo_trust))) as whole:
        assert whole.height > pixels.shape[0]


def _paint(code: str, name: str, status: Status = Status.IN_USE) -> Paint:
    facts = PaintFacts(code, "Pellow & Strand", name, status=status)
    return Paint(ord(code[0]), facts, (), Stock(None, Unit.ML, None))


ULTRAMARINE, WHITE = _paint("U", "Ultramarine"), _paint("W", "Titanium White")
KNOWN = PaintKnowledge(ULTRAMARINE.id, 4.12, 2, 5, 3, 0, None)


def _said(terminal: Terminal, knowledge: PaintKnowledge, paint: Paint = ULTRAMARINE) -> str:
    console = terminal(None, width=200)
    partners = {each.id: each for each in (ULTRAMARINE, WHITE)}
    print_known_paint(console, KnownPaint(paint, knowledge, partners, None))
    return printed(console)


def test_a_mix_that_would_tell_most_is_said_in_a_painters_words(terminal: Terminal) -> None:
    mix = NextSwatch(((ULTRAMARINE.id, 1), (WHITE.id, 1)), 3.0, 2.64)
    text = _said(terminal, replace(KNOWN, next=mix))
    assert "predicted from 2 washes of it and 5 swatches of 3 mixes: two of three 1:1" in text
    assert "are expected within ΔE00 4.1" in text
    assert (
        "one 1:1 mix with W Titanium White, water 3:1, read when it is dry, would bring that to "
        "ΔE00 2.6"
    ) in text


def test_a_wash_that_would_tell_most_and_none_that_would(terminal: Terminal) -> None:
    wash = NextSwatch(((ULTRAMARINE.id, 1),), 8.0, 2.6)
    text = _said(terminal, replace(KNOWN, alone=1, mixed=0, mixes=0, estimated=1, next=wash))
    assert "from 1 wash of it (all read as Lab without a spectrum): two" in text
    assert "one more wash of it alone, water 8:1, read when it is dry" in text
    text = _said(terminal, replace(KNOWN, mixed=1, mixes=1, estimated=2))
    assert "2 washes of it and 1 swatch of 1 mix (2 read as Lab alone)" in text
    assert "no single swatch more would bring that down by ΔE00 0.1" in text
    retired = _paint("U", "Ultramarine", Status.RETIRED)
    assert "no single swatch" not in _said(terminal, KNOWN, retired)


def test_the_same_as_json() -> None:
    mix = NextSwatch(((ULTRAMARINE.id, 1), (WHITE.id, 1)), 3.0, 2.64)
    partners = {each.id: each for each in (ULTRAMARINE, WHITE)}
    known = KnownPaint(ULTRAMARINE, replace(KNOWN, next=mix), partners, None)
    assert known_paint_fields(known)["next_swatch"] == {
        "recipe": [{"paint": "U", "parts": 1}, {"paint": "W", "parts": 1}],
        "water": 3.0,
        "expected_delta_e": 2.64,
    }


def test_waiting_is_silent_where_nobody_looks(capsys: pytest.CaptureFixture[str]) -> None:
    with waiting("working", after=0.0):
        pass
    assert capsys.readouterr().err == ""


def test_waiting_says_what_for_at_a_terminal(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TTY_COMPATIBLE", "1")
    monkeypatch.setenv("TERM", "xterm")
    started = Event()

    def timer(after: float, start: Callable[[], None]) -> Timer:
        def run() -> None:
            start()
            started.set()

        return Timer(after, run)

    monkeypatch.setattr("studio.sheets.waiting.Timer", timer)
    with waiting("working out", after=0.0):
        assert started.wait(10)
    assert "working out …" in capsys.readouterr().err
