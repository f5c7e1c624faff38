"""Rows printed again in the same words: read once, and put where they stand each further time.

A block with a label comes in; the row that its words were read as before comes out, moved to the block, or None.
Only what was read without a fault, and depends on nothing but its own words, is remembered.
"""

from collections.abc import Sequence
from itertools import pairwise

from tracker.notation.moved import Moved, as_told, lies_within
from tracker.notation.page.block import Block
from tracker.notation.page.labelled.row_names import as_kind
from tracker.notation.pattern import Row
from tracker.notation.phrase.cursor import Context, Cursor
from tracker.notation.phrase.repeats.often import often_here
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.rows.before.altered import alone, altered, restated
from tracker.notation.rows.before.growing import apart_by
from tracker.notation.scan import T, Token
from tracker.notation.tree import (
    ANY,
    Chain,
    Group,
    Item,
    Kind,
    Leave,
    Repeat,
    Rerun,
    Stated,
    Stop,
    Which,
    Work,
)
from tracker.problems import Span
from tracker.records import dataclass, replace

Words = tuple[str, str, int]
"""The words of a row with what else their reading depends on: the plain stitch last named, how many rows are named."""


@dataclass(slots=True)
class _First:
    """A row as it was printed first."""

    row: Row
    start: int
    """Where its words begin."""
    side: str | None
    """The side that its words name."""
    base: str
    """The plain stitch named last when it was read."""
    own: bool | None = None
    """True when every span lies in its own words; None until that is asked."""


class ReadBefore:
    """The rows of one text by their words."""

    def __init__(self, text: str, context: Context) -> None:
        self._text = text
        self._context = context
        self._rows: dict[Words, _First] = {}

    def words_of(self, block: Block) -> Words:
        """What a block's row is remembered by; the letter before it tells whether a dash stands alone."""
        words = self._text[max(0, block.text_start - 1) : block.end]
        return words, self._context.base, self._context.rows_named

    def remember(self, words: Words, row: Row, block: Block, side: str | None) -> None:
        """Notes how the words of a block were read, and the side that they name."""
        if not row.unread and row.rerun is None:
            self._rows[words] = _First(row, block.text_start, side, self._context.base)

    def row(self, words: Words, block: Block, kind: str) -> Row | None:
        """The row of a block whose words were read before; None where they were not."""
        first = self._rows.get(words)
        if first is None:
            return None
        row, label = first.row, block.label
        if first.own is None:
            first.own = lies_within((row.items, row.stated), first.start, row.span.end)
        if not first.own or label is None:
            return None
        self._context.base = first.base
        by = block.text_start - first.start
        return Row(
            kind,
            label.numbers,
            label.text if kind == label.kind else as_kind(label.text, kind),
            block.label_span,
            Moved(tuple(row.items), by),
            tuple([_shifted(stated, by) for stated in row.stated]),
            Span(block.start, block.end),
            block.part,
            label.side or first.side,
            None,
            False,
            label.alternate,
            block.sizes,
            label.called,
        )


def _shifted(stated: Stated, by: int) -> Stated:
    """A count as it stands so many characters further on: what `moved` gives, without looking for what may move."""
    span = stated.span
    return replace(stated, span=Span(span.start + by, span.end + by))


def repeated_otherwise(
    c: Cursor, rerun: Rerun | None, named: Row | None, above: Row | None
) -> list[Item] | None:
    """ "As Row 3, repeating from * twice": that row's items with its one star worked so often, the cursor past it.

    "Work as set, stopping 2 short on each row": those of the row `above`, so much shorter than the one before. None,
    with the cursor where it was, where the words say no such thing or the row has not one star.
    """
    before = above if rerun is not None and rerun.as_set else named
    if rerun is not None and before is not None and (items := _shorter(c, as_told(before.items))) is not None:
        return items
    if rerun is None or named is None:
        return None
    if alone(rerun) and (same := restated(c, as_told(named.items))) is not None:
        return same
    i = c.i
    while c.kind() in (T.COMMA, T.SEMICOLON, T.DASH) or c.text() in ("but", "only", "now", "this", "time"):
        c.i += 1
    if (apart := _between_shapings(c)) is not None and (wider := apart_by(as_told(named.items), apart)):
        return [*wider]
    if (chains := _other_chains(c)) is not None and (items := _with_chains(as_told(named.items), *chains)):
        return items
    if alone(rerun) and c.kind() is not T.OPEN and (other := altered(c, as_told(named.items))) is not None:
        return other
    if c.take_any("repeating", "rep", "repeat", "working") and c.take("from") and c.kind() is T.STAR:
        c.i += 1
        often = often_here(c)
        told = list(as_told(named.items))
        stars = [k for k, item in enumerate(told) if isinstance(item, Repeat) and item.star]
        if often is not None and len(stars) == 1 and isinstance(star := told[stars[0]], Repeat):
            told[stars[0]] = replace(star, times=often.times, further=often.further, stop=often.stop)
            return told
    c.i = i
    return None


_SHORT = frozenset("short sooner earlier fewer less unworked".split())


def _shorter(c: Cursor, items: Sequence[Item]) -> list[Item] | None:
    """Takes "stopping 2 short on each row", "leaving 2 more sts unworked at the end of each row": the row told so.

    None, with the cursor where it was, for other words, or where the row is not one run of stitches cut short.
    """
    start = c.i
    while c.kind() is T.COMMA or c.text() in ("but", "and"):
        c.i += 1
    led = c.take_any("stopping", "ending", "finishing", "leaving", "working", "stop", "end", "turning")
    c.take("a") and c.take("further")
    many = c.value() if led else None
    c.i += many is not None
    c.take_any("more", "further", "fewer", "less")
    short = c.text(-1) in _SHORT
    stitch = stitch_here(c)
    c.i += stitch.tokens if stitch is not None else 0
    c.take_any("st", "sts", "stitch", "stitches")
    short |= bool(c.take_any(*_SHORT)) or c.text() == "before"
    while c.kind() is T.WORD and c.text() not in ("each", "every"):
        c.i += 1
    each = c.take_any("each", "every") and c.take_any("row", "time")
    works = [k for k, item in enumerate(items) if isinstance(item, (Work, Group, Repeat))]
    run = items[works[0]] if len(works) == 1 else None
    cut = isinstance(run, Work) and (
        any(isinstance(item, Leave) for item in items)
        or run.where.stop is not None
        and run.where.stop.left > 0
    )
    if many is None or not 0 < many < 100 or not (short and each and cut) or not isinstance(run, Work):
        c.i = start
        return None
    kinds = run.where.kinds or (Kind(ANY),)
    where = replace(run.where, which=Which.EACH, many=0, kinds=kinds, stop=Stop(left=many))
    told = [item for item in items if not isinstance(item, Leave)]
    told[told.index(run)] = replace(run, count=1, where=where)
    return [*told, Leave(None, run.span)]


_INSTEAD = (("in", "place", "of"), ("instead", "of"), ("rather", "than"), ("in", "lieu", "of"))


def _other_chains(c: Cursor) -> tuple[int, int] | None:
    """Takes "with 7 ch in place of 6 ch", "making ch-7 lps instead of ch-6 lps": the old and the new; None for else."""
    start = c.i
    c.take_any("with", "work", "working", "having", "making", "make")
    new = _chains(c)
    told = new is not None and any(c.take(*words) for words in _INSTEAD)
    old = _chains(c) if told else None
    if new is None or old is None:
        c.i = start
        return None
    return old, new


def _chains(c: Cursor) -> int | None:
    """Takes "ch 7", "7 ch", "ch-7 loops": how many."""
    start = c.i
    led = c.take_any("ch", "chain")
    c.i += c.kind() is T.HYPHEN
    many = c.value()
    c.i += many is not None
    c.i += c.kind() is T.HYPHEN
    if many is None or not (led or c.take_any("ch", "chs", "chain", "chains")):
        c.i = start
        return None
    c.take_any("loop", "loops", "lp", "lps", "sp", "sps", "space", "spaces")
    return many


def _with_chains(items: Sequence[Item], old: int, new: int) -> list[Item] | None:
    """Items with chains of one length in place of those of another; None where there are none of that length."""
    out: list[Item] = []
    changed = False
    for item in items:
        if isinstance(item, Chain) and item.count == old:
            item, changed = replace(item, count=new), True
        elif isinstance(item, (Repeat, Group)) and (inside := _with_chains(item.items, old, new)) is not None:
            item, changed = replace(item, items=tuple(inside)), True
        if isinstance(item, Repeat) and item.ending is not None:
            ending = _with_chains(item.ending.items, old, new)
            if ending is not None:
                item, changed = replace(item, ending=replace(item.ending, items=tuple(ending))), True
        out.append(item)
    return out if changed else None


def _between_shapings(c: Cursor) -> int | None:
    """Takes "with 3 dc between increases": how many plain stitches stand there now; None, and nothing taken, else."""
    start = c.i
    c.take_any("with", "work", "working", "having", "making", "there", "leaving")
    c.take_any("are")
    many = c.value()
    c.i += many is not None
    stitch = stitch_here(c)
    if stitch is not None:
        c.i += stitch.tokens
    c.take_any("st", "sts", "stitch", "stitches")
    if many is None or not c.take_any("between", "bet", "btwn", "before"):
        c.i = start
        return None
    c.take_any("the", "each", "every", "all")
    if not c.text().startswith(("inc", "dec")):
        c.i = start
        return None
    c.i += 1
    return many


def changes_the_row(tokens: Sequence[Token]) -> bool:
    """True where words behind a reference to a row may change it: "as Row 3 but …", and not "ch 1 instead of 3"."""
    said = {token.text for token in tokens}
    if (at := next((k for k, t in enumerate(tokens) if t.text in ("omitting", "omit")), None)) is not None:
        # "omitting turning ch at end of last row": nothing stands on that chain
        behind = [
            token.text for token in tokens[at + 1 : at + 5] if token.text not in ("the", "last", "final")
        ]
        if behind[:1] in (["turning"], ["tch"]):
            said -= {"omitting", "omit"}
    beside = any(t.text in _SIDES and o.text == "of" for t, o in pairwise(tokens))
    if _FEWER & said and (beside or _BESIDE & said):
        # "with one dc fewer before and after the decreases"; "2 sts less each row" is what comes of the row itself
        return True
    return bool(_CHANGES - {"instead"} & said or "instead" in said and not said & {"ch", "chain", "chs"})


def only_grows(tokens: Sequence[Token], row: Row) -> bool:
    """True for "Rep Row 4, working 1 more group on each side of center on every row" of a row that goes across.

    Its repeats are worked across, so that what is told of them comes of itself.
    """
    said = [token.text for token in tokens]
    if not _FEWER & set(said) or not {"each", "every"} & set(said) or (_CHANGES - _SHAPING) & set(said):
        return False
    at = next(k for k, word in enumerate(said) if word in _FEWER)
    if said[at + 1 : at + 2] and said[at + 1].removesuffix("s") not in _THINGS:
        return False
    repeats = [item for item in as_told(row.items) if isinstance(item, Repeat)]
    return bool(repeats) and all(repeat.times is None and repeat.further is None for repeat in repeats)


_THINGS = frozenset("group shell repeat pattern set cluster fan v-st mesh square tile space".split())
"""What a row has more of with each time it is worked."""
_SHAPING = frozenset("increasing decreasing inc dec".split())
_FEWER = frozenset("fewer less more extra additional".split())
_BESIDE = frozenset("before after between bet".split())
_SIDES = ("side", "sides")
_CHANGES = frozenset(
    "except but omitting omit instead replacing replace beginning starting increasing decreasing inc dec only".split()
)
"""Words behind "rep Row 2" that make it another row."""
