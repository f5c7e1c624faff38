"""Repeats that go on to the end of the row, or to a stop."""

from collections.abc import Sequence

from tracker.fabric.below.surface import Missing
from tracker.fabric.model import SP
from tracker.fabric.working.hook import MAX_ELEMENTS, Hook
from tracker.fabric.working.places.reserve import end_of
from tracker.fabric.working.repeats.endings import try_last
from tracker.fabric.working.repeats.passes import one_pass, run_rest, say_passes, spaces_in, stripped
from tracker.notation.tree import Item, Repeat, Stop
from tracker.records import replace


def across(hook: Hook, item: Repeat, rest: Sequence[Item]) -> None:
    """A repeat that goes on to the end of the row, or to its stop."""
    stop = item.stop or Stop()
    following: Sequence[Item] = rest
    ending = item.ending
    as_item = False
    if ending is not None and ending.how == "ending":
        choice = hook.ask(("ending", item.span.start), (True, False, "instead"))
        as_item = choice is True
        if choice == "instead":
            # "rep from * around, ending dc in last 3 dc": what the last pass ends with in place of its own end
            ending = replace(ending, how="with")
            item = replace(item, ending=ending)
        if as_item:
            following = (*ending.items, *rest)
    end = min(hook.limit, end_of(hook, stop, following))
    body = stripped(item.items)
    saved = hook.limit
    # inside this limit a missing target ends a pass rather than the row
    hook.limit = end if end < hook.below.n else min(hook.limit, hook.below.n)
    hook.repeats += 1
    number = hook.repeats
    path = hook.path
    turn = 0
    try:
        while turn < MAX_ELEMENTS:
            if not hook.below.anything_left(end):
                break
            hook.path = (*path, (number, turn, -1))
            mark = hook.mark()
            if ending is not None and ending.how in ("omit", "at", "with"):
                last = try_last(hook, item, ending, end, rest)
                if last is not None:
                    one_pass(hook, last, ())
                    turn += 1
                    break
            try:
                one_pass(hook, body, ())
            except Missing:
                hook.back(mark)
                break
            if (hook.below.at, hook.below.sub, hook.below.gap) == (mark.at, mark.sub, mark.gap):
                hook.back(mark)
                break
            turn += 1
    finally:
        hook.limit = saved
        hook.path = path
    if turn:
        say_passes(hook, number, turn, path)
    hook.across = item
    if turn == 0 and hook.below.n and hook.below.anything_left(end):
        left = hook.below.unsaid(hook.below.at, end)
        if stop.at and spaces_in(item):
            # the first row of a piece that grows: no second space yet before its middle or corner
            left = _space_before(hook, end)
        if left or stop.left:
            hook.fault(
                "C204",
                item.told_at or item.span,
                "has a repeat that does not fit even once",
                "does not fit",
                weight=5,
            )
    elif stop.left or stop.at:
        over = hook.below.passed_to(end)
        if over and spaces_in(item) and (over <= hook.silent or stop.at and not _space_before(hook, end)):
            over = 0
        if over:
            hook.fault(
                "C204",
                item.told_at or item.span,
                f"has a repeat that does not come out even: {over} stitch{'es' if over > 1 else ''} over",
                "does not come out even",
                "Check the count of the row below, and what stands before and after the repeat.",
            )
            hook.below.at = end
    if ending is not None and as_item:
        run_rest(hook, ending.items, rest)


def _space_before(hook: Hook, end: int) -> bool:
    """True when a space still lies between the hook and there."""
    return any(e.kind == SP for e in hook.below.elements[hook.below.at : end])
