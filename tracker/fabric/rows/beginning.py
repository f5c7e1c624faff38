"""What a row begins with: its own chain or ring, chains skipped, a turn. Items come in and go out."""

from collections.abc import Sequence

from tracker.fabric.model import CH, SP
from tracker.fabric.standing import Standing, chain_of, ring
from tracker.notation.tree import (
    ANY,
    Chain,
    Group,
    Item,
    Join,
    Kind,
    Mark,
    Repeat,
    Row,
    Say,
    Skip,
    Travel,
    Turn,
    Turning,
    Which,
    Work,
)
from tracker.records import replace

TYPE_CHECKING = False  # as type checkers have it; typing itself is slow to load
if TYPE_CHECKING:
    from typing import TypeGuard

LONGEST_TURN = 9
"""Chains that still stand for a stitch, and the space after it, at the start of a round."""


def own_foundation(items: list[Item], standing: Standing, first_of_part: bool) -> tuple[Standing, list[Item]]:
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
    into_ring = following[0] if following else None
    if (
        isinstance(into_ring, Work)
        and into_ring.stitch == "slst"
        and into_ring.where.which is Which.RING
        and item.count < 10
        and len(following) > 1
    ):
        # "5 ch, ss to ring; 4 ch, …"
        close = items.index(into_ring)
        return ring(), [*items[:k], *items[close + 1 :]]
    if (
        following
        and item.count < 10
        and closes_ring(following[0])
        and any(uses_ring(i) for i in following[1:])
    ):
        # "ch 4, sl st to first ch to form a ring, ch 3, 2 dc into ring", all in the first round
        close = items.index(following[0])
        return ring(), [*items[:k], *items[close + 1 :]]
    if (
        following
        and isinstance(following[0], Join)
        and following[0].where is None
        and item.count < 10
        and any(uses_ring(i) for i in following[1:])
    ):
        # "ch 4, join; ch 3, 2 dc in ring": what is joined so early is the ring
        close = items.index(following[0])
        return ring(), [*items[:k], *items[close + 1 :]]
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
    if (
        isinstance(first, (Work, Group))
        and first.where.which is Which.NTH
        and [kind.name for kind in first.where.kinds] == [CH]
        and first.where.nth in (1, item.count)
        and item.count < 10
        and _whole_ring(first, following)
    ):
        # "chain 2, 6 sc in 2nd chain", "in the 1st ch": all in one, from either end
        whole = replace(first, where=replace(first.where, which=Which.FIRST, nth=0))
        items = [whole if i is first else i for i in items]
        following = [whole, *following[1:]]
        first = whole
    if (
        isinstance(first, (Work, Group))
        and first.where.which in (Which.FIRST, Which.MADE)
        and [kind.name for kind in first.where.kinds] == [CH]
        and first.where.many == 1
        and item.count < 10
        and (
            standing.kind == "none"
            or first_of_part
            and (standing.kind == "chain" or _whole_ring(first, following))
        )
    ):
        # "4 ch, 2 dc in the first ch made": the chain farthest from the hook
        moved = replace(first, where=replace(first.where, which=Which.FROM_HOOK, nth=item.count, kinds=()))
        return chain_of(item.count), [moved if i is first else i for i in (*items[:k], *items[k + 1 :])]
    if isinstance(first, Join) and first.stitch == "slst" and item.count >= 10 and standing.kind == "none":
        # "ch 30, join, ch 1, sc in each ch"
        return replace(chain_of(item.count), kind="round"), [*items[:k], *items[items.index(first) + 1 :]]
    hook = from_hook(first)
    if (
        hook is not None
        and (hook <= item.count or hook == item.count + 1 and _all_in_one_chain(first))
        and (
            standing.kind == "none"
            or first_of_part
            and (standing.kind == "chain" or hook >= item.count and _whole_ring(first, following))
        )
    ):
        return chain_of(item.count), [*items[:k], *items[k + 1 :]]
    if (
        hook is not None
        and hook <= item.count
        and not first_of_part
        and standing.kind == "row"
        and not any(e.kind == "tile" for e in standing.elements)
    ):
        # "Ch 5, dc in 4th ch from hook" where a row begins: new chains widen the work
        return replace(standing, added=item.count), [*items[:k], *items[k + 1 :]]
    if (
        hook is not None
        and first_of_part
        and item.count > hook + 1
        and standing.kind in ("row", "round")
        and not standing.left
        and (item.count > LONGEST_TURN or not isinstance(first, Skip))
    ):
        # not "ch 4, sk next ch, dc in next ch", which stands at the start of the ring below
        return chain_of(item.count), [*items[:k], *items[k + 1 :]]
    if (
        standing.kind == "none"
        and first is not None
        and hook is None
        and item.count >= 1
        and uses_ring(first)
    ):
        return ring(), items
    return standing, items


def _all_in_one_chain(item: Item | None) -> bool:
    """True for "11 dc in 5th ch from hook": where a round begins, and not the first stitch of a row along a chain."""
    return isinstance(item, Work) and item.count > 3


def _whole_ring(first: Item | None, following: Sequence[Item]) -> bool:
    """True where a round is no more than several stitches in one chain: "ch 2, 6 sc in 2nd ch from hook"."""
    others = [i for i in following[1:] if isinstance(i, (Work, Group, Repeat, Skip, Chain))]
    slipped = all(isinstance(i, Work) and i.stitch == "slst" for i in others)
    return _all_in_one_chain(first) and slipped


def around_opening(row: Row, items: list[Item], standing: Standing) -> list[Item] | None:
    """ "Join yarn in first ch of underarm, …" where the work has no chain: a round along an opening.

    The items come out with the yarn joined nowhere in particular; None for any other row.
    """
    k = next((k for k, item in enumerate(items) if not isinstance(item, (Say, Mark))), 0)
    first = items[k] if items else None
    works = [item for item in items if isinstance(item, Work)]
    if row.kind == "round" and _joined_in_skipped(first) and not standing.left_by:
        return [*items[:k], replace(first, where=()), *items[k + 1 :]]
    if (
        row.kind == "round"
        and (isinstance(first, Travel) and first.fresh or row.numbers and row.numbers[0] == 1)
        and len(works) > 1
        and (
            works[0].where.which is Which.MADE
            or works[0].where.which is Which.SAME
            and works[1].where.which is Which.MADE
        )
        and any(kind.name in (CH, SP) for work in works[1:] for kind in work.where.kinds)
        and not any(element.kind in (CH, SP) for element in standing.elements)
    ):
        # "join yarn at thumb opening, sc in each of 4 skipped sts, sc in each of 2 ch", or "2 sc in ch-2 sp"
        return items
    if (
        row.kind != "round"
        or not isinstance(first, Travel)
        or not first.fresh
        or not first.where
        or not first.where[0].kinds
        or first.where[0].kinds[0].name != CH
        or standing.kind not in ("row", "round")
        or any(element.kind in (CH, SP) for element in standing.elements)
    ):
        return None
    return [*items[:k], replace(first, where=()), *items[k + 1 :]]


def _joined_in_skipped(item: Item | None) -> "TypeGuard[Travel]":
    """True for yarn joined anew in stitches that were skipped before."""
    return isinstance(item, Travel) and item.fresh and [w.which for w in item.where] == [Which.MADE]


def on_a_leg(row: Row, items: list[Item], standing: Standing) -> tuple[Standing, list[Item]] | None:
    """ "Join yarn in the first skipped st, …" where a round left stitches for it: they are closed into a round.

    None for any other row, and for one that goes into chains as well, as a thumb does.
    """
    k = next((k for k, item in enumerate(items) if not isinstance(item, (Say, Mark))), 0)
    first = items[k] if items else None
    if (
        row.kind != "round"
        or not standing.left_by
        or not _joined_in_skipped(first)
        or any(isinstance(i, Work) and i.where.which is Which.MADE for i in items)
    ):
        return None
    many = standing.left_by[0]
    leg = replace(
        standing,
        elements=standing.left[:many],
        kind="round",
        turned=None,
        left=standing.left[many:],
        left_by=standing.left_by[1:],
    )
    return leg, [*items[:k], *items[k + 1 :]]


def skipped_start(items: list[Item], standing: Standing) -> list[Item]:
    """ "Sk first 3 ch, dc in next ch" on a foundation is "dc in 4th ch from hook"; so is "starting in 2nd ch"."""
    if standing.kind != "chain":
        return items
    for k, item in enumerate(items):
        if isinstance(item, (Say, Mark, Turn, Turning)):
            continue
        if isinstance(item, Work) and item.where.which is Which.NTH and item.where.kinds[:1] == (Kind(CH),):
            # "1 dc in 4th ch, 1 dc in each ch to end": counted from the hook, as all do
            where = replace(item.where, which=Which.FROM_HOOK, kinds=())
            return [*items[:k], replace(item, where=where), *items[k + 1 :]]
        if (
            isinstance(item, Skip)
            and k + 1 < len(items)
            and item.where.which in (Which.NEXT, Which.FIRST)
            and (not item.where.kinds or item.where.kinds[0].name == CH)
        ):
            says = [i for i in items[k + 1 : k + 2] if isinstance(i, Turning)]
            behind = k + 1 + len(says)
            after = items[behind] if behind < len(items) else item
            inside = after.items[0] if isinstance(after, Repeat) and after.items else None
            if (
                isinstance(after, Repeat)
                and isinstance(inside, Work)
                and len(after.items) == 1
                and after.times is None
                and inside.where.which is Which.NEXT
                and inside.where.many == 1
            ):
                # "sk 3 ch, *dc in next ch; rep from * to end" begins as "dc in next ch" does
                items = [*items[:behind], inside, *items[behind:]]
                after = inside
            if (
                isinstance(after, (Work, Group))
                and after.where.which in (Which.NEXT, Which.FIRST)
                and after.where.many == 1
            ):
                moved = replace(
                    after, where=replace(after.where, which=Which.FROM_HOOK, nth=item.where.many + 1)
                )
                return [*items[:k], moved, *says, *items[behind + 1 :]]
            if not says and isinstance(after, Work) and after.where.which is Which.EACH and item.where.kinds:
                # "skip the first chain, then sc in each of the remaining chains"
                start = replace(item.where, which=Which.FROM_HOOK, nth=item.where.many + 1)
                return [*items[:k], replace(item, where=start), *items[k + 1 :]]
        return items
    return items


def from_hook(item: Item | None) -> int | None:
    """Which chain from the hook an item begins in, from 1; None when it does not begin in one."""
    if isinstance(item, (Work, Group, Skip)) and item.where.which is Which.FROM_HOOK:
        return item.where.nth
    if isinstance(item, Repeat) and item.items:
        return from_hook(item.items[0])
    if isinstance(item, Skip) and item.where.kinds and item.where.kinds[0].name == CH:
        return item.where.many + 1
    return None


def first_row_again(items: list[Item], standing: Standing) -> list[Item] | None:
    """ "Row 2: Same as Row 1", where Row 1 goes into the foundation: its stitch in every one of the row below.

    None where the first row is more than one stitch in each chain, so that nobody knows what is meant.
    """
    works = [item for item in items if not isinstance(item, (Say, Turn, Turning, Mark))]
    first = works[0] if works else None
    own = standing.kind != "row" or standing.added
    if own or not isinstance(first, Work) or first.where.which is not Which.FROM_HOOK:
        return items
    along = works[-1]
    if (
        len(works) != 2
        or not isinstance(along, Work)
        or along.where.which is not Which.EACH
        or (along.stitch, along.count) != (first.stitch, 1)
    ):
        return [_off_the_chain(item) for item in items] if first.where.nth == 2 else None
    return [replace(along, where=replace(along.where, kinds=(Kind(ANY),)), joined=False)]


def _off_the_chain(item: Item) -> Item:
    """What a first row works into its foundation, worked into the stitches of a row instead."""
    if isinstance(item, Repeat):
        return replace(item, items=tuple(map(_off_the_chain, item.items)))
    if not isinstance(item, (Work, Group, Skip)):
        return item
    where = item.where
    if where.which is Which.FROM_HOOK:
        return replace(item, where=replace(where, which=Which.FIRST, nth=0, kinds=(Kind(ANY),)))
    kinds = tuple(Kind(ANY) if kind.name == CH else kind for kind in where.kinds)
    return replace(item, where=replace(where, kinds=kinds))


def closes_ring(item: Item) -> bool:
    """True for a slip stitch in the first chain."""
    return (
        isinstance(item, Work)
        and item.stitch == "slst"
        and (
            item.where.which in (Which.FIRST, Which.NTH, Which.FROM_HOOK)
            and bool(item.where.kinds)
            and item.where.kinds[0].name == CH
            or item.where.which is Which.STRAIGHT
            and item.count == 1
        )
    )


def uses_ring(item: Item) -> bool:
    """True for stitches told to go into a ring."""
    if isinstance(item, (Work, Group)):
        return item.where.which is Which.RING
    if isinstance(item, Repeat):
        return any(uses_ring(inside) for inside in item.items)
    return False


def starts_from_ring(items: Sequence[Item]) -> bool:
    """True when any of the items, or any inside them, goes into a ring."""
    for item in items:
        if isinstance(item, (Work, Group)) and item.where.which is Which.RING:
            return True
        if isinstance(item, (Group, Repeat)) and starts_from_ring(item.items):
            return True
    return False


def begun_afresh(row: Row) -> bool:
    """True for a row that begins with yarn joined anew: the side it names holds however often it is repeated."""
    first = next((item for item in row.items if not isinstance(item, Say)), None)
    return isinstance(first, Travel) and first.fresh


def joins_pieces(items: Sequence[Item]) -> bool:
    """True for a round that goes along other pieces, legs or sleeves, and so over stitches of each."""
    return any(
        isinstance(item, Say)
        and item.kind == "piece"
        or isinstance(item, Repeat)
        and joins_pieces(item.items)
        for item in items
    )


def names_last(item: Item) -> bool:
    """True for what goes into the last stitches of a round: "ending with FPdc around each of last 2 dc"."""
    if isinstance(item, Repeat):
        return any(map(names_last, item.ending.items if item.ending is not None else ()))
    return (
        isinstance(item, (Work, Group))
        and item.where.which is Which.LAST
        and bool(item.where.kinds)
        and item.where.kinds[0].name != SP
    )


def lead_turn(row: Row, standing: Standing, items: list[Item]) -> tuple[bool, list[Item]]:
    """Whether the work is turned before the row, and the items without the words that say so."""
    for k, item in enumerate(items):
        if isinstance(item, Turn):
            return item.turned, [*items[:k], *items[k + 1 :]]
        if not isinstance(item, (Say, Mark, Turning, Chain)):
            break
    if row.side is not None and standing.rs is not None and begun_afresh(row):
        return (row.side == "RS") != standing.rs, items
    if standing.turned is not None:
        return standing.turned, items
    if standing.kind == "row" and row.kind == "row":
        return True, items
    return False, items


def begins_elsewhere(items: Sequence[Item]) -> bool:
    """True for "ch 1, sc in same st and in next 10 sts" where nothing stands: yarn was joined to another piece."""
    first = next((i for i in items if isinstance(i, (Work, Group, Repeat))), None)
    return isinstance(first, Work) and first.where.which is Which.SAME
