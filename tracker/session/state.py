"""The session: where the maker is, how far a step goes, what was asked. Frozen values; only `apply` makes new ones."""

from dataclasses import dataclass, field

from tracker.program.places import Place, Program, Stride
from tracker.session.deeds import Deed
from tracker.session.fading.length import Length, Pace, length_at


@dataclass(frozen=True, slots=True, eq=False)
class Past:
    """Places that were left, the latest first: what can be taken back.

    Thousands of steps deep after a long piece, so two are compared step by step, not each through the next.
    """

    place: Place
    before: "Past | None" = field(default=None, repr=False)

    def __eq__(self, other: object) -> bool:
        one: Past | None = self
        two = other if isinstance(other, Past) else None
        while one is not None and two is not None and one is not two:
            if one.place != two.place:
                return False
            one, two = one.before, two.before
        return one is two

    def __hash__(self) -> int:
        return hash(self.place)


@dataclass(frozen=True, slots=True)
class Asked:
    """A question that a yes or a no answers."""

    question: str
    deed: Deed
    """What a yes does."""


@dataclass(frozen=True, slots=True)
class Session:
    """One piece as it is being worked."""

    program: Program = field(repr=False, compare=False)
    place: Place
    stride: Stride = Stride.GROUP
    asked: Asked | None = None
    past: Past | None = field(default=None, repr=False)
    """What undo goes back to."""
    undone: Past | None = field(default=None, repr=False)
    """What redo goes forward to."""
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

    @property
    def length_here(self) -> Length:
        """How much is said at the place in hand."""
        return length_at(self.program, self.place, self.length, self.fades, self.recalled)


def begun(program: Program) -> Session:
    """A piece that is not begun yet."""
    return Session(program, program.start)
