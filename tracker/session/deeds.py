"""What a maker can ask for, as values. Voice, key, pedal and typed words are only spellings of these.

The names are frozen: old journals hold them.
"""

from tracker.program.places import Stride
from tracker.records import dataclass
from tracker.session.amiss.righting import Lasting, Passing
from tracker.session.fading.length import Length


@dataclass(frozen=True, slots=True)
class Onward:
    """On to the place after this one."""


@dataclass(frozen=True, slots=True)
class LongEnough:
    """The piece measures what it should: on behind the rows that are worked until it does."""


@dataclass(frozen=True, slots=True)
class Back:
    """To the place before this one."""


@dataclass(frozen=True, slots=True)
class Again:
    """Say this place once more, in full."""


@dataclass(frozen=True, slots=True)
class Where:
    """Where am I?"""


@dataclass(frozen=True, slots=True)
class HowMany:
    """How many are done in this row?"""


@dataclass(frozen=True, slots=True)
class Left:
    """How many are left in this row?"""


@dataclass(frozen=True, slots=True)
class WholeRow:
    """Tell the row from its start to its end."""


@dataclass(frozen=True, slots=True)
class HowWorked:
    """How is this stitch made? Asked twice, it is told movement by movement."""

    of: str = ""
    """The stitch asked for by name; empty for the one in hand."""


@dataclass(frozen=True, slots=True)
class Ask:
    """Something the screen shows, for who does not look at it; or about the yarn."""

    about: str
    """"then", "written", "below", "due", "ear" for what it last heard, "yarn" so far, "enough" for this row."""


@dataclass(frozen=True, slots=True)
class GoToRow:
    """To the start of a row; asked back before it is done."""

    number: int


@dataclass(frozen=True, slots=True)
class Jump:
    """To the start of a row, the question having been answered."""

    number: int
    row: int
    """Index of the row in the fabric, from 1."""


@dataclass(frozen=True, slots=True)
class PutAt:
    """To a place that was found by other means: in an edited pattern, or by what the maker sees."""

    place: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Count:
    """The maker has counted so many."""

    number: int
    squares: bool = False
    """True when they said that they were squares."""
    kinds: str = ""
    """By kind, names as inside, where it was told so: "12 dc, 10 ch-2 sp"."""


@dataclass(frozen=True, slots=True)
class Number:
    """A number alone, said after a question for one."""

    number: int


@dataclass(frozen=True, slots=True)
class SetStride:
    """Go on in steps of this size."""

    to: Stride


@dataclass(frozen=True, slots=True)
class SetLength:
    """Say so much from now on."""

    to: Length


@dataclass(frozen=True, slots=True)
class TellMore:
    """Say more: the next longer of the three lengths, and the words of this place."""


@dataclass(frozen=True, slots=True)
class SpeakSo:
    """Speak otherwise."""

    manner: str
    """"faster", "slower", "louder", "softer", "silent" or "aloud"."""


@dataclass(frozen=True, slots=True)
class RipToRow:
    """Rip back to the start of a row; asked back, with what comes out."""

    number: int


@dataclass(frozen=True, slots=True)
class RipBack:
    """Rip back so many; asked back, with what comes out."""

    number: int
    """0 with a row: to the start of the one in hand."""
    by: Stride | None = None
    """Rows, groups or stitches; None for those of the stride in hand."""


@dataclass(frozen=True, slots=True)
class RipToMark:
    """Rip back to a mark; asked back."""

    number: int = 0
    """Which mark, from 1; 0 for the last one behind the hook."""


@dataclass(frozen=True, slots=True)
class Rip:
    """The stitches behind a place were taken out, the question having been answered."""

    place: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class MarkHere:
    """Remember this place, with a note or without."""

    words: str = ""


@dataclass(frozen=True, slots=True)
class Marks:
    """Which places are marked?"""


@dataclass(frozen=True, slots=True)
class SetRest:
    """Remind of resting the hands after so many minutes of work."""

    minutes: int
    """0 for never."""


@dataclass(frozen=True, slots=True)
class Recap:
    """All there is to tell of where the maker is."""


@dataclass(frozen=True, slots=True)
class Card:
    """What is written on the piece card?"""


@dataclass(frozen=True, slots=True)
class Weighed:
    """Something was weighed."""

    what: str
    """"ball", what is left of the one in hand; "new ball", one just begun; "copy", a whole one that is finished."""
    tenths: int
    """Of a gram; 0 for words that were no weight."""


@dataclass(frozen=True, slots=True)
class Blocked:
    """The size that one measures after blocking."""

    words: str
    """As the maker says it, the number of the one before it or not: "12 cm", "square 3: 12.5 by 12"."""
    part: int = 0
    copy: int = 0
    """Whose it is; 0 before that is settled."""


@dataclass(frozen=True, slots=True)
class Finished:
    """Which copies and parts are finished, and which are left?"""


@dataclass(frozen=True, slots=True)
class HowLong:
    """How long will the rest take?"""


@dataclass(frozen=True, slots=True)
class Make:
    """So many of it are to be made. Kept with the piece, and no step to be taken back."""

    number: int


@dataclass(frozen=True, slots=True)
class GoToCopy:
    """To another copy, or another part, where it was left; asked back before it is done."""

    number: int
    part: bool = False
    """True when a part was asked for, whatever the copies of the one in hand."""


@dataclass(frozen=True, slots=True)
class TakeUp:
    """To the place where a copy was left, the question having been answered."""

    place: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Repeated:
    """What was asked, once more."""


@dataclass(frozen=True, slots=True)
class Undo:
    """Take back what was done last."""


@dataclass(frozen=True, slots=True)
class Redo:
    """Do again what was taken back."""


@dataclass(frozen=True, slots=True)
class Yes:
    """Yes to what was asked."""


@dataclass(frozen=True, slots=True)
class No:
    """No to what was asked."""


@dataclass(frozen=True, slots=True)
class Pause:
    """Hear nothing until told to listen."""


@dataclass(frozen=True, slots=True)
class Listen:
    """Hear again."""


@dataclass(frozen=True, slots=True)
class Stop:
    """Rest; nothing is closed for good."""


@dataclass(frozen=True, slots=True)
class Help:
    """What can be said."""


Deed = (
    Onward | LongEnough | Back | Again | Where | HowMany | Left | WholeRow | HowWorked | Ask | GoToRow | Jump
    | PutAt | Count | Number | SetStride | SetLength | TellMore | SpeakSo | RipToRow | RipBack | RipToMark | Rip
    | Weighed | Blocked | MarkHere | Marks | SetRest | Recap | Card | Finished | HowLong | Make | GoToCopy | TakeUp |
    Repeated | Undo | Redo | Yes | No | Pause | Listen | Stop | Help | Lasting | Passing
)  # fmt: skip
