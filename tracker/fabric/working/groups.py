"""Several things worked in one place, and places passed over."""

from collections.abc import Sequence
from contextlib import suppress

from tracker.fabric.below.surface import Missing
from tracker.fabric.model import CH, HIDDEN, SP
from tracker.fabric.working.hook import MAX_ELEMENTS, Hook
from tracker.fabric.working.places.earlier import passed_behind
from tracker.fabric.working.places.landing import between
from tracker.fabric.working.places.reserve import end_of
from tracker.fabric.working.places.taking import take
from tracker.fabric.working.places.targets import before_a_space, before_the_next, targets
from tracker.fabric.working.turning import first_stitch, foundation_start
from tracker.notation.pattern import Special
from tracker.notation.tree import ANY, EITHER, REST, Chain, Group, Item, Kind, Skip, Which, Work
from tracker.records import replace


def grouped(hook: Hook, item: Group, rest: Sequence[Item]) -> None:
    """Works a group into every place it names."""
    where = item.where
    if where.which is Which.STRAIGHT:
        where = replace(where, which=Which.NEXT, many=1)
    if (
        where.which is Which.FROM_HOOK
        and hook.below.n
        and hook.below.elements[0].kind == CH
        and not any(e.into for e in hook.made)
    ):
        first = first_stitch(item.items, hook.ground.specials)
        foundation_start(hook, Work(first or "dc", 1, where, item.span), where, rest)
    last = item.items[-1] if item.items else None
    if item.loose and isinstance(last, Work) and not _together(hook, item):
        apart = (*item.items[:-1], replace(last, where=where))
        for k, inside in enumerate(apart):
            hook.one(inside, (*apart[k + 1 :], *rest))
        return
    if hook.place is not None and where.which is Which.SAME:
        worked_in(hook, item.items, hook.place)
        return
    for taken in targets(hook, where, item, rest):
        begun = len(hook.made)
        worked_in(hook, item.items, taken)
        _as_defined(hook, begun)


def _as_defined(hook: Hook, first: int) -> None:
    """What was told stitch by stitch and is what the pattern calls by a name has that name, for rows to come."""
    if hook.special or not hook.ground.specials:
        return
    made = tuple(element.name for element in hook.made[first:])
    name = next((s.name for s in hook.ground.specials.values() if s.one_place and _spelled(s) == made), "")
    if name:
        hook.made[first:] = [replace(element, special=name) for element in hook.made[first:]]


def first_as_defined(hook: Hook) -> None:
    """Names what a row begins with by hand, "ch 3, (dc, ch 2, 2 dc) in same sp", where that is a special stitch."""
    made = hook.made
    if (
        not hook.ground.specials
        or len(made) < 3
        or not (made[0].turning and made[0].is_stitch and made[1].group)
    ):
        return
    behind = next((k for k, e in enumerate(made[1:], 1) if e.group != made[1].group), len(made))
    names = tuple(element.name for element in made[:behind])
    if any(element.special for element in made[:behind]) or made[0].into != made[1].into:
        return
    name = next((s.name for s in hook.ground.specials.values() if s.one_place and _spelled(s) == names), "")
    if name:
        made[:behind] = [replace(element, special=name, group=made[1].group) for element in made[:behind]]


def apart_as_defined(hook: Hook) -> None:
    """Names what is told phrase by phrase, "dc in 6th ch, ch 1, dc in same ch", where it is a special stitch."""
    made = hook.made
    for special in dict.fromkeys(hook.ground.specials.values()):
        names = _spelled(special) if special.one_place else ()
        if not any(name.startswith("ch-") for name in names):
            continue
        last = len(names) - 1
        for k in range(len(made) - last):
            first = made[k]
            if (
                not first.into
                or first.turning
                and k
                or first.name != names[0]
                or made[k + last].into != first.into
            ):
                continue
            told = made[k : k + last + 1]
            # more than it holds in the place, or what belongs to something else, is another thing
            beside = (*made[max(0, k - 1) : k], *made[k + last + 1 : k + last + 2])
            if any(e.group or e.special for e in told) or any(e.into == first.into for e in beside):
                continue
            if tuple(e.name for e in told) == names and all(e.into in ((), first.into) for e in told):
                hook.groups += 1
                named = [replace(e, special=special.name, group=hook.groups) for e in told]
                made[k : k + last + 1] = named


def _spelled(special: Special) -> tuple[str, ...]:
    """The names of what a special stitch leaves on the row; none when it is more than plain stitches and chains."""
    names: list[str] = []
    for item in special.items:
        if isinstance(item, Chain):
            names.append(f"ch-{item.count} sp")
        elif isinstance(item, Work) and item.where.which in (Which.STRAIGHT, Which.SAME):
            names += [item.stitch] * item.count
        else:
            return ()
    return tuple(names) if len(names) > 1 and not special.closes else ()


def _together(hook: Hook, item: Group) -> bool:
    """Whether stitches that no bracket holds together go in the place of the last one; the counts decide."""
    where = item.where
    space = any(kind.name in (SP, "corner", "corner sp", "group") for kind in where.kinds)
    likely = (
        space
        or where.which in (Which.SAME, Which.BETWEEN, Which.EACH)
        or any(isinstance(inside, Work) and inside.count > 1 for inside in item.items)
    )
    return bool(hook.ask(("together", item.span.start), (likely, not likely)))


def in_place(hook: Hook, taken: tuple[int, ...], name: str, count: int) -> None:
    """Stitches of one kind in one place; several belong together, the middle of an odd number is a corner."""
    if count > 1:
        hook.groups += 1
        saved, hook.group = hook.group, hook.group or hook.groups
        first = len(hook.made)
        for _ in range(min(count, MAX_ELEMENTS + 1)):
            hook.make(name, taken)
        hook.group = saved
        # those in a ring are all in one place, and none of them is a corner
        if count % 2 and count >= 3 and not saved and (hook.pieces or not hook.below.ring):
            middle = first + count // 2
            hook.made[middle] = replace(hook.made[middle], corner=True)
        return
    hook.make(name, taken)


def worked_in(hook: Hook, items: Sequence[Item], taken: tuple[int, ...]) -> None:
    """Items all worked in one place."""
    saved_place, saved_group = hook.place, hook.group
    hook.groups += 1
    hook.place = taken
    hook.group = saved_group or hook.groups
    first = len(hook.made)
    here = hook.below.here
    if taken:
        hook.below.here = taken[0]
    steps = len(hook.steps)
    try:
        for k, inside in enumerate(items):
            hook.one(inside, items[k + 1 :])
    finally:
        hook.place, hook.group = saved_place, saved_group
        del hook.steps[steps:]
        if not taken:
            hook.below.here = here
    if taken or sum(1 for e in hook.made[first:] if e.kind == SP) < 2:
        # "(3 dc, ch 2) 4 times in ring": all of its spaces are corners, or none is
        mark_corner(hook, first)


def mark_corner(hook: Hook, first: int) -> None:
    """Marks the corner of what was made in one place: its middle space, or the middle of an odd number of stitches."""
    made = hook.made[first:]
    spaces = [first + k for k, e in enumerate(made) if e.kind == SP]
    stitches = [first + k for k, e in enumerate(made) if e.is_stitch]
    if spaces:
        pick = spaces[len(spaces) // 2] if len(spaces) % 2 else spaces[0]
        hook.made[pick] = replace(hook.made[pick], corner=True)
    elif len(stitches) >= 3 and len(stitches) % 2:
        pick = stitches[len(stitches) // 2]
        hook.made[pick] = replace(hook.made[pick], corner=True)


def skip(hook: Hook, item: Skip, rest: Sequence[Item]) -> None:
    """Passes over places, as the words say."""
    where = item.where
    below = hook.below
    kind = where.kinds[0] if where.kinds else Kind(ANY)
    if kind.name == "picot":
        return
    if kind.name == "slst" and not any(e.kind == "slst" for e in below.elements):
        # "sk both sl sts" that tied the row before to an edge: they are no stitches of it
        return
    if kind.name == REST:
        group = below.elements[below.here].group if below.here is not None else 0
        if kind.inside == "half" and below.at < below.n and below.elements[below.at].group != group:
            # at the end of a row the hook is not in it yet
            group = below.elements[below.at].group
            if not group:
                hook.untold(item.span, "skips half of a group where none stands")
        while group and below.at < below.n and below.elements[below.at].group == group:
            below.at += 1
        return
    if kind.name == EITHER:
        for _ in range(min(where.many, MAX_ELEMENTS)):
            while below.at < below.n and below.elements[below.at].kind == HIDDEN:
                below.at += 1
            below.at = min(below.n, below.at + 1)
        return
    if where.down > 1 and rest and not isinstance(rest[0], Skip) and passed_behind(rest, 0):
        # "sk next FPdc 2 rows below, FPtr around next FPdc, FPtr around skipped FPdc, sk 2 sc behind them"
        return
    if where.down < 0 and -where.down in hook.ground.earlier and -where.down != hook.ground.last_number:
        # "sk next sc of Rnd 1", behind petals: nothing of the row below is passed
        hook.taken_below[-where.down] = hook.taken_below.get(-where.down, 0) + where.many
        return
    if where.which is Which.FIRST and hook.stands_on_first() and kind.name != SP:
        # the stitch under a counted turning chain is the first of those skipped
        already = 1 if below.at >= 1 and below.here == 0 and any(e.turning for e in hook.made) else 0
        for _ in range(max(0, min(where.many, MAX_ELEMENTS) - already)):
            take(hook, kind, item)
        return
    if where.which is Which.SAME:
        return
    if where.which is Which.EACH and where.stop is not None:
        below.at = max(below.at, end_of(hook, where.stop, rest))
        below.here = None
        return
    if where.which is Which.BETWEEN:
        between(hook, where)
        return
    if where.which is Which.FROM_HOOK:
        if below.n and below.elements[0].kind == CH:
            first = first_stitch(rest, hook.ground.specials) or "sc"
            foundation_start(hook, Work(first, 1, where, item.span), where, rest)
        below.at, below.here = min(below.n, max(0, where.nth - 1)), None
        return
    if (
        where.which is Which.NEXT
        and kind.name not in (SP, CH)
        and hook.stands_on_first()
        and below.here == 0
        and below.at == 1
        and any(e.turning for e in hook.made)
        and where.many > sum(e.chains for e in hook.made if e.kind == SP)
        and hook.ask(("skip under", item.span.start), (True, False) if _to_the_end(rest) else (False, True))
    ):
        where = replace(where, many=where.many - 1)
    if where.which is Which.LAST and (before_a_space(rest) or before_the_next(rest)):
        where = replace(where, which=Which.NEXT)
    if where.which is Which.LAST:
        start = below.from_end(where.many, (kind,))
        below.at = max(below.at, start)
    if where.which is Which.TOP:
        index = below.turning_index()
        if index is not None:
            below.at = max(below.at, index + 1)
        return
    if where.which is Which.EACH:
        below.at = min(below.n, end_of(hook, where.stop, ()))
        return
    here = below.here
    if (
        below.closed
        and 0 <= below.gap == here
        and below.at == below.n
        and where.which is Which.NEXT
        and where.many <= below.n - below.gap
    ):
        # behind the last gap of a round, up to the one it began in: they are passed already
        return
    worked = set(hook.spaces_worked)
    faults = len(hook.found)
    if len(where.kinds) == 2 and where.kinds[1].inside:
        # "sk last dc of V-st": as far as that one
        with suppress(Missing):
            below.in_group(where.kinds[0], where.kinds[1], hook.limit)
        below.here = here
        return
    for _ in range(min(where.many, MAX_ELEMENTS)):
        for k in where.kinds or (kind,):
            special = hook.ground.specials.get(k.name)
            if special is not None and special.items and below.find(k, below.at, below.at + 2) is None:
                length = sum(1 for i in special.items if isinstance(i, (Work, Chain))) - (
                    0 if special.one_place else 1
                )
                below.at = min(below.n, below.at + max(1, length))
                continue
            take(hook, k, item)
    del hook.found[faults:]
    # what is passed over was not worked
    hook.spaces_worked = worked
    below.here = here


def _to_the_end(rest: Sequence[Item]) -> bool:
    """True where one in each is worked behind a skip, "ch 3, turn, sk 1 sc, dc in each sc": that under the chain."""
    ahead = rest[0] if rest else None
    return isinstance(ahead, Work) and ahead.where.which is Which.EACH and ahead.count == 1
