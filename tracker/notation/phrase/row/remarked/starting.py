"""Where along a row its stitches begin, told beside them: "sc in each st across, starting in the 3rd st"."""

from tracker.notation.phrase.cursor import STOPS, Cursor
from tracker.notation.scan import T
from tracker.notation.tree import ANY, Chain, Group, Item, Kind, Repeat, Say, Skip, Stop, Where, Which, Work
from tracker.trade.numbers import ORDINAL_WORDS

STARTS = frozenset("starting beginning beg from".split())
"""What such words begin with."""


def starts_at(c: Cursor, items: list[Item]) -> bool:
    """Takes "beginning with the 3rd st" of a row: the two before it are passed over.

    The one that a chain of the row stands on is passed over anyhow. A round may come back to those before.
    """
    start = c.i
    if (c.context.row or "").lower().startswith(("rnd", "round")):
        return False
    c.i += 1
    placed = bool(c.take_any("in", "with", "from", "at")) or c.text(-1) == "from"
    c.take("the")
    nth = c.token().value if c.kind() is T.ORDINAL else ORDINAL_WORDS.get(c.text(), 0)
    c.i += 1
    c.take_any("st", "stitch")
    works = [item for item in items if isinstance(item, (Work, Group, Repeat))]
    last = items[-1] if items else None
    goes_on = isinstance(last, Work) and last.where.which is Which.EACH and last.where.stop in (None, Stop())
    ahead = not works and c.kind() is T.COMMA
    stops = c.kind() in STOPS or c.kind() is T.OPEN
    if not (placed and 1 < nth < 100 and stops and (ahead or len(works) == 1 and goes_on)):
        c.i = start
        return False
    span = c.span_from(start)
    if nth == 2 and any(isinstance(item, Chain) and item.count > 1 for item in items):
        items.append(Say("remark", "", span))
        return True
    passed = Skip(Where(Which.FIRST, span, nth - 1, (Kind(ANY),)), span)
    items.insert(len(items) if ahead else len(items) - 1, passed)
    return True
