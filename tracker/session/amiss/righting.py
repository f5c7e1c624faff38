"""What a maker can ask for while something is amiss, as values: a place that was lost, a count that is off.

The names are frozen: old journals hold them.
"""

from tracker.records import dataclass


@dataclass(frozen=True, slots=True)
class Lost:
    """I don't know where I am in the piece."""


@dataclass(frozen=True, slots=True)
class Answered:
    """A number to the question that was asked."""

    number: int


@dataclass(frozen=True, slots=True)
class Unanswered:
    """I can't tell."""


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """Not the place that was offered."""


@dataclass(frozen=True, slots=True)
class Blame:
    """It was this cause."""

    number: int
    """Which of those told, from 1."""


@dataclass(frozen=True, slots=True)
class NotThat:
    """It was not the cause that was asked about."""


@dataclass(frozen=True, slots=True)
class AskWhere:
    """Put it right, wherever in the row it is."""


@dataclass(frozen=True, slots=True)
class Carry:
    """Carry a miscount along."""

    row: int
    """Index of its row, from 1."""
    have: str
    """What was counted, names as inside."""
    cause: str


@dataclass(frozen=True, slots=True)
class Mended:
    """What was carried along is put right."""


@dataclass(frozen=True, slots=True)
class CountWithMe:
    """Begin a tally."""


@dataclass(frozen=True, slots=True)
class Tapped:
    """More of a tally."""

    kind: str
    """Names as inside, parted by commas; empty for a tap."""
    many: int


@dataclass(frozen=True, slots=True)
class Untapped:
    """One fewer."""


@dataclass(frozen=True, slots=True)
class TallyOver:
    """That is all there is to count."""


@dataclass(frozen=True, slots=True)
class Kinds:
    """Kinds of stitches or squares, in the maker's words."""

    words: str


@dataclass(frozen=True, slots=True)
class AskCounts:
    """Ask for a count at row ends."""

    every: int
    """So many rows; 0 for never, -1 at the edges of repeats."""


@dataclass(frozen=True, slots=True)
class SetMarkers:
    """How often a marker is advised."""

    every: int
    """So many stitches; 0 for no word about markers."""


@dataclass(frozen=True, slots=True)
class CountDue:
    """The row is done, and its count is asked for before the one after it begins."""


Lasting = CountWithMe | Tapped | Untapped | TallyOver | AskCounts | SetMarkers | Carry | Mended
"""What changes the session for good: replaying a journal repeats it."""
Passing = Lost | Answered | Unanswered | Elsewhere | Blame | NotThat | AskWhere | Kinds | CountDue
"""What opens, answers or closes a question, which is not kept."""
