"""Work that fits no place: where it first departs from the pattern, and the mistake that explains it.

An Index and Evidence come in; Differs comes out.
"""

from collections.abc import Callable
from typing import Any

from tracker.finding.evidence import Evidence, Tally
from tracker.finding.explain import explain_miscount, slip_in
from tracker.finding.rows import wrong_side
from tracker.finding.where.index import Index, Look
from tracker.finding.where.questions import look_named
from tracker.finding.where.spots import rows_done, spots_of
from tracker.finding.where.telling import called
from tracker.records import dataclass, replace
from tracker.trade.numbers import spoken_number
from tracker.trade.stitches import written


@dataclass(frozen=True, slots=True)
class Differs:
    """Where the work first departs from the pattern."""

    index: int
    """The row, from 1."""
    element: int | None
    """Which stitch or space of it, from 1; None when the row as a whole is not so."""
    expected: str
    seen: str
    because: str = ""
    """The one mistake that explains it, in a sentence; nothing when none does."""
    says: str = ""
    """What is said in place of where it departs, for work that departs nowhere by itself."""

    def told(self, row: str, number: Callable[[int], str] = str) -> str:
        """In words, with the row's own name; `number` gives numbers as they are wanted, in figures or in words."""
        if self.says:
            return f"That fits no place: {self.says}"
        at = f", at stitch or space {number(self.element)}" if self.element else ""
        return (
            f"That fits no place. It first differs in {row}{at}: the pattern has {self.expected}, "
            f"you have {self.seen}. {self.because}"
        ).strip()

    def shown(self) -> dict[str, object]:
        """As JSON has it."""
        return {"index": self.index, "element": self.element, "expected": self.expected, "seen": self.seen}


def departure(index: Index, evidence: Evidence, uk: bool) -> Differs | None:
    """Where work that fits no place first differs from what the pattern has there, and the mistake behind it."""
    done = rows_done(index, evidence.done) if evidence.done is not None else []
    if evidence.done is not None and not done:
        return Differs(index.length, None, f"{index.length} rows in all", f"row {evidence.done}")
    if (evidence.top is not None or evidence.top_counts) and (found := _of_top(index, evidence, done, uk)):
        return _because(index, found, evidence.top, evidence.top_counts[-1:], uk)
    rows = [row + 1 for row in done] or None
    if evidence.so_far is not None and (found := _of_so_far(index, evidence.so_far, rows, uk)):
        return _because(index, found, evidence.so_far, (), uk)
    if evidence.count is not None and (found := _of_count(index, evidence.count, rows)):
        return found
    if evidence.last and (found := _of_last(index, evidence.last, rows, uk)):
        return found
    row = min(index.length, (rows or [1])[0])
    if evidence.side is not None and rows and (wrong := wrong_side(index.fabric, row, evidence.side)):
        own = "WS" if evidence.side == "RS" else "RS"
        return Differs(row, None, f"{own} facing", f"{evidence.side} facing", wrong.headline)
    if evidence.above is not None and not spots_of(index, Evidence(above=evidence.above)):
        stand, like = evidence.above
        named = look_named(like, "row", uk)
        many = f"{spoken_number(stand)} row{'' if stand == 1 else 's'}"
        says = f"nowhere in this piece stand just {many} above the last {named}."
        return Differs(
            row, None, f"no row {stand} above the last {named}", f"{stand} rows above it", "", says
        )
    says = f"each of these is so somewhere, but nowhere together. {_doubted(index, evidence)}".strip()
    return Differs(
        row, None, "each of these somewhere, but nowhere together", "all of these at one place", "", says
    )


_SEEN = {
    "above": "the rows above the one that stands out", "done": "the number of finished rows",
    "side": "the side that faces you",
    "count": "the stitches so far", "corners": "the corners so far", "top_counts": "the counts of the finished rows",
    "last": "what was worked last", "top": "the top finished row",
    "so_far": "the row so far", "part": "the part",
}  # fmt: skip
"""What a maker sees, by the name of its field: what is told wrong most easily first (common practice, no source)."""


def _doubted(index: Index, evidence: Evidence) -> str:
    """What to look at again: the first thing without which the rest fits somewhere; "" when there is no one thing."""
    for name, said in _SEEN.items():
        if getattr(evidence, name):
            changes: dict[str, Any] = {name: () if name == "top_counts" else None}
            if spots_of(index, replace(evidence, **changes)):
                return f"Look again at {said}: without that, the rest fits."
    return ""


def _because(
    index: Index, found: Differs, seen: tuple[str, ...] | None, told: tuple[Tally, ...], uk: bool
) -> Differs:
    """The same with the likeliest mistake that leads there."""
    if seen is not None:
        slip = slip_in(index.fabric, found.index, seen, uk)
        return replace(found, because=slip.headline) if slip else found
    causes = explain_miscount(index.fabric, found.index, told[0], uk).causes if told else ()
    return replace(found, because=causes[0].headline) if causes else found


def _candidates(index: Index, rows: list[int] | None) -> list[tuple[int, int]]:
    """Rows to compare with, as (index, look): those given, or the first of each look."""
    if rows is not None:
        return [(row, look) for row in rows if (look := index.at(row)) is not None]
    return sorted(
        (index.spans[homes[0][0]].first + homes[0][1], look)
        for look, homes in enumerate(index.homes)
        if homes
    )


def _agreeing(a: tuple[str, ...], b: tuple[str, ...]) -> int:
    for k, (one, other) in enumerate(zip(a, b, strict=False)):
        if one != other:
            return k
    return min(len(a), len(b))


def _of_so_far(index: Index, seen: tuple[str, ...], rows: list[int] | None, uk: bool) -> Differs | None:
    best: tuple[int, int, int] | None = None
    for row, look in _candidates(index, rows):
        same = _agreeing(index.looks[look].names, seen)
        if best is None or same > best[0]:
            best = (same, row, look)
    if best is None or best[0] == len(seen):
        return None
    same, row, look = best
    names = index.looks[look].names
    expected = written(names[same], uk) if same < len(names) else "the end of the row"
    return Differs(row, same + 1, expected, written(seen[same], uk))


def _of_count(index: Index, count: int, rows: list[int] | None) -> Differs | None:
    held = [(index.looks[look].stitches, row) for row, look in _candidates(index, rows)]
    if not held or max(held)[0] >= count:
        return None
    stitches, row = max(held, key=lambda each: each[0])
    return Differs(row, None, f"{stitches} stitches in the whole row", f"{count} stitches so far")


def _of_last(index: Index, seen: tuple[str, ...], rows: list[int] | None, uk: bool) -> Differs | None:
    """The longest beginning of what was seen that stands in a row, and what follows it there."""
    letters = "".join(index.letters.get(name, " ") for name in seen)
    candidates = _candidates(index, rows)
    for same in range(len(seen), -1, -1):
        for row, look in candidates:
            at = index.looks[look].text.find(letters[:same])
            if at < 0:
                continue
            if same == len(seen):
                return None
            names = index.looks[look].names
            expected = written(names[at + same], uk) if at + same < len(names) else "the end of the row"
            return Differs(row, at + same + 1, expected, written(seen[same], uk))
    return None


def _of_top(index: Index, evidence: Evidence, done: list[int], uk: bool) -> Differs | None:
    if evidence.top is not None:
        rows = done or None
        found = _of_so_far(index, evidence.top, rows, uk)
        if found is not None:
            return found
        for row, look in _candidates(index, rows):
            names = index.looks[look].names
            if names[: len(evidence.top)] == evidence.top and len(names) > len(evidence.top):
                return Differs(
                    row, len(evidence.top) + 1, written(names[len(evidence.top)], uk), "the end of the row"
                )
        return None
    told = tuple(reversed(evidence.top_counts))
    closest: tuple[int, int, list[int]] | None = None
    for row, _ in _candidates(index, done or None):
        off = [_apart(tally, _look_at(index, row - down, bool(down))) for down, tally in enumerate(told)]
        if closest is None or sum(off) < closest[0]:
            closest = (sum(off), row, off)
    if closest is None or not closest[0]:
        return None
    _, row, off = closest
    down = max(k for k, each in enumerate(off) if each)
    there = _look_at(index, row - down, bool(down))
    held = "no row further down" if there is None else _held(there, told[down], uk)
    return Differs(max(1, row - down), None, held, _told(told[down], uk))


def _look_at(index: Index, row: int, further_down: bool) -> Look | None:
    """The look of a row below the top one; None where another piece of work ends."""
    number = index.at(row)
    if number is None or (further_down and index.starts_afresh(row + 1)):
        return None
    return index.looks[number]


def _held(look: Look, tally: Tally, uk: bool) -> str:
    """What a row holds, counted as it was counted."""
    if tally.stitches is not None:
        return f"{look.stitches} stitches"
    return ", ".join(f"{number} {called(name, uk)}" for name, number in look.makes.items())


def _told(tally: Tally, uk: bool) -> str:
    return ", ".join(f"{number} {name}" for name, number in tally.shown(uk).items())


def _apart(tally: Tally, look: Look | None) -> int:
    """How far a count is from what a row holds; far, when there is no row."""
    if look is None:
        return 1000
    if tally.stitches is not None:
        return abs(tally.stitches - look.stitches)
    told = dict(tally.counts)
    return sum(abs(told.get(name, 0) - look.makes.get(name, 0)) for name in {*told, *look.makes})
