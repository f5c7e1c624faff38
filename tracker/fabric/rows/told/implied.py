"""Rows told as one pass, "Rnd 3: sc, inc (18)": is it all of the row, or worked over and over?

The items of a row come in and go out, with the pass as a repeat where the doubt is settled so; the count that the row
states decides.
"""

from collections.abc import Callable, Sequence

from tracker.fabric.below.cursor import Below
from tracker.fabric.model import SP
from tracker.fabric.working.hook import Choice
from tracker.notation.pattern import Row
from tracker.notation.tree import ANY, Group, Item, Kind, Repeat, Skip, Stop, Which, Work
from tracker.problems import Span
from tracker.trade.stitches import parts_of

Ask = Callable[[object, Sequence[Choice]], Choice]

FEWEST = 3
"""Passes that such a row must hold: half of a row told and the other half forgotten is an error."""


def over_and_over(items: list[Item], row: Row, below: Below, ask: Ask) -> list[Item]:
    """The items, as one repeat to the end of the row where it is told by its first pass alone."""
    if row.rerun is not None or not any(not told.partial and not told.change for told in row.stated):
        return items
    worked = [k for k, item in enumerate(items) if isinstance(item, (Work, Group, Skip, Repeat))]
    if len(worked) < 2:
        return items
    if isinstance(last := items[worked[-1]], Work) and last.stitch == "slst":
        # the join of a round, and no part of what goes round
        worked.pop()
    body = items[worked[0] : worked[-1] + 1]
    used = [_used(item) for item in body]
    total = sum(used)
    stitches = sum(1 for element in below.elements if element.is_stitch)
    if (
        not all(used)
        or len(body) < 2
        or stitches % total
        or stitches // total < FEWEST
        or any(element.kind == SP for element in below.elements)
        or not ask("over and over", (False, True))
    ):
        return items
    span = Span(body[0].span.start, body[-1].span.end)
    return [*items[: worked[0]], Repeat(tuple(body), span, None, stop=Stop()), *items[worked[-1] + 1 :]]


def _used(item: Item) -> int:
    """Stitches of the row below that an item takes; 0 for one that no pass is made of."""
    if not isinstance(item, (Work, Group, Skip)):
        return 0
    plain = all(kind == Kind(ANY) for kind in item.where.kinds)
    if item.where.which is Which.NEXT and item.where.nth == 0 and plain:
        return item.where.many * (parts_of(item.stitch)[2] if isinstance(item, Work) else 1)
    if isinstance(item, Work) and item.where.which is Which.STRAIGHT:
        return item.count * parts_of(item.stitch)[2]
    return 0
