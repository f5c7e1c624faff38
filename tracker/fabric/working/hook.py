"""The hook in the middle of a row: what it is worked onto, what it has made, what is in doubt.

Doubts are asked of `choices`: what is asked and not chosen takes the first option, and the asking is remembered,
so that `readings` can try the others. One Hook works one row once.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from tracker.fabric.below.cursor import Below
from tracker.fabric.below.surface import UNLIMITED
from tracker.fabric.model import CH, HIDDEN, SP, Element, Step
from tracker.notation.pattern import Special
from tracker.notation.tree import Group, Item, Repeat, Say, Skip, Turning, Which, Work
from tracker.problems import Span
from tracker.records import dataclass, field, replace

TYPE_CHECKING = False  # the name is enough for type checkers, and typing is slow to import
if TYPE_CHECKING:
    from typing import Any

MAX_ELEMENTS = 5_000
"""A row that would make more is not worked: no piece is that wide."""
MAX_ITEMS = 200_000
"""Items worked in one row, repeats counted each time; a row that needs more is not worked."""

Choice = str | int | bool | tuple[object, ...]
"""One way to settle a doubt."""

Path = tuple[tuple[int, int, int], ...]
"""For each repeat the hook is in, outermost first: a number for the repeat, the pass from 0, passes in all
(-1 while not known)."""


class TooLarge(Exception):
    """A row that would never end."""


@dataclass(slots=True)
class Found:
    """A fault met while working."""

    code: str
    span: Span
    says: str
    """What is so, to stand behind the row's name."""
    label: str = ""
    help: str = ""
    weight: int = 10
    """How much it speaks against a reading: 1 for a remark, 10 for what cannot be worked."""


@dataclass(slots=True)
class Ground:
    """What surrounds a row: other edges, earlier rows, the pattern's special stitches."""

    specials: dict[str, Special]
    base: tuple[Element, ...] = ()
    """The free side of the foundation; empty when there is none, or when it is used up."""
    row_ends: int = 0
    """Rows that have ends at each side."""
    left: tuple[Element, ...] = ()
    """Stitches that an earlier row left unworked; empty once they are taken up."""
    left_ahead: bool = False
    """True for a row that comes to them behind its end: the second worked on the one that left them."""
    plain: str = "sc"
    """The stitch most worked so far, for "work even"."""
    earlier: dict[int, tuple[Element, ...]] = field(default_factory=dict)
    """Elements of earlier rows by number, for loops left free."""
    last_number: int = 0
    """Number of the row below, 0 when it has none."""
    again: bool = False
    """True for a row worked as another was: the names of its stitches may be those of the other's row below."""


@dataclass(frozen=True, slots=True)
class Snapshot:
    """A moment of a row, to go back to when a pass does not fit."""

    below: Below
    elements: tuple[Element, ...]
    n: int
    at: int
    sub: int
    here: int | None
    gap: int
    left: tuple[Element, ...]
    made: int
    steps: int
    found: int
    groups: int
    edge_used: bool
    silent: int
    own_chains: Below | None
    base: tuple[Element, ...]
    chains_too: bool
    spaces_worked: frozenset[int | None]
    picot_open: bool
    across: Repeat | None
    ends: tuple[bool, int] | None
    ends_in_space: bool
    other_side: bool
    repeats: int


def _on_chains(item: Item, below: Below) -> bool:
    """True for what still goes along chains made in mid-row, or says something beside."""
    if isinstance(item, (Work, Group, Skip)):
        where = item.where
        if where.which is Which.FROM_HOOK or where.kinds and where.kinds[0].name == CH:
            return below.at < below.n
        return where.which in (Which.STRAIGHT, Which.SAME) and below.at < below.n
    return isinstance(item, (Say, Turning))


@dataclass(slots=True)
class Hook:
    """One row being worked."""

    below: Below
    """The edge that is worked into; another one once the row goes on along it."""
    ground: Ground
    choices: Mapping[object, Choice]
    deeds: Mapping[type, Callable[[Hook, Any, Sequence[Item]], None]]
    """What works an item of each type, given the items that follow it: handed in, so that a group or a repeat can
    work whatever it holds. A type that is not in it changes nothing."""
    top_edge: Below = field(init=False)
    """The top of the row below, where the row began."""
    asked: dict[object, tuple[Choice, ...]] = field(default_factory=dict)
    """Doubts met, with their options, the likeliest first."""
    made: list[Element] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)
    found: list[Found] = field(default_factory=list)
    path: Path = ()
    limit: int = UNLIMITED
    """Index that must not be reached, inside a repeat that goes on to a stop."""
    place: tuple[int, ...] | None = None
    """Where a group is worked: indices into the row below, () for a ring; None outside of groups."""
    group: int = 0
    """Number of the group being made, 0 outside of groups."""
    groups: int = 0
    """Groups made so far."""
    special: str = ""
    """Name of the pattern's own stitch being made, or nothing."""
    repeats: int = 0
    """Repeats begun so far."""
    across: Repeat | None = None
    """The last repeat that went on to the end; None before the first."""
    own_chains: Below | None = None
    """The row below, while stitches go back along chains just made; None otherwise."""
    edge_used: bool = False
    """True once an edge is worked along whose stitches are not counted: row ends, "evenly"."""
    left_said: bool = False
    """True when the words leave stitches unworked on purpose."""
    silent: int = 0
    """The most stitches passed over to reach a space."""
    spaces_worked: set[int | None] = field(default_factory=set)
    """Chains of the spaces worked into; None for spaces of any length."""
    unread: bool = False
    """True when the row holds words that could not be read."""
    spent: Span | None = None
    """Words that go on to the end of a row which others before them had used up; None where none are."""
    other_side: bool = False
    """True once the row goes on along the other side of the foundation."""
    picot_open: bool = False
    """True between the chains of a picot and the slip stitch that closes it."""
    ends_in_space: bool = False
    """True when a tall stitch closed the round, so that the next begins in the middle of a space."""
    taken_below: dict[int, int] = field(default_factory=dict)
    """By number of an earlier row: how many of its stitches were worked around or into so far."""
    pieces: bool = False
    """True for a round that joins pieces: it takes as many stitches of them as are told."""
    ends: tuple[bool, int] | None = None
    """What "increase (True) or decrease (False) so many at each end" still owes at the end; None for nothing."""
    on_side: bool = False
    """True while the row goes along row ends that were named once, before its stitches."""
    last_named: bool = False
    """True when the row names its last stitches, which may be those that slip stitches travelled over."""
    marks: list[int] = field(default_factory=list)
    """Where markers hang among what was made, as `Standing.marks` has them."""
    gaps_known: tuple[tuple[Element, ...], bool] | None = None
    """For the elements below: whether there is a gap between two groups; None before that was asked."""
    budget: int = MAX_ITEMS
    """Items that may still be worked."""

    def __post_init__(self) -> None:
        self.top_edge = self.below

    def ask(self, key: object, options: Sequence[Choice]) -> Choice:
        """The choice made for a doubt; the first option when none was."""
        if key not in self.asked:
            self.asked[key] = tuple(options)
        return self.choices.get(key, options[0])

    def one(self, item: Item, rest: Sequence[Item]) -> None:
        """Works one item; `rest` are those that follow it."""
        self.budget -= 1
        if self.budget < 0:
            raise TooLarge
        if self.own_chains is not None and not _on_chains(item, self.below):
            self.below, self.own_chains = self.own_chains, None
        deed = self.deeds.get(type(item))
        if deed is None:
            return
        below, gap, made = self.below, self.below.gap, len(self.made)
        deed(self, item, rest)
        if below.gap != gap and below is self.below:
            for k in range(made, len(self.made)):
                if self.made[k].into:
                    self.made[k] = replace(self.made[k], between=True)

    def make(self, kind: str, into: tuple[int, ...], chains: int = 0, turning: bool = False) -> None:
        """Makes one element into what lies at those indices below."""
        if len(self.made) >= MAX_ELEMENTS:
            raise TooLarge
        if self.own_chains is not None:
            into = ()
        self.made.append(Element(kind, chains, turning, self.group, self.special, False, False, into))

    def step(self, item: Item, made_from: int, at: int) -> None:
        """Notes that an item was worked, from what was made and reached before it."""
        self.steps.append(Step(item, made_from, len(self.made), at, self.below.at, self.path))

    def fault(
        self, code: str, span: Span, says: str, label: str = "", help_text: str = "", weight: int = 10
    ) -> None:
        """Notes what is wrong; the row goes on."""
        self.found.append(Found(code, span, says, label, help_text, weight))

    def untold(self, span: Span, says: str, help_text: str = "") -> None:
        """Notes what the words do not tell, so that the row cannot be counted."""
        self.fault("T101", span, says, "", help_text, weight=0)

    def stands_on_first(self) -> bool:
        """True while nothing but a turning chain has been made."""
        return bool(self.made) and all(e.turning or e.kind in (SP, HIDDEN) for e in self.made)

    def off_own_chains(self, mark: Snapshot) -> None:
        """Goes back to the row from chains that were made since a moment: a pass of a repeat has ended there."""
        if self.own_chains is not None and mark.own_chains is None:
            self.below, self.own_chains = self.own_chains, None

    def mark(self) -> Snapshot:
        """This moment."""
        b = self.below
        return Snapshot(
            below=b,
            elements=b.elements,
            n=b.n,
            at=b.at,
            sub=b.sub,
            here=b.here,
            gap=b.gap,
            left=self.ground.left,
            made=len(self.made),
            steps=len(self.steps),
            found=len(self.found),
            groups=self.groups,
            edge_used=self.edge_used,
            silent=self.silent,
            own_chains=self.own_chains,
            base=self.ground.base,
            chains_too=b.chains_too,
            spaces_worked=frozenset(self.spaces_worked),
            picot_open=self.picot_open,
            across=self.across,
            ends=self.ends,
            ends_in_space=self.ends_in_space,
            other_side=self.other_side,
            repeats=self.repeats,
        )

    def back(self, mark: Snapshot) -> None:
        """Undoes everything since that moment."""
        self.below = below = mark.below
        below.elements, below.n = mark.elements, mark.n
        below.at, below.sub, below.here, below.gap = mark.at, mark.sub, mark.here, mark.gap
        self.ground.left = mark.left
        del self.made[mark.made :]
        del self.steps[mark.steps :]
        del self.found[mark.found :]
        self.groups = mark.groups
        self.edge_used = mark.edge_used
        self.silent = mark.silent
        self.own_chains = mark.own_chains
        self.ground.base = mark.base
        below.chains_too = mark.chains_too
        self.spaces_worked = set(mark.spaces_worked)
        self.picot_open, self.across = mark.picot_open, mark.across
        self.ends, self.ends_in_space, self.other_side = mark.ends, mark.ends_in_space, mark.other_side
        self.repeats = mark.repeats
