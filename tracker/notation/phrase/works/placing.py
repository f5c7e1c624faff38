"""Stitches and groups put into the places that were read for them."""

from collections.abc import Sequence

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.places.nouns import kind_here
from tracker.notation.phrase.places.stops import stop_here
from tracker.notation.phrase.stitches import Stitch
from tracker.notation.phrase.works.exceptions import excepting
from tracker.notation.tree import (
    ANY,
    SPACE,
    Ending,
    Group,
    Item,
    Kind,
    Repeat,
    Skip,
    Stop,
    Where,
    Which,
    Work,
)
from tracker.records import replace


def placed(
    c: Cursor, start: int, name: str, count: int, wheres: tuple[Where, ...], stitch: Stitch, loop: str
) -> list[Item]:
    """Stitches of one name in each of the places; told how often, a repeat of them."""
    items: list[Item] = []
    if (
        stitch.name != name
        and stitch.name.endswith("tog")
        and stitch.special is None
        or (stitch.name != name and "tog" in stitch.name and "tog" not in name)
    ):
        name = stitch.name
    for at, where in enumerate(wheres):
        if loop and not where.loop:
            where = replace(where, loop=loop)
        span = c.span_from(start)
        if where.which is Which.STRAIGHT and where.loop and len(wheres) == 1:
            stop = stop_here(c)
            if stop is not None:
                where = Where(Which.EACH, span, 0, (Kind(ANY),), stop=stop, loop=where.loop)
        if where.which is Which.EACH and at == len(wheres) - 1 and where.stop is None:
            stop = stop_here(c)
            if stop is not None:
                where = replace(where, stop=stop)
        items.append(excepting(c, Work(name, count, where, span, joined=at > 0)))
    # "[2 dc in next sp] x 3" is a bracket's business, "2 dc in next sp 3 times" is ours
    times = c.times_here()
    if times is not None and times[0] < 10**6:
        more = "more" in (c.text(k) for k in range(times[1] + 1))
        c.i += times[1]
        c.take("more")
        return [Repeat(tuple(items), c.span_from(start), times[0] + (1 if more else 0))]
    return items


def unplaced(item: Item) -> bool:
    """True for stitches with no place of their own."""
    return isinstance(item, Work) and item.where.which is Which.STRAIGHT


def grouped(items: Sequence[Item], where: tuple[Where, ...], c: Cursor, start: int) -> list[Item]:
    """The items as groups, one for each place named."""
    out: list[Item] = []
    for place in where:
        if place.which is Which.EACH and place.stop is None:
            stop = stop_here(c)
            if stop is not None:
                place = replace(place, stop=stop)
        only = items[0]
        if len(items) == 1 and isinstance(only, Work) and unplaced(only) and not place.loop:
            # "(5 dc) in next sc", "5 dc all in next sc"
            out.append(replace(only, where=replace(place, loop=only.where.loop), span=c.span_from(start)))
            continue
        if (many := _of_one_sort(items)) and isinstance(only := items[0], Work):
            # "(2 dc) in next st", "(sc, sc) in next st"
            out.append(replace(only, count=many, where=place, span=c.span_from(start), apart=()))
        else:
            out.append(Group(tuple(items), place, c.span_from(start)))
    return out


OTHER = ("other", "second", "2nd", "alternate", "alt")
"""Words behind "every" by which one of two is meant."""


def in_every_other(c: Cursor, items: Sequence[Item], start: int) -> list[Item] | None:
    """ "3 dc in every other space across": the others are passed over; None, nothing taken, for other places."""
    i = c.i
    cell = None
    if c.take_any("in", "into") and c.text() in ("every", "each") and c.text(1) in OTHER:
        # "in each other sp" means the others
        others = c.text() == "each" and c.text(1) == "other"
        c.i += 2
        cell = None if others else kind_here(c)
    if cell is None or cell.name != SPACE:
        c.i = i
        return None
    stop = stop_here(c)
    span = c.span_from(start)
    worked = grouped(items, (Where(Which.NEXT, span, 1, (cell,)),), c, start)
    passed = Skip(Where(Which.NEXT, span, 1, (cell,)), span)
    ending = Ending("omit", (passed,), None, span)
    return [Repeat((*worked, passed), span, None, stop=stop or Stop(), ending=ending)]


def _of_one_sort(items: Sequence[Item]) -> int:
    """How many stitches of one name with no place or loop of their own the items are; 0 where they are others."""
    works = [item for item in items if isinstance(item, Work) and unplaced(item) and not item.where.loop]
    alike = len({(work.stitch, work.colour) for work in works}) == 1
    return sum(work.count for work in works) if alike and len(works) == len(items) else 0
