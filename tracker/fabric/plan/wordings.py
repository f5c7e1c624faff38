"""Rows of the same words: each wording is worked once on each surface, however often it is printed.

A printed row comes in; the one row of its words goes out. A wording that is printed once is its own row. One that is
printed again has spans of its own that no text reaches, so that what is remembered of it never mixes with another's;
`home` brings what came of it back to where a row is printed.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterable

from tracker.fabric.model import Element
from tracker.notation.moved import Moved, as_told, moved
from tracker.notation.pattern import Row
from tracker.notation.tree import Stated
from tracker.records import replace

TYPE_CHECKING = False  # the name is enough for type checkers, and typing is slow to import
if TYPE_CHECKING:
    from typing import TypeVar

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
        self._read_before: dict[Hashable, int] = {}
        """Numbers of wordings by what `_read_as` says of their rows."""

    def of(self, row: Row) -> Row:
        """The row that stands for all of the same words."""
        found = self._rows.get(id(row))
        if found is None:
            found = self._rows[id(row)] = (row, *self._found(row))
        return found[1]

    def home(self, values: tuple[V, ...], row: Row) -> tuple[V, ...] | Moved[V]:
        """What came of working a row's words, with the spans of where it is printed."""
        self.of(row)
        by = self._rows[id(row)][2]
        return Moved(values, -by, _FAR // 2) if by and values else values

    def _found(self, row: Row) -> tuple[Row, int]:
        if self._long[_length(row)] < 2:
            return row, 0
        base = row.label_span.end
        same = _read_as(row)
        number = self._read_before.get(same)
        if number is None:
            words = moved(row, -base)
            # The numbers say nothing of how a row is worked, save that there are several.
            key = replace(words, numbers=_several(row), label="", span=words.label_span)
            number = self._read_before[same] = self._numbers.setdefault(key, len(self._numbers) + 1)
        by = number * _FAR - base
        if number not in self._by_number:
            self._by_number[number] = moved(row, by)
        return self._by_number[number], by


class Alike:
    """Numbers for surfaces: equal ones have the same, and one that was met before is known at sight."""

    def __init__(self) -> None:
        self._met: dict[int, tuple[tuple[Element, ...], int]] = {}
        """By identity: the surface (so that it lives on), its number."""
        self._numbers: dict[tuple[Element, ...], int] = {}

    def number(self, surface: tuple[Element, ...]) -> int:
        """The number of a surface."""
        met = self._met.get(id(surface))
        if met is None:
            met = self._met[id(surface)] = (surface, self._numbers.setdefault(surface, len(self._numbers)))
        return met[1]


def _length(row: Row) -> int:
    """What two rows of the same words have in common, and few others: characters behind the label."""
    return row.span.end - row.label_span.end


def _several(row: Row) -> tuple[bool]:
    return (len(row.numbers) > 1,)


def _read_as(row: Row) -> Hashable:
    """What only rows have in common that were read once for all of them; tells nothing of rows read apart."""
    return (
        id(as_told(row.items)), id(row.rerun), row.label_span.end - row.label_span.start, _several(row), row.kind,
        row.part, row.side, row.alternate, row.unread, row.sizes, _counts(row.stated, row.label_span.end),
        row.orders,
    )  # fmt: skip


def _counts(stated: tuple[Stated, ...], base: int) -> Hashable:
    """Counts with their places behind the label."""
    return tuple(
        (told.counts, told.span.start - base, told.span.end - base, told.change, told.partial)
        for told in stated
    )
