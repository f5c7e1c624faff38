"""What is wrong in the sizes that nobody asked for: a figure that is off in one size only shows there.

A loaded pattern of several sizes comes in; the first thing that is wrong in each of the others goes out, as a warning
that names the size, with the pattern loaded in it. Nothing is told of a size in which a row before it was not
understood: what is wrong there may be the reading's.
"""

from collections.abc import Iterator

from tracker.load import Loaded, load
from tracker.problems import Problem, Severity
from tracker.records import dataclass, replace

_MOST = 12
"""Sizes that are looked at."""
_ROWS = 400
"""Rows of a size that must be understood before one that is wrong."""
_CODES = frozenset(("C201", "C202", "C203", "C204", "C205", "C207"))


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """Something wrong in a size that was not asked for."""

    problem: Problem
    """As it is told of the size in hand."""
    loaded: Loaded
    """The pattern in the size in which it is wrong."""


def wrong_elsewhere(loaded: Loaded) -> Iterator[Elsewhere]:
    """The first error of every other size, each place once."""
    seen: set[int] = set()
    for size in loaded.pattern.sizes[:_MOST]:
        if size == loaded.pattern.size:
            continue
        other = load(loaded.source.name, loaded.source.text, size)
        first = _first(other)
        if first is None or first.label.span.start in seen:
            continue
        seen.add(first.label.span.start)
        yield Elsewhere(_told(first, size, loaded), other)


def _first(other: Loaded) -> Problem | None:
    """The first error of a size; None where there is none, or where it may lie in what was not understood."""
    errors = [p for p in other.problems if p.severity is Severity.ERROR]
    if not errors or any(p.code not in _CODES or not p.index or p.index > _ROWS for p in errors):
        return None
    first = min(errors, key=lambda p: p.index or 0)
    at = first.label.span.start
    before = (placed.worked for _, placed in other.fabric.rows(1, (first.index or 1) - 1))
    if not all(one.understood or one.row.span.start <= at < one.row.span.end for one in before):
        return None
    return first


def _told(problem: Problem, size: str, loaded: Loaded) -> Problem:
    """A problem of another size as a warning, at the row that the size in hand works of the same words."""
    at = next(
        (
            (index, placed.printed)
            for index, placed in loaded.fabric.rows(1, _ROWS)
            if placed.worked.row.span.start <= problem.label.span.start < placed.worked.row.span.end
        ),
        None,
    )
    index, row = at if at is not None else (None, problem.row)
    return replace(
        problem,
        severity=Severity.WARNING,
        headline=f"In size {size} {problem.headline}",
        row=row,
        index=index,
        help=f"{problem.help} Checked with --size “{size}”, all of it is told.",
    )
