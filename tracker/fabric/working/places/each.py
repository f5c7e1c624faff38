""" "Each st across", "each dc and ch-1 sp", with the exceptions told for some of them."""

import re
from collections.abc import Sequence

from tracker.expressions import expression
from tracker.fabric.below.cursor import Below
from tracker.fabric.below.surface import UNLIMITED, Missing, closed, named
from tracker.fabric.model import CH, HIDDEN, SP, Element, Step
from tracker.fabric.working.hook import MAX_ELEMENTS, Hook, TooLarge
from tracker.fabric.working.places.reserve import end_of
from tracker.fabric.working.places.taking import edge_for, take_up, unused_here
from tracker.notation.tree import ANY, Except, Item, Kind, Stop, Where, Which, Work


def each(hook: Hook, where: Where, item: Item, rest: Sequence[Item], per: int) -> list[tuple[int, ...]]:
    """Every place an "each" names."""
    return [taken for taken, _ in each_with(hook, where, item, rest, per, ())]


def _unmarked_corners(below: Below, excepting: tuple[Except, ...]) -> dict[int, Except]:
    """Where the four corners lie of a border whose stitches were told edge by edge, and not one by one.

    How many there are is known, and so is what the round makes; which stitch each of them is, is the maker's to see.
    """
    corner = next((x for x in excepting if any(k.name == "corner" for k in x.kinds)), None)
    if corner is None or not below.closed or below.n < 8 or below.has_spaces():
        return {}
    if any(e.into or e.corner for e in below.elements):
        return {}
    return {(below.n * k) // 4: corner for k in range(4)}


def _closing_chains(hook: Hook, kinds: tuple[Kind, ...], end: int) -> frozenset[str]:
    """The pattern's own stitches that end in a chain of so many, where it is those chains that are meant.

    "2 hdc in each ch-1 sp", said of a round of puffs that are each closed by "ch 1 to secure".
    """
    wanted = {kind.chains for kind in kinds if kind.name == SP}
    ahead = hook.below.elements[hook.below.at : end]
    if len(wanted) != 1 or len(kinds) != 1 or any(e.kind == SP for e in ahead):
        return frozenset()
    chains = wanted.pop()
    names = {e.special for e in ahead if e.special}
    closed_by = {
        name: _CLOSED_BY.search(hook.ground.specials[name].text) for name in names & {*hook.ground.specials}
    }
    return frozenset(name for name, hit in closed_by.items() if hit is not None and int(hit[1]) == chains)


_CLOSED_BY = expression(
    r"\bch(?:ain)?[\s-]*(\d)(?:\s+to\s+(?:secure|close|lock)[^,;.]*)?[\s.]*$", re.IGNORECASE, ["ch"]
)


def each_with(
    hook: Hook, where: Where, item: Item, rest: Sequence[Item], per: int, excepting: tuple[Except, ...]
) -> list[tuple[tuple[int, ...], Except | None]]:
    """Every place an "each" names, with the exception that holds there, if one does."""
    below = hook.below
    kinds = where.kinds or (Kind(ANY),)
    stitches = all(kind.name not in (SP, CH) and not kind.inside for kind in kinds)
    over = bool(hook.made) and not below.closed and not below.anything_left(below.n)
    if over and stitches and where.stop is None and hook.ground.left and hook.limit == UNLIMITED:
        # "sc in next 8 sc, sc in each unworked sc of Row 1": where the row has no more, those left before
        take_up(hook)
    if len(kinds) == 2 and kinds[1].inside:
        out: list[tuple[tuple[int, ...], Except | None]] = []
        end = end_of(hook, where.stop, rest)
        while True:
            try:
                out.append(((below.in_group(kinds[0], kinds[1], min(hook.limit, end)),), None))
            except Missing:
                if kinds[0].name == SP:
                    # what is left of the last one goes with it
                    below.at, below.sub = max(below.at, min(end, below.n)), 0
                return out
    edge_for(hook, kinds[0])
    below = hook.below
    if kinds[0].name == "corner" and not below.has_corners():
        kinds = (Kind("corner sp", kinds[0].chains), *kinds[1:])
    to_the_end = where.stop in (None, Stop()) and hook.limit == UNLIMITED and kinds[0].name not in (SP, CH)
    if to_the_end and hook.ground.left_ahead and hook.ask(("those left too", item.span.start), (False, True)):
        take_up(hook)
    end = min(hook.limit, end_of(hook, where.stop, rest))
    generic = any(k.name == ANY for k in kinds)
    if (
        generic
        and any(e.kind == SP for e in below.elements[below.at : end])
        and not any(k.name in (SP, CH) for k in kinds)
    ):
        below.chains_too = bool(hook.ask("chains are stitches", (False, True)))
    stitches_named = [k for k in kinds if k.name not in (SP, CH, ANY, "corner", "corner sp")]
    loose = False
    if stitches_named and not generic:
        odd = [
            e
            for e in below.elements[below.at : end]
            if e.is_stitch
            and not any(below.matches(e, k) for k in (*kinds, *(k for x in excepting for k in x.kinds)))
        ]
        if odd:
            related = all(any(below.related(e, k) for k in stitches_named) for e in odd)
            loose = bool(
                hook.ask("names are loose", (True, False) if related or not excepting else (False, True))
            )
            if loose and not related and not hook.ground.again and _misnamed(below, stitches_named, odd, end):
                hook.fault(
                    "C210",
                    where.span,
                    f"works into each {named(stitches_named[0])}, and the row below has {named(Kind(odd[0].kind))}",
                    "another stitch",
                    f"Where they are meant, say “each {named(Kind(odd[0].kind))}”.",
                    weight=2,
                )
    if excepting and not hook.ground.again:
        _spaces_lacking(hook, item, excepting)
    singles: list[tuple[int, Except | None]] = []
    if below.closed and below.here == 0 and below.at == 1 and any(unused_here(hook, k) for k in kinds):
        # "sl st in sp, ch 1, (sc, hdc, sc) in each sp around": the space the round begins in is one of them
        below.at = 0
    whole_ones: set[int] = set()
    if below.closed and below.elements and any(k.name == below.elements[0].special for k in kinds):
        # "ch 4, dc in same sp, V-st in each V-st around": the one that the round began in has its own
        whole_ones = {below.elements[i].group for made in hook.made for i in made.into if i < below.n}
    unmarked = _unmarked_corners(below, excepting)
    closing = _closing_chains(hook, kinds, end)
    for i in range(below.at, min(end, below.n)):
        element = below.elements[i]
        if element.special in closing:
            singles.append((i, None))
            continue
        if element.group and any(element.special == k.name != element.kind for k in kinds):
            # "V-st in each V-st": once into each, in its middle
            if element.group not in whole_ones and not closed(element):
                whole_ones.add(element.group)
                last = max(j for j in range(i, below.n) if below.elements[j].group == element.group)
                singles.append(((i + last) // 2, None))
            if not closed(element):
                continue
        if excepting:
            special = next((x for x in excepting if excepted(hook, element, x)), unmarked.get(i))
            if special is not None:
                singles.append((i, special))
                continue
        if element.kind == HIDDEN:
            continue
        if element.kind == SP:
            if any(k.name in (SP, "corner sp") and below.matches(element, k) for k in kinds):
                singles.append((i, None))
            elif any(k.name == CH for k in kinds) or (generic and below.chains_too):
                left = element.chains - (below.sub if i == below.at else 0)
                if left > MAX_ELEMENTS:
                    raise TooLarge
                singles.extend([(i, None)] * left)
            continue
        if (
            (generic and element.is_stitch)
            or (loose and stitches_named)
            or any(below.matches(element, k) for k in kinds)
            or (element.turning and any(k.name == CH for k in kinds) and not stitches_named)
        ):
            singles.append((i, None))
    if (
        not singles
        and stitches_named
        and not generic
        and any(e.is_stitch for e in below.elements[below.at : end])
    ):
        hook.fault(
            "C205",
            where.span,
            f"finds no {named(Kind(stitches_named[0].name))} to work into",
            "not there",
            weight=5,
        )
    if not singles and below.n and all(k.name in ("corner", "corner sp") for k in kinds):
        # where they lie is not known, so neither is what is worked
        hook.unread = True
    if generic and not singles and not below.ring and below.n and below.at >= below.n and _again(hook, where):
        hook.fault("C203", where.span, "has no stitch left for this", "nothing left", _TWICE, weight=5)
    if not singles and not generic and not stitches_named and all(k.name == SP and k.chains for k in kinds):
        others = {e.chains for e in below.elements[below.at : end] if e.kind == SP and not e.slipped}
        if others and not below.ring:
            hook.fault(
                "C205",
                where.span,
                f"finds no {named(kinds[0])} to work into",
                "not there",
                f"The spaces of the row below are of {', '.join(map(str, sorted(others)))} chains.",
                weight=5,
            )
    if not generic and not stitches_named:
        hook.spaces_worked.update(k.chains for k in kinds if k.name == SP)
        hook.silent = UNLIMITED
    if where.stop is not None and where.stop.at == "corner" or end < below.n:
        below.at, below.sub = max(below.at, min(end, below.n)), 0
    else:
        below.at, below.sub = below.n, 0
    if singles:
        below.here = singles[-1][0]
    if per > 1:
        taken = [i for i, _ in singles]
        whole = len(taken) // per * per
        if whole != len(taken):
            below.at = taken[whole]
        return [(tuple(taken[k : k + per]), None) for k in range(0, whole, per)]
    return [((i,), x) for i, x in singles]


def _spaces_lacking(hook: Hook, item: Item, excepting: Sequence[Except]) -> None:
    """C205 for "and 8 sc in each ch-4 sp", where the row below has spaces, and none of that length anywhere."""
    spaces = [e for e in hook.below.elements if e.kind == SP and not e.slipped]
    for kinds in (x.kinds for x in excepting if spaces):
        told = all(k.name == SP and k.chains and not k.inside for k in kinds)
        if told and not any(hook.below.matches(e, k) for e in spaces for k in kinds):
            lengths = ", ".join(map(str, sorted({e.chains for e in spaces})))
            hook.fault(
                "C205",
                item.span,
                f"finds no {named(kinds[0])} to work into",
                "not there",
                f"The spaces of the row below are of {lengths} chains.",
                weight=5,
            )


def _again(hook: Hook, where: Where) -> bool:
    """True where nothing is left because an "each" to the end went before."""
    return (
        where.stop == Stop()
        and hook.below is hook.top_edge
        and bool(hook.steps)
        and _to_the_end(hook.steps[-1])
    )


def _to_the_end(step: Step) -> bool:
    item = step.item
    return isinstance(item, Work) and item.where.which is Which.EACH and item.where.stop == Stop()


_TWICE = "All of the row is worked by the words before: take one of the two out."


def _misnamed(below: Below, kinds: Sequence[Kind], odd: Sequence[Element], end: int) -> bool:
    """True when plain stitches are named, and all there are are plain stitches of one other name."""
    plain = {e.kind for e in odd}
    if len(plain) != 1 or not plain <= _PLAIN or any(k.name not in _PLAIN for k in kinds):
        return False
    return sum(e.is_stitch for e in below.elements[below.at : end]) == len(odd) > 0


_PLAIN = frozenset(("sc", "hdc", "dc", "tr"))


def excepted(hook: Hook, element: Element, x: Except) -> bool:
    """True when an exception holds at an element."""
    if len(x.kinds) == 2 and x.kinds[1].inside:
        return element.corner and element.kind != SP
    return any(hook.below.matches(element, k) for k in x.kinds)
