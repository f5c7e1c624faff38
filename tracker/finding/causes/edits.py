"""A mistake as what it does to a row: the elements that come out differently.

Small values; what they do is done by `work_again` and told by `changed`. Indices are those of the row's elements.
"""

from collections.abc import Iterable
from itertools import pairwise

from tracker.fabric.model import HIDDEN, SP, Element, Placed
from tracker.records import dataclass


@dataclass(frozen=True, slots=True)
class Edit:
    """Elements of a row that come out differently."""

    start: int
    """Index of the first that is not as it should be."""
    end: int
    """End of them, excluded; the same as `start` when something is there that should not be."""
    put: tuple[Element, ...] = ()
    """What stands there instead."""


@dataclass(frozen=True, slots=True)
class Mistake:
    """One thing done wrong in one place."""

    cause: str
    at: int
    """Index of the element it happens at."""
    edits: tuple[Edit, ...]
    odd: float = 1.0
    """How much less often than others of its cause makers do it here; 1 for as often."""


def work_again(elements: tuple[Element, ...], mistakes: Iterable[Mistake]) -> tuple[Element, ...]:
    """What stands on the row when it is worked with these mistakes."""
    edits = sorted((e for m in mistakes for e in m.edits), key=lambda e: (e.start, e.end), reverse=True)
    out = list(elements)
    for edit in edits:
        out[edit.start : edit.end] = edit.put
    return tuple(out)


def changed(elements: tuple[Element, ...], mistake: Mistake) -> dict[str, int]:
    """How a mistake changes the counts of a row, by name; kinds that stay the same are left out."""
    out: dict[str, int] = {}
    for edit in mistake.edits:
        for element in edit.put:
            out[element.name] = out.get(element.name, 0) + 1
        for element in elements[edit.start : edit.end]:
            if element.kind != HIDDEN:
                out[element.name] = out.get(element.name, 0) - 1
    return {name: number for name, number in out.items() if number}


def apart(one: Mistake, other: Mistake) -> bool:
    """True when two mistakes can both be made: they touch different things."""
    return all(
        a.end <= b.start and a != b or b.end <= a.start and a != b for a in one.edits for b in other.edits
    )


def meshes(rows: Iterable[Placed]) -> frozenset[tuple[str, int]]:
    """Open squares of a piece: the stitch that stands alone between two chains, and the length of those."""
    out: set[tuple[str, int]] = set()
    for placed in rows:
        elements = placed.worked.elements
        spaces = [k for k, element in enumerate(elements) if element.kind == SP]
        for k, after in pairwise(spaces):
            if after != k + 2:
                continue
            before, stitch, behind = elements[k : k + 3]
            alone = stitch.is_stitch and not stitch.group
            if alone and before.chains == behind.chains <= 3 and not before.group and not behind.group:
                out.add((stitch.kind, before.chains))
    return frozenset(out)
