"""Stitches into their places: plain ones, decreases, stitches spread over a row, "work even"."""

from collections.abc import Sequence

from tracker.fabric.model import CH, HIDDEN, SP
from tracker.fabric.standing import FOUNDATION_STITCHES
from tracker.fabric.working.groups import in_place, worked_in
from tracker.fabric.working.hook import MAX_ELEMENTS, Hook
from tracker.fabric.working.places.each import each, each_with
from tracker.fabric.working.places.taking import take
from tracker.fabric.working.places.targets import targets
from tracker.fabric.working.specials import SQUARES, special_stitch
from tracker.fabric.working.turning import foundation_start
from tracker.notation.tree import (
    ANY,
    IN_ONE,
    LAYERS,
    SHARED,
    SPREAD,
    Group,
    Item,
    Kind,
    Repeat,
    Stop,
    Where,
    Which,
    Work,
)
from tracker.records import replace
from tracker.trade.stitches import STITCHES, parts_of

_FEW = range(2, 6)
"""Stitches of an increase; more than these are no slip of the pen."""


def _all_in_the_last(hook: Hook, item: Work, rest: Sequence[Item]) -> bool:
    """True for the end of "2 hdc in first st, hdc to last st, 2 hdc": the one stitch left takes both."""
    if item.count not in _FEW or hook.below.ring or any(isinstance(i, (Work, Group, Repeat)) for i in rest):
        return False
    before = hook.steps[-1].item if hook.steps else None
    told = before.where.stop if isinstance(before, Work) and before.where.which is Which.EACH else None
    stop = told or (hook.across.stop if hook.across is not None else None)
    return (
        stop is not None
        and stop.left == 1
        and not stop.at
        and sum(e.kind != HIDDEN for e in hook.below.elements[hook.below.at : hook.below.n]) == 1
    )


def work(hook: Hook, item: Work, rest: Sequence[Item]) -> None:
    """Works stitches of one kind into the places they name."""
    name = item.stitch
    special = hook.ground.specials.get(name)
    where = item.where
    if hook.on_side and where.which in (Which.EACH, Which.STRAIGHT) and not item.excepting:
        # "working in row ends, sc around", "…, work 64 sc"
        if where.which is Which.EACH and where.stop == Stop() and where.kinds == (Kind(ANY),):
            item = replace(item, where=replace(where, which=Which.ROW_END, many=0, stop=None))
        elif where.which is Which.STRAIGHT and item.count > 1:
            item = replace(item, where=replace(where, which=Which.EVENLY))
        where = item.where
    if name == "even":
        even(hook, item, rest)
        return
    chained = [kind.name for kind in where.kinds] == [CH]  # "sl st in last ch", of the chain's other side
    if name == "slst" and where.which is Which.LAST and hook.made and not chained and _all_worked(hook):
        # "…, ch 51, sc back along it, sl st in last hdc": what hangs there is fastened where it began
        return
    if name.startswith(("inc ", "dec ")):
        spread(hook, item, rest)
        return
    if name in FOUNDATION_STITCHES and not hook.below.n:
        for _ in range(min(item.count, MAX_ELEMENTS + 1)):
            hook.make(name, ())
        return
    if special is not None and (
        special.base in SQUARES or not (special.base and name == special.base and not special.closes)
    ):
        special_stitch(hook, item, special, rest)
        return
    if name == "picot":
        for _ in range(item.count):
            hook.make("picot", ())
        return
    if hook.picot_open and name == "slst":
        hook.picot_open = False
        hook.make("picot", ())
        return
    if where.nth == SHARED and where.which is Which.NEXT:
        first = hook.below.here if hook.below.here is not None else hook.below.take_stitch(hook.limit)
        if hook.below.at == first:
            # yarn was joined here, and nothing worked yet
            hook.below.take_stitch(hook.limit)
        hook.make(name, (first, *(take(hook, Kind(ANY), item) for _ in range(where.many))))
        return
    if where.which is Which.EVENLY and not item.count or _round_an_edge(hook, item, rest):
        # "sc evenly down the side": how many only the maker's hands will tell
        hook.edge_used = hook.unread = True
        hook.untold(item.span, "does not tell how many are worked along the edge", "Count what you make.")
        return
    per = together_in(hook, item)
    if hook.place is not None and where.which in (Which.STRAIGHT, Which.SAME):
        for _ in range(item.count):
            hook.make(name, hook.place)
        return
    if where.which is Which.STRAIGHT:
        kind = Kind(ANY)
        ring = hook.below.ring
        if per == 1 and _all_in_the_last(hook, item, rest):
            in_place(hook, (take(hook, kind, item),), name, item.count)
            return
        for _ in range(min(item.count, MAX_ELEMENTS + 1)):
            hook.make(name, () if ring else tuple(take(hook, kind, item) for _ in range(per)))
        return
    if item.excepting:
        for taken, x in each_with(hook, where, item, rest, per, item.excepting):
            if x is None:
                in_place(hook, taken, name, item.count)
            else:
                worked_in(hook, x.items, taken)
        return
    if (
        where.which is Which.FROM_HOOK
        and where.nth
        and hook.below.n
        and hook.below.elements[0].kind == CH
        and hook.own_chains is None
        and not any(e.into for e in hook.made)
    ):
        foundation_start(hook, item, where, rest)
    if (
        per > 1
        and hook.below.closed
        and where.which is Which.EACH
        and where.stop is not None
        and where.stop.left
        and not where.stop.at
        and not any(isinstance(i, Work) for i in rest)
    ):
        drawn_in(hook, name, per, where.stop.left)
        return
    count = item.count
    if where.which is Which.EVENLY or (where.which is Which.RING and hook.below.ring):
        targets(hook, where, item, rest)
        if where.which is Which.EVENLY and where.kinds[:1] == (Kind("corner"),):
            in_place(hook, (), name, count)
            return
        for _ in range(min(count, MAX_ELEMENTS + 1)):
            hook.make(name, ())
        return
    again = item.joined and where.which is Which.EACH and item.count < _IN_ALL
    done = again and not hook.below.anything_left(hook.below.n)
    places = targets(hook, where, item, rest, per)
    if done and not places:
        # "sc in each st across, 2 per st": what was worked already is worked no more; but "40 in all" only counts
        hook.unread = True
        hook.untold(item.span, "goes on where nothing is left to work into", "Check what these words mean.")
    if hook.ends is not None and where.which is Which.EACH and places:
        last_end(hook, places, name, count, *hook.ends)
        hook.ends = None
        return
    for taken in places:
        in_place(hook, taken, name, count)


def drawn_in(hook: Hook, name: str, per: int, left: int) -> None:
    """ "Dec around until 6 sts remain": round upon round, until so many stand; what is left over stays as it was."""
    below = hook.below
    standing: list[tuple[tuple[int, ...], str]] = [
        ((i,), "") for i in range(below.at, below.n) if below.elements[i].is_stitch
    ]
    while len(standing) > left and len(standing) >= per:
        many = min(len(standing) // per, -(-(len(standing) - left) // (per - 1)))
        drawn = [
            (tuple(i for into, _ in standing[k * per : (k + 1) * per] for i in into), name)
            for k in range(many)
        ]
        standing = drawn + standing[many * per :]
    for into, made in standing:
        hook.make(made or below.elements[into[0]].kind, into)
    below.at, below.sub = below.n, 0


def last_end(
    hook: Hook, places: list[tuple[int, ...]], name: str, count: int, grows: bool, extra: int
) -> None:
    """Works a row whose last place is increased, or whose last places are decreased."""
    if grows:
        for taken in places[:-1]:
            in_place(hook, taken, name, count)
        in_place(hook, places[-1], name, count + extra)
        return
    for taken in places[: -1 - extra]:
        in_place(hook, taken, name, count)
    hook.make(f"{name}{1 + extra}tog", tuple(i for taken in places[-1 - extra :] for i in taken))


_IN_ALL = 5
"""From so many stitches in one place on, they are no stitches in each but the count of a row."""
_CORNERS = 4
"""A row may have so many corners of its own; where there are more they are shells, and those of the piece are meant."""


def _round_an_edge(hook: Hook, item: Work, rest: Sequence[Item]) -> bool:
    """True for "sc evenly around, working 3 sc in each corner" about a piece that was worked flat."""
    below = hook.below
    corners = sum(e.corner for e in below.elements)
    if (
        item.where.which is not Which.EACH
        or item.where.stop != Stop()
        or below.closed
        or 0 < corners <= _CORNERS
    ):
        return False
    if item.where.nth == SPREAD:
        return hook.ground.row_ends > 0
    if any(isinstance(w, Work) and w.where.which is Which.EVENLY and w.count > 1 for w in rest):
        # "sc in each st across, 3 sc in corner, 28 sc down the side": the top alone, the sides are told by themselves
        return False
    kinds = [w.where.kinds for w in rest if isinstance(w, Work)] + [x.kinds for x in item.excepting]
    return any(kind.name == "corner" for named in kinds for kind in named)


def together_in(hook: Hook, item: Work) -> int:
    """Places that one stitch of the name takes: 1 when all of it is worked in one place."""
    per = parts_of(item.stitch)[2]
    if item.where.loop == LAYERS:
        # a tube pressed flat lies on itself, a strip has its last row on its first
        flat = not hook.below.closed and hook.ask(("layers of two rows", item.span.start), (True, False))
        return 1 if flat else 2
    if per == 1 or hook.place is not None:
        return 1
    where = item.where
    if where.which in (Which.SAME, Which.RING, Which.TOP, Which.EVENLY, Which.ROW_END):
        return 1
    if (
        where.which in (Which.NEXT, Which.EACH, Which.LAST, Which.FIRST)
        and where.kinds
        and where.kinds[0].name in (SP, "group", "corner")
        and not item.stitch.startswith("sc")
    ):
        return 1 if where.many == 1 or where.which is Which.EACH else per
    if where.nth == IN_ONE:
        # "dc3tog in next st": all of it in one is likelier the more legs it has
        one = hook.ask(("in one place", item.stitch), (per > 2, per <= 2))
        return 1 if one else per
    return per


def _all_worked(hook: Hook) -> bool:
    """True where the row below is worked to its end, and the last stitch of it is one that was worked into."""
    below = hook.below
    last = next((k for k in range(below.n - 1, -1, -1) if below.elements[k].is_stitch), -1)
    return not below.closed and last >= 0 and any(last in element.into for element in hook.made)


def spread(hook: Hook, item: Work, rest: Sequence[Item]) -> None:
    """Increases or decreases that are told for the row as a whole."""
    grows = item.stitch.startswith("inc")
    plain = hook.ground.plain
    if not item.stitch.endswith("evenly"):
        first, last = not item.stitch.endswith("last"), not item.stitch.endswith("first")
        if not hook.below.anything_left(hook.below.n):
            if first:
                _change_made(hook, 0, item.count, grows)
            if last:
                _change_made(hook, -1, item.count, grows)
            return
        if last:
            hook.ends = (grows, item.count)
        if first and grows:
            in_place(hook, (hook.below.take_stitch(hook.limit),), plain, 1 + item.count)
        elif first:
            hook.make(
                f"{plain}{1 + item.count}tog",
                tuple(hook.below.take_stitch(hook.limit) for _ in range(1 + item.count)),
            )
        if not any(isinstance(i, Work) for i in rest):
            work(hook, Work(plain, 1, Where(Which.EACH, item.span, 0, (Kind(ANY),)), item.span), rest)
        return
    count = item.count or _as_far_as(hook, item, grows)
    if hook.below.anything_left(hook.below.n):
        spread_over(hook, plain, count, grows)
    else:
        spread_among_made(hook, plain, count, grows)


def _as_far_as(hook: Hook, item: Work, grows: bool) -> int:
    """How many "dec evenly to 36 sts" takes: what stands there, and what is left to be worked, less those."""
    left = sum(e.is_stitch for e in hook.below.elements[hook.below.at : hook.below.n])
    have = left + sum(e.is_stitch for e in hook.made)
    change = item.where.many - have if grows else have - item.where.many
    if not 0 <= change <= (left or have):
        how = "increase" if grows else "decrease"
        hook.untold(item.span, f"cannot {how} evenly from {have} to {item.where.many} stitches in one row")
    return max(0, min(change, MAX_ELEMENTS))


def _change_made(hook: Hook, at: int, count: int, grows: bool) -> None:
    """The row is already worked: its first or last stitch is increased, or its first or last ones are decreased."""
    made = [k for k, e in enumerate(hook.made) if e.is_stitch and not e.turning]
    if len(made) <= count:
        return
    if grows:
        k = made[at]
        hook.made[k:k] = [hook.made[k]] * count
        return
    gone = made[: 1 + count] if at == 0 else made[-1 - count :]
    one = hook.made[gone[0]]
    into = tuple(i for k in gone for i in hook.made[k].into)
    for k in reversed(gone[1:]):
        del hook.made[k]
    hook.made[gone[0]] = replace(one, kind=f"{one.kind}{1 + count}tog", into=into)


def spread_among_made(hook: Hook, plain: str, count: int, grows: bool) -> None:
    """The row is already worked: some of its stitches are the increases or decreases."""
    first = next((e for e in hook.made if e.is_stitch and not e.turning), None)
    name = first.kind if first else plain
    if grows:
        for _ in range(count):
            hook.make(name, (max(0, hook.below.n - 1),))
        return
    spots = [k for k, e in enumerate(hook.made) if e.kind == name and not e.turning]
    for k in reversed(spots[: 2 * count]):
        del hook.made[k]
    for _ in range(min(count, len(spots) // 2)):
        hook.make(name + "2tog", ())


def spread_over(hook: Hook, plain: str, count: int, grows: bool) -> None:
    """Increases or decreases at even distances over what is left of the row below."""
    left = [i for i in range(hook.below.at, hook.below.n) if hook.below.elements[i].is_stitch]
    count = min(count, len(left))
    if grows:
        for k, i in enumerate(left):
            extra = (k + 1) * count // len(left) - k * count // len(left)
            in_place(hook, (i,), plain, 1 + extra)
    else:
        k = 0
        plain_ones = len(left) - 2 * count
        for n in range(count):
            run = (n + 1) * plain_ones // count - n * plain_ones // count
            for _ in range(run):
                hook.make(plain, (left[k],))
                k += 1
            if k + 1 < len(left):
                hook.make(plain + "2tog", (left[k], left[k + 1]))
                k += 2
    hook.below.at, hook.below.sub = hook.below.n, 0


def even(hook: Hook, item: Work, rest: Sequence[Item]) -> None:
    """ "Work even": in each stitch one of its own kind, where that is a plain one."""
    for (i,) in each(hook, replace(item.where, kinds=(Kind(ANY),)), item, rest, 1):
        element = hook.below.elements[i]
        post, base, together = parts_of(element.kind)
        plain = (
            base
            if base in STITCHES and STITCHES[base].height and not STITCHES[base].closes
            else hook.ground.plain
        )
        if post:
            plain = element.kind if together == 1 else plain
        hook.make(plain, (i,))
