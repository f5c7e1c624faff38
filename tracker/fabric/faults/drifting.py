"""C208 — allow no row worked several times to gain or lose stitches each time, where the next is written for none.

The row that then fails is right: what is wrong stands in the rows before it, and shows only when all of them are done.
A pattern, its fabric and its problems come in; the drift goes out that explains them: with those rows worked even,
nothing is wrong any more. The pattern is worked anew for it, once, and only where something is wrong.

The count of such rows themselves may be the one of the row before them: they are meant to keep it.

    Rows 5-24: Ch 1, 2 sc in first st, sc in each st across. / Row 25: … (34 sc)      Rows 5-24 gain 1 stitch each time
    Rows 5-24: Ch 1, sc in each st across. / Row 25: … (34 sc)                                               (mended)
"""

from collections.abc import Sequence
from itertools import pairwise

from tracker.fabric.build import build
from tracker.fabric.model import Fabric
from tracker.notation.pattern import Pattern, Row
from tracker.notation.tree import Group, Item, Repeat, Skip, Stop, Which, Work
from tracker.problems import Label, Problem, Severity
from tracker.problems.headline import headline
from tracker.records import replace

_LEAST = 2
"""Rows of a range in which a drift is seen."""
_MOST = 400
"""Rows of a range that are looked at."""


def drifting(pattern: Pattern, fabric: Fabric, problems: Sequence[Problem]) -> Problem | None:
    """The drift right before the first row that goes wrong; None where there is none."""
    grave = [p for p in problems if p.severity is not Severity.NOTE]
    if any(not p.code.startswith("C") or p.index is None for p in grave):
        return None
    first = min((p.index for p in grave if p.index is not None), default=0)
    own = _keeps_its_count(fabric, first, grave)
    again: list[int] = [first] if own else []
    for index in range(first - 1, max(0, first - _MOST), -1):
        placed = fabric.row(index)
        if again and placed.label_span != fabric.row(again[0]).label_span:
            break
        again.append(index)
    last = again[0] if again else 0
    if len(again) < _LEAST or again[-1] < 2:
        return None
    row = fabric.row(last).worked.row
    at = next(
        (k for k, block in enumerate(pattern.blocks) if isinstance(block, Row) and block.span == row.span),
        None,
    )
    even = _even(row)
    if at is None or even is None or row.stated and not own or fabric.row(last).label_span != row.label_span:
        return None
    worked = [fabric.row(index).worked for index in range(again[-1] - 1, last + 1)]
    steps = {now.stitches - was.stitches for was, now in pairwise(worked)}
    if len(steps) != 1 or 0 in steps or not all(one.understood for one in (worked[:-1] if own else worked)):
        return None
    blocks = (*pattern.blocks[:at], even, *pattern.blocks[at + 1 :])
    _, found = build(replace(pattern, blocks=blocks))
    if any(p.severity is not Severity.NOTE and (not own or p.row == row.label) for p in found):
        return None
    step = steps.pop()
    does = "gain" if step > 0 else "lose"
    many = f"{abs(step)} stitch{'es' if abs(step) > 1 else ''}"
    placed, behind = fabric.row(last), fabric.row(first).printed
    meant = f"its count is {worked[0].stitches} still" if own else f"{behind} is written for none"
    return Problem(
        "C208",
        Severity.ERROR,
        headline(
            placed.printed,
            f"{does}s {many} each time, {abs(step) * len(again)} in all, and {meant}",
        ),
        Label(row.span, f"{'more' if step > 0 else 'fewer'} each time"),
        placed.printed,
        again[-1],
        placed.part,
        f"Take out what {'adds' if step > 0 else 'takes'} a stitch; where it is meant, say how many the rows end with.",
    )


def _keeps_its_count(fabric: Fabric, first: int, grave: Sequence[Problem]) -> bool:
    """True for the last of several rows, all that is wrong of which is that they state the count of the row before."""
    if first < 2 or any(p.index != first or p.code != "C201" for p in grave):
        return False
    placed = fabric.row(first)
    row = placed.worked.row
    told = [count for stated in row.stated for count in stated.counts]
    if len(row.numbers) < _LEAST or placed.label_span != row.label_span or len(told) != 1:
        return False
    before = fabric.row(max(1, first - len(row.numbers)))
    return before.label_span != placed.label_span and told[0][1] == before.worked.stitches


def _even(row: Row) -> Row | None:
    """The row with its one stretch of plain stitches worked to the end, and nothing else; None for another row."""
    plain = [item for item in row.items if _to_the_end(item)]
    if len(plain) != 1 or not isinstance(only := plain[0], Work):
        return None
    whole = replace(only, where=replace(only.where, stop=Stop()))
    worked = (Work, Group, Repeat, Skip)
    return replace(
        row,
        items=tuple(
            whole if item is only else item
            for item in row.items
            if item is only or not isinstance(item, worked)
        ),
    )


def _to_the_end(item: Item) -> bool:
    return isinstance(item, Work) and item.where.which is Which.EACH and item.count == 1
