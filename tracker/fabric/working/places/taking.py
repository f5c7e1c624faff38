"""Taking the next stitch, space or chain of the row below, and moving on to another edge where the row has ended."""

from tracker.fabric.below.cursor import Below
from tracker.fabric.below.surface import UNLIMITED, Missing, named
from tracker.fabric.model import CH, SP, Element
from tracker.fabric.working.hook import Hook
from tracker.notation.tree import ANY, OWN_IF_ANY, Chain, Item, Kind, Where
from tracker.records import replace
from tracker.trade.stitches import STITCHES, parts_of


def in_its_group(hook: Hook, where: Where) -> Where:
    """ "Center dc", with no group named, as that of the next group where stitches of it stand in groups."""
    if len(where.kinds) != 2 or where.kinds[1].inside != OWN_IF_ANY:
        return where
    kind, group = where.kinds
    sizes: dict[int, int] = {}
    for element in hook.below.elements:
        if element.group and hook.below.matches(element, kind):
            sizes[element.group] = sizes.get(element.group, 0) + 1
    if not any(size > 2 for size in sizes.values()):
        return replace(where, kinds=(kind,))
    return replace(where, kinds=(kind, replace(group, inside="own middle")))


def take(hook: Hook, kind: Kind, item: Item) -> int:
    """Takes the next of a kind; says so when stitches were passed that no word names."""
    below = hook.below
    at = below.at
    if kind.name == ANY and spaces_ahead(hook):
        chains_too = bool(hook.ask("chains are stitches", (False, True)))
        below.chains_too = below.chains_too or chains_too
    if hook.ground.again and other_name(hook, kind):
        # the rest of a shell is passed over without a word; a stitch that stands alone is not
        alone = not any(e.kind == SP or e.group for e in below.elements)
        if hook.ask("names differ", (True, False) if alone else (False, True)):
            kind = Kind(ANY)
    kind = by_any_name(hook, kind)
    try:
        i, passed = below.take(kind, hook.limit)
    except Missing:
        if hook.ground.left and hook.limit == UNLIMITED:
            take_up(hook)
            i, passed = below.take(kind, hook.limit)
        elif hook.edge_used and hook.ground.base and (kind.name in (ANY, CH) or _plain(kind)):
            # "sc in next 28 dc", told of both edges: of the foundation it means its chains
            to_edge(hook, hook.ground.base)
            hook.ground.base = ()
            below = hook.below
            i, passed = below.take(Kind(ANY) if kind.name != CH else kind, hook.limit)
        elif (
            hook.edge_used
            and below is not hook.top_edge
            and hook.top_edge.at == 0
            and kind.name != CH
            and not below.anything_left(below.n)
        ):
            # round by the side, the foundation and the other side: the top edge comes last
            hook.below = below = hook.top_edge
            i, passed = below.take(kind, hook.limit)
        elif (
            _plain(kind)
            and below.n
            and all(e.kind == CH for e in below.elements)
            and below is not hook.top_edge
        ):
            i, passed = below.take(Kind(ANY), hook.limit)
        elif (
            (special := hook.ground.specials.get(kind.name)) is not None
            and len([x for x in special.items if isinstance(x, Chain)]) == 1
            and not (special.one_place and any(e.special == kind.name for e in below.elements))
        ):
            # "next bar", where one of them was chained by hand
            chains = next(x.count for x in special.items if isinstance(x, Chain))
            i, passed = below.take(Kind(SP, chains), hook.limit)
        else:
            raise
    if kind.name == SP or (kind.name in ("corner", "corner sp") and below.elements[i].kind == SP):
        hook.silent = max(hook.silent, below.unsaid(at, i))
        hook.spaces_worked.add(kind.chains if kind.name == SP else below.elements[i].chains)
    elif passed and kind.name not in ("corner", "corner sp", "tch"):
        hook.silent = max(hook.silent, passed)
        hook.fault(
            "C206",
            item.span,
            f"passes over {passed} stitch{'es' if passed > 1 else ''} without saying so "
            f"to reach the next {named(kind)}",
            "passes over",
            weight=1,
        )
    return i


def _plain(kind: Kind) -> bool:
    """True for the name of a plain stitch."""
    return kind.name in STITCHES and not STITCHES[kind.name].closes


def take_above(hook: Hook, item: Item) -> int:
    """Takes what lies over a stitch some rows below, which is worked in its place: a stitch, or one chain."""
    below = hook.below
    if below.at >= min(below.n, hook.limit) or below.elements[below.at].kind != SP:
        return take(hook, Kind(ANY), item)
    chains_too, below.chains_too = below.chains_too, True
    try:
        return below.take_stitch(hook.limit)
    finally:
        below.chains_too = chains_too


def other_name(hook: Hook, kind: Kind) -> bool:
    """True when a plain stitch is named, and the next one is of another name, be it worked round a post."""
    below = hook.below
    if kind.name not in STITCHES or STITCHES[kind.name].closes:
        return False
    at = next((e for e in below.elements[below.at : below.at + 2] if e.is_stitch), None)
    return (
        at is not None
        and at.kind != kind.name
        and parts_of(at.kind)[1] in STITCHES
        and not below.matches(at, kind)
    )


def by_any_name(hook: Hook, kind: Kind) -> Kind:
    """The kind that a row worked again means: any, where what it names was there only the first time.

    "As Round 2, working round the raised tr": "to last htr" of Round 2 is "to last st" of all that follow.
    """
    if not hook.ground.again or not _plain(kind):
        return kind
    below = hook.below
    there = (e for e in below.elements if not e.turning)
    return kind if any(below.matches(e, kind) or below.related(e, kind) for e in there) else Kind(ANY)


def spaces_ahead(hook: Hook) -> bool:
    """True when a space lies near enough for "stitch" to mean its chains."""
    below = hook.below
    if not below.has_spaces():
        return False
    i = below.at
    return any(e.kind == SP for e in below.elements[max(0, i - 1) : min(below.n, i + 30)])


def take_up(hook: Hook) -> None:
    """Goes on in stitches that an earlier row left unworked."""
    below = hook.below
    below.elements = (*below.elements, *hook.ground.left)
    below.n = len(below.elements)
    hook.ground.left = ()


def edge_for(hook: Hook, kind: Kind) -> None:
    """Moves to the edge that is meant.

    To the free side of the foundation when chains are wanted and the top has none, or comes last; from there to the
    top, when the way led down a side first.
    """
    below, top_edge = hook.below, hook.top_edge
    if not hook.edge_used:
        return
    if kind.name != CH:
        if below is not top_edge and top_edge.at == 0 and not below.anything_left(below.n):
            hook.below = top_edge
        return
    comes_last = below is top_edge and bool(hook.made) and not any(e.into for e in hook.made)
    if hook.ground.base and (comes_last or not any(e.kind in (CH, SP) for e in below.elements[below.at :])):
        if comes_last:
            top_edge.at, top_edge.here = 0, None
        to_edge(hook, hook.ground.base)
        hook.ground.base = ()


def between_edges(hook: Hook, kind: Kind) -> bool:
    """True for the corner of a piece that has none yet: a place between two of its edges, no space of its last row."""
    if kind.name not in ("corner", "corner sp") or hook.below.has_corners():
        return False
    spaces = any(e.kind == SP for e in hook.below.elements)
    return not spaces or kind.name == "corner" and hook.edge_used


def base_edge(hook: Hook) -> None:
    """Goes on along the other side of the foundation."""
    below = hook.below
    if below.n and any(e.kind == CH for e in below.elements):
        here = below.here if below.here is not None else below.n
        worked = [i for e in hook.made for i in e.into]
        first = min(worked) if worked else 0
        chains = below.elements[first : here + (1 if hook.ask("far end too", (False, True)) else 0)]
        to_edge(hook, tuple(reversed(chains)))
        hook.edge_used = False
        hook.other_side = True
        return
    hook.edge_used = True
    if hook.ground.base:
        to_edge(hook, hook.ground.base)
        hook.ground.base = ()


def to_edge(hook: Hook, elements: tuple[Element, ...]) -> None:
    """Goes on along another edge; the edge of a tube is closed as its top is."""
    below = Below(elements, hook.below.closed)
    below.chains_too = hook.below.chains_too
    hook.below = below


def unused_here(hook: Hook, kind: Kind) -> bool:
    """True when the place the hook has travelled to is what a bare noun names: "(sc, ch 2, sc) in ch-3 sp"."""
    here = hook.below.here
    if here is None or here >= hook.below.n:
        return False
    if kind.name not in (SP, "corner", "corner sp"):
        return _space_of_its_own(hook, kind, hook.below.elements[here]) and not any(
            here in e.into for e in hook.made if not e.turning
        )
    # what was made is gone through last: a wide row has thousands of stitches
    named_so = hook.below.matches(hook.below.elements[here], kind)
    return named_so and not any(here in e.into for e in hook.made if not e.turning)


def in_hand(hook: Hook, kinds: tuple[Kind, ...]) -> int | None:
    """The one that the yarn was just joined to, for "sc in center dc of petal"; its group is dealt with."""
    here, below = hook.below.here, hook.below
    if (
        len(kinds) != 2
        or kinds[1].inside != "own middle"
        or here is None
        or here >= below.n
        or not below.elements[here].group
        or not below.matches(below.elements[here], kinds[0])
        or any(here in e.into for e in hook.made)
    ):
        return None
    below.at = below.after_group(here)
    return here


def _space_of_its_own(hook: Hook, kind: Kind, here: Element) -> bool:
    """True for "3 sc in V-st" in the space that slip stitches led to, where that is what a V-st has but one of."""
    special = hook.ground.specials.get(kind.name)
    chains = [item.count for item in special.items if isinstance(item, Chain)] if special is not None else []
    return here.kind == SP and chains == [here.chains]


def a_row_lower(hook: Hook, where: Where) -> bool:
    """True for "FPdc around FPdc below" where the row below has none, and the one under it has: a plain row between."""
    name = where.kinds[0].name if len(where.kinds) == 1 else ""
    if not parts_of(name)[0] or any(e.kind == name for e in hook.below.elements):
        return False
    return any(e.kind == name for e in hook.ground.earlier.get(hook.ground.last_number - 1, ()))


def go_between(hook: Hook, kind: Kind) -> None:
    """Brings the hook to "the ch-2 sp between next 2 dc", where other spaces may lie before it."""
    below = hook.below
    found = below.find_between(kind, below.at, hook.limit)
    if found is not None:
        hook.silent = max(hook.silent, below.unsaid(below.at, found))
        below.at, below.sub = found, 0
    elif below.find_between(kind, 0, below.n) is not None:
        raise Missing("C203", f"there is no {named(kind)} left that lies so")


def space_between(below: Below, where: Where, start: int, gaps: list[int]) -> list[int]:
    """Gaps for "between next 2 dc": the chains that lie there, where no two such stand side by side before."""
    kind = where.kinds[0]
    if where.many != 1 or not kind.inside or not gaps:
        return gaps
    beside = Kind(kind.inside.removeprefix("between "))
    found = below.find_between(kind, start, below.n)
    side_by_side = all(below.matches(below.elements[i], beside) for i in (gaps[0] - 1, gaps[0]))
    return gaps if found is None or found >= gaps[0] and side_by_side else [found]
