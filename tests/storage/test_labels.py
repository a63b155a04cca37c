"""What names swatches on a chart, read without what was measured."""

from studio.catalogue.removal import Removal
from studio.storage.unit_of_work import UnitOfWork
from tests.conftest import TODAY


def test_labels_are_those_of_every_swatch_but_removed_ones(demo_work: UnitOfWork) -> None:
    swatches = demo_work.swatches.all()
    labels = demo_work.swatches.labels()
    assert labels == {each.id: (each.facts.code, each.paper_id) for each in swatches}
    demo_work.swatches.mark(swatches[0].id, Removal(TODAY, "smudged"))
    assert labels.keys() - demo_work.swatches.labels().keys() == {swatches[0].id}
