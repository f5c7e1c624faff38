"""Phrases that go on from the one before: "and in each ch across", "all in next st", "omitting last ch 2"."""

from itertools import pairwise

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.places.bare import bare_place
from tracker.notation.phrase.places.nouns import PREPOSITIONS
from tracker.notation.phrase.places.stops import stop_here
from tracker.notation.phrase.places.where import where_here
from tracker.notation.phrase.repeats.endings import ended
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.phrase.works.placing import grouped, unplaced
from tracker.notation.phrase.works.work import work_here
from tracker.notation.scan import T
from tracker.notation.tree import (
    ANY,
    SPACE,
    Chain,
    Ending,
    Except,
    Group,
    Item,
    Kind,
    Mark,
    Prose,
    Repeat,
    Say,
    Stop,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.problems import Span
from tracker.records import replace
from tracker.trade.begun import begins
from tracker.trade.stitches import STITCHES, parts_of

_ALONG = ("across", "around", "to", "along")
"""What follows "and" when a stitch goes on to the end."""


def alternates(c: Cursor, items: list[Item], found: list[Item], start: int) -> bool:
    """ "FPdc around each FPdc and BPdc around each BPdc across": each stitch has its own, in one pass."""
    if start == 0 or not items or len(found) != 1:
        return False
    first, second = items[-1], found[0]
    if (
        c.tokens[start - 1].text in (",", "and", "&")
        and isinstance(first, Work)
        and (besides := _besides(c, first, second, start)) is not None
    ):
        items[-1] = besides
        return True
    if not (isinstance(first, Work) and isinstance(second, Work)):
        return False
    if c.tokens[start - 1].text not in ("and", "&") and not (
        c.tokens[start - 1].text == "," and _each_its_own(first, second)
    ):
        # "sc in each dc, dc in each sc" needs no "and"
        return False
    if (
        first.where.which is not Which.EACH
        or second.where.which is not Which.EACH
        or first.where.stop is not None
    ):
        return False
    if not second.where.kinds or first.where.kinds == second.where.kinds:
        return False
    if first.stitch == second.stitch and not first.where.kinds:
        return False
    alone = Work(
        second.stitch,
        second.count,
        Where(Which.STRAIGHT, second.where.span, loop=second.where.loop),
        second.span,
    )
    items[-1] = replace(
        first,
        where=replace(first.where, stop=second.where.stop),
        excepting=(*first.excepting, Except(second.where.kinds, (alone,)), *second.excepting),
        span=Span(first.span.start, second.span.end),
    )
    return True


def _each_its_own(first: Work, second: Work) -> bool:
    """True for "sc in each sc, hdc in each hdc": stitches of one name each, the second to the end of the row."""
    named = (*first.where.kinds, *second.where.kinds)
    return (
        len(first.where.kinds) == len(second.where.kinds) == 1
        and all(kind == Kind(kind.name) and parts_of(kind.name)[1] in STITCHES for kind in named)
        and second.where.stop in (None, Stop())
    )


_OTHERS = (
    ("each", "other"),
    ("all", "other"),
    ("each", "remaining"),
    ("all", "remaining"),
    ("every", "remaining"),
)


def _besides(c: Cursor, first: Work, second: Item, start: int) -> Work | None:
    """ "3 sc in each corner st and sc in each other st around": all stitches, the corners otherwise."""
    words = [token.text for token in c.tokens[start : c.i]]
    corners = first.where.which is Which.EACH and any(
        kind.name.startswith("corner") for kind in first.where.kinds
    )
    told = second.items[0] if isinstance(second, Repeat) else second
    if (
        not corners
        or first.excepting
        or not isinstance(told, Work)
        or not set(_OTHERS) & set(pairwise(words))
    ):
        return None
    span = Span(first.span.start, c.tokens[c.i - 1].end)
    corner = Work(first.stitch, first.count, Where(Which.STRAIGHT, first.span), first.span)
    along = Where(Which.EACH, told.where.span, 0, (Kind(ANY),), stop=Stop(), loop=told.where.loop)
    return Work(told.stitch, told.count, along, span, (Except(first.where.kinds, (corner,)),))


CLOSER = frozenset("working placing making putting with".split())
"""Words that may tell more closely how the stitches just named are worked."""


def told_closer(c: Cursor, items: list[Item]) -> bool:
    """ "Sc evenly down the side, working 1 sc in each row end", "sc in each st, working sc2tog every 5th and 6th st".

    The stitches before are put right; where they were counted already, only a remark is added.
    """
    last = items[-1] if items else None
    if not isinstance(last, Work):
        return _told_whole(c, items)
    start = c.i
    c.i += 1
    c.take_any("only", "just", "about", "approx")
    found = work_here(c)
    only = found[0] if found and len(found) <= 2 else None
    along, stop = last.where.which, last.where.stop
    if isinstance(only, Repeat) and along is Which.EACH and stop in (None, Stop()):
        items[-1:] = found or []
        return True
    if isinstance(only, Work) and only.where.which is Which.ROW_END and only.stitch == last.stitch:
        if along is Which.EVENLY:
            items.append(Say("remark", "", c.span_from(start)))
            return True
        if along is Which.EACH and stop is not None and stop.at == "corner" or along is Which.ROW_END:
            items[-1] = only
            return True
    c.i = start
    return False


def _told_whole(c: Cursor, items: list[Item]) -> bool:
    """ "Continue in this way, working 3 sc in each corner st and sc in each other st": all that the row does."""
    if any(isinstance(item, (Work, Group, Repeat)) for item in items):
        return False
    start = c.i
    c.i += 1
    corners = work_here(c)
    at = c.i + 1
    if corners is not None and len(corners) == 1 and c.take_any("and", "&"):
        others = work_here(c)
        first = corners[0]
        if others is not None and isinstance(first, Work):
            whole = _besides(c, first, others[0], at)
            if whole is not None:
                items.append(whole)
                return True
    c.i = start
    return False


def goes_on(c: Cursor, items: list[Item]) -> list[Item] | None:
    """ "Dc in 4th ch from hook (counts as dc) and in each ch across": the stitch before goes on in further places."""
    last = next((item for item in reversed(items) if not isinstance(item, (Turning, Say))), None)
    if not isinstance(last, Work) or last.where.which is Which.EVENLY and c.value() is None:
        return None
    start = c.i
    comma = c.text(-1) == ","
    many = c.value()
    if many is not None:
        # "one single crochet in the 2nd chain and one in each chain to the end"
        c.i += 1
    c.take("of")
    if c.text() in _ALONG and c.text(-1) in ("and", "&") and (stop := stop_here(c)) is not None:
        # "sc in 2nd ch from hook and across"
        span = c.span_from(start)
        along = Where(Which.EACH, span, 0, (Kind(ANY),), stop=stop, loop=last.where.loop)
        return [Work(last.stitch, 1, along, span, joined=True)]
    where = where_here(c) if c.text() in PREPOSITIONS else bare_place(c)
    if where is None or c.text() in _WORKS or comma and _work_follows(c):
        c.i = start
        return None
    if many == 1 and last is items[-1] and unplaced(last) and where[0].many == last.count > 1:
        # "work 3 sc, one in each of the next 3 sts"
        items.pop()
        return [replace(last, count=1, where=where[0], span=Span(last.span.start, c.span_from(start).end))]
    if many == 1 and last is items[-1] and unplaced(last) and last.count > 1 and c.text(-1) == "each":
        # "3 sc, one in each, ch 2": it is said once more that they go one in each
        return [Say("remark", "", c.span_from(start))]
    stop = stop_here(c) if where[-1].which is Which.EACH else None
    lone = (
        comma
        and last is items[-1]
        and where[0].which is Which.SAME
        and _named_before(items) == len(items) - 1
    )
    if unplaced(last) and (lone or last is not items[-1]) and len(where) == 1 and many is None:
        # "3 dc, keeping them even, in same st": words, or a comma, between the stitches and their place
        at = next(k for k in range(len(items) - 1, -1, -1) if items[k] is last)
        if all(isinstance(item, Say) for item in items[at + 1 :]):
            place = replace(where[0], stop=where[0].stop or stop, loop=where[0].loop or last.where.loop)
            items[at] = replace(last, where=place, apart=())
            return [Say("remark", "", c.span_from(start))]
    if comma and (
        c.kind() not in (T.COMMA, T.SEMICOLON, T.PERIOD, T.END, T.CLOSE, T.OPEN, T.DASH, T.EQUALS)
        and not (c.text() == "and" and c.text(1) in PREPOSITIONS)
        or many is None
        and stitch_here(c, 1) is not None
        and c.kind() is T.COMMA
        and not where[0].loop
    ):
        c.i = start
        return None
    out: list[Item] = []
    for place in where:
        if place.which is Which.EACH and place.stop is None:
            place = replace(place, stop=stop)
        out.append(
            Work(
                last.stitch,
                many or (1 if last.where.which is Which.FROM_HOOK else last.count),
                place,
                c.span_from(start),
                joined=True,
            )
        )
    return out


_WORKS = ("work", "make", "do", "put", "crochet")
"""What stands between a place and what is worked in it."""


def _work_follows(c: Cursor) -> bool:
    """True for ", work (3 dc, ch 2, 3 dc)" and ", (3 dc, …)" behind a place: it is theirs, not one gone on to."""
    return c.kind() in (T.COMMA, T.DASH) and (c.text(1) in _WORKS or c.kind(1) is T.OPEN)


def closes_picot(c: Cursor, items: list[Item], found: list[Item]) -> list[Item]:
    """ "Ch 4, sl st in last sc (picot made)": the stitch before the chain, not the last of the row."""
    only = found[0] if len(found) == 1 else None
    if (
        not isinstance(only, Work)
        or only.stitch != "slst"
        or only.where.which is not Which.LAST
        or only.where.many != 1
        or not items
        or not isinstance(items[-1], Chain)
        or items[-1].count < 2
        or not (c.kind() is T.OPEN and {"picot", "p"} & {c.text(1), c.text(2)} or _goes_further(c, items))
    ):
        return found
    return [replace(only, where=replace(only.where, which=Which.MADE))]


def _goes_further(c: Cursor, items: list[Item]) -> bool:
    """True for "ch 3, sl st in last sc, sc in next sc": work goes on, so the last is the one just made."""
    chain, before = items[-1], items[-2] if len(items) > 1 else None
    picot = isinstance(chain, Chain) and 2 < chain.count < 6 and c.kind() is T.COMMA
    ahead = 2 if c.value(1) is not None else 1
    return picot and isinstance(before, (Work, Mark)) and stitch_here(c, ahead) is not None


def attach(items: list[Item], ending: Ending) -> None:
    """Gives an ending to the repeat before it; after an "each", what it adds is simply worked."""
    for k in range(len(items) - 1, -1, -1):
        item = items[k]
        if isinstance(item, (Say, Turning)):
            continue
        if isinstance(item, Repeat) and item.ending is None and item.times != 1:
            found = ended(item, ending)
            items[k : k + 1] = [item, Prose("", ending.span)] if found is None else [found]
            return
        break
    if ending.how in ("with", "ending"):
        items.extend(ending.items)
    else:
        worked = any(isinstance(item, (Work, Group)) for item in ending.items)
        items.append(Say("remark", "", ending.span, worked and ending.how == "omit"))


def gather(c: Cursor, items: list[Item], where: tuple[Where, ...]) -> bool:
    """ "Dc, ch 1, dc all in next st": folds the stitches just named that had no place of their own."""
    k = len(items)
    while k and (isinstance(items[k - 1], Chain) or unplaced(items[k - 1]) or _bare(items[k - 1])):
        k -= 1
    while k < len(items) - 1 and isinstance(items[k], Chain):
        k += 1  # "ch 1, sc, ch 3, sc all in next sp": what leads there is not worked there
    if k == len(items):
        return False
    body = items[k:]
    first = next(i for i, t in enumerate(c.tokens) if t.start >= body[0].span.start)
    items[k:] = grouped(body, where, c, first)
    return True


def loosely(c: Cursor, items: list[Item], found: list[Item], start: int) -> list[Item]:
    """ "3 dc, ch 2, 3 dc in next sp", with no bracket: the stitches named before may go in that place too."""
    last = found[0]
    if (
        len(found) != 1
        or not isinstance(last, Work)
        or last.where.which not in _ONE_PLACE
        or last.where.which is not Which.EACH
        and last.where.many != 1
        or last.excepting
        or last.joined
    ):
        return found
    k = _named_before(items)
    if k < len(items) and not isinstance(items[-1], Chain):
        k = _mirrored(items, k, last)
    if k == len(items):
        return found
    body = [*items[k:], replace(last, where=Where(Which.STRAIGHT, last.span, loop=last.where.loop))]
    del items[k:]
    return [Group(tuple(body), last.where, Span(body[0].span.start, c.span_from(start).end), loose=True)]


def _mirrored(items: list[Item], k: int, last: Work) -> int:
    """Where "sc, hdc, 3 dc, hdc" begins before "sc in next ch-3 sp", from index k on: it rises and falls to a petal.

    The number of items when no such run stands there, or the last goes into a stitch and not a space.
    """
    if not any(kind.name in (SPACE, "corner", "corner sp") for kind in last.where.kinds):
        return len(items)
    run = [(item.stitch, item.count) for item in (*items[k:], last) if isinstance(item, Work)]
    for at in range(len(run) - 2):
        petal = run[at:]
        if petal == petal[::-1] and petal[0] != petal[1]:
            return len(items) + 1 - len(petal)
    return len(items)


_ONE_PLACE = (Which.NEXT, Which.SAME, Which.EACH, Which.FIRST, Which.LAST, Which.BETWEEN)


def _named_before(items: list[Item]) -> int:
    """Where a run of chains and stitches without a place begins, with a stitch, at the end of the items."""
    k = len(items)
    while k and (isinstance(items[k - 1], Chain) or unplaced(items[k - 1])):
        k -= 1
    # what begins a row, "beg shell", is worked where the row begins
    while k < len(items) and (
        isinstance(items[k], Chain) or (stitch := getattr(items[k], "stitch", "")) == "slst" or begins(stitch)
    ):
        k += 1
    return k


def chained(c: Cursor, items: list[Item]) -> bool:
    """ "Puff, ch 1 in each sp around": a chain goes nowhere, so the place is that of the stitches before it too."""
    k = _named_before(items)
    if k == len(items) or not isinstance(items[-1], Chain):
        return False
    i = c.i
    where = where_here(c)
    if where is None or where[0].which not in _ONE_PLACE or c.text() in _WORKS or c.kind() is T.COLON:
        c.i = i
        return False
    first = next(n for n, t in enumerate(c.tokens) if t.start >= items[k].span.start)
    items[k:] = grouped(items[k:], where, c, first)
    return True


def to_the_end(item: Item) -> bool:
    """True for stitches worked in each to the end of the row, after which nothing is left."""
    return isinstance(item, Work) and item.where.which is Which.EACH and item.where.stop in (None, Stop())


def _bare(item: Item) -> bool:
    """True for a repeat of stitches with no place of their own."""
    return isinstance(item, Repeat) and all(
        isinstance(inside, Chain) or unplaced(inside) for inside in item.items
    )
