"""C208 — allow no row worked several times to gain or lose stitches each time, where the next is written for none.

The row that then fails is right: what is wrong stands in the rows before it, and shows only when all of them are done.

    Rows 5-24: Ch 1, 2 sc in first st, sc in each st across. / Row 25: … (34 sc)      Rows 5-24 gain 1 stitch each time
    Rows 5-24: Ch 1, sc in each st across. / Row 25: … (34 sc)                                               (mended)
"""

from collections.abc import Sequence
from itertools import pairwise

from tracker.fabric.history import Record
from tracker.fabric.model import Element
from tracker.problems import Label, Problem, Severity
from tracker.problems.headline import headline

_LEAST = 2
"""Rows of a range in which a drift is seen."""


def drifted(before: Sequence[Record], record: Record, index: int) -> Problem | None:
    """The drift in the rows right before a row that goes wrong for it; None where there is none."""
    off = _off(record)
    if not off or not before:
        return None
    last = before[-1]
    again = 0
    for earlier in reversed(before):
        if earlier.unit.row is not last.unit.row or earlier.unit.label_span != last.unit.label_span:
            break
        again += 1
    if again < _LEAST or again == len(before) or last.unit.row.stated or off % again:
        return None
    step = off // again
    rows = before[-again - 1 :]
    totals = [_stitches(each.outcome.elements) for each in rows]
    if not all(each.outcome.understood for each in rows) or any(
        now - was != step for was, now in pairwise(totals)
    ):
        return None
    label, words = last.unit.printed, last.unit.row.span
    does = "gains" if step > 0 else "loses"
    many = f"{abs(step)} stitch{'es' if abs(step) > 1 else ''}"
    return Problem(
        "C208",
        Severity.ERROR,
        headline(label, f"{does} {many} each time, {abs(off)} in all, and {record.unit.printed} is written for none"),
        Label(words, f"{'more' if step > 0 else 'fewer'} each time"),
        label,
        index - again,
        last.unit.part,
        f"Take out what {'adds' if step > 0 else 'takes'} a stitch; where it is meant, say how many the rows end with.",
    )  # fmt: skip


def _off(record: Record) -> int:
    """By how many stitches a row goes wrong: more than are stated, or left over."""
    if len(record.outcome.wrong) == 1:
        _, stated, worked = record.outcome.wrong[0]
        return worked - stated
    if [fault.code for fault in record.outcome.found if fault.weight >= 4] == ["C202"]:
        used = {place for element in record.outcome.elements for place in element.into}
        return sum(e.is_stitch and place not in used for place, e in enumerate(record.outcome.below))
    return 0


def _stitches(elements: Sequence[Element]) -> int:
    return sum(element.is_stitch for element in elements)
