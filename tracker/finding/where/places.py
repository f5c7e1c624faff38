"""The places that fit what a maker sees, likeliest first.

An Index and the spots that fit come in; Places come out, a sequence that makes them only when asked for.
"""

import heapq
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from itertools import islice
from typing import overload

from tracker.finding.where.index import Index
from tracker.finding.where.spots import Spot
from tracker.finding.where.telling import next_words
from tracker.records import dataclass

ONWARD = 0.9
"""How much less likely a place is for each row on from the last known one."""
BACK = 0.7
"""The same for each row back: work goes on more often than it is ripped out."""
NEAR = 200
"""Rows up and down beyond which nothing is left of what the last known place says."""
ANYWHERE = 0.002
"""What is left for a place however far off."""


@dataclass(frozen=True, slots=True)
class Place:
    """Somewhere in a piece: so much done of one row."""

    index: int
    """Of the row on the hook, from 1; one more than the last row when all is done."""
    row: str | None
    """Its label; None when all is done."""
    elements_done: int
    """Stitches and spaces of it."""
    stitches_done: int
    next: str
    """What comes now, in the pattern's terms."""
    likelihood: float
    """All places together have 1."""

    def shown(self) -> dict[str, object]:
        """As JSON has it."""
        return {
            "index": self.index, "row": self.row, "elements_done": self.elements_done,
            "stitches_done": self.stitches_done, "next": self.next, "likelihood": round(self.likelihood, 4),
        }  # fmt: skip


@dataclass(frozen=True, slots=True)
class Known:
    """The last place that is known for sure."""

    index: int
    elements_done: int = 0


Ranked = tuple[float, int, int, int]
"""A place to be sorted: minus its weight, its row, the position within, the number of its spot."""


class Places(Sequence[Place]):
    """The places that fit, likeliest first; made only when asked for, so that a million of them cost nothing."""

    def __init__(self, index: Index, spots: Iterable[Spot], uk: bool, known: Known | None) -> None:
        self.piece = index
        self.spots = tuple(spots)
        self.uk = uk
        self.known = known
        self.weight = sum(self._weight_of(spot) for spot in self.spots)

    def __len__(self) -> int:
        return sum(spot.run.times * len(spot.at) for spot in self.spots)

    def __iter__(self) -> Iterator[Place]:
        return self._made(True)

    def unworded(self, most: int) -> list[Place]:
        """The likeliest ones without label and words, for those who only compare them."""
        return list(islice(self._made(False), most))

    def _made(self, worded: bool) -> Iterator[Place]:
        for weight, row, at, n in self._merged():
            yield self._place(self.spots[n], row, at, -weight / self.weight, worded)

    def _merged(self) -> Iterator[Ranked]:
        """All spots' places from the likeliest on; a spot is begun only when its turn may have come."""
        waiting = sorted((self._bound(spot), n) for n, spot in enumerate(self.spots))
        waiting.reverse()
        begun: list[tuple[Ranked, Iterator[Ranked]]] = []
        while waiting or begun:
            while waiting and (not begun or waiting[-1][0] <= begun[0][0][:2]):
                _, n = waiting.pop()
                falling = self._falling(n, self.spots[n])
                if (first := next(falling, None)) is not None:
                    heapq.heappush(begun, (first, falling))
            if not begun:
                continue
            first, falling = begun[0]
            yield first
            if (following := next(falling, None)) is not None:
                heapq.heapreplace(begun, (following, falling))
            else:
                heapq.heappop(begun)

    def _bound(self, spot: Spot) -> tuple[float, int]:
        """Minus the weight and the row that no place of a spot comes before."""
        run = spot.run
        if self.known is None:
            return -1.0, run.start
        after = min(run.times, max(0, -(-(self.known.index - run.start) // run.step)))
        rows = [run.start + k * run.step for k in (after - 1, after) if 0 <= k < run.times]
        return min((self._most(row), row) for row in rows)

    def _most(self, row: int) -> float:
        here = self.known is not None and row == self.known.index
        return -(1.0 + ANYWHERE) if here else -self._likely(row, 0, None)

    @overload
    def __getitem__(self, at: int) -> Place: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[Place]: ...
    def __getitem__(self, at: int | slice) -> Place | Sequence[Place]:
        if isinstance(at, slice):
            return tuple(self)[at] if at.stop is None else tuple(islice(iter(self), at.stop))[at]
        if at < 0:
            return tuple(self)[at]
        for place in islice(iter(self), at, at + 1):
            return place
        raise IndexError(at)

    def _likely(self, row: int, at: int, look: int | None) -> float:
        if self.known is None:
            return 1.0
        off = row - self.known.index
        if off == 0:
            length = len(self.piece.looks[look].text) if look is not None else 0
            part = (at - self.known.elements_done) / (length + 1)
            return float((ONWARD if part >= 0 else BACK) ** abs(part)) + ANYWHERE
        return float(ONWARD**off if off > 0 else BACK**-off) + ANYWHERE

    def _weight_of(self, spot: Spot) -> float:
        run = spot.run
        if self.known is None:
            return float(run.times * len(spot.at))
        # far from the known place only ANYWHERE is left of it, so that the near ones are enough
        first = max(0, -(-(self.known.index - NEAR - run.start) // run.step))
        near = range(first, min(run.times, (self.known.index + NEAR - run.start) // run.step + 1))
        total = (run.times - len(near)) * len(spot.at) * ANYWHERE
        for k in near:
            row = run.start + k * run.step
            if row == self.known.index:
                total += sum(self._likely(row, at, spot.look) for at in spot.at)
            else:
                total += self._likely(row, 0, spot.look) * len(spot.at)
        return total

    def _falling(self, n: int, spot: Spot) -> Iterator[Ranked]:
        """One spot's places from the likeliest on, as (minus the weight, row, position, number of the spot)."""
        run = spot.run
        middle = 0
        if self.known is not None:
            middle = min(run.times, max(0, -(-(self.known.index - run.start) // run.step)))
        on = (run.start + k * run.step for k in range(middle, run.times))
        back = (run.start + k * run.step for k in range(middle - 1, -1, -1))
        return heapq.merge(self._in_rows(n, spot, on), self._in_rows(n, spot, back))

    def _in_rows(self, n: int, spot: Spot, rows: Iterable[int]) -> Iterator[Ranked]:
        for row in rows:
            if self.known is not None and row == self.known.index:
                yield from sorted((-self._likely(row, at, spot.look), row, at, n) for at in spot.at)
                continue
            weight = -self._likely(row, 0, spot.look)
            for at in spot.at:
                yield weight, row, at, n

    def _place(self, spot: Spot, row: int, at: int, likelihood: float, worded: bool) -> Place:
        if not worded:
            done = bisect_left(self.piece.looks[spot.look].stitch_at, at) if spot.look is not None else 0
            return Place(row, None, at, done, "", likelihood)
        placed = self.piece.placed(row)
        if spot.look is None or placed is None:
            return Place(row, None, 0, 0, "nothing: the last row is done", likelihood)
        look = self.piece.looks[spot.look]
        words, key = self.piece.nexts, (id(placed.worked), at, self.uk)
        if key not in words:
            words[key] = next_words(placed.worked, at, self.uk)
        label = self.piece.fabric.row(row).label
        return Place(row, label, at, bisect_left(look.stitch_at, at), words[key], likelihood)
