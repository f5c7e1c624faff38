"""Charts as SVG, written by hand: every sign once as a symbol, every word as strokes, no font, no script, no link.

Sheets come in, bytes go out. Words are kept as labels beside their strokes, so that a screen reader has them.
"""

from xml.sax.saxutils import escape, quoteattr

from tracker.charts.drawing import INK, Mark, Path, Shape, Sheet, Use
from tracker.charts.media.page import Drawing, composed
from tracker.charts.signs.letters import path_of


def svg(sheets: tuple[Sheet, ...]) -> bytes:
    """The sheets as one picture."""
    return text_of(composed(sheets)).encode()


def inline(sheets: tuple[Sheet, ...]) -> str:
    """The same to stand inside a web page: without the line that begins a file of its own."""
    return text_of(composed(sheets)).partition("\n")[2]


def text_of(drawing: Drawing) -> str:
    """The document."""
    wide, high = _figure(drawing.width), _figure(drawing.height)
    out = [
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}pt" height="{high}pt" viewBox="0 0 {wide} {high}" '
        'role="img" stroke-linecap="round" stroke-linejoin="round" fill="none">',
        f"<title>{escape(_clean(drawing.title))}</title>",
        f"<desc>{escape(_clean(drawing.told))}</desc>",
    ]
    if drawing.symbols:
        out.append("<defs>")
        for symbol in drawing.symbols:
            inside = "".join(_shape(shape) for shape in symbol.shapes)
            out.append(f'<symbol id={quoteattr(symbol.name)} overflow="visible">{inside}</symbol>')
        out.append("</defs>")
    out.append(f'<rect width="{wide}" height="{high}" fill="#ffffff"/>')
    out.extend(_mark(mark) for mark in drawing.marks)
    out.append("</svg>\n")
    return "\n".join(out)


def _mark(mark: Mark) -> str:
    if isinstance(mark, Shape):
        return _shape(mark)
    if isinstance(mark, Use):
        a, b, c, d, e, f = mark.matrix
        place = (
            f"translate({_figure(e)} {_figure(f)})"
            if (a, b, c, d) == (1, 0, 0, 1)
            else f"matrix({' '.join(_figure(value) for value in mark.matrix)})"
        )
        colour = "" if mark.colour == INK else f" color={quoteattr(mark.colour)}"
        return f'<use href={quoteattr("#" + mark.symbol)} transform="{place}"{colour or _INK}/>'
    path = path_of(mark.text, mark.x, mark.y, mark.size, mark.anchor)
    heavy = mark.size / (5.5 if mark.bold else 8)
    return (
        f"<path aria-label={quoteattr(_clean(mark.text))} d={quoteattr(_drawn(path))} "
        f'stroke="{mark.colour}" stroke-width="{_figure(heavy)}"/>'
    )


_INK = f' color="{INK}"'


def _shape(shape: Shape) -> str:
    fill = f' fill="{_colour(shape.fill)}"' if shape.fill else ""
    stroke = (
        f' stroke="{_colour(shape.stroke)}" stroke-width="{_figure(shape.width)}"' if shape.stroke else ""
    )
    dash = ' stroke-dasharray="3 3"' if shape.dashed else ""
    return f'<path d="{_drawn(shape.path)}"{fill}{stroke}{dash}/>'


def _colour(name: str) -> str:
    return "currentColor" if name == "ink" else name


def _drawn(path: Path) -> str:
    return "".join(letter + " ".join(_figure(value) for value in figures) for letter, figures in path)


def _figure(value: float) -> str:
    written = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if written in ("-0", "") else written


def _clean(text: str) -> str:
    """The words without the control characters that no XML may hold."""
    return "".join(
        letter for letter in text if letter in "\n\t" or letter >= " " and letter not in "\ufffe\uffff"
    )
