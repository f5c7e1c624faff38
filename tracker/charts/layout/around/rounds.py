"""The chart of rounds from the centre, as circles, or as polygons where they have corners. Rows come in; a Laid chart
goes out, drawn for the right hand: counter-clockwise.
"""

from collections.abc import Mapping
from math import pi

from tracker.charts.drawing import INK, LIT, PALE, PAPER, Mark, Ring, Shape, Words, ellipse, rectangle
from tracker.charts.layout.around.corners import Stood, around_a_piece
from tracker.charts.layout.around.places import AIR, NUMBER, placed_around
from tracker.charts.layout.colours import Colours, tint
from tracker.charts.layout.flat.drawn import NO_DEEP
from tracker.charts.layout.flat.laid import Laid, box_of
from tracker.charts.layout.stand import Brush
from tracker.charts.outline import FULL, Outline, at, below, path, per_radian, up
from tracker.charts.signs.letters import length_of
from tracker.fabric.model import Placed, WorkedRow


def rounds(
    rows: tuple[tuple[int, Placed], ...],
    colours: Colours,
    lit: tuple[int, int] | None,
    deep: Mapping[str, int] = NO_DEEP,
) -> Laid:
    """The rounds, the first in the middle. `deep`: rounds that stitches of the pattern's own reach down."""
    brush = Brush()
    both_sides = any(placed.worked.turned for _, placed in rows[1:])
    numbers, saids = [], []
    for index, placed in rows:
        letters = colours.rows.get(index, ())
        numbers.append(placed.label.split()[-1] if placed.number is not None else placed.label)
        side = placed.worked.side or "" if both_sides else ""
        saids.append(" ".join(word for word in (numbers[-1], letters[0] if letters else "", side) if word))
    stoods = placed_around([placed for _, placed in rows], saids, brush, deep)
    under: list[Mark] = []
    over: list[Mark] = []
    rings: list[Ring] = []
    _middle(stoods[0], under, over)
    for nth, (index, placed) in enumerate(rows):
        stood = stoods[nth]
        line, inner, outer = stood.line, stood.inner, stood.outer
        letters = colours.rows.get(index, ())
        middle = (inner + outer) / 2
        if lit is not None and lit[0] == index:
            under.insert(0, Shape(path(line, middle), stroke=LIT, width=outer - inner + 3))
            for edge in (inner - 2, outer + 2):
                over.append(Shape(path(line, edge), stroke=INK, width=2.2))
            over += _place(placed.worked, stood, lit[1])
        if letters and len(set(letters)) == 1 and line.corners and letters[0]:
            # under all that lies within it: a band would be round at its corners
            under.insert(0, Shape(path(line, outer + AIR / 2), fill=tint(colours.paints[letters[0]])))
        elif letters:
            under += _painted(letters, line, stood.turns, inner, outer, colours)
        over += _number(saids[nth], stood)
        places = tuple(at(line, one * FULL / 96, middle) for one in range(96)) if line.corners else ()
        rings.append(Ring(numbers[nth], 0.0, 0.0, middle, places))
        under.append(Shape(path(line, outer + AIR / 2), stroke=PALE, width=0.4))
    marks = (*under, *brush.marks, *over)
    return Laid(marks, (), tuple(rings), box_of((*marks,), brush), brush)


def _middle(first: Stood, under: list[Mark], over: list[Mark]) -> None:
    """What the first round goes around: a ring, or the edge of a piece or of nothing."""
    line, inner = first.line, first.inner
    if first.hollow:
        # a piece lies in the middle, or nothing, as in a tube on a chain; the round is worked along that edge
        under.append(Shape(path(line, inner), fill=PAPER))
        under.append(Shape(path(line, inner), stroke=PALE, width=1.2))
        if around_a_piece(first.worked):
            over.append(Words("the piece", 0.0, 3.0, 7.0, "middle", INK))
    else:
        oblong = line.wide or line.high
        over.append(Shape(path(line, 4.5) if oblong else ellipse(0, 0, 4.5), stroke=INK, width=1.2))


def _number(said: str, stood: Stood) -> list[Mark]:
    """The round's number just before its first stitch, so that the way of the round is seen; or outside of that."""
    long = length_of(said, NUMBER)
    line, outer, turn = stood.line, stood.outer, stood.turns[0] if stood.turns else 0.0
    if stood.apart:
        away = up(line, turn)
        # As far out as the words reach that way.
        out = outer + AIR + 3.0 + abs(away[0]) * long / 2
        x, y = at(line, turn, out)
    else:
        back = turn - stood.way * min(0.6, (5.0 + long / 2 + 2.0) / per_radian(line, turn, max(outer, 8.0)))
        x, y = below(line, back, outer, (stood.inner + outer) / 2)
    return [
        Shape(rectangle(x - long / 2 - 1.5, y - 4.5, long + 3, 9), fill=PAPER),
        Words(said, x, y + 2.5, NUMBER, "middle", "#a02020", bold=True),
    ]


def _painted(
    letters: tuple[str, ...],
    line: Outline,
    turns: tuple[float, ...],
    inner: float,
    outer: float,
    colours: Colours,
) -> list[Mark]:
    """The colours under the signs: a whole ring, or a wedge of it for each stitch."""
    out: list[Mark] = []
    if len(set(letters)) == 1 and letters[0]:
        return [
            Shape(
                path(line, (inner + outer) / 2),
                stroke=tint(colours.paints[letters[0]]),
                width=outer - inner + AIR,
            )
        ]
    for nth, letter in enumerate(letters):
        if not letter or len(turns) < 2:
            continue
        half = abs((turns[(nth + 1) % len(turns)] - turns[nth] + pi) % FULL - pi) / 2
        corners = [
            at(line, turns[nth] + sign * half, reach)
            for sign, reach in ((-1, inner), (-1, outer), (1, outer), (1, inner))
        ]
        wedge = (*((("L" if k else "M"), corner) for k, corner in enumerate(corners)), ("Z", ()))
        out.append(Shape(wedge, fill=tint(colours.paints[letter])))
        if letters[nth - 1] != letter:
            x, y = at(line, turns[nth], outer - 2)
            out.append(Words(letter, x, y + 2, 4.5, "middle", INK))
    return out


def _place(row: WorkedRow, stood: Stood, place: int) -> list[Mark]:
    counted = [nth for nth, element in enumerate(row.elements) if element.counts]
    if not 1 <= place <= len(counted):
        return []
    nth = counted[place - 1]
    x, y = at(stood.line, stood.turns[nth], stood.reach[nth])
    return [Shape(ellipse(x, y, 8), stroke=INK, width=3.0)]
