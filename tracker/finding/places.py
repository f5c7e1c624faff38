"""The places that fit what a maker sees, likeliest first.

An Index and Evidence come in; Found comes out: every place that fits and no other, the one question that tells the
rest of them apart best, and, when none fits, where the work first departs from the pattern. Nothing raises: what
cannot be is answered by no place.
"""

import heapq
import re
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice
from typing import overload

from tracker.finding.evidence import Evidence, Tally, fits
from tracker.finding.index import Index, Look, Run
from tracker.finding.telling import next_words

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


@dataclass(frozen=True, slots=True)
class Spot:
    """The same positions in every row of a run."""

    run: Run
    look: int | None
    """Of the row on the hook; None when all is done."""
    at: tuple[int, ...]
    """Stitches and spaces done, rising."""


class Places(Sequence[Place]):
    """The places that fit, likeliest first; made only when asked for, so that a million of them cost nothing."""

    def __init__(self, index: Index, spots: Iterable[Spot], uk: bool, known: Known | None) -> None:
        self.piece = index
        self.spots = tuple(spots)
        self.uk = uk
        self.known = known
        self.weight = sum(self._weight_of(spot) for spot in self.spots)
        self.words: dict[tuple[int, int], str] = {}

    def __len__(self) -> int:
        return sum(spot.run.times * len(spot.at) for spot in self.spots)

    def __iter__(self) -> Iterator[Place]:
        return self._made(True)

    def unworded(self, most: int) -> list[Place]:
        """The likeliest ones without label and words, for those who only compare them."""
        return list(islice(self._made(False), most))

    def _made(self, worded: bool) -> Iterator[Place]:
        falling = [self._falling(n, spot) for n, spot in enumerate(self.spots)]
        for weight, row, at, n in heapq.merge(*falling):
            yield self._place(self.spots[n], row, at, -weight / self.weight, worded)

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

    def _falling(self, n: int, spot: Spot) -> Iterator[tuple[float, int, int, int]]:
        """One spot's places from the likeliest on, as (minus the weight, row, position, number of the spot)."""
        run = spot.run
        middle = 0
        if self.known is not None:
            middle = min(run.times, max(0, -(-(self.known.index - run.start) // run.step)))
        on = (run.start + k * run.step for k in range(middle, run.times))
        back = (run.start + k * run.step for k in range(middle - 1, -1, -1))
        return heapq.merge(self._in_rows(n, spot, on), self._in_rows(n, spot, back))

    def _in_rows(self, n: int, spot: Spot, rows: Iterable[int]) -> Iterator[tuple[float, int, int, int]]:
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
        key = (id(placed.worked), at)
        if key not in self.words:
            self.words[key] = next_words(placed.worked, at, self.uk)
        label = self.piece.fabric.row(row).label
        return Place(row, label, at, bisect_left(look.stitch_at, at), self.words[key], likelihood)


def spots_of(index: Index, evidence: Evidence) -> list[Spot]:
    """Every spot that fits, in working order of its first row."""
    found = _spots(index, evidence, False)
    if not found and any(tally.counts for tally in evidence.top_counts):
        # spaces that were not counted may be there: only when the plain meaning fits nowhere
        found = _spots(index, evidence, True)
    return found


def _spots(index: Index, evidence: Evidence, loose: bool) -> list[Spot]:
    within: dict[int, tuple[int, ...]] = {}
    spots: dict[tuple[int, int, tuple[int, ...]], Spot] = {}
    for run in _rows_on_hook(index, evidence, loose):
        look = index.at(run.start)
        if look is None:
            nothing = not (evidence.so_far or evidence.last or evidence.count)
            spots.setdefault((run.start, 1, (0,)), Spot(run, None, (0,))) if nothing else None
            continue
        if look not in within:
            within[look] = positions(index, index.looks[look], evidence)
        at = within[look]
        if at and at[-1] and at[-1] == len(index.looks[look].text):
            # a full row is the next one with nothing done
            at = at[:-1]
            after = Run(run.start + 1, run.step, run.times)
            # after a row without stitches that start is found for itself
            if evidence.count != 0 or evidence.says_row:
                spots.setdefault((after.start, after.times, (0,)), Spot(after, index.at(after.start), (0,)))
        if at:
            spots.setdefault((run.start, run.times, at), Spot(run, look, at))
    return sorted(spots.values(), key=lambda s: (s.run.start, s.at))


def positions(index: Index, look: Look, evidence: Evidence) -> tuple[int, ...]:
    """Positions within a row at which everything seen of it holds; its start when nothing was."""
    if not evidence.says_within:
        return (0,)
    allowed: Iterable[int] = range(len(look.text) + 1)
    if evidence.count is not None:
        allowed = look.holding(evidence.count)
    if evidence.so_far is not None:
        text = index.spelt(evidence.so_far)
        at = len(evidence.so_far)
        allowed = (at,) if text is not None and look.text.startswith(text) and at in allowed else ()
    if evidence.last:
        text = index.spelt(evidence.last)
        if text is None:
            return ()
        ends = _endings(look.text, text)
        if evidence.count is None and evidence.so_far is None:
            return tuple(ends)
        return tuple(at for at in ends if at in allowed)
    return tuple(allowed)


def _endings(text: str, piece: str) -> list[int]:
    """Positions at which a piece ends, pieces that overlap among them."""
    out: list[int] = []
    length = len(piece)
    find = text.find
    at = find(piece)
    while at >= 0:
        out.append(at + length)
        at = find(piece, at + 1)
    return out


def _rows_on_hook(index: Index, evidence: Evidence, loose: bool) -> Iterator[Run]:
    """Rows that may be on the hook by what is known of the finished ones, in runs that are alike all round."""
    back = max(len(evidence.top_counts), 1, evidence.above[0] + 1 if evidence.above else 0) + 1
    if evidence.done is not None:
        rows: Iterable[Run] = (Run(row + 1) for row in rows_done(index, evidence.done))
    elif evidence.top is not None:
        text = index.spelt(evidence.top)
        look = index.by_text.get(text) if text is not None else None
        rows = _after(index, [] if look is None else [look], back)
    elif evidence.top_counts:
        rows = _after(index, _counted(index, evidence.top_counts[-1], loose), back)
    elif evidence.above is None and evidence.says_within:
        rows = _within(index, evidence, back)
    else:
        rows = _after(index, range(len(index.looks)), back)
        if evidence.above is None:
            rows = (Run(1), *rows)
    for run in rows:
        if _stands_on(index, run.start - 1, evidence, loose):
            yield run


_LABEL = re.compile(r"(?:(?:row|rnd|round|r)s?\b\.?\s*|r(?=\d))?(?P<number>\d+)(?:st|nd|rd|th)?$")


def rows_done(index: Index, said: str) -> list[int]:
    """Indices of the rows that an index ("4") or a label ("Row 4", "rnd 4", "edging") names; 0 for none done."""
    text = " ".join(said.lower().split()).rstrip(":.")
    if text.isdecimal():
        row = int(text) if len(text) < 10 else -1
        return [row] if 0 <= row <= index.length else []
    label = _LABEL.match(text)
    number = int(label["number"]) if label and len(label["number"]) < 10 else None
    kind = {"row": "row", "rnd": "round", "rou": "round"}.get(text[:3], "")
    if number is None:
        return index.labelled.get(text, [])
    found = list(index.numbered.get(number, ()))
    for first, stretch in zip(index.fabric.first, index.fabric.stretches, strict=True):
        for within, placed in enumerate(stretch.rows if stretch.times > 1 else ()):
            if placed.number is not None and stretch.step:
                turn, rest = divmod(number - placed.number, stretch.step)
                if not rest and 0 <= turn < stretch.times:
                    found.append((first + within + turn * len(stretch.rows), placed.kind))
    out = [row for row, its in found if kind in ("", its)]
    # "row 4" of a piece worked in rounds is round 4, unless it has a row 4 as well
    return out or [row for row, _ in found] or index.labelled.get(text, [])


def _within(index: Index, evidence: Evidence, back: int) -> Iterator[Run]:
    """Rows to which what was seen of the row on the hook may belong."""
    looks: Iterable[int]
    if evidence.so_far is not None:
        text = index.spelt(evidence.so_far)
        looks = [] if text is None else index.beginning_with(text)
    elif evidence.last:
        text = index.spelt(evidence.last)
        looks = [] if text is None else index.holding(text)
    else:
        most = evidence.count or 0
        looks = [look for stitches, held in index.by_stitches.items() if stitches >= most for look in held]
    for look in looks:
        for span, row in index.homes[look]:
            yield from index.runs(span, row, back, 1)
    if not (evidence.so_far or evidence.last or evidence.count):
        yield Run(index.length + 1)


def _after(index: Index, looks: Iterable[int], back: int) -> Iterator[Run]:
    """The rows after those that have one of the looks."""
    for look in looks:
        for span, row in index.homes[look]:
            for run in index.runs(span, row, back, 2):
                yield Run(run.start + 1, run.step, run.times)


def _counted(index: Index, tally: Tally, loose: bool) -> list[int]:
    """Looks that hold what was counted."""
    if tally.stitches is None and not loose:
        return index.by_makes.get(frozenset((n, k) for n, k in tally.counts if k), [])
    if tally.stitches is not None:
        candidates = index.by_stitches.get(tally.stitches, [])
    else:
        candidates = list(range(len(index.looks)))
    return [k for k in candidates if fits(tally, index.looks[k].makes, index.looks[k].stitches, loose)]


def _stands_on(index: Index, top: int, evidence: Evidence, loose: bool) -> bool:
    """True when the finished rows, of which `top` is the last, are as they were seen."""
    if evidence.top is not None:
        look = index.at(top)
        if look is None or index.looks[look].names != evidence.top:
            return False
    for down, tally in enumerate(reversed(evidence.top_counts)):
        look = index.at(top - down)
        if look is None or not fits(tally, index.looks[look].makes, index.looks[look].stitches, loose):
            return False
        if down and index.starts_afresh(top - down + 1):
            return False
    if evidence.side is not None:
        sides = {
            placed.worked.side
            for row in ((top + 1,) if _begun(evidence) else (top, top + 1))
            if (placed := index.placed(row)) is not None
        }
        if sides and None not in sides and evidence.side not in sides:
            return False
    if evidence.above is not None:
        rows, like = evidence.above
        if not _looks(index, top - rows, like) or any(_looks(index, top - k, like) for k in range(rows)):
            return False
    return True


def _begun(evidence: Evidence) -> bool:
    return bool(evidence.so_far or evidence.last or evidence.count)


def _looks(index: Index, row: int, like: str) -> bool:
    """True when a row has a look by that word."""
    number = index.at(row)
    if number is None:
        return False
    look = index.looks[number]
    open_row = any(name.startswith("ch-") for name in look.makes)
    if like in ("open", "solid"):
        return open_row == (like == "open")
    return like in look.makes
