"""Rounds around their middle, in cells: the round in hand broad and outermost, those under it narrow.

Comes in: a Disc, what of it is done, and the room. Goes out: lines of the room's width. What is done is filled, what is
in hand is filled and stands out over the rim, what is to come is a thin dotted line, so that more than colour tells.
Stitches in one place part only towards the rim, those worked together only towards the middle; a repeat's edge is a
wider gap with a tick over it. A cell is twice as high as it is wide. What never changes within a round is worked out
once.
"""

from functools import lru_cache
from itertools import pairwise
from math import hypot

from tracker.charts.outline import CIRCLE, FULL, Outline, at, extent, per_radian, placed_at
from tracker.looks.around import Disc, Ring, state_of
from tracker.records import dataclass
from tracker.screen.drawing.words import Line, Run
from tracker.session.seen.lying import Around

_BLOCKS = " ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█"
"""By quarters: 1 top left, 2 top right, 4 bottom left, 8 bottom right."""
_QUARTERS = {0: 1, 1: 2, 4: 4, 5: 8}
"""The same by the dot that tells of each."""
_BITS = (0x01, 0x08, 0x02, 0x10, 0x04, 0x20, 0x40, 0x80)
"""Of a sign of eight dots, row by row."""
_BRAILLE = 0x2800
_ARROWS, _TICK = {1: "►", -1: "◄"}, "•"

_RIM, _BROAD, _NARROW, _AIR = 0.12, 0.27, 0.1, 1.5
"""Parts of the radius: outside, for what stands out; of the round in hand; of one under it. And dots between two."""
_NARROWEST, _MIDDLE = 3.5, 2.0
"""Dots that a round under it is at least, and that the middle is."""
_GAP, _LINE = 1.0, 1.2
"""Dots on each side of a gap, and dots that the line of a stitch to come is wide."""
_ROOM, _ROOM_UNDER = 5.0, 8.0
"""Dots along the ring that a stitch takes, at least, where it is seen apart from its neighbours; in rounds under it."""
_FEWER, _MORE = 0.7, 1.6
"""Times as much that it is for one stitch of a round whose others have that room, or have it not."""
_LEANING = 0.75
"""Part of a stitch's room along the ring that it takes across, below which it leans too much for gaps to be seen."""
_PASS = 3
"""Stitches of a pass, on the whole, from which on its edges are shown."""
_NEAR = 4.0
"""Dots from one near a cell's middle to any other of it, at most."""
_KEPT = 6
"""Rounds that are remembered, in the room they had."""

BODY, LINE, OUT = 0, 1, 2
"""What of a stitch lies in a dot: itself, the line along its middle, what it stands out by while it is in hand."""

_Place = tuple[float, float]
"""The turn of a dot, and how far out it lies."""


@dataclass(frozen=True, slots=True)
class _Band:
    """A ring with its room, in dots from the middle."""

    ring: Ring
    line: Outline
    inner: float
    outer: float
    rim: float
    """How far out what stands out may reach; `outer` for a ring that is not in hand."""
    edges: bool
    """True when the edges of repeats are shown."""
    apart: tuple[bool, ...]
    """Of each stitch, whether it has room to be seen apart from its neighbours."""
    upright: tuple[float, ...]
    """Of each stitch, how much narrower it is than its room along the ring, as it leans: 1 for an upright one."""

    def leans(self, nth: int) -> bool:
        """True for a stitch of a corner, that is drawn whole."""
        return self.upright[nth] < _LEANING


@dataclass(frozen=True, slots=True)
class _Cell:
    """One cell of the round in hand: in each of its eight dots, row by row, what lies there, or None."""

    column: int
    dots: tuple[tuple[int, int] | None, ...]
    """The element's number, and BODY, LINE or OUT."""


class Field:
    """A disc in so much room: what never changes of it, and the cells of the round in hand."""

    def __init__(self, disc: Disc, width: int, height: int) -> None:
        self.disc, self.width, self.height = disc, width, height
        bands = _bands(disc, width * 2, height * 4)
        left, top, right, bottom = extent(bands[0].line, bands[0].rim)
        middle = width - (left + right) / 2, height * 2 - (top + bottom) / 2
        grids = {band.line: _grid(band.line, middle, width, height) for band in bands}
        self._still: list[dict[int, Run]] = []
        self._cells: list[tuple[_Cell, ...]] = []
        self._elements: list[tuple[int, ...]] = []
        self._lines: list[dict[tuple[str, ...], Line]] = []
        placed = [(band, grids[band.line]) for band in bands]
        for line in range(height):
            still, cells = _line(placed, line, width)
            self._still.append(still)
            self._cells.append(cells)
            self._elements.append(tuple(sorted({one[0] for cell in cells for one in cell.dots if one})))
            self._lines.append({})
        self._marked(bands[0], middle)

    def _marked(self, band: _Band, middle: tuple[float, float]) -> None:
        """Over the rim: where repeats begin; where the round begins, and the way it runs."""
        ring = band.ring
        if not ring.stitches:
            return
        first = (ring.bounds[0] + ring.bounds[-1] - FULL) / 2
        signs = [
            (begin, (_TICK, "edge"))
            for stitch, begin in zip(ring.stitches[1:], ring.bounds[1:], strict=False)
            if band.edges and stitch.edge
        ]
        for turn, run in (*signs, (first, (_ARROWS[ring.way], "hand"))):
            x, y = at(band.line, ring.way * turn, (band.outer + band.rim) / 2)
            column, line = int((x + middle[0]) // 2), int((y + middle[1]) // 4)
            if 0 <= line < self.height and 0 <= column < self.width:
                self._still[line][column] = run
        # Nothing is drawn over the arrow, which is the last of them.
        if 0 <= line < self.height:
            self._cells[line] = tuple(cell for cell in self._cells[line] if cell.column != column)

    def lines(self, around: Around) -> tuple[Line, ...]:
        """The lines as far as the round is done."""
        out = []
        for line in range(self.height):
            elements, known = self._elements[line], self._lines[line]
            states = tuple(state_of(around, True, element) for element in elements)
            found = known.get(states)
            if found is None:
                found = known[states] = self._drawn(line, dict(zip(elements, states, strict=True)))
            out.append(found)
        return tuple(out)

    def _drawn(self, line: int, states: dict[int, str]) -> Line:
        runs = dict(self._still[line])
        for cell in self._cells[line]:
            if (run := _run(cell, states)) is not None:
                runs[cell.column] = run
        out: list[Run] = []
        for column in range(self.width):
            text, role = runs.get(column, (" ", "ground"))
            if out and out[-1][1] == role:
                out[-1] = out[-1][0] + text, role
            else:
                out.append((text, role))
        return tuple(out)


def _bands(disc: Disc, across: int, down: int) -> list[_Band]:
    """As many rings as there is room for."""
    newest = disc.rings[0]
    left, top, right, bottom = extent(newest.line, newest.outer)
    scale = min(across / (right - left), down / (bottom - top))
    # Of an oblong only the reach of the near sides is room for rings.
    reach = newest.outer * scale
    outer = reach - max(2.5, _RIM * reach)
    inner = outer - max(_NARROWEST, _BROAD * reach)
    edges = sum(stitch.edge for stitch in newest.stitches)
    shown = 0 < edges * _PASS <= len(newest.stitches)
    out = [_band(newest, scale, (inner, outer, reach), shown, _ROOM)]
    narrow = max(_NARROWEST, _NARROW * reach)
    for ring in disc.rings[1:]:
        outer = inner - _AIR
        inner = outer - narrow
        if inner < _MIDDLE:
            break
        out.append(_band(ring, scale, (inner, outer, outer), False, _ROOM_UNDER))
    return out


def _band(ring: Ring, scale: float, room: tuple[float, float, float], edges: bool, least: float) -> _Band:
    inner, outer, rim = room
    line = _scaled(ring.line, scale)
    wide = [
        (end - begin) * per_radian(line, ring.way * (begin + end) / 2, outer)
        for begin, end in pairwise(ring.bounds)
    ]
    # Most of a round's stitches are seen in one way or the other.
    least *= _FEWER if wide and sorted(wide)[len(wide) // 2] >= least else _MORE
    upright = tuple(
        (outer - inner) / hypot(outer - inner, ((begin + end) / 2 - root) * per_radian(line, 0.0, outer))
        for (begin, end), root in zip(pairwise(ring.bounds), ring.roots, strict=True)
    )
    apart = tuple(one * lean >= least for one, lean in zip(wide, upright, strict=True))
    return _Band(ring, line, inner, outer, rim, edges, apart, upright)


def _scaled(line: Outline, scale: float) -> Outline:
    return Outline(line.corners, line.wide * scale, line.high * scale) if line.corners else CIRCLE


@lru_cache(maxsize=4)
def _grid(line: Outline, middle: tuple[float, float], width: int, height: int) -> list[_Place]:
    """Every dot's place, cell by cell; the same for all rounds along one line."""
    out = []
    for row in range(height):
        for column in range(width):
            left, top = column * 2 - middle[0], row * 4 - middle[1]
            for nth in range(8):
                point = left + nth % 2 + 0.5, top + nth // 2 + 0.5
                out.append(placed_at(line, point))
    return out


def _line(
    bands: list[tuple[_Band, list[_Place]]], line: int, width: int
) -> tuple[dict[int, Run], tuple[_Cell, ...]]:
    """One line: what never changes of it, and the cells of the round in hand. Each ring comes with the dots' places."""
    still: dict[int, Run] = {}
    cells: list[_Cell] = []
    for column in range(width):
        first = (line * width + column) * 8
        bits = 0
        dots: tuple[tuple[int, int] | None, ...] = ()
        for nth_band, (band, grid) in enumerate(bands):
            # A cell's dots lie no further than this from one near its middle.
            inner, outer, near = band.inner, band.rim, grid[first + 3][1]
            if not inner - _NEAR <= near <= outer + _NEAR:
                continue
            found = [
                _found(band, turn, reach) if inner <= reach <= outer else None
                for turn, reach in grid[first : first + 8]
            ]
            if not nth_band:
                dots = tuple(found)
            else:
                bits |= sum(bit for bit, one in zip(_BITS, found, strict=True) if one is not None)
        if bits:
            still[column] = chr(_BRAILLE + bits), "done"
        if any(dots):
            cells.append(_Cell(column, dots))
    return still, tuple(cells)


def _found(band: _Band, turn: float, reach: float) -> tuple[int, int] | None:
    """What lies at a place of a ring: which element, and what of it; None for nothing."""
    ring = band.ring
    feet, bounds = ring.feet, ring.bounds
    if not bounds:
        return None
    part = (reach - band.inner) / (band.outer - band.inner)
    up = min(part, 1.0)
    begin = feet[0] + (bounds[0] - feet[0]) * up
    along = begin + (ring.way * turn - begin) % FULL
    low, high = 0, len(ring.stitches)
    if along >= feet[high] + (bounds[high] - feet[high]) * up:
        return None
    while high - low > 1:
        middle = (low + high) // 2
        if along < feet[middle] + (bounds[middle] - feet[middle]) * up:
            high = middle
        else:
            low = middle
    per = (per_radian(band.line, turn, reach) if band.line.corners else reach) * band.upright[low]
    behind = (along - feet[low] - (bounds[low] - feet[low]) * up) * per
    before = (feet[high] + (bounds[high] - feet[high]) * up - along) * per
    top = (bounds[low] + bounds[high]) / 2
    aside = (along - ring.roots[low] - (top - ring.roots[low]) * up) * per
    kind = _kind(band, low, behind, before, part, aside)
    return None if kind is None else (ring.stitches[low].at, kind)


def _kind(band: _Band, nth: int, behind: float, before: float, part: float, aside: float) -> int | None:
    """What of a stitch lies so many dots behind its beginning and before its end, and aside of its middle.

    `part`: of its height, from the foot up to 1.
    """
    stitches = band.ring.stitches
    stitch, following = stitches[nth], stitches[(nth + 1) % len(stitches)]
    apart = band.apart[nth]
    if part > 1.0:
        if stitch.space:
            return None
        return OUT if min(behind, before) >= _GAP or not apart else None
    if stitch.space:
        if band.rim == band.outer:
            return BODY if part >= 0.4 else None
        return LINE if 0.55 <= part <= 0.9 and min(behind, before) >= _GAP / 2 else None
    if part > stitch.top + 0.05:
        return OUT
    if band.edges and (stitch.edge and behind < 1.6 * _GAP or following.edge and before < 1.6 * _GAP):
        return None
    if band.leans(nth):
        return LINE if abs(aside) <= _LINE / 2 else BODY
    if behind < _GAP and (part > 0.45 if stitch.joined else apart):
        return None
    if before < _GAP and (part > 0.45 if following.joined else apart):
        return None
    if stitch.legs > 1 and part < 0.5 and abs(behind - before) < 2 * _GAP:
        return None
    return LINE if abs(aside) <= _LINE / 2 or not apart else BODY


def _run(cell: _Cell, states: dict[int, str]) -> Run | None:
    """A cell as it is to be seen; None for nothing."""
    filled = dots = 0
    now = False
    for nth, one in enumerate(cell.dots):
        if one is None:
            continue
        element, kind = one
        state = states[element]
        if state == "now" or state == "done" and kind != OUT:
            # Of each quarter one of its two dots decides.
            if nth in _QUARTERS:
                filled |= _QUARTERS[nth]
                now = now or state == "now"
        elif state == "coming" and kind == LINE:
            dots |= _BITS[nth]
    if filled:
        return _BLOCKS[filled], "now" if now else "done"
    return (chr(_BRAILLE + dots), "coming") if dots else None


_fields: dict[tuple[int, int, int], Field] = {}


def disc_lines(disc: Disc, around: Around, width: int, height: int) -> tuple[Line, ...]:
    """The disc in so much room, as far as it is done."""
    key = id(disc), width, height
    found = _fields.get(key)
    if found is None:
        while len(_fields) >= _KEPT:
            del _fields[next(iter(_fields))]
        found = _fields[key] = Field(disc, width, height)  # which keeps the disc, and so its name
    return found.lines(around)
