"""Rounds as circles from the centre. Rows come in; a Laid chart goes out, drawn for the right hand: counter-clockwise.

Each stitch stands outside what it was worked into. A round is as high as its tallest stitch, and wider when its
stitches would crowd each other; the first round begins at the bottom.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from math import cos, hypot, pi, sin

from tracker.charts.drawing import INK, LIT, PALE, PAPER, Mark, Ring, Shape, Words, ellipse, rectangle
from tracker.charts.layout.below import matched
from tracker.charts.layout.colours import Colours, tint
from tracker.charts.layout.flat import NO_DEEP, Laid, box_of, depths_of, loops_of, room_of, together
from tracker.charts.layout.spread import filled, spread
from tracker.charts.layout.stand import Brush, Point, arch, lying_chain, stand
from tracker.charts.letters import length_of
from tracker.charts.symbols import height_of
from tracker.fabric.model import CH, HIDDEN, SP, Element, Placed, WorkedRow

_AIR = 5.0
_NUMBER = 5.5
"""Height of a round's number."""
_FULL = 2 * pi
_BEGIN = pi / 2
"""Angle of the first stitch, clockwise from the right as y goes down: the bottom."""


@dataclass(frozen=True, slots=True)
class _Stood:
    worked: WorkedRow
    turns: tuple[float, ...]
    """Angle of each element, counter-clockwise growing, from the bottom."""
    reach: tuple[float, ...]
    """Distance of its top from the centre."""


def rounds(
    rows: tuple[tuple[int, Placed], ...],
    colours: Colours,
    lit: tuple[int, int] | None,
    deep: Mapping[str, int] = NO_DEEP,
) -> Laid:
    """The rounds, the first in the middle. `deep`: rounds that stitches of the pattern's own reach down."""
    brush = Brush()
    under: list[Mark] = []
    over: list[Mark] = []
    rings: list[Ring] = []
    before: _Stood | None = None
    inner, way = 7.0, 1
    first = rows[0][1].worked
    edge = sum(map(_room, first.elements)) / _FULL - height_of("sc")
    if around_a_piece(first) or first.below and edge > 30:
        # a piece lies in the middle, or nothing, as in a tube on a chain; the round is worked along that edge
        inner = max(30.0, edge)
        under.append(Shape(ellipse(0, 0, inner), stroke=PALE, width=1.2))
        if around_a_piece(first):
            over.append(Words("the piece", 0.0, 3.0, 7.0, "middle", INK))
    else:
        over.append(Shape(ellipse(0, 0, 4.5), stroke=INK, width=1.2))
    inners: list[float] = []
    for nth, (index, placed) in enumerate(rows):
        row = placed.worked
        if nth and row.turned:
            way = -way
        high = max((height_of(e.kind) for e in row.elements if e.is_stitch), default=height_of("sc"))
        widths = [_room(element) for element in row.elements]
        number = placed.label.split()[-1] if placed.number is not None else placed.label
        inners.append(inner)
        side = placed.worked.side or "" if any(other.worked.turned for _, other in rows[1:]) else ""
        letters = colours.rows.get(index, ())
        said = " ".join(word for word in (number, letters[0] if letters else "", side) if word)
        # room for the round's number between its last stitch and its first
        slot = length_of(said, _NUMBER) + 4.0
        outer = max(inner + high, (sum(widths) + slot) / _FULL)
        parents = _parents(before, row)
        turns = _around(widths, slot, way)
        if before is not None:
            turns = _settled(row, before, parents, turns, widths, slot, outer)
        reaches = {at: inners[max(-down, -len(inners))] for at, down in depths_of(row, deep).items()}
        stood = _drawn(brush, row, before, parents, turns, (inner, outer, high), reaches)
        middle = (inner + outer) / 2
        if lit is not None and lit[0] == index:
            under.insert(0, Shape(ellipse(0, 0, middle), stroke=LIT, width=outer - inner + 3))
            for edge in (inner - 2, outer + 2):
                over.append(Shape(ellipse(0, 0, edge), stroke=INK, width=2.2))
            over += _place(row, stood, lit[1])
        under += _painted(letters, turns, inner, outer, colours) if letters else []
        over += _number(said, turns[0] if turns else 0.0, middle, way)
        rings.append(Ring(number, 0.0, 0.0, middle))
        under.append(Shape(ellipse(0, 0, outer + _AIR / 2), stroke=PALE, width=0.4))
        before, inner = stood, max(outer, max(stood.reach, default=outer) - 2) + _AIR
    marks = (*under, *brush.marks, *over)
    return Laid(marks, (), tuple(rings), box_of((*marks,), brush), brush)


def _room(element: Element) -> float:
    """Points along the circle; chains may bow outwards, so they ask for less than their length."""
    return min(element.chains * 3.5 + 2.0, 14.0) if element.kind == SP else room_of(element) * 0.85


def at(turn: float, reach: float) -> Point:
    """The point at an angle (counter-clockwise from the bottom) and a distance from the centre.

    >>> [round(value) for value in at(pi / 2, 10)]
    [10, 0]
    """
    return reach * cos(_BEGIN - turn), reach * sin(_BEGIN - turn)


def _parents(before: _Stood | None, row: WorkedRow) -> list[int | None]:
    if before is None or row.below and row.below[0].kind == CH:
        return [None] * len(row.below)
    return matched(before.worked, row, True)


def _turn_of(before: _Stood | None, index: int | None) -> float | None:
    return None if before is None or index is None else before.turns[index]


def _around(widths: list[float], slot: float, way: int) -> tuple[float, ...]:
    """Evenly around, the number's room at the bottom; `_settled` moves each towards what it stands on."""
    total = sum(widths) + slot
    along, out = 0.0, []
    for width in widths:
        out.append(way * _FULL * (along + width / 2 + slot / 2) / total)
        along += width
    return tuple(out)


def _settled(
    row: WorkedRow,
    before: _Stood,
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
            if 0 <= into < len(parents) and (turn := _turn_of(before, parents[into])) is not None
        ]
        if not turns:
            wished.append(None)
            continue
        middle = _mean(turns) * way
        if last is not None:
            # Unrolled: going on around, never back.
            while middle < last - pi:
                middle += _FULL
            while middle > last + pi:
                middle -= _FULL
        wished.append(middle)
        last = middle
    known = [turn for turn in wished if turn is not None]
    if not known:
        return even
    if not any(element.kind == SP for element in row.elements):
        # A round without spaces lies evenly; only where it begins is told by what it stands on.
        shift = _mean([wish - own * way for wish, own in zip(wished, even, strict=True) if wish is not None])
        return tuple(own + shift * way for own in even)
    room = [width / max(outer, 1.0) for width in widths]
    full = _filled_around(_fanned(row, wished, room), room)
    gaps = [(a + b) / 2 for a, b in pairwise(room)]
    placed = spread(full, gaps)
    if placed[-1] - placed[0] > _FULL - (room[0] + room[-1]) / 2 - slot / max(outer, 1.0) + 1e-6:
        flat = [turn * way for turn in even]
        apart = [wish - own for wish, own in zip(wished, flat, strict=True) if wish is not None]
        shift = _mean(apart)
        placed = [own + shift for own in flat]
    return tuple(turn * way for turn in placed)


def _filled_around(wished: list[float | None], room: list[float]) -> list[float]:
    """Places for what has none; after the last that has one it goes on to the first, a whole turn further."""
    first = next(nth for nth, turn in enumerate(wished) if turn is not None)
    many = len(wished)
    beyond: list[float | None] = [None if turn is None else turn + _FULL for turn in wished[: first + 1]]
    full = filled([*wished[first:], *beyond], [*room[first:], *room[: first + 1]])
    return [*(turn - _FULL for turn in full[many - first : many]), *full[: many - first]]


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


def _mean(turns: list[float]) -> float:
    """The middle of angles that lie near each other."""
    first = turns[0]
    near = [first + (turn - first + pi) % _FULL - pi for turn in turns]
    return sum(near) / len(near)


def _drawn(
    brush: Brush,
    row: WorkedRow,
    before: _Stood | None,
    parents: list[int | None],
    turns: tuple[float, ...],
    heights: tuple[float, float, float],
    deeper: Mapping[int, float],
) -> _Stood:
    inner, outer, _ = heights
    loops = loops_of(row)
    reach = [outer] * len(turns)
    for nth, element in enumerate(row.elements):
        if element.kind == SP:
            continue
        top = at(turns[nth], outer)
        if element.kind == "picot":
            stand(brush, element, (top,), at(turns[nth], outer + 8), "", at(turns[nth], 1.0))
            continue
        feet = []
        for into in element.into:
            index = parents[into] if 0 <= into < len(parents) else None
            if before is not None and index is not None:
                low = deeper.get(nth, max(before.reach[index], inner - _AIR) + 2.0)
                feet.append(at(before.turns[index], low))
        if element.kind == HIDDEN:
            low = min(outer, inner + 8.0 * max(1, element.chains))
            stand(brush, element, (at(turns[nth], inner),), at(turns[nth], low))
            reach[nth] = low
            continue
        stand(
            brush,
            element,
            tuple(feet) or (at(turns[nth], inner),),
            top,
            loops.get(nth, ""),
            at(turns[nth], 1.0),
        )
    for nth, element in enumerate(row.elements):
        if element.kind == SP and turns:
            left, right = turns[nth - 1], turns[(nth + 1) % len(turns)]
            if len(turns) == 1:
                left, right = turns[0] - pi / 2, turns[0] + pi / 2
            here = turns[nth]
            up = (cos(_BEGIN - here), sin(_BEGIN - here))
            places, ways, crown, room = arch(at(left, outer), at(right, outer), element.chains or 1, up)
            lying_chain(brush, places, ways, room)
            reach[nth] = hypot(*crown)
    return _Stood(row, turns, tuple(reach))


def around_a_piece(row: WorkedRow) -> bool:
    """True for a first round worked along the edges of something made before, on no ring."""
    return any(element.kind != CH for element in row.below)


def _number(said: str, turn: float, middle: float, way: int) -> list[Mark]:
    """The round's number just before its first stitch, so that the way of the round is seen."""
    long = length_of(said, _NUMBER)
    back = turn - way * min(0.6, (5.0 + long / 2 + 2.0) / max(middle, 8.0))
    x, y = at(back, middle)
    return [
        Shape(rectangle(x - long / 2 - 1.5, y - 4.5, long + 3, 9), fill=PAPER),
        Words(said, x, y + 2.5, _NUMBER, "middle", "#a02020", bold=True),
    ]


def _painted(
    letters: tuple[str, ...], turns: tuple[float, ...], inner: float, outer: float, colours: Colours
) -> list[Mark]:
    """The colours under the signs: a whole ring, or a wedge of it for each stitch."""
    out: list[Mark] = []
    if len(set(letters)) == 1 and letters[0]:
        return [
            Shape(
                ellipse(0, 0, (inner + outer) / 2),
                stroke=tint(colours.paints[letters[0]]),
                width=outer - inner + _AIR,
            )
        ]
    for nth, letter in enumerate(letters):
        if not letter or len(turns) < 2:
            continue
        half = abs((turns[(nth + 1) % len(turns)] - turns[nth] + pi) % _FULL - pi) / 2
        corners = [
            at(turns[nth] + sign * half, reach)
            for sign, reach in ((-1, inner), (-1, outer), (1, outer), (1, inner))
        ]
        path = (*((("L" if k else "M"), corner) for k, corner in enumerate(corners)), ("Z", ()))
        out.append(Shape(path, fill=tint(colours.paints[letter])))
        if letters[nth - 1] != letter:
            x, y = at(turns[nth], outer - 2)
            out.append(Words(letter, x, y + 2, 4.5, "middle", INK))
    return out


def _place(row: WorkedRow, stood: _Stood, place: int) -> list[Mark]:
    counted = [nth for nth, element in enumerate(row.elements) if element.counts]
    if not 1 <= place <= len(counted):
        return []
    nth = counted[place - 1]
    x, y = at(stood.turns[nth], stood.reach[nth])
    return [Shape(ellipse(x, y, 8), stroke=INK, width=3.0)]
