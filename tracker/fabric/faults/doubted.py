"""Rows that are not accused, since not all the words they were made by were taken.

Words that were passed over, taken for a remark or for nothing at all, may have told of stitches. Where their row, or
one worked onto it, then comes out otherwise than it says, what is amiss may lie in them. So nothing is called wrong
there, up to the first row that makes the count it states; and the row that holds the words is not understood.

    Row 3: Chain up 2, turn, hdc in each st across. (24 hdc)     Row 3 has words that could not be read: “Chain up 2”
    Row 3: Ch 2, turn, hdc in each st across. (24 hdc)                                                   (mended)

A pattern, its fabric and the problems of working come in; both go out as far as the words bear them. Looked at only
where something is wrong.
"""

import re
from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence, Set

from tracker.fabric.faults.overheard import (
    ANOTHER_SIDE,
    BESIDE,
    GOES_ON,
    GROWTH,
    HOW_OFTEN,
    LIGHT,
    MOST_NUMBERS,
    NUMBERED,
    OF_CHAINS,
    OF_USE,
    OFTEN,
    PHRASE,
    PLAIN_REMARK,
    REFERENCES,
    REPEATS,
    ROWS_TOLD,
    TELLING,
    TURNED_ON,
    WORD,
    WORKED,
)
from tracker.fabric.faults.reaching import (
    along_edges,
    into_spaces,
    names_of,
    not_understood,
    once,
    proved,
)
from tracker.fabric.model import CH, Fabric, Placed, Unread
from tracker.notation.page.labelled.row_names import called
from tracker.notation.pattern import Pattern, Row, Setup
from tracker.notation.tree import (
    Chain,
    Group,
    Item,
    Join,
    Prose,
    Repeat,
    Say,
    Skip,
    Travel,
    Turning,
    Work,
)
from tracker.problems import Problem, Severity, Source, Span
from tracker.records import replace


def as_far_as_read(
    pattern: Pattern, fabric: Fabric, problems: tuple[Problem, ...], source: Source
) -> tuple[Fabric, tuple[Problem, ...]]:
    """The fabric with rows not understood whose words may have been misread, and the problems that are left."""
    wrong = {
        problem.index
        for problem in problems
        if problem.index is not None
        and problem.code.startswith("C")
        and problem.severity is not Severity.NOTE
    }
    astray = any(problem.code in REFERENCES and problem.severity is Severity.ERROR for problem in problems)
    if not wrong and not astray and not any(special.doubted for special in pattern.specials):
        return fabric, problems
    looked = _Looked(pattern, source)
    if astray:
        gaps = {problem.headline for problem in problems if problem.code == "R304"}
        problems = tuple(
            looked.as_referred(problem, gaps) for problem in problems if not looked.of_another_size(problem)
        )
    excused: set[int] = set()
    unread: dict[int, tuple[Unread, ...]] = {}
    doubt: tuple[int, tuple[Unread, ...]] | None = None
    shape, ever = doubt, doubt
    part: str | None = None
    for index, placed in once(fabric):
        below = placed.worked.below
        if all(element.kind == CH for element in below):
            founded = looked.foundation_of(placed)
            doubt = (index, founded) if founded else None
        if placed.part != part:
            part, shape = placed.part, None
        shape, ever = doubt or shape, doubt or ever
        row = placed.worked.row
        edges, spaces = along_edges(row), into_spaces(row.items)
        words, behind = looked.passed_over(placed), looked.told_behind(placed)
        if index in wrong:
            if words:
                doubt = (index, words)
            why = doubt or (ever if edges else shape if spaces else None)
            if why is not None:
                excused.add(index)
                unread.setdefault(*why)
            elif behind:
                # the count tells of what stands before it; what comes behind may have changed what stands
                doubt = (index, behind)
        elif placed.worked.unread:
            doubt = (index, ())
        elif proved(placed, looked.printed(placed)):
            doubt = None
            shape = None if spaces else shape
        elif words or behind:
            doubt = (index, words or behind)
            if any(True for _ in looked.partly_told(placed)):
                # what a stitch makes that is not wholly known is not claimed either, where no count bears it out
                unread.setdefault(index, words)
    if not excused and not unread:
        return fabric, problems
    _of_the_same_words(fabric, looked, unread)
    left = tuple(
        problem for problem in problems if problem.index not in excused or not problem.code.startswith("C")
    )
    return not_understood(fabric, {index: words for index, words in unread.items() if words}), left


def _of_the_same_words(fabric: Fabric, looked: "_Looked", unread: dict[int, tuple[Unread, ...]]) -> None:
    """Adds the other rows of a range worked as others are, whose words keep one of its rows from being understood."""
    words = {fabric.row(index).label_span: told for index, told in unread.items() if told}
    for index, placed in once(fabric) if words else ():
        told, printed = words.get(placed.label_span), looked.printed(placed)
        again = told and index not in unread and printed.rerun is not None
        if again and told and not (printed.stated and proved(placed, printed)):
            unread[index] = told


class _Looked:
    """The words of a pattern that nothing was made of."""

    def __init__(self, pattern: Pattern, source: Source) -> None:
        self.text = source.text
        self.sized = len(pattern.sizes) > 1
        self.partly = {special.name for special in pattern.specials if special.doubted}
        """Stitches of the pattern's own whose definition was not wholly taken in."""
        self.rows: dict[int, Row] = {}
        self.setups: dict[int, Setup] = {}
        """By where the label of the row behind them begins."""
        taken: list[Span] = []
        before: Setup | None = None
        for block in pattern.blocks:
            if isinstance(block, Row):
                self.rows[block.label_span.start] = block
                if before is not None:
                    self.setups[block.label_span.start] = before
                taken += [stated.span for stated in block.stated]
                if block.rerun is not None:
                    taken.append(block.rerun.span)
            before = block if isinstance(block, Setup) else None
            if isinstance(block, (Row, Setup)):
                taken += _taken(block.items, self.text)
        self.starts: list[int] = []
        self.ends: list[int] = []
        for span in sorted(taken, key=lambda span: span.start):
            if self.ends and span.start <= self.ends[-1]:
                self.ends[-1] = max(self.ends[-1], span.end)
            else:
                self.starts.append(span.start)
                self.ends.append(span.end)

    def of_another_size(self, problem: Problem) -> bool:
        """True for a gap between the rows of one size that the text fills for another: "Row 7 (L and XL only)"."""
        if problem.code != "R304" or not self.sized:
            return False
        at = problem.label.span.start
        near = [row for row in self.rows.values() if row.label_span.start <= at][-2:]
        if len(near) < 2 or not near[0].numbers or not near[1].numbers:
            return True
        missing = range(near[0].numbers[-1] + 1, near[1].numbers[0])
        told = {
            int(number) for hit in ROWS_TOLD.finditer(self.text) for number in re.findall(r"\d+", hit.group())
        }
        spans = [
            range(int(first), int(last) + 1)
            for hit in ROWS_TOLD.finditer(self.text)
            for first, last in re.findall(r"(\d+)\s*(?:-|–|to|through)\s*(\d+)", hit.group())
        ]
        return all(number in told or any(number in span for span in spans) for number in missing)

    def as_referred(self, problem: Problem, gaps: Set[str]) -> Problem:
        """A problem of numbers and references, as a note where the row before may say more, or one was not known."""
        if problem.code not in REFERENCES or problem.severity is not Severity.ERROR:
            return problem
        at = problem.label.span.start
        near = [row for row in self.rows.values() if row.label_span.start <= at][-2:]
        if problem.code == "R304" and len(near) == 2:
            before, row = near
            numbers = before.numbers and row.numbers and range(before.numbers[-1] + 1, row.numbers[0])
            between = Span(before.label_span.end, row.label_span.start)
            passed = (self.text[span.start : span.end] for span in self._of(before.items, self._body(before)))
            if self._begun(numbers or (), between) or any(map(GOES_ON.search, passed)):
                return replace(problem, severity=Severity.NOTE)
        elif problem.code == "R303" and len(near) == 2:
            before, row = near
            end = max((told.span.end for told in before.stated), default=before.span.end)
            # a gap right behind it tells that the number is a slip
            skipped = f"{called(row.kind, (row.numbers[-1] + 1,))} is missing" if row.numbers else ""
            slip = any(gap.startswith(skipped) for gap in gaps)
            if not slip and ANOTHER_SIDE.search(self.text, end, row.label_span.end):
                return replace(problem, severity=Severity.NOTE)
        elif problem.code == "R301" and near and near[-1].rerun is not None:
            known = {number for row in self.rows.values() for number in row.numbers[:MOST_NUMBERS]}
            numbers = [number for number in near[-1].rerun.rows[:MOST_NUMBERS] if number not in known]
            if self._begun(numbers, Span(0, near[-1].label_span.start)):
                return replace(problem, severity=Severity.NOTE)
        return problem

    def _begun(self, numbers: Sequence[int], within: Span) -> bool:
        """True where a line begins with one of the numbers as a row does: one that was not known for a row."""
        if not numbers:
            return False
        hits = NUMBERED.finditer(self.text, within.start, within.end)
        return any(int(hit[1] or hit[2]) in numbers for hit in hits)

    def printed(self, placed: Placed) -> Row:
        """The row as it is printed, which may only refer to the one that is worked."""
        return self.rows.get(placed.label_span.start, placed.worked.row)

    def passed_over(self, placed: Placed) -> tuple[Unread, ...]:
        """Words of a row, and of the one it repeats, that may tell of stitches its count tells of."""
        rows = dict.fromkeys((self.printed(placed), placed.worked.row))
        names = (f"works “{name}”" for name in self.partly_told(placed))
        return tuple(
            Unread(
                self._body(placed.worked.row), f"{why}, whose definition was not wholly understood", _DEFINE
            )
            for why in names
        ) or tuple(
            dict.fromkeys(
                Unread(span)
                for row in rows
                for span in self._of(row.items, _before_count(row, self._body(row)))
                if not self._only_restates(span, placed)
            )
        )

    def partly_told(self, placed: Placed) -> Iterator[str]:
        """Stitches that a row works, or is worked onto, and whose definition was not wholly taken in."""
        if self.partly:
            worked = {e.special or e.kind for e in (*placed.worked.elements, *placed.worked.below)}
            worked.update(names_of(placed.worked.row.items))
            yield from sorted(self.partly & worked)

    def _only_restates(self, span: Span, placed: Placed) -> bool:
        """True for words that say how many more there are each time, where the row makes as many more."""
        hit = GROWTH.match(self.text, span.start, span.end)
        if hit is None:
            return False
        more = placed.worked.stitches - sum(element.is_stitch for element in placed.worked.below)
        return more in (int(hit[1]), 2 * int(hit[1]))

    def told_behind(self, placed: Placed) -> tuple[Unread, ...]:
        """Such words that stand behind the count of a row."""
        row = self.printed(placed)
        body = self._body(row)
        behind = Span(_before_count(row, body).end, body.end)
        return tuple(Unread(span) for span in self._of(row.items, behind))

    def foundation_of(self, placed: Placed) -> tuple[Unread, ...]:
        """Such words of what was set up before a row."""
        setup = self.setups.get(placed.label_span.start)
        if setup is None:
            return ()
        # much is said there of yarn and hooks
        found = self._of(setup.items, setup.span)
        return tuple(
            Unread(span) for span in found if TELLING.search(self.text[span.start : span.end].lower())
        )

    def _body(self, row: Row) -> Span:
        """A row without its label."""
        label = row.label_span
        return Span(label.end, row.span.end) if label.end < row.span.end else row.span

    def _of(self, items: Sequence[Item], body: Span) -> Iterator[Span]:
        yield from (span for span in self._said(items) if body.start <= span.start < body.end)
        for start, end in self._gaps(body):
            for hit in PHRASE.finditer(self.text, start, end):
                words = hit.group().lower()
                beside = (
                    self.text[hit.start() - 1 : hit.start()] in "([{" and self.text[hit.end() :][:1] in ")]}"
                )
                told = [word for word in words.split() if word not in LIGHT]
                often = (
                    self.text[max(0, hit.start() - 3) : hit.start()].rstrip()[-1:] in tuple(")]}")
                    and set(words.split()) <= HOW_OFTEN
                )
                if TURNED_ON.match(self.text, hit.start()):
                    continue
                if not beside and not often and (len(told) > 1 or words.isdecimal()) and _tells(words):
                    yield Span(hit.start(), hit.end())

    def _said(self, items: Sequence[Item]) -> Iterator[Span]:
        """Words kept for a remark, and such as one thing was read from that seem to tell of more."""
        end = 0
        for item in items:
            runs_on = end and isinstance(item, Work) and not self.text[end : item.span.start].strip()
            if runs_on and self.text.startswith(("a ", "an "), item.span.start):
                yield item.span  # "3 pop a dc in the next st"
            end = item.span.end
            if isinstance(item, Say):
                words = self.text[item.span.start : item.span.end].lower()
                known = set(WORD.findall(words)) <= PLAIN_REMARK or item.kind not in ("words", "unsure")
                if item.kind in ("words", "unsure", "remark") and _tells(words, not known):
                    yield item.span
            elif isinstance(item, Prose) or self._strange(item):
                yield item.span
            elif isinstance(item, (Group, Repeat)):
                yield from self._said(item.items)

    def _strange(self, item: Item) -> bool:
        """True for words that one thing was read from and that seem to tell of more."""
        words = self.text[item.span.start : item.span.end].lower()
        if isinstance(item, Turning):
            strange = " ".join(set(WORD.findall(words)) - OF_CHAINS)
            return TELLING.search(strange) is not None and not words.endswith("made")
        if isinstance(item, (Group, Repeat, Say)):
            return False
        allowed = 2 if isinstance(item, Work) else isinstance(item, (Join, Travel))
        return len(WORKED.findall(words)) > allowed

    def _gaps(self, body: Span) -> Iterator[tuple[int, int]]:
        """What lies between the words that were taken."""
        at = body.start
        k = max(0, bisect_right(self.starts, at) - 1)
        while k < len(self.starts) and self.starts[k] < body.end:
            if self.starts[k] > at:
                yield at, self.starts[k]
            at = max(at, self.ends[k])
            k += 1
        if at < body.end:
            yield at, body.end


_DEFINE = "Told as patterns do, “shell: 5 dc in one st”, it would be counted."


def _before_count(row: Row, body: Span) -> Span:
    """The words of a row that its count tells of: up to the count, where no work is told behind it."""
    end = max((told.span.end for told in row.stated), default=body.end)
    works = [item.span for item in row.items if isinstance(item, (Work, Group, Repeat, Chain, Skip, Travel))]
    before = works and works[0].start < end <= body.end
    return Span(body.start, end) if before and all(span.start < end for span in works) else body


def _taken(items: Iterable[Item], text: str) -> Iterator[Span]:
    """The words that items were read from; of a repeat or a group those inside, where it goes, and how often."""
    for item in items:
        if isinstance(item, (Group, Repeat)):
            yield from _taken(item.items, text)
        if isinstance(item, Group):
            yield item.where.span
        elif not isinstance(item, Repeat):
            yield item.span
        else:
            if item.ending is not None:
                yield item.ending.span
            inside = [span.end for span in _taken(item.items, text)]
            often = Span(max([item.span.start, *inside]), item.span.end)
            for told in (often, *([item.told_at] if item.told_at is not None else ())):
                words = text[told.start : told.end]
                if REPEATS.match(words) or set(WORD.findall(words.lower())) <= OFTEN:
                    yield told


def _tells(words: str, strange: bool = False) -> bool:
    """True for words that may tell of stitches, as `strange` ones may whatever they say."""
    if words.startswith(BESIDE) or words.endswith(" made") or OF_USE.match(words):
        return False
    return strange or TELLING.search(words) is not None
