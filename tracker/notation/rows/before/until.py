"""Rows that go on as those before until so many stitches stand: "Continue to increase so until there are 72 sc".

The words and the rows before come in; the rows they tell come out, or None where they tell none.
"""

from collections.abc import Sequence

from tracker.notation.moved import as_told
from tracker.notation.page.block import Block
from tracker.notation.page.labelled.row_names import called
from tracker.notation.pattern import Row
from tracker.notation.rows.before.growing import (
    MORE,
    MOST,
    SO_SET,
    beside,
    changes_by,
    changes_count,
    fits_any_width,
    goes_on_shaping,
    grown,
)
from tracker.notation.scan import T, Token
from tracker.notation.tree import ANY, Item, Repeat, Rerun, Stated, Which, Work
from tracker.problems import Span
from tracker.trade.numbers import number_of
from tracker.trade.stitches import parts_of


def rows_until(tokens: Sequence[Token], before: Row, above: Row | None) -> tuple[int, int, int] | None:
    """ "Continue to increase 8 sc in each round until there are 72 sc": rows, step, and stitches in the end.

    None where the words say no such thing, or the count of the row before is not stated, or no whole number of rows
    leads from there.
    """
    words = _words(tokens)
    if before is above and (middle := _beside_middle(words, before)) is not None:
        return middle
    on = goes_on_shaping(words)
    if not on or "until" not in words:
        return None
    cut = words.index("until")
    target = next((n for word in words[cut:] if (n := number_of(word)) is not None), None)
    have = next(
        (s.counts[0][1] for s in before.stated if len(s.counts) == 1 and not (s.change or s.partial)), None
    )
    told_more = bool(MORE & set(words[:cut]))
    by = next((n for word in words[:cut] if not told_more and (n := number_of(word)) is not None), None)
    if by is None:
        by = next((changes_by(item, have or 0) for item in before.items if isinstance(item, Repeat)), None)
    if not target or not have or not by:
        return None
    rows, over = divmod(have - target if on == "dec" else target - have, by)
    return None if over or not 0 < rows <= MOST else (rows, -1 if on == "dec" else 1, target)


def grown_until(tokens: Sequence[Token], before: Row, block: Block, above: Row | None) -> list[Row] | None:
    """The rows that `rows_until` tells of, numbered on from the one before; None where it tells of none."""
    told = rows_until(tokens, before, above) if before.numbers and before.part == block.part else None
    if told is None:
        return None
    many, step, stitches = told
    span = Span(block.start, block.end)
    numbers = range(before.numbers[-1] + 1, before.numbers[-1] + 1 + many)
    name = called(before.kind, numbers)
    stated = (Stated(((ANY, stitches),), span),)
    return grown(
        Row(before.kind, numbers, name, block.label_span, (), stated, span, block.part), before, step
    )


def again_until(tokens: Sequence[Token], above: Row, block: Block) -> Row | None:
    """ "Rows go on so until 3 sts remain": the row above again, where it shapes and fits any width; else None."""
    words = _words(tokens)
    stitches = _target(words)
    if not stitches or not _goes_on_so(words) or above.part != block.part or above.rerun is not None:
        return None
    if not fits_any_width(above) or not changes_count(as_told(above.items)) or above.unread:
        return None
    span = Span(block.start, block.end)
    again = Rerun((), 1, None, False, "", span, stitches=stitches)
    return Row(above.kind, (), above.label, block.label_span, (), (), span, block.part, rerun=again)


def _words(tokens: Sequence[Token]) -> list[str]:
    return [token.text for token in tokens if token.kind in (T.WORD, T.NUMBER)]


_GO_ON = ("continue", "cont", "continuing", "keep", "go", "carry", "proceed", "rows", "work")
_STITCHES = frozenset("st sts stitch stitches sc dc hdc htr tr".split())


def _goes_on_so(words: Sequence[str]) -> bool:
    """True for "Continue in this way", "Rows go on so", "Keep going like this", behind "then" or not."""
    lead = [word for word in words[:3] if word not in ("then", "now", "and")][:1]
    return bool(lead) and lead[0] in _GO_ON and bool((SO_SET | {"so", "this", "like", "as"}) & set(words[:9]))


def _target(words: Sequence[str]) -> int:
    """How many stitches stand in the end: "until 3 sts remain", "until there are 72 sc"; 0 where nothing says so."""
    cut = next((k for k, word in enumerate(words) if word in ("until", "till")), len(words))
    for k in range(cut, min(cut + 7, len(words) - 1)):
        many = number_of(words[k])
        if many is not None and (words[k + 1] in _STITCHES or words[k + 1] in ("remain", "rem", "left")):
            return many
    return 0


def _beside_middle(words: Sequence[str], before: Row) -> tuple[int, int, int] | None:
    """The same of a row that shapes once between two runs of stitches; each run changes by half of what it does."""
    items = as_told(before.items)
    stitches = _target(words)
    have = next(
        (s.counts[0][1] for s in before.stated if len(s.counts) == 1 and not (s.change or s.partial)), 0
    )
    if not (stitches and have and _goes_on_so(words) and beside(items)):
        return None
    by = 2 * _step_of(words, before)
    if not by:
        return None
    rows, over = divmod(stitches - have, by)
    return None if over or not 0 < rows <= MOST else (rows, by // 2, stitches)


def middle_step(tokens: Sequence[Token], before: Row) -> int:
    """ "Continue in this way, working 2 sts fewer on every row" behind a row that shapes once between two runs.

    By how much each run changes; 0 where the words, or the row before, say no such thing.
    """
    words = _words(tokens)
    return _step_of(words, before) if _goes_on_so(words) and beside(as_told(before.items)) else 0


def _step_of(words: Sequence[str], before: Row) -> int:
    """Half of what a row changes; 0 where the words tell another number."""
    by = sum(map(_grows_by, as_told(before.items)))
    fewer = [k for k, word in enumerate(words) if word in _FEWER]
    told = next((n for k in fewer for word in words[max(0, k - 3) : k] if (n := number_of(word))), None)
    return 0 if by % 2 or told is not None and told != abs(by) else by // 2


_FEWER = frozenset("fewer less more".split())


def _grows_by(item: Item) -> int:
    """How many stitches more an item leaves than it uses."""
    if isinstance(item, Repeat):
        return sum(map(_grows_by, item.items)) * (item.times or 0)
    if not isinstance(item, Work):
        return 0
    gathers = parts_of(item.stitch)[2]
    if gathers > 1:
        return (1 - gathers) * item.count
    return item.count - 1 if item.where.which is not Which.STRAIGHT and item.where.many == 1 else 0
