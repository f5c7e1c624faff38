"""Stitches told by where the hook is put: "pop your hook into the second chain from the hook and work a sc there".

The cursor stands on the first word; items come out, or None with the cursor where it was.
"""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.places.bare import bare_place
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.phrase.works.placing import unplaced
from tracker.notation.phrase.works.work import work_here
from tracker.notation.scan import T
from tracker.notation.tree import Item, Work
from tracker.records import replace

PUTS = frozenset("pop insert put place stick poke slide slip push go dip start begin".split())
"""What is done with a hook before a stitch is worked."""
_WORKS = ("work", "make", "do", "crochet", "put", "place", "add", "pop")


def hook_put(c: Cursor) -> list[Item] | None:
    """ "Insert your hook in the next st and make a dc there": that stitch, in that place."""
    start = c.i
    c.i += 1
    c.take("by")
    c.take_any("putting", "inserting", "popping")
    c.take_any("your", "the")
    if not (c.take("hook") and c.take_any("in", "into", "through", "under")):
        c.i = start
        return None
    where = bare_place(c)
    if c.kind() is T.COMMA:
        c.i += 1
    c.take("and")
    c.take("then")
    slipped = stitch_here(c)
    if where is not None and slipped is not None and slipped.name == "slst":
        # "insert hook in first sc and sl st to join"
        c.i += slipped.tokens
        if c.take("to"):
            c.take_any("join", "close")
        return [Work("slst", 1, place, c.span_from(start)) for place in where]
    if where is None or not c.take_any(*_WORKS):
        c.i = start
        return None
    c.take("your") and c.take("first")
    found = work_here(c)
    only = found[0] if found is not None and len(found) == 1 else None
    if not isinstance(only, Work) or not unplaced(only):
        c.i = start
        return None
    c.take_any("there", "here") or c.take("in", "there") or c.take("into", "it") or c.take("in", "it")
    span = c.span_from(start)
    return [
        replace(only, where=replace(place, loop=place.loop or only.where.loop), span=span) for place in where
    ]
