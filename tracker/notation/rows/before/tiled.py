"""Rows of a corner-to-corner piece told by the one before: "Rows 10-13: continue to decrease 1 tile every row."

The words of such a row and the number of tiles before it come in; a row of so many tiles for each number comes out, or
None where the words say no such thing.
"""

from collections.abc import Sequence

from tracker.notation.page.block import Block
from tracker.notation.page.labelled.row_names import called
from tracker.notation.pattern import Row
from tracker.notation.phrase.cursor import Context, Cursor
from tracker.notation.phrase.row.sentences import read_row
from tracker.notation.scan import T, Token
from tracker.notation.tree import Where, Which, Work
from tracker.problems import Span
from tracker.records import replace

_ON = frozenset("continue cont keep continuing".split())
_WORKED = frozenset("ch dc hdc tr sc htr sl ss slip next".split())
"""Words of a row that tells its stitches."""


def tiles_of(row: object) -> int | None:
    """How many tiles a row tells that it makes, by its count or by its words; None where it tells none."""
    if not isinstance(row, Row):
        return None
    told = [number for stated in row.stated for name, number in stated.counts if name == "tile"]
    works = [item.count for item in row.items if isinstance(item, Work) and item.colour]
    return told[-1] if told else sum(works) or None


def tiles_told(row: Row, before: int, tokens: list[Token], context: Context) -> list[Row] | None:
    """The rows that such words tell, `row` without its items being the range; None for other words."""
    tile = next((s.name for s in context.specials.values() if s.base == "tile"), None)
    step = _change_told(tokens) if tile is not None else None
    if tile is None or step is None:
        return None
    faults = len(context.problems)
    stated = tuple(read_row(Cursor(tokens, context)).stated)
    del context.problems[faults:]
    return _tiled_on(replace(row, stated=stated), before, step, tile)


def _change_told(tokens: Sequence[Token]) -> int | None:
    """How many tiles more each row has: -1 for one that decreases, 0 for both at once; None for other words."""
    words = [token.text for token in tokens if token.kind in (T.WORD, T.NUMBER)]
    begins = next((k for k, word in enumerate(words[:8]) if word in _ON), None)
    if begins is None or _WORKED & set(words):
        return None
    more = any(word.startswith("inc") for word in words[begins:])
    fewer = any(word.startswith("dec") for word in words[begins:])
    return int(more) - int(fewer) if more or fewer else None


def _tiled_on(row: Row, before: int, step: int, tile: str) -> list[Row] | None:
    """The rows of a range, each with so many tiles more than the one before; None where that comes to nothing."""
    if not row.numbers or len(row.numbers) > 200 or before + step * len(row.numbers) < 1:
        return None
    out: list[Row] = []
    where = Where(Which.STRAIGHT, row.span)
    for number in row.numbers:
        before += step
        last = number == row.numbers[-1]
        items = (Work(tile, before, where, row.span),)
        out.append(
            replace(
                row,
                numbers=(number,),
                items=items,
                stated=row.stated if last else (),
                rerun=None,
                unread=False,
            )
        )
    return out


def tiles_in(
    block: Block, numbers: Sequence[int], kind: str, before: int | None, tokens: list[Token], context: Context
) -> list[Row] | None:
    """ "Rows 8-12: continue to increase. (12 tiles)": the rows that takes; None for other words.

    `before`: how many tiles the row before has; None where no row has said so.
    """
    if before is None or not numbers or block.label is None:
        return None
    span, label = Span(block.start, block.end), block.label
    row = Row(
        kind, numbers, called(kind, numbers), block.label_span, (), (), span, block.part, label.side,
        sizes=block.sizes,
    )  # fmt: skip
    return tiles_told(row, before, tokens, context)
