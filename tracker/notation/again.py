"""Rows printed again in the same words: read once, and put where they stand each further time.

A block with a label comes in; the row that its words were read as before comes out, moved to the block, or None.
Only what was read without a fault, and depends on nothing but its own words, is remembered.
"""

from collections.abc import Mapping

from tracker.notation.moved import Moved, as_told, lies_within, moved
from tracker.notation.page.block import Block
from tracker.notation.page.labels import as_kind
from tracker.notation.phrase.cursor import Context, Cursor
from tracker.notation.phrase.repeats.often import often_here
from tracker.notation.scan import T
from tracker.notation.tree import Item, Repeat, Rerun, Row
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
            moved(row.stated, by),
            Span(block.start, block.end),
            block.part,
            label.side or first.side,
            None,
            False,
            label.alternate,
            block.sizes,
            label.called,
        )


def repeated_otherwise(c: Cursor, rerun: Rerun | None, rows: Mapping[int, Row]) -> list[Item] | None:
    """ "As Row 3, repeating from * twice": that row's items with its one star worked so often, the cursor past it.

    None, with the cursor where it was, where the words say no such thing or the row has not one star.
    """
    named = rows.get(rerun.rows[0]) if rerun is not None and len(rerun.rows) == 1 else None
    if named is None:
        return None
    i = c.i
    while c.kind() in (T.COMMA, T.SEMICOLON) or c.text() in ("but", "only", "now"):
        c.i += 1
    if c.take_any("repeating", "rep", "repeat", "working") and c.take("from") and c.kind() is T.STAR:
        c.i += 1
        often = often_here(c)
        items = list(as_told(named.items))
        stars = [k for k, item in enumerate(items) if isinstance(item, Repeat) and item.star]
        if often is not None and len(stars) == 1 and isinstance(star := items[stars[0]], Repeat):
            items[stars[0]] = replace(star, times=often.times, further=often.further, stop=often.stop)
            return items
    c.i = i
    return None
