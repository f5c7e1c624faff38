"""R303, R304 — allow no row number that comes twice, is missing, or runs backwards.

The numbers are what a maker counts by, and what "Rep Rows 2-5" refers to. A number that comes again, or one that is
jumped over, means that a row was lost or copied when the pattern was written down.

    Row 4: … / Row 6: …     Row 5 is missing before Row 6
    Row 4: … / Row 5: …                          (mended)
"""

from collections.abc import Iterator
from itertools import takewhile

from tracker.notation.page.labelled.row_names import called
from tracker.notation.pattern import Row
from tracker.notation.tree import Chain, Turn, Turning
from tracker.problems import Label, Problem, Severity
from tracker.records import replace


def numbering(row: Row, last: int | None) -> Iterator[Problem]:
    """What is wrong with a row's first number, after a row numbered `last` (None before the first of a part)."""
    if not row.numbers or last is None:
        return
    first = row.numbers[0]
    if first == 1 and not (last == 1 and _goes_back(row)):
        return
    if first <= last:
        yield Problem(
            "R303",
            Severity.ERROR,
            f"{called(row.kind, (first,))} comes twice",
            Label(row.label_span, "numbered again"),
            row.label,
            None,
            row.part,
            "Number the rows on from the one before; check whether one of them is there by mistake.",
        )
    elif first > last + 1:
        missing = range(last + 1, first)
        yield Problem(
            "R304",
            Severity.ERROR,
            f"{called(row.kind, missing)} {'is' if len(missing) == 1 else 'are'} missing before {row.label}",
            Label(row.label_span, "the numbers jump"),
            row.label,
            None,
            row.part,
            "Find the missing row, or number the rows on.",
        )


def _goes_back(row: Row) -> bool:
    """True for "ch 1, turn, dc in each dc": a second row, for a first has nothing to turn on."""
    lead = takewhile(lambda item: isinstance(item, (Chain, Turn, Turning)), row.items)
    return row.kind == "row" and any(isinstance(item, Turn) and item.turned for item in lead)


def misprinted(found: Iterator[Problem], second: Row | None, row: Row) -> Iterator[Problem]:
    """The same; where Row 1 comes twice and then Row 3, the second of them is the one that is misnumbered."""
    for problem in found:
        if problem.code == "R304" and second is not None and row.numbers[0] == 3 and row.part == second.part:
            label = called(second.kind, (1,))
            problem = replace(
                problem,
                code="R303",
                headline=f"{label} comes twice, and {called(second.kind, (2,))} is missing",
                label=Label(second.label_span, "numbered again"),
                row=second.label,
                help="Number the rows on from the one before; check whether one of them is there by mistake.",
            )
        yield problem


def backwards(row: Row) -> Iterator[Problem]:
    """What is wrong with a range whose first number is the higher: "Rows 9-6"."""
    if len(row.numbers) == 2 and row.numbers[0] > row.numbers[1]:
        yield Problem(
            "R303",
            Severity.ERROR,
            f"{row.label} count backwards",
            Label(row.label_span, "the first is the higher"),
            row.label,
            None,
            row.part,
            "Check both numbers of the range.",
        )
