"""Names that may be one stitch or two: "sc dec" is a decrease, or a single crochet and then a decrease.

The items of a row come in; they go out with each such name as it is taken in all of the row. The counts decide, for a
terse writer keeps to one way.
"""

from collections.abc import Callable, Sequence

from tracker.fabric.working.hook import Choice
from tracker.notation.tree import Group, Item, Repeat, Work
from tracker.records import replace

Ask = Callable[[object, Sequence[Choice]], Choice]


def told_apart(items: Sequence[Item], ask: Ask) -> list[Item]:
    """The items with every name that may be two taken as the doubt about it is settled."""
    out: list[Item] = []
    for item in items:
        if isinstance(item, (Repeat, Group)):
            inside = tuple(told_apart(item.items, ask))
            out.append(item if inside == item.items else replace(item, items=inside))
        elif isinstance(item, Work) and item.apart:
            first = item.apart[0]
            # nobody writes "3 sc dec" for three decreases, and many write it for three stitches and one
            numbered = isinstance(first, Work) and first.count > 1
            if isinstance(first, Work) and first.count == 1 < item.count and first.stitch == item.stitch:
                # "4 sc in next 4 sts": one in each; "2 sc in next 2 sts": two, from most hands
                two = ask("one each", (True, False)) if item.count > 2 else ask("1 each", (False, True))
            else:
                two = ask("apart by number", (True, False)) if numbered else ask("apart", (False, True))
            out.extend(item.apart if two else (replace(item, apart=()),))
        else:
            out.append(item)
    return out
