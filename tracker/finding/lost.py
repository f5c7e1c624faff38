"""The answer to a maker who is lost: where they may be, the one question to ask, and what fits nowhere.

A fabric and Evidence come in; Found comes out. The question is the one whose answers tell the places apart best: it
is worth the doubt its answer takes away, in bits, times how easily a maker answers it with the work in their lap.
"""

from collections import Counter
from collections.abc import Callable, Hashable, Iterable
from dataclasses import dataclass, replace
from math import log2

from tracker.fabric.model import Fabric
from tracker.finding.evidence import Evidence, Tally
from tracker.finding.explain import explain_miscount, slip_in
from tracker.finding.index import Index, Look, index_of
from tracker.finding.places import Known, Place, Places, rows_done, spots_of
from tracker.finding.rows import wrong_side
from tracker.finding.telling import called
from tracker.trade.stitches import parts_of, said, written

SAMPLE = 300
"""Places a question is chosen by: the likeliest ones."""
LOOKED_AT = 60
"""Places for which a question about rows further below is tried."""
DEEP = 40
"""Rows counted back by such a question."""


@dataclass(frozen=True, slots=True)
class Question:
    """One question."""

    about: str
    """What is asked: "rows", "count", "last", "corners", "below", "side", "part" or "above"."""
    words: str
    look: str = ""
    """For "above": the look that rows are counted from."""


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

    def shown(self) -> dict[str, object]:
        """As JSON has it."""
        return {"index": self.index, "element": self.element, "expected": self.expected, "seen": self.seen}


@dataclass(frozen=True, slots=True)
class Found:
    """Where a lost maker may be."""

    places: Places
    """Every place that fits, likeliest first."""
    ask: Question | None
    """What tells them apart best; None when there is one place, none, or nothing to tell them apart by."""
    differs: Differs | None
    """When there is no place: where the work departs from the pattern."""

    def shown(self) -> dict[str, object]:
        """As JSON has it."""
        return {
            "places": [place.shown() for place in self.places],
            "ask": self.ask.words if self.ask else None,
            "differs": self.differs.shown() if self.differs else None,
        }


def find(
    piece: Fabric | Index, evidence: Evidence, uk: bool = False, known_place: Known | None = None
) -> Found:
    """Every place of a piece at which the evidence holds; keep the Index of a piece to be answered at once."""
    index = piece if isinstance(piece, Index) else index_of(piece)
    places = Places(index, spots_of(index, evidence), uk, known_place)
    if len(places):
        return Found(places, best_question(index, places, uk), None)
    return Found(places, None, departure(index, evidence, uk) if index.looks else None)


def best_question(index: Index, places: Places, uk: bool) -> Question | None:
    """The question that splits the places best; None when there is nothing left to ask."""
    sample = places.unworded(SAMPLE)
    if len(sample) < 2:
        return None
    best: tuple[float, Question] | None = None
    for question, ease, answer in _questions(index, sample, uk):
        told = sample[:LOOKED_AT] if question.about == "above" else sample
        worth = _bits(told, answer) * ease
        if worth > 0 and (best is None or worth > best[0] + 1e-9):
            best = (worth, question)
    return best[1] if best else None


def _bits(sample: list[Place], answer: Callable[[Place], Hashable]) -> float:
    """How much doubt the answer takes away."""
    weights: Counter[Hashable] = Counter()
    for place in sample:
        weights[answer(place)] += place.likelihood  # type: ignore[assignment]
    whole = sum(weights.values())
    return -sum(w / whole * log2(w / whole) for w in weights.values() if w > 0)


Asked = tuple[Question, float, Callable[[Place], Hashable]]


def _questions(index: Index, sample: list[Place], uk: bool) -> Iterable[Asked]:
    """Every question there is for these places, with how easily it is answered."""
    first = index.placed(min(sample[0].index, index.length))
    round_ = "round" if first is not None and first.kind == "round" else "row"
    parts = {placed.part for place in sample if (placed := index.placed(place.index)) is not None}
    if len(parts) > 1:
        names = sorted(part or "the first part" for part in parts)
        words = f"Which part is it: {', '.join(names[:-1])} or {names[-1]}?"
        yield Question("part", words), 1.2, lambda p: _part(index, p)
    yield from _of_the_row(index, sample, round_, uk)
    deepest = max(place.index for place in sample)
    ease = 1.0 if deepest <= 25 else 0.8 if deepest <= 80 else 0.5
    yield Question("rows", f"How many {round_}s are finished?"), ease, lambda p: p.index
    yield (
        Question("below", f"How many stitches are on the last finished {round_}?"),
        0.9,
        lambda p: _look_stitches(index, p.index - 1),
    )
    sides = {_side(index, p) for p in sample}
    if None not in sides:
        yield (
            Question("side", "Does the right side face you, or the wrong side?"),
            1.1,
            lambda p: _side(index, p),
        )
    yield from _further_down(index, sample, round_, uk)


def _of_the_row(index: Index, sample: list[Place], round_: str, uk: bool) -> Iterable[Asked]:
    """Questions about the row on the hook."""
    lasts = sorted({name for p in sample if (name := _last(index, p))})
    if 1 < len(lasts) <= 4:
        listed = [f"a {_spoken(name, uk)}" for name in lasts]
        words = f"What did you work last: {', '.join(listed[:-1])} or {listed[-1]}?"
        yield Question("last", words), 1.1, lambda p: _last(index, p)
    most = max(p.stitches_done for p in sample)
    ease = 1.0 if most <= 40 else 0.85 if most <= 120 else 0.6
    yield (
        Question("count", f"How many stitches are on this {round_} so far?"),
        ease,
        lambda p: p.stitches_done,
    )
    if any(_corners(index, p) for p in sample):
        words = f"How many corners has this {round_} so far?"
        yield Question("corners", words), 1.05, lambda p: _corners(index, p)


def _further_down(index: Index, sample: list[Place], round_: str, uk: bool) -> Iterable[Asked]:
    """Questions that count rows back to one that stands out."""
    told = sample[:LOOKED_AT]
    looks = {n for p in told for k in range(1, DEEP) if (n := index.at(p.index - k)) is not None}
    kinds = {like for n in looks for like in _likes(index.looks[n])}
    for like in sorted(kinds):
        if all(like in _likes(index.looks[n]) for n in looks):
            continue
        named = {"open": f"open {round_}", "solid": f"{round_} without spaces"}.get(
            like, f"{round_} with {said(like, uk)}s in it"
        )
        words = f"How many {round_}s stand above the last {named}?"
        yield Question("above", words, like), 0.9, lambda p, like=like: _above(index, p, like)  # type: ignore[misc]


def _likes(look: Look) -> set[str]:
    """Words by which a row may be known: open or solid, and the stitches that stand out."""
    out = {"open" if any(name.startswith("ch-") for name in look.makes) else "solid"}
    return out | {
        n for n in look.makes if not n.startswith("ch-") and (parts_of(n)[0] or parts_of(n)[1] in _BOLD)
    }


_BOLD = ("bo", "puff", "pop", "cl", "picot", "spsc", "revsc")


def _above(index: Index, place: Place, like: str) -> int:
    for k in range(DEEP):
        look = index.at(place.index - 1 - k)
        if look is None:
            return -1
        if like in _likes(index.looks[look]):
            return k
    return DEEP


def _part(index: Index, place: Place) -> str | None:
    placed = index.placed(place.index)
    return placed.part if placed else None


def _side(index: Index, place: Place) -> str | None:
    placed = index.placed(place.index)
    return placed.worked.side if placed else None


def _last(index: Index, place: Place) -> str | None:
    """What was worked last in the row on the hook; None at its start."""
    look = index.at(place.index)
    if look is None or not place.elements_done:
        return None
    return index.looks[look].names[place.elements_done - 1]


def _corners(index: Index, place: Place) -> int:
    look = index.at(place.index)
    return 0 if look is None else sum(1 for k in index.looks[look].corners if k < place.elements_done)


def _look_stitches(index: Index, row: int) -> int:
    look = index.at(row)
    return -1 if look is None else index.looks[look].stitches


def _spoken(name: str, uk: bool) -> str:
    if name.startswith("ch-"):
        return f"chain {name[3:].split()[0]}"
    return said(name, uk)


# -- work that fits no place


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
    return Differs(row, None, "each of these somewhere, but nowhere together", "all of these at one place")


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
        (index.fabric.first[homes[0][0]] + homes[0][1], look)
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
