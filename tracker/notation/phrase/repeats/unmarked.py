"""Repeats with neither star nor bracket: "sc, inc x6", "sc 1, inc 1, repeat around", "1 sc 1 inc *6 (18)", "sc (24)".

The items read so far come in. They are folded only when all that was worked are stitches in the next places, so that
there is nothing else that could be meant to be repeated.
"""

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.places.stops import stop_here
from tracker.notation.phrase.repeats.endings import ending_here
from tracker.notation.phrase.repeats.loose import ENDS, by_turns, ended, in_next, lead_of, one_after_another
from tracker.notation.phrase.repeats.often import often_here
from tracker.notation.phrase.stitches import stitch_here
from tracker.notation.scan import T
from tracker.notation.tree import (
    SPACE,
    Chain,
    Group,
    Item,
    Mark,
    Repeat,
    Say,
    Skip,
    Stop,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.problems import Span
from tracker.trade.stitches import parts_of


def repeated(c: Cursor, items: list[Item], lone: str = "") -> bool:
    """Folds what the row has worked so far when it is told how often; the cursor moves past that, or stays.

    `lone`: a star that stands behind it all and opens nothing, so that "rep from *" means the beginning.
    """
    start = c.i
    times = _times(c)
    if times is not None and c.kind() is T.OPEN and _works_within(c):
        # "sc in next dc, 5x [2 sc in next st, sc in next 2 sts]": told before what is worked so often
        c.i = start
        return False
    stop: Stop | None = None
    further: int | None = None
    told = times is None
    if times is None and _all_along(c):
        stop = Stop()
    elif times is None:
        if not c.take_any("rep", "repeat", "repeating"):
            return False
        c.take_any("this", "these", "that", "sequence", "pattern")
        if c.take("from"):
            c.take("the")
            if not c.take_any("beginning", "start", "beg") and not (lone and c.take(lone)):
                c.i = start
                return False
        often = often_here(c)
        if often is not None:
            stop, times, further = often.stop, often.times, often.further
        elif c.kind() is T.NUMBER and c.kind(1) in ENDS and len(items) > 1:
            # "1 sc, 1 inc — repeat 6"
            times = c.value()
            c.i += 1
        elif c.i == start + 1 and c.kind() in (T.END, T.OPEN, T.PERIOD) and not _works_within(c):
            # "1, inc rep (18)", but not "…, repeat [dc in next dc, 2 dc in next dc] around"
            stop = Stop()
        else:
            c.i = start
            return False
    ending = ending_here(c) if told else None
    lead = lead_of(items)
    if stop == Stop() and (once := _once_before(items[lead:])):
        # "sc in same st, ch 3, sk 1, sc in next st, ch 3, sk 1, all the way round": told twice, and then so on
        told_at = c.span_from(start)
        body = items[-once:]
        items[-once:] = [
            Repeat(tuple(body), Span(body[0].span.start, told_at.end), None, stop=stop, told_at=told_at)
        ]
        return True
    if (step := _step_begins(c, items, start)) > lead:
        # a step of several: "; [sc, dc] in next st, skip 1 st, do this 4 times; …"
        lead, times, further = step, times or further, None
    body = one_after_another(items[lead:])
    slips = sum(isinstance(item, Work) and item.stitch == "slst" for item in body)
    alone = len(body) == 1 and told and isinstance(body[0], Work) and _gathers(c, body[0])
    if (
        len(body) < (1 if alone else 2)
        or not all(in_next(item) or step > 0 and isinstance(item, Chain) for item in body)
        or not ended(c)
        or slips
        and slips * 2 >= len(body)
    ):
        c.i = start
        return False
    span = Span(body[0].span.start, c.span_from(start).end)
    star = further is not None
    told_at = c.span_from(start)
    items[lead:] = [Repeat(tuple(body), span, times, further, stop, ending, star=star, told_at=told_at)]
    return True


_BEGUN = (T.STAR, T.PERIOD, T.SEMICOLON, T.OPEN, T.COLON)
"""What stands before the first phrase of a sentence or of a repeat."""


def last_again(c: Cursor, items: list[Item]) -> bool:
    """ "*3 dc between next two pairs, twice, …": a phrase that alone stands before the words that tell how often."""
    told, last = c.times_here(), items[-1] if items else None
    if told is None or c.kind(-1) is not T.COMMA or not isinstance(last, (Work, Group)):
        return False
    if c.kind(told[1]) not in (*ENDS, T.COMMA, T.STAR, T.CLOSE) or told[0] < 1:
        return False
    first = next((k for k, token in enumerate(c.tokens[: c.i]) if token.start >= last.span.start), 0)
    alone = not first or c.tokens[first - 1].kind in _BEGUN or lead_of(items) == len(items) - 1
    if not alone and isinstance(last, Work):
        once = Repeat((last,), Span(last.span.start, c.tokens[c.i + told[1] - 1].end), told[0])
        pair = items[:-1]
        if by_turns(c, pair, [once], first):
            c.i += told[1]
            items[:] = pair
            return True
    if not alone:
        return False
    c.i += told[1]
    items[-1] = Repeat((last,), Span(last.span.start, c.tokens[c.i - 1].end), told[0])
    return True


def _gathers(c: Cursor, work: Work) -> bool:
    """True for stitches that are told one by one: an increase, or two and more worked together."""
    own = next((special for special in c.context.specials.values() if special.name == work.stitch), None)
    return work.count > 1 or parts_of(work.stitch)[2] > 1 or own is not None and own.closes > 1


def _all_along(c: Cursor) -> bool:
    """Takes ", all around", ", across", at the end of what a row works over and over."""
    whole = c.text() == "all" and c.text(1) == "the" and c.text(2) == "way"
    whole = whole or c.text() == "all" and c.text(1) in ("around", "round")
    if c.kind(-1) not in (T.COMMA, T.SEMICOLON, T.DASH) and not whole:
        return False
    n = 1 if c.text() == "all" else 0
    if n and c.text(1) == "the" and c.text(2) == "way":
        n = 3
    if c.text(n) not in ("around", "across", "round", "throughout") or c.kind(n + 1) not in (*ENDS, T.COMMA):
        return False
    c.i += n + 1
    return True


def starred_along(c: Cursor, items: list[Item]) -> bool:
    """ "*ch 2, sk 2 sc, dc in next sc across.": a star that nothing closes, and how far what it began goes."""
    start, last = c.i, items[-1] if items else None
    at = next((k for k in range(len(items) - 1, -1, -1) if isinstance(items[k], Mark)), None)
    if at is None or c.kind(-1) not in (T.WORD, T.NUMBER, T.CLOSE, T.COMMA) or isinstance(last, Mark):
        return False
    body = items[at + 1 :]
    ahead = {token.text for token in c.tokens[c.i : c.end]}
    told = c.text() in ("across", "around") or c.text() == "to" and c.text(1) == "end"
    if (
        not told
        or {"*", "rep", "repeat"} & ahead
        or len(body) < 2
        or any(isinstance(i, Mark) for i in items[:at])
    ):
        return False
    stop = stop_here(c)
    if stop is None or not ended(c):
        c.i = start
        return False
    told_at = c.span_from(start)
    items[at:] = [
        Repeat(tuple(body), Span(body[0].span.start, told_at.end), None, stop=stop, told_at=told_at)
    ]
    return True


def _once_before(items: list[Item]) -> int:
    """How many of the last items do once more what those before them did; 0 where they don't."""
    for many in range(2, len(items) // 2 + 1):
        if all(map(_alike, items[-2 * many : -many], items[-many:])) and len(items) == 2 * many:
            return many
    return 0


def _alike(item: Item, again: Item) -> bool:
    """True for two items that do the same, the second in the places that follow."""
    if isinstance(item, Chain) and isinstance(again, Chain):
        return item.count == again.count
    if isinstance(item, Skip) and isinstance(again, Skip):
        return item.where.many == again.where.many and item.where.which is again.where.which is Which.NEXT
    return (
        isinstance(item, Work)
        and isinstance(again, Work)
        and (item.stitch, item.count, item.where.many) == (again.stitch, again.count, again.where.many)
        and item.where.which in (Which.FIRST, Which.SAME, Which.NEXT)
        and again.where.which is Which.NEXT
    )


def squares_along(c: Cursor, items: list[Item]) -> bool:
    """ "Dc in 8th ch from hook, ch 2, sk 2 ch, dc in next ch across": the last step, as often as it fits."""
    start, last = c.i, items[-1] if items else None
    if not isinstance(last, Work) or last.count != 1 or c.kind(-1) not in (T.WORD, T.NUMBER):
        return False
    where = last.where
    if where.which is not Which.NEXT or where.many != 1:
        return False
    k = len(items) - 1
    while k and isinstance(items[k - 1], (Chain, Skip)):
        k -= 1
    before = next((item for item in reversed(items[:k]) if not isinstance(item, (Say, Turning))), None)
    if k == len(items) - 1 and _into_a_space(before) and before is items[k - 1] and k > 1:
        # "sc in first st, 3 sc in next ch-3 sp, sc in next st across"
        k -= 1
    elif not isinstance(items[k], Chain) or not isinstance(before, Work):
        return False
    c.take("all", "the", "way")
    stop = stop_here(c)
    if stop is None or not ended(c):
        c.i = start
        return False
    told_at = c.span_from(start)
    items[k:] = [
        Repeat(tuple(items[k:]), Span(items[k].span.start, told_at.end), None, stop=stop, told_at=told_at)
    ]
    return True


def _into_a_space(item: Item | None) -> bool:
    """True for stitches in the next space."""
    where = item.where if isinstance(item, (Work, Group)) else None
    return (
        where is not None
        and where.which is Which.NEXT
        and where.many == 1
        and [kind.name for kind in where.kinds] == [SPACE]
    )


_WORKS = frozenset("in into sk skip miss inc dec ch".split())
"""What a bracket holds that is worked, and not counted."""


def _works_within(c: Cursor) -> bool:
    """True for a bracket of work; "(18)" and "(18 sc)" count what was worked."""
    close = c.partners.get(c.i)
    return (
        close is not None
        and c.kind(1) is not T.NUMBER
        and bool(_WORKS & {c.tokens[k].text for k in range(c.i, close)})
        or close is not None
        and bool({"in", "into"} & {c.tokens[k].text for k in range(c.i, close)})
    )


def _step_begins(c: Cursor, items: list[Item], start: int) -> int:
    """Index of the first item behind the last semicolon before a place; 0 where there is none, or nothing behind."""
    parted = next((token.start for token in reversed(c.tokens[:start]) if token.kind is T.SEMICOLON), None)
    if parted is None:
        return 0
    return next((k for k, item in enumerate(items) if item.span.start > parted), 0)


def alternating(c: Cursor) -> Repeat | None:
    """ "Keep alternating sc and dc until the end of the row": the two in turn; None where they do not stand here."""
    start = c.i
    c.take_any("keep", "continue", "cont", "by", "work")
    if not c.take_any("alternating", "alternate"):
        c.i = start
        return None
    c.take("between")
    body: list[Item] = []
    for joint in ("and", ""):
        c.take_any("a", "one")
        number, ahead = c.value(), 1 if c.value() is not None else 0
        stitch = stitch_here(c, ahead)
        if stitch is None or stitch.special is not None:
            c.i = start
            return None
        at = c.i
        c.i += ahead + stitch.tokens
        span = c.span_from(at)
        body.append(Work(stitch.name, number or 1, Where(Which.STRAIGHT, span, loop=stitch.loop), span))
        if joint and not (c.take(joint) or c.text() == "&" and c.step()):
            c.i = start
            return None
    stop = stop_here(c)
    return Repeat(tuple(body), c.span_from(start), None, stop=stop or Stop())


def _times(c: Cursor) -> int | None:
    """ "x6", "6 times", "*6": how often, taken."""
    if c.kind() is T.STAR and c.kind(1) is T.NUMBER and c.kind(2) in ENDS:
        times = c.value(1)
        c.i += 2
        return times
    opened = c.kind() is T.OPEN
    c.i += opened
    found = c.times_here()
    if found is None or opened and c.kind(found[1]) is not T.CLOSE:
        c.i -= opened
        return None
    # "(6x)" behind what is worked six times
    c.i += found[1] + opened
    return found[0]
