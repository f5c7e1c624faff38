"""What the screen needs of anything that comes before the piece, and how that can end. Values, and one protocol."""

from pathlib import Path
from typing import Protocol

from tracker.hands_free.settings import Settings
from tracker.records import dataclass
from tracker.screen.drawing.words import Line


@dataclass(frozen=True, slots=True)
class Chosen:
    """A piece was picked."""

    name: str
    source: str
    """Its pattern's file."""
    journal: Path | None
    """Its journal, for a piece in hand."""
    size: str | None


@dataclass(frozen=True, slots=True)
class Left:
    """The maker went away."""


@dataclass(frozen=True, slots=True)
class Looks:
    """Another theme is asked for."""


Outcome = Chosen | Left | Looks | None
"""None: it goes on."""


class Before(Protocol):
    """Something with a page and keys."""

    settings: Settings
    """As they are by now."""

    def page(self, width: int, height: int) -> tuple[Line, ...]:
        """The page as it is now, exactly so many lines."""
        ...

    def pressed(self, key: str) -> Outcome:
        """Do what a key asks for."""
        ...

    def arrived(self, what: object) -> Outcome:
        """Take what a device, or a thread of its own, posted."""
        ...

    def tick(self) -> bool:
        """Some time has gone by; true when there is something else to be seen."""
        ...

    def refused(self, sentence: str) -> None:
        """What was chosen cannot be opened, and why."""
        ...

    def close(self) -> None:
        """Let its devices go."""
        ...
