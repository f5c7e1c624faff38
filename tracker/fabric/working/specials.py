"""Stitches of the pattern's own: shells, clusters, picots, squares of filet, tiles."""

from collections.abc import Sequence

from tracker.fabric.model import SP
from tracker.fabric.working.groups import in_place, worked_in
from tracker.fabric.working.hook import MAX_ELEMENTS, Hook
from tracker.fabric.working.places.taking import take, take_above
from tracker.fabric.working.places.targets import targets
from tracker.fabric.working.repeats.across import across
from tracker.fabric.working.turning import first_stitch, foundation_start
from tracker.notation.pattern import Special
from tracker.notation.tree import ANY, Item, Kind, Repeat, Skip, Where, Which, Work
from tracker.records import replace

TILES = ("tile", "beg tile")
WINDOWS = ("window", "block", "beg window", "beg block")
SQUARES = TILES + WINDOWS
"""What `Special.base` calls squares of corner-to-corner and of filet."""


def special_stitch(hook: Hook, item: Work, special: Special, rest: Sequence[Item]) -> None:
    """A stitch of the pattern's own."""
    if special.base in WINDOWS:
        times = item.count * (item.where.many if item.where.which is Which.NEXT else 1)
        for _ in range(min(times, MAX_ELEMENTS)):
            square(hook, special, item.where.which is Which.MADE)
        return
    if special.base in TILES:
        tiles(hook, item, special, rest)
        return
    saved = hook.special
    try:
        if special.closes:
            closing(hook, item, special, rest)
            return
        hook.special = special.name
        if special.base == "picot" or item.stitch == "picot":
            for _ in range(item.count):
                hook.make("picot", ())
        elif special.one_place:
            in_one_place(hook, item, special, rest)
        elif item.where.which is Which.EACH and item.where.stop is not None:
            across(hook, Repeat(special.items, item.span, None, stop=item.where.stop), rest)
        else:
            several_places(hook, item, special)
    finally:
        hook.special = saved


def in_one_place(hook: Hook, item: Work, special: Special, rest: Sequence[Item]) -> None:
    """A shell or the like: all of it in one place, as often as is told."""
    count = item.count
    wheres: list[tuple[int, ...]]
    if item.where.which is Which.STRAIGHT and hook.place is None:
        space = special.into
        if hook.below.ring:
            wheres = [()] * count
        elif space is not None and hook.below.has_spaces():
            wheres = targets(hook, Where(Which.NEXT, item.span, count, (space,)), item, rest)
        else:
            wheres = [(take(hook, Kind(ANY), item),) for _ in range(count)]
        count = 1
    elif hook.place is not None and item.where.which in (Which.STRAIGHT, Which.SAME):
        wheres = [hook.place]
    else:
        if item.where.which is Which.FROM_HOOK:
            first = first_stitch(special.items, hook.ground.specials) or "dc"
            own, hook.special = hook.special, ""
            foundation_start(hook, replace(item, stitch=first), item.where, rest)
            hook.special = own
        wheres = targets(hook, item.where, item, rest)
    for taken in wheres:
        for _ in range(count):
            outer, hook.group = hook.group, 0
            worked_in(hook, special.items, taken)
            hook.group = outer


def several_places(hook: Hook, item: Work, special: Special) -> None:
    """A stitch that runs over several places, as often as is told."""
    many = item.where.many if item.where.which is Which.NEXT else 1
    runs_over = sum(_places(inside) for inside in special.items)
    if many > 1 and runs_over > 1 and many % runs_over == 0:
        # "cable over next 4 sts", which uses four; "10 X-sts over next 20 sts" tells both
        many //= runs_over
        many = 1 if many == item.count else many
    times = item.count * max(1, many)
    for _ in range(min(times, MAX_ELEMENTS)):
        hook.groups += 1
        outer, hook.group = hook.group, hook.groups
        first = len(hook.made)
        run_inside(hook, special.items)
        hook.group = outer
        if len(hook.made) - first > 1 and any(e.kind == SP for e in hook.made[first:]):
            # the stitch that closes it is shared with what comes after
            hook.made[-1] = replace(hook.made[-1], group=0, special="")


def _places(item: Item) -> int:
    """How many places of the row below an item uses up; 0 for what goes back into places passed over."""
    if isinstance(item, (Work, Skip)) and item.where.which is Which.NEXT:
        return item.where.many
    if isinstance(item, Work) and item.where.which is Which.STRAIGHT:
        return item.count
    return 0


def tiles(hook: Hook, item: Work, special: Special, rest: Sequence[Item]) -> None:
    """Tiles of a corner-to-corner piece: each into a tile below, those that widen the row into nothing."""
    if special.base == "beg tile" or item.where.which is Which.MADE:
        for _ in range(min(max(1, item.where.many), MAX_ELEMENTS)):
            hook.make("tile", ())
        return
    where = item.where
    if where.which is Which.STRAIGHT:
        where = Where(Which.NEXT, item.span, item.count)
    if where.kinds and where.which is not Which.EACH or where.which is Which.SAME:
        where = replace(where, which=Which.LAST if where.which is Which.LAST else Which.NEXT, kinds=(), nth=0)
    elif where.which is Which.EACH:
        stop = where.stop
        where = replace(where, kinds=(Kind(ANY),), stop=replace(stop, kinds=()) if stop is not None else None)
    for taken in targets(hook, where, item, rest):
        hook.make("tile", taken)


def square(hook: Hook, special: Special, begun: bool = False) -> None:
    """One square of filet: a window or a block, over whatever lies below it.

    `begun`: the chains of the window are made, as part of the turning chain.
    """
    below = hook.below
    fill = special.closes
    if special.base.startswith("beg"):
        own = 3 + (fill if special.base == "beg window" else 0)
        hook.make("dc", (0,) if below.n else (), own if special.base == "beg block" else 3, True)
        below.at, below.here = max(below.at, 1), 0
    over = below.elements[below.at] if below.at < below.n else None
    left = over.chains - below.sub if over is not None and over.kind == SP else 0
    if left > fill:
        # over a bar, which is as wide as two squares: the first ends in its middle chain
        over_a_bar(hook, special, begun)
        return
    over_space = left > 0
    if special.base.endswith("window"):
        if over_space:
            below.at, below.sub = below.at + 1, 0
        else:
            for _ in range(fill):
                below.take_stitch(hook.limit)
        if not begun:
            hook.make(SP, (), fill, special.base.startswith("beg"))
    elif over_space:
        place = below.at
        below.at, below.sub = below.at + 1, 0
        in_place(hook, (place,), "dc", fill)
    else:
        for _ in range(fill):
            hook.make("dc", (below.take_stitch(hook.limit),))
    hook.make("dc", (below.take_stitch(hook.limit),))


def over_a_bar(hook: Hook, special: Special, begun: bool) -> None:
    """A square over the first half of a space that is wider than a square: each of its stitches goes into a chain."""
    below = hook.below
    chains_too, below.chains_too = below.chains_too, True
    try:
        taken = [below.take_stitch(hook.limit) for _ in range(special.closes + 1)]
    finally:
        below.chains_too = chains_too
    if not special.base.endswith("window"):
        for place in taken[:-1]:
            hook.make("dc", (place,))
    elif not begun:
        hook.make(SP, (), special.closes, special.base.startswith("beg"))
    hook.make("dc", (taken[-1],))


def closing(hook: Hook, item: Work, special: Special, rest: Sequence[Item]) -> None:
    """A stitch that closes into one top: a cluster over several places, a puff or bobble in one."""
    name = special.base or special.name
    per = 1 if special.one_place or hook.place is not None else special.closes
    hook.special = special.name
    where = item.where
    if hook.place is not None and where.which in (Which.STRAIGHT, Which.SAME):
        for _ in range(item.count):
            hook.make(name, hook.place)
        return
    if any(isinstance(each, Work) for each in special.items) and where.which in (Which.STRAIGHT, Which.NEXT):
        # into a stitch some rows below: what lies over it is passed over, be it chains
        spaces = bool(where.kinds) and where.kinds[0].name == SP
        for _ in range(item.count * where.many if not spaces else 0):
            hook.make(name, (take_above(hook, item),))
        if not spaces:
            return
    if where.which is Which.STRAIGHT:
        ring = hook.below.ring
        for _ in range(item.count):
            hook.make(name, () if ring else tuple(take(hook, Kind(ANY), item) for _ in range(per)))
        return
    if where.which is Which.RING:
        for _ in range(item.count):
            hook.make(name, ())
        return
    if (
        per > 1
        and where.which is Which.NEXT
        and where.kinds
        and where.kinds[0].name == SP
        and where.many == 1
    ):
        per = 1
    for taken in targets(hook, where, item, rest, per):
        for _ in range(item.count):
            hook.make(name, taken)


def run_inside(hook: Hook, items: Sequence[Item]) -> None:
    """Items as part of a larger whole: what they miss is the whole's fault."""
    steps = len(hook.steps)
    for k, inside in enumerate(items):
        hook.one(inside, items[k + 1 :])
    del hook.steps[steps:]
