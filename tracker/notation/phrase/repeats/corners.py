"""Corners told by name: "beg corner [ch 3, dc, ch 1, 2 dc], … corner [2 dc, ch 1, 2 dc] in next sp", then "corner".

The cursor stands on the name; a group comes out, or None with the cursor where it was. And corners worked as the first
one was: "do the same in each of the other three corners".
"""

from tracker.notation.phrase.cursor import DEPTH, STOPS, Cursor
from tracker.notation.phrase.places.nouns import PREPOSITIONS, kind_here
from tracker.notation.phrase.places.where import where_here
from tracker.notation.phrase.row.counts import count_in
from tracker.notation.phrase.row.sentences import bracket_items
from tracker.notation.phrase.works.placing import grouped
from tracker.notation.scan import T
from tracker.notation.tree import (
    Chain,
    Group,
    Item,
    Kind,
    Repeat,
    Say,
    Stop,
    Travel,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.problems import Span
from tracker.trade.stitches import height_of


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


_OTHERS = ("other", "remaining", "rem", "next", "last")


def corners_again(c: Cursor, items: list[Item]) -> bool:
    """ "Do the same in each of the other three corners", "repeat for the remaining 3 corners": as the corner just told.

    Only where all that was worked since is that corner, in one place, and the chains behind it.
    """
    start = c.i
    c.take_any("and", "then")
    verb = c.take_any("do", "work", "make", "repeat", "rep")
    same = c.take("the", "same") or c.take_any("this", "that", "it", "likewise")
    c.take_any("thing", "again")
    if not verb or not (same or verb.startswith("rep")) or not c.take_any("in", "into", "for", "at", "on"):
        c.i = start
        return False
    c.take_any("each", "all", "every") and c.take("of")
    c.take("the")
    other = c.take_any(*_OTHERS)
    many = c.value()
    c.i += many is not None
    other = other or c.take_any(*_OTHERS)
    told = bool(other) and kind_here(c) in (Kind("corner"), Kind("corner sp"))
    corner = _corner_told(items) if told and c.kind() in STOPS else None
    if corner is None or many is not None and not 1 < many < 12:
        c.i = start
        return False
    span = c.span_from(start)
    stop = Stop() if many is None else None
    items.append(Repeat(corner, Span(corner[0].span.start, span.end), many, stop=stop, told_at=span))
    return True


def _corner_told(items: list[Item]) -> tuple[Item, ...] | None:
    """The corner that a round began with, as those that follow are worked, with the chains behind; None for others."""
    worked = [item for item in items if not isinstance(item, (Say, Turning))]
    at = next((k for k, item in enumerate(worked) if isinstance(item, Group)), None)
    if at is None or not all(isinstance(item, Chain) for item in worked[at + 1 :]):
        return None
    group, before = worked[at], worked[at - 1] if at else None
    assert isinstance(group, Group)
    if any(not isinstance(i, (Chain, Travel)) and not _slips(i) for i in worked[:at]):
        # a side is worked too
        return None
    if group.where.many != 1 or group.where.which not in (Which.SAME, Which.NEXT, Which.FIRST):
        return None
    inside = list(group.items)
    if isinstance(before, Chain) and group.where.which is Which.SAME:
        inside.insert(0, before)
    if not all(isinstance(item, (Chain, Work)) for item in inside):
        return None
    if isinstance(rose := inside[0], Chain):
        like = next((item.stitch for item in inside if isinstance(item, Work)), "dc")
        first = Work(like, 1, Where(Which.STRAIGHT, rose.span), rose.span)
        inside[:1] = [first] if rose.count == height_of(like) > 1 else []
        if rose.count not in (1, height_of(like)):
            return None
    place = Where(Which.NEXT, group.where.span, 1, (Kind("corner sp"),))
    return (Group(tuple(inside), place, group.span), *worked[at + 1 :])


def _slips(item: Item) -> bool:
    """True for slip stitches, that lead to where a round begins."""
    return isinstance(item, Work) and item.stitch == "slst"


def _here(item: Item) -> bool:
    """True for what names no place of its own, or the same one."""
    return (
        isinstance(item, Chain) or isinstance(item, Work) and item.where.which in (Which.STRAIGHT, Which.SAME)
    )
