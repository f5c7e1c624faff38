"""The stitches of one row drawn between two lines: the one that it stands on and the one that its tops lie along."""

from collections.abc import Mapping

from tracker.charts.layout.flat.across import Lying
from tracker.charts.layout.flat.wave import Line
from tracker.charts.layout.stand import Brush, Point, along, arch, lying_chain, stand
from tracker.charts.signs.symbols import STITCH
from tracker.fabric.model import HIDDEN, SP, WorkedRow
from tracker.notation.tree import Group, Work
from tracker.records import dataclass

NO_DEEP: Mapping[str, int] = {}
AIR = 3.0
"""Points between a row's tops and the feet of the next."""
_FOOT = 1.5
"""Points that a foot stands above the line it stands on."""


@dataclass(frozen=True, slots=True)
class Standing:
    """What a row is drawn with."""

    lying: Lying
    xs: tuple[float, ...]
    """Of each element, in the order made."""
    feet: tuple[Point | None, ...]
    """Of each thing of the row below, its top."""
    below: Line
    line: Line
    """Of the feet of the next row."""
    lower: float
    """Points from that line down to this row's tops."""
    deeper: Mapping[int, Line]
    """The lines that elements go down to which reach below the row below."""


def drawn(brush: Brush, standing: Standing) -> tuple[Point, ...]:
    """Draws the row; gives where the top of each element is, of a space the highest point of its bow."""
    row, xs = standing.lying.row, standing.xs
    loops = loops_of(row)
    tops: list[Point] = [(x, standing.line.at(x) + standing.lower) for x in xs]
    for at, element in enumerate(row.elements):
        top, up = tops[at], standing.line.up(xs[at])
        if element.kind == SP:
            continue
        if element.kind == "picot":
            stand(brush, element, (top,), (top[0] + up[0] * 8, top[1] + up[1] * 8), "", up)
        elif element.kind == HIDDEN:
            tops[at] = _hidden(brush, standing, at)
        else:
            stand(brush, element, _feet(standing, at), top, loops.get(at, ""), up)
    for at, element in enumerate(row.elements):
        if element.kind == SP:
            first = tops[at - 1] if at else (xs[at] - STITCH, tops[at][1])
            last = tops[at + 1] if at + 1 < len(tops) else (2 * xs[at] - first[0], tops[at][1])
            up = standing.line.up(xs[at])
            places, turns, crown, room = arch(first, last, element.chains or 1, up)
            lying_chain(brush, places, turns, room)
            tops[at] = crown
    return tuple(tops)


def _feet(standing: Standing, at: int) -> tuple[Point, ...]:
    """Where the element stands: on what it goes into, or straight below its top."""
    below, x = standing.below, standing.xs[at]
    element = standing.lying.row.elements[at]
    found = [
        (foot[0] + along(standing.lying.row.below[into], x - foot[0]), foot[1])
        for into in element.into
        if 0 <= into < len(standing.feet) and (foot := standing.feet[into]) is not None
    ]
    if at in standing.deeper:
        return tuple((fx, standing.deeper[at].at(fx) - _FOOT) for fx, _ in found) or ((x, below.at(x)),)
    # A bow of chains is gone into at its crown; what ends lower than the row is gone into from the row's line.
    feet = [
        (fx, (min(fy, below.at(fx)) if fy < below.at(fx) + AIR - 1 else below.at(fx)) - _FOOT)
        for fx, fy in found
    ]
    return tuple(feet) or ((x, below.at(x) - _FOOT),)


def _hidden(brush: Brush, standing: Standing, at: int) -> Point:
    """A turning chain that counts as nothing, no higher than the row."""
    x, element = standing.xs[at], standing.lying.row.elements[at]
    foot = standing.below.at(x)
    room = max(8.0, foot - standing.line.at(x) - standing.lower)
    top = (x, foot - min(room, 8.0 * max(1, element.chains)))
    stand(brush, element, ((x, foot - _FOOT),), top)
    return top


def loops_of(row: WorkedRow) -> dict[int, str]:
    """Elements that are worked into one loop only, and which."""
    out: dict[int, str] = {}
    for step in row.steps:
        where = step.item.where if isinstance(step.item, (Work, Group)) else None
        if where is not None and where.loop in ("back", "front") and not where.around:
            out |= dict.fromkeys(range(step.made_from, step.made_to), where.loop)
    return out


def depths_of(row: WorkedRow, deep: Mapping[str, int]) -> dict[int, int]:
    """Elements that go into rows further down, and how far: 2 is the row below the row below."""
    out: dict[int, int] = {}
    for step in row.steps:
        if isinstance(step.item, Work):
            down = max(step.item.where.down, deep.get(step.item.stitch, 1))
            if down > 1:
                out |= dict.fromkeys(range(step.made_from, step.made_to), down)
    return out
