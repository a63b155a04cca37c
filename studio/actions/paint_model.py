"""The studio's paints as the model knows them, computed anew only when its swatches changed."""

from collections import Counter
from dataclasses import dataclass
from datetime import date

import numpy as np

from studio.actions.contradictions import Contradiction, between_patches, from_all_others
from studio.actions.kept_model import Computed, packed, unpacked
from studio.actions.model_inputs import (
    MODEL,
    WAVELENGTHS,
    ModelInputs,
    Patch,
    model_inputs,
    white_of,
)
from studio.actions.paint_knowledge import PaintKnowledge, knowledge_of
from studio.actions.paper_ground import Ground, basis_of, ground_of, mean_spectrum
from studio.catalogue.paint import Paint, Status
from studio.catalogue.paper import Paper
from studio.catalogue.reading import Reading
from studio.errors import DatabaseTrouble
from studio.mixing.characterisation import Characterisation, contradictory
from studio.mixing.characterise import characterise
from studio.mixing.observation import Observation
from studio.storage.characterisations import KeptCharacterisation
from studio.storage.trouble import in_plain_words
from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True, eq=False)
class PaintModel:
    """The paints of a studio as its swatches tell them.

    Args:
        inputs: what it was computed from, with the paints and swatches that had to be left out.
        known: the paints that have enough swatches; None where there is none.
        observations: the patches of `inputs`, as `known` was computed from them.
        knowledge: how well each known paint is known, in the order of `known.paints`.
        contradictions: swatches that cannot all be right, the worst first.
        whites: what a wash on each paper is laid on, by the paper's id.
        fresh: a result that is not kept yet.
    """

    inputs: ModelInputs
    known: Characterisation | None
    observations: tuple[Observation, ...]
    knowledge: tuple[PaintKnowledge, ...]
    contradictions: tuple[Contradiction, ...]
    whites: dict[int, Ground]
    fresh: KeptCharacterisation | None

    @property
    def offered(self) -> tuple[Paint, ...]:
        """The known paints that are not retired, in the order of `known.paints`."""
        keys = () if self.known is None else self.known.paints
        paints = {paint.id: paint for paint in self.inputs.paints}
        return tuple(paints[key] for key in keys if paints[key].facts.status is Status.IN_USE)

    @property
    def estimated(self) -> int:
        """How many patches have a spectrum that was estimated from their Lab."""
        return self.inputs.estimated

    @property
    def measured(self) -> int:
        """How many have a measured spectrum."""
        return len(self.inputs.patches) - self.inputs.estimated

    def ground(self, paper: Paper | None) -> Ground:
        """What a wash on a paper is laid on; a usual white where no paper is named or none read."""
        if paper is None:
            return ground_of(())
        return self.whites.get(paper.id) or ground_of(white_of(paper, black=False))

    def patches_of(self, swatch_id: int) -> tuple[tuple[Patch, Observation], ...]:
        """The patches of a swatch with what the model saw of them; none where it was left out."""
        pairs = zip(self.inputs.patches, self.observations, strict=True)
        return tuple((patch, seen) for patch, seen in pairs if patch.swatch.id == swatch_id)


def paint_model(work: UnitOfWork, today: date) -> PaintModel:
    """The paints of a studio; computed anew where what is kept was computed from something else.

    A new result is recorded in a unit of work that writes; for one that only looks there is
    `keep_model`.

    Args:
        work: the studio.
        today: the day, for a new result.
    """
    inputs = model_inputs(work)
    if not inputs.patches:
        return PaintModel(inputs, None, (), (), (), {}, None)
    kept = work.characterisations.last()
    if kept is not None and kept.inputs_sha256 == inputs.sha256:
        return _model(inputs, unpacked(kept.content), None)
    content = packed(_computed(inputs, _start(kept)))
    fresh = KeptCharacterisation(
        inputs.sha256, MODEL, len(inputs.patches), inputs.estimated, content, today
    )
    if work.writes:
        work.characterisations.keep(fresh)
    # Read back, so that a result is the same to the last digit when it is found again.
    return _model(inputs, unpacked(content), None if work.writes else fresh)


def keep_model(work: UnitOfWork, model: PaintModel) -> bool:
    """Keep a fresh result, last thing in a command that only looked; whether it was kept.

    Where it cannot be, nothing is lost but time: the next command computes it again.
    """
    if model.fresh is None:
        return False
    try:
        work.begin_to_write()
        with in_plain_words(work.path):
            work.characterisations.keep(model.fresh)
        work.commit()
    except DatabaseTrouble:
        work.connection.rollback()
        return False
    return True


def _start(kept: KeptCharacterisation | None) -> Characterisation | None:
    """Where the descent begins: at the last result of the same model."""
    if kept is None or kept.model != MODEL:
        return None
    return unpacked(kept.content).known


def _computed(inputs: ModelInputs, start: Characterisation | None) -> Computed:
    # colour-science takes a second to load; a kept model does without it.
    from studio.colour.science import tristimulus  # noqa: PLC0415

    of_white: dict[tuple[Reading, ...], Ground] = {}
    for white in (
        *(patch.white for patch in inputs.patches),
        *(white_of(paper, black=False) for paper in inputs.papers),
    ):
        if white not in of_white:
            of_white[white] = ground_of(white)
    spectra = np.array([mean_spectrum(patch.readings) for patch in inputs.patches])
    spectra = np.minimum(spectra, 1.0)
    grounds = np.array([of_white[patch.white].reflectance for patch in inputs.patches])
    papers = [of_white[white_of(paper, black=False)].reflectance for paper in inputs.papers]
    seen = _observations(inputs, spectra, grounds)
    known = characterise(seen, tristimulus(WAVELENGTHS), start=start)
    retired = {paint.id for paint in inputs.paints if paint.facts.status is Status.RETIRED}
    (usual, _), *_ = Counter(patch.white for patch in inputs.patches).most_common(1)
    knowledge = knowledge_of(known, of_white[usual].reflectance, retired)
    return Computed(known, spectra, grounds, np.array(papers), knowledge)


def _model(
    inputs: ModelInputs, computed: Computed, fresh: KeptCharacterisation | None
) -> PaintModel:
    known = computed.known
    far = contradictory(known)
    contradictions = [
        *between_patches(inputs.patches),
        *from_all_others([inputs.patches[row] for row in far], known.fitted[list(far)].tolist()),
    ]
    return PaintModel(
        inputs,
        known,
        _observations(inputs, computed.spectra, computed.grounds),
        computed.knowledge,
        tuple(contradictions),
        {
            paper.id: Ground(reflectance, basis_of(white_of(paper, black=False)))
            for paper, reflectance in zip(inputs.papers, computed.papers, strict=True)
        },
        fresh,
    )


def _observations(
    inputs: ModelInputs, spectra: np.ndarray, grounds: np.ndarray
) -> tuple[Observation, ...]:
    return tuple(
        Observation(
            dict(patch.mix.recipe.parts),
            spectrum,
            ground,
            patch.swatch.facts.water,
            patch.swatch.facts.layers,
            patch.weight,
            patch.estimated,
            patch.code,
        )
        for patch, spectrum, ground in zip(inputs.patches, spectra, grounds, strict=True)
    )
