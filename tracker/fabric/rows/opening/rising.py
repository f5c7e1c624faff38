"""The turning chain: where it stands, and what it stands for.

A hook at the beginning of a row and the items behind the chain come in; the stitch, the space or nothing that the chain
counts as is made.
"""

from collections.abc import Mapping, Sequence

from tracker.fabric.model import CH, HIDDEN
from tracker.fabric.working.hook import Choice, Hook
from tracker.fabric.working.turning import apply_turning, first_stitch, turning_options
from tracker.notation.tree import (
    SPACE,
    Chain,
    Group,
    Item,
    Join,
    Mark,
    Repeat,
    Say,
    Skip,
    Turn,
    Turning,
    Which,
    Work,
)
from tracker.trade.stitches import by_chains, height_of, parts_of


def turning_chain(
    hook: Hook,
    item: Chain,
    says: Turning | None,
    rest: Sequence[Item],
    habits: Mapping[object, Choice],
    travelled: bool,
) -> None:
    """Decides what a turning chain stands for, and stands it there."""
    below = hook.below
    index = under_chain(hook, travelled)
    first = first_stitch(rest, hook.ground.specials) or "sc"
    height = height_of(first)
    if says is not None:
        choice: Choice = ("none",)
        if says.counts:
            called = _counted_by(hook, says.as_stitch)
            choice = ("st", called or named_by(item.count - says.space, first, height), says.space)
            if says.space and called is None and height <= 1:
                # "ch 2 (counts as ch-1 sp)" before sc: a space, and no stitch beside it
                choice = ("arch", says.space)
    else:
        options = options_of(item.count, first, height, habits)
        if _half_a_petal(item, rest) or _an_arch(item, rest) or _over_as_many(item, rest):
            options = (("space",), *(option for option in options if option != ("space",)))
        if item.count == 2 and height <= 1 and ("space",) in options and _into_space(rest):
            # "ch 2, sk first sc, sc in next ch-1 sp": if it is anything, a space like the others
            likeliest = options[:1] if options[0] == ("none",) else ()
            others = (option for option in options if option not in (*likeliest, ("space",)))
            options = (*likeliest, ("space",), *others)
        if item.count == 3 and height == 4 and _posts_first(rest):
            # "ch 3, turn, *FPtr around next dc, dc in next dc": a post stitch begins lower than it is tall
            dc = ("st", "dc", 0)
            options = (dc, *(option for option in options if option != dc))
        mirrored = _as_at_the_end(item, rest) or _one_of_each(item, rest) or _as_joined(item, rest, first)
        if mirrored is not None:
            options = (mirrored, *(option for option in options if option != mirrored))
        if item.count == 1 and not skips_first(rest):
            options = options[:1]
        choice = hook.ask(("turn", item.count, first), options) if len(options) > 1 else options[0]
    assert isinstance(choice, tuple)
    if index is not None and choice[0] == "none" and not travelled:
        below.here, below.at = None, index
    if index is not None and choice[0] == "st":
        # a chain in the gap before a stitch leaves that free
        in_gap = travelled and below.gap == 0 and below.here is None
        below.here, below.at = index, max(below.at, index + (0 if in_gap else 1))
    apply_turning(hook, choice, item.count, (index,) if index is not None else ())


def _counted_by(hook: Hook, name: str | None) -> str | None:
    """ "Counts as 1 RtF", which the pattern defines: the stitch that it is counted by."""
    own = hook.ground.specials.get(name or "")
    only = own.items[0] if own is not None and len(own.items) == 1 else None
    if own is not None and own.closes and own.base:
        return own.base
    return only.stitch if isinstance(only, Work) and only.count == 1 else name


def under_chain(hook: Hook, travelled: bool) -> int | None:
    """Index below of what a turning chain stands on; None on a ring."""
    below = hook.below
    if not below.n or below.ring:
        return None
    if travelled and below.here is not None:
        return below.here
    return next((i for i, e in enumerate(below.elements) if e.kind != HIDDEN), 0)


def _posts_first(rest: Sequence[Item]) -> bool:
    """True where the first stitch of a row goes around a post."""
    for item in rest:
        if isinstance(item, (Group, Repeat)):
            return _posts_first(item.items)
        if isinstance(item, Work):
            return parts_of(item.stitch)[0] in ("fp", "bp")
    return False


def _into_space(rest: Sequence[Item]) -> bool:
    """True where the first stitch of a row goes into a space."""
    first = next((item for item in rest if isinstance(item, (Work, Group, Repeat))), None)
    return isinstance(first, Work) and any(kind.name == SPACE for kind in first.where.kinds)


def _as_at_the_end(item: Chain, rest: Sequence[Item]) -> Choice | None:
    """ "7 ch, …, 3 ch, 1 dtr in last dc": the chain stands for what the row ends with, where it is as long as both."""
    told = [i for i in rest if isinstance(i, (Chain, Work, Group, Repeat))]
    if len(told) < 3 or not isinstance(space := told[-2], Chain) or not isinstance(last := told[-1], Work):
        return None
    # not "ch 2, …, ch 1, sc in tch": the ch 2 of moss stitch is a corner that nothing counts
    tall = height_of(last.stitch) >= 2
    fits = tall and item.count == height_of(last.stitch) + space.count and last.count == last.where.many == 1
    return ("st", last.stitch, space.count) if fits and last.where.which in (Which.LAST, Which.TOP) else None


def _one_of_each(item: Chain, rest: Sequence[Item]) -> Choice | None:
    """ "2 ch, 1 htr in same st, 2 htr in each st": with the chain there are as many in the first as in the others."""
    told = [i for i in rest if isinstance(i, (Chain, Work, Group, Repeat))]
    if len(told) < 2 or not isinstance(same := told[0], Work) or same.where.which is not Which.SAME:
        return None
    each: Item = told[1]
    if isinstance(each, Repeat) and len(each.items) == 1:
        each = each.items[0]
    fits = (
        isinstance(each, Work)
        and each.stitch == same.stitch
        and each.count == same.count + 1
        and (each.where.which is Which.EACH or isinstance(told[1], Repeat))
        and item.count in (height_of(same.stitch), height_of(same.stitch) - 1)
        and item.count > 1
    )
    return ("st", same.stitch, 0) if fits else None


def _as_joined(item: Chain, rest: Sequence[Item], first: str) -> Choice | None:
    """ "Ch 4, *dc in next dc, ch 1; …; join to 3rd ch of ch-4": so many chains are a stitch, the rest a space."""
    join = next((i for i in reversed(rest) if not isinstance(i, (Say, Mark, Turn))), None)
    where = join.where if isinstance(join, Join) and join.stitch == "slst" else None
    if where is None:
        return None
    first_chain = where.which is Which.FIRST and [kind.name for kind in where.kinds] == [CH]
    nth = 1 if first_chain else where.nth if where.which is Which.TOP else 0
    if nth >= item.count or nth < (1 if height_of(first) == 1 else 2):
        return None
    return ("st", named_by(nth, first, height_of(first)), item.count - nth)


def _half_a_petal(item: Chain, rest: Sequence[Item]) -> bool:
    """True for "ch 3, (dc, ch 3, sl st) in same st": the chain goes up as the one in the group comes down."""
    group = next((i for i in rest if not isinstance(i, (Say, Mark))), None)
    if not isinstance(group, Group) or group.where.which is not Which.SAME or len(group.items) < 2:
        return False
    down, end = group.items[-2:]
    return (
        isinstance(down, Chain)
        and down.count == item.count
        and isinstance(end, Work)
        and end.stitch == "slst"
        and end.where.which is Which.STRAIGHT
    )


def _over_as_many(item: Chain, rest: Sequence[Item]) -> bool:
    """True for "ch 5, sk next 5 sts, sc in each rem st": an opening as wide as what it lies over, and no stitch."""
    told = [i for i in rest if not isinstance(i, (Say, Mark, Turn))]
    over, behind = told[:1], next((i for i in told[1:] if isinstance(i, Work)), None)
    if item.count < 4 or not over or not isinstance(skip := over[0], Skip) or behind is None:
        return False
    spaces = any(kind.name == SPACE for kind in skip.where.kinds)
    low = item.count > 6 or height_of(behind.stitch) <= 2
    return (
        low and not spaces and skip.where.which in (Which.NEXT, Which.FIRST) and skip.where.many == item.count
    )


def _an_arch(item: Chain, rest: Sequence[Item]) -> bool:
    """True for "ch 5, sc in first lp, *ch 5, sc in next lp; rep from *": one arch more, where nothing is tall."""
    told = [i for i in rest if isinstance(i, (Chain, Work, Group, Repeat))]
    only = told[0] if len(told) == 1 else None
    if isinstance(only, Repeat) and len(only.items) == 2 and item.count >= 3:
        # "ch 4, *sl st in next sc, ch 4; rep from *"
        work, chain = only.items
        return (
            isinstance(work, Work)
            and work.stitch == "slst"
            and isinstance(chain, Chain)
            and chain.count == item.count
        )
    if item.count < 3 or len(told) < 2 or not isinstance(told[0], Work):
        return False
    inside = [
        i for told_item in told for i in (told_item.items if isinstance(told_item, Repeat) else (told_item,))
    ]
    worked = [i for i in inside if isinstance(i, Work)]
    return (
        any(kind.name == SPACE or kind.chains for kind in told[0].where.kinds)
        and all(height_of(i.stitch) <= 1 for i in (worked[0], worked[-1]))
        and any(isinstance(i, Chain) and i.count == item.count for i in inside)
    )


def options_of(chains: int, first: str, height: int, habits: Mapping[object, Choice]) -> tuple[Choice, ...]:
    """What a turning chain can stand for, what the pattern says of all of them first."""
    options = turning_options(chains, first, height)
    known = habits.get(("chain", chains), habits.get(("chain", "")))
    if not isinstance(known, tuple):
        return options
    if known[0] == "none":
        stated = habits.get(("chain stated", chains)) or habits.get(("chain stated", ""))
        if stated and (chains == height or chains <= 2):
            return (("none",),)
        return (("none",), *(o for o in options if o != ("none",)))
    likely: Choice = known
    if len(known) > 1 and not known[1]:
        likely = ("st", named_by(chains, first, height), 0)
    if habits.get(("chain stated", chains)) and chains >= height:
        # said once for all rows: only what it stands for may be in doubt
        return (likely, *(o for o in options if o != likely and isinstance(o, tuple) and o[0] == "st"))
    if chains == 1 and not habits.get(("chain", 1)):
        likely = ("none",)
    return (likely, *(o for o in options if o != likely))


def named_by(chains: int, first: str, height: int) -> str:
    """The stitch that so many chains reach as high as: the row's first one, where that fits."""
    if chains == height and height >= 2:
        return first
    return by_chains(chains, first)


def skips_first(rest: Sequence[Item]) -> bool:
    """True when the row goes on by skipping its first stitch, as it would beside a chain that counts."""
    for item in rest:
        if isinstance(item, (Say, Mark, Turn)):
            continue
        return isinstance(item, Skip) and item.where.which is Which.FIRST
    return False
