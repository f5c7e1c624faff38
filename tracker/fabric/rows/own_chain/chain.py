"""What a first row does with its foundation chain: where it begins, and what it is when it is worked again."""

from collections.abc import Sequence

from tracker.fabric.model import CH, SP
from tracker.fabric.standing import Standing
from tracker.fabric.working.hook import Hook
from tracker.fabric.working.turning import height_in_row
from tracker.notation.tree import (
    ANY,
    Group,
    Item,
    Kind,
    Mark,
    Repeat,
    Say,
    Skip,
    Turn,
    Turning,
    Which,
    Work,
)
from tracker.records import replace
from tracker.trade.stitches import parts_of

TYPE_CHECKING = False  # as type checkers have it; typing itself is slow to load
if TYPE_CHECKING:
    from typing import TypeGuard


def from_hook(item: Item | None) -> int | None:
    """Which chain from the hook an item begins in, from 1; None when it does not begin in one."""
    if isinstance(item, (Work, Group, Skip)) and item.where.which is Which.FROM_HOOK:
        return item.where.nth
    if isinstance(item, Repeat) and item.items:
        return from_hook(item.items[0])
    if isinstance(item, Skip) and item.where.kinds and item.where.kinds[0].name == CH:
        return item.where.many + 1
    return None


def hanging_chain(items: Sequence[Item], standing: Standing) -> Standing:
    """ "…, ch 8 for sleeve. / Next row: Turn, sc in 2nd ch from hook": chains left hanging that the row goes along."""
    last = standing.elements[-1] if standing.elements else None
    begun = next((item for item in items if not isinstance(item, (Say, Mark, Turn, Turning))), None)
    nth = from_hook(begun) if isinstance(begun, Work) else None
    if standing.kind != "row" or last is None or last.kind != SP or last.turning or nth is None:
        return standing
    if not nth <= last.chains or standing.added:
        return standing
    return replace(standing, elements=standing.elements[:-1], added=last.chains)


def skipped_start(items: list[Item], standing: Standing) -> list[Item]:
    """ "Sk first 3 ch, dc in next ch" on a foundation is "dc in 4th ch from hook"; so is "starting in 2nd ch"."""
    if standing.kind != "chain":
        return items
    for k, item in enumerate(items):
        if isinstance(item, (Say, Mark, Turn, Turning)):
            continue
        if isinstance(item, Work) and item.where.which is Which.NTH and item.where.kinds[:1] == (Kind(CH),):
            # "1 dc in 4th ch, 1 dc in each ch to end": counted from the hook, as all do
            where = replace(item.where, which=Which.FROM_HOOK, kinds=())
            return [*items[:k], replace(item, where=where), *items[k + 1 :]]
        if _all_in_first(item, items[k + 1 :], standing):
            where = replace(item.where, which=Which.FROM_HOOK, nth=len(standing.elements), kinds=())
            return [*items[:k], replace(item, where=where), *items[k + 1 :]]
        if (
            isinstance(item, Skip)
            and k + 1 < len(items)
            and item.where.which in (Which.NEXT, Which.FIRST)
            and (not item.where.kinds or item.where.kinds[0].name == CH)
        ):
            says = [i for i in items[k + 1 : k + 2] if isinstance(i, Turning)]
            behind = k + 1 + len(says)
            after = items[behind] if behind < len(items) else item
            inside = after.items[0] if isinstance(after, Repeat) and after.items else None
            if (
                isinstance(after, Repeat)
                and isinstance(inside, Work)
                and len(after.items) == 1
                and after.times is None
                and inside.where.which is Which.NEXT
                and inside.where.many == 1
            ):
                # "sk 3 ch, *dc in next ch; rep from * to end" begins as "dc in next ch" does
                items = [*items[:behind], inside, *items[behind:]]
                after = inside
            if (
                isinstance(after, (Work, Group))
                and after.where.which in (Which.NEXT, Which.FIRST)
                and after.where.many == 1
            ):
                moved = replace(
                    after, where=replace(after.where, which=Which.FROM_HOOK, nth=item.where.many + 1)
                )
                return [*items[:k], moved, *says, *items[behind + 1 :]]
            if (
                isinstance(after, Work)
                and after.where.which is Which.NEXT
                and after.where.many > 1
                and after.count == 1
                and not after.excepting
            ):
                # "miss 3, 1 tr in each of next 13 ch": the first of them begins the row
                nth = item.where.many + 1
                begins = replace(
                    after, where=replace(after.where, which=Which.FROM_HOOK, nth=nth, many=1, kinds=())
                )
                others = replace(after, where=replace(after.where, many=after.where.many - 1))
                return [*items[:k], begins, *says, others, *items[behind + 1 :]]
            if isinstance(after, Work) and after.where.which is Which.EACH:
                # "skip the first chain, then sc in each of the remaining chains"
                start = replace(item.where, which=Which.FROM_HOOK, nth=item.where.many + 1)
                return [*items[:k], replace(item, where=start), *items[k + 1 :]]
        return items
    return items


def untold_start(items: list[Item], standing: Standing, hook: Hook) -> list[Item]:
    """ "Ch 16. / Row 1: 15 sc.": nobody says in which chain it begins, and nobody works into the one at the hook.

    Whether the chains are skipped that a row begins with, or all are worked, the counts tell.
    """
    begun = next(
        (k for k, item in enumerate(items) if not isinstance(item, (Say, Mark, Turn, Turning))), None
    )
    first = items[begun] if begun is not None else None
    if (
        standing.kind != "chain"
        or begun is None
        or not isinstance(first, Work)
        or first.apart
        or first.excepting
    ):
        return items
    where, height = first.where, height_in_row(first.stitch)
    named = not where.kinds or where.kinds[0].name in (CH, ANY)
    if where.which not in (Which.STRAIGHT, Which.NEXT, Which.EACH) or not named or where.loop or height < 1:
        return items
    over = hook.ask(("untold start", first.span.start), (0, *_SKIPPED[min(height, 4)]))
    if not isinstance(over, int) or over == 0 or parts_of(first.stitch)[2] > 1:
        return items
    place = replace(where, which=Which.FROM_HOOK, nth=over + 1, many=1, kinds=(), stop=None)
    if where.which is Which.STRAIGHT:
        begins, left = replace(first, count=1, where=place), first.count - 1
        others = replace(first, count=left)
    else:
        begins, left = replace(first, where=place), where.many - 1
        others = first if where.which is Which.EACH else replace(first, where=replace(where, many=left))
    along = [others] if left or where.which is Which.EACH else []
    return [*items[:begun], begins, *along, *items[begun + 1 :]]


_SKIPPED = {1: (1,), 2: (1, 2), 3: (3, 2), 4: (4, 3)}
"""Chains that a first row leaves at the hook, by the height of its stitches, the usual first."""


_LONGEST = 9
"""Chains of which the first can hold a whole round."""


def _all_in_first(item: Item, behind: Sequence[Item], standing: Standing) -> "TypeGuard[Work | Group]":
    """True for "Ch 4." and then "11 dc in first ch; join": the chain farthest from the hook holds the round."""
    return (
        isinstance(item, (Work, Group))
        and (isinstance(item, Group) or item.count > 3)
        and item.where.which in (Which.FIRST, Which.MADE)
        and item.where.kinds == (Kind(CH),)
        and item.where.many == 1
        and len(standing.elements) <= _LONGEST
        and all(e.kind == CH for e in standing.elements)
        and not any(
            isinstance(i, (Group, Repeat, Skip)) or isinstance(i, Work) and i.stitch != "slst" for i in behind
        )
    )


def first_row_again(items: list[Item], standing: Standing) -> list[Item] | None:
    """ "Row 2: Same as Row 1", where Row 1 goes into the foundation: its stitch in every one of the row below.

    None where the first row is more than one stitch in each chain, so that nobody knows what is meant.
    """
    works = [item for item in items if not isinstance(item, (Say, Turn, Turning, Mark))]
    first = works[0] if works else None
    if _all_in_chains(works) and standing.elements and not any(e.kind in (CH, SP) for e in standing.elements):
        # "Rnds 2-5: As Rnd 1", which is "sc in each ch" of a chain that was closed
        return [_off_the_chain(item) for item in items]
    own = standing.kind != "row" or standing.added
    if own or not isinstance(first, Work) or first.where.which is not Which.FROM_HOOK:
        return items
    along = works[-1]
    if (
        len(works) != 2
        or not isinstance(along, Work)
        or along.where.which is not Which.EACH
        or (along.stitch, along.count) != (first.stitch, 1)
    ):
        return [_off_the_chain(item) for item in items] if first.where.nth == 2 else None
    return [replace(along, where=replace(along.where, kinds=(Kind(ANY),)), joined=False)]


def _all_in_chains(works: Sequence[Item]) -> bool:
    """True for a row that names chains as the place of all its stitches."""
    stitches = [item for item in works if isinstance(item, (Work, Group, Repeat))]
    return bool(stitches) and all(
        isinstance(item, Work)
        and item.where.which in (Which.EACH, Which.NEXT)
        and item.where.kinds == (Kind(CH),)
        and not item.where.loop
        for item in stitches
    )


def _off_the_chain(item: Item) -> Item:
    """What a first row works into its foundation, worked into the stitches of a row instead."""
    if isinstance(item, Repeat):
        return replace(item, items=tuple(map(_off_the_chain, item.items)))
    if not isinstance(item, (Work, Group, Skip)):
        return item
    where = item.where
    if where.which is Which.FROM_HOOK:
        return replace(item, where=replace(where, which=Which.FIRST, nth=0, kinds=(Kind(ANY),)))
    kinds = tuple(Kind(ANY) if kind.name == CH else kind for kind in where.kinds)
    return replace(item, where=replace(where, kinds=kinds))
