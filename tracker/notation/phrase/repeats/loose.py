"""Repeats with no sign that may mean the last stitch alone: "sc 4, inc around", "sc 2, dec x3", "FPdc, BPdc 5 times".

The items read so far and the stitch that was just read come in; where the row may mean all of them, one loose repeat
stands for them, and the counts decide.
"""

from tracker.notation.phrase.cursor import SLIPS, Cursor
from tracker.notation.scan import T
from tracker.notation.tree import (
    ANY,
    Chain,
    Group,
    Item,
    Join,
    Kind,
    Repeat,
    Say,
    Skip,
    Stop,
    Turn,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.problems import Span
from tracker.records import replace
from tracker.trade.stitches import parts_of

ENDS = (T.END, T.PERIOD, T.OPEN, T.EQUALS, T.DASH, T.SEMICOLON, T.COLON)
"""What stands behind the last words of a row's work."""


def run_together(c: Cursor, items: list[Item], found: list[Item], start: int) -> bool:
    """ "Sc2 inc x6", with no comma anywhere: what is told how often is all of it, not the last stitch alone.

    With a comma or a plus, "sc 2, inc x6", it may be either.
    """
    last = found[0]
    often = last.times if isinstance(last, Repeat) and len(last.items) == 1 else None
    last = last.items[0] if isinstance(last, Repeat) and often else last
    lead = lead_of(items)
    body = items[lead:]
    if (
        len(found) != 1
        or not isinstance(last, Work)
        or not body
        or start == 0
        or c.tokens[start - 1].kind not in (T.WORD, T.NUMBER, T.COMMA)
        and c.text(start - 1 - c.i) != "+"
        or not all(map(in_next, body))
        or not ended(c)
    ):
        return False
    shapes = parts_of(last.stitch)[2] > 1 or last.count > 1 and last.where.which is Which.NEXT
    parted = any(token.kind is T.COMMA or token.text == "+" for token in c.tokens[: c.i])
    if parted and (len(body) > 1 or not isinstance(body[0], Work) or not shapes):
        return False
    times, once = (often, last) if often else _told_often(c, last, start)
    if once is None:
        return False
    span = Span(body[0].span.start, found[0].span.end)
    items[lead:] = [Repeat((*body, once), span, times, loose=parted)]
    return True


def _told_often(c: Cursor, last: Work, start: int) -> tuple[int, Work | None]:
    """How often the words of a stitch that end here tell it, and the stitch once; None where they do not."""
    end = c.i
    for c.i in range(start + 1, end):
        told = c.times_here()
        if told is not None and c.i + told[1] == end and told[0] > 1:
            break
    else:
        c.i = end
        return 0, None
    c.i = end
    times, where = told[0], last.where
    if where.which is Which.NEXT and where.many % times == 0:
        return times, replace(last, where=replace(where, many=where.many // times), apart=())
    if where.which is Which.STRAIGHT and last.count % times == 0:
        return times, replace(last, count=last.count // times, apart=())
    return 0, None


def goes_around(c: Cursor, items: list[Item], found: list[Item], start: int) -> bool:
    """ "Sc 4, inc around": a run and what shapes behind it, over and over, though it may mean the last alone."""
    last, lead = found[0], lead_of(items)
    body = items[lead:]
    if (
        len(found) != 1
        or not isinstance(last, Work)
        or not body
        or c.text(-1) not in ("around", "across", "round")
        or {token.text for token in c.tokens[start : c.i]}
        & {"in", "into", "each", "every", "all", "the", "rest"}
        or last.where.which is not Which.EACH
        or last.where.stop != Stop()
        or not (last.count > 1 or parts_of(last.stitch)[2] > 1)
        or not all(
            isinstance(item, Work) and item.where.which in (Which.STRAIGHT, Which.NEXT) for item in body
        )
        or not ended(c)
    ):
        return False
    once = replace(
        last,
        where=Where(Which.NEXT if last.count > 1 else Which.STRAIGHT, last.where.span, loop=last.where.loop),
    )
    span = Span(body[0].span.start, last.span.end)
    items[lead:] = [Repeat((*body, once), span, None, stop=Stop(), told_at=last.span, loose=True)]
    return True


def by_turns(c: Cursor, items: list[Item], found: list[Item], start: int) -> bool:
    """ "FPdc, BPdc 5 times": posts in front and behind by turns, though it may mean the last alone.

    Folded only where both are told alike: one each, in the next, with no number of their own.
    """
    first, told = (items[-1] if items else None), found[0]
    if len(found) != 1 or not isinstance(first, Work) or not isinstance(told, (Work, Repeat)):
        return False
    last = told if isinstance(told, Work) else told.items[0]
    if isinstance(told, Work):
        if told.where.which is not Which.STRAIGHT or not _OFTEN & {t.text for t in c.tokens[start : c.i]}:
            return False
        times, last = told.count, replace(told, count=1, apart=())
    elif len(told.items) == 1 and told.times and told.ending is None:
        times = told.times
    else:
        return False
    if not isinstance(last, Work) or times < 2 or first.count != 1 or last.count != 1:
        return False
    posts = parts_of(first.stitch)[0], parts_of(last.stitch)[0]
    alike = first.where.which is last.where.which and first.where.many == last.where.many == 1
    if set(posts) != {"fp", "bp"} or not alike or first.where.which not in (Which.STRAIGHT, Which.NEXT):
        return False
    span = Span(first.span.start, told.span.end)
    items[-1] = Repeat((first, last), span, times, told_at=told.span, loose=True)
    return True


def step_often(c: Cursor, items: list[Item], found: list[Item], start: int) -> bool:
    """ "Ch 2, sk 2 sc, dc in next sc 4 times": a step over a gap so often, though it may mean the last alone."""
    last = found[0]
    if len(found) != 1 or not items or not _OFTEN & {token.text for token in c.tokens[start : c.i]}:
        return False
    k = len(items)
    while k and isinstance(items[k - 1], (Chain, Skip)):
        k -= 1
    step = items[k:]
    # a chain that the row begins with is no part of it
    begun = any(isinstance(item, (Work, Group, Repeat, Turning, Turn)) for item in items[:k])
    if not begun or {type(item) for item in step} != {Chain, Skip} or len(step) != 2:
        return False
    if isinstance(last, Repeat) and len(last.items) == 1 and last.times and isinstance(last.items[0], Work):
        times, once = last.times, last.items[0]
    elif isinstance(last, Work):
        times, told = _told_often(c, last, start)
        if told is None:
            return False
        once = told
    else:
        return False
    if once.where.which is not Which.NEXT or once.where.many != 1 or once.count != 1:
        return False
    span = Span(step[0].span.start, last.span.end)
    items[k:] = [Repeat((*step, once), span, times, told_at=last.span, loose=True)]
    return True


def chain_before_each(c: Cursor, items: list[Item], found: list[Item], start: int) -> bool:
    """ "Dc in next dc, ch 1 and dc in each dc across": the chain before each; one that the row begins with is not."""
    chain, last = (items[-1] if items else None), found[0]
    if (
        len(found) != 1
        or not isinstance(chain, Chain)
        or chain.says is not None
        or not isinstance(last, Work)
        or last.where.which is not Which.EACH
        or last.excepting
        or len(last.where.kinds) > 1
        or c.tokens[start - 1].text not in ("and", "&")
        or not any(isinstance(item, (Work, Group, Repeat, Chain)) for item in items[:-1])
    ):
        return False
    where = last.where
    once = replace(last, where=replace(where, which=Which.NEXT, many=1, stop=None), joined=False)
    span = Span(chain.span.start, last.span.end)
    items[-1] = Repeat((chain, once), span, None, stop=where.stop or Stop(), told_at=last.span)
    return True


_OFTEN = frozenset("times x twice thrice ×".split())
"""Words that tell how often."""


def over_and_over(items: list[Item]) -> list[Item]:
    """Items of a row that states no count, by which to tell: what stands in it is done over and over."""
    return [
        replace(item, loose=False) if isinstance(item, Repeat) and item.loose and item.times is None else item
        for item in items
    ]


def in_every(items: list[Item], counted: bool = False) -> list[Item]:
    """ "Rnds 5-9: sc (24)": a row of one bare stitch is worked in every one, for no row is one stitch long.

    `counted`: the row tells that it makes several, so that a slip stitch too is worked in every one.
    """
    works = [k for k, item in enumerate(items) if not isinstance(item, (Say, Turning, Turn))]
    only = items[works[0]] if len(works) == 1 else None
    lone_increase = (
        isinstance(only, Work)
        and only.count > 1
        and only.where.which is Which.NEXT
        and only.where.many == 1
        and not only.where.kinds
    )
    if (
        not isinstance(only, Work)
        or only.stitch == "slst"
        and not counted
        or not lone_increase
        and (only.count != 1 or only.where.which is not Which.STRAIGHT)
    ):
        return items
    each = Where(Which.EACH, only.where.span, 0, (Kind(ANY),), stop=Stop(), loop=only.where.loop)
    return [*items[: works[0]], replace(only, where=each), *items[works[0] + 1 :]]


def ended(c: Cursor) -> bool:
    """True where the work of the row is told: nothing follows but its count or how it is closed."""
    return (
        c.kind() in ENDS
        or c.kind() is T.COMMA
        and (c.kind(1) in ENDS or c.text(1) in ("join", "turn", *SLIPS))
    )


def lead_of(items: list[Item]) -> int:
    """Where the work begins, behind the turning chain and what is said before it."""
    k = 0
    while k < len(items) and isinstance(items[k], (Say, Turning, Turn, Chain, Join)):
        k += 1
    return k


def in_next(item: Item) -> bool:
    """True for stitches that go into the next places, and for next places passed over."""
    if isinstance(item, (Group, Skip)):
        return item.where.which is Which.NEXT
    return isinstance(item, Work) and item.where.which in (Which.STRAIGHT, Which.NEXT, Which.SAME)


def told_by_number(items: list[Item]) -> None:
    """ "(sc in first 2 sts, 2 sc in the third) around": of every pass, and not of the row's first stitches."""
    for k, item in enumerate(items):
        if isinstance(item, Repeat) and any(
            isinstance(inside, Work)
            and inside.where.which is Which.NTH
            and inside.where.kinds == (Kind(ANY),)
            for inside in item.items
        ):
            items[k] = replace(item, items=tuple(one_after_another(list(item.items))))


def one_after_another(items: list[Item]) -> list[Item]:
    """ "Sc in first st, 2 sc in 2nd st": each in the next place, where they are told by their number."""
    out: list[Item] = []
    reached = 0
    for item in items:
        if isinstance(item, Work) and (
            item.where.which is Which.FIRST
            and not out
            or item.where.which is Which.NTH
            and item.where.nth == reached + 1
        ):
            item = replace(item, where=replace(item.where, which=Which.NEXT, nth=0))
        if isinstance(item, Work):
            straight = item.where.which is Which.STRAIGHT
            reached += item.count if straight else item.where.many
        out.append(item)
    return out
