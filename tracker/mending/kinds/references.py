"""Numbers of rows, and lists of sizes, put right.

A reference, a label or a list comes in; edits go out, likeliest first.
"""

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from tracker.load import Loaded, load
from tracker.mending.kinds.figures import figures_in
from tracker.mending.kinds.numbers import changed_to
from tracker.notation.pattern import Row
from tracker.notation.tree import Group, Which, Work
from tracker.problems import Fix, Problem, Span


def other_rows(loaded: Loaded, row: Row | None, problem: Problem) -> Iterator[Fix]:
    """A number of a reference, of the row's own label, or of the label before it, put right."""
    rows = [block for block in loaded.pattern.blocks if isinstance(block, Row)]
    k = next((at for at, one in enumerate(rows) if one is row), None)
    known = sorted({number for one in rows for number in one.numbers[:400]}, reverse=True)
    # a row without a number is named by its own words, and what they refer to stands in them
    label = list(figures_in(loaded, row.label_span)) if row is not None and row.numbers else []
    named = list(figures_in(loaded, problem.label.span))
    inside = list(figures_in(loaded, row.rerun.span)) if row is not None and row.rerun is not None else []
    figures = [f for f in dict.fromkeys((*named, *inside)) if f not in label]
    so_far = max((number for one in rows[: k or 0] for number in one.numbers[-1:]), default=10**6)
    own = min(row.numbers, default=so_far + 1) if row is not None else 10**6
    earlier_rows = [one for one in rows[: k or 0] if not _into_foundation(one)]
    before = sorted({number for one in earlier_rows for number in one.numbers[:400]}, reverse=True)
    if problem.code == "R301" and any(
        min(known, default=0) < figure.value < own and figure.value not in known and figure.style == "figure"
        for figure in figures
    ):
        # the row that is named was left out, and the reference is right
        return
    if problem.code == "R301":
        for one, other in pairwise(figures):
            between = loaded.source.text[one.span.end : other.span.start].strip()
            if between in ("-", "–", "to") and one.value > 10 and other.value > 10:
                yield Fix(
                    Span(one.span.start, other.span.end), f"{one.value - 10}{between}{other.value - 10}"
                )
        for figure in figures:
            digits = str(figure.value)
            shorter = [int(digits[:n] + digits[n + 1 :]) for n in range(len(digits)) if len(digits) > 1]
            if figure.value not in known or figure.value >= own:
                earlier = before or [n for n in known if n < own]
                doubled = [n for n in shorter if digits == 2 * str(n)]
                listed = (
                    re.search(rf"\b(?:and|&)\s+{digits}\b|\b{digits}\s+(?:and|&)", loaded.source.text)
                    is not None
                )
                beside = [o.value for o in figures if listed and o is not figure and o.value in known]
                yield from changed_to(figure, *(n for n in earlier if figure.value - n == 10))
                yield from changed_to(figure, *(n for v in beside for n in (v - 1, v + 1) if n in earlier))
                yield from changed_to(figure, *(n for n in doubled if n in earlier))
                yield from changed_to(figure, *earlier[:1])
                yield from changed_to(figure, *sorted(earlier, key=lambda n: abs(n - figure.value))[:3])
                yield from changed_to(figure, *(n for n in shorter if n in earlier))
                yield from changed_to(figure, *sorted(earlier, key=lambda n: abs(n - figure.value))[3:12])
    if problem.code == "R304" and k is not None and _goes_on(rows, k):
        return
    if problem.code in ("R303", "R304"):
        # the first row is the first, whatever comes behind it
        named_before = list(figures_in(loaded, rows[k - 1].label_span)) if k and k > 1 else []
        if k and problem.code == "R303" and len(rows[k - 1].numbers) > 1:
            # a range that runs into the row behind it
            yield from changed_to(
                list(figures_in(loaded, rows[k - 1].label_span))[-1], rows[k].numbers[0] - 1
            )
        if k and label and rows[k - 1].numbers:
            yield from changed_to(label[0], rows[k - 1].numbers[-1] + 1)
        for figure in (
            (*label[-1:], *label[:1]) if problem.code == "R303" else (*named_before[-1:], *label[:1])
        ):
            yield from changed_to(
                figure, figure.value + 1, figure.value - 1, figure.value + 2, figure.value - 2
            )
        for figure in (*label, *named_before):
            yield from changed_to(figure, figure.value + 1, figure.value - 1)
    else:
        times = max(1, len(row.rerun.rows) if row is not None and row.rerun is not None else 1)
        for figure in label[-1:]:
            yield from changed_to(figure, *(figure.value + step for step in (-1, 1, -2, 2, times, -times)))
        figures.sort(key=lambda f: f.style not in ("times", "word"))
        for figure in figures:
            yield from changed_to(
                figure, figure.value - 1, figure.value + 1, figure.value - 2, figure.value + 2
            )


def _into_foundation(row: Row) -> bool:
    """True for a first row, which is worked into the chain and rarely again."""
    works = [item for item in row.items if isinstance(item, (Work, Group))]
    return bool(works) and works[0].where.which is Which.FROM_HOOK


def _goes_on(rows: Sequence[Row], k: int) -> bool:
    """True where the rows behind a gap are numbered on from it: a row was left out, and no number is wrong.

    Behind a range it is as likely that the range is told one too short.
    """
    row = rows[k]
    if k and len(rows[k - 1].numbers) > 1:
        return False
    after = rows[k + 1] if k + 1 < len(rows) else None
    if len(row.numbers) > 1:
        return True
    same = after is not None and (after.kind, after.part) == (row.kind, row.part)
    return same and after is not None and bool(after.numbers) and after.numbers[0] == row.numbers[-1] + 1


def longer_lists(loaded: Loaded, row: Row | None, problem: Problem) -> Iterator[Fix]:
    """A figure added to a list that lacks one, or one taken out of a list that has too many."""
    span = problem.label.span
    text = loaded.source.text[span.start : span.end]
    hits = list(re.finditer(r"\d+", text))
    wanted = len(loaded.pattern.sizes)
    if len(hits) == wanted + 1:
        for hit in reversed(hits):
            cut = re.compile(r"\s*,\s*").match(text[: hit.start()][::-1])
            begin = hit.start() - (cut.end() if cut else 0)
            yield Fix(Span(span.start + begin, span.start + hit.end()), "")
    elif len(hits) == wanted - 1 and len(hits) > 1:
        values = [int(hit.group()) for hit in hits]
        step = values[-1] - values[-2]
        made = list(_made_in_last_size(loaded, row))
        told = row is not None and any(s.span.start <= span.start < s.span.end for s in row.stated)
        for value in dict.fromkeys(
            (*(made if told else ()), values[-1] + step, *made, *range(values[-1] + 1, values[-1] + 13))
        ):
            at = span.start + hits[-1].end()
            joined = (
                ") ("
                if re.search(r"\)\s*\(|\]\s*\[", loaded.source.text[row.span.start if row else 0 : span.end])
                else ", "
            )
            yield Fix(Span(at, at), f"{joined}{value}")


def _made_in_last_size(loaded: Loaded, row: Row | None) -> Iterator[int]:
    if row is None:
        return
    other = load(loaded.source.name, loaded.source.text, loaded.pattern.sizes[-1])
    found = [
        placed.worked
        for stretch in other.fabric.stretches
        for placed in stretch.rows
        if placed.label_span.start == row.label_span.start
    ]
    for made in found[-1:]:
        yield from made.makes.values()
        yield made.stitches
