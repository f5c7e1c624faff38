"""A paragraph with boxes to tick: in front of it, or behind its first line where all text stands at one margin."""

from typing import Any

from reportlab.platypus import Flowable

_ROOM = 1.35
"""Widths of a box from one box to the next."""


class Ticked(Flowable):  # type: ignore[misc]  # reportlab ships no types
    """Boxes and their paragraph, never parted by a page's end unless the paragraph is longer than a page."""

    def __init__(self, words: Any, boxes: int, size: float, behind: bool = False, indent: int = 0) -> None:
        super().__init__()
        self.words, self.boxes, self.size, self.behind = words, boxes, size, behind
        self.indent = 0.0 if behind else max(boxes, indent) * size * _ROOM + size * 0.3
        self.keepWithNext = getattr(words.style, "keepWithNext", 0)

    def getSpaceBefore(self) -> float:  # noqa: N802  # reportlab's own name
        """As the paragraph's."""
        return float(self.words.style.spaceBefore)

    def getSpaceAfter(self) -> float:  # noqa: N802  # reportlab's own name
        """As the paragraph's."""
        return float(self.words.style.spaceAfter)

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """The room it takes."""
        self.width = width
        _, self.height = self.words.wrap(width - self.indent, height)
        return width, self.height

    def split(self, width: float, height: float) -> list[Any]:
        """A paragraph longer than what is left of the page goes on on the next; the boxes stay at its start."""
        parts = self.words.split(width - self.indent, height)
        if len(parts) < 2:
            return []
        first = Ticked(parts[0], self.boxes, self.size, self.behind)
        rest = Ticked(parts[1], 0, self.size, self.behind)
        first.indent = rest.indent = self.indent
        return [first, rest]

    def draw(self) -> None:
        """The paragraph, then a box for each copy."""
        self.words.drawOn(self.canv, self.indent, 0)
        side = self.size * 0.95
        y = self.height - self.words.style.leading + self.size * 0.1
        x = 0.0
        if self.behind:
            lines = self.words.blPara.lines
            first = lines[0]
            left = first[0] if isinstance(first, tuple) else getattr(first, "extraSpace", 0.0)
            x = self.width - float(left) + self.size * 0.4
            x = min(x, self.width - self.boxes * side * _ROOM)
        self.canv.setLineWidth(max(0.8, self.size / 14))
        for nth in range(self.boxes):
            self.canv.rect(x + nth * side * _ROOM, y, side, side, stroke=1, fill=0)
