"""Two problems of numbers that are one slip: told once, at the row where it was made.

A row that carries the number of the one before leaves the next number missing; a range that is too short or too long
leaves a gap before the row behind it, or runs into it.

    Row 4: … / Row 4: … / Row 6: …          Row 4 comes twice, and Row 5 is missing
    Rows 7-11: Rep Rows 5 and 6. / Row 13: …     Rows 7-11 are 5 rows, the repeat is 2 rows (Rows 7-12 would hold it)
"""

from collections.abc import Sequence
from itertools import pairwise

from tracker.notation.page.labelled.row_names import called
from tracker.notation.pattern import Pattern, Row
from tracker.problems import Label, Problem, Severity
from tracker.records import replace

_CODES = ("R302", "R303", "R304")


def of_one_slip(pattern: Pattern, problems: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """The problems without those that only follow from a number told wrong right before."""
    found = [p for p in problems if p.code in _CODES and p.severity is Severity.ERROR]
    if not found:
        return problems
    rows = [block for block in pattern.blocks if isinstance(block, Row)]
    told: dict[int, Problem] = {}
    for problem in found:
        told.setdefault(_row_of(rows, problem), problem)
    instead: dict[int, Problem | None] = {}
    for k, problem in told.items():
        if k > 1 and problem.code == "R304" and k - 1 not in told:
            twice = _told_twice(rows[k - 2], rows[k - 1], rows[k], problem)
            if twice is not None:
                instead[id(problem)] = twice
    for (k, first), (after, second) in pairwise(sorted(told.items())):
        if k < 0 or after != k + 1 or id(first) in instead or id(second) in instead:
            continue
        whole = _both(rows[k], rows[after], first, second) or _jumped(rows[k - 1 : after + 1], first, second)
        if whole is not None:
            instead[id(first)], instead[id(second)] = whole, None
    return tuple(one for problem in problems if (one := instead.get(id(problem), problem)) is not None)


def _row_of(rows: Sequence[Row], problem: Problem) -> int:
    at = problem.label.span.start
    return next((k for k, row in enumerate(rows) if row.label_span.start <= at < row.span.end), -1)


def _told_twice(before: Row, row: Row, after: Row, gap: Problem) -> Problem | None:
    """Of "Row 2, Row 2, Row 4" the second, be it in another yarn or below a heading, rather than the gap behind it."""
    alike = {one.kind for one in (before, row, after)}
    if (
        len(alike) != 1
        or row.part != after.part
        or len(row.numbers) != 1
        or not before.numbers
        or not after.numbers
    ):
        return None
    number = row.numbers[0]
    if before.numbers[-1] != number or after.numbers[0] != number + 2:
        return None
    own, next_one = called(row.kind, (number,)), called(row.kind, (number + 1,))
    return replace(
        gap,
        code="R303",
        headline=f"{own} comes twice, and {next_one} is missing",
        label=Label(row.label_span, "numbered again"),
        row=row.label,
        help=f"Number the second of them {next_one}.",
    )


def _jumped(rows: Sequence[Row], first: Problem, second: Problem) -> Problem | None:
    """Of "Row 2, Row 13, Row 4": the one in the middle; None where the last does not go on from the first."""
    if len(rows) != 3 or (first.code, second.code) != ("R304", "R303"):
        return None
    before, row, after = rows
    alike = {(one.kind, one.part) for one in rows}
    if len(alike) != 1 or len(row.numbers) != 1 or not before.numbers or not after.numbers:
        return None
    if after.numbers[0] != before.numbers[-1] + 2:
        return None
    meant = called(row.kind, (before.numbers[-1] + 1,))
    return replace(first, headline=f"{row.label} stands where {meant} would", help=f"Number it {meant}.")


def _both(row: Row, after: Row, first: Problem, second: Problem) -> Problem | None:
    """What is wrong with a row and the one behind it, in one; None where each is wrong by itself."""
    if not row.numbers or not after.numbers or row.kind != after.kind or row.part != after.part:
        return None
    number, following = row.numbers[0], after.numbers[0]
    own, next_one = called(row.kind, (number,)), called(row.kind, (row.numbers[-1] + 1,))
    if (first.code, second.code) == ("R303", "R304") and following == row.numbers[-1] + 2:
        return replace(
            first,
            headline=f"{own} comes twice, and {next_one} is missing",
            help=f"Number the second of them {next_one}."
            if len(row.numbers) == 1
            else "Number the rows on from the one before.",
        )
    if (first.code, second.code) == ("R304", "R303") and following == number and len(row.numbers) == 1:
        missing = called(row.kind, (number - 1,))
        told = f"{missing} is missing before {row.label}"
        if not first.headline.startswith(told):
            return None
        return replace(
            first, headline=f"{told}, and {own} comes twice", help=f"Number the first of them {missing}."
        )
    if first.code == "R302" and row.rerun is not None and following > number:
        length = len(row.rerun.rows) or row.rerun.last
        ending = row.rerun.ending
        whole = called(row.kind, range(number, following))
        over = row.rerun.rows.index(ending) + 1 if ending in row.rerun.rows else 0
        if length and (following - number) % length == over % length:
            holds = (
                f"would end with {called(row.kind, (ending,))}" if ending and over else "would hold it whole"
            )
            return replace(first, help=f"{whole} {holds}, and {after.label} goes on from there.")
    return None
