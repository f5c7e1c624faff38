"""Stitches and their places: "2 sc in each of next 4 sts", "sc 7", "inc x 6", "dc across", "shell in next sc".

The cursor stands on a number or a stitch's name; items come out, or None with the cursor where it was.
"""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.pieces import piece_here, through_piece
from tracker.notation.phrase.places.bare import bare_place
from tracker.notation.phrase.places.nouns import PREPOSITIONS
from tracker.notation.phrase.places.stops import stop_here
from tracker.notation.phrase.places.where import where_here
from tracker.notation.phrase.stitches import Stitch, base_of, resolved, stitch_here, together
from tracker.notation.phrase.works.exceptions import excepting
from tracker.notation.phrase.works.placing import in_every_other, placed
from tracker.notation.phrase.works.spread import (
    along_an_edge,
    evenly_follows,
    evenly_here,
    every_so_many,
    spread_here,
)
from tracker.notation.phrase.works.wheres import wheres_here
from tracker.notation.scan import T
from tracker.notation.tree import ANY, LAYERS, SPACE, SPREAD, Item, Kind, Repeat, Stop, Where, Which, Work
from tracker.records import replace
from tracker.trade.numbers import ORDINAL_WORDS

_LED = frozenset("standing beg beginning chainless starting start stacked regular first plain".split())
"""What may stand before the name of a stitch."""
_AFTER_STITCH = frozenset("loosely tightly loosley evenly only again st sts stitch stitches".split())


def work_here(c: Cursor) -> list[Item] | None:
    """Stitches that stand here, with all the places the phrase names."""
    start = c.i
    if c.text() == "slip" and c.text(1) in ("marker", "markers", "m"):
        return None
    number = c.value()
    ahead = 0
    if number is not None and stitch_here(c) is not None:
        number = None
    if number is not None:
        ahead = 1
        if c.text(1) in ("more", "additional", "single" if not c.text(2).startswith("crochet") else "\0"):
            ahead = 2
        if c.kind(1) is T.HYPHEN and stitch_here(c, 2) is not None:
            # "5-dc shell", "4-dc group": a number glued to its stitch
            ahead = 2
        if (c.text(1) == "x" or c.kind(1) is T.TIMES) and stitch_here(c, 2) is not None:
            # "6 x inc"
            ahead = 2
    led = ahead
    while c.text(led) in _LED and stitch_here(c, led) is None:
        led += 1
    if led > ahead and stitch_here(c, led) is not None:
        ahead = led
    if (
        c.text(ahead) in ("a", "one")
        and c.text(ahead + 1) == "single"
        and not c.text(ahead + 2).startswith("crochet")
    ):
        # "a single hdc in next st"
        ahead += 1 + (stitch_here(c, ahead + 2) is not None)
    if c.text(ahead) in ("a", "an") and stitch_here(c, ahead + 1) is not None:
        ahead += 1
    stitch = stitch_here(c, ahead)
    if stitch is None:
        return None
    begins = any(c.text(k) in ("beg", "beginning", "first") for k in range(ahead))
    c.i += ahead + stitch.tokens
    if (changed := spread_here(c, start, stitch, number)) is not None:
        return changed
    if (
        number is not None
        and number > 1
        and c.text() in ("tog", "together")
        and stitch.special is None
        and together(stitch.name) == 1
    ):
        # "4 tr together over next 4 tr"
        stitch.name, number = f"{stitch.name}{number}tog", None
        c.i += 1
    name, each = resolved(c, stitch)
    if number is None and (regular := every_so_many(c, start, name, each)) is not None:
        return regular
    if c.text(1) in ("every", "each"):
        straight = Work(
            name, (number or 1) * each, Where(Which.STRAIGHT, c.span_from(start)), c.span_from(start)
        )
        if (spaces := in_every_other(c, [straight], start)) is not None:
            return spaces
    grows = number == 2 and each == 1 and _told_by_order(c)
    if grows and (regular := every_so_many(c, start, name, 2)) is not None:
        # "2 sc in every 3rd st" of a round that grows
        return regular
    if (
        stitch.name in ("inc", "dec")
        and c.value() == 1
        and c.text(1) in ("st", "stitch")
        and c.text(2) in PREPOSITIONS
    ):
        c.i += 2
    if c.kind() is T.OPEN and c.partners.get(c.i) and c.text(1) in ("see", "corner"):
        c.i = c.partners[c.i] + 1
    once_more = number is not None and ahead >= 2 and c.tokens[start + 1].text in ("more", "additional")
    if c.text() == "back" and c.text(1) in ("in", "into"):
        c.i += 1
    while c.text() in _AFTER_STITCH and not (c.text() == "evenly" and number):
        once_more = once_more or c.text() == "again"
        c.i += 1
    spread = number is None and c.text(-1) == "evenly"
    if spread and along_an_edge(c):
        return [evenly_here(c, start, name, 0)]
    if (
        c.text() in ("worked", "made") or c.text() == "both" and number == 2 and c.text(1) in ("in", "into")
    ) and c.text(1) in PREPOSITIONS:
        c.i += 1
    after = None
    if number is None and c.kind() is T.NUMBER and not _is_place_number(c):
        after = c.value()
        c.i += 1
    loop = stitch.loop
    if c.text() in ("evenly", "spaced") or (
        c.text() in ("along", "across", "around", "up", "down")
        and (number is not None or after is not None)
        and not piece_here(c)
        and evenly_follows(c)
    ):
        if number is not None or after is not None:
            return [evenly_here(c, start, name, number or after or 0)]
        while c.text() in ("evenly", "spaced"):
            c.i += 1
    count = (number or 1) * each
    times = c.times_here()
    if times is not None:
        # "inc x 6", "dec 3 times", "sc x 5"
        c.i += times[1]
        value = times[0]
        if c.text() in PREPOSITIONS and c.text() not in ("across", "around") and not piece_here(c):
            where = where_here(c)
            if where is not None:
                return placed(c, start, name, count * value, where, stitch, loop)
        span = c.span_from(start)
        two = tuple(_two(c, stitch, number, start))
        apart = (Repeat(two, span, value),) if two else ()
        if each > 1:
            return [Work(name, each, Where(Which.NEXT, span, value, loop=loop), span, apart=apart)]
        return [Work(name, count * value, Where(Which.STRAIGHT, span, loop=loop), span, apart=apart)]
    if c.text() == "through" and c.text(1) == "both" and (caught := through_piece(c)) == 5:
        c.i += caught
    lead, begun = c.text(), c.i
    along = lead == "to" and number is after is None and each == 1 and "slst" not in name and _stops_at(c)
    wheres = None if along else wheres_here(c, stitch) or _across_so_many(c)
    if wheres is None:
        found = _unplaced(c, start, stitch, name, each, number, after, begins)
        only = found[0]
        if spread and c.text(-1) == "around" and isinstance(only, Work) and only.where.which is Which.EACH:
            return [replace(only, where=replace(only.where, nth=SPREAD)), *found[1:]]
        if isinstance(only, Work) and only.where.which is not Which.EACH and after is None:
            return [replace(only, apart=tuple(_two(c, stitch, number, start)))]
        return found
    if after is not None:
        count = after * each
    twice_told = (
        number is not None and count > 1 and each == 1 and len(wheres) == 1 and _one_each(wheres[0], count)
    )
    if twice_told and lead in _ALONG:
        count = 1
    elif twice_told and not _EACH & {token.text for token in c.tokens[begun : c.i]}:
        # "4 sc in next 4 sts"
        items = placed(c, start, name, count, wheres, stitch, loop)
        only = items[0]
        return (
            [replace(only, apart=(replace(only, count=1),)), *items[1:]] if isinstance(only, Work) else items
        )
    if once_more and len(wheres) == 1 and wheres[0].which is Which.LAST and wheres[0].many == 1:
        # "dc in each st to end, 1 more dc in last st"
        wheres = (replace(wheres[0], which=Which.SAME, kinds=()),)
    return placed(c, start, name, count, wheres, stitch, loop)


def _across_so_many(c: Cursor) -> tuple[Where, ...] | None:
    """ "Sl st across 3 dc and into ch-3 sp": along so many, one in each."""
    start = c.i
    if (
        c.take_any("across", "over", "along")
        and c.value() is not None
        and (where := bare_place(c)) is not None
    ):
        return where
    c.i = start
    return None


def _stops_at(c: Cursor) -> bool:
    """True for "dc to next ch-2 sp", "dc to spine sp": along the row up to there, and not into it."""
    start = c.i
    stop = stop_here(c)
    c.i = start
    return stop is not None and stop.at in ("space", "half", "corner", "center")


_EACH = {"each", "every", "all"}
_ALONG = frozenset("over across on along".split())


def _one_each(where: Where, count: int) -> bool:
    """True for "3 dc over next 3 sts": told by their number twice, and one in each."""
    return (
        where.many == count
        and where.which in (Which.NEXT, Which.FIRST, Which.LAST)
        and not any(kind.name == SPACE for kind in where.kinds)
    )


_ROWS = frozenset("row rows rnd rnds round rounds".split())


def _through_both(c: Cursor) -> bool:
    """Takes "through both sides", "both layers together": an opening is worked shut, two stitches at a time."""
    through = int(c.text() in ("through", "thru"))
    if c.text(through) == "both" and c.text(through + 1) in _LAYERS:
        c.i += through + 2
        c.take_any("tog", "together")
        return True
    return False


def _told_by_order(c: Cursor) -> bool:
    """True for "in every 3rd st", "in each 2nd stitch": not "in every other one", where the others are passed over."""
    at = 1 if c.text() in ("in", "into") else 0
    word = c.text(at + 1)
    return c.text(at) in ("every", "each") and (c.kind(at + 1) is T.ORDINAL or word in ORDINAL_WORDS)


_LAYERS = frozenset("sides layers thicknesses edges".split())


def _two(c: Cursor, stitch: Stitch, number: int | None, start: int) -> list[Item]:
    """ "2 sc dec", with no comma, may be two single crochet and then a decrease; empty where it is one name."""
    how = next((c.tokens[k].text for k in range(start, c.i) if c.tokens[k].text in ("inc", "dec")), "")
    plain = stitch.name.removeprefix("inc:") if how == "inc" else stitch.name.removesuffix("2tog")
    if not how or stitch.special is not None or stitch.tokens != 2 or base_of(plain) != plain:
        return []
    span = c.span_from(start)
    shaping = Stitch(how, 1)
    name, each = resolved(c, shaping)
    if how == "dec" and not c.context.decrease or how == "inc" and not c.context.increase:
        name = plain + "2tog" if how == "dec" else plain
    where = Where(Which.NEXT if each > 1 else Which.STRAIGHT, span)
    return [Work(plain, number or 1, Where(Which.STRAIGHT, span), span), Work(name, each, where, span)]


def _unplaced(
    c: Cursor,
    start: int,
    stitch: Stitch,
    name: str,
    each: int,
    number: int | None,
    after: int | None,
    begins: bool,
) -> list[Item]:
    """Stitches with no place but, it may be, a stop: "dc across", "7 sc", "inc"."""
    loop = stitch.loop
    if c.value() is not None and c.text(1) in _ROWS and c.text(2) in ("below", "down"):
        # "spike st 2 rounds down": how deep, and in the next stitch
        c.i += 3
    c.i += (caught := through_piece(c))
    often = c.times_here() if caught else None
    if often is not None and number is None and after is None:
        # "sc through first arm and body 5 times"
        c.i += often[1]
        after = often[0]
    if (
        c.text() == "through"
        and c.text(1) == "both"
        and c.text(2) == "ends"
        and number is None
        and after is None
    ):
        # "fold, ss through both ends to join": the last row to the first
        c.i += 3
        c.take("to") and c.take_any("join", "close", "seam")
        span = c.span_from(start)
        return [Work(name, each, Where(Which.EACH, span, 0, (Kind(ANY),), stop=Stop()), span)]
    if _through_both(c):
        if not (number or after):
            # "press flat, sc through both layers across": each stitch takes one of either
            if c.text() in ("in", "into") and c.text(1) in ("each", "every", "all") and where_here(c) is None:
                c.i += 1
            across = stop_here(c) or Stop()
            span = c.span_from(start)
            return [
                Work(name, each, Where(Which.EACH, span, 0, (Kind(ANY),), stop=across, loop=LAYERS), span)
            ]
        span = c.span_from(start)
        return [Work(name, (number or after or 1) * each, Where(Which.EVENLY, span), span)]
    stop = stop_here(c)
    span = c.span_from(start)
    if stop is not None:
        if number is not None and number != 1:
            # "7 sc to marker" is seven, and "1 dc to end" one in each
            return [Work(name, number, Where(Which.STRAIGHT, span, loop=loop), span)]
        if after is not None and each == 1 and (stop.at or after > 1):
            # "sc 28 along the side"
            return [Work(name, after, Where(Which.STRAIGHT, span, loop=loop), span)]
        count = each if number is None or each > 1 else number * each
        where = Where(Which.EACH, span, 0, (Kind(ANY),), stop=stop, loop=loop)
        return [excepting(c, Work(name, count, where, span))]
    amount = after or 1
    if begins and stitch.special is not None:
        return [Work(name, 1, Where(Which.SAME, span, loop=loop), span)]
    if each > 1:
        many = max(1, (number or 1) * amount)
        return [Work(name, each, Where(Which.NEXT, span, many, loop=loop), span)]
    return [Work(name, (number or 1) * each * amount, Where(Which.STRAIGHT, span, loop=loop), span)]


_BELONGS_ON = frozenset("ch chs row rows rnd rnds round rounds times time x more tog together".split())
"""What a number goes with, when it does not tell how many stitches."""


def _is_place_number(c: Cursor) -> bool:
    """True when a number after a stitch belongs to what follows: "dc 2-ch sp", "sc 3 times", "sc 2 rows below"."""
    glued = c.token(-1).end == c.token().start
    if c.kind(1) is T.HYPHEN or c.text(1) in _BELONGS_ON and not (glued and c.text(1) == "x"):
        return True
    if glued:
        # "sc3 inc1 x3": the number is the stitch's own
        return False
    if c.kind(1) is T.TIMES:
        return True
    follows = stitch_here(c, 1)
    if follows is not None and follows.name in ("inc", "dec") and c.kind(1 + follows.tokens) in _CLOSES:
        # "(sc 4 inc) x6": so many, and one increase behind them
        return c.kind(-2) not in (T.OPEN, T.STAR)
    return follows is not None


_CLOSES = (T.CLOSE, T.STAR, T.END)
