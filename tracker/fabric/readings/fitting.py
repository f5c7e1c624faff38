"""Doubt settled by arithmetic: the readings of one row that fit best.

Each doubt a row raises is tried both ways, one or a few at a time; what costs least (problems, counts that differ)
comes first. Readings that cost the same and leave other stitches standing are rivals, and go on side by side until
a later count decides.
"""

from tracker.fabric.readings.habits import Habit
from tracker.fabric.rows.outcome import Outcome, work_row
from tracker.fabric.standing import Standing
from tracker.fabric.working.hook import Choice, Ground
from tracker.notation.pattern import Row

MAX_TRIES = 40
"""Readings tried for one row."""
MOST_MADE = 15_000
"""Elements made in trying a row: what is that wide is not tried in every way."""
RIVALS = 3
"""Readings kept beside the best."""


_UNLIKE_BEFORE = 2.0
"""What it costs to take a turning chain otherwise than in an earlier row."""
_UNLIKE_PROVED = 25.0
"""The same where the count of that row proved it: dearer than the faults of one slip, which it would hide."""


def weigh(outcome: Outcome, habits: Habit) -> float:
    """What a reading costs: problems weigh most, then unusual choices a little."""
    # several names of one count that differ are one slip and little more
    cost = 8.0 + 2.0 * len(outcome.wrong) if outcome.wrong else 0.0
    remarked: set[tuple[str, int]] = set()
    for fault in outcome.found:
        if fault.weight <= 1:
            # the same remark on every pass of a repeat is one remark
            if (fault.code, fault.span.start) in remarked:
                continue
            remarked.add((fault.code, fault.span.start))
        cost += fault.weight
    for key, choice in outcome.choices.items():
        options = outcome.asked.get(key)
        if options and choice in options:
            if key == "names differ" and choice:
                cost += 3
            turning = isinstance(key, tuple) and key[0] == "turn"
            if choice != habits.get(key, options[0]) and ("known", key) in habits:
                cost += _UNLIKE_PROVED
            if turning and _against_what_was_said(key, choice, habits):
                cost += _UNLIKE_PROVED
            elif turning and habits.get(key, choice) != choice:
                cost += _UNLIKE_PROVED if ("proved", key) in habits else _UNLIKE_BEFORE
            cost += (0.03 if turning else 0.01) * options.index(choice)
    if not outcome.understood:
        cost *= 0.2
    return cost


def _cost(row: Row, outcome: Outcome, habits: Habit) -> float:
    """What a reading of a row costs; words that could not be read prove nothing, whatever comes of the others."""
    return 0.0 if row.unread else weigh(outcome, habits)


def _against_what_was_said(key: object, choice: Choice, habits: Habit) -> bool:
    """True when an earlier row says that such a chain counts and this reading that it does not, or the other way.

    Where it was said for all rows, also when they differ in the stitch that it counts as.
    """
    assert isinstance(key, tuple)
    said = habits.get(("chain", key[1]))
    if not isinstance(said, tuple) or not isinstance(choice, tuple):
        return False
    if said[0] == choice[0] == "st" and said[1] and ("chain stated", key[1]) in habits:
        return said[1] != choice[1]
    return (said[0] == "none") != (choice[0] == "none")


def readings(
    row: Row, standing: Standing, ground: Ground, habits: Habit, first_of_part: bool
) -> list[Outcome]:
    """The best reading, and its rivals, best first."""
    first = work_row(row, standing, ground, {}, habits, first_of_part)
    first.cost = _cost(row, first, habits)
    open_doubts = [key for key in first.asked if isinstance(key, tuple) and key[0] in ("turn", "first row")]
    if first.cost < 1 and (not first.asked or (row.stated and not open_doubts)):
        return [first]
    tried: dict[frozenset[tuple[object, Choice]], Outcome] = {frozenset(): first}
    queue: list[dict[object, Choice]] = [{}]
    spent = len(first.elements)
    while queue and len(tried) < MAX_TRIES and spent < MOST_MADE:
        base = queue.pop(0)
        outcome = tried[frozenset(base.items())]
        if len(base) >= 3:
            continue
        for key, options in outcome.asked.items():
            if key in base:
                continue
            for option in options:
                current = {**habits, **base}.get(key, options[0])
                if option == current:
                    continue
                choices = {**base, key: option}
                mark = frozenset(choices.items())
                if mark in tried or len(tried) >= MAX_TRIES or spent > MOST_MADE:
                    continue
                tried[mark] = other = work_row(row, standing, ground, choices, habits, first_of_part)
                other.cost = _cost(row, other, habits)
                spent += len(other.elements)
                queue.append(choices)
        queue.sort(key=lambda c: tried[frozenset(c.items())].cost)
        if min(o.cost for o in tried.values()) < 1 and first.cost < 1 and len(tried) > 12:
            break
    ranked = sorted(tried.values(), key=lambda o: o.cost)
    best = ranked[0]
    out = [best]
    seen = {best.elements}
    for other in ranked[1:]:
        if len(out) > RIVALS:
            break
        if other.cost - best.cost < 1 and other.elements not in seen:
            out.append(other)
            seen.add(other.elements)
    return out
