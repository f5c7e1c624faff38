"""Rows worked until the piece is long enough, "Rep Rows 2 and 3 until piece measures 30 cm", as rows to be led through.

A pattern comes in with its fabric, in which such rows are listed once or not at all. The fabric goes out in which they
are worked over and over, more often than anybody needs, with the problems at the rows as they then stand; and for a row
of it, what it goes on until and whether it may be the last. What can't be worked so stays as it is.
"""

import re
from bisect import bisect_right
from collections.abc import Iterator
from functools import lru_cache
from typing import TYPE_CHECKING

from tracker.expressions import expression
from tracker.fabric.build import build
from tracker.fabric.faults.doubted import as_far_as_read
from tracker.fabric.model import Fabric, Placed, Stretch
from tracker.notation.pattern import Pattern, Row, Setup
from tracker.problems import Problem, Source
from tracker.records import dataclass, replace

if TYPE_CHECKING:
    from tracker.program.places import Program

MOST, LISTED = 6_000, 160
"""Rows that are worked of such a range: so many where all passes are alike, and are worked as one stretch; and so many
where each is another, because it grows."""


@dataclass(frozen=True, slots=True)
class GoingOn:
    """Rows that go on until the piece is long enough."""

    first: int
    last: int
    """Index of the last that is led, behind which the pattern goes on."""
    words: str
    """The pattern's own words: "Rep Rows 2 and 3 until piece measures 30 cm"."""
    may_end: bool
    """True when the row asked about may be the last."""
    is_told: bool
    """True at the first row that may be the last."""


@lru_cache(maxsize=2)
def open_ranges(program: "Program") -> tuple[tuple[int, int], ...]:
    """The first and the last row of all that go on until the piece is long enough."""
    out: list[list[int]] = []
    for first, stretch in zip(program.fabric.first, program.fabric.stretches, strict=True):
        for k, placed in enumerate(stretch.rows):
            start = placed.label_span.start
            block = program.printed.get(start)
            if block is None or not _is_open(block):
                continue
            last = first + k + len(stretch.rows) * (stretch.times - 1)
            if out and out[-1][2] == start:
                out[-1][1] = last
            else:
                out.append([first + k, last, start])
    return tuple((first, last) for first, last, _ in out if last > first)


@lru_cache(maxsize=256)
def going_on(program: "Program", row: int) -> GoingOn | None:
    """What a row goes on until; None for a row of a range whose end is known."""
    if not program.fabric.open_ended:
        return None
    first, last = next(((one, last) for one, last in open_ranges(program) if one <= row <= last), (0, 0))
    block = program.printed.get(program.fabric.row(row).label_span.start) if first else None
    if block is None or block.rerun is None:
        return None
    # what comes behind it faces one way: so do all rows that may be the last
    side = program.fabric.row(last).worked.side if goes_further(program, last) else None

    def may(at: int) -> bool:
        faces = program.fabric.row(at).worked.side
        return _may_end(program, block, first, at) and (None in (side, faces) or faces == side)

    may_end = may(row)
    told = may_end and not any(may(at) for at in range(first, min(row, first + _LOOKED_AT)))
    return GoingOn(first, last, program.source.words(block.rerun.span), may_end, told)


def goes_further(program: "Program", last: int) -> bool:
    """True where a row is worked onto the last of a range, and not onto a foundation or with yarn joined anew."""
    if last >= program.fabric.length:
        return False
    part = next((k for k, one in enumerate(program.parts) if one.first <= last + 1 <= one.last), -1)
    first, below = program.fabric.row(last + 1).worked, program.fabric.row(last).worked
    founded = any(isinstance(one, Setup) for one in program.asides(part, last + 1))
    return not founded and len(first.below) == len(below.elements)


_LOOKED_AT = 40
"""Rows in which the first that may be the last is looked for."""


def _may_end(program: "Program", block: Row, first: int, row: int) -> bool:
    """True for a row behind which such rows may end: where the pattern says so, or at the end of a pass."""
    placed, rerun = program.fabric.row(row), block.rerun
    assert rerun is not None
    if rerun.ending is not None:
        return placed.as_number == rerun.ending
    said = _ENDING.search(program.source.words(block.span))
    if said is not None and placed.worked.side is not None:
        return placed.worked.side == ("WS" if said[1][:1].lower() == "w" else "RS")
    return (row - first + 1) % (len(rerun.rows) or rerun.last or 1) == 0


_ENDING = expression(
    r"\bend(?:ing|ed)? (?:with|on|after)(?: having)? (?:worked )?(?:an? )?(WS|RS|wrong|right)", re.IGNORECASE
)


def opened(
    source: Source, pattern: Pattern, fabric: Fabric, problems: tuple[Problem, ...]
) -> tuple[Fabric, tuple[Problem, ...]]:
    """The fabric in which rows that go on until something is so are worked over and over, and its problems."""
    there = {placed.label_span.start for stretch in fabric.stretches for placed in stretch.rows}
    blocks = {
        block.label_span.start: block
        for block in pattern.blocks
        if isinstance(block, Row)
        and _is_open(block)
        and bool(block.numbers) == (block.label_span.start in there)
        and not _names_a_beginning(source, block)
    }
    if not blocks:
        return fabric, problems
    many = dict.fromkeys(blocks, MOST)
    for _ in range(2):
        wide = _worked(source, pattern, blocks, many)
        growing = set(_growing(wide, blocks))
        if not growing:
            break
        many |= dict.fromkeys(growing, LISTED)
    return _put_together(pattern, fabric, wide, blocks, problems) or (fabric, problems)


def _names_a_beginning(source: Source, block: Row) -> bool:
    """True for "Repeat from the 3rd row": that row is the first of several."""
    again = block.rerun
    return again is not None and len(again.rows) == 1 and _FROM.match(source.words(again.span)) is not None


def _is_open(block: Row) -> bool:
    """True for a row that works others again until something is so that no count tells."""
    again = block.rerun
    if again is None or not again.until or again.stitches is not None or again.up_to is not None:
        return False
    return again.total_rows is None and len(block.numbers) < 2 and not block.unread and not again.then


_FROM = expression(r"rep\w* from\b", re.IGNORECASE)


def _worked(source: Source, pattern: Pattern, blocks: dict[int, Row], many: dict[int, int]) -> Fabric:
    """The pattern with so many rows of each such range."""
    own: dict[int, Row] = {}
    for start, block in blocks.items():
        assert block.rerun is not None
        pass_rows = len(block.rerun.rows) or block.rerun.last or 1
        again = replace(block.rerun, until="", times=-(-many[start] // pass_rows), more=False)
        numbers = block.numbers and tuple(range(block.numbers[0], block.numbers[0] + many[start]))
        own[id(block)] = replace(block, rerun=again, numbers=numbers)
    wide = replace(pattern, blocks=tuple(own.get(id(block), block) for block in pattern.blocks))
    fabric, problems = build(wide)
    return as_far_as_read(wide, fabric, problems, source)[0]


def _growing(wide: Fabric, blocks: dict[int, Row]) -> Iterator[int]:
    """Where the label begins of those whose passes are not all alike."""
    for stretch in wide.stretches:
        start = stretch.rows[0].label_span.start
        if stretch.times > 1 and start in blocks:
            below, top = stretch.rows[0].worked.below, stretch.rows[-1].worked.elements
            if sorted(one.kind for one in below) != sorted(one.kind for one in top):
                yield start


def _put_together(
    pattern: Pattern, fabric: Fabric, wide: Fabric, blocks: dict[int, Row], problems: tuple[Problem, ...]
) -> tuple[Fabric, tuple[Problem, ...]] | None:
    """The rows as they were, with those further ones between them; None where they would be worked otherwise."""
    printed = {block.label_span.start: block for block in pattern.blocks if isinstance(block, Row)}
    before = iter(_singly(fabric))
    moved: dict[int, int] = {}
    out: list[Stretch] = []
    at = index = 1
    behind: set[str | None] = set()
    """Parts in which such rows were met: how many rows there are by then nobody knows."""
    for single in _singly(wide):
        placed = single.rows[0]
        start = placed.label_span.start
        known = moved.get(at - 1) is not None and start in blocks and bool(out) and _label(out[-1]) == start
        if start in blocks and (not blocks[start].numbers or known):
            if not all(one.worked.understood for one in single.rows):
                return None
            if not blocks[start].numbers:
                bare = _is_numbered_behind(pattern, blocks[start])
                again = blocks[start].rerun
                single = _numbered(single, out[-1] if out else None, bare, again.called if again else "")
        else:
            was = next(before, None)
            if was is None or not _alike(was, single):
                return None
            moved[at] = index - at
            at += was.length
            if single.times == was.times:
                single = was
            if placed.part in behind and start in printed and not printed[start].numbers:
                single = replace(single, rows=tuple(replace(one, number=None) for one in single.rows))
        if start in blocks:
            behind.add(placed.part)
        out.append(single)
        index += single.length
    if next(before, None) is not None:
        return None
    starts = sorted(moved)

    def there(old: int | None) -> int | None:
        nearest = starts[bisect_right(starts, old) - 1] if old is not None and starts else None
        return old if old is None or nearest is None else old + moved[nearest]

    moved_on = tuple(replace(one, index=there(one.index)) for one in problems)
    return Fabric(tuple(_joined(_with_bare_end(out, blocks))), True), moved_on


def _with_bare_end(singles: list[Stretch], blocks: dict[int, Row]) -> list[Stretch]:
    """The same with the last pass of each range called by the rows it is: it stands for whichever was the last."""
    out: list[Stretch] = []
    for at, single in enumerate(singles):
        out.append(single)
        start = _label(single)
        again = blocks[start].rerun if start in blocks else None
        if again is None or singles[at + 1 : at + 2] and _label(singles[at + 1]) == start:
            continue
        many = len(again.rows) or again.last or 1
        if single.times > 1:
            out[-1] = Stretch(single.rows, single.times - 1, single.step)
            out += [Stretch((placed,)) for placed in single.rows]
            many = len(single.rows)
        for nth in range(max(0, len(out) - many), len(out)):
            if _label(out[nth]) == start:
                out[nth] = Stretch(tuple(_bare(one, again.called) for one in out[nth].rows))
    return out


def _bare(placed: Placed, called: str) -> Placed:
    """A row without a number, by the name of the row it is: "Row 2", "Patt row"."""
    word = "Rnd" if placed.kind == "round" else "Row"
    of = f"{word} {placed.as_number}" if placed.as_number is not None else ""
    own = f"{called[:1].upper()}{called[1:]} {word.lower()}" if called else word
    return replace(placed, number=None, printed=of or own)


def _singly(fabric: Fabric) -> Iterator[Stretch]:
    """Each row, and each stretch that is worked several times."""
    for stretch in fabric.stretches:
        if stretch.times > 1:
            yield stretch
        else:
            yield from (Stretch((placed,)) for placed in stretch.rows)


def _joined(singles: list[Stretch]) -> Iterator[Stretch]:
    """The same with rows worked once in one stretch."""
    once: list[Placed] = []
    for single in singles:
        if single.times == 1:
            once.extend(single.rows)
            continue
        if once:
            yield Stretch(tuple(once))
            once = []
        yield single
    if once:
        yield Stretch(tuple(once))


def _label(single: Stretch) -> int:
    return single.rows[0].label_span.start


def _alike(was: Stretch, now: Stretch) -> bool:
    """True for the same rows, worked to the same counts."""
    return len(was.rows) == len(now.rows) and all(
        one.label_span == other.label_span
        and one.worked.makes == other.worked.makes
        and one.worked.understood == other.worked.understood
        for one, other in zip(was.rows, now.rows, strict=True)
    )


def _is_numbered_behind(pattern: Pattern, block: Row) -> bool:
    """True where rows of the part stand behind it that have numbers: those are not given to others."""
    return any(
        isinstance(other, Row)
        and other.part == block.part
        and other.numbers
        and other.span.start > block.span.start
        for other in pattern.blocks
    )


def _numbered(single: Stretch, before: Stretch | None, bare: bool, called: str) -> Stretch:
    """Further rows with numbers that go on from the row before; `bare`: by the names of the rows they are."""
    last = before.rows[-1] if before is not None else None
    number: int | None = None
    if before is not None and last is not None and last.part == single.rows[0].part and not bare:
        number = None if last.number is None else last.number + (before.times - 1) * before.step
    rows = [
        _bare(one, called) if number is None else replace(one, number=number + 1 + k)
        for k, one in enumerate(single.rows)
    ]
    return Stretch(tuple(rows), single.times, len(rows) if single.times > 1 else 0)
