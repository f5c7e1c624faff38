"""C209 — what one row says of its turning chain, when all that is wrong is wrong because of it.

A pattern and its errors come in; the statement goes out without which every row agrees, or None. The pattern is worked
anew a few times for it, and only where something is wrong.
"""

from collections.abc import Sequence

from tracker.fabric.build import build
from tracker.fabric.model import Fabric
from tracker.fabric.readings.habits import stated_turning
from tracker.notation.pattern import Pattern, Row
from tracker.notation.tree import Turning
from tracker.problems import Label, Problem, Severity
from tracker.problems.headline import headline
from tracker.records import replace

AGAINST_COUNTS = "against the counts"
"""Said of the statement."""
AGAINST_ITS_COUNT = "against its count"
"""Said of one that its own row tells is wrong."""
_MOST = 3
"""Statements that are tried."""


def misled(pattern: Pattern, fabric: Fabric, problems: Sequence[Problem]) -> Problem | None:
    """The statement that leads the others astray, told at its row."""
    wrong = {problem.row for problem in problems if problem.severity is Severity.ERROR}
    if not wrong or any(p.severity is Severity.ERROR and not p.code.startswith("C") for p in problems):
        return None
    told = [
        (k, row, *said)
        for k, row in enumerate(pattern.blocks)
        if isinstance(row, Row) and (said := _said(row))
    ]
    senses = [(chains, turning.counts) for _, _, chains, turning in told]
    alone = [each for each, sense in zip(told, senses, strict=True) if senses.count(sense) == 1]
    for k, row, chains, turning in alone[:_MOST]:
        usual = turning.counts == (chains > 2) or chains == 2
        if row.label in wrong:
            if usual or _before(problems, row):
                # one count that differs is likelier a slip of its own
                continue
        elif len(wrong) == 1 and (usual or _before(problems, row)):
            continue
        silent = replace(row, items=tuple(item for item in row.items if item is not turning))
        blocks = (*pattern.blocks[:k], silent, *pattern.blocks[k + 1 :])
        _, found = build(replace(pattern, blocks=blocks))
        if not any(problem.severity in (Severity.ERROR, Severity.WARNING) for problem in found):
            says, rest = ("counts", "does not") if turning.counts else ("does not count", "does")
            index = next((i for i, p in fabric.rows(1, 2_000) if p.worked.row.span == row.span), None)
            return Problem(
                "C209",
                Severity.ERROR,
                headline(
                    row.label, f"says that its chain {chains} {says}, and the counts agree only if it {rest}"
                ),
                Label(turning.span, AGAINST_ITS_COUNT if row.label in wrong else AGAINST_COUNTS),
                row.label,
                index,
                row.part,
                "Take it out, or count a row that begins so: that tells which is meant.",
            )
    return None


def _before(problems: Sequence[Problem], row: Row) -> bool:
    """True when something is wrong before a row already."""
    return any(p.severity is Severity.ERROR and p.label.span.start < row.span.start for p in problems)


def _said(row: Row) -> tuple[int, Turning] | None:
    """What a row says of its own turning chain, and not of all of them."""
    told = stated_turning(row)
    return told if told is not None and not told[1].throughout and told[1] in row.items else None
