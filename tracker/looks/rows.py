"""Rows as they lie in the lap: which way each runs, which of its stitches lean, and what is seen of a row that is wide.

Comes in: the View's cells, in the order made. Goes out: rows from the left to the right of whoever looks at them.
"""

from functools import lru_cache
from itertools import pairwise

from tracker.records import dataclass
from tracker.session.seen.lying import Cell, Line, Shape
from tracker.trade.stitches import STITCHES, parts_of

_SLANT = (1.0, 0.9, 0.7, 0.5, 0.4, 0.35)
"""Widths of a stitch in its height, by the height of the table: how much a row falls for each stitch it is pushed."""

Lean = str
"""Empty: upright; "left", "right": a leg that leans there from its foot; "middle": one between such legs."""

_ALIKE = 0.6
"""Of the widest row that those are wide, at least, by which the line is drawn that all of them lie along."""
FLATTEST = 0.15
"""How much less steep rows may be drawn than they lie, where there is less room; with less they are drawn straight."""


@dataclass(frozen=True, slots=True)
class Strip:
    """One row of fabric to be drawn."""

    label: str
    cells: tuple[Cell, ...]
    """In the order made."""
    counted: str
    leftward: bool
    """True when it is worked from right to left as it lies."""
    in_hand: bool

    @property
    def filet(self) -> bool:
        """True for a row of squares."""
        return any(cell.shape in (Shape.WINDOW, Shape.BLOCK) for cell in self.cells)

    @property
    def lying(self) -> tuple[tuple[Cell, Lean], ...]:
        """The cells and their leans from left to right."""
        found = tuple(zip(self.cells, leans(self), strict=True))
        return found[::-1] if self.leftward else found

    @property
    def feet(self) -> tuple[float, ...]:
        """From left to right, how many cells to the right of each the place is that it shares with its neighbours."""
        out = [0.0] * len(self.cells)
        start = 0
        for end in range(1, len(self.cells) + 1):
            if end < len(self.cells) and self.cells[end].with_before:
                continue
            for at in range(start, end):
                out[at] = (start + end - 1) / 2 - at
            start = end
        return tuple(-foot for foot in reversed(out)) if self.leftward else tuple(out)


def waves(rows: tuple[Strip, ...], growing: bool = True) -> tuple[float, ...]:
    """For each column of the rows how far it lies below the highest, in widths of a stitch; () where they are straight.

    Rows are centred on each other, and one line is drawn for all of them: a ripple's are alike. `growing`: false where
    those that grow, as a shawl's do, are left straight.
    """
    found = [own for row in rows if (own := _falls(row))]
    widest = max(map(len, found), default=0)
    alike = [own for own in found if len(own) >= _ALIKE * widest]
    if len(alike) < min(2, len(rows)) or not growing and len(alike) < len(found):
        return ()
    most = max(len(row.cells) for row in rows)
    sums, many = [0.0] * most, [0] * most
    for own in alike:
        before = (most - len(own)) // 2
        for column in range(most):
            # Beyond a shorter row its ends go on as they are.
            sums[column] += own[min(max(column - before, 0), len(own) - 1)]
            many[column] += 1
    drops = [total / count for total, count in zip(sums, many, strict=True)]
    least = min(drops)
    return tuple(drop - least for drop in drops)


def eased(drops: tuple[float, ...], deepest: float) -> tuple[float, ...]:
    """The drops, less steep where they are deeper than there is room for; () where they would hardly be seen.

    >>> eased((0.0, 2.0, 4.0), 2.0), eased((0.0, 40.0), 2.0)
    ((0.0, 1.0, 2.0), ())
    """
    deep = max(drops, default=0.0) - min(drops, default=0.0)
    if deep <= deepest:
        return drops
    ease = deepest / deep
    return tuple(drop * ease for drop in drops) if ease >= FLATTEST else ()


def _falls(row: Strip) -> tuple[float, ...]:
    """How far each place of a row that rises and falls lies below the highest, from left to right."""
    cells = [cell for cell, _ in row.lying]
    if not any(cell.pushed for cell in cells):
        return ()
    way = -1 if row.leftward else 1
    slopes = [way * cell.pushed * _slant(cell.kind) for cell in cells]
    drops = [0.0]
    for before, after in pairwise(max(-1.0, min(1.0, slope)) for slope in slopes):
        drops.append(drops[-1] + (before + after) / 2)
    least = min(drops)
    return tuple(drop - least for drop in drops)


@lru_cache(maxsize=256)
def _slant(kind: str) -> float:
    named = STITCHES.get(parts_of(kind)[1]) if kind else None
    return _SLANT[min(named.height, len(_SLANT) - 1)] if named is not None else _SLANT[3]


def strips(
    label: str, cells: tuple[Cell, ...], counted: str, below: tuple[Line, ...], mirrored: bool
) -> tuple[Strip, ...]:
    """The row in hand and those under it; `mirrored` for a left-handed maker."""
    hand = Strip(label, cells, counted, not mirrored, True)
    return (
        hand,
        *(Strip(line.label, line.cells, line.counted, line.against is mirrored, False) for line in below),
    )


def leans(row: Strip) -> list[Lean]:
    """How each stitch stands that shares its place with a neighbour: two make a V, more of them a fan."""
    out = []
    for at, cell in enumerate(row.cells):
        after = at + 1 < len(row.cells) and row.cells[at + 1].with_before
        if cell.shape is not Shape.STITCH or not (cell.with_before or after):
            out.append("")
        elif cell.with_before and after:
            out.append("middle")
        else:
            # The first made is the right leg of a row worked to the left, and the left leg of one worked to the right.
            out.append("left" if cell.with_before is row.leftward else "right")
    return out


def window(hand: Strip, most: int, across: int) -> int:
    """Which of `most` columns is the first to be drawn of `across`, so that the place is in sight.

    It moves by halves of the room, so that little moves at a step. Rows are centred on each other.
    """
    if across >= most or across < 2:
        return 0
    made = next((at for at, cell in enumerate(hand.cells) if not cell.done), len(hand.cells))
    column = (most - len(hand.cells)) // 2 + (len(hand.cells) - 1 - made if hand.leftward else made)
    half = across // 2
    return max(0, min(most - across, (column // half) * half - half // 2))
