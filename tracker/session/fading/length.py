"""How long sentences are, and how well the hands know what is in them.

A session comes in; a Length goes out. What was worked once is told more shortly, what was worked twice only by its
ends and oddities. A maker who hesitates, or asks for it again, has the words back until the row's end.
"""

from enum import Enum

from tracker.program.learned import times_before
from tracker.program.places import Place, Program
from tracker.records import dataclass


class Length(Enum):
    """How much is said."""

    FULL = "full"
    """Each group in words."""
    SHORT = "short"
    """Each group by its name and number."""
    CUES = "cues"
    """Only what the hands cannot know: where a row begins and ends, how many, what is out of the ordinary."""


LENGTHS = tuple(Length)

HESITATED_MS = 20_000
"""Nobody who waits less than this has lost the thread, however fast they were."""
HESITATED_TIMES = 4
"""So many times the usual step is a hesitation."""
PACE_SHARE = 0.25
"""How much one step says of the usual one."""


@dataclass(frozen=True, slots=True)
class Pace:
    """How the maker has been stepping."""

    at_ms: int = 0
    """When the last step was; 0 before the first of a sitting."""
    usual_ms: float = 0.0
    """Between two steps; 0 while nothing is known."""

    def hesitated(self, at_ms: int) -> bool:
        """True when a step now comes late. The first of a sitting always does: the hands have been elsewhere."""
        if at_ms <= 0 or not self.at_ms:
            return at_ms > 0
        return at_ms - self.at_ms > max(HESITATED_MS, HESITATED_TIMES * self.usual_ms)

    def stepped(self, at_ms: int) -> "Pace":
        """The pace after a step; a hesitation counts as a slow step and no more.

        >>> Pace(1_000, 2_000.0).stepped(5_000)
        Pace(at_ms=5000, usual_ms=2500.0)
        """
        if at_ms <= 0:
            return self
        if not self.at_ms or at_ms < self.at_ms:
            return Pace(at_ms, self.usual_ms)
        gap = float(at_ms - self.at_ms)
        if self.usual_ms:
            gap = self.usual_ms + PACE_SHARE * (min(gap, HESITATED_TIMES * self.usual_ms) - self.usual_ms)
        return Pace(at_ms, min(gap, float(HESITATED_MS)) if not self.usual_ms else gap)


def length_at(program: Program, place: Place, wanted: Length, fades: bool, recalled: Place | None) -> Length:
    """How much is said at a place.

    `wanted` is what the maker chose; `recalled` a place in the row whose words were brought back, or None.
    """
    if not fades or recalled is not None and recalled[:3] == place[:3] or program.placed(place) is None:
        return wanted
    times = times_before(program, place)
    return LENGTHS[max(LENGTHS.index(wanted), min(times, len(LENGTHS) - 1))]
