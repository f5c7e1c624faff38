"""A place that is named before what is worked in it: "in next ch-3 sp work (sc, hdc, dc)"."""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.deeds.deed import deed_here
from tracker.notation.phrase.places.bare import bare_place
from tracker.notation.phrase.places.loops import loop_words
from tracker.notation.phrase.places.nouns import CHAINS, GAP_WORDS, PREPOSITIONS
from tracker.notation.phrase.places.where import where_here
from tracker.notation.phrase.row.marks.behind import after_bracket
from tracker.notation.phrase.row.remarked.remarks import beside
from tracker.notation.phrase.row.sentences import bracket_items
from tracker.notation.phrase.stitches import together
from tracker.notation.phrase.works.placing import grouped, unplaced
from tracker.notation.phrase.works.work import work_here
from tracker.notation.scan import T
from tracker.notation.tree import (
    ANY,
    SPACE,
    Chain,
    Edge,
    Group,
    Item,
    Prose,
    Repeat,
    Say,
    Stop,
    Where,
    Which,
    Work,
)
from tracker.records import replace

_DONE = ("work", "make", "working", "do", "put", "place", "crochet")
"""What may stand between the place and what is worked there."""


def place_first(c: Cursor) -> list[Item] | None:
    """ "In next ch-3 sp work (sc, hdc, dc)", "next 7 sts: sc", "in blo, hdc in each st"."""
    start = c.i
    c.take_any("work", "working", "make", "using")
    i = c.i
    loop = loop_words(c)
    if loop and (looped := _works_in(c, loop)) is not None:
        return looped
    if loop and (
        c.kind() in (T.COMMA, T.COLON, T.SEMICOLON, T.PERIOD, T.END, T.DASH)
        or c.kind() is T.OPEN  # "BLO (sc, inc) × 3"
        and c.i in c.partners
        and c.text(1) not in ("back", "front", "the")
        or c.value() is not None  # "BLO 6x (1 sc, inc)"
        and (c.text(1) == "x" or c.kind(1) is T.TIMES)
        and c.kind(2) is T.OPEN
        or c.text() in ("throughout", "for", "this", "of", "unless", "from")
    ):
        named = c.text() == "of" and c.text(1) in ("row", "rnd", "round", "r")
        row = c.value(2) if named else None
        if c.text() == "of" and c.kind(1) is T.ORDINAL and c.text(2) in ("row", "rnd", "round"):
            row = c.token(1).value
        while c.kind() is T.WORD or row is not None and c.kind() in (T.NUMBER, T.ORDINAL):
            c.i += 1
        told: list[Item] = [Say("loop", loop, c.span_from(start))]
        return [*told, Edge("free", c.span_from(start), row)] if row is not None else told
    if loop and (found := work_here(c)) is not None:
        # "blo 12 sc"
        return [
            replace(item, where=replace(item.where, loop=item.where.loop or loop))
            if isinstance(item, Work)
            else item
            for item in found
        ]
    c.i = i
    if c.kind() is T.OPEN and c.i in c.partners:
        placed = after_bracket(c, bracket_items(c), start)
        if placed is None:
            c.i = start
        return placed
    gap = c.text() in GAP_WORDS
    where = where_here(c) if c.text() in PREPOSITIONS or gap else bare_place(c)
    if where is None or gap and c.text(int(c.kind() is T.COMMA)) not in _DONE:
        c.i = start
        return None
    if c.kind() in (T.COMMA, T.COLON) or c.kind() is T.DASH and c.kind(1) is T.OPEN:
        c.i += 1
    done = c.take_any(*_DONE)
    if done:
        if c.text(n := int(c.text() in ("a", "the"))) == "corner" and c.kind(n + 1) is T.COLON:
            # "in next sp make a corner: 3 dc, ch 2, 3 dc"
            c.i += n + 1
        c.i += c.kind() is T.COLON
    body: list[Item] = []
    if c.kind() is T.OPEN and c.i in c.partners:
        body = bracket_items(c)
        if not any(isinstance(item, Prose) for item in body):
            times = c.times_here()
            if times is not None:
                c.i += times[1]
                body = [Repeat(tuple(body), c.span_from(start), times[0])]
            if times is None or not done or where[-1].many > 1:
                return grouped(body, where, c, start)
        else:
            c.i = start
            return None
    else:
        found = work_here(c)
        if found is None or not all(unplaced(item) for item in found):
            c.i = start
            return None
        body.extend(found)
    # "in each of the next 5 sts work 1 sc, …": what follows is worked behind them
    last = where[0].many > 1 and not any(kind.name == SPACE for kind in where[0].kinds)
    ends: list[int] = []
    while not last and (c.kind() in (T.COMMA, T.OPEN) or c.text() == "and"):
        # "in next st work dc, ch 1, dc": goes on while stitches without a place follow, to "… and dc"
        j = c.i
        said = _said_beside(c)
        if c.kind() is T.OPEN and isinstance(body[-1], Work) and body[-1].stitch == "picot":
            # "1 picot (ch 3, sl st in 3rd ch from hook), 4 sc"
            c.i = c.partners.get(c.i, c.i) + 1
            continue
        if c.kind() is T.OPEN:
            break
        c.i += 1
        last = c.text(-1) == "and" or bool(c.take("and"))
        c.take_any("work", "make")
        if c.kind() is T.OPEN and (again := _again_there(c)) is not None:
            # "in next sp make dc, (ch 1, dc) 4 times"
            body.append(again)
            ends.append(j)
            continue
        chains = c.text() in CHAINS or c.value() is not None and c.text(1) in CHAINS
        more = deed_here(c) if chains else work_here(c)
        if more is not None and len(more) == 1 and (ended := _to_the_end(more[0], where)) is not None:
            # "in each ch-3 sp work sc, hdc, 3 dc, hdc, sc around"
            body.append(ended)
            where = (*where[:-1], replace(where[-1], stop=Stop()))
            break
        if (
            more is None
            or not all(isinstance(item, Chain) or unplaced(item) or _picot(body[-1], item) for item in more)
            or any(isinstance(item, Work) and _gathers(c, item) for item in more)
        ):
            c.i = j
            break
        body.extend([*said, *(_in_the_made(item) for item in more)])
        ends.append(j)
    while isinstance(body[-1], Chain) and ends:
        # "in next st work 1 dc, ch 2, sk 2": a chain that no stitch of the place follows leads away from it
        body.pop()
        c.i = ends.pop()
    only = body[0]
    if len(body) == 1 and isinstance(only, Work):
        span = c.span_from(start)
        return [replace(only, where=replace(w, loop=w.loop or only.where.loop), span=span) for w in where]
    return grouped(body, where, c, start)


def _picot(before: Item, item: Item) -> bool:
    """True for a slip stitch that closes the chains before it: "4 sc, ch 4, sl st in 4th ch from hook, 4 sc"."""
    if not (isinstance(item, Work) and item.stitch == "slst" and isinstance(before, Chain)):
        return False
    where = item.where
    made = where.which is Which.MADE or where.which is Which.LAST and bool(where.kinds)
    closes = made or where.which is Which.FROM_HOOK and where.nth in (0, before.count)
    return closes and item.count == where.many == 1


def _in_the_made(item: Item) -> Item:
    """ "4 sc, ch 4, sl st in last sc": in the one just made there, and not in the row's last."""
    if isinstance(item, Work) and item.stitch == "slst" and item.where.which is Which.LAST:
        return replace(item, where=replace(item.where, which=Which.MADE))
    return item


def _said_beside(c: Cursor) -> list[Item]:
    """Remarks before the next stitch of a list, in brackets or between commas; the cursor is left on a comma."""
    said: list[Item] = []
    while True:
        start = c.i
        if c.kind() is T.COMMA:
            c.i += 1
        remark = beside(c)
        if remark is None:
            c.i = start
            return said
        said.append(remark)


def _again_there(c: Cursor) -> Repeat | None:
    """A bracket of stitches and chains that name no place, worked so many times; None, nothing taken, for another.

    Without a number it is worked once: "sl st, ch 1, (sc, hdc, sc), sl st"; one that begins with a number may count.
    """
    start = c.i
    counts = c.kind(1) is T.NUMBER
    items = bracket_items(c) if c.i in c.partners else []
    times = c.times_here() if items else None
    if times is None and not counts and len(items) > 2 and c.kind() is T.COMMA:
        times = 1, 0
    if (
        times is None
        or not all(isinstance(item, Chain) or unplaced(item) for item in items)
        or not any(isinstance(item, Work) for item in items)
        or any(isinstance(item, Work) and _gathers(c, item) for item in items)
    ):
        c.i = start
        return None
    c.i += times[1]
    if c.text() in PREPOSITIONS:
        c.i = start
        return None
    return Repeat(tuple(items), c.span_from(start), times[0])


def _to_the_end(item: Item, where: tuple[Where, ...]) -> Work | None:
    """The last stitch of a list, with which "around" was read that tells of the places; None for any other."""
    if (
        isinstance(item, Work)
        and item.where.which is Which.EACH
        and item.where.stop == Stop()
        and [kind.name for kind in item.where.kinds] == [ANY]
        and item.where.span.end <= item.span.end
        and where[-1].which is Which.EACH
        and where[-1].stop is None
    ):
        return replace(item, where=Where(Which.STRAIGHT, item.where.span, loop=item.where.loop))
    return None


def _gathers(c: Cursor, item: Work) -> bool:
    """True for a stitch that takes several of the row below: it does not go into one place with others."""
    special = next((one for one in c.context.specials.values() if one.name == item.stitch), None)
    if special is not None:
        return special.closes > 1 or not special.one_place
    return together(item.stitch) > 1


def _works_in(c: Cursor, loop: str) -> list[Item] | None:
    """Behind a loop, the stitches worked into it: "BLO 24 sc", "FLO: 2 sc"; None, and nothing taken, for no count."""
    start = c.i
    if c.kind() is T.COLON:
        c.i += 1
    if c.value() is None or (found := work_here(c)) is None:
        c.i = start
        return None
    return [
        replace(item, where=replace(item.where, loop=item.where.loop or loop))
        if isinstance(item, (Work, Group))
        else item
        for item in found
    ]
