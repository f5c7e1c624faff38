"""Rings, and what goes into them: "magic ring", "MR 6", "in ring work 11 dc"."""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.stitches import base_of, stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import Item, Join, Say, Where, Which, Work

_BEHIND_WORK = (T.END, T.OPEN, T.PERIOD, T.COMMA, T.SEMICOLON, T.EQUALS, T.DASH)
"""What follows stitches into a ring that were told without a comma."""


def _ring_worked(c: Cursor) -> bool:
    """True for "ring work 11 dc", "ring: 6 sc": stitches follow, with no chain before them."""
    n = 2 if c.text() == "the" else 1
    if c.text(n - 1) not in ("ring", "circle", "loop"):
        return False
    while c.text(n) in ("work", "make", "crochet") or c.kind(n) in (T.COMMA, T.COLON):
        n += 1
    n += c.value(n) is not None
    return stitch_here(c, n) is not None


def _no_ring(c: Cursor, start: int) -> bool:
    """True for "in loop just made", a space, and for "sc in next 6 sc, make a loop"."""
    return c.text(1) == "just" or bool({"sc", "hdc", "dc", "tr"} & {t.text for t in c.tokens[:start]})


def ring_here(c: Cursor) -> list[Item] | None:
    """ "magic ring", "make a magic circle", "MR"."""
    start = c.i
    c.take_any("make", "into", "in", "begin", "start", "with")
    c.take_any("with", "a", "an")
    c.take_any("a", "an")
    found = False
    if c.take_any("magic", "adjustable", "slip", "sliding"):
        found = bool(c.take_any("ring", "circle", "loop", "knot"))
        if found and c.text(-1) == "knot":
            return [Say("remark", "", c.span_from(start))]
    elif (
        c.tokens[start].text in ("in", "into")
        and _ring_worked(c)
        or c.text() == "loop"
        and _no_ring(c, start)
    ):
        # "ch 3, in ring work 11 dc": the ring that is there, and what goes into it
        found = False
    elif c.text() in ("mr", "ring", "loop") or (
        c.text() == "mc" and c.kind(1) in (T.COMMA, T.COLON, T.PERIOD, T.END)
    ):
        found = c.step()
    if found:
        span = c.span_from(start)
        made: list[Item] = [Join(Where(Which.RING, span), span, "magic")]
        if c.kind() is T.NUMBER and c.kind(1) in (T.END, T.OPEN, T.PERIOD, T.COMMA, T.DASH):
            # "MR 6": six of the plain stitch
            at = c.i
            c.i += 1
            number = c.tokens[at].value
            made.append(Work(c.context.base, number, Where(Which.RING, span), c.span_from(at)))
            return made
        ahead = 1 if c.text() == "with" or c.kind() is T.COLON else 0
        many = c.value(ahead)
        named = stitch_here(c, ahead + 1) if many is not None else None
        behind = ahead + 1 + (named.tokens if named is not None else 0)
        # "… with six sc in it", "… in the same place"
        if c.text(behind) in ("in", "into") and c.text(behind + 1) in ("it", "same"):
            behind += 2 + (c.text(behind + 2) == "place")
        if (
            many is not None
            and named is not None
            and named.special is None
            and c.kind(behind) in _BEHIND_WORK
        ):
            # "MR 6 sc (6)": what stands before the bracket is work, not a count
            at = c.i + ahead
            c.i += behind
            c.context.base = base_of(named.name) or c.context.base
            made.append(Work(named.name, many, Where(Which.RING, span), c.span_from(at)))
        return made
    c.i = start
    return None
