"""What device threads post to a sitting, and what comes of it: values only."""

from tracker.ears.port import Heard, PassedOver, Settled
from tracker.pedal.port import PedalPress
from tracker.records import dataclass
from tracker.session.apply import Effect, Rest, Say, Settle, Show
from tracker.session.deeds import Deed


@dataclass(frozen=True, slots=True)
class Told:
    """A device has something to say of itself."""

    of: str
    """"ear", "mouth", "pedal" or "offer"."""
    sentence: str


@dataclass(frozen=True, slots=True)
class EarOpen:
    """The ear hears from now on."""


@dataclass(frozen=True, slots=True)
class Ended:
    """The recording that stood for the microphone is over."""


@dataclass(frozen=True, slots=True)
class Touched:
    """A key of the page on a tablet."""

    command: str
    """Its name in the table."""
    number: int = 0
    """What was typed, of the command that is a number alone."""


Arrival = Heard | PassedOver | Settled | PedalPress | Touched | Told | EarOpen | Ended
"""What device threads post."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What came of an arrival or a deed."""

    deed: Deed | None
    """What was done; None for nothing."""
    effects: tuple[Effect, ...] = ()

    @property
    def said(self) -> str:
        """All that is said, as one text."""
        return " ".join(effect.text for effect in self.effects if isinstance(effect, Say))

    @property
    def aloud(self) -> str:
        """What of it is said aloud."""
        return " ".join(effect.spoken for effect in self.effects if isinstance(effect, Say) and effect.spoken)

    @property
    def lines(self) -> tuple[str, ...]:
        """All that is for the eye alone."""
        return tuple(line for effect in self.effects if isinstance(effect, Show) for line in effect.lines)

    @property
    def rests(self) -> bool:
        """True when the maker puts the work down."""
        return any(isinstance(effect, Rest) for effect in self.effects)

    @property
    def settled(self) -> tuple[Settle, ...]:
        """What is to be kept with the settings."""
        return tuple(effect for effect in self.effects if isinstance(effect, Settle))
