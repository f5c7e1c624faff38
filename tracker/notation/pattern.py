"""A pattern as it is read: its rows and what stands between them, its stitches of its own, what it says once for all.

What None means is said beneath its field. Stitches carry US names.
"""

from collections.abc import Sequence

from tracker.notation.tree import Item, Kind, Rerun, Stated, Turning
from tracker.problems import Span
from tracker.records import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """One printed row or round, or range of them."""

    kind: str
    """"row", "round", "edging" or "foundation"."""
    numbers: Sequence[int]
    """Every number it stands for, in order; empty for "Next row"."""
    label: str
    """As printed, put right: "Rows 3-10", "Next row"."""
    label_span: Span
    items: Sequence[Item]
    stated: tuple[Stated, ...]
    span: Span
    part: str | None = None
    side: str | None = None
    """"RS" or "WS" when said."""
    rerun: Rerun | None = None
    unread: bool = False
    """True when a phrase of it could not be read."""
    alternate: bool = False
    """True for "and all even rows"."""
    sizes: tuple[str, ...] = ()
    """The sizes it is for; empty for all."""
    called: str = ""
    """The name by which others may repeat it: "dec" for "Row 7 (dec row)"; "" for none."""
    again: bool = False
    """True for another row's words with a change: the names of its stitches may be those of the other's row below."""
    orders: tuple["Order", ...] = ()
    """What words outside of it order, where its own do not tell of it."""


@dataclass(frozen=True, slots=True)
class Order:
    """Words that order how a row is worked and that stand outside of it, or in another that repeats it."""

    span: Span
    stitches: int = 0
    """So many are what the row is to be worked on; 0 where none are told."""
    anyhow: bool = False
    """True where the row need not be plain for the words to change it."""


@dataclass(frozen=True, slots=True)
class Setup:
    """What comes before the first row of a part: the foundation chain, the ring."""

    items: tuple[Item, ...]
    span: Span
    part: str | None = None


@dataclass(frozen=True, slots=True)
class Aside:
    """Prose between the rows: shown and told at its place, worked by the maker on their own."""

    text: str
    span: Span
    part: str | None = None


@dataclass(frozen=True, slots=True)
class Special:
    """A stitch as the pattern defines it."""

    name: str
    """As the rows call it, lower case."""
    items: tuple[Item, ...]
    """What it is made of, with no place; empty when it is told in hook movements."""
    closes: int
    """How many stitches of the row below it gathers when it closes into one top; 0 when it does not close."""
    base: str
    """For a closing one: the name it is counted by."""
    one_place: bool
    span: Span
    text: str
    """The definition, word for word."""
    doubted: bool = False
    """True where words of the definition were passed over that may say more of what it makes."""
    into: Kind | None = None
    """The space it goes into where a row names no place, "corner: (2 dc, ch 2, 2 dc) in corner sp"."""


@dataclass(frozen=True, slots=True)
class Habits:
    """What the pattern says once for all of its rows."""

    turning: tuple[tuple[int | str, Turning], ...] = ()
    """By number of chains, or "" for every turning chain."""
    joins: bool | None = None
    """True when every round is joined, False for a spiral, None when not said."""
    turns: bool | None = None
    """True when each row or round is turned, False when none is."""
    rounds_turned: bool = False
    """True when it is said of every round that it is turned."""


@dataclass(frozen=True, slots=True)
class Pattern:
    """A whole pattern, read."""

    title: str
    uk: bool
    terms_stated: bool
    sizes: tuple[str, ...]
    size: str | None
    blocks: tuple["Setup | Row | Aside", ...]
    """In the order printed."""
    specials: tuple[Special, ...]
    habits: Habits
    notes: tuple[str, ...]
    """Materials, gauge and notes, a line each, as written."""
    parts: tuple[tuple[str, int], ...] = ()
    """Names of the parts with how many to make."""
    copies: int = 1
    """How many of the whole to make."""
