"""The log: how long each row took, how fast each kind of stitch goes, and how long the rest will take.

Deeds with their times come in; times, paces and sentences go out. Time that was not worked is left out: a step that
took longer than a row may last is a rest. What is too little to go by is said to be a guess.
"""

from collections.abc import Iterable
from itertools import pairwise
from statistics import median, quantiles

from tracker.fabric.model import HIDDEN, SP, Element
from tracker.planning import time
from tracker.planning.yarn import of_element
from tracker.program.places import Place, Program
from tracker.records import dataclass
from tracker.session.record.progress import progress
from tracker.session.state import Session

ENOUGH = 5
"""So many timed groups of a kind before its pace is told."""
LATEST = 40
"""The rows a pace is taken from: hands get faster, and yarn changes."""


@dataclass(frozen=True, slots=True)
class Step:
    """One deed as the journal has it."""

    at_ms: int
    deed: str
    place: Place
    """The place after it."""


@dataclass(frozen=True, slots=True)
class RowTime:
    """How long a row took."""

    part: int
    copy: int
    row: int
    """Index, from 1."""
    label: str
    seconds: float
    """Worked, rests left out."""
    in_sc: float
    """Work that was timed, in single crochets."""
    ended_ms: int
    """When the last of what was timed was done."""
    whole: bool = True
    """False for a row that is not at its end yet."""


@dataclass(frozen=True, slots=True)
class KindTime:
    """How fast one kind of stitch goes."""

    kind: str
    seconds: float
    """For one, in the middle."""
    quick: float
    slow: float
    stitches: int
    """So many were timed."""


def rows_timed(program: Program, steps: Iterable[Step]) -> tuple[RowTime, ...]:
    """Each row that was worked, in the order of working, the latest last.

    Steps come in the journal's order: where two machines' work was merged, what each of them did stays together.
    """
    out: list[RowTime] = []
    for before, after in pairwise(steps):
        seconds = (after.at_ms - before.at_ms) / 1000
        made = made_by(program, before.place, after)
        in_sc = sum(map(of_element, made))
        if not made or not time.worked(seconds, in_sc):
            continue
        part, copy, row = before.place[:3]
        if out and (out[-1].part, out[-1].copy, out[-1].row) == (part, copy, row):
            last = out.pop()
            seconds, in_sc = seconds + last.seconds, in_sc + last.in_sc
        placed = program.fabric.row(row)
        there = after.place
        whole = there[:4] != before.place[:4] or len(program.made(there)) == len(placed.worked.elements)
        out.append(RowTime(part, copy, row, placed.label, seconds, in_sc, after.at_ms, whole))
    return tuple(out)


def made_by(program: Program, place: Place, after: Step) -> tuple[Element, ...]:
    """What was made by going on from a place; nothing for any other deed."""
    if after.deed != "next" or place[0] >= len(program.parts) or place[3] or not program.holds(place):
        return ()
    there = after.place
    if there[:4] == place[:4] and program.holds(there):
        return program.made(there)[len(program.made(place)) :]
    return program.fabric.row(place[2]).worked.elements[len(program.made(place)) :]


def kinds_timed(program: Program, steps: Iterable[Step]) -> tuple[KindTime, ...]:
    """The pace of each kind of stitch, from the groups that are all of that kind; the most worked first."""
    times: dict[str, list[tuple[float, int]]] = {}
    for before, after in pairwise(steps):
        seconds = (after.at_ms - before.at_ms) / 1000
        made = [
            one for one in made_by(program, before.place, after) if one.kind != HIDDEN and not one.turning
        ]
        kinds = {one.kind for one in made if one.kind != SP}
        if len(kinds) == 1 and time.worked(seconds, sum(map(of_element, made))):
            stitches = sum(1 for one in made if one.kind != SP)
            times.setdefault(kinds.pop(), []).append((seconds / stitches, stitches))
    out = []
    for kind, found in times.items():
        each = [seconds for seconds, _ in found]
        if len(each) >= ENOUGH:
            quick, _, slow = quantiles(each, n=4, method="inclusive")
            out.append(KindTime(kind, median(each), quick, slow, sum(many for _, many in found)))
    return tuple(sorted(out, key=lambda one: -one.stitches))


def pace(rows: tuple[RowTime, ...]) -> time.Pace:
    """The maker's pace by their latest rows; a guess while there are too few."""
    return time.pace_of(tuple((row.seconds, row.in_sc) for row in rows[-LATEST:] if row.in_sc >= 1))


def left_said(session: Session, rows: tuple[RowTime, ...]) -> str:
    """How long the rest of the row and of the piece will take, with its range."""
    now = progress(session)
    if session.place == session.program.end and not now.left:
        return "The piece is finished."
    if now.open_ended:
        mine = pace(rows)
        if not mine.rows:
            return "It goes on as long as you like, so nobody knows how long it takes."
        return f"It goes on as long as you like. A row takes about {time.spell(_middle_row(rows))}."
    return time.told(now.left, pace(rows))


def _middle_row(rows: tuple[RowTime, ...]) -> float:
    return median(row.seconds for row in rows[-LATEST:])
