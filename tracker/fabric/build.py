"""A pattern into its fabric, with everything that is wrong with it.

A Pattern comes in; a Fabric and problems come out, never an exception. Each row is worked once for each surface it
meets: what it made is remembered, so that rows repeated ten thousand times cost as much as once.
"""

from collections.abc import Hashable
from dataclasses import dataclass, replace

from tracker.fabric.model import HIDDEN, Element, Fabric, Placed, Stretch, WorkedRow
from tracker.fabric.plan import Loop, Plan, Unit, plan_of
from tracker.fabric.readings import readings
from tracker.fabric.report import problems_of
from tracker.fabric.rowwork import Habit, Outcome, landing_of
from tracker.fabric.standing import Standing, chain_of, ring
from tracker.fabric.worker import Choice, Ground
from tracker.notation.tree import (
    ANY,
    Chain,
    Edge,
    Group,
    Item,
    Join,
    Pattern,
    Repeat,
    Row,
    Say,
    Setup,
    Stated,
    Turn,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.problems import Label, Problem, Severity
from tracker.trade.stitches import STITCHES, parts_of

BEAM = 4
"""Rival surfaces carried forward."""


@dataclass(slots=True)
class Record:
    """A row worked in one history."""

    unit: Unit
    outcome: Outcome
    sure: bool
    """True when what it was worked onto is known."""
    understood: bool
    side: str | None


@dataclass(slots=True)
class State:
    """One reading of the pattern so far."""

    standing: Standing
    habits: Habit
    cost: float
    history: tuple["Record | _Looped | None", "State | None"]
    sure: bool = True
    rs: bool | None = None
    plain: str = "sc"
    earlier: tuple[tuple[int, tuple[Element, ...]], ...] = ()


@dataclass(slots=True)
class _Looped:
    records: list[Record]
    times: int


def build(pattern: Pattern) -> tuple[Fabric, tuple[Problem, ...]]:
    """The fabric of a pattern and its problems, in the order of the rows."""
    plan = plan_of(pattern)
    builder = _Builder(pattern, plan)
    states = builder.run()
    return builder.finish(states[0])


class _Builder:
    def __init__(self, pattern: Pattern, plan: Plan) -> None:
        self.pattern = pattern
        self.plan = plan
        self.specials = {special.name: special for special in pattern.specials}
        self.memo: dict[Hashable, list[Outcome]] = {}
        self.tiles = any(s.name in ("tile", "block") for s in pattern.specials)

    def run(self) -> list[State]:
        states = [State(Standing(), self._first_habits(), 0.0, (None, None))]
        for unit in self.plan.units:
            if isinstance(unit, Setup):
                states = [self._set_up(state, unit) for state in states]
            elif isinstance(unit, Unit):
                states = self._advance(states, unit)
            elif isinstance(unit, Loop):
                states = self._loop(states, unit)
        return states

    def _first_habits(self) -> Habit:
        habits: Habit = {}
        for chains, turning in self.pattern.habits.turning:
            self._learn(habits, chains, turning)
        return habits

    def _learn(self, habits: Habit, chains: int | str, turning: Turning) -> None:
        choice: Choice = ("st", turning.as_stitch or "", turning.space) if turning.counts else ("none",)
        habits[("chain", chains)] = choice
        if turning.throughout:
            habits[("chain stated", chains)] = True

    def _set_up(self, state: State, setup: Setup) -> State:
        standing = state.standing
        items = [i for i in setup.items if not isinstance(i, (Say, Turning))]
        found: Standing | None = None
        for k, item in enumerate(items):
            if isinstance(item, Chain):
                found = chain_of(item.count)
            elif isinstance(item, Join):
                if item.stitch == "magic" or found is None or len(found.elements) < 10 or item.where is not None and item.where.which is Which.RING and len(found.elements) < 12:
                    found = ring()
                else:
                    found = replace(found, kind="round")
            elif (
                isinstance(item, Work)
                and item.stitch == "slst"
                and found is not None
                and item.where.which in (Which.FIRST, Which.NEXT, Which.NTH, Which.FROM_HOOK, Which.STRAIGHT)
            ):
                found = ring() if len(found.elements) < 12 else replace(found, kind="round")
            elif isinstance(item, Work) and item.stitch in ("fsc", "fhdc", "fdc", "ftr"):
                found = Standing((Element(item.stitch),) * min(item.count, 10_000), "row", turned=None)
            del k
        if found is None:
            return state
        del standing
        return State(
            found, dict(state.habits), state.cost, state.history, True, None, state.plain, state.earlier
        )

    # -- rows

    def _advance(self, states: list[State], unit: Unit) -> list[State]:
        out: list[State] = []
        for state in states:
            for outcome in self._readings(state, unit):
                after = self._next(state, unit, outcome)
                out.append(after)
                if outcome.wrong and outcome.understood and state.sure:
                    told = _from_stated(self._told(unit).stated)
                    if told is not None and len(told) != len(after.standing.elements):
                        # either the count or the words are wrong: later rows tell which
                        out.append(
                            replace(
                                after, standing=replace(after.standing, elements=told), cost=after.cost + 0.5
                            )
                        )
        return _best(out)

    def _key(self, state: State, unit: Unit) -> Hashable:
        standing = state.standing
        return (
            id(unit.row), id(unit.extra), unit.last_of_range, unit.first, standing.elements, standing.kind, standing.turned, len(standing.base), standing.left,
            tuple(sorted(map(repr, state.habits.items()))), state.sure, state.plain,
            standing.rows if _uses_ends(unit.row.items) else 0,
        )  # fmt: skip

    def _readings(self, state: State, unit: Unit) -> list[Outcome]:
        key = self._key(state, unit)
        found = self.memo.get(key)
        if found is None:
            earlier = dict(state.earlier)
            ground = Ground(
                self.specials,
                plain=state.plain,
                earlier=earlier,
                tiles=self.tiles,
                last_number=state.earlier[-1][0] if state.earlier else 0,
            )
            row = self._told(unit)
            found = readings(row, state.standing, ground, state.habits, unit.first, bool(row.stated))
            self.memo[key] = found
        return found

    def _told(self, unit: Unit) -> Row:
        """The row with the counts that hold for it this time."""
        row = unit.row
        stated = row.stated
        if unit.extra is not None:
            own = unit.extra.stated if unit.last_of_range else ()
            stated = own
        elif len(row.numbers) > 1 and not unit.last_of_range and row.rerun is None:
            stated = stated if self._steady(row) else ()
        if unit.extra is not None and unit.extra.unread and unit.extra.rerun is not None:
            row = replace(row, unread=True)
        return row if stated is row.stated else replace(row, stated=stated)

    def _steady(self, row: Row) -> bool:
        """True when a repeated row keeps its count, so that what is stated for one time holds for all."""
        return _keeps(row.items, self.specials)

    def _next(self, state: State, unit: Unit, outcome: Outcome) -> State:
        row = unit.row
        habits = state.habits
        learned = self._learned(habits, row, outcome)
        understood = outcome.understood
        hard = any(fault.weight >= 5 for fault in outcome.found)
        agree = bool(row.stated) and not outcome.wrong and understood and not hard
        sure = state.sure
        standing = outcome.standing
        cost = outcome.cost
        if not state.sure:
            # worked onto something that is not known: only a count that agrees can be claimed
            full = agree and _covers(self._told(unit).stated, outcome.elements)
            understood = understood and full
            cost *= 0.1
            sure = full
        elif not outcome.understood:
            told = _from_stated(self._told(unit).stated)
            matches = bool(self._told(unit).stated) and not _differs(
                self._told(unit).stated, outcome.elements
            )
            if matches and outcome.elements:
                sure = True
            elif told is not None:
                standing, sure = replace(standing, elements=told), True
            else:
                sure = False
        elif hard:
            told = _from_stated(self._told(unit).stated)
            understood = False
            sure = False
            if told is not None and outcome.wrong:
                standing = replace(standing, elements=told)
        elif outcome.wrong:
            understood = sure = False
        turned = outcome.turned
        standing = replace(standing, rows=state.standing.rows + (1 if row.kind == "row" else 0))
        rs: bool | None = state.rs
        side = unit.side or row.side if unit.extra is None else unit.side
        if side is not None:
            rs = side == "RS"
        elif rs is not None and row.kind == "row":
            rs = (not rs) if turned else rs
        elif rs is not None and turned:
            rs = not rs
        shown_side = None if rs is None else ("RS" if rs else "WS")
        if not standing.elements and outcome.understood and not outcome.elements:
            standing = replace(
                standing,
                elements=state.standing.elements,
                kind=state.standing.kind if state.standing.kind in ("row", "round") else standing.kind,
            )
        earlier = state.earlier
        if unit.number is not None:
            earlier = (*earlier[-40:], (unit.number, outcome.elements))
        plain = state.plain
        for element in outcome.elements:
            if element.kind in ("sc", "hdc", "dc", "tr") and not element.turning:
                plain = element.kind
                break
        record = Record(unit, outcome, state.sure, understood, shown_side)
        return State(standing, learned, state.cost + cost, (record, state), sure, rs, plain, earlier)

    def _learned(self, habits: Habit, row: Row, outcome: Outcome) -> Habit:
        """Habits with what this row says or proves."""
        new: Habit | None = None
        chain: Chain | None = None
        for item in row.items:
            if isinstance(item, Chain) and chain is None:
                chain = item
            elif isinstance(item, Turning) and chain is not None:
                new = dict(habits) if new is None else new
                self._contradiction(habits, row, chain.count, item)
                self._learn(new, chain.count, item)
                break
            elif isinstance(item, (Work, Group, Repeat)):
                break
        for key in outcome.asked:
            if isinstance(key, tuple) and key[0] in ("turn",) and key not in habits:
                chosen = outcome.choices.get(key)
                if chosen is not None:
                    new = dict(habits) if new is None else new
                    new[key] = chosen
        return habits if new is None else new

    def _contradiction(self, habits: Habit, row: Row, chains: int, turning: Turning) -> None:
        """Reports a turning chain that counts here and is said elsewhere not to, for all rows; or the other way."""
        for key in (chains, ""):
            known = habits.get(("chain", key))
            if (
                isinstance(known, tuple)
                and habits.get(("chain stated", key))
                and (known[0] == "none") == turning.counts
            ):
                says, said = ("counts", "does not count") if turning.counts else ("does not count", "counts")
                problem = Problem(
                    "C209", Severity.ERROR, f"{row.label} says that the chain {chains} {says}, and earlier it {said}, for all rows",
                    Label(turning.span, "the other way before"), row.label, None, row.part, "Find out which is meant, and say it once.",
                )  # fmt: skip
                if problem not in self.plan.problems:
                    self.plan.problems.append(problem)

    def _loop(self, states: list[State], loop: Loop) -> list[State]:
        """Rows worked very often: one pass, then the rest of them at once when the surface is the same again."""
        state = states[0]
        for _ in range(3):
            before = state
            for unit in loop.units:
                state = self._advance([state], unit)[0]
            if (
                state.standing.elements == before.standing.elements
                and state.standing.kind == before.standing.kind
            ):
                break
            if not state.sure:
                break
        records: list[Record] = []
        walk: State | None = state
        while walk is not None and len(records) < len(loop.units):
            record = walk.history[0]
            if isinstance(record, Record):
                records.append(record)
            walk = walk.history[1]
        records.reverse()
        looped = _Looped(records, loop.times)
        standing = replace(state.standing, rows=states[0].standing.rows + len(loop.units) * loop.times)
        return [
            State(
                standing,
                state.habits,
                state.cost,
                (looped, states[0]),
                state.sure,
                state.rs,
                state.plain,
                state.earlier,
            )
        ]

    # -- finishing

    def finish(self, state: State) -> tuple[Fabric, tuple[Problem, ...]]:
        chain: list[Record | _Looped] = []
        walk: State | None = state
        while walk is not None:
            if walk.history[0] is not None:
                chain.append(walk.history[0])
            walk = walk.history[1]
        chain.reverse()
        stretches: list[Stretch] = []
        pending: list[Placed] = []
        problems: list[Problem] = list(self.plan.problems)
        seen: set[tuple[object, ...]] = set()
        index = 0
        for entry in chain:
            if isinstance(entry, _Looped):
                if pending:
                    stretches.append(Stretch(tuple(pending)))
                    pending = []
                rows = []
                for record in entry.records:
                    index += 1
                    rows.append(self._placed(record))
                    problems.extend(problems_of(record, index, self.pattern, seen))
                index += len(rows) * (entry.times - 1)
                stretches.append(Stretch(tuple(rows), entry.times, len(rows)))
                continue
            index += 1
            pending.append(self._placed(entry))
            problems.extend(problems_of(entry, index, self.pattern, seen))
        if pending:
            stretches.append(Stretch(tuple(pending)))
        return Fabric(tuple(stretches), self.plan.open_ended), tuple(problems)

    def _placed(self, record: Record) -> Placed:
        outcome, unit = record.outcome, record.unit
        worked = WorkedRow(
            unit.row, outcome.elements, outcome.steps, outcome.below, record.side, record.understood, outcome.turned,
            landing=landing_of(outcome.below, outcome.steps, outcome.elements),
        )  # fmt: skip
        return Placed(
            worked, unit.number, unit.kind, unit.part, unit.as_number, unit.printed, unit.label_span
        )


def _best(states: list[State]) -> list[State]:
    """The cheapest states that differ in what stands, at most BEAM of them."""
    states.sort(key=lambda s: s.cost)
    out: list[State] = []
    for state in states:
        if out and state.cost > out[0].cost + 12:
            break
        if any(state.standing == other.standing and state.habits == other.habits for other in out):
            continue
        out.append(state)
        if len(out) >= BEAM:
            break
    return out


def _uses_ends(items: tuple[Item, ...]) -> bool:
    for item in items:
        if isinstance(item, (Work, Group)) and item.where.which is Which.ROW_END:
            return True
        if isinstance(item, (Group, Repeat)) and _uses_ends(item.items):
            return True
        if isinstance(item, Edge):
            return True
    return False


def _keeps(items: tuple[Item, ...], specials: dict[str, object]) -> bool:
    """True when nothing among the items adds or takes stitches: plain ones, one in each."""
    for item in items:
        if isinstance(item, Work):
            if (
                item.stitch in specials
                or item.count != 1
                and item.where.which is not Which.STRAIGHT
                or parts_of(item.stitch)[2] > 1
                or item.where.which is Which.SAME
            ):
                return False
        elif isinstance(item, Repeat):
            if not _keeps(item.items, specials):
                return False
        elif isinstance(item, Group):
            return False
    return True


def _from_stated(stated: tuple[Stated, ...]) -> tuple[Element, ...] | None:
    """Elements as a stated count lists them, when it lists one kind of stitch; None otherwise."""
    for count in stated:
        if count.change or count.partial or len(count.counts) != 1:
            continue
        name, number = count.counts[0]
        kind = "sc" if name in ("", ANY) else name
        if (parts_of(kind)[1] in STITCHES or kind in STITCHES) and number <= 10_000:
            return (Element(kind),) * number
    return None


def _covers(stated: tuple[Stated, ...], elements: tuple[Element, ...]) -> bool:
    """True when stated counts name everything that stands on a row."""
    names = {e.name for e in elements if e.kind != HIDDEN}
    for count in stated:
        told = {name for name, _ in count.counts}
        if names <= told or (len(names) == 1 and told & {"", ANY}):
            return True
    return False


def _differs(stated: tuple[Stated, ...], elements: tuple[Element, ...]) -> bool:
    from tracker.fabric.counts import differs

    return any(differs(count, elements, None) for count in stated)


__all__ = ["Turn", "Where", "build"]
