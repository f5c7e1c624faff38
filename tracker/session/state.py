"""The session: where the maker is, how far a step goes, what was asked. Frozen values; only `apply` makes new ones."""

from dataclasses import dataclass, field

from tracker.program.places import Place, Program, Stride
from tracker.session.deeds import Deed


@dataclass(frozen=True, slots=True)
class Past:
    """Places that were left, the latest first: what can be taken back."""

    place: Place
    before: "Past | None" = field(default=None, repr=False)


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


def begun(program: Program) -> Session:
    """A piece that is not begun yet."""
    return Session(program, program.start)
