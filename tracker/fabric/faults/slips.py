"""Rows that come out far from what they state, and which one slip of the pen explains.

So large a difference may come from words that were misread, and is no error then. But a slip in a repeat counts once
for every pass: where one phrase of the row, a little otherwise, makes all of what is stated, the words are wrong.

    Row 7: *Sc in next st; rep from * across. (10 sc)     on 20 sc: makes 20, the pattern says 10
    Row 7: *Sc2tog; rep from * across. (10 sc)                                           (mended)

A pattern, its fabric and its problems come in; the problems go out, some as errors that were warnings. The pattern is
worked anew for it, as far as the row, and only where something is amiss.
"""

from collections.abc import Iterator
from itertools import islice

from tracker.fabric.build import build
from tracker.fabric.faults.report import MISREAD
from tracker.fabric.model import Fabric
from tracker.fabric.stated import holds_words
from tracker.notation.pattern import Pattern, Row
from tracker.notation.tree import ANY, SPACE, Chain, Group, Item, Kind, Repeat, Skip, Where, Which, Work
from tracker.problems import Problem, Severity
from tracker.records import replace
from tracker.trade.stitches import STITCHES, parts_of

_MOST = 40
"""Slips that are tried for one row."""
_ROWS = 3
"""Rows that are looked at."""
_CODES = frozenset(("C201", "C202", "C203", "C204", "C205", "C206"))
_EACH_PASS = "One slip makes all of the difference. Work one repeat on paper: what it makes tells where."
Items = tuple[Item, ...]


def slipped(pattern: Pattern, fabric: Fabric, problems: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """Warnings of rows as errors where one slip explains them."""
    doubted = [p for p in problems if p.severity is Severity.WARNING and p.code in _CODES and p.index]
    surely: set[int] = set()
    for index in list(dict.fromkeys(p.index for p in doubted if p.index))[:_ROWS]:
        row = fabric.row(index).worked.row
        left = all(p.code == "C202" for p in doubted if p.index == index)
        if not holds_words(row.items) and fabric.row(index).label_span == row.label_span and row.stated:
            told = {p.row for p in doubted if p.index == index}
            if _explained(pattern, row, told, within_repeats=left):
                surely.add(index)
    if not surely:
        return problems
    return tuple(
        replace(p, severity=Severity.ERROR, help=_EACH_PASS if p.help == MISREAD else p.help)
        if p in doubted and p.index in surely
        else p
        for p in problems
    )


def _explained(pattern: Pattern, row: Row, labels: set[str | None], within_repeats: bool) -> bool:
    """True when a slip in the row explains what is wrong with it; one `within_repeats` where only such count."""
    at = next(
        (k for k, block in enumerate(pattern.blocks) if isinstance(block, Row) and block.span == row.span),
        None,
    )
    if at is None:
        return False
    for items in islice(_slips(tuple(row.items), within_repeats), _MOST):
        blocks = (*pattern.blocks[:at], replace(row, items=items))
        fabric, found = build(replace(pattern, blocks=blocks))
        wrong = any(p.row in labels and p.severity is not Severity.NOTE for p in found)
        hushed = any(p.row in labels and p.code in ("C202", "C206") for p in found)
        if not wrong and not hushed and fabric.length and fabric.row(fabric.length).worked.understood:
            return True
    return False


def _slips(items: Items, within_repeats: bool = False) -> Iterator[Items]:
    """The items with one of them a little otherwise; what stands in repeats first."""
    for inside in (True, False):
        for k, item in enumerate(items):
            if isinstance(item, Repeat) is inside and (inside or not within_repeats):
                for other in _otherwise(item):
                    yield (*items[:k], other, *items[k + 1 :])
    if not within_repeats:
        for k, item in enumerate(items):
            if isinstance(item, (Work, Group)) and len(items) > 1:
                yield (*items[:k], *items[k + 1 :])


def _otherwise(item: Item) -> Iterator[Item]:
    """One item as it may have been meant."""
    if isinstance(item, Repeat):
        for items in _slips(item.items):
            yield replace(item, items=items)
        if item.times is not None and item.times > 1:
            yield replace(item, times=item.times + 1)
            yield replace(item, times=item.times - 1)
    elif isinstance(item, Group):
        for items in _slips(item.items):
            yield replace(item, items=items)
        for where in _places(item.where):
            yield replace(item, where=where)
    elif isinstance(item, Work):
        yield from _stitches(item)
        for where in _places(item.where):
            yield replace(item, where=where)
    elif isinstance(item, Skip):
        for where in _places(item.where):
            yield replace(item, where=where)
    elif isinstance(item, Chain) and item.says is None:
        yield replace(item, count=item.count + 1)
        if item.count > 1:
            yield replace(item, count=item.count - 1)


def _stitches(item: Work) -> Iterator[Work]:
    """More or fewer of a stitch in one place; one worked together with the next, or no longer."""
    name = item.stitch
    post, base, together = parts_of(name)
    alone = base in STITCHES and together == 1
    straight = item.where.which is Which.STRAIGHT
    if alone and (straight or item.count == 1 and item.where.which is not Which.EACH):
        yield replace(item, stitch=f"{name}2tog")
    elif together > 1:
        one = replace(item.where, many=1) if item.where.which is Which.NEXT else item.where
        yield replace(item, stitch=f"{post}{base}", where=one)
    if alone and straight:
        # "6 sc" for "6 inc"
        places = replace(item.where, which=Which.NEXT, kinds=(Kind(ANY),), many=item.count)
        yield replace(item, count=2, where=places)
    if not straight or item.count > 1:
        yield replace(item, count=item.count + 1)
    if item.count > 1:
        yield replace(item, count=item.count - 1)


def _places(where: Where) -> Iterator[Where]:
    """One place more or fewer; a space of another length."""
    if where.which in (Which.NEXT, Which.FIRST, Which.LAST):
        yield replace(where, many=where.many + 1)
        if where.many > 1:
            yield replace(where, many=where.many - 1)
    for k, kind in enumerate(where.kinds):
        if kind.name == SPACE and kind.chains is not None:
            for chains in (kind.chains - 1, kind.chains + 1):
                if chains > 0:
                    kinds = (*where.kinds[:k], replace(kind, chains=chains), *where.kinds[k + 1 :])
                    yield replace(where, kinds=kinds)
