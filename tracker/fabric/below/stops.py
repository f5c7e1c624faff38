"""Where an "each" or a repeat ends: at a corner, a marker, the centre, so many before the end."""

from tracker.fabric.below.cursor import Below
from tracker.fabric.below.gaps import last_gaps, stands_in_gaps
from tracker.fabric.below.surface import Missing
from tracker.fabric.model import SP
from tracker.notation.tree import Kind, Stop
from tracker.trade.stitches import parts_of


def limit_of(below: Below, stop: Stop) -> int:
    """Index at which an "each" or a repeat with that stop ends."""
    if stop.at == "corner":
        i = below.find(Kind("corner"), below.at)
        if i is None and not below.has_corners():
            # a first round, whose corners are no more than spaces
            i = below.find(Kind(SP), below.at)
        if i is None:
            return below.n
        return max(below.at, _before(below, i, stop.left))
    if stop.at == "space":
        i = below.find(stop.kinds[0], below.at)
        i = below.turning_space(stop.kinds[0]) if i is None else i
        return below.n if i is None else max(below.at, _before(below, i, stop.left))
    if stop.at in ("marker", "center", "half") and (mark := below.next_mark()) is not None:
        return max(below.at, _before(below, mark, stop.left))
    if stop.at == "stitch":
        found = below.find(stop.kinds[0], below.at)
        return below.n if found is None else max(below.at, _before(below, found, stop.left))
    if stop.at == "center":
        i = below.find(Kind("corner"), below.at) if below.closed else None
        if i is not None and sum(e.corner for e in below.elements) > 2:
            # of a round with corners: the middle of the next one
            return max(below.at, _before(below, i, stop.left))
        return center(below) - stop.left
    if stop.at == "half":
        return half(below)
    if stop.at == "middle":
        stitches = [i for i, e in enumerate(below.elements) if e.is_stitch]
        before, odd = divmod(len(stitches) - stop.left, 2)
        if odd or before < 0:
            raise Missing("T101", "the centre stitches are not known")
        return stitches[before]
    if stop.at == "marker":
        i = below.find(Kind("corner"), below.at)
        if below.closed:
            return below.n
        if stop.left:
            return center(below) - stop.left
        if i is None:
            raise Missing("T101", "the marker's place is not known")
        return i
    if stop.left:
        if len(stop.kinds) > 1:
            return min(
                below.from_end(stop.left if k == 0 else 1, (kind,)) for k, kind in enumerate(stop.kinds)
            )
        if stop.kinds and stop.kinds[0] == Kind(SP) and stands_in_gaps(below):
            gap = last_gaps(below, stop.left)
            if gap is not None:
                return gap
        return below.from_end(stop.left, stop.kinds)
    return below.n


def _before(below: Below, i: int, left: int) -> int:
    """Index so many stitches before another."""
    while left and i > 0:
        i -= 1
        left -= 1 if below.elements[i].is_stitch else 0
    return i


def half(below: Below) -> int:
    """Index of what stands in the middle of the row, space or stitch: its one corner, or as much before it as after."""
    corners = [i for i, e in enumerate(below.elements) if e.corner]
    if len(corners) == 1:
        return corners[0]
    if below.n % 2 and below.n // 2 >= below.at:
        return below.n // 2
    raise Missing("T101", "the middle of the row is not known")


def center(below: Below) -> int:
    """Index of the middle stitch: made as a corner or decrease, or the middle of an odd number."""
    corners = [i for i, e in enumerate(below.elements) if e.corner and e.kind != SP]
    if len(corners) == 1:
        return corners[0]
    joined = [i for i, e in enumerate(below.elements) if parts_of(e.kind)[2] > 2]
    if len(joined) == 1:
        return joined[0]
    stitches = [i for i, e in enumerate(below.elements) if e.is_stitch]
    if len(stitches) % 2 and stitches[len(stitches) // 2] >= below.at:
        return stitches[len(stitches) // 2]
    raise Missing("T101", "the centre stitch is not known")
