"""What the items of a row need of what is below it: its edges, its foundation, its spaces, stitches by their names; and
which rows of a fabric bear out what they state."""

from collections.abc import Iterator, Sequence

from tracker.fabric.faults.overheard import PLAIN
from tracker.fabric.model import CH, Fabric, Placed, Stretch, Unread
from tracker.fabric.stated import agrees, covers, names_rows, uses_ends
from tracker.notation.pattern import Row
from tracker.notation.tree import ANY, Group, Item, Repeat, Skip, Which, Work
from tracker.records import replace


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


def proved(placed: Placed, printed: Row) -> bool:
    """True for a row that makes all of what it states."""
    worked = placed.worked
    stated = printed.stated or worked.row.stated
    return worked.understood and agrees(stated, worked.elements) and covers(stated, worked.elements)


def once(fabric: Fabric) -> Iterator[tuple[int, Placed]]:
    """The rows with their indices, those worked over and over only the first time."""
    for stretch, first in zip(fabric.stretches, fabric.first, strict=True):
        for at, placed in enumerate(stretch.rows):
            yield first + at, placed


def not_understood(fabric: Fabric, unread: dict[int, tuple[Unread, ...]]) -> Fabric:
    """The fabric with some of its rows not understood, for the words beside their indices."""
    stretches = []
    for stretch, first in zip(fabric.stretches, fabric.first, strict=True):
        rows = tuple(
            replace(
                placed,
                worked=replace(placed.worked, understood=False, unread=unread[first + at]),
            )
            if first + at in unread
            else placed
            for at, placed in enumerate(stretch.rows)
        )
        stretches.append(Stretch(rows, stretch.times, stretch.step))
    return Fabric(tuple(stretches), fabric.open_ended)
