"""Half loops at the ends of a trellis row: a repeat that goes from loop to loop begins with the first whole one."""

from tracker.fabric.model import HIDDEN, SP
from tracker.fabric.working.hook import Hook
from tracker.fabric.working.repeats.passes import stripped
from tracker.notation.tree import SPACE, Chain, Item, Kind, Repeat, Which, Work
from tracker.records import replace


def whole_loops(hook: Hook, item: Repeat) -> Repeat:
    """ "Sc in first dc, *ch 5, sc in next lp; rep from *" over "ch 5 (dc, ch 2), …, ch 2, dc": in the ch-5 loops.

    The repeat comes out with the length of the loops told; as it was where the row below ends in no half loops, or
    where only its first half loop, too, makes the counts come out.
    """
    only = stripped(item.items)
    made = [e for e in hook.made if e.kind != HIDDEN]
    if len(only) != 2 or hook.below.closed or hook.below.at > 2 or len(made) != 1:
        return item
    chain, work = only
    if (
        not isinstance(chain, Chain)
        or chain.count < 3
        or not isinstance(work, Work)
        or work.where.which is not Which.NEXT
        or work.where.many != 1
        or work.where.kinds != (Kind(SPACE),)
        or made[0].kind == SP
        or made[0].into != (0,)
    ):
        return item
    whole = _between_half_loops(hook)
    if not whole or not hook.ask(("half loops", item.span.start), (True, False)):
        return item
    into = replace(work, where=replace(work.where, kinds=(Kind(SPACE, whole),)))
    changed: tuple[Item, ...] = tuple(into if inside is work else inside for inside in item.items)
    return replace(item, items=changed)


def _between_half_loops(hook: Hook) -> int:
    """How many chains each loop of the row below has, where its first space is of half as many at most; else 0."""
    elements = hook.below.elements[: hook.below.n]
    spaces = [e.chains for e in elements if e.kind == SP]
    if len(spaces) < 3 or len(elements) < 5 or not elements[0].is_stitch or elements[1].kind != SP:
        return 0
    whole = set(spaces[1:-1])
    loop = spaces[1]
    return loop if len(whole) == 1 and loop >= 3 and spaces[0] * 2 <= loop and spaces[-1] <= loop else 0
