"""The ends of rows as an edging meets them: what stands there, and what each takes. Rows of a fabric come in; values go
out.

How many stitches the end of a row takes is common practice, no source (several teaching pages agree): a row of sc
1, of hdc 3 in 2 rows, of dc 2, of tr 3.
"""

from tracker.fabric.model import Fabric, Placed, Step
from tracker.notation.tree import Which, Work
from tracker.program.row.groups import Beat, Breath, Sort
from tracker.records import dataclass
from tracker.trade.spacing import evenly
from tracker.trade.stitches import height_of

MOST_ENDS = 2000
"""Rows looked at below an edging."""
FARTHEST = 2.5
"""So many times more or fewer stitches than usual no row ends take: "92 sc evenly around entire edge" is of more."""
_USUAL = {0: 0.5, 1: 1.0, 2: 1.5, 3: 2.0, 4: 3.0, 5: 3.5, 6: 4.0, 7: 4.5}
"""Stitches along one row end, by the height of the row's tallest stitch in chains."""


@dataclass(frozen=True, slots=True)
class RowEnd:
    """The end of one row at the edge."""

    stitch: str
    """The stitch the row is made of, by the name inside."""
    turning: bool
    """True when a turning chain stands there, False for the row's last stitch."""


@dataclass(frozen=True, slots=True)
class Edging:
    """So many stitches along so many row ends."""

    ends: tuple[RowEnd, ...]
    takes: tuple[int, ...]
    """Stitches into each of them, in order."""
    usual: float
    """What common practice would put there."""

    @property
    def stitches(self) -> int:
        return sum(self.takes)


def usual_along(ends: tuple[RowEnd, ...]) -> float:
    """How many stitches the ends take by common practice.

    >>> usual_along((RowEnd("dc", True),) * 15)
    30.0
    """
    return sum(_USUAL.get(height_of(end.stitch), 2.0) for end in ends)


def edging(stitches: int, ends: tuple[RowEnd, ...]) -> Edging:
    """The stitches spread over the row ends; CannotSpace when there is no row end."""
    return Edging(ends, evenly(stitches, len(ends)), usual_along(ends))


def row_ends(rows: tuple[Placed, ...], first_turning: bool = False) -> tuple[RowEnd, ...]:
    """The ends of these rows at one side, beginning at the last row.

    A turning chain stands where a row begins, its last stitch where it ends, so at each side they alternate.
    `first_turning`: the side at which the last row began.
    """
    out = []
    turning = first_turning
    for nth, placed in enumerate(reversed(rows)):
        if nth and rows[len(rows) - nth].worked.turned:
            turning = not turning
        kinds = [element.kind for element in placed.worked.elements if element.is_stitch]
        tallest = max(kinds, key=height_of, default="sc")
        out.append(RowEnd(tallest, turning))
    return tuple(out)


def sides_at(fabric: Fabric, index: int) -> tuple[Edging, ...]:
    """Where the row with this index works along row ends: what each row end takes, side by side; () where it does not.

    The row ends are those of the rows in front of it, of the part before when it begins a part of its own. The first
    side begins where the last row ended, the second at the foundation, beneath where the last row began.
    """
    placed = fabric.row(index)
    sides = sides_of(placed)
    if not sides:
        return ()
    first = max(1, index - MOST_ENDS)
    before = [one for _, one in fabric.rows(first, index - 1)] if index > 1 else []
    edged = {one.part for one in before if sides_of(one)} | {placed.part}
    rows = [one for one in before if one.kind == "row" and (one.part is None or one.part not in edged)]
    if not rows:
        return ()
    own = tuple(one for one in rows if one.part == rows[-1].part)
    down, up = row_ends(own), row_ends(own, first_turning=True)[::-1]
    found = [
        edging(made, ends[:many] if 1 < many < len(ends) else ends)
        for side, (_, made, many) in enumerate(sides)
        for ends in [up if side % 2 else down]
    ]
    return tuple(one for one in found if one.usual / FARTHEST <= one.stitches <= one.usual * FARTHEST)


def sides_of(placed: Placed) -> tuple[tuple[int, int, int], ...]:
    """Each time a row works along row ends: index of its first stitch there, how many, and the row ends it names."""
    out = []
    for step in placed.worked.steps:
        if isinstance(step.item, Work) and _is_along(step):
            made = [e for e in placed.worked.elements[step.made_from : step.made_to] if e.is_stitch]
            if made and not any(e.into for e in made):
                out.append((step.made_from, len(made), step.item.where.many))
    return tuple(out)


def _is_along(step: Step) -> bool:
    """True for stitches worked along row ends, and not into stitches that are named."""
    item = step.item
    return (
        isinstance(item, Work)
        and item.where.which in (Which.ROW_END, Which.EVENLY)
        and not item.where.kinds
        and not item.stitch.endswith("tog")
    )


def called(breaths: tuple[Breath, ...], sides: tuple[Edging, ...]) -> tuple[Breath, ...]:
    """Groups along row ends with a beat for every row end, so that each can be told by itself."""
    waiting = list(sides)
    out = []
    for breath in breaths:
        step = next((one for one in breath.first.steps if _is_along(one)), None)
        made = step.made_to - step.made_from if step is not None else 0
        whole = len(breath.beats) == 1 and not breath.path and made == breath.first.singles
        if step is None or not waiting or not whole or waiting[0].stitches != made:
            out.append(breath)
            continue
        at, beats = breath.first.made_from, []
        for takes in waiting.pop(0).takes:
            beats.append(Beat(breath.first.steps, at, at + takes, breath.first.span))
            at += takes
        out.append(Breath(Sort.ENDS, tuple(beats), breath.path))
    return tuple(out)
