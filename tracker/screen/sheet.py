"""The one widget: holds the lines of the page and draws again those that changed, and no others."""

from collections.abc import Mapping

from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from tracker.screen.drawing.words import Line


class Sheet(Widget):
    """The whole screen."""

    DEFAULT_CSS = "Sheet { width: 1fr; height: 1fr; }"

    def __init__(self, looks: Mapping[str, Style]) -> None:
        super().__init__()
        self._looks = looks
        self._lines: tuple[Line, ...] = ()
        self._strips: list[Strip] = []
        self.drawn_again = 0
        """Lines that the last change touched."""

    @property
    def text(self) -> str:
        """What is on it, as plain text."""
        return "\n".join("".join(text for text, _ in line).rstrip() for line in self._lines)

    @property
    def lines(self) -> tuple[Line, ...]:
        """What is on it, with the role of each piece."""
        return self._lines

    def put_on(self, looks: Mapping[str, Style]) -> None:
        """Draw in another theme."""
        self._looks = looks
        lines, self._lines = self._lines, ()
        self.show(lines)

    def show(self, lines: tuple[Line, ...]) -> None:
        """Show a page."""
        before = self._lines
        self._lines = lines
        if len(before) != len(lines):
            self._strips = [self._strip(line) for line in lines]
            self.drawn_again = len(lines)
            self.refresh()
            return
        changed = [at for at, line in enumerate(lines) if line != before[at]]
        self.drawn_again = len(changed)
        for at in changed:
            self._strips[at] = self._strip(lines[at])
        if changed:
            # The terminal is sent whole runs of lines, not one after another.
            self.refresh(*(Region(0, at, self.size.width, 1) for at in changed))

    def _strip(self, line: Line) -> Strip:
        return Strip([Segment(text, self._looks[role]) for text, role in line])

    def render_line(self, y: int) -> Strip:
        """One line, as the compositor asks for it."""
        return (
            self._strips[y] if y < len(self._strips) else Strip.blank(self.size.width, self._looks["ground"])
        )
