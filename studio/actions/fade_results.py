"""Tell what the owner's fade tests say, beside what is published of the same paints."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from studio.actions.find_fade import Subject, subject_of
from studio.catalogue.fade import FadeReading, FadeTest
from studio.catalogue.lightfastness import FADING, LightfastnessRating, category_rank
from studio.catalogue.mix import Mix
from studio.catalogue.paint import Paint, worst_of
from studio.catalogue.paper import Paper
from studio.storage.unit_of_work import UnitOfWork


@dataclass(frozen=True, slots=True)
class FadeResult:
    """A fade test beside the published ratings of its paints.

    Args:
        test: the test with its readings.
        subject: the paint or mix of the strip.
        paints: the paint, or those of the mix in the order of its recipe.
        paper: what it is painted on, where recorded.
    """

    test: FadeTest
    subject: Subject
    paints: tuple[Paint, ...]
    paper: Paper | None

    @property
    def paint(self) -> Paint | None:
        """The paint of the strip, None for a mix."""
        return self.subject if isinstance(self.subject, Paint) else None

    @property
    def mix(self) -> Mix | None:
        """The mix of the strip, None for a paint."""
        return self.subject if isinstance(self.subject, Mix) else None

    @property
    def subject_code(self) -> str:
        """The code of the paint or mix."""
        return self.subject.facts.code if isinstance(self.subject, Paint) else self.subject.code

    @property
    def worst(self) -> FadeReading | None:
        """The reading with the largest change; None before the first."""
        return self.test.worst

    @property
    def published(self) -> LightfastnessRating | None:
        """The worst published rating of its paints; None without any."""
        return worst_of(paint.worst_known_rating for paint in self.paints)

    @property
    def contradicts(self) -> bool:
        """Whether it has changed more than the published rating allows."""
        return self.test.contradicts(self.published)

    @property
    def needs_attention(self) -> bool:
        """Whether it contradicts the published rating, or has reached category III or worse."""
        worst = self.worst
        if worst is None:
            return False
        return self.contradicts or category_rank(worst.category) >= FADING

    @property
    def blue_wool(self) -> int | None:
        """The highest blue wool step that has faded beside it; None without a card."""
        steps = [reading.blue_wool for reading in self.test.readings]
        return max((step for step in steps if step is not None), default=None)

    def days(self, day: date) -> int:
        """How many days it had hung on a day; no more than until it was taken down."""
        ended = self.test.ended_on
        return ((day if ended is None else min(day, ended)) - self.test.started_on).days


def fade_result(work: UnitOfWork, test: FadeTest) -> FadeResult:
    """A test with what it is of and on."""
    subject = subject_of(work, test)
    keys = [key for key, _ in subject.recipe.parts] if isinstance(subject, Mix) else [subject.id]
    return FadeResult(
        test=test,
        subject=subject,
        paints=tuple(work.paints.by_id(key) for key in keys),
        paper=None if test.paper_id is None else work.papers.by_id(test.paper_id),
    )


def every_fade_result(work: UnitOfWork) -> tuple[FadeResult, ...]:
    """Every test, oldest first."""
    return tuple(fade_result(work, test) for test in work.fade_tests.all())


def own_tests(work: UnitOfWork, paints: Iterable[Paint], mix: Mix | None) -> tuple[FadeResult, ...]:
    """The tests with a reading of a mix, where it is recorded, and of each of its paints."""
    tests = [] if mix is None else [*work.fade_tests.of_mix(mix.id)]
    tests += [test for paint in paints for test in work.fade_tests.of_paint(paint.id)]
    return tuple(fade_result(work, test) for test in tests if test.readings)
