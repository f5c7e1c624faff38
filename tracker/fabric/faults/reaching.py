"""What the items of a row need of what is below it: its edges, its foundation, its spaces, stitches by their names."""

from collections.abc import Iterator, Sequence

from tracker.fabric.faults.overheard import PLAIN
from tracker.fabric.model import CH
from tracker.fabric.stated import names_rows, uses_ends
from tracker.notation.pattern import Row
from tracker.notation.tree import ANY, Group, Item, Repeat, Skip, Which, Work


def along_edges(row: Row) -> bool:
    """True for a row that goes along edges, into the foundation, or into rows before the last."""
    return uses_ends(row.items) or names_rows(row.items) or any(map(_into_foundation, row.items))


def _into_foundation(item: Item) -> bool:
    if isinstance(item, (Group, Repeat)) and any(map(_into_foundation, item.items)):
        return True
    if not isinstance(item, (Work, Group, Skip)):
        return False
    where = item.where
    return where.loop == "base" or where.which is Which.EVENLY or any(kind.name == CH for kind in where.kinds)


def into_spaces(items: Sequence[Item]) -> bool:
    """True for items that need more of the row below than its number of stitches: spaces, groups, corners."""
    for item in items:
        if isinstance(item, (Group, Repeat)) and into_spaces(item.items):
            return True
        if isinstance(item, (Work, Group, Skip)):
            where = item.where
            stops = where.stop.kinds if where.stop is not None else ()
            if where.which is Which.BETWEEN or {k.name for k in (*where.kinds, *stops)} - {ANY, *PLAIN}:
                return True
    return False


def names_of(items: Sequence[Item]) -> Iterator[str]:
    """Names of the stitches that items work."""
    for item in items:
        if isinstance(item, Work):
            yield item.stitch
        elif isinstance(item, (Group, Repeat)):
            yield from names_of(item.items)
