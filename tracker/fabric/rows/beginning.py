"""What a row begins with besides its chain: yarn joined at an opening or a leg, a turn, another piece.

Items come in and go out.
"""

from collections.abc import Sequence

from tracker.fabric.model import CH, SP
from tracker.fabric.standing import Standing
from tracker.notation.pattern import Row
from tracker.notation.tree import Chain, Group, Item, Mark, Repeat, Say, Travel, Turn, Turning, Which, Work
from tracker.records import replace

TYPE_CHECKING = False  # as type checkers have it; typing itself is slow to load
if TYPE_CHECKING:
    from typing import TypeGuard


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
            or _borne_out(row, items)
            or (
                works[0].where.which is Which.SAME
                or [kind.name for kind in works[0].where.kinds] in ([CH], [SP])
            )
            and works[1].where.which is Which.MADE
        )
        and any(kind.name in (CH, SP) for work in works for kind in work.where.kinds)
        and not any(element.kind in (CH, SP) for element in standing.elements)
    ):
        # "join yarn at thumb opening, sc in each of 4 skipped sts, sc in each of 2 ch", or "2 sc in ch-2 sp"
        return [*items[:k], replace(first, where=()), *items[k + 1 :]] if isinstance(first, Travel) else items
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


def _borne_out(row: Row, items: list[Item]) -> bool:
    """True where a first round tells how many it works in each of its places, and its count is their sum."""
    told = next((s.counts for s in row.stated if not s.change and not s.partial), ())
    works = [item for item in items if isinstance(item, Work) and item.stitch != "slst"]
    numbered = all(work.where.which in (Which.MADE, Which.NEXT) and work.where.many for work in works)
    first = bool(row.numbers) and row.numbers[0] == 1
    worked = sum(work.count * work.where.many for work in works)
    rises = next((item.count > 1 for item in items if isinstance(item, Chain)), False)
    others = any(isinstance(item, (Group, Repeat)) for item in items)
    return first and numbered and not others and len(told) == 1 and told[0][1] - worked in (0, int(rises))


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
