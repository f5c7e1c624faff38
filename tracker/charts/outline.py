"""The line a round lies along: a circle, or a polygon whose corners are the round's own. Numbers in, points out.

A place on it is a turn and a reach. The turn grows counter-clockwise from the bottom as on a circle, in radians; of a
polygon it is shared out evenly along each side. The reach is the distance from the middle, of a polygon that of a side.
"""

from functools import lru_cache
from math import atan2, cos, hypot, inf, pi, sin, tan

from tracker.charts.drawing import Path, ellipse
from tracker.records import dataclass

Point = tuple[float, float]
FULL = 2 * pi
_BEGIN = pi / 2
"""Angle of turn 0, clockwise from the right as y goes down: the bottom."""


@dataclass(frozen=True, slots=True)
class Outline:
    """A circle, or a polygon that stands on one of its sides."""

    corners: int = 0
    """0 for a circle."""
    wide: float = 0.0
    """Of four corners: by how much half a side at the bottom is longer than the reach."""
    high: float = 0.0
    """The same of the sides left and right."""


CIRCLE = Outline()


def at(line: Outline, turn: float, reach: float) -> Point:
    """The point at a turn and a reach.

    >>> [round(value) for value in at(CIRCLE, pi / 2, 10)], [round(value) for value in at(Outline(4), pi / 4, 10)]
    ([10, 0], [10, 10])
    """
    if not line.corners:
        return reach * cos(_BEGIN - turn), reach * sin(_BEGIN - turn)
    side, part = _side(line, turn)
    first, last = _corner(line, side, reach), _corner(line, side + 1, reach)
    return first[0] + (last[0] - first[0]) * part, first[1] + (last[1] - first[1]) * part


def below(line: Outline, turn: float, outer: float, inner: float) -> Point:
    """The point nearer the middle that lies straight under one further out; of a circle at the same turn."""
    if not line.corners:
        return at(line, turn, inner)
    side, part = _side(line, turn)
    far = long(line, side % line.corners, outer)
    near = long(line, side % line.corners, inner)
    past = min(max((part - 0.5) * far, -near / 2), near / 2)
    return at(line, (side + past / (near or 1.0)) * FULL / line.corners, inner)


def up(line: Outline, turn: float) -> Point:
    """The direction away from the middle, of length 1: straight up from a side, slanting at a corner."""
    if not line.corners:
        return cos(_BEGIN - turn), sin(_BEGIN - turn)
    side, part = _side(line, turn)
    if min(part, 1 - part) < 1e-6:
        turn = corner_turn(line, side if part < 0.5 else side + 1)
    else:
        turn = side * FULL / line.corners
    return cos(_BEGIN - turn), sin(_BEGIN - turn)


def reach_of(line: Outline, point: Point) -> float:
    """How far out a point lies."""
    if not line.corners:
        return hypot(*point)
    return max(_off(line, side, point) for side in range(line.corners))


def placed_at(line: Outline, point: Point) -> tuple[float, float]:
    """The turn and the reach of a point; `at` with both gives the point.

    >>> [round(value, 2) for value in placed_at(CIRCLE, (10, 0))], placed_at(Outline(4), (10, 0)) == (pi / 2, 10)
    ([1.57, 10.0], True)
    """
    x, y = point
    if not line.corners:
        return _BEGIN - atan2(y, x), hypot(x, y)
    reach, along, extra, side = -inf, 0.0, 0.0, 0
    for nth, (out_x, out_y, less, more) in enumerate(_sides(line)):
        own = x * out_x + y * out_y - less
        if own > reach:
            # to the right of the way out lies the next corner
            reach, along, extra, side = own, x * -out_y + y * out_x, more, nth
    half = reach * tan(pi / line.corners) + extra
    part = min(max(0.5 - along / (2 * half), 0.0), 1.0) if half > 0 else 0.5
    return (side + part - 0.5) * FULL / line.corners, reach


def extent(line: Outline, reach: float) -> tuple[float, float, float, float]:
    """The box around it: left, top, right, bottom."""
    if not line.corners:
        return -reach, -reach, reach, reach
    xs, ys = zip(*(_corner(line, nth, reach) for nth in range(line.corners)), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def long(line: Outline, side: int, reach: float) -> float:
    """Points from one corner to the next; of a circle all around."""
    if not line.corners:
        return FULL * reach
    first, last = _corner(line, side, reach), _corner(line, side + 1, reach)
    return hypot(last[0] - first[0], last[1] - first[1])


def reach_for(line: Outline, longs: list[float]) -> float:
    """The reach at which every side is as long as it has to be; of a circle the whole of it."""
    if not line.corners:
        return sum(longs) / FULL
    more = (line.wide, line.high, line.wide, line.high) if line.corners == 4 else (0.0,) * line.corners
    each = 2 * tan(pi / line.corners)
    return max((one - 2 * extra) / each for one, extra in zip(longs, more, strict=True))


def side_at(line: Outline, turn: float) -> int:
    """The side that a turn lies on, from 0 at the bottom, counter-clockwise."""
    return _side(line, turn)[0] % max(1, line.corners)


def corner_turn(line: Outline, corner: int) -> float:
    """The turn of a corner, counted so that side n lies between corner n and the one after it.

    >>> round(corner_turn(Outline(4), 1) / pi, 2)
    0.25
    """
    return (corner - 0.5) * FULL / line.corners


def per_radian(line: Outline, turn: float, reach: float) -> float:
    """Points that a turn of one radian is long."""
    return long(line, side_at(line, turn), reach) / (FULL / max(1, line.corners))


def path(line: Outline, reach: float) -> Path:
    """The whole line."""
    if not line.corners:
        return ellipse(0, 0, reach)
    points = [_corner(line, nth, reach) for nth in range(line.corners)]
    return (*((("L" if nth else "M"), point) for nth, point in enumerate(points)), ("Z", ()))


def _off(line: Outline, side: int, point: Point) -> float:
    """How far out a point lies past a side."""
    x, y, less, _ = _sides(line)[side]
    return point[0] * x + point[1] * y - less


@lru_cache(maxsize=64)
def _sides(line: Outline) -> tuple[tuple[float, float, float, float], ...]:
    """Of each side the direction straight out, how much further out it lies than the reach, and by how much half of it
    is longer.
    """
    out = []
    for side in range(line.corners):
        turn = _BEGIN - side * FULL / line.corners
        x, y = cos(turn), sin(turn)
        longer = (line.high if side % 2 else line.wide) if line.corners == 4 else 0.0
        out.append((x, y, abs(x) * line.wide + abs(y) * line.high, longer))
    return tuple(out)


def _side(line: Outline, turn: float) -> tuple[int, float]:
    """The side of a turn, and what part of it lies behind."""
    along = turn * line.corners / FULL + 0.5
    side = int(along // 1)
    return side, along - side


def _corner(line: Outline, nth: int, reach: float) -> Point:
    turn = corner_turn(line, nth)
    far = reach / cos(pi / line.corners)
    x, y = far * cos(_BEGIN - turn), far * sin(_BEGIN - turn)
    return x + (line.wide if x > 0 else -line.wide), y + (line.high if y > 0 else -line.high)
