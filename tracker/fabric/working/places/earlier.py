"""Places in rows further below: post stitches and cables, stitches left free or skipped there.

What stands between them and the hook is passed over, each stitch worked so far below taking the place of one: unless
words behind it say how many are skipped behind the cable.
"""

from collections.abc import Sequence

from tracker.fabric.model import HIDDEN, SP
from tracker.fabric.working.hook import Hook
from tracker.fabric.working.places.taking import take_above
from tracker.notation.tree import SKIPPED, Item, Say, Skip, Where, Which, Work


def over(hook: Hook, item: Item) -> tuple[int, ...]:
    """What a stitch worked rows below covers: the chain made over what was missed there, or the next stitch."""
    below = hook.below
    ahead = below.elements[below.at] if below.at < min(below.n, hook.limit) else None
    if ahead is not None and ahead.kind == SP and not ahead.turning and ahead.chains == 1:
        below.at, below.sub = below.at + 1, 0
        return ()
    return (take_above(hook, item),)


def passed_behind(rest: Sequence[Item], many: int) -> bool:
    """True where so many stitches, with those that cross them, are skipped behind them: "…, sk 2 sc behind FPtr"."""
    for item in rest:
        if isinstance(item, Skip):
            return item.where.down <= 1 and (item is rest[0] or item.where.many >= many)
        if isinstance(item, Work) and (item.where.down > 1 or takes_skipped(item.where)):
            many += max(1, item.where.many)
        elif not isinstance(item, Say):
            return False
    return False


def takes_skipped(where: Where) -> bool:
    """True for "around the skipped FPdc"."""
    return where.which is Which.MADE and where.around and bool(where.kinds) and where.kinds[0].name == SKIPPED


def free_count(hook: Hook, where: Where) -> int:
    """How many loops an earlier row left free; 1 when that row is not known."""
    elements = hook.ground.earlier.get(-where.down if where.down < 0 else 0)
    return sum(1 for e in elements or () if e.is_stitch) or 1


def skipped_left(hook: Hook, row: int) -> int:
    """How many stitches of an earlier row the row upon it passed over, and nothing has been worked into since."""
    elements, upon = hook.ground.earlier.get(row), hook.ground.earlier.get(row + 1)
    if elements is None or upon is None:
        return 0
    begun = next((i for i, element in enumerate(elements) if element.kind != HIDDEN), 0)
    order = (*elements[begun:], *elements[:begun])
    worked = {i for element in upon for i in element.into}
    passed = sum(1 for i, element in enumerate(order) if element.is_stitch and i not in worked)
    return max(0, passed - hook.taken_below.get(row, 0))
