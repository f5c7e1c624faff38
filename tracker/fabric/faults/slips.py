"""Rows that come out far from what they state, and which one slip of the pen explains.

So large a difference may come from words that were misread, and is no error then. But a slip in a repeat counts once
for every pass: where one phrase of the row, a little otherwise, makes all of what is stated, the words are wrong.

    Row 7: *Sc in next st; rep from * across. (10 sc)     on 20 sc: makes 20, the pattern says 10
    Row 7: *Sc2tog; rep from * across. (10 sc)                                           (mended)

So it is where the count itself has two figures in each other's place, "(81 sc)" for 18; or one figure otherwise, where
the next row is worked onto what the words make and comes out as it states.

A count that differs leaves it open what the next row is worked onto. Where that one differs from its own, whether the
words before it are right or their count, it is wrong too.

    Row 2: … sc in each sc across. (24 sc) / Row 3: … sc in each sc across. (18 sc)     on 20 sc: both are wrong

A pattern, its fabric and its problems come in; the problems go out, some as errors that were warnings, and some more.
The pattern is worked anew for it, and only where something is amiss.
"""

from collections.abc import Iterator
from itertools import islice

from tracker.fabric.build import build
from tracker.fabric.checks.counts import differs
from tracker.fabric.faults.report import MISREAD
from tracker.fabric.model import Fabric
from tracker.fabric.stated import agrees, holds_words
from tracker.notation.pattern import Pattern, Row
from tracker.notation.tree import ANY, SPACE, Chain, Group, Item, Kind, Repeat, Skip, Where, Which, Work
from tracker.problems import Problem, Severity, Span
from tracker.records import replace
from tracker.trade.stitches import STITCHES, parts_of

_MOST, _FEWEST = 40, 6
"""Slips that are tried for one row."""
_FURTHEST = 2_000
"""Rows whose stitches are summed up."""
_MOST_WORKED = 60_000
"""Stitches that are worked for one row: of a large piece fewer slips are tried."""
_ROWS = 3
"""Rows that are looked at."""
_CODES = frozenset(("C201", "C202", "C203", "C204", "C205", "C206"))
_FIGURE = "The words make it, and the rows go on from it: one figure of the count is a slip of the pen."
_EACH_PASS = "One slip makes all of the difference. Work one repeat on paper: what it makes tells where."
Items = tuple[Item, ...]


def slipped(pattern: Pattern, fabric: Fabric, problems: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """Warnings of rows as errors where one slip explains them."""
    doubted = [p for p in problems if p.severity is Severity.WARNING and p.code in _CODES and p.index]
    surely: set[int] = set()
    figures = {index for index in {p.index for p in doubted if p.index} if _of_a_figure(fabric, index)}
    surely |= figures
    for index in list(dict.fromkeys(p.index for p in doubted if p.index))[:_ROWS]:
        row = fabric.row(index).worked.row
        left = all(p.code == "C202" for p in doubted if p.index == index)
        if not holds_words(row.items) and fabric.row(index).label_span == row.label_span and row.stated:
            told = {p.row for p in doubted if p.index == index}
            before = sum(len(placed.worked.elements) for _, placed in fabric.rows(1, min(index, _FURTHEST)))
            most = max(_FEWEST, min(_MOST, _MOST_WORKED // max(1, before)))
            if _explained(pattern, row, told, most, within_repeats=left):
                surely.add(index)
    if not surely:
        return problems
    return tuple(
        replace(
            p,
            severity=Severity.ERROR,
            help=(_FIGURE if p.index in figures else _EACH_PASS) if p.help == MISREAD else p.help,
        )
        if p in doubted and p.index in surely
        else p
        for p in problems
    )


def behind(pattern: Pattern, problems: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """Counts that differ behind others that do, on what the words before them make and on what their counts say."""
    wrong = {p.label.span for p in problems if p.code == "C201" and p.severity is Severity.ERROR}
    if not wrong or len(wrong) > _ROWS:
        return problems
    told = [
        any(stated.span in wrong for stated in b.stated) if isinstance(b, Row) else False
        for b in pattern.blocks
    ]
    hushed, unread = (
        tuple(replace(b, **change) if here else b for b, here in zip(pattern.blocks, told, strict=True))
        for change in ({"stated": ()}, {"unread": True, "items": ()})
    )
    of_words = _counts_wrong(replace(pattern, blocks=hushed))
    of_counts = _counts_wrong(replace(pattern, blocks=unread)) if of_words else {}
    known = {p.label.span for p in problems}
    return (*problems, *(p for span, p in of_words.items() if span in of_counts and span not in known))


def _counts_wrong(pattern: Pattern) -> dict[Span, Problem]:
    """Errors of counts, by where the counts stand."""
    _, found = build(pattern)
    return {p.label.span: p for p in found if p.code == "C201" and p.severity is Severity.ERROR}


def _of_a_figure(fabric: Fabric, index: int) -> bool:
    """True for a row whose one count that differs is what it makes, but for a slip of the pen in its figures."""
    placed = fabric.row(index)
    worked = placed.worked
    if worked.unread or holds_words(worked.row.items) or placed.label_span != worked.row.label_span:
        return False
    wrong = [each for stated in worked.row.stated for each in differs(stated, worked.elements, None)]
    if len(wrong) != 1 or any(stated.change or stated.partial for stated in worked.row.stated):
        return False
    _, told, made = wrong[0]
    one, other = str(told), str(made)
    if _one_too_many(one, other) or _one_too_many(other, one):
        # "16 hdc" for 6: the others that are counted, or the next row, tell that the words are right
        others = sum(len(stated.counts) for stated in worked.row.stated) > 1
        return others or _borne_out(fabric, index)
    if len(one) != len(other) or len(one) < 2:
        return False
    if sorted(one) == sorted(other):
        return True
    changed = sum(a != b for a, b in zip(one, other, strict=True))
    return changed == 1 and _borne_out(fabric, index)


def _one_too_many(longer: str, shorter: str) -> bool:
    """True where one figure taken out of a number leaves the other: "16" and "6"."""
    return len(longer) == len(shorter) + 1 and any(
        longer[:k] + longer[k + 1 :] == shorter for k in range(len(longer))
    )


def _borne_out(fabric: Fabric, index: int) -> bool:
    """True where the next row is worked onto what a row makes, and comes out as it states."""
    if index >= fabric.length:
        return False
    this, after = fabric.row(index), fabric.row(index + 1)
    stated = after.worked.row.stated
    onto = len(after.worked.below) == len(this.worked.elements)
    same = this.part == after.part and this.kind == after.kind and after.label_span != this.label_span
    return same and onto and after.worked.understood and agrees(stated, after.worked.elements)


def _explained(pattern: Pattern, row: Row, labels: set[str | None], most: int, within_repeats: bool) -> bool:
    """True when a slip in the row explains what is wrong with it; one `within_repeats` where only such count."""
    at = next(
        (k for k, block in enumerate(pattern.blocks) if isinstance(block, Row) and block.span == row.span),
        None,
    )
    if at is None:
        return False
    # one that adds to each of many rows is first worked once
    ranges = [row] if len(row.numbers) < 2 else [replace(row, numbers=tuple(row.numbers[:1])), row]
    for items in islice(_slips(tuple(row.items), within_repeats), most):
        if all(_agrees(pattern, at, replace(one, items=items), labels) for one in ranges):
            return True
    return False


def _agrees(pattern: Pattern, at: int, row: Row, labels: set[str | None]) -> bool:
    """True when nothing is wrong with a row put in place of the one at an index, nor is any stitch left in silence."""
    fabric, found = build(replace(pattern, blocks=(*pattern.blocks[:at], row)))
    wrong = any(p.row in labels and p.severity is not Severity.NOTE for p in found)
    hushed = any(p.row in labels and p.code in ("C202", "C206") for p in found)
    return not wrong and not hushed and fabric.length > 0 and fabric.row(fabric.length).worked.understood


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
