"""What changes in the last pass of a repeat."""

from collections.abc import Sequence

from tracker.fabric.below.surface import Missing
from tracker.fabric.model import HIDDEN, SP
from tracker.fabric.working.hook import Hook, Snapshot
from tracker.fabric.working.places.landing import space_of_turning
from tracker.fabric.working.places.reserve import reserved
from tracker.fabric.working.repeats.passes import one_pass, run_rest, spaces_in, stripped
from tracker.notation.tree import SPACE, Chain, Ending, Group, Item, Mark, Repeat, Say, Skip, Which, Work
from tracker.records import replace
from tracker.trade.stitches import parts_of


def last_pass(hook: Hook, item: Repeat, rest: Sequence[Item]) -> tuple[Item, ...] | None:
    """The items of the last pass as its ending changes them; None when it changes none."""
    ending = item.ending
    assert ending is not None
    if ending.how == "omit":
        return without(stripped(item.items), ending.items)
    if ending.how == "at":
        sign = next((m.sign for m in ending.items if isinstance(m, Mark)), "")
        cut = next(
            (k for k, inside in enumerate(item.items) if isinstance(inside, Mark) and inside.sign == sign),
            None,
        )
        return stripped(item.items[:cut]) if cut is not None else None
    if ending.how == "with":
        return replaced(hook, item, ending, rest)
    return None


def replaced(hook: Hook, item: Repeat, ending: Ending, rest: Sequence[Item]) -> tuple[Item, ...]:
    """The last pass with its tail replaced: the shortest tail that lets it end where it must."""
    body = stripped(item.items)
    end = min(hook.limit, reserved(hook, rest))
    for drop in range(len(body) + 1):
        kept = body[: len(body) - drop]
        told = next((item for item in reversed(kept) if not isinstance(item, Skip)), None)
        if isinstance(told, Chain) and isinstance(ending.items[0], Chain):
            # "ch 5, sk 3, …; …, ending last rep with ch 2": in place of the chains, over what they were to pass
            kept = tuple(inside for inside in kept if inside is not told)
        candidate = (*kept, *ending.items)
        mark = hook.mark()
        try:
            one_pass(hook, candidate, rest)
            left = _silently(hook, item) or _turning_left(hook, ending)
            good = (
                hook.below.unsaid(hook.below.at, end, left + 1) <= left
                and not spaces_missed(hook, item, mark)
                and not _top_twice(hook, ending, mark)
            )
            good = good and not _lands_twice(hook, ending, mark)
        except Missing:
            good = False
        hook.back(mark)
        if good:
            return candidate
    return (*body[:-1], *ending.items)


def _lands_twice(hook: Hook, ending: Ending, mark: Snapshot) -> bool:
    """True where the one stitch a pass ends with, "dc in tch", goes where the pass has worked already."""
    only = ending.items[0] if len(ending.items) == 1 else None
    if not isinstance(only, Work) or only.where.which not in (Which.TOP, Which.LAST):
        return False
    made = hook.made[mark.made :]
    if [kind.name for kind in only.where.kinds] == [SPACE] and (at := space_of_turning(hook)) is not None:
        return any(at in element.into for element in made[: -only.count])
    return bool(made and made[-1].into) and sum(e.into == made[-1].into for e in made) > only.count


def _top_twice(hook: Hook, ending: Ending, mark: Snapshot) -> bool:
    """True when the turning chain that the ending names was worked into by what stands before it, too."""
    first, made = ending.items[0], hook.made[mark.made :]
    if not isinstance(first, (Work, Group)) or first.where.which is not Which.TOP or not made:
        return False
    last = made[-1]
    return any(e.into == last.into and (e.group != last.group or not e.group) for e in made[:-1])


def _silently(hook: Hook, item: Repeat) -> int:
    """Stitches that may lie between the last loop of a round and its first, passed over as between any two before."""
    return hook.silent if hook.below.closed and spaces_in(item) else 0


def _turning_left(hook: Hook, ending: Ending) -> int:
    """1 where only the stitch of a turning chain is left whose space the ending works into: "2 sc in tch sp"."""
    last, below = ending.items[-1] if ending.items else None, hook.below
    if (
        ending.how != "with"
        or below.closed
        or not isinstance(last, (Work, Group))
        or [kind.name for kind in last.where.kinds] != [SPACE]
        or below.here is None
    ):
        return 0
    here, behind = below.elements[below.here], below.elements[below.here + 1 :]
    return int(here.kind == SP and here.turning and len(behind) == 1 and behind[0].turning)


def spaces_missed(hook: Hook, item: Repeat, mark: Snapshot) -> bool:
    """True when spaces of a kind that the repeat works into were passed over since a moment."""
    kinds = {
        inside.where.kinds[0].chains
        for inside in item.items
        if isinstance(inside, (Work, Group))
        and [(k.name, k.inside) for k in inside.where.kinds] == [(SPACE, "")]
    }
    if not kinds or hook.below is not mark.below:
        return False
    worked = {i for element in hook.made[mark.made :] for i in element.into}
    return any(
        element.kind == SP
        and not element.slipped
        and i not in worked
        and (None in kinds or element.chains in kinds)
        for i, element in enumerate(hook.below.elements[mark.at : hook.below.n], mark.at)
    )


def try_last(
    hook: Hook, item: Repeat, ending: Ending, end: int, rest: Sequence[Item]
) -> tuple[Item, ...] | None:
    """The changed last pass, when with it the row comes out; else None."""
    changed = last_pass(hook, item, rest)
    if changed is None:
        return None
    found = _comes_out(hook, item, ending, end, changed)
    if found is None and ending.how == "omit" and changed and isinstance(changed[-1], Skip):
        # "*sc in next st, ch 2, sk 2; …, omitting last ch 2": what the chain would pass over is not there either
        found = _comes_out(hook, item, ending, end, changed[:-1])
    return found


_CUT_SHORT = ("at", "omit")
"""Endings of a pass that stops before its own end."""


def _comes_out(
    hook: Hook, item: Repeat, ending: Ending, end: int, changed: tuple[Item, ...]
) -> tuple[Item, ...] | None:
    """The last pass, when with it the row comes out; else None."""
    mark = hook.mark()
    over = 0
    try:
        one_pass(hook, changed, ())
        # a wide row is not counted to its end at each of its passes
        left = _silently(hook, item) or _turning_left(hook, ending)
        over = hook.below.passed_to(end, hook.silent + 1 if ending.how in _CUT_SHORT else left + 1)
        done = (over <= left or ending.how in _CUT_SHORT and _chained_over(hook, item, changed, over)) and (
            hook.below.unsaid_spaces(hook.below.at, end) == 0 or ending.how != "omit" or not spaces_in(item)
        )
        done = done or ending.how == "omit" and _as_passed_before(hook, item, changed, end)
        done = done and not (ending.how == "with" and spaces_missed(hook, item, mark))
    except Missing:
        done = False
    hook.back(mark)
    # what the last chains reach over is as good as said
    hook.left_said = hook.left_said or done and over > 0
    return changed if done else None


def _as_passed_before(hook: Hook, item: Repeat, changed: Sequence[Item], end: int) -> bool:
    """True when what is left of a round is what the pass before went over to reach what the last one is without."""
    body, elements = stripped(item.items), hook.below.elements
    if not hook.below.closed or len(changed) >= len(body) or tuple(changed) != body[: len(changed)]:
        return False
    dropped = next((inside for inside in body[len(changed) :] if isinstance(inside, (Work, Group))), None)
    before = next((step for step in reversed(hook.steps) if step.item is dropped), None)
    if before is None:
        return False
    into = next((e.into[0] for e in hook.made[before.made_from : before.made_to] if e.into), before.at)
    over, left = (
        [(e.kind, e.chains) for e in elements[start:stop] if e.kind != HIDDEN and not e.slipped]
        for start, stop in (
            (before.at, elements[into].group and _group_begins(hook, into) or into),
            (hook.below.at, end),
        )
    )
    return bool(left) and over == left


def _group_begins(hook: Hook, i: int) -> int:
    """Index of the first of those made in one place with an element."""
    while i and hook.below.elements[i - 1].group == hook.below.elements[i].group:
        i -= 1
    return i


def _chained_over(hook: Hook, item: Repeat, changed: Sequence[Item], over: int) -> bool:
    """True when the last chains of a round reach over no more than earlier passes did, and no pass could go on."""
    if not (changed and hook.below.closed and isinstance(changed[-1], Chain) and over <= hook.silent):
        return False
    mark = hook.mark()
    try:
        one_pass(hook, stripped(item.items)[len(changed) :], ())
    except Missing:
        return True
    finally:
        hook.back(mark)
    return False


def ending_items(hook: Hook, item: Repeat, rest: Sequence[Item]) -> None:
    """Works what the words "ending with" add, unless the arithmetic says that it is no more than a description."""
    assert item.ending is not None
    only, last = item.ending.items[0], stripped(item.items)[-1:]
    again = (
        len(item.ending.items) == 1
        and isinstance(only, Work)
        and only.where.which in (Which.TOP, Which.LAST)
        and all(isinstance(i, Work) and (i.stitch, i.count) == (only.stitch, only.count) for i in last)
        and not hook.below.anything_left(hook.below.n)
    )
    # "*shell in next sc, sc in next dc; rep from * 3 times more, ending with sc in top of ch-3": what the last pass did
    if hook.ask(("ending", item.span.start), (False, True) if again else (True, False)):
        run_rest(hook, item.ending.items, rest)


def _is_the_group(item: Item, dropped: tuple[Item, ...]) -> bool:
    """True when what is left out, "(sc, ch 2, sc)", is what a group works in one place."""
    return (
        isinstance(item, Group)
        and len(item.items) == len(dropped) > 1
        and all(
            isinstance(one, Work)
            and isinstance(other, Work)
            and (one.stitch, one.count) == (other.stitch, other.count)
            or isinstance(one, Chain)
            and isinstance(other, Chain)
            and one.count == other.count
            for one, other in zip(item.items, dropped, strict=True)
        )
    )


def without(items: tuple[Item, ...], dropped: tuple[Item, ...]) -> tuple[Item, ...]:
    """Items without what a last pass leaves out, looked for from the end."""
    out = list(items)
    last = next((k for k in range(len(out) - 1, -1, -1) if not isinstance(out[k], (Say, Mark))), -1)
    if last >= 0 and _is_the_group(out[last], dropped):
        return (*out[:last], *out[last + 1 :])
    for drop in reversed(dropped):
        for k in range(len(out) - 1, -1, -1):
            item = out[k]
            if isinstance(item, (Say, Mark)):
                continue
            if isinstance(drop, Chain) and isinstance(item, Chain):
                out.pop(k)
                break
            if isinstance(drop, Work) and isinstance(item, Repeat) and item.times:
                # the last pass of a repeat within is the one that loses it
                once = replace(item, times=item.times - 1)
                shorter = without(stripped(item.items), (drop,))
                out[k : k + 1] = [*((once,) if item.times > 1 else ()), *shorter]
                break
            if isinstance(drop, Work) and isinstance(item, Work):
                if item.where.which is Which.STRAIGHT and item.count > drop.count:
                    out[k] = replace(item, count=item.count - drop.count)
                elif item.where.which is Which.NEXT and item.where.many > drop.count and item.count == 1:
                    out[k] = replace(item, where=replace(item.where, many=item.where.many - drop.count))
                elif item.count > drop.count and item.where.many == 1:
                    out[k] = replace(item, count=item.count - drop.count)
                else:
                    out.pop(k)
                break
            if (
                isinstance(drop, Group)
                and not drop.items
                and isinstance(item, Work)
                and (parts_of(item.stitch)[2] > 1 or item.count > 1)
            ):
                # "omitting the last group": of stitches that are worked together, or in one place
                out.pop(k)
                break
            if (
                isinstance(drop, Skip)
                and isinstance(item, Skip)
                or isinstance(drop, (Group, Repeat))
                and isinstance(item, (Group, Repeat))
            ):
                out.pop(k)
                break
    return tuple(out)
