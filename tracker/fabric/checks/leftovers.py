"""C202, C204, C207 — allow no stitch to be left over in silence.

A row that ends before the row below does is shorter than meant, or its repeat was worked too seldom: it shows only
when the maker has reached the end. Spaces may lie between the stitches that are worked, so they count only when the
row works into spaces of their kind; where the words leave stitches unworked, or an edge is worked whose stitches are
not counted, nothing is said.

    Row 1: 12 sc. / Row 2: Ch 1, turn, sc in next 10 sts.     leaves 2 stitches of the row below unworked
    Row 2: …, sc in next 10 sts, leave remaining sts unworked.                                      (mended)
"""

from itertools import pairwise

from tracker.fabric.below.gaps import last_gaps
from tracker.fabric.model import CH, HIDDEN, SP
from tracker.fabric.standing import Standing
from tracker.fabric.working.hook import Hook
from tracker.notation.pattern import Row
from tracker.notation.tree import ANY, Chain, Group, Repeat, Skip, Turn, Which, Work
from tracker.trade.nouns import amount

ENDS_HERE = "the row ends here"
"""Said of the words behind which stitches are left."""


def leftovers(row: Row, hook: Hook, standing: Standing) -> None:
    """What the row leaves of the row below, and whether the words account for it."""
    below = hook.below
    if below.at == 0 and not any(e.into for e in hook.made) and any(e.is_stitch for e in hook.made):
        # worked round an opening, into stitches skipped before: nothing of the row below was meant
        return
    if hook.taken_below and below.at <= 2 and sum(1 for e in hook.made if e.into) < 2:
        # around the posts of an earlier round, behind the petals of the last
        return
    if hook.left_said or hook.edge_used or below.ring or standing.kind == "none":
        return
    if any(s.base == "tile" for s in hook.ground.specials.values()):
        return
    if row.kind == "row" and standing.kind == "round":
        # a flap worked back and forth on part of a round: what it leaves is taken up later
        return
    left = below.unsaid(below.at, below.n)
    spaces = [e for e in below.elements[below.at :] if e.kind == SP and not e.slipped]
    if not left and not spaces:
        return
    if _in_space_of_chain(hook):
        return
    if hook.spaces_worked:
        missed = [e for e in spaces if None in hook.spaces_worked or e.chains in hook.spaces_worked]
        if not missed and (left <= hook.silent or below.closed and _passed_between(hook)):
            return
        if missed:
            left = max(left, len(missed))
    elif not left or below.closed and left <= hook.silent:
        return
    repeat = hook.across or next((i for i in reversed(row.items) if isinstance(i, Repeat)), None)
    # along the other side the chain of the first group, and what each pass goes over, stay as they are
    at_turn = 1 + (_passed_first(repeat)[0] if repeat is not None else 0)
    if left == 0 or (hook.other_side and left <= at_turn) or not below.closed and _rest_of_group(hook):
        return
    if below.closed and repeat is not None and (_as_of_others(hook) or _as_before_each(hook, repeat)):
        return
    if below.closed and _as_elsewhere(hook):
        return
    if below.gap > 0 and not below.closed and below.gap == last_gaps(below, 1):
        # "2 dc in last sp": a row that goes from gap to gap ends in the last, whatever stands behind it
        return
    if below.closed and left == _told_of(row) or not below.closed and _stops_before(row, hook) == left:
        return
    if below.closed and repeat is not None:
        # "*ch 2, miss 1, 1 tr in next; rep to end, ch 2": what is missed before the join is not told again
        passed, of_spaces = _passed_first(repeat)
        over = below.unsaid(below.at, below.n)
        skipped = next(
            (item for item in reversed(repeat.items) if isinstance(item, (Work, Group, Skip))), None
        )
        if isinstance(skipped, Skip) and hook.ends_in_space and left == skipped.where.many:
            # "*sc in next st, ch 5, sk 2; …, sc in next st, ch 2, dc in first sc": under the loop that closes the round
            return
        if passed and left == passed and (not of_spaces or over <= hook.silent):
            return
        if passed and not of_spaces and passed <= over == left <= passed + hook.silent:
            # "*ch 1, sk next sc, sc in next ch-1 sp": with what each pass goes over to reach its space
            return
    what = (
        "chain"
        if all(e.kind == CH for e in below.elements[below.at :] if e.kind != HIDDEN)
        and below.elements[below.at :]
        else "stitch"
    )
    many = f"{left} {what}{'es' if what == 'stitch' and left > 1 else 's' if left > 1 else ''}"
    last = next((i for i in reversed(row.items) if isinstance(i, (Work, Group, Repeat, Skip))), None)
    span = last.span if last is not None else row.label_span
    if standing.kind == "chain":
        hook.fault(
            "C207",
            span,
            f"leaves {many} of the foundation unworked",
            ENDS_HERE,
            "Check the number of foundation chains, and how often the repeat is worked.",
        )
    elif hook.across is not None:
        told = hook.across.told_at or hook.across.span
        hook.fault(
            "C204",
            told,
            f"has a repeat that does not come out even: {many} left over",
            "does not come out even",
            "Check the count of the row below, and what stands before and after the repeat.",
        )
    elif left < (kept := _kept(row)) and last is not None:
        hook.fault(
            "C202",
            span,
            f"stops {amount(kept, 'stitch')} before the end, and works "
            f"{'it' if kept == 1 else f'{kept - left} of them'}",
            ENDS_HERE,
            f"Say what is worked into the last {'stitch' if kept == 1 else f'{kept} stitches'}; "
            "“leave rest unworked” where that is meant.",
        )
    else:
        hook.fault(
            "C202",
            span,
            f"leaves {many} of the row below unworked",
            ENDS_HERE,
            "Check how often the repeat is worked; where they are meant to stay, say “leave remaining sts unworked”."
            if isinstance(last, Repeat)
            else "Work them too; where they are meant to stay, say “leave remaining sts unworked”.",
            weight=4,
        )


def _passed_between(hook: Hook) -> bool:
    """True where no more lies between the spaces that are left than was passed over between those before."""
    below = hook.below
    ends = [i for i in range(below.at, below.n) if below.elements[i].kind == SP]
    runs = zip((below.at, *(i + 1 for i in ends)), (*ends, below.n), strict=True)
    return len(ends) > 0 and all(below.unsaid(a, b) <= hook.silent for a, b in runs)


def _kept(row: Row) -> int:
    """How many stitches a row keeps for its end and goes on with, "sc in each st to last 2 sts, …"; 0 for none."""
    for item in row.items[:-1]:
        stop = item.where.stop if isinstance(item, Work) and item.where.which is Which.EACH else None
        if stop is not None and not stop.at and stop.left:
            return stop.left
    return 0


def _stops_before(row: Row, hook: Hook) -> int:
    """Stitches left behind the last words of a row, "rep from * to last 4 sts, turn": an armhole or a neck; 0 for none.

    So few that their working may have been forgotten are left only where the row's count says so.
    """
    work = [item for item in row.items if isinstance(item, (Work, Group, Repeat, Skip))]
    last = work[-1] if work else None
    stop = last.stop if isinstance(last, Repeat) else last.where.stop if isinstance(last, Work) else None
    if (
        stop is None
        or stop.at
        or not any(isinstance(item, Turn) for item in row.items[row.items.index(last) :])
    ):
        return 0
    first = work[0]
    slips = isinstance(first, Work) and first.stitch == "slst" and first.where.many > 1
    made = sum(1 for element in hook.made if element.is_stitch)
    told = any(name in (ANY, "") and many == made for each in row.stated for name, many in each.counts)
    return stop.left if slips or told or stop.left > 3 else 0


def _told_of(row: Row) -> int:
    """Stitches under the last loop of a round: 2 for "rep from * to last 2 sc, ch 2, dc in base of first ch-5"."""
    k = next((k for k in range(len(row.items) - 1, -1, -1) if isinstance(row.items[k], Repeat)), None)
    if k is None:
        return 0
    repeat, behind = row.items[k], row.items[k + 1 :]
    closes = any(isinstance(item, Chain) for item in behind) and all(
        item.where.which in (Which.SAME, Which.TOP, Which.FIRST)
        for item in behind
        if isinstance(item, (Work, Group))
    )
    stop = repeat.stop if isinstance(repeat, Repeat) else None
    return stop.left if stop is not None and not stop.at and closes else 0


def _in_space_of_chain(hook: Hook) -> bool:
    """True for a row that ends in the space of the turning chain below: the stitch of that chain is dealt with too."""
    below = hook.below
    if below.here is None or below.here >= below.n:
        return False
    last = below.elements[below.here]
    return last.kind == SP and last.turning and all(e.turning for e in below.elements[below.at :])


def _rest_of_group(hook: Hook) -> bool:
    """True for a row that ends in the middle of a group, "shell in ch-2 sp of shell": the rest of it goes unsaid."""
    below = hook.below
    if below.here is None or below.here >= below.at:
        return False
    group = below.elements[below.here].group
    rest = [e for e in below.elements[below.at :] if e.kind != HIDDEN]
    in_ring = not any(e.into for e in below.elements)
    # the chain that stands for the first stitch of a group is part of it
    same = in_ring or bool(group) and all(e.group == group or e.turning for e in rest)
    return below.elements[below.here].kind == SP and same


def _as_before_each(hook: Hook, repeat: Repeat) -> bool:
    """True where what a round leaves is what each pass went over to reach its first place: "*sh in sh, ch 3, …"."""
    elements = hook.below.elements
    first = next((item for item in repeat.items if isinstance(item, (Work, Group))), None)
    if first is None or any(isinstance(item, Skip) for item in repeat.items[: repeat.items.index(first)]):
        return False
    into = first.where.kinds[-1:]
    if not into or into[0].name in (ANY, SP):
        return False
    over: list[list[tuple[str, int]]] = []
    for step in hook.steps:
        made = hook.made[step.made_from : step.made_to]
        if step.item is first and (at := next((e.into[0] for e in made if e.into), None)) is not None:
            while at and elements[at].group and elements[at - 1].group == elements[at].group:
                at -= 1
            over.append([(e.kind, e.chains) for e in elements[step.at : at] if e.kind != HIDDEN])
    left = [(e.kind, e.chains) for e in elements[hook.below.at :] if e.kind != HIDDEN and not e.slipped]
    return len(over) > 1 and all(passed == left for passed in over)


def _as_elsewhere(hook: Hook) -> bool:
    """True where what lies between a round's last place and its first is passed over between others too, twice or more.

    "*5 tr in next ch-3 sp, ch 2, shell in next shell, ch 3, shell in next shell; …": each second space is left.
    """
    elements = hook.below.elements
    worked = sorted({i for element in hook.made for i in element.into})
    if len(worked) < 4:
        return False

    def between(start: int, end: int) -> list[tuple[str, int]]:
        run = [*range(start + 1, end if end > start else len(elements)), *range(end if end < start else 0)]
        shown = (elements[i] for i in run if elements[i].kind != HIDDEN)
        return [(e.kind, e.chains if e.kind == SP else 0) for e in shown]

    last = between(worked[-1], worked[0])
    return any(kind == SP for kind, _ in last) and sum(between(a, b) == last for a, b in pairwise(worked)) > 1


def _as_of_others(hook: Hook) -> bool:
    """True for a round that leaves no more of its last group than of each before: "*ch 4, sc in first sc of petal"."""
    below = hook.below
    if not any(e.group for e in below.elements):
        return False
    worked = {i for element in hook.made for i in element.into}
    left: dict[int, list[str]] = {}
    for i, element in enumerate(below.elements):
        if element.kind != HIDDEN:
            left.setdefault(element.group, [])
            if i not in worked:
                left[element.group].append(element.name)
    return 0 not in left and len(left) > 2 and len(set(map(tuple, left.values()))) == 1


def _passed_first(repeat: Repeat) -> tuple[int, bool]:
    """How many stitches each pass of a repeat passes over before it works any, 0 for none; True for spaces."""
    for item in repeat.items:
        if isinstance(item, Skip) and item.where.which is Which.NEXT:
            return item.where.many, [kind.name for kind in item.where.kinds] == [SP]
        if isinstance(item, (Work, Group, Repeat)):
            break
    return 0, False
