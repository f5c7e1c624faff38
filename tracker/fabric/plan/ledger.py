"""What has been planned so far: which rows are known by which number, and in what order they were worked."""

from collections.abc import Sequence

from tracker.fabric.plan.units import Loop, Plan, Unit, Until
from tracker.notation.pattern import Row, Setup
from tracker.notation.phrase.other_part import shaping_named
from tracker.notation.rows.before.growing import changes_count
from tracker.notation.tree import AsFar, Leave
from tracker.records import dataclass, field, replace

_FAR = 1_000
"""Numbers that may be missing at one place."""


@dataclass(frozen=True, slots=True)
class Known:
    """What a number stands for."""

    row: Row
    number: int
    """Number of the row whose words it repeats; 0 for a row without one."""
    printed: bool = True
    """False for "Next row", whose number is only counted on."""
    own: int | None = None
    """Its own number; None for a row without one."""
    cycle: int = 0
    """How many rows are worked in turn where the row goes on as set; 0 for others."""
    as_set: str = ""
    """ "even" or "pattern" where the row goes on as set; "" for others."""


@dataclass(slots=True)
class Ledger:
    """The plan as it grows."""

    plan: Plan = field(default_factory=Plan)
    known: dict[tuple[str | None, str], dict[int, Known]] = field(default_factory=dict)
    """By part and kind, then by number."""
    all_known: dict[int, Known] = field(default_factory=dict)
    """By number alone, the latest."""
    named: dict[str, Known] = field(default_factory=dict)
    """By the name rows are called, the latest."""
    setups: dict[str | None, Setup] = field(default_factory=dict)
    """The foundation of each part."""
    done: list[Known] = field(default_factory=list)
    """Rows in the order worked, for "last 2 rows"."""
    part: str | None = None
    last: int | None = None
    """Number of the row before; None before the first of a part."""
    missing: set[int] = field(default_factory=set)
    """Numbers that were jumped over, which is told already where it happens."""
    along: bool = False
    """True behind a row with no number along the ends of others, "Body: work 32 sc along the edge": Row 2 follows."""
    fastened: bool = False
    """True once the yarn was fastened off in the part: another piece of it may begin at an earlier number."""
    second: Row | None = None
    """The row before, where it is a Row 1 right behind another; None where it is not."""
    kind: str = ""
    """Whether the block before was a row, a round or an edging; "" before the first."""
    uncounted: bool = False
    """True behind rows whose number nobody knows, until a number tells how many they were."""
    cycle: tuple[Known, ...] = ()
    """The rows that are the pattern, in turn; empty until something tells."""
    cycle_at: int = 0
    """How many rows were done when the first of them came, or will come."""
    begun: int = 0
    """How many rows were done when the piece in hand was begun."""
    first: bool = True
    """True until a row of the part was planned."""
    entered: list[tuple[str | None, int, int]] = field(default_factory=list)
    """The parts in the order begun, each with how many rows were done and how many units planned before it."""

    def know(self, row: Row, number: int | None, source: int | None = None, printed: bool = True) -> None:
        """Notes that a row is worked; `source` is the number of the row it repeats."""
        known = Known(row, source if source is not None else (number or 0), printed, number)
        if number is not None:
            self.known.setdefault((self.part, row.kind), {})[number] = known
            if printed or number not in self.all_known:
                self.all_known[number] = known
        if row.called:
            self.named[row.called] = known
        self.done.append(known)

    def unit(
        self,
        row: Row,
        number: int | None,
        as_number: int | None,
        shown: Row,
        last: bool = True,
        cycle: int = 0,
    ) -> Unit:
        """One row to be worked: the words of `row`, under the label of `shown`."""
        first, self.first = self.first, False
        return Unit(
            row,
            number,
            as_number,
            shown.kind if shown.numbers or shown is row else row.kind,
            shown.label,
            shown.label_span,
            shown.part,
            first,
            shown.side,
            shown if shown is not row else None,
            cycle,
            last,
        )

    def add(
        self,
        row: Row,
        number: int | None,
        as_number: int | None,
        shown: Row,
        last: bool = True,
        cycle: int = 0,
    ) -> None:
        """Plans one row."""
        self.plan.units.append(self.unit(row, number, as_number, shown, last, cycle))
        self.know(row, number, as_number, bool(shown.numbers))
        if cycle and shown.rerun is not None:
            self.done[-1] = replace(self.done[-1], cycle=cycle, as_set=shown.rerun.as_set)

    def goes_on_elsewhere(self, kind: str, first: int) -> bool:
        """True for a number that goes on from the last of its kind, though rows of another kind stand between."""
        if self.last is None or first <= self.last + 1 or first == 1:
            return False
        return any(rows and told == kind and max(rows) == first - 1 for (_, told), rows in self.known.items())

    def jump_to(self, first: int) -> None:
        """Notes the numbers missing before a row's first one."""
        if self.last is not None and self.last + 1 < first <= self.last + _FAR:
            self.missing.update(range(self.last + 1, first))

    def lookup(self, number: int, row: Row) -> Known | None:
        """The row of that number that a row means: of the part it names, else of its own part and kind first."""
        named = row.rerun.part if row.rerun is not None else None
        for kind in (row.kind, "row", "round"):
            found = self.known.get((named or self.part, kind), {}).get(number)
            anywhere = self.all_known.get(number)
            if found is not None and not (found.printed or named or self.part in self.setups):
                # the second "Next row" of a shaping is not the Row 2 that is meant
                found = anywhere if anywhere is not None and anywhere.printed else found
            if found is not None:
                return found
        if named:
            return next((known for known in self.piece(named) if known.own == number), None)
        return self.all_known.get(number)

    def go_round(self, rows: Sequence[Known]) -> None:
        """Notes that from here on these rows are worked in turn."""
        self.cycle = tuple(rows[:60])
        self.cycle_at = len(self.done)

    def numbers_of(self, part: str) -> tuple[int, ...]:
        """Numbers of all rows that a part has so far."""
        return tuple(sorted({n for (name, _), rows in self.known.items() if name == part for n in rows}))

    def enter(self, part: str | None) -> None:
        """The rows of a part begin."""
        self.part = part
        self.first = True
        self.entered.append((part, len(self.done), len(self.plan.units)))

    def piece(self, part: str, far: AsFar | None = None) -> list[Known]:
        """The rows of a part with those that go on from it under headings of their own: a back and its armholes.

        `far`: the heading that they go as far as. Nothing where no rows go on from the part so, where it has no such
        heading, or where nobody knows how often some of the rows are worked.
        """
        begun = next((k for k, (name, _, _) in enumerate(self.entered) if name == part), None)
        if begun is None:
            return []
        end = begun + 1
        while end < len(self.entered) - 1 and self._goes_on(end):
            end += 1
        if far is not None:
            at = next((k for k in range(begun + 1, end) if far.names <= _shaped_at(self.entered[k][0])), None)
            if at is None:
                return []
            end = at + far.through
        elif end == begun + 1:
            return []
        _, first, first_unit = self.entered[begun]
        _, last, last_unit = self.entered[end]
        if any(isinstance(unit, (Loop, Until)) for unit in self.plan.units[first_unit:last_unit]):
            return []
        rows = self.done[first:last]
        while far is not None and far.through and rows and not _shapes(rows[-1].row):
            # "until the armhole shaping is complete": not the rows worked straight behind it
            rows.pop()
        return rows

    def _goes_on(self, k: int) -> bool:
        """True where the rows of a part entered go on with the piece before it: by its name, or by their numbers."""
        name, at, _ = self.entered[k]
        end = self.entered[k + 1][1]
        if name is None or name in self.setups or not 0 < at < end or self.done[at].row.kind != "row":
            return False
        before, own = self.done[at - 1].own, self.done[at].own
        return bool(_shaped_at(name)) or before is not None and own == before + 1

    def begin_as(self, part: str) -> None:
        """The foundation of another part is made once more, where a part begins as that one did."""
        setup = self.setups.get(part)
        if setup is not None and self.first and self.part not in self.setups:
            self.plan.units.append(replace(setup, part=self.part))


def _shaped_at(part: str | None) -> frozenset[str]:
    """What a heading says is shaped below it: "Shape armholes" → armhole; nothing for another heading."""
    return shaping_named(part or "")


def _shapes(row: Row) -> bool:
    """True for a row that makes the work wider or narrower."""
    return changes_count(row.items) or any(isinstance(item, Leave) for item in row.items)
