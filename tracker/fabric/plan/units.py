"""What a plan is made of: rows to be worked, and rows worked over and over."""

from tracker.notation.pattern import Aside, Row, Setup
from tracker.problems import Problem, Span
from tracker.records import dataclass, field

MAX_LISTED = 4_000
"""Rows of one range that are listed one by one; longer ranges are worked as a loop."""


@dataclass(slots=True)
class Unit:
    """One row to be worked."""

    row: Row
    """The printed row whose words are worked."""
    number: int | None
    """Its own number; None for a row without one."""
    as_number: int | None
    """Number of the row it repeats; None when it repeats none."""
    kind: str
    printed: str
    label_span: Span
    part: str | None
    first: bool = False
    """True for the first row of its part."""
    side: str | None = None
    extra: Row | None = None
    """The row that refers to `row`, with its own counts and remarks."""
    cycle: int = 0
    """How many rows are worked in turn where the row goes on as set; 0 for others."""
    last_of_range: bool = True
    """True for the row that the counts printed for a range hold at."""


@dataclass(slots=True)
class Loop:
    """Rows worked over and over, too often to be listed."""

    units: list[Unit]
    times: int


@dataclass(slots=True)
class Until:
    """Rows worked over and over until so many stitches stand: how often shows on the fabric."""

    units: list[Unit]
    """One pass; the first has the number that the work goes on with."""
    stitches: int
    ending: int | None
    """Number of the row that comes last; None when not said."""
    side: str = ""
    """ "WS" or "RS" where the row that comes last is told by its side."""


@dataclass(slots=True)
class Plan:
    """Everything to be worked, in order."""

    units: list[Unit | Loop | Until | Setup | Aside] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    open_ended: bool = False
