"""A row that goes along the ends of others and passes over some of them: "*miss 1 row end, 5 tr in next row end; rep".

Its items come in; where they tell row ends one by one, the ends stand in a row of their own and the items go into them.
"""

from collections.abc import Sequence

from tracker.fabric.model import Element
from tracker.notation.tree import ANY, Group, Item, Kind, Repeat, Skip, Stop, Where, Which, Work
from tracker.records import replace

_MANY = 400
"""Row ends of the longest edge that is worked so."""


def told_by_ends(items: Sequence[Item]) -> bool:
    """True when row ends are missed, or a repeat goes along them as far as they reach."""
    for item in items:
        if isinstance(item, Skip) and item.where.which is Which.ROW_END:
            return True
        if isinstance(item, Repeat) and (
            told_by_ends(item.items) or item.times is None and any(map(_in_an_end, item.items))
        ):
            return True
    return False


def _in_an_end(item: Item) -> bool:
    return isinstance(item, (Work, Group)) and item.where.which is Which.ROW_END and item.where.many == 1


def standing_ends(rows: int) -> tuple[Element, ...]:
    """So many row ends as if they were stitches."""
    return (Element("sc"),) * min(rows, _MANY)


def into_ends(items: Sequence[Item]) -> list[Item]:
    """The items with each row end as the next stitch of the edge."""
    out: list[Item] = []
    for item in items:
        if isinstance(item, Repeat):
            item = replace(item, items=tuple(into_ends(item.items)), stop=_stop(item.stop))
        elif isinstance(item, (Work, Group, Skip)) and item.where.which is Which.ROW_END:
            item = replace(item, where=_place(item.where))
        out.append(item)
    return out


def _place(where: Where) -> Where:
    if where.many == 0:
        return replace(where, which=Which.EACH, kinds=(Kind(ANY),), stop=_stop(where.stop))
    return replace(where, which=Which.NEXT, kinds=(Kind(ANY),))


def _stop(stop: Stop | None) -> Stop | None:
    return stop if stop is None or stop.kinds != (Kind("row end"),) else replace(stop, kinds=())
