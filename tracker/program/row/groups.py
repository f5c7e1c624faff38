"""A group: what a maker does in one breath. The values, and the groups of a row whose words are not understood.

"Ch 1, sk 1, dc in next dc" is one group, "dc in next 8 dc" is one group with a count, and the passes of a short repeat
are the beats of one group. `breaths` makes them from the steps of a worked row.
"""

import re
from enum import Enum

from tracker.expressions import expression
from tracker.fabric.model import Step, WorkedRow
from tracker.notation.pattern import Row
from tracker.notation.tree import Item, Mark, Say, Skip, Turn, Which, Work
from tracker.problems import Source, Span
from tracker.records import dataclass

Start = tuple[int, int, int]
"""Group, beat and single within a row."""


class Stride(Enum):
    """How far one step goes."""

    STITCH = "stitch"
    GROUP = "group"
    REPEAT = "repeat"
    ROW = "row"


class Sort(Enum):
    """What kind of doing a group is."""

    TURNING = "turning chain"
    RUN = "run"
    """Stitches of one kind, one in each."""
    PIECES = "pieces"
    ENDS = "row ends"
    """Stitches along row ends: a beat for each of them."""
    JOIN = "join"
    WORDS = "words"
    """Words to be followed as they stand."""


@dataclass(frozen=True, slots=True)
class Beat:
    """One pass of a group."""

    steps: tuple[Step, ...]
    made_from: int
    """Index of the first element it makes, in the row."""
    made_to: int
    """End of them, excluded."""
    span: Span
    """Its words."""

    @property
    def singles(self) -> int:
        """In how many single doings it can be told: one for each element it makes, one at the least."""
        return max(1, self.made_to - self.made_from)


@dataclass(frozen=True, slots=True)
class Breath:
    """A group of a row: done in one breath, perhaps several times over."""

    sort: Sort
    beats: tuple[Beat, ...]
    path: tuple[tuple[int, int, int], ...] = ()
    """The repeats around it, outermost first: a number for the repeat, the pass from 0, passes in all."""

    @property
    def first(self) -> Beat:
        return self.beats[0]

    @property
    def span(self) -> Span:
        """All of its words."""
        start = min(beat.span.start for beat in self.beats)
        return Span(start, max(beat.span.end for beat in self.beats))


def begins_in_colour(step: Step) -> bool:
    """True for the colour a row begins with, "With A, ...": told as the row begins, and no step of its own."""
    return isinstance(step.item, Say) and step.item.kind == "colour" and step.made_to == 0


def begins_in_loop(worked: WorkedRow) -> Step | None:
    """The loop a row begins in, "BLO (sc, inc) × 3", where a repeat follows: told as the row begins; else None."""
    steps = [step for step in worked.steps[:3] if not begins_in_colour(step)]
    if len(steps) < 2 or not (isinstance(steps[0].item, Say) and steps[0].item.kind == "loop"):
        return None
    return steps[0] if steps[0].made_to == 0 and steps[0].path != steps[1].path else None


def told_at_the_start(step: Step, worked: WorkedRow) -> bool:
    """True for what is told with the row's name: the colour it begins in, the side that faces."""
    faces = isinstance(step.item, Say) and step.item.kind == "side" and step.made_to == 0
    return begins_in_colour(step) or faces and bool(worked.side)


def is_behind_the_end(item: object, row: Row) -> bool:
    """True for "Weave in ends" behind "Fasten off", and "Stuff firmly" behind the count: told when that was taken."""
    if not isinstance(item, Say):
        return False
    behind: list[Say] = []
    last: Item | None = None
    for last in reversed(row.items):
        if isinstance(last, Say):
            behind.append(last)
        elif not isinstance(last, Turn | Mark):
            break
    if any(one.kind == "fasten off" and one.span.start <= item.span.start for one in behind):
        return True
    if item.kind not in WAITS or not row.stated or last is None or isinstance(last, Say | Turn | Mark):
        return False
    count = row.stated[-1].span
    return last.span.end <= count.start and count.end <= item.span.start


WAITS = ("remark", "words", "marker")
"""Kinds of words that wait for the count they stand behind; a colour is changed before it."""


def skips_own(step: Step) -> bool:
    """True for "sk first st" that means the stitch under a turning chain that counts."""
    item = step.item
    return (
        isinstance(item, Skip)
        and step.at == step.after
        and item.where.which is Which.FIRST
        and item.where.many <= 1
    )


def told_before_its_first(first: Step, step: Step, worked: WorkedRow) -> bool:
    """True where one phrase tells two things of a stretch: "sc across, increasing 6 sts evenly spaced".

    Its increases are counted first, wherever they come: only the words themselves tell where.
    """
    one, two = first.item, step.item
    return (
        isinstance(one, Work)
        and isinstance(two, Work)
        and one.where.which is Which.NEXT
        and two.where.which is Which.EACH
        and worked.row.label_span.end <= two.span.start < one.span.start
        and 0 <= one.span.start - two.span.end < 4
    )


def in_words(row: Row, source: Source) -> tuple[Breath, ...]:
    """The phrases of a row as they are written: cut at commas, semicolons and full stops outside of brackets."""
    out: list[Breath] = []
    start, depth = row.label_span.end, 0
    end = min(row.span.end, len(source.text))
    counted = {at for one in row.stated for at in range(one.span.start, one.span.end)}
    for at in range(start, end + 1):
        if at in counted:
            if at - 1 not in counted and (span := _trimmed(source.text, start, at)) is not None:
                out.append(Breath(Sort.WORDS, (Beat((), 0, 0, span),)))
            start = at + 1
            continue
        letter = source.text[at] if at < end else "."
        depth += (letter in "([{") - (letter in ")]}")
        depth = max(0, depth)
        ends = letter in ",;" or letter == "." and not source.text[at + 1 : at + 2].strip()
        if at == end or ends and depth == 0:
            span = _trimmed(source.text, start, at)
            if span is not None:
                out.append(Breath(Sort.WORDS, (Beat((), 0, 0, span),)))
            start = at + 1
    if len(out) > 1 and _TURN.fullmatch(source.words(out[-1].span)):
        out.pop()  # told with the count, before which nobody is to turn
    return tuple(out)


_TURN = expression(r"turn(?: (?:the |your )?work)?", re.IGNORECASE)


def _trimmed(text: str, start: int, end: int) -> Span | None:
    """The span without the marks and blanks around it; None when nothing else is there."""
    while start < end and not (text[start].isalnum() or text[start] in "([{*"):
        start += 1
    while end > start and text[end - 1] in " \t\r\n:,;.([{–—-":
        end -= 1
    return Span(start, end) if any(letter.isalnum() for letter in text[start:end]) else None


def starts_of(breaths: tuple[Breath, ...], stride: Stride) -> list[Start]:
    """Where the steps of a row begin, in order; the last is its count, but for whole rows."""
    if stride is Stride.ROW:
        return [(0, 0, 0)]
    found: list[Start] = []
    around: tuple[int, int, int] | None = None
    for group, breath in enumerate(breaths):
        head = breath.path[0] if breath.path else None
        if stride is Stride.REPEAT:
            if head is None or head != around:
                found.append((group, 0, 0))
            around = head
            continue
        for number, beat in enumerate(breath.beats):
            found.extend(
                (group, number, single) for single in range(beat.singles if stride is Stride.STITCH else 1)
            )
    found.append((len(breaths), 0, 0))
    return found
