"""Corner-to-corner pieces: the words of a row put as tiles.

"Ch 6, dc in 4th ch from hook and in each of next 2 ch" is a tile that begins a row; "ch 3, 3 dc in same sp" is
one worked where the slip stitches led. Anything else stays as it is.
"""

from collections.abc import Sequence

from tracker.notation.tree import Chain, Item, Say, Turn, Where, Which, Work


def as_tiles(items: Sequence[Item], name: str) -> list[Item]:
    """The items with tiles in place of the stitches that make them; slip stitches that anchor tiles left out."""
    out: list[Item] = []
    k = 0
    while k < len(items):
        item = items[k]
        if isinstance(item, Work) and item.stitch == "slst":
            k += 1
            continue
        if isinstance(item, Chain) and item.count >= 3:
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
                out.append(Work(name, 1, Where(Which.MADE, item.span), item.span))
                k = last
                continue
            if isinstance(ahead, Work) and ahead.where.which is Which.SAME:
                out.extend(between)
                out.append(Work(name, 1, Where(Which.NEXT, item.span), item.span))
                k = last + 1
                continue
        out.append(item)
        k += 1
    return out
