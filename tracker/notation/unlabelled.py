"""Rows told without a label of their own, and labels whose numbers differ from size to size."""

import re
from collections.abc import Sequence

from tracker.expressions import expression
from tracker.notation.page.block import Block
from tracker.notation.phrase.cursor import Context
from tracker.notation.phrase.row.prose import note_unread
from tracker.notation.phrase.told.even import pattern_told
from tracker.notation.phrase.told.shaping import Shaping
from tracker.notation.tree import (
    ANY,
    Aside,
    Item,
    Kind,
    Leave,
    Prose,
    Rerun,
    Row,
    Say,
    Setup,
    Where,
    Which,
    Work,
)
from tracker.problems import Source, Span
from tracker.records import replace


def shaped_rows(row: Row, told: Shaping) -> list[Row]:
    """The rows before the first that is shaped, that one, and those that follow it; `row` holds what else is said."""
    span = row.span
    even = Work("even", 1, Where(Which.EACH, span, 0, (Kind(ANY),)), span)
    ends = Work(told.how, told.by, Where(Which.EVENLY, told.words), told.words)

    row = replace(row, label="Next row", kind="row")

    def worked(item: Item) -> Row:
        return replace(row, items=(item,), stated=(), rerun=None, unread=False)

    rows = [*(worked(even) for _ in range(told.first - 1)), worked(ends)]
    if told.further == 0:
        return [*rows[:-1], replace(rows[-1], items=(ends, *row.items), stated=row.stated)]
    until = "" if told.stitches is None else f"until there are {told.stitches} sts"
    times = told.further if told.stitches is None else None
    again = Rerun((), 1, times, times is not None, until, span, stitches=told.stitches, every=told.every)
    return [*rows, replace(row, rerun=again, unread=False)]


def pattern_said(items: Sequence[Item], source: Source) -> list[Item]:
    """The items with what says which rows are the pattern, "These 2 rows form the pattern", marked as such."""
    return [
        Say("pattern", words, item.span)
        if isinstance(item, (Say, Prose))
        and "patt" in (words := source.words(item.span)).lower()
        and pattern_told(words) != (0, ())
        else item
        for item in items
    ]


def to_the_last(blocks: list[Setup | Row | Aside], text: str) -> list[Setup | Row | Aside]:
    """ "Fasten off after Row 12": how far "all even rows" go, where the last of them is named nowhere else."""
    if not any(isinstance(block, Row) and block.alternate for block in blocks):
        return blocks
    told = [int(hit[1]) for hit in _LAST_TOLD.finditer(text)]
    last = max(told, default=0)
    return [
        replace(block, numbers=(block.numbers[0], last))
        if isinstance(block, Row)
        and block.alternate
        and block.numbers[0] < last < 1000
        and (last - block.numbers[0]) % 2 == 0
        else block
        for block in blocks
    ]


_LAST_TOLD = expression(
    r"\b(?:fasten|finish|end|bind|tie)\s+off\s+(?:(?:after|at\s+(?:the\s+)?end\s+of)\s+)(?:row|rnd|round)\s+(\d{1,3})\b",
    re.IGNORECASE,
    ["off"],
)


def left_behind(blocks: list[Setup | Row | Aside], words: str) -> None:
    """ "Work 20 rows on these 4 sts": the row before them leaves the others on purpose."""
    last = blocks[-1] if blocks else None
    if isinstance(last, Row) and last.rerun is None and _ON_THESE.search(words) is not None:
        blocks[-1] = replace(last, items=(*last.items, Leave(None, last.span)))


_ON_THESE = expression(r"\b(?:on|over) (?:these|those) (?:same |last |first )?(?:\d|[a-z]+ )?", re.IGNORECASE)
"""Words of rows that are worked on some stitches only."""


_WORKS = expression(
    r"(?:[^\n:.;]{0,40}[:.]\s*)?(?:\*|\(|\[|ch\s?\d|turn\b|\d+\s?(?:ch|sc|hdc|dc|htr|tr)\b|(?:sc|hdc|dc|htr|tr)\b)"
    r".*?(?:\bin(?:to)?\s+(?:each|every|ea)\b[^.]{0,30}?\b(?:sts?|stitch|sc|hdc|dc|tr|htr|ch|sps?)\b|\brep(?:eat)?\s+from\s+\*)",
    re.IGNORECASE | re.DOTALL,
)
"""A sentence that begins as a row does, perhaps behind a name, and works all along what stands."""


def unread_work(block: Block, source: Source, context: Context) -> Row | None:
    """The row that words between the rows tell, when they work stitches and no label of theirs is known.

    It is told word for word and never claimed, so that nothing behind it is taken for sure either.
    """
    span = Span(block.start, block.end)
    words = source.words(span)
    if block.part == "Finishing" or _WORKS.match(words) is None:
        return None
    note_unread(context, source, span, "Next row", block.part)
    return Row("row", (), "Next row", span, (Prose(words, span),), (), span, block.part, unread=True)
