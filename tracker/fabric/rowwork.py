"""One row worked onto what stands: from its lead (turn, travel, turning chain) to its close.

A row of the tree and a Standing come in; an Outcome comes out, with the problems found and the doubts asked.
Nothing raises: a row too large to be worked is not understood.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from tracker.fabric.below import Below
from tracker.fabric.counts import differs
from tracker.fabric.model import CH, HIDDEN, SP, Element, Step
from tracker.fabric.standing import Standing, chain_of, ring
from tracker.fabric.tiles import as_tiles
from tracker.fabric.worker import (
    Choice,
    Found,
    Ground,
    TooLarge,
    Worker,
    first_stitch,
    turning_options,
)
from tracker.notation.tree import (
    ANY,
    Chain,
    Edge,
    Group,
    Item,
    Join,
    Kind,
    Leave,
    Mark,
    Prose,
    Repeat,
    Row,
    Say,
    Skip,
    Travel,
    Turn,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.trade.stitches import by_chains, height_of, parts_of, said


@dataclass(slots=True)
class Outcome:
    """A row worked in one reading."""

    elements: tuple[Element, ...]
    steps: tuple[Step, ...]
    below: tuple[Element, ...]
    found: list[Found]
    asked: dict[object, tuple[Choice, ...]]
    choices: dict[object, Choice]
    standing: Standing
    understood: bool
    turned: bool
    wrong: tuple[tuple[str, int, int], ...] = ()
    """Names with the number stated and the number worked, where they differ."""
    cost: float = 0.0


Habit = dict[object, Choice]


def work_row(
    row: Row,
    standing: Standing,
    ground: Ground,
    choices: dict[object, Choice],
    habits: Habit,
    first_of_part: bool,
) -> Outcome:
    """The row in the reading that `choices` and, where it is silent, `habits` make."""
    items = list(row.items)
    tile = next((s.name for s in ground.specials.values() if s.base == "tile"), None)
    if tile is not None:
        items = as_tiles(items, tile)
    standing, items = _own_foundation(items, standing, first_of_part)
    if standing.kind == "none" and (
        _starts_from_ring(items)
        or not any(_from_hook(i) for i in items)
        and any(isinstance(i, (Travel, Work, Repeat, Group)) for i in items)
    ):
        # a ring, or cloth or cord that takes as many stitches as are told
        standing = ring()
    turned, items = _lead_turn(row, standing, items)
    backwards = turned and standing.kind == "round" and row.kind == "round"
    elements = standing.working_order(turned)
    if backwards and choices.get("turned start", habits.get("turned start", 0)):
        # the stitch of the join is the last of the way back, not the first
        shown = next((i for i, e in enumerate(elements) if e.kind != HIDDEN), 0)
        elements = (*elements[:shown], *elements[shown + 1 :], elements[shown]) if elements else elements
    if standing.added:
        elements = (*chain_of(standing.added).elements, *elements)
    items = _skipped_start(items, standing)
    closed = standing.kind == "round" and row.kind == "round"
    below = Below(elements, closed, standing.kind == "ring")
    if closed and below.n and below.elements[0].kind == HIDDEN:
        hidden = next((i for i, e in enumerate(elements) if e.kind != HIDDEN), 0)
        below.elements = (*elements[hidden:], *elements[:hidden])
    worker = Worker(
        below,
        replace(ground, left=standing.left, base=standing.base, row_ends=standing.rows, closed=closed),
        {**habits, **choices},
    )
    understood = not row.unread
    items = _closing_joins(row, items)
    if backwards:
        worker.asked["turned start"] = (0, 1)
    try:
        rest = _lead(row, worker, items, standing, habits, choices)
        worker.run(rest)
        if standing.kind != "ring" or worker.made:
            _leftovers(row, worker, standing)
    except TooLarge:
        understood = False
    except RecursionError:
        understood = False
    if worker.unread:
        understood = False
    made = tuple(worker.made)
    after = _after(row, items, worker, standing, made, turned)
    wrong: list[tuple[str, int, int]] = []
    if understood:
        before = sum(1 for e in elements if e.is_stitch) if standing.kind in ("row", "round") else None
        for stated in row.stated:
            wrong.extend(differs(stated, made, before))
    return Outcome(
        made,
        tuple(worker.steps),
        worker.below.elements if not worker.edge_used else elements,
        worker.found,
        worker.asked,
        choices,
        after,
        understood,
        turned,
        tuple(wrong),
    )


def _own_foundation(
    items: list[Item], standing: Standing, first_of_part: bool
) -> tuple[Standing, list[Item]]:
    """A row that makes its own chain or ring: "Ch 34, dc in sixth ch", "6 sc in magic ring"."""
    k = 0
    while k < len(items) and isinstance(items[k], (Say, Mark)):
        k += 1
    if k >= len(items):
        return standing, items
    item = items[k]
    if isinstance(item, Join) and item.where is not None and item.where.which is Which.RING:
        return ring(), [*items[:k], *items[k + 1 :]]
    if not isinstance(item, Chain):
        return standing, items
    following = [i for i in items[k + 1 :] if not isinstance(i, (Say, Mark, Turning, Turn))]
    if (
        following
        and isinstance(following[0], Join)
        and following[0].where is not None
        and (following[0].where.which is Which.RING or standing.kind == "none")
    ):
        close = items.index(following[0])
        if following[0].where.which is Which.RING or item.count < 10:
            return ring(), [*items[:k], *items[close + 1 :]]
        return replace(chain_of(item.count), kind="round"), [*items[:k], *items[close + 1 :]]
    first = following[0] if following else None
    hook = _from_hook(first)
    if hook is not None and (
        standing.kind == "none"
        or first_of_part
        and standing.kind in ("none", "chain")
        or standing.kind == "none"
    ):
        if hook <= item.count:
            return chain_of(item.count), [*items[:k], *items[k + 1 :]]
    if (
        hook is not None
        and first_of_part
        and item.count > hook + 1
        and standing.kind in ("row", "round")
        and not standing.left
    ):
        return chain_of(item.count), [*items[:k], *items[k + 1 :]]
    if (
        standing.kind == "none"
        and first is not None
        and hook is None
        and item.count >= 1
        and _uses_ring(first)
    ):
        return ring(), items
    return standing, items


def _skipped_start(items: list[Item], standing: Standing) -> list[Item]:
    """ "Sk first 3 ch, dc in next ch" on a foundation is "dc in 4th ch from hook"; so is "starting in 2nd ch"."""
    if standing.kind != "chain":
        return items
    for k, item in enumerate(items):
        if isinstance(item, (Say, Mark, Turn, Turning)):
            continue
        if (
            isinstance(item, Skip)
            and k + 1 < len(items)
            and item.where.which in (Which.NEXT, Which.FIRST)
            and (not item.where.kinds or item.where.kinds[0].name == CH)
        ):
            after = items[k + 1]
            if (
                isinstance(after, (Work, Group))
                and after.where.which in (Which.NEXT, Which.FIRST)
                and after.where.many == 1
            ):
                moved = replace(
                    after, where=replace(after.where, which=Which.FROM_HOOK, nth=item.where.many + 1)
                )
                return [*items[:k], moved, *items[k + 2 :]]
        return items
    return items


def _from_hook(item: Item | None) -> int | None:
    if isinstance(item, (Work, Group, Skip)) and item.where.which is Which.FROM_HOOK:
        return item.where.nth
    if isinstance(item, Repeat) and item.items:
        return _from_hook(item.items[0])
    if isinstance(item, Skip) and item.where.kinds and item.where.kinds[0].name == CH:
        return item.where.many + 1
    return None


def _uses_ring(item: Item) -> bool:
    if isinstance(item, (Work, Group)):
        return item.where.which is Which.RING
    if isinstance(item, Repeat):
        return any(_uses_ring(inside) for inside in item.items)
    return False


def _starts_from_ring(items: Sequence[Item]) -> bool:
    def ringed(item: Item) -> bool:
        if isinstance(item, (Work, Group)):
            return item.where.which is Which.RING or isinstance(item, Group) and any(map(ringed, item.items))
        if isinstance(item, Repeat):
            return any(map(ringed, item.items))
        return False

    return any(ringed(item) for item in items)


def _lead_turn(row: Row, standing: Standing, items: list[Item]) -> tuple[bool, list[Item]]:
    """Whether the work is turned before the row, and the items without the words that say so."""
    for k, item in enumerate(items):
        if isinstance(item, Turn):
            return item.turned, [*items[:k], *items[k + 1 :]]
        if not isinstance(item, (Say, Mark, Turning, Chain)):
            break
    if standing.turned is not None:
        return standing.turned, items
    if standing.kind == "row" and row.kind == "row":
        return True, items
    return False, items


def _closing_joins(row: Row, items: list[Item]) -> list[Item]:
    """A slip stitch that closes a round is a join, however it is worded."""
    if row.kind != "round":
        return items
    k = len(items)
    while k and isinstance(items[k - 1], (Say, Mark, Turning, Turn)):
        k -= 1
    if not k:
        return items
    item = items[k - 1]
    if isinstance(item, Work) and item.stitch == "slst" and item.count == 1 and item.where.many == 1:
        which = item.where.which
        if which in (Which.FIRST, Which.TOP, Which.NTH, Which.SAME) or (
            which in (Which.NEXT, Which.STRAIGHT) and k > 1
        ):
            return [*items[: k - 1], Join(item.where, item.span), *items[k:]]
    return items


def _lead(
    row: Row,
    worker: Worker,
    items: list[Item],
    standing: Standing,
    habits: Habit,
    choices: dict[object, Choice],
) -> list[Item]:
    """Works what leads into the row; gives the items that are left."""
    below = worker.below
    k = 0
    travelled = False
    while k < len(items):
        item = items[k]
        if isinstance(item, (Say, Mark, Turn, Turning, Edge)):
            worker.run([item])
            k += 1
            continue
        if (
            isinstance(item, Join)
            and item.where is not None
            and item.stitch == "slst"
            and item.where.which is not Which.RING
            and not worker.made
        ):
            item = Travel((item.where,), item.span, fresh=True)
        if (
            isinstance(item, Skip)
            and k + 1 < len(items)
            and any(isinstance(i, Travel) for i in items[k + 1 : k + 3])
        ):
            worker.run([item])
            k += 1
            continue
        if (
            isinstance(item, Join)
            and item.where is not None
            and item.stitch == "slst"
            and item.where.which is not Which.RING
            and not worker.made
        ):
            item = Travel((item.where,), item.span, fresh=True)
        if (
            isinstance(item, Skip)
            and k + 1 < len(items)
            and any(isinstance(i, Travel) for i in items[k + 1 : k + 3])
        ):
            worker.run([item])
            k += 1
            continue
        if isinstance(item, Travel):
            if item.fresh and standing.left and row.kind == "row":
                worker.ground.left = ()
                below.elements, below.n = standing.left, len(standing.left)
            worker.run([item])
            travelled = bool(item.where)
            k += 1
            continue
        if isinstance(item, (Work, Group)) and item.where.nth == -2 and below.n and not below.ring:
            # "standing dc in any ch-1 sp": the round begins there
            worker.run([Travel((replace(item.where, nth=0),), item.span, fresh=True)])
            return [replace(item, where=replace(item.where, which=Which.SAME, nth=0)), *items[k + 1 :]]
        if isinstance(item, Work) and item.stitch == "slst":
            last = k
            while last < len(items) and (
                isinstance(items[last], Work)
                and items[last].stitch == "slst"
                or isinstance(items[last], (Say, Mark))
            ):  # type: ignore[union-attr]
                last += 1
            follows = items[last] if last < len(items) else None
            if (
                isinstance(follows, Chain)
                or (isinstance(follows, (Group, Work, Repeat)) and _placed_here(follows))
                or (isinstance(follows, Work) and follows.stitch.startswith("beg"))
            ):
                wheres = tuple(i.where for i in items[k:last] if isinstance(i, Work))
                if (
                    below.closed
                    and below.n
                    and below.elements[0].kind != SP
                    and any(w.which is not Which.FIRST for w in wheres[:1])
                ):
                    below.at = 1
                worker.run([Travel(wheres, item.span)])
                travelled = True
                k = last
                continue
        break
    item = items[k] if k < len(items) else None
    if (
        isinstance(item, Chain)
        and not worker.made
        and any(isinstance(i, (Work, Group, Repeat, Skip)) for i in items[k + 1 :])
    ):
        says = None
        rest = items[k + 1 :]
        for j, after in enumerate(rest):
            if isinstance(after, Turning):
                says = after
                rest = [*rest[:j], *rest[j + 1 :]]
                break
            if not isinstance(after, (Say, Mark, Turn)):
                break
        _turning_chain(row, worker, item, says or item.says, rest, habits, travelled)
        worker.steps.append(Step(item, 0, len(worker.made), 0, below.at, ()))
        return rest
    return items[k:]


def _placed_here(item: Item) -> bool:
    if isinstance(item, (Work, Group)):
        return item.where.which is Which.SAME
    return isinstance(item, Repeat) and bool(item.items) and _placed_here(item.items[0])


def _turning_chain(
    row: Row,
    worker: Worker,
    item: Chain,
    says: Turning | None,
    rest: Sequence[Item],
    habits: Habit,
    travelled: bool,
) -> None:
    """Decides what a turning chain stands for, and stands it there."""
    below = worker.below
    index: int | None = None
    if below.n and not below.ring:
        if travelled and below.here is not None:
            index = below.here
        else:
            index = next((i for i, e in enumerate(below.elements) if e.kind != HIDDEN), 0)
    first = first_stitch(rest, worker.ground.specials) or "sc"
    height = height_of(first)
    choice: Choice
    if says is not None:
        if not says.counts:
            choice = ("none",)
        else:
            name = says.as_stitch or _named_by(item.count - says.space, first, height)
            choice = ("st", name, says.space)
    else:
        options = turning_options(item.count, first, height)
        known = habits.get(("chain", item.count), habits.get(("chain", "")))
        if isinstance(known, tuple):
            if known[0] == "none":
                options = (("none",), *(o for o in options if o != ("none",)))
                if item.count == height or item.count <= 2:
                    options = (
                        (("none",),)
                        if habits.get(("chain stated", item.count)) or habits.get(("chain stated", ""))
                        else options
                    )
            else:
                stated = known
                if len(known) > 1 and not known[1]:
                    stated = ("st", _named_by(item.count, first, height), 0)
                if item.count == 1 and not habits.get(("chain", 1)):
                    stated = ("none",)
                options = (stated, *(o for o in options if o != stated))
        elif known is None and habits.get(("chain stated", "")) and item.count >= 2:
            pass
        if item.count == 1 and not _skips_first(rest):
            options = options[:1]
        choice = worker.ask(("turn", item.count, first), options) if len(options) > 1 else options[0]
    assert isinstance(choice, tuple)
    into = (index,) if index is not None else ()
    if choice[0] == "none":
        worker.make(HIDDEN, (), item.count)
        if index is not None and not travelled:
            below.here = None
            below.at = index
        return
    if choice[0] == "space":
        worker.make(SP, (), item.count, True)
        return
    space = choice[2]
    assert isinstance(space, int)
    if index is not None:
        below.at = max(below.at, index + 1)
        below.here = index
    worker.made.append(Element(str(choice[1]), max(1, item.count - space), True, 0, "", False, False, into))
    if space:
        worker.make(SP, (), space, True)


def _named_by(chains: int, first: str, height: int) -> str:
    if chains == height and height >= 2:
        return first
    return by_chains(chains, first)


def _skips_first(rest: Sequence[Item]) -> bool:
    """True when the row goes on by skipping its first stitch, as it would beside a chain that counts."""
    for item in rest:
        if isinstance(item, (Say, Mark, Turn)):
            continue
        return isinstance(item, Skip) and item.where.which is Which.FIRST
    return False


def _leftovers(row: Row, worker: Worker, standing: Standing) -> None:
    """What the row leaves of the row below, and whether the words account for it."""
    below = worker.below
    if worker.left_said or worker.edge_used or below.ring or standing.kind in ("none",):
        return
    if any(s.base == "tile" for s in worker.ground.specials.values()):
        return
    if row.kind == "row" and standing.kind == "round":
        # a flap worked back and forth on part of a round: what it leaves is taken up later
        return
    left = below.unsaid(below.at, below.n)
    spaces = [e for e in below.elements[below.at :] if e.kind == SP and not e.slipped]
    if not left and not spaces:
        return
    if worker.spaces_worked:
        missed = [e for e in spaces if None in worker.spaces_worked or e.chains in worker.spaces_worked]
        if not missed and left <= max(worker.silent, 0):
            return
        if missed and worker.across is None or missed:
            left = max(left, len(missed))
    elif not left:
        return
    if left == 0 or (worker.other_side and left <= 1):
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
        worker.fault(
            "C207",
            span,
            f"leaves {many} of the foundation unworked",
            "the row ends here",
            "Check the number of foundation chains, and how often the repeat is worked.",
        )
    elif worker.across is not None:
        told = worker.across.told_at or worker.across.span
        worker.fault(
            "C204",
            told,
            f"has a repeat that does not come out even: {many} left over",
            "does not come out even",
            "Check the count of the row below, and what stands before and after the repeat.",
        )
    else:
        worker.fault(
            "C202",
            span,
            f"leaves {many} of the row below unworked",
            "the row ends here",
            "If that is meant, say “leave remaining sts unworked”.",
            weight=4,
        )


def _after(
    row: Row,
    items: Sequence[Item],
    worker: Worker,
    standing: Standing,
    made: tuple[Element, ...],
    turned: bool,
) -> Standing:
    """What stands after the row."""
    said_turn: bool | None = None
    for item in reversed(items):
        if isinstance(item, Turn):
            said_turn = item.turned
            break
        if not isinstance(item, (Say, Mark, Turning, Join, Leave)):
            break
    below = worker.below
    base = standing.base
    if standing.kind == "chain" and made:
        used = [i for e in made for i in e.into]
        start = min(used) if used else 0
        extra = sum(1 + 0 for e in made if e.turning and e.kind != SP) + sum(
            e.chains for e in made if e.turning and e.kind == SP
        )
        base = (Element(CH, 1),) * max(0, len(standing.elements) - start + (extra if used else 0))
    if standing.kind == "chain" and worker.other_side:
        base = ()
    kind = "round" if row.kind == "round" else "row"
    left: tuple[Element, ...] = worker.ground.left
    if worker.left_said or (row.kind == "row" and below.at < below.n and standing.kind in ("row", "round")):
        rest = tuple(e for e in below.elements[below.at :] if e.kind != HIDDEN)
        if sum(1 for e in rest if e.is_stitch):
            left = (*rest, *left) if left is not rest else rest
    rows = standing.rows + (1 if kind == "row" else 0)
    if worker.ends_in_space and made:
        # the next round begins in the middle of the space that the closing stitch completes
        made = (made[-1], *made[:-1])
    rs = (
        row.side == "RS"
        if row.side
        else (None if standing.rs is None else (not standing.rs if turned else standing.rs))
    )
    return Standing(made, kind, base, rows, said_turn, left, rs)


def landing_of(worked_below: tuple[Element, ...], steps: Sequence[Step], elements: Sequence[Element]) -> str:
    """Where the row's last stitch goes when that is a chain, in words; "" when it is a stitch like others."""
    last = next((e for e in reversed(elements) if e.into), None)
    if last is None or not last.into:
        return ""
    at = last.into[-1]
    if at >= len(worked_below):
        return ""
    target = worked_below[at]
    if not target.turning and target.kind != HIDDEN:
        return ""
    beside = next(
        (
            worked_below[j]
            for j in (at - 1, at + 1)
            if 0 <= j < len(worked_below) and worked_below[j].turning and worked_below[j].kind == SP
        ),
        None,
    )
    if beside is not None:
        return f"{target.chains}/{target.chains + beside.chains}"
    return f"top/{target.chains}"


__all__ = ["ANY", "Kind", "Outcome", "Prose", "Where", "landing_of", "parts_of", "said", "work_row"]
