"""Rows worked over and over until so many stitches stand: "Rep Row 2 until 4 sts remain".

The readings so far come in; the likeliest comes out with the rows worked, and how many they were. Where the count is
never met, nothing is worked and the plan is open-ended; where the rows step over it, that is reported.
"""

from collections.abc import Callable

from tracker.fabric.plan.units import Plan, Unit, Until
from tracker.fabric.readings.history import Record, State
from tracker.problems import Label, Problem, Severity
from tracker.records import replace
from tracker.trade.nouns import amount

_MOST = 600
"""Rows worked for one count; no piece has so many."""


def until(
    begun: list[State], rows: Until, advance: Callable[[list[State], Unit], list[State]], plan: Plan
) -> tuple[list[State], int]:
    """The readings with the rows worked, and how many rows they are."""
    state = begun[0]
    short = rows.stitches - _stitches(state)
    best = abs(short)
    start = rows.units[0].number
    many = len(rows.units)
    met: tuple[list[State], int] | None = None
    """The rows that meet the count first, where the last is not on the side that is told."""
    for k in range(_MOST if short and state.sure else 0):
        unit = rows.units[k % many]
        state = advance([state], replace(unit, number=None if start is None else start + k))[0]
        if not isinstance(state.record, Record) or not state.record.understood:
            break
        left = rows.stitches - _stitches(state)
        if not left and (rows.ending is None or unit.as_number == rows.ending):
            met = met or ([state], k + 1)
            if rows.side in ("", _side(state.record)):
                return [state], k + 1
        elif met is not None:
            return met
        if left * short < 0:
            plan.problems.append(_stepped_over(rows, state))
            break
        if k % many == many - 1:
            if abs(left) >= best and left:
                break
            best = abs(left)
    if met is not None:
        return met
    plan.open_ended = plan.open_ended or bool(short) or not state.sure
    return begun, 0


def _side(record: Record) -> str:
    """The side a row is worked on; where nothing tells, odd rows are right-side ones (common practice, no source)."""
    number = record.unit.number
    return record.side or ("" if number is None else "RS" if number % 2 else "WS")


def _stitches(state: State) -> int:
    """How many stitches stand on the last row."""
    return sum(1 for element in state.standing.elements if element.is_stitch)


def _stepped_over(rows: Until, state: State) -> Problem:
    """What is said when the rows never make the number that is asked for."""
    assert rows.units[0].extra is not None
    row = rows.units[0].extra
    return Problem(
        "C201",
        Severity.ERROR,
        f"{row.label} never makes {amount(rows.stitches, 'stitch')}: it goes on to {_stitches(state)}",
        Label(row.rerun.span if row.rerun else row.span, f"never {rows.stitches}"),
        row.label,
        None,
        row.part,
        "Check the number, and the count of the rows that are repeated.",
    )
