"""The last pass of a repeat that goes round: where it lands, and what it does without where the round began.

A hook before that pass and the body of the repeat come in; how many passes were worked comes out, or how many items the
last one is without.
"""

from collections.abc import Sequence

from tracker.fabric.below.gaps import between_groups
from tracker.fabric.below.surface import Missing
from tracker.fabric.model import HIDDEN, SP
from tracker.fabric.working.hook import Hook
from tracker.fabric.working.repeats.passes import one_pass
from tracker.notation.tree import Chain, Group, Item, Kind, Repeat, Say, Skip, Stop, Which, Work
from tracker.records import replace


def chain_follows(body: Sequence[Item], rest: Sequence[Item]) -> bool:
    """True for "*ch 1, sk next sc, sc in next sp; rep from * around, ch 1; join": the last chain is told apart."""
    ahead = next((item for item in rest if not isinstance(item, Say)), None)
    return isinstance(ahead, Chain) and any(
        isinstance(item, Chain) and item.count == ahead.count for item in body
    )


def closes_in_the_first(hook: Hook, body: Sequence[Item], end: int) -> int:
    """How many items of its last pass a round does without where they would be what it began with; 0 for none."""
    last = body[-1] if body else None
    first = next((e for e in hook.made if e.is_stitch), None)
    for tail in range(1, len(body)) if hook.below.closed and first is not None else ():
        # "*…, shell in next shell; rep from * around; join": the last of them is what the round began with
        if _as_begun(hook, body[-tail:]) and _last_pass(hook, body[:-tail], end, hook.silent):
            return tail
    inside = isinstance(last, Work) and len(last.where.kinds) > 1 and bool(last.where.kinds[1].inside)
    if (
        not hook.below.closed
        or len(body) < 2
        or not isinstance(last, Work)
        or last.where.which is not Which.NEXT
        or last.count != 1
        or last.where.many != 1
        and last.stitch != "slst"
        or first is None
        or last.stitch != "slst"
        and (last.stitch != first.kind or first.into != (0,) and not inside)
    ):
        return 0
    # "sc in 3rd dc of next petal", where the round began in the 3rd dc of the first
    before = body[:-1]
    if last.where.many > 1:
        # "sl st in next 2 sts": the second of them is where the round began
        before = [*before, replace(last, where=replace(last.where, many=last.where.many - 1))]
    return _last_pass(hook, before, end, hook.silent if inside else 0)


def ends_in_hand(hook: Hook, body: Sequence[Item], rest: Sequence[Item], end: int) -> int:
    """ "*ch 2, dc in same sp, sl st in next sp; rep from * around": a last pass whose slip stitch joins: 1, or 0."""
    below, last = hook.below, body[-1] if body else None
    first = next((e for e in hook.made if e.is_stitch), None)
    works = [item for item in body[:-1] if not isinstance(item, (Chain, Say))]
    if (
        not below.closed
        or below.here in (None, 0)
        or first is None
        or not isinstance(last, Work)
        or last.where.which not in (Which.NEXT, Which.STRAIGHT)
        or last.count * last.where.many != 1
        or last.stitch != "slst"
        and (last.stitch != first.kind or first.into != (0,))
        or not works
        or not all(isinstance(i, (Work, Group)) and i.where.which is Which.SAME for i in works)
        or any(isinstance(i, (Chain, Work, Group, Repeat)) for i in rest)
        or below.unsaid(below.at, end) > hook.silent
        or any(e.kind == SP and not e.slipped for e in below.elements[below.at : end])
    ):
        return 0
    one_pass(hook, body[:-1], ())
    return 1


def same_chain(items: Sequence[Item], others: Sequence[Item]) -> bool:
    """True where a pass ends with the one chain that is told, be it over what is skipped."""
    last = next((item for item in reversed(items) if not isinstance(item, Skip)), None)
    only = others[0] if len(others) == 1 else None
    return isinstance(last, Chain) and isinstance(only, Chain) and last.count == only.count


_MOST = 60
"""Elements of a group that is compared with another."""


def _spelled(items: Sequence[Item]) -> list[str]:
    """What a group makes, as counts list it; nothing where that is more than plain stitches and chains."""
    told: list[str] = []
    for item in items:
        more: list[str] = []
        if isinstance(item, Chain):
            more = [f"ch-{item.count} sp"]
        elif isinstance(item, Work) and item.where.which in (Which.STRAIGHT, Which.SAME):
            more = [item.stitch] * min(item.count, _MOST)
        elif isinstance(item, Repeat) and item.times is not None:
            more = _spelled(item.items) * min(item.times, _MOST)
        if not more or len(told) + len(more) > _MOST:
            return []
        told += more
    return told


def _as_begun(hook: Hook, tail: Sequence[Item]) -> bool:
    """True for the end of a pass that makes what the round made first: "shell in next ch-2 sp, ch 1, shell in next"."""
    told: list[str] = []
    for item in tail:
        where = item.where if isinstance(item, (Work, Group)) else None
        special = hook.ground.specials.get(item.stitch) if isinstance(item, Work) else None
        inside = item.items if isinstance(item, Group) else special.items if special is not None else (item,)
        if (
            where is None
            and (item is tail[0] or not isinstance(item, Chain))
            or where is not None
            and (where.which is not Which.NEXT or where.many != 1 or not where.kinds or len(inside) < 2)
        ):
            return False
        told += _spelled(inside) or ["?"]
    begun = hook.made[: len(told)]
    into = begun[0].into if begun else ()
    return (
        len(into) == 1
        and hook.below.elements[into[0]].kind == SP
        and [element.name for element in begun] == told
    )


def lands_in_the_first(hook: Hook, body: Sequence[Item], end: int) -> int:
    """ "*4 dc in next loop, dc in cluster; rep from *": the last of them in the first, if nothing is there: 1, or 0."""
    below, last = hook.below, body[-1] if body else None
    if (
        not below.closed
        or len(body) < 2
        or not below.n
        or not isinstance(last, Work)
        or last.where.which is not Which.NEXT
        or last.count * last.where.many != 1
        or len(last.where.kinds) != 1
        or below.elements[0].kind in (SP, HIDDEN)
        or not below.matches(below.elements[0], last.where.kinds[0])
        or any(0 in element.into for element in hook.made)
        or not _last_pass(hook, body[:-1], end)
    ):
        return 0
    before, at = len(hook.made), below.at
    hook.make(last.stitch, (0,))
    hook.step(last, before, at)
    return 1


def landed(hook: Hook, item: Repeat, body: tuple[Item, ...], end: int) -> int:
    """Works a last pass whose last stitch goes where the ending says, when it has no place else: 1, or 0 for none."""
    ending, last = item.ending, body[-1] if body else None
    if (
        ending is None
        or ending.how != "landing"
        or ending.where is None
        or not isinstance(last, (Work, Group))
    ):
        return 0
    if _last_pass(hook, (*body[:-1], replace(last, where=ending.where)), end):
        return 1
    below, named = hook.below, ending.where.kinds[0].name if ending.where.kinds else ""
    two = below.elements[-2:] if named == SP and end >= below.n > 1 else ()
    if [e.kind == SP for e in two] == [True, False] and all(e.turning for e in two):
        # "working last sc in tch sp": around the chain, whose stitch is passed with it
        into = replace(ending.where, which=Which.NEXT, kinds=(Kind(SP, two[0].chains),))
        if _last_pass(hook, (*body[:-1], replace(last, where=into)), end, 1):
            return 1
    if named != SP or not below.n or below.elements[-1].kind != HIDDEN or below.elements[-1].chains < 2:
        return 0
    # "working last sc in ch-2 sp", where that is the chain the row below begins with and nothing counts
    top = replace(ending.where, which=Which.TOP, kinds=())
    return _last_pass(hook, (*body[:-1], replace(last, where=top)), end)


def ends_where_begun(hook: Hook, item: Repeat, body: tuple[Item, ...]) -> int:
    """ "…, working last sc in same lp as sl sts": into the space the round began in, if nothing is there: 1, or 0."""
    ending, last = item.ending, body[-1] if body else None
    below = hook.below
    if (
        ending is None
        or ending.how != "landing"
        or ending.where is None
        or ending.where.which not in (Which.SAME, Which.FIRST)
        or not isinstance(last, (Work, Group))
        or not (below.closed and below.elements[0].kind == SP)
        or any(0 in element.into for element in hook.made)
    ):
        return 0
    there = replace(ending.where, nth=-3) if ending.where.which is Which.SAME else ending.where
    one_pass(hook, (*body[:-1], replace(last, where=there)), ())
    return 1


def runs_to_the_end(hook: Hook, body: Sequence[Item], end: int, turn: int) -> int:
    """ "*Sc in each sc to corner sc, 3 sc in corner sc; rep from * around": behind the last corner no more than the run
    is left: 1, or 0."""
    run = body[0] if body else None
    below = hook.below
    if (
        not turn
        or not below.closed
        or end < below.n
        or not isinstance(run, Work)
        or run.where.which is not Which.EACH
        or run.where.stop is None
        or run.where.stop.at not in ("corner", "center", "space")
    ):
        return 0
    return _last_pass(hook, (replace(run, where=replace(run.where, stop=Stop())),), end)


def between_last_and_first(hook: Hook, body: Sequence[Item], rest: Sequence[Item]) -> bool:
    """True for "*ch 7, sl st between petals; rep from * around" with all gaps used but that where the round began."""
    below, last = hook.below, body[-1] if body else None
    return (
        below.closed
        and below.n > 1
        and below.at >= below.n
        and isinstance(last, Work)
        and last.where.which is Which.BETWEEN
        and len(last.where.kinds) > 1
        and last.where.many == 1
        and not any(isinstance(item, (Chain, Work, Group)) for item in rest)
        and not any(0 in element.into for element in hook.made)
        and between_groups((*below.elements[-2:], *below.elements[:2]), 2)
    )


def _last_pass(hook: Hook, body: Sequence[Item], end: int, over: int = 0) -> int:
    """Works one pass more and gives 1, when the row comes out with it; else nothing is worked."""
    mark = hook.mark()
    try:
        one_pass(hook, body, ())
    except Missing:
        hook.back(mark)
        return 0
    if hook.below.unsaid(hook.below.at, end, over + 1) > over or hook.below.at == mark.at:
        hook.back(mark)
        return 0
    return 1
