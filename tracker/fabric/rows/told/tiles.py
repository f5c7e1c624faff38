"""Rows told in squares: tiles of corner-to-corner pieces, windows and blocks of filet.

"Ch 6, dc in 4th ch from hook and in each of next 2 ch" is a tile that begins a row; "ch 3, 3 dc in same sp" is
one worked where the slip stitches led, "(sl st, ch 3, 3 dc) in next ch-3 sp" one that leads there itself. Anything
else stays as it is.
"""

from collections.abc import Mapping, Sequence

from tracker.fabric.model import SP
from tracker.fabric.standing import Standing
from tracker.notation.pattern import Special
from tracker.notation.tree import (
    ANY,
    Chain,
    Group,
    Item,
    Kind,
    Mark,
    Repeat,
    Say,
    Stop,
    Turn,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.problems import Span
from tracker.records import replace


def as_tiles(items: Sequence[Item], name: str) -> list[Item]:
    """The items with tiles in place of the stitches that make them; slip stitches that anchor tiles left out."""
    out: list[Item] = []
    led: Span | None = (
        None  # slip stitches that lead to where the next tile begins: its words are theirs, too
    )
    k = 0

    def made(which: Which, first: Item, last: Item) -> None:
        nonlocal led
        span = Span(led.start if led is not None else first.span.start, last.span.end)
        led = None
        out.append(Work(name, 1, Where(which, span), span))

    def left() -> None:
        """Slip stitches that no tile follows are told by themselves."""
        nonlocal led
        if led is not None:
            out.append(Say("remark", "", led))
        led = None

    while k < len(items):
        item = items[k]
        if isinstance(item, Work) and item.stitch == "slst":
            led = Span(led.start if led is not None else item.span.start, item.span.end)
            k += 1
            continue
        if isinstance(item, Chain) and item.count >= 2:
            last = k + 1
            while last < len(items) and isinstance(items[last], (Say, Turn)):
                last += 1
            ahead = items[last] if last < len(items) else None
            between = list(items[k + 1 : last])
            if isinstance(ahead, Work) and ahead.where.which is Which.FROM_HOOK:
                last += 1
                while (
                    last < len(items)
                    and isinstance(following := items[last], Work)
                    and following.where.kinds
                    and following.where.kinds[0].name == "ch"
                ):
                    last += 1
                out.extend(between)
                made(Which.MADE, item, items[last - 1])
                k = last
                continue
            if (
                led is not None
                and isinstance(ahead, Work)
                and ahead.where.which is Which.EACH
                and [kind.name for kind in ahead.where.kinds[:1]] == [SP]
                and ahead.count - item.count in (0, 1)
            ):
                # "sl st, ch 3 and 3 dc in ch-3 sp of every tile across"
                out.extend(between)
                made(Which.NEXT, item, ahead)
                out[-1] = _in_each(name, ahead.where, ahead.span)
                k = last + 1
                continue
            if isinstance(ahead, Work) and ahead.where.which is Which.SAME:
                out.extend(between)
                made(Which.NEXT, item, ahead)
                k = last + 1
                continue
        if isinstance(item, Group) and _is_a_tile(item):
            made(Which.LAST if item.where.which is Which.LAST else Which.NEXT, item, item)
            if item.where.which is Which.EACH:
                # "(sl st, ch 3, 3 dc) in ch-3 sp of each tile across", "… to last tile"
                out[-1] = _in_each(name, item.where, item.span)
            elif item.where.many > 1:
                out[-1] = Work(name, 1, item.where, item.span)
            k += 1
            continue
        if isinstance(item, Repeat) and led is not None and _in_every_space(item):
            # "sl st, ch 3 and 3 dc in each ch-3 sp"
            made(Which.NEXT, item, item)
            out[-1] = replace(item, items=(out[-1],))
            k += 1
            continue
        if isinstance(item, Repeat):
            item = _short_of_the_last(replace(item, items=tuple(as_tiles(item.items, name))), item.items)
            if item.stop is not None and any(kind.name == SP for kind in item.stop.kinds):
                # "rep from * to last ch-3 sp": each tile has one
                item = replace(item, stop=replace(item.stop, kinds=()))
        left()
        out.append(item)
        k += 1
    left()
    return out


def _in_each(name: str, where: Where, span: Span) -> Work:
    """A tile in each of those below."""
    return Work(name, 1, Where(Which.EACH, span, 0, (Kind(ANY),), stop=where.stop or Stop()), span)


def _short_of_the_last(tiled: Repeat, told: Sequence[Item]) -> Repeat:
    """ "*ch 3, 3 dc in same sp, sl st in sp of next tile; rep from * across": the last slip stitch ends the row."""
    worked = [item for item in told if not isinstance(item, (Say, Turn))]
    last = worked[-1] if worked else None
    if (
        isinstance(worked[0] if worked else None, Chain)
        and isinstance(last, Work)
        and last.stitch == "slst"
        and tiled.times is None
        and tiled.stop in (None, Stop())
    ):
        return replace(tiled, stop=Stop(left=1))
    return tiled


def _is_a_tile(group: Group) -> bool:
    """True for a chain and stitches beside it, all in one place, with or without the slip stitch that leads there."""
    slipped = group.items[0] if group.items else None
    led = isinstance(slipped, Work) and slipped.stitch == "slst" and slipped.count == 1
    told = group.items[1:] if led else group.items
    if len(told) != 2 or group.where.which not in (Which.NEXT, Which.LAST, Which.EACH, Which.SAME):
        return False
    chain, beside = told
    return (
        isinstance(chain, Chain)
        and chain.count >= 2
        and isinstance(beside, Work)
        and beside.count - chain.count in (0, 1)
        and beside.where.which is Which.STRAIGHT
    )


def _in_every_space(repeat: Repeat) -> bool:
    """True for a chain and the stitches beside it, over and over in the next space."""
    if len(repeat.items) != 2:
        return False
    chain, beside = repeat.items
    return (
        isinstance(chain, Chain)
        and chain.count >= 2
        and isinstance(beside, Work)
        and beside.count - chain.count in (0, 1)
        and beside.where.which is Which.NEXT
        and beside.where.many == 1
        and [kind.name for kind in beside.where.kinds] == [SP]
    )


def widened(items: Sequence[Item], name: str, standing: Standing) -> list[Item]:
    """A row told in tiles alone ("2 A, 1 B"): where it is as wide as the one below or wider, it begins in nothing."""
    works = [k for k, item in enumerate(items) if not isinstance(item, (Say, Turn, Turning, Mark))]
    out = list(items)
    if not works or not all(_told_as_tiles(items[k], name) for k in works):
        return out
    below = sum(1 for e in standing.elements if e.is_stitch)
    told = sum(each.count for each in items if isinstance(each, Work))
    begun = 1 if told == below else max(0, told - below)
    for k in works:
        item = items[k]
        if isinstance(item, Work) and begun:
            fresh = min(begun, item.count)
            begun -= fresh
            made = replace(item, count=fresh, where=replace(item.where, which=Which.MADE, many=fresh))
            more = [replace(item, count=item.count - fresh)] if item.count > fresh else []
            at = next(n for n, each in enumerate(out) if each is item)
            out[at : at + 1] = [made, *more]
    return out


def _told_as_tiles(item: Item, name: str) -> bool:
    """True for so many tiles, with no word of where they go."""
    return isinstance(item, Work) and item.stitch == name and item.where.which is Which.STRAIGHT


def as_squares(items: Sequence[Item], standing: Standing, specials: Mapping[str, Special]) -> list[Item]:
    """A row of windows and blocks alone ("3 om, 2 bl, 3 om") begins with a stitch that goes without saying.

    Where the chain is told, "ch 5, turn, 3 om, 2 bl, 3 om", it begins the first window where there are as many squares
    as below, and is a window of its own where there is one less.
    """
    works = [item for item in items if not isinstance(item, (Say, Turn, Turning, Mark))]
    told = works[0] if works and isinstance(works[0], Chain) else None
    works = works[1:] if told is not None else works
    if standing.kind != "row" or not works:
        return list(items)
    for item in works:
        special = specials.get(item.stitch) if isinstance(item, Work) else None
        if special is None or special.base not in ("window", "block"):
            return list(items)
    first = works[0]
    assert isinstance(first, Work)
    special = specials[first.stitch]
    fill = special.closes
    at = next(k for k, item in enumerate(items) if item is first)
    if told is not None:
        left = _squares_below(standing, fill) - sum(item.count for item in works if isinstance(item, Work))
        if told.count != 3 + fill or left not in (0, 1) or special.base == "block" and not left:
            return list(items)
        before = [item for item in items[:at] if item is not told]
        if left:
            window = next((name for name, one in specials.items() if one.base == "window"), "")
            if not window:
                return list(items)
            where = Where(Which.MADE, told.span)
            return [*before, _rise(told.span, fill), Work(window, 1, where, told.span), *items[at:]]
        return [*before, *_begun_by_chain(first, fill), *items[at + 1 :]]
    if special.base == "block":
        return [Chain(3, first.span, Turning(True, "dc", 0, False, first.span)), *items]
    # a window: its chain is made with the turning chain (ch 5 in a mesh of ch 2), and closed by a stitch
    return [*items[:at], *_begun_by_chain(first, fill), *items[at + 1 :]]


def _rise(span: Span, fill: int) -> Chain:
    """The chain that stands for a stitch and the chains of a window."""
    return Chain(3 + fill, span, Turning(True, "dc", fill, False, span))


def _begun_by_chain(first: Work, fill: int) -> list[Item]:
    """Windows of which the turning chain begins the first."""
    closed = replace(first, count=1, where=replace(first.where, which=Which.MADE))
    more = [replace(first, count=first.count - 1)] if first.count > 1 else []
    return [_rise(first.span, fill), closed, *more]


def _squares_below(standing: Standing, fill: int) -> int:
    """How many squares the row below is wide; 0 where it is no whole number of them."""
    wide = sum(e.chains if e.kind == SP else 1 for e in standing.elements if e.is_stitch or e.kind == SP)
    squares, over = divmod(wide - 1, fill + 1)
    return 0 if over else squares
