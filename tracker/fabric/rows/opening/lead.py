"""What leads into a row: slip stitches to its beginning, a fresh start, the turning chain."""

from collections.abc import Mapping, Sequence

from tracker.fabric.below.cursor import Below
from tracker.fabric.model import HIDDEN, SP, Step
from tracker.fabric.rows.beginning import names_last
from tracker.fabric.rows.close import to_the_end
from tracker.fabric.rows.opening.cluster import begun_by_chain, stitches_of, with_the_chain, work_begun
from tracker.fabric.rows.opening.earlier import into_earlier
from tracker.fabric.rows.opening.rising import turning_chain, under_chain
from tracker.fabric.standing import Standing
from tracker.fabric.working.hook import Choice, Hook
from tracker.fabric.working.running import run, works_back
from tracker.notation.tree import (
    Chain,
    Edge,
    Group,
    Item,
    Join,
    Kind,
    Mark,
    Repeat,
    Row,
    Say,
    Skip,
    Travel,
    Turn,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.records import replace
from tracker.trade.stitches import STITCHES


def _lifted(items: list[Item]) -> list[Item]:
    """ "Ch 1, turn, sl st in first 4 sts, ch 2": a chain before such slip stitches only lifts the hook."""
    told = [k for k, item in enumerate(items) if not isinstance(item, (Say, Turn, Turning, Mark))]
    if len(told) < 3 or not isinstance(first := items[told[0]], Chain) or first.count != 1:
        return items
    slips = 1
    while slips < len(told) and _slips(items[told[slips]]):
        slips += 1
    if slips == 1 or slips == len(told) or not isinstance(items[told[slips]], Chain):
        return items
    return [*items[: told[0]], *items[told[0] + 1 :]]


def lead(
    row: Row,
    hook: Hook,
    items: list[Item],
    standing: Standing,
    habits: Mapping[object, Choice],
) -> list[Item]:
    """Works what leads into the row; gives the items that are left."""
    below = hook.below
    items = gathered(_lifted(first_as_told(items)))
    hook.last_named = below.closed and any(map(names_last, items))
    k = 0
    travelled = False
    while k < len(items):
        item = items[k]
        if isinstance(item, (Say, Mark, Turn, Turning, Edge)):
            run(hook, [item])
            k += 1
            continue
        if (
            isinstance(item, Join)
            and item.where is not None
            and item.where.which is not Which.RING
            and not hook.made
            and (item.stitch == "slst" or any(isinstance(i, (Work, Group, Repeat)) for i in items[k + 1 :]))
        ):
            if item.stitch != "slst":
                # "join with sc in first sc, …" where a round begins: the yarn is joined with its first stitch
                here = Where(Which.SAME, item.span, loop=item.where.loop)
                items = [*items[: k + 1], *_more_there(Work(item.stitch, 1, here, item.span), items[k + 1 :])]
            item = Travel((item.where,), item.span, fresh=True)
        if (
            isinstance(item, Skip)
            and k + 1 < len(items)
            and any(isinstance(i, Travel) for i in items[k + 1 : k + 3])
        ):
            fresh = next(i for i in items[k + 1 : k + 3] if isinstance(i, Travel)).fresh
            if fresh and hook.ground.left and row.kind == "row":
                # "sk next 9 unworked sts, join yarn in next st": in what an earlier row left
                _onto_what_is_left(hook, item, standing)
            run(hook, [item])
            k += 1
            continue
        if isinstance(item, Travel):
            if item.fresh and hook.ground.left and row.kind == "row":
                _onto_what_is_left(hook, item, standing)
            item = into_earlier(hook, item, items[k + 1 :])
            below = hook.below
            run(hook, [item])
            travelled = bool(item.where)
            k += 1
            continue
        if isinstance(item, Work) and item.stitch == "slst" and item.where.nth == -2 and below.n:
            # "with B, sl st in any dc": the yarn is joined there
            run(hook, [Travel((replace(item.where, nth=0),), item.span, fresh=True)])
            travelled = True
            k += 1
            continue
        if isinstance(item, (Work, Group)) and item.where.nth == -2 and below.n and not below.ring:
            # "standing dc in any ch-1 sp": the round begins there
            run(hook, [Travel((replace(item.where, nth=0),), item.span, fresh=True)])
            return [replace(item, where=replace(item.where, which=Which.SAME, nth=0)), *items[k + 1 :]]
        ahead = items[k + 1 :]
        if (
            isinstance(item, Chain)
            and item.count == 1
            and not below.closed
            and (_moves_on(ahead) or _off_both_ends(ahead))
        ):
            # "ch 1, turn, sl st in first ch-3 sp, ch 1, …": the chain goes nowhere
            k += 1
            continue
        if isinstance(item, Work) and item.stitch == "slst":
            last = k
            while last < len(items) and _slips(items[last]):
                last += 1
            follows = items[last] if last < len(items) else None
            if (
                isinstance(follows, Chain)
                and (below.closed or not _all_slips(items[last + 1 :]))
                and not to_the_end(items[k])
                or below.closed
                and _chains_on(follows)
                or (isinstance(follows, (Group, Work, Repeat)) and placed_here(follows))
                or (isinstance(follows, Group) and rises(follows))
                or not below.closed
                and _off_both_ends(items[k:])
                or (isinstance(follows, Work) and follows.stitch.startswith("beg"))
                or below.closed
                and _in_each_space(items[last - 1], follows)
            ):
                wheres = tuple(i.where for i in items[k:last] if isinstance(i, Work))
                if (
                    below.closed
                    and below.n
                    and below.elements[0].kind != SP
                    and any(w.which is not Which.FIRST for w in wheres[:1])
                ):
                    below.at = 1
                run(hook, [Travel(wheres, item.span)])
                travelled = True
                k = last
                if (
                    below.closed
                    and wheres
                    and not any(kind.name in (SP, "corner sp") for kind in wheres[-1].kinds)
                    and _goes_further(items[k:])
                    and hook.ask(("past slip stitches", item.span.start), (True, False))
                ):
                    # "sl st in next 2 dc, ch 1, sc in next dc": not in the one the hook is in
                    below.at = max(below.at, 1)
                continue
        break
    if below.closed and not travelled and not hook.made:
        begun = next((i for i in items[k:] if not isinstance(i, (Chain, Say, Mark, Turning))), None)
        inside = begun.items[0] if isinstance(begun, Repeat) and begun.items else begun
        if (
            isinstance(inside, (Work, Group))
            and begun is not inside
            and inside.where.kinds
            and inside.where.which is Which.NEXT
            and below.n
            and inside.where.kinds[0].name != SP
            and _lies_further(below, inside.where.kinds[0])
            and hook.ask("begins further on", (False, True))
        ):
            # "*sc in next dc, dc in next sc" where a sc comes first
            run(hook, [Travel((replace(inside.where, many=1, nth=0),), inside.span)])
            below.elements = tuple(replace(e, slipped=False) for e in below.elements)
        if (
            isinstance(begun, (Work, Group))
            and begun.where.which in (Which.NEXT, Which.FIRST)
            and begun.where.kinds
            and below.n
            and _lies_further(below, begun.where.kinds[0])
            and hook.ask("begins further on", (False, True))
        ):
            # "ch 1, 2 sc in ch-2 sp": what lies before it is met again at the end of the round
            run(hook, [Travel((replace(begun.where, many=1, nth=0),), begun.span)])
            travelled = True
            at = items.index(begun)
            items = [*items[:at], replace(begun, where=replace(begun.where, nth=-1)), *items[at + 1 :]]
    first = items[k] if k < len(items) else None
    behind = next((i for i in items[k + 1 :] if not isinstance(i, (Say, Mark))), None)
    if (
        isinstance(first, Chain)
        and below.closed
        and works_back(behind)
        and isinstance(behind, Work)
        and behind.where.nth < first.count
    ):
        # "ch 7, sc in 2nd ch from hook and in next 5 ch, …": an ear that grows out of the round
        return items[k:]
    if isinstance(first, Group) and not hook.made and rises(first):
        apart = taken_apart(hook, first, travelled)
        travelled = travelled or below.here is not None
        items = [*items[:k], *apart, *items[k + 1 :]]
        first = items[k]
    if (
        isinstance(first, Chain)
        and not hook.made
        and any(isinstance(i, (Work, Group, Repeat, Skip)) for i in items[k + 1 :])
    ):
        says = None
        rest = items[k + 1 :]
        cluster = begun_by_chain(hook, rest) if first.says is None else None
        if cluster is not None:
            work_begun(hook, first, rest, cluster, under_chain(hook, travelled))
            return rest[cluster[0] + 1 :]
        for j, after in enumerate(rest):
            if isinstance(after, Turning):
                says = after
                rest = [*rest[:j], *rest[j + 1 :]]
                break
            if not isinstance(after, (Say, Mark, Turn)):
                break
        turning_chain(hook, first, says or first.says, rest, habits, travelled)
        hook.steps.append(Step(first, 0, len(hook.made), 0, below.at, ()))
        return rest
    return items[k:]


def gathered(items: list[Item]) -> list[Item]:
    """The items with what is worked where the yarn is joined taken together."""
    k = next((k for k, item in enumerate(items) if not isinstance(item, (Say, Mark))), 0)
    first = items[k + 1] if k + 1 < len(items) and isinstance(items[k], Travel) else None
    if not isinstance(first, Work) or first.where.which is not Which.SAME or first.count != 1:
        return items
    return [*items[: k + 1], *_more_there(first, items[k + 2 :])]


def _more_there(first: Work, rest: list[Item]) -> list[Item]:
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


def _onto_what_is_left(hook: Hook, item: Skip | Travel, standing: Standing) -> None:
    """Goes on in stitches left unworked: those of one row, where several left some; which one shows in the counts."""
    elements, runs = standing.left, standing.left_by
    hook.ground.left = ()
    if len(runs) > 1:
        chosen = hook.ask(("left by", item.span.start), (*range(min(len(runs), 6)), -1))
        if isinstance(chosen, int) and chosen >= 0:
            start = sum(runs[:chosen])
            elements = elements[start : start + runs[chosen]]
    hook.below.elements, hook.below.n = elements, len(elements)


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
    if inside and isinstance(inside[0], Work) and inside[0].stitch == "slst":
        del inside[0]
    return (
        len(inside) > 1
        and isinstance(inside[0], Chain)
        and inside[0].count > 1
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


def _moves_on(items: Sequence[Item]) -> bool:
    """True for slip stitches into named places with a chain behind them: they lead to where the row begins."""
    k = 0
    while k < len(items) and (_slips(items[k]) or isinstance(items[k], Turning)):
        k += 1
    slips = [item for item in items[:k] if isinstance(item, Work)]
    named = any(w.where.which in (Which.NEXT, Which.FIRST) and w.where.many < 40 for w in slips)
    return named and k < len(items) and isinstance(items[k], Chain)


def _all_slips(items: Sequence[Item]) -> bool:
    """True where slip stitches go on behind a chain: "sl st in first 3 sts, ch 6, sk 1 st, sl st in last 3 sts"."""
    worked = [item for item in items if isinstance(item, (Work, Group, Repeat))]
    return bool(worked) and all(map(_slips, worked))


def _chains_on(item: Item | None) -> bool:
    """True for "*ch 16, sc in next lp; …" behind slip stitches: they lead to where the chains begin."""
    return isinstance(item, Repeat) and bool(item.items) and isinstance(item.items[0], Chain)


def _off_both_ends(items: Sequence[Item]) -> bool:
    """True for "ss in first 6 sts, dc in each st to last 6 sts": an armhole, to which the slip stitches lead."""
    k = 0
    while k < len(items) and (_slips(items[k]) or isinstance(items[k], Turning)):
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


def _in_each_space(slip: Item, follows: Item | None) -> bool:
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


def _slips(item: Item) -> bool:
    """True for a slip stitch, and for what may be said between two of them."""
    return isinstance(item, (Say, Mark)) or isinstance(item, Work) and item.stitch == "slst"


def _lies_further(below: Below, kind: Kind) -> bool:
    """True when what a round first names is not what it begins with, and lies further on."""
    first = below.elements[0]
    if kind.name in (SP, "corner sp"):
        return first.kind not in (SP, HIDDEN)
    return kind.name in STITCHES and first.kind in STITCHES and first.kind != kind.name and not first.turning


def _goes_further(items: Sequence[Item]) -> bool:
    """True where the first stitch behind a chain that does not count is told to go in the next one."""
    first = next((i for i in items if not isinstance(i, (Say, Mark, Chain, Turning))), None)
    return (
        isinstance(first, (Work, Group))
        and first.where.which is Which.NEXT
        and first.where.nth == 0
        and any(kind.name not in (SP, "corner", "corner sp") for kind in first.where.kinds)
    )


def placed_here(item: Item) -> bool:
    """True for what is worked where the hook is: "in same st"."""
    if isinstance(item, (Work, Group)):
        return item.where.which is Which.SAME
    return isinstance(item, Repeat) and bool(item.items) and placed_here(item.items[0])
