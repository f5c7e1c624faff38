"""The fabric as it lies in the lap, drawn in cells: windows open, blocks filled, decreases leaning, the
row's own direction.

Comes in: the View's cells, in the order made. Goes out: rows of text in roles, all of one width. Each state
has a sign of its own beside its colour: done is full, in hand is marked, to come is faint or a dot.
"""

from collections.abc import Iterable

from tracker.looks.rows import Strip, eased, strips, waves, window
from tracker.records import dataclass
from tracker.screen.drawing.words import Line as Row
from tracker.screen.drawing.words import Run
from tracker.session.seen.lying import Cell, Shape

__all__ = ["drawn", "sign_of", "strips"]

_STITCHES = {
    "slst": "•",
    "sc": "×",
    "hdc": "T",
    "dc": "Ŧ",
    "tr": "‡",
    "dtr": "‡",
    "picot": "°",
    "bo": "●",
    "pop": "●",
    "puff": "●",
    "cl": "●",
    "tile": "■",
}
"""After the standard's symbols, as far as a terminal's letters go:
sc a cross, hdc a T, dc a T with one bar, tr with two.
"""
_SPACE, _TURNING, _COMING = "○", "┇", "·"
_LEANS = {"left": "╲", "middle": "│", "right": "╱"}
_EDGES = {True: "▌", False: "▐"}
"""The turning chain beside the squares, by whether the row begins at the right."""


@dataclass(frozen=True, slots=True)
class Square:
    """How large a square of filet is drawn."""

    wide: int
    high: int


_FEWEST = 3
"""Rows that are seen of a ripple, at least; else it is drawn straight."""
SQUARES = (Square(8, 4), Square(6, 3), Square(4, 2), Square(2, 1), Square(1, 1))


def drawn(rows: tuple[Strip, ...], width: int, height: int) -> tuple[Row, ...]:
    """The fabric in the room there is; the row in hand is always in it, near the place when all of it does not fit."""
    if not rows or height < 1:
        return ()
    label = max(len(row.label) for row in rows) + 4
    counted = max(len(row.counted) for row in rows) + 2
    room = width - label - counted - 2
    most = max(len(row.cells) for row in rows)
    square = _size(rows, most, room, height)
    alone = _size(rows, most, width - label - 2, height)
    if room < 12 or alone.wide > square.wide or most * square.wide > room:
        # Rows in full, or larger, are worth more than the counts of rows that are done.
        square, room, counted = alone, width - label - 2, 0
    across = min(most, room // square.wide)
    start = window(rows[0], most, across)
    drops = () if rows[0].filet else _lines_down(waves(rows), start, across, square.wide, height - _FEWEST)
    if drops:
        return _waved(rows, square, most, start, drops, label, counted, (width, height))
    out: list[Row] = []
    for row in rows[: max(1, height // square.high)]:
        out += _row(row, square, most, start, across, label, counted, width)
    return tuple(out[:height])


def _lines_down(
    drops: tuple[float, ...], start: int, across: int, wide: int, deepest: int
) -> tuple[int, ...]:
    """Lines that each column in sight is lower than the highest, `deepest` at most; a line is as high as two cells.

    () for none.
    """
    if not drops or deepest < 1:
        return ()
    seen = tuple(drop * wide / 2 for drop in drops[start : start + across])
    seen = eased(tuple(drop - min(seen) for drop in seen), float(deepest))
    out = tuple(round(drop) for drop in seen)
    return out if any(out) else ()


def _waved(
    rows: tuple[Strip, ...],
    square: Square,
    most: int,
    start: int,
    drops: tuple[int, ...],
    label: int,
    counted: int,
    size: tuple[int, int],
) -> tuple[Row, ...]:
    """Rows of stitches that rise and fall: each column as much lower as it lies there."""
    width, height = size
    across = len(drops)
    shown = rows[: height - max(drops)]
    blank: Run = (" " * square.wide, "ground")
    field = [[blank] * across for _ in range(len(shown) + max(drops))]
    begins: dict[int, Strip] = {}
    ends: dict[int, Strip] = {}
    for nth, row in enumerate(shown):
        before = (most - len(row.cells)) // 2 - start
        columns = [before + at for at in range(len(row.cells))]
        for column, (cell, lean) in zip(columns, row.lying, strict=True):
            if 0 <= column < across:
                field[nth + drops[column]][column] = _cell(cell, lean, square, 0)
        begins[nth + drops[min(max(columns[0], 0), across - 1)]] = row
        ends[nth + drops[min(max(columns[-1], 0), across - 1)]] = row
    out: list[Row] = []
    for nth, runs in enumerate(field):
        first, last = begins.get(nth), ends.get(nth)
        left = _named(first, label) if first else (" " * label, "ground")
        cut = "…" if start > 0 and first else " "
        more = "…" if start + across < most and last else " "
        line = [left, (cut, "edge"), *_together(runs), (more, "edge")]
        if counted and last:
            line.append((f"  {last.counted}", "hand" if last.in_hand else "under"))
        used = sum(len(text) for text, _ in line)
        out.append(tuple(run for run in (*line, (" " * max(0, width - used), "ground")) if run[0]))
    return tuple(out[:height])


def _named(row: Strip, label: int) -> Run:
    """A row's name and the way it runs."""
    arrow = ("◄" if row.leftward else "►") if row.in_hand else ("‹" if row.leftward else "›")
    return f" {row.label:>{label - 4}} {arrow} ", "hand" if row.in_hand else "under"


def _size(rows: tuple[Strip, ...], most: int, room: int, height: int) -> Square:
    """The largest squares with which the whole width and at least three rows fit; stitches stay one row high."""
    wanted = 3  # not by how many there are: squares must not change their size from row to row
    for square in SQUARES:
        if (
            most * square.wide <= room
            and (wanted * square.high <= height)
            and (rows[0].filet or square.high == 1)
        ):
            return square
    return SQUARES[-1]


def _row(
    row: Strip, square: Square, most: int, start: int, across: int, label: int, counted: int, width: int
) -> list[Row]:
    cells = row.lying
    before = (most - len(cells)) // 2
    cut = cells[max(0, start - before) : max(0, start + across - before)]
    pad = max(0, before - start)
    begun = bool(row.cells) and (row.cells[0].done or row.cells[0].current)
    squares = row.filet
    edge = (_EDGES[row.leftward] if begun else "┆") if squares else " "
    role = "hand" if row.in_hand else "under"
    out: list[Row] = []
    for line in range(square.high):
        runs: list[Run] = []
        first = line == (square.high - 1) // 2
        runs.append(_named(row, label) if first else (" " * label, role))
        left_out = "…" if start > 0 and first else " "
        runs.append((edge if not row.leftward and not pad and start == 0 else left_out, "edge"))
        runs.append((" " * (pad * square.wide), "ground"))
        runs += _together(_cell(cell, lean, square, line) for cell, lean in cut)
        after = across - pad - len(cut)
        right_out = "…" if start + across < most and first else " "
        runs.append((edge if row.leftward and start + across >= most and after <= 0 else right_out, "edge"))
        if row.leftward and after > 0 and squares:
            runs[-1] = (edge, "edge")
        runs.append((" " * (max(0, after) * square.wide), "ground"))
        used = sum(len(text) for text, _ in runs)
        if counted and first:
            runs.append((f"  {row.counted}", role))
            used += len(row.counted) + 2
        runs.append((" " * max(0, width - used), "ground"))
        out.append(tuple(run for run in runs if run[0]))
    return out


def _together(runs: Iterable[Run]) -> list[Run]:
    """Neighbours of one role as one run."""
    out: list[Run] = []
    for text, role in runs:
        if out and out[-1][1] == role:
            out[-1] = (out[-1][0] + text, role)
        else:
            out.append((text, role))
    return out


def _cell(cell: Cell, lean: str, square: Square, line: int) -> Run:
    role = "now" if cell.current and not cell.done else "done" if cell.done else "coming"
    if cell.shape is Shape.BLOCK:
        filled = {"now": "▓", "done": "█", "coming": "░"}[role] * square.wide
        if role == "done" and square.wide > 2:
            filled = filled[:-1] + "▉"  # a hair's breadth between two, so that they can be counted
        return filled, "fill " + role
    if cell.shape is Shape.WINDOW:
        return _window_cell(role, square, line), role
    if role == "coming":
        return _COMING.ljust(square.wide), role
    # In hand, a stitch has the same sign as when it is done: it is turned round, so that more than its colour tells.
    return (_LEANS.get(lean) or sign_of(cell)).ljust(square.wide), "stitch now" if role == "now" else role


def _window_cell(role: str, square: Square, line: int) -> str:
    wide, high = square.wide, square.high
    if high == 1:
        return {"now": "▣", "done": "□", "coming": "·"}[role].ljust(wide)
    if role == "coming":
        corner = line in (0, high - 1)
        return "·".ljust(wide - 1) + "·" if corner else " " * wide
    signs = "╔═╗║╚╝" if role == "now" else "┌─┐│└┘"
    if line == 0:
        return signs[0] + signs[1] * (wide - 2) + signs[2]
    if line == high - 1:
        return signs[4] + signs[1] * (wide - 2) + signs[5]
    return signs[3] + " " * (wide - 2) + signs[3]


def sign_of(cell: Cell) -> str:
    """The sign of a stitch or space that is done."""
    if cell.shape is Shape.TURNING:
        return _TURNING
    if cell.shape is Shape.SPACE:
        return _SPACE
    kind = cell.kind
    if "tog" in kind or "dec" in kind:
        return "Λ"
    if kind.startswith(("fp", "bp")):
        return "⌠" if kind.startswith("fp") else "⌡"
    return _STITCHES.get(kind, kind[:1] or "?")
