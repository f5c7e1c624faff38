"""The session: where the maker is, how far a step goes, what was asked. Frozen values; only `apply` makes new ones."""

from typing import TYPE_CHECKING

from tracker.program.places import Place, Program, Stride
from tracker.records import dataclass, field
from tracker.session.amiss.values import Amiss
from tracker.session.deeds import Deed
from tracker.session.fading.length import Length, Pace, length_at

if TYPE_CHECKING:
    from tracker.session.record.log import RowTime

Copy = tuple[int, int]
"""One copy of one part: the first two numbers of a place."""
Laid = tuple[tuple[Copy, Place | None], ...]
"""Copies that are not in hand and not untouched: where each was left, None for one that is finished."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A question that a yes or a no answers."""

    question: str
    deed: Deed
    """What a yes does."""
    refused: Deed | None = None
    """What a no does; None leaves all as it is."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A place the maker has marked."""

    place: Place
    words: str = ""
    """Their own note, or nothing."""


@dataclass(frozen=True, slots=True)
class Weighing:
    """Something that was weighed."""

    place: Place
    """Where the hands were; of a finished copy only its part holds."""
    what: str
    """"ball", "new ball" or "copy"."""
    tenths: int
    """Of a gram."""


@dataclass(frozen=True, slots=True)
class Session:
    """One piece as it is being worked."""

    program: Program = field(repr=False, compare=False)
    place: Place
    stride: Stride = Stride.GROUP
    asked: Asked | None = None
    past: "Session | None" = field(default=None, repr=False, compare=False)
    """The session before the deed that was done last: what undo goes back to."""
    undone: "Session | None" = field(default=None, repr=False, compare=False)
    """The session that was taken back last: what redo goes forward to."""
    last: Deed | None = field(default=None, repr=False, compare=False)
    """The deed that `past` was before."""
    resting: bool = False
    """True after "stop", until the maker goes on."""
    hearing: bool = True
    """False after "pause"."""
    length: Length = Length.FULL
    """How much is said at the most."""
    fades: bool = True
    """False: what was worked before is told as if it were new."""
    pace: Pace = field(default=Pace(), compare=False)
    """How fast the maker has been going in this sitting."""
    recalled: Place | None = field(default=None, compare=False)
    """In the row of this place the words are back, for a maker who wanted them."""

    showing: tuple[str, ...] = field(default=(), compare=False)
    """Movements of a stitch that are still to be told, one at a step; the work waits meanwhile."""
    explained: Place | None = field(default=None, compare=False)
    """Where a stitch was last explained."""
    located: Place | None = field(default=None, compare=False)
    """Where it was last asked where that is."""

    @property
    def length_here(self) -> Length:
        """How much is said at the place in hand."""
        return length_at(self.program, self.place, self.length, self.fades, self.recalled)

    amiss: Amiss = field(default=Amiss())
    """What is amiss, and how its maker wants to be asked."""
    laid: Laid = ()
    """Where the other copies and parts were left."""
    ended: tuple[tuple[Copy, int], ...] = ()
    """Copies and the index of the last row worked of rows that go on until it measures, the oldest first."""
    marks: tuple[Mark, ...] = ()
    """What was marked, the oldest first."""
    weighed: tuple[Weighing, ...] = ()
    """What was weighed on the way, the oldest first."""
    blocked: tuple[tuple[Copy, str], ...] = ()
    """The size that copies measure after blocking, in the maker's words; the last word on each."""
    rest_minutes: int | None = None
    """The maker's wish for this piece; None when what is settled for all holds."""
    renamed: tuple[tuple[str, str], ...] = field(default=(), repr=False, compare=False)
    """Commands that have a word of the maker's own, for help."""
    rest_usual: int = field(default=45, repr=False, compare=False)
    """Minutes of work after which the hands are told to rest, whatever the piece; 0 for never."""
    card: tuple[tuple[str, str], ...] = field(default=(), repr=False, compare=False)
    """The piece card: what it is and what was written on it."""
    timed: "tuple[RowTime, ...]" = field(default=(), repr=False, compare=False)
    """How long rows took, for who asks."""
    since_ms: int = field(default=0, repr=False, compare=False)
    """When this spell of work began; 0 before it."""
    reminders: int = field(default=0, repr=False, compare=False)
    """How often in this sitting the hands were told to rest."""
    latest_ms: int = field(default=0, repr=False, compare=False)
    """When the last deed was done."""


def begun(program: Program) -> Session:
    """A piece that is not begun yet."""
    return Session(program, program.start)
