"""Repeats told with a number of times; those without one are handed on to `across`."""

from collections.abc import Sequence

from tracker.fabric.below.cursor import Below
from tracker.fabric.below.surface import UNLIMITED, Missing
from tracker.fabric.working.hook import MAX_ELEMENTS, Choice, Hook, TooLarge
from tracker.fabric.working.places.earlier import skipped_left
from tracker.fabric.working.repeats.across import across, asked_in_vain
from tracker.fabric.working.repeats.endings import ending_items, last_pass
from tracker.fabric.working.repeats.halves import whole_loops
from tracker.fabric.working.repeats.last import (
    closes_in_the_first,
    ends_in_hand,
    ends_where_begun,
    landed,
    lands_in_the_first,
)
from tracker.fabric.working.repeats.passes import body_of, one_pass
from tracker.notation.tree import ANY, Group, Item, Kind, Repeat, Skip, Stop, Which, Work
from tracker.records import replace
from tracker.trade.stitches import STITCHES, parts_of


def repeat(hook: Hook, item: Repeat, rest: Sequence[Item]) -> None:
    """Works a repeat, pass by pass; `rest` is what follows its last pass."""
    item = _with_increases(hook, whole_loops(hook, item))
    shapes = item.times is not None and not any(_post(inside) for inside in item.items)
    ways = (False, True) if shapes else (True, False)
    if item.loose and not hook.ask(("over and over", item.span.start), ways):
        _last_alone(hook, item, rest)
        return
    times = item.times
    if times is None and item.further is None:
        times = passes_below(hook, item)
        if times is None:
            across(hook, item, rest)
            return
    if times is None:
        assert item.further is not None
        options: tuple[Choice, ...] = (
            (item.further + 1, item.further) if item.star else (item.further, item.further + 1)
        )
        chosen = hook.ask(("times", item.span.start), options)
        times = int(chosen) if isinstance(chosen, int) else item.further + 1
    if times > MAX_ELEMENTS:
        raise TooLarge
    hook.repeats += 1
    number = hook.repeats
    path = hook.path
    body = body_of(item)
    for turn in range(times):
        hook.path = (*path, (number, turn, times))
        last = turn == times - 1
        items = body
        if last and item.ending is not None:
            items = last_pass(hook, item, rest) or body
        if hook.limit == UNLIMITED and hook.place is None:
            before = (hook.below.at, len(hook.made))
            mark = hook.mark() if last and turn and hook.below.closed else None
            try:
                one_pass(hook, items, rest if last else ())
            except Missing as missing:
                if mark is not None:
                    # "…, sl st in next sc; repeat from * until 8 petals are made": the last lands where the first began
                    hook.back(mark)
                    end = hook.below.n
                    if (
                        closes_in_the_first(hook, items, end)
                        or lands_in_the_first(hook, items, end)
                        or ends_in_hand(hook, items, rest, end)
                        or landed(hook, item, body, end)
                        or ends_where_begun(hook, item, body)
                    ):
                        continue
                hook.path = path
                asked = asked_in_vain(hook, items) if missing.code == "C205" and not turn else None
                if times > 1 and asked is not None:
                    says = f"has a repeat that cannot be begun: {missing.says}"
                    cure = "Name what is there, if that is meant; else check the row below."
                    hook.fault(missing.code, asked, says, "not there", cure)
                    return
                if times > 1 and not turn:
                    says, beside = f"has a repeat that cannot be begun: {missing.says}", "cannot be begun"
                    cure = "Check what the repeat works into, and what stands before it."
                else:
                    passed = f"has a repeat worked {times} times, and on pass {turn + 1} {missing.says}"
                    says, beside = (passed, f"{times} times") if times > 1 else (missing.says, "here")
                    cure = "Check how often the repeat is worked, and the count of the row below."
                hook.fault(missing.code, item.told_at or item.span, says, beside, cure)
                return
            idle = before == (hook.below.at, len(hook.made))
            if idle and times > 1000:
                raise TooLarge
            if idle and turn == 1 and any(isinstance(i, Work) for i in items):
                hook.unread = True
                says = "has a repeat that finds nothing left to work into"
                hook.untold(item.told_at or item.span, says, "Check how often it is worked.")
        else:
            one_pass(hook, items, rest if last else ())
    hook.path = path
    if item.ending is not None and item.ending.how == "ending":
        ending_items(hook, item, rest)


def _with_increases(hook: Hook, item: Repeat) -> Repeat:
    """ "*2 dc, 1 dc; rep from * around": nobody writes three in a row so, and the two go into one place."""
    works = [inside for inside in item.items if isinstance(inside, Work)]
    if len(works) != 2 or len(works) != len(item.items):
        return item
    one, other = works
    plain = one.stitch == other.stitch in STITCHES and one.colour == other.colour
    straight = one.where.which is other.where.which is Which.STRAIGHT
    if not plain or not straight or {one.count, other.count} != {1, 2}:
        return item
    if not hook.ask(("doubled", item.span.start), (True, False)):
        return item
    doubled = tuple(
        replace(work, where=replace(work.where, which=Which.NEXT, many=1, kinds=(Kind(ANY),)))
        if work.count == 2
        else work
        for work in works
    )
    return replace(item, items=doubled)


def _post(item: Item) -> bool:
    """True for a stitch around a post."""
    return isinstance(item, Work) and bool(parts_of(item.stitch)[0])


def _last_alone(hook: Hook, item: Repeat, rest: Sequence[Item]) -> None:
    """ "Sc 4, inc around", "FPdc, BPdc 5 times" where the last alone goes on to the end, or so often."""
    for k, each in enumerate(item.items):
        if k == len(item.items) - 1 and isinstance(each, Work):
            along = replace(each.where, which=Which.EACH, many=0, kinds=(Kind(ANY),), stop=item.stop)
            each = replace(each, where=along)
            if item.times is not None:
                each = Repeat((item.items[k],), item.span, item.times)
        hook.one(each, (*item.items[k + 1 :], *rest))


def _begun_around(hook: Hook) -> int:
    """1 where the round began around the post of a stitch that the yarn was joined to, else 0."""
    works = [step.item.where for step in hook.steps if isinstance(step.item, Work)]
    return int(bool(works) and works[0].which is Which.SAME and works[0].around)


def passes_below(hook: Hook, item: Repeat) -> int | None:
    """How often a repeat around stitches of an earlier row goes on: until that row is used up; None for others."""
    told = [
        inside.where
        for inside in item.items
        if isinstance(inside, (Work, Group)) and inside.where.down < 0 and inside.where.which is Which.NEXT
    ]
    skipped = [
        inside.where
        for inside in item.items
        if isinstance(inside, (Work, Group)) and inside.where.down < 0 and inside.where.which is Which.MADE
    ]
    if len(skipped) == 1 and not told and skipped[0].many and item.stop in (None, Stop()):
        # "*ch 4, sc in next skipped sc of Rnd 1; rep from * around"
        return skipped_left(hook, -skipped[0].down) // skipped[0].many or None
    rows = {-where.down for where in told}
    if len(rows) != 1 or item.stop not in (None, Stop()) or hook.limit != UNLIMITED:
        return None
    row = rows.pop()
    if row == hook.ground.last_number or row not in hook.ground.earlier:
        return None
    kinds = [kind for where in told for kind in where.kinds] or [Kind(ANY)]
    there = Below(hook.ground.earlier[row], True)
    worked = sum(where.many for where in told)
    # "sc in next sc, FPtr around next dc of Rnd 1, sk next sc": what is skipped lies behind the post stitch
    behind = any(isinstance(i, (Work, Group)) and i.where.down == 1 for i in item.items)
    skips = [i.where for i in item.items if isinstance(i, Skip)]
    passed = sum(where.many for where in skips if where.down == -row or where.down == 1 and not behind)
    found = sum(1 for element in there.elements if any(there.matches(element, kind) for kind in kinds))
    left = found - (hook.taken_below.get(row, 0) or _begun_around(hook))
    return max(1, left // (worked + passed)) if worked and left > 0 else None
