"""The index of a fabric: rows by what stands on them, so that a place is looked up and not searched for.

A Fabric comes in, repeats unexpanded; an Index comes out. Rows that look alike share one Look, kept as a string with
one character for each kind of thing, so that beginnings are found by bisection, endings by the letters they hold,
and counts by hashing. Rows worked ten thousand times cost as much as once.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator

from tracker.fabric.model import CH, HIDDEN, Fabric, Placed
from tracker.records import dataclass, field
from tracker.trade.spellings import stitch_named
from tracker.trade.stitches import parts_of

GRAM = 3
"""Length of the pieces of rows that endings are looked up by."""
LONGEST = 60
"""Rows of a repeat that is recognised when it is listed row by row."""
_FIRST = 0x100
"""Where the letters for kinds of things begin."""


@dataclass(frozen=True, slots=True)
class Look:
    """What stands on a row, for all the rows that have the same on them."""

    text: str
    """A character for each stitch and space, in the order made."""
    names: tuple[str, ...]
    stitch_at: tuple[int, ...]
    """Position of each stitch, spaces left out, from 0."""
    makes: dict[str, int]
    corners: tuple[int, ...]
    """Position of each corner, from 0."""

    @property
    def stitches(self) -> int:
        return len(self.stitch_at)

    def holding(self, count: int) -> range:
        """Positions at which that many stitches are worked: one, or more beside a chain."""
        if count > self.stitches:
            return range(0)
        start = self.stitch_at[count - 1] + 1 if count else 0
        end = self.stitch_at[count] if count < self.stitches else len(self.text)
        return range(start, end + 1)


@dataclass(frozen=True, slots=True)
class Run:
    """Indices of rows, evenly apart."""

    start: int
    step: int = 1
    times: int = 1


@dataclass(frozen=True, slots=True)
class Span:
    """Rows one after another, the whole of them several times, however the pattern words it."""

    first: int
    """Index of its first row."""
    looks: tuple[int, ...]
    """The look of each row of one pass."""
    times: int


@dataclass(slots=True)
class Index:
    """A fabric, ready to be asked."""

    fabric: Fabric
    spans: list[Span] = field(default_factory=list)
    firsts: list[int] = field(default_factory=list)
    """The first row of each span."""
    letters: dict[str, str] = field(default_factory=dict)
    """The character for each name."""
    looks: list[Look] = field(default_factory=list)
    homes: list[list[tuple[int, int]]] = field(default_factory=list)
    """For each look: span and row within it, both from 0."""
    by_text: dict[str, int] = field(default_factory=dict)
    by_makes: dict[frozenset[tuple[str, int]], list[int]] = field(default_factory=dict)
    by_stitches: dict[int, list[int]] = field(default_factory=dict)
    texts: list[str] = field(default_factory=list)
    """Every look's text, sorted."""
    grams: dict[str, set[int]] = field(default_factory=dict)
    """Looks by every single character and every GRAM characters in a row that they hold."""
    length: int = 0
    """Rows in all."""
    numbered: dict[int, list[tuple[int, str]]] = field(default_factory=dict)
    """By the pattern's own numbers: indices of rows with their kind; rows of Stretches worked often are not here."""
    labelled: dict[str, list[int]] = field(default_factory=dict)
    """Rows without a number, by their label in lower case."""
    own: dict[str, tuple[str, ...]] = field(default_factory=dict)
    """The pattern's own stitches, with what each leaves on the row; a name inside that stands for another
    begins with "="."""
    nexts: dict[tuple[int, int, bool], str] = field(default_factory=dict)
    """What comes next, as it was told: by the worked row's identity, stitches and spaces done, and UK terms."""

    def spelt(self, names: tuple[str, ...]) -> str | None:
        """Names as a string of the index; None when one of them is nowhere on the fabric."""
        letters = [self.letters.get(name) for name in names]
        return None if None in letters else "".join(letter for letter in letters if letter)

    def beginning_with(self, text: str) -> list[int]:
        """Looks that begin so."""
        start = bisect_left(self.texts, text)
        end = bisect_right(self.texts, text + chr(0x10FFFF))
        return [self.by_text[each] for each in self.texts[start:end]]

    def holding(self, text: str) -> list[int]:
        """Looks that may hold a piece; all of those that do are among them."""
        if not text:
            return list(range(len(self.looks)))
        if len(text) < GRAM:
            pieces = list(text)
        else:
            pieces = [text[k : k + GRAM] for k in range(len(text) - GRAM + 1)]
        found = self.grams.get(pieces[0], set())
        for piece in pieces[1:]:
            if len(found) < 2:
                break
            found = found & self.grams.get(piece, set())
        return sorted(found)

    def at(self, row: int) -> int | None:
        """The look of the row with an index; None where there is no row."""
        if not 1 <= row <= self.length:
            return None
        span = self.spans[bisect_right(self.firsts, row) - 1]
        return span.looks[(row - span.first) % len(span.looks)]

    def placed(self, row: int) -> Placed | None:
        """The row with an index, its number not counted on; None where there is no row."""
        if not 1 <= row <= self.length:
            return None
        stretch = bisect_right(self.fabric.first, row) - 1
        rows = self.fabric.stretches[stretch].rows
        return rows[(row - self.fabric.first[stretch]) % len(rows)]

    def runs(self, span: int, within: int, back: int = 0, ahead: int = 0) -> Iterator[Run]:
        """Every index of one row of a span, in runs whose rows have the same around them.

        `back` and `ahead` say how many rows before and after are looked at.
        """
        held = self.spans[span]
        length, times = len(held.looks), held.times
        start = held.first + within
        head = min(times, -(-max(0, back - within) // length))
        tail = min(times - head, -(-max(0, within + ahead - length + 1) // length))
        for turn in (*range(head), *range(times - tail, times)):
            yield Run(start + turn * length)
        if times > head + tail:
            yield Run(start + head * length, length, times - head - tail)

    def starts_afresh(self, row: int) -> bool:
        """True when a row stands on a chain or a ring of its own, not on the row before."""
        placed = self.placed(row)
        return placed is None or all(e.kind in (CH, HIDDEN) for e in placed.worked.below)


def index_of(fabric: Fabric) -> Index:
    """The index of a fabric."""
    index = Index(fabric, length=fabric.length)
    known: dict[int, int] = {}
    keys: dict[tuple[object, ...], int] = {}
    for first, stretch in zip(fabric.first, fabric.stretches, strict=True):
        looks: list[int] = []
        alike: list[int] = []
        for row, placed in enumerate(stretch.rows, first):
            elements = placed.worked.elements
            # rows worked alike share one tuple, so its identity saves spelling it again
            number = known.get(id(elements))
            if number is None:
                number = known[id(elements)] = _look(index, placed)
            looks.append(number)
            below = id(placed.worked.below)
            key = (number, placed.worked.side, placed.part, placed.kind, below)
            alike.append(keys.setdefault(key, len(keys)))
            if placed.number is None:
                passes = range(row, row + stretch.length, len(stretch.rows))
                index.labelled.setdefault(placed.label.lower(), []).extend(passes)
            elif stretch.times == 1:
                index.numbered.setdefault(placed.number, []).append((row, placed.kind))
        if stretch.times > 1:
            _enter(index, Span(first, tuple(looks), stretch.times))
            continue
        for start, length, times in repeated(alike):
            _enter(index, Span(first + start, tuple(looks[start : start + length]), times))
    index.texts = sorted(index.by_text)
    _other_names(index)
    return index


def _other_names(index: Index) -> None:
    """Names by which a maker may call what stands on the rows by another."""
    for name in index.letters:
        # what the rows themselves are counted by is one stitch, though it is a special one
        index.own.pop(name, None)
        if not name.startswith("ch-") and stitch_named(name) is None:
            index.own[name.lower()] = (name,)
    gathered = [name for name in index.letters if parts_of(name)[2] > 1]
    if "cl" in index.letters:
        for stitch in ("sc", "hdc", "dc", "tr", "dtr"):
            for many in range(2, 8):
                if f"{stitch}{many}tog" not in index.letters:
                    index.own[f"={stitch}{many}tog"] = ("cl",)
    elif len(gathered) == 1:
        index.own["=cl"] = (gathered[0],)


def _enter(index: Index, span: Span) -> None:
    for within, look in enumerate(span.looks):
        index.homes[look].append((len(index.spans), within))
    index.spans.append(span)
    index.firsts.append(span.first)


def repeated(rows: list[int]) -> Iterator[tuple[int, int, int]]:
    """Rows in pieces that are repeated: start, length of one pass, passes.

    >>> list(repeated([9, 1, 2, 1, 2, 1, 2, 7]))
    [(0, 1, 1), (1, 2, 3), (7, 1, 1)]
    """
    at = plain = 0
    while at < len(rows):
        best = (0, 0)
        for length in range(1, min(LONGEST, (len(rows) - at) // 2) + 1):
            if rows[at] != rows[at + length]:
                continue
            end = at + length
            while end < len(rows) and rows[end] == rows[end - length]:
                end += 1
            times = (end - at) // length
            # one pass saved is not worth a piece of its own
            if times > 2 and times * length > best[0] * max(1, best[1]):
                best = (length, times)
        if not best[0]:
            at += 1
            continue
        if at > plain:
            yield plain, at - plain, 1
        yield at, best[0], best[1]
        at += best[0] * best[1]
        plain = at
    if len(rows) > plain:
        yield plain, len(rows) - plain, 1


def _look(index: Index, placed: Placed) -> int:
    """The number of a row's look, entered when it is new."""
    counted = [e for e in placed.worked.elements if e.counts]
    names = tuple(e.name for e in counted)
    text = "".join(index.letters.setdefault(name, chr(_FIRST + len(index.letters))) for name in names)
    if (old := index.by_text.get(text)) is not None:
        return old
    number = len(index.looks)
    stitch_at = tuple(k for k, e in enumerate(counted) if e.is_stitch)
    corners = tuple(k for k, e in enumerate(counted) if e.corner)
    makes = placed.worked.makes
    index.looks.append(Look(text, names, stitch_at, makes, corners))
    index.homes.append([])
    index.by_text[text] = number
    index.by_makes.setdefault(frozenset(makes.items()), []).append(number)
    index.by_stitches.setdefault(len(stitch_at), []).append(number)
    for letter in set(text):
        index.grams.setdefault(letter, set()).add(number)
    for piece in {text[k : k + GRAM] for k in range(len(text) - GRAM + 1)}:
        index.grams.setdefault(piece, set()).add(number)
    _own_stitches(index, placed)
    return number


def _own_stitches(index: Index, placed: Placed) -> None:
    """Notes what the pattern's own stitches leave on the row."""
    groups: dict[tuple[str, int], list[str]] = {}
    before = ""
    for element in placed.worked.elements:
        if element.special and element.group:
            groups.setdefault((element.special, element.group), []).append(element.name)
        elif element.special and element.special != before:
            groups.setdefault((element.special, 0), [element.name])
        elif element.special:
            # two beside each other that are not worked in one place: where one ends is not known
            groups[(element.special, 0)] = []
        before = element.special
    for (name, _), names in groups.items():
        if names:
            index.own.setdefault(name, tuple(names))
