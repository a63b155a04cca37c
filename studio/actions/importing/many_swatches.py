"""Rows of swatches recorded many at a time, with what one by one would leave behind.

Most rows of a long table are plain: a swatch that is not there yet, of a mix that is named by its
code or its recipe. They are gathered and recorded together; any other row first lets those before
it be recorded and then goes its own way, so the order of the table holds.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Final, NamedTuple, TypeVar

from studio.actions.find import find_mix, find_paint, find_paper
from studio.actions.importing.row import Row
from studio.actions.importing.swatches import circumstances_of, facts_of, reading_of
from studio.actions.log_swatch import checked_reading, checked_swatch
from studio.actions.make_reading import Circumstances
from studio.actions.read_target import OTHER_CODE
from studio.catalogue import naming
from studio.catalogue.reading import Reading
from studio.catalogue.recipe import Recipe, read_recipe
from studio.catalogue.swatch import SwatchFacts
from studio.errors import BadInput, NotFound
from studio.storage.swatches import NewSwatch
from studio.storage.unit_of_work import UnitOfWork

TOGETHER: Final = 4000
_FACTS: Final = ("water", "layers", "application", "made_on", "kept_at", "note", "target")
_HOW: Final = (
    *("read_on", "made_on", "method", "state", "instrument", "condition", "error_de"),
    *("reading_note", "geometry", "backing", "sample"),
)
_REMEMBERED: Final = 50_000
_SERIES: Final = re.compile(r"S(\d+)")
_T = TypeVar("_T")

Cells = tuple[str | None, ...]
Made = tuple[int, SwatchFacts, Reading]
"""What makes two swatches of one mix the same: paper, facts without the code, reading."""


class Waiting(NamedTuple):
    """A plain row that was not recorded yet; the facts of many rows are one value, without code.

    Its mix is told by the key of a recipe, or where that is empty by an id.
    """

    code: str
    facts: SwatchFacts
    recipe: str
    mix_id: int
    paper_id: int
    reading: Reading


class ManySwatches:
    """The rows of one table on their way into a studio.

    Args:
        work: the studio.
        header: the columns of the table.
        rows: all rows of the table; what they name is looked up together.
        today: no day may lie after it.
    """

    def __init__(
        self, work: UnitOfWork, header: Sequence[str], rows: Sequence[Sequence[str]], today: date
    ) -> None:
        self._work = work
        self._today = today
        self._taken = set(work.swatches.keys_of_codes(_codes("code", header, rows)))
        self._mixes = work.mixes.keys_of_codes(_codes("mix", header, rows))
        self._of_facts = [column for column in _FACTS if column in header]
        self._of_how = [column for column in _HOW if column in header]
        self._named: dict[str, int] = {}
        self._recipes: dict[str, Recipe] = {}
        self._keys: dict[str, str] = {}
        self._paints: dict[str, int] = {}
        self._papers: dict[str, int] = {}
        self._facts: dict[Cells, SwatchFacts] = {}
        self._how: dict[Cells, Circumstances] = {}
        self._of_recipe: dict[str, int] = {}
        self._made: dict[int, set[Made]] = {}
        # The numbers of the next codes; asked for once, as that looks through all there are.
        self._next_swatch: int | None = None
        self._next_mix: int | None = None
        self.waiting: list[Waiting] = []

    def take(self, row: Row) -> bool:
        """Let a row wait to be recorded with others; False where it has to go by itself."""
        code = row.cells.get("code", "").strip().upper()
        is_known = code in self._taken
        if code:
            self._taken.add(code)
        target = row.cells.get("target")
        if is_known or (target and OTHER_CODE.fullmatch(target)):
            return False
        try:
            self.waiting.append(self._read(row, code))
        except (BadInput, NotFound):
            return False  # recorded by itself it says what is wrong
        return True

    def record(self) -> list[bool]:
        """Record what waits; whether each row was new."""
        waiting, self.waiting = self.waiting, []
        self._find_recipes(waiting)
        mixes = [self._of_recipe[each.recipe] if each.recipe else each.mix_id for each in waiting]
        uncoded = {mix for mix, each in zip(mixes, waiting, strict=True) if not each.code}
        self._look_up(uncoded - self._made.keys())
        if uncoded and self._next_swatch is None:
            self._next_swatch = int(self._work.swatches.next_code()[1:])
        new: list[NewSwatch] = []
        outcomes = []
        for mix, each in zip(mixes, waiting, strict=True):
            if mix in self._made:
                made = (each.paper_id, replace(each.facts, target_lab=None), each.reading)
                if not each.code and made in self._made[mix]:
                    outcomes.append(False)
                    continue
                self._made[mix].add(made)
            code = each.code or f"S{self._next_swatch}"
            if self._next_swatch is not None:
                self._next_swatch = max(self._next_swatch, _number_of(code) + 1)
            new.append(NewSwatch(code, each.facts, mix, each.paper_id, each.reading))
            outcomes.append(True)
        self._work.swatches.add_many(new)
        return outcomes

    def forget(self) -> None:
        """Rows were recorded in another way, or taken back: what is known of mixes is not sure."""
        self._made.clear()
        self._of_recipe.clear()
        self._next_swatch = self._next_mix = None

    def _read(self, row: Row, code: str) -> Waiting:
        facts = self._facts_of(row)
        reading = checked_reading(reading_of(row, self._how_of(row)), facts, self._today)
        recipe, mix_id = self._mix_of(row)
        paper = row.cells["paper"]
        paper_id = self._papers.get(paper)
        if paper_id is None:
            paper_id = self._papers[paper] = find_paper(self._work, row.needed("paper")).id
        return Waiting(naming.code(code) if code else "", facts, recipe, mix_id, paper_id, reading)

    def _mix_of(self, row: Row) -> tuple[str, int]:
        """The key of a row's recipe, or the id of the mix that it names."""
        named = row.text("mix")
        if named is None:
            text = row.cells.get("recipe", "")
            key = self._keys.get(text)
            if key is None:
                recipe = read_recipe(row.needed("recipe"), self._paint_id)
                key = self._keys[text] = recipe.key
                self._recipes[key] = recipe
            return key, 0
        mix = self._mixes.get(named.upper()) or self._named.get(named)
        if mix is None:
            mix = self._named[named] = find_mix(self._work, named).id
        return "", mix

    def _paint_id(self, name: str) -> int:
        if name not in self._paints:
            self._paints[name] = find_paint(self._work, name).id
        return self._paints[name]

    def _facts_of(self, row: Row) -> SwatchFacts:
        key = tuple(map(row.cells.get, self._of_facts))
        facts = self._facts.get(key)
        if facts is None:
            only = Row({column: row.cells[column] for column in self._of_facts})
            facts = checked_swatch(self._work, facts_of(only), self._today)
            _remember(self._facts, key, facts)
        return facts

    def _how_of(self, row: Row) -> Circumstances:
        key = tuple(map(row.cells.get, self._of_how))
        how = self._how.get(key)
        if how is None:
            how = circumstances_of(row)
            _remember(self._how, key, how)
        return how

    def _find_recipes(self, waiting: Sequence[Waiting]) -> None:
        """Learn the mix of every recipe; those never mixed are recorded."""
        keys = dict.fromkeys(
            each.recipe for each in waiting if each.recipe and each.recipe not in self._of_recipe
        )
        self._of_recipe |= self._work.mixes.keys_of_recipes(keys)
        new = {key: self._recipes[key] for key in keys if key not in self._of_recipe}
        if new:
            first = self._next_mix or int(self._work.mixes.next_code()[1:])
            self._of_recipe |= self._work.mixes.add_many(new, self._today, first)
            self._next_mix = first + len(new)

    def _look_up(self, mixes: set[int]) -> None:
        """Learn what is recorded of some mixes, for rows that have no code to be known by."""
        self._made |= {key: set() for key in mixes}
        for swatch in self._work.swatches.of_mixes(mixes):
            facts = replace(swatch.facts, code="", target_lab=None)
            self._made[swatch.mix_id] |= {
                (swatch.paper_id, facts, reading) for reading in swatch.every_reading
            }


def _codes(column: str, header: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    """The codes in a column, in the form they are stored in; none where there is no such column."""
    if column not in header:
        return []
    place = header.index(column)
    return [code for cells in rows if (code := cells[place].strip().upper())]


def _number_of(code: str) -> int:
    """The number of a code of the series S1, S2, …, else 0."""
    found = _SERIES.match(code)
    return int(found[1]) if found else 0


def _remember(memory: dict[Cells, _T], key: Cells, value: _T) -> None:
    """Keep what cells mean; a table whose every row differs starts over now and then."""
    if len(memory) >= _REMEMBERED:
        memory.clear()
    memory[key] = value
