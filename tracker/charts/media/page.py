"""A sheet as one picture: title, lines to read, the chart with its edges, the key below. Sheets come in, a drawing
goes out."""

from tracker.charts.drawing import (
    INK,
    LIT,
    PAPER,
    Edge,
    Field,
    Mark,
    Shape,
    Sheet,
    Symbol,
    Words,
    rectangle,
    shifted,
)
from tracker.charts.signs.letters import length_of
from tracker.records import dataclass

MARGIN = 24.0
"""Points of white around everything."""
_SIDE = 10.0
"""Between the field and the words at its edge."""
_NUMBER = 8.0
"""Height of a number at the edge."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """A finished picture."""

    width: float
    height: float
    symbols: tuple[Symbol, ...]
    marks: tuple[Mark, ...]
    title: str
    told: str
    """What the picture says, for those who cannot see it."""


def composed(sheets: tuple[Sheet, ...]) -> Drawing:
    """All the sheets, one below the other."""
    marks: list[Mark] = []
    symbols: dict[str, Symbol] = {}
    wide, y = 0.0, MARGIN
    for sheet in sheets:
        drawn, across, down = _one(sheet)
        marks.extend(shifted(mark, MARGIN, y) for mark in drawn)
        symbols |= {symbol.name: symbol for symbol in sheet.symbols}
        wide, y = max(wide, across), y + down + 2 * MARGIN
    told = "\n".join("\n".join((sheet.title, *sheet.lines)) for sheet in sheets)
    return Drawing(
        wide + 2 * MARGIN,
        y - MARGIN,
        tuple(symbols.values()),
        tuple(marks),
        sheets[0].title if sheets else "",
        told,
    )


def edge_width(field: Field, side: str) -> float:
    """Room that the words at one side take."""
    words = [length_of(edge.text, _NUMBER) for edge in field.edges if edge.side == side]
    return max(words) + 2 * _SIDE if words else 4.0


def edge_marks(
    edges: tuple[Edge, ...], left: float, right: float, bottom: float, dx: float = 0.0, dy: float = 0.0
) -> tuple[Mark, ...]:
    """The words at the edges of a field whose sides stand at left, right and bottom."""
    out: list[Mark] = []
    for edge in edges:
        long = length_of(edge.text, _NUMBER)
        if edge.side == "bottom":
            out.append(Words(edge.text, edge.at + dx, bottom + _NUMBER + 6, _NUMBER - 1, "middle"))
            continue
        y = edge.at + dy + _NUMBER / 2
        end = left if edge.side == "left" else right
        if edge.ends is not None:
            begins, finishes = edge.ends[0] + dx, edge.ends[1] + dx
            if finishes < left or begins > right:
                continue
            end = max(begins, left) if edge.side == "left" else min(finishes, right)
        x = end - _SIDE + 2 if edge.side == "left" else end + _SIDE - 2
        if edge.lit:
            box = rectangle(
                x - long - 4 if edge.side == "left" else x - 4, y - _NUMBER - 4, long + 8, _NUMBER + 8
            )
            out.append(Shape(box, fill=LIT, stroke=INK, width=1.5))
        out.append(Words(edge.text, x, y, _NUMBER, "end" if edge.side == "left" else "start", bold=edge.lit))
    return tuple(out)


def heading(sheet: Sheet) -> tuple[list[Mark], float, float]:
    """Title and lines, with the room they take."""
    marks: list[Mark] = []
    wide = y = 0.0
    if sheet.title:
        y = 14.0
        marks.append(Words(sheet.title, 0, y, 13, bold=True))
        wide = length_of(sheet.title, 13)
    for words in sheet.lines:
        y += 17
        marks.append(Words(words, 0, y, 8))
        wide = max(wide, length_of(words, 8))
    return marks, wide, y + 16 if marks else 0.0


def key_marks(sheet: Sheet) -> tuple[list[Mark], float, float]:
    """The key, a line an entry, with the room it takes."""
    marks: list[Mark] = []
    wide = 0.0
    for nth, entry in enumerate(sheet.key):
        y = nth * 25.0
        marks.extend(shifted(mark, 0, y) for mark in entry.marks)
        marks.append(Words(entry.words, 36, y + 15, 8))
        wide = max(wide, 36 + length_of(entry.words, 8))
    return marks, wide, len(sheet.key) * 25.0


def _one(sheet: Sheet) -> tuple[list[Mark], float, float]:
    field = sheet.field
    marks, wide, y = heading(sheet)
    left = edge_width(field, "left")
    marks.extend(shifted(mark, left, y) for mark in field.marks)
    marks.extend(edge_marks(field.edges, left, left + field.width, y + field.height, left, y))
    wide = max(wide, left + field.width + edge_width(field, "right"))
    y += field.height + (22 if any(edge.side == "bottom" for edge in field.edges) else 6)
    if sheet.key:
        keys, across, down = key_marks(sheet)
        marks.extend(shifted(mark, 0, y + 14) for mark in keys)
        wide, y = max(wide, across), y + 14 + down
    return marks, wide, y


def white(drawing: Drawing) -> Shape:
    """The paper under a picture."""
    return Shape(rectangle(0, 0, drawing.width, drawing.height), fill=PAPER)
