"""Rows worked onto what is really on the hook: a miscount that is carried along.

A fabric, the row that came out differently and what stands on it come in; the fabric goes out with every row after it
worked on that, until what they make is what they should. Nothing raises: a row that cannot be worked so says where.
"""

from itertools import pairwise

from tracker.fabric.model import CH, HIDDEN, Element, Fabric, Placed, Stretch, WorkedRow
from tracker.fabric.readings.fitting import readings
from tracker.fabric.readings.habits import Habit, first_habits, learned
from tracker.fabric.rows.close import landing_of
from tracker.fabric.rows.outcome import Outcome
from tracker.fabric.standing import Standing
from tracker.fabric.working.hook import Ground
from tracker.notation.pattern import Pattern
from tracker.records import dataclass, replace

FAR = 400
"""Rows that are worked again one by one; rows worked over and over are one pass of these."""
_BAD = 4
"""Weight of a fault in a row with which it cannot be worked."""


@dataclass(frozen=True, slots=True)
class Carried:
    """What becomes of the rows after one that is not as it should be."""

    fabric: Fabric
    rows: int
    """Rows after it that come out otherwise than the pattern has them, as far as they were worked again."""
    stuck: int | None = None
    """Index of the first row that cannot be worked on what stands; None when all can."""


@dataclass(frozen=True, slots=True)
class _Way:
    """What does not change on the way up."""

    pattern: Pattern
    habits: Habit


def carried(pattern: Pattern, fabric: Fabric, index: int, standing: tuple[Element, ...]) -> Carried:
    """The rows after the one with this index, worked onto what really stands on it."""
    way = _Way(pattern, _habits(pattern, fabric, index))
    before: list[Stretch] = []
    after: list[Stretch] = []
    top, rows, stuck, here = standing, 0, None, fabric.row(index)
    at = 1
    for stretch in fabric.stretches:
        last = at + stretch.length - 1
        if last <= index or stuck is not None or top == here.worked.elements:
            (before if last <= index else after).append(stretch)
            at = last + 1
            continue
        kept = [fabric.row(k) for k in range(at, index + 1)]
        if kept:
            before.append(Stretch(tuple(kept)))
        done: list[Placed] = []
        k = max(at, index + 1)
        while k <= last:
            placed = fabric.row(k)
            if _afresh(placed) or len(done) >= FAR:
                break
            outcome = _worked(way, here, top, placed)
            if outcome is None:
                stuck = k
                break
            again = _placed(placed, outcome)
            done.append(again)
            same = outcome.elements == placed.worked.elements
            here, top = placed, outcome.elements
            rows += not same
            k += 1
            if same:
                break
        after.append(Stretch(tuple(done))) if done else None
        after.extend(_rest(fabric, stretch, at, k))
        if k <= last and stuck is None:
            here, top = fabric.row(k), fabric.row(k).worked.elements
        at = last + 1
    return Carried(Fabric((*before, *after), fabric.open_ended), rows, stuck)


def _habits(pattern: Pattern, fabric: Fabric, index: int) -> Habit:
    """What the rows up to one say of turning chains."""
    habits = first_habits(pattern)
    for stretch, first in zip(fabric.stretches, fabric.first, strict=True):
        for k, placed in enumerate(stretch.rows):
            if first + k <= index:
                habits = learned(habits, placed.worked.row, {}, {})
    return habits


def _afresh(placed: Placed) -> bool:
    """True for a row on a chain or a ring of its own: nothing is carried into it."""
    return all(element.kind in (CH, HIDDEN) for element in placed.worked.below)


def _worked(way: _Way, here: Placed, top: tuple[Element, ...], placed: Placed) -> Outcome | None:
    """A row on what really stands; None when it cannot be worked so, or is not understood."""
    worked = placed.worked
    if not worked.understood:
        return None
    ground = Ground({special.name: special for special in way.pattern.specials})
    row = replace(worked.row, stated=())
    habits = learned(way.habits, worked.row, {}, {})
    kind = "round" if here.kind == "round" else "row"
    choices = habits
    for tried in (habits, _as_worked(habits, worked)):
        should = readings(
            row, Standing(here.worked.elements, kind, turned=worked.turned), ground, tried, False
        )[0]
        if should.elements == worked.elements:
            choices = tried
            break
    else:
        return None
    found = readings(row, Standing(top, kind, turned=worked.turned), ground, choices, False)[0]
    if not found.understood or any(fault.weight >= _BAD for fault in found.found):
        return None
    # "dc in top of ch-3" finds the chain even when it has a stitch already: no maker would work there again
    return found if _twice(found.elements) <= _twice(worked.elements) else None


def _twice(elements: tuple[Element, ...]) -> int:
    """Stitches in a place that the stitch before went into, though they are not worked as a group."""
    return sum(
        1
        for one, other in pairwise(elements)
        if one.into and one.into == other.into and not (one.group and one.group == other.group)
    )


def _as_worked(habits: Habit, worked: WorkedRow) -> Habit:
    """Habits with what the row's own turning chain was taken for."""
    first = worked.elements[0] if worked.elements else None
    if first is None or not (first.turning or first.kind == HIDDEN):
        return habits
    counts = ("none",) if first.kind == HIDDEN else ("st", first.kind, 0)
    return {**habits, ("chain", first.chains): counts}


def _placed(placed: Placed, outcome: Outcome) -> Placed:
    worked = replace(
        placed.worked, elements=outcome.elements, steps=outcome.steps, below=outcome.below,
        turned=outcome.turned, landing=landing_of(outcome.below, outcome.elements),
    )  # fmt: skip
    return replace(placed, worked=worked)


def _rest(fabric: Fabric, stretch: Stretch, first: int, start: int) -> list[Stretch]:
    """The rows of a stretch from an index on, as they were."""
    length = len(stretch.rows)
    end = first + stretch.length
    if start >= end:
        return []
    whole = -(-(start - first) // length)
    head = [fabric.row(k) for k in range(start, min(end, first + whole * length))]
    out = [Stretch(tuple(head))] if head else []
    if (times := stretch.times - whole) > 0:
        rows = tuple(fabric.row(first + whole * length + k) for k in range(length))
        out.append(Stretch(rows, times, stretch.step))
    return out
