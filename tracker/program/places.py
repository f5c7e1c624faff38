"""Places: where the hands are in a piece, and the place after it and before it.

A place is a plain tuple (part, copy, row, aside, group, beat, single) whose order is the order of working:

    part    which part of the piece, from 0
    copy    which of several alike, from 1
    row     index of the row in the fabric, from 1; one past the last of its part for what is done at the end
    aside   0 in the row itself; −2, −1 for what is done before it (a foundation chain, stuffing)
    group   from 0; the number of groups is the count at the row's end
    beat    which pass of the group, from 0
    single  how many single stitches of the beat are done

Rows are never unrolled: the place after another costs one row's groups, in the ten-thousandth repeat as in the first.
"""

from bisect import bisect_left, bisect_right

from tracker.fabric.model import HIDDEN, Element, Fabric, Placed, WorkedRow
from tracker.notation.pattern import Aside, Pattern, Row, Setup
from tracker.problems import Problem, Severity, Source, Span
from tracker.program.joining import Joining
from tracker.program.parts import (
    JOINING,
    Part,
    asides_of,
    chains_of,
    ground_of,
    joining_at,
    noun_in,
    parts_of,
)
from tracker.program.parts import row_numbered as row_numbered
from tracker.program.row.breaths import breaths_of
from tracker.program.row.groups import Beat, Breath, Sort, Start, in_words, starts_of
from tracker.program.row.groups import Stride as Stride
from tracker.program.row.row_ends import Edging, called, sides_at
from tracker.program.row.squares import mesh_of, squares_of
from tracker.records import dataclass
from tracker.trade.said.speech import Speech
from tracker.trade.said.talk import is_talk

Place = tuple[int, int, int, int, int, int, int]


MISCOUNTED = "C201"  # the problem that a row makes another number than is printed behind it


@dataclass(frozen=True, slots=True)
class Mark:
    """What a place is known by when the pattern's text is no longer the same."""

    part: str | None
    copy: int
    row: int
    """Index of the row, from 1."""
    label: str
    """"Row 9"; empty between rows."""
    words: str
    """The row's own words, without its label."""
    passes: tuple[int, ...]
    elements_done: int


class Program:
    """A pattern as a walk from place to place. What it looks up once it remembers; nothing else changes."""

    def __init__(
        self, source: Source, pattern: Pattern, fabric: Fabric, problems: tuple[Problem, ...] = (),
        speech: Speech | None = None,
    ) -> None:  # fmt: skip
        self.source = source
        self.pattern = pattern
        self.fabric = fabric
        self.problems = problems
        self.speech = speech or Speech()
        """In whose words it is told."""
        self.mesh = mesh_of(fabric)
        """Chains of a window when the piece is filet."""
        self.parts = parts_of(pattern, fabric)
        self.noun = noun_in(pattern)
        self._asides = asides_of(pattern, fabric, self.parts)
        self._breaths: dict[int, tuple[WorkedRow, tuple[Breath, ...]]] = {}
        self._starts: dict[tuple[int, Stride], list[Start]] = {}
        self._squares: dict[int, tuple[bool, ...] | None] = {}
        self.printed: dict[int, Row] = {
            block.label_span.start: block for block in pattern.blocks if isinstance(block, Row)
        }
        """Rows as printed, by where their label begins: what a range says of itself."""
        errors = [problem for problem in problems if problem.severity is Severity.ERROR]
        self._miscounted = {problem.row for problem in errors if problem.code == MISCOUNTED}
        self._miscounted -= {problem.row for problem in errors if problem.code != MISCOUNTED}

    # -- what is where

    @property
    def told_uk(self) -> bool:
        """True when stitches are told by their UK names."""
        return self.pattern.uk if self.speech.uk is None else self.speech.uk

    @property
    def start(self) -> Place:
        """The first place of the piece."""
        return self._first_of(0, 1, self.parts[0].first) if self.parts else self.end

    @property
    def end(self) -> Place:
        """The place after everything."""
        return (len(self.parts), 1, self.fabric.length + 1, 0, 0, 0, 0)

    def part_start(self, part: int, copy: int = 1) -> Place:
        """The first place of a part, or of one more copy of it."""
        return self._first_of(part, copy, self.parts[part].first)

    def begins(self, place: Place) -> bool:
        """True at the first place of a part, or of one more copy of it."""
        return place[0] < len(self.parts) and place == self.part_start(place[0], place[1])

    def holds(self, place: tuple[int, ...]) -> bool:
        """True for an address that is a place of this program."""
        if len(place) != 7:
            return False
        part, copy, row, aside, group, beat, single = place
        if place == self.end:
            return True
        if not (0 <= part < len(self.parts) and 1 <= copy <= self.parts[part].copies):
            return False
        if not self.parts[part].first <= row <= self.parts[part].last + 1:
            return False
        if aside:
            return (
                -len(self._asides.get((part, row), ())) <= aside < 0
                and group == beat == 0
                and 0 <= single < self.singles((part, copy, row, aside, 0, 0, 0))
            )
        if row > self.parts[part].last:
            return False
        breaths = self.breaths(row)
        if group == len(breaths):
            return beat == single == 0
        return (
            0 <= group < len(breaths)
            and 0 <= beat < len(breaths[group].beats)
            and 0 <= single < breaths[group].beats[beat].singles
        )

    def part(self, place: Place) -> Part | None:
        """The part a place lies in, None at the end."""
        return self.parts[place[0]] if place[0] < len(self.parts) else None

    def placed(self, place: Place) -> Placed | None:
        """The row a place lies in; None before, between and after rows."""
        return self.fabric.row(place[2]) if place[0] < len(self.parts) and place[3] == 0 else None

    def aside(self, place: Place) -> Setup | Aside | None:
        """What is done at a place between rows, None in a row."""
        if place[3] == 0:
            return None
        return self._asides[(place[0], place[2])][place[3]]

    def asides(self, part: int, row: int) -> tuple[Setup | Aside, ...]:
        """What is done before a row of a part; behind its last row, what is done at its end."""
        return self._asides.get((part, row), ())

    def joining(self, place: Place) -> Joining | None:
        """How far many alike are joined to one; None elsewhere."""
        if place[3] == 0 or place[0] >= len(self.parts) or self.parts[place[0]].name != JOINING:
            return None
        found = self.asides(place[0], place[2])
        return joining_at(self.pattern, self.fabric, self.parts[0], found, len(found) + place[3])

    def breaths(self, row: int) -> tuple[Breath, ...]:
        """The groups of the row with this index."""
        worked = self.fabric.row(row).worked
        found = self._breaths.get(id(worked))
        if found is None:
            mesh = self.mesh if self.mesh and self.squares(row) is not None else None
            if self.is_followed(row):
                made = called(breaths_of(worked, mesh), sides_at(self.fabric, row))
            else:
                made = in_words(worked.row, self.source)
            found = worked, made
            self._breaths[id(worked)] = found
        return found[1]

    def is_followed(self, row: int) -> bool:
        """True when the words of a row are followed as they are understood, and not as they stand.

        Words that were understood and only disagree with the count printed behind them are followed, though the row is
        not claimed as counted.
        """
        placed = self.fabric.row(row)
        if placed.worked.understood:
            return True
        return (
            placed.printed in self._miscounted and not placed.worked.row.unread and bool(placed.worked.steps)
        )

    def breath(self, place: Place) -> Breath | None:
        """The group at a place; None where there is none."""
        if self.placed(place) is None:
            return None
        breaths = self.breaths(place[2])
        return breaths[place[4]] if place[4] < len(breaths) else None

    def edge(self, place: Place) -> Edging | None:
        """The row ends that the group at a place works along; None where it works along none."""
        breath = self.breath(place)
        if breath is None or breath.sort is not Sort.ENDS:
            return None
        before = self.breaths(place[2])[: place[4]]
        return sides_at(self.fabric, place[2])[sum(one.sort is Sort.ENDS for one in before)]

    def beat(self, place: Place) -> Beat | None:
        """The pass of the group at a place."""
        breath = self.breath(place)
        return None if breath is None else breath.beats[place[5]]

    def is_count(self, place: Place) -> bool:
        """True where a row is done and its count is due."""
        return self.placed(place) is not None and place[4] == len(self.breaths(place[2]))

    def squares(self, row: int) -> tuple[bool, ...] | None:
        """Squares of a row in the order made, True for a window; None when it is not filet."""
        if self.mesh is None:
            return None
        worked = self.fabric.row(row).worked
        if id(worked) not in self._squares:
            self._squares[id(worked)] = squares_of(worked, self.mesh) if self.is_followed(row) else None
        return self._squares[id(worked)]

    def singles(self, place: Place) -> int:
        """In how many single doings the doing at a place can be told."""
        aside = self.aside(place)
        if aside is not None:
            return chains_of(aside) or 1
        beat = self.beat(place)
        return 1 if beat is None else beat.singles

    def made(self, place: Place) -> tuple[Element, ...]:
        """What stands on the row in hand at a place, in the order made."""
        placed = self.placed(place)
        if placed is None:
            return ()
        beat = self.beat(place)
        elements = placed.worked.elements
        if beat is None:
            return elements
        return elements[: min(beat.made_from + place[6], beat.made_to)]

    def elements_done(self, place: Place) -> int:
        """Stitches and spaces of the row in hand that are done."""
        return sum(1 for element in self.made(place) if element.kind != HIDDEN)

    def ground(self, place: Place) -> int:
        """Index of the first row of the fabric that a part goes on from: its own, or that of the part it shapes."""
        return ground_of(place[0], self.parts, self.fabric, self._asides)

    def passes(self, place: Place) -> tuple[int, ...]:
        """Which pass of each repeat that is open at a place, outermost first, from 1."""
        breath = self.breath(place)
        if breath is None:
            return ()
        own = (place[5] + 1,) if len(breath.beats) > 1 else ()
        return (*(turn + 1 for _, turn, _ in breath.path), *own)

    def mark(self, place: Place) -> Mark | None:
        """What a place is known by in another text; None at the end."""
        part = self.part(place)
        if part is None:
            return None
        placed = self.placed(place)
        if placed is None:
            return Mark(part.name, place[1], place[2], "", "", (), 0)
        return Mark(
            part.name,
            place[1],
            place[2],
            placed.label,
            self.words(place[2]),
            self.passes(place),
            self.elements_done(place),
        )

    def words(self, row: int) -> str:
        """The words of a row on one line, without its label."""
        printed = self.fabric.row(row).worked.row
        return self.source.words(Span(printed.label_span.end, printed.span.end)).lstrip(":.- ")

    # -- going from place to place

    def next(self, place: Place, stride: Stride = Stride.GROUP) -> Place:
        """The place after this one; the end stays the end."""
        part, copy, row, aside, *rest = place
        if part >= len(self.parts):
            return self.end
        if aside:
            single = rest[2] + 1
            if stride is Stride.STITCH and single < self.singles(place):
                return (part, copy, row, aside, 0, 0, single)
            for further in self._told(part, copy, row):
                if further > aside:
                    return (part, copy, row, further, 0, 0, 0)
            return (part, copy, row, 0, 0, 0, 0) if row <= self.parts[part].last else self._after(part, copy)
        starts = self.starts(row, stride)
        at = bisect_right(starts, (rest[0], rest[1], rest[2]))
        if at < len(starts):
            return (part, copy, row, 0, *starts[at])
        return self._first_of(part, copy, row + 1)

    def behind(self, place: Place, row: int) -> Place:
        """The first place behind the row with this index, in the copy in hand."""
        return self._first_of(place[0], place[1], row + 1)

    def back(self, place: Place, stride: Stride = Stride.GROUP) -> Place:
        """The place before this one; the start stays the start."""
        part, copy, row, aside, *rest = place
        if part >= len(self.parts):
            return self._last_before(len(self.parts), stride)
        if aside:
            if rest[2] > 0:
                return (part, copy, row, aside, 0, 0, rest[2] - 1 if stride is Stride.STITCH else 0)
            earlier = [one for one in self._told(part, copy, row) if one < aside]
            if earlier:
                return self._at_aside(part, copy, row, earlier[-1], stride)
            return self._last_of(part, copy, row - 1, stride)
        starts = self.starts(row, stride)
        at = bisect_left(starts, (rest[0], rest[1], rest[2])) - 1
        if at >= 0:
            return (part, copy, row, 0, *starts[at])
        if told := self._told(part, copy, row):
            return self._at_aside(part, copy, row, told[-1], stride)
        return self._last_of(part, copy, row - 1, stride)

    def starts(self, row: int, stride: Stride) -> list[Start]:
        """Where a row's steps of this stride begin, in order; the last is its count, but for whole rows."""
        breaths = self.breaths(row)
        key = (id(self.fabric.row(row).worked), stride)
        found = self._starts.get(key)
        if found is None:
            found = list(starts_of(breaths, stride))
            self._starts[key] = found
        return found

    def row_start(self, place: Place, row: int) -> Place:
        """The first place in the row with this index, in the copy in hand when it belongs to the same part."""
        part = next((at for at, one in enumerate(self.parts) if one.first <= row <= one.last), 0)
        return (part, place[1] if part == place[0] else 1, row, 0, 0, 0, 0)

    def find(self, number: int, near: Place) -> int | None:
        """Index of the row with this number, in the part in hand if it has one; None where there is none."""
        return row_numbered(self.fabric, number, self.part(near))

    def _told(self, part: int, copy: int, row: int) -> list[int]:
        """What is told before a row, as places number it: talk only in the first copy."""
        found = self._asides.get((part, row), ())
        return [
            at - len(found)
            for at, one in enumerate(found)
            if copy == 1 or isinstance(one, Setup) or not is_talk(one.text)
        ]

    def _first_of(self, part: int, copy: int, row: int) -> Place:
        """The first place at or after a row's asides."""
        if part >= len(self.parts):
            return self.end
        if told := self._told(part, copy, row):
            return (part, copy, row, told[0], 0, 0, 0)
        if row <= self.parts[part].last:
            return (part, copy, row, 0, 0, 0, 0)
        return self._after(part, copy)

    def _after(self, part: int, copy: int) -> Place:
        if copy < self.parts[part].copies:
            return self._first_of(part, copy + 1, self.parts[part].first)
        return (
            self._first_of(part + 1, 1, self.parts[part + 1].first)
            if part + 1 < len(self.parts)
            else self.end
        )

    def _last_of(self, part: int, copy: int, row: int, stride: Stride) -> Place:
        """The last place of a row, or of what comes before it."""
        if row < self.parts[part].first:
            if copy > 1:
                return self._last_in(part, copy - 1, stride)
            return self._last_before(part, stride)
        return (part, copy, row, 0, *self.starts(row, stride)[-1])

    def _last_in(self, part: int, copy: int, stride: Stride) -> Place:
        after = self.parts[part].last + 1
        if told := self._told(part, copy, after):
            return self._at_aside(part, copy, after, told[-1], stride)
        return self._last_of(part, copy, after - 1, stride)

    def _last_before(self, part: int, stride: Stride) -> Place:
        return self._last_in(part - 1, self.parts[part - 1].copies, stride) if part > 0 else self.start

    def _at_aside(self, part: int, copy: int, row: int, aside: int, stride: Stride) -> Place:
        place: Place = (part, copy, row, aside, 0, 0, 0)
        return (*place[:6], self.singles(place) - 1) if stride is Stride.STITCH else place
