"""Places told from where the hook is, or by the turning chain: "same st", "2nd ch from hook", "top of ch-3", gaps."""

from bisect import bisect_right
from collections.abc import Sequence
from itertools import islice

from tracker.fabric.below.cursor import Below
from tracker.fabric.below.gaps import (
    between_groups,
    is_gap,
    one_place,
    shown,
    space_beside,
    stands_between,
    stands_in_gaps,
)
from tracker.fabric.below.stops import limit_of
from tracker.fabric.below.surface import UNLIMITED, Missing
from tracker.fabric.checks.contradictions import chain_named
from tracker.fabric.model import CH, HIDDEN, SP, Element
from tracker.fabric.working.hook import Hook
from tracker.fabric.working.places.taking import space_between
from tracker.notation.tree import ANY, Item, Kind, Where, Which, Work
from tracker.records import replace
from tracker.trade.begun import elsewhere
from tracker.trade.nouns import amount
from tracker.trade.numbers import ordinal_figure


def same(hook: Hook, where: Where) -> tuple[int, ...]:
    """The place the hook is in; before the first stitch, the first there is."""
    below = hook.below
    if where.nth == -3 and any(e.into for e in hook.made):
        # "2 dc in same sp as beg ch-3", at the end of the round
        began = next(e.into for e in hook.made if e.into)
        return began[:1]
    if hook.place is not None and below.here is None:
        return hook.place
    if below.here is None:
        if below.ring or below.n == 0:
            return ()
        kind = where.kinds[0] if where.kinds else Kind(ANY)
        if kind.name == SP and kind.chains is None and _loop_just_made(below):
            return (below.n - 2,)
        if kind.name == SP and below.closed and not below.has_spaces():
            # "join B in any sp between dc, beg cl in same sp": the gap that the yarn was joined in
            below.here, below.at = 0, max(below.at, 0 if below.gap == 0 else 1)
            return (0,)
        if kind.name == SP:
            i, _ = below.take(Kind(SP, kind.chains), hook.limit)
            return (i,)
        i = below.take_stitch(hook.limit)
        return (i,)
    i = below.here
    if (
        where.kinds
        and where.kinds[0].name == SP
        and below.elements[i].kind != SP
        and below.at < below.n
        and below.elements[below.at].kind == SP
        and below.at == i + 1
        and hook.steps
        and isinstance(before := hook.steps[-1].item, Work)
        and before.where.stop is not None
        and before.where.stop.at == "space"
    ):
        # "dc in each dc to next ch-1 sp, dc in that sp"
        below.at, below.here = below.at + 1, below.at
        return (below.here,)
    if (
        below.at == i + 1 < below.n
        and hook.steps
        and isinstance(before := hook.steps[-1].item, Work)
        and before.where.stop is not None
        and before.where.stop.at == "corner"
    ):
        # "sc in each sc to centre sc of corner, 3 sc in it"
        below.at, below.here = below.at + 1, below.at
        return (below.here,)
    if where.kinds and where.kinds[0].name == SP and below.elements[i].kind != SP:
        j = below.find(where.kinds[0], below.at)
        if j is not None and not hook.made:
            below.at, below.here = j + 1, j
            return (j,)
    if below.at <= i != below.gap:
        # the stitch behind a gap is still to be worked, or skipped
        below.at, below.sub = i + 1, 0
    return (i,)


def _loop_just_made(below: Below) -> bool:
    """True for a round that ended "ch 2, dc in dc": both together are a loop, and the hook stands in it."""
    if not below.closed or below.n < 3:
        return False
    space, last = below.elements[-2:]
    return space.kind == SP and last.is_stitch and last.kind not in ("sc", "slst", SP)


def from_hook(hook: Hook, where: Where) -> tuple[int, ...]:
    """A chain of the foundation, counted from the hook; () where there is no foundation chain."""
    below = hook.below
    if (
        below.n
        and below.elements[0].kind == CH
        and (hook.own_chains is not None or not any(e.into for e in hook.made))
    ):
        last = where.nth + where.many - 1
        if last > below.n:
            raise Missing("C205", f"there is no {ordinal_figure(where.nth)} chain in a chain of {below.n}")
        below.at, below.sub, below.here = last, 0, last - 1
        return tuple(range(where.nth - 1, last))
    return ()


def top(hook: Hook, where: Where, item: Item) -> tuple[int, ...]:
    """The turning chain that ends the row below."""
    below = hook.below
    i = below.turning_index()
    if (
        i is not None
        and hook.ground.again
        and below.elements[i].kind == HIDDEN
        and below.elements[i].chains == 1
    ):
        # worked again on a row that begins with one chain: its last stitch is what can be meant
        i = None
    end = below.n - 1
    lone = i is None and end >= below.at and below.elements[end].kind == SP and below.elements[end].turning
    if lone and not where.nth and below.passed_to(end) <= hook.silent:
        # "sc in turning ch-2 sp", where the chain is a space and no stitch
        hook.spaces_worked.add(below.elements[end].chains)
        below.at, below.sub, below.here = below.n, 0, end
        return (end,)
    if i is None:
        # no turning chain stands there: the last stitch is what can be meant
        i = below.from_end(1, ())
        if below.at > i:
            raise Missing("C205", "there is no turning chain left to work into")
    if i < below.at:
        if below.elements[i].kind == HIDDEN or i == below.at - 1 and below.here == i:
            return (i,)
        raise Missing("C203", "the turning chain is already worked into")
    if (space := _space_named(hook, where, i)) is not None or (space := turning_space(hook, where)):
        return space
    element = below.elements[i]
    if element.kind == HIDDEN:
        hook.ask(("tch is worked", element.chains), (False,))
    unsaid = below.passed_to(i)
    if unsaid > hook.silent:
        # after spaces, as many stitches are passed over at the end as were passed between them
        if hook.limit != UNLIMITED:
            raise Missing("C206", "there are stitches left before the turning chain")
        jump(hook, item, unsaid)
    over = [e for e in below.elements[below.at : i] if e.kind == SP and not e.slipped]
    if not below.closed and not unsaid and any(e.chains in hook.spaces_worked for e in over):
        # every space before was worked into: one passed over at the end was forgotten
        jump(hook, item, len(over), "space")
    below.at, below.sub, below.here = max(below.at, i + 1), 0, i
    beside = space_beside(below.elements, i)
    if element.kind != HIDDEN and element.chains:
        chain_named(hook, where, element, element.chains + beside)
    return (i,)


def _space_named(hook: Hook, where: Where, i: int) -> tuple[int, ...] | None:
    """The space of "3rd ch of the ch-5" that is next, where stitches lie between it and the turning chain."""
    below = hook.below
    chains = where.kinds[0].chains if where.kinds else None
    ahead = next((e for e in below.elements[below.at : i] if e.kind != HIDDEN), None)
    if ahead is None or ahead.kind != SP or ahead.chains != chains or below.passed_to(i) <= hook.silent:
        return None
    return (below.take(Kind(SP, chains), hook.limit)[0],)


def turning_space(hook: Hook, where: Where) -> tuple[int, ...] | None:
    """The space that the turning chain makes beside its stitch, for "sc in turning ch space"; None where none does."""
    at = space_of_turning(hook) if where.kinds == (Kind(SP),) and not where.nth else None
    if at is None or at < hook.below.at:
        return None
    hook.spaces_worked.add(hook.below.elements[at].chains)
    hook.below.at, hook.below.sub, hook.below.here = at + 1, 0, at
    return (at,)


def space_of_turning(hook: Hook) -> int | None:
    """Index of that space, None where the turning chain makes none."""
    at = hook.below.turning_index()
    elements = hook.below.elements
    beside = () if at is None else (at - 1, at + 1)
    return next(
        (j for j in beside if 0 <= j < len(elements) and elements[j].kind == SP and elements[j].turning), None
    )


def jump(hook: Hook, item: Item, unsaid: int, what: str = "stitch") -> None:
    """Reports stitches, or spaces, passed over to reach the end: the repeat before is at fault, when there is one."""
    below = hook.below
    cloth = not below.closed and not below.has_corners() and (below.elements[0].kind != CH or hook.edge_used)
    if unsaid <= 2 and cloth and any(e.corner for e in hook.made):
        # "3 sc in corner, sc in next 21 hdc, 3 sc in last hdc" of flat cloth: the corner was its first stitch
        return
    over = hook.made[-1].chains + 1 if hook.made and hook.made[-1].kind == SP and hook.spaces_worked else 0
    if unsaid <= over and what == "stitch" and hook.across is None:
        return  # lace: "dc in next ch-2 sp, ch 2, dc in top of ch-3" bridges them with a chain as wide
    count = amount(unsaid, what)
    if hook.across is not None:
        span = hook.across.told_at or hook.across.span
        hook.fault(
            "C204",
            span,
            f"has a repeat that does not come out even: {count} left over before the end",
            "does not come out even",
            "Check the count of the row below, and what stands before and after the repeat.",
        )
    else:
        hook.fault(
            "C202",
            item.span,
            f"leaves {count} unworked before its end",
            "jumps over them",
            "Check how often the repeat before this is worked.",
            # into the turning chain lace often goes over a group's stitches without a word
            weight=4 if isinstance(item, Work) and item.where.which is Which.TOP else 10,
        )


def between(hook: Hook, where: Where) -> list[tuple[int, ...]]:
    """Gaps between groups."""
    below, elements = hook.below, shown(hook.below.elements)
    n = len(elements)
    start = max(below.at, below.gap + 1, 1)
    from_start = where.many and where.nth != -1 and (where.stop is None or not where.stop.left)
    if (lone := stands_between(below, where)) is not None:
        return [(below.take(lone, hook.limit)[0],)]
    if len(where.kinds) > 1 and where.kinds[1].name.startswith("within:"):
        return _within(hook, where, where.kinds[1].name[7:])
    if len(where.kinds) > 1 and where.kinds[1].name == "before":
        at = below.at if below.at < below.n or not below.closed else 0
        if at != below.gap and at < below.n:
            below.gap = below.here = at
            return [(at,)]
        where = replace(where, kinds=where.kinds[:1])
    grouped = len(where.kinds) > 1 and _has_groups(hook)
    if from_start:
        # no further than is asked for: a wide row is not gone through at each of its stitches
        fits = between_groups if grouped else is_gap
        if _at_its_beginning(hook, elements) and fits(elements, 0):
            # the first that a round meets is the one it begins in
            start = 0
        gaps = list(islice((i for i in range(start, n) if fits(elements, i)), min(where.many, n)))
        gaps = space_between(below, where, start, gaps)
        last_gap = next((i for i in range(n - 1, start - 1, -1) if is_gap(elements, i)), -1)
    else:
        gaps = [i for i in range(start, n) if is_gap(elements, i)]
        if (
            where.many == 0
            and not grouped
            and below.closed
            and len(gaps) < n - start
            and hook.ask(("every gap", where.span.start), (False, True))
        ):
            gaps = [*range(start, n)]  # "in each space between dc", where pairs of them stand in one stitch
        last_gap = gaps[-1] if gaps else -1
    if (
        where.many == 0
        and below.gap <= 0
        and _begins(hook, elements)
        and not one_place(elements[-1], elements[0])
    ):
        # the first gap of a round lies between its last stitch and its first
        gaps = [0, *gaps]
    if hook.limit < below.n:
        # the gap before the group that is not to be worked lies on this side of it
        last = hook.limit + (1 if 0 <= hook.limit < len(elements) and elements[hook.limit].group else 0)
        gaps = [i for i in gaps if i < last]
    if where.stop is not None and where.stop.left:
        gaps = gaps[: -where.stop.left]
    if where.stop is not None and where.stop.at:
        # "in each sp between groups to next ch-2 sp"
        gaps = gaps[: bisect_right(gaps, limit_of(below, where.stop))]
    if where.many == 0 and len(where.kinds) > 1:
        # every gap with a group at either side of it; a pair at the edge looks like one
        gaps = [i for i in gaps if between_groups(elements, i)]
    elif where.many:
        if grouped and where.nth != -1 and not from_start:
            gaps = [i for i in gaps if between_groups(elements, i)]
        gaps = (gaps[-where.many :] if where.nth == -1 else gaps)[: where.many]
        if len(gaps) == where.many - 1 and _left_at_first(hook, grouped):
            # a round that began in its first gap has one more, between its last stitch and its first
            gaps = [*gaps, 0]
            below.at = below.n
        if len(gaps) < where.many:
            raise Missing("C203", "there is no space between stitches left")
    if gaps:
        below.gap = gaps[-1]
        below.at = max(below.at, below.gap)
        below.here = below.gap
        if below.closed and below.gap == last_gap:
            # the stitches behind the last gap lie before the first one
            below.at = below.n
    hook.silent = UNLIMITED
    return [(i,) for i in gaps]


def _begins(hook: Hook, elements: Sequence[Element]) -> bool:
    """True in a round that has no stitch yet."""
    return hook.below.closed and len(elements) > 1 and not any(e.into or e.turning for e in hook.made)


def _at_its_beginning(hook: Hook, elements: Sequence[Element]) -> bool:
    """True where a round has no stitch yet, and passes over none."""
    below = hook.below
    return below.gap < 0 and below.at == 0 and below.here is None and _begins(hook, elements)


def _left_at_first(hook: Hook, grouped: bool) -> bool:
    """True where the gap before the first stitch of a round is all that is left to work into."""
    elements = shown(hook.below.elements)
    if not elements:
        return False
    fits = between_groups(elements, 0) if grouped else not one_place(elements[-1], elements[0])
    return (
        hook.below.closed
        and hook.below.n > 1
        and bool(hook.made)
        and fits
        and hook.below.gap != 0
        and not any(e.into[:1] == (0,) and e.between or e.turning for e in hook.made)
    )


def _within(hook: Hook, where: Where, name: str) -> list[tuple[int, ...]]:
    """The gaps in the middle of groups of the pattern's own: "between the 2 dc of each V-st"."""
    below = hook.below
    found: list[int] = []
    at = max(below.at, 1)
    while at < min(below.n, hook.limit) and (where.many == 0 or where.nth == -1 or len(found) < where.many):
        group, end = below.elements[at].group, at
        while group and end < below.n and below.elements[end].group == group:
            end += 1
        if end - at > 1 and name in (
            below.elements[at].special,
            elsewhere(below.elements[at].special),
        ):
            found.append((at + end) // 2)
        at = max(end, at + 1)
    found = found[-1:] if where.nth == -1 else found
    if not found or where.many and len(found) < where.many:
        raise Missing("C203", f"there is no {name} left to work into")
    below.here = found[-1]
    below.gap = found[-1]
    below.at = below.after_group(found[-1])
    hook.silent = UNLIMITED
    return [(i,) for i in found]


def _has_groups(hook: Hook) -> bool:
    """True when the row below has a gap between two groups; looked for once."""
    elements = hook.below.elements
    if hook.gaps_known is None or hook.gaps_known[0] is not elements:
        all_shown = shown(elements)
        found = any(between_groups(all_shown, i) for i in range(1, len(all_shown)))
        hook.gaps_known = elements, found
    return hook.gaps_known[1]


def gaps_for(hook: Hook, where: Where) -> Where | None:
    """A place said to be a space, in a row that has none but stands in groups: the gaps between them."""
    below = hook.below
    if (
        not where.kinds
        or where.kinds[0].name != SP
        or where.kinds[0].chains is not None
        or where.which not in (Which.NEXT, Which.FIRST, Which.LAST, Which.EACH)
        or below.ring
        or not below.n
        or not ((not below.closed or below.gap >= 0) and stands_in_gaps(below))
        and not (below.closed and _gap_before_corner(hook, where))
    ):
        return None
    every = where.which is Which.EACH
    return replace(
        where,
        which=Which.BETWEEN,
        many=0 if every else where.many,
        kinds=(Kind(SP),),
        nth=-1 if where.which is Which.LAST else 0,
    )


def _gap_before_corner(hook: Hook, where: Where) -> bool:
    """True where a round's only spaces are its corners, with groups between them: "3 dc in each of next 4 gaps"."""
    below = hook.below
    shown = [e for e in below.elements if e.kind == SP]
    if not shown or not all(e.corner for e in shown) or not hook.made or not _has_groups(hook):
        return False
    corner = below.find(Kind(SP), below.at)
    ahead = range(max(below.at, 1), below.n if corner is None else corner)
    gap = any(between_groups(below.elements, i) for i in ahead)
    return gap and bool(hook.ask(("gaps", where.span.start), (True, False)))
