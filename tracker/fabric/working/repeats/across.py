"""Repeats that go on to the end of the row, or to a stop."""

from collections.abc import Sequence

from tracker.fabric.below.surface import Missing
from tracker.fabric.model import HIDDEN, SP
from tracker.fabric.working.hook import MAX_ELEMENTS, Choice, Hook
from tracker.fabric.working.places.reserve import end_of
from tracker.fabric.working.repeats.endings import last_pass, try_last
from tracker.fabric.working.repeats.last import (
    between_last_and_first,
    chain_follows,
    closes_in_the_first,
    ends_in_hand,
    ends_where_begun,
    landed,
    lands_in_the_first,
    runs_to_the_end,
    same_chain,
)
from tracker.fabric.working.repeats.passes import (
    body_of,
    inside_groups,
    one_pass,
    run_rest,
    say_passes,
    spaces_in,
    stripped,
)
from tracker.notation.tree import ANY, SPACE, Chain, Group, Item, Join, Kind, Repeat, Skip, Stop, Which, Work
from tracker.problems import Span
from tracker.records import replace
from tracker.trade.stitches import parts_of


def _last_sp_is_its_own(item: Repeat, stop: Stop, rest: Sequence[Item]) -> bool:
    """True for "*ch 5, sc in next sp; rep from * to last sp, ch 2, dc in first sc": nothing else works into it."""
    closing = [i for i in rest if isinstance(i, (Work, Group, Repeat, Skip))]
    return (
        bool(stop.kinds)
        and not stop.at
        and all(kind.name == SPACE or kind.chains for kind in stop.kinds)
        and spaces_in(item)
        and all(isinstance(i, Work) and i.where.which in (Which.FIRST, Which.TOP) for i in closing)
    )


def across(hook: Hook, item: Repeat, rest: Sequence[Item]) -> None:
    """A repeat that goes on to the end of the row, or to its stop."""
    stop = item.stop or Stop()
    if stop.left == 1 and hook.below.closed and _last_sp_is_its_own(item, stop, rest):
        item, stop = replace(item, stop=Stop()), Stop()
    only = stripped(item.items)
    if len(only) == 1 and stop.left and not stop.at and hook.below.closed and item.ending is None:
        told = only[0]
        if isinstance(told, Work) and parts_of(told.stitch)[2] > 1 and told.where.many == 1:
            # "*sc2tog; rep from * around until 6 sts remain" is "sc2tog around until 6 sts remain"
            along = replace(told.where, which=Which.EACH, stop=stop, many=0, kinds=(Kind(ANY),))
            hook.one(replace(told, where=along, span=item.span), rest)
            return
    following: Sequence[Item] = rest
    ending = item.ending
    as_item = False
    if ending is not None and ending.how == "ending":
        # "…, ending with ch 3, tr in first sc": the other half of the loop that the last pass would make
        closes = any(isinstance(told, Join) and told.stitch != "slst" for told in ending.items)
        as_pass = closes or _ends_as_a_pass(only, ending.items)
        ways: tuple[Choice, ...] = ("instead", True, False) if as_pass else (True, False, "instead")
        if not as_pass and _made_of(ending.items[-1]) not in map(_made_of, only):
            # "*…, shell in next sc; rep from * across, ending with 3 dc in last sc": no pass makes such
            ways = (True, "instead", False)
        choice = hook.ask(("ending", item.span.start), ways)
        as_item = choice is True
        if choice == "instead":
            # "rep from * around, ending dc in last 3 dc": what the last pass ends with in place of its own end
            ending = replace(ending, how="with")
            item = replace(item, ending=ending)
        if as_item:
            ending = replace(ending, items=_with_its_chains(only, ending.items))
            following = (*ending.items, *rest)
    below, chains_too = hook.below, hook.below.chains_too
    options = (True, False) if _told_apart(rest, stop.left) else (False, True)
    if _among_spaces(hook, stop) and hook.ask(("last sts", item.span.start), options):
        # "rep from * to last 2 sts, sc in last ch-1 sp, sc in last sc": a space is one of them
        below.chains_too = True
    end = min(hook.limit, end_of(hook, stop, following))
    below.chains_too = chains_too
    body = body_of(item)
    saved = hook.limit
    # inside this limit a missing target ends a pass rather than the row
    hook.limit = end if end < hook.below.n else min(hook.limit, hook.below.n)
    hook.repeats += 1
    number = hook.repeats
    path = hook.path
    turn = 0
    cut_short = False
    latest = hook.mark()
    lacking: Missing | None = None
    try:
        while turn < MAX_ELEMENTS:
            hook.path = (*path, (number, turn, -1))
            if not hook.below.anything_left(end):
                turn += 0 if ending is not None else ends_in_hand(hook, body, rest, end)
                break
            mark = hook.mark()
            if ending is not None and ending.how in ("omit", "at", "with"):
                last = try_last(hook, item, ending, end, rest)
                if last is not None and not _another_fits(hook, item, body, end, rest):
                    one_pass(hook, last, ())
                    turn += 1
                    cut_short = True
                    break
            try:
                one_pass(hook, body, ())
            except Missing as missing:
                hook.back(mark)
                lacking = missing if turn == 0 else None
                closed = 0 if chain_follows(body, rest) else closes_in_the_first(hook, body, end)
                ends: Sequence[Item] = ending.items if closed and as_item and ending is not None else ()
                if ends and (same_chain(body[:-closed], ends) or _told_again(body[:-closed], ends)):
                    # "…, ending with ch 2": the chain that the last pass was cut short at
                    as_item = False
                turn += (
                    closed > 0
                    or ending is None
                    and ends_in_hand(hook, body, rest, end)
                    or landed(hook, item, body, end)
                    or ends_where_begun(hook, item, body)
                    or lands_in_the_first(hook, body, end)
                    or not any(isinstance(i, (Work, Group, Repeat)) for i in rest)
                    and runs_to_the_end(hook, body, end, turn)
                )
                break
            hook.off_own_chains(mark)
            if (hook.below.at, hook.below.sub, hook.below.gap) == (mark.at, mark.sub, mark.gap):
                if turn == 0 and hook.below.closed and any(e.into for e in hook.made[mark.made :]):
                    # "sl st to center of loop, *(sc, ch 4, sc) in loop, ch 6; rep from *": the first is the one in hand
                    turn += 1
                    continue
                hook.back(mark)
                break
            turn += 1
            latest = mark
        if turn and not cut_short and (short := _without_its_end(hook, item, rest)) is not None:
            # "*sc, dc; rep from * across, omitting last dc" over an even number: the last stitch is left
            hook.back(latest)
            hook.path = (*path, (number, turn - 1, -1))
            one_pass(hook, short, ())
    finally:
        hook.limit = saved
        hook.path = path
    if turn and between_last_and_first(hook, body, rest):
        hook.path = (*path, (number, turn, -1))
        one_pass(hook, body[:-1], ())
        closing = body[-1]
        assert isinstance(closing, Work)
        before, at = len(hook.made), hook.below.at
        for _ in range(min(closing.count, MAX_ELEMENTS)):
            hook.make(closing.stitch, (0,))
        hook.step(closing, before, at)
        hook.path = path
        turn += 1
    if turn:
        say_passes(hook, number, turn, path)
    hook.across = item
    if turn == 0 and hook.below.n and hook.below.anything_left(end):
        left = hook.below.unsaid(hook.below.at, end)
        if stop.at and spaces_in(item):
            # the first row of a piece that grows: no second space yet before its middle or corner
            left = _space_before(hook, end)
        if left or stop.left:
            _cannot_begin(hook, item, body, lacking)
    elif stop.left or stop.at:
        over = hook.below.passed_to(end)
        if over and spaces_in(item) and (over <= hook.silent or stop.at and not _space_before(hook, end)):
            over = 0
        if over <= hook.silent and inside_groups(item):
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
    if turn and ending is not None and ending.how == "at" and not cut_short:
        hook.fault(
            "C204",
            item.told_at or item.span,
            "has a repeat whose last pass cannot end where it is told to",
            "does not come out there",
            "Check the count of the row below, and where the last repeat ends.",
        )


def _without_its_end(hook: Hook, item: Repeat, rest: Sequence[Item]) -> tuple[Item, ...] | None:
    """The last pass of a row without the stitches to be omitted, where those go into places of their own; else None."""
    ending = item.ending
    if ending is None or ending.how != "omit" or hook.below.closed:
        return None
    body = stripped(item.items)
    last = body[-1] if body else None
    dropped = ending.items[0] if len(ending.items) == 1 else None
    plain = (
        isinstance(last, Work)
        and isinstance(dropped, Work)
        and last.stitch == dropped.stitch
        and last.where.which in (Which.NEXT, Which.STRAIGHT)
        and not any(isinstance(i, (Work, Group, Repeat)) for i in rest)
    )
    return last_pass(hook, item, rest) if plain else None


def _ends_as_a_pass(body: Sequence[Item], ending: Sequence[Item]) -> bool:
    """True for "*sc in dc, sc in sp; rep from *, ending with sc in last sp, …": the last of them ends a pass."""
    last, first = body[-1] if len(body) > 1 else None, ending[0] if ending else None
    return (
        isinstance(last, Work)
        and isinstance(first, Work)
        and isinstance(body[-2], Work)
        and first.where.which is Which.LAST
        and first.stitch == last.stitch
        and [kind.name for kind in first.where.kinds] == [SPACE] == [kind.name for kind in last.where.kinds]
    )


def _with_its_chains(body: Sequence[Item], ending: Sequence[Item]) -> tuple[Item, ...]:
    """ "*Ch 1, 3 dc in sp, ch 1, shell in shell; rep from *, ending with 3 dc in last sp, ch 1": the chain before
    them in every pass stands before them there too."""
    begun = next((k for k, inside in enumerate(body) if not isinstance(inside, Chain)), 0)
    again = begun and ending and _made_of(ending[0]) == _made_of(body[begun]) != ()
    if again and any(isinstance(inside, (Work, Group)) for inside in body[begun + 1 :]):
        return (*body[:begun], *ending)
    return tuple(ending)


def _told_again(body: Sequence[Item], ending: Sequence[Item]) -> bool:
    """True for "…, ending with 5 dc in 2nd dc of last group", where that is what the last pass ends with."""
    last = [_made_of(item) for item in body[-len(ending) :]]
    return all(last) and last == [_made_of(item) for item in ending]


def _made_of(item: Item) -> tuple[object, ...]:
    """What an item works, wherever it goes: for comparing two that may differ in their place alone."""
    if isinstance(item, Work):
        return (item.stitch, item.count, item.where.many)
    if isinstance(item, Repeat) and item.times is not None:
        return (item.times, *map(_made_of, item.items))
    if isinstance(item, Group):
        return (item.where.many, *map(_made_of, item.items))
    return (item.count,) if isinstance(item, Chain) else ()


def _among_spaces(hook: Hook, stop: Stop) -> bool:
    """True when the last "sts" that a repeat leaves may be spaces, because such are among the last of the row."""
    below = hook.below
    if stop.left < 2 or stop.at or any(kind.name != ANY for kind in stop.kinds) or below.chains_too:
        return False
    shown = [e for e in below.elements if e.kind != HIDDEN]
    return any(e.kind == SP and e.chains == 1 for e in shown[-stop.left :])


def asked_in_vain(hook: Hook, body: Sequence[Item]) -> Span | None:
    """The words of a repeat that name a stitch or a space of which the row below has no more."""
    for inside in body:
        if (
            isinstance(inside, (Work, Group))
            and inside.where.kinds
            and inside.where.kinds[0].name != ANY
            and hook.below.find(inside.where.kinds[0], hook.below.at) is None
        ):
            return inside.where.span
    return None


def _cannot_begin(hook: Hook, item: Repeat, body: Sequence[Item], lacking: Missing | None) -> None:
    """Reports a repeat of which not even the first pass can be worked: at the stitch it lacks, where that is why."""
    asked = asked_in_vain(hook, body)
    if lacking is not None and lacking.code in ("C203", "C205") and asked is not None:
        hook.fault(
            "C205",
            asked,
            f"has a repeat that cannot be begun: {lacking.says}",
            "not there",
            "Name what is there, if that is meant; else check the row below.",
            weight=5,
        )
        return
    hook.fault(
        "C204",
        item.told_at or item.span,
        "has a repeat that does not fit even once",
        "does not fit",
        "Check the count of the row below, and what stands before the repeat.",
        weight=5,
    )


def _told_apart(rest: Sequence[Item], left: int) -> bool:
    """True when what follows names each of so many places, and a space among them."""
    wheres = [item.where for item in rest if isinstance(item, (Work, Group, Skip))]
    spaces = [where for where in wheres if where.kinds and where.kinds[0].name == SPACE]
    return bool(spaces) and sum(max(1, where.many) for where in wheres) == left


def _another_fits(hook: Hook, item: Repeat, body: tuple[Item, ...], end: int, rest: Sequence[Item]) -> bool:
    """True when a last pass that ends otherwise fits behind one more of the others, too: then it comes later."""
    if item.ending is None or item.ending.how != "with":
        return False
    mark = hook.mark()
    try:
        one_pass(hook, body, ())
        moved = (hook.below.at, hook.below.sub) != (mark.at, mark.sub)
        last = try_last(hook, item, item.ending, end, rest) if moved else None
        own = last[: len(last) - len(item.ending.items)] if last is not None else ()
        return any(isinstance(i, (Work, Group, Repeat)) for i in own)
    except Missing:
        return False
    finally:
        hook.back(mark)


def _space_before(hook: Hook, end: int) -> bool:
    """True when a space still lies between the hook and there."""
    return any(e.kind == SP for e in hook.below.elements[hook.below.at : end])
