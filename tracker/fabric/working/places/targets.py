"""The places that a Where names, as indices into the row below.

Every place is a tuple of the indices it takes: one for most stitches, several for a decrease, none for a ring or
an edge that is not counted. A place that is not there raises Missing, which the runner turns into a problem.
"""

from collections.abc import Sequence

from tracker.fabric.below.surface import UNLIMITED, Missing, named
from tracker.fabric.model import CH, HIDDEN, SP
from tracker.fabric.working.hook import MAX_ELEMENTS, Hook
from tracker.fabric.working.places.each import each
from tracker.fabric.working.places.earlier import (
    free_count,
    over,
    passed_behind,
    skipped_left,
)
from tracker.fabric.working.places.landing import between, from_hook, gaps_for, jump, same, top
from tracker.fabric.working.places.taking import (
    a_row_lower,
    base_edge,
    between_edges,
    by_any_name,
    edge_for,
    go_between,
    in_hand,
    in_its_group,
    take,
    take_up,
    unused_here,
)
from tracker.notation.tree import ANY, SKIPPED, Chain, Group, Item, Kind, Say, Where, Which, Work
from tracker.records import replace

_TALLER = ("hdc", "dc", "tr", "dtr")
"""Stitches that close a round in place of a slip stitch and the chains before it."""


def _closed_the_round(hook: Hook, where: Where) -> bool:
    """True where a round begins in a loop, and its first stitch in a taller one of which none stands there."""
    below = hook.below
    if (
        not below.closed
        or len(where.kinds) != 1
        or where.kinds[0].name not in _TALLER
        or where.many != 1
        or any(element.into for element in hook.made)
    ):
        return False
    first = next((element for element in below.elements if element.kind != HIDDEN), None)
    return first is not None and first.kind == SP and below.find(where.kinds[0], 0) is None


def targets(
    hook: Hook, where: Where, item: Item, rest: Sequence[Item], per: int = 1
) -> list[tuple[int, ...]]:
    """Every place a Where names, each as the indices it takes; () for rings and edges that are not counted."""
    where = in_its_group(hook, where)
    which = where.which
    if hook.pieces:
        if which is Which.EACH:
            hook.unread = True
        return [()] * max(1, min(where.many, MAX_ELEMENTS))
    if where.loop == "base" and not hook.other_side:
        base_edge(hook)
        if not any(e.kind == CH for e in hook.below.elements):
            # chains made in the middle of an earlier row, from below
            return [()] * max(1, min(where.many, MAX_ELEMENTS))
    if which in (Which.NEXT, Which.SAME, Which.MADE) and _closed_the_round(hook, where):
        # "sc over tr", of the one that closed the last loop of the round before: it is a side of that loop
        where = replace(where, which=Which.NEXT, kinds=(Kind(SP),), around=False, loop="")
        which = where.which
    if which is Which.SAME:
        return [same(hook, where)]
    if which is Which.MADE:
        if (
            hook.below.closed
            and hook.below.here is not None
            and hook.stands_on_first()
            and (where.kinds and where.kinds[0].name != SKIPPED)
        ):
            # "dc around the sc just made": the one that closed the round before
            return [(hook.below.here,)]
        if where.down < 0 and not where.many:
            # "sc in each skipped sc of Rnd 1"
            return [()] * (skipped_left(hook, -where.down) or 1)
        if where.down < 0:
            hook.taken_below[-where.down] = hook.taken_below.get(-where.down, 0) + where.many
        return [()] * max(1, where.many)
    if (
        which is Which.RING
        and hook.below.n
        and not hook.below.ring
        and any(e.kind == SP for e in hook.below.elements)
    ):
        # "10 sc in lp": a loop of the row below, not the ring a piece begins with
        return next_places(hook, replace(where, which=Which.NEXT, kinds=(Kind(SP),), nth=-1), item, per)
    if which is Which.RING:
        return [()]
    if (
        which is Which.NEXT
        and not hook.below.n
        and hook.below.ring
        and [kind.name for kind in where.kinds] == [CH]
    ):
        # round a thumb or an armhole: chains of an earlier round, by their number
        return [()] * max(1, min(where.many, MAX_ELEMENTS))
    if which is Which.EVENLY:
        along_a_side(hook)
        return [()]
    if which is Which.ROW_END:
        along_a_side(hook)
        return [()] * (where.many or _ends_left(hook, where))
    if where.down < 0:
        where = this_row_below(hook, where)
    if where.down == 1 and where.around and which is Which.NEXT and a_row_lower(hook, where):
        where = replace(where, down=2)
    if where.down > 1 and which is Which.BETWEEN:
        return [()] * max(1, where.many)
    if where.down > 1 and which in (Which.NEXT, Which.EACH):
        if which is Which.NEXT and not passed_behind(rest, where.many):
            return [over(hook, item) for _ in range(where.many)]
        if which is Which.NEXT:
            return [()] * where.many
    if where.down < 0 and which in (Which.NEXT, Which.FIRST):
        hook.taken_below[-where.down] = hook.taken_below.get(-where.down, 0) + where.many
    # "2 dc in each free back loop": those of the round that the yarn was joined to
    in_hand = hook.below.free and where.down >= 0
    if (where.down < 0 or where.loop.startswith("free")) and not in_hand:
        return [()] * max(1, where.many if which is not Which.EACH else free_count(hook, where))
    if which is Which.FROM_HOOK:
        chains = from_hook(hook, where)
        return [chains] if per > 1 or len(chains) < 2 else [(i,) for i in chains]
    if which is Which.TOP:
        return [top(hook, where, item)]
    if (gaps := gaps_for(hook, where)) is not None:
        return between(hook, gaps)
    if which is Which.BETWEEN:
        return between(hook, where)
    if which is Which.LAST and not where.kinds and where.many == 1 and _ends_taken(hook):
        # "2 sc in each of next 14 row ends, 3 sc in last one"
        return [()]
    if which is Which.FIRST:
        return first_places(hook, where, item, per)
    if which is Which.LAST and (_before_the_chain(hook, where, rest) or before_a_space(rest)):
        return next_places(hook, replace(where, which=Which.NEXT), item, per)
    if which is Which.LAST:
        return last_places(hook, where, item, per)
    if which is Which.NTH:
        kind = where.kinds[0] if where.kinds else Kind(ANY)
        below = hook.below
        if (
            kind == Kind(CH)
            and where.nth > 2
            and below.n
            and below.elements[0].kind != CH
            and _only_the_chain(hook)
        ):
            # "2 dc in the 3rd ch", where nothing is left but the turning chain
            return [top(hook, replace(where, which=Which.TOP, kinds=()), item)]
        if (
            hook.stands_on_first()
            and below.here == 0
            and below.at == 1
            and kind.name not in (SP, CH)
            and where.nth > 1
        ):
            # "ch 3, turn, dc in 2nd st": counted from the stitch under the turning chain
            below.at = 0
        ahead = max(0, where.nth - 1)
        passed = sum(1 for e in below.elements[: below.at] if e.kind != HIDDEN)
        if (
            ahead
            and kind.name == ANY
            and ahead == passed
            and hook.ask(("nth", where.span.start), (True, False))
        ):
            # "2 sc in first st, sc in next 4 sts, 2 sc in the 6th": counted from where the row begins
            ahead = 0
        for _ in range(ahead):
            below.take(kind, hook.limit)
        return [(below.take(kind, hook.limit)[0],)]
    if which is Which.EACH:
        return each(hook, where, item, rest, per)
    return next_places(hook, where, item, per)


def _ends_left(hook: Hook, where: Where) -> int:
    """How many row ends "each row end" takes: those that the row has not just been worked into, but for its stop."""
    rows = max(1, hook.ground.row_ends)
    taken = taken if (taken := _ends_taken(hook)) < rows else 0
    return max(1, rows - taken - (where.stop.left if where.stop is not None else 0))


def _ends_taken(hook: Hook) -> int:
    """How many row ends the row has been worked into just now; 0 where it stands elsewhere."""
    taken = 0
    for step in reversed(hook.steps):
        item = step.item
        if isinstance(item, (Work, Group)) and item.where.which is Which.ROW_END:
            taken += item.where.many or hook.ground.row_ends
        elif not isinstance(item, Say):
            break
    return taken


def along_a_side(hook: Hook) -> None:
    """Goes on along an edge whose stitches are not counted: what is left of the top lies in its corner."""
    below = hook.below
    if hook.ground.base and below.at and below.unsaid(below.at, below.n, 3) <= 2:
        below.at, below.sub = below.n, 0
    hook.edge_used = True


def _before_the_chain(hook: Hook, where: Where, rest: Sequence[Item]) -> bool:
    """True for "dc in last dc and in top of ch-3": the last that is no chain is the next one, the chain behind it."""
    follows = rest[0] if rest else None
    below = hook.below
    return (
        isinstance(follows, Work)
        and follows.where.which is Which.TOP
        and below.n > 0
        and below.elements[-1].turning
        and below.at == below.n - 1 - where.many
    )


def _only_the_chain(hook: Hook) -> bool:
    """True where nothing of the row below is left but its turning chain and the space of that."""
    below = hook.below
    left = below.elements[below.at :]
    return bool(left) and all(e.turning or e.kind in (HIDDEN, SP) for e in left)


def before_a_space(rest: Sequence[Item]) -> bool:
    """True for "dc in last dc, (2 dc, ch 2, 2 dc) in ch-2 sp, …": the last one before it, and not of the row."""
    follows = next((item for item in rest if not isinstance(item, (Say, Chain))), None)
    return (
        isinstance(follows, (Work, Group))
        and follows.where.which is Which.NEXT
        and bool(follows.where.kinds)
        and follows.where.kinds[0].name in (SP, "corner", "corner sp")
    )


def before_the_next(rest: Sequence[Item]) -> bool:
    """True for "sk last dc, dc in next dc", "… in last 2 sts": the last of a group, and not of the row."""
    follows = next((item for item in rest if not isinstance(item, (Say, Chain))), None)
    return isinstance(follows, (Work, Group)) and follows.where.which in (Which.NEXT, Which.LAST)


def this_row_below(hook: Hook, where: Where) -> Where:
    """A place in a row that is named by its number: in the row below when that is the one, else as it was."""
    named_row = -where.down
    if named_row == hook.ground.last_number:
        top_edge = hook.top_edge
        if hook.below is not top_edge and all(e.kind == HIDDEN for e in top_edge.elements[: top_edge.at]):
            hook.below = hook.top_edge
        return replace(where, down=1)
    if hook.ground.earlier and named_row not in hook.ground.earlier:
        hook.fault(
            "R301",
            where.span,
            f"works into row {named_row}, which does not exist",
            "no such row",
            "Check the number of the row that is meant.",
        )
    return where


def next_places(hook: Hook, where: Where, item: Item, per: int) -> list[tuple[int, ...]]:
    """The next places of a kind, each of `per` targets."""
    out: list[tuple[int, ...]] = []
    kinds = where.kinds or (Kind(ANY),)
    if kinds[0].inside == "passed":
        return [(hook.below.space_passed(kinds[0]),)]
    edge_for(hook, kinds[0])
    if kinds[0].inside.startswith("between "):
        go_between(hook, kinds[0])
    if between_edges(hook, kinds[0]):
        return [()] * where.many
    if kinds[0].name == "corner" and not hook.below.has_corners():
        kinds = (Kind("corner sp", kinds[0].chains),)
    if where.nth == -1 and where.many == 1 and unused_here(hook, kinds[0]):
        assert hook.below.here is not None
        hook.below.at = max(hook.below.at, hook.below.here + 1)
        return [(hook.below.here,)]
    if (own := in_hand(hook, kinds)) is not None:
        return [(own,)]
    for n in range(min(where.many, MAX_ELEMENTS + 1)):
        taken: list[int] = []
        for _ in range(per):
            if len(kinds) == 2 and kinds[1].inside:
                reached = hook.below.at
                taken.append(hook.below.in_group(kinds[0], kinds[1], hook.limit))
                hook.silent = max(hook.silent, hook.below.unsaid(reached, taken[-1]))
                if kinds[0].name == SP:
                    # into spaces, though into none of those outside
                    hook.spaces_worked.add(-1)
                continue
            taken.append(take(hook, kinds[0] if len(kinds) == 1 else kinds[n % len(kinds)], item))
        out.append(tuple(taken))
    return out


def first_places(hook: Hook, where: Where, item: Item, per: int) -> list[tuple[int, ...]]:
    """The first places of a kind; the first stitch lies under a turning chain that only stands there."""
    below = hook.below
    kind = where.kinds[0] if where.kinds else Kind(ANY)
    rounded = hook.edge_used and hook.made and not below.closed and not below.anything_left(below.n)
    if rounded and where.many == 1 and kind.name in (ANY, hook.made[0].kind):
        # "…, 2 more sc in first st": all round a flat piece, back in the corner that the round began in
        return [next((element.into for element in hook.made if element.into), ())]
    edge_for(hook, kind)
    if (
        kind.name in (SP, "corner", "corner sp")
        and below.closed
        and hook.made
        and below.find(kind, below.at) is None
        and below.n
        and below.elements[0].kind == SP
    ):
        # where the round began
        return [(0,)]
    if below.closed and below.n and hook.made and not below.anything_left(below.n):
        first = below.elements[0]
        if first.is_stitch and below.matches(first, kind) and below.find(kind, below.at) is None:
            # "ending last rep with sc in first sc", where all are worked
            return [(0,)]
    if hook.made and any(e.into for e in hook.made) and below.at > max(1, where.many):
        # "first" of something further along: the next that lies ahead
        return next_places(hook, replace(where, which=Which.NEXT), item, per)
    if kind.name in (SP, "corner", "corner sp", "group", CH):
        return next_places(hook, replace(where, which=Which.NEXT), item, per)
    if below.at and below.here == 0 and hook.stands_on_first():
        below.at, below.sub = 0, 0
    return next_places(hook, replace(where, which=Which.NEXT), item, per)


def last_places(hook: Hook, where: Where, item: Item, per: int) -> list[tuple[int, ...]]:
    """The last places of a kind; what is passed over to reach them is told."""
    below = hook.below
    kind = where.kinds[0] if where.kinds else Kind(ANY)
    if kind.name == "tch":
        return [top(hook, where, item)]
    if between_edges(hook, kind):
        return [()] * where.many
    if kind.name == "corner" and not below.has_corners():
        kind = Kind("corner sp", kind.chains)
    many = where.many * per
    kind = by_any_name(hook, kind)
    edge_for(hook, kind)
    below = hook.below
    if (
        kind.name == CH
        and not any(e.kind == CH for e in below.elements[below.at :])
        and below.find(Kind(SP), below.at) is None
    ):
        kind = Kind(ANY)
    try:
        start = below.from_end(many, (kind,))
    except Missing:
        if hook.ground.left:
            take_up(hook)
            start = below.from_end(many, (kind,))
        else:
            raise
    if start < below.at and many == 1 and (ahead := below.find(kind, below.at)) is not None:
        # what slip stitches travelled over at the beginning is the last of the round
        start = ahead
    if start < below.at:
        raise Missing("C203", f"the last {named(kind)} is already worked into")
    unsaid = below.passed_to(start)
    if unsaid and kind.name not in (SP, "corner sp"):
        if hook.limit != UNLIMITED and unsaid > hook.silent:
            raise Missing("C206", "there are stitches left before the last")
        if unsaid > hook.silent:
            jump(hook, item, unsaid)
    elif kind.name == SP:
        hook.spaces_worked.add(kind.chains)
        hook.silent = max(hook.silent, unsaid)
    below.at, below.sub = start, 0
    return next_places(hook, replace(where, which=Which.NEXT, kinds=(kind,)), item, per)
