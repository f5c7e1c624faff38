"""Filet as a grid of open and filled squares. A pattern and its fabric come in; a Grid, and from it a sheet, go out.

None when the rows are not squares of one mesh. Rows of squares may differ in width (squares added or left at an edge);
each is set over the square that its first upright was worked into.
"""

import re

from tracker.charts.drawing import (
    INK,
    LIT,
    PALE,
    PAPER,
    Edge,
    Entry,
    Field,
    Mark,
    Shape,
    Sheet,
    Words,
    line,
    rectangle,
)
from tracker.charts.layout.way import beginnings
from tracker.fabric.model import HIDDEN, Fabric, Placed, WorkedRow
from tracker.notation.pattern import Pattern
from tracker.program.row.squares import squares_of, width
from tracker.records import dataclass

CELL = 18.0
"""Points across a square."""
FILLED, OPEN, NOTHING = "#", ".", " "


@dataclass(frozen=True, slots=True)
class GridRow:
    """One row of squares as the chart shows it."""

    index: int
    """In the fabric, from 1."""
    label: str
    side: str | None
    squares: str
    """From left to right over the whole width of the grid: FILLED, OPEN, or NOTHING where the row has no square."""
    begins: str
    """"left" or "right"."""


@dataclass(frozen=True, slots=True)
class Grid:
    """A filet piece in squares."""

    mesh: int
    """Chains of a window."""
    rows: tuple[GridRow, ...]
    """In working order: the first is the lowest."""

    @property
    def width(self) -> int:
        return len(self.rows[0].squares) if self.rows else 0

    @property
    def text(self) -> str:
        """A line for each row of squares, the last line is the first row; nothing at the end of a line."""
        return "".join(f"{row.squares.rstrip()}\n" for row in reversed(self.rows))


def grid_of(
    pattern: Pattern, fabric: Fabric, rows: tuple[tuple[int, Placed], ...], left_handed: bool = False
) -> Grid | None:
    """The grid that these rows make, or None when they are no filet."""
    meshed = [(index, placed) for index, placed in rows if placed.kind in ("row", "foundation")]
    if not meshed or any(placed.kind == "round" for _, placed in rows):
        return None
    for mesh in _meshes(pattern, meshed):
        found = [squares_of(placed.worked, mesh) for _, placed in meshed]
        if all(found):
            return _set(mesh, meshed, [squares for squares in found if squares], left_handed)
    return None


def _meshes(pattern: Pattern, rows: list[tuple[int, Placed]]) -> list[int]:
    """Meshes worth trying: what the windows say, and for a piece with no window what the pattern says."""
    chains = {e.chains for _, placed in rows for e in placed.worked.elements if e.kind == "sp"}
    if chains:
        return sorted(chains) if len(chains) == 1 else []
    told = " ".join((*pattern.notes, *(special.text for special in pattern.specials)))
    named = re.search(r"\bch[- ]([123])\s+(?:filet\s+)?mesh\b", told, re.IGNORECASE)
    if named:
        return [int(named[1])]
    return []


def _set(mesh: int, rows: list[tuple[int, Placed]], found: list[tuple[bool, ...]], left_handed: bool) -> Grid:
    """The rows over one another, from the place of each first upright."""
    sides = list(beginnings((placed for _, placed in rows), left_handed))
    starts: list[int] = []
    for nth, ((_, placed), squares) in enumerate(zip(rows, found, strict=True)):
        if nth == 0:
            starts.append(0)
            continue
        below_start, below_wide = starts[-1], len(found[nth - 1])
        turned = sides[nth] != sides[nth - 1]
        # Squares passed over before the first one that stands on something, counted the way this row runs.
        shift = _passed(placed.worked, mesh)
        rightwards = sides[nth] == "left"
        first = below_start + shift if rightwards else below_start + below_wide - shift - len(squares)
        if not turned and not shift:
            first = below_start if rightwards else below_start + below_wide - len(squares)
        starts.append(first)
    least = min(starts)
    wide = max(start + len(squares) for start, squares in zip(starts, found, strict=True)) - least
    out = []
    for (index, placed), squares, start, side in zip(rows, found, starts, sides, strict=True):
        drawn = "".join(OPEN if window else FILLED for window in squares)
        drawn = drawn if side == "left" else drawn[::-1]
        out.append(
            GridRow(
                index,
                placed.label,
                placed.worked.side,
                (NOTHING * (start - least) + drawn).ljust(wide, NOTHING),
                side,
            )
        )
    return Grid(mesh, tuple(out))


def _passed(worked: WorkedRow, mesh: int) -> int:
    """How many squares of the row below lie before its start; below 0 when squares were added before it."""
    at = 0
    for element in worked.elements:
        if element.into and element.kind != HIDDEN:
            under = sum(map(width, worked.below[: element.into[0]]))
            if worked.below[element.into[0]].kind not in ("sp", "ch"):
                return round((under - at) / (mesh + 1))
        at += width(element)
    return 0


def sheet_of(
    grid: Grid,
    title: str,
    lines: tuple[str, ...],
    lit: tuple[int, int] | None = None,
    tall: float = 1.0,
) -> Sheet:
    """The grid drawn. `lit`: a row's index and a square of it from 1 (0: the whole row). `tall`: height of a
    square, widths."""
    high = CELL * tall
    wide, deep = grid.width * CELL, len(grid.rows) * high
    marks: list[Mark] = []
    edges: list[Edge] = []
    for nth, row in enumerate(reversed(grid.rows)):
        y = nth * high
        is_lit = lit is not None and lit[0] == row.index
        first, last = len(row.squares) - len(row.squares.lstrip()), len(row.squares.rstrip())
        span = rectangle(first * CELL, y, (last - first) * CELL, high)
        marks.append(Shape(span, fill=LIT if is_lit else PAPER))
        marks.append(Shape(span, stroke=PALE, width=0.75))
        marks += [
            Shape(line((at * CELL, y), (at * CELL, y + high)), stroke=PALE, width=0.75)
            for at in range(first + 1, last)
        ]
        marks += [
            Shape(rectangle(at * CELL + 1.2, y + 1.2, CELL - 2.4, high - 2.4), fill=INK)
            for at, square in enumerate(row.squares)
            if square == FILLED
        ]
        side = f" {row.side}" if row.side else ""
        edges.append(Edge(f"{row.label.split()[-1]}{side}", y + high / 2, row.begins, is_lit))
    marks += _rules(grid, high)
    if lit is not None:
        marks += _framed(grid, high, lit)
    edges.extend(
        Edge(
            str(number),
            (number - 0.5 if grid.rows[0].begins == "left" else grid.width - number + 0.5) * CELL,
            "bottom",
        )
        for number in range(1, grid.width + 1)
        if number % 5 == 0 or number == 1
    )
    return Sheet(
        title, lines, Field(wide, deep, tuple(marks), tuple(edges), (), CELL), (), _key(grid.mesh), grid.text
    )


def _rules(grid: Grid, high: float) -> list[Mark]:
    """Heavier lines every five squares and rows, counted from where Row 1 begins."""
    wide, deep = grid.width * CELL, len(grid.rows) * high
    left = grid.rows[0].begins == "left"
    xs = [at * CELL if left else wide - at * CELL for at in range(0, grid.width + 1, 5)]
    ys = [deep - at * high for at in range(0, len(grid.rows) + 1, 5)]
    if any(NOTHING in row.squares for row in grid.rows):
        return _within(grid, high, xs, ys)
    out: list[Mark] = [Shape(line((x, 0), (x, deep)), stroke="#7d8188", width=1.0) for x in xs[1:]]
    out += [Shape(line((0, y), (wide, y)), stroke="#7d8188", width=1.0) for y in ys[1:]]
    return [*out, Shape(rectangle(0, 0, wide, deep), stroke=INK, width=1.6)]


def _within(grid: Grid, high: float, xs: list[float], ys: list[float]) -> list[Mark]:
    """The heavier lines of a shaped piece, only where there are squares."""
    out: list[Mark] = []
    for nth, row in enumerate(reversed(grid.rows)):
        first = (len(row.squares) - len(row.squares.lstrip())) * CELL
        last = len(row.squares.rstrip()) * CELL
        top = nth * high
        inside = [x for x in xs if first <= x <= last]
        out += [Shape(line((x, top), (x, top + high)), stroke="#7d8188", width=1.0) for x in inside]
        if any(abs(top + high - y) < 0.01 for y in ys):
            out.append(Shape(line((first, top + high), (last, top + high)), stroke="#7d8188", width=1.0))
    return out


def _framed(grid: Grid, high: float, lit: tuple[int, int]) -> list[Mark]:
    """A heavy frame around the row that is lit, and a ring on its square."""
    out: list[Mark] = []
    for nth, row in enumerate(reversed(grid.rows)):
        if row.index != lit[0]:
            continue
        first = len(row.squares) - len(row.squares.lstrip())
        last = len(row.squares.rstrip())
        out.append(
            Shape(rectangle(first * CELL, nth * high, (last - first) * CELL, high), stroke=INK, width=3.0)
        )
        if 1 <= lit[1] <= last - first:
            at = first + lit[1] - 1 if row.begins == "left" else last - lit[1]
            box = rectangle(at * CELL - 1, nth * high - 1, CELL + 2, high + 2)
            out.append(Shape(box, stroke=PAPER, width=6.0))
            out.append(Shape(box, stroke=INK, width=3.0))
    return out


def _key(mesh: int) -> tuple[Entry, ...]:
    box = rectangle(4, 2, CELL, CELL)
    return (
        Entry(
            (Shape(box, fill=PAPER), Shape(box, stroke=PALE)), f"open square: dc, ch {mesh}, then the next dc"
        ),
        Entry(
            (Shape(box, stroke=PALE), Shape(rectangle(5.2, 3.2, CELL - 2.4, CELL - 2.4), fill=INK)),
            f"filled square (block): dc, {mesh} dc, then the next dc",
        ),
        Entry(
            (Words("→", 13, 15, 9, "middle"),),
            "a row's number stands where the row begins; neighbours share a dc",
        ),
    )
