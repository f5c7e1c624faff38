"""Rows that shape beside what goes on as set: "2 sc in first st, work in pattern to last st, 2 sc in last st".

What is planned so far and a row come in; the row comes out with the stitches of the row whose turn it is in place of
those words, and as it was where nobody can tell which stitches they are.
"""

from collections.abc import Sequence

from tracker.fabric.plan.going_on import going_on, is_even, plain_row
from tracker.fabric.plan.ledger import Ledger
from tracker.fabric.stated import has_chains
from tracker.notation.moved import as_told
from tracker.notation.pattern import Row
from tracker.notation.rows.before.changing import ends_unread
from tracker.notation.tree import (
    ANY,
    Except,
    Group,
    Item,
    Kind,
    Prose,
    Repeat,
    Skip,
    Stop,
    Where,
    Which,
    Work,
)
from tracker.problems import Span
from tracker.records import replace
from tracker.trade.stitches import STITCHES, parts_of


def in_pattern(ledger: Ledger, row: Row) -> Row:
    """The row with its "work in pattern" worked out."""
    told = [item for item in as_told(row.items) if isinstance(item, Prose)]
    if len(told) != 1 or told[0].as_set is None or not row.unread or len(row.numbers) > 1:
        return row
    if row.rerun is not None or row.again or any(map(ends_unread, row.items)):
        return row
    if not ledger.done or has_chains(ledger.done[-1].row.items):
        # among spaces "in each st" says too little
        return row
    source = next(iter(going_on(ledger, row, "pattern")), None)
    items = source.row.items if source is not None and not source.row.unread else ()
    if any(map(is_even, items)) and plain_row(ledger.done[-1].row):
        # one stitch throughout, and no rows said to be the pattern
        items = ledger.done[-1].row.items
    each = _along(as_told(items), told[0].as_set, told[0].span)
    if each is None:
        return row
    return replace(row, items=tuple(each if item is told[0] else item for item in row.items), unread=False)


def _along(items: Sequence[Item], stop: Stop, span: Span) -> Work | None:
    """What a row works into each stitch, as far as a stop: one stitch, or one for each kind of stitch below.

    None for a row that tells its stitches by their places, or makes spaces.
    """
    works = [item for item in items if isinstance(item, (Work, Group, Repeat, Skip))]
    only = works[0] if len(works) == 1 else None
    if isinstance(only, Repeat) and only.ending is None:
        turns = [item for item in only.items if isinstance(item, Work)]
        if len(turns) < 2 or len(turns) != len(only.items) or not all(map(_into_its_own, turns)):
            return None
        below = [turn.where.kinds[0] for turn in turns]
        if len({kind.name for kind in below}) != len(below):
            return None
        where = Where(Which.EACH, span, 0, (Kind(ANY),), stop=stop)
        first, *others = turns
        excepting = tuple(
            Except((kind,), (Work(turn.stitch, 1, Where(Which.STRAIGHT, span), span),))
            for turn, kind in zip(others, below[1:], strict=True)
        )
        return Work(first.stitch, 1, where, span, excepting)
    plain = [item for item in works if isinstance(item, Work)]
    alike = len({(item.stitch, item.where.loop, item.count) for item in plain}) == 1 and len(plain) == len(
        works
    )
    each = next((item for item in plain if item.where.which is Which.EACH), None)
    if not alike or each is None or each.count != 1 or each.excepting or each.where.around:
        return None
    if each.stitch not in STITCHES or parts_of(each.stitch)[2] > 1:
        return None
    return Work(
        each.stitch, 1, Where(Which.EACH, span, 0, (Kind(ANY),), stop=stop, loop=each.where.loop), span
    )


def _into_its_own(turn: Work) -> bool:
    """True for "sc in next dc": one plain stitch into the next of a kind."""
    where = turn.where
    return (
        turn.count == 1
        and turn.stitch in STITCHES
        and where.which is Which.NEXT
        and where.many == 1
        and len(where.kinds) == 1
        and where.kinds[0].name in STITCHES
        and not (where.around or where.loop or turn.excepting)
    )
