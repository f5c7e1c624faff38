"""What a row is read into: small values that say what its words say, with the span they were read from.

What None means is said beneath its field. Stitches carry US names."""

from collections.abc import Sequence
from enum import Enum

from tracker.problems import Span
from tracker.records import dataclass

ANY = "st"  # the kind that every stitch is
SPACE = "sp"  # the kind that every chain space is
SHARED = -3
"""As `nth` of a place: the first leg of the stitch goes where the hook is, the others into the next ones."""
IN_ONE = -4  # as `nth` of a place: "dc3tog in next st", which may mean that all legs go into one
SPREAD = -5  # as `nth` of an EACH: "sc evenly around", which about a flat piece means all of its edge
LAYERS = "both layers"  # as `loop` of a place: one stitch of the front and one of the back at a time
SKIPPED = "skipped st"  # the kind of a stitch that an earlier row or repeat passed over
EITHER = "st or sp"  # the kind that is whatever stands there next
REST = "rest of group"  # the kind that is whatever is left of a group already worked into


class Which(Enum):
    """Where a phrase says the hook goes."""

    NEXT = "next"
    EACH = "each"
    SAME = "same"
    FIRST = "first"
    LAST = "last"
    RING = "ring"
    FROM_HOOK = "from hook"
    TOP = "top of the turning chain"
    NTH = "nth"
    """The nth of its kind from where the row begins: "in 3rd st"."""
    BETWEEN = "between"
    ROW_END = "row end"
    EVENLY = "evenly"
    MADE = "just made"
    """Into what this row has just made: the chain of a picot, the side of the last stitch."""
    STRAIGHT = "one each"
    """Nothing said: "7 sc" is one in each of the next seven."""


OWN_IF_ANY = "own middle if any"
"""`Kind.inside` of "center dc" with no group named: the middle of the next group, where stitches stand in groups."""


@dataclass(frozen=True, slots=True)
class Kind:
    """What a phrase calls the thing it works into."""

    name: str
    """A stitch's name inside, ANY, SPACE, "ch" for single chains, "tch", or a name of the pattern's own."""
    chains: int | None = None
    """Of a SPACE; None when not said."""
    inside: str = ""
    """Of the group that the kind before it stands in: which one there, "middle", "last" or its number; with "own "
    before it where the group is the one the hook is in, as long as that one is still ahead. Of a SPACE: "passed" when
    it lies between the stitches just worked into, "between dc" when it is the next that lies between two such."""


@dataclass(frozen=True, slots=True)
class Stop:
    """Where an "each" or a repeat ends."""

    left: int = 0
    """How many are left over: "to last 2 sts"."""
    kinds: tuple[Kind, ...] = ()
    """What is left over; empty for any stitches."""
    at: str = ""
    """"corner", "marker", "center"; "stitch": `left` before it; "middle": the `left` in the middle; "": the end."""


@dataclass(frozen=True, slots=True)
class Where:
    """A place, or a run of places, in what was there before."""

    which: Which
    span: Span
    many: int = 1
    """How many places, one after another."""
    kinds: tuple[Kind, ...] = ()
    """What they are; empty when not said. Several: each in turn for NEXT, any of them for EACH."""
    nth: int = 0
    """Which chain, from 1: "4th ch from hook". -1: no "next" was said, -2: "any", -3: where the row began."""
    stop: Stop | None = None  # for EACH: where it ends; None when the row does
    loop: str = ""
    """"back", "front", "both", "third", "free front", "free back", "base": the other side of the foundation, or ""."""
    around: bool = False  # True for post stitches: around, not into
    down: int = 1
    """Rows below: 1 for the row below, 2 and more for spike and mosaic stitches."""


@dataclass(frozen=True, slots=True)
class Except:
    """A change to an EACH: "working 3 sc in each corner ch-2 sp"."""

    kinds: tuple[Kind, ...]
    items: tuple["Item", ...]


@dataclass(frozen=True, slots=True)
class Work:
    """Stitches of one kind into one or more places."""

    stitch: str
    """The name inside, or one that the pattern defines."""
    count: int
    """How many in each place; with STRAIGHT how many in all, one in each."""
    where: Where
    span: Span
    excepting: tuple[Except, ...] = ()
    joined: bool = False
    """True when the words merely go on ("and in each ch across"): spoken as one with the group before."""
    apart: tuple["Item", ...] = ()
    """What it may be instead: "sc dec" is one decrease, or a single crochet and then a decrease."""
    colour: str = ""  # the colour these are counted in: "A" of "(A) 4", "MC" of "MC 7"; "" for none


@dataclass(frozen=True, slots=True)
class Chain:
    """Chains made."""

    count: int
    span: Span
    says: "Turning | None" = None  # what the pattern says of it: "(counts as dc, ch 2)"


@dataclass(frozen=True, slots=True)
class Turning:
    """A statement that a chain counts as something, or does not."""

    counts: bool
    as_stitch: str | None
    """The stitch it counts as; None when not named."""
    space: int
    """Chains of the space that goes with it; 0 for none."""
    throughout: bool
    span: Span
    more: tuple[str, ...] = ()
    """Further stitches it stands for, in the order made: "counts as dc, ch 2, dc" in a first row."""


@dataclass(frozen=True, slots=True)
class Skip:
    where: Where
    span: Span


@dataclass(frozen=True, slots=True)
class Group:
    """Several things worked in one place: "(2 dc, ch 2, 2 dc) in next sp"."""

    items: tuple["Item", ...]
    where: Where
    span: Span
    name: str = ""
    """The special stitch it stands for, or nothing."""
    loose: bool = False
    """True where no bracket holds it together: "2 dc, ch 2, 2 dc in next sp" may mean the last alone."""


@dataclass(frozen=True, slots=True)
class Ending:
    """What changes in the last pass of a repeat."""

    how: str
    """"omit", "with" (the last things are these instead), "at" (stop at the mark), "landing" (adds nothing), "only"."""
    items: tuple["Item", ...]
    where: Where | None
    span: Span


@dataclass(frozen=True, slots=True)
class Repeat:
    """Things worked several times."""

    items: tuple["Item", ...]
    span: Span
    times: int | None
    """How often in all; None when it goes on to the stop."""
    further: int | None = None
    """For stars, the number after "rep from *" when it may mean N in all or N more."""
    stop: Stop | None = None
    ending: Ending | None = None
    star: bool = False
    told_at: Span | None = None
    """The words that tell how often."""
    loose: bool = False
    """True where nothing marks it: "sc 4, inc around" may mean that the last alone goes on."""


@dataclass(frozen=True, slots=True)
class Turn:
    span: Span
    turned: bool = True
    """False for "do not turn"."""


@dataclass(frozen=True, slots=True)
class Join:
    """The closing of a round."""

    where: Where | None
    span: Span
    stitch: str = "slst"
    says: Turning | None = None


@dataclass(frozen=True, slots=True)
class Travel:
    """Slip stitches that only move the hook along, or a fresh start."""

    where: tuple[Where, ...]
    span: Span
    fresh: bool = False
    """True when yarn is joined anew: nothing was slipped over."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A star or dagger."""

    sign: str
    span: Span


@dataclass(frozen=True, slots=True)
class Edge:
    """The work moves to another edge: opposite side of the foundation, ends of rows."""

    name: str
    """"base", "side", "top", "ring", "free" for loops left free, "other" for the other side of a chain in hand."""
    span: Span
    row: int | None = None  # for free loops: of which row


@dataclass(frozen=True, slots=True)
class Leave:
    """Stitches said to be left."""

    where: Where | None
    span: Span


@dataclass(frozen=True, slots=True)
class Say:
    """Words told at their place that change no stitch: a colour change, a marker, a remark."""

    kind: str
    """"colour", "marker", "fasten off", "remark", "side", "piece"; "words" for a remark whose sense is not known,
    "unsure" for words that may work something."""
    text: str
    span: Span
    bears: bool = False
    """True where no reader knows the words, and they may change what is worked."""


@dataclass(frozen=True, slots=True)
class Prose:
    """Words that could not be read: told as they are, and their row is not claimed."""

    text: str
    span: Span
    as_set: Stop | None = None
    """Of "work in pattern to last 2 sts": how far; which row that is, only the plan knows. None for all other words."""


Item = (
    Work | Chain | Turning | Skip | Group | Repeat | Turn | Join | Travel | Mark | Edge | Leave | Say | Prose
)
"""What a row is made of."""


@dataclass(frozen=True, slots=True)
class Stated:
    """A count that the pattern states for a row."""

    counts: tuple[tuple[str, int], ...]
    """Names inside ("dc", "ch-2 sp", ANY for stitches, "" for a bare number) with numbers."""
    span: Span
    change: bool = False  # True for "6 sts increased": a difference, not a total
    partial: bool = False  # True for a count of one side or section only
    without: bool = (
        False  # True for "not counting the turning ch", "+ ch 3": it may count and be left out here
    )


@dataclass(frozen=True, slots=True)
class AsFar:
    """A heading within a piece that rows worked again go as far as."""

    names: frozenset[str]
    """What is shaped below it: "armhole"."""
    through: bool
    """True for "until the armhole shaping is complete"."""


@dataclass(frozen=True, slots=True)
class Rerun:
    """A row that is worked as others were: "Rep Rows 2-7 twice more"."""

    rows: Sequence[int]
    """The rows it names, in order, empty when it says "last N rows"."""
    last: int
    """For "last 2 rows": how many; 0 when rows are named."""
    times: int | None
    """How often, None when not said."""
    more: bool
    """True for "N times more": the rows just worked are one time already."""
    until: str
    """Words after "until", or nothing: the number of rows is open."""
    span: Span
    then: Sequence[int] = ()
    """Rows to end with: "then Row 3 once"."""
    total_rows: int | None = None  # of "for N rows"
    up_to: int | None = None  # for "until there are N rows in all"; None when not said
    stitches: int | None = None
    """For "until 4 sts remain": how many stand then; None when not said."""
    ending: int | None = None
    """For "ending with Row 3": the number of the row that comes last; None when not said."""
    called: str = ""
    """For "rep dec row": what the row is called; "" when it is not named."""
    every: int = 1  # for "every 4th row": one row in so many is worked so, the others even
    as_set: str = ""  # "even" or "pattern" for rows that go on as they were; "" where others are named
    part: str | None = None
    """For "as first leg": the part whose rows are meant, all when none is named; None for its own."""
    ending_side: str = ""
    """For "ending with a WS row": "WS" or "RS"; "" when not said."""
    onward: bool = False  # for "from Row 2": that row and all behind it so far
    as_far: AsFar | None = None
    """For "as for back to armhole shaping": the heading that its rows go as far as; None for all."""
    so_many: tuple[str, int] | None = None
    """For "until there are 11 cable rows": the name ("" for repeats of all rows named) and how many; None else."""
