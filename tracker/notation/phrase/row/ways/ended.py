"""Phrases about what was worked just before: what its chain stands for, how its last pass ends, where it all goes."""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.places.where import where_here
from tracker.notation.phrase.repeats.endings import ending_here
from tracker.notation.phrase.row.going_on import attach, chained, gather
from tracker.notation.phrase.row.reading import Reading
from tracker.notation.phrase.row.remarked.prose import names_edge, prose
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.phrase.told.turning import SAYS, STANDS, says_of, stood_for
from tracker.notation.phrase.works.placing import grouped
from tracker.notation.tree import Chain, Item, Repeat, Say, Turn

ENDINGS = frozenset(
    "ending end omitting omit working placing last with ends finishing leaving replacing replace stopping on".split()
)
"""Words that may tell what changes in a last pass."""
LANDS = frozenset(("work", "place", "the"))
"""Words that do where "last" stands behind them."""
TOLD_OF_CHAIN = STANDS | SAYS | {"not"}


def told_of_chain(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "Ch 3, counts as dc": behind a chain, what it stands for."""
    word = c.text()
    turned = len(items) > 1 and isinstance(items[-1], Turn)
    if bool(items) and isinstance(items[-2 if turned else -1], Chain):
        if word in STANDS and (stood := stood_for(c)) is not None:
            items.append(stood)
            return True
        if word in SAYS and (says := says_of(c)) is not None:
            items.append(says)
            return True
    if word == "not" and c.text(1) == "counting" and items and (says := says_of(c)):
        items.append(says)
        return True
    return False


def edge_of_filet(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "Inc 1 blk", and nobody tells how."""
    if not names_edge(c):
        return False
    prose(c, reading, items)
    return True


def last_pass(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "Ending with 3 dc in last sp", "omitting last ch 2"."""
    word = c.text()
    if word in LANDS and "last" not in (c.text(1), c.text(2) if c.text(1) == "the" else ""):
        return False
    if word in ENDINGS and c.context.specials:
        own = stitch_here(c)
        if own is not None and own.special is not None:
            return False
    ending = ending_here(c)
    if ending is not None:
        attach(items, ending)
    return ending is not None


def all_in_one(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "… all in next ch-3 sp"."""
    if c.text(1) not in ("in", "into"):
        return False
    start = c.i
    once = items[-1] if items else None
    c.i += 1
    where = where_here(c)
    if where is not None and isinstance(once, Repeat) and once.times == 1 and not once.star:
        items[-1:] = grouped(list(once.items), where, c, start)
        return True
    if (
        where is not None
        and where[0].nth == -1
        and where[0].kinds
        and where[0].kinds[0].name not in ("sp", "corner", "ch", "st")
    ):
        items.append(Say("remark", "", c.span_from(start)))
        return True
    if where is not None and gather(c, items, where):
        return True
    c.i = start
    return False


def chain_in_place(c: Cursor, reading: Reading, items: list[Item]) -> bool:
    """ "In …" behind a chain that was told first."""
    return c.text(-1) != "," and chained(c, items)
