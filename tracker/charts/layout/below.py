"""Which thing of the row below is which on the chart. Two rows come in; for each index of `below` the index in the
row before it.

A row meets the row below from one end or the other, rounds also from a place somewhat further on. The order that fits
is looked for, the nearest first; what fits nowhere has no place (None).
"""

from collections.abc import Iterator, Sequence

from tracker.fabric.model import Element, WorkedRow

_BACK = 4
"""Rows that a row may reach back over."""
_POOR, _GOOD = 0.6, 0.9
"""Shares of a row's things that are there: below the one another row is looked for, above the other it is that one."""


def matched(before: WorkedRow, row: WorkedRow, closed: bool) -> list[int | None]:
    """For each of `row.below`, its index among `before.elements`."""
    there, here = [_sort(e) for e in before.elements], [_sort(e) for e in row.below]
    if not here:
        return []
    best: list[int | None] = [None] * len(here)
    most = -1
    for order in _orders(len(there), len(here), row.turned, closed):
        fitting = sum(1 for at, index in enumerate(order) if index is not None and there[index] == here[at])
        if fitting > most:
            best, most = order, fitting
        if most == len(here):
            break
    return best


def stands_on(befores: Sequence[WorkedRow], row: WorkedRow) -> int:
    """Which of the rows before it a row stands on, from the first: the last, or an earlier one that fits far better.

    As behind petals, which are passed over. -1 when there is none.
    """
    best, most = len(befores) - 1, -1.0
    for nth in range(len(befores) - 1, max(-1, len(befores) - 1 - _BACK), -1):
        order = matched(befores[nth], row, True)
        fitting = sum(
            1
            for at, index in enumerate(order)
            if index is not None and _sort(befores[nth].elements[index]) == _sort(row.below[at])
        )
        share = fitting / max(len(row.below), len(befores[nth].elements), 1)
        if most < 0 or most < _POOR and share > _GOOD:
            best, most = nth, share
        if most >= _POOR:
            break
    return best


def _sort(element: Element) -> tuple[str, int]:
    return element.kind, element.chains


def _orders(there: int, here: int, turned: bool, closed: bool) -> Iterator[list[int | None]]:
    """Likely orders, the likeliest first."""
    for way in (turned, not turned):
        forward = list(range(there))
        base = forward[::-1] if way else forward
        shifts = [0]
        if closed:
            reach = min(there // 2 + 1, 60)
            shifts = [shift for step in range(reach) for shift in ((step, -step) if step else (0,))]
            for shift in shifts:
                around = [base[(at + shift) % there] for at in range(min(here, there))] if there else []
                yield [*around, *([None] * (here - len(around)))]
        else:
            for shift in (0, there - here):
                yield [base[at + shift] if 0 <= at + shift < there else None for at in range(here)]
