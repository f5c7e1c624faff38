"""The one edit after which nothing is wrong any more.

A loaded pattern comes in; the likeliest edit that mends all of it goes out, or None: when there is no error, when no
single edit is enough, or when too many would have to be tried.
"""

import re
from collections.abc import Callable, Iterator, Set
from time import process_time

from tracker.load import Loaded, load
from tracker.mending.edits import edits_for
from tracker.notation.pattern import Row
from tracker.problems import Fix, Problem, Severity
from tracker.records import dataclass, replace

MOST_TRIES = 60
"""Times a pattern is read anew in search of the edit."""
_SECONDS = 4.0
"""Seconds of work that a search may take: what large pieces need would keep a maker waiting."""
LONGEST = 200_000
"""Characters of a text that is read so often."""


SLIPS = frozenset(("C201", "C202", "C203", "C204", "C206", "C210"))
"""Codes of warnings that an edit is looked for, where nothing is an error."""


@dataclass(frozen=True, slots=True)
class Mend:
    """An edit that mends the pattern."""

    fix: Fix
    problem: Problem
    """The error it was found for."""
    sentence: str
    """What to do, as help says it."""


def mend(loaded: Loaded, clock: Callable[[], float] = process_time) -> Mend | None:
    """The likeliest single edit that leaves no error; where there is none, one that leaves fewer warnings.

    `clock` tells seconds of work done.
    """
    begun = clock()
    wrong = [problem for problem in loaded.problems if problem.severity is Severity.ERROR]
    wrong = wrong or [p for p in loaded.problems if p.severity is Severity.WARNING and p.code in SLIPS]
    if not wrong or len(loaded.source.text) > LONGEST:
        return None
    tried: set[Fix] = set()
    second: Mend | None = None
    for problem, fix in _in_turn(loaded, wrong):
        if fix in tried:
            continue
        if len(tried) >= MOST_TRIES or clock() - begun > _SECONDS:
            break
        tried.add(fix)
        if _mends(loaded, fix, problem):
            left = _other_sizes(loaded, fix, problem.code == "C211")
            if left == 0:
                return Mend(fix, problem, _sentence(loaded, fix))
            if left == 1 and second is None:
                second = Mend(fix, problem, _sentence(loaded, fix))
    return second


def offered(loaded: Loaded, found: Mend) -> Loaded:
    """The pattern with the edit offered at the error it mends."""
    problems = tuple(
        replace(problem, help=f"{problem.help} {found.sentence}".strip(), fix=found.fix)
        if problem is found.problem
        else problem
        for problem in loaded.problems
    )
    return replace(loaded, problems=problems)


def edited(text: str, fix: Fix) -> str:
    """A text with the edit made."""
    return text[: fix.span.start] + fix.text + text[fix.span.end :]


def _in_turn(loaded: Loaded, wrong: list[Problem]) -> Iterator[tuple[Problem, Fix]]:
    """The edits for the first errors; those of one row together, since the first of them is the cause of the rest."""
    for problem in sorted(wrong, key=_gravest)[:4]:
        for fix in edits_for(loaded, problem):
            yield problem, fix


def _gravest(problem: Problem) -> tuple[int, int]:
    """Signs and names first, for they hide the rest; then what stands first in the text."""
    order = {"T": 0, "R": 1}.get(problem.code[0], 2)
    return order, problem.label.span.start


def _mends(loaded: Loaded, fix: Fix, problem: Problem) -> bool:
    """True when nothing is wrong after the edit, and nothing that was understood no longer is."""
    again = load(loaded.source.name, edited(loaded.source.text, fix), loaded.pattern.size)
    if _errors(again):
        return False
    near = {problem.row, *(row.label for row in _rows_at(loaded, fix))}
    if _warnings(again, near) > _warnings(loaded, near) or again.fabric.length < 1:
        return False
    if not _errors(loaded) and _warnings(again, near) == _warnings(loaded, near):
        return False
    if problem.code == "R304" and _doubts_of_counts(again, near):
        # where the row behind a gap does not fit, what lies before it is missing, and no number is wrong
        return False
    return (
        again.pattern.sizes == loaded.pattern.sizes
        and _followed(again) <= _followed(loaded)
        and _understood_at(again, fix)
    )


def _other_sizes(loaded: Loaded, fix: Fix, all_wrong: bool) -> int:
    """0 when nothing is wrong in any other size after the edit, 1 when none is worse off, 2 when one is.

    `all_wrong` when the error lies in every size, so that none may be left.
    """
    rank = 0
    for size in loaded.pattern.sizes:
        if size == loaded.pattern.size:
            continue
        after = _errors(load(loaded.source.name, edited(loaded.source.text, fix), size))
        if after and (all_wrong or after > _errors(load(loaded.source.name, loaded.source.text, size))):
            return 2
        rank = max(rank, int(after > 0))
    return rank


def _errors(loaded: Loaded) -> int:
    return sum(problem.severity is Severity.ERROR for problem in loaded.problems)


def _rows_at(loaded: Loaded, fix: Fix) -> Iterator[Row]:
    """The row that an edit lies in."""
    for block in loaded.pattern.blocks:
        if isinstance(block, Row) and block.span.start <= fix.span.start <= block.span.end:
            yield block


def _warnings(loaded: Loaded, near: Set[str | None]) -> int:
    """Warnings, and notes of stitches left or passed over in some rows: an edit that leaves some mends nothing.

    Of other rows such notes may have been held back while a row before them was wrong.
    """
    return sum(
        problem.severity is Severity.WARNING
        or problem.severity is Severity.NOTE
        and problem.code in ("C202", "C206")
        and problem.row in near
        for problem in loaded.problems
    )


def _doubts_of_counts(loaded: Loaded, near: Set[str | None]) -> bool:
    """True where some rows do not come out as they say, or leave stitches of what is below."""
    return any(p.code in SLIPS and p.row in near for p in loaded.problems)


def _followed(loaded: Loaded) -> int:
    """Rows that are not counted because a phrase of them was not read."""
    return sum(not placed.worked.understood for stretch in loaded.fabric.stretches for placed in stretch.rows)


def _understood_at(again: Loaded, fix: Fix) -> bool:
    """True when the row that was edited is understood: an edit must not mend by hiding."""
    for stretch in again.fabric.stretches:
        for placed in stretch.rows:
            span = placed.worked.row.span
            if span.start <= fix.span.start <= span.end and not placed.worked.understood:
                return False
    return True


def _sentence(loaded: Loaded, fix: Fix) -> str:
    """The edit in words."""
    text = loaded.source.text
    line, _ = loaded.source.position(fix.span.start)
    old = text[fix.span.start : fix.span.end].strip()
    if not old:
        before = text[: fix.span.start].rstrip().rsplit(None, 3)[-2:]
        behind = f" after “{' '.join(before)}”" if before else ""
        return f"Put “{fix.text.strip(' ,')}”{behind} in line {line}, and the whole pattern agrees."
    around = _around(text, fix)
    where = f" in “{around}”" if len(old) < 4 and around != old else ""
    if not fix.text:
        return f"Take out “{old}”{where} in line {line}, and the whole pattern agrees."
    return f"Change “{old}”{where} in line {line} to “{fix.text}”, and the whole pattern agrees."


def _around(text: str, fix: Fix) -> str:
    """The words to be changed with a few behind them; with the one before where the line or the sentence ends there."""
    start, end = fix.span.start, fix.span.end
    behind = re.match(r"(?:[^\n.;:()\[\]]|\b-\b){0,12}", text[end : end + 12])
    words = (text[start:end] + (behind.group() if behind else "")).split()
    if len(words) < 2:
        before = text[:start].rsplit("\n", 1)[-1].split()[-1:]
        words = [*before, *words]
    return " ".join(words[:3]).rstrip(",")
