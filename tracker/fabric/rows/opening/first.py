"""What a row begins with, told in several items that are one: a chain with its stitches, stitches where yarn is joined.

Items of a row come in; the same items with the first taken together, or apart, go out.
"""

from tracker.fabric.model import SP
from tracker.fabric.rows.opening.cluster import stitches_of, with_the_chain
from tracker.fabric.working.hook import Hook
from tracker.fabric.working.running import run
from tracker.notation.tree import (
    Chain,
    Group,
    Item,
    Mark,
    Repeat,
    Say,
    Travel,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.records import replace


def gathered(items: list[Item]) -> list[Item]:
    """The items with what is worked where the yarn is joined taken together."""
    k = next((k for k, item in enumerate(items) if not isinstance(item, (Say, Mark))), 0)
    first = items[k + 1] if k + 1 < len(items) and isinstance(items[k], Travel) else None
    if not isinstance(first, Work) or first.where.which is not Which.SAME or first.count != 1:
        return items
    return [*items[: k + 1], *more_there(first, items[k + 2 :])]


def more_there(first: Work, rest: list[Item]) -> list[Item]:
    """ "Join with sc in first sc, 2 sc in same st": three in one place, and a corner."""
    after = rest[0] if rest else None
    if (
        isinstance(after, Work)
        and after.stitch == first.stitch
        and after.where.which is Which.SAME
        and not after.where.kinds[1:]
        and after.where.loop == first.where.loop
    ):
        return [replace(after, count=after.count + 1), *rest[1:]]
    return [first, *rest]


_GATHERED = ("cl", "cluster", "puff", "bo", "pop")
"""What a chain and several stitches that close together may be said to count as."""


def first_as_told(items: list[Item]) -> list[Item]:
    """ "Ch 2, 2dcCL in same st (counts as 3dcCL)": chain and stitch together are the one stitch that is named.

    So they are where it is told in movements: "ch 4, holding back last loops work 2 tr in same lp (counts as cluster)".
    """
    told = [k for k, item in enumerate(items) if not isinstance(item, Say)]
    for k, at, behind in zip(told, told[1:], told[2:], strict=False):
        chain, first, says = items[k], items[at], items[behind]
        if (
            isinstance(chain, Chain)
            and isinstance(first, Work)
            and isinstance(says, Turning)
            and first.where.which in (Which.SAME, Which.RING, Which.STRAIGHT)
            and says.counts
            and says.as_stitch
            and not says.space
            and (first.count == 1 and behind == k + 2 or says.as_stitch in _GATHERED)
        ):
            one_more = with_the_chain(first.stitch)
            named = one_more if one_more in set(stitches_of(items[behind + 1 :])) else says.as_stitch
            whole = replace(first, stitch=named, count=1)
            return [*items[:k], *items[k + 1 : at], whole, *items[at + 1 : behind], *items[behind + 1 :]]
        if isinstance(chain, (Work, Group, Repeat)) and not (
            isinstance(chain, Work) and chain.stitch == "slst"
        ):
            break
    return items


def rises(group: Group) -> bool:
    """True for "(ch 3, 2 dc, ch 2, 3 dc) in …": the chain in front is that of the row's beginning."""
    inside = [i for i in group.items if not isinstance(i, (Say, Mark, Turning))]
    if (
        len(inside) > 2
        and isinstance(inside[-1], Work)
        and inside[-1].stitch == "slst"
        and isinstance(inside[-2], Chain)
    ):
        # "(ch 3, 4 dc, ch 3, sl st) in same loop": a petal, whose chains are its sides
        return False
    slipped = bool(inside) and isinstance(inside[0], Work) and inside[0].stitch == "slst"
    if slipped:
        del inside[0]
    return (
        len(inside) > 1
        and isinstance(inside[0], Chain)
        and (inside[0].count > 1 or slipped)
        and isinstance(inside[1], Work)
        and inside[1].stitch != "slst"
        and inside[1].where.which is Which.STRAIGHT
        and (
            group.where.which in (Which.SAME, Which.FIRST)
            or group.where.which is Which.NEXT
            and group.where.many == 1
        )
    )


def taken_apart(hook: Hook, group: Group, travelled: bool) -> list[Item]:
    """The chain that begins a row and the rest of its group; the hook has gone to where both are worked."""
    below = hook.below
    inside = list(group.items)
    if isinstance(inside[0], Work):
        del inside[0]
        travelled = False
    where = group.where
    if below.closed and where.which is not Which.SAME:
        if not (travelled and _here(hook, where)):
            run(hook, [Travel((replace(where, many=1, nth=0),), group.span)])
        where = replace(where, which=Which.SAME, nth=0)
    told = next((n for n, i in enumerate(inside) if isinstance(i, Work)), 1)
    return [*inside[:told], replace(group, items=tuple(inside[told:]), where=where)]


def _here(hook: Hook, where: Where) -> bool:
    """True where the hook is at the place named: "sl st in ch-2 sp, (ch 3, …) in ch-2 sp"."""
    below = hook.below
    if below.here is None or not where.kinds:
        return False
    element, kind = below.elements[below.here], where.kinds[0]
    return below.matches(element, kind) or element.kind == SP and kind.name in ("corner", "corner sp")
