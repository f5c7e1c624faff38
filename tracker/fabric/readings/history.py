"""Readings of a pattern, row upon row: what stands, what was learned, and how it came about."""

from collections.abc import Mapping

from tracker.fabric.model import HIDDEN, Element
from tracker.fabric.plan.units import Unit
from tracker.fabric.readings.habits import Habit
from tracker.fabric.rows.beginning import begins_elsewhere, begun_afresh
from tracker.fabric.rows.outcome import Outcome
from tracker.fabric.rows.own_chain.ring import starts_from_ring
from tracker.fabric.standing import Standing
from tracker.fabric.stated import names_shapes
from tracker.notation.pattern import Row
from tracker.notation.tree import Say, Skip, Travel, Turn
from tracker.records import dataclass

BEAM = 4
"""Rival readings carried forward."""
MARGIN = 12
"""A reading that costs so much more than the cheapest is given up."""


@dataclass(slots=True)
class Record:
    """A row worked in one history."""

    unit: Unit
    outcome: Outcome
    sure: bool
    """True when what it was worked onto is known."""
    understood: bool
    side: str | None
    """"RS", "WS", or None when it is not known."""


@dataclass(slots=True)
class Looped:
    """Rows worked over and over."""

    records: list[Record]
    """One pass."""
    times: int


@dataclass(slots=True)
class State:
    """One reading of the pattern so far."""

    standing: Standing
    habits: Habit
    cost: float
    record: Record | Looped | None = None
    """What was worked last; None at the beginning."""
    before: "State | None" = None
    """The reading it was worked upon; None at the beginning."""
    sure: bool = True
    """True when what stands is known."""
    rs: bool | None = None
    """True when the last row was a right-side row; None when that is not known."""
    plain: str = "sc"
    """The stitch most worked so far, for "work even"."""
    doubted: frozenset[int] = frozenset()
    """Printed rows whose words or counts did not agree when they were worked: not claimed when worked again."""
    earlier: tuple[tuple[int, tuple[Element, ...]], ...] = ()
    """The latest numbered rows with what stood on them."""

    def records(self) -> list[Record | Looped]:
        """Everything worked so far, in order."""
        out: list[Record | Looped] = []
        walk: State | None = self
        while walk is not None:
            if walk.record is not None:
                out.append(walk.record)
            walk = walk.before
        out.reverse()
        return out


WIDE = 1_500
"""Elements of a row beyond which one reading is followed, not several: next to no piece is that wide."""


def best(states: list[State]) -> list[State]:
    """The cheapest readings that differ in what stands, at most BEAM of them."""
    states.sort(key=lambda s: s.cost)
    out: list[State] = []
    for state in states:
        if out and state.cost > out[0].cost + MARGIN:
            break
        if any(state.standing == other.standing and state.habits == other.habits for other in out):
            continue
        out.append(state)
        if len(out) >= BEAM or len(state.standing.elements) > WIDE:
            break
    return out


_ALIKE = 6.0
"""Readings whose costs differ by less are told apart by where they first fail."""


def likeliest(states: list[State]) -> State:
    """The cheapest reading of the whole; of those that cost about as much, the one that goes well the longest.

    A slip of the writer spoils what comes after it: the reading in which everything fits up to one row is likelier
    than one that fails early and happens to fit later.
    """
    cheapest = states[0].cost
    return max((s for s in states if s.cost <= cheapest + _ALIKE), key=lambda s: (_first_fault(s), -s.cost))


def _first_fault(state: State) -> int:
    """How many rows go well before the first that does not."""
    well = 0
    for entry in state.records():
        records = entry.records if isinstance(entry, Looped) else [entry]
        for record in records:
            outcome = record.outcome
            if outcome.understood and (outcome.wrong or any(fault.weight >= 4 for fault in outcome.found)):
                return well
            well += 1
    return well


def goes_on_well(state: State, unit: Unit, outcome: Outcome) -> bool:
    """True when a row of the pattern fits what stands: without a fault, and the piece stays as wide as it was."""
    if outcome.wrong or not outcome.understood or any(fault.weight > 1 for fault in outcome.found):
        return False
    if unit.cycle == 1:
        return _wide(state.standing.elements) == _wide(outcome.elements)
    walk: State | None = state
    for _ in range(unit.cycle - 1):
        walk = walk.before if walk is not None else None
    record = walk.record if walk is not None else None
    if not isinstance(record, Record) or record.unit.row is not unit.row:
        return True
    return _wide(record.outcome.elements) == _wide(outcome.elements)


def _wide(elements: tuple[Element, ...]) -> int:
    """How many stitches and spaces stand on a row."""
    return sum(1 for e in elements if e.kind != HIDDEN)


def right_side(state: State, unit: Unit, turned: bool) -> bool | None:
    """True when a row is worked on the right side; None when that is not known."""
    side = unit.side
    if side is None and (unit.extra is None or begun_afresh(unit.row)):
        side = unit.row.side
    if side is not None:
        return side == "RS"
    if unit.row.kind == "row" and state.standing.left and _taken_up(unit.row):
        return None  # whoever joins yarn to stitches left waiting may hold the work either way
    return state.rs if state.rs is None or not turned else not state.rs


def _taken_up(row: Row) -> bool:
    """True for a row that begins with yarn joined to what was left, and says nothing of turning."""
    items = [item for item in row.items if not isinstance(item, Say | Skip)]
    fresh = bool(items) and isinstance(items[0], Travel) and items[0].fresh
    return fresh and not any(isinstance(item, Turn) for item in items[:3])


def knows(state: State, unit: Unit) -> bool:
    """True when what a row is worked onto is known as far as its words ask."""
    return state.sure and not (
        state.standing.bare and names_shapes(unit.row.items) or _on_nothing_told(state, unit)
    )


def _on_nothing_told(state: State, unit: Unit) -> bool:
    """True for a later row of a pattern of which no foundation and no row before it was found."""
    return (
        state.standing.kind == "none"
        and state.record is None
        and unit.number is not None
        and unit.number > 1
        and not starts_from_ring(unit.row.items)
    )


def plain_of(outcome: Outcome, before: str) -> str:
    """The first plain stitch of a row; the one before where it has none."""
    return next(
        (e.kind for e in outcome.elements if e.kind in ("sc", "hdc", "dc", "tr") and not e.turning), before
    )


def behind_unread(state: State) -> bool:
    """True when what stands is not known because of words that could not be read, and not of a count that differs."""
    walk: State | None = state
    for _ in range(50):
        if walk is None or not isinstance(walk.record, Record):
            return False
        if walk.record.sure:
            return not walk.record.outcome.understood
        walk = walk.before
    return False


def on_another_piece(state: State, unit: Unit, copies: Mapping[str, int]) -> bool:
    """True for a part that begins where yarn was joined, behind one of which several are made: on none of those."""
    record = state.record
    if isinstance(record, Looped):
        record = record.records[-1] if record.records else None
    before = record.unit.row.part if record is not None else None
    several = before is not None and before != unit.row.part and copies.get(before, 1) > 1
    if several and record is not None and unit.number is not None and record.unit.number == unit.number - 1:
        # "SOLE (make 2) … Rnd 2: … HEEL Row 3: …": what is numbered on goes on upon each of them
        return False
    # yarn joined in the row itself is joined to the very pieces, laid one on the other
    joins = any(isinstance(item, Travel) for item in unit.row.items)
    return several and not joins and begins_elsewhere(unit.row.items)
