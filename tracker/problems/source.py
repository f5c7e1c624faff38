"""A text and places in it.

The one owner of the conversion between offsets and line and column. Takes any text; a place outside of it is
pulled back to its nearest end.
"""

from bisect import bisect_right
from itertools import accumulate

from tracker.records import dataclass, field


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of a source."""

    start: int
    """Characters from the beginning of the source, from 0."""
    end: int
    """Characters from the beginning of the source, end excluded."""

    def to(self, other: "Span") -> "Span":
        """The span from the start of this one to the end of the other."""
        return Span(self.start, max(self.end, other.end))


@dataclass(frozen=True, slots=True)
class Source:
    """A text with its name."""

    name: str
    """What to call it before a maker: a file name, or "standard input"."""
    text: str
    line_starts: tuple[int, ...] = field(init=False, repr=False, compare=False)
    """Offsets of the first character of every line."""

    def __post_init__(self) -> None:
        lengths = [len(line) + 1 for line in self.text.split("\n")]
        object.__setattr__(self, "line_starts", tuple(accumulate(lengths[:-1], initial=0)))

    def position(self, offset: int) -> tuple[int, int]:
        """Line and column of an offset, both from 1."""
        offset = max(0, min(offset, len(self.text)))
        line = bisect_right(self.line_starts, offset)
        return line, offset - self.line_starts[line - 1] + 1

    def line(self, number: int) -> str:
        """The text of a line, counted from 1, without its line end; empty where there is none."""
        if not 1 <= number <= len(self.line_starts):
            return ""
        start = self.line_starts[number - 1]
        end = self.text.find("\n", start)
        return self.text[start:] if end < 0 else self.text[start:end]

    def words(self, span: Span) -> str:
        """The words of a span on one line, as they are written."""
        return " ".join(self.text[span.start : span.end].split())
