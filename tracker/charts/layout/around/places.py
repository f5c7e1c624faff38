"""Where everything stands in rounds: the turn and the reach of each stitch, and the marks it is drawn with.

Worked rounds come in, the first in the middle; the same with their places go out, for the right hand:
counter-clockwise. Each stitch stands outside what it was worked into. A round is as high as its tallest stitch, and
wider when its stitches would crowd each other; the first round begins at the bottom.
"""

from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import pi

from tracker.charts.layout.around.corners import (
    RING,
    Corners,
    Stood,
    along_sides,
    around_a_piece,
    corners_of,
    first_corner,
    mean,
    past_middle,
    room_along,
    turn_of,
)
from tracker.charts.layout.below import matched, stands_on
from tracker.charts.layout.flat.across import room_of, together
from tracker.charts.layout.flat.drawn import NO_DEEP, depths_of, loops_of
from tracker.charts.layout.flat.wave import by_steps
from tracker.charts.layout.spread import filled, spread
from tracker.charts.layout.stand import Brush, along, arch, lying_chain, stand
from tracker.charts.outline import CIRCLE, FULL, Outline, at, below, reach_for, reach_of, up
from tracker.charts.signs.letters import length_of
from tracker.charts.signs.symbols import height_of
from tracker.fabric.model import CH, HIDDEN, SP, Element, Placed, WorkedRow

AIR = 5.0
"""Points between a round and the next."""
NUMBER = 5.5
"""Height of a round's number."""
_SMALL = 200.0
"""Points around below which a round is small."""
_NO_RING = 80.0
"""Points from the middle at which a first round cannot be in a ring, whatever it is worked into."""
_OBLONG = 1.25
"""Times as long as the others two sides have to be before a piece with four corners is drawn oblong."""
_STRETCHED, _CLOSER = 1.25, 0.8
"""Times its height that a stitch is drawn before its round is drawn closer, and how close at most."""


def placed_around(
    rows: Sequence[Placed], numbers: Sequence[str], brush: Brush, deep: Mapping[str, int] = NO_DEEP
) -> list[Stood]:
    """The rounds in their places. `numbers`: what stands before the first stitch of each; `deep`: rounds that stitches
    of the pattern's own reach down.
    """
    corners = corners_of(tuple(rows))
    found = Brush()
    laid, turn = _stood(rows, numbers, found, deep, corners, 0.0)
    if abs(turn) >= 0.02:
        # Circles within a square are turned so that its corners stand over what they are worked into.
        found = Brush()
        laid, _ = _stood(rows, numbers, found, deep, corners, turn)
    brush.marks, brush.symbols, brush.kinds = found.marks, found.symbols, found.kinds
    return laid


def _stood(
    rows: Sequence[Placed],
    numbers: Sequence[str],
    brush: Brush,
    deep: Mapping[str, int],
    corners: list[Corners],
    turn: float,
) -> tuple[list[Stood], float]:
    """The rounds, and by how much their circles should be turned; `turn`: how much they are."""
    out: list[Stood] = []
    polygon = _polygon(rows, corners)
    inner = _middle(rows[0].worked, corners[0], polygon if corners[0] else CIRCLE)
    way, aside = 1, 0.0
    for nth, placed in enumerate(rows):
        row = placed.worked
        line = polygon if corners[nth] else CIRCLE
        if nth and row.turned:
            way = -way
        high = max((height_of(e.kind) for e in row.elements if e.is_stitch), default=height_of("sc"))
        widths = [_room(element) for element in row.elements]
        # room for the round's number between its last stitch and its first
        slot = length_of(numbers[nth], NUMBER) + (9.0 if corners[nth] else 4.0)
        apart = bool(corners[nth]) and nth == len(rows) - 1 and high <= height_of("sc")
        if apart:
            slot = 0.0
        on = stands_on([stood.worked for stood in out], row)
        before = out[on] if on >= 0 else None
        parents = _parents(before, row)
        if corners[nth]:
            longs = room_along(row, corners[nth], widths, slot)
            start, off = first_corner(line, row, before, parents, corners[nth], way)
            if before is not None and not before.line.corners:
                aside = off
            # the sides as the outline counts them, from the bottom
            sides = [longs[(way * (own - start) - (way < 0)) % len(longs)] for own in range(len(longs))]
            outer = max(inner + high, reach_for(line, sides))
            wished = past_middle(line, row, before, parents, corners[nth], (start, way))
            turns = along_sides(line, row, corners[nth], (start, way), widths, slot, outer, wished)
        else:
            # Of a small round no more than the room of one stitch goes to the number; it is drawn wider instead.
            each = sum(widths) / max(1, len(widths))
            stands = widths[0] if row.elements and row.elements[0].kind == HIDDEN else 0.0
            share = min(slot, max(0.3 * each, each - stands)) if _is_small(widths) else slot
            outer = max(inner + high, (sum(widths) + share) / FULL * min(1.5, slot / share))
            if outer > inner + _STRETCHED * high:
                # Rather closer than longer, as on the table, where such a round ruffles.
                closer = max(inner + _STRETCHED * high, outer * _CLOSER) / outer
                widths, outer = [closer * wide for wide in widths], closer * outer
            slot = share
            turns = tuple(one + turn for one in _around(widths, slot, way))
            if before is not None:
                turns = _settled(row, before, parents, turns, widths, slot, outer)
        inners = [*(stood.inner for stood in out), inner]
        reaches = {at: inners[max(-down, -len(inners))] for at, down in depths_of(row, deep).items()}
        stood = _drawn(brush, row, line, before, parents, turns, (inner, outer, way, apart), reaches)
        out.append(stood)
        inner = max(outer, max(stood.reach, default=outer) - 2) + AIR
    return out, turn + aside


def _middle(first: WorkedRow, corners: Corners, line: Outline) -> float:
    """How far from the middle the first round begins: around a ring, or along the edge of what lies there."""
    edge = sum(map(_room, first.elements)) / FULL - height_of("sc")
    if not (around_a_piece(first) or edge > (30 if first.below else _NO_RING)):
        return RING
    if not corners:
        return max(30.0, edge)
    longs = room_along(first, corners, [_room(element) for element in first.elements], 0.0)
    return max(10.0, reach_for(line, longs) - height_of("sc"))


def _is_small(widths: list[float]) -> bool:
    """True for a round of which its number would take a good part."""
    return len(widths) > 3 and sum(widths) < _SMALL


def _polygon(rows: Sequence[Placed], corners: list[Corners]) -> Outline:
    """What the rounds with corners lie along; oblong where two sides have clearly more on them than the other two."""
    last = next((nth for nth in range(len(rows) - 1, -1, -1) if corners[nth]), None)
    if last is None:
        return CIRCLE
    many = len(corners[last])
    if many != 4 or not all(corners):
        return Outline(many)
    row = rows[last].worked
    longs = room_along(row, corners[last], [_room(element) for element in row.elements], 0.0)
    upright, flat = (longs[0] + longs[2]) / 2, (longs[1] + longs[3]) / 2
    if corners[0][0] < 0 or around_a_piece(rows[0].worked):
        # The first side lies at the bottom when the join is a corner, of an edging at the top; else the last one does.
        upright, flat = flat, upright
    if max(flat, upright) < _OBLONG * min(flat, upright):
        return Outline(4)
    return Outline(4, max(0.0, flat - upright) / 2, max(0.0, upright - flat) / 2)


def _room(element: Element) -> float:
    """Points along the circle; chains may bow outwards, so they ask for less than their length."""
    return min(element.chains * 3.5 + 2.0, 14.0) if element.kind == SP else room_of(element) * 0.85


def _parents(before: Stood | None, row: WorkedRow) -> list[int | None]:
    if before is None or row.below and row.below[0].kind == CH:
        return [None] * len(row.below)
    return matched(before.worked, row, True)


def _around(widths: list[float], slot: float, way: int) -> tuple[float, ...]:
    """Evenly around, the number's room at the bottom; `_settled` moves each towards what it stands on."""
    total = sum(widths) + slot
    along, out = 0.0, []
    for width in widths:
        out.append(way * FULL * (along + width / 2 + slot / 2) / total)
        along += width
    return tuple(out)


def _settled(
    row: WorkedRow,
    before: Stood,
    parents: list[int | None],
    even: tuple[float, ...],
    widths: list[float],
    slot: float,
    outer: float,
) -> tuple[float, ...]:
    """Each over what it was worked into, as near as the room allows; the even places turned to fit when it does not."""
    way = 1 if len(even) < 2 or even[1] >= even[0] else -1
    wished: list[float | None] = []
    last: float | None = None
    for element in row.elements:
        turns = [
            turn
            for into in element.into
            if 0 <= into < len(parents) and (turn := turn_of(before, parents[into])) is not None
        ]
        if not turns:
            wished.append(None)
            continue
        middle = mean(turns) * way
        if last is not None:
            # Unrolled: going on around, never back.
            while middle < last - pi:
                middle += FULL
            while middle > last + pi:
                middle -= FULL
        wished.append(middle)
        last = middle
    known = [turn for turn in wished if turn is not None]
    if not known:
        return even
    if not any(element.kind == SP for element in row.elements):
        # A round without spaces lies evenly; only where it begins is told by what it stands on.
        shift = mean([wish - own * way for wish, own in zip(wished, even, strict=True) if wish is not None])
        return tuple(own + shift * way for own in even)
    room = [width / max(outer, 1.0) for width in widths]
    full = _filled_around(_fanned(row, wished, room), room)
    gaps = [(a + b) / 2 for a, b in pairwise(room)]
    placed = spread(full, gaps)
    if placed[-1] - placed[0] > FULL - (room[0] + room[-1]) / 2 - slot / max(outer, 1.0) + 1e-6:
        flat = [turn * way for turn in even]
        apart = [wish - own for wish, own in zip(wished, flat, strict=True) if wish is not None]
        shift = mean(apart)
        placed = [own + shift for own in flat]
    return tuple(turn * way for turn in placed)


def _filled_around(wished: list[float | None], room: list[float]) -> list[float]:
    """Places for what has none; after the last that has one it goes on to the first, a whole turn further."""
    first = next(nth for nth, turn in enumerate(wished) if turn is not None)
    many = len(wished)
    beyond: list[float | None] = [None if turn is None else turn + FULL for turn in wished[: first + 1]]
    full = filled([*wished[first:], *beyond], [*room[first:], *room[: first + 1]])
    return [*(turn - FULL for turn in full[many - first : many]), *full[: many - first]]


def _fanned(row: WorkedRow, wished: list[float | None], room: list[float]) -> list[float | None]:
    """Stitches in one place side by side, in its middle."""
    out = list(wished)
    start = 0
    for here in range(1, len(row.elements) + 1):
        same = here < len(row.elements) and together(row.elements[start], row.elements[here])
        if same:
            continue
        middle = (start + here - 1) / 2
        for one in range(start, here):
            place = out[one]
            if place is not None and here - start > 1:
                out[one] = place + (one - middle) * (sum(room[start:here]) / (here - start))
        start = here
    return out


def _room_of(stood: Stood, index: int) -> float:
    """Points between a thing's neighbours on a circle; 0 on a round with corners."""
    if stood.line.corners or len(stood.turns) < 3:
        return 0.0
    apart = stood.turns[(index + 1) % len(stood.turns)] - stood.turns[index - 1]
    return abs((apart + pi) % FULL - pi) * stood.reach[index]


def _drawn(
    brush: Brush,
    row: WorkedRow,
    line: Outline,
    before: Stood | None,
    parents: list[int | None],
    turns: tuple[float, ...],
    heights: tuple[float, float, int, bool],
    deeper: Mapping[int, float],
) -> Stood:
    inner, outer, way, apart = heights
    loops = loops_of(row)
    highest = max((height_of(e.kind) for e in row.elements if e.is_stitch), default=1.0)
    petals = by_steps(row)
    reach = [
        inner + (outer - inner) * height_of(e.kind) / highest if petals and e.is_stitch else outer
        for e in row.elements
    ]
    spans = [(0, 0)] * len(row.elements)
    foots: list[float | None] = [None] * len(row.elements)
    for nth, element in enumerate(row.elements):
        if element.kind == SP:
            continue
        begun = len(brush.marks)
        top = at(line, turns[nth], reach[nth])
        if element.kind == "picot":
            stand(brush, element, (top,), at(line, turns[nth], outer + 8), "", up(line, turns[nth]))
            spans[nth] = (begun, len(brush.marks))
            continue
        feet, overs = [], []
        for into in element.into:
            index = parents[into] if 0 <= into < len(parents) else None
            if before is not None and index is not None:
                low = deeper.get(nth, max(before.reach[index], inner - AIR) + 2.0)
                over = before.turns[index]
                aside = (turns[nth] - over + pi) % FULL - pi
                room = _room_of(before, index)
                over += along(before.worked.elements[index], aside * reach[nth], room) / max(low, 1.0)
                feet.append(at(before.line, over, low))
                overs.append(before.turns[index])
        foots[nth] = mean(overs) if overs else None
        if element.kind == HIDDEN:
            low = min(outer, inner + 8.0 * max(1, element.chains))
            stand(
                brush, element, (below(line, turns[nth], outer, inner),), below(line, turns[nth], outer, low)
            )
            reach[nth] = low
            spans[nth] = (begun, len(brush.marks))
            continue
        stand(
            brush,
            element,
            tuple(feet) or (below(line, turns[nth], reach[nth], inner),),
            top,
            loops.get(nth, ""),
            up(line, turns[nth]),
            before is not None and not before.line.corners,
        )
        spans[nth] = (begun, len(brush.marks))
    for nth, element in enumerate(row.elements):
        if element.kind == SP and turns:
            left, right = turns[nth - 1], turns[(nth + 1) % len(turns)]
            if len(turns) == 1:
                left, right = turns[0] - pi / 2, turns[0] + pi / 2
            here = turns[nth]
            ends = at(line, left, reach[nth - 1]), at(line, right, reach[(nth + 1) % len(turns)])
            places, ways, crown, room = arch(*ends, element.chains or 1, up(line, here))
            begun = len(brush.marks)
            lying_chain(brush, places, ways, room)
            spans[nth] = (begun, len(brush.marks))
            reach[nth] = reach_of(line, crown)
    return Stood(row, line, turns, tuple(reach), inner, outer, way, apart, tuple(spans), tuple(foots))
