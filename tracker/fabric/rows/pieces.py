"""A round in each stitch of what nobody counted: joined squares, legs. How many that is, its own count says.

Items and counts of such a round come in; items that make as many as are stated come out, or None where the words are
not one stitch in each.
"""

from collections.abc import Sequence

from tracker.notation.tree import ANY, Group, Item, Kind, Repeat, Stated, Where, Which, Work

TYPE_CHECKING = False  # as type checkers have it; typing itself is slow to load
if TYPE_CHECKING:
    from typing import TypeGuard

_CORNERS = 4


def as_stated(items: Sequence[Item], stated: Sequence[Stated]) -> list[Item] | None:
    """ "1 dc in each st and sp all round, with 3 dc in each corner sp (310 dc)": 298 and four times three."""
    works = [item for item in items if isinstance(item, (Work, Group, Repeat))]
    works = [item for item in works if not (isinstance(item, Work) and item.stitch == "slst")]
    begun = [work for work in works if _in_corner(work)]
    others = [work for work in works if work not in begun]
    only = others[0] if len(others) == 1 else None
    if len(others) > 1:
        return _shared_out(items, works, stated)
    told = stated[0] if len(stated) == 1 else None
    if not isinstance(only, Work) or only.where.which is not Which.EACH or only.count != 1 or told is None:
        return None
    if any(work.stitch != only.stitch for work in begun) or begun and not only.excepting:
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
        left = _CORNERS - len(begun)
        corners = [Work(only.stitch, inside.count, where, only.span)] * left
        number -= inside.count * left + sum(work.count for work in begun)
    if number < 1:
        return None
    along = Work(only.stitch, number, Where(Which.EVENLY, only.span), only.span)
    at = next(k for k, item in enumerate(items) if item is only)
    return [*items[:at], along, *corners, *items[at + 1 :]]


def _in_corner(item: Item) -> "TypeGuard[Work]":
    """True for "3 sc in corner sp", where such a round begins."""
    return (
        isinstance(item, Work)
        and item.where.which in (Which.NEXT, Which.SAME)
        and item.where.many == 1
        and item.count > 1
        and (not item.where.kinds or item.where.kinds[0].name.startswith("corner"))
    )


def _shared_out(items: Sequence[Item], works: Sequence[Item], stated: Sequence[Stated]) -> list[Item] | None:
    """ "Hdc in each hdc of right leg, hdc in each of 3 ch, hdc in each hdc of left leg (75 hdc)": 36 of each leg."""
    whole = [told for told in stated if not told.partial]
    told = whole[0] if len(whole) == 1 and len(whole[0].counts) == 1 else None
    each = [w for w in works if isinstance(w, Work) and w.where.which is Which.EACH]
    counted = [
        w for w in works if isinstance(w, Work) and w.where.which in (Which.NEXT, Which.MADE, Which.STRAIGHT)
    ]
    first = works[0]
    if told is None or told.change or not each or len(each) + len(counted) != len(works):
        return None
    if not isinstance(first, Work) or any(
        not isinstance(w, Work) or w.stitch != first.stitch or w.excepting for w in works
    ):
        return None
    name, number = told.counts[0]
    left, over = divmod(number - sum(w.count * w.where.many for w in counted), len(each))
    if over or left < 1 or name not in ("", ANY, first.stitch) or any(w.count != 1 for w in each):
        return None
    return [
        Work(item.stitch, left, Where(Which.EVENLY, item.span), item.span)
        if isinstance(item, Work) and item in each
        else item
        for item in items
    ]
