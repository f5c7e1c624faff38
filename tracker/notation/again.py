"""Rows printed again in the same words: read once, and put where they stand each further time.

A block with a label comes in; the row that its words were read as before comes out, moved to the block, or None.
Only what was read without a fault, and depends on nothing but its own words, is remembered.
"""

from tracker.notation.moved import Moved, lies_within, moved
from tracker.notation.page.block import Block
from tracker.notation.page.labels import as_kind
from tracker.notation.phrase.cursor import Context
from tracker.notation.tree import Row
from tracker.problems import Span
from tracker.records import dataclass

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
