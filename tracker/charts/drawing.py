"""A chart as values: shapes, symbols with their places, words, and what belongs at the edge of every page.

Nothing here draws. Lengths are in points (1/72 inch), x to the right, y downwards, as on a page.
"""

from math import cos, pi, sin
from typing import Final

from tracker.records import dataclass

INK: Final = "#1d1d1f"
"""Lines, words and filled squares."""
PALE: Final = "#b9bcc2"
"""Lines that only help the eye."""
LIT: Final = "#ffe48a"
"""What is under a row that is lit; a frame goes with it, so that colour alone tells nothing."""
PAPER: Final = "#ffffff"

Segment = tuple[str, tuple[float, ...]]
"""A letter and its figures: M x y, L x y, C x y x y x y, Z."""
Path = tuple[Segment, ...]


@dataclass(frozen=True, slots=True)
class Shape:
    """One path, filled or drawn along."""

    path: Path
    fill: str = ""
    """Empty: not filled. "ink" inside a symbol: the colour of the place it is put at."""
    stroke: str = ""
    """Empty: not drawn along."""
    width: float = 1.0
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Symbol:
    """A sign drawn once and put in many places."""

    name: str
    shapes: tuple[Shape, ...]


@dataclass(frozen=True, slots=True)
class Use:
    """A symbol at its place."""

    symbol: str
    matrix: tuple[float, float, float, float, float, float]
    """a b c d e f: (x, y) goes to (a x + c y + e, b x + d y + f)."""
    colour: str = INK


@dataclass(frozen=True, slots=True)
class Words:
    """Words at a place; every medium draws them with the letters of `letters`."""

    text: str
    x: float
    y: float
    """Of the line they stand on."""
    size: float = 9.0
    """Height of a capital."""
    anchor: str = "start"
    """"start", "middle" or "end": which part of the words stands at x."""
    colour: str = INK
    bold: bool = False


Mark = Shape | Use | Words


@dataclass(frozen=True, slots=True)
class Edge:
    """A word that belongs at the edge of the field, on every page where its line is to be seen."""

    text: str
    at: float
    """Height of it from the top of the field; for a column, from its left."""
    side: str
    """"left", "right" or "bottom"."""
    lit: bool = False
    ends: tuple[float, float] | None = None
    """Of a row that ends far within the field: how far from the field's left it begins and ends. The word stands at its
    end, and not at all on a page that shows nothing of the row."""
    line: tuple[tuple[float, float], ...] = ()
    """Of a row that rises and falls, points along its middle from left to right; () for one that is straight. On a page
    the word stands as high as the row is where the page cuts it."""


@dataclass(frozen=True, slots=True)
class Ring:
    """The line of a round, so that a page that shows only a part of it can still say its number."""

    text: str
    x: float
    y: float
    radius: float
    """Of a round with corners the distance of its sides."""
    places: tuple[tuple[float, float], ...] = ()
    """Of a round with corners, points along it, from its middle; () for a circle."""


@dataclass(frozen=True, slots=True)
class Field:
    """The chart itself, without what stands around it."""

    width: float
    height: float
    marks: tuple[Mark, ...]
    """In the order painted."""
    edges: tuple[Edge, ...] = ()
    rings: tuple[Ring, ...] = ()
    step: float = 18.0
    """A length that a page should not cut through: the width of a square or a stitch."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A line of the key."""

    marks: tuple[Mark, ...]
    """Drawn in a box of 26 × 22 with its top left corner at 0, 0."""
    words: str


@dataclass(frozen=True, slots=True)
class Sheet:
    """A chart with all that belongs to it."""

    title: str
    lines: tuple[str, ...]
    """What a maker has to know to read it: hand, sides, where to begin."""
    field: Field
    symbols: tuple[Symbol, ...]
    key: tuple[Entry, ...]
    letters: str
    """The same chart in plain letters, for a terminal, a screen reader and .txt."""


def rectangle(x: float, y: float, width: float, height: float) -> Path:
    """A box by its top left corner."""
    return (
        ("M", (x, y)),
        ("L", (x + width, y)),
        ("L", (x + width, y + height)),
        ("L", (x, y + height)),
        ("Z", ()),
    )


def line(*points: tuple[float, float]) -> Path:
    """Straight from point to point."""
    return tuple(("L" if at else "M", point) for at, point in enumerate(points))


# How far the handles of a quarter ellipse reach, in radii: the usual approximation, wrong by less than 0.03 %.
_QUARTER = 0.5523


def ellipse(x: float, y: float, across: float, down: float | None = None) -> Path:
    """An ellipse by its middle and its two radii; a circle when there is one."""
    a, b = across, across if down is None else down
    h, v = a * _QUARTER, b * _QUARTER
    return (
        ("M", (x + a, y)),
        ("C", (x + a, y + v, x + h, y + b, x, y + b)),
        ("C", (x - h, y + b, x - a, y + v, x - a, y)),
        ("C", (x - a, y - v, x - h, y - b, x, y - b)),
        ("C", (x + h, y - b, x + a, y - v, x + a, y)),
        ("Z", ()),
    )


def moved(path: Path, matrix: tuple[float, float, float, float, float, float]) -> Path:
    """The path with every point taken through the matrix."""
    a, b, c, d, e, f = matrix
    out: list[Segment] = []
    for letter, figures in path:
        pairs = zip(figures[::2], figures[1::2], strict=True)
        out.append(
            (letter, tuple(value for x, y in pairs for value in (a * x + c * y + e, b * x + d * y + f)))
        )
    return tuple(out)


def turned(
    x: float, y: float, degrees: float = 0.0, across: float = 1.0, along: float | None = None
) -> tuple[float, float, float, float, float, float]:
    """The matrix of a symbol put at x, y, turned clockwise, and stretched in its own two directions before that."""
    turn = degrees * pi / 180
    tall = across if along is None else along
    return across * cos(turn), across * sin(turn), -tall * sin(turn), tall * cos(turn), x, y


def shifted(mark: Mark, dx: float, dy: float) -> Mark:
    """The mark somewhere else."""
    if isinstance(mark, Shape):
        return Shape(moved(mark.path, (1, 0, 0, 1, dx, dy)), mark.fill, mark.stroke, mark.width, mark.dashed)
    if isinstance(mark, Use):
        a, b, c, d, e, f = mark.matrix
        return Use(mark.symbol, (a, b, c, d, e + dx, f + dy), mark.colour)
    return Words(mark.text, mark.x + dx, mark.y + dy, mark.size, mark.anchor, mark.colour, mark.bold)
