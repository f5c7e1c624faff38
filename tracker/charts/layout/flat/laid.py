"""Flat pieces as stitch charts. Rows come in; a Laid chart goes out, drawn for the right hand.

Each stitch stands over what it was worked into, and the rows lie as they do on the table: straight where nothing pulls
them, up and down where increases push and decreases draw together.
"""

from collections.abc import Mapping

from tracker.charts.drawing import Edge, Mark, Ring
from tracker.charts.layout.colours import Colours
from tracker.charts.layout.flat.across import Lying, lying, over
from tracker.charts.layout.flat.band import lit_over, lit_under, painted
from tracker.charts.layout.flat.drawn import AIR, NO_DEEP, Standing, depths_of, drawn
from tracker.charts.layout.flat.wave import Line, drops_of, eased, line_of, narrowed, room_for, slopes_of
from tracker.charts.layout.stand import Brush, Point, lying_chain
from tracker.charts.media.bounds import bounds_of
from tracker.charts.signs.symbols import STITCH, height_of
from tracker.fabric.model import CH, SP, Placed
from tracker.records import dataclass, replace

_LEANING = 9.0
"""Room for the slant of low stitches that stand aside of what they go into."""
_FAR_IN = 2 * STITCH
"""Points within the widest row from which a row's number no longer stands at the chart's side."""
_LETTER = 6.0
"""Room for the letter of a colour that begins within a row."""
_RING = 4
"""Things below the first row, at least, when it stands on a chain or on a row and not in a ring."""
_SOON = 3
"""Rows within which a piece begins to rise and fall when what it stands on already does."""


@dataclass(frozen=True, slots=True)
class Laid:
    """A stitch chart with every point at its place, to be framed and mirrored."""

    marks: tuple[Mark, ...]
    edges: tuple[Edge, ...]
    rings: tuple[Ring, ...]
    box: tuple[float, float, float, float]
    """Left, top, right, bottom of all that was drawn."""
    brush: Brush


def flat(
    rows: tuple[tuple[int, Placed], ...],
    begins: tuple[str, ...],
    colours: Colours,
    lit: tuple[int, int] | None,
    deep: Mapping[str, int] = NO_DEEP,
) -> Laid:
    """The rows, the first at the bottom. `deep`: rows that stitches of the pattern's own reach down."""
    brush = Brush()
    under: list[Mark] = []
    above: list[Mark] = []
    edges: list[Edge] = []
    ends: list[tuple[float, float]] = []
    tops: tuple[Point, ...] = ()
    lie = lying(rows, begins)
    slopes = slopes_of(lie)
    narrow = narrowed(slopes)
    lines = [_lowest(lie, slopes, narrow)]
    for nth, one in enumerate(lie):
        # Onto a chain that rises and falls already the first row adds nothing of its own: its ends are often plain.
        slope = slopes[nth] if nth or lines[0].straight else ()
        letters = colours.rows.get(one.index, ())
        standing = _standing(one, slope, narrow, lines, tops, len(set(letters)) > 1, deep)
        if one.order is None and one.row.below and one.row.below[0].kind == CH:
            _foundation(brush, standing)
        tops = drawn(brush, standing)
        xs = standing.xs
        left, right = (min(xs) - STITCH / 2, max(xs) + STITCH / 2) if xs else (0.0, 0.0)
        if letters:
            under += painted(letters, standing, colours)
        is_lit = lit is not None and lit[0] == one.index
        if is_lit and lit is not None:
            under.append(lit_under(standing, (left, right)))
            above += lit_over(standing, tops, (left, right), lit[1])
        for text, side, is_number in _sides(one, letters):
            x = (min if side == "left" else max)(xs, default=0.0)
            edges.append(
                Edge(text, _middle(standing, x), side, is_lit and is_number, None, _course(standing))
            )
            ends.append((left, right))
        lines.append(standing.line)
    marks = (*under, *brush.marks, *above)
    return Laid(marks, _beside(edges, ends), (), box_of(marks, brush), brush)


def _sides(one: Lying, letters: tuple[str, ...]) -> list[tuple[str, str, bool]]:
    """What stands beside a row, at which side, and whether that is its number."""
    mark = f" {one.row.side}" if one.row.side else ""
    name = one.placed.label.split()[-1] if one.placed.number is not None else one.placed.label
    out = [(f"{name}{mark}", one.side, True)]
    if letters and len(set(letters)) == 1:
        out.append((letters[0], "left" if one.side == "right" else "right", False))
    return out


def _middle(standing: Standing, x: float) -> float:
    return (standing.line.at(x) + standing.below.at(x)) / 2


def _course(standing: Standing) -> tuple[Point, ...]:
    """Points along the row's middle, where it is not straight."""
    if standing.line.straight and standing.below.straight:
        return ()
    return tuple((x, _middle(standing, x)) for x in sorted(standing.xs))


def _lowest(lie: list[Lying], slopes: list[tuple[float, ...]], narrow: float) -> Line:
    """The line that the first row stands on: straight, unless the piece rises and falls from there on."""
    straight = Line(0.0)
    soon = [nth for nth, slope in enumerate(slopes[:_SOON]) if slope]
    if not soon or len(lie[0].row.below) < _RING:
        return straight
    nth = soon[min(1, len(soon) - 1)] if soon[0] == 0 else soon[0]
    return line_of(0.0, drops_of(lie[nth], tuple(x * narrow for x in lie[nth].xs), slopes[nth], straight))


def _standing(
    one: Lying,
    slope: tuple[float, ...],
    narrow: float,
    lines: list[Line],
    before: tuple[Point, ...],
    lettered: bool,
    deep: Mapping[str, int],
) -> Standing:
    """The row with the lines that it lies between. `before`: the tops of the row drawn last."""
    below = lines[-1]
    xs = tuple(x * narrow for x in one.xs)
    unders = tuple(None if x is None else x * narrow for x in one.unders)
    drops = drops_of(one, xs, slope, below)
    letter = _LETTER if lettered else 0.0
    if drops:
        if slope:
            drops = eased(one, xs, unders, below, drops)
        high = room_for(one, xs, unders, below, drops) + AIR + letter
    else:
        high = max((height_of(e.kind) for e in one.row.elements if e.is_stitch), default=height_of("sc"))
        high += AIR + letter + (_LEANING if _leans(one) else 0.0)
    if one.order is None:
        feet: tuple[Point | None, ...] = tuple(None if x is None else (x, below.at(x)) for x in unders)
    else:
        feet = tuple(None if at is None else before[at] for at in one.order)
    deeper = {at: lines[max(-down, -len(lines))] for at, down in depths_of(one.row, deep).items()}
    return Standing(one, xs, feet, below, line_of(below.y - high, drops), AIR + letter, deeper)


def _foundation(brush: Brush, standing: Standing) -> None:
    """The foundation chain; chains that stand up as the first stitch, or are skipped with it, are not drawn in it."""
    row = standing.lying.row
    used = [e.into[0] for e in row.elements if e.into]
    first = min(used, default=0)
    for element in row.elements:
        if element.into:
            break
        if element.kind == SP:
            first -= element.chains
    shown = tuple(place for place in standing.feet[max(0, first) :] if place is not None)
    lying_chain(brush, shown, (0.0,) * len(shown))


def _leans(one: Lying) -> bool:
    """True when many low stitches stand aside of what they go into: lines that lead there need room to slant."""
    aside = [
        abs(x - foot) > 4.0
        for at, (element, x) in enumerate(zip(one.row.elements, one.xs, strict=True))
        if element.is_stitch
        and height_of(element.kind) <= height_of("sc")
        and (foot := over(one.row, at, one.unders)) is not None
    ]
    return sum(aside) > len(aside) / 3


def _beside(edges: list[Edge], ends: list[tuple[float, float]]) -> tuple[Edge, ...]:
    """What stands at the side of a row that ends far within the widest one stands beside that row."""
    far = min((left for left, _ in ends), default=0.0), max((right for _, right in ends), default=0.0)
    out = []
    for edge, (left, right) in zip(edges, ends, strict=True):
        within = (left - far[0] if edge.side == "left" else far[1] - right) > _FAR_IN
        out.append(replace(edge, ends=(left, right)) if within else edge)
    return tuple(out)


def box_of(marks: tuple[Mark, ...], brush: Brush) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of what was drawn."""
    boxes = [bounds_of(mark, brush.symbols) for mark in marks]
    if not boxes:
        return 0.0, -20.0, 20.0, 0.0
    return (
        min(b[0] for b in boxes),
        min(b[1] for b in boxes),
        max(b[2] for b in boxes),
        max(b[3] for b in boxes),
    )
