"""The value that says what is wrong."""

from enum import Enum

from tracker.problems.source import Span
from tracker.records import dataclass


class Severity(Enum):
    """How grave a problem is."""

    ERROR = "error"
    """Cannot be worked as written, or the text contradicts itself."""
    WARNING = "warning"
    """Works, but likely not what was meant."""
    NOTE = "note"
    """How a doubtful phrase was read."""


@dataclass(frozen=True, slots=True)
class Label:
    """Words of the pattern that a problem points at."""

    span: Span
    text: str = ""
    """What to say beside the words, or nothing."""


@dataclass(frozen=True, slots=True)
class Fix:
    """One edit that would make the pattern agree."""

    span: Span
    """What to replace; an empty span inserts."""
    text: str


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong, or doubtful."""

    code: str
    """A key of CODES."""
    severity: Severity
    headline: str
    """What is so, in one line, with the numbers."""
    label: Label
    """The words that made it so."""
    row: str | None = None
    """The row as it is printed ("Rows 8-13"), None for the pattern as a whole."""
    index: int | None = None
    """The worked row it shows in first, from 1; None where no row was worked."""
    part: str | None = None
    help: str = ""
    """What to do about it."""
    fix: Fix | None = None
