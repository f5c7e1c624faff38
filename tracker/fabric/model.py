"""The fabric: what stands on each row, and what it was worked into.

Small values, made by `build`. A row is worked onto the elements of the surface below it in working order; what it
makes is the surface of the following one.
"""

from bisect import bisect_right
from collections.abc import Iterator, Sequence

from tracker.notation.pattern import Row
from tracker.notation.tree import Item
from tracker.problems import Span
from tracker.records import dataclass, field, replace

SP = "sp"
"""Kind of a chain space."""
HIDDEN = "tch"
"""Kind of a turning chain that does not count: there to be named, not to be worked."""
CH = "ch"
"""Kind of a single chain of a foundation."""


@dataclass(frozen=True, slots=True)
class Element:
    """One thing that stands on a row: a stitch, a chain space, a foundation chain, a turning chain."""

    kind: str
    """Name inside; SP, HIDDEN, CH, or a stitch."""
    chains: int = 0
    """Of a space or a turning chain: how many chains."""
    turning: bool = False
    """True for the stitch that a turning chain counts as, and for its space."""
    group: int = 0
    """Elements made in one place share a number; 0 for those that stand alone."""
    special: str = ""
    """The pattern's own name for what it belongs to."""
    corner: bool = False
    """True for a corner: the space in a group, or the middle of three in one place."""
    slipped: bool = False
    """True when slip stitches travelled over it: it may be left."""
    into: tuple[int, ...] = ()
    """Indices, in working order, of what it was worked into below; empty for chains and rings."""
    between: bool = False
    """True for what was worked between two stitches, before the one that `into` names."""

    @property
    def is_stitch(self) -> bool:
        """True for what counts as a stitch of the row."""
        return self.kind not in (SP, HIDDEN, "picot")

    @property
    def counts(self) -> bool:
        """True for what stands in `makes`."""
        return self.kind != HIDDEN

    @property
    def name(self) -> str:
        """As counts list it: "dc", "ch-2 sp"."""
        return f"ch-{self.chains} sp" if self.kind == SP else self.kind


@dataclass(frozen=True, slots=True)
class Step:
    """One phrase worked once: what it makes and what it takes."""

    item: Item
    """The phrase."""
    made_from: int
    """Index of the first element it makes, in the row."""
    made_to: int
    """End of them, excluded."""
    at: int
    """Elements of the row below that were used up or passed before it."""
    after: int
    """The same after it."""
    path: tuple[tuple[int, int, int], ...]
    """For each repeat it stands in, outermost first: a number for the repeat, the pass from 0, passes in all
    (-1 while not known)."""


@dataclass(frozen=True, slots=True)
class Unread:
    """Words that keep a row from being understood."""

    span: Span
    why: str = ""
    """What they do not tell, as the headline of a problem goes on; "" where they could not be read at all."""
    cure: str = ""
    """What to do about it."""


@dataclass(frozen=True, slots=True)
class WorkedRow:
    """A row worked once onto a surface."""

    row: Row
    """The printed row whose words were worked."""
    elements: tuple[Element, ...]
    """What stands on it, in the order made."""
    steps: Sequence[Step]
    below: tuple[Element, ...]
    """What it was worked onto, in working order."""
    side: str | None
    understood: bool
    turned: bool
    """True when the work was turned before it."""
    mirrored: bool = False
    """True when it runs against the direction of the row below."""
    landing: str = ""
    """Where its last stitch goes, when that is a chain: "third chain of the chain four"."""
    unread: tuple[Unread, ...] = ()
    """What keeps its words from being understood; nothing where they are, also when its count differs."""

    @property
    def makes(self) -> dict[str, int]:
        """Counts by name, in the order first made."""
        out: dict[str, int] = {}
        for element in self.elements:
            if element.kind != HIDDEN:
                name = element.name
                out[name] = out.get(name, 0) + 1
        return out

    @property
    def stitches(self) -> int:
        """How many stitches stand on it."""
        return sum(1 for element in self.elements if element.is_stitch)

    @property
    def total(self) -> int:
        """How many stitches and spaces stand on it."""
        return sum(1 for element in self.elements if element.kind != HIDDEN)


@dataclass(frozen=True, slots=True)
class Placed:
    """A worked row with its name in the piece."""

    worked: WorkedRow
    number: int | None
    """Its own number in the pattern's numbering; None for a row without one."""
    kind: str
    part: str | None
    as_number: int | None
    """The number of the row it repeats, None when it repeats none."""
    printed: str
    """The label as printed, of a range the whole range."""
    label_span: Span

    @property
    def label(self) -> str:
        """What to call it: "Row 5", or as printed where it has no number."""
        if self.number is None:
            return self.printed
        return f"{'Rnd' if self.kind == 'round' else 'Row'} {self.number}"


@dataclass(frozen=True, slots=True)
class Stretch:
    """Rows worked one after another, the whole of them several times."""

    rows: tuple[Placed, ...]
    """The first pass; in later ones only the numbers go on."""
    times: int = 1
    step: int = 0
    """How much every number grows from pass to pass."""

    @property
    def length(self) -> int:
        """How many rows are worked in all."""
        return len(self.rows) * self.times


@dataclass(frozen=True, slots=True)
class Fabric:
    """The whole piece, worked."""

    stretches: tuple[Stretch, ...]
    open_ended: bool
    first: tuple[int, ...] = field(init=False, repr=False, compare=False)
    """Index of the first row of each stretch, from 1."""
    length: int = field(init=False, repr=False, compare=False)
    """How many rows are worked in all."""

    def __post_init__(self) -> None:
        firsts, at = [], 1
        for stretch in self.stretches:
            firsts.append(at)
            at += stretch.length
        object.__setattr__(self, "first", tuple(firsts))
        object.__setattr__(self, "length", at - 1)

    def row(self, index: int) -> Placed:
        """The row with an index from 1; IndexError outside."""
        if not 1 <= index <= self.length:
            raise IndexError(index)
        at = bisect_right(self.first, index) - 1
        stretch = self.stretches[at]
        turn, within = divmod(index - self.first[at], len(stretch.rows))
        placed = stretch.rows[within]
        if turn and stretch.step and placed.number is not None:
            return replace(placed, number=placed.number + turn * stretch.step)
        return placed

    def rows(self, start: int = 1, end: int | None = None) -> Iterator[tuple[int, Placed]]:
        """Rows with their indices, lazily."""
        last = self.length if end is None else min(end, self.length)
        for index in range(max(1, start), last + 1):
            yield index, self.row(index)

    def told(self) -> str:
        """How long it is in words: "15 rows and 1 round", "54 rows, and on as long as you like"."""
        many = {"row": 0, "round": 0}
        for stretch in self.stretches:
            for placed in stretch.rows:
                many["round" if placed.kind == "round" else "row"] += stretch.times
        words = [f"{number} {word}{'s' if number > 1 else ''}" for word, number in many.items() if number]
        return (" and ".join(words) or "0 rows") + (", and on as long as you like" if self.open_ended else "")
