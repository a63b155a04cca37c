"""The ranges of hue and chroma that the demo is held to are those of the open measurements."""

import numpy as np
import pytest

from studio.colour.reflectance import Reflectance
from studio.colour.science import reflectance_to_lab
from tests.open_data.wpsm import FIRST_NM, HOW_TO_GET, STEP_NM, Measurements, wheel
from tests.seed_demo.measured_washes import MEASURED, Washes

if not wheel().is_file():
    pytest.skip(HOW_TO_GET.format(path=wheel()), allow_module_level=True)


@pytest.mark.parametrize("washes", MEASURED.values(), ids=lambda washes: washes.kind)
def test_the_ranges_are_those_of_the_data(washes: Washes, measured: Measurements) -> None:
    labs = [
        reflectance_to_lab(Reflectance(FIRST_NM, STEP_NM, spectrum))
        for spectrum in measured.washes[washes.number].values()
    ]
    assert len(labs) == 11
    hues = [float(np.degrees(np.arctan2(lab.b, lab.a)) % 360) for lab in labs]
    chromas = [float(np.hypot(lab.a, lab.b)) for lab in labs]
    assert (min(hues), max(hues)) == pytest.approx(washes.hues, abs=0.06)
    assert (min(chromas), max(chromas)) == pytest.approx(washes.chromas, abs=0.06)


def test_a_full_strength_is_the_dullest_wash_or_near_it(measured: Measurements) -> None:
    for washes in measured.washes.values():
        strong, weak = (
            reflectance_to_lab(Reflectance(FIRST_NM, STEP_NM, washes[amount]))
            for amount in (max(washes), min(washes))
        )
        assert np.hypot(strong.a, strong.b) <= np.hypot(weak.a, weak.b) + 0.5
