"""Items of a row worked one after another, in the order written.

The one table says which deed works which kind of item; a fault stops none of the items after it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from tracker.fabric.below.cursor import Below
from tracker.fabric.below.surface import UNLIMITED, Missing
from tracker.fabric.model import CH, SP
from tracker.fabric.standing import chain_of
from tracker.fabric.working.edges import edge, join, travel
from tracker.fabric.working.groups import grouped, skip
from tracker.fabric.working.hook import Choice, Ground, Hook
from tracker.fabric.working.repeats.passes import told_missing
from tracker.fabric.working.repeats.times import repeat
from tracker.fabric.working.stitches import work
from tracker.notation.tree import (
    SKIPPED,
    Chain,
    Edge,
    Group,
    Item,
    Join,
    Kind,
    Leave,
    Mark,
    Prose,
    Repeat,
    Say,
    Skip,
    Stop,
    Travel,
    Turn,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.trade.nouns import amount

TYPE_CHECKING = False  # the name is enough for type checkers, and typing is slow to import
if TYPE_CHECKING:
    from typing import Any


def run(hook: Hook, items: Sequence[Item]) -> None:
    """Works items in order; a fault stops none of those after it."""
    whole: Item | None = None
    for k, item in enumerate(items):
        before, at = len(hook.made), hook.below.at
        try:
            hook.one(item, items[k + 1 :])
        except Missing as missing:
            if hook.limit != UNLIMITED or hook.place is not None:
                raise
            told_missing(hook, item, missing)
        if not isinstance(item, (Repeat, Mark, Turning)):
            hook.step(item, before, at)
        if _goes_to_the_end(item):
            if (
                whole is not None
                and whole.span != item.span
                and len(hook.made) == before
                and not _told(hook, item)
            ):
                hook.spent = hook.spent or item.span
            whole = item if len(hook.made) > before and hook.below.at >= hook.below.n else None
        elif not hook.below.closed and _slips_over(item) and any(map(_goes_to_the_end, items[:k])):
            hook.spent = hook.spent or item.span


def _slips_over(item: Item) -> bool:
    """True for "sl st over first 3 sts": of a row that is worked to its end they lead along the next."""
    first = isinstance(item, Work) and item.stitch == "slst" and item.where.which is Which.FIRST
    return first and isinstance(item, Work) and item.where.many > 1


def _told(hook: Hook, item: Item) -> bool:
    """True for the "40 in all" behind what made as many."""
    return isinstance(item, Work) and item.count > 1 and item.count == sum(e.is_stitch for e in hook.made)


def _goes_to_the_end(item: Item) -> bool:
    """True for what is worked over and over as far as the row goes."""
    if isinstance(item, Repeat):
        return item.times is None and item.stop in (None, Stop())
    return isinstance(item, Work) and item.where.which is Which.EACH and item.where.stop in (None, Stop())


def chain(hook: Hook, item: Chain, rest: Sequence[Item]) -> None:
    """Makes a space, unless the chains are those of a picot."""
    after = [i for i in rest[:8] if not isinstance(i, (Turning, Say, Turn))]
    following = after[0] if after else None
    back = works_back(following) or _goes_on_along(after) or _fills(item, after)
    picot = closes_picot(following) or _in_own_first(hook, following)
    if picot and not joins_back(item, following) and not back:
        hook.picot_open = True
        return
    if back and any(e.is_stitch for e in hook.below.elements) and hook.own_chains is None:
        # "ch 7, sc in 2nd ch from hook, …": a petal or a leaf on chains of its own
        hook.own_chains = hook.below
        hook.below = Below(chain_of(item.count).elements, False)
        return
    hook.make(SP, (), item.count)


def closes_picot(following: Item | None) -> bool:
    """True for a slip stitch that closes the chains before it upon themselves: it makes the picot."""
    if (
        isinstance(following, (Work, Join))
        and following.stitch == "slst"
        and isinstance(following.where, Where)
    ):
        where = following.where
        return (
            where.which is Which.FROM_HOOK
            or where.which is Which.MADE
            and not any(kind.name == SKIPPED for kind in where.kinds)
            or (where.which is Which.NTH and any(k.name == CH for k in where.kinds))
        )
    return False


def _in_own_first(hook: Hook, following: Item | None) -> bool:
    """True for "ch 3, sl st in first ch" among stitches, where no chain but those in hand has a first."""
    return (
        isinstance(following, Work)
        and following.stitch == "slst"
        and following.where.which is Which.FIRST
        and following.where.many == 1
        and following.where.kinds == (Kind(CH),)
        and bool(hook.made)
        and not any(e.kind == CH for e in hook.below.elements)
    )


def joins_back(item: Chain, following: Item | None) -> bool:
    """True for "ch 1, sl st to 3rd ch": the chain has no third, so the round is closed in its turning chain."""
    return (
        isinstance(following, (Work, Join))
        and isinstance(following.where, Where)
        and following.where.which is Which.NTH
        and following.where.nth > item.count
    )


def works_back(following: Item | None) -> bool:
    """True for a stitch that goes back along the chains before it."""
    return (
        isinstance(following, Work)
        and following.stitch != "slst"
        and following.where.which is Which.FROM_HOOK
    )


def _goes_on_along(after: Sequence[Item]) -> bool:
    """True for "sl st in 2nd ch from hook, sc in next ch": a point that begins flat, and no picot."""
    if len(after) < 2:
        return False
    first, second = after[0], after[1]
    return (
        isinstance(first, Work)
        and first.stitch == "slst"
        and first.where.which is Which.FROM_HOOK
        and isinstance(second, Work)
        and second.where.which in (Which.NEXT, Which.EACH)
        and any(kind.name == CH and kind.chains is None for kind in second.where.kinds)
    )


def _fills(chain: Chain, after: Sequence[Item]) -> bool:
    """True for "ch 4, sl st in 2nd ch from hook, sc, hdc": so many with no place of their own as chains are left."""
    first = after[0] if after else None
    if not isinstance(first, Work) or first.stitch != "slst" or first.where.which is not Which.FROM_HOOK:
        return False
    left = chain.count - first.where.nth
    if first.where.nth != _SECOND or left < _SECOND:
        return False
    for item in after[1:]:
        bare = isinstance(item, Work) and not item.where.kinds and item.where.which in _NO_PLACE
        if not isinstance(item, Work) or not bare or left <= 0:
            break
        left -= item.count * item.where.many if item.where.which is Which.NEXT else item.count
    return left == 0


_SECOND = 2
_NO_PLACE = (Which.STRAIGHT, Which.NEXT)


def leave(hook: Hook, item: Leave, rest: Sequence[Item]) -> None:
    """Stitches left unworked on purpose; a number of them that is not the one left is told."""
    hook.left_said = True
    below, where = hook.below, item.where
    if (
        where is None
        or where.which not in (Which.NEXT, Which.LAST)
        or where.many < 2
        or hook.edge_used
        or below.ring
    ):
        return
    ahead = below.elements[below.at :]
    left = sum(1 for e in ahead if e.is_stitch)
    if not left and not ahead and hook.made:
        hook.spent = hook.spent or item.span
    if left != where.many and left and not hook.ground.left and not any(e.kind == SP for e in ahead):
        hook.fault(
            "C201",
            item.span,
            f"leaves {amount(left, 'stitch')}, and says that {where.many} are left",
            "another number is left",
            "Check how many are worked before, and the count of the row below.",
            weight=5,
        )


def said(hook: Hook, item: Say, rest: Sequence[Item]) -> None:
    """Hangs a marker where the words say; what else is told changes nothing."""
    if item.kind != "marker" or not item.text:
        return
    how, *numbers = item.text.split()
    made = hook.made
    if how == "here":
        hook.marks.append(2 * len(made))
        hook.below.slipped = hook.below.at
    elif numbers[:1] == ["last"] and numbers[1:]:
        found = [k for k, e in enumerate(made) if (e.kind == SP if numbers[1] == "sp" else "tog" in e.kind)]
        hook.marks.extend(2 * k + 1 for k in found[-1:])
    elif numbers == ["last"]:
        group = next(
            (k for k in range(len(made)) if made[k].into and made[k].into == made[-1].into), len(made) - 1
        )
        if made:
            hook.marks.append(group + len(made))
    else:
        stitches = [k for k, element in enumerate(made) if element.is_stitch]
        told = [int(number) for number in numbers if 0 < int(number) <= len(stitches)]
        hook.marks.extend(2 * stitches[n - 1] + (2 if how == "after" else 1) for n in told)


def unread(hook: Hook, item: Prose, rest: Sequence[Item]) -> None:
    """Words that could not be read: the row cannot be claimed."""
    hook.unread = True


DEEDS: Mapping[type, Callable[[Hook, Any, Sequence[Item]], None]] = {
    Work: work,
    Chain: chain,
    Skip: skip,
    Group: grouped,
    Repeat: repeat,
    Join: join,
    Travel: travel,
    Edge: edge,
    Leave: leave,
    Say: said,
    Prose: unread,
}
"""What works an item of each type; turns, marks and remarks change nothing on the row."""


def hook_on(below: Below, ground: Ground, choices: Mapping[object, Choice]) -> Hook:
    """A hook at the beginning of a row."""
    return Hook(below, ground, choices, DEEDS)
