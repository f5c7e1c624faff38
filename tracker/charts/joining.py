"""The map of a piece that is made of many alike: how they lie, the seams by their numbers in the order joined, the way
each runs, how many stitches meet. A pattern and its fabric come in; a Sheet goes out.
"""

from tracker.charts.drawing import (
    INK,
    PALE,
    PAPER,
    Entry,
    Field,
    Mark,
    Shape,
    Sheet,
    Words,
    ellipse,
    line,
    rectangle,
)
from tracker.charts.signs.letters import length_of
from tracker.fabric.model import Fabric
from tracker.notation.pattern import Pattern
from tracker.program.joining import Layout, last_edges, layout_of, map_drawn

_SQUARE, _GAP, _MARGIN = 54.0, 16.0, 22.0
"""Points of a piece, between two of them, and around all for the numbers of the seams."""
_BADGE = 8.0
"""Radius of a seam's number."""
_COUNT = 5.0
"""Height of the figure at an edge."""
_HEAD = 4.0
"""Half the width of an arrow's head."""


def joining_of(pattern: Pattern, fabric: Fabric) -> Sheet | None:
    """The map; None where the pattern does not say how its pieces lie."""
    layout = layout_of(pattern, pattern.copies)
    if layout is None:
        return None
    edges = last_edges(fabric)
    meeting = edges[0] if edges and len(set(edges)) == 1 else 0
    marks = [*_pieces(layout), *_seams(layout), *(_counts(layout, meeting) if meeting else ())]
    step = _SQUARE + _GAP
    field = Field(
        layout.across * step - _GAP + 2 * _MARGIN,
        layout.down * step - _GAP + 2 * _MARGIN,
        tuple(marks),
        step=step,
    )
    title = f"{pattern.title}, joining"
    return Sheet(title, _lines(layout, edges, meeting), field, (), _key(meeting), _letters(title, layout))


def _corner(nth: int, layout: Layout) -> tuple[float, float]:
    """Top left of a piece, counted from 1."""
    row, at = divmod(nth - 1, layout.across)
    return _MARGIN + at * (_SQUARE + _GAP), _MARGIN + row * (_SQUARE + _GAP)


def _pieces(layout: Layout) -> list[Mark]:
    out: list[Mark] = []
    for nth in range(1, layout.down * layout.across + 1):
        x, y = _corner(nth, layout)
        out.append(Shape(rectangle(x, y, _SQUARE, _SQUARE), fill=PAPER, stroke=INK, width=1.4))
        out.append(Words(str(nth), x + _SQUARE / 2, y + _SQUARE / 2 + 6, 12, "middle"))
    return out


def _seams(layout: Layout) -> list[Mark]:
    """Each along its gap: its number where it begins, an arrow where it ends."""
    out: list[Mark] = []
    for number, seam in enumerate(layout.seams, 1):
        begin, end = _ends(layout, seam.pairs[0], seam.pairs[-1], seam.across)
        out.append(Shape(line(begin, end), stroke=INK, width=2.4))
        out.append(Shape((*line(*_arrow(end, seam.across)), ("Z", ())), fill=INK))
        out += _badge(str(number), *begin)
    return out


def _ends(
    layout: Layout, first: tuple[int, int], last: tuple[int, int], across: bool
) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where a seam begins and where it ends."""
    x, y = _corner(first[1], layout)
    far_x, far_y = _corner(last[1], layout)
    out = _MARGIN / 2
    if across:
        return (x - out, y - _GAP / 2), (far_x + _SQUARE + out, y - _GAP / 2)
    return (x - _GAP / 2, y - out), (x - _GAP / 2, far_y + _SQUARE + out)


def _arrow(tip: tuple[float, float], across: bool) -> tuple[tuple[float, float], ...]:
    x, y = tip
    if across:
        return (x + 3, y), (x - 6, y - _HEAD), (x - 6, y + _HEAD)
    return (x, y + 3), (x - _HEAD, y - 6), (x + _HEAD, y - 6)


def _badge(words: str, x: float, y: float) -> list[Mark]:
    size = min(7.0, 7.0 * (2 * _BADGE - 3) / max(1.0, length_of(words, 7.0)))
    return [
        Shape(ellipse(x, y, _BADGE), fill=PAPER, stroke=INK, width=1.6),
        Words(words, x, y + size / 2, size, "middle", bold=True),
    ]


def _counts(layout: Layout, meeting: int) -> list[Mark]:
    """At both edges of every pair, the stitches that meet."""
    out: list[Mark] = []
    for seam in layout.seams:
        for pair in seam.pairs:
            x, y = _corner(pair[1], layout)
            middle = _SQUARE / 2
            places = (
                ((x + middle, y + _COUNT + 3), (x + middle, y - _GAP - 3))
                if seam.across
                else ((x + 3, y + middle + _COUNT / 2), (x - _GAP - 3, y + middle + _COUNT / 2))
            )
            anchors = ("middle", "middle") if seam.across else ("start", "end")
            out += [
                Words(str(meeting), *place, _COUNT, anchor, "#4a4a4e")
                for place, anchor in zip(places, anchors, strict=True)
            ]
    return out


def _lines(layout: Layout, edges: tuple[int, ...], meeting: int) -> tuple[str, ...]:
    facing = f"{layout.facing.capitalize()}. " if layout.facing else ""
    out = ["The right side up. Join the seams in the order of their numbers, each the way its arrow points."]
    if meeting:
        out.append(f"{facing}{meeting} stitches on every edge that meets another; corner meets corner.")
    elif edges:
        out.append(
            f"{facing}The edges have {', '.join(map(str, edges))} stitches between the corners, in the order "
            "worked: lay equal ones together, and ease in what is over."
        )
    elif facing:
        out.append(facing.rstrip())
    return tuple(out)


def _key(meeting: int) -> tuple[Entry, ...]:
    arrow = (
        Shape(line((5, 11), (26, 11)), stroke=INK, width=2.4),
        Shape((*line(*_arrow((29, 11), True)), ("Z", ())), fill=INK),
    )
    out = [
        Entry(
            (Shape(rectangle(4, 2, 18, 18), stroke=INK, width=1.4), Words("1", 13, 15, 8, "middle")),
            "a piece",
        ),
        Entry((*arrow, *_badge("1", 5, 11)), "a seam, joined in one go: its number where it begins"),
    ]
    if meeting:
        sides = Shape(line((13, 2), (13, 20)), stroke=PALE, width=1.0)
        figures = [Words(str(meeting), x, 14, _COUNT, anchor) for x, anchor in ((11, "end"), (15, "start"))]
        out.append(Entry((sides, *figures), "stitches of two edges that meet"))
    return tuple(out)


def _letters(title: str, layout: Layout) -> str:
    return "\n".join([title, "", *map_drawn(layout)]) + "\n"
