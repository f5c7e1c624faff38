"""How far a row's increases and decreases push its stitches along. A worked row comes in, a figure for each element
goes out.

An increase puts all that comes after it one stitch further on than what it goes into, a decrease takes that back: where
a ripple spreads and where it draws together shows in nothing else.
"""

from tracker.fabric.model import HIDDEN, SP, Element, WorkedRow

_LEAST, _MOST = 0.5, 3.5
"""Stitches that one has to be pushed to lean, and beyond which it is no ripple but another width: loops on a mesh."""
_SHARE = 1 / 3
"""Of a row's stitches that are pushed in one that rises and falls."""


def pushed(row: WorkedRow) -> tuple[float, ...]:
    """Stitches that each element stands further along its row than what it goes into, of both rows' middles.

    0 for what goes into nothing.
    """
    below, along = [], 0.0
    for element in row.below:
        wide = float(element.chains) if element.kind == SP else 1.0
        below.append(along + wide / 2)
        along += wide
    found: list[float | None] = []
    along = 0.0
    for element in row.elements:
        wide = _wide(element)
        feet = [below[into] for into in element.into if 0 <= into < len(below)]
        found.append(along + wide / 2 - sum(feet) / len(feet) if feet else None)
        along += wide
    known = [more for more in found if more is not None]
    middle = sum(known) / len(known) if known else 0.0
    return tuple(0.0 if more is None else more - middle for more in found)


def rippled(row: WorkedRow) -> tuple[float, ...]:
    """The same of a row that rises and falls; () for one that does not.

    Stitches in one place go by their middle, and what only stands beside others in one place pushes nothing aside.
    """
    elements, found = row.elements, list(pushed(row))
    alone = [True] * len(elements)
    start = 0
    for end in range(1, len(elements) + 1):
        if end < len(elements) and elements[start].into and elements[end].into == elements[start].into:
            continue
        if end - start > 1:
            alone[start:end] = [False] * (end - start)
            found[start:end] = [sum(found[start:end]) / (end - start)] * (end - start)
        start = end
    stitches = [at for at, element in enumerate(elements) if element.is_stitch and element.into]
    leaning = [at for at in stitches if abs(found[at]) >= _LEAST]
    if len(stitches) < 4 or len(leaning) <= len(stitches) * _SHARE or not any(alone[at] for at in leaning):
        return ()
    least, most = min(found[at] for at in leaning), max(found[at] for at in leaning)
    if not -_MOST <= least < 0 < most <= _MOST:
        return ()
    return tuple(more if abs(more) >= _LEAST else 0.0 for more in found)


def _wide(element: Element) -> float:
    if element.kind == SP:
        return float(max(1, element.chains))
    return 0.0 if element.kind == HIDDEN else 1.0
