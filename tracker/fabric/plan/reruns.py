"""Rows that work others again: "Rep Rows 2-7", "last 2 rows 5 times more", "until 30 cm"."""

from collections.abc import Sequence

from tracker.fabric.checks.ranges import ranges
from tracker.fabric.plan.going_on import even_row, going_on
from tracker.fabric.plan.ledger import Known, Ledger
from tracker.fabric.plan.units import MAX_LISTED, Loop, Until
from tracker.notation.page.labelled.row_names import called
from tracker.notation.pattern import Row
from tracker.notation.rows.before.growing import changes_count
from tracker.notation.tree import Rerun
from tracker.problems import Label, Problem, Severity
from tracker.problems.headline import headline
from tracker.records import replace

_MOST = 10_000
"""Rows that one reference may name."""


def rerun(ledger: Ledger, row: Row, numbers: Sequence[int], again: Rerun) -> None:
    """Plans the rows that a row repeats; reports those that do not exist, and plans the row as not understood."""
    other = again.part
    if again.onward and other is None and len(numbers) != 1:
        # "Rep from Row 2 until there are 9 rows": in a row's own place it begins anew at the one named
        again = replace(again, rows=range(again.rows[0], max(again.rows[0], ledger.last or 0) + 1))
    piece: list[Known] = []
    if other is not None:
        if not again.rows and not again.last:
            piece = [] if numbers else ledger.piece(other, again.as_far)
            rows = numbers or (() if again.as_far is not None else ledger.numbers_of(other))
            again = replace(again, rows=range(1, len(piece) + 1) if piece else rows)
        if again.rows and again.rows[0] == 1:
            ledger.begin_as(other)
    if again.as_set:
        sources: list[Known] | Problem = going_on(ledger, row, again.as_set)
    else:
        sources = piece or _sources(ledger, row, numbers, again)
    if not sources:
        _unknown(ledger, row, numbers)
        return
    if isinstance(sources, Problem):
        ledger.plan.problems.append(sources)
        _unknown(ledger, row, numbers)
        return
    tail = [found for n in again.then if (found := ledger.lookup(n, row)) is not None]
    if again.stitches is not None and not numbers and again.up_to is None and not tail:
        _until(ledger, row, sources, again.stitches, again)
        return
    total = _total(ledger, row, numbers, again, sources, len(tail))
    # "Rep dec row 3 times more" behind rows that are the pattern: those still are
    shapes = bool(ledger.cycle) and not again.until and all(changes_count(s.row.items) for s in sources)
    turn = next((k for k, known in enumerate(ledger.cycle) if known.row is sources[0].row), None)
    if total == 1 == len(sources) and turn is not None:
        # "Next row: As Row 2" among rows that shape: the row behind it is the one behind Row 2
        ledger.cycle_at = len(ledger.done) - turn
    elif not (again.as_set or shapes) and not tail and again.every < 2 and (len(numbers) != 1 or again.until):
        ledger.go_round(sources)
    if total > MAX_LISTED:
        _loop(ledger, row, numbers, sources, total, tail)
        return
    sequence = [sources[k % len(sources)] for k in range(max(0, total - len(tail)))] + tail
    for k, source in enumerate(sequence):
        number: int | None = None
        if numbers:
            number = numbers[k] if k < len(numbers) else None
        elif again.part is not None and len(again.rows) == len(sequence):
            number = again.rows[k]
        elif again.part is not None and source.number:
            number = source.number
        elif ledger.last is not None:
            number = ledger.last + 1
        ledger.add(
            source.row,
            number,
            source.number or None,
            replace(row, rerun=replace(again, as_set=source.as_set)) if piece and source.as_set else row,
            last=k == len(sequence) - 1,
            cycle=len(sources) if again.as_set else source.cycle if piece else 0,
        )
        if number is not None:
            ledger.last = number
    if numbers:
        ledger.last = numbers[-1]


def _sources(ledger: Ledger, row: Row, numbers: Sequence[int], again: Rerun) -> list[Known] | Problem:
    """The rows that are meant, or what is wrong with naming them (R301)."""
    if again.called:
        named = ledger.named.get(again.called)
        return [] if named is None else [*_even_rows(row, again.every), named]
    if again.last:
        if again.last > len(ledger.done):
            there = "is 1" if len(ledger.done) == 1 else f"are {len(ledger.done) or 'none'}"
            says = f"repeats the last {again.last} rows, and there {there}"
            return _not_there(row, again, says, "not that many rows", "Name the rows that are meant.")
        return [*_even_rows(row, again.every), *ledger.done[-again.last :]]
    sources: list[Known] = []
    for number in again.rows[:_MOST]:
        found = ledger.lookup(number, row)
        if found is None and number in ledger.missing:
            return []
        if found is None or _comes_later(ledger, row, numbers, number):
            yet = " yet" if not numbers or number >= numbers[0] else ""
            says = f"repeats {called(row.kind, (number,))}, which does not exist{yet}"
            return _not_there(row, again, says, "no such row", _rows_so_far(ledger, row))
        sources.append(found)
    return sources


def _not_there(row: Row, again: Rerun, says: str, beside: str, help_text: str) -> Problem:
    """R301 at the words that name the rows."""
    return Problem(
        "R301", Severity.ERROR, headline(row.label, says), Label(again.span, beside), row.label, None, row.part,
        help_text,
    )  # fmt: skip


def _rows_so_far(ledger: Ledger, row: Row) -> str:
    """Which rows there are to be meant."""
    numbers = sorted(ledger.known.get((ledger.part, row.kind), {}))
    if not numbers or len(numbers) != numbers[-1] - numbers[0] + 1:
        return "Check the number of the row that is meant."
    there = called(row.kind, range(numbers[0], numbers[-1] + 1))
    return f"Before it there {'is' if len(numbers) == 1 else 'are'} {there}: name the one that is meant."


def _even_rows(row: Row, every: int) -> list[Known]:
    """The rows worked even between those that shape: three for "every 4th row"."""
    if every < 2:
        return []
    return [Known(even_row(row), 0)] * (every - 1)


def _comes_later(ledger: Ledger, row: Row, numbers: Sequence[int], number: int) -> bool:
    """True for a number from the row's own on that no part has worked yet."""
    return (
        bool(numbers)
        and number >= numbers[0]
        and not any(number in rows for (part, _), rows in ledger.known.items() if part != ledger.part)
        and number not in ledger.known.get((ledger.part, row.kind), {})
    )


def _so_many(ledger: Ledger, again: Rerun, sources: Sequence[Known]) -> int:
    """How many rows further there are so many of a name, or so many repeats, the last ending with a row; 0 if never."""
    name, many = again.so_many or ("", 0)
    counted = [source.row.called == name if name else k == 0 for k, source in enumerate(sources)]
    have = sum(known.row.called == name for known in ledger.done[ledger.begun :]) if name else 1
    ending = again.rows[-1] if again.ending is None and not name else again.ending
    if not any(counted) or not have < many <= MAX_LISTED or ending is not None and ending not in again.rows:
        return 0
    rows = 0
    while have < many:
        have += counted[rows % len(sources)]
        rows += 1
    while ending is not None and again.rows[(rows - 1) % len(sources)] != ending:
        rows += 1
    return rows


def _total(
    ledger: Ledger, row: Row, numbers: Sequence[int], again: Rerun, sources: Sequence[Known], tail: int
) -> int:
    """How many rows the reference works in all; an open number makes the plan open-ended."""
    length = len(sources)
    if again.until:
        ledger.plan.open_ended = True
    if numbers:
        ledger.plan.problems.extend(ranges(row, again, length, len(numbers), tail))
        return len(numbers)
    if again.until:
        return 0
    if again.up_to is not None:
        return max(0, again.up_to - (ledger.last or 0))
    if again.total_rows is not None:
        return again.total_rows
    if again.so_many is not None:
        return _so_many(ledger, again, sources)
    if again.times is not None:
        return length * again.times + tail
    return length + tail


def _loop(
    ledger: Ledger, row: Row, numbers: Sequence[int], sources: list[Known], total: int, tail: list[Known]
) -> None:
    """Rows worked too often to be listed."""

    def own(k: int) -> int | None:
        return numbers[0] + k if numbers else None

    units = [ledger.unit(s.row, own(k), s.number or None, row) for k, s in enumerate(sources)]
    times, rest = divmod(total - len(tail), max(1, len(sources)))
    ledger.plan.units.append(Loop(units, times))
    for s in [*sources[:rest], *tail]:
        ledger.add(s.row, None, s.number or None, row)
    for k, s in enumerate(sources):
        ledger.know(s.row, own(k), s.number)
    if numbers:
        ledger.last = numbers[-1]


def _until(ledger: Ledger, row: Row, sources: list[Known], stitches: int, again: Rerun) -> None:
    """Rows worked until so many stitches stand; only the fabric tells how many rows that takes."""
    start = ledger.last
    units = [
        ledger.unit(s.row, None if start is None else start + 1, s.number or None, row, last=False)
        for s in sources
    ]
    ledger.plan.units.append(Until(units, stitches, again.ending, again.ending_side))
    for s in sources:
        ledger.know(s.row, None, s.number or None)


def _unknown(ledger: Ledger, row: Row, numbers: Sequence[int]) -> None:
    """Rows that can't be worked, because what they repeat is not known: kept in their place."""
    empty = replace(row, unread=True, rerun=None, items=())
    for number in numbers[:MAX_LISTED] or (None,):
        ledger.add(empty, number, None, empty)
    if numbers:
        ledger.last = numbers[-1]
