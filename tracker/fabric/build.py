"""A pattern into its fabric, with everything that is wrong with it.

A Pattern comes in; a Fabric and problems come out, never an exception. Each row is worked once for each surface it
meets: what it made is remembered, so that rows repeated ten thousand times cost as much as once.
"""

from collections.abc import Hashable

from tracker.fabric.checks.contradictions import contradictions
from tracker.fabric.finished import finished
from tracker.fabric.model import CH, SP, Fabric
from tracker.fabric.plan.going_on import even_row
from tracker.fabric.plan.planner import plan_of
from tracker.fabric.plan.units import Loop, Plan, Unit, Until
from tracker.fabric.plan.wordings import Alike, Wordings
from tracker.fabric.readings.fitting import readings
from tracker.fabric.readings.habits import Habit, first_habits, learned, that_bear_on, to_prove
from tracker.fabric.readings.history import (
    WIDE,
    Looped,
    Record,
    State,
    behind_unread,
    best,
    goes_on_well,
    knows,
    likeliest,
    on_another_piece,
    plain_of,
    right_side,
)
from tracker.fabric.rows.beginning import begun_afresh
from tracker.fabric.rows.outcome import Outcome
from tracker.fabric.rows.own_chain.ring import starts_from_ring, turned_into_loops
from tracker.fabric.rows.told.until import until
from tracker.fabric.standing import Standing, set_up
from tracker.fabric.stated import (
    agrees,
    below_told,
    covers,
    from_stated,
    has_chains,
    holds_words,
    keeps,
    names_rows,
    not_the_last,
    ordered_by,
    posts_named,
    spread_told,
    uses_ends,
)
from tracker.fabric.working.hook import Ground
from tracker.notation.pattern import Pattern, Row, Setup
from tracker.problems import Problem
from tracker.records import replace

_MOST_WIDE = 60_000
"""Elements of rows wider than any piece that are worked into in one pattern; the rest is followed as written."""
_REMEMBERED = 40
"""Earlier rows that a row may go back into."""


def build(pattern: Pattern) -> tuple[Fabric, tuple[Problem, ...]]:
    """The fabric of a pattern and its problems, in the order of the rows."""
    plan = plan_of(pattern)
    builder = _Builder(pattern, plan)
    return finished(builder.run(), builder.wordings, plan, pattern)


class _Builder:
    """Works the rows of a plan, one after another, in the readings that fit best."""

    def __init__(self, pattern: Pattern, plan: Plan) -> None:
        self.pattern = pattern
        self.plan = plan
        self.specials = {special.name: special for special in pattern.specials}
        self.copies = dict(pattern.parts)
        self.wordings = Wordings(block for block in pattern.blocks if isinstance(block, Row))
        self.memo: dict[Hashable, list[Outcome]] = {}
        """Readings by wording and surface."""
        self.wide = 0
        """Elements of the rows too wide for any piece that were worked into so far."""
        self.even: dict[int, Row] = {}
        """Rows worked even or left unread, by identity of what tells of them: negative for those left unread."""
        self.further = 0
        """Rows worked for a count, which the plan could not number; rows without a number come after them."""
        self.surfaces = Alike()
        self.bearing: dict[tuple[int, int], tuple[Habit, Hashable, bool]] = {}
        """By identity of habits and wording: the habits (so that they live on), those of them that bear on it, and
        whether it contradicts them."""
        self.needed: dict[int, tuple[Row, tuple[bool, bool, bool, frozenset[str]]]] = {}
        """By identity of a wording: itself (so that it lives on), and what `_needed` says of it."""

    def run(self) -> State:
        """The best reading of the whole."""
        states = [State(Standing(), first_habits(self.pattern), 0.0)]
        for unit in self.plan.units:
            if isinstance(unit, Setup):
                states = [self._set_up(state, unit) for state in states]
            elif isinstance(unit, Unit):
                states = self._advance(states, self._numbered(unit))
            elif isinstance(unit, Until):
                states, worked = until(states, unit, self._advance, self.plan)
                self.further += worked
            elif isinstance(unit, Loop):
                states = [self._loop(states[0], unit)]
        return likeliest(states)

    def _set_up(self, state: State, setup: Setup) -> State:
        """The foundation of a part in place of what stood before."""
        found = set_up(setup.items)
        if found is None:
            return state
        return replace(state, standing=found, record=None, before=state, sure=True, rs=None)

    def _numbered(self, unit: Unit) -> Unit:
        """A unit with its number put right after rows that the plan could not count."""
        if unit.first or (unit.extra or unit.row).numbers:
            self.further = 0
        if not self.further or unit.number is None:
            return unit
        return replace(unit, number=unit.number + self.further)

    def _advance(self, states: list[State], unit: Unit) -> list[State]:
        """Every reading with one row more; the best of them."""
        out: list[State] = []
        for state in states:
            anew = unit.first and state.standing.kind in ("row", "round")
            if (
                anew
                and starts_from_ring(unit.row.items)
                and not turned_into_loops(unit.row.items, state.standing)
            ):
                # a new part on a ring of its own: nothing of the part before is worked or left
                state = replace(state, standing=Standing(), sure=True, rs=None)
            elif unit.first and on_another_piece(state, unit, self.copies):
                state = replace(state, standing=Standing(), rs=None)
            below = below_told(self._told(unit)) if not state.sure and behind_unread(state) else None
            if below is not None and state.standing.kind in ("row", "round"):
                # behind a row that could not be read, a count tells what it made
                state = replace(state, standing=replace(state.standing, elements=below))
            for outcome in self._as_set(state, unit, self._readings(state, unit)):
                after = self._next(state, unit, outcome)
                out.append(after)
                if outcome.wrong and outcome.understood and state.sure:
                    told = from_stated(self._told(unit).stated)
                    if told is not None and len(told) != len(after.standing.elements):
                        # either the count or the words are wrong: later rows tell which
                        out.append(
                            replace(
                                after, standing=replace(after.standing, elements=told), cost=after.cost + 0.5
                            )
                        )
        return best(out)

    def _key(self, state: State, unit: Unit) -> Hashable:
        """What the readings of a row depend on."""
        standing = state.standing
        wording = self.wordings.of(unit.row)
        ends, afresh, named, posts = self._needed(wording)
        named = named or bool(posts) and posts.isdisjoint(e.kind for e in standing.elements)
        return (
            id(wording),
            id(unit.extra),
            unit.last_of_range,
            unit.first,
            self.surfaces.number(standing.elements),
            standing.kind,
            standing.turned,
            len(standing.base),
            self.surfaces.number(standing.left),
            standing.left_by,
            standing.left_ahead,
            standing.marks,
            self._bearing(state.habits, wording)[1],
            state.sure,
            state.plain,
            standing.rows if ends else 0,
            standing.rs if afresh else None,
            standing.along,
            state.earlier if named else None,
        )

    def _needed(self, wording: Row) -> tuple[bool, bool, bool, frozenset[str]]:
        """Whether a row depends on how many row ends there are, on the side that faces, on rows by their numbers; the
        post stitches it goes around."""
        found = self.needed.get(id(wording))
        if found is None:
            items = wording.items
            needs = uses_ends(items), begun_afresh(wording), names_rows(items), posts_named(items)
            found = self.needed[id(wording)] = (wording, needs)
        return found[1]

    def _bearing(self, habits: Habit, wording: Row) -> tuple[Habit, Hashable, bool]:
        """The habits that matter to a row, and whether it contradicts them."""
        found = self.bearing.get((id(habits), id(wording)))
        if found is None:
            bear = tuple(sorted(map(repr, that_bear_on(habits, wording))))
            found = (habits, bear, any(contradictions(habits, wording)))
            self.bearing[id(habits), id(wording)] = found
        return found

    def _readings(self, state: State, unit: Unit) -> list[Outcome]:
        """The best readings of a row onto what stands."""
        key = self._key(state, unit)
        found = self.memo.get(key)
        if found is None:
            ground = Ground(
                self.specials,
                plain=state.plain,
                earlier=dict(state.earlier),
                last_number=state.earlier[-1][0] if state.earlier else 0,
                again=unit.extra is not None or unit.row.again,
            )
            standing = state.standing
            if self.pattern.habits.turns is False and standing.turned is None:
                standing = replace(standing, turned=False)
            both_round = unit.row.kind == standing.kind == "round"
            if self.pattern.habits.rounds_turned and both_round and standing.turned is None:
                standing = replace(standing, turned=True)
            told = self._told(unit)
            width = len(standing.elements) + len(standing.left)
            if width > WIDE:
                self.wide += width
                if self.wide > _MOST_WIDE:
                    told = replace(told, unread=True, items=())
            found = readings(told, standing, ground, state.habits, unit.first)
            self.memo[key] = found
        return found

    def _as_set(self, state: State, unit: Unit, found: list[Outcome]) -> list[Outcome]:
        """The readings of a row that goes on as set: only where the pattern fits what stands; else it is worked even.

        Where neither can be, the row is not understood: what the pattern is was a guess, and no fault of the writer's.
        """
        if not unit.cycle or goes_on_well(state, unit, found[0]):
            return found
        extra = unit.extra or unit.row
        plain = not any(e.kind in (SP, CH) for e in state.standing.elements)
        told = self.even.setdefault(id(extra), even_row(extra))
        if not plain or extra.rerun is None or extra.rerun.as_set != "even":
            told = self.even.setdefault(-id(extra), replace(told, unread=True, items=()))
        return self._readings(state, replace(unit, row=told, as_number=None))

    def _told(self, unit: Unit) -> Row:
        """The row's words with the counts that hold for them this time."""
        row = self.wordings.of(unit.row)
        stated = row.stated
        if unit.extra is not None:
            stated = unit.extra.stated if unit.last_of_range else ()
            if (more := ordered_by(unit.extra)) and (unit.last_of_range or not unit.extra.stated):
                # a count of the last of them bears out the others too
                row = replace(row, orders=(*row.orders, *more))
            if unit.extra.unread and unit.extra.rerun is not None:
                row = replace(row, unread=True)
        elif len(row.numbers) > 1 and not unit.last_of_range and row.rerun is None:
            # what is stated for one time holds for all when the row keeps its count
            stated = stated if keeps(row.items, self.specials) else ()
            row = not_the_last(row)
        return row if stated is row.stated else replace(row, stated=stated)

    def _next(self, state: State, unit: Unit, outcome: Outcome) -> State:
        """A reading with one row more."""
        row = unit.row
        wording = self.wordings.of(row)
        if unit.extra is None and self._bearing(state.habits, wording)[2]:
            # a row worked again says nothing new
            for problem in contradictions(state.habits, row):
                if problem not in self.plan.problems:
                    self.plan.problems.append(problem)
        known_below = knows(state, unit)
        standing, sure, understood = self._believed(state, unit, outcome, known_below)
        if unit.extra is not None and row.span.start in state.doubted and not self._told(unit).stated:
            # its count was not borne out when it was first worked, and is not told anew
            sure = False
        # a row that makes nothing is never claimed
        understood = understood and bool(outcome.elements) and unit.row.span.start not in state.doubted
        # nor is one worked even in place of words that could not be read
        understood = understood and not row.unread
        doubted = state.doubted
        if outcome.wrong or any(fault.weight >= 5 for fault in outcome.found):
            doubted |= {unit.row.span.start}
        standing = replace(
            standing, rows=state.standing.rows + (1 if row.kind == "row" and not standing.along else 0)
        )
        if not standing.elements and outcome.understood and not outcome.elements:
            # a row that makes nothing, such as a remark with a number, leaves what stood
            kept = state.standing
            kind = kept.kind if kept.kind in ("row", "round") else standing.kind
            standing = replace(standing, elements=kept.elements, kind=kind)
        earlier = state.earlier
        if unit.number is not None:
            earlier = (*earlier[-_REMEMBERED:], (unit.number, outcome.elements))
        rs = right_side(state, unit, outcome.turned)
        side = None if rs is None else ("RS" if rs else "WS")
        return State(
            standing,
            learned(
                state.habits,
                wording,
                outcome.asked,
                outcome.choices,
                to_prove(state.habits, outcome.asked) and agrees(self._told(unit).stated, outcome.elements),
            ),
            # what is worked onto something unknown proves little, and the later that begins the better
            state.cost + (outcome.cost if known_below else outcome.cost * 0.1 + 0.3),
            Record(unit, outcome, known_below, understood, side),
            state,
            sure,
            rs,
            plain_of(outcome, state.plain),
            doubted,
            earlier,
        )

    def _believed(
        self, state: State, unit: Unit, outcome: Outcome, known_below: bool
    ) -> tuple[Standing, bool, bool]:
        """What stands after a row, whether that is known, and whether the row may be claimed."""
        stated = self._told(unit).stated
        standing = outcome.standing
        hard = any(fault.weight >= 5 for fault in outcome.found)
        told = from_stated(stated)
        if not known_below:
            # worked onto something that is not known: only a count that agrees can be claimed
            sure = (
                bool(unit.row.stated)
                and not outcome.wrong
                and outcome.understood
                and not hard
                and covers(stated, outcome.elements)
            )
            if (
                not sure
                and told is not None
                and unit.kind == "round"
                and (not outcome.understood or holds_words(unit.row.items))
                and not any(e.kind in (SP, CH) for e in state.standing.elements)
                and not has_chains(unit.row.items)
            ):
                # whatever went before, a round of plain stitches says what stands on it
                return replace(standing, elements=told, bare=True), True, False
            if not sure and not outcome.understood and (mixed := spread_told(stated, outcome.elements)):
                standing = replace(standing, elements=mixed)
            return standing, sure, outcome.understood and sure
        if not outcome.understood:
            stitches = tuple(element for element in outcome.elements if element.kind != SP)
            named = covers(stated, stitches) or told is None
            # a count of one side alone bears nothing out
            whole = any(not count.partial for count in stated)
            if outcome.elements and named and whole and agrees(stated, outcome.elements):
                return standing, True, False
            if told is not None:
                return replace(standing, elements=told, bare=True), True, False
            mixed = spread_told(stated, outcome.elements)
            if mixed is not None and not agrees(stated, outcome.elements):
                standing = replace(standing, elements=mixed)
            return standing, False, False
        if hard:
            if told is not None and outcome.wrong:
                standing = replace(standing, elements=told, bare=True)
            known = holds_words(unit.row.items) and told is not None and bool(outcome.wrong)
            return standing, known, False
        return standing, not outcome.wrong, not outcome.wrong

    def _loop(self, begun: State, loop: Loop) -> State:
        """Rows worked very often: one pass, then the rest of them at once when the surface is the same again."""
        state = begun
        for _ in range(3):
            before = state
            for unit in loop.units:
                state = self._advance([state], unit)[0]
            same = (
                state.standing.elements == before.standing.elements
                and state.standing.kind == before.standing.kind
            )
            if same or not state.sure:
                break
        records: list[Record] = []
        walk: State | None = state
        while walk is not None and len(records) < len(loop.units):
            if isinstance(walk.record, Record):
                records.append(walk.record)
            walk = walk.before
        records.reverse()
        standing = replace(state.standing, rows=begun.standing.rows + len(loop.units) * loop.times)
        return replace(state, standing=standing, record=Looped(records, loop.times), before=begun)
