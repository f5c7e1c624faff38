"""Stitches that share a place with the one before: "sc3tog placing first leg in same st, the others in next 2 sts".

The cursor stands behind the stitch; it comes out with the place of its legs, or as it was.
"""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.places.nouns import kind_here, number_here
from tracker.notation.scan import T
from tracker.notation.tree import ANY, SHARED, Item, Kind, Where, Which, Work
from tracker.records import replace

_FURTHEST = 24
"""Words that are looked at for "and the others in next 2 sts"."""


def with_legs(c: Cursor, items: list[Item]) -> None:
    """Gives the last of the items the places that its legs are said to go into."""
    last = items[-1] if items else None
    if (
        not isinstance(last, Work)
        or not last.stitch.endswith("tog")
        or last.where.which is not Which.STRAIGHT
    ):
        return
    start = c.i
    if c.kind() is T.COMMA:
        c.i += 1
    if c.take_any("placing", "working", "with", "making", "inserting"):
        c.take("the")
        if c.take("first") and c.take_any("leg", "legs") and c.take_any("in", "into"):
            c.take("the")
            if c.take("same") and (many := _others(c)) is not None:
                where = Where(Which.NEXT, c.span_from(start), many, (Kind(ANY),), nth=SHARED)
                items[-1] = replace(last, where=where)
                return
    c.i = start


def _others(c: Cursor) -> int | None:
    """Up to "and the others in next 2 sts": how many places those take."""
    for _ in range(_FURTHEST):
        if c.text() in ("and", "then", "&") and c.text(1) in ("the", "other", "others", "remaining"):
            c.i += 1
            while c.take_any("the", "other", "others", "remaining", "two", "three", "2", "3", "leg", "legs"):
                pass
            if not c.take_any("in", "into"):
                return None
            c.take("the")
            c.take("next")
            many = number_here(c) or 1
            kind_here(c)
            return many
        if c.kind() not in (T.WORD, T.NUMBER):
            return None
        c.i += 1
    return None
