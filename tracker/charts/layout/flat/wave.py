"""The line that a row lies along: straight, or up and down as ripples, shawls and waves are.

Rows with their places across come in, lines go out. A row lies square to its stitches: where increases push them aside
it falls away from there, and it dips to where they are worked together. A row that leans nowhere lies as the one below
it does, or as high as its own stitches are where their heights rise and fall step by step.
"""

from bisect import bisect_right
from itertools import pairwise
from math import hypot
from statistics import median

from tracker.charts.layout.flat.across import Lying, over, siblings
from tracker.charts.signs.symbols import STITCH, height_of
from tracker.fabric.model import HIDDEN, SP, WorkedRow
from tracker.fabric.pushed import pushed
from tracker.records import dataclass

STEEPEST = 1.0
"""Of a row, in points down for one across: forty-five degrees, as a square worked from its corner has them."""
_LEAST = 4.0
"""Points that a stitch stands aside of what it goes into before it leans."""
_FURTHEST = 5.0
"""Stitches that increases may push one aside in one row; more is another width, as of loops worked over."""
_SHARE = 1 / 3
"""Of a row's stitches that lean in one that rises and falls."""
_NEAR = 3
"""Rows within which another one leans, so that it is no single row of shaping."""
_HIGHEST = 1.9
"""Heights of a row's highest stitch that the row may take; it is drawn less steep for that."""

_STEP = 7.0
"""Points from the height of one stitch of the table to the next."""


@dataclass(frozen=True, slots=True)
class Line:
    """How low a row's tops lie."""

    y: float
    """The highest place of it."""
    xs: tuple[float, ...] = ()
    """Places from the left for which it is known; none for a straight line."""
    drops: tuple[float, ...] = ()
    """Points below `y` there."""

    def at(self, x: float) -> float:
        """How low it lies there; beyond its ends it runs on as it ended."""
        if len(self.xs) < 2:
            return self.y + (self.drops[0] if self.drops else 0.0)
        nth = min(max(1, bisect_right(self.xs, x)), len(self.xs) - 1)
        part = (x - self.xs[nth - 1]) / (self.xs[nth] - self.xs[nth - 1])
        return self.y + self.drops[nth - 1] + (self.drops[nth] - self.drops[nth - 1]) * part

    def up(self, x: float) -> tuple[float, float]:
        """Away from the row below: a direction of length 1."""
        # Over the neighbours, and not beyond the ends: one stitch that is lower than the next is no slope.
        left, right = (
            max(x - STITCH, self.xs[0] if self.xs else x),
            min(x + STITCH, self.xs[-1] if self.xs else x),
        )
        fall = (self.at(right) - self.at(left)) / (right - left) if right > left else 0.0
        long = hypot(fall, 1.0)
        return fall / long, -1.0 / long

    @property
    def straight(self) -> bool:
        """True when it rises and falls nowhere."""
        return max(self.drops, default=0.0) < 1.0


def line_of(y: float, places: dict[float, float]) -> Line:
    """A line through these drops, by their place from the left."""
    xs = tuple(sorted(places))
    return Line(y, xs, tuple(places[x] for x in xs))


def slopes_of(rows: list[Lying]) -> list[tuple[float, ...]]:
    """For each element how steeply its row falls to the right there; () for a row that does not lean of itself."""
    found = [_leans(one) for one in rows]
    leaning = [nth for nth, leans in enumerate(found) if leans]
    out: list[tuple[float, ...]] = []
    for nth, leans in enumerate(found):
        near = [other for other in leaning if 0 < abs(other - nth) <= _NEAR]
        if not leans or not near and len(rows) > _NEAR:
            out.append(())
            continue
        before = max((other for other in near if other < nth), default=nth - 1)
        high = sum(_highest(rows[at]) for at in range(max(0, before + 1), nth + 1))
        out.append(tuple(max(-STEEPEST, min(STEEPEST, lean / high)) for lean in leans))
    return out


def narrowed(slopes: list[tuple[float, ...]]) -> float:
    """By how much a chart is narrower than its rows are long, as they rise and fall."""
    steep = [abs(slope) for row in slopes for slope in row if slope]
    often = sum(1 for row in slopes if row) > len(slopes) / 2
    return 1 / hypot(1.0, median(steep)) if steep and often else 1.0


def drops_of(one: Lying, xs: tuple[float, ...], slopes: tuple[float, ...], base: Line) -> dict[float, float]:
    """How far below the row's highest place each of its tops lies, by its place from the left."""
    stood = [at for at, element in enumerate(one.row.elements) if element.kind not in (SP, HIDDEN)]
    if not stood:
        return {}
    lying = {xs[at]: base.at(xs[at]) - base.y for at in stood}
    if slopes:
        own = _fallen(sorted((xs[at], slopes[at]) for at in stood))
        # What changes from row to row changes gently.
        return own if base.straight else {x: (drop + lying[x]) / 2 for x, drop in own.items()}
    if base.straight and not by_steps(one.row):
        return {}
    highest = _highest(one)
    lower = {xs[at]: highest - height_of(one.row.elements[at].kind) for at in stood}
    drops = {x: lying[x] + lower[x] for x in lying}
    if _deep(drops) > max(_deep(lying), _deep(lower)) + 1.0:
        drops = lying  # what would pile up is drawn as high as the row, as texture is
    least = min(drops.values())
    return {x: drop - least for x, drop in drops.items()}


def room_for(
    one: Lying, xs: tuple[float, ...], unders: tuple[float | None, ...], base: Line, drops: dict[float, float]
) -> float:
    """Points from the highest place of the row below to that of this row, its stitches as long as they are."""
    line, most = line_of(0.0, drops), 0.0
    for at, element in enumerate(one.row.elements):
        if element.kind in (SP, HIDDEN):
            continue
        foot = over(one.row, at, unders)
        foot = xs[at] if foot is None else foot
        high = height_of(element.kind)
        share = 0.75 if high <= height_of("sc") else 0.45
        long = max(high * high - (xs[at] - foot) ** 2, (share * high) ** 2) ** 0.5
        most = max(most, line.at(xs[at]) + long - (base.at(foot) - base.y))
    return most


def eased(
    one: Lying, xs: tuple[float, ...], unders: tuple[float | None, ...], base: Line, drops: dict[float, float]
) -> dict[float, float]:
    """The drops, less deep where the row would else be stretched: a straight piece that begins to rise and fall."""
    most = _HIGHEST * _highest(one)
    for tenths in range(10, -1, -1):
        less = {x: drop * tenths / 10 for x, drop in drops.items()}
        if room_for(one, xs, unders, base, less) <= most:
            return less
    return {x: base.at(x) - base.y for x in drops}


def _leans(one: Lying) -> tuple[float, ...]:
    """Points that each element stands to the right of what it goes into, where the counts put it there."""
    row = one.row
    overs = [over(row, at, one.unders) for at in range(len(row.elements))]
    aside = [
        None if foot is None or element.kind in (SP, HIDDEN) or not element.into else x - foot
        for element, foot, x in zip(row.elements, overs, one.xs, strict=True)
    ]
    many = sum(1 for lean in aside if lean is not None)
    if many < 4:
        return ()
    counted = _counted(one)
    if max(map(abs, counted)) > _FURTHEST:
        return ()
    grouped: set[int] = set()
    for start, end in siblings(list(row.elements)):
        grouped |= set(range(start, end))
        own = [lean for lean in aside[start:end] if lean is not None]
        for at in range(start, end):
            if aside[at] is not None and own:
                aside[at] = sum(own) / len(own)
    out = tuple(
        lean if lean is not None and abs(lean) >= _LEAST and lean * more > 0 and abs(more) >= 0.5 else 0.0
        for lean, more in zip(aside, counted, strict=True)
    )
    enough = sum(1 for lean in out if lean) > many * _SHARE
    # What only stands beside others in one place pushes nothing aside.
    pushed = any(lean for at, lean in enumerate(out) if at not in grouped)
    return out if enough and pushed and min(out) < 0 < max(out) else ()


def _counted(one: Lying) -> list[float]:
    """How many stitches further to the right each stands than what it goes into, of both rows' middles."""
    rightwards = len(one.xs) < 2 or one.xs[-1] >= one.xs[0]
    return [more if rightwards else -more for more in pushed(one.row)]


def _fallen(places: list[tuple[float, float]]) -> dict[float, float]:
    """Slopes from the left summed to drops."""
    drop, out = 0.0, {places[0][0]: 0.0}
    for (x, slope), (further, other) in pairwise(places):
        drop += (slope + other) / 2 * (further - x)
        out[further] = drop
    least = min(out.values())
    return {x: drop - least for x, drop in out.items()}


def by_steps(row: WorkedRow) -> bool:
    """True for a row or round whose stitches grow and shrink step by step, as in petals and waves.

    Never by two heights at once, nor up and down from stitch to stitch, as in texture.
    """
    highs = [height_of(e.kind) for e in row.elements if e.is_stitch]
    low = sum(1 for high in highs if high < max(highs))
    alone = sum(1 for a, b, c in zip(highs, highs[1:], highs[2:], strict=False) if a == c != b)
    return (
        low > len(highs) / 5
        and alone <= (len(highs) / 3 if len(set(highs)) > 2 else 0)
        and all(abs(a - b) <= _STEP for a, b in pairwise(highs))
    )


def _deep(drops: dict[float, float]) -> float:
    return max(drops.values()) - min(drops.values())


def _highest(one: Lying) -> float:
    return max((height_of(e.kind) for e in one.row.elements if e.is_stitch), default=height_of("sc"))
