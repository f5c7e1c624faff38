"""Flat pieces as stitch charts. Rows come in; a Laid chart goes out, drawn for the right hand.

Each stitch stands over what it was worked into, the rows are straight, and stems lean where the count changes.
"""

from collections.abc import Mapping
from itertools import pairwise

from tracker.charts.drawing import INK, LIT, Edge, Mark, Ring, Shape, Words, rectangle
from tracker.charts.layout.below import matched
from tracker.charts.layout.colours import Colours, tint
from tracker.charts.layout.spread import filled, spread
from tracker.charts.layout.stand import Brush, Point, arch, lying_chain, stand
from tracker.charts.media.bounds import bounds_of
from tracker.charts.symbols import CHAIN, STITCH, height_of
from tracker.fabric.model import CH, HIDDEN, SP, Element, Placed, WorkedRow
from tracker.notation.tree import Group, Work
from tracker.records import dataclass, replace

NO_DEEP: Mapping[str, int] = {}
_AIR = 3.0
"""Between the rows."""
_LEANING = 9.0
"""Room for the slant of low stitches that stand aside of what they go into."""
_FAR_IN = 2 * STITCH
"""Points within the widest row from which a row's number no longer stands at the chart's side."""
_LETTER = 6.0
"""Room for the letter of a colour that begins within a row."""


@dataclass(frozen=True, slots=True)
class Laid:
    """A stitch chart with every point at its place, to be framed and mirrored."""

    marks: tuple[Mark, ...]
    edges: tuple[Edge, ...]
    rings: tuple[Ring, ...]
    box: tuple[float, float, float, float]
    """Left, top, right, bottom of all that was drawn."""
    brush: Brush


@dataclass(frozen=True, slots=True)
class _Stood:
    """A row that has its places."""

    worked: WorkedRow
    tops: tuple[Point, ...]
    """Of each element; of a space the highest point of its bow."""


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
    over: list[Mark] = []
    edges: list[Edge] = []
    before: _Stood | None = None
    y = 0.0
    bases: list[float] = []
    ends: list[tuple[float, float]] = []
    for (index, placed), side in zip(rows, begins, strict=True):
        row = placed.worked
        high = max((height_of(e.kind) for e in row.elements if e.is_stitch), default=height_of("sc")) + _AIR
        high += _LETTER if len(set(colours.rows.get(index, ()))) > 1 else 0.0
        parents = _parents(before, row, side, y, brush)
        xs = _across(row, parents, side)
        high += _LEANING if _leans(row, parents, xs) else 0.0
        is_lit = lit is not None and lit[0] == index
        bases.append(y)
        feet = {at: bases[max(-down, -len(bases))] - 1.5 for at, down in depths_of(row, deep).items()}
        tops = _drawn(brush, row, parents, xs, y, high, colours.rows.get(index, ()), feet)
        left, right = (min(xs) - STITCH / 2, max(xs) + STITCH / 2) if xs else (0.0, 0.0)
        if letters := colours.rows.get(index):
            under += _painted(letters, row, xs, y, high, colours)
        if is_lit and lit is not None:
            under.append(Shape(rectangle(left, y - high, right - left, high), fill=LIT))
            over += _lit(row, tops, (left, y - high, right - left, high), lit[1])
        mark = f" {placed.worked.side}" if placed.worked.side else ""
        name = placed.label.split()[-1] if placed.number is not None else placed.label
        edges.append(Edge(f"{name}{mark}", y - high / 2, side, is_lit))
        ends.append((left, right))
        if (letters := colours.rows.get(index)) and len(set(letters)) == 1:
            edges.append(Edge(letters[0], y - high / 2, "left" if side == "right" else "right"))
            ends.append((left, right))
        before = _Stood(row, tops)
        y -= high
    marks = (*under, *brush.marks, *over)
    return Laid(marks, _beside(edges, ends), (), box_of(marks, brush), brush)


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


def _parents(before: _Stood | None, row: WorkedRow, side: str, y: float, brush: Brush) -> list[Point | None]:
    """Where each thing of the row below has its top."""
    if before is not None:
        order = matched(before.worked, row, False)
        return [None if at is None else before.tops[at] for at in order]
    if row.below and row.below[0].kind == CH:
        return _foundation(row, side, y, brush)
    way = 1 if side == "left" else -1
    return [(way * nth * STITCH, y) for nth in range(len(row.below))]


def _foundation(row: WorkedRow, side: str, y: float, brush: Brush) -> list[Point | None]:
    """The foundation chain; chains that stand up as the first stitch, or are skipped with it, are not drawn in it."""
    way = 1 if side == "left" else -1
    places: list[Point | None] = [(way * nth * STITCH, y) for nth in range(len(row.below))]
    used = [e.into[0] for e in row.elements if e.into]
    first = min(used, default=0)
    for element in row.elements:
        if element.into:
            break
        if element.kind == SP:
            first -= element.chains
    shown = tuple(place for place in places[max(0, first) :] if place is not None)
    lying_chain(brush, shown, (0.0,) * len(shown))
    return places


def _leans(row: WorkedRow, parents: list[Point | None], xs: list[float]) -> bool:
    """True when many low stitches stand aside of what they go into: lines that lead there need room to slant."""
    aside = [
        abs(x - over) > 4.0
        for at, (element, x) in enumerate(zip(row.elements, xs, strict=True))
        if element.is_stitch
        and height_of(element.kind) <= height_of("sc")
        and (over := _over(row, at, parents)) is not None
    ]
    return sum(aside) > len(aside) / 3


def _across(row: WorkedRow, parents: list[Point | None], side: str) -> list[float]:
    """The x of each element, in the order made."""
    elements = row.elements
    if not elements:
        return []
    wished: list[float | None] = [_over(row, at, parents) for at in range(len(elements))]
    known = [x for x in wished if x is not None]
    rightwards = side == "left"
    if len(known) > 1 and known[0] != known[-1]:
        rightwards = known[-1] > known[0]
    order = list(range(len(elements))) if rightwards else list(range(len(elements)))[::-1]
    widths = [room_of(elements[at]) for at in order]
    sites = [wished[at] for at in order]
    if len(known) > 1 and not any(element.kind == SP for element in elements):
        return _evenly(order, widths, sites, max(known) - min(known))
    # Children of one place fan out around it.
    for start, end in _siblings([elements[at] for at in order]):
        middle = (start + end - 1) / 2
        for at in range(start, end):
            place = sites[at]
            if place is not None:
                sites[at] = place + (at - middle) * STITCH * 0.8
    anchored = [at for at, place in enumerate(sites) if place is not None]
    if anchored:
        full = filled(sites, widths)
        gaps = [(a + b) / 2 for a, b in pairwise(widths)]
        full = spread(full, gaps)
    else:
        full = filled(sites, widths)
    out = [0.0] * len(elements)
    for at, x in zip(order, full, strict=True):
        out[at] = x
    return out


def _evenly(order: list[int], widths: list[float], sites: list[float | None], reach: float) -> list[float]:
    """A row without spaces: side by side, no narrower than what it stands on, its middle over the middle of that."""
    along, places = 0.0, []
    for width in widths:
        places.append(along + width / 2)
        along += width
    stood = [place for place, site in zip(places, sites, strict=True) if site is not None]
    wide = stood[-1] - stood[0]
    scale = max(1.0, reach / wide) if wide else 1.0
    pairs = [(place * scale, site) for place, site in zip(places, sites, strict=True) if site is not None]
    shift = sum(site - place for place, site in pairs) / len(pairs)
    out = [0.0] * len(order)
    for at, place in zip(order, places, strict=True):
        out[at] = place * scale + shift
    return out


def _siblings(elements: list[Element]) -> list[tuple[int, int]]:
    out, start = [], 0
    for at in range(1, len(elements) + 1):
        here = at < len(elements) and together(elements[start], elements[at])
        if not here:
            if at - start > 1:
                out.append((start, at))
            start = at
    return out


def together(first: Element, other: Element) -> bool:
    """True when both were made in one place; a turning chain that counts belongs to the group beside it."""
    if first.group and first.group == other.group:
        return True
    return (first.turning or other.turning) and bool(first.into) and first.into == other.into


def _over(row: WorkedRow, at: int, parents: list[Point | None]) -> float | None:
    element = row.elements[at]
    places = [parents[into] for into in element.into if 0 <= into < len(parents)]
    xs = [place[0] for place in places if place is not None]
    if xs:
        return sum(xs) / len(xs)
    if element.turning and element.kind != SP or element.kind == HIDDEN:
        if row.below and row.below[0].kind == CH:
            # The chains that stand up: just before the first chain that is worked into, or skipped with a space.
            first = min((e.into[0] for e in row.elements if e.into), default=1)
            gap = sum(e.chains for e in row.elements[: at + 2] if e.kind == SP and e.turning)
            where = first - 1 - gap
            place = parents[where] if 0 <= where < len(parents) else None
            return place[0] if place is not None and element.kind != HIDDEN else None
        return parents[0][0] if parents and parents[0] is not None and element.kind != HIDDEN else None
    return None


def room_of(element: Element) -> float:
    """Points that an element takes along its row, at least."""
    if element.kind == HIDDEN:
        return STITCH * 0.6
    if element.kind == SP and element.group:
        # a picot between two stitches in one place stands above them
        return CHAIN * 1.5
    if element.kind == SP:
        return min(max(CHAIN, element.chains * CHAIN * 0.8), 4 * CHAIN)
    if height_of(element.kind) <= height_of("sc"):
        return STITCH * 0.8
    if element.kind in ("bo", "puff", "pop", "cl"):
        return STITCH * 1.15
    return STITCH


def _drawn(
    brush: Brush,
    row: WorkedRow,
    parents: list[Point | None],
    xs: list[float],
    y: float,
    high: float,
    letters: tuple[str, ...],
    deeper: Mapping[int, float],
) -> tuple[Point, ...]:
    loops = loops_of(row)
    top = y - high + _AIR + (_LETTER if len(set(letters)) > 1 else 0.0)
    tops: list[Point] = [(x, top) for x in xs]
    for at, element in enumerate(row.elements):
        if element.kind == SP:
            continue
        if element.kind == "picot":
            stand(brush, element, ((xs[at], top),), (xs[at], top - 8))
            continue
        feet = tuple(
            p for into in element.into if 0 <= into < len(parents) and (p := parents[into]) is not None
        )
        feet = tuple((fx, min(fy, y) - 1.5 if fy < y + 2 else y - 1.5) for fx, fy in feet) or (
            (xs[at], y - 1.5),
        )
        if at in deeper:
            feet = tuple((fx, deeper[at]) for fx, _ in feet)
        if element.kind == HIDDEN:
            low = y - min(high - _AIR, 8.0 * max(1, element.chains))
            stand(brush, element, ((xs[at], y - 1.5),), (xs[at], low))
            tops[at] = (xs[at], low)
            continue
        stand(brush, element, feet, (xs[at], top), loops.get(at, ""))
    for at, element in enumerate(row.elements):
        if element.kind == SP:
            first = tops[at - 1] if at else (xs[at] - STITCH, top)
            last = tops[at + 1] if at + 1 < len(tops) else (xs[at] + (xs[at] - first[0]), top)
            places, turns, crown, room = arch(first, last, element.chains or 1, (0.0, -1.0))
            lying_chain(brush, places, turns, room)
            tops[at] = (crown[0], crown[1])
    return tuple(tops)


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


def _painted(
    letters: tuple[str, ...], row: WorkedRow, xs: list[float], y: float, high: float, colours: Colours
) -> list[Mark]:
    """The colours under the signs, and a letter where a colour begins within a row."""
    out: list[Mark] = []
    mixed = len(set(letters)) > 1
    half = STITCH / 2
    for at, letter in enumerate(letters):
        if not letter or row.elements[at].kind == HIDDEN:
            continue
        left = (xs[at] + xs[at - 1]) / 2 if at and abs(xs[at] - xs[at - 1]) < 3 * STITCH else xs[at] - half
        right = (
            (xs[at] + xs[at + 1]) / 2
            if at + 1 < len(xs) and abs(xs[at + 1] - xs[at]) < 3 * STITCH
            else xs[at] + half
        )
        if at == 0 or at == len(xs) - 1:
            middle = xs[at]
            other = right if at == 0 else left
            left, right = (middle - half, other) if other > middle else (other, middle + half)
        left, right = min(left, right), max(left, right)
        out.append(
            Shape(
                rectangle(left - 0.2, y - high, right - left + 0.4, high), fill=tint(colours.paints[letter])
            )
        )
        if mixed and (at == 0 or letters[at - 1] != letter):
            out.append(Words(letter, xs[at], y - high + 6.5, 4.5, "middle", INK))
    return out


def _lit(
    row: WorkedRow, tops: tuple[Point, ...], box: tuple[float, float, float, float], place: int
) -> list[Mark]:
    """A frame around the row, and around the stitch or space of it that is meant."""
    out: list[Mark] = [Shape(rectangle(*box), stroke=INK, width=2.5)]
    counted = [at for at, element in enumerate(row.elements) if element.counts]
    if 1 <= place <= len(counted):
        x, _ = tops[counted[place - 1]]
        out.append(Shape(rectangle(x - STITCH / 2, box[1] - 1, STITCH, box[3] + 2), stroke=INK, width=3.5))
    return out
