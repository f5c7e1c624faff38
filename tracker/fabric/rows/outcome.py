"""One row worked onto what stands: from its lead (turn, travel, turning chain) to its close.

A row of the tree and a Standing come in; an Outcome comes out, with the problems found and the doubts asked.
Nothing raises: a row too large to be worked is not understood.
"""

from collections.abc import Mapping, Sequence

from tracker.fabric.below.cursor import Below
from tracker.fabric.checks.contradictions import misjoined
from tracker.fabric.checks.counts import differs, of_groups
from tracker.fabric.checks.leftovers import leftovers
from tracker.fabric.model import CH, HIDDEN, SP, Element, Step
from tracker.fabric.rows.apart import told_apart
from tracker.fabric.rows.beginning import (
    around_opening,
    begins_elsewhere,
    joins_pieces,
    lead_turn,
    on_a_leg,
)
from tracker.fabric.rows.close import closing_joins, standing_after, with_corners
from tracker.fabric.rows.opening.first import gathered
from tracker.fabric.rows.opening.lead import lead
from tracker.fabric.rows.opening.row_ends import into_ends, standing_ends, told_by_ends
from tracker.fabric.rows.own_chain.chain import (
    first_row_again,
    from_hook,
    hanging_chain,
    skipped_start,
    untold_start,
)
from tracker.fabric.rows.own_chain.foundation import own_foundation
from tracker.fabric.rows.own_chain.ring import into_its_chains, starts_from_ring
from tracker.fabric.rows.pieces import as_stated
from tracker.fabric.rows.told.implied import over_and_over
from tracker.fabric.rows.told.tiles import as_squares, as_tiles, widened
from tracker.fabric.standing import Standing, chain_of, ring
from tracker.fabric.stated import agrees, along_told, covers, far_off, holds_words, in_spaces, in_stitches
from tracker.fabric.working.groups import apart_as_defined, first_as_defined
from tracker.fabric.working.hook import Choice, Found, Ground, Hook, TooLarge
from tracker.fabric.working.running import hook_on, run
from tracker.notation.pattern import Order, Row
from tracker.notation.tree import (
    Chain,
    Group,
    Item,
    Join,
    Mark,
    Repeat,
    Say,
    Travel,
    Turn,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.records import dataclass, replace


@dataclass(slots=True)
class Outcome:
    """A row worked in one reading."""

    elements: tuple[Element, ...]
    steps: Sequence[Step]
    below: tuple[Element, ...]
    found: list[Found]
    asked: dict[object, tuple[Choice, ...]]
    choices: Mapping[object, Choice]
    standing: Standing
    understood: bool
    turned: bool
    wrong: tuple[tuple[str, int, int], ...] = ()
    """Names with the number stated and the number worked, where they differ."""
    cost: float = 0.0
    """What speaks against the reading: the less, the likelier."""


_PLAIN = 5
"""Weight of faults that the words show by themselves."""


def work_row(
    row: Row,
    standing: Standing,
    ground: Ground,
    choices: Mapping[object, Choice],
    habits: Mapping[object, Choice],
    first_of_part: bool,
) -> Outcome:
    """The row in the reading that `choices` and, where it is silent, `habits` make."""
    if row.kind == "edging" and standing.kind == "round":
        row = replace(row, kind="round")
    if (told := along_told(row)) is not None:
        besides = work_row(replace(row, stated=()), standing, ground, choices, habits, first_of_part).elements
        row = _along(row, told, besides)
    items = list(row.items)
    unknown_below = standing.kind == "none" and bool(row.numbers) and row.numbers[0] > 1
    tile = next((s.name for s in ground.specials.values() if s.base == "tile"), None)
    if tile is not None:
        items = widened(as_tiles(items, tile), tile, standing)
    items = as_squares(items, standing, ground.specials)
    # a border round tiles goes along their sides, which no row counts
    tiled = tile is not None and row.kind != "row" and all(e.kind == "tile" for e in standing.elements)
    about_tiles = tiled and bool(standing.elements) and not _of_tiles(items)
    pieces = joins_pieces(items) or about_tiles
    if pieces:
        # what lies between the pieces is worked into in this very round
        standing, items = ring(), _without_chains(items)
        items = as_stated(items, row.stated) or items
    if standing.chains and into_its_chains(items):
        standing = replace(chain_of(standing.chains), kind="round")
    leg = on_a_leg(row, items, standing)
    opening = around_opening(row, items, standing) if leg is None else None
    if leg is not None:
        standing, items = leg
    if opening is not None:
        standing, items = ring(), opening
    cloth = (
        standing.kind == "none"
        and not starts_from_ring(items)
        and not any(from_hook(i) for i in items)
        and (any(isinstance(i, Travel) for i in items) or begins_elsewhere(items))
    )
    standing, items = own_foundation(items, hanging_chain(items, standing), first_of_part)
    again = first_row_again(items, standing)
    items = items if again is None else again
    if standing.kind == "none" and (
        starts_from_ring(items)
        or not any(map(_in_chain, items))
        and any(isinstance(i, (Travel, Work, Repeat, Group)) for i in items)
    ):
        # a ring, or cloth or cord that takes as many stitches as are told
        standing = ring()
    unfounded = standing.kind == "none" and any(_in_chain(i) for i in items)
    turned, items = lead_turn(row, standing, items)
    backwards = turned and standing.kind == "round" and row.kind == "round"
    elements = standing.working_order(turned)
    # a round joined in the space of its own chain comes back to that space at the end
    likely = int(bool(elements) and elements[0].kind == SP and elements[0].turning)
    if elements and backwards and choices.get("turned start", habits.get("turned start", likely)):
        # the stitch of the join is the last of the way back, not the first
        shown = next((i for i, e in enumerate(elements) if e.kind != HIDDEN), 0)
        elements = (*elements[:shown], *elements[shown + 1 :], elements[shown])
    if standing.added:
        elements = (*chain_of(standing.added).elements, *elements)
    items = skipped_start(items, standing)
    by_ends = not standing.added and standing.rows > 0 and told_by_ends(items)
    if by_ends:
        elements, items = standing_ends(standing.rows), into_ends(items)
    closed = standing.kind == "round" and row.kind == "round"
    below = Below(elements, closed, standing.kind == "ring")
    if not standing.added:
        below.marks = standing.marks_in_order(turned)
    if closed and below.n and below.elements[0].kind == HIDDEN:
        hidden = next((i for i, e in enumerate(elements) if e.kind != HIDDEN), 0)
        below.elements = (*elements[hidden:], *elements[:hidden])
    hook = hook_on(
        below,
        replace(
            ground,
            left=standing.left,
            left_ahead=standing.left_ahead and turned and standing.kind == row.kind == "row",
            base=standing.base,
            row_ends=standing.rows,
        ),
        {**habits, **choices},
    )
    items = untold_start(items, standing, hook) if row.kind == "row" else items
    # "Ch a multiple of 4 + 2": nobody knows how many chains there are to go into
    understood = not row.unread and again is not None and not unfounded
    if unfounded:
        begun = next(item.span for item in items if _in_chain(item))
        hook.untold(begun, "goes into a chain whose length is not told", "“Ch 41”, before it, would tell.")
    hook.pieces = pieces or opening is not None or cloth
    items = over_and_over(told_apart(items, hook.ask), row, below, hook.ask)
    items = closing_joins(row, items)
    if backwards:
        hook.asked["turned start"] = (likely, 1 - likely)
    try:
        rest = gathered(items) if pieces else lead(row, hook, items, standing, habits)
        run(hook, rest)
        if standing.kind != "ring" or hook.made:
            leftovers(row, hook, standing)
        if row.kind == "round" and not pieces:
            misjoined(items, hook)
    except (TooLarge, RecursionError):
        understood = False
    if unknown_below and hook.found:
        # a row that says it is not the first, and nothing is known of what lies below it
        hook.found.clear()
        understood = False
    if by_ends:
        understood = understood and not hook.found
        hook.found.clear()
        hook.made[:] = [replace(element, into=()) for element in hook.made]
        hook.edge_used = True
    nothing = not hook.made and not hook.found
    emptied = bool(row.stated) and not row.unread and all(map(_makes_nothing, row.items))
    if (
        not emptied
        and not any(e.into or e.is_stitch for e in hook.made)
        and below.n
        and {fault.code for fault in hook.found} == {"C202"}
    ):
        # words that work nothing into what stands there are words that were not understood
        understood = False
    if hook.unread or nothing and any(isinstance(i, (Work, Group, Repeat)) for i in items):
        # what is worked and makes nothing was not understood, whatever the words
        understood = False
    if any(fault.code == "T101" for fault in hook.found):
        understood = False
    first_as_defined(hook)
    apart_as_defined(hook)
    with_corners(hook.made)
    made = tuple(hook.made)
    after = standing_after(row, items, hook, standing, turned)
    before = sum(1 for e in elements if e.is_stitch) if standing.kind in ("row", "round") else None
    wrong = _unlike_stated(row, made, before, ground) if understood else []
    ordered = [order.span for order in row.orders if not _done(order, hook, made)] if understood else []
    if ordered and (wrong or not agrees(row.stated, made)):
        for span in ordered:
            hook.untold(span, "orders what its words do not tell", "Write it where it is worked.")
        understood = False
    if understood and hook.spent is not None and (wrong or not agrees(row.stated, made)):
        hook.untold(hook.spent, "finds nothing left to go into", "Say how far what stands before it goes.")
        understood = False
    understood = understood and not _belied(row, items, hook, wrong)
    if hook.pieces and not covers(row.stated, made):
        understood = False
        wrong.clear()
    return Outcome(
        made,
        tuple(hook.steps),
        hook.below.elements if not hook.edge_used else elements,
        hook.found,
        hook.asked,
        choices,
        after,
        understood,
        turned,
        tuple(wrong),
    )


def _along(row: Row, told: tuple[int, int], besides: Sequence[Element]) -> Row:
    """The row with as many stitches along an edge as are left of all it states, once what it works `besides` is off."""
    at, in_all = told
    along = in_all - sum(1 for e in besides if e.is_stitch)
    here = row.items[at]
    if along <= 0 or not isinstance(here, Work):
        return row
    return replace(row, items=(*row.items[:at], replace(here, count=along), *row.items[at + 1 :]))


def _unlike_stated(
    row: Row, made: tuple[Element, ...], before: int | None, ground: Ground
) -> list[tuple[str, int, int]]:
    """Names with the number stated and the number worked, where they differ; `before` stitches stood there."""
    wrong: list[tuple[str, int, int]] = []
    for told in row.stated:
        stated = in_spaces(told, ground.specials)
        unlike = differs(stated, made, before)
        if unlike and differs(in_stitches(stated, made, ground.specials), made, before):
            wrong.extend(unlike)
        else:
            wrong.extend(of_groups(told, made))
    return wrong


def _belied(row: Row, items: Sequence[Item], hook: Hook, wrong: Sequence[tuple[str, int, int]]) -> bool:
    """True where what was made tells that some words were taken for what they are not."""
    made = tuple(hook.made)
    if _unsure(items) and (wrong or not agrees(row.stated, made)):
        # words that were taken for a remark, and no count bears it out
        return True
    if _of_no_shaping(row, hook):
        return True
    if wrong and far_off(wrong) and holds_words(items):
        # so far from what is stated, that it lies in them
        return True
    if not wrong and _of_nothing(row, made) and not any(fault.weight >= _PLAIN for fault in hook.found):
        # a repeat that does not come out tells by itself why no number is made
        return True
    slips = [e for e in made if e.kind == "slst"]
    if row.stated and len(slips) == 1 < len(made) and made[0] is slips[0]:
        # a slip stitch that begins a round leads somewhere: counted as a stitch, it was not understood
        return not any(name == "slst" for told in row.stated for name, _ in told.counts)
    return False


def _done(order: Order, hook: Hook, made: Sequence[Element]) -> bool:
    """True where a row may do what is ordered: its count changes, or it is worked on as many stitches as are told."""
    below = sum(e.is_stitch for e in hook.below.elements)
    if order.stitches:
        return order.stitches in (below, sum(e.is_stitch for e in made))
    return not order.anyhow and below != sum(e.is_stitch for e in made)


def _of_no_shaping(row: Row, hook: Hook) -> bool:
    """True where a row counts its increases, "sc around, 6 incs", and is as wide as the one below."""
    told = any(
        name.startswith(("?inc", "?dec")) and many for stated in row.stated for name, many in stated.counts
    )
    return told and sum(e.is_stitch for e in hook.made) == sum(e.is_stitch for e in hook.below.elements)


def _of_nothing(row: Row, made: tuple[Element, ...]) -> bool:
    """True where all that a row counts has a name that no list of stitches holds, and nothing in it comes so often.

    "(8 petals)", where seven groups were worked: whatever a petal is, there are as many of something.
    """
    told = {(name, many) for stated in row.stated if not stated.partial for name, many in stated.counts}
    told = {(name, many) for name, many in told if name.rstrip("s") not in ("?round", "?rnd", "?row")}
    if row.kind == "row" or not told or not all(name.startswith("?") and many > 1 for name, many in told):
        return False
    kinds: dict[object, int] = {}
    for element in made:
        kinds[element.kind, element.chains] = kinds.get((element.kind, element.chains), 0) + 1
        kinds["all"] = kinds.get("all", 0) + element.is_stitch
        kinds["corner"] = kinds.get("corner", 0) + element.corner
    groups = len({element.group for element in made if element.group})
    numbers = {*kinds.values(), groups, groups + 1} - {0}
    return not any(number % many == 0 for _, many in told for number in numbers)


def _unsure(items: Sequence[Item]) -> bool:
    """True for words that may work something, those in repeats too."""
    return any(
        isinstance(item, Say)
        and (item.kind == "unsure" or item.bears)
        or isinstance(item, (Group, Repeat))
        and _unsure(item.items)
        for item in items
    )


def _in_chain(item: Item) -> bool:
    """True for "sc in 2nd ch from hook" and "sc in 2nd ch": places in a foundation."""
    if from_hook(item):
        return True
    if not isinstance(item, (Work, Group)):
        return False
    return item.where.which is Which.NTH and [kind.name for kind in item.where.kinds] == [CH]


def _of_tiles(items: Sequence[Item]) -> bool:
    """True for a row that has a tile among what it works."""
    return any(
        isinstance(item, Work)
        and item.stitch in ("tile", "beg tile")
        or isinstance(item, (Repeat, Group))
        and _of_tiles(item.items)
        for item in items
    )


def _makes_nothing(item: Item) -> bool:
    """True for words that are known, and that make no stitch: a row of them alone has lost its others."""
    if isinstance(item, Say):
        return item.kind in ("colour", "marker", "side", "fasten off")
    return isinstance(item, (Chain, Join, Mark, Turn, Turning))


def _without_chains(items: list[Item]) -> list[Item]:
    """Items of a round along other pieces without its chains; one that is said to count is the stitch it counts as."""
    out: list[Item] = []
    for k, item in enumerate(items):
        if not isinstance(item, Chain):
            out.append(item)
            continue
        told = items[k + 1] if k + 1 < len(items) else None
        says = told if isinstance(told, Turning) else item.says
        if (
            says is not None
            and says.counts
            and says.as_stitch
            and not any(isinstance(i, (Work, Group, Repeat)) for i in out)
        ):
            out.append(Work(says.as_stitch, 1, Where(Which.RING, item.span), item.span))
    return out
