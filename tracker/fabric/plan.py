"""The order in which printed rows are really worked: ranges, "rep Rows 2-7", "and all even rows", parts.

Blocks of a pattern come in; units come out, each a printed row with the number it has this time, or rows that
repeat many times. References that don't hold are reported.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from tracker.notation.page.labels import called
from tracker.notation.tree import Aside, Pattern, Rerun, Row, Setup
from tracker.problems import Label, Problem, Severity, Span

MAX_LISTED = 4_000
"""Rows of one range that are listed one by one; longer ranges are worked as a loop."""


@dataclass(slots=True)
class Unit:
    """One row to be worked."""

    row: Row
    """The printed row whose words are worked."""
    number: int | None
    as_number: int | None
    kind: str
    printed: str
    label_span: Span
    part: str | None
    first: bool = False
    """True for the first row of its part."""
    side: str | None = None
    extra: Row | None = None
    """The row that refers to `row`, with its own counts and remarks."""
    last_of_range: bool = True
    """True for the row that the counts printed for a range hold at."""


@dataclass(slots=True)
class Loop:
    """Rows worked over and over, too often to be listed."""

    units: list[Unit]
    times: int


@dataclass(slots=True)
class Plan:
    """Everything to be worked, in order."""

    units: list[Unit | Loop | Setup | Aside] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    open_ended: bool = False


@dataclass(slots=True)
class _Known:
    """What a number stands for."""

    row: Row
    number: int


def plan_of(pattern: Pattern) -> Plan:
    """The plan of a pattern."""
    planner = _Planner(pattern)
    for block in _ordered(pattern.blocks):
        planner.block(block)
    return planner.plan


def _ordered(blocks: tuple[Setup | Row | Aside, ...]) -> list[Setup | Row | Aside | tuple[Row, int]]:
    """Blocks in working order: rows whose numbers interleave ("Rows 5 and 7", "all even rows") are put between others."""
    out: list[Setup | Row | Aside | tuple[Row, int]] = []
    run: list[Row | Aside] = []

    def flush() -> None:
        rows = [r for r in run if isinstance(r, Row)]
        mixed = any(
            r.alternate or (len(r.numbers) > 1 and r.numbers[-1] - r.numbers[0] != len(r.numbers) - 1)
            for r in rows
        )
        descending = any(a.numbers[-1] > b.numbers[0] for a, b in zip(rows, rows[1:], strict=False))
        if not mixed or len(rows) < 2 and not any(r.alternate for r in rows):
            if mixed and rows and len(rows[0].numbers) > 1:
                pass
            out.extend(run)
            run.clear()
            return
        del descending
        placed: dict[int, Row] = {}
        for r in rows:
            if not r.alternate:
                for n in r.numbers[:100_000]:
                    placed.setdefault(n, r)
        last = max(placed, default=0)
        for r in rows:
            if r.alternate:
                start = r.numbers[0]
                placed.setdefault(start, r)
                end = max(last, start)
                for n in range(start, end + 2, 2):
                    if n > end and n - 1 not in placed:
                        break
                    if n <= end:
                        placed.setdefault(n, r)
        asides = [r for r in run if isinstance(r, Aside)]
        previous: Row | None = None
        for n in sorted(placed):
            r = placed[n]
            contiguous = not r.alternate and r.numbers[-1] - r.numbers[0] == len(r.numbers) - 1
            if contiguous:
                if r is not previous:
                    out.append(r)
            else:
                out.append((r, n))
            previous = r
        out.extend(asides)
        run.clear()

    for block in blocks:
        if isinstance(block, Row) and block.numbers:
            if (
                run
                and isinstance(last := next((r for r in reversed(run) if isinstance(r, Row)), None), Row)
                and (last.part != block.part or last.kind != block.kind or block.numbers[0] == 1)
            ):
                flush()
            run.append(block)
        elif isinstance(block, Aside) and run:
            run.append(block)
        else:
            flush()
            out.append(block)
    flush()
    return out


class _Planner:
    def __init__(self, pattern: Pattern) -> None:
        self.pattern = pattern
        self.plan = Plan()
        self.known: dict[tuple[str | None, str], dict[int, _Known]] = {}
        self.all_known: dict[int, _Known] = {}
        self.done: list[_Known] = []
        self.part: str | None = None
        self.key: tuple[str | None, str] = (None, "row")
        self.last: int | None = None
        self.first = True
        self.section = 0
        self.seen: dict[tuple[int, str | None, str, int], Row] = {}
        self.labelled = 0

    def problem(
        self,
        code: str,
        row: Row,
        span: Span,
        headline: str,
        help_text: str,
        label: str = "",
        severity: Severity = Severity.ERROR,
    ) -> None:
        self.plan.problems.append(
            Problem(code, severity, headline, Label(span, label), row.label, None, row.part, help_text)
        )

    def block(self, block: Setup | Row | Aside | tuple[Row, int]) -> None:
        if isinstance(block, Setup):
            self.plan.units.append(block)
            self.first = True
            if self.last is not None:
                self.section += 1
            return
        if isinstance(block, Aside):
            self.plan.units.append(block)
            return
        if isinstance(block, tuple):
            row, number = block
            numbers: Sequence[int] = (number,)
        else:
            row, numbers = block, block.numbers
        if row.part != self.part:
            self.part = row.part
            self.first = True
            self.section += 1
            if not numbers or self.last is None or numbers[0] <= self.last:
                self.last = None
        kind = row.kind
        if numbers and numbers[0] == 1 and self.last is not None:
            self.section += 1
            self.first = self.first or True
        self._numbering(row, numbers, isinstance(block, tuple))
        if row.rerun is not None:
            self._rerun(row, numbers, row.rerun)
            return
        if not numbers:
            number = (
                (self.last or 0) + 1
                if self.last is not None or row.label.lower().startswith(("next", "work"))
                else None
            )
            if (
                not row.label.lower().startswith(("next", "work", "inc", "dec", "last", "final", "foll"))
                and row.label[:1].isalpha()
                and self.last is None
            ):
                number = None
            self._add(row, number, None, row)
            if number is not None:
                self.last = number
            return
        if len(numbers) > MAX_LISTED:
            units = [self._unit(row, numbers[0], None, row)]
            self.plan.units.append(Loop(units, len(numbers)))
            self._know(row, numbers[0])
            self.last = numbers[-1]
            return
        for number in numbers:
            self._add(row, number, None, row, last=number == numbers[-1])
        self.last = numbers[-1]
        del kind

    def _numbering(self, row: Row, numbers: Sequence[int], single: bool) -> None:
        """Reports numbers that come twice or jump."""
        if not numbers:
            return
        first = numbers[0]
        if first == 1 or self.last is None:
            self.first = self.first or first == 1
            if first == 1:
                self.seen = {}
        key = (self.section, row.part, row.kind, first)
        if self.last is not None and first != 1 and not single:
            if first <= self.last and key in self.seen or first <= self.last:
                repeated = first if first == numbers[-1] else first
                self.problem(
                    "R303",
                    row,
                    row.label_span,
                    f"{called(row.kind, (repeated,))} comes twice",
                    "Number the rows on from the one before; check whether one of them is there by mistake.",
                    "numbered again",
                )
            elif first > self.last + 1 and not (self.pattern.sizes and len(self.pattern.sizes) > 1):
                missing = tuple(range(self.last + 1, min(first, self.last + 100)))
                self.problem(
                    "R304",
                    row,
                    row.label_span,
                    f"{called(row.kind, missing)} {'is' if len(missing) == 1 else 'are'} missing before {row.label}",
                    "Find the missing row, or number the rows on.",
                    "the numbers jump",
                )
        for number in numbers[:10_000]:
            self.seen[(self.section, row.part, row.kind, number)] = row

    def _know(self, row: Row, number: int | None, source: int | None = None) -> None:
        known = _Known(row, source if source is not None else (number or 0))
        if number is not None:
            self.known.setdefault((self.part, row.kind), {})[number] = known
            self.all_known[number] = known
        self.done.append(known)

    def _unit(
        self, row: Row, number: int | None, as_number: int | None, shown: Row, last: bool = True
    ) -> Unit:
        first, self.first = self.first, False
        kind = shown.kind if shown.numbers or shown is row else row.kind
        return Unit(
            row,
            number,
            as_number,
            kind,
            shown.label,
            shown.label_span,
            shown.part,
            first,
            shown.side,
            shown if shown is not row else None,
            last,
        )

    def _add(
        self, row: Row, number: int | None, as_number: int | None, shown: Row, last: bool = True
    ) -> None:
        self.plan.units.append(self._unit(row, number, as_number, shown, last))
        self._know(row, number, as_number)

    def _lookup(self, number: int, row: Row) -> _Known | None:
        for kind in (row.kind, "row", "round"):
            found = self.known.get((self.part, kind), {}).get(number)
            if found is not None:
                return found
        return self.all_known.get(number)

    def _rerun(self, row: Row, numbers: Sequence[int], rerun: Rerun) -> None:
        """Works other rows again."""
        if rerun.last:
            if rerun.last > len(self.done):
                self.problem(
                    "R301",
                    row,
                    rerun.span,
                    f"{row.label} repeats the last {rerun.last} rows, and there are {len(self.done)}",
                    "Name the rows that are meant.",
                    "not that many rows",
                )
                self._unknown(row, numbers)
                return
            sources = self.done[-rerun.last :]
            if rerun.last == 1 and len(self.done) >= 1:
                sources = self.done[-1:]
        else:
            sources = []
            for number in rerun.rows[:10_000]:
                found = self._lookup(number, row)
                if found is None or (
                    numbers
                    and number >= numbers[0]
                    and not any(number in rows for (part, _), rows in self.known.items() if part != self.part)
                    and number not in self.known.get((self.part, row.kind), {})
                ):
                    self.problem("R301", row, rerun.span, f"{row.label} repeats {called(row.kind, (number,))}, which does not exist{' yet' if not numbers or number >= numbers[0] else ''}",
                                 "Check the number of the row that is meant.", "no such row")  # fmt: skip
                    self._unknown(row, numbers)
                    return
                sources.append(found)
        tail = [found for n in rerun.then if (found := self._lookup(n, row)) is not None]
        length = len(sources)
        if rerun.until and not numbers:
            self.plan.open_ended = True
            total_rows = 0
        elif numbers:
            total_rows = len(numbers)
            if rerun.until:
                self.plan.open_ended = True
            self._check_length(row, rerun, length, total_rows, len(tail), numbers)
        elif rerun.total_rows is not None:
            total_rows = rerun.total_rows
        elif rerun.times is not None:
            total_rows = length * rerun.times + len(tail)
        else:
            total_rows = length if rerun.last == 0 or True else 0
            if "pattern" in self._words(rerun) and rerun.times is None:
                self.plan.open_ended = True
                total_rows = 0
        if total_rows > MAX_LISTED:
            units = [
                self._unit(s.row, (numbers[0] + k) if numbers else None, s.number or None, row)
                for k, s in enumerate(sources)
            ]
            times, rest = divmod(total_rows, max(1, length))
            self.plan.units.append(Loop(units, times))
            for s in sources[:rest]:
                self._add(s.row, None, s.number or None, row)
            for k, s in enumerate(sources):
                self._know(s.row, (numbers[0] + k) if numbers else None, s.number)
            self.last = numbers[-1] if numbers else self.last
            return
        sequence = [sources[k % length] for k in range(max(0, total_rows - len(tail)))] + tail
        for k, source in enumerate(sequence):
            if numbers:
                number: int | None = numbers[k] if k < len(numbers) else None
            else:
                number = (self.last + 1) if self.last is not None else None
            self._add(source.row, number, source.number or None, row, last=k == len(sequence) - 1)
            if number is not None:
                self.last = number
        if numbers:
            self.last = numbers[-1]

    def _words(self, rerun: Rerun) -> str:
        return "pattern" if rerun.until == "pattern" else ""

    def _check_length(
        self, row: Row, rerun: Rerun, length: int, total: int, tail: int, numbers: Sequence[int]
    ) -> None:
        body = total - tail
        if length > 1 and body % length and not rerun.until and not (rerun.then):
            if total > length or total < length:
                self.problem("R302", row, row.label_span, f"{row.label} are {total} rows, the repeat is {length} rows",
                             "Give a range that holds the repeat a whole number of times, or say with which row it ends.", f"{total} rows")  # fmt: skip
                return
        if rerun.times is not None and length:
            worked = length * rerun.times
            if (
                worked + tail != total
                and worked != total
                and not (rerun.more and worked == total)
                and not (not rerun.more and length * (rerun.times + 1) == total)
                and not (length == 1 and rerun.times == 1)
            ):
                self.problem("R302", row, rerun.span, f"{row.label} {'are' if total != 1 else 'is'} {total} row{'s' if total != 1 else ''}, and the repeat worked {rerun.times} times is {worked}",
                             "Check the range and how often the rows are repeated.", f"{worked} rows")  # fmt: skip
        del numbers

    def _unknown(self, row: Row, numbers: Sequence[int]) -> None:
        """Rows that can't be worked, because what they repeat is not known: kept in their place."""
        from dataclasses import replace

        empty = replace(row, unread=True, rerun=None, items=())
        for number in numbers[:MAX_LISTED] or (None,):
            self._add(empty, number, None, empty)
        if numbers:
            self.last = numbers[-1]
