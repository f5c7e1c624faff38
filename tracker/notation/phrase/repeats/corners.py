"""Corners told by name: "beg corner [ch 3, dc, ch 1, 2 dc], … corner [2 dc, ch 1, 2 dc] in next sp", then "corner".

The cursor stands on the name; a group comes out, or None with the cursor where it was.
"""

from tracker.notation.phrase.cursor import DEPTH, STOPS, Cursor
from tracker.notation.phrase.places.nouns import PREPOSITIONS
from tracker.notation.phrase.places.where import where_here
from tracker.notation.phrase.row.counts import count_in
from tracker.notation.phrase.row.sentences import bracket_items
from tracker.notation.phrase.works.placing import grouped
from tracker.notation.scan import T
from tracker.notation.tree import Chain, Group, Item, Kind, Where, Which, Work


def corner_here(c: Cursor) -> list[Item] | None:
    """A corner with what it is made of behind it, or one that an earlier bracket told."""
    start = c.i
    if c.text() not in ("beg", "beginning", "first", "corner") or "corner" not in (c.text(), c.text(1)):
        return None
    begins = c.text() != "corner"
    c.i += 2 if begins else 1
    corners = c.context.corners
    body: tuple[Item, ...] = ()
    if c.kind() is T.COLON and c.kind(1) is T.OPEN:
        c.i += 1
    close = c.partners.get(c.i) if c.kind() is T.OPEN else None
    if close is not None and c.depth < DEPTH and count_in(c, close) is None:
        body = tuple(
            inside
            for item in bracket_items(c)
            for inside in (
                item.items if isinstance(item, Group) and item.where.which is Which.SAME else (item,)
            )
        )
        if len(body) < 2 or not all(isinstance(item, (Chain, Work)) and _here(item) for item in body):
            body = ()
        else:
            corners[begins] = body
    elif c.kind() in STOPS or c.text() in ("in", "into"):
        body = corners.get(begins, ())
    if not body:
        c.i = start
        return None
    span = c.span_from(start)
    if c.text() in PREPOSITIONS and (where := where_here(c)) is not None:
        return grouped(body, where, c, start)
    if isinstance(body[0], Chain) and begins:
        return [Group(body, Where(Which.SAME, span), span)]
    return [Group(body, Where(Which.NEXT, span, 1, (Kind("corner sp"),)), span)]


def _here(item: Item) -> bool:
    """True for what names no place of its own, or the same one."""
    return (
        isinstance(item, Chain) or isinstance(item, Work) and item.where.which in (Which.STRAIGHT, Which.SAME)
    )
