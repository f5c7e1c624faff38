"""Where an "each" or a repeat must stop, because what follows it needs the last places for itself."""

from collections.abc import Sequence

from tracker.fabric.below.stops import limit_of
from tracker.fabric.model import CH, HIDDEN, SP
from tracker.fabric.working.hook import Hook
from tracker.fabric.working.places.landing import space_of_turning
from tracker.fabric.working.places.taking import between_edges, by_any_name
from tracker.notation.tree import (
    ANY,
    Chain,
    Group,
    Item,
    Kind,
    Leave,
    Mark,
    Prose,
    Repeat,
    Say,
    Skip,
    Stop,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.records import replace
from tracker.trade.stitches import parts_of


def end_of(hook: Hook, stop: Stop | None, rest: Sequence[Item]) -> int:
    """Where an "each" or a repeat must end: at its stop, or where what follows begins to need places."""
    below = hook.below
    if stop is not None and stop.at == "marker" and below.closed:
        goes_on = any(
            isinstance(item, Repeat)
            or isinstance(item, (Work, Group))
            and item.where.which is not Which.EVENLY
            for item in rest
        )
        if goes_on and not below.has_corners():
            # in the middle of a round, where nobody has said how far that is
            hook.unread = hook.left_said = True
            return below.at
    if stop is not None and (stop.left or stop.at):
        if stop.kinds and stop.kinds[0].name == "tch" and rest:
            # "… to tch, sc in ch-1 sp of tch, sc in 4th ch of tch": its space is kept as well
            return min(limit_of(below, stop), reserved(hook, rest))
        named = tuple(by_any_name(hook, kind) for kind in stop.kinds)
        return limit_of(below, stop if named == stop.kinds else replace(stop, kinds=named))
    return reserved(hook, rest)


def reserved(hook: Hook, rest: Sequence[Item]) -> int:
    """Index from which the items that follow need the places for themselves."""
    below = hook.below
    needs: list[Kind] = []
    for item in rest:
        if hook.own_chains is not None and not _in_chains(item) or not needs_of(hook, item, needs):
            # behind a leaf on chains of its own the row goes on: "ch 6, sc in each ch, sl st in next st"
            break
    if not needs:
        return below.n
    end = below.n
    while end > below.at and (below.elements[end - 1].slipped or (below.elements[end - 1].kind == HIDDEN)):
        end -= 1
    i = end
    for kind in reversed(needs):
        if kind.name == "tch":
            at = below.turning_index()
            low = at is not None and hook.ground.again and below.elements[at].chains == 1
            if at is not None and below.elements[at].kind == HIDDEN and not low:
                continue
            kind = Kind(ANY)
        if kind.name == SP and kind.chains and (called := below.turning_space(kind)) is not None:
            # "sc in beg ch-4 sp": the space of a dc and one chain, called by all its chains
            kind = Kind(SP, below.elements[called].chains)
        j = i - 1
        while j >= below.at and not (
            below.elements[j].is_stitch
            if kind.name not in (SP, CH, "corner sp")
            else (
                below.matches(below.elements[j], kind) or (kind.name == CH and below.elements[j].kind == SP)
            )
        ):
            j -= 1
        if j < below.at:
            return below.n if kind.name == SP else max(below.at, j + 1)
        i = j
    return i


def _in_chains(item: Item) -> bool:
    """True for what names chains as its place, or has none."""
    if isinstance(item, (Work, Group, Skip)):
        return any(kind.name == CH for kind in item.where.kinds)
    return not isinstance(item, Repeat)


def _begun_in_first(hook: Hook) -> bool:
    """True for a round that was begun in its first space: "2 sc in same lp, …, ending with 1 sc in first lp"."""
    below = hook.below
    return (
        below.closed and below.n > 0 and below.elements[0].kind == SP and any(0 in e.into for e in hook.made)
    )


def _left_over(hook: Hook, where: Where) -> bool:
    """True for "sc in each sc, sc in next 4 sc" where a shorter row left just so many: they lie behind its end."""
    return 1 < where.many == len(hook.ground.left) and where.which is Which.NEXT


def needs_of(hook: Hook, item: Item, needs: list[Kind]) -> bool:
    """Adds the places an item takes; False when it is not known how many, or when the rest needs none."""
    if isinstance(item, (Chain, Say, Turning, Mark, Prose)):
        return True
    if isinstance(item, Leave):
        # "sc in each st across, leaving last st unworked", "…, leaving 2 sts free"
        where = item.where
        if where is not None and where.which in (Which.LAST, Which.NEXT) and 0 < where.many <= 4000:
            needs.extend([where.kinds[0] if where.kinds else Kind(ANY)] * where.many)
        return False
    if isinstance(item, (Work, Skip)):
        where = item.where
        per = (
            parts_of(item.stitch)[2]
            if isinstance(item, Work) and item.stitch not in hook.ground.specials
            else 1
        )
        if where.which in (Which.SAME, Which.RING, Which.MADE, Which.EVENLY, Which.ROW_END):
            return where.which in (Which.SAME, Which.MADE)
        if where.which is Which.FROM_HOOK:
            return True
        if where.which is Which.TOP:
            space = where.kinds == (Kind(SP),) and not where.nth and space_of_turning(hook) is not None
            needs.append(Kind(SP) if space else Kind("tch"))
            return True
        if where.which in (Which.NEXT, Which.FIRST, Which.LAST, Which.NTH):
            kind = where.kinds[0] if where.kinds else Kind(ANY)
            spaces = kind.name in (SP, "corner", "corner sp")
            if between_edges(hook, kind):
                return False
            if where.which is Which.FIRST and spaces and _begun_in_first(hook):
                return True
            if kind.name not in (SP, CH, "tch", "corner sp"):
                kind = Kind(ANY)
            if where.many * per > 4000 or _left_over(hook, where):
                return False
            needs.extend([kind] * (where.many * per))
            return where.which is not Which.LAST
        if where.which is Which.STRAIGHT and isinstance(item, Work):
            special = hook.ground.specials.get(item.stitch)
            if special is not None and special.items and not special.one_place:
                return False
            if item.stitch == "picot" or item.count > 4000:
                return item.stitch == "picot"
            needs.extend([Kind(ANY)] * (item.count * (per if special is None else max(1, special.closes))))
            return True
        return False
    if isinstance(item, Group):
        if item.where.which is Which.SAME:
            return True
        if item.where.which in (Which.NEXT, Which.FIRST, Which.LAST):
            kind = item.where.kinds[0] if item.where.kinds else Kind(ANY)
            if between_edges(hook, kind):
                return False
            needs.extend(
                [kind if kind.name in (SP, CH, "corner sp") else Kind(ANY)] * min(item.where.many, 4000)
            )
            return item.where.which is not Which.LAST
        if item.where.which is Which.TOP:
            needs.append(Kind("tch"))
            return True
        return False
    if isinstance(item, Repeat):
        if item.times is None or item.times > 400:
            return False
        once: list[Kind] = []
        for inside in item.items:
            if not needs_of(hook, inside, once):
                if isinstance(inside, Leave):
                    # "(leave last 3 sts unworked)"
                    needs.extend(once)
                return False
        if len(once) * item.times > 4000:
            return False
        needs.extend(once * item.times)
        return True
    return False
