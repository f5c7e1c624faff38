"""Closing a round, travelling to a new beginning, going on along another edge."""

from collections.abc import Sequence

from tracker.fabric.below.cursor import Below
from tracker.fabric.below.gaps import one_place
from tracker.fabric.below.stops import limit_of
from tracker.fabric.below.surface import Missing
from tracker.fabric.model import CH, HIDDEN, SP
from tracker.fabric.working.hook import MAX_ELEMENTS, Hook
from tracker.fabric.working.places.taking import base_edge, in_its_group, take_up
from tracker.fabric.working.turning import height_in_row
from tracker.notation.tree import ANY, Edge, Item, Join, Kind, Travel, Turning, Which
from tracker.records import replace


def join(hook: Hook, item: Join, rest: Sequence[Item]) -> None:
    """Closes a round; a taller stitch that closes it is part of its last space."""
    if item.stitch in ("slst", "magic"):
        return
    says = rest[0] if rest and isinstance(rest[0], Turning) else None
    last = hook.made[-1] if hook.made else None
    height = height_in_row(item.stitch)
    open_space = last is not None and last.kind == SP
    chains = (says.space if says is not None and says.counts and says.space else 0) or _closed_to(
        hook, height
    )
    if says is not None and says.counts and says.as_stitch and not says.space:
        hook.make(item.stitch, ())
        return
    if open_space and not hook.ask(("join apart", item.span.start), (False, True)):
        assert last is not None
        hook.made[-1] = replace(last, chains=chains)
    elif open_space:
        hook.make(item.stitch, ())
    else:
        hook.make(SP, (), chains)
    hook.ends_in_space = True


def _closed_to(hook: Hook, height: int) -> int:
    """Chains of the space that a closing stitch completes: as many as the round's other spaces, where that may be."""
    last = hook.made[-1] if hook.made else None
    open_chains = last.chains if last is not None and last.kind == SP else 0
    widest = max((e.chains for e in hook.made[:-1] if e.kind == SP), default=0)
    if open_chains < widest <= open_chains + height + 1:
        return widest
    return open_chains + height


def travel(hook: Hook, item: Travel, rest: Sequence[Item]) -> None:
    """Moves to a new beginning without making anything."""
    below = hook.below
    if item.fresh and hook.ground.left and not below.n:
        take_up(hook)
    start: int | None = None
    for where in item.where:
        where = in_its_group(hook, where)
        if where.which is Which.RING and not below.ring and below.has_spaces():
            # "sl st in loop": one of the row below
            where = replace(where, which=Which.NEXT, kinds=(Kind(SP),))
        kind = where.kinds[0] if where.kinds else Kind(ANY)
        if (
            where.which is Which.TOP
            and kind.name == SP
            and below.find(kind, below.at, hook.limit) is not None
        ):
            # "sl st to 3rd ch of first ch-5": of a space where there is one, and not of the chain the round began with
            where = replace(where, which=Which.NEXT)
        if kind.name == "corner" and not below.has_corners() and below.has_spaces():
            # the spaces of a ring, none of which was made in one place
            kind = Kind("corner sp", kind.chains)
        if item.fresh and kind.name == "corner" and not below.closed and not below.has_corners():
            # "join B in any corner" of flat cloth: where its last row begins
            continue
        if where.loop.startswith("free") and -where.down in hook.ground.earlier:
            elements = tuple(e for e in hook.ground.earlier[-where.down] if e.is_stitch)
            hook.below = below = Below(elements, True)
            below.free = True
            start = 0
            continue
        if where.down < 0 and where.which in (Which.NEXT, Which.FIRST, Which.MADE):
            # "sl st around post of next dc of Rnd 2": into an earlier row, with the row below left behind
            hook.taken_below[-where.down] = hook.taken_below.get(-where.down, 0) + where.many
            continue
        if where.which is Which.EACH and where.stop is not None and where.stop.at:
            start = min(below.n - 1, limit_of(below, where.stop))
            continue
        if where.which is Which.BETWEEN:
            start = max(1, below.at)
            while start + 1 < below.n and one_place(below.elements[start - 1], below.elements[start]):
                start += 1
            below.gap = start - 1
            continue
        if kind.name == SP and below.sub and below.matches(below.elements[below.at], kind):
            # "sl st in next 2 ch and in ch-5 sp": the chains are that space's own
            start, below.sub = below.at, 0
            below.at, below.here = start + 1, start
            continue
        try:
            if where.which is Which.LAST:
                start = below.from_end(1, (kind,))
            elif where.which in (Which.SAME, Which.TOP):
                start = below.here if below.here is not None else 0
            elif where.which in (Which.NEXT, Which.FIRST, Which.NTH):
                if where.which is not Which.NEXT or item.fresh:
                    below.at = below.at if where.which is Which.NEXT else 0
                if len(where.kinds) == 2 and where.kinds[1].inside:
                    try:
                        start = below.in_group(kind, where.kinds[1])
                    except Missing:
                        if where.nth != -2:
                            raise
                        # "in 4th sc of any petal", where they stand in no groups any more
                        start, _ = below.take(kind, hook.limit)
                    continue
                for _ in range(min(where.nth if where.which is Which.NTH else where.many, MAX_ELEMENTS)):
                    start, _ = below.take(kind if kind.name != "group" else Kind(ANY), hook.limit)
        except Missing as missing:
            if not below.ring and below.n:
                hook.fault(missing.code, item.span, missing.says, "not there")
    if start is None or not 0 <= start < below.n:
        # told to slip to a corner of nothing, as in a text torn off before its foundation
        return
    if below.closed:
        # the round begins here; what was travelled over comes at its end, and may be left
        passed = tuple(replace(e, slipped=True) if e.kind != HIDDEN else e for e in below.elements[:start])
        between = item.fresh and below.gap >= 0
        if (
            between
            or hook.last_named
            and start
            and hook.ask(("slipped come last", item.span.start), (False, True))
        ):
            # yarn joined between two stitches: the one before it is the last of the round
            passed = below.elements[:start]
        if item.fresh and not between:
            # but for what is left of the group in whose middle the round begins
            first = below.elements[start]
            own = first.group if first.group and first.is_stitch else -1
            passed = tuple(
                was if was.group != own else gone for was, gone in zip(below.elements, passed, strict=False)
            )
        below.elements = (*below.elements[start:], *passed)
        below.at, below.sub, below.here = 0, 0, 0
        if below.gap >= 0:
            below.gap, below.here, below.at = 0, None, 0
        if below.elements and below.elements[0].kind == SP:
            below.at = 1
    elif (
        not item.fresh
        and start + 1 < below.n
        and hook.ask(("after slip stitches", item.span.start), (False, True))
    ):
        # "sl st over 4, ch 1, sc in each": the first stitch goes in the one after the slip stitches
        below.at, below.sub, below.here = start + 1, 0, start + 1
    else:
        below.at, below.sub, below.here = start, 0, start


def edge(hook: Hook, item: Edge, rest: Sequence[Item]) -> None:
    """Moves on to another edge of the work."""
    chain = any(e.kind == CH for e in hook.below.elements)
    on_chain = chain and (item.name == "other" or item.name == "side" and not hook.ground.row_ends)
    if item.name == "base" or on_chain:
        # "working on opposite side" of a chain, which has no other edge
        base_edge(hook)
    elif item.name in ("side", "top"):
        hook.on_side = item.name == "side" and not any(e.into for e in hook.made)
        hook.edge_used = True
    elif item.name == "free" and item.row in hook.ground.earlier and item.row != hook.ground.last_number:
        # loops that an earlier row left: they stand as its stitches did
        there = Below(tuple(e for e in hook.ground.earlier[item.row] if e.is_stitch), hook.below.closed)
        there.free = True
        hook.below = there
