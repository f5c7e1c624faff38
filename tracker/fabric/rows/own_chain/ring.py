"""Rings: what closes one, what goes into it, and rounds that are no more than stitches in one chain."""

from collections.abc import Sequence

from tracker.fabric.model import CH, SP
from tracker.fabric.standing import Standing
from tracker.notation.tree import (
    Chain,
    Group,
    Item,
    Repeat,
    Skip,
    Turn,
    Which,
    Work,
)

TYPE_CHECKING = False  # as type checkers have it; typing itself is slow to load
if TYPE_CHECKING:
    pass


def closes_ring(item: Item) -> bool:
    """True for a slip stitch in the first chain."""
    return (
        isinstance(item, Work)
        and item.stitch == "slst"
        and (
            item.where.which in (Which.FIRST, Which.NTH, Which.FROM_HOOK)
            and bool(item.where.kinds)
            and item.where.kinds[0].name == CH
            or item.where.which is Which.STRAIGHT
            and item.count == 1
        )
    )


def uses_ring(item: Item) -> bool:
    """True for stitches told to go into a ring."""
    if isinstance(item, (Work, Group)):
        return item.where.which is Which.RING
    if isinstance(item, Repeat):
        return any(uses_ring(inside) for inside in item.items)
    return False


def into_its_chains(items: Sequence[Item]) -> bool:
    """True where a first round goes into the chains of its ring: "ch 8, join; ch 1, sc in each ch around"."""
    first = next((item for item in items if isinstance(item, (Work, Group, Repeat))), None)
    while isinstance(first, Repeat):
        first = next((item for item in first.items if isinstance(item, (Work, Group, Repeat))), None)
    if not isinstance(first, Work) or first.where.which not in (Which.EACH, Which.NEXT):
        return False
    return first.where.loop != "base" and [kind.name for kind in first.where.kinds[:1]] == [CH]


def starts_from_ring(items: Sequence[Item]) -> bool:
    """True when any of the items, or any inside them, goes into a ring."""
    for item in items:
        if isinstance(item, (Work, Group)) and item.where.which is Which.RING:
            return True
        if isinstance(item, (Group, Repeat)) and starts_from_ring(item.items):
            return True
    return False


def turned_into_loops(items: Sequence[Item], standing: Standing) -> bool:
    """True for "ch 5, turn, sc in lp, …" behind a row with loops: the loops are of that row, and no ring."""
    first = next((i for i in items if isinstance(i, (Work, Group, Repeat, Turn))), None)
    return (
        isinstance(first, Turn)
        and first.turned
        and standing.kind == "row"
        and any(e.kind == SP for e in standing.elements)
    )


def all_in_one_chain(item: Item | None) -> bool:
    """True for "11 dc in 5th ch from hook": where a round begins, and not the first stitch of a row along a chain."""
    return isinstance(item, Work) and item.count > 3


def whole_ring(first: Item | None, following: Sequence[Item]) -> bool:
    """True where a round is no more than several stitches in one chain: "ch 2, 6 sc in 2nd ch from hook"."""
    others = [i for i in following[1:] if isinstance(i, (Work, Group, Repeat, Skip, Chain))]
    slipped = all(isinstance(i, Work) and i.stitch == "slst" for i in others)
    return all_in_one_chain(first) and slipped
