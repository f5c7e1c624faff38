"""Which thing of the row below is which on the chart. Two rows come in; for each index of `below` the index in the
row before it.

A row meets the row below from one end or the other, rounds also from a place somewhat further on. The order that fits
is looked for, the nearest first; what fits nowhere has no place (None).
"""

from collections.abc import Iterator

from tracker.fabric.model import Element, WorkedRow


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
