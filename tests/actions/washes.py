"""Washes of made-up paints with spectra, logged in a studio as an instrument would read them."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from studio.actions.log_swatch import log_swatch, read_swatch
from studio.actions.make_reading import Circumstances, reading_of_lab, reading_of_spectrum
from studio.catalogue.reading import Backing, Method, Reading, State
from studio.catalogue.swatch import Application, Swatch, SwatchFacts
from studio.colour.lab import Lab
from studio.colour.reflectance import Reflectance
from studio.mixing.parameters import Parameters
from studio.mixing.predict import film_of, recipes, washes
from studio.mixing.ranges import FloatArray
from studio.mixing.settings import DEFAULT, LAW
from tests.actions.conftest import DAY, Shelf
from tests.conftest import TODAY

NM: Final = np.arange(400.0, 701.0, 10.0)
PAPER: Final = 0.9 - 0.08 * np.exp((400.0 - NM) / 40.0)


def _band(middle: float, width: float) -> FloatArray:
    return np.asarray(np.exp(-0.5 * ((NM - middle) / width) ** 2))


ABSORBS: Final = {
    "UM": 0.03 + 2.0 * _band(590, 50),
    "BS": 0.05 + 1.5 * _band(420, 60) + 0.6 * _band(500, 60),
    "AC": 0.03 + 2.0 * _band(530, 40),
}
"""Absorption of each paint in a layer with water 3:1."""
SCATTERS: Final = {"UM": 0.1, "BS": 0.3, "AC": 0.05}


@dataclass(frozen=True, slots=True)
class Washes:
    """A shelf on which ultramarine, burnt sienna and alizarin mix as films do."""

    shelf: Shelf

    def lay(
        self,
        recipe: str,
        water: float | None = 3.0,
        *,
        layers: int = 1,
        application: Application = Application.FLAT_WASH,
        paper: str = "SR",
        reading: Reading | None = None,
    ) -> Swatch:
        """A swatch of a recipe such as `1 UM + 2 BS`, read dry with its spectrum if not else."""
        return log_swatch(
            self.shelf.work,
            mix=self.shelf.mix(recipe),
            paper=self.shelf.paper(paper),
            facts=SwatchFacts("", water, layers, application, DAY),
            reading=reading or spectrum(film(recipe, 3.0 if water is None else water, layers)),
            today=TODAY,
        )

    def again(self, swatch: Swatch, reading: Reading) -> Swatch:
        """One more reading of a swatch."""
        return read_swatch(self.shelf.work, swatch, reading, TODAY)

    def usual(self) -> None:
        """Two washes of each of the three paints and a mix of each pair, and the paper read."""
        self.shelf.work.papers.add_white(self.shelf.paper("SR").id, spectrum(PAPER))
        for paint in ABSORBS:
            for water in (2.0, 6.0):
                self.lay(paint, water)
        for recipe in ("UM + BS", "UM + AC", "BS + AC"):
            self.lay(recipe)


def film(recipe: str, water: float = 3.0, layers: int = 1) -> FloatArray:
    """Reflectance of a wash as the model has it, with what is usual of watercolours."""
    terms = [term.split() for term in recipe.split("+")]
    parts = {term[-1]: float(term[0]) if len(term) > 1 else 1.0 for term in terms}
    ln_K = np.log([ABSORBS[code] for code in ABSORBS])  # noqa: N806 - the letters of the papers
    law = np.array(DEFAULT.law)
    ln_S = np.log([[SCATTERS[code]] for code in ABSORBS]) - law[LAW.index("likeness")] * ln_K  # noqa: N806
    known = Parameters(ln_K, ln_S, law)
    batch = recipes([[parts.get(code, 0.0) for code in ABSORBS]], water, PAPER, layers)
    return np.asarray(washes(known, film_of(known, batch), batch)[0])


def spectrum(
    values: FloatArray, *, state: State = State.DRY, backing: Backing | None = None
) -> Reading:
    """A reading of a spectrum."""
    how = Circumstances(DAY, Method.SPECTROPHOTOMETER, state, backing=backing)
    return reading_of_spectrum(Reflectance(400.0, 10.0, tuple(map(float, values))), how)


def lab(
    lightness: float, a: float, b: float, *, method: Method = Method.COLORIMETER,
    error: float | None = None,
) -> Reading:  # fmt: skip
    """A reading of a Lab."""
    return reading_of_lab(Lab(lightness, a, b), Circumstances(DAY, method, error=error))


def glowing() -> FloatArray:
    """A wash that sends back more light than falls on it about 600 nm."""
    return np.asarray(0.4 + 0.9 * _band(600, 30))
