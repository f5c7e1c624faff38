"""A small picture of a whole piece in a terminal: filet as its squares, rows under each other, rounds as circles or,
where they have corners, as squares and hexagons.

Comes in: a pattern worked, and the room. Goes out: what is to be known of it before it is begun, and lines of
text in roles. Of a large piece the beginning is drawn. What cannot be read gives one sentence, never an exception.
"""

from math import pi

from tracker.charts.layout.around.corners import corners_of
from tracker.charts.outline import CIRCLE, FULL, Outline, at, corner_turn
from tracker.load import load
from tracker.looks.rows import Strip, waves
from tracker.problems import Severity
from tracker.program.places import Program
from tracker.records import dataclass, replace
from tracker.screen.drawing.cells import sign_of
from tracker.screen.drawing.words import Line, clipped, shown
from tracker.session.seen.lying import Cell, Shape, lying

_MOST_ROWS = 120
"""Rows of which a picture is made."""
_SMALLEST_CIRCLE = 4
_FEWEST = 4
"""Rows of a ripple that are seen, at least; in less room it is drawn straight."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A pattern as it is shown before it is begun."""

    title: str
    facts: tuple[str, ...]
    """A line each."""
    sizes: tuple[str, ...]
    size: str | None
    rows: tuple[tuple[Cell, ...], ...]
    """The first rows, from the first on, each from left to right as it lies, rounds with the clock."""
    filet: bool
    round: bool
    corners: int = 0
    """Of the rounds that have any."""
    first: tuple[float | None, ...] = ()
    """For each round what part of it lies before its first corner, as the cells lie; None for one without corners."""


def picture_of(name: str, text: str, size: str | None, mirrored: bool) -> Picture:
    """Work a pattern for its picture."""
    loaded = load(name, text, size)
    pattern, fabric = loaded.pattern, loaded.fabric
    program = Program(loaded.source, pattern, fabric, loaded.problems)
    rows: list[tuple[Cell, ...]] = []
    filet = around = False
    corners: tuple[tuple[float, int], ...] = ()
    if fabric.length:
        first = fabric.row(1)
        last = min(fabric.length, _MOST_ROWS)
        while last > 1 and fabric.row(last).part != first.part:
            last -= 1
        around = first.kind == "round"
        lines = lying(program, last, 1, last, against=False)[::-1]
        for line in lines:
            # A right-handed maker's rows run to the left, and their rounds against the clock.
            turned_round = not mirrored if around else line.against is mirrored
            rows.append(_turned(line.cells) if turned_round else line.cells)
        if around:
            placed = tuple(one for _, one in fabric.rows(1, last))
            found = corners_of(placed) if all(one.kind == "round" for one in placed) else []
            corners = tuple(
                _first(one, len(row.worked.elements), mirrored)
                for one, row in zip(found, placed, strict=False)
            )
        filet = any(cell.shape in (Shape.WINDOW, Shape.BLOCK) for row in rows for cell in row)
    wrong = sum(1 for problem in loaded.problems if problem.severity is Severity.ERROR)
    word = "round" if around else "row"
    many = f"{fabric.length:,} {word}{'' if fabric.length == 1 else 's'}"
    on = ", and on as long as you like" if fabric.open_ended else ""
    widest = max((len(row) for row in rows), default=0)
    unit = "squares" if filet else "stitches and spaces"
    facts = [
        f"{many}{on}" + (f", up to {widest} {unit}" if widest else ""),
        f"in {'UK' if pattern.uk else 'US'} terms",
    ]
    if pattern.sizes:
        facts.append(f"size {pattern.size or pattern.sizes[0]}, one of {len(pattern.sizes)}")
    if wrong:
        facts.append(
            "one thing in it cannot be right" if wrong == 1 else f"{wrong} things in it cannot be right"
        )
    if not fabric.length:
        facts = ["no row or round was found in it"]
    return Picture(
        pattern.title,
        tuple(facts),
        pattern.sizes,
        pattern.size,
        tuple(rows),
        filet,
        around,
        max((many for _, many in corners), default=0),
        tuple(part if many else None for part, many in corners),
    )


def _turned(cells: tuple[Cell, ...]) -> tuple[Cell, ...]:
    """A row from its other end: what is pushed along it is pushed the other way."""
    return tuple(replace(cell, pushed=-cell.pushed) if cell.pushed else cell for cell in reversed(cells))


def _first(corners: tuple[float, ...], elements: int, mirrored: bool) -> tuple[float, int]:
    """What part of a round lies before its first corner, as its cells lie, and how many corners it has."""
    part = (corners[0] + 0.5) / max(1, elements) if corners else 0.0
    return part if mirrored else 1 - part, len(corners)


def drawn(picture: Picture, width: int, height: int) -> tuple[Line, ...]:
    """The piece in the room there is."""
    if not picture.rows or width < 4 or height < 2:
        return ()
    if picture.filet:
        lines = _squares(picture, width, height)
    elif picture.round and min(width // 2, height) // 2 >= _SMALLEST_CIRCLE:
        lines = _circles(picture, width, height)
    else:
        lines = _strips(picture, width, height)
    return tuple(((line.ljust(width)[:width], "done"),) for line in lines)


def _squares(picture: Picture, width: int, height: int) -> list[str]:
    """Filled squares as blocks, two rows to a line where they would not fit otherwise; the last row on top."""
    wide = max(len(row) for row in picture.rows)
    filled = [[cell.shape is Shape.BLOCK for cell in row] for row in picture.rows]
    if len(filled) <= height and wide * 2 <= width:
        return ["".join("█▉" if block else "□ " for block in row) for row in reversed(filled)]
    shown_rows = [row[:width] for row in filled[: height * 2]]
    if len(shown_rows) % 2:
        shown_rows.append([False] * wide)
    out = []
    for low, high in zip(shown_rows[::2], shown_rows[1::2], strict=True):
        across = max(len(low), len(high))
        pairs = zip(low + [False] * (across - len(low)), high + [False] * (across - len(high)), strict=True)
        out.append("".join(" ▄▀█"[below + 2 * above] for below, above in pairs))
    return out[::-1]


def _strips(picture: Picture, width: int, height: int) -> list[str]:
    """Each row with its signs, on the middle of the widest; the last on top. Of a wide one the middle is seen."""
    rows = picture.rows[:height]
    wide = max(len(row) for row in rows)
    # A cell is twice as high as it is wide: so many lines a ripple's rows fall.
    drops = [
        round(drop / 2) for drop in waves(tuple(Strip("", row, "", False, False) for row in rows), False)
    ]
    deep = max(drops, default=0)
    if not drops or height - deep < _FEWEST:
        drops, deep = [0] * wide, 0
    rows = rows[: height - deep]
    field = [[" "] * wide for _ in range(len(rows) + deep)]
    for nth, row in enumerate(reversed(rows)):
        before = (wide - len(row)) // 2
        for column, cell in enumerate(row, before):
            field[nth + drops[column]][column] = sign_of(cell)
    start = max(0, (wide - width) // 2)
    return ["".join(line[start : start + width]) for line in field]


def _circles(picture: Picture, width: int, height: int) -> list[str]:
    """Each round on a line of its own, its stitches where they come to lie; a cell is twice as high as it is wide."""
    most = (min(width // 2, height) - 1) // 2
    rows = picture.rows[:most]
    middle_x, middle_y = min(width // 2, most * 2 + 1), most
    field = [[" "] * width for _ in range(most * 2 + 1)]
    step = most / len(rows)
    field[middle_y][middle_x] = "o"
    for nth, row in enumerate(rows, 1):
        part = picture.first[nth - 1] if nth <= len(picture.first) else None
        line = CIRCLE if part is None else Outline(picture.corners)
        # Rounds begin at the top and their cells run with the clock; corners come to lie in the outline's.
        begin = pi
        if part is not None:
            corner = round((pi - FULL * part) * line.corners / FULL + 0.5)
            begin = corner_turn(line, corner) + FULL * part
        for nth_cell, cell in enumerate(row):
            across, down = at(line, begin - FULL * (nth_cell + 0.5) / len(row), step * nth)
            x, y = middle_x + round(2 * across), middle_y + round(down)
            if 0 <= y < len(field) and 0 <= x < width:
                field[y][x] = sign_of(cell)
    return ["".join(row).rstrip() for row in field]


def caption(picture: Picture, width: int, most: int) -> tuple[str, ...]:
    """Its title and what is to be known of it."""
    return tuple(clipped(shown(line), width) for line in (picture.title, *picture.facts))[:most]
