"""How a row closes: the join of a round, and what stands when it is done."""

from collections.abc import Sequence

from tracker.fabric.model import CH, HIDDEN, SP, Element
from tracker.fabric.standing import Standing
from tracker.fabric.stated import uses_ends
from tracker.fabric.working.hook import MAX_ELEMENTS, Hook
from tracker.notation.pattern import Row
from tracker.notation.tree import (
    Chain,
    Edge,
    Group,
    Item,
    Join,
    Leave,
    Mark,
    Repeat,
    Say,
    Skip,
    Stop,
    Turn,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.records import replace

TYPE_CHECKING = False  # the name is enough for type checkers, and typing is slow to import
if TYPE_CHECKING:
    from typing import TypeGuard


def closing_joins(row: Row, items: list[Item]) -> list[Item]:
    """A slip stitch that closes a round is a join, however it is worded."""
    k = len(items)
    while k and isinstance(items[k - 1], (Say, Mark, Turning, Turn)):
        k -= 1
    if not k:
        return items
    item = items[k - 1]
    if row.kind != "round":
        around = row.kind == "edging" or any(isinstance(i, Edge) and i.name == "base" for i in items)
        strands = items[0].items if isinstance(items[0], Repeat) else ()
        # "(ch 10, sl st in 2nd ch from hook and in next 8 ch) 3 times, sl st in first ch"
        around = around or bool(strands) and isinstance(strands[0], Chain)
        return (
            [*items[: k - 1], Join(item.where, item.span), *items[k:]] if _joins(item) and around else items
        )
    if _in_own_chain(item, items):
        # "ch 3, sl st to 3rd ch": of the chains the round rose on, and no picot
        top = Where(Which.TOP, item.where.span, nth=item.where.nth)
        return [*items[: k - 1], Join(top, item.span), *items[k:]]
    if isinstance(item, Chain) and item.count == 1 and k > 1 and to_the_end(items[k - 2]):
        # "sl st in every st, then ch 1": what the next round rises on
        return [*items[: k - 1], Say("remark", "", item.span), *items[k:]]
    if isinstance(item, Work) and item.stitch == "slst" and item.count == 1 and item.where.many == 1:
        which = item.where.which
        if which is Which.RING and k > 2 and isinstance(lifts := items[k - 2], Chain) and lifts.count == 1:
            # "5 sc in ring, ch 1, sl st in ring": the chain only lifts the hook
            return [*items[: k - 2], Say("remark", "", lifts.span), Join(None, item.span), *items[k:]]
        if which in (Which.FIRST, Which.TOP, Which.NTH, Which.SAME) or (
            which in (Which.NEXT, Which.STRAIGHT) and k > 1
        ):
            return [*items[: k - 1], Join(item.where, item.span), *items[k:]]
    if _slipped_on(items, k - 1):
        return [*items[: k - 1], Join(None, item.span), *items[k:]]
    if isinstance(item, Repeat) and item.ending is not None and item.ending.items:
        # "ending with ch 2, dc in first sc to form last loop", "ending with sl st in first sc"
        joined = closing_joins(row, list(item.ending.items))
        told = len(joined) > 1 or item.ending.how == "ending"
        if told and any(isinstance(inside, Join) for inside in joined):
            ending = replace(item.ending, items=tuple(joined))
            return [*items[: k - 1], replace(item, ending=ending), *items[k:]]
        return items
    if (
        isinstance(item, Work)
        and item.stitch in ("sc", "hdc", "dc", "tr")
        and item.count == item.where.many == 1
        and item.where.which in (Which.TOP, Which.FIRST)
        and (
            isinstance(
                before := next((i for i in reversed(items[: k - 1]) if not isinstance(i, Skip)), None), Chain
            )
            or isinstance(before, Repeat)
            and before.ending is not None
            and before.ending.how == "omit"
            and all(isinstance(i, Chain) for i in before.ending.items)
            or any(isinstance(i, Turning) and i.space for i in items[k : k + 1])
        )
    ):
        # "ch 1, hdc in top of ch-3": the stitch is the other half of the last space
        return [*items[: k - 1], Join(item.where, item.span, item.stitch), *items[k:]]
    return items


def _joins(item: Item) -> "TypeGuard[Work]":
    """True for "sl st to first sc", as behind a leaf that goes round its chain."""
    return (
        isinstance(item, Work)
        and item.stitch == "slst"
        and item.count == item.where.many == 1
        and item.where.which in (Which.FIRST, Which.TOP)
    )


def _in_own_chain(item: Item, items: Sequence[Item]) -> "TypeGuard[Work]":
    """True for a slip stitch in the nth chain, the round's last deed, where it begins with as many."""
    rose = next((i for i in items if not isinstance(i, (Say, Mark))), None)
    return (
        isinstance(item, (Work, Join))
        and item.stitch == "slst"
        and item.where is not None
        and item.where.which is Which.NTH
        and [kind.name for kind in item.where.kinds] == [CH]
        and isinstance(rose, Chain)
        and rose.count >= item.where.nth
    )


def to_the_end(item: Item) -> bool:
    """True for stitches worked one in each to the end of the row."""
    where = item.where if isinstance(item, Work) else None
    return (
        where is not None
        and where.which is Which.EACH
        and where.stop in (None, Stop())
        and not any(kind.name == SP for kind in where.kinds)
    )


_LEG = 4
"""Stitches of the least round that a second leg or a thumb is worked upon."""


def _slipped_on(items: Sequence[Item], k: int) -> bool:
    """True for "sc in each st around, sl st in next 2 sts": the slip stitches lie on the first ones of the round."""
    last = items[k]
    before = next((item for item in reversed(items[:k]) if not isinstance(item, (Say, Mark, Turning))), None)
    stop = before.where.stop if isinstance(before, Work) and before.where.which is Which.EACH else None
    return (
        isinstance(last, Work)
        and last.stitch == "slst"
        and last.where.which is Which.NEXT
        and last.where.many < _LEG
        and stop == Stop()
    )


def with_corners(made: list[Element]) -> None:
    """Marks as corners, beside others, spaces between stitches of one place: "dc in same sp, ch 2, 2 dc in same sp"."""
    wide = {e.chains for e in made if e.kind == SP and e.corner}
    for k in range(1, len(made) - 1) if wide else ():
        before, space, after = made[k - 1 : k + 2]
        if space.chains in wide and space.kind == SP and before.into and before.into == after.into:
            made[k] = replace(space, corner=True)
    _first_corner(made)
    _last_corner(made)


def _last_corner(made: list[Element]) -> None:
    """Marks the middle of "… 2 sc in same st as first sc": a corner like the others, which the round goes on in."""
    begun = next((k for k, e in enumerate(made) if e.kind != HIDDEN), len(made))
    corner = next((e for e in made if e.corner and e.is_stitch and e.group), None)
    place = made[begun].into if begun < len(made) else ()
    if corner is None or not place or made[-1].into != place:
        return
    behind = next((k for k, e in enumerate(reversed(made)) if e.into != place or not e.is_stitch), len(made))
    ahead = next((k for k, e in enumerate(made[begun:]) if e.into != place or not e.is_stitch), 0)
    alike = sum(1 for e in made if e.group == corner.group)
    own = [*range(len(made) - behind, len(made)), *range(begun, begun + ahead)]
    if len(own) == alike and alike % 2 and alike >= 3 and not any(made[k].corner for k in own):
        made[own[alike // 2]] = replace(made[own[alike // 2]], corner=True)


def _first_corner(made: list[Element]) -> None:
    """Marks the middle of "ch 3, 2 dc in same st", where as many stitches in one place are corners further on."""
    first = made[0] if made else None
    if (
        first is None
        or not (first.turning and first.is_stitch and first.into)
        or not any(e.corner and e.is_stitch for e in made)
    ):
        return
    many = next((k for k, e in enumerate(made) if e.into != first.into), len(made))
    corner = next(e for e in made if e.corner and e.is_stitch)
    alike = sum(1 for e in made if e.group == corner.group)
    if many == alike and many % 2 and many >= 3 and not any(e.corner for e in made[:many]):
        made[many // 2] = replace(made[many // 2], corner=True)


def standing_after(
    row: Row,
    items: Sequence[Item],
    hook: Hook,
    standing: Standing,
    turned: bool,
) -> Standing:
    """What stands after the row."""
    made = tuple(hook.made)
    said_turn: bool | None = None
    for item in reversed(items):
        if isinstance(item, Turn):
            said_turn = item.turned
            break
        if not isinstance(item, (Say, Mark, Turning, Join, Leave)):
            break
    below = hook.below
    base = standing.base
    if standing.kind == "chain" and made:
        used = [i for e in made for i in e.into]
        start = min(used) if used else 0
        extra = min(sum(e.chains if e.kind == SP else 1 for e in made if e.turning), MAX_ELEMENTS)
        base = (Element(CH, 1),) * max(0, len(standing.elements) - start + (extra if used else 0))
    if standing.kind == "chain" and hook.other_side:
        base = ()
    if standing.kind == "round" and made and all(e.kind == CH for e in standing.elements):
        # a chain closed into a ring has another edge as long as itself
        base = standing.elements
    kind = "round" if row.kind == "round" else "row"
    if kind == "round":
        made = _in_petals(row, made)
    if kind == "round" and standing.kind == "chain" and len({e.into for e in made if not e.turning}) == 1:
        # "11 dc in 4th ch from hook": a ring in one chain, and no group
        made = tuple(replace(e, group=0, into=(), corner=False) for e in made)
    left: tuple[Element, ...] = hook.ground.left
    left_by = standing.left_by if left else ()
    along = standing.along or uses_ends(row.items)
    # what a cuff left lies at no end of a sleeve that is worked along its side
    ahead = bool(left) and turned and not standing.left_ahead and not along
    if hook.left_said or (row.kind == "row" and below.at < below.n and standing.kind in ("row", "round")):
        rest = tuple(e for e in below.elements[below.at :] if e.kind != HIDDEN)
        if any(e.is_stitch for e in rest):
            left = (*rest, *left)
            left_by, ahead = (len(rest), *left_by), False
    elif passed := _passed_last(items, hook):
        left, left_by, ahead = (*passed, *left), (len(passed), *left_by), False
    rows = standing.rows + (1 if kind == "row" and not along else 0)
    if hook.ends_in_space and made:
        # the next round begins in the middle of the space that the closing stitch completes
        last = made[-1]
        corner = any(e.corner and e.kind == SP and e.chains == last.chains for e in made)
        made = (replace(last, corner=True) if corner else last, *made[:-1])
    rs = (
        row.side == "RS"
        if row.side
        else (None if standing.rs is None else (not standing.rs if turned else standing.rs))
    )
    marks = tuple(sorted(mark for mark in set(hook.marks) if mark <= 2 * len(made)))
    if not marks and below is hook.top_edge and len(made) == below.n:
        marks = below.marks
    return Standing(made, kind, base, rows, said_turn, left, left_by, ahead, marks, rs, along)


_PETALS = frozenset("petal petals scallop scallops leaf leaves group groups".split())


def _in_petals(row: Row, made: tuple[Element, ...]) -> tuple[Element, ...]:
    """What "*sc, 3 dc, sc in ring; rep from * 4 times (5 petals)" made, each petal a group: nothing else ties it."""
    many = next(
        (n for told in row.stated for name, n in told.counts if name.removeprefix("?") in _PETALS and n > 2),
        0,
    )
    shown = [k for k, element in enumerate(made) if element.kind != HIDDEN]
    names = [made[k].name for k in shown]
    many = many or _petals_seen(made, names)
    length = len(shown) // many if many else 0
    if length < 2 or names != names[:length] * many or any(element.special for element in made):
        return made
    groups = [made[k].group for k in shown]
    if all(groups) and len(set(groups)) == many:
        return made
    told = [made[k].group for k in shown if made[k].is_stitch and not made[k].turning]
    if all(told) and len(set(told)) == many:
        # "ch 3, 2 dc in same sp, ch 1, *3 dc in next sp, ch 1; …": the spaces between them are of none
        return made
    last = max(groups)
    out = list(made)
    for n, k in enumerate(shown):
        out[k] = replace(out[k], group=last + 1 + n // length)
    return tuple(out)


def _petals_seen(made: Sequence[Element], names: Sequence[str]) -> int:
    """How many petals a round in a ring shows, each low at both its ends; 0 for none."""
    if any(element.into for element in made) or len(names) < 9:
        return 0
    length = next((p for p in range(3, len(names) // 3 + 1) if names[p:] == names[:-p]), 0)
    if not length or len(names) % length:
        return 0
    first, *middle, last = names[:length]
    low = first == last == "sc" or last == "slst" and first.startswith("ch-")
    return len(names) // length if low and not {"sc", "slst"} & set(middle) else 0


def _passed_last(items: Sequence[Item], hook: Hook) -> tuple[Element, ...]:
    """What "15 sc, skip the remaining 15 sts" at the end of a round passes over: as good as left for a second leg."""
    told = [item for item in items if isinstance(item, (Work, Chain, Group, Repeat, Skip))]
    if (
        len(told) < 2
        or not (hook.below.closed and isinstance(last := told[-1], Skip))
        or last.where.many < _LEG
        or isinstance(told[-2], Chain)
    ):
        return ()
    start = max((i for e in hook.made for i in e.into), default=-1) + 1
    return tuple(e for e in hook.below.elements[start : hook.below.n] if e.kind != HIDDEN)


def landing_of(worked_below: tuple[Element, ...], elements: Sequence[Element]) -> str:
    """Where the row's last stitch goes when that is a chain, in words; "" when it is a stitch like others."""
    last = next((e for e in reversed(elements) if e.into or e.is_stitch), None)
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
