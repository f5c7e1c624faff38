"""Rows of the same words: each wording is worked once on each surface, however often it is printed.

A printed row comes in; the one row of its words goes out, with spans of its own that no text reaches, so that what is
remembered of it never mixes with another wording's; `home` brings what came of it back to where the row is printed.
"""

from collections.abc import Hashable
from dataclasses import replace
from typing import TypeVar

from tracker.notation.moved import moved
from tracker.notation.tree import Row

V = TypeVar("V")

_FAR = 1_000_000_000
"""Characters between two wordings, and before the first: more than any text has."""


class Wordings:
    """The wordings of one pattern."""

    def __init__(self) -> None:
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
        return moved(value, -self._rows[id(row)][2], _FAR // 2)

    def _found(self, row: Row) -> tuple[Row, int]:
        base = row.label_span.end
        words = moved(row, -base)
        # The numbers say nothing of how a row is worked, save that there are several.
        several = len(row.numbers) > 1
        key = replace(words, numbers=(several,), label="", span=words.label_span)
        number = self._numbers.setdefault(key, len(self._numbers) + 1)
        by = number * _FAR - base
        if number not in self._by_number:
            self._by_number[number] = moved(row, by)
        return self._by_number[number], by


def wording_of(start: int) -> int:
    """Which wording a span's start belongs to; 0 for what stands in the text itself."""
    return (start + _FAR // 2) // _FAR
