"""Slip stitches before a row's first stitch: do they lead to where it begins, or are they of the row?

Items of a row come in; True goes out for what only leads.
"""

from collections.abc import Sequence

from tracker.fabric.model import CH, SP, Element
from tracker.notation.tree import (
    Chain,
    Group,
    Item,
    Join,
    Mark,
    Repeat,
    Say,
    Stop,
    Turn,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.problems import Span


def lifted(items: list[Item]) -> list[Item]:
    """ "Ch 1, turn, sl st in first 4 sts, ch 2": a chain before such slip stitches only lifts the hook."""
    told = [k for k, item in enumerate(items) if not isinstance(item, (Say, Turn, Turning, Mark))]
    if len(told) < 3 or not isinstance(first := items[told[0]], Chain) or first.count != 1:
        return items
    slips = 1
    while slips < len(told) and is_slip(items[told[slips]]):
        slips += 1
    if slips == 1 or slips == len(told) or not isinstance(items[told[slips]], Chain):
        return items
    return [*items[: told[0]], *items[told[0] + 1 :]]


def moves_on(items: Sequence[Item]) -> bool:
    """True for slip stitches into named places with a chain behind them: they lead to where the row begins."""
    k = 0
    while k < len(items) and (is_slip(items[k]) or isinstance(items[k], Turning)):
        k += 1
    slips = [item for item in items[:k] if isinstance(item, Work)]
    named = any(w.where.which in (Which.NEXT, Which.FIRST) and w.where.many < 40 for w in slips)
    return named and k < len(items) and isinstance(items[k], Chain)


def all_slips(items: Sequence[Item]) -> bool:
    """True where slip stitches go on behind a chain: "sl st in first 3 sts, ch 6, sk 1 st, sl st in last 3 sts"."""
    worked = [item for item in items if isinstance(item, (Work, Group, Repeat))]
    return bool(worked) and all(map(is_slip, worked))


def chains_on(item: Item | None) -> bool:
    """True for "*ch 16, sc in next lp; …" behind slip stitches: they lead to where the chains begin."""
    return isinstance(item, Repeat) and bool(item.items) and isinstance(item.items[0], Chain)


def off_both_ends(items: Sequence[Item]) -> bool:
    """True for "ss in first 6 sts, dc in each st to last 6 sts": an armhole, to which the slip stitches lead."""
    k = 0
    while k < len(items) and (is_slip(items[k]) or isinstance(items[k], Turning)):
        k += 1
    slipped = sum(item.where.many for item in items[:k] if isinstance(item, Work))
    worked = [item for item in items[k:] if isinstance(item, (Work, Group, Repeat))]
    last = worked[-1] if worked else None
    return (
        slipped > 1
        and len(worked) == 1
        and isinstance(last, Work)
        and last.where.stop is not None
        and last.where.stop.left > 1
        and not last.where.stop.at
    )


def off_one_end(items: Sequence[Item]) -> Span | None:
    """The first slip stitch of "sl st in first 4 sts, sc in each st to end": they shape, and lead to where it begins.

    None for any other row. Whether they are worked into as stitches the counts tell.
    """
    k = 0
    while k < len(items) and (is_slip(items[k]) or isinstance(items[k], Turning)):
        k += 1
    slips = [item for item in items[:k] if isinstance(item, Work)]
    worked = [item for item in items[k:] if isinstance(item, (Work, Group, Repeat))]
    if (
        sum(map(slipped_over, slips)) < 2
        or not all(item.where.which in (Which.NEXT, Which.FIRST, Which.STRAIGHT) for item in slips)
        or not worked
        or any(isinstance(item, Chain) for item in items[k:])
    ):
        return None
    first, *others = worked
    each = isinstance(first, Work) and first.where.which is Which.EACH
    run = isinstance(first, Work) and not others and max(first.where.many, slipped_over(first)) > 1
    once = isinstance(first, Work) and (first.count == 1 or first.where.which is Which.STRAIGHT)
    along = once and (each or run)
    shapes = all(isinstance(item, Work) and item.stitch.endswith("tog") for item in others)
    return slips[0].span if along and shapes and not is_slip(first) else None


def slipped_over(slip: Work) -> int:
    """How many stitches "sl st in next 3 sts", "3 sl st" goes into."""
    return slip.count if slip.where.which is Which.STRAIGHT else slip.where.many


def in_each_space(slip: Item, follows: Item | None) -> bool:
    """True for "sl st in next lp, 5 sc in each lp around": the slip stitch leads to the first of them.

    So it does in "sl st in ch-3 sp, *(dc, picot, dc) in ch-3 sp, …": no next one is told.
    """
    repeated = isinstance(follows, Repeat) and bool(follows.items)
    if isinstance(follows, Repeat) and follows.items:
        follows = follows.items[0]
    return (
        isinstance(slip, Work)
        and isinstance(follows, (Work, Group))
        and (follows.where.which is Which.EACH or repeated and follows.where.nth == -1)
        and bool(follows.where.kinds)
        and all(kind.name == SP for kind in (*slip.where.kinds[-1:], *follows.where.kinds))
    )


def into_the_loop(slips: Sequence[Item], follows: Item | None) -> bool:
    """True for "sl st in next 3 ch, sc in loop, …": along the chains of a loop to its middle, and into it."""
    last = next((item for item in reversed(slips) if isinstance(item, Work)), None)
    if last is None or not isinstance(follows, (Work, Group)) or [k.name for k in last.where.kinds] != [CH]:
        return False
    bare = follows.where.which is Which.NEXT and follows.where.nth == -1 or follows.where.which is Which.RING
    return bare and all(kind.name == SP for kind in follows.where.kinds)


def closed_behind(follows: Item | None, behind: Sequence[Item]) -> bool:
    """True where the round is closed in the first stitch behind its slip stitches: so they are none of it."""
    ends = behind[-1] if behind else None
    if isinstance(ends, Repeat) and ends.ending is not None:
        behind = ends.ending.items
    join = next((item for item in reversed(behind) if not isinstance(item, (Say, Mark))), None)
    return (
        isinstance(follows, Work)
        and follows.stitch != "slst"
        and isinstance(join, Join)
        and join.where is not None
        and join.where.which is Which.FIRST
        and [kind.name for kind in join.where.kinds] == [follows.stitch]
    )


def is_slip(item: Item) -> bool:
    """True for a slip stitch, and for what may be said between two of them."""
    return isinstance(item, (Say, Mark)) or isinstance(item, Work) and item.stitch == "slst"


def goes_further(items: Sequence[Item]) -> bool:
    """True where the first stitch behind a chain that does not count is told to go in the next one."""
    first = next((i for i in items if not isinstance(i, (Say, Mark, Chain, Turning))), None)
    return (
        isinstance(first, (Work, Group))
        and first.where.which is Which.NEXT
        and first.where.nth == 0
        and any(kind.name not in (SP, "corner", "corner sp") for kind in first.where.kinds)
    )


def leaves_it(items: Sequence[Item]) -> bool:
    """True for "ch 1, sc in each st …" behind slip stitches along a row: it need not begin in the last of them."""
    chain = items[0] if items else None
    told = next((i for i in items[1:] if not isinstance(i, (Say, Mark, Turning))), None)
    return (
        isinstance(chain, Chain)
        and chain.count == 1
        and isinstance(told, Work)
        and told.where.which in (Which.EACH, Which.NEXT)
        and told.where.nth == 0
        and all(kind.name not in (SP, "corner", "corner sp", "ch") for kind in told.where.kinds)
    )


def placed_here(item: Item) -> bool:
    """True for what is worked where the hook is: "in same st"."""
    if isinstance(item, (Work, Group)):
        return item.where.which is Which.SAME
    return isinstance(item, Repeat) and bool(item.items) and placed_here(item.items[0])


def every_space(below: Sequence[Element], slipped: Where, behind: Sequence[Item]) -> bool:
    """True where the space slipped into is one of those that a round works "in next sp", having nothing in it yet.

    "Sl st in first sp, ch 1, *5 sc in next sp; rep from * around": every space of the round, whichever is the first.
    """
    works = [item for item in behind if not isinstance(item, (Say, Mark, Turning))]
    if works and isinstance(works[0], Chain) and works[0].count == 1:
        works = works[1:]
    first = works[0] if works else None
    if not isinstance(first, Repeat) or not first.items or first.stop not in (None, Stop()):
        return False
    often = first.times or (first.further + 1 if first.further is not None else None)
    inside = first.items[0]
    if (
        not isinstance(inside, (Work, Group))
        or inside.where.which is not Which.NEXT
        or any(
            isinstance(item, Group) or isinstance(item, Work) and item.stitch != "slst" for item in works[1:]
        )
    ):
        return False
    kinds = [kind.name for kind in (*slipped.kinds[:1], *inside.where.kinds)]
    return kinds == [SP, SP] and often in (None, sum(e.kind == SP for e in below))
