"""A round in each stitch of what nobody counted: joined squares, legs. How many that is, its own count says.

Items and counts of such a round come in; items that make as many as are stated come out, or None where the words are
not one stitch in each.
"""

from collections.abc import Sequence

from tracker.notation.tree import ANY, Group, Item, Kind, Repeat, Stated, Where, Which, Work

_CORNERS = 4


def as_stated(items: Sequence[Item], stated: Sequence[Stated]) -> list[Item] | None:
    """ "1 dc in each st and sp all round, with 3 dc in each corner sp (310 dc)": 298 and four times three."""
    works = [item for item in items if isinstance(item, (Work, Group, Repeat))]
    works = [item for item in works if not (isinstance(item, Work) and item.stitch == "slst")]
    only = works[0] if len(works) == 1 else None
    told = stated[0] if len(stated) == 1 else None
    if not isinstance(only, Work) or only.where.which is not Which.EACH or only.count != 1 or told is None:
        return None
    name, number = told.counts[0]
    if len(told.counts) != 1 or told.change or told.partial or name not in ("", ANY, only.stitch):
        return None
    corners: list[Item] = []
    for other in only.excepting:
        inside = other.items[0] if len(other.items) == 1 else None
        corner = bool(other.kinds) and other.kinds[0].name.startswith("corner")
        if not corner or not isinstance(inside, Work) or inside.stitch != only.stitch or corners:
            return None
        where = Where(Which.EVENLY, only.span, 1, (Kind("corner"),))
        corners = [Work(only.stitch, inside.count, where, only.span)] * _CORNERS
        number -= inside.count * _CORNERS
    if number < 1:
        return None
    along = Work(only.stitch, number, Where(Which.EVENLY, only.span), only.span)
    at = next(k for k, item in enumerate(items) if item is only)
    return [*items[:at], along, *corners, *items[at + 1 :]]
