"""What is known while something is amiss. Frozen values; only `apply` makes new ones."""

from typing import TYPE_CHECKING

from tracker.program.places import Place
from tracker.records import dataclass, field

if TYPE_CHECKING:
    from tracker.finding.evidence import Evidence, Tally
    from tracker.finding.where.index import Index
    from tracker.finding.where.questions import Question
    from tracker.program.places import Program

MARKED = 20
"""A marker in every so many stitches saves counting them again."""


@dataclass(frozen=True, slots=True)
class Search:
    """A lost maker, question by question."""

    index: "Index" = field(repr=False, compare=False)
    seen: "Evidence"
    """What was answered so far."""
    past: tuple[str, ...] = ()
    """Keys of the questions that were asked."""
    question: "Question | None" = None
    """What is asked now; None when a place is offered."""
    offered: tuple[Place, ...] = ()
    """Places that were offered, the latest last."""
    left: int = 0
    """Places that fit."""
    says: str = ""
    """What is said now: a question, a place, or why there is none."""


@dataclass(frozen=True, slots=True)
class Off:
    """A count that is off, and the cause that is looked for."""

    row: int
    """Index of the row, from 1."""
    have: "Tally"
    at: int = 0
    """Which of the causes is asked about, from 0."""
    blamed: int | None = None
    """The one that was found; None while it is looked for."""
    where: bool = False
    """True when it was asked how many stitches stand before the mistake."""
    says: str = ""


@dataclass(frozen=True, slots=True)
class Tallied:
    """A count taken together, tap by tap."""

    row: int | None
    """Index of the row that is counted, from 1; None for a foundation chain."""
    due: int
    """How many there should be."""
    unit: str
    """"stitches", "squares" or "chains"."""
    whole: bool = True
    """False when the row is in hand and not finished."""
    seen: tuple[tuple[str, int], ...] = ()
    """What was counted, in order: a kind with how many of it one after another; "" for taps."""

    @property
    def number(self) -> int:
        """How many were counted; of kinds that are spaces, none."""
        return sum(many for kind, many in self.seen if not kind.startswith("ch-"))


@dataclass(frozen=True, slots=True)
class Carrying:
    """A miscount that is carried along."""

    row: int
    """Index of the row it happened in."""
    have: str
    """What was counted: "31", or "12 dc, 10 ch-2 sp", names as inside."""
    cause: str
    more: int
    """Stitches more than there should be; fewer when below nought."""
    until: int | None = None
    """Index of the first row that cannot be worked so; None when all can."""


@dataclass(frozen=True, slots=True)
class Amiss:
    """All that is amiss in a piece, and how its maker wants to be asked."""

    search: Search | None = None
    off: Off | None = None
    squares: tuple[int, int] | None = None
    """Index of a row whose squares were counted and are off, and how many; how many are open is asked."""
    asks_count: bool = False
    """True when a count was asked for at a row's end."""
    told_where: bool = field(default=False, compare=False)
    """True when the place was just told: a no then says that it is not so."""
    tally: Tallied | None = None
    every: int = 0
    """A count is asked for at the end of every so many rows; 0 for never, EDGES at the edges of repeats."""
    markers: int = MARKED
    """A marker is advised in every so many; 0 for no word about markers."""
    carried: Carrying | None = None
    written: "Program | None" = field(default=None, repr=False, compare=False)
    """The program as the pattern has it, while a miscount is carried along."""


EDGES = -1
"""In the place of a number of rows: where a repeat of rows begins or ends."""
