"""R303, R304 — allow no row number that comes twice or is missing.

The numbers are what a maker counts by, and what "Rep Rows 2-5" refers to. A number that comes again, or one that is
jumped over, means that a row was lost or copied when the pattern was written down.

    Row 4: … / Row 6: …     Row 5 is missing before Row 6
    Row 4: … / Row 5: …                          (mended)
"""

from collections.abc import Iterator

from tracker.notation.page.labels import called
from tracker.notation.tree import Row
from tracker.problems import Label, Problem, Severity

_LISTED = 100
"""Missing rows that are named."""


def numbering(row: Row, last: int | None, sized: bool) -> Iterator[Problem]:
    """What is wrong with a row's first number, after a row numbered `last` (None before the first of a part).

    A pattern of several sizes (`sized`) leaves out rows that one of them does not work.
    """
    if not row.numbers or last is None:
        return
    first = row.numbers[0]
    if first == 1:
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
    elif first > last + 1 and not sized:
        missing = tuple(range(last + 1, min(first, last + _LISTED)))
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
