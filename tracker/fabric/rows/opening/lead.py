"""What leads into a row: slip stitches to its beginning, a fresh start, the turning chain."""

from collections.abc import Mapping

from tracker.fabric.below.cursor import Below
from tracker.fabric.model import HIDDEN, SP, Step
from tracker.fabric.rows.beginning import names_last
from tracker.fabric.rows.close import to_the_end
from tracker.fabric.rows.opening.cluster import begun_by_chain, work_begun
from tracker.fabric.rows.opening.earlier import into_earlier, left_for_last
from tracker.fabric.rows.opening.first import first_as_told, gathered, more_there, rises, taken_apart
from tracker.fabric.rows.opening.rising import turning_chain, under_chain
from tracker.fabric.rows.opening.slips import (
    all_slips,
    chains_on,
    closed_behind,
    every_space,
    goes_further,
    in_each_space,
    into_the_loop,
    is_slip,
    leaves_it,
    lifted,
    moves_on,
    off_both_ends,
    off_one_end,
    placed_here,
)
from tracker.fabric.standing import Standing
from tracker.fabric.working.hook import Choice, Hook
from tracker.fabric.working.running import run, works_back
from tracker.notation.pattern import Row
from tracker.notation.tree import (
    Chain,
    Edge,
    Group,
    Item,
    Join,
    Kind,
    Mark,
    Repeat,
    Say,
    Skip,
    Travel,
    Turn,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.problems import Span
from tracker.records import replace
from tracker.trade.stitches import STITCHES


def lead(
    row: Row,
    hook: Hook,
    items: list[Item],
    standing: Standing,
    habits: Mapping[object, Choice],
) -> list[Item]:
    """Works what leads into the row; gives the items that are left."""
    items = gathered(lifted(first_as_told(items)))
    hook.last_named = hook.below.closed and any(map(names_last, items))
    items, travelled, begun = _to_its_beginning(row, hook, items, standing)
    if begun:
        return items
    below = hook.below
    if below.closed and not travelled and not hook.made:
        items, travelled = _begun_further_on(hook, items)
    first = items[0] if items else None
    behind = next((i for i in items[1:] if not isinstance(i, (Say, Mark))), None)
    if (
        isinstance(first, Chain)
        and below.closed
        and works_back(behind)
        and isinstance(behind, Work)
        and behind.where.nth < first.count
    ):
        # "ch 7, sc in 2nd ch from hook and in next 5 ch, …": an ear that grows out of the round
        return items
    if isinstance(first, Group) and not hook.made and rises(first):
        apart = taken_apart(hook, first, travelled)
        travelled = travelled or below.here is not None
        items = [*apart, *items[1:]]
        first = items[0]
    if (
        isinstance(first, Chain)
        and not hook.made
        and any(isinstance(i, (Work, Group, Repeat, Skip)) for i in items[1:])
    ):
        says = None
        rest = items[1:]
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
    return items


def _to_its_beginning(
    row: Row, hook: Hook, items: list[Item], standing: Standing
) -> tuple[list[Item], bool, bool]:
    """Goes to where the row begins; gives what is left, whether the hook has moved, and whether all is led in."""
    below = hook.below
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
                items = [*items[: k + 1], *more_there(Work(item.stitch, 1, here, item.span), items[k + 1 :])]
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
            left_for_last(hook, item, items[k + 1 :])
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
            at_place = replace(item, where=replace(item.where, which=Which.SAME, nth=0))
            return [at_place, *items[k + 1 :]], True, True
        ahead = items[k + 1 :]
        if (
            isinstance(item, Chain)
            and item.count == 1
            and not below.closed
            and (moves_on(ahead) or off_both_ends(ahead) or _shapes_one_end(hook, ahead))
        ):
            # "ch 1, turn, sl st in first ch-3 sp, ch 1, …": the chain goes nowhere
            k += 1
            continue
        if isinstance(item, Work) and item.stitch == "slst":
            last = k
            while last < len(items) and is_slip(items[last]):
                last += 1
            follows = items[last] if last < len(items) else None
            if isinstance(follows, Chain) and last + 1 < len(items) and works_back(items[last + 1]):
                # "sl st in first st, ch 6, sc in 2nd ch from hook …": a leaf that stands on it
                break
            if (
                isinstance(follows, Chain)
                and (below.closed or not all_slips(items[last + 1 :]))
                and not to_the_end(items[k])
                or below.closed
                and chains_on(follows)
                or (isinstance(follows, (Group, Work, Repeat)) and placed_here(follows))
                or (isinstance(follows, Group) and rises(follows))
                or not below.closed
                and (off_both_ends(items[k:]) or _shapes_one_end(hook, items[k:]))
                or (isinstance(follows, Work) and follows.stitch.startswith("beg"))
                or below.closed
                and (
                    in_each_space(items[last - 1], follows)
                    or into_the_loop(items[k:last], follows)
                    or closed_behind(follows, items[last:])
                )
            ):
                wheres = tuple(
                    replace(i.where, which=Which.NEXT, many=i.count)
                    if i.where.which is Which.STRAIGHT
                    else i.where
                    for i in items[k:last]
                    if isinstance(i, Work)
                )
                if (
                    below.closed
                    and below.n
                    and below.elements[0].kind != SP
                    and any(w.which is not Which.FIRST for w in wheres[:1])
                ):
                    below.at = 1
                run(
                    hook,
                    [Travel(wheres, Span(item.span.start, max(item.span.end, items[last - 1].span.end)))],
                )
                travelled = True
                if not below.closed and _shapes_one_end(hook, items[k:]):
                    below.at += 1
                k = last
                if below.closed and wheres and every_space(below.elements, wheres[-1], items[k:]):
                    below.at = 0
                if (
                    below.closed
                    and wheres
                    and not any(kind.name in (SP, "corner sp") for kind in wheres[-1].kinds)
                    and goes_further(items[k:])
                    and hook.ask(("past slip stitches", item.span.start), (True, False))
                ):
                    # "sl st in next 2 dc, ch 1, sc in next dc": not in the one the hook is in
                    below.at = max(below.at, 1)
                if (
                    not below.closed
                    and isinstance(follows, Chain)
                    and leaves_it(items[k:])
                    and hook.ask(("past slip stitches", item.span.start), (True, False))
                ):
                    # "sl st in first 2 sts, ch 1, sc in each st to last 2 sts": two are left at either end
                    below.at += 1
                continue
        break
    return items[k:], travelled, False


def _shapes_one_end(hook: Hook, items: list[Item]) -> bool:
    """True where a row begins with slip stitches that are no stitches of it, as far as the counts tell."""
    slipped = off_one_end(items)
    first = next((item for item in items if isinstance(item, Work)), None)
    upon = next((e for e in hook.below.elements[hook.below.at :] if e.kind != HIDDEN), None)
    if first is not None and (first.where.loop or upon is not None and upon.kind == "slst"):
        # a rib of slip stitches: through one loop, or each upon another
        return False
    return slipped is not None and bool(hook.ask(("slips lead", slipped.start), (True, False)))


def _begun_further_on(hook: Hook, items: list[Item]) -> tuple[list[Item], bool]:
    """Goes to the first stitch of a kind that lies further along a round; gives the items, and whether it went."""
    below = hook.below
    travelled = False
    begun = next((i for i in items if not isinstance(i, (Chain, Say, Mark, Turning))), None)
    inside = begun.items[0] if isinstance(begun, Repeat) and begun.items else begun
    if (
        isinstance(inside, (Work, Group))
        and begun is not inside
        and inside.where.kinds
        and inside.where.which is Which.NEXT
        and below.n
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
    return items, travelled


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


def _lies_further(below: Below, kind: Kind) -> bool:
    """True when what a round first names is not what it begins with, and lies further on."""
    first = below.elements[0]
    if kind.name in (SP, "corner sp"):
        return first.kind not in (SP, HIDDEN)
    return kind.name in STITCHES and first.kind in STITCHES and first.kind != kind.name and not first.turning
