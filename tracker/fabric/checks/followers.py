"""Which of the faults of rows that are worked one onto another is the error, and which only follow from it.

A word that nobody knows, a bracket that is never closed, a name of the other terms: what the row makes is then a guess,
even where a count tells how many stitches it is. A row that is missing, or a range that stops in the middle of its
repeat: what stands there is another row than was meant. Rows worked onto it may fail for that reason alone, so nothing
that goes wrong in them is called an error, up to the first that is understood and makes the count it states.

A row that leaves stitches without saying so may mean it; when the very next one goes wrong, it did not.
"""

from collections.abc import Iterable, Mapping

from tracker.fabric.model import Fabric
from tracker.notation.pattern import Row
from tracker.notation.tree import Group, Repeat, Turn, Which, Work
from tracker.problems import Problem, Severity
from tracker.records import replace

_OF_THE_WORDS = frozenset(("T102", "T103", "T104", "T105"))
_OF_THE_ROWS = frozenset(("R302", "R304"))
_MOST = 2_000
"""Rows that are looked at."""


def without_followers(
    of_reading: tuple[Problem, ...], of_working: tuple[Problem, ...], fabric: Fabric
) -> tuple[Problem, ...]:
    """Problems of working, those that only follow from errors of reading as notes."""
    of_working = _left_on_purpose(_left_by_mistake(of_working), fabric)
    at = [p.label.span.start for p in of_reading if p.code in _OF_THE_WORDS and p.severity is Severity.ERROR]
    misplaced = {
        (p.row, p.part): p.code for p in of_working if p.code in _OF_THE_ROWS and p.severity is Severity.ERROR
    }
    if not (at or misplaced) or not any(
        p.severity is Severity.ERROR and p.code.startswith("C") for p in of_working
    ):
        return of_working
    shaken = _shaken(at, misplaced, of_working, fabric)
    return tuple(
        replace(problem, severity=Severity.NOTE)
        if problem.index in shaken and problem.severity is not Severity.NOTE
        else problem
        for problem in of_working
    )


def _left_by_mistake(of_working: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """Problems of working, stitches left in silence as an error where the row that is worked onto them goes wrong."""
    wrong = {problem.index for problem in of_working if problem.severity is Severity.ERROR and problem.index}
    return tuple(
        replace(problem, severity=Severity.ERROR)
        if problem.code == "C202"
        and problem.severity is Severity.WARNING
        and problem.index
        and problem.index + 1 in wrong
        and problem.index not in wrong
        else problem
        for problem in of_working
    )


def _left_on_purpose(of_working: tuple[Problem, ...], fabric: Fabric) -> tuple[Problem, ...]:
    """Problems of working, stitches left in silence by a short row as notes.

    It turns once more than the rows beside it, "ch 1, turn, sc in first 9 sc; turn", or the row worked onto it tells as
    many stitches as it left standing.
    """
    silent = {p.index for p in of_working if p.code == "C202" and p.severity is Severity.WARNING}
    if not silent:
        return of_working
    amiss = {p.index for p in of_working if p.index and p.severity is not Severity.NOTE}
    short = set()
    rows = dict(fabric.rows(1, _MOST))
    for index in silent:
        placed, then = rows.get(index or 0), rows.get((index or 0) + 1)
        borne_out = then is not None and (index or 0) + 1 not in amiss and then.worked.understood
        if placed is None or placed.kind != "row":
            continue
        if _turns_twice(placed.worked.row) or (
            borne_out
            and then is not None
            and then.worked.stitches <= placed.worked.stitches
            and _tells_how_many(then.worked.row)
        ):
            short.add(index)
    return tuple(
        replace(p, severity=Severity.NOTE) if p.code == "C202" and p.index in short else p for p in of_working
    )


def _turns_twice(row: Row) -> bool:
    """True for "ch 1, turn, sc in first 9 sc; turn": one turn before so many stitches, and one behind them."""
    work = [k for k, item in enumerate(row.items) if isinstance(item, (Work, Group, Repeat))]
    turns = [k for k, item in enumerate(row.items) if isinstance(item, Turn) and item.turned]
    return bool(work) and len(turns) > 1 and turns[0] < work[0] and turns[-1] > work[-1]


def _tells_how_many(row: Row) -> bool:
    """True for a row that tells of every run how many stitches it is, "sc in each of next 9 sc", or states a count."""
    work = [item for item in row.items if isinstance(item, (Work, Group, Repeat))]
    return bool(row.stated) or all(
        isinstance(item, Work) and item.where.which is not Which.EACH for item in work
    )


def _shaken(
    at: Iterable[int],
    misplaced: Mapping[tuple[str | None, str | None], str],
    of_working: tuple[Problem, ...],
    fabric: Fabric,
) -> set[int]:
    """Indices of the rows that stand on one with an error of reading, or on one `misplaced`, and on nothing sure since.

    The row behind a gap is itself worked onto another than was meant.
    """
    wrong = {problem.index for problem in of_working if problem.severity is Severity.ERROR}
    shaken: set[int] = set()
    doubtful = False
    for index, placed in fabric.rows(1, _MOST):
        span = placed.worked.row.span
        code = misplaced.get((placed.printed, placed.part))
        if any(span.start <= place < span.end for place in at):
            # what its count says of it may follow from that word alone
            doubtful = True
            shaken.add(index)
        elif code == "R302":
            doubtful = True
        elif doubtful and placed.worked.understood and placed.worked.row.stated and index not in wrong:
            doubtful = False
        elif doubtful or code == "R304" and index in wrong:
            doubtful = True
            shaken.add(index)
    return shaken
