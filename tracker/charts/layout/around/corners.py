"""Rounds that are squares, hexagons, triangles: where their corners are, and where stitches stand along their sides.
Worked rounds come in; positions of corners and turns go out.

A corner is a space made in one place with stitches, or the middle of three in one place. A round before the first such
is one too when the corners of the next stand in all its spaces, or in the widest ones.
"""

from itertools import pairwise
from math import hypot, pi
from statistics import median

from tracker.charts.layout.below import matched
from tracker.charts.layout.spread import filled, spread
from tracker.charts.outline import FULL, Outline, at, corner_turn, long
from tracker.charts.signs.symbols import height_of
from tracker.fabric.model import CH, HIDDEN, SP, Element, Placed, WorkedRow
from tracker.records import dataclass

AT_JOIN = -0.5
"""A corner that the join itself makes: between the last thing of a round and the first."""
FEWEST, MOST = 3, 8
"""Corners of a polygon; with more it may as well be a circle."""
_ALONE = (3, 4, 6)
"""Corners with which a single round at the end is drawn as a polygon; five or eight are petals as often as not."""
_LOW_SPACE, _LOW_STITCH = 8.0, 10.0
"""Points on either side of a corner that is a space or a stitch among single crochets."""
_PETAL = 0.6
"""Height of a petal's first and last stitch at most, of the height of its tallest."""
RING = 7.0
"""How far from the middle a round in a ring begins."""
Corners = tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Stood:
    """A round that has its places."""

    worked: WorkedRow
    line: Outline
    turns: tuple[float, ...]
    """Angle of each element, counter-clockwise growing, from the bottom."""
    reach: tuple[float, ...]
    """How far out its top is."""
    inner: float = 0.0
    """How far out the round begins, and ends."""
    outer: float = 0.0
    way: int = 1
    """1 for a round that runs counter-clockwise on the chart, -1 for one worked the other way."""
    apart: bool = False
    """True when the round's number stands outside, as it would push low stitches along a side off their feet."""
    spans: tuple[tuple[int, int], ...] = ()
    """Of each element, where its marks are among the brush's: the first, and the end, excluded."""
    feet: tuple[float | None, ...] = ()
    """Turn at which each goes into what lies under it; None for what goes into nothing that is drawn."""

    @property
    def hollow(self) -> bool:
        """True for a first round that goes around more than a ring."""
        return self.inner > RING


def corners_of(rows: tuple[Placed, ...]) -> list[Corners]:
    """For each round where its corners are among its elements; () for one that is drawn as a circle."""
    found = [_flagged(placed.worked) for placed in rows]
    none: list[Corners] = [()] * len(rows)
    last = next((nth for nth in range(len(rows) - 1, -1, -1) if found[nth]), None)
    # Along a piece only an edging has corners; what is worked on from an edge is a tube, whatever its waves.
    if last is not None and len(found[last]) != 4 and around_a_piece(rows[0].worked):
        return none
    if last is None or not FEWEST <= len(found[last]) <= MOST:
        return none
    many = len(found[last])
    out = list(none)
    out[last] = found[last]
    for nth in range(last - 1, -1, -1):
        own = found[nth] if len(found[nth]) == many else ()
        out[nth] = _under(rows[nth], rows[nth + 1], out[nth + 1]) or own
        if not out[nth]:
            break
    if sum(map(bool, out)) < 2 and many not in _ALONE:
        return none
    for nth in range(last + 1, len(rows)):
        out[nth] = _over(rows[nth - 1], rows[nth], out[nth - 1])
        if not out[nth]:
            break
    return out


def around_a_piece(row: WorkedRow) -> bool:
    """True for a first round worked along the edges of something made before, on no ring."""
    return any(element.kind != CH for element in row.below)


def _flagged(row: WorkedRow) -> Corners:
    """The corners that the round itself makes."""
    elements = row.elements
    corners = [at for at, element in enumerate(elements) if element.corner]
    if any(elements[at].kind == SP for at in corners):
        widest = max(elements[at].chains for at in corners if elements[at].kind == SP)
        corners = [at for at in corners if elements[at].kind == SP and elements[at].chains == widest]
    if len(corners) < FEWEST or all(_is_petal(elements, at) for at in corners):
        return ()
    edges = [b - a for a, b in pairwise(corners)]
    if len(elements) - corners[-1] + corners[0] > 1.7 * median(edges):
        return (AT_JOIN, *corners)
    return tuple(corners)


def _is_petal(elements: tuple[Element, ...], at: int) -> bool:
    """True when what is made in one place begins and ends low and is tall between: (sc, hdc, 3 dc, hdc, sc)."""
    group = elements[at].group
    stitches = [e for e in elements if e.is_stitch and group and e.group == group]
    if len(stitches) < 5:
        return False
    tall = max(height_of(e.kind) for e in stitches)
    return max(height_of(stitches[0].kind), height_of(stitches[-1].kind)) <= _PETAL * tall


def _under(before: Placed, row: Placed, corners: Corners) -> Corners:
    """What the corners of a round stand in, when that makes corners of the round before it."""
    elements = before.worked.elements
    order = matched(before.worked, row.worked, True)
    found: set[int] = set()
    for corner in corners:
        into = stands_in(row.worked, corner)
        places = {order[place] for place in into if 0 <= place < len(order)} - {None}
        if len(places) != 1:
            return ()
        found |= {place for place in places if place is not None}
    spaces = {at: element.chains for at, element in enumerate(elements) if element.kind == SP}
    if len(found) != len(corners) or not found <= spaces.keys():
        return ()
    least = min(spaces[at] for at in found)
    others = [chains for at, chains in spaces.items() if at not in found]
    return tuple(sorted(found)) if not others or least > max(others) else ()


def stands_in(row: WorkedRow, corner: float) -> tuple[int, ...]:
    """What a corner was worked into: a stitch its own; a space what the stitches on both its sides share, or what the
    only one of them went into that went into anything. () when nothing tells, as of a space between two stitches."""
    if corner >= 0 and row.elements[int(corner)].into:
        return row.elements[int(corner)].into
    before, behind = _beside_corner(row, corner)
    if before and behind:
        return tuple(place for place in before if place in behind)
    return behind or before


def _beside_corner(row: WorkedRow, corner: float) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """What the stitches on both sides of a corner went into."""
    many = len(row.elements)
    before, behind = (row.elements[int(corner // 1) % many].into, row.elements[int(corner + 1) % many].into)
    return (row.elements[int(corner) - 1].into if corner >= 0 else before), behind


def _over(before: Placed, row: Placed, corners: Corners) -> Corners:
    """Of a round without corners of its own: what stands in the corners below, or nearest to them."""
    order = matched(before.worked, row.worked, True)
    around = len(before.worked.elements)
    stood = [
        (at, below)
        for at, element in enumerate(row.worked.elements)
        for into in element.into
        if 0 <= into < len(order) and (below := order[into]) is not None
    ]
    found: list[int] = []
    for corner in corners if stood else ():
        far = [min((below - corner) % around, (corner - below) % around) for _, below in stood]
        nearest = [at for (at, _), one in zip(stood, far, strict=True) if one == min(far)]
        found.append(nearest[len(nearest) // 2])
    return tuple(sorted(found)) if len(set(found)) == len(corners) else ()


def sides_of(corners: Corners, many: int) -> list[tuple[int, ...]]:
    """The elements between each corner and the next, in working order; the last side goes on to the first corner.

    >>> sides_of((1, 3), 5)
    [(2,), (4, 0)]
    """
    ends = [*corners[1:], corners[0] + many]
    return [
        tuple(at % many for at in range(int(first // 1) + 1, int(-(-end // 1))))
        for first, end in zip(corners, ends, strict=True)
    ]


def room_along(row: WorkedRow, corners: Corners, widths: list[float], slot: float) -> list[float]:
    """Points that each side has to be long; the round's number stands before its first element."""
    out = []
    for nth, side in enumerate(sides_of(corners, len(widths))):
        ends = (corners[nth], corners[(nth + 1) % len(corners)])
        out.append(
            sum(widths[at] for at in side)
            + sum(_half(row, widths, end) for end in ends)
            + (slot if 0 in side else 0.0)
        )
    return out


def along_sides(
    line: Outline,
    row: WorkedRow,
    corners: Corners,
    slots: tuple[int, int],
    widths: list[float],
    slot: float,
    outer: float,
    wished: list[list[float | None]],
) -> tuple[float, ...]:
    """The turn of each element.

    `slots`: the outline's corner where the first of `corners` is, and 1 or -1, the way the round runs. `wished`: for
    each side, for each of its elements, points past the side's middle where it would stand; None for no wish.
    """
    first, way = slots
    turns = [0.0] * len(widths)
    for nth, side in enumerate(sides_of(corners, len(widths))):
        corner = first + way * nth
        across = long(line, (corner if way > 0 else corner - 1) % line.corners, outer)
        begin, end = corners[nth], corners[(nth + 1) % len(corners)]
        least, along = [], _half(row, widths, begin)
        for one in side:
            along += slot if one == 0 else 0.0
            least.append(along + widths[one] / 2)
            along += widths[one]
        slack = across - along - _half(row, widths, end)
        most = [place + slack for place in least]
        places = _placed(row, side, (begin, end), across, (least, most), wished[nth])
        for one, place in zip(side, places, strict=True):
            whole = way * FULL if begin > one else 0.0
            turns[one] = corner_turn(line, corner) + way * place / across * FULL / line.corners - whole
        if begin >= 0:
            turns[int(begin)] = corner_turn(line, corner)
    return tuple(turns)


def _placed(
    row: WorkedRow,
    side: tuple[int, ...],
    ends: tuple[float, float],
    across: float,
    bounds: tuple[list[float], list[float]],
    wished: list[float | None],
) -> list[float]:
    """Points from the corner: near what each stands on, the corner's own group close to it, none too near another."""
    least, most = bounds
    if not side:
        return []
    if all(wish is None for wish in wished):
        # nothing to stand over: evenly from corner to corner
        return [
            low + (high - low) * (nth + 0.5) / len(side)
            for nth, (low, high) in enumerate(zip(least, most, strict=True))
        ]
    wishes: list[float | None] = [None if wish is None else across / 2 + wish for wish in wished]
    for which, bound in zip(ends, bounds, strict=True):
        for nth in _beside(row, side, which, bound is least):
            wishes[nth] = bound[nth]
    gaps = [b - a for a, b in pairwise(least)]
    widths = [min(gaps, default=1.0)] * len(side)
    free = spread(filled(wishes, widths), gaps)
    return [min(max(place, low), high) for place, low, high in zip(free, least, most, strict=True)]


def _beside(row: WorkedRow, side: tuple[int, ...], corner: float, begins: bool) -> list[int]:
    """Which of a side's elements are made in the corner that it begins or ends with."""
    at = stands_in(row, corner)
    order = range(len(side)) if begins else range(len(side) - 1, -1, -1)
    out: list[int] = []
    for nth in order:
        element = row.elements[side[nth]]
        if element.kind != HIDDEN and (not at or element.into != at):
            break
        out.append(nth)
    return out


def first_corner(
    line: Outline,
    row: WorkedRow,
    before: Stood | None,
    parents: list[int | None],
    corners: Corners,
    way: int,
) -> tuple[int, float]:
    """The outline's corner where the round's first one is, and radians from what it stands on to there."""
    beside = 0 if corners[0] < 0 else 1
    if before is None and line.corners == 4 and around_a_piece(row):
        # An edging begins along the last row, which lies at the top.
        return (2 if way > 0 else 3), 0.0
    if before is None:
        return (beside if way > 0 else 1 - beside), 0.0
    for nth, corner in enumerate(corners):
        if corner < 0:
            continue
        known = [
            turn
            for into in stands_in(row, corner)
            or [place for side in _beside_corner(row, corner) for place in side]
            if 0 <= into < len(parents) and (turn := turn_of(before, parents[into])) is not None
        ]
        if known:
            middle = mean(known)
            slot = round(middle * line.corners / FULL + 0.5)
            return slot - way * nth, corner_turn(line, slot) - middle
    return (beside if way > 0 else 1 - beside), 0.0


def past_middle(
    line: Outline,
    row: WorkedRow,
    before: Stood | None,
    parents: list[int | None],
    corners: Corners,
    slots: tuple[int, int],
) -> list[list[float | None]]:
    """For each side, where each of its elements would stand straight over what it was worked into."""
    out: list[list[float | None]] = []
    for nth, side in enumerate(sides_of(corners, len(row.elements))):
        corner = slots[0] + slots[1] * nth
        begin, end = (at(line, corner_turn(line, one), 100.0) for one in (corner, corner + slots[1]))
        across = hypot(end[0] - begin[0], end[1] - begin[1])
        dx, dy = (end[0] - begin[0]) / across, (end[1] - begin[1]) / across
        wishes: list[float | None] = []
        for one in side:
            tops = [
                at(before.line, before.turns[index], before.reach[index])
                for into in row.elements[one].into
                if before is not None and 0 <= into < len(parents) and (index := parents[into]) is not None
            ]
            wishes.append(sum(x * dx + y * dy for x, y in tops) / len(tops) if tops else None)
        out.append(wishes)
    return out


def turn_of(before: Stood | None, index: int | None) -> float | None:
    return None if before is None or index is None else before.turns[index]


def mean(turns: list[float]) -> float:
    """The middle of angles that lie near each other."""
    first = turns[0]
    near = [first + (turn - first + pi) % FULL - pi for turn in turns]
    return sum(near) / len(near)


def _half(row: WorkedRow, widths: list[float], corner: float) -> float:
    """Room on either side of a corner; low stitches of two sides would run into each other there."""
    if corner < 0:
        return 0.0
    at = int(corner)
    beside = row.elements[(at + 1) % len(row.elements)]
    low = height_of(beside.kind if beside.is_stitch else "sc") <= height_of("sc")
    least = 0.0 if not low else _LOW_SPACE if row.elements[at].kind == SP else _LOW_STITCH
    return max(widths[at] / 2, least)
