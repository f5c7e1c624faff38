"""Repeats told with a number of times; those without one are handed on to `across`."""

from collections.abc import Sequence

from tracker.fabric.below.surface import UNLIMITED, Missing
from tracker.fabric.working.hook import MAX_ELEMENTS, Choice, Hook, TooLarge
from tracker.fabric.working.repeats.across import across
from tracker.fabric.working.repeats.endings import ending_items, last_pass
from tracker.fabric.working.repeats.passes import one_pass, stripped
from tracker.notation.tree import Item, Repeat


def repeat(hook: Hook, item: Repeat, rest: Sequence[Item]) -> None:
    """Works a repeat, pass by pass; `rest` is what follows its last pass."""
    if item.times is None and item.further is None:
        across(hook, item, rest)
        return
    times = item.times
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
    body = stripped(item.items)
    for turn in range(times):
        hook.path = (*path, (number, turn, times))
        last = turn == times - 1
        items = body
        if last and item.ending is not None:
            items = last_pass(hook, item, rest) or body
        if hook.limit == UNLIMITED and hook.place is None:
            before = (hook.below.at, len(hook.made))
            try:
                one_pass(hook, items, rest if last else ())
            except Missing as missing:
                hook.path = path
                hook.fault(
                    missing.code,
                    item.told_at or item.span,
                    f"asks for {times} times, and on pass {turn + 1} {missing.says}",
                    f"{times} times",
                    "Check how often the repeat is worked, and the count of the row below.",
                )
                return
            if before == (hook.below.at, len(hook.made)) and times > 1000:
                raise TooLarge
        else:
            one_pass(hook, items, rest if last else ())
    hook.path = path
    if item.ending is not None and item.ending.how == "ending":
        ending_items(hook, item, rest)
