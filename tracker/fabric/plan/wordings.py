"""Rows of the same words: each wording is worked once on each surface, however often it is printed.

A printed row comes in; the one row of its words goes out. A wording that is printed once is its own row. One that is
printed again has spans of its own that no text reaches, so that what is remembered of it never mixes with another's;
`home` brings what came of it back to where a row is printed.
"""

from collections import Counter
from collections.abc import Hashable, Iterable
from dataclasses import replace
from typing import TypeVar

from tracker.notation.moved import moved
from tracker.notation.tree import Row

V = TypeVar("V")

_FAR = 1_000_000_000
"""Characters between two wordings, and before the first: more than any text has."""


class Wordings:
    """The wordings of one pattern."""

    def __init__(self, rows: Iterable[Row]) -> None:
        """`rows`: all that are printed."""
        self._long = Counter(_length(row) for row in rows)
        self._numbers: dict[Hashable, int] = {}
        self._rows: dict[int, tuple[Row, Row, int]] = {}
        """By identity of the printed row: itself (so that it lives on), its wording's row, how far that was moved."""
        self._by_number: dict[int, Row] = {}

    def of(self, row: Row) -> Row:
        """The row that stands for all of the same words."""
        found = self._rows.get(id(row))
        if found is None:
            found = self._rows[id(row)] = (row, *self._found(row))
        return found[1]

    def home(self, value: V, row: Row) -> V:
        """What came of working a row's words, with the spans of where it is printed."""
        self.of(row)
        by = self._rows[id(row)][2]
        return moved(value, -by, _FAR // 2) if by else value

    def _found(self, row: Row) -> tuple[Row, int]:
        if self._long[_length(row)] < 2:
            return row, 0
        base = row.label_span.end
        words = moved(row, -base)
        # The numbers say nothing of how a row is worked, save that there are several.
        key = replace(words, numbers=(len(row.numbers) > 1,), label="", span=words.label_span)
        number = self._numbers.setdefault(key, len(self._numbers) + 1)
        by = number * _FAR - base
        if number not in self._by_number:
            self._by_number[number] = moved(row, by)
        return self._by_number[number], by


def _length(row: Row) -> int:
    """What two rows of the same words have in common, and few others: characters behind the label."""
    return row.span.end - row.label_span.end
