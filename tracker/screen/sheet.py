"""The one widget: holds the lines of the page and draws again those that changed, and no others.

A line fills the width and has its own ground, so none of the compositor's borders, paddings and blends apply to it:
a line that was made ready goes to the terminal as it is.
"""

from collections.abc import Mapping

from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from tracker.screen.drawing.words import Line

_KEPT = 400
"""Lines that are kept ready: those of a few pages."""


class Sheet(Widget):
    """The whole screen."""

    DEFAULT_CSS = "Sheet { width: 1fr; height: 1fr; }"

    def __init__(self, looks: Mapping[str, Style]) -> None:
        super().__init__()
        self._looks = looks
        self._lines: tuple[Line, ...] = ()
        self._strips: list[Strip] = []
        self._ready: dict[Line, Strip] = {}
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
        self._ready.clear()
        lines, self._lines = self._lines, ()
        self.show(lines)

    def prepare(self, lines: tuple[Line, ...]) -> None:
        """Make a page ready that will likely be shown next."""
        if self.is_mounted:
            for line in lines:
                self._strip(line).render(self.app.console)

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
            width = self.size.width
            # The terminal is sent whole runs of lines, not one after another.
            self.refresh(*(Region(0, at, width, 1) for at in changed))

    def _strip(self, line: Line) -> Strip:
        """A line as the terminal can show it."""
        found = self._ready.get(line)
        if found is None:
            found = Strip([Segment(text, self._looks[role]) for text, role in line])
            for line_filter in self.get_line_filters():
                found = found.apply_filter(line_filter, self.background_colors[1])
            if len(self._ready) >= _KEPT:
                self._ready.clear()
            self._ready[line] = found
        return found

    def render_lines(self, crop: Region) -> list[Strip]:
        """Some of the lines, as the compositor asks for them."""
        strips = self._strips
        if crop.bottom > len(strips):
            return super().render_lines(crop)
        shown = strips[crop.y : crop.bottom]
        if crop.column_span == (0, self.size.width):
            return shown
        return [strip.crop(*crop.column_span) for strip in shown]

    def render_line(self, y: int) -> Strip:
        """One line, where the page has no line yet."""
        return (
            self._strips[y] if y < len(self._strips) else Strip.blank(self.size.width, self._looks["ground"])
        )
