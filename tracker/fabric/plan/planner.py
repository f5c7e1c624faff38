"""The plan of a pattern: ranges, parts, rows that repeat others.

Blocks of a pattern come in; units come out, each a printed row with the number it has this time, or rows that
repeat many times. References that don't hold are reported.
"""

from collections.abc import Sequence

from tracker.fabric.checks.numbering import backwards, misprinted, numbering
from tracker.fabric.plan.in_pattern import in_pattern
from tracker.fabric.plan.ledger import Ledger
from tracker.fabric.plan.order import Block, ordered
from tracker.fabric.plan.reruns import rerun
from tracker.fabric.plan.units import MAX_LISTED, Loop, Plan
from tracker.fabric.stated import uses_ends
from tracker.notation.moved import as_told
from tracker.notation.page.sized.size_names import one_of_several
from tracker.notation.pattern import Aside, Pattern, Row, Setup
from tracker.notation.phrase.told.even import pattern_told
from tracker.notation.tree import ANY, Chain, Prose, Say, Stated, Turn, Which, Work
from tracker.records import replace

_FOLLOWS = ("next", "work")
"""Labels of rows that go on with the count: "Next row", "Work 4 rows even"."""


def plan_of(pattern: Pattern) -> Plan:
    """The plan of a pattern."""
    ledger = Ledger()
    for printed in pattern.blocks:
        if isinstance(printed, Row):
            ledger.plan.problems.extend(backwards(printed))
    blocks = ordered(pattern.blocks)
    sized = len(pattern.sizes) > 1 or one_of_several(pattern.notes)
    for k, block in enumerate(blocks):
        if isinstance(block, Setup):
            block = _with_turning_chain(block, blocks[k + 1 :])
        if isinstance(block, Row) and block.rerun is not None and block.rerun.stitches is not None:
            block = _as_far_as(block, blocks[k + 1 :])
        _plan(ledger, block, sized)
    return ledger.plan


def _with_turning_chain(setup: Setup, after: Sequence[Block]) -> Setup:
    """ "Ch 12. Ch 2 more to turn." before "Dc in 4th ch from hook": one foundation, which the first stitch says."""
    told = [item for item in setup.items if not isinstance(item, (Say, Turn))]
    row = next((b for b in after if isinstance(b, Row)), None)
    first = next((item for item in row.items if isinstance(item, Work)), None) if row is not None else None
    if len(told) != 2 or first is None or first.where.which is not Which.FROM_HOOK:
        return setup
    long, turning = told
    if not isinstance(long, Chain) or not isinstance(turning, Chain):
        return setup
    if not turning.count < first.where.nth <= turning.count + 2 < long.count:
        return setup
    whole = replace(long, count=long.count + turning.count, span=long.span.to(turning.span))
    return replace(setup, items=tuple(whole if i is long else i for i in setup.items if i is not turning))


def _as_far_as(row: Row, after: Sequence[Block]) -> Row:
    """ "Rep Row 2 until 4 sts remain", where the number of the following row tells how many rows that is."""
    assert row.rerun is not None
    assert row.rerun.stitches is not None
    told = row.stated or (Stated(((ANY, row.rerun.stitches),), row.rerun.span),)
    if row.numbers:
        return replace(row, stated=told)
    following = next((b[0] if isinstance(b, tuple) else b for b in after if not isinstance(b, Aside)), None)
    if (
        not isinstance(following, Row)
        or following.part != row.part
        or not following.numbers
        or following.numbers[0] == 1
    ):
        return row
    return replace(row, stated=told, rerun=replace(row.rerun, up_to=following.numbers[0] - 1, until=""))


def _plan(ledger: Ledger, block: Block, sized: bool) -> None:
    """Plans one block."""
    if isinstance(block, Setup):
        ledger.plan.units.append(block)
        ledger.setups[block.part] = block
        ledger.first = True
        ledger.cycle, ledger.begun = (), len(ledger.done)
        return
    if isinstance(block, Aside):
        ledger.plan.units.append(block)
        _pattern(ledger, block.text)
        return
    row, numbers = (block[0], (block[1],)) if isinstance(block, tuple) else (block, block.numbers)
    if row.part != ledger.part or not ledger.entered:
        ledger.enter(row.part)
        if not numbers or ledger.last is None or numbers[0] <= ledger.last:
            ledger.last = None
    if numbers and numbers[0] == 1:
        ledger.first = True
    other_way = ledger.kind in ("row", "round") and row.kind in ("row", "round") and row.kind != ledger.kind
    anew = ledger.fastened or other_way or ledger.along and bool(numbers) and numbers[0] == 2
    if anew and numbers and ledger.last is not None and numbers[0] <= ledger.last:
        # "Fasten off. Rejoin yarn …": the other side is numbered from where the two part; so is a fin's Row 2 on a body
        ledger.last = None
    if numbers and ledger.last is not None and ledger.goes_on_elsewhere(row.kind, numbers[0]):
        # "Round 31" behind the rows of a heel: on from the rounds before them
        ledger.last = numbers[0] - 1
    ledger.kind = row.kind
    ledger.along = not numbers and row.rerun is None and uses_ends(as_told(row.items))
    ledger.fastened = any(isinstance(item, Say) and item.kind == "fasten off" for item in as_told(row.items))
    if not isinstance(block, tuple):
        found = numbering(row, None if ledger.uncounted else ledger.last)
        ledger.plan.problems.extend(misprinted(found, ledger.second, row))
        ledger.second = row if numbers == (1,) and ledger.last == 1 else None
        ledger.uncounted = ledger.uncounted and not numbers
        if numbers and not sized:
            ledger.jump_to(numbers[0])
    row = in_pattern(ledger, row)
    if row.rerun is not None:
        rerun(ledger, row, numbers, row.rerun)
    elif not numbers:
        _plan_unnumbered(ledger, row)
    else:
        _plan_numbered(ledger, row, numbers)
    for item in as_told(row.items):
        if isinstance(item, Say) and item.kind == "pattern":
            _pattern(ledger, item.text)


def _pattern(ledger: Ledger, words: str) -> None:
    """Notes which rows are the pattern, where words say so: "These 2 rows form the pattern"."""
    last, numbers = pattern_told(words)
    known = ledger.known.get((ledger.part, "row"), {})
    if 0 < last <= len(ledger.done) - ledger.begun:
        ledger.go_round(ledger.done[-last:])
    elif numbers and all(n in known for n in numbers) and known[numbers[-1]] == ledger.done[-1]:
        ledger.go_round([known[n] for n in numbers])


def _plan_unnumbered(ledger: Ledger, row: Row) -> None:
    """ "Next row", "Edging": goes on with the count when rows were counted before it."""
    label = row.label.lower()
    number: int | None = None
    if all(isinstance(item, Prose) for item in row.items):
        # nobody knows how many rows such words are
        ledger.uncounted = True
    elif row.kind == "edging" or label.startswith(("row", "rnd", "round")):
        # "Row 21a" is numbered beside the others
        pass
    elif ledger.last is not None:
        number = ledger.last + 1
    elif label.startswith(_FOLLOWS):
        number = 1
    ledger.add(row, number, None, row)
    if number is not None:
        ledger.last = number


def _plan_numbered(ledger: Ledger, row: Row, numbers: Sequence[int]) -> None:
    """Each row of a printed range; a very long one as a loop."""
    if len(numbers) > MAX_LISTED:
        ledger.plan.units.append(Loop([ledger.unit(row, numbers[0], None, row)], len(numbers)))
        ledger.know(row, numbers[0])
    else:
        for number in numbers:
            ledger.add(row, number, None, row, last=number == numbers[-1])
    ledger.last = numbers[-1]
