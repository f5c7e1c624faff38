"""A round that yarn is joined to an earlier one for: "attach in any sl st of 3rd rnd, *ch 5, sl st in next sl st".

What stands, the place the yarn is joined to and what is worked behind it come in; the earlier round comes out where all
of it goes into that, and is not found in the round below.
"""

from collections.abc import Sequence

from tracker.fabric.below.cursor import Below
from tracker.fabric.working.hook import Hook
from tracker.notation.tree import Item, Repeat, Travel, Which, Work
from tracker.records import replace


def into_earlier(hook: Hook, item: Travel, rest: Sequence[Item]) -> Travel:
    """The new start, with the hook on the earlier round where that is the one; as it was for any other."""
    where = item.where[0] if item.fresh and item.where else None
    if (
        where is not None
        and where.loop in ("back", "front")
        and where.down < 0
        and -where.down != hook.ground.last_number
    ):
        # "join B in the back loops of Rnd 2", behind later rounds: those that were left free
        where = replace(where, loop=f"free {where.loop}")
        return replace(item, where=(where, *item.where[1:]))
    if where is None or where.down >= 0 or not where.kinds or where.loop.startswith("free"):
        return item
    there = hook.ground.earlier.get(-where.down)
    begun = [i for i in rest if isinstance(i, (Work, Repeat))]
    while begun and isinstance(begun[0], Work) and begun[0].where.which is Which.SAME:
        # "join with a standing sc in any st of Rnd 2, sc in next 2 sts"
        begun = begun[1:]
    first = begun[0] if begun else None
    works: Sequence[Item | None] = first.items if isinstance(first, Repeat) else (first,)
    goes = next((i.where for i in works if isinstance(i, Work)), None)
    if (
        there is None
        or goes is None
        or goes.which is not Which.NEXT
        or goes.down != 1
        or goes.kinds[:1] != where.kinds[:1]
        or Below(there, True).find(where.kinds[0], 0) is None
    ):
        return item
    found = hook.below.find(where.kinds[0], 0) is not None
    named = where.nth == -2 and -where.down != hook.ground.last_number
    if found and not (named and hook.ask(("in an earlier round", item.span.start), (True, False))):
        return item
    hook.below = Below(there, True)
    return replace(item, where=(replace(where, down=1), *item.where[1:]))


def left_for_last(hook: Hook, item: Travel, rest: Sequence[Item]) -> None:
    """ "Join around any sc of Rnd 2, ch 1, *sc around next sc of Rnd 2, ch 5; rep from *": that one comes last."""
    begun = next((i for i in rest if isinstance(i, (Work, Repeat))), None)
    first = next((i for i in begun.items if isinstance(i, Work)), None) if isinstance(begun, Repeat) else None
    if first is None or first.where.which is not Which.NEXT or not item.fresh:
        return
    for where in item.where:
        row = -where.down
        if row == -first.where.down and row in hook.taken_below and where.which is Which.NEXT:
            hook.taken_below[row] -= where.many
