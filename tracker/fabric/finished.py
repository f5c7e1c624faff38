"""The readings of a pattern that were kept, as the fabric, with the problems met on the way."""

from collections.abc import Sequence

from tracker.fabric.checks.unread import unread_of
from tracker.fabric.faults.report import problems_of
from tracker.fabric.model import Fabric, Placed, Step, Stretch, WorkedRow
from tracker.fabric.plan.going_on import even_row, is_even
from tracker.fabric.plan.units import Plan
from tracker.fabric.plan.wordings import Wordings
from tracker.fabric.readings.history import (
    Looped,
    Record,
    State,
)
from tracker.fabric.rows.close import landing_of
from tracker.fabric.rows.outcome import Outcome
from tracker.notation.pattern import Pattern
from tracker.problems import Problem
from tracker.records import replace


def finished(
    state: State, wordings: Wordings, plan: Plan, pattern: Pattern
) -> tuple[Fabric, tuple[Problem, ...]]:
    """The fabric that a reading makes, and what is wrong with it."""
    stretches: list[Stretch] = []
    pending: list[Placed] = []
    problems: list[Problem] = list(plan.problems)
    seen: set[tuple[object, ...]] = set()
    index = 0
    homes: dict[tuple[int, int], Outcome] = {}
    for entry in state.records():
        if isinstance(entry, Looped):
            if pending:
                stretches.append(Stretch(tuple(pending)))
                pending = []
            rows = []
            for record in entry.records:
                record = _printed(record, wordings, homes)
                index += 1
                rows.append(_placed(record))
                problems.extend(problems_of(record, index, pattern, seen))
            index += len(rows) * (entry.times - 1)
            stretches.append(Stretch(tuple(rows), entry.times, len(rows)))
            continue
        entry = _printed(entry, wordings, homes)
        index += 1
        pending.append(_placed(entry))
        found = problems_of(entry, index, pattern, seen)
        problems.extend(found)
    if pending:
        stretches.append(Stretch(tuple(pending)))
    return Fabric(tuple(stretches), plan.open_ended), tuple(dict.fromkeys(problems))


def _printed(record: Record, wordings: Wordings, homes: dict[tuple[int, int], Outcome]) -> Record:
    """A record with the spans of where its words are printed; made once for all the times they are worked there."""
    was, row = record.outcome, record.unit.row
    home = homes.get((id(was), id(row)))
    if home is None:
        found = [*wordings.home(tuple(was.found), row)]
        home = replace(was, steps=wordings.home(tuple(was.steps), row), found=found)
        homes[(id(was), id(row))] = home
    return replace(record, outcome=home)


def _is_even(steps: Sequence[Step]) -> bool:
    return any(is_even(step.item) for step in steps)


def _placed(record: Record) -> Placed:
    """A worked row with its name in the piece."""
    outcome, unit = record.outcome, record.unit
    if unit.as_number is not None and _is_even(outcome.steps) and not any(map(is_even, unit.row.items)):
        # worked even in place of the row whose turn it was: that row's words are not those of this one
        unit = replace(unit, row=even_row(unit.extra or unit.row), as_number=None)
    worked = WorkedRow(
        unit.row,
        outcome.elements,
        outcome.steps,
        outcome.below,
        record.side,
        record.understood,
        outcome.turned,
        landing=landing_of(outcome.below, outcome.elements),
        unread=() if outcome.understood else unread_of(unit.row, unit.extra, outcome, record.sure),
    )
    return Placed(worked, unit.number, unit.kind, unit.part, unit.as_number, unit.printed, unit.label_span)
