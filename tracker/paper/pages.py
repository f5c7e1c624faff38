"""A sheet as PDF. A Leaf comes in, bytes go out: A4 with margins wide enough that nothing is lost on US Letter either.

The letters are Bitstream Vera Sans, a free font that comes with reportlab and goes into the file, so that the sheet
looks the same on every machine. Large print is laid out as low-vision makers ask for it (accessiblepatternsindex.com,
"accessibility tips"; snooptiggercrafts.com, checklist of 2020): 24 points or more, black on white, one column against
the left margin, margins of an inch, no italics, nothing at the head or foot of a page, no chart.
"""

from io import BytesIO
from typing import Any
from xml.sax.saxutils import escape

from tracker.charts.drawing import Sheet
from tracker.paper.leaf import Chapter, Entry, Leaf

PAGE = (595.28, 841.89)
"""A4, points."""
INCH = 72.0
_LETTER_FOOT = 50.0
"""Points that US Letter is shorter than A4: they are left free at the foot."""
LARGE, PLAIN = 24.0, 10.5
"""Points of the letters."""
_FONT, _BOLD = "Vera", "VeraBd"


def pages(leaf: Leaf, sheets: tuple[Sheet, ...] = (), large: bool = False) -> bytes:
    """The whole sheet; `sheets` are charts to put behind the rows, never in large print."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.platypus import BaseDocTemplate, Frame, PageTemplate

    for name in (_FONT, _BOLD):
        if name not in pdfmetrics.getRegisteredFontNames():
            pdfmetrics.registerFont(TTFont(name, f"{name}.ttf"))
    out = BytesIO()
    side = INCH if large else 42.0
    foot = side + _LETTER_FOOT
    frame = Frame(side, foot, PAGE[0] - 2 * side, PAGE[1] - side - foot, 0, 0, 0, 0)
    document = BaseDocTemplate(
        out, pagesize=PAGE, title=leaf.title, author="", creator="rowteller", lang="en", invariant=1
    )
    document.addPageTemplates(PageTemplate(frames=[frame], onPage=_nothing if large else _foot(leaf.title)))
    document.build(_story(leaf, large), canvasmaker=_with_charts(() if large else sheets))
    return out.getvalue()


def _nothing(canvas: Any, document: Any) -> None:
    """Large print has nothing at the head or foot of a page."""


def _foot(title: str) -> Any:
    def draw(canvas: Any, document: Any) -> None:
        canvas.setFont(_FONT, 8)
        canvas.drawRightString(
            PAGE[0] - 42, 42 + _LETTER_FOOT / 2, f"{_letters(title)}, page {document.page}"
        )

    return draw


def _with_charts(sheets: tuple[Sheet, ...]) -> Any:
    """A canvas that paints the charts behind the last page of the text."""
    from reportlab.pdfgen.canvas import Canvas

    from tracker.charts.media.pdf import paint_on

    class Charted(Canvas):  # type: ignore[misc]  # reportlab ships no types
        def save(self) -> None:
            paint_on(self, sheets)
            super().save()

    return Charted


def _letters(words: str) -> str:
    """What the font has; a letter that it lacks becomes a question mark rather than nothing."""
    return words.encode("cp1252", "replace").decode("cp1252")


def _story(leaf: Leaf, large: bool) -> list[Any]:
    from reportlab.platypus import Paragraph, Spacer

    style = _styles(large)
    size = LARGE if large else PLAIN
    out: list[Any] = [Paragraph(_safe(leaf.title), style["title"])]
    out += [Paragraph(_safe(line), style["text"]) for line in leaf.about]
    for heading, lines in (("Cautions", leaf.cautions), *leaf.before):
        if lines:
            out.append(Paragraph(_safe(heading), style["heading"]))
            if heading == "Abbreviations":
                lines = ("; ".join(lines) + ".",)
            out += [Paragraph(_safe(line), style["text"]) for line in lines]
    chapters = [*leaf.chapters]
    if leaf.after:
        chapters.append(Chapter("When the rows are done", leaf.after))
    for chapter in chapters:
        out.append(Paragraph(_safe(chapter.heading), style["heading"]))
        for entry in chapter.entries:
            out += _entry(entry, style, large)
    if leaf.layout:
        out.append(Paragraph("How they lie", style["heading"]))
        out += [Paragraph(_safe(line), style["text"]) for line in leaf.layout]
    if leaf.measured:
        out.append(Paragraph("Blocked sizes", style["heading"]))
        out.append(Paragraph("Write down what each measures when it is blocked and dry.", style["text"]))
        out += [
            Paragraph(f"{_safe(name)}: {_safe(leaf.size_of(nth)) or '________ × ________'}", style["text"])
            for nth, name in enumerate(leaf.measured)
        ]
    return [*out, Spacer(1, size)]


def _safe(words: str) -> str:
    return escape(_letters(words))


def _styles(large: bool) -> dict[str, Any]:
    from reportlab.lib.styles import ParagraphStyle

    size = LARGE if large else PLAIN
    head = 28.0 if large else 13.0
    common: dict[str, Any] = {
        "fontName": _FONT,
        "fontSize": size,
        "leading": size * 1.35,
        "spaceAfter": size * 0.25,
        "alignment": 0,
    }
    bold = {**common, "fontName": _BOLD, "keepWithNext": 1}
    return {
        "text": ParagraphStyle("text", **common),
        "row": ParagraphStyle("row", **{**bold, "spaceBefore": size * 0.5}),
        "title": ParagraphStyle("title", **{**bold, "fontSize": head * 1.3, "leading": head * 1.6}),
        "heading": ParagraphStyle(
            "heading", **{**bold, "fontSize": head, "leading": head * 1.3, "spaceBefore": head}
        ),
    }


def _entry(entry: Entry, style: dict[str, Any], large: bool) -> list[Any]:
    """A row: its name, its words, its count, what to mind. In large print each on lines of its own."""
    from reportlab.platypus import Paragraph

    from tracker.paper.tick import Ticked

    head = ", ".join(word for word in (entry.label, entry.side) if word)
    lines = [Paragraph(_safe(words), style["text"]) for words in entry.words]
    count = f"Count: {entry.count}." if entry.count else ""
    if large:
        name = head or "To do"
        out: list[Any] = [
            Ticked(Paragraph(_safe(name), style["row"]), entry.boxes, LARGE, behind=True),
            *lines,
        ]
        out += [Paragraph(_safe(words), style["text"]) for words in (count, *entry.cues) if words]
        return out
    words = " ".join(entry.words)
    told = f'<font name="{_BOLD}">{_safe(head)}:</font> {_safe(words)}' if head else _safe(words)
    if count:
        told += f' <font name="{_BOLD}">({_safe(entry.count)})</font>'
    out = [Ticked(Paragraph(told, style["text"]), entry.boxes, PLAIN)]
    if entry.cues:
        out.append(
            Ticked(Paragraph(_safe(" ".join(entry.cues)), style["text"]), 0, PLAIN, indent=entry.boxes)
        )
    return out
