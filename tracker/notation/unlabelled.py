"""Rows told without a label of their own, and labels whose numbers differ from size to size."""

import re
from collections.abc import Sequence

from tracker.expressions import expression
from tracker.notation.phrase.told.shaping import Shaping
from tracker.notation.tree import ANY, Item, Kind, Rerun, Row, Where, Which, Work
from tracker.records import replace


def shaped_rows(row: Row, told: Shaping) -> list[Row]:
    """The rows before the first that is shaped, that one, and those that follow it; `row` holds what else is said."""
    span = row.span
    even = Work("even", 1, Where(Which.EACH, span, 0, (Kind(ANY),)), span)
    ends = Work(told.how, told.by, Where(Which.EVENLY, told.words), told.words)

    row = replace(row, label="Next row", kind="row")

    def worked(item: Item) -> Row:
        return replace(row, items=(item,), stated=(), rerun=None, unread=False)

    rows = [*(worked(even) for _ in range(told.first - 1)), worked(ends)]
    if told.further == 0:
        return [*rows[:-1], replace(rows[-1], items=(ends, *row.items), stated=row.stated)]
    until = "" if told.stitches is None else f"until there are {told.stitches} sts"
    times = told.further if told.stitches is None else None
    again = Rerun((), 1, times, times is not None, until, span, stitches=told.stitches, every=told.every)
    return [*rows, replace(row, rerun=again, unread=False)]


_BEGUN = expression(
    r"\s*(?:with\s+(?:the\s+)?(?:RS|WS|right side|wrong side)[^.,;]{0,40}[,;]\s*)?"
    r"(?:(?:skip|sk|miss)\s[^.;]{1,60}?,?\s*(?:and\s+)?)?(?:re-?)?(?:join|attach)(?:ing)?\s[^.;]{2,80}?[,;.]\s*ch\s?\d",
    re.IGNORECASE,
)
"""How a row begins that has no label: yarn is joined, and a chain made."""


def begun(text: str, start: int, end: int) -> bool:
    """True for "Skip 11 sts, join yarn in next st, ch 1, sc in next 7 sts."."""
    return _BEGUN.match(text, start, end) is not None


def sized_numbers(head: str, numbers: Sequence[int], sizes: int, index: int) -> Sequence[int]:
    """ "Rows 5-20 (24, 28)": the last row is the size's own; "Rnds 6-13 (6-14, 7-16)" gives the whole range."""
    hit = re.search(r"(\d+)(?:\s*-\s*(\d+))?((?:\s*[(\[]\s*[\d\s,–—-]+\s*[)\]])+)", head)
    if hit is None:
        return numbers
    pieces = [piece.strip() for piece in re.split(r"[,()\[\]]+", hit[3]) if piece.strip()]
    if len(pieces) != sizes - 1 or index == 0:
        return numbers
    pick = pieces[index - 1]
    ends = [int(n) for n in re.findall(r"\d+", pick)]
    if not ends:
        return numbers
    first = int(hit[1])
    if hit[2] is None:
        return (ends[0],) if len(ends) == 1 else tuple(range(ends[0], ends[1] + 1))
    if len(ends) == 2:
        return tuple(range(ends[0], ends[1] + 1))
    return tuple(range(first, max(first, ends[0]) + 1))
