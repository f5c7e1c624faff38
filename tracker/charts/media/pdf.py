"""Charts as PDF. A chart that is still easy to read on one page stays whole; a larger one is cut into pages that
overlap, with the row numbers on each and a first page that shows how they lie.

Sheets come in, bytes go out. Every word is strokes, with the same word unseen over it for searching and reading
aloud. The pages are A4 with margins wide enough that nothing is lost on US Letter either.
"""

from io import BytesIO
from itertools import pairwise
from math import cos, pi, sin
from typing import Any

from tracker.charts.drawing import (
    INK,
    PAPER,
    Edge,
    Field,
    Mark,
    Path,
    Ring,
    Shape,
    Sheet,
    Symbol,
    Use,
    Words,
    moved,
    rectangle,
    shifted,
)
from tracker.charts.media.bounds import bounds_of
from tracker.charts.media.page import composed, edge_marks, edge_width, heading, key_marks
from tracker.charts.media.tiles import OVERLAP, Window, windows
from tracker.charts.signs.letters import length_of, path_of
from tracker.records import replace

PAGE = (595.28, 841.89)
"""A4."""
ROOM = (523.0, 720.0)
"""What both A4 and US Letter can print, with half an inch to spare."""
SMALLEST = 0.62
"""A chart drawn smaller than this of its natural size is cut into pages instead."""
TILE = 0.8
"""Size on those pages: a square is 5 mm across."""


def pdf(sheets: tuple[Sheet, ...]) -> bytes:
    """The sheets, each from a page of its own."""
    from reportlab.pdfgen.canvas import Canvas

    out = BytesIO()
    canvas = Canvas(out, pagesize=PAGE, invariant=1, pageCompression=1)
    canvas.setTitle(sheets[0].title if sheets else "Chart")
    canvas.setCreator("rowteller")
    paint_on(canvas, sheets)
    canvas.save()
    return out.getvalue()


def paint_on(canvas: Any, sheets: tuple[Sheet, ...]) -> None:
    """The sheets on pages of a document that is being written, each from a page of its own."""
    for sheet in sheets:
        _sheet(_Pen(canvas, {symbol.name: symbol for symbol in sheet.symbols}), sheet)


def _sheet(pen: "_Pen", sheet: Sheet) -> None:
    whole = composed((sheet,))
    scale = min(1.0, ROOM[0] / whole.width, ROOM[1] / whole.height)
    if scale >= SMALLEST:
        pen.open((PAGE[0] - whole.width * scale) / 2, 50.0, scale)
        pen.paint(whole.marks)
        pen.close()
        return
    field = sheet.field
    left, right = edge_width(field, "left"), edge_width(field, "right")
    across = (ROOM[0] - left - right) / TILE
    down = (ROOM[1] - 60) / TILE
    cut = windows(field.width, field.height, field.step, across, down)
    _overview(pen, sheet, cut)
    bounds = [bounds_of(mark, pen.symbols) for mark in field.marks]
    for nth, window in enumerate(cut, 2):
        _tile(pen, sheet, window, bounds, (nth, len(cut) + 1))


def _overview(pen: "_Pen", sheet: Sheet, cut: tuple[Window, ...]) -> None:
    """The first page: title, key, and the whole small with its pages outlined."""
    marks, wide, y = heading(sheet)
    keys, across, down = key_marks(sheet)
    marks.extend(shifted(mark, 0, y) for mark in keys)
    y += down + 10
    marks.append(
        Words(
            f"{len(cut)} pages follow; neighbours share {OVERLAP} squares or stitches, dashed.", 0, y + 8, 8
        )
    )
    wide = max(wide, across, length_of(marks[-1].text, 8) if isinstance(marks[-1], Words) else 0)
    y += 26
    text_scale = min(1.0, ROOM[0] / max(wide, 1), ROOM[1] * 0.6 / y)
    pen.open(36, 50, text_scale)
    pen.paint(tuple(marks))
    pen.close(stay=True)
    field = sheet.field
    scale = min(ROOM[0] / field.width, (ROOM[1] - y * text_scale) / field.height)
    pen.open(36, 50 + y * text_scale, scale)
    pen.paint(field.marks)
    for window in cut:
        pen.paint(
            (
                Shape(
                    rectangle(window.x, window.y, window.width, window.height),
                    stroke="#c02020",
                    width=1.2 / scale,
                ),
                Words(
                    window.name,
                    window.x + 6 / scale,
                    window.y + 14 / scale,
                    9 / scale,
                    colour="#c02020",
                    bold=True,
                ),
            )
        )
    pen.close()


def _tile(
    pen: "_Pen",
    sheet: Sheet,
    window: Window,
    bounds: list[tuple[float, float, float, float]],
    page: tuple[int, int],
) -> None:
    field = sheet.field
    left = edge_width(field, "left")
    x, y = 36 + left, 50 + 30
    pen.open(36, 50, 1.0)
    head = f"{sheet.title}   page {page[0]} of {page[1]}: {window.name}"
    size = min(10.0, 10.0 * ROOM[0] / max(1.0, length_of(head, 10)))
    pen.paint((Words(head, 0, 10, size, bold=True),))
    pen.close(stay=True)
    pen.open(x - window.x * TILE, y - window.y * TILE, TILE)
    pen.clip(rectangle(window.x, window.y, window.width, window.height))
    pen.paint(
        tuple(
            mark
            for mark, (x0, y0, x1, y1) in zip(field.marks, bounds, strict=True)
            if x1 >= window.x
            and x0 <= window.x + window.width
            and y1 >= window.y
            and y0 <= window.y + window.height
        )
    )
    pen.paint(tuple(mark for ring in field.rings for mark in _told(ring, window)))
    pen.paint(tuple(mark for edge in field.edges for mark in _within(edge, window)))
    pen.paint(_seams(field, window))
    pen.close(stay=True)
    pen.open(x, y, 1.0)
    seen = tuple(
        replace(
            edge,
            at=(edge.at - start) * TILE,
            ends=edge.ends and ((edge.ends[0] - window.x) * TILE, (edge.ends[1] - window.x) * TILE),
        )
        for edge in (_cut(edge, window) for edge in field.edges)
        for start, long in [(window.x, window.width) if edge.side == "bottom" else (window.y, window.height)]
        if start <= edge.at <= start + long
    )
    pen.paint(edge_marks(seen, 0, window.width * TILE, window.height * TILE))
    pen.close()


def _cut(edge: Edge, window: Window) -> Edge:
    """The word of a row that rises and falls, as high as that row is where this page ends."""
    if not edge.line:
        return edge
    end = window.x if edge.side == "left" else window.x + window.width
    return replace(edge, at=_height(edge.line, end))


def _height(line: tuple[tuple[float, float], ...], x: float) -> float:
    """How low a line lies there; as at its ends beyond them."""
    for (x0, y0), (x1, y1) in pairwise(line):
        if x0 <= x <= x1:
            return y0 + (y1 - y0) * (x - x0) / ((x1 - x0) or 1.0)
    return line[0][1] if x < line[0][0] else line[-1][1]


def _within(edge: Edge, window: Window) -> tuple[Mark, ...]:
    """The word of a row that is seen on this page but leaves it above or below before its side: on the row itself."""
    low, high = window.y, window.y + window.height
    if not edge.line or low <= _cut(edge, window).at <= high:
        return ()
    inside = [
        (x, y)
        for x, y in edge.line
        if window.x + 20 < x < window.x + window.width - 20 and low + 8 < y < high - 8
    ]
    if not inside:
        return ()
    x, y = inside[0] if edge.side == "left" else inside[-1]
    long = length_of(edge.text, 6)
    box = rectangle(x - long / 2 - 2, y - 5, long + 4, 10)
    return Shape(box, fill=PAPER), Words(edge.text, x, y + 3, 6, "middle", bold=edge.lit)


def _seams(field: Field, window: Window) -> tuple[Mark, ...]:
    """Dashed lines where a neighbouring page begins or ends."""
    out: list[Mark] = []
    shared = OVERLAP * field.step
    right, bottom = window.x + window.width, window.y + window.height
    for x in ([window.x + shared] if window.column else []) + (
        [right - shared] if right < field.width else []
    ):
        out.append(
            Shape((("M", (x, window.y)), ("L", (x, bottom))), stroke="#c02020", width=0.8, dashed=True)
        )
    for y in ([window.y + shared] if window.row else []) + (
        [bottom - shared] if bottom < field.height else []
    ):
        out.append(Shape((("M", (window.x, y)), ("L", (right, y))), stroke="#c02020", width=0.8, dashed=True))
    return tuple(out)


def _told(ring: Ring, window: Window) -> tuple[Mark, ...]:
    """A round's number at a place of its line that this page shows, twice where there is room."""
    inside = []
    turns = [nth * 2 * pi / 96 for nth in range(96)]
    circle = tuple((ring.radius * cos(turn), -ring.radius * sin(turn)) for turn in turns)
    for dx, dy in ring.places or circle:
        x, y = ring.x + dx, ring.y + dy
        if (
            window.x + 12 < x < window.x + window.width - 12
            and window.y + 12 < y < window.y + window.height - 12
        ):
            inside.append((x, y))
    if not inside:
        return ()
    places = (
        {inside[len(inside) // 4], inside[3 * len(inside) // 4]}
        if len(inside) > 20
        else {inside[len(inside) // 2]}
    )
    out: list[Mark] = []
    for x, y in sorted(places):
        long = length_of(ring.text, 6)
        out.append(Shape(rectangle(x - long / 2 - 2, y - 5, long + 4, 10), fill=PAPER))
        out.append(Words(ring.text, x, y + 3, 6, "middle"))
    return tuple(out)


class _Pen:
    """Paints marks on a page of reportlab, whose y goes up."""

    def __init__(self, canvas: Any, symbols: dict[str, Symbol]) -> None:
        self._canvas = canvas
        self.symbols = symbols

    def open(self, x: float, y: float, scale: float) -> None:
        """From here on 0, 0 is x, y from the top left of the page."""
        self._canvas.saveState()
        self._canvas.transform(scale, 0, 0, -scale, x, PAGE[1] - y)
        self._canvas.setLineCap(1)
        self._canvas.setLineJoin(1)

    def close(self, stay: bool = False) -> None:
        """The end of that; of the page too unless more is to come on it."""
        self._canvas.restoreState()
        if not stay:
            self._canvas.showPage()

    def clip(self, path: Path) -> None:
        self._canvas.clipPath(self._made(path), stroke=0, fill=0)

    def paint(self, marks: tuple[Mark, ...]) -> None:
        for mark in marks:
            if isinstance(mark, Shape):
                self._shape(mark, mark.path, INK)
            elif isinstance(mark, Use):
                for shape in self.symbols[mark.symbol].shapes:
                    self._shape(shape, moved(shape.path, mark.matrix), mark.colour)
            else:
                self._words(mark)

    def _shape(self, shape: Shape, path: Path, colour: str) -> None:
        canvas = self._canvas
        if shape.fill:
            canvas.setFillColor(colour if shape.fill == "ink" else shape.fill)
        if shape.stroke:
            canvas.setStrokeColor(colour if shape.stroke == "ink" else shape.stroke)
            canvas.setLineWidth(shape.width)
            canvas.setDash([3, 3] if shape.dashed else [])
        canvas.drawPath(self._made(path), stroke=bool(shape.stroke), fill=bool(shape.fill))

    def _words(self, words: Words) -> None:
        canvas = self._canvas
        canvas.setStrokeColor(words.colour)
        canvas.setLineWidth(words.size / (5.5 if words.bold else 8))
        canvas.setDash([])
        canvas.drawPath(
            self._made(path_of(words.text, words.x, words.y, words.size, words.anchor)), stroke=1, fill=0
        )
        self._unseen(words)

    def _unseen(self, words: Words) -> None:
        """The word again as text that is not painted, as long as its strokes."""
        text = words.text.encode("cp1252", "replace").decode("cp1252")
        if not text.strip():
            return
        canvas = self._canvas
        size = words.size / 0.72
        long = length_of(words.text, words.size)
        x = words.x - {"start": 0.0, "middle": 0.5, "end": 1.0}[words.anchor] * long
        natural = canvas.stringWidth(text, "Helvetica", size)
        canvas.saveState()
        canvas.transform(1, 0, 0, -1, x, words.y)
        written = canvas.beginText(0, 0)
        written.setFont("Helvetica", size)
        written.setTextRenderMode(3)
        if natural > 0 and long > 0:
            written.setHorizScale(100 * long / natural)
        written.textOut(text)
        canvas.drawText(written)
        canvas.restoreState()

    def _made(self, path: Path) -> Any:
        made = self._canvas.beginPath()
        for letter, figures in path:
            if letter == "M":
                made.moveTo(*figures)
            elif letter == "L":
                made.lineTo(*figures)
            elif letter == "C":
                made.curveTo(*figures)
            else:
                made.close()
        return made
