"""One row of a CSV table, its cells read as the values they stand for."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal, InvalidOperation
from enum import StrEnum
from typing import TypeVar

from studio.catalogue import checks
from studio.colour.lab import Lab
from studio.colour.reflectance import Reflectance
from studio.errors import BadInput

_Word = TypeVar("_Word", bound=StrEnum)


@dataclass(frozen=True, slots=True)
class Row:
    """A row by column name; an empty cell is None.

    Args:
        cells: column name -> text.
        nth: how many rows alike the table has had, this one counted.
    """

    cells: Mapping[str, str]
    nth: int = 1

    def text(self, column: str) -> str | None:
        """A text, its white space folded."""
        cell = self.cells.get(column)
        return checks.optional_text(cell, column) if cell else None

    def needed(self, column: str) -> str:
        """A text that must be there.

        Raises:
            BadInput: the cell is empty.
        """
        value = self.text(column)
        if value is None:
            msg = f"{column} is empty"
            raise BadInput(msg)
        return value

    def number(self, column: str) -> float | None:
        """A number with a decimal point.

        Raises:
            BadInput: the cell holds something else.
        """
        cell = self.cells.get(column)
        if not cell:
            return None
        try:
            return float(cell)
        except ValueError:
            value = self.text(column)
            if value is None:
                return None
            msg = f"{column} {value!r} is not a number"
            raise BadInput(msg) from None

    def needed_number(self, column: str) -> float:
        """A number that must be there.

        Raises:
            BadInput: the cell is empty or holds something else.
        """
        self.needed(column)
        number = self.number(column)
        assert number is not None  # noqa: S101 - the cell is not empty
        return number

    def whole(self, column: str) -> int | None:
        """A whole number.

        Raises:
            BadInput: the cell holds something else.
        """
        number = self.number(column)
        if number is None:
            return None
        if not number.is_integer():
            msg = f"{column} {number:g} is not a whole number"
            raise BadInput(msg)
        return int(number)

    def price(self, column: str) -> Decimal | None:
        """An exact price.

        Raises:
            BadInput: the cell holds something else.
        """
        value = self.text(column)
        if value is None:
            return None
        try:
            return Decimal(value)
        except InvalidOperation:
            msg = f"{column} {value!r} is not a price; write it like 12.50"
            raise BadInput(msg) from None

    def day(self, column: str) -> date | None:
        """A date as ISO 8601 writes it.

        Raises:
            BadInput: the cell holds something else.
        """
        value = self.text(column)
        return None if value is None else checks.iso_date(value, column)

    def needed_day(self, column: str) -> date:
        """A date that must be there.

        Raises:
            BadInput: the cell is empty or holds something else.
        """
        return checks.iso_date(self.needed(column), column)

    def word(self, column: str, words: type[_Word]) -> _Word | None:
        """A word of a vocabulary.

        Raises:
            BadInput: the vocabulary has no such word.
        """
        value = self.text(column)
        return None if value is None else checks.word(value, words, column)

    def words(self, column: str, separator: str) -> tuple[str, ...]:
        """Several texts in one cell."""
        value = self.text(column) or ""
        return tuple(part.strip() for part in value.split(separator) if part.strip())

    def lab(self, prefix: str, illuminant: str, observer: str) -> Lab | None:
        """A Lab from the columns `<prefix>l`, `<prefix>a` and `<prefix>b` and its white.

        Raises:
            BadInput: it is incomplete or no colour.
        """
        columns = prefix + "l", prefix + "a", prefix + "b"
        lightness, a, b = map(self.number, columns)
        if lightness is None or a is None or b is None:
            if lightness is None and a is None and b is None:
                return None
            msg = f"a Lab needs all of {', '.join(columns)}"
            raise BadInput(msg)
        try:
            degrees = self.whole(observer)
            white = self.text(illuminant) or "D50", 2 if degrees is None else degrees
            return Lab(lightness, a, b, *white)
        except ValueError as error:
            raise BadInput(str(error)) from None

    def spectrum(self, start: str, step: str, values: str) -> Reflectance | None:
        """A spectrum from a start and a step (nm) and reflectances separated by spaces.

        Raises:
            BadInput: it is incomplete or no spectrum.
        """
        given = self.cells.get(values, "").split()
        if not given:
            return None
        try:
            reflectances = tuple(map(float, given))
            return Reflectance(self.needed_number(start), self.needed_number(step), reflectances)
        except ValueError as error:
            msg = f"{values} is not a spectrum: {error}"
            raise BadInput(msg) from None
