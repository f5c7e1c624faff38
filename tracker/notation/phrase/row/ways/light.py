"""Words that say nothing of the stitches by themselves: passed over, or told as a remark."""

from tracker.notation.phrase.chatty.hook import hook_put
from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.pieces import piece_here
from tracker.notation.phrase.row.counts import count_ahead
from tracker.notation.phrase.row.reading import Reading
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import ANY, Item, Kind, Say, Stop, Where, Which, Work
from tracker.records import replace

LIGHT = frozenset(
    "and then now & loosely tightly firmly also next: again more that so finally lastly afterwards plus".split()
)
"""Words that are passed over wherever a phrase begins with them."""
MAKES = frozenset("do put throw pop add crochet".split())
"""What is done with a stitch: "put a dc in the next st"."""
BEGINS = frozenset("start begin starting beginning commence".split())
"""What comes before a row's first stitches: "start with 6 sc in a magic ring"."""
EDGES = frozenset("edge border selvedge selvage".split())
"""What a stitch at an end of a row may be called: "edge sc"."""


def name_of_edge(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "Edge sc": the stitch is read as any other."""
    edge = stitch_here(c, 1)
    if edge is None or edge.special is not None or stitch_here(c):
        return False
    c.i += 1
    return True


def passed_over(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "And", "put a" and "start with", where a stitch follows."""
    word, value = c.text(), c.value(1)
    one = c.text(1) in ("a", "an") or value is not None
    if word in BEGINS and c.text(1) == "with" and c.value(2) is not None and stitch_here(c, 3) is not None:
        c.i += 2
        return True
    if (
        word in LIGHT
        or word in MAKES
        and one
        and stitch_here(c, 2) is not None
        or word in ("do", "crochet", "start", "begin")
        and value is not None
    ):
        c.i += 1
        return True
    return False


def you_have(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "You now have 24 sc"."""
    return items is reading.items and "have" in (c.text(1), c.text(2)) and count_ahead(c, reading)


def piece_named(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "… to the left leg": another piece that the round goes along, or the one in hand."""
    led = -2 if c.text(-1) in ("then", "and", "now") else -1
    alone = c.kind(led) in (T.COMMA, T.SEMICOLON) and {"other", "opposite"} & {c.text(1), c.text(2)}
    if not items or alone or not (length := piece_here(c)):
        return False
    start = c.i
    named = [c.text(n) for n in range(1, length) if c.text(n) != "the"]
    c.i += length
    in_hand = named == (c.context.part or "").lower().split()
    if c.text(start - c.i) in ("around", "round", "across", "along") and _unnumbered(c, items[-1], start):
        # "sc around first leg": one in each of its stitches
        assert isinstance(items[-1], Work)
        whole = Where(Which.EACH, items[-1].where.span, 0, (Kind(ANY),), stop=Stop() if in_hand else None)
        items[-1] = replace(items[-1], where=whole)
    items.append(Say("remark" if in_hand else "piece", "", c.span_from(start)))
    return True


def _unnumbered(c: Cursor, item: Item, end: int) -> bool:
    """True for stitches that end at a token, and of which no number is told."""
    if not isinstance(item, Work) or item.where.which is not Which.STRAIGHT or item.count != 1:
        return False
    told = [token for token in c.tokens[max(0, end - 6) : end] if token.start >= item.span.start]
    return bool(told) and item.span.end == told[-1].end and all(token.kind is not T.NUMBER for token in told)


def hook_is_put(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "Insert hook in next st and pull up a loop"."""
    put = hook_put(c) if any(c.text(n) == "hook" for n in (1, 2, 3, 4)) else None
    if put is not None:
        items.extend(put)
    return put is not None
