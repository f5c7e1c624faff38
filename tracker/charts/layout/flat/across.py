"""Where along a row its elements stand, for the right hand. Rows come in, the places of each go out.

Each element stands over what it was worked into, as far as its neighbours leave it room.
"""

from collections.abc import Iterable
from itertools import pairwise

from tracker.charts.layout.below import matched
from tracker.charts.layout.spread import filled, spread
from tracker.charts.signs.symbols import CHAIN, STITCH, height_of
from tracker.fabric.model import CH, HIDDEN, SP, Element, Placed, WorkedRow
from tracker.records import dataclass

Order = list[int | None]
"""For each thing of the row below its index in the row drawn before."""


@dataclass(frozen=True, slots=True)
class Lying:
    """A row that has its places from left to right, and no height yet."""

    index: int
    placed: Placed
    side: str
    """Where it begins: "left" or "right"."""
    order: Order | None
    """None for the first row, which stands on its chain."""
    unders: tuple[float | None, ...]
    """How far from the left each thing of the row below is; None for one that is not drawn."""
    xs: tuple[float, ...]
    """Of each element, in the order made."""

    @property
    def row(self) -> WorkedRow:
        """What was worked."""
        return self.placed.worked


def lying(rows: Iterable[tuple[int, Placed]], begins: Iterable[str]) -> list[Lying]:
    """The rows with the places of their elements."""
    out: list[Lying] = []
    for (index, placed), side in zip(rows, begins, strict=True):
        row = placed.worked
        order = matched(out[-1].row, row, False) if out else None
        if order is None:
            way = 1 if side == "left" else -1
            unders: tuple[float | None, ...] = tuple(way * nth * STITCH for nth in range(len(row.below)))
        else:
            unders = tuple(None if at is None else out[-1].xs[at] for at in order)
        out.append(Lying(index, placed, side, order, unders, tuple(_across(row, unders, side))))
    return out


def _across(row: WorkedRow, unders: tuple[float | None, ...], side: str) -> list[float]:
    """The x of each element, in the order made."""
    elements = row.elements
    if not elements:
        return []
    wished: list[float | None] = [over(row, at, unders) for at in range(len(elements))]
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
    for start, end in siblings([elements[at] for at in order]):
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


def siblings(elements: list[Element]) -> list[tuple[int, int]]:
    """Runs of elements made in one place: the first of each, and the one behind its last."""
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


def over(row: WorkedRow, at: int, unders: tuple[float | None, ...]) -> float | None:
    """How far from the left the middle of what an element goes into is; None when it stands on nothing drawn."""
    element = row.elements[at]
    places = [unders[into] for into in element.into if 0 <= into < len(unders)]
    xs = [x for x in places if x is not None]
    if xs:
        return sum(xs) / len(xs)
    if element.turning and element.kind != SP or element.kind == HIDDEN:
        if row.below and row.below[0].kind == CH:
            # The chains that stand up: just before the first chain that is worked into, or skipped with a space.
            first = min((e.into[0] for e in row.elements if e.into), default=1)
            gap = sum(e.chains for e in row.elements[: at + 2] if e.kind == SP and e.turning)
            where = first - 1 - gap
            place = unders[where] if 0 <= where < len(unders) else None
            return place if element.kind != HIDDEN else None
        return unders[0] if unders and element.kind != HIDDEN else None
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
