"""Single edits that may mend an error, likeliest first.

A loaded pattern and one of its errors come in; fixes come out, for as long as someone asks. None of them is tried
here, and none changes more than one place.
"""

from collections.abc import Iterator
from itertools import chain, islice

from tracker.fabric.checks.contradictions import NO_SUCH_CHAIN
from tracker.fabric.faults.misled import AGAINST_COUNTS
from tracker.load import Loaded
from tracker.mending.kinds.changes import (
    changes_put_in,
    lacks_its_end,
    left_out,
    once_a_pass,
    other_kinds,
    stands_alone,
)
from tracker.mending.kinds.evenly import worked_even
from tracker.mending.kinds.figures import figures_in
from tracker.mending.kinds.groups import far_from_stated, own_again, repeats_lacking, uneven_groups
from tracker.mending.kinds.names import (
    changes_left_out,
    other_names,
    other_stitches,
    other_words,
    phrases_twice,
    statements,
)
from tracker.mending.kinds.numbers import (
    begun_in,
    changed_to,
    counts_of,
    figures_of,
    foundation_of,
    one_repeat,
    other_numbers,
    other_spaces,
    row_before,
    spaces_there,
    stated_counts,
    together,
)
from tracker.mending.kinds.references import longer_lists, other_rows
from tracker.mending.kinds.signs import brackets, dropped_marks, stars
from tracker.notation.pattern import Row
from tracker.problems import Fix, Problem, Severity

MOST_NUMBERS = 24
"""Numbers of a row that are tried before what may be left out is."""
_PASSES = 8
"""Numbers of repeats that are tried before the count is."""
_STRUCTURAL = frozenset(("C202", "C203", "C204", "C205", "C206", "C207", "C208", "C210"))


def edits_for(loaded: Loaded, problem: Problem) -> Iterator[Fix]:
    """Edits that may mend one error."""
    row = row_of(loaded, problem)
    others = {p.code for p in loaded.problems if p.severity is Severity.ERROR and p.row == problem.row}
    code = problem.code
    if code == "T102":
        yield from brackets(loaded, row, problem)
    elif code == "T103":
        yield from stars(loaded, row, problem)
    elif code in ("T104", "T105"):
        yield from other_names(loaded, problem)
    elif code in ("R301", "R302", "R303", "R304"):
        yield from other_rows(loaded, row, problem)
    elif code == "C211":
        yield from longer_lists(loaded, row, problem)
    if row is None or code.startswith("C") and _after_a_gap(loaded, problem):
        # where a row is missing no number is wrong
        return
    if code == "C209":
        yield from statements(loaded, row, alone=problem.label.text == AGAINST_COUNTS)
        return
    if problem.label.text == NO_SUCH_CHAIN:
        for figure in figures_in(loaded, problem.label.span):
            if figure.style == "ordinal":
                yield from changed_to(figure, *range(figure.value - 1, 0, -1))
    if code == "C205":
        yield from spaces_there(loaded, row, problem)
    if code == "C208" or code == "C201" and len(row.numbers) > 1 and row.rerun is None:
        yield from worked_even(loaded, row)
    if code.startswith("C"):
        yield from phrases_twice(loaded, row)
        yield from begun_in(loaded, row)
    if code.startswith("C"):
        yield from statements(loaded, row, unusual=True)
    if code == "C201" and any(name.startswith("?") for s in row.stated for name, _ in s.counts):
        # groups that are no longer alike are not compared, and nothing would be mended
        yield from stated_counts(loaded, row)
    if code == "C201" or "C201" in others:
        yield from other_kinds(loaded, row)
        yield from other_spaces(loaded, row)
    if code.startswith("C"):
        yield from repeats_lacking(loaded, row)
    if code in ("C201", "C202", "C204", "C207") and lacks_its_end(loaded, row):
        yield from left_out(loaded, row)
    if code == "C201":
        yield from uneven_groups(loaded, row)
        yield from islice(one_repeat(loaded, row), _PASSES)
        if far_from_stated(loaded, row):
            yield from islice(other_numbers(loaded, row, problem, far=False), MOST_NUMBERS)
    every_pass = code in ("C201", "C202", "C204") and once_a_pass(loaded, row)
    if code.startswith("C") and stands_alone(loaded, row):
        yield from changes_put_in(loaded, row)
    if every_pass:
        yield from changes_left_out(loaded, row)
        yield from changes_put_in(loaded, row)
    if code == "C201" and not others & _STRUCTURAL:
        # a first row that disagrees may lack a chain: the rows after it tell which
        foundation = foundation_of(loaded, row)
        yield from chain.from_iterable(
            changed_to(figure, figure.value + 1, figure.value - 1) for figure in foundation
        )
        yield from changes_left_out(loaded, row, mirrored=True)
        yield from stated_counts(loaded, row)
        # so many stitches as there are below were used: what is wrong is how many are made of them
        yield from changes_left_out(loaded, row)
    if code.startswith("C"):
        yield from together(loaded, row)
    if code in ("C205", "C210"):
        yield from other_stitches(loaded, problem)
    yield from islice(other_numbers(loaded, row, problem, far=False, leading=False), MOST_NUMBERS)
    if code.startswith("C"):
        yield from left_out(loaded, row)
        yield from own_again(loaded, row)
    yield from other_numbers(loaded, row, problem, far=False, leading=True)
    if not every_pass:
        yield from changes_left_out(loaded, row)
        yield from changes_put_in(loaded, row)
    yield from statements(loaded, row)
    yield from other_words(loaded, row)
    yield from islice(other_numbers(loaded, row, problem, far=True), MOST_NUMBERS)
    yield from dropped_marks(loaded, row)
    if code == "C201" and others & _STRUCTURAL:
        yield from stated_counts(loaded, row)
    before = row_before(loaded, row)
    if before is not None and code in _STRUCTURAL:
        for figure in figures_of(loaded, before):
            yield from changed_to(figure, figure.value + 1, figure.value - 1)
    if before is not None and code == "C201":
        # its chain may have been read as its count told
        for figure in counts_of(loaded, before):
            yield from changed_to(figure, figure.value + 1, figure.value - 1)


def _after_a_gap(loaded: Loaded, problem: Problem) -> bool:
    """True where a row is missing before an error of counts."""
    gaps = [p.label.span.start for p in loaded.problems if p.code == "R304"]
    return any(start <= problem.label.span.start for start in gaps)


def row_of(loaded: Loaded, problem: Problem) -> Row | None:
    """The printed row an error lies in."""
    at = problem.label.span.start
    rows = [block for block in loaded.pattern.blocks if isinstance(block, Row)]
    inside = next((row for row in rows if row.span.start <= at < max(row.span.end, row.span.start + 1)), None)
    named = next((row for row in rows if row.label == problem.row), None)
    return (
        named
        if inside is None
        or (named is not None and named.part == problem.part and inside.label != problem.row)
        else inside
    )
