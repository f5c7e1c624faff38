"""How the work lies in the lap: the cells of a row, the rows below it, the rounds in sight.

A program and a place come in; what is drawn of it goes out, as values that say what stands where and how far it is
made, and nothing of how it looks.
"""

from enum import Enum
from functools import lru_cache

from tracker.fabric.model import CH, HIDDEN, SP, Element, Placed
from tracker.fabric.pushed import rippled
from tracker.program.places import Place, Program
from tracker.program.row.squares import squares_done
from tracker.records import dataclass

ROWS_SHOWN = 4
"""Rows below the one in hand that are drawn."""
ROUNDS_SHOWN = 8
"""Rounds that are seen at most, with the one in hand."""
_WAVES_JUDGED = 12
"""Rows of a part by which it is known to rise and fall."""
_JUDGED = 60
"""Rounds of a part by which it is known for a tube."""
_ALIKE = 0.9
"""Of the most stitches of a tube's rounds that each of them has, at least."""
_SHORTEST_TUBE = 12
"""Things that stand on a round of it; fewer on a chain are as likely in a ring."""


class Shape(Enum):
    """What a cell shows."""

    WINDOW = "window"
    BLOCK = "block"
    STITCH = "stitch"
    TURNING = "turning chain"
    SPACE = "space"


@dataclass(frozen=True, slots=True)
class Cell:
    """A square of filet, or one stitch or space."""

    shape: Shape
    done: bool
    current: bool = False
    """True for those of the group in hand."""
    kind: str = ""
    """The stitch's name inside; "" for squares and spaces."""
    with_before: bool = False
    """True for a stitch in the same place as the one made before it: an increase, a shell."""
    pushed: float = 0.0
    """Of a row that rises and falls: stitches that this one stands further along its row than what it goes into."""


@dataclass(frozen=True, slots=True)
class Line:
    """A row as it lies in the lap."""

    label: str
    cells: tuple[Cell, ...]
    """In the order made."""
    counted: str
    """"16 squares", "27 stitches", or nothing."""
    against: bool = False
    """True when it was made against the direction of the row in hand: seen from here its first cell is at the left
    for a right-handed maker, whose row in hand begins at the right."""


@dataclass(frozen=True, slots=True)
class Around:
    """Rounds as they were worked, for whoever draws them around their middle."""

    rounds: tuple[Placed, ...]
    """The newest last."""
    in_hand: bool
    """True when the last of them is the one in hand; else they are all done."""
    made: int = 0
    """Elements of the last that are made."""
    now: tuple[int, int] = (0, 0)
    """Elements of it that are in hand: the first, and the end, excluded."""
    tube: bool = False
    """True for a part that begins on a chain and never changes its width."""


def cells_of(program: Program, place: Place) -> tuple[Cell, ...]:
    elements = program.fabric.row(place[2]).worked.elements
    beat = program.beat(place)
    start, end = (beat.made_from, beat.made_to) if beat else (len(elements), len(elements))
    return _drawn(program, place[2], len(program.made(place)), start, end)


def _drawn(program: Program, row: int, made: int, start: int, end: int) -> tuple[Cell, ...]:
    """Cells of a row of which so many elements are made, those from `start` to `end` in hand."""
    elements = program.fabric.row(row).worked.elements
    squares = program.squares(row)
    if squares and program.mesh:
        done = squares_done(elements[:made], program.mesh)
        first, last = squares_done(elements[:start], program.mesh), squares_done(elements[:end], program.mesh)
        return tuple(
            Cell(Shape.WINDOW if window else Shape.BLOCK, at < done, first <= at < last)
            for at, window in enumerate(squares)
        )
    ripple = _ripple(program, row)
    return tuple(
        Cell(
            _shape(element),
            at < made,
            start <= at < end,
            "" if element.kind == SP else element.kind,
            at > 0 and _in_one_place(elements[at - 1], element),
            ripple[at] if ripple else 0.0,
        )
        for at, element in enumerate(elements)
        if element.kind != HIDDEN
    )


@lru_cache(maxsize=64)
def _ripple(program: Program, row: int) -> tuple[float, ...]:
    """How far the row's stitches are pushed along, where it rises and falls; the rows in sight are asked for at every
    step."""
    placed = program.fabric.row(row)
    return () if placed.kind == "round" else rippled(placed.worked)


def _in_one_place(before: Element, element: Element) -> bool:
    """True for two stitches worked into the same place of the row below."""
    return before.is_stitch and element.is_stitch and len(element.into) == 1 and before.into == element.into


def _shape(element: Element) -> Shape:
    if element.kind == SP:
        return Shape.SPACE
    return Shape.TURNING if element.turning else Shape.STITCH


def below_of(program: Program, place: Place) -> tuple[Line, ...]:
    part = program.part(place)
    if part is None:
        return ()
    row = place[2]
    against = program.placed(place) is not None and program.fabric.row(row).worked.turned
    return lying(program, row - 1, program.ground(place), ROWS_SHOWN, against=against)


def lying(program: Program, top: int, first: int, most: int, *, against: bool) -> tuple[Line, ...]:
    """Finished rows as they lie, from the top one down to the first, so many at most.

    `against`: whether the top one runs against the direction of whoever looks.
    """
    out: list[Line] = []
    for row in range(top, max(first, top - most + 1) - 1, -1):
        placed = program.fabric.row(row)
        size = len(placed.worked.elements)
        squares = program.squares(row)
        counted = (
            f"{len(squares)} squares"
            if squares
            else f"{placed.worked.stitches} stitches"
            if placed.worked.understood
            else ""
        )
        cells = _drawn(program, row, size, size, size) if placed.worked.understood else ()
        out.append(Line(placed.label, cells, counted, against))
        against = against != placed.worked.turned
    return tuple(out)


def around_of(program: Program, place: Place) -> Around | None:
    """The rounds in sight; None where rows are worked, or words that were not understood."""
    part, row = program.part(place), place[2]
    if part is None or part.last < part.first or program.fabric.row(min(row, part.last)).kind != "round":
        return None
    in_hand = program.placed(place) is not None
    if in_hand and not program.is_followed(row):
        return None
    found: list[Placed] = []
    for index in range(row if in_hand else row - 1, max(part.first - 1, row - ROUNDS_SHOWN), -1):
        placed = program.fabric.row(index)
        if placed.kind != "round" or not placed.worked.elements or not program.is_followed(index):
            break
        found.append(placed)
    if in_hand and not found:
        return None
    tube = _is_tube(program, part.first, part.last)
    if not in_hand:
        return Around(tuple(reversed(found)), False, tube=tube)
    beat = program.beat(place)
    many = len(found[0].worked.elements)
    now = (beat.made_from, beat.made_to) if beat else (many, many)
    return Around(tuple(reversed(found)), True, len(program.made(place)), now, tube)


@lru_cache(maxsize=64)
def is_waved(program: Program, first: int, last: int) -> bool:
    """True when more than one of the first rows of a part rises and falls."""
    waved = 0
    for row in range(first, min(last, first + _WAVES_JUDGED) + 1):
        waved += bool(_ripple(program, row))
        if waved > 1:
            return True
    return False


@lru_cache(maxsize=64)
def _is_tube(program: Program, first: int, last: int) -> bool:
    """True for rounds on a chain, or on a piece's edge, that are all about as wide."""
    rows = [placed for _, placed in program.fabric.rows(first, min(last, first + _JUDGED))]
    if any(placed.kind != "round" for placed in rows) or not rows[0].worked.below:
        return False
    on_chain = rows[0].worked.below[0].kind == CH
    wide = [len(placed.worked.elements) for placed in rows if placed.worked.understood]
    return bool(wide) and min(wide) >= _ALIKE * max(wide) and (not on_chain or max(wide) > _SHORTEST_TUBE)
