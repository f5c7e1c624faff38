"""R302 — allow no range that is not a whole number of repeats.

"Rows 8-13: Rep Rows 2-5" has six rows for a repeat of four: either the range or the rows named are wrong, and the
maker would stop in the middle of the repeat.

    Rows 8-13: Rep Rows 2-5.     Rows 8-13 are 6 rows, the repeat is 4 rows
    Rows 8-11: Rep Rows 2 and 3, ending with Row 2.     Rows 8-11 end with Row 3, and the words say Row 2
    Rows 8-15: Rep Rows 2-5.                                      (mended)
"""

from collections.abc import Iterator

from tracker.notation.page.labelled.row_names import called
from tracker.notation.pattern import Row
from tracker.notation.tree import Rerun
from tracker.problems import Label, Problem, Severity


def ranges(row: Row, again: Rerun, length: int, total: int, tail: int) -> Iterator[Problem]:
    """What is wrong with a range of `total` rows that repeats `length` rows and ends with `tail` others."""
    over = (total - tail) % length if length > 1 else 0
    if over and total != length and not again.until and not again.then and not _ends_so(again, over):
        yield Problem(
            "R302",
            Severity.ERROR,
            f"{row.label} are {total} rows, the repeat is {length} rows",
            Label(row.label_span, f"{total} rows"),
            row.label,
            None,
            row.part,
            _ranges_that_hold(row, length, total, over),
        )
        return
    if not over and total > tail and _ends_otherwise(again, length):
        yield Problem(
            "R302",
            Severity.ERROR,
            f"{row.label} end with {called(row.kind, again.rows[-1:])}, and the words say"
            f" {called(row.kind, (again.ending or 0,))}",
            Label(row.label_span, f"{total} rows"),
            row.label,
            None,
            row.part,
            _ranges_that_end(row, again, length, total),
        )
        return
    if again.times is None or not length:
        return
    worked = length * again.times
    if over and _ends_so(again, over) and total == worked - length + over:
        # "Rows 5-51: Rep Rows 3 and 4 24 times, ending last rep with Row 3"
        return
    if total != worked + tail and (length, again.times) != (1, 1):
        rows = f"is {total} row" if total == 1 else f"are {total} rows"
        yield Problem(
            "R302",
            Severity.ERROR,
            f"{row.label} {rows}, and the repeat worked {again.times} times is {worked + tail}",
            Label(again.span, f"{worked} rows"),
            row.label,
            None,
            row.part,
            "Check the range and how often the rows are repeated.",
        )


def _ranges_that_hold(row: Row, length: int, total: int, over: int) -> str:
    """What would mend a range: the next shorter and the next longer that come out."""
    if len(row.numbers) != total or total != row.numbers[-1] - row.numbers[0] + 1:
        return "Give a range that holds the repeat a whole number of times, or say with which row it ends."
    ends = [row.numbers[-1] + step for step in (-over, length - over) if total + step >= length]
    fitting = " or ".join(called(row.kind, range(row.numbers[0], end + 1)) for end in ends)
    return f"{fitting} would hold it whole; or say with which row it ends."


def _ranges_that_end(row: Row, again: Rerun, length: int, total: int) -> str:
    """What would mend a range that does not end with the row that is named: the next shorter and the next longer."""
    if again.ending is None or len(row.numbers) != total or total != row.numbers[-1] - row.numbers[0] + 1:
        return "Check the range, and the row that it ends with."
    over = again.rows.index(again.ending) + 1
    ends = [row.numbers[-1] + step for step in (over - length, over) if total + step >= 1]
    fitting = " or ".join(called(row.kind, range(row.numbers[0], end + 1)) for end in ends)
    return f"{fitting} would end so; or say that they end with {called(row.kind, again.rows[-1:])}."


def _ends_otherwise(again: Rerun, length: int) -> bool:
    """True when the words name another row of the repeat than the one that the range stops with."""
    named = again.ending is not None and not again.last and not again.until and not again.then
    return named and length > 1 and again.times is None and again.ending in again.rows[: length - 1]


def _ends_so(again: Rerun, over: int) -> bool:
    """True when the words name the row that the last repeat stops with: "Rep Rows 2 and 3, ending with Row 2"."""
    return again.ending is not None and not again.last and again.rows[over - 1] == again.ending
