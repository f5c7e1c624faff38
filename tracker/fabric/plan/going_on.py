"""Rows that go on as those before: "Work 6 rows even", "cont in pattern".

What is planned so far comes in; the rows to be worked go out, from the one whose turn it is.
"""

from collections.abc import Sequence

from tracker.fabric.plan.ledger import Known, Ledger
from tracker.fabric.stated import has_chains, keeps
from tracker.notation.pattern import Row
from tracker.notation.rows.before.growing import changes_count
from tracker.notation.tree import ANY, Item, Kind, Leave, Repeat, Where, Which, Work
from tracker.records import replace


def even_row(row: Row) -> Row:
    """A row of the words of `row` that is worked even: in each stitch one of its own kind."""
    items = (Work("even", 1, Where(Which.EACH, row.span, 0, (Kind(ANY),)), row.span),)
    return replace(row, items=items, stated=(), rerun=None, unread=False, numbers=(), called="")


def is_even(item: Item) -> bool:
    """True for a phrase that is worked even."""
    return isinstance(item, Work) and item.stitch == "even"


def going_on(ledger: Ledger, row: Row, how: str) -> list[Known]:
    """The rows to be worked in turn; one that is not read where nothing tells which rows are the pattern."""
    cycle = ledger.cycle
    if how == "even" and _shaped_by_turns(cycle):
        # "Rep last 2 rows 3 times more. … Work 5 rows even": what is worked even is not shaped
        return [Known(even_row(row), 0)]
    if cycle and not (how == "even" and _left_for_plain(ledger)):
        k = (len(ledger.done) - ledger.cycle_at) % len(cycle)
        return [*cycle[k:], *cycle[:k]]
    done = ledger.done[ledger.begun :]
    last = done[-1] if done else None
    if last is None or plain_row(last.row) and (how == "even" or len(done) < 3 or _plain_alike(done)):
        return [Known(even_row(row), 0)]
    if how == "even" and _shaped(last.row):
        # behind a row that shapes: none of its decreases, nor in what repeats these rows
        return [Known(even_row(row), 0)]
    if len(done) < 3 or done[-2].row is last.row:
        return [last]
    if how == "even":
        return [last]
    if len(done) == 3:
        # a first row and two others: the two by turns
        return done[1:]
    if done[-4].row is done[-2].row and done[-3].row is last.row:
        # two rows worked by turns so far, each of them twice
        return done[-2:]
    return [Known(replace(even_row(row), unread=True), 0)]


def _shaped(row: Row) -> bool:
    """True for a row without spaces that is wider or narrower than the one before it."""
    if has_chains(row.items):
        return False
    return changes_count(row.items) or any(
        isinstance(item, Leave) or isinstance(item, Work) and item.stitch.startswith(("dec ", "slst"))
        for item in row.items
    )


def _shaped_by_turns(cycle: Sequence[Known]) -> bool:
    """True for plain rows by turns with rows that are wider or narrower than the one before."""
    return any(_shaped(known.row) for known in cycle) and any(plain_row(known.row) for known in cycle)


def _left_for_plain(ledger: Ledger) -> bool:
    """True where plain rows of other words were worked since the rows that were the pattern: those are over."""
    turns = {id(known.row) for known in ledger.cycle}
    since = ledger.done[ledger.cycle_at :]
    behind = next((k for k in range(len(since) - 1, -1, -1) if id(since[k].row) in turns), -1)
    return any(plain_row(known.row) for known in since[behind + 1 :])


def plain_row(row: Row) -> bool:
    """True for a row of one kind of stitch, one in each."""
    works = [item for item in row.items if isinstance(item, (Work, Repeat))]
    only = works[0] if len(works) == 1 else None
    return (
        isinstance(only, Work)
        and only.where.which is Which.EACH
        and keeps((only,), ())
        and not only.excepting
    )


def _plain_alike(done: list[Known]) -> bool:
    """True when the last two rows are plain ones of the same stitch."""
    kinds = []
    for known in done[-2:]:
        if not plain_row(known.row):
            return False
        kinds += [(w.stitch, w.where.loop) for w in known.row.items if isinstance(w, Work)]
    return len(set(kinds)) == 1
