"""One stitch, chain or space drawn where it stands. Its feet and its top come in; marks go out, and the symbols
they use."""

from collections.abc import Callable
from math import atan2, ceil, cos, degrees, hypot, pi, sin, tan

from tracker.charts.drawing import INK, Mark, Path, Segment, Shape, Symbol, Use, line, turned
from tracker.charts.signs.symbols import (
    BACK_LOOP,
    BAR,
    CHAIN,
    CHAINED,
    FRONT_LOOP,
    height_of,
    leg_of,
    symbol_of,
)
from tracker.fabric.model import HIDDEN, SP, Element
from tracker.records import dataclass, field
from tracker.trade.stitches import STITCHES, parts_of

Point = tuple[float, float]

_STIFF = frozenset({"sc", "revsc", "spsc", "slst", "picot"})
"""Signs that are never stretched."""
_ASIDE = 3.0
"""Points that a foot may lie beside its sign before a line leads to it."""
_BOWED, _FAR_ASIDE, _PIECE = 8.0, 22.0, 0.8
"""Points aside from which on such a line follows the round: to one of several feet, and to one alone; radians of the
round that one curve draws.
"""
_LIFT = 8.0
"""Points at most that a sign shorter than its row stands below the row's top."""
_REACHED = 26.0
"""Points that a foot of low stitches worked together may lie from their top and still be a leg of the sign."""
_SHORT, _WIDE = 6.0, 1.25
"""Points that are kept free at each end of a space; times its chains' length from which on it is drawn wide."""
_LOOP = 3
"""Chains of a space that is gone into along its length."""
_FAR = 12.0
"""Points that a foot may lie below its sign before a line leads to it."""


@dataclass(slots=True)
class Brush:
    """Marks gathered while a chart is laid out, and the symbols they name."""

    marks: list[Mark] = field(default_factory=list)
    symbols: dict[str, Symbol] = field(default_factory=dict)
    kinds: dict[str, str] = field(default_factory=dict)
    """Stitches drawn, by the symbol that stands for each in the key."""

    def put(self, symbol: Symbol, place: Point, turn: float = 0.0, along: float = 1.0) -> None:
        self.symbols.setdefault(symbol.name, symbol)
        self.marks.append(Use(symbol.name, turned(*place, turn, 1.0, along)))


def stand(
    brush: Brush,
    element: Element,
    feet: tuple[Point, ...],
    top: Point,
    loop: str = "",
    up: Point = (0.0, -1.0),
    around: bool = False,
) -> None:
    """Draws a stitch from its feet to its top. `up`: away from the row below, a direction of length 1; `around`: true
    where the row below is a circle around 0, 0.
    """
    kind = element.kind
    if element.turning or kind == HIDDEN:
        chains = element.chains or (STITCHES[kind].height if kind in STITCHES else 1)
        upright_chain(brush, feet[0], top, max(1, chains))
        brush.kinds.setdefault("ch", "ch")
        return
    _, base, together = parts_of(kind)
    row = STITCHES.get(base)
    stiff = row is not None and row.symbol in _STIFF
    if len(feet) > 1 and stiff and max(hypot(x - top[0], y - top[1]) for x, y in feet) > _REACHED:
        _stiff(brush, symbol_of(kind), feet, top, height_of(kind), up, around)
    elif len(feet) > 1 and (together > 1 or kind == "cl"):
        for foot in feet:
            _upright(brush, leg_of, kind, foot, top)
        middle = (sum(x for x, _ in feet) / len(feet), sum(y for _, y in feet) / len(feet))
        brush.put(BAR, top, _turn(middle, top))
    elif stiff:
        _stiff(brush, symbol_of(kind), feet[:1], top, height_of(kind), up, around)
    else:
        _upright(brush, symbol_of, kind, feet[0], top)
    brush.kinds.setdefault(kind, kind)
    if loop in ("back", "front") and feet:
        mark = BACK_LOOP if loop == "back" else FRONT_LOOP
        brush.put(mark, feet[0], _turn(feet[0], top))
        brush.kinds.setdefault(mark.name, mark.name)


def along(space: Element, aside: float, room: float = 0.0) -> float:
    """Points from a space's middle to where a stitch goes into it whose top is so far aside.

    Stitches in a loop of some chains stand side by side along it; a short one has them all in one place. `room`: points
    that the space takes, which may be more than its chains are long.
    """
    if space.kind != SP or space.chains < _LOOP:
        return 0.0
    long = space.chains * CHAIN
    most = max(0.35 * long, 0.45 * room - _SHORT)
    return max(-most, min(most, aside * (0.5 if room < _WIDE * long else 0.85)))


def upright_chain(brush: Brush, foot: Point, top: Point, chains: int) -> None:
    """A turning chain, standing."""
    turn = _turn(foot, top) - 90
    long = hypot(top[0] - foot[0], top[1] - foot[1]) / (chains * CHAIN)
    for nth in range(chains):
        part = (nth + 0.5) / chains
        place = (foot[0] + (top[0] - foot[0]) * part, foot[1] + (top[1] - foot[1]) * part)
        brush.symbols.setdefault("ch", CHAINED)
        brush.marks.append(Use("ch", turned(*place, turn, min(1.0, long), 1.0)))


def lying_chain(
    brush: Brush, points: tuple[Point, ...], turns: tuple[float, ...], scale: float = 1.0
) -> None:
    """Chains of a space, one at each point."""
    brush.symbols.setdefault("ch", CHAINED)
    brush.kinds.setdefault("ch", "ch")
    for place, turn in zip(points, turns, strict=True):
        brush.marks.append(Use("ch", turned(*place, turn, min(1.0, scale), 1.0)))


def arch(
    left: Point, right: Point, chains: int, up: Point
) -> tuple[tuple[Point, ...], tuple[float, ...], Point, float]:
    """Where the chains of a space lie between two tops: in a bow towards `up` (a direction of length 1).

    Gives the places, how each is turned, the highest point of the bow, and how much the chains have to shrink.
    """
    wide = hypot(right[0] - left[0], right[1] - left[1])
    long = chains * CHAIN
    # A bow as long as the chains; flat where there is room for them.
    rise = max(0.0, long - wide) * 0.45 + (1.0 if chains > 2 else 0.0) * 3.0
    rise = min(rise, 16.0)

    def at(part: float) -> Point:
        lift = 4 * rise * part * (1 - part)
        return (
            left[0] + (right[0] - left[0]) * part + up[0] * lift,
            left[1] + (right[1] - left[1]) * part + up[1] * lift,
        )

    inset = min(0.2, 3.0 / max(wide, 1.0))
    parts = [inset + (1 - 2 * inset) * (nth + 0.5) / chains for nth in range(chains)]
    places, turns = [], []
    for part in parts:
        before, after = at(part - 0.02), at(part + 0.02)
        places.append(at(part))
        turns.append(degrees(atan2(after[1] - before[1], after[0] - before[0])))
    room = (wide * (1 - 2 * inset) + 2 * rise) / max(long, 1.0)
    return tuple(places), tuple(turns), at(0.5), max(0.45, room)


def bow(foot: Point, end: Point) -> Path:
    """Along the circle around 0, 0 from a foot until under the end, and up to it.

    >>> [(letter, [round(value) for value in at[-2:]]) for letter, at in bow((10.0, 0.0), (0.0, 12.0))]
    [('M', [10, 0]), ('C', [7, 7]), ('C', [0, 10]), ('L', [0, 12])]
    """
    radius, begin = hypot(*foot), atan2(foot[1], foot[0])
    angle = (atan2(end[1], end[0]) - begin + pi) % (2 * pi) - pi
    many = max(1, ceil(abs(angle) / _PIECE))
    step = angle / many
    handle = 4 / 3 * tan(step / 4) * radius
    out: list[Segment] = [("M", foot)]
    for nth in range(many):
        first, last = begin + step * nth, begin + step * (nth + 1)
        x, y, to_x, to_y = radius * cos(first), radius * sin(first), radius * cos(last), radius * sin(last)
        near = x - handle * sin(first), y + handle * cos(first)
        far = to_x + handle * sin(last), to_y - handle * cos(last)
        out.append(("C", (*near, *far, to_x, to_y)))
    return (*out, ("L", end))


def _turn(foot: Point, top: Point) -> float:
    """How far a sign that grows upwards is turned clockwise to grow from foot to top."""
    return degrees(atan2(top[0] - foot[0], foot[1] - top[1]))


def _upright(brush: Brush, drawn: Callable[[str, float], Symbol], kind: str, foot: Point, top: Point) -> None:
    """A little longer or shorter is stretched; much longer is drawn anew, so that no stroke grows fat."""
    long = hypot(top[0] - foot[0], top[1] - foot[1])
    high = height_of(kind)
    if not 0.85 < long / high < 1.15:
        high = max(8.0, round(long / 4) * 4.0)
        symbol = drawn(kind, high)
    else:
        symbol = drawn(kind, 0.0)
    brush.put(symbol, foot, _turn(foot, top), long / high if long else 1.0)


def _stiff(
    brush: Brush, symbol: Symbol, feet: tuple[Point, ...], top: Point, high: float, up: Point, around: bool
) -> None:
    """In its own size, upright below its top; a thin line leads to each foot that lies aside, along the round where it
    stands on one.
    """
    long = min((top[0] - x) * up[0] + (top[1] - y) * up[1] for x, y in feet)
    back = high + min(max(0.0, (long - high) / 2), _LIFT)
    place = (top[0] - up[0] * back, top[1] - up[1] * back)
    nearer = (place[0] + up[0] * 2, place[1] + up[1] * 2)
    for foot in feet:
        aside = abs((top[0] - foot[0]) * up[1] - (top[1] - foot[1]) * up[0])
        if aside > _ASIDE or long - back > _FAR:
            far = aside > (_BOWED if len(feet) > 1 else _FAR_ASIDE)
            path = bow(foot, nearer) if around and far else line(foot, nearer)
            brush.marks.append(Shape(path, stroke=INK, width=0.6))
    brush.put(symbol, place, _turn((0.0, 0.0), up))
