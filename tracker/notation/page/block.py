"""A text cut into stretches, each with its job."""

from tracker.notation.page.labels import Label
from tracker.problems import Span
from tracker.records import dataclass


@dataclass(slots=True)
class Block:
    """A stretch of the text with its job. Not frozen: its end moves as lines are added."""

    job: str
    """"title", "note", "define", "setup", "row", "rerun", "aside"."""
    start: int
    end: int
    """Characters of the text, end excluded."""
    label: Label | None = None
    """Of a row; None for everything else, and for rows told without one."""
    text_start: int = 0
    """Where the text behind the label begins."""
    part: str | None = None
    """The part it belongs to; None before the first is named."""
    sizes: tuple[str, ...] = ()
    """The sizes it is for; empty for all."""

    @property
    def label_span(self) -> Span:
        """The label; of a row without one, its first words."""
        end = self.text_start if self.label else min(self.end, self.start + 12)
        return Span(self.start, max(self.start + 1, end))


@dataclass(slots=True)
class Page:
    """All blocks of a text."""

    blocks: list[Block]
    title: str
    parts: list[tuple[str, int]]
    """Names of the parts and how many to make of each."""
    sizes: tuple[str, ...]
    """Names of the sizes; empty when the pattern has one."""
    copies: int
    """How many of the whole to make."""
    cut: bool
    """True when the text was longer than is read."""
    lettered: bool = False
    """True when rows go by letters, which stand for the numbers from 1."""
